package explain

import (
	"fmt"
	"strconv"

	"futtock/estimate/job"
	"futtock/estimate/risk"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// simulated is a contingency that was drawn: what is held, how the total came
// out in the draws, how often it is enough, and what the sum is for.
func (m maker) simulated(s *risk.Simulation) []Line {
	sum := func(label string, a money.Amount, how string) Line { return m.money(label, a, how, origin.Cell{}) }
	share := func(label string, p money.Percent, how string) Line {
		return Line{Label: label, Value: p.Decimal().String(), Unit: "%", How: how}
	}
	not := func(n string) string { return "not exceeded in " + n + " % of the draws" }

	held := m.money("Total", m.Contingency.Total, fmt.Sprintf("%s - %s, up to a whole unit of the currency and not under nil", s.Chosen.Grouped(), s.Base.Grouped()), origin.Cell{},
		m.money("Chosen total", s.Chosen, not(s.Confidence.Decimal().String()), m.Job.Cell("Confidence %")),
		sum("Priced", s.Base, "A and B as priced; explain A, explain B"))
	out := []Line{held}
	out = append(out, heading("The total as it was drawn", []Line{
		sum("Mean", s.Mean, "of all draws"),
		sum("Standard deviation", s.SD, "of all draws"),
		sum("Least", s.Least, "of all draws"),
		sum("P10", s.P10, not("10")), sum("P50", s.P50, not("50")), sum("P80", s.P80, not("80")), sum("P90", s.P90, not("90")),
		sum("Most", s.Most, "of all draws"),
	})...)
	out = append(out, heading("How often it is enough", []Line{
		share("Priced with the contingency", s.PriceEnough, "of the draws do not exceed "+s.Base.Add(s.Held).Grouped()),
		share("Priced without it", s.BaseEnough, "of the draws do not exceed "+s.Base.Grouped()),
	})...)
	var drivers []Line
	for _, d := range s.Drivers {
		how := fmt.Sprintf("%s of what is borne; %s; %s on the average of all draws", d.Share, d.Source, d.Mean.Grouped())
		drivers = append(drivers, m.money(joined("  ", d.Ref, d.Description), d.Bears, how, m.drawnAt(d)))
	}
	out = append(out, heading("What it is held for, the heaviest first: the average in draws near the chosen total", drivers)...)
	drawn := []Line{
		{Label: "Draws", Value: strconv.Itoa(s.Draws), How: fmt.Sprintf("of each of %s", counted(len(s.Rows), "row"))},
		{Label: "Draw number", Value: strconv.FormatInt(s.DrawNumber, 10), How: "the same number draws the same", At: m.Job.Cell("Draw number")},
		{Label: "Surprises together", Value: s.Together.Decimal().String(), Unit: "%", How: "how far rows turn out dear together", At: m.Job.Cell("Surprises together %")},
	}
	if w := s.Weeks; w != nil {
		weeks := func(label, value, how string) Line {
			return Line{Label: label, Value: value, Unit: string(measure.Weeks), How: how}
		}
		drawn = append(drawn, weeks("Weeks of the job, mean", w.Mean.String(), fmt.Sprintf("priced are %s", w.Priced)),
			weeks("Weeks, P10", w.P10.String(), not("10")), weeks("Weeks, P50", w.P50.String(), not("50")),
			weeks("Weeks, P80", w.P80.String(), not("80")), weeks("Weeks, P90", w.P90.String(), not("90")))
	}
	return append(out, heading("How it was drawn", drawn)...)
}

// drawnAt is the cell of what drives a contingency, where it is a row.
func (m maker) drawnAt(d risk.Driver) origin.Cell {
	for _, u := range m.Contingency.Simulation.Rows {
		if u.Ref == d.Ref && u.Source == d.Source {
			return u.At
		}
	}
	return origin.Cell{}
}

// heldFor is what the contingency holds for the rows of an item carried as risk.
func (m maker) heldFor(ref string, rows []job.Work) []Line {
	if m.Contingency.Simulation != nil {
		return m.drawnRows(rows)
	}
	for _, r := range m.Contingency.Rows {
		if r.Ref == ref {
			return []Line{m.money("Held in the contingency", r.Held, fmt.Sprintf("chance %s of %s", r.Chance, r.Amount.Grouped()), origin.Cell{})}
		}
	}
	return []Line{words("Held in the contingency", "nothing", origin.Cell{})}
}

// drawnRows is what a simulated contingency bears for each of the rows that is
// drawn; nothing where it is by percent, or none is.
func (m maker) drawnRows(rows []job.Work) []Line {
	var out []Line
	for _, w := range rows {
		out = append(out, m.drawnFor(w.Ref)...)
	}
	return out
}

// drawnFor is what a simulated contingency bears for what has a Ref, and how
// that is drawn.
func (m maker) drawnFor(ref string) []Line {
	s := m.Contingency.Simulation
	if s == nil {
		return nil
	}
	var out []Line
	for _, d := range s.Drivers {
		if d.Ref != ref {
			continue
		}
		how := fmt.Sprintf("%s: the average of what %s adds in draws near the chosen total, %s of all that is borne", d.Source, ref, d.Share)
		out = append(out, m.money("Borne in the contingency", d.Bears, how, m.Job.Cell("Contingency by"), m.drawnHow(d)...))
	}
	return out
}

func (m maker) drawnHow(d risk.Driver) []Line {
	for _, u := range m.Contingency.Simulation.Rows {
		if u.Ref != d.Ref || u.Source != d.Source {
			continue
		}
		how := fmt.Sprintf("drawn between %s and %s, most likely %s", u.Least.Grouped(), u.Most.Grouped(), u.Likely.Grouped())
		if u.Source != risk.Ranged {
			how += ", at a chance of " + u.Chance.String()
		}
		if !u.Hours.IsZero() {
			how += fmt.Sprintf("; its %s h go with it", number(u.Hours))
		}
		return []Line{m.money("Mean", u.Mean, how, u.At), m.money("Standard deviation", u.SD, "of what it adds to what is priced", origin.Cell{})}
	}
	return []Line{m.money("Mean", d.Mean, "over all draws: the weeks it then runs on", origin.Cell{})}
}
