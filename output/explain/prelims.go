package explain

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/rates"
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
	r, k := l.Row, l.Kind
	quantity := Line{Label: "Quantity", Value: l.Quantity.String(), Unit: string(l.Unit), How: l.Explained, At: m.runsAt(l)}
	if runs(l) {
		quantity.Under = m.spanWords(r)
	}
	var costs []Line
	for _, c := range l.Costs {
		costs = append(costs, m.charged(l, c))
	}
	rate := Line{Label: "Rate", Value: l.Rate.String(), Unit: m.per(l.Unit), How: Added, Under: []Line{
		m.money("Cost", l.Cost, Added, origin.Cell{}, costs...),
		m.money("Overheads", k.Overheads, fmt.Sprintf("%s of %s, for %s", k.OverheadsPercent, k.Cost.Grouped(), string(k.Kind)), m.addition(k.Kind, "Overheads %")),
		m.money("Profit", k.Profit, fmt.Sprintf("%s of (%s + %s)", k.ProfitPercent, k.Cost.Grouped(), k.Overheads.Grouped()), m.addition(k.Kind, "Profit %")),
	}}
	out := words("Preliminary "+l.Ref, joined(", ", r.Description, l.Basis.Words()), r.At)
	out.Under = []Line{
		m.money("Amount", l.Amount, fmt.Sprintf("%s %s x %s, to the penny", number(l.Quantity), l.Unit, l.Rate.Grouped()), origin.Cell{}, quantity, rate),
		m.vatWords(l.VAT, r.VAT != "", r.At),
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
		prices = []Line{words(cmp.Or(r.Plant, "Charge"), "given in the row", m.chargeAt(l))}
	}
	out.Under = append(out.Under, heading("Prices used", prices)...)
	return out
}

// runs reports a line that runs by the week or the day.
func runs(l price.Preliminary) bool {
	return l.Basis == price.Timed || l.Basis == price.Supervision && l.Unit != measure.One
}

// runsAt is where the quantity of a line was typed: its Weeks, its percentage or
// its number; none where it is reckoned.
func (m maker) runsAt(l price.Preliminary) origin.Cell {
	switch {
	case runs(l) && l.Row.WeeksGiven:
		return l.Row.WeeksAt
	case l.Row.ShareGiven && !runs(l) && l.Basis != price.Fixed:
		return l.Row.ShareAt
	case l.Basis == price.Fixed && l.Unit == measure.Nr:
		return m.Job.Under(l.Row.At, "Quantity")
	}
	return origin.Cell{}
}

// chargeAt is where a charge was typed in the row itself.
func (m maker) chargeAt(l price.Preliminary) origin.Cell {
	if l.Basis == price.Timed {
		return m.Job.Under(l.Row.At, "A week")
	}
	return m.Job.Under(l.Row.At, "Fixed")
}

// charged is one cost of one unit of a line.
func (m maker) charged(l price.Preliminary, c price.Cost) Line {
	r := l.Row
	out := m.money(c.Name, c.Cost, extended(c), origin.Cell{})
	several := !r.Quantity.IsZero() && !r.Quantity.Equal(decimal.New(1, 0))
	switch l.Basis {
	case price.Percentage:
		out.How = l.Explained
	case price.Timed:
		if several {
			week := c.Quantity.DivRound(r.Quantity, 12)
			out.How = fmt.Sprintf("%s nr x %s wk x %s", number(r.Quantity), number(week), priceText(c.Rate))
			out.At = m.Job.Under(r.At, "Quantity")
		}
	case price.Supervision:
		if !runs(l) {
			out.How += "; " + l.Explained
			break
		}
		out.How += fmt.Sprintf("; %s h a week", number(r.HoursAWeek))
		if several {
			out.How += fmt.Sprintf(" x %s nr", number(r.Quantity))
		}
		out.At = m.Job.Under(r.At, "Hours a week")
	case price.Waiting:
		out.Under = m.idle(c.Name)
	}
	return out
}

// idle is the stages in which a trade is kept and not priced.
func (m maker) idle(trade string) []Line {
	var out []Line
	for _, s := range m.Programme.Stages {
		for _, t := range s.Trades {
			if rates.Same(t.Trade, trade) && t.Idle.Sign() > 0 {
				out = append(out, Line{Label: s.Stage.Stage, Value: t.Idle.StringFixed(2), Unit: string(measure.Hour), How: "kept and not priced"})
			}
		}
	}
	return out
}

// spanWords is where the weeks of a charge begin and end in the programme.
func (m maker) spanWords(r job.Preliminary) []Line {
	if len(m.Programme.Stages) == 0 {
		return nil
	}
	var out []Line
	if s, ok := m.stageOf(r.FromStage); ok {
		out = append(out, weeks("From the start of "+s.Stage.Stage, s.Earliest, "its earliest start, from the start on site", r.FromAt))
	}
	last, label, how := m.lastStage(), "To the end of the job", "its last finish"
	if s, ok := m.stageOf(r.ToStage); ok {
		last, label, how = s, "To the finish of "+s.Stage.Stage, "its earliest finish"
	}
	to := weeks(label, last.EarliestFinish, how, r.ToAt)
	if !r.WeeksGiven {
		to.How += ", made by what follows, one stage after the other"
		to.Under = m.path(last)
	}
	return append(out, to)
}

// lastStage is the stage that finishes last; of several the first.
func (m maker) lastStage() programme.Stage {
	return slices.MaxFunc(m.Programme.Stages, func(a, b programme.Stage) int { return a.EarliestFinish.Cmp(b.EarliestFinish) })
}
