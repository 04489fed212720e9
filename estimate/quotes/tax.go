package quotes

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// net takes value added tax out of one quote, where its firm has it in the
// rates: all quotes are compared before it.
//
//	net = free + round((corrected - free) / (1 + r), 2), and the tax is the rest
//
// Free of it is the bill's own money, which stands before the tax as the bill
// states it, with the profit or addition that is a share of it: see taxable.
// What bears it follows by running totals, lines, lumps and what stands beside
// them, round(so far / (1 + r), 2) less what went before, so that they add up to
// the net total exactly and no penny is lost. Lines outside the total are each
// divided by themselves, and so are rates. Where a firm does not say, its
// rates are taken to be before the tax, and that is noted.
//
// A quote of 13,000.00 with 20 % added in, of which 1,000.00 is a provisional sum,
// comes to 1,000.00 + 12,000.00 / 1.2 = 11,000.00.
func (l *levelling) net(offer int) {
	ch, o := &l.checked[offer], &l.c.Offers[offer]
	l.noteTax(offer)
	out := takeOut{over: over(ch.quote)}
	taxed := !out.over.IsZero()
	var free money.Amount
	why := TaxOutOf(o.TaxRate)
	for n := range l.c.Rows {
		cell := &l.c.Rows[n].Cells[offer]
		switch {
		case l.sent.Lines[n].InTotal():
			bears := taxable(&l.sent.Lines[n], cell, ch.quote)
			untaxed := cell.Corrected.Sub(bears)
			cell.Untaxed = untaxed
			cell.Net = untaxed.Add(out.next(bears))
			free = free.Add(untaxed)
		case taxed:
			cell.Net = cell.Corrected.Per(out.over)
		default:
			cell.Net = cell.Corrected
		}
		if taxed && cell.Rate.Known {
			cell.Rate.Amount = cell.Rate.Amount.Per(out.over)
		}
		if taxed && !cell.Net.Equal(cell.Corrected) {
			cell.Why = append(slices.Clone(cell.Why), why)
		}
		cell.Levelled = cell.Net
	}
	o.Lumps = l.lumps(offer)
	for i := range o.Lumps {
		o.Lumps[i].Net = out.next(o.Lumps[i].Corrected)
	}
	o.Beside = out.next(ch.corrected.Sub(out.run).Sub(free))
	o.Net = free.Add(out.net)
	if !taxed {
		o.Net = free.Add(out.run)
	}
	o.TaxOut = o.Corrected.Sub(o.Net)
}

// taxable is how much of a corrected line may have value added tax in it: all of
// what the firm itself prices. Of a line that bears the bill's own money that is
// the attendance, on a form; of a letter, which has one figure for the line, what
// that is above the money given.
func taxable(l *Line, c *Cell, q *Quote) money.Amount {
	if !l.bears() {
		return c.Corrected
	}
	var priced money.Amount
	switch {
	case q.Lump:
		priced = c.Corrected.Sub(l.ownMoney())
	case c.Offered != nil && !l.addition():
		attendance, _ := number(c.Offered.Attendance)
		priced = money.Round(attendance)
	}
	switch {
	case priced.Sign() < 0 && q.Lump:
		return money.Amount{}
	case priced.Cmp(c.Corrected) > 0:
		return c.Corrected
	}
	return priced
}

// TaxOutOf is why a line that bears value added tax comes to less before it.
func TaxOutOf(rate money.Percent) string {
	return fmt.Sprintf("value added tax at %s taken out", rate)
}

// takeOut divides amounts one after another by 1 + r, by running totals.
type takeOut struct {
	over decimal.Decimal // 1 + r; nil where nothing is taken out
	run  money.Amount    // what has gone by
	net  money.Amount    // of that, before the tax; not kept where nothing is taken out
}

// next is the share of the next amount before the tax.
func (t *takeOut) next(a money.Amount) money.Amount {
	if a.IsZero() {
		return a
	}
	t.run = t.run.Add(a)
	if t.over.IsZero() {
		return a
	}
	upTo := t.run.Per(t.over)
	share := upTo.Sub(t.net)
	t.net = upTo
	return share
}

// over is 1 + r of a quote with value added tax in its rates, else nil.
func over(q *Quote) decimal.Decimal {
	if !rates.Same(q.Tax, bill.AddedIn) || !q.TaxRateGiven || q.TaxRate.Decimal().Sign() <= 0 {
		return decimal.Decimal{}
	}
	return q.TaxRate.Fraction().Add(decimal.New(1, 0))
}

// noteTax says what a quote leaves unsaid of value added tax.
func (l *levelling) noteTax(offer int) {
	q := l.checked[offer].quote
	switch {
	case rates.Same(q.Tax, bill.LeftOut):
	case !rates.Same(q.Tax, bill.AddedIn):
		l.adjust(offer, Adjustment{Kind: TaxTaken, Text: "whether value added tax is in the rates is not said; they are taken to be without it"})
	case !q.TaxRateGiven || q.TaxRate.Decimal().Sign() < 0:
		l.problems.Add(problem.Problem{Code: problem.QuoteTaxRate, At: q.At,
			Text: fmt.Sprintf("%q has value added tax in its rates and does not say at what rate; the rate is wanted to take it out", q.Name())})
	}
}

// lumps is the sums of money of a letter, in the order of the bill; those of
// nothing that the bill has are left to what stands beside the lines.
func (l *levelling) lumps(offer int) []Lump {
	sums := map[string]money.Amount{}
	for of, sum := range l.checked[offer].lumps {
		sums[rates.Key(of)] = sum
	}
	var out []Lump
	take := func(of string) {
		if sum, ok := sums[rates.Key(of)]; ok {
			out = append(out, Lump{Of: of, Corrected: sum})
			delete(sums, rates.Key(of)) // a section may bear the name of a part
		}
	}
	for _, s := range l.sent.Sections {
		take(s.Section)
	}
	for _, p := range Parts() {
		take(string(p))
	}
	return out
}
