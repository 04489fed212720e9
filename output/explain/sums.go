package explain

import (
	"fmt"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates/origin"
)

// sum is a provisional or prime cost sum, or a quotation.
func (m maker) sum(s price.Sum) Line {
	r := s.Row
	out := words("Sum "+r.Ref, r.Description, r.At)
	profit := m.money("Profit", s.Profit, "none: the row gives none", origin.Cell{})
	if !r.Profit.IsZero() {
		profit.How, profit.At = fmt.Sprintf("%s of %s, the row's own", r.Profit, s.Amount.Grouped()), m.Job.Under(r.At, "Profit %")
	}
	attendance := m.money("Attendance", s.Attendance, "none: the row gives none", origin.Cell{})
	if !s.Attendance.IsZero() {
		attendance.How, attendance.At = "as the row has it", m.Job.Under(r.At, "Attendance")
	}
	total := m.money("Total", s.Total, Added, origin.Cell{},
		m.money("Amount", s.Amount, string(r.Kind)+", as the row has it", m.Job.Under(r.At, "Amount")), profit, attendance)
	out.Under = []Line{total, m.vatWords(s.VAT, r.VAT != "", r.At)}
	for _, o := range m.Cash.Orders {
		if o.Row.Ref == r.Ref && !o.Deposit.IsZero() {
			out.Under = append(out.Under, m.money("Deposit, in the total", o.Deposit, m.depositWords(o), r.DepositAt))
		}
	}
	if r.QuotedBy != "" {
		on := ""
		if !r.QuotedOn.IsZero() {
			on = "on " + day(r.QuotedOn)
		}
		out.Under = append(out.Under, words("Quoted by", joined(", ", r.QuotedBy, on), origin.Cell{}))
	}
	for _, n := range []struct{ label, text string }{{"Stage", r.Stage}, {"Funding", r.Funding}, {"Note", r.Note}} {
		if n.text != "" {
			out.Under = append(out.Under, words(n.label, n.text, origin.Cell{}))
		}
	}
	return out
}

// daywork is one allowance for work paid by time and cost.
func (m maker) daywork(d price.Daywork) Line {
	out := words("Daywork, "+d.Row.Of, "an allowance for work paid by time and cost", d.Row.At)
	total := m.money("Total", d.Total, Added, origin.Cell{},
		m.money("Sum", d.Cost, "a sum of money, as the row has it", m.Job.Under(d.Row.At, "Hours or amount")),
		m.money("Addition", d.Addition, fmt.Sprintf("%s of %s, the row's own; no other overheads or profit", d.Row.Addition, d.Cost.Grouped()), m.Job.Under(d.Row.At, "Addition %")))
	if d.Trade {
		total = m.money("Total", d.Total, dayworkWords(d), m.Job.Under(d.Row.At, "Hours or amount"),
			m.money("Hour", d.Charge, fmt.Sprintf("%s and %s of it, the row's own; no other overheads or profit", d.Rate.Grouped(), d.Row.Addition), m.Job.Under(d.Row.At, "Addition %")))
	}
	out.Under = []Line{total, m.vatWords(d.VAT, false, origin.Cell{})}
	if d.Trade {
		t, _ := m.Book.Trade(d.Row.Of, m.Job.TenderDate)
		out.Under = append(out.Under, heading("Prices used", []Line{{Label: t.Trade, Value: d.Rate.String(), Unit: m.Job.Currency + "/h", How: joined("; ", m.hourWords(t), inForce(t.From)), At: m.hourAt(t)}})...)
	}
	return out
}

// dayworkWords is how an allowance for daywork comes to its total.
func dayworkWords(d price.Daywork) string {
	if d.Trade {
		return fmt.Sprintf("%s h x %s", number(d.Row.Quantity), d.Charge.Grouped())
	}
	return sumOf(d.Cost, d.Addition)
}

// register is a row of the risk register.
func (m maker) register(k job.Risk) Line {
	out := words("Risk "+k.Ref, k.Description, k.At)
	price := func(label string, s string) Line {
		return Line{Label: label, Value: s, Unit: m.Job.Currency, How: "at selling price, as the row has it", At: m.Job.Under(k.At, label)}
	}
	held := []Line{words("Held in the contingency", "nothing by itself: a contingency by percent is on the priced work, and the register stands beside it on record", m.Job.Cell("Contingency by"))}
	if m.Contingency.Simulation != nil {
		held = m.drawnFor(k.Ref)
	}
	out.Under = append(held, []Line{
		{Label: "Chance", Value: k.Chance.Decimal().String(), Unit: "%", How: "as the row has it", At: m.Job.Under(k.At, "Chance %")},
		price("Least", k.Least.String()), price("Likely", k.Likely.String()), price("Most", k.Most.String()),
		{Label: "Extra weeks", Value: k.ExtraWeeks.String(), Unit: "wk", How: "as the row has it", At: m.Job.Under(k.At, "Extra weeks")},
	}...)
	if k.Note != "" {
		out.Under = append(out.Under, words("Note", k.Note, origin.Cell{}))
	}
	return out
}
