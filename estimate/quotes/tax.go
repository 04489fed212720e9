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
//	net = round(corrected / (1 + r), 2), and the tax is the rest
//
// Lines, lumps and what stands beside them follow one another by running totals,
// round(so far / (1 + r), 2) less what went before, so that they add up to the
// net total exactly and no penny is lost. Lines outside the total are each
// divided by themselves, and so are rates. Where a firm does not say, its
// rates are taken to be before the tax, and that is noted.
func (l *levelling) net(offer int) {
	ch, o := &l.checked[offer], &l.c.Offers[offer]
	l.noteTax(offer)
	out := takeOut{over: over(ch.quote)}
	taxed := !out.over.IsZero()
	why := fmt.Sprintf("value added tax at %s taken out", o.TaxRate)
	for n := range l.c.Rows {
		cell := &l.c.Rows[n].Cells[offer]
		switch {
		case l.sent.Lines[n].InTotal():
			cell.Net = out.next(cell.Corrected)
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
	o.Beside = out.next(ch.corrected.Sub(out.run))
	o.Net = out.net
	if out.over.IsZero() {
		o.Net = out.run
	}
	o.TaxOut = o.Corrected.Sub(o.Net)
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
