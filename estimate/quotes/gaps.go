package quotes

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// gaps levels what a quote leaves out. A line in the total that it neither
// prices nor says anything of, that it excludes, or leaves to the owner, is
// levelled at the yardstick's amount, the mean of the others or the highest of
// them, as was chosen; the others are those who put money on that line itself,
// not those who have it within a sum for a section. A mean is rounded once.
//
// Where the chosen rule has no figure, the yardstick is taken, and else the
// mean of the others; where neither has one the line cannot be levelled. A line
// whose cost is in other rates, or within a section's sum, is not a gap. There
// is no published formula; which rule is used is said once, before the quotes are opened.
func (l *levelling) gaps() {
	if l.terms.Gaps == AtYardstick && !l.sent.Priced {
		l.problems.Add(problem.Problem{Code: problem.YardstickUnpriced, At: origin.Cell{Book: l.sent.Book},
			Text: fmt.Sprintf("lines that a quote leaves out are to be levelled at the yardstick, and %q bears no prices; choose %q or %q", l.sent.Book, AtMean, AtHighest)})
	}
	for n, line := range l.sent.Lines {
		if !line.InTotal() || line.bears() {
			continue
		}
		var f *figures
		for i := range l.c.Offers {
			cell := &l.c.Rows[n].Cells[i]
			if !cell.gap() {
				continue
			}
			if f == nil {
				f = l.priced(n)
			}
			figure, of, ok := f.at(l.terms.Gaps)
			if !ok {
				l.cannot(n, i, "")
				continue
			}
			cell.Levelled = figure
			l.stepped(n, i, Adjustment{Kind: GapFilled, Text: fmt.Sprintf("%s: levelled at %s, %s", cell.State, of, figure.Grouped()), Amount: figure.Sub(cell.Net)})
		}
	}
}

// gap reports a line that a quote gives no price for.
func (c *Cell) gap() bool { return c.State == Silent || c.State == LeftOff || c.State == ForOwner }

// stepped puts an adjustment of one line, with its reason on the line.
func (l *levelling) stepped(row, offer int, a Adjustment) {
	cell := &l.c.Rows[row].Cells[offer]
	a.ID = l.sent.Lines[row].ID
	cell.Why = append(cell.Why[:len(cell.Why):len(cell.Why)], a.Text)
	l.adjust(offer, a)
}

// cannot is the problem of a line that has no figure to be levelled at; what
// is blank for the whole line.
func (l *levelling) cannot(row, offer int, what string) {
	line, cell, q := l.sent.Lines[row], l.c.Rows[row].Cells[offer], l.checked[offer].quote
	at := q.At
	if cell.Offered != nil && !cell.Offered.At.IsZero() {
		at = cell.Offered.At
	}
	l.problems.Add(problem.Problem{Code: problem.LineNotLevelled, At: at, With: line.At,
		Text: fmt.Sprintf("%s%q, %q, cannot be levelled for %q (%s): neither the yardstick nor another quote has a figure for it", what, line.ID, line.says(), q.Name(), cell.State)})
}

// figures is what one line may be levelled at.
type figures struct {
	yardstick Money
	sum, most money.Amount // of those who priced it
	count     int64
}

// priced is the figures of one line: the yardstick's, and those of the quotes
// with money on it.
func (l *levelling) priced(row int) *figures {
	line := l.sent.Lines[row]
	f := figures{yardstick: Money{line.Amount, l.sent.Priced && line.Priced}}
	for _, cell := range l.c.Rows[row].Cells {
		if cell.State == Answered && !cell.Net.IsZero() {
			f.add(cell.Net)
		}
	}
	return &f
}

func (f *figures) add(a money.Amount) {
	if f.count == 0 || a.Cmp(f.most) > 0 {
		f.most = a
	}
	f.sum = f.sum.Add(a)
	f.count++
}

// at is the figure by a rule, what it is of, and whether there is any.
func (f *figures) at(rule GapRule) (money.Amount, string, bool) {
	switch {
	case rule == AtHighest && f.count > 0:
		return f.most, "the highest of " + others(f.count), true
	case rule == AtMean && f.count > 0:
		return f.mean(), "the mean of " + others(f.count), true
	case f.yardstick.Known && rule == AtYardstick:
		return f.yardstick.Amount, "the yardstick", true
	case f.yardstick.Known:
		return f.yardstick.Amount, "the yardstick, as no other quote prices it", true
	case f.count > 0:
		return f.mean(), "the mean of " + others(f.count) + ", as the yardstick bears no price", true
	}
	return money.Amount{}, "", false
}

func (f *figures) mean() money.Amount { return f.sum.Per(decimal.New(f.count, 0)) }

// others is so many other quotes, in words.
func others(n int64) string {
	if n == 1 {
		return "1 other quote"
	}
	return fmt.Sprintf("%d other quotes", n)
}
