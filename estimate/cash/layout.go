package cash

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// layout is a bill while it is laid out: as many grains as it takes, of which
// every figure is a sum.
type layout struct {
	job      *job.Job
	closed   []spell
	whole    spell // the work from its start to its end
	stages   map[string]spell
	names    []string // of the stages as their sheet has them, in its order
	spelt    map[string]string
	spells   []spell // of the months in which there is work
	grains   []grain
	read     map[string][]share // of a Funding
	funds    map[string]string  // as they are first spelt, by key
	pooled   []share            // of what names no fund of its own
	problems problem.List
}

// grain is a part of the bill that falls in one month, to one fund, at one code.
type grain struct {
	of     Of
	name   string // of the stage
	fund   string
	code   string // of VAT
	month  int
	amount money.Amount
	named  bool // the fund is named by the row itself
}

// piece is a line of the bill before it is laid out.
type piece struct {
	of      Of
	name    string
	over    spell
	working bool // closed days do not count
	code    string
	amount  money.Amount
	deposit money.Amount    // in the amount
	ordered decimal.Decimal // when the deposit falls
}

func begin(j *job.Job, g programme.Programme, p price.Priced) *layout {
	l := &layout{job: j, closed: closures(j), stages: map[string]spell{}, spelt: map[string]string{}, read: map[string][]share{}, funds: map[string]string{}}
	end := g.Weeks.Mul(week)
	for _, s := range g.Stages {
		k := rates.Key(s.Stage.Stage)
		if _, twice := l.stages[k]; !twice {
			l.stages[k] = spell{s.Earliest.Mul(week), s.EarliestFinish.Mul(week)}
			l.names, l.spelt[k] = append(l.names, s.Stage.Stage), s.Stage.Stage
		}
	}
	for _, r := range p.Preliminaries {
		end = decimal.Max(end, l.span(r).to)
	}
	l.whole = spell{decimal.Zero, end}
	if end.IsZero() {
		l.whole.to = begins(1)
	}
	for n := range l.monthAt(l.whole.to) + 1 {
		if m := l.monthly(n); n == 0 || m.from.LessThan(l.whole.to) {
			l.spells = append(l.spells, m)
		}
	}
	return l
}

// stage is when a stage lies; all of the work where it is not known.
func (l *layout) stage(name string) (spell, bool) {
	s, ok := l.stages[rates.Key(name)]
	return s, ok && name != ""
}

// span is when a preliminary lies that runs with time, and the beginning of it
// for one that does not.
func (l *layout) span(p price.Preliminary) spell {
	s := l.whole
	if from, ok := l.stage(p.Row.FromStage); ok {
		s.from = from.from
	}
	if to, ok := l.stage(p.Row.ToStage); ok {
		s.to = to.to
	}
	if p.Row.WeeksGiven {
		s.to = s.from.Add(p.Row.Weeks.Mul(week))
	}
	s.to = decimal.Max(s.from, s.to)
	return s
}

// work lays out the measured work: each row in its own stage.
func (l *layout) work(p price.Priced, b bill.Bill) {
	items := make(map[string]price.Item, len(p.Items))
	for _, i := range p.Items {
		items[i.Ref] = i
	}
	for _, s := range b.Sections {
		for _, line := range s.Lines {
			if !line.Carried.InTotal() {
				continue
			}
			i := items[line.Ref]
			for n, amount := range i.ByRow(line.Amount) {
				at := piece{of: OfNoStage, name: string(OfNoStage), over: l.whole, working: true, code: line.VAT, amount: amount}
				if name := l.job.StageOf(i.Rows[n]); name != "" {
					if over, ok := l.stage(name); ok {
						at.of, at.name, at.over = OfStage, l.spelt[rates.Key(name)], over
					}
				}
				l.lay(at, l.funding(line.Funding, i.Rows[n].At), true)
			}
		}
	}
}

// sums lays out the sums.
func (l *layout) sums(b bill.Bill) {
	rows := map[string]job.Sum{}
	for _, r := range l.job.Sums {
		rows[r.Ref] = r
	}
	for _, s := range b.Sums {
		r := rows[s.Ref]
		over, ok := l.stage(r.Stage)
		if !ok {
			over = l.whole
		}
		at := piece{of: OfSums, name: string(OfSums), over: over, working: true, code: s.VAT, amount: s.Total}
		at.deposit, at.ordered = deposit(r), decimal.Max(l.ordered(r), decimal.Zero)
		l.lay(at, l.funding(r.Funding, r.At), true)
	}
}

// deposit is what is paid on a sum when it is ordered.
func deposit(r job.Sum) money.Amount { return r.Amount.Amount().Percent(r.Deposit) }

// ordered is when a sum must be ordered, to be there when its stage begins.
func (l *layout) ordered(r job.Sum) decimal.Decimal {
	var begins decimal.Decimal
	if s, ok := l.stage(r.Stage); ok {
		begins = s.from
	}
	return begins.Sub(r.LeadWeeks.Mul(week))
}

// preliminaries lays out the preliminaries.
func (l *layout) preliminaries(p price.Priced, b bill.Bill) {
	for n, line := range b.Preliminaries {
		r := p.Preliminaries[n]
		over := l.whole
		switch {
		case r.Basis == price.Fixed:
			over = l.span(r)
			over.to = over.from
		case r.Unit != measure.One:
			over = l.span(r)
		}
		at := piece{of: OfPrelims, name: string(OfPrelims), over: over, code: line.VAT, amount: line.Amount}
		if line.Funding != "" {
			l.lay(at, l.funding(line.Funding, r.Row.At), true)
		} else {
			l.lay(at, l.pooled, false)
		}
	}
}

// rest lays out dayworks and the contingency, which may fall at any time.
func (l *layout) rest(b bill.Bill) {
	for _, d := range b.Dayworks {
		l.lay(piece{of: OfDayworks, name: string(OfDayworks), over: l.whole, working: true, code: l.job.VATCode, amount: d.Total}, l.pooled, false)
	}
	l.lay(piece{of: OfContingency, name: string(OfContingency), over: l.whole, working: true, code: l.job.VATCode, amount: b.Held}, l.pooled, false)
}

// lay shares a piece over its funds and each part over the months. What a fund
// bears of a deposit comes out of its part, so that a deposit moves nothing from
// one fund to another.
func (l *layout) lay(p piece, shares []share, named bool) {
	if p.amount.IsZero() {
		return
	}
	weights := make([]decimal.Decimal, len(l.spells))
	for n, m := range l.spells {
		part := p.over.within(m)
		if weights[n] = part.length(); p.working {
			weights[n] = l.open(part)
		}
	}
	parts := make([]decimal.Decimal, len(shares))
	for n, s := range shares {
		parts[n] = s.part
	}
	amounts, ok := money.Share(p.amount, parts)
	if !ok {
		panic(fmt.Sprintf("cash: %s of %s is of no fund, and not of none", p.of, p.amount))
	}
	deposits, ok := money.Share(p.deposit, parts)
	if !ok {
		panic(fmt.Sprintf("cash: a deposit of %s is of no fund, and not of none", p.deposit))
	}
	for n, a := range amounts {
		if d := deposits[n]; !d.IsZero() {
			l.grains = append(l.grains, grain{OfDeposits, string(OfDeposits), shares[n].fund, p.code, l.falls(p.ordered), d, named})
			a = a.Sub(d)
		}
		months, ok := money.Share(a, weights)
		if !ok { // it takes no time, or none that the yard is open
			months = make([]money.Amount, len(l.spells))
			months[l.falls(p.over.from)] = a
		}
		for m, v := range months {
			if !v.IsZero() {
				l.grains = append(l.grains, grain{p.of, p.name, shares[n].fund, p.code, m, v, named})
			}
		}
	}
}

// falls is the month of the work in which a time falls.
func (l *layout) falls(at decimal.Decimal) int {
	return min(l.monthAt(at), len(l.spells)-1)
}

// rises lays out price rises as the value they are reckoned on: by month, and
// in it by fund.
func (l *layout) rises(b bill.Bill) {
	if b.Rises.IsZero() {
		return
	}
	type part struct {
		month int
		fund  string
	}
	var parts []part
	var weights []decimal.Decimal
	for m := range l.spells {
		for _, f := range l.order() {
			var on decimal.Decimal
			for _, g := range l.grains {
				if g.month == m && g.fund == f && g.of != OfSums && g.of != OfDeposits && g.of != OfDayworks {
					on = on.Add(g.amount.Decimal())
				}
			}
			parts, weights = append(parts, part{m, f}), append(weights, on)
		}
	}
	amounts, ok := money.Share(b.Rises, weights)
	if !ok {
		panic(fmt.Sprintf("cash: price rises of %s on nothing", b.Rises))
	}
	for n, v := range amounts {
		if !v.IsZero() {
			l.grains = append(l.grains, grain{of: OfRises, name: string(OfRises), fund: parts[n].fund, code: l.job.VATCode, month: parts[n].month, amount: v})
		}
	}
}

// mustReach stops where the grains are not the bill: the fault would be ours.
func (l *layout) mustReach(net money.Amount) {
	var all money.Amount
	for _, g := range l.grains {
		all = all.Add(g.amount)
	}
	if !all.Equal(net) {
		panic(fmt.Sprintf("cash: the parts come to %s and the bill to %s", all, net))
	}
}
