// Package risk reckons the contingency: what is to be held for work that the
// survey could not see. Priced items go in, the sum held and its parts come out.
//
// By percent it is the sum over sections of round(items x %, 2), each at its
// own percentage or the Job's, and of round(chance x amount, 2) over the rows
// carried as risk. Items of 12,345.67 at 7.5 % hold 925.93 (925.92525); a row
// of 4,000.00 at a chance of 30 % holds 1,200.00 beside it.
package risk

import (
	"slices"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/money"
)

// Contingency is the sum held and what it is made of.
type Contingency struct {
	Sections      []Part // one a section, in the order of the Sections sheet
	Preliminaries Part   // only where the contingency stands on them too
	Rows          []Row  // lines carried as risk, by Ref
	Total         money.Amount
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

// Hold reckons the contingency by percent. Items stand in their sections with
// what is in the total; options and rate-only lines hold nothing.
func Hold(j *job.Job, p price.Priced) Contingency {
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
