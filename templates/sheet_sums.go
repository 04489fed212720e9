package templates

import (
	"slices"

	"futtock/estimate/job"
	"futtock/rates"
)

// preliminaries is the Preliminaries sheet: charges on the job as a whole.
func preliminaries() Sheet[job.Preliminary] {
	return outlined(Sheet[job.Preliminary]{
		Outline: Outline{
			Name: "Preliminaries", Purpose: "charges on the job as a whole: fixed, by the week, for supervision, or a percentage",
			Refs: true,
		},
		Columns: slices.Concat(charge(), running(), supervision()),
	})
}

// charge says what is charged.
func charge() []Column[job.Preliminary] {
	type P = job.Preliminary
	return []Column[P]{
		{Heading{Name: "Ref", Form: Key, Required: true, Example: "P1",
			Help: "Number of the row, found on no other row of Members, Items, Preliminaries, Sums and Risks"},
			func(p *P, e Entry) { p.Ref, p.At = e.Text, e.At }},
		{Heading{Name: "Description", Form: Words, Required: true, Example: "crane on the slip",
			Help: "Wording of the bill"},
			func(p *P, e Entry) { p.Description = e.Text }},
		{Heading{Name: "Kind", Form: Choice, Required: true, Choices: words(rates.Kinds()), Default: string(rates.OfPreliminaries), Example: "plant",
			Help: "Which overheads and profit it bears"},
			func(p *P, e Entry) { p.Kind = rates.Kind(e.Text) }},
		{Heading{Name: "Plant", Form: Key, Refers: to("Plant"), Example: "Mobile crane",
			Help: "Takes Fixed and A week from the Plant sheet"},
			func(p *P, e Entry) { p.Plant, p.PlantAt = e.Text, e.At }},
		{Heading{Name: "Quantity", Form: Number, Over: "0", Most: "100000", Default: "1", Example: "1",
			Help: "How many of them"},
			func(p *P, e Entry) { p.Quantity = e.Number }},
		{Heading{Name: "Fixed", Form: Money, Least: "0", Default: "0", Example: "350", Elsewhere: true,
			Help: "Charged once; typed, even 0, it goes before the plant's"},
			func(p *P, e Entry) { p.Fixed, p.FixedGiven = e.Price(), e.Given }},
		{Heading{Name: "A week", Form: Money, Least: "0", Default: "0", Example: "275", Elsewhere: true,
			Help: "Charged for each week it runs; typed, even 0, it goes before the plant's"},
			func(p *P, e Entry) { p.Weekly, p.WeeklyGiven = e.Price(), e.Given }},
	}
}

// running says for how long a weekly charge runs.
func running() []Column[job.Preliminary] {
	type P = job.Preliminary
	return []Column[P]{
		{Heading{Name: "From stage", Form: Key, Refers: to("Stages"), Example: "Planking",
			Help: "A weekly charge runs from the earliest start of this stage; blank from the first"},
			func(p *P, e Entry) { p.FromStage, p.FromAt = e.Text, e.At }},
		{Heading{Name: "To stage", Form: Key, Refers: to("Stages"), Example: "Planking",
			Help: "To the earliest finish of this one; blank to the last"},
			func(p *P, e Entry) { p.ToStage, p.ToAt = e.Text, e.At }},
		{Heading{Name: "Weeks", Form: Number, Least: "0", Most: "1000", Example: "6", Elsewhere: true,
			Help: "Governs where given, and is compared with the programme"},
			func(p *P, e Entry) { p.Weeks, p.WeeksGiven, p.WeeksAt = e.Number, e.Given, e.At }},
		{Heading{Name: "Charged by", Form: Choice, Default: string(job.ByWeek), Example: "whole week",
			Choices: words([]job.Charged{job.ByWeek, job.ByWholeWeek, job.ByFourWeeks, job.ByDay}),
			Help:    "Step in which the charge runs; by the week is to a tenth"},
			func(p *P, e Entry) { p.Charged = job.Charged(e.Text) }},
	}
}

// supervision says whose time, or which share, is charged.
func supervision() []Column[job.Preliminary] {
	type P = job.Preliminary
	return []Column[P]{
		{Heading{Name: "Trade", Form: Key, Refers: to("Labour"), Example: "Foreman", Elsewhere: true,
			Help: "Of supervision, at the trade's rate"},
			func(p *P, e Entry) { p.Trade, p.TradeAt = e.Text, e.At }},
		{Heading{Name: "Hours a week", Form: Number, Least: "0", Most: "1000", Default: "0", Example: "20", Elsewhere: true,
			Help: "Of that trade, for each week it runs"},
			func(p *P, e Entry) { p.HoursAWeek = e.Number }},
		{Heading{Name: "% of", Form: Percent, Least: "0", Most: "100", Example: "8 %", Elsewhere: true,
			Help: "A percentage in place of a charge: of all items' hours at the trade's rate, or of measured work"},
			func(p *P, e Entry) { p.Share, p.ShareGiven, p.ShareAt = e.Percent(), e.Given, e.At }},
		{Heading{Name: "Of", Form: Choice, Choices: words([]job.Of{job.OfHours, job.OfItems}), Example: "hours", Elsewhere: true,
			Help: "What the percentage is of"},
			func(p *P, e Entry) { p.Of = job.Of(e.Text) }},
		{Heading{Name: "VAT", Form: Key, Refers: to("VAT"), Example: "S", Elsewhere: true,
			Help: "Code, in place of the Job's"},
			func(p *P, e Entry) { p.VAT = e.Text }},
		{funding(), func(p *P, e Entry) { p.Funding = e.Text }},
		{noted(), func(p *P, e Entry) { p.Note = e.Text }},
	}
}

// sums is the Sums sheet: money that stands for work not yet measured.
func sums() Sheet[job.Sum] {
	type S = job.Sum
	return outlined(Sheet[S]{
		Outline: Outline{
			Name: "Sums", Purpose: "sums of money that stand for work or goods not yet measured",
			Refs: true,
		},
		Columns: []Column[S]{
			{Heading{Name: "Ref", Form: Key, Required: true, Example: "S1",
				Help: "Number of the row, found on no other row of Members, Items, Preliminaries, Sums and Risks"},
				func(s *S, e Entry) { s.Ref, s.At = e.Text, e.At }},
			{Heading{Name: "Section", Form: Key, Refers: to("Sections"), Example: "4",
				Help: "Part of the bill it belongs to"},
				func(s *S, e Entry) { s.Section, s.SectionAt = e.Text, e.At }},
			{Heading{Name: "Description", Form: Words, Required: true, Example: "renew hidden framing found when planks come off",
				Help: "Wording of the bill"},
				func(s *S, e Entry) { s.Description = e.Text }},
			{Heading{Name: "Kind", Form: Choice, Required: true, Choices: words(job.SumKinds()), Example: "provisional undefined",
				Help: "Defined work is already in the programme, undefined is not; prime cost is goods, a quotation is another's price"},
				func(s *S, e Entry) { s.Kind = job.SumKind(e.Text) }},
			{Heading{Name: "Amount", Form: Money, Required: true, Example: "6000",
				Help: "Before VAT"},
				func(s *S, e Entry) { s.Amount = e.Price() }},
			{Heading{Name: "Profit %", Form: Percent, Least: "0", Most: "100", Default: "0", Example: "5 %",
				Help: "On the amount; blank is none"},
				func(s *S, e Entry) { s.Profit = e.Percent() }},
			{Heading{Name: "Attendance", Form: Money, Least: "0", Default: "0", Example: "400", Elsewhere: true,
				Help: "For helping those who do the work"},
				func(s *S, e Entry) { s.Attendance = e.Price() }},
			{Heading{Name: "Stage", Form: Key, Refers: to("Stages"), Example: "Planking",
				Help: "When it falls due"},
				func(s *S, e Entry) { s.Stage, s.StageAt = e.Text, e.At }},
			{Heading{Name: "Lead weeks", Form: Number, Least: "0", Most: "520", Default: "0", Example: "8", Elsewhere: true,
				Help: "From order to delivery: when it must be ordered for its stage"},
				func(s *S, e Entry) { s.LeadWeeks = e.Number }},
			{Heading{Name: "Deposit %", Form: Percent, Least: "0", Most: "100", Default: "0", Example: "30 %", Elsewhere: true,
				Help: "Of the amount of a quotation or prime cost, valued when it is ordered: Lead weeks before its stage, not before the start on site; blank is none"},
				func(s *S, e Entry) { s.Deposit, s.DepositAt = e.Percent(), e.At }},
			{Heading{Name: "VAT", Form: Key, Refers: to("VAT"), Example: "S", Elsewhere: true,
				Help: "Code, in place of the Job's"},
				func(s *S, e Entry) { s.VAT = e.Text }},
			{funding(), func(s *S, e Entry) { s.Funding = e.Text }},
			{Heading{Name: "Quoted by", Form: Words, Example: "the town sailmaker", Elsewhere: true,
				Help: "Of a quotation"},
				func(s *S, e Entry) { s.QuotedBy = e.Text }},
			{Heading{Name: "Quoted on", Form: Day, Example: "2026-02-20", Elsewhere: true,
				Help: "Day of the quotation"},
				func(s *S, e Entry) { s.QuotedOn = e.Day }},
			{noted(), func(s *S, e Entry) { s.Note = e.Text }},
		},
	})
}

// dayworks is the Dayworks sheet: an allowance for work paid by time and cost.
func dayworks() Sheet[job.Daywork] {
	type D = job.Daywork
	return outlined(Sheet[D]{
		Outline: Outline{Name: "Dayworks", Purpose: "an allowance for work that can only be paid by time and cost"},
		Columns: []Column[D]{
			{Heading{Name: "Trade or kind", Form: Key, Required: true, Refers: to("Labour"), Example: "Shipwright",
				Choices: words([]rates.Kind{rates.OfMaterials, rates.OfPlant, rates.OfSubcontract}),
				Help:    "A trade, or one of materials, plant, subcontract"},
				func(d *D, e Entry) { d.Of, d.At = e.Text, e.At }},
			{Heading{Name: "Hours or amount", Form: Number, Required: true, Least: "0", Most: "100000000", Example: "80",
				Help: "Hours of a trade; money for the others"},
				func(d *D, e Entry) { d.Quantity = e.Number }},
			{Heading{Name: "Addition %", Form: Percent, Least: "0", Most: "500", Default: "0", Example: "30 %",
				Help: "Overheads and profit on them"},
				func(d *D, e Entry) { d.Addition = e.Percent() }},
		},
	})
}

// risks is the Risks sheet: the register of what may come about.
func risks() Sheet[job.Risk] {
	type R = job.Risk
	return outlined(Sheet[R]{
		Outline: Outline{
			Name: "Risks", Purpose: "the register of risks, in money at selling price: drawn where the contingency is simulated, by percent on record beside it",
			Refs: true,
		},
		Columns: []Column[R]{
			{Heading{Name: "Ref", Form: Key, Required: true, Example: "R1",
				Help: "Number of the row, found on no other row of Members, Items, Preliminaries, Sums and Risks"},
				func(r *R, e Entry) { r.Ref, r.At = e.Text, e.At }},
			{Heading{Name: "Description", Form: Words, Required: true, Example: "slip not free when wanted",
				Help: "What may come about"},
				func(r *R, e Entry) { r.Description = e.Text }},
			{Heading{Name: "Section", Form: Key, Refers: to("Sections"), Example: "4",
				Help: "Part of the bill it bears on"},
				func(r *R, e Entry) { r.Section, r.SectionAt = e.Text, e.At }},
			{Heading{Name: "Chance %", Form: Percent, Required: true, Least: "0", Most: "100", Example: "25 %",
				Help: "That it does"},
				func(r *R, e Entry) { r.Chance = e.Percent() }},
			{Heading{Name: "Least", Form: Money, Required: true, Least: "0", Example: "500",
				Help: "The least it then costs"},
				func(r *R, e Entry) { r.Least = e.Price() }},
			{Heading{Name: "Likely", Form: Money, Required: true, Least: "0", Example: "1200",
				Help: "What it most likely costs"},
				func(r *R, e Entry) { r.Likely = e.Price() }},
			{Heading{Name: "Most", Form: Money, Required: true, Least: "0", Example: "3000",
				Help: "The most"},
				func(r *R, e Entry) { r.Most = e.Price() }},
			{Heading{Name: "Extra weeks", Form: Number, Least: "0", Most: "520", Default: "0", Example: "2",
				Help: "That the job then takes longer: charges that run with time run on by them"},
				func(r *R, e Entry) { r.ExtraWeeks = e.Number }},
			{noted(), func(r *R, e Entry) { r.Note = e.Text }},
		},
	})
}

// clauses is the Clauses sheet: what of the tender's standing text holds otherwise.
func clauses() Sheet[job.Clause] {
	type C = job.Clause
	return outlined(Sheet[C]{
		Outline: Outline{
			Name: "Clauses", Purpose: "what the tender says otherwise than its standing text: clauses added, replaced and left out",
		},
		Columns: []Column[C]{
			{Heading{Name: "Part", Form: Choice, Required: true, Choices: words(job.TermsParts()), Example: "exclusions",
				Help: "Part of the tender; timber and dock are in its basis. Cautions may only be added to"},
				func(c *C, e Entry) { c.Terms, c.At = job.Terms(e.Text), e.At }},
			{Heading{Name: "Clause", Form: Words, Example: "Taking down and setting up masts and rigging, which the owner's riggers do.",
				Help: "The words, printed as they stand; blank leaves out the clause named in the next column"},
				func(c *C, e Entry) { c.Words = e.Text }},
			{Heading{Name: "In place of", Form: Words, Example: "Hull, war and voyage risks", Elsewhere: true,
				Help: "First words of the standing clause it takes the place of, as many as tell it from the others; blank adds the clause after them"},
				func(c *C, e Entry) { c.InPlaceOf, c.PlaceAt = single(e.Text), e.At }},
		},
		Check: checkClause,
	})
}

// additions is the Overheads and profit sheet.
func additions() Sheet[rates.Addition] {
	type A = rates.Addition
	return outlined(Sheet[A]{
		Outline: Outline{
			Name: "Overheads and profit", Purpose: "what is added to each kind of cost; a kind not named bears none",
			Once: []string{"Kind"},
		},
		Columns: []Column[A]{
			{Heading{Name: "Kind", Form: Choice, Required: true, Choices: words(rates.Kinds()), Example: "labour",
				Help: "Kind of cost"},
				func(a *A, e Entry) { a.Kind, a.At = rates.Kind(e.Text), e.At }},
			{Heading{Name: "Overheads %", Form: Percent, Required: true, Least: "0", Most: "500", Example: "12 %",
				Help: "On the cost"},
				func(a *A, e Entry) { a.Overheads = e.Percent() }},
			{Heading{Name: "Profit %", Form: Percent, Required: true, Least: "0", Most: "500", Example: "8 %",
				Help: "On cost and overheads together"},
				func(a *A, e Entry) { a.Profit = e.Percent() }},
		},
	})
}
