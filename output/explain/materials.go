package explain

import (
	"fmt"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// materials is how much of every material, plant and work is taken, by the
// rows of the build-up that ask for it.
func (m maker) materials(costs []price.Cost, several bool) []Line {
	var out []Line
	for _, c := range costs {
		if len(c.Asked) == 0 {
			continue
		}
		l := Line{Label: of(c.Ref, c.Name, several), Value: c.Quantity.String(), Unit: string(c.Unit)}
		if len(c.Asked) == 1 {
			a := c.Asked[0]
			l.How, l.At = askedWords(a, c.Unit), m.Job.Under(a.BuildUp.At, "Quantity")
			out = append(out, l)
			continue
		}
		l.How = Added
		for _, a := range c.Asked {
			l.Under = append(l.Under, Line{Label: "Asked", Value: a.Quantity.String(), Unit: string(c.Unit), How: askedWords(a, c.Unit), At: m.Job.Under(a.BuildUp.At, "Quantity")})
		}
		out = append(out, l)
	}
	return out
}

func askedWords(a price.Asked, key measure.Unit) string {
	how := takenWords(a.BuildUp, a.Taken, key)
	if !a.BuildUp.Waste.IsZero() {
		how += " + " + a.BuildUp.Waste.String() + " waste"
	}
	return joined("; ", how, a.BuildUp.Note)
}

// fastenings is what the fastening rules count.
func (m maker) fastenings(rows []takeoff.Row, several bool) []Line {
	var out []Line
	for _, r := range rows {
		if r.Member == nil || len(r.Fastenings) == 0 {
			continue
		}
		out = append(out, Line{Label: of(r.Work.Ref, "Crossings", several), Value: fmt.Sprint(r.Crossings), Unit: string(measure.Nr), How: m.crossingWords(r), At: m.crossingAt(r.Member)})
		for _, f := range r.Fastenings {
			name := f.Material
			if name == "" {
				name = "Fastenings, priced in the build-up"
			}
			out = append(out, Line{Label: of(r.Work.Ref, name, several), Value: f.Number.String(), Unit: string(measure.Nr),
				How: fmt.Sprintf("%s a crossing x %d crossings x %d nr, rounded up; rule %s, %s", number(f.Rule.Each), r.Crossings, r.Member.Nr, f.Rule.Rule, m.widthWords(f.Rule)),
				At:  m.Job.Under(f.Rule.At, "Each crossing")})
		}
	}
	return out
}

func (m maker) crossingWords(r takeoff.Row) string {
	k := r.Member
	if k.FramesGiven {
		return fmt.Sprintf("frames %d to %d, both counted", k.FromFrame, k.ToFrame)
	}
	spacing, whose := k.Spacing, "Spacing"
	if spacing <= 0 {
		spacing, whose = m.Job.FrameSpacing, "the Job's Spacing of frames"
	}
	return fmt.Sprintf("%s / %s, rounded up, and one more; %s", m.length(k.New()), m.length(spacing), whose)
}

// crossingAt is where the crossings of a row are known from: its frames, its Spacing or the Job's.
func (m maker) crossingAt(k *job.Member) origin.Cell {
	switch {
	case k.FramesGiven:
		return k.FrameAt
	case k.Spacing > 0:
		return m.Job.Under(k.At, "Spacing")
	}
	return m.Job.Cell("Spacing of frames")
}

// widthWords is the planks a row of a rule holds for.
func (m maker) widthWords(f rates.Fastening) string {
	switch {
	case f.Over > 0 && f.To > 0:
		return fmt.Sprintf("planks over %s to %s wide", m.size(f.Over), m.size(f.To))
	case f.Over > 0:
		return fmt.Sprintf("planks over %s wide", m.size(f.Over))
	case f.To > 0:
		return fmt.Sprintf("planks to %s wide", m.size(f.To))
	}
	return "planks of any width"
}

// prices is every price the cost lines use, once each, with its row and the day
// it is in force from. The price of timber stands with the sticks.
func (m maker) prices(costs []price.Cost) []Line {
	var out []Line
	seen := map[origin.Cell]bool{}
	for _, c := range costs {
		if c.Kind == rates.OfTimber || seen[c.RateAt] {
			continue
		}
		l := Line{Label: c.Name, Value: c.Rate.String(), Unit: m.per(c.Unit)}
		if l.How, l.At = m.priceWords(c); l.How == "" {
			continue
		}
		seen[c.RateAt] = true
		out = append(out, l)
	}
	return out
}

// priceWords is what stands in the row of a price, and the cell of the figure; blank
// where the cost is of the schedule itself.
func (m maker) priceWords(c price.Cost) (string, origin.Cell) {
	day := m.Job.TenderDate
	if r, ok := m.Book.Trade(c.Name, day); ok && r.At == c.RateAt {
		return joined("; ", m.hourWords(r), inForce(r.From)), m.hourAt(r)
	}
	if r, ok := m.Book.Material(c.Name, day); ok && r.At == c.RateAt {
		return joined("; ", r.Description, r.Supplier, inForce(r.From)), r.PriceAt
	}
	if r, ok := m.Book.PlantRow(c.Name, day); ok && r.At == c.RateAt {
		return joined("; ", r.Description, inForce(r.From)), m.Job.Under(r.At, plantHeading(c))
	}
	if r, ok := m.Book.Work(c.Name, day); ok && r.At == c.RateAt {
		least := ""
		if !r.Least.IsZero() {
			least = "least charge " + priceText(r.Least)
		}
		return joined("; ", r.Description, least, r.Supplier, inForce(r.From)), r.PriceAt
	}
	return "", origin.Cell{}
}

// plantHeading is the column of Plant that a cost was taken from. A preliminary takes what
// is paid once or by the week, and a build-up Each.
func plantHeading(c price.Cost) string {
	switch {
	case len(c.Asked) > 0:
		return "Each"
	case c.Unit == measure.Weeks:
		return "A week"
	}
	return "Fixed"
}

// hourAt is where the hour of a trade was typed: its Rate, or the Pay it is built from.
func (m maker) hourAt(r rates.Labour) origin.Cell {
	if !r.Rate.IsZero() {
		return m.Job.Under(r.At, "Rate")
	}
	return m.Job.Under(r.At, "Pay")
}

// hourWords is how the hour of a trade is built from pay.
func (m maker) hourWords(r rates.Labour) string {
	if !r.Rate.IsZero() {
		return "an hour, as the rate is given"
	}
	how := fmt.Sprintf("pay %s x %s h paid x (1 + %s on-costs) / %s h worked", priceText(r.Pay), number(r.Paid), r.OnCosts, number(r.Worked))
	if !r.Other.IsZero() {
		how += " + " + priceText(r.Other) + " other costs"
	}
	return how
}
