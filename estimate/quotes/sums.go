package quotes

import (
	"fmt"

	"futtock/estimate/bill"
	"futtock/rates/money"
)

// sums makes equal the lines that bear the bill's own money, provisional and
// prime cost sums and daywork in money: each stands at what the bill gives, in every
// quote, and beside it what the firm puts on it,
//
//	levelled = amount of the bill + round(amount x profit or addition, 2) + attendance
//
// Profit and addition are fractions and bear no value added tax. A firm that
// says none of them, or leaves the line out, has them filled in by the rule for
// gaps, from those who say what they put on it. A letter that has a figure for the
// line puts on it what that is above the amount given. What stands within the sum
// of a letter for the whole part cannot be told apart and is left.
func (l *levelling) sums() {
	for n := range l.sent.Lines {
		line := &l.sent.Lines[n]
		if !line.bears() || !line.InTotal() {
			continue
		}
		added := make([]Money, len(l.c.Offers))
		f := figures{yardstick: Money{line.Amount.Sub(line.ownMoney()), l.sent.Priced && line.Priced}}
		for i := range added {
			var elsewhere bool
			if added[i], elsewhere = l.added(n, i); added[i].Known && !elsewhere {
				f.add(added[i].Amount)
			}
		}
		for i := range added {
			l.sum(n, i, added[i], &f)
		}
	}
}

// sum levels one such line of one quote.
func (l *levelling) sum(row, offer int, added Money, f *figures) {
	line, cell := &l.sent.Lines[row], &l.c.Rows[row].Cells[offer]
	if cell.State == WithinLump {
		return
	}
	figure, of := added.Amount, ""
	if !added.Known {
		var ok bool
		if figure, of, ok = f.at(l.terms.Gaps); !ok {
			l.cannot(row, offer, line.puts()+" on ")
		}
	}
	cell.Levelled = line.ownMoney().Add(figure)
	equal := cell.Levelled.Sub(cell.Net)
	if !added.Known && !figure.IsZero() {
		l.stepped(row, offer, Adjustment{Kind: GapFilled, Text: fmt.Sprintf("%s not said: levelled at %s, %s", line.puts(), of, figure.Grouped()), Amount: figure})
		equal = equal.Sub(figure)
	}
	if !equal.IsZero() {
		l.stepped(row, offer, Adjustment{Kind: SumsEqual, Text: fmt.Sprintf("the sum stands at %s as the bill gives it, before value added tax", line.ownMoney().Grouped()), Amount: equal})
	}
}

// puts is what a firm puts on a line that bears the bill's own money.
func (l *Line) puts() string {
	if l.addition() {
		return "addition"
	}
	return "profit and attendance"
}

// added is what a firm puts on the bill's own money, where it says, and
// whether it says that this is in other rates.
func (l *levelling) added(row, offer int) (put Money, elsewhere bool) {
	line, cell := &l.sent.Lines[row], &l.c.Rows[row].Cells[offer]
	o, q := cell.Offered, l.checked[offer].quote
	switch {
	case cell.State == WithinOthers:
		return Money{Known: true}, true
	case cell.State != Answered || o == nil:
		return Money{}, false
	case q.Lump:
		above := cell.Net.Sub(line.ownMoney())
		if above.Sign() < 0 {
			above = money.Amount{}
		}
		return Money{above, true}, false
	}
	share := o.Profit
	if line.addition() {
		share = o.Addition
	}
	if n, ok := number(share); ok {
		put = Money{line.ownMoney().Times(n), true}
	}
	if n, ok := number(o.Attendance); ok && !line.addition() {
		attendance := money.Round(n)
		bears := taxable(line, cell, q)
		switch over := over(q); {
		case over.IsZero():
		case bears.Equal(attendance):
			attendance = cell.Net.Sub(cell.Corrected.Sub(bears)) // as it was taken out, to the penny
		default:
			attendance = attendance.Per(over)
		}
		put = Money{put.Amount.Add(attendance), true}
	}
	if !put.Known && wordOf(o.Choice) == bill.Included {
		return Money{Known: true}, true
	}
	return put, false
}
