package price

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// preliminaries prices the charges on the job as a whole, by Ref. One row may
// make several lines: what is paid once, what runs by the week, supervision,
// a percentage. Where it does, its lines are its Ref with a, b, c after it.
func (p *pricing) preliminaries(items []Item) []Preliminary {
	taken := map[string]bool{}
	for _, r := range p.job.Preliminaries {
		taken[rates.Key(r.Ref)] = true
	}
	var out []Preliminary
	for _, r := range p.job.Preliminaries {
		lines := p.preliminary(r, items)
		for i := range lines {
			lines[i].Ref = r.Ref
			if len(lines) > 1 {
				lines[i].Ref += string(rune('a' + i))
				if taken[rates.Key(lines[i].Ref)] {
					p.problem(problem.PrelimRef, r.At, fmt.Sprintf("%q makes %d lines, and the Ref of one, %q, is that of another row; another Ref is wanted for one of them", r.Ref, len(lines), lines[i].Ref), "")
				}
			}
		}
		out = append(out, lines...)
	}
	if w, ok := p.waiting(taken); ok {
		out = append(out, w)
	}
	slices.SortStableFunc(out, func(a, b Preliminary) int { return job.CompareRefs(a.Ref, b.Ref) })
	return out
}

// preliminary is the lines of one row.
func (p *pricing) preliminary(r job.Preliminary, items []Item) []Preliminary {
	fixed, weekly, known := p.charges(r)
	count := r.Quantity
	if count.IsZero() {
		count = one
	}
	kind := cmp.Or(r.Kind, rates.OfPreliminaries)
	name := cmp.Or(r.Plant, r.Description)

	var lines []Preliminary
	if !fixed.price.IsZero() {
		lines = append(lines, p.once(r, kind, name, fixed, count))
	}
	if !weekly.price.IsZero() || !r.HoursAWeek.IsZero() {
		lines = append(lines, p.timed(r, kind, name, weekly, count)...)
	}
	if r.ShareGiven {
		if l, ok := p.percentage(r, kind, items); ok {
			lines = append(lines, l)
		}
	}
	if known && fixed.price.IsZero() && weekly.price.IsZero() && r.HoursAWeek.IsZero() && !r.ShareGiven {
		p.problem(problem.PrelimEmpty, r.At, fmt.Sprintf("%q has nothing to charge; a sum, a plant, hours a week or a percentage is wanted", r.Ref), "")
	}
	p.remarkCharge(r, lines)
	return lines
}

// charge is a price and the row it stands in.
type charge struct {
	price money.Price
	at    origin.Cell
}

// charges is what a row costs once and by the week: what it says itself, if it is
// nothing, else what its plant is hired at. Known is false where the plant has no price.
func (p *pricing) charges(r job.Preliminary) (fixed, weekly charge, known bool) {
	fixed, weekly = charge{r.Fixed, r.At}, charge{r.Weekly, r.At}
	if r.Plant == "" {
		return fixed, weekly, true
	}
	row, ok := p.plant.get(r.Plant)
	if !ok {
		if slices.ContainsFunc(p.book.Plant, func(m rates.Plant) bool { return rates.Same(m.Plant, r.Plant) }) {
			p.later(problem.PlantPrice, r.PlantAt, r.Plant)
		}
		return fixed, weekly, false
	}
	if !r.FixedGiven {
		fixed = charge{row.Fixed, row.At}
	}
	if !r.WeeklyGiven {
		weekly = charge{row.Weekly, row.At}
	}
	return fixed, weekly, true
}

// once is a fixed charge: so many at the price of one.
func (p *pricing) once(r job.Preliminary, kind rates.Kind, name string, each charge, count decimal.Decimal) Preliminary {
	if whole := count.IsInteger() && !count.Equal(one); whole {
		l := Preliminary{Row: r, Basis: Fixed, Quantity: count, Unit: measure.Nr, Explained: "the number given"}
		return p.cast(l, kind, Cost{Name: name, Quantity: one, Unit: measure.Nr, Rate: each.price, RateAt: each.at})
	}
	l := Preliminary{Row: r, Basis: Fixed, Quantity: one, Unit: measure.One, Explained: "paid once"}
	return p.cast(l, kind, Cost{Name: name, Quantity: count, Unit: measure.Nr, Rate: each.price, RateAt: each.at})
}

// percentage is a charge reckoned as a share: of all hours in the total, at
// the rate of a trade, or of the measured work as billed, before a contingency
// goes into its rates: that stands on the preliminaries, and they not on it.
func (p *pricing) percentage(r job.Preliminary, kind rates.Kind, items []Item) (Preliminary, bool) {
	switch r.Of {
	case job.OfItems:
		a := Measured(items)
		l := Preliminary{Row: r, Basis: Percentage, Quantity: one, Unit: measure.One,
			Explained: fmt.Sprintf("%s of the measured work, %s", r.Share, a.Grouped())}
		if p.job.ContingencyShown == job.WithinRates {
			l.Explained += " before the contingency within its rates"
		}
		return p.cast(l, kind, Cost{Name: "measured work", Quantity: r.Share.Fraction(), Unit: measure.One, Rate: money.PriceOf(a), RateAt: r.At}), true
	case job.OfHours:
		if r.Trade == "" {
			p.problem(problem.PrelimTrade, r.ShareAt, fmt.Sprintf("%q asks %s of all hours, and no Trade says at what rate; a Trade is wanted", r.Ref, r.Share), "")
			return Preliminary{}, false
		}
		trade, ok := p.trade(r.Trade, r.TradeAt)
		if !ok {
			return Preliminary{}, false
		}
		all := p.allHours()
		l := Preliminary{Row: r, Basis: Supervision, Quantity: one, Unit: measure.One,
			Explained: fmt.Sprintf("%s of %s h, all hours priced", r.Share, money.Group(all, 2))}
		hours := all.Mul(r.Share.Fraction()).Round(2)
		return p.cast(l, kind, Cost{Name: trade.Trade, Quantity: hours, Unit: measure.Hour, Rate: money.PriceOf(trade.Hour()), RateAt: trade.At}), true
	}
	p.problem(problem.PrelimShare, r.ShareAt, fmt.Sprintf("%q asks %s, and not of what; hours or items is wanted", r.Ref, r.Share), "")
	return Preliminary{}, false
}

// allHours is the hours of all rows in the total.
func (p *pricing) allHours() decimal.Decimal {
	var all decimal.Decimal
	for _, l := range p.hours.Lines {
		if cmp.Or(l.Carried, job.Measured).InTotal() {
			all = all.Add(l.Hours)
		}
	}
	return all
}

// waiting is a line for men kept and not priced, where the Job asks for it:
// what the programme leaves over of every trade's time, at the trade's rate.
// Where it is not asked a remark says what it would come to, unless it is no
// more than rounding stages up to a tenth of a week makes. Its Ref is
// "waiting time", marked where a row of the yard's has that already.
func (p *pricing) waiting(taken map[string]bool) (Preliminary, bool) {
	costs, all := p.idle()
	if len(costs) == 0 {
		return Preliminary{}, false
	}
	at := p.job.Cell("Price waiting time")
	if !p.job.PriceWaiting {
		if !all.GreaterThan(p.tenths()) {
			return Preliminary{}, false
		}
		p.problem(problem.WaitingTime, at, fmt.Sprintf("%s h are kept by the programme and priced nowhere", money.Group(all, 2)), "")
		return Preliminary{}, false
	}
	row := job.Preliminary{At: at, Ref: WaitingRef, Description: "Labour kept on site between stages of the work"}
	for taken[rates.Key(row.Ref)] {
		row.Ref += "*"
	}
	l := Preliminary{Row: row, Ref: row.Ref, Basis: Waiting, Quantity: one, Unit: measure.One,
		Explained: fmt.Sprintf("%s h kept by the programme and not priced in the items", money.Group(all, 2))}
	return p.cast(l, rates.OfPreliminaries, costs...), true
}

// idle is the time of every trade kept and not priced, by name, and all of it.
func (p *pricing) idle() (costs []Cost, all decimal.Decimal) {
	hours := map[string]decimal.Decimal{}
	var names []string
	for _, s := range p.prog.Stages {
		for _, t := range s.Trades {
			if t.Idle.Sign() <= 0 {
				continue
			}
			k := rates.Key(t.Trade)
			if _, seen := hours[k]; !seen {
				names = append(names, k)
			}
			hours[k] = hours[k].Add(t.Idle)
			all = all.Add(t.Idle)
		}
	}
	slices.Sort(names)
	for _, n := range names {
		if trade, ok := p.trade(n, p.job.Cell("Price waiting time")); ok {
			costs = append(costs, Cost{Name: trade.Trade, Quantity: hours[n], Unit: measure.Hour, Rate: money.PriceOf(trade.Hour()), RateAt: trade.At})
		}
	}
	return costs, all
}

// tenths is the time of all trades in a tenth of a week of every stage they
// work in: what rounding a stage up may keep and not price.
func (p *pricing) tenths() decimal.Decimal {
	var men decimal.Decimal
	for _, s := range p.prog.Stages {
		for _, t := range s.Trades {
			men = men.Add(t.Men)
		}
	}
	return men.Mul(p.prog.Output).Shift(-1)
}

// cast completes a line from what one unit of it costs.
func (p *pricing) cast(l Preliminary, kind rates.Kind, costs ...Cost) Preliminary {
	for i := range costs {
		c := &costs[i]
		c.Ref, c.Kind, c.UseAt = l.Row.Ref, kind, l.Row.At
		c.Cost = c.Rate.Times(c.Quantity)
		l.Cost = l.Cost.Add(c.Cost)
	}
	if !l.Cost.IsZero() {
		p.kindsUsed[kind] = true
	}
	l.Costs = costs
	l.Kind = addTo(p.job, kind, l.Cost)
	l.Rate = l.Kind.Sum
	l.Amount = l.Rate.Times(l.Quantity)
	l.VAT = p.code(l.Row.VAT)
	return l
}
