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
	total := m.money("Total", s.Total, Added, origin.Cell{},
		m.money("Amount", s.Amount, string(r.Kind)+", as the row has it", r.At),
		m.money("Profit", s.Profit, fmt.Sprintf("%s of %s, the row's own", r.Profit, s.Amount.Grouped()), origin.Cell{}),
		m.money("Attendance", s.Attendance, "as the row has it", origin.Cell{}))
	out.Under = []Line{total, m.vatWords(s.VAT, r.VAT != "")}
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
	how := "a sum of money, as the row has it"
	if d.Trade {
		how = fmt.Sprintf("%s h x %s", number(d.Row.Quantity), d.Rate.Grouped())
	}
	out := words("Daywork, "+d.Row.Of, "an allowance for work paid by time and cost", d.Row.At)
	out.Under = []Line{m.money("Total", d.Total, Added, origin.Cell{},
		m.money("Cost", d.Cost, how, origin.Cell{}),
		m.money("Addition", d.Addition, fmt.Sprintf("%s of %s, the row's own; no other overheads or profit", d.Row.Addition, d.Cost.Grouped()), origin.Cell{})),
		m.vatWords(m.Job.VATCode, false)}
	if d.Trade {
		t, _ := m.Book.Trade(d.Row.Of, m.Job.TenderDate)
		out.Under = append(out.Under, heading("Prices used", []Line{{Label: t.Trade, Value: d.Rate.String(), Unit: m.Job.Currency + "/h", How: joined("; ", m.hourWords(t), inForce(t.From)), At: d.RateAt}})...)
	}
	return out
}

// heldFor is what the contingency holds for a row carried as risk.
func (m maker) heldFor(ref string) Line {
	for _, r := range m.Contingency.Rows {
		if r.Ref == ref {
			return m.money("Held in the contingency", r.Held, fmt.Sprintf("chance %s of %s", r.Chance, r.Amount.Grouped()), origin.Cell{})
		}
	}
	return words("Held in the contingency", "nothing", origin.Cell{})
}

// register is a row of the risk register.
func (m maker) register(k job.Risk) Line {
	out := words("Risk "+k.Ref, k.Description, k.At)
	price := func(label string, s string) Line {
		return Line{Label: label, Value: s, Unit: m.Job.Currency, How: "at selling price, as the row has it"}
	}
	out.Under = []Line{
		words("Held in the contingency", "nothing by itself: a contingency by percent is on the priced work, and the register stands beside it on record", m.Job.Cell("Contingency by")),
		{Label: "Chance", Value: k.Chance.Decimal().String(), Unit: "%", How: "as the row has it"},
		price("Least", k.Least.String()), price("Likely", k.Likely.String()), price("Most", k.Most.String()),
		{Label: "Extra weeks", Value: k.ExtraWeeks.String(), Unit: "wk", How: "as the row has it"},
	}
	if k.Note != "" {
		out.Under = append(out.Under, words("Note", k.Note, origin.Cell{}))
	}
	return out
}
