package quotes

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/money"
)

// correct brings the quote to one total by the rule for errors.
func (e *examination) correct() {
	switch e.rule {
	case ReportOnly:
		e.leave()
	case RateGoverns:
		e.byRate()
	case TotalStands:
		e.byRate()
		e.spread()
	default:
		panic(fmt.Sprintf("there is no rule for errors %q", e.rule))
	}
}

// leave corrects nothing: every figure is as it was tendered.
func (e *examination) leave() {
	for i := range e.cells {
		c := &e.cells[i]
		c.Corrected, c.Rate = c.AsTendered.Amount, e.reckons[i].rate
		if rate, ok := c.rateStood(); ok && c.Rate.Known {
			c.Rate.Amount = rate
		}
	}
	e.corrected = e.asTendered
	e.rest = e.asTendered.Sub(e.adds())
}

// rateStood is the rate of a line as it stands.
func (c *Cell) rateStood() (money.Amount, bool) {
	if c.Offered == nil {
		return money.Amount{}, false
	}
	n, ok := number(c.Offered.Rate)
	return money.Round(n), ok
}

// byRate corrects every line by its rate and the quantity of the bill; parts
// govern totals. What a letter has not priced apart is the rest of its total.
func (e *examination) byRate() {
	for i, r := range e.reckons {
		c := &e.cells[i]
		c.Corrected, c.Rate = r.sum, r.rate
		if r.why != "" {
			c.Why = append(c.Why, r.why)
		}
	}
	e.corrected = e.adds()
	if e.forTheRest() {
		e.rest = e.total.governs.Sub(e.corrected)
		e.corrected = e.total.governs
	}
}

// adds is what the lines in the total come to as corrected, with lumps and what was put in.
func (e *examination) adds() money.Amount {
	var sum money.Amount
	for i := range e.cells {
		if e.sent.Lines[i].InTotal() {
			sum = sum.Add(e.cells[i].Corrected)
		}
	}
	for _, key := range e.lumpKeys() {
		sum = sum.Add(e.lumps[key])
	}
	return sum.Add(e.outOfScope)
}

// lumpKeys are the keys of lumps, the sections' first, in the order of the bill.
func (e *examination) lumpKeys() []string {
	var keys []string
	keep := func(key string) {
		if _, ok := e.lumps[key]; ok && !slices.Contains(keys, key) { // a section may bear the name of a part
			keys = append(keys, key)
		}
	}
	for _, s := range e.sent.Sections {
		keep(rates.Key(s.Section))
	}
	for _, p := range Parts() {
		keep(string(p))
	}
	return keys
}

// spread lets the tendered total stand: what the corrected parts come to more
// or less is spread over measured work in the total alone, in one proportion,
// and not over preliminaries, given sums, dayworks or what the firm put in. By
// running totals, so that no penny is lost (money.Share).
func (e *examination) spread() {
	if !e.total.known {
		return // no total stands
	}
	gap := e.total.governs.Sub(e.corrected)
	if gap.IsZero() {
		return
	}
	var lines []int
	var lumps []string
	var weights []decimal.Decimal
	var work money.Amount
	bear := func(m money.Amount) {
		weights = append(weights, m.Decimal())
		work = work.Add(m)
	}
	for i := range e.cells {
		if l := &e.sent.Lines[i]; l.Part == Work && l.InTotal() && !e.cells[i].Corrected.IsZero() {
			lines = append(lines, i)
			bear(e.cells[i].Corrected)
		}
	}
	for _, key := range e.lumpKeys() {
		if p := Part(key); p != Preliminaries && p != Sums && p != Dayworks {
			lumps = append(lumps, key)
			bear(e.lumps[key])
		}
	}
	e.corrected = e.total.governs
	if work.Sign() <= 0 || work.Add(gap).Sign() <= 0 {
		e.rest = e.rest.Add(gap)
		e.whole(Finding{Kind: TotalDiffers, At: e.quote.Stated.At, Worth: gap.Neg(),
			Text:  fmt.Sprintf("total of %s stands; its corrected parts come to %s, and measured work of %s cannot bear the difference", e.corrected.Grouped(), e.corrected.Sub(gap).Grouped(), work.Grouped()),
			Query: fmt.Sprintf("Please say what your total of %s is made up of.", e.corrected.Grouped())})
		return
	}
	shares, ok := money.Share(work.Add(gap), weights)
	if !ok {
		panic(fmt.Sprintf("measured work of %s has no shares", work))
	}
	by := money.NewPercent(gap.Decimal().Shift(2).DivRound(work.Decimal(), 4))
	for n, i := range lines {
		c := &e.cells[i]
		if !c.Corrected.Equal(shares[n]) {
			c.Why = append(c.Why, fmt.Sprintf("total stands: %s altered to %s, by %s with all measured work", c.Corrected.Grouped(), shares[n].Grouped(), by))
		}
		c.Corrected = shares[n]
		if q := e.sent.Lines[i].Quantity; !q.IsZero() {
			c.Rate = Money{shares[n].Per(q), true}
		}
	}
	for n, key := range lumps {
		e.lumps[key] = shares[len(lines)+n]
	}
}
