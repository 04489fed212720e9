package explain

import (
	"fmt"
	"slices"

	"futtock/estimate/cash"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// cash is the bill in time: what each month is worth, and when it is paid.
func (m maker) cash() Line {
	c := m.Cash
	how := "before VAT; work is valued at the end of each month"
	if w := m.Job.PaymentWeeks; !w.IsZero() {
		how += fmt.Sprintf(" and paid %s weeks later", w)
	}
	out := words("Cash, by months", how, m.Job.Cell("Payment weeks"))
	var worth, due []Line
	var before money.Amount
	for n, month := range c.Months {
		if !month.Working {
			continue
		}
		worth = append(worth, m.money(monthWords(month), month.Value, fmt.Sprintf("%s so far, %s of all", month.Cumulative.Grouped(), month.CumulativeShare), origin.Cell{}, m.parts(n)...))
		so := fmt.Sprintf("%s so far - %s kept back - %s due before; paid %s", month.Cumulative.Grouped(), month.Retention.Grouped(), before.Grouped(), paidWords(month))
		due = append(due, m.money(monthWords(month), month.Due, so, origin.Cell{}))
		before = before.Add(month.Due)
	}
	if !c.AtMakingGood.IsZero() {
		due = append(due, m.money("When defects are made good", c.AtMakingGood, fmt.Sprintf("half of %s kept back; the other half, %s, is released with the last valuation; %s", c.Retained.Grouped(), c.AtCompletion.Grouped(), m.releaseWords()), m.Job.Cell("Retention %")))
	}
	most := slices.MaxFunc(c.Months, func(a, b cash.Month) int { return a.Outstanding.Cmp(b.Outstanding) })
	var deposits []Line
	var ahead money.Amount
	for _, o := range c.Orders {
		if !o.Deposit.IsZero() {
			ahead = ahead.Add(o.Deposit)
			deposits = append(deposits, m.money(o.Row.Ref+"  "+o.Row.Description, o.Deposit, m.depositWords(o), o.Row.DepositAt))
		}
	}
	out.Under = []Line{
		m.money("Value of the work", c.Net, Added, origin.Cell{}, worth...),
		m.money("Due", c.Net, Added, origin.Cell{}, due...),
		m.money("Most outstanding", most.Outstanding, fmt.Sprintf("%s valued less %s received, at the end of %s", most.Cumulative.Grouped(), most.ReceivedSoFar.Grouped(), monthWords(most)), origin.Cell{}),
	}
	if len(deposits) > 0 {
		out.Under = append(out.Under, m.money("Deposits on orders, in the value", ahead, Added, origin.Cell{}, deposits...))
	}
	return out
}

// releaseWords is when the second half of what is kept back is let go.
func (m maker) releaseWords() string {
	r := m.Cash.MadeGood
	if r == nil {
		return "no date, for the Job has no Defects period"
	}
	how := fmt.Sprintf("%s after the end of the works, at week %s", counted(m.Job.DefectsMonths, "month"), r.At)
	if !r.On.IsZero() {
		how += ", " + day(r.On)
	}
	return how
}

// depositWords is what a deposit is of, and when it falls.
func (m maker) depositWords(o cash.Order) string {
	how := fmt.Sprintf("%s of %s, when it is ordered: week %s", o.Row.Deposit, o.Row.Amount.Amount().Grouped(), o.Week)
	if !o.Day.IsZero() {
		how += ", " + day(o.Day)
	}
	if o.Week.Sign() < 0 {
		how += ", which is before the start on site"
	}
	return how + "; valued in " + monthWords(m.Cash.Months[o.Month])
}

// parts is what a month is worth by stages and the other parts of the bill.
func (m maker) parts(month int) []Line {
	var out []Line
	for _, l := range m.Cash.Lines {
		if !l.Months[month].IsZero() {
			out = append(out, m.money(l.Name, l.Months[month], "", origin.Cell{}))
		}
	}
	return out
}

// fund is what one pot of money is drawn for.
func (m maker) fund(f cash.Fund) Line {
	out := words("Fund "+f.Fund, "what it is drawn for, before VAT", origin.Cell{})
	var months []Line
	for n, month := range m.Cash.Months {
		if !f.Months[n].IsZero() {
			months = append(months, m.money(monthWords(month), f.Months[n], "", origin.Cell{}))
		}
	}
	out.Under = []Line{
		m.money("By months", f.Total, Added, origin.Cell{}, months...),
		m.money("By what names it", f.Total, Added, origin.Cell{},
			m.money("Lines that name it", f.Named, "", origin.Cell{}),
			m.money("Its part of the rest", f.Shared, "preliminaries that name no fund, dayworks, contingency and price rises, pro rata", origin.Cell{})),
	}
	return out
}

// monthWords is a month by its name, or by its weeks where no start is known.
func monthWords(m cash.Month) string {
	if m.Begins.IsZero() {
		return fmt.Sprintf("weeks %s to %s", m.From, m.To)
	}
	return m.Begins.Format("January 2006")
}

// paidWords is when a valuation is paid.
func paidWords(m cash.Month) string {
	if m.PaidOn.IsZero() {
		return fmt.Sprintf("at week %s", m.PaidAt)
	}
	return day(m.PaidOn)
}
