package job

import (
	"fmt"
	"slices"
	"time"
	"unicode/utf8"

	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// conditions remarks where the survey and the schedule pull apart, and on
// members the survey could not see that are priced as if it had.
func (c *check) conditions() {
	for _, m := range c.job.Members {
		if m.CondGiven && (m.Condition == 5 && m.Treatment == Retain || m.Condition == 1 && m.Treatment == Renew) {
			c.found(problem.ConditionAndTreatment, fmt.Sprintf("%q is of condition %d and its treatment is %q", m.Ref, m.Condition, m.Treatment), m.TreatmentAt, m.At)
		}
		if m.CondGiven && m.Condition == 0 && m.Carried.InTotal() && !m.Ranged() {
			c.found(problem.NotSeen, fmt.Sprintf("%q was not seen, and has no range; a Least %% and a Most %% are wanted, or that it be carried as a risk", m.Ref), m.At)
		}
	}
}

// seams remarks on the first item of a section that charges seams where a
// member of the section does.
func (c *check) seams() {
	charged := map[string]string{} // the first member, by section
	for _, m := range c.job.Members {
		k := rates.Key(m.Section)
		if charged[k] == "" && !m.Seams.IsZero() && c.has(m.BuildUp, seamTask) {
			charged[k] = m.Ref
		}
	}
	for _, i := range c.job.Items {
		k := rates.Key(i.Section)
		if charged[k] == "" || !c.has(i.BuildUp, seamTask) {
			continue
		}
		c.found(problem.SeamsTwice, fmt.Sprintf("%q charges seams of section %q by the item, and %q does by the strake", i.Ref, i.Section, charged[k]), i.BuildUpAt, i.At)
		delete(charged, k)
	}
}

func seamTask(u rates.BuildUp) bool { return u.Part == rates.Task && u.By == rates.BySeam }

// takingOff remarks, once a build-up, where it renews members and nothing says
// that the old ones are taken off: no row of it is measured by old volume, and
// no row of the schedule removes the like member of the section. Names of
// tasks are not guessed at.
func (c *check) takingOff() {
	removed := map[[2]string]bool{}
	for _, m := range c.job.Members {
		if m.Treatment == Remove {
			removed[[2]string{rates.Key(m.Section), rates.Key(m.Member)}] = true
		}
	}
	said := map[string]bool{}
	for _, m := range c.job.Members {
		k := rates.Key(m.BuildUp)
		if m.Treatment != Renew || m.BuildUp == "" || said[k] || removed[[2]string{rates.Key(m.Section), rates.Key(m.Member)}] {
			continue
		}
		rows := c.buildUp(m.BuildUp)
		old := slices.ContainsFunc(rows, func(u rates.BuildUp) bool { return u.By == rates.ByOldVolume })
		if len(rows) == 0 || old {
			continue
		}
		said[k] = true
		c.found(problem.NoTakingOff, fmt.Sprintf("%q renews %q, the first of its rows, and has nothing measured by old volume", m.BuildUp, m.Ref), m.BuildUpAt, m.At)
	}
}

func (c *check) has(buildUp string, is func(rates.BuildUp) bool) bool {
	return slices.ContainsFunc(c.buildUp(buildUp), is)
}

// oldPrices remarks on every price the job uses whose row in force began more
// than a year before the tender date. A row without a date is of unknown age
// and passed over.
func (c *check) oldPrices() {
	day := c.job.TenderDate
	old := func(what string, from time.Time, at ...origin.Cell) {
		if !from.IsZero() && from.AddDate(1, 0, 0).Before(day) {
			c.found(problem.OldPrice, fmt.Sprintf("the price of %q is of %s, more than a year before %s", what, from.Format("2006-01-02"), day.Format("2006-01-02")), at...)
		}
	}
	used := c.used()
	for _, s := range c.book.StockInForce(day) {
		if !s.ByOwner && (used[stockLine].has(s.Stock) || used[timber].has(s.Timber)) {
			old(s.Stock, s.From, s.PriceAt, s.At)
		}
	}
	for _, k := range used[trade].names {
		if r, ok := c.book.Trade(k, day); ok {
			old(r.Trade, r.From, r.At)
		}
	}
	for _, k := range used[material].names {
		if r, ok := c.book.Material(k, day); ok {
			old(r.Material, r.From, r.PriceAt, r.At)
		}
	}
	for _, k := range used[plant].names {
		if r, ok := c.book.PlantRow(k, day); ok {
			old(r.Plant, r.From, r.At)
		}
	}
	for _, k := range used[subcontract].names {
		if r, ok := c.book.Work(k, day); ok {
			old(r.Work, r.From, r.PriceAt, r.At)
		}
	}
}

// mostShown is how many characters of a description a row of a workbook can show:
// 409 points hold 32 lines of letters of 10 points, and a line of the bill some 50.
const mostShown = 1_500

// descriptions warns of what a printed row would not show to its end.
func (c *check) descriptions() {
	long := func(text string, at origin.Cell) {
		if n := utf8.RuneCountInString(text); n > mostShown {
			c.found(problem.DescriptionLong, fmt.Sprintf("the description is %d characters long, and a printed row of a workbook shows some %d of them", n, mostShown), at)
		}
	}
	for _, m := range c.job.Members {
		long(m.Description, m.At)
	}
	for _, i := range c.job.Items {
		long(i.Description, i.At)
	}
}
