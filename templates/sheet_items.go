package templates

import (
	"slices"

	"futtock/estimate/job"
	"futtock/rates"
)

// items is the Items sheet: work without timber.
func items() Sheet[job.Item] {
	type I = job.Item
	work := func(i *I) *job.Work { return &i.Work }
	what := []Column[I]{
		{Heading{Name: "Description", Form: Words, Required: true, Example: "line off and spile the planking",
			Help: "Wording of the bill"},
			func(i *I, e Entry) { i.Description = e.Text }},
		{Heading{Name: "Quantity", Form: Number, Required: true, Over: "0", Most: "10000000", Example: "36.4",
			Help: "Not finer than its unit is billed in"},
			func(i *I, e Entry) { i.Quantity, i.QuantityAt = e.Number, e.At }},
		{Heading{Name: "Unit", Form: Unit, Required: true, Example: "m2",
			Help: "What the quantity is in"},
			func(i *I, e Entry) { i.Unit = e.Unit }},
	}
	cost := []Column[I]{
		{Heading{Name: "Cost", Form: Money, Example: "450", Elsewhere: true,
			Help: "Bare cost of the whole row, beside build-up and hours; less than nil is a credit, such as for scrap"},
			func(i *I, e Entry) { i.Cost, i.CostAt = e.Price(), e.At }},
		{Heading{Name: "Cost kind", Form: Choice, Choices: words(rates.Kinds()), Example: "subcontract", Elsewhere: true,
			Help: "Which overheads and profit the cost bears"},
			func(i *I, e Entry) { i.CostKind = rates.Kind(e.Text) }},
	}
	return outlined(Sheet[I]{
		Outline: Outline{
			Name: "Items", Purpose: "work without timber of its own, one row for each line of work",
			Refs: true,
		},
		Columns: slices.Concat(billed(work, "4.2"), what, effort(work, true), cost, difficulty(work),
			carriage(work), billing(work), note(work)),
	})
}

// The groups of columns that Members and Items have in common follow. Each
// is told how to find the common part of its row.

// billed says which line of which section the row is.
func billed[T any](work func(*T) *job.Work, example string) []Column[T] {
	return []Column[T]{
		{Heading{Name: "Ref", Form: Key, Required: true, Example: example,
			Help: "Number of the row, found on no other row of Members, Items, Preliminaries, Sums and Risks"},
			func(t *T, e Entry) { w := work(t); w.Ref, w.At = e.Text, e.At }},
		{Heading{Name: "Section", Form: Key, Required: true, Refers: to("Sections"), Example: "4",
			Help: "Part of the bill it belongs to"},
			func(t *T, e Entry) { work(t).Section = e.Text }},
	}
}

// effort is how the work of the row is priced. The example row shows either
// a build-up or hours.
func effort[T any](work func(*T) *job.Work, byHours bool) []Column[T] {
	return []Column[T]{
		{Heading{Name: "Build-up", Form: Key, Refers: to("Build-ups"), Example: "Side plank", Elsewhere: byHours,
			Help: "Tasks, materials, plant and subcontracted work that the row takes"},
			func(t *T, e Entry) { w := work(t); w.BuildUp, w.BuildUpAt = e.Text, e.At }},
		{Heading{Name: "Hours", Form: Number, Least: "0", Most: "100000", Example: "12", Elsewhere: !byHours,
			Help: "For the whole row, beside its build-up; needs Trade"},
			func(t *T, e Entry) { work(t).Hours = e.Number }},
		{Heading{Name: "Trade", Form: Key, Refers: to("Labour"), Example: "Shipwright", Elsewhere: !byHours,
			Help: "Who works those hours"},
			func(t *T, e Entry) { w := work(t); w.Trade, w.TradeAt = e.Text, e.At }},
	}
}

// difficulty is what makes hours longer than the norm.
func difficulty[T any](work func(*T) *job.Work) []Column[T] {
	return []Column[T]{
		{Heading{Name: "Difficulty", Form: Number, Over: "0", Most: "20", Default: "1", Example: "1.1",
			Help: "Multiplies all hours of the row"},
			func(t *T, e Entry) { work(t).Difficulty = e.Number }},
		{Heading{Name: "Access", Form: Number, Over: "0", Most: "20", Default: "1", Example: "1.2",
			Help: "Multiplies the hours not worked on the bench"},
			func(t *T, e Entry) { work(t).Access = e.Number }},
	}
}

// carriage is how the row stands in the price.
func carriage[T any](work func(*T) *job.Work) []Column[T] {
	return []Column[T]{
		{Heading{Name: "Carried as", Form: Choice, Choices: words(job.CarriedAs()), Default: string(job.Measured), Example: "measured",
			Help: "Provisional is priced in full and re-measured; risk stands in the contingency only; option is priced and not added; of rate only the rate is asked"},
			func(t *T, e Entry) { work(t).Carried = job.Carried(e.Text) }},
		{Heading{Name: "Chance %", Form: Percent, Least: "0", Most: "100", Example: "40 %", Elsewhere: true,
			Help: "That a risk row comes about; belongs to risk rows alone"},
			func(t *T, e Entry) { work(t).Chance = e.Percent() }},
		{Heading{Name: "Least %", Form: Percent, Least: "0", Most: "1000", Default: "100", Example: "90 %",
			Help: "The least the row may come to, of its amount, not above 100 %: where the contingency is simulated"},
			func(t *T, e Entry) { work(t).Least = e.Percent() }},
		{Heading{Name: "Most %", Form: Percent, Least: "0", Most: "1000", Default: "100", Example: "130 %",
			Help: "The most it may come to, not under 100 %"},
			func(t *T, e Entry) { work(t).Most = e.Percent() }},
		{Heading{Name: "Stage", Form: Key, Refers: to("Stages"), Example: "Planking", Elsewhere: true,
			Help: "In place of the section's"},
			func(t *T, e Entry) { w := work(t); w.Stage, w.StageAt = e.Text, e.At }},
		{Heading{Name: "VAT", Form: Key, Refers: to("VAT"), Example: "Z", Elsewhere: true,
			Help: "Code, in place of the Job's"},
			func(t *T, e Entry) { work(t).VAT = e.Text }},
		{funding(), func(t *T, e Entry) { work(t).Funding = e.Text }},
	}
}

// billing is how rows are gathered into lines of the bill.
func billing[T any](work func(*T) *job.Work) []Column[T] {
	return []Column[T]{
		{Heading{Name: "Bill item", Form: Key, Example: "4.A", Elsewhere: true,
			Help: "Rows naming one bill item make one line of the bill, worded as the first of them"},
			func(t *T, e Entry) { w := work(t); w.BillItem, w.BillItemAt = e.Text, e.At }},
		{Heading{Name: "Bill quantity", Form: Number, Over: "0", Most: "10000000", Example: "11.7", Elsewhere: true,
			Help: "Billed in place of what is measured"},
			func(t *T, e Entry) { w := work(t); w.BillQty, w.BillQtyAt = e.Number, e.At }},
		{Heading{Name: "Bill unit", Form: Unit, Example: "m", Elsewhere: true,
			Help: "Unit of the line in the bill"},
			func(t *T, e Entry) { w := work(t); w.BillUnit, w.BillUnitAt = e.Unit, e.At }},
	}
}

// note ends the row of every sheet that has one.
func note[T any](work func(*T) *job.Work) []Column[T] {
	return []Column[T]{
		{noted(), func(t *T, e Entry) { work(t).Note = e.Text }},
	}
}

// noted is the heading of the estimator's own remark.
func noted() Heading {
	return Heading{Name: "Note", Form: Words, Example: "measure again when opened up",
		Help: "Any remark of your own"}
}

// funding is the heading of the pot that pays.
func funding() Heading {
	return Heading{Name: "Funding", Form: Words, Example: "grant",
		Help: "Which pot of money pays for it, or several with their shares, such as grant 60 %, own funds 40 %"}
}
