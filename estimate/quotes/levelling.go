package quotes

import (
	"cmp"
	"fmt"
	"slices"

	"futtock/rates/money"
	"futtock/rates/problem"
)

// compare levels quotes that have been examined, and says what may be judged
// by. What cannot be levelled is a problem; the rest goes on without it.
//
//	levelled = corrected - value added tax + adjustments
//
// of every line, of every section, and of every whole.
func compare(s Sent, all []checked, t Terms) (Comparison, problem.List) {
	l := levelling{sent: &s, terms: t, checked: all, c: Comparison{Sent: s, Terms: t}}
	l.layOut()
	for i := range l.c.Offers {
		l.net(i)
	}
	l.gaps()
	l.sums()
	l.beside()
	l.total()
	l.rank()
	l.spread()
	l.outliers()
	l.doubtful()
	l.balance()
	l.worth()
	l.c.Low = Low(t.Low, l.levelled(), l.c.Yardstick)
	return l.c, l.problems
}

// levelling is the work of compare on its way.
type levelling struct {
	sent     *Sent
	terms    Terms
	checked  []checked
	c        Comparison
	problems problem.List
}

// layOut makes the offers and rows, with nothing levelled yet. All cells stand
// in one piece of store, row by row.
func (l *levelling) layOut() {
	offers, lines := len(l.checked), len(l.sent.Lines)
	l.c.Offers = make([]Offer, offers)
	for i, ch := range l.checked {
		if len(ch.cells) != lines {
			panic(fmt.Sprintf("quotes: %d cells of %q stand for %d lines", len(ch.cells), ch.quote.Book, lines))
		}
		l.c.Offers[i] = Offer{Quote: *ch.quote, Name: ch.quote.Name(), Findings: slices.Clone(ch.findings),
			AsTendered: ch.asTendered, Corrected: ch.corrected, OutOfScope: ch.outOfScope}
	}
	cells := make([]Cell, offers*lines)
	l.c.Rows = make([]Row, lines)
	for n, line := range l.sent.Lines {
		row := cells[n*offers : (n+1)*offers : (n+1)*offers]
		for i := range row {
			row[i] = l.checked[i].cells[n]
		}
		l.c.Rows[n] = Row{Line: line, Cells: row}
	}
}

// Name is the firm, or the workbook where no firm is named.
func (q *Quote) Name() string { return cmp.Or(q.Firm, q.Book) }

// adjust puts one step on the way from net to levelled.
func (l *levelling) adjust(offer int, a Adjustment) {
	o := &l.c.Offers[offer]
	o.Adjustments = append(o.Adjustments, a)
}

// total adds up the levelled figures, and those of the bill itself.
func (l *levelling) total() {
	kinds := AdjustmentKinds()
	for i := range l.c.Offers {
		o := &l.c.Offers[i]
		slices.SortStableFunc(o.Adjustments, func(a, b Adjustment) int {
			return cmp.Compare(slices.Index(kinds, a.Kind), slices.Index(kinds, b.Kind))
		})
		o.Levelled = o.Net
		for _, a := range o.Adjustments {
			o.Levelled = o.Levelled.Add(a.Amount)
		}
	}
	if !l.sent.Priced {
		return
	}
	l.c.Yardstick = Money{Amount: l.yardstickBeside(), Known: true}
	for _, line := range l.sent.Lines {
		if line.InTotal() {
			l.c.Yardstick.Amount = l.c.Yardstick.Amount.Add(line.Amount)
		}
	}
}

// yardstickBeside is what the bill itself comes to beside its lines: the
// contingency that every offer bears, and its own weeks at the client's cost.
func (l *levelling) yardstickBeside() money.Amount {
	var a money.Amount
	if l.sent.HasHeld {
		a = l.sent.Contingency
	}
	if l.sent.Weeks.Known {
		a = a.Add(l.terms.Week.Times(l.sent.Weeks.Weeks))
	}
	return a
}

// levelled is the levelled figure of each offer.
func (l *levelling) levelled() []money.Amount {
	all := make([]money.Amount, len(l.c.Offers))
	for i, o := range l.c.Offers {
		all[i] = o.Levelled
	}
	return all
}

// ownMoney is the bill's own money in a line that bears some, without what a
// firm puts on it.
func (l *Line) ownMoney() money.Amount { return money.Round(l.Quantity) }
