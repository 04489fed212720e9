package templates

import "futtock/rates"

// materials is the Materials sheet: what is bought by the unit.
func materials() Sheet[rates.Material] {
	type M = rates.Material
	return outlined(Sheet[M]{
		Outline: Outline{
			Name: "Materials", Purpose: "what is bought by the unit: fastenings, caulking, paint",
			Prices: true, Once: []string{"Material", "From"},
		},
		Columns: []Column[M]{
			{Heading{Name: "Material", Form: Key, Required: true, Names: true, Example: "Spike 150",
				Help: "Name by which Build-ups and Fastenings call it"},
				func(m *M, e Entry) { m.Material, m.At = e.Text, e.At }},
			{described(), func(m *M, e Entry) { m.Description = e.Text }},
			{Heading{Name: "Unit", Form: Unit, Required: true, Example: "nr",
				Help: "What the price is for one of"},
				func(m *M, e Entry) { m.Unit = e.Unit }},
			{Heading{Name: "Pack", Form: Number, Over: "0", Most: "1000000", Example: "100",
				Help: "Units in a pack; whole packs are listed in the order"},
				func(m *M, e Entry) { m.Pack = e.Number }},
			{Heading{Name: "Price", Form: Money, Required: true, Least: "0", Example: "1.85",
				Help: "Of one Unit, before VAT"},
				func(m *M, e Entry) { m.Price, m.PriceAt = e.Price(), e.At }},
			{supplied(), func(m *M, e Entry) { m.Supplier = e.Text }},
			{since(), func(m *M, e Entry) { m.From = e.Day }},
		},
	})
}

// plant is the Plant sheet: machines and gear, hired or the yard's own.
func plant() Sheet[rates.Plant] {
	type P = rates.Plant
	return outlined(Sheet[P]{
		Outline: Outline{
			Name: "Plant", Purpose: "machines and gear, hired or the yard's own",
			Prices: true, Once: []string{"Plant", "From"},
		},
		Columns: []Column[P]{
			{Heading{Name: "Plant", Form: Key, Required: true, Names: true, Example: "Mobile crane",
				Help: "Name by which Build-ups and Preliminaries call it"},
				func(p *P, e Entry) { p.Plant, p.At = e.Text, e.At }},
			{Heading{Name: "Description", Form: Words, Example: "40 t, with driver",
				Help: "More words, for the working"},
				func(p *P, e Entry) { p.Description = e.Text }},
			{Heading{Name: "Fixed", Form: Money, Least: "0", Default: "0", Example: "350",
				Help: "Once, for bringing and taking away"},
				func(p *P, e Entry) { p.Fixed = e.Price() }},
			{Heading{Name: "A week", Form: Money, Least: "0", Default: "0", Example: "900",
				Help: "For each week it stands"},
				func(p *P, e Entry) { p.Weekly = e.Price() }},
			{Heading{Name: "Each", Form: Money, Least: "0", Default: "0", Example: "120",
				Help: "For one Unit, where it is charged by what it does"},
				func(p *P, e Entry) { p.Each = e.Price() }},
			{Heading{Name: "Unit", Form: Unit, Example: "lift",
				Help: "What Each is for one of"},
				func(p *P, e Entry) { p.Unit = e.Unit }},
			{since(), func(p *P, e Entry) { p.From = e.Day }},
		},
		Check: checkPlant,
	})
}

// subcontract is the Subcontract sheet: work done by others.
func subcontract() Sheet[rates.Subcontract] {
	type S = rates.Subcontract
	return outlined(Sheet[S]{
		Outline: Outline{
			Name: "Subcontract", Purpose: "work done by others at a price for the unit",
			Prices: true, Once: []string{"Work", "From"},
		},
		Columns: []Column[S]{
			{Heading{Name: "Work", Form: Key, Required: true, Names: true, Example: "Galvanising",
				Help: "Name by which Build-ups call it"},
				func(s *S, e Entry) { s.Work, s.At = e.Text, e.At }},
			{Heading{Name: "Description", Form: Words, Example: "blast, dip and return",
				Help: "More words, for the working"},
				func(s *S, e Entry) { s.Description = e.Text }},
			{Heading{Name: "Unit", Form: Unit, Required: true, Example: "kg",
				Help: "What the price is for one of"},
				func(s *S, e Entry) { s.Unit = e.Unit }},
			{Heading{Name: "Price", Form: Money, Required: true, Least: "0", Example: "1.40",
				Help: "Of one Unit, before VAT"},
				func(s *S, e Entry) { s.Price, s.PriceAt = e.Price(), e.At }},
			{Heading{Name: "Least charge", Form: Money, Least: "0", Default: "0", Example: "60",
				Help: "The least that a row of the schedule is charged"},
				func(s *S, e Entry) { s.Least = e.Price() }},
			{Heading{Name: "Supplier", Form: Words, Example: "the town galvaniser",
				Help: "Who does it"},
				func(s *S, e Entry) { s.Supplier = e.Text }},
			{since(), func(s *S, e Entry) { s.From = e.Day }},
		},
	})
}

// vat is the VAT sheet: the codes of value added tax.
func vat() Sheet[rates.VAT] {
	type V = rates.VAT
	return outlined(Sheet[V]{
		Outline: Outline{
			Name: "VAT", Purpose: "the codes of value added tax, with their rates",
			Prices: true, Once: []string{"Code", "From"},
		},
		Columns: []Column[V]{
			{Heading{Name: "Code", Form: Key, Required: true, Names: true, Example: "S",
				Help: "Short name by which other sheets call it"},
				func(v *V, e Entry) { v.Code, v.At = e.Text, e.At }},
			{Heading{Name: "Category", Form: Choice, Required: true, Choices: []string{"S", "Z", "E", "AE", "O", "G"}, Example: "S",
				Help: "As in UNCL 5305: S standard or reduced rate, Z zero rate, E exempt, AE reverse charge, O outside the tax, G export"},
				func(v *V, e Entry) { v.Category = e.Text }},
			{Heading{Name: "Meaning", Form: Words, Required: true, Example: "standard rate",
				Help: "Words printed beside the tax"},
				func(v *V, e Entry) { v.Meaning = e.Text }},
			{Heading{Name: "Rate %", Form: Percent, Required: true, Least: "0", Most: "100", Example: "20 %",
				Help: "0 % where no tax is charged"},
				func(v *V, e Entry) { v.Rate = e.Percent() }},
			{Heading{Name: "Otherwise", Form: Key, Refers: to("VAT"), Example: "S", Elsewhere: true,
				Help: "Of a Z code: the code its lines would bear if the vessel did not qualify"},
				func(v *V, e Entry) { v.Otherwise = e.Text }},
			{since(), func(v *V, e Entry) { v.From = e.Day }},
		},
	})
}

// fastenings is the Fastenings sheet: what each crossing takes.
func fastenings() Sheet[rates.Fastening] {
	type F = rates.Fastening
	return outlined(Sheet[F]{
		Outline: Outline{
			Name: "Fastenings", Purpose: "what each crossing of plank and timber takes, by the width of the plank",
			Prices: true, Once: []string{"Rule", "Plank over", "Plank to", "Material"},
		},
		Columns: []Column[F]{
			{Heading{Name: "Rule", Form: Key, Required: true, Names: true, Example: "Plank to frame",
				Help: "Name by which Members call it; several rows of one rule each give their own fastenings"},
				func(f *F, e Entry) { f.Rule, f.At = e.Text, e.At }},
			{Heading{Name: "Plank over", Form: Length, Scale: Small, Least: "0 mm", Most: "3 m", Default: "0 mm", Example: "200",
				Help: "The row holds for planks wider than this"},
				func(f *F, e Entry) { f.Over = e.Length }},
			{Heading{Name: "Plank to", Form: Length, Scale: Small, Over: "0 mm", Most: "3 m", Example: "280",
				Help: "And up to this wide; blank is without end"},
				func(f *F, e Entry) { f.To = e.Length }},
			{Heading{Name: "Each crossing", Form: Number, Required: true, Least: "0", Most: "100", Example: "3",
				Help: "Fastenings at each crossing; 1.5 is two and one by turns"},
				func(f *F, e Entry) { f.Each = e.Number }},
			{Heading{Name: "Material", Form: Key, Refers: to("Materials"), Example: "Spike 150",
				Help: "What they are; it is priced with the row, by number"},
				func(f *F, e Entry) { f.Material, f.MaterialAt = e.Text, e.At }},
			{Heading{Name: "Source", Form: Words, Example: "as the old work",
				Help: "Where the rule comes from"},
				func(f *F, e Entry) { f.Source = e.Text }},
		},
		Check: checkFastening,
	})
}
