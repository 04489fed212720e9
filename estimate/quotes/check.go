package quotes

import (
	"fmt"
	"slices"

	"futtock/rates/money"
)

// checked is one quote examined and corrected, before it is levelled. Its
// cells stand for the lines of the bill in their order. Corrected is the cells
// in the total, lumps, extra and rest, whatever the rule for errors.
type checked struct {
	quote      *Quote
	cells      []Cell                  // Offered, AsTendered, Corrected, State and Why; of measured work Rate, with value added tax as the firm has it
	lumps      map[string]money.Amount // sum of money for a section of measured work, by its key, or for a part; of a letter
	extra      []*Offered              // lines that the firm put in, with their money: see asks
	rest       money.Amount            // of the total in none of these: what a letter does not price apart, or what the rule lets stand beside the lines
	findings   []Finding
	asTendered money.Amount
	corrected  money.Amount // cells in the total, lumps, extra and rest
	outOfScope money.Amount // of extra
}

// check examines one quote against the bill and corrects it by the rule for
// errors. Nothing of the quote is changed: what it comes to after correction
// stands beside what was tendered.
func check(s *Sent, q *Quote, t Terms) checked {
	e := &examination{
		checked: checked{quote: q, cells: make([]Cell, len(s.Lines)), lumps: map[string]money.Amount{}},
		sent:    s,
		rule:    t.Errors,
		reckons: make([]reckoned, len(s.Lines)),
	}
	e.match()
	e.total = e.tendered()
	e.pricedApart()
	for i := range s.Lines {
		e.line(i)
	}
	e.putIn()
	e.form()
	e.totals()
	e.correct()
	e.offer()
	e.together(e.typed, "%d amounts and totals are typed over their formulas; all of them agree")
	e.together(e.bare, "the marks of %d lines are gone")
	slices.SortStableFunc(e.found, func(a, b placed) int { return a.place - b.place })
	for _, f := range e.found {
		e.findings = append(e.findings, f.Finding)
	}
	return e.checked
}

// examination is a quote while it is examined.
type examination struct {
	checked
	sent    *Sent
	rule    ErrorRule
	reckons []reckoned // by line of the bill
	puts    []put      // by extra
	apart   Money      // what a letter prices by line, section or part; known where it so prices any
	unsaid  int        // lines in the total that a letter neither prices apart nor says anything of
	altered int        // lines that are not as they went out
	broken  bool       // some amount is an error value
	total   stated
	found   []placed
	typed   []placed // of numbers typed over formulas that agree with them
	bare    []placed // of marks that are gone
}

// reckoned is what a line comes to by its rate and the quantity of the bill,
// and at what rate.
type reckoned struct {
	sum  money.Amount
	rate Money
	why  string // blank where it is as tendered
}

// put is where a line stands that the firm put in.
type put struct {
	after int  // line of the bill it stands behind; one less than the first of its part where it is before that
	twice bool // a line of the bill once more
}

// placed is a finding with its place: nought of the whole quote, else by line.
type placed struct {
	place int
	Finding
}

// whole tells of something in the whole quote.
func (e *examination) whole(f Finding) {
	if f.At.IsZero() {
		f.At = e.quote.At
	}
	e.found = append(e.found, placed{0, f})
}

// ofLine tells of something in a line of the bill.
func (e *examination) ofLine(i int, f Finding) {
	e.found = append(e.found, e.atLine(i, f))
}

// atLine puts a finding in its place with a line of the bill.
func (e *examination) atLine(i int, f Finding) placed {
	f.ID = e.sent.Lines[i].ID
	if f.At.IsZero() {
		f.At = e.quote.At
		if o := e.cells[i].Offered; o != nil {
			f.At = o.At
		}
	}
	return placed{2*i + 2, f}
}

// together tells of what there is no harm in but that it is everywhere, as in
// a form pasted as values: of one by itself, of more in one finding for the whole quote.
func (e *examination) together(found []placed, text string) {
	if len(found) < 2 {
		e.found = append(e.found, found...)
		return
	}
	e.whole(Finding{Kind: found[0].Kind, At: found[0].At, Text: fmt.Sprintf(text, len(found))})
}

// line examines one line of the bill.
func (e *examination) line(i int) {
	o := e.cells[i].Offered
	if o == nil {
		e.absent(i)
		return
	}
	if !e.quote.Lump {
		e.compare(i)
	}
	e.answer(i)
	e.reckon(i)
}
