package quotes

import (
	"cmp"
	"fmt"
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// match finds the line of the bill that each line of the quote is, by its ID.
// On a form a line whose ID is gone or unknown is known again where its
// description, unit and quantity are those of one that is missing. What is of
// no line stands in extra, what is of a whole section or part in lumps.
func (e *examination) match() {
	place := make(map[string]int, len(e.sent.Lines))
	last := map[Part]int{} // line of the bill that what is put in stands behind
	for i := len(e.sent.Lines) - 1; i >= 0; i-- {
		l := &e.sent.Lines[i]
		place[idKey(l.ID)] = i
		if _, ok := last[l.Part]; !ok || !e.quote.Lump {
			last[l.Part] = i
		}
	}
	delete(place, "")
	sections := map[string]bool{}
	for _, s := range e.sent.Sections {
		sections[rates.Key(s.Section)] = true
	}
	if !e.quote.Lump { // before the first of its part, until one is found
		for p := range last {
			last[p]--
		}
	}
	type stray struct {
		o     *Offered
		after int
	}
	var strays, twice []stray
	for n := range e.quote.Lines {
		o := &e.quote.Lines[n]
		if e.quote.Lump && o.ID == "" {
			if of := lumpOf(o, sections); of != "" {
				e.lumps[of] = e.lumps[of].Add(o.asks())
				continue
			}
		}
		i, ok := place[idKey(o.ID)]
		switch {
		case ok && e.cells[i].Offered == nil:
			e.cells[i].Offered = o
			if !e.quote.Lump {
				last[e.sent.Lines[i].Part] = i
			}
		case ok:
			twice = append(twice, stray{o, i})
		default:
			at, ok := last[o.Part]
			if !ok {
				at = len(e.sent.Lines) - 1
			}
			strays = append(strays, stray{o, at})
		}
	}
	missing := e.missing()
	for _, s := range strays {
		key := alike(s.o.Fixed)
		if at := missing[key]; len(at) > 0 {
			i := at[0]
			missing[key] = at[1:]
			e.cells[i].Offered = s.o
			e.altered++
			e.ofLine(i, Finding{Kind: FormChanged,
				Text: fmt.Sprintf("line number reads %q instead of %q; known again by description, unit and quantity", s.o.ID, e.sent.Lines[i].ID)})
			continue
		}
		e.extra, e.puts = append(e.extra, s.o), append(e.puts, put{after: s.after})
	}
	for _, s := range twice {
		e.again(s.o, s.after)
	}
}

// lumpOf is the section or part that a row of a letter is the sum of, or blank
// where it is of neither: of a section the bill has not got, or with words of its own.
func lumpOf(o *Offered, sections map[string]bool) string {
	if key := rates.Key(o.Section); key != "" {
		if sections[key] {
			return key
		}
		return ""
	}
	if says := rates.Key(o.Description); says != "" && says != string(o.Part) {
		return ""
	}
	return string(o.Part)
}

// missing are the lines of the bill that a form has not got, by what they say.
func (e *examination) missing() map[string][]int {
	out := map[string][]int{}
	if e.quote.Lump {
		return out
	}
	for i := range e.cells {
		if e.cells[i].Offered == nil {
			key := alike(e.sent.Lines[i].Fixed)
			out[key] = append(out[key], i)
		}
	}
	return out
}

// again tells of a line that stands there once more: the first counts, and
// what this one asks counts as put in.
func (e *examination) again(o *Offered, i int) {
	e.altered++
	asks := o.asks()
	f := Finding{Kind: LineTwice, At: o.At, Worth: asks, Text: "stands there twice; the first counts",
		Query: fmt.Sprintf("Please confirm which of the two lines for %s is meant.", item(&e.sent.Lines[i]))}
	if !asks.IsZero() {
		e.extra, e.puts = append(e.extra, o), append(e.puts, put{after: i, twice: true})
		f.Text = fmt.Sprintf("stands there twice; the first counts, and the %s of the other as put in", asks.Grouped())
	}
	e.ofLine(i, f)
}

// absent is a line of the bill that is not in the quote at all.
func (e *examination) absent(i int) {
	l, c := &e.sent.Lines[i], &e.cells[i]
	switch {
	case !e.quote.Lump:
		c.State = Silent
		e.altered++
		e.ofLine(i, Finding{Kind: LineDeleted, Text: fmt.Sprintf("line %q, %q, is not in the quote", l.ID, l.says()),
			Query: fmt.Sprintf("Please give your price for %s, which is missing from your form.", item(l))})
	case e.within(l):
		c.State = WithinLump
	default:
		c.State = Silent
		e.unpriced(i)
	}
}

// within reports a line that a letter prices in a sum for its section, its part or the whole.
func (e *examination) within(l *Line) bool {
	if !e.quote.Lump || !l.InTotal() {
		return false
	}
	_, part := e.lumps[string(l.Part)]
	_, section := e.lumps[rates.Key(l.Section)]
	if part || section && l.Part == Work {
		return true
	}
	if e.beyond() {
		e.unsaid++
		return true
	}
	return false
}

// pricedApart adds up what a letter prices apart of the whole, what the firm
// put in not counted as a price of anything asked.
func (e *examination) pricedApart() {
	if !e.quote.Lump {
		return
	}
	price := func(m money.Amount, asked bool) {
		e.apart.Amount = e.apart.Amount.Add(m)
		e.apart.Known = e.apart.Known || asked && !m.IsZero()
	}
	for i := range e.cells {
		if o := e.cells[i].Offered; o != nil && e.sent.Lines[i].InTotal() {
			price(o.asks(), true)
		}
	}
	for _, key := range e.lumpKeys() {
		price(e.lumps[key], true)
	}
	for _, o := range e.extra {
		price(o.asks(), false)
	}
}

// beyond reports a letter whose total is more than what it prices apart.
func (e *examination) beyond() bool {
	total := e.total.words
	if e.total.figures.Known {
		total = e.total.figures
	}
	return e.quote.Lump && total.Known && total.Amount.Cmp(e.apart.Amount) > 0
}

// forTheRest reports a letter of which some is offered for a sum that names no
// part: all of it, or what is left of the total beside the parts that are
// priced apart, where lines are left that nothing is said of. Where nothing is
// left to price, a total that is more than its parts is an error in adding them up.
func (e *examination) forTheRest() bool {
	return e.beyond() && (e.unsaid > 0 || !e.apart.Known)
}

// putIn tells of the lines that the firm put in.
func (e *examination) putIn() {
	for n, o := range e.extra {
		asks := o.asks()
		e.outOfScope = e.outOfScope.Add(asks)
		if e.puts[n].twice {
			continue // told of already
		}
		f := Finding{Kind: LineInserted, ID: o.ID, At: o.At, Worth: asks,
			Text:  fmt.Sprintf("line %s is not in the bill; it asks %s", o.named(), asks.Grouped()),
			Query: fmt.Sprintf("Please say what your added line %q is for, and whether the work of the bill can be done without it.", cmp.Or(o.Description, o.ID))}
		if o.contingency() {
			f.Kind = ContingencyPut
			f.Text = fmt.Sprintf("a contingency of %s is put in, %q; the client holds his own", asks.Grouped(), o.Description)
			f.Query = fmt.Sprintf("Please confirm that your offer stands without the contingency of %s, which the client holds apart from the bill.", asks.Grouped())
		}
		e.altered++
		e.found = append(e.found, placed{2*e.puts[n].after + 3, f})
	}
}

// asks is what a line that the firm put in comes to: its amount, or where none
// can be read its own quantity by its own rate.
func (o *Offered) asks() money.Amount {
	if n, ok := number(o.Amount); ok {
		return money.Round(n)
	}
	l := Line{Fixed: o.Fixed, Part: o.Part, Carried: job.Measured}
	sum, _ := sumAt(&l, o, ownQuantity(&l, o), 0)
	return sum
}

// named is a line that the firm put in, by the id it may have and what it says.
func (o *Offered) named() string {
	if o.ID == "" || o.Description == "" {
		return fmt.Sprintf("%q", cmp.Or(o.Description, o.ID))
	}
	return fmt.Sprintf("%q, %q,", o.ID, o.Description)
}

// contingency reports a line that says it is one.
func (o *Offered) contingency() bool {
	return strings.Contains(strings.ToLower(o.Description), "contingenc")
}

func idKey(id string) string { return strings.ToLower(strings.TrimSpace(id)) }

// alike is what two lines share that say the same and are of one quantity.
func alike(f bill.Fixed) string {
	return fold(f.Description) + "\x00" + unitKey(f.Unit) + "\x00" + f.Quantity.String()
}

// fold writes every run of spaces and line ends as one space.
func fold(s string) string { return strings.Join(strings.Fields(s), " ") }

func unitKey(u measure.Unit) string { return rates.Key(string(u)) }

// item names a line to the firm: by its item number, or where it has none by what it says.
func item(l *Line) string {
	if l.Ref != "" {
		return fmt.Sprintf("item %q", l.Ref)
	}
	return fmt.Sprintf("the line %q", cmp.Or(l.says(), l.ID))
}
