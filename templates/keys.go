package templates

import (
	"fmt"
	"strings"

	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// keys are the names by which other sheets call the rows of one sheet.
type keys struct {
	names  []string // as first spelt, in the order of the workbook
	known  map[string]bool
	unread bool // the sheet could not be read, or is wanting and told of
	lost   bool // the name of a row was refused and told of: it may be the one that is called
}

func (k *keys) add(name string) {
	if f := rates.Key(name); f != "" && !k.known[f] {
		k.known[f] = true
		k.names = append(k.names, name)
	}
}

// keysOf is the keys of a sheet that is there.
func (r *reader) keysOf(o Outline) *keys {
	if r.keys[o.Name] == nil {
		r.keys[o.Name] = &keys{known: map[string]bool{}}
	}
	return r.keys[o.Name]
}

// call is a name in one sheet that must be a key in another.
type call struct {
	at      origin.Cell
	name    string
	sheet   string   // where it is looked up
	besides []string // words that may stand in place of a key
}

// call puts down the names in a cell, to be looked up when all is read. Which
// sheet they belong to may hang on a choice in the same row.
func (r *reader) call(h Heading, l *Line) {
	e := l.entries[h.Name]
	for _, ref := range h.Refers {
		if ref.If != "" && (!l.Given(ref.If) || l.entries[ref.If].Text != ref.Is) {
			continue
		}
		names := e.Keys
		if h.Form != Keys && e.Text != "" {
			names = []string{e.Text}
		}
		for _, n := range names {
			r.calls = append(r.calls, call{e.At, n, ref.Sheet, h.Choices})
		}
	}
}

// lookUp puts down every name that its sheet does not have. Where the whole
// sheet is not there it says so once for each sheet that calls it, unless that
// has been said of the sheet itself. A bill that others price has no use for
// price sheets, nor for sheets that are not there.
func (r *reading) lookUp() {
	absent := map[string]bool{}
	for _, c := range r.calls {
		k := r.keys[c.sheet]
		switch {
		case anyOf(c.besides, c.name) || k != nil && (k.unread || k.known[rates.Key(c.name)]):
			continue
		case r.unpriced && (k == nil || unknownKey(c.sheet) == problem.PriceKeyUnknown):
			continue
		case k == nil && (absent[c.at.Sheet+"|"+c.sheet] || required(c.sheet)):
			continue
		case k == nil:
			absent[c.at.Sheet+"|"+c.sheet] = true
			r.found.Add(problem.Problem{Code: unknownKey(c.sheet), At: c.at,
				Text: fmt.Sprintf("%q is looked up in the sheet %q, which is not there", c.name, c.sheet)})
			continue
		}
		text := fmt.Sprintf("%q is not in the sheet %q", c.name, c.sheet)
		meant := nearest(c.name, k.names)
		if k.lost && meant == "" {
			continue
		}
		if len(c.besides) > 0 {
			text += ", nor is it one of " + listed(c.besides)
		}
		r.found.Add(problem.Problem{Code: unknownKey(c.sheet), At: c.at, Text: text, Near: meant})
	}
}

// required reports a sheet that no job can do without.
func required(sheet string) bool {
	o, _ := outline(sheet)
	return o.Required
}

// unknownKey is the code of a name that a sheet lacks. Names in price sheets
// have one of their own: a bill without prices has no use for them.
func unknownKey(sheet string) problem.Code {
	if o, ok := outline(sheet); ok && o.Prices {
		return problem.PriceKeyUnknown
	}
	return problem.KeyUnknown
}

func anyOf(list []string, name string) bool {
	for _, w := range list {
		if alike(w, name) {
			return true
		}
	}
	return false
}

// onlyOnce finds a row whose key another row bears already: by the headings
// the sheet says may stand once together, and by Ref over all sheets that have one.
func (r *reader) onlyOnce(o Outline, l *Line, once map[string]origin.Cell) {
	if o.Refs {
		first := l.entries[o.Headings[0].Name]
		if k := rates.Key(first.Text); k != "" {
			if at, twice := r.refs[k]; twice {
				r.say(problem.KeyTwice, first.At, fmt.Sprintf("the Ref %q stands already in %s; every row needs its own", first.Text, near(at, first.At)), "")
			} else {
				r.refs[k] = first.At
			}
		}
	}
	if len(o.Once) == 0 || l.entries[o.Once[0]].bad {
		return
	}
	var parts []string
	for _, h := range o.Once {
		e := l.entries[h]
		if e.bad {
			return
		}
		part := rates.Key(e.Text) + e.Length.Metres().String()
		if !e.Day.IsZero() {
			part = e.Day.Format(isoDay)
		}
		parts = append(parts, part)
	}
	k, first := strings.Join(parts, "|"), l.entries[o.Once[0]]
	at, twice := once[k]
	if !twice {
		once[k] = first.At
		return
	}
	text := fmt.Sprintf("%q stands already in %s; every row needs its own", first.Text, near(at, first.At))
	if len(o.Once) > 1 {
		text = fmt.Sprintf("%q stands already in %s with the same %s", first.Text, near(at, first.At), both(o.Once[1:]))
	}
	r.say(problem.KeyTwice, first.At, text, "")
}

// near is a cell as it is named from another: by its address alone where both
// are in one sheet.
func near(at, from origin.Cell) string {
	if at.Book == from.Book && at.Sheet == from.Sheet {
		return at.Address()
	}
	at.Book = ""
	return at.String()
}
