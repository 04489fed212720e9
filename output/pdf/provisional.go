package pdf

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/risk"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// provisional gathers all that is not settled by the offer, and why. The lines
// stand in the bill with their rates; here with their amounts alone.
func (t *tender) provisional() {
	t.begin("What is provisional, and why")
	began := len(t.here().marks) + len(t.pages)
	b := t.Bill

	t.settled()
	if lines := t.provisionalLines(); len(lines) > 0 {
		t.gather("Provisional quantities", "provisional quantities", t.money("Amount"), func(table *table) {
			t.amounts(table, lines)
			table.add(totalRow, cell{}, styled("Provisional quantities", cellBold, 1), styled(figures(t.quantitiesAlone()), cellBold, 1))
		})
	}
	t.provisionalSums()
	if len(b.Dayworks) > 0 {
		t.gather("Dayworks", "provisional dayworks", t.money("Amount"), func(table *table) {
			for _, d := range b.Dayworks {
				note := quantity(d.Quantity, measure.Hour) + " h at " + t.sum(d.Rate)
				if !d.Hours {
					note = t.sum(d.Sum) + " and " + percent(d.Addition)
				}
				table.add(plainRow, cell{}, words(capital(d.Of), note), words(figures(d.Total), ""))
			}
			table.add(totalRow, cell{}, styled("Dayworks", cellBold, 1), styled(figures(t.dayworksAlone()), cellBold, 1))
		})
	}
	t.held()
	t.list("Options", "provisional options", t.options())
	t.ratesAsked()
	owner := t.ownerTimber()
	t.list("Timber by owner", "provisional owner", t.billLines(func(l bill.Line) bool { return owner[l.Ref] }))

	if len(t.here().marks)+len(t.pages) == began {
		t.clause(text("provisional none")...)
	}
}

// provisionalLines are the lines that are measured again when the work is done.
func (t *tender) provisionalLines() []bill.Line {
	return t.billLines(func(l bill.Line) bool { return l.Carried == job.Provisional })
}

// options are the lines that the client may take up.
func (t *tender) options() []bill.Line {
	return t.billLines(func(l bill.Line) bool { return l.Carried == job.Option })
}

// settled says how much of the sum is not settled, and how much of it is.
func (t *tender) settled() {
	b := t.Bill
	table := t.table(column{head: "Part of the sum, before value added tax", share: 1}, column{head: t.money("Amount"), align: pointed})
	var open money.Amount
	part := func(name string, a money.Amount, there bool) {
		if there {
			open = open.Add(a)
			table.add(plainRow, words(name, ""), words(figures(a), ""))
		}
	}
	part("Provisional quantities, at the rates of the bill", t.quantitiesAlone(), len(t.provisionalLines()) > 0)
	part("Provisional sums, prime cost sums and quotations", t.sumsAlone(), len(b.Sums) > 0)
	part("Dayworks", t.dayworksAlone(), len(b.Dayworks) > 0)
	part("Contingency", b.Held, t.contingencyShown())
	if len(table.rows) == 0 {
		return
	}
	table.add(totalRow, styled("Provisional", cellBold, 1), styled(figures(open), cellBold, 1))
	table.add(plainRow, words("All else, not provisional", ""), words(figures(b.Net.Sub(open)), ""))
	table.add(totalRow, styled("Total before value added tax", cellBold, 1), styled(figures(b.Net), cellBold, 1))
	t.need(table.depth() + 12)
	t.clause(text("provisional")...)
	table.set()
}

// quantitiesAlone is what the provisional quantities come to.
func (t *tender) quantitiesAlone() money.Amount {
	return added(t.provisionalLines(), func(l bill.Line) money.Amount { return l.Amount })
}

// gather is a heading, the reason, and a table of items, what they are, and
// their amounts or rates.
func (t *tender) gather(head, reason, figure string, rows func(*table)) {
	table := t.table(column{head: "Item"}, column{head: "Description", share: 1}, column{head: figure, align: pointed})
	table.band = head
	rows(table)
	t.headed(head, table, text(reason)...)
}

// list gathers lines of the bill.
func (t *tender) list(head, reason string, lines []bill.Line) {
	if len(lines) > 0 {
		t.gather(head, reason, t.money("Amount"), func(table *table) { t.amounts(table, lines) })
	}
}

// amounts are lines of the bill with their quantities and rates in words.
func (t *tender) amounts(table *table, lines []bill.Line) {
	for _, l := range lines {
		amount, note := figures(l.Amount), quantity(l.Quantity, l.Unit)+" "+unit(l.Unit)+" at "+t.sum(l.Rate)
		if l.Carried == job.RateOnly {
			amount, note = "rate only", "at "+t.sum(l.Rate)+" for one "+unit(l.Unit)
		}
		table.add(plainRow, words(l.Ref, ""), words(typeset(l.Description), note), words(amount, ""))
	}
}

// ratesAsked are the lines of which only the rate is asked.
func (t *tender) ratesAsked() {
	lines := t.billLines(func(l bill.Line) bool { return l.Carried == job.RateOnly })
	if len(lines) == 0 {
		return
	}
	t.gather("Rates asked", "provisional rates", t.money("Rate"), func(table *table) {
		for _, l := range lines {
			table.add(plainRow, words(l.Ref, ""), words(typeset(l.Description), "for one "+unit(l.Unit)), words(figures(l.Rate), ""))
		}
	})
}

func (t *tender) provisionalSums() {
	if len(t.Bill.Sums) == 0 {
		return
	}
	t.gather("Provisional sums, prime cost sums and quotations", "provisional sums", t.money("Amount"), func(table *table) {
		for _, s := range t.Bill.Sums {
			note := sumKind(s)
			if with := sumWith(s); with != "" {
				note += ": " + t.sum(s.Amount) + " with " + with
			}
			table.add(plainRow, words(s.Ref, ""), words(typeset(s.Description), note), words(figures(s.Total), ""))
		}
		table.add(totalRow, cell{}, styled("Sums and quotations", cellBold, 1), styled(figures(t.sumsAlone()), cellBold, 1))
	})
}

// sumWith is what is put to a sum, in words; blank where nothing is.
func sumWith(s bill.SumLine) string {
	switch {
	case !s.ProfitSum.IsZero() && !s.Attendance.IsZero():
		return "profit and attendance"
	case !s.ProfitSum.IsZero():
		return "profit"
	case !s.Attendance.IsZero():
		return "attendance"
	}
	return ""
}

// sumKind is the kind of a sum as the tender has it.
func sumKind(s bill.SumLine) string {
	switch s.Kind {
	case job.Defined:
		return "provisional sum, defined"
	case job.Undefined:
		return "provisional sum, undefined"
	case job.PrimeCost:
		return "prime cost sum"
	}
	return string(s.Kind)
}

// held is the contingency, where the client sees it, with the work that may be
// wanted.
func (t *tender) held() {
	if !t.contingencyShown() {
		return
	}
	if s := t.Contingency.Simulation; s != nil {
		t.drawn(s)
		return
	}
	reason := "provisional contingency plain"
	if len(t.Bill.Contingency.Risks) > 0 {
		reason = "provisional contingency"
	}
	t.gather("Contingency", reason, t.money("Amount"), func(table *table) {
		c := t.Bill.Contingency
		if len(c.Parts) > 0 && len(c.Risks) > 0 {
			shares := added(c.Parts, func(p bill.ContingencyPart) money.Amount { return p.Amount })
			table.add(plainRow, cell{}, words("Percentages of what is priced", "as set out in the bill"), words(figures(shares), ""))
		}
		for _, r := range c.Risks {
			table.add(plainRow, words(r.Ref, ""), words(typeset(r.Description), "a chance of "+percent(r.Chance)+" of "+t.sum(r.Amount)), words(figures(r.Held), ""))
		}
		table.add(totalRow, styled("D", cellBold, 1), styled("Contingency in the sum", cellBold, 1), styled(figures(t.Bill.Held), cellBold, 1))
	})
}

// drawn is a simulated contingency: how it was found, what may come about, each
// with its chance, and the one sum for all of it. What any of it would cost is
// the yard's own.
func (t *tender) drawn(s *risk.Simulation) {
	table := t.table(column{head: "Item"}, column{head: "What may come about", share: 1}, column{head: "Chance", align: flush}, column{head: t.money("Amount"), align: pointed})
	table.band = "Contingency"
	chance := alike(s.Rows, func(u risk.Uncertain) money.Percent {
		if u.Source == risk.Ranged {
			return money.Percent{} // not shown
		}
		return u.Chance
	})
	for _, u := range s.Rows {
		if u.Source != risk.Ranged {
			table.add(plainRow, words(u.Ref, ""), words(typeset(u.Description), ""), words(chance(u.Chance), ""), cell{})
		}
	}
	table.add(totalRow, styled("D", cellBold, 1), styled("Contingency in the sum", cellBold, 2), styled(figures(t.Bill.Held), cellBold, 1))
	t.headed("Contingency", table, text("provisional contingency simulated",
		"{draws}", money.Group(decimal.NewFromInt(int64(s.Draws)), 0), "{confidence}", percent(s.Confidence))...)
}
