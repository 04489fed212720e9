package pdf

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/risk"
	"futtock/rates/money"
)

// provisional gathers all that is not settled by the offer, and why. The lines
// stand in the bill with their rates; here with their amounts alone.
func (t *tender) provisional() {
	t.begin("What is provisional, and why")
	began := len(t.here().marks) + len(t.pages)
	b := t.Bill

	t.list("Provisional quantities", "provisional quantities", t.provisionalLines())
	t.provisionalSums()
	if len(b.Dayworks) > 0 {
		t.gather("Dayworks", "provisional dayworks", func(table *table) {
			for _, d := range b.Dayworks {
				table.add(plainRow, styled(capital(d.Of), cellText, 2), words(figures(d.Total), ""))
			}
		})
	}
	t.held()
	t.list("Options", "provisional options", t.billLines(func(l bill.Line) bool { return l.Carried == job.Option }))
	t.list("Rates asked", "provisional rates", t.billLines(func(l bill.Line) bool { return l.Carried == job.RateOnly }))
	owner := t.ownerTimber()
	t.list("Timber by owner", "provisional owner", t.billLines(func(l bill.Line) bool { return owner[l.Ref] }))

	if len(t.here().marks)+len(t.pages) == began {
		t.say(body, text("provisional none")...)
	}
}

// provisionalLines are the lines that are measured again when the work is done.
func (t *tender) provisionalLines() []bill.Line {
	return t.billLines(func(l bill.Line) bool { return l.Carried == job.Provisional })
}

// gather is a heading, the reason, and a table of items, what they are, and
// their amounts.
func (t *tender) gather(head, reason string, rows func(*table)) {
	table := t.table(column{head: "Item"}, column{head: "Description", share: 1}, column{head: t.money("Amount"), align: pointed})
	rows(table)
	t.need(table.depth() + 26)
	t.head(head)
	t.say(body, text(reason)...)
	table.set()
}

// list gathers lines of the bill.
func (t *tender) list(head, reason string, lines []bill.Line) {
	if len(lines) == 0 {
		return
	}
	t.gather(head, reason, func(table *table) {
		for _, l := range lines {
			amount := figures(l.Amount)
			note := quantity(l.Quantity, l.Unit) + " " + unit(l.Unit)
			if l.Carried == job.RateOnly {
				amount, note = "rate only", "rate "+t.sum(l.Rate)+" per "+unit(l.Unit)
			}
			table.add(plainRow, words(l.Ref, ""), words(typeset(l.Description), note), words(amount, ""))
		}
	})
}

func (t *tender) provisionalSums() {
	if len(t.Bill.Sums) == 0 {
		return
	}
	t.gather("Provisional sums, prime cost sums and quotations", "provisional sums", func(table *table) {
		for _, s := range t.Bill.Sums {
			table.add(plainRow, words(s.Ref, ""), words(typeset(s.Description), sumKind(s)), words(figures(s.Total), ""))
		}
	})
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
	t.gather("Contingency", reason, func(table *table) {
		for _, r := range t.Bill.Contingency.Risks {
			table.add(plainRow, words(r.Ref, ""), words(typeset(r.Description), "a chance of "+percent(r.Chance)+" of "+t.sum(r.Amount)), words(figures(r.Held), ""))
		}
		in := "Contingency in the sum"
		if len(t.Bill.Contingency.Parts) > 0 && len(t.Bill.Contingency.Risks) > 0 {
			in += ", with the percentages set out in the bill" // else the column would seem not to cast
		}
		table.add(totalRow, styled("D", cellBold, 1), styled(in, cellBold, 1), styled(figures(t.Bill.Held), cellBold, 1))
	})
}

// drawn is a simulated contingency: how it was found, what may come about, each
// with its chance, and the one sum for all of it. What any of it would cost is
// the yard's own.
func (t *tender) drawn(s *risk.Simulation) {
	table := t.table(column{head: "Item"}, column{head: "What may come about", share: 1}, column{head: "Chance", align: flush}, column{head: t.money("Amount"), align: pointed})
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
	t.need(table.depth() + 40)
	t.head("Contingency")
	t.say(body, text("provisional contingency simulated", "{draws}", money.Group(decimal.NewFromInt(int64(s.Draws)), 0), "{confidence}", percent(s.Confidence))...)
	table.set()
}
