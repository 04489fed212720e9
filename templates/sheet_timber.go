package templates

import (
	"slices"

	"futtock/rates"
)

// timbers is the Timber sheet: what is known of each timber.
func timbers() Sheet[rates.Timber] {
	type T = rates.Timber
	return outlined(Sheet[T]{
		Outline: Outline{
			Name: "Timber", Purpose: "what is known of each timber: weight, shrinkage, planing and saw cut",
			Prices: true, Once: []string{"Timber"},
		},
		Columns: []Column[T]{
			{Heading{Name: "Timber", Form: Key, Required: true, Names: true, Example: "Oak",
				Help: "Name by which Members and Stock call it"},
				func(t *T, e Entry) { t.Timber, t.At = e.Text, e.At }},
			{Heading{Name: "Botanical name", Form: Words, Example: "Quercus robur",
				Help: "For the order and for the record"},
				func(t *T, e Entry) { t.Botanical = e.Text }},
			{Heading{Name: "Density", Form: Number, Unit: "kg/m3", Over: "0", Most: "1500", Example: "720",
				Help: "Weight as worked; needed by what is measured by weight"},
				func(t *T, e Entry) { t.Density = e.Number }},
			{Heading{Name: "Tangential %", Form: Percent, Least: "0", Most: "30", Default: "0", Example: "8.9 %",
				Help: "Shrinkage from green to oven-dry, along the rings"},
				func(t *T, e Entry) { t.Tangential = e.Percent() }},
			{Heading{Name: "Radial %", Form: Percent, Least: "0", Most: "30", Default: "0", Example: "5.3 %",
				Help: "The same, across the rings"},
				func(t *T, e Entry) { t.Radial = e.Percent() }},
			{Heading{Name: "Sawn at MC %", Form: Percent, Least: "0", Most: "200", Example: "25 %", Elsewhere: true,
				Help: "Moisture when sawn; with In use MC % the sawn sizes allow for drying, without it none is allowed"},
				func(t *T, e Entry) { t.SawnAt, t.Dries = e.Percent(), e.Given }},
			{Heading{Name: "In use MC %", Form: Percent, Least: "0", Most: "200", Example: "18 %", Elsewhere: true,
				Help: "Moisture in the ship"},
				func(t *T, e Entry) { t.InUse, t.Dries = e.Percent(), e.Given && t.Dries }},
			{Heading{Name: "Planing a face", Form: Length, Scale: Small, Least: "0 mm", Most: "50 mm", Default: "0 mm", Example: "3",
				Help: "Taken off each planed face"},
				func(t *T, e Entry) { t.Planing = e.Length }},
			{Heading{Name: "Kerf", Form: Length, Scale: Small, Least: "0 mm", Most: "50 mm", Default: "0 mm", Example: "4",
				Help: "Width of a saw cut"},
				func(t *T, e Entry) { t.Kerf = e.Length }},
			{Heading{Name: "Durability class", Form: Words, Example: "2",
				Help: "For the record"},
				func(t *T, e Entry) { t.Durability = e.Text }},
			{sourced(), func(t *T, e Entry) { t.Source = e.Text }},
		},
	})
}

// stock is the Stock sheet: the timber that can be had.
func stock() Sheet[rates.Stock] {
	return outlined(Sheet[rates.Stock]{
		Outline: Outline{
			Name: "Stock", Purpose: "timber that can be had, one row for each size and form, with its price",
			Prices: true, Once: []string{"Stock", "From"},
		},
		Columns: slices.Concat(sticks(), measured(), had(), bought()),
	})
}

// sticks says what is to be had.
func sticks() []Column[rates.Stock] {
	type S = rates.Stock
	return []Column[S]{
		{Heading{Name: "Stock", Form: Key, Required: true, Names: true, Example: "Oak plank 75",
			Help: "Name of the line; Members may be bound to it"},
			func(s *S, e Entry) { s.Stock, s.At = e.Text, e.At }},
		{Heading{Name: "Timber", Form: Key, Required: true, Refers: to("Timber"), Example: "Oak",
			Help: "What it is"},
			func(s *S, e Entry) { s.Timber, s.TimberAt = e.Text, e.At }},
		{Heading{Name: "Form", Form: Choice, Required: true, Choices: words(rates.Forms()), Example: "plank",
			Help: "Planks, baulks and flitches are ripped and cross-cut, logs sawn up for straight square rows, crooks for rows with a Sweep; knees and spars serve rows bound to them; a cube is timber bought by volume, with a yield"},
			func(s *S, e Entry) { s.Form = rates.Form(e.Text) }},
	}
}

// measured gives the sizes.
func measured() []Column[rates.Stock] {
	type S = rates.Stock
	return []Column[S]{
		{Heading{Name: "Thickness", Form: Length, Scale: Small, Over: "0 mm", Most: "3 m", Example: "75",
			Help: "Of plank, baulk, flitch and crook"},
			func(s *S, e Entry) { s.Thickness = e.Length }},
		{Heading{Name: "Width", Form: Length, Scale: Small, Over: "0 mm", Most: "3 m", Example: "300",
			Help: "Of plank and baulk; of a flitch the clear width; of a crook across its sweep"},
			func(s *S, e Entry) { s.Width = e.Length }},
		{Heading{Name: "Length", Form: Length, Over: "0 m", Most: "60 m", Example: "6",
			Help: "Of the stick, ends untrimmed"},
			func(s *S, e Entry) { s.Length = e.Length }},
		{Heading{Name: "Top diameter", Form: Length, Scale: Small, Over: "0 mm", Most: "3 m", Example: "420", Elsewhere: true,
			Help: "Of log and spar, over bark, at the small end"},
			func(s *S, e Entry) { s.TopDiameter = e.Length }},
		{Heading{Name: "Mid girth", Form: Length, Scale: Small, Over: "0 mm", Most: "9 m", Example: "1500", Elsewhere: true,
			Help: "The full girth halfway along, over bark where Bark is given; the volume under bark is taken from it where it is given"},
			func(s *S, e Entry) { s.MidGirth = e.Length }},
		{Heading{Name: "Taper", Form: Length, Scale: Small, Least: "0 mm", Most: "200 mm", Default: "0 mm", Example: "10", Elsewhere: true,
			Help: "Growth of the diameter for each metre of length"},
			func(s *S, e Entry) { s.Taper = e.Length }},
		{Heading{Name: "Sapwood", Form: Length, Scale: Small, Least: "0 mm", Most: "300 mm", Default: "0 mm", Example: "25", Elsewhere: true,
			Help: "Thickness of it under the bark"},
			func(s *S, e Entry) { s.Sapwood = e.Length }},
		{Heading{Name: "Bark", Form: Length, Scale: Small, Least: "0 mm", Most: "200 mm", Default: "0 mm", Example: "15", Elsewhere: true,
			Help: "Thickness of it"},
			func(s *S, e Entry) { s.Bark = e.Length }},
		{Heading{Name: "Sweep", Form: Length, Scale: Small, Least: "0 mm", Most: "10 m", Default: "0 mm", Example: "350", Elsewhere: true,
			Help: "Of crook and flitch, over the stick's own length"},
			func(s *S, e Entry) { s.Sweep = e.Length }},
		{Heading{Name: "End trim", Form: Length, Scale: Small, Least: "0 mm", Most: "3 m", Default: "0 mm", Example: "50",
			Help: "Cut off each end"},
			func(s *S, e Entry) { s.EndTrim = e.Length }},
	}
}

// had says how much of it there is and what of it is lost.
func had() []Column[rates.Stock] {
	type S = rates.Stock
	return []Column[S]{
		{Heading{Name: "Loss %", Form: Percent, Least: "0", Most: "95", Default: "0", Example: "10 %",
			Help: "Share of what is bought that proves unfit; not of crooks, knees and spars, which are chosen one by one"},
			func(s *S, e Entry) { s.Loss = e.Percent() }},
		{Heading{Name: "Yield %", Form: Percent, Over: "0", Most: "100", Example: "55 %", Elsewhere: true,
			Help: "Of a cube: net timber in the ship, out of what is bought"},
			func(s *S, e Entry) { s.Yield = e.Percent() }},
		{Heading{Name: "Available", Form: Whole, Least: "0", Most: "100000", Example: "40",
			Help: "Sticks that can be had, or units of a cube; blank is no limit"},
			func(s *S, e Entry) { s.Available, s.Limited = e.Whole, e.Given }},
		{Heading{Name: "Supplied by", Form: Choice, Choices: []string{"yard", "owner"}, Default: "yard", Example: "yard",
			Help: "The owner's stock bears handling and sawing, no price and no additions"},
			func(s *S, e Entry) { s.ByOwner = e.Text == "owner" }},
	}
}

// bought gives the price and the terms.
func bought() []Column[rates.Stock] {
	type S = rates.Stock
	return []Column[S]{
		{Heading{Name: "Price", Form: Money, Required: true, Least: "0", Example: "2150",
			Help: "Of one Unit, before VAT; 0 for the owner's"},
			func(s *S, e Entry) { s.Price, s.PriceAt = e.Price(), e.At }},
		{Heading{Name: "Unit", Form: Unit, Required: true, Choices: stockUnits(), Example: "m3",
			Help: "What the price is for one of"},
			func(s *S, e Entry) { s.Unit = e.Unit }},
		{Heading{Name: "Measured by", Form: Choice, Choices: words(rates.LogRules()), Default: string(rates.True), Example: "true",
			Help: "Rule by which the volume of round timber is reckoned, for its price, its delivery and its sawing alike"},
			func(s *S, e Entry) { s.Measure = rates.LogRule(e.Text) }},
		{Heading{Name: "Sawing charge", Form: Money, Least: "0", Default: "0", Example: "85", Elsewhere: true,
			Help: "For one Sawing unit of what is bought"},
			func(s *S, e Entry) { s.Sawing = e.Price() }},
		{Heading{Name: "Sawing unit", Form: Unit, Choices: stockUnits(), Example: "m3", Elsewhere: true,
			Help: "What the sawing charge is for one of; blank is Unit"},
			func(s *S, e Entry) { s.SawingUnit = e.Unit }},
		{Heading{Name: "Delivery", Form: Money, Least: "0", Default: "0", Example: "60",
			Help: "For one Unit, beside the price"},
			func(s *S, e Entry) { s.Delivery = e.Price() }},
		{supplied(), func(s *S, e Entry) { s.Supplier = e.Text }},
		{Heading{Name: "Lead weeks", Form: Number, Least: "0", Most: "520", Example: "6",
			Help: "From order to delivery"},
			func(s *S, e Entry) { s.LeadWeeks, s.LeadGiven = e.Number, e.Given }},
		{since(), func(s *S, e Entry) { s.From = e.Day }},
	}
}
