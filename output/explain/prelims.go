package explain

import (
	"cmp"
	"fmt"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// preliminaries is a row of the preliminaries with all the lines it makes.
func (m maker) preliminaries(p job.Preliminary) Line {
	var lines []Line
	for _, l := range m.Priced.Preliminaries {
		if l.Row.Ref == p.Ref {
			lines = append(lines, m.preliminary(l))
		}
	}
	if len(lines) == 1 {
		return lines[0]
	}
	out := words("Preliminary "+p.Ref, p.Description, p.At)
	out.Under = append([]Line{words("Lines", fmt.Sprintf("the row is charged in %d ways, each a line of the bill", len(lines)), origin.Cell{})}, lines...)
	return out
}

// preliminary is one line of the preliminaries.
func (m maker) preliminary(l price.Preliminary) Line {
	r := l.Row
	k := l.Kind
	at := m.Job.Addition(k.Kind).At
	quantity := Line{Label: "Quantity", Value: l.Quantity.String(), Unit: string(l.Unit), How: l.Explained}
	if r.WeeksGiven {
		quantity.At = r.WeeksAt
	}
	if l.Basis == price.Timed || l.Basis == price.Supervision && !r.HoursAWeek.IsZero() {
		quantity.Under = m.spanWords(r)
	}
	var costs []Line
	for _, c := range l.Costs {
		line := m.money(c.Name, c.Cost, extended(c), origin.Cell{})
		switch {
		case l.Basis == price.Percentage:
			line.How = l.Explained
		case l.Basis == price.Supervision && !r.HoursAWeek.IsZero():
			line.How += fmt.Sprintf("; %s h a week", number(r.HoursAWeek))
		}
		costs = append(costs, line)
	}
	rate := Line{Label: "Rate", Value: l.Rate.String(), Unit: m.per(l.Unit), How: Added, Under: []Line{
		m.money("Cost", l.Cost, Added, origin.Cell{}, costs...),
		m.money("Overheads", k.Overheads, fmt.Sprintf("%s of %s, for %s", k.OverheadsPercent, k.Cost.Grouped(), string(k.Kind)), at),
		m.money("Profit", k.Profit, fmt.Sprintf("%s of (%s + %s)", k.ProfitPercent, k.Cost.Grouped(), k.Overheads.Grouped()), origin.Cell{}),
	}}
	out := words("Preliminary "+l.Ref, joined(", ", r.Description, l.Basis.Words()), r.At)
	out.Under = []Line{
		m.money("Amount", l.Amount, fmt.Sprintf("%s %s x %s, to the penny", number(l.Quantity), l.Unit, l.Rate.Grouped()), origin.Cell{}, quantity, rate),
		m.vatWords(l.VAT, r.VAT != ""),
	}
	out.Under = append(out.Under, m.drawnFor(l.Ref)...)
	if r.Funding != "" {
		out.Under = append(out.Under, words("Funding", r.Funding, origin.Cell{}))
	}
	if r.Note != "" {
		out.Under = append(out.Under, words("Note", r.Note, origin.Cell{}))
	}
	prices := m.prices(l.Costs)
	if len(prices) == 0 && l.Basis != price.Percentage {
		prices = []Line{words(cmp.Or(r.Plant, "Charge"), "given in the row", r.At)}
	}
	out.Under = append(out.Under, heading("Prices used", prices)...)
	return out
}

// spanWords is where the weeks of a charge begin and end in the programme.
func (m maker) spanWords(r job.Preliminary) []Line {
	if len(m.Programme.Stages) == 0 {
		return nil
	}
	var out []Line
	if s, ok := m.stageOf(r.FromStage); ok {
		out = append(out, Line{Label: "From the start of " + s.Stage.Stage, Value: s.Earliest.StringFixed(1), Unit: string(measure.Weeks), How: "its earliest start, from the start on site", At: r.FromAt})
	}
	if s, ok := m.stageOf(r.ToStage); ok {
		out = append(out, Line{Label: "To the finish of " + s.Stage.Stage, Value: s.EarliestFinish.StringFixed(1), Unit: string(measure.Weeks), How: "its earliest finish", At: r.ToAt})
	}
	return out
}
