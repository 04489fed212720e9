package cash

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
)

// months sets up the months: those of the work, those until the last valuation
// is paid, and the month in which defects are made good, which may stand apart
// from the others: nothing moves between.
func (l *layout) months(out *Cash) {
	last := len(l.spells)
	for n := 0; n < last; n++ {
		out.Months = append(out.Months, l.month(n))
	}
	for n := last; n <= l.monthOf(l.paid(last-1)); n++ {
		out.Months = append(out.Months, l.month(n))
	}
	if l.job.DefectsMonths == 0 || half(out.Net.Percent(l.job.Retention)).IsZero() {
		return
	}
	at := l.madeGood()
	n := l.monthOf(at)
	if n >= len(out.Months) {
		out.Months = append(out.Months, l.month(n))
	}
	out.MadeGood = &Release{Month: min(n, len(out.Months)-1), At: weeks(at), On: l.lastDay(at)}
}

// madeGood is when defects are made good: so many months after the last day of
// the work, on the last day of a month that has no such day.
func (l *layout) madeGood() decimal.Decimal {
	if !l.dated() {
		return l.whole.to.Add(begins(l.job.DefectsMonths))
	}
	end := l.lastDay(l.whole.to)
	day := end.AddDate(0, l.job.DefectsMonths, 0)
	if day.Day() != end.Day() {
		day = day.AddDate(0, 0, -day.Day())
	}
	return days(l.job.Start, day).Add(decimal.New(1, 0))
}

// half is the half of what is kept back that is released once defects are made
// good, to the penny.
func half(a money.Amount) money.Amount { return a.Times(decimal.New(5, -1)) }

// month is one month without its money. The last valuation is made when the
// work is done, though that month goes on.
func (l *layout) month(n int) Month {
	s := l.monthly(n)
	m := Month{From: weeks(s.from), To: weeks(s.to), Working: n < len(l.spells), Begins: l.day(s.from)}
	if l.dated() {
		m.Ends = l.lastDay(s.to)
	}
	if m.Working {
		at := l.paid(n)
		m.PaidAt, m.PaidOn = weeks(at), l.lastDay(at)
	}
	return m
}

// paid is when the valuation of a month is paid: Payment weeks after it is made.
func (l *layout) paid(n int) decimal.Decimal {
	return decimal.Min(l.monthly(n).to, l.whole.to).Add(l.job.PaymentWeeks.Mul(week))
}

// value puts the work into its months, with the VAT of each code shared as the
// work that bears it.
func (l *layout) value(out *Cash, b bill.Bill) {
	for _, g := range l.grains {
		m := &out.Months[g.month]
		m.Value = m.Value.Add(g.amount)
	}
	for _, t := range b.VAT {
		weights := make([]decimal.Decimal, len(l.spells))
		for _, g := range l.grains {
			if rates.Same(g.code, t.Code) {
				weights[g.month] = weights[g.month].Add(g.amount.Decimal())
			}
		}
		taxes, ok := money.Share(t.VAT, weights)
		if !ok {
			taxes = []money.Amount{t.VAT} // on debits and credits that cancel out
		}
		for n, a := range taxes {
			out.Months[n].VAT = out.Months[n].VAT.Add(a)
		}
	}
}

// pay reckons what falls due at each valuation, what is kept back, and when
// the money comes in.
func (l *layout) pay(out *Cash) {
	var worth, due money.Amount
	last := len(l.spells) - 1
	for n := range out.Months {
		m := &out.Months[n]
		worth = worth.Add(m.Value)
		m.Cumulative = worth
		m.Retention = worth.Percent(l.job.Retention)
		if n >= last {
			out.Retained = worth.Percent(l.job.Retention)
			out.AtMakingGood = half(out.Retained)
			out.AtCompletion = out.Retained.Sub(out.AtMakingGood)
			m.Retention = out.AtMakingGood
		}
		if out.MadeGood != nil && n >= out.MadeGood.Month {
			m.Retention = money.Amount{}
		}
		m.Due = worth.Sub(m.Retention).Sub(due)
		due = due.Add(m.Due)
		if m.Working {
			in := &out.Months[l.monthOf(l.paid(n))]
			in.Received = in.Received.Add(m.Due)
		} else {
			m.Received = m.Received.Add(m.Due) // the release, on its day
		}
	}
	var received money.Amount
	for n := range out.Months {
		m := &out.Months[n]
		received = received.Add(m.Received)
		m.ReceivedSoFar = received
		m.Outstanding = m.Cumulative.Sub(received)
		m.CumulativeShare, m.ReceivedShare = part(m.Cumulative, out.Net), part(received, out.Net)
	}
}

// part is a sum as a share of another, to a tenth of a percent; nil where there
// is nothing to share.
func part(a, of money.Amount) money.Percent {
	if of.IsZero() {
		return money.Percent{}
	}
	return money.NewPercent(a.Decimal().Shift(2).DivRound(of.Decimal(), 1))
}

// nothing reports that no month holds anything.
func nothing(months []money.Amount) bool {
	return !slices.ContainsFunc(months, func(a money.Amount) bool { return !a.IsZero() })
}

// lines is the parts of the bill in the months.
func (l *layout) lines(months int) []Line {
	type key struct {
		of   Of
		name string
	}
	var list []Line
	places := map[key]int{}
	put := func(line Line) {
		places[key{line.Of, line.Name}] = len(list)
		line.Months = make([]money.Amount, months)
		list = append(list, line)
	}
	for _, n := range l.names {
		s, _ := l.stage(n)
		put(Line{Of: OfStage, Name: n, From: weeks(s.from), To: weeks(s.to)})
	}
	for _, of := range []Of{OfNoStage, OfPrelims, OfDeposits, OfSums, OfDayworks, OfContingency, OfRises} {
		put(Line{Of: of, Name: string(of)})
	}
	for _, g := range l.grains {
		line := &list[places[key{g.of, g.name}]]
		line.Months[g.month] = line.Months[g.month].Add(g.amount)
		line.Total = line.Total.Add(g.amount)
	}
	return slices.DeleteFunc(list, func(l Line) bool { return nothing(l.Months) })
}

// orders is when sums with Lead weeks or a deposit are to be ordered, for the
// beginning of their stage.
func (l *layout) orders() []Order {
	var list []Order
	for _, r := range l.job.Sums {
		paid := deposit(r)
		if r.LeadWeeks.Sign() <= 0 && paid.IsZero() {
			continue
		}
		at := l.ordered(r)
		list = append(list, Order{Row: r, Week: weeks(at), Day: l.day(at), Deposit: paid, Month: l.falls(decimal.Max(at, decimal.Zero))})
	}
	slices.SortStableFunc(list, func(a, b Order) int {
		return cmp.Or(a.Week.Cmp(b.Week), job.CompareRefs(a.Row.Ref, b.Row.Ref))
	})
	return list
}
