// Package risk reckons the contingency: what is to be held for work that the
// survey could not see. Priced items go in, with the hours and the programme they
// rest on; the sum held and what it is made of come out.
//
// By percent it is the sum over sections of round(items x %, 2), each at its
// own percentage or the Job's, and of round(chance x amount, 2) over the rows
// carried as risk. Items of 12,345.67 at 7.5 % hold 925.93 (925.92525); a row
// of 4,000.00 at a chance of 30 % holds 1,200.00 beside it.
//
// Simulated, every row that may come out otherwise is drawn a hundred thousand
// times, and what is held is the total not exceeded in the chosen share of the
// draws, less what is priced, up to a whole unit of the currency. A row of
// 1,000.00 between 80 % and 150 % is on the average 1,100.00, the mean of a
// triangle of 800, 1,000 and 1,500, and in four cases of five not above
// 1,235.43 (1,500 - sqrt(0.2 x 700 x 500)), so that alone it holds 236.00. The
// rules stand at Simulation.
package risk

import (
	"slices"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/rates"
	"futtock/rates/money"
)

// Contingency is the sum held and what it is made of: the parts of one by
// percent, or the Simulation and none of them.
type Contingency struct {
	Sections      []Part      // one a section, in the order of the Sections sheet
	Preliminaries Part        // only where the contingency stands on them too
	Rows          []Row       // lines carried as risk, by Ref
	Simulation    *Simulation // nil by percent
	Total         money.Amount
	Bias          []Compared // what published optimism bias would make of the price and the weeks; never in Total
}

// Part is the contingency on one section, or on the preliminaries.
type Part struct {
	Section string
	On      money.Amount
	Percent money.Percent
	Amount  money.Amount // On x Percent, rounded once to the penny
}

// Row is what a line carried as risk adds.
type Row struct {
	Ref         string
	Description string
	Amount      money.Amount
	Chance      money.Percent
	Held        money.Amount // Amount x Chance, rounded once to the penny
}

// Hold reckons the contingency as the Job asks: by percent, or simulated.
func Hold(j *job.Job, b *rates.Book, h labour.Hours, g programme.Programme, p price.Priced) Contingency {
	var c Contingency
	if j.ContingencyBy == job.BySimulation {
		s := simulate(j, programme.Ready(j, b, h), h, p)
		c = Contingency{Simulation: s, Total: s.Held}
	} else {
		c = byPercent(j, p)
	}
	c.Bias = compare(base(p), g.Weeks)
	return c
}

// base is what is priced before any contingency, and what it stands on: A, the
// measured work, and B, the preliminaries.
func base(p price.Priced) money.Amount {
	all := price.Measured(p.Items)
	for _, l := range p.Preliminaries {
		all = all.Add(l.Amount)
	}
	return all
}

// byPercent reckons the contingency by percent. Items stand in their sections
// with what is in the total; options and rate-only lines hold nothing.
func byPercent(j *job.Job, p price.Priced) Contingency {
	var c Contingency
	on := map[string]money.Amount{}
	for _, i := range p.Items {
		if k := rates.Key(i.Section); i.Carried.InTotal() {
			on[k] = on[k].Add(i.Amount)
		} else if i.Carried == job.AtRisk {
			chance := i.Rows[0].Chance
			c.Rows = append(c.Rows, Row{i.Ref, i.Description, i.Amount, chance, i.Amount.Percent(chance)})
		}
	}
	slices.SortStableFunc(c.Rows, func(a, b Row) int { return job.CompareRefs(a.Ref, b.Ref) })
	for _, s := range j.Sections {
		percent := j.Contingency
		if s.OwnRate {
			percent = s.Contingency
		}
		k := rates.Key(s.Section)
		c.Sections = append(c.Sections, part(s.Section, on[k], percent))
		delete(on, k) // a section given twice holds once
	}
	if j.ContingencyOn == job.OnItemsPrel {
		var b money.Amount
		for _, l := range p.Preliminaries {
			b = b.Add(l.Amount)
		}
		c.Preliminaries = part("", b, j.Contingency)
	}
	c.Total = c.Preliminaries.Amount
	for _, s := range c.Sections {
		c.Total = c.Total.Add(s.Amount)
	}
	for _, r := range c.Rows {
		c.Total = c.Total.Add(r.Held)
	}
	return c
}

func part(section string, on money.Amount, percent money.Percent) Part {
	return Part{Section: section, On: on, Percent: percent, Amount: on.Percent(percent)}
}
