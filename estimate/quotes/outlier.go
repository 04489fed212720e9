package quotes

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// enough is how many quotes must bear a rate before one of them is the middle.
const enough = 3

// outliers finds the rates of measured work that stand out by more than the
// terms allow above or below the yardstick, and beside the middle quote where
// three or more bear a rate for the line: with fewer there is no middle. The
// most money first. No threshold is published: those of the terms are the client's.
func (l *levelling) outliers() {
	type weighed struct {
		Outlier
		worth money.Amount // of the difference, by which they are ordered
	}
	var found []weighed
	for n := range l.c.Rows {
		r := &l.c.Rows[n]
		if r.Line.Part != Work {
			continue
		}
		beside := func(rate money.Amount, of string) {
			if rate.Sign() <= 0 {
				return
			}
			from, to := l.within(rate)
			for i := range r.Cells {
				cell := &r.Cells[i]
				if !cell.rated() || cell.Rate.Amount.Cmp(from) >= 0 && cell.Rate.Amount.Cmp(to) <= 0 {
					continue
				}
				o := Outlier{Offer: i, Line: n, Rate: cell.Rate.Amount, Beside: rate, Of: of, Ratio: ratio(cell.Rate.Amount, rate), Amount: cell.Levelled}
				found = append(found, weighed{o, abs(cell.Rate.Amount.Sub(rate).Times(r.Line.Quantity))})
			}
		}
		if l.sent.Priced && r.Line.Priced {
			beside(r.Line.Rate, OfYardstick)
		}
		if rates := r.rates(); len(rates) >= enough {
			beside(median(rates), OfMiddle)
		}
	}
	order := make([]int, len(found))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return cmp.Or(found[b].worth.Cmp(found[a].worth), cmp.Compare(a, b)) })
	for _, i := range order {
		l.c.Rates = append(l.c.Rates, found[i].Outlier)
	}
}

// within is the least and the greatest rate in whole pennies that do not stand
// out from another.
func (l *levelling) within(rate money.Amount) (from, to money.Amount) {
	one := decimal.New(1, 0)
	least := rate.Decimal().Mul(one.Sub(l.terms.Below.Fraction()))
	most := rate.Decimal().Mul(one.Add(l.terms.Above.Fraction()))
	return money.Round(least.RoundCeil(2)), money.Round(most.RoundFloor(2))
}

// What a rate stands out from.
const (
	OfYardstick = "yardstick"
	OfMiddle    = "middle quote"
)

// rated reports a line priced by a rate.
func (c *Cell) rated() bool { return c.State == Answered && c.Rate.Known }

// rates is what the quotes bear on a line, the lowest first.
func (r *Row) rates() []money.Amount {
	var out []money.Amount
	for i := range r.Cells {
		if c := &r.Cells[i]; c.rated() {
			out = append(out, c.Rate.Amount)
		}
	}
	slices.SortFunc(out, money.Amount.Cmp)
	return out
}

// doubtful asks after rates that are about ten times, or a tenth, of the middle
// of at least two others, on lines of which the bill bears no price to judge by:
// see tenfold. Nothing is corrected, for the firm may well mean it.
func (l *levelling) doubtful() {
	for n := range l.c.Rows {
		r := &l.c.Rows[n]
		if r.Line.Part != Work || l.sent.Priced && r.Line.Priced {
			continue
		}
		rates := r.rates()
		if len(rates) < enough {
			continue
		}
		for i := range r.Cells {
			cell := &r.Cells[i]
			if !cell.rated() {
				continue
			}
			if mid := medianWithout(rates, cell.Rate.Amount); tenfold(cell.Rate.Amount.Decimal(), mid.Decimal()) {
				l.doubt(n, i, mid, len(rates)-1)
			}
		}
	}
	l.orderFindings()
}

// doubt asks after one rate beside the middle of the others.
func (l *levelling) doubt(row, offer int, mid money.Amount, others int) {
	line, cell := l.sent.Lines[row], l.c.Rows[row].Cells[offer]
	rate, how := cell.Rate.Amount, "ten times"
	if rate.Cmp(mid) < 0 {
		how = "a tenth of"
	}
	f := Finding{Kind: PointDoubtful, ID: line.ID,
		Text:  fmt.Sprintf("rate is %s, about %s the middle of %d others, %s: the decimal point may be misplaced", rate.Grouped(), how, others, mid.Grouped()),
		Query: fmt.Sprintf("Please confirm your rate of %s for %s.", rate.Grouped(), item(&line))}
	if o := cell.Offered; o != nil {
		if f.At = o.Rate.At; f.At.IsZero() {
			f.At = o.At // a letter gives no rate by itself
		}
	}
	o := &l.c.Offers[offer]
	o.Findings = append(o.Findings, f)
}

// orderFindings puts findings of lines in the order of the bill again; one of a
// line that the bill does not have keeps its place after the one before it.
func (l *levelling) orderFindings() {
	place := make(map[string]int, len(l.sent.Lines))
	for n, line := range l.sent.Lines {
		place[line.ID] = n + 1
	}
	for i := range l.c.Offers {
		type placed struct {
			at int
			f  Finding
		}
		all := make([]placed, len(l.c.Offers[i].Findings))
		last := 0
		for k, f := range l.c.Offers[i].Findings {
			if at, ok := place[f.ID]; ok {
				last = at
			}
			all[k] = placed{last, f}
		}
		slices.SortStableFunc(all, func(a, b placed) int { return cmp.Compare(a.at, b.at) })
		for k := range all {
			l.c.Offers[i].Findings[k] = all[k].f
		}
	}
}
