package sheets

import (
	"strings"
	"time"

	"github.com/shopspring/decimal"

	flow "futtock/estimate/cash"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the valuations.
const (
	cashMonth = iota + 1
	cashFrom
	cashTo
	cashValue
	cashCumulative
	cashShare
	cashRetention
	cashDue
	cashWeek
	cashDay
	cashReceived
	cashSoFar
	cashSoFarShare
	cashOutstanding
	cashVAT
)

// Columns of the tables that have the months across.
const (
	acrossName = iota + 1
	acrossOne
	acrossTwo
	acrossTotal
	acrossMonths // the first of them
)

// chartRows is how many rows are left free for a chart.
const chartRows = 20

// cashFlow lays the bill out in time: the valuations month by month, what they
// are made of, the funds they draw on, and what is to be ordered ahead. How
// much of a line falls in a month stays as priced; all that is reckoned from it
// is a formula.
func (w *working) cashFlow() {
	c := w.Cash
	if len(c.Lines) == 0 {
		return
	}
	p := w.page(cashSheet, "Cash flow", "Before VAT. What falls in a month is as priced; run again after a change elsewhere. A valuation is made at the end of every month of the work, and paid after the weeks below.",
		27, 12, 12, 14, 14, 13, 13, 13, 13, 13, 13, 14, 13, 14, 13)
	for len(p.Columns) < acrossMonths+w.worked()-1 {
		p.Columns = append(p.Columns, grid.Width{Chars: 13})
	}
	p.Freeze.Cols = 1
	retention := at(cashValue, p.next())
	p.add(words("Retention", plain), grid.Cell{}, grid.Cell{}, typed(w.Job.Retention.Fraction(), percentFormat(w.Job.Retention)))
	p.add(words("Weeks from valuation to payment", plain), grid.Cell{}, grid.Cell{}, chosen(w.Job.PaymentWeeks, asFine(w.Job.PaymentWeeks, 2)))
	if n := w.Job.DefectsMonths; n > 0 {
		p.add(words("Defects period, months", plain), grid.Cell{}, grid.Cell{}, chosen(decimal.NewFromInt(int64(n)), "0"))
	}
	p.gap()
	head := p.add(heads("Month", ">From week", ">To week", ">Value "+w.sign, ">Cumulative "+w.sign, ">Of the bill", ">Kept back "+w.sign, ">Due "+w.sign,
		">Paid in week", ">Paid on", ">Received "+w.sign, ">Received so far "+w.sign, ">Of the bill", ">Outstanding "+w.sign, ">VAT on value "+w.sign)...)
	first := p.next()
	last := first + len(c.Months) - 1
	total := last + 1
	for n := range c.Months {
		w.valuation(p, n, first, total, absolute(retention))
	}
	w.valued(p, first, last)
	p.gap()
	w.retained(p, at(cashCumulative, last), absolute(retention))
	p.gap()
	drawn := last
	if g := c.MadeGood; g != nil && !c.Months[g.Month].From.Equal(c.Months[g.Month-1].To) {
		drawn-- // it stands apart in time, and would stand beside the others
	}
	w.cashChart(p, head, first, drawn)

	p.Print.Breaks = append(p.Print.Breaks, p.next())
	var lines []across
	for _, l := range c.Lines {
		a := across{name: strings.ToUpper(l.Name[:1]) + l.Name[1:], months: l.Months, total: l.Total}
		if l.Of == flow.OfStage {
			a.name, a.one, a.two = l.Name, chosen(l.From, hoursFormat), chosen(l.To, hoursFormat)
		}
		lines = append(lines, a)
	}
	sums := w.across(p, lines, "What it is made of", ">From week", ">To week")
	for n, m := range c.Months[:w.worked()] {
		p.put(cashValue, first+n, sumBy(at(acrossMonths+n, sums), m.Value, plain))
	}
	var funds []across
	for _, f := range c.Funds {
		a := across{name: f.Fund, one: sum(f.Named, solved), two: sum(f.Shared, solved), months: f.Months, total: f.Total}
		if a.name == "" {
			a.name = "Of no fund"
		}
		funds = append(funds, a)
	}
	p.gap()
	w.across(p, funds, "Drawn from", ">Named "+w.sign, ">Shared "+w.sign)
	w.orders(p)
	p.Print.Area = "$A$1:" + absolute(at(max(cashVAT, acrossMonths+w.worked()-1), p.next()-1))
}

// worked is how many months there is work in: they alone stand across.
func (w *working) worked() int {
	n := 0
	for _, m := range w.Cash.Months {
		if m.Working {
			n++
		}
	}
	return n
}

// valuation is the row of one month. The value is filled in once its parts
// are placed.
func (w *working) valuation(p *page, n, first, total int, retention string) {
	c, r := w.Cash, first+n
	m := c.Months[n]
	previous := func(col int) string {
		if n == 0 {
			return ""
		}
		return at(col, r-1) + "+"
	}
	row := make([]grid.Cell, cashVAT)
	put := func(col int, c grid.Cell) { row[col-1] = c }
	put(cashMonth, words(w.month(n), plain))
	put(cashFrom, chosen(m.From, hoursFormat))
	put(cashTo, chosen(m.To, hoursFormat))
	if !m.Working {
		put(cashValue, sum(m.Value, solved))
	}
	put(cashCumulative, sumBy(pennies(previous(cashCumulative)+at(cashValue, r)), m.Cumulative, plain))
	kept := rounded(at(cashCumulative, r), retention)
	if !m.Working || n+1 == len(c.Months) || !c.Months[n+1].Working { // the work is done, and half is released
		kept = rounded(kept, "0.5")
	}
	put(cashRetention, sumBy(kept, m.Retention, plain))
	if g := c.MadeGood; g != nil && n >= g.Month { // and the other half
		put(cashRetention, sum(m.Retention, solved))
	}
	due := at(cashCumulative, r) + "-" + at(cashRetention, r)
	if n > 0 {
		due += "-" + at(cashCumulative, r-1) + "+" + at(cashRetention, r-1)
	}
	put(cashDue, sumBy(pennies(due), m.Due, plain))
	if m.Working {
		put(cashWeek, chosen(m.PaidAt, hoursFormat))
		put(cashDay, w.dayOf(m.PaidOn))
	}
	if g := c.MadeGood; g != nil && n == g.Month {
		put(cashWeek, chosen(g.At, hoursFormat))
		put(cashDay, w.dayOf(g.On))
	}
	put(cashReceived, w.received(n, first))
	put(cashSoFar, sumBy(pennies(previous(cashSoFar)+at(cashReceived, r)), m.ReceivedSoFar, plain))
	put(cashOutstanding, sumBy(pennies(at(cashCumulative, r)+"-"+at(cashSoFar, r)), m.Outstanding, plain))
	for _, s := range []struct {
		col, of int
		share   money.Percent
	}{{cashShare, cashCumulative, m.CumulativeShare}, {cashSoFarShare, cashSoFar, m.ReceivedShare}} {
		put(s.col, live("IF("+absolute(at(cashValue, total))+"=0,0,ROUND("+at(s.of, r)+"/"+absolute(at(cashValue, total))+",3))", s.share.Fraction(), "0.0%"))
	}
	put(cashVAT, sum(m.VAT, solved))
	p.add(row...)
}

// received is what comes in during a month: the valuations that are paid in it.
func (w *working) received(n, first int) grid.Cell {
	c := w.Cash
	m := c.Months[n]
	var paid []string
	var all money.Amount
	for k, v := range c.Months {
		in := v.PaidAt.GreaterThan(m.From) && v.PaidAt.LessThanOrEqual(m.To)
		if c.Dated {
			in = !v.PaidOn.Before(m.Begins) && !v.PaidOn.After(m.Ends)
		}
		if v.Working && in {
			paid, all = append(paid, at(cashDue, first+k)), all.Add(v.Due)
		}
	}
	if g := c.MadeGood; g != nil && n == g.Month {
		paid, all = append(paid, at(cashDue, first+n)), all.Add(m.Due)
	}
	if !all.Equal(m.Received) { // a week to a hundredth does not tell which month
		return sum(m.Received, solved)
	}
	return sumBy(addUp(paid...), m.Received, plain)
}

// valued is the row of totals of the valuations.
func (w *working) valued(p *page, first, last int) {
	c := w.Cash
	var due, received money.Amount
	for _, m := range c.Months {
		due, received = due.Add(m.Due), received.Add(m.Received)
	}
	row := blanks(cashVAT, strong)
	row[0] = words("In all", strong)
	for _, s := range []struct {
		col int
		sum money.Amount
	}{{cashValue, c.Net}, {cashDue, due}, {cashReceived, received}, {cashVAT, c.VAT}} {
		row[s.col-1] = sumBy(pennies(sumOf(s.col, first, last)), s.sum, strong)
	}
	p.add(row...)
}

// retained is what is kept back when the work is done, and when it is let go.
func (w *working) retained(p *page, worth, retention string) {
	c := w.Cash
	n := p.next()
	p.add(words("Kept back when the work is done", plain), grid.Cell{}, grid.Cell{}, sumBy(rounded(worth, retention), c.Retained, plain))
	when := []grid.Cell{words("of which no date is known: the Job has no Defects period", remark)}
	if g := c.MadeGood; g != nil {
		when = []grid.Cell{words("week", label), chosen(g.At, hoursFormat), w.dayOf(g.On)}
	}
	p.add(append([]grid.Cell{words("Released once defects are made good", plain), {}, {}, sumBy(rounded(at(cashValue, n), "0.5"), c.AtMakingGood, plain)}, when...)...)
	p.add(words("Released with the last valuation", plain), grid.Cell{}, grid.Cell{}, sumBy(pennies(at(cashValue, n)+"-"+at(cashValue, n+1)), c.AtCompletion, plain))
}

// cashChart draws what is valued and received by the end of every month.
func (w *working) cashChart(p *page, head, first, last int) {
	top := p.next()
	for range chartRows {
		p.gap()
	}
	p.gap()
	down := func(col int) string {
		return quoted(p.Name) + "!" + absolute(at(col, first)) + ":" + absolute(at(col, last))
	}
	series := func(col int) grid.Series {
		return grid.Series{Name: quoted(p.Name) + "!" + absolute(at(col, head)), Values: down(col)}
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Lines, Title: "Valued and received by the end of each month", Alt: "Lines of the value and of the money received, adding up month by month",
		Of: down(cashMonth), InTitle: w.sign, Series: []grid.Series{series(cashCumulative), series(cashSoFar)},
		Range: at(cashMonth, top) + ":" + at(cashSoFar, top+chartRows-1),
	})
}

// across is one row of a table that has the months across.
type across struct {
	name     string
	one, two grid.Cell
	months   []money.Amount
	total    money.Amount
}

// across lays out a table with the months across; it returns the row of its
// totals.
func (w *working) across(p *page, rows []across, names ...string) int {
	for n := range w.worked() {
		if n == 0 {
			names = append(names, ">In all "+w.sign)
		}
		names = append(names, ">"+w.month(n))
	}
	p.add(heads(names...)...)
	first := p.next()
	sums := make([]money.Amount, w.worked())
	end := acrossMonths + len(sums) - 1
	for _, a := range rows {
		n := p.next()
		row := []grid.Cell{words(a.name, wrapped), a.one, a.two,
			sumBy(pennies("SUM("+at(acrossMonths, n)+":"+at(end, n)+")"), a.total, plain)}
		for k, v := range a.months[:len(sums)] {
			sums[k] = sums[k].Add(v)
			if v.IsZero() {
				row = append(row, grid.Cell{})
				continue
			}
			row = append(row, sum(v, solved))
		}
		p.add(row...)
	}
	last := p.next() - 1
	row := blanks(end, strong)
	row[0] = words("In all", strong)
	row[acrossTotal-1] = sumBy(pennies(sumOf(acrossTotal, first, last)), w.Cash.Net, strong)
	for k, s := range sums {
		row[acrossMonths-1+k] = sumBy(pennies(sumOf(acrossMonths+k, first, last)), s, strong)
	}
	return p.add(row...)
}

// orders is the sums to be ordered ahead of the stage that wants them.
func (w *working) orders(p *page) {
	if len(w.Cash.Orders) == 0 {
		return
	}
	p.gap()
	p.add(heads("To be ordered ahead", ">Lead weeks", ">By week", ">By", "<Ref", "Stage", "", ">Deposit "+w.sign, ">Valued in")...)
	first := p.next()
	var deposits money.Amount
	for _, o := range w.Cash.Orders {
		row := []grid.Cell{words(o.Row.Description, wrapped), chosen(o.Row.LeadWeeks, asFine(o.Row.LeadWeeks, 2)), chosen(o.Week, hoursFormat), w.dayOf(o.Day),
			words(o.Row.Ref, beside), words(o.Row.Stage, wrapped), {}}
		if !o.Deposit.IsZero() {
			deposits = deposits.Add(o.Deposit)
			row = append(row, sum(o.Deposit, solved), words(w.month(o.Month), label))
		}
		p.merge(p.add(row...), cashShare, cashRetention)
	}
	note := "Weeks are counted from the start on site; below nil is before it."
	if !deposits.IsZero() {
		row := blanks(cashDue, strong)
		row[0], row[cashDue-1] = words("Deposits in all", strong), sumBy(pennies(sumOf(cashDue, first, p.next()-1)), deposits, strong)
		p.add(row...)
		note += " A deposit falls with the order, not before the start on site; the rest of its sum lies over the stage."
	}
	p.merge(p.add(words(note, remark)), 1, cashRetention)
}

// month is what a month is called.
func (w *working) month(n int) string {
	if w.Cash.Dated {
		return w.Cash.Months[n].Begins.Format("Jan 2006")
	}
	return "Month " + itoa(n+1)
}

// dayOf is a day as it was reckoned; blank where there is none.
func (w *working) dayOf(day time.Time) grid.Cell {
	if day.IsZero() {
		return grid.Cell{}
	}
	style := solved
	style.Format, style.Align = dayFormat, grid.Right
	return grid.Dated(day, style)
}
