package pdf

import (
	"slices"
	"strconv"

	"futtock/estimate/cash"
	"futtock/rates/money"
)

// payments is what falls due when: the valuations month by month, a drawing of
// them, and what each fund is drawn for. Without a programme there is nothing to
// lay them out by.
func (t *tender) payments() {
	c := t.Cash
	if len(t.Programme.Stages) == 0 || len(c.Months) == 0 {
		return
	}
	t.begin("Valuations and payments")
	t.clause(text("payments", "{vat}", t.sum(c.VAT))...)
	if !c.Retained.IsZero() {
		t.clause(text("payments retention", "{retention}", percent(t.Job.Retention), "{rest}", t.sum(c.AtMakingGood))...)
		if g := c.MadeGood; g == nil {
			t.clause(text("payments release undated")...)
		} else {
			t.clause(text("payments release", "{months}", months(t.Job.DefectsMonths), "{day}", releaseDay(g))...)
		}
	}
	deposits := t.deposits()
	if !deposits.IsZero() {
		t.clause(text("payments deposits", "{deposits}", t.sum(deposits))...)
	}
	if !c.Dated {
		t.clause(text("payments undated")...)
	}
	t.valuations()
	if !deposits.IsZero() {
		t.ordered()
	}
	t.curve()
	t.funds()
}

// deposits is all that is asked ahead on sums.
func (t *tender) deposits() money.Amount {
	return added(t.Cash.Orders, func(o cash.Order) money.Amount { return o.Deposit })
}

// ordered is the sums on which a deposit is asked, and when they are ordered.
func (t *tender) ordered() {
	table := t.table(column{head: "Item"}, column{head: "Description", share: 1}, column{head: "Order by", align: flush}, column{head: "Valued in", align: flush},
		column{head: "Of quoted", align: flush}, column{head: t.money("Deposit"), align: pointed})
	percent := alike(t.Cash.Orders, func(o cash.Order) money.Percent { return o.Row.Deposit })
	for _, o := range t.Cash.Orders {
		if !o.Deposit.IsZero() {
			table.add(plainRow, words(o.Row.Ref, ""), words(typeset(o.Row.Description), ""), words(orderName(o), ""), words(monthName(t.Cash.Months[o.Month]), ""), words(percent(o.Row.Deposit), ""), words(figures(o.Deposit), ""))
		}
	}
	table.add(totalRow, styled("Deposits on orders, in the values above", cellBold, 5), styled(figures(t.deposits()), cellBold, 1))
	t.headed("Deposits on orders", table)
}

// valuations is the months in which work is valued.
func (t *tender) valuations() {
	c := t.Cash
	kept := !c.Retained.IsZero()
	columns := []column{{head: "Month", share: 1}, {head: t.money("Value of work"), align: pointed}, {head: t.money("Valued so far"), align: pointed}, {head: "Of all", align: pointed}}
	if kept {
		columns = append(columns, column{head: t.money("Held so far"), align: pointed})
	}
	table := t.table(append(columns, column{head: t.money("Due"), align: pointed}, column{head: "Paid by", align: flush})...)
	table.band = "Valuations"
	line := func(kind rowKind, s style, name, value, far, share, back, due, paid string) {
		texts := []string{name, value, far, share, back, due, paid}
		if !kept {
			texts = slices.Delete(texts, 4, 5)
		}
		var cells []cell
		for _, text := range texts {
			cells = append(cells, styled(text, s, 1))
		}
		table.add(kind, cells...)
	}
	for _, m := range c.Months {
		if m.Working {
			line(plainRow, cellText, monthName(m), figures(m.Value), figures(m.Cumulative), oneTenth(m.CumulativeShare), figures(m.Retention), figures(m.Due), paidName(m))
		}
	}
	if kept {
		on := ""
		if g := c.MadeGood; g != nil {
			on = releaseName(g)
		}
		line(plainRow, cellText, "When defects are made good", "", "", "", figures(c.Retained.Sub(c.AtCompletion).Sub(c.AtMakingGood)), figures(c.AtMakingGood), on)
	}
	line(totalRow, cellBold, "Total before value added tax", figures(c.Net), "", "", "", figures(c.Net), "")
	table.set()
}

// mostFunds is how many funds stand side by side in one table.
const mostFunds = 4

// funds is what each fund is drawn for in the months, where any is named.
func (t *tender) funds() {
	funds := t.Cash.Funds
	if !slices.ContainsFunc(funds, func(f cash.Fund) bool { return f.Fund != "" }) {
		return
	}
	for n, some := range slices.Collect(slices.Chunk(funds, mostFunds)) {
		table := t.fundTable(some)
		if n == 0 {
			t.headed("By fund", table, text("payments funds")...)
		} else {
			table.set()
		}
	}
}

func (t *tender) fundTable(funds []cash.Fund) *table {
	columns := []column{{head: "Month", share: 1}}
	for _, f := range funds {
		name := capital(f.Fund)
		if name == "" {
			name = "No fund named"
		}
		columns = append(columns, column{head: t.money(name), align: pointed})
	}
	table := t.table(columns...)
	table.band = "By fund"
	line := func(kind rowKind, s style, name string, of func(cash.Fund) string) {
		cells := []cell{styled(name, s, 1)}
		for _, f := range funds {
			cells = append(cells, styled(of(f), s, 1))
		}
		table.add(kind, cells...)
	}
	for n, m := range t.Cash.Months {
		if m.Working {
			line(plainRow, cellText, monthName(m), func(f cash.Fund) string { return figures(f.Months[n]) })
		}
	}
	line(totalRow, cellBold, "Total before value added tax", func(f cash.Fund) string { return figures(f.Total) })
	line(plainRow, cellText, "of which named by lines", func(f cash.Fund) string { return figures(f.Named) })
	line(plainRow, cellText, "of which a share of the rest", func(f cash.Fund) string { return figures(f.Shared) })
	return table
}

// monthName is a month of the calendar, or its weeks from the start on site.
func monthName(m cash.Month) string {
	if m.Begins.IsZero() {
		return "Weeks " + m.From.StringFixed(1) + " to " + m.To.StringFixed(1)
	}
	return m.Begins.Format("January\u00a02006")
}

// orderName is when a sum must be ordered.
func orderName(o cash.Order) string {
	if o.Day.IsZero() {
		return minus("week\u00a0" + o.Week.StringFixed(1))
	}
	return o.Day.Format("2\u00a0Jan\u00a02006")
}

// releaseDay is when the second half of the retention is let go, as prose has it.
func releaseDay(g *cash.Release) string {
	if g.On.IsZero() {
		return releaseName(g)
	}
	return day(g.On)
}

// releaseName is when the second half of the retention is let go.
func releaseName(g *cash.Release) string {
	if g.On.IsZero() {
		return "week\u00a0" + g.At.StringFixed(1)
	}
	return g.On.Format("2\u00a0Jan\u00a02006")
}

// months is a number of months in words.
func months(n int) string {
	if n == 1 {
		return "one month"
	}
	return strconv.Itoa(n) + " months"
}

// paidName is when a valuation is to be paid.
func paidName(m cash.Month) string {
	if m.PaidOn.IsZero() {
		return "week\u00a0" + m.PaidAt.StringFixed(1)
	}
	return m.PaidOn.Format("2\u00a0Jan\u00a02006")
}
