package templates

import (
	"futtock/rates"
	"futtock/rates/measure"
)

// buildUps is the Build-ups sheet: what one line of the schedule takes.
func buildUps() Sheet[rates.BuildUp] {
	type B = rates.BuildUp
	return outlined(Sheet[B]{
		Outline: Outline{
			Name: "Build-ups", Purpose: "what a line of the schedule takes: several rows of one name make one build-up",
			Prices: true,
		},
		Columns: []Column[B]{
			{Heading{Name: "Build-up", Form: Key, Required: true, Names: true, Example: "Side plank",
				Help: "Name by which Members and Items call it"},
				func(b *B, e Entry) { b.Name, b.At = e.Text, e.At }},
			{Heading{Name: "Kind", Form: Choice, Required: true, Choices: words(rates.Parts()), Example: "task",
				Help: "The sheet that Key is looked up in: Norms, Materials, Plant or Subcontract"},
				func(b *B, e Entry) { b.Part = rates.Part(e.Text) }},
			{Heading{Name: "Key", Form: Key, Required: true, Example: "Fit side plank",
				Refers: []Reference{
					{"Norms", "Kind", string(rates.Task)}, {"Materials", "Kind", string(rates.MaterialPart)},
					{"Plant", "Kind", string(rates.PlantPart)}, {"Subcontract", "Kind", string(rates.WorkPart)},
				},
				Help: "The task, material, plant or work"},
				func(b *B, e Entry) { b.Item, b.ItemAt = e.Text, e.At }},
			{Heading{Name: "Measured by", Form: Choice, Required: true, Choices: words(rates.Drivers()), Bracket: true, Example: "length",
				Help: "What of the member or item drives it; with a unit in brackets, as in seam (m), Quantity is for one of that unit"},
				func(b *B, e Entry) { b.By, b.Per, b.DriverAt = rates.Driver(e.Text), e.Unit, e.At }},
			{Heading{Name: "Quantity", Form: Number, Required: true, Over: "0", Most: "1000000", Example: "1",
				Help: "How much of it for one of what it is measured by"},
				func(b *B, e Entry) { b.Quantity = e.Number }},
			{Heading{Name: "Waste %", Form: Percent, Least: "0", Most: "500", Default: "0", Example: "5 %", Elsewhere: true,
				Help: "Added to the net quantity of a material"},
				func(b *B, e Entry) { b.Waste = e.Percent() }},
			{noted(), func(b *B, e Entry) { b.Note = e.Text }},
		},
	})
}

// norms is the Norms sheet: how long a task takes.
func norms() Sheet[rates.Norm] {
	type N = rates.Norm
	return outlined(Sheet[N]{
		Outline: Outline{
			Name: "Norms", Purpose: "how many hours a task takes, by the yard's own books",
			Prices: true, Once: []string{"Task", "From"},
		},
		Columns: []Column[N]{
			{Heading{Name: "Task", Form: Key, Required: true, Names: true, Example: "Fit side plank",
				Help: "Name by which Build-ups call it"},
				func(n *N, e Entry) { n.Task, n.At = e.Text, e.At }},
			{described(), func(n *N, e Entry) { n.Description = e.Text }},
			{Heading{Name: "Trade", Form: Key, Required: true, Refers: to("Labour"), Example: "Shipwright",
				Help: "Who does it"},
				func(n *N, e Entry) { n.Trade, n.TradeAt = e.Text, e.At }},
			{Heading{Name: "Hours", Form: Number, Required: true, Least: "0", Most: "100000", Example: "2.4",
				Help: "Of one man, for one Unit"},
				func(n *N, e Entry) { n.Hours = e.Number }},
			{Heading{Name: "Unit", Form: Unit, Required: true, Example: "m",
				Help: "What the hours are for one of"},
				func(n *N, e Entry) { n.Unit = e.Unit }},
			{Heading{Name: "Set-up hours", Form: Number, Least: "0", Most: "10000", Default: "0", Example: "1.5",
				Help: "Once for each row of the schedule"},
				func(n *N, e Entry) { n.SetUp = e.Number }},
			{Heading{Name: "Learning %", Form: Percent, Over: "0", Most: "1000", Example: "95 %", Elsewhere: true,
				Help: "Slope of the learning curve: at 95 % each doubling of the pieces brings the hours of a piece to 95 %; the norm is the first piece. The pieces are the Nr of the row, or the amount of a task measured by nr"},
				func(n *N, e Entry) { n.Learning = e.Percent() }},
			{Heading{Name: "Place", Form: Choice, Choices: words([]rates.Place{rates.Bench, rates.Aboard}),
				Default: string(rates.Aboard), Example: "aboard",
				Help: "Access does not lengthen work on the bench"},
				func(n *N, e Entry) { n.Place = rates.Place(e.Text) }},
			{sourced(), func(n *N, e Entry) { n.Source = e.Text }},
			{since(), func(n *N, e Entry) { n.From = e.Day }},
		},
	})
}

// labour is the Labour sheet: what an hour of a trade costs.
func labour() Sheet[rates.Labour] {
	type L = rates.Labour
	return outlined(Sheet[L]{
		Outline: Outline{
			Name: "Labour", Purpose: "what an hour of each trade costs: a rate, or pay and what is added to it",
			Prices: true, Once: []string{"Trade", "From"},
		},
		Columns: []Column[L]{
			{Heading{Name: "Trade", Form: Key, Required: true, Names: true, Example: "Shipwright",
				Help: "Name by which other sheets call it; overtime and apprentices are trades of their own"},
				func(l *L, e Entry) { l.Trade, l.At = e.Text, e.At }},
			{Heading{Name: "Rate", Form: Money, Over: "0", Example: "34.50", Elsewhere: true,
				Help: "All-in cost of an hour; where blank it is reckoned from Pay"},
				func(l *L, e Entry) { l.Rate = e.Price() }},
			{Heading{Name: "Pay", Form: Money, Over: "0", Example: "19.80",
				Help: "For an hour paid"},
				func(l *L, e Entry) { l.Pay = e.Price() }},
			{Heading{Name: "Paid hours a year", Form: Number, Over: "0", Most: "8784", Example: "2028",
				Help: "Holidays and sickness paid for among them"},
				func(l *L, e Entry) { l.Paid = e.Number }},
			{Heading{Name: "Worked hours a year", Form: Number, Over: "0", Most: "8784", Example: "1720",
				Help: "What is left of them at work"},
				func(l *L, e Entry) { l.Worked = e.Number }},
			{Heading{Name: "On-costs %", Form: Percent, Least: "0", Most: "200", Default: "0", Example: "18 %",
				Help: "On pay: insurance, pension, levies"},
				func(l *L, e Entry) { l.OnCosts = e.Percent() }},
			{Heading{Name: "Other costs an hour", Form: Money, Least: "0", Default: "0", Example: "1.20",
				Help: "Tools, clothing, travel, for an hour worked"},
				func(l *L, e Entry) { l.Other = e.Price() }},
			{Heading{Name: "Men", Form: Number, Over: "0", Most: "1000", Example: "5",
				Help: "Strength of the trade; more asked for at once is remarked"},
				func(l *L, e Entry) { l.Men, l.MenGiven = e.Number, e.Given }},
			{since(), func(l *L, e Entry) { l.From = e.Day }},
		},
	})
}

// The headings that several price sheets have in common follow.

// since is the day from which a price row holds.
func since() Heading {
	return Heading{Name: "From", Form: Day, Example: "2026-01-05",
		Help: "Day the row holds from, blank from the beginning; the latest not after the tender date is in force"}
}

// described is the heading of more words.
func described() Heading {
	return Heading{Name: "Description", Form: Words, Example: "galvanised, square shank",
		Help: "More words, for the working"}
}

// sourced is the heading of where a figure was found.
func sourced() Heading {
	return Heading{Name: "Source", Form: Words, Example: "time sheets of 2024",
		Help: "Where the figure comes from"}
}

// supplied is the heading of who sells it.
func supplied() Heading {
	return Heading{Name: "Supplier", Form: Words, Example: "the country sawmill",
		Help: "Printed on the order"}
}

// stockUnits are the units timber may be priced, sawn and carried by.
func stockUnits() []string {
	return words([]measure.Unit{measure.Nr, measure.M, measure.Ft, measure.M2, measure.Ft2, measure.M3,
		measure.Ft3, measure.HFt, measure.BF, measure.Std, measure.Load})
}
