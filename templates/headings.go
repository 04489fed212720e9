package templates

import (
	"cmp"
	"fmt"
	"slices"

	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// headingRows is how far down a sheet its headings are looked for.
const headingRows = 50

// stray is a cell among the headings that is none of them.
type stray struct {
	row   int
	datum grid.Datum
}

// place is where a heading was found.
type place struct {
	row, col int
	unit     measure.Unit // named in brackets; blank where none is
	unitless bool         // a bare number under a heading without unit has been put down
}

// heading is one of the outline's headings as it stands in a cell; its index
// is -1 where it is none of them.
func (o Outline) heading(text string) (int, string) {
	name := fold(starless(text))
	for i, h := range o.Headings {
		if h.folded == name || h.plain == name && name != "" {
			return i, ""
		}
	}
	base, bracket := bracketed(starless(text))
	if bracket == "" {
		return -1, ""
	}
	name = fold(base)
	for i, h := range o.Headings {
		if h.folded == name || h.plain == name && name != "" {
			return i, bracket
		}
	}
	return -1, ""
}

// starless is a heading without the star some people mark what is required with.
func starless(s string) string {
	s = single(s)
	for len(s) > 0 && s[len(s)-1] == '*' {
		s = single(s[:len(s)-1])
	}
	return s
}

// headingRow is the row of headings: the first that holds all that are
// required. A lone word such as Timber may stand in a title too, so that a row
// with one heading counts only where no fuller one follows. Where no row holds
// them all, it is the row that holds most, and false.
func (o Outline) headingRow(page grid.Page) (grid.Line, bool) {
	var best grid.Line
	most, lone := 0, -1
	for n, line := range page.Rows {
		if line.Row > headingRows {
			break
		}
		held := o.held(line)
		complete := true
		for i, h := range o.Headings {
			complete = complete && (!h.Required || slices.Contains(held, i))
		}
		switch {
		case complete && (len(held) > 1 || len(o.Headings) == 1):
			return line, true
		case complete && lone < 0:
			lone = n
		case len(held) > most:
			best, most = line, len(held)
		}
	}
	if lone >= 0 {
		return page.Rows[lone], true
	}
	return best, false
}

// held is the headings a row holds, each once.
func (o Outline) held(line grid.Line) []int {
	var held []int
	for _, d := range line.Cells {
		if d.Kind != grid.Text {
			continue
		}
		if i, _ := o.heading(d.Raw); i >= 0 && !slices.Contains(held, i) {
			held = append(held, i)
		}
	}
	return held
}

// places finds where each heading of the outline stands in its row, nil where
// it does not, puts down what is wrong with them, and reports whether the rows
// beneath can be read.
func (r *reader) places(o Outline, sheet string, line grid.Line) ([]*place, bool) {
	places := make([]*place, len(o.Headings))
	var unknown []stray
	for _, d := range line.Cells {
		if d.Kind == grid.Text {
			r.put(o, places, &unknown, sheet, line.Row, d)
		}
	}
	readable := r.missing(o, places, r.at(sheet, line.Row, 0))
	r.near(o, places, unknown, sheet)
	return places, readable
}

// put sets down where the heading in a cell stands.
func (r *reader) put(o Outline, places []*place, unknown *[]stray, sheet string, row int, d grid.Datum) {
	i, bracket := o.heading(d.Raw)
	at := r.at(sheet, row, d.Col)
	switch {
	case i < 0 && single(d.Raw) != "":
		*unknown = append(*unknown, stray{row, d})
	case i >= 0 && places[i] != nil:
		r.say(problem.HeadingTwice, at, fmt.Sprintf("the heading %q stands already in %s; it may stand once",
			o.Headings[i].Name, r.at(sheet, places[i].row, places[i].col).Address()), "")
	case i >= 0:
		places[i] = &place{row: row, col: d.Col, unit: r.headingUnit(o.Headings[i], single(d.Raw), bracket, at)}
	}
}

// headingUnit is the unit a heading names in brackets. Where a heading takes
// no unit, what stands in brackets is the yard's own remark.
func (r *reader) headingUnit(h Heading, text, bracket string, at origin.Cell) measure.Unit {
	switch {
	case bracket == "":
	case h.Form == Length:
		if u, ok := measure.ParseUnit(bracket); ok && u.Dimension() == measure.LinearMeasure {
			return u
		}
		r.say(problem.HeadingUnit, at, fmt.Sprintf("%q in the heading %q is not a unit of length; one of m, mm, ft or in is wanted", bracket, text), h.Title())
		if r.prices {
			return h.Scale.unit()
		}
	case h.Unit != "" && !alike(h.Unit, bracket):
		r.say(problem.HeadingUnit, at, fmt.Sprintf("%q in the heading %q cannot be reckoned with; %s is wanted", bracket, text, h.Unit), h.Title())
	case h.Form == Money:
		if mark := foreign(bracket, r.terms.Currency); mark != "" {
			r.say(problem.CurrencyOther, at, fmt.Sprintf("the heading %q is in %s, and the Job is in %s", text, mark, r.terms.Currency), "")
		}
	}
	return ""
}

// missing puts down the required headings that were not found, and reports
// whether the sheet can be read all the same: its first heading is there, and
// at least half of those required. Else it is likely a table of another sort.
func (r *reader) missing(o Outline, places []*place, at origin.Cell) bool {
	required := 0
	var names []string
	for i, h := range o.Headings {
		if h.Required {
			required++
		}
		if h.Required && places[i] == nil {
			names = append(names, h.Name)
		}
	}
	readable := places[0] != nil && 2*len(names) <= required
	switch len(names) {
	case 0:
		return true
	case 1:
		r.say(problem.HeadingMissing, at, fmt.Sprintf("the heading %q is not there; it is required", names[0]), "")
		return readable
	}
	r.say(problem.HeadingMissing, at, fmt.Sprintf("the headings %s are not there; they are required", both(names)), "")
	return readable
}

// near asks about text among the headings that is like one that is not there.
// Of words nobody reckons with, such as a Note, only the spelling counts.
func (r *reader) near(o Outline, places []*place, unknown []stray, sheet string) {
	var names, reckoned []string
	for i, h := range o.Headings {
		if places[i] == nil {
			names = append(names, h.Name)
			if h.Form != Words {
				reckoned = append(reckoned, h.Name)
			}
		}
	}
	for _, u := range unknown {
		base, _ := bracketed(starless(u.datum.Raw))
		if like := cmp.Or(nearest(base, names), akin(base, reckoned)); like != "" {
			r.found.Add(problem.Problem{Code: problem.HeadingNear, At: r.at(sheet, u.row, u.datum.Col), Near: like,
				Text: fmt.Sprintf("%q is not a heading of %s and is not read", single(u.datum.Raw), o.Name)})
		}
	}
}

// unitsDiffer remarks, once a sheet, on a heading in feet or inches where the
// Job says metres or millimetres, or the other way: the heading is followed.
func (r *reader) unitsDiffer(o Outline, places []*place, sheet string) {
	for i, h := range o.Headings {
		p := places[i]
		if h.Form != Length || p == nil || p.unit == "" || r.prices {
			continue
		}
		heading, unit := "Lengths in", r.terms.LengthsIn
		if h.Scale == Small {
			heading, unit = "Sided and moulded in", r.terms.SizesIn
		}
		if _, given := r.terms.Cells[heading]; given && imperial(p.unit) != imperial(unit) {
			r.say(problem.UnitsDiffer, r.at(sheet, p.row, p.col), fmt.Sprintf("the heading %q names another measure than the Job's %q, which says %s; the heading is followed",
				h.Name+" ("+string(p.unit)+")", heading, unit), "")
			return
		}
	}
}

func imperial(u measure.Unit) bool { return u == measure.Ft || u == measure.In }
