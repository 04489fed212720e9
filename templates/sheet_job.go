package templates

import (
	"futtock/estimate/job"
	"futtock/rates/measure"
)

// particulars is the Job sheet: one heading and one value a row.
func particulars() Sheet[job.Particulars] {
	return outlined(Sheet[job.Particulars]{
		Outline: Outline{
			Name:     "Job",
			Purpose:  "the vessel, the parties and the terms, one a row: the value stands at the right of its heading",
			Required: true, Upright: true,
		},
		Columns: append(append(parties(), terms()...), allowances()...),
		Check:   checkParticulars,
	})
}

// parties says whose work it is, on which vessel, by when.
func parties() []Column[job.Particulars] {
	type P = job.Particulars
	return []Column[P]{
		{Heading{Name: "Vessel", Form: Words, Required: true, Example: "Speedwell",
			Help: "Name of the vessel, as the documents shall print it"},
			func(p *P, e Entry) { p.Vessel = e.Text }},
		{Heading{Name: "Description", Form: Words, Example: "refit of the hull, first stage",
			Help: "What the work is, in a line for the title of the tender"},
			func(p *P, e Entry) { p.Description = e.Text }},
		{Heading{Name: "Client", Form: Words, Required: true, Example: "the trustees of the Speedwell",
			Help: "Who asks for the price"},
			func(p *P, e Entry) { p.Client = e.Text }},
		{Heading{Name: "Yard", Form: Words, Required: true, Example: "the Creek yard",
			Help: "Who gives the price"},
			func(p *P, e Entry) { p.Yard = e.Text }},
		{Heading{Name: "Tender reference", Form: Words, Required: true, Example: "SW-2026-1",
			Help: "Letters, digits, dot and hyphen only: the names of all files written begin with it"},
			func(p *P, e Entry) { p.Reference = e.Text }},
		{Heading{Name: "Tender date", Form: Day, Required: true, Example: "2026-03-12",
			Help: "Prices, norms and taxes in force on this day are taken"},
			func(p *P, e Entry) { p.TenderDate = e.Day }},
		{Heading{Name: "Valid for (days)", Form: Whole, Least: "1", Most: "3650", Example: "60",
			Help: "How long the tender may be accepted"},
			func(p *P, e Entry) { p.ValidDays = e.Whole }},
		{Heading{Name: "Start on site", Form: Day, Example: "2026-05-04",
			Help: "When work begins; the programme counts from here"},
			func(p *P, e Entry) { p.Start = e.Day }},
		{Heading{Name: "Currency", Form: Words, Default: "GBP", Example: "GBP",
			Help: "Three letters as in ISO 4217; a sign of another currency in a cell of money is a problem"},
			func(p *P, e Entry) { p.Currency = e.Text }},
	}
}

// terms are the units, the vessel's measurements and the tax.
func terms() []Column[job.Particulars] {
	type P = job.Particulars
	return []Column[P]{
		{Heading{Name: "Lengths in", Form: Unit, Choices: []string{"m", "ft"}, Default: "m", Example: "m",
			Help: "What a bare number is in where the heading of a length names no unit"},
			func(p *P, e Entry) { p.LengthsIn = e.Unit }},
		{Heading{Name: "Sided and moulded in", Form: Unit, Choices: []string{"mm", "in"}, Default: "mm", Example: "mm",
			Help: "The same for sided, moulded and other small sizes"},
			func(p *P, e Entry) { p.SizesIn = e.Unit }},
		{Heading{Name: "Volumes in", Form: Unit, Choices: words([]measure.Unit{measure.M3, measure.Ft3, measure.HFt, measure.BF}),
			Default: "m3", Example: "m3", Help: "What volumes of timber are printed in"},
			func(p *P, e Entry) { p.VolumesIn = e.Unit }},
		{Heading{Name: "Length overall", Form: Length, Over: "0 m", Most: "300 m", Example: "25.4",
			Help: "Of the hull, without bowsprit"},
			func(p *P, e Entry) { p.LengthOverall = e.Length }},
		{Heading{Name: "Breadth", Form: Length, Over: "0 m", Most: "60 m", Example: "6.1",
			Help: "Greatest breadth of the hull"},
			func(p *P, e Entry) { p.Breadth = e.Length }},
		{Heading{Name: "Depth", Form: Length, Over: "0 m", Most: "40 m", Example: "2.1",
			Help: "Moulded depth amidships"},
			func(p *P, e Entry) { p.Depth = e.Length }},
		{Heading{Name: "Gross tonnage", Form: Number, Over: "0", Most: "10000", Example: "64",
			Help: "As in her papers"},
			func(p *P, e Entry) { p.Tonnage, p.TonnageGiven = e.Number, e.Given }},
		{Heading{Name: "Tonnage basis", Form: Words, Example: "certificate of registry",
			Help: "Where the tonnage is taken from"},
			func(p *P, e Entry) { p.TonnageBasis = e.Text }},
		{Heading{Name: "Designed or adapted for", Form: Words, Example: "cargo",
			Help: "What she was built for or has been altered to: it bears on the rate of VAT"},
			func(p *P, e Entry) { p.DesignedFor = e.Text }},
		{Heading{Name: "VAT evidence", Form: Words, Example: "registry, builder's certificate of 1899",
			Help: "Papers that show which rate holds"},
			func(p *P, e Entry) { p.VATEvidence = e.Text }},
		{Heading{Name: "VAT code", Form: Key, Required: true, Refers: to("VAT"), Example: "S",
			Help: "The code of every line that names none of its own"},
			func(p *P, e Entry) { p.VATCode = e.Text }},
		{Heading{Name: "VAT rounding", Form: Choice, Choices: []string{string(job.Nearest), string(job.Down)},
			Default: string(job.Nearest), Example: "nearest",
			Help: "How the tax of one code is brought to the penny"},
			func(p *P, e Entry) { p.VATRounding = job.Rounding(e.Text) }},
		{Heading{Name: "Hours a week", Form: Number, Required: true, Least: "0", Most: "168", Example: "39",
			Help: "Hours a man works in a working week"},
			func(p *P, e Entry) { p.HoursAWeek = e.Number }},
		{Heading{Name: "Working weeks a year", Form: Number, Least: "0", Most: "52", Default: "52", Example: "46",
			Help: "Spreads holidays over the year; not used where Closures are listed"},
			func(p *P, e Entry) { p.WorkingWeeks = e.Number }},
		{Heading{Name: "Spacing of frames", Form: Length, Scale: Small, Least: "50 mm", Most: "3 m", Example: "450",
			Help: "From centre to centre; counts the crossings of a plank whose frames are not given"},
			func(p *P, e Entry) { p.FrameSpacing = e.Length }},
	}
}

// allowances are what is set aside for things not yet known, and for time.
func allowances() []Column[job.Particulars] {
	type P = job.Particulars
	return []Column[P]{
		{Heading{Name: "Contingency by", Form: Choice, Choices: words([]job.By{job.ByPercent, job.BySimulation}), Default: string(job.ByPercent), Example: "percent",
			Help: "By the percentages below and of the sections, or by drawing all that may come out otherwise many thousand times"},
			func(p *P, e Entry) { p.ContingencyBy = job.By(e.Text) }},
		{Heading{Name: "Contingency %", Form: Percent, Least: "0", Most: "100", Default: "0", Example: "10 %",
			Help: "On the work of every section that gives no rate of its own"},
			func(p *P, e Entry) { p.Contingency = e.Percent() }},
		{Heading{Name: "Contingency on", Form: Choice, Choices: []string{string(job.OnItems), string(job.OnItemsPrel)},
			Default: string(job.OnItems), Example: "items", Help: "What the percentage is taken on"},
			func(p *P, e Entry) { p.ContingencyOn = job.Base(e.Text) }},
		{Heading{Name: "Contingency shown", Form: Choice, Choices: []string{string(job.ClientSum), string(job.WithinRates)},
			Default: string(job.ClientSum), Example: "as a client's sum",
			Help: "As a sum of its own in the bill, or spread within the rates and then not spoken of in the client's copy"},
			func(p *P, e Entry) { p.ContingencyShown = job.Shown(e.Text) }},
		{Heading{Name: "Confidence %", Form: Percent, Least: "1", Most: "99", Default: "80", Example: "80 %",
			Help: "How sure a simulated contingency shall be to suffice"},
			func(p *P, e Entry) { p.Confidence = e.Percent() }},
		{Heading{Name: "Surprises together %", Form: Percent, Least: "0", Most: "100", Default: "0", Example: "20 %",
			Help: "How far rows turn out dear together in a simulated contingency: 0 each for itself, 100 all alike"},
			func(p *P, e Entry) { p.Together = e.Percent() }},
		{Heading{Name: "Draw number", Form: Whole, Least: "0", Most: "999999999", Default: "1", Example: "1",
			Help: "Another number draws other luck; the same number draws the same"},
			func(p *P, e Entry) { p.DrawNumber = int64(e.Whole) }},
		{Heading{Name: "Timber search", Form: Whole, Least: "1", Most: "100", Default: "1", Example: "1",
			Help: "How many times the usual search for the cheapest timber; 10 takes some seconds, and mostly finds it a little cheaper"},
			func(p *P, e Entry) { p.TimberSearch = e.Whole }},
		{Heading{Name: "Price rises % a year", Form: Percent, Least: "0", Most: "100", Default: "0", Example: "4 %",
			Help: "Adds for prices rising from the tender date to the middle of the work"},
			func(p *P, e Entry) { p.PriceRises = e.Percent() }},
		{Heading{Name: "Retention %", Form: Percent, Least: "0", Most: "100", Default: "0", Example: "5 %",
			Help: "Kept back from each payment; half of it is released when the work is done, half once defects are made good"},
			func(p *P, e Entry) { p.Retention = e.Percent() }},
		{Heading{Name: "Payment weeks", Form: Number, Least: "0", Most: "104", Default: "0", Example: "4",
			Help: "From the valuation at the end of a month to its payment"},
			func(p *P, e Entry) { p.PaymentWeeks = e.Number }},
		{Heading{Name: "Defects period (months)", Form: Whole, Least: "1", Most: "120", Example: "12",
			Help: "From the end of the works until defects are made good and the second half of the retention is released; blank gives it no date"},
			func(p *P, e Entry) { p.DefectsMonths = e.Whole }},
		{Heading{Name: "Price waiting time", Form: YesNo, Default: "no", Example: "no",
			Help: "Yes adds a preliminary for the time men are kept and have no priced work, with the additions of preliminaries"},
			func(p *P, e Entry) { p.PriceWaiting = e.Yes }},
		{Heading{Name: "Return to", Form: Words, Example: "the trust's clerk, The Old Sail Loft, Harbour Lane",
			Help: "Of a bill that others are to price: whom it goes back to; blank is the Client"},
			func(p *P, e Entry) { p.ReturnTo = e.Text }},
		{Heading{Name: "Return by", Form: Day, Example: "2026-04-10",
			Help: "The last day it may come back"},
			func(p *P, e Entry) { p.ReturnBy = e.Day }},
		{Heading{Name: "Paper", Form: Choice, Choices: words([]job.Paper{job.A4, job.Letter}), Default: string(job.A4), Example: "A4",
			Help: "What the documents are laid out and printed on: the PDFs, and the print set-up of the workbooks"},
			func(p *P, e Entry) { p.Paper = job.Paper(e.Text) }},
	}
}
