package main

import (
	"fmt"

	"futtock/rates"
	"futtock/rates/measure"
)

// priceDay is before every tender date drawn, and laterDay after.
const (
	oldDay   = "2024-03-01"
	priceDay = "2025-11-01"
	laterDay = "2027-01-01"
)

// dated puts a price row as it is in force, now and then with its history and
// with what will follow.
func (s *sketch) dated(sheet, price string, cells func() []string, amount func() string) {
	row := func(day string) { s.put(sheet, append(cells(), price, amount(), "From", day)...) }
	if s.odds(4) {
		row(oldDay)
		row(priceDay)
		row(laterDay)
		return
	}
	row(s.maybe(2, priceDay, "2026-03-02"))
}

// labour is the trades, by rate and by pay.
func (s *sketch) labour() {
	s.trades = []string{"Shipwright", "Caulker", "Painter", "Labourer"}[:s.from(1, 4)]
	for i, t := range s.trades {
		if i == 0 || s.odds(2) {
			s.dated("Labour", "Rate", func() []string { return []string{"Trade", t} }, func() string { return s.money(22, 60) })
			continue
		}
		s.dated("Labour", "Pay", func() []string {
			return []string{"Trade", t, "Paid hours a year", s.pick("2028", "1976.5"), "Worked hours a year", s.number(1600, 1760, 0),
				"On-costs %", s.percent(), "Other costs an hour", s.money(0, 6), "Men", s.maybe(2, "2", "3.5", "12")}
		}, func() string { return s.money(14, 30) })
	}
}

// Units a key may be in, by its part.
var unitsOf = map[rates.Part][]measure.Unit{
	rates.Task:         {measure.M, measure.Nr, measure.M3, measure.M2, measure.Ft, measure.Ft2, measure.Ft3, measure.BF, measure.HFt, measure.Kg, measure.T, measure.One, measure.Std, measure.Pair},
	rates.MaterialPart: {measure.Nr, measure.Kg, measure.Litre, measure.M, measure.M2, measure.Gal, measure.Lb, measure.Pair, measure.Ft, measure.Kit, measure.Cwt},
	rates.PlantPart:    {measure.Lifts, measure.M3, measure.M, measure.Hour, measure.Days, measure.Nr, measure.Tides},
	rates.WorkPart:     {measure.M2, measure.Kg, measure.Nr, measure.T, measure.One, measure.Ft2, measure.Load},
}

// bought is the norms, materials, plant and subcontracted work.
func (s *sketch) bought() {
	some := func(part rates.Part) []measure.Unit {
		all := unitsOf[part]
		first, n := s.from(0, len(all)-1), s.from(2, 5)
		var out []measure.Unit
		for i := range n {
			out = append(out, all[(first+i*3)%len(all)])
		}
		return out
	}
	add := func(part rates.Part, name string, u measure.Unit, trade string) string {
		name = fmt.Sprintf("%s %d", name, len(s.keys[part])+1)
		s.keys[part] = append(s.keys[part], keyed{name, u, trade})
		return name
	}
	for _, u := range some(rates.Task) {
		trade := s.pick(s.trades...)
		name := add(rates.Task, "Fit & bore", u, trade)
		hours := func() string { return s.number(5, 200, 2) }
		switch u {
		case measure.M3, measure.Std:
			hours = func() string { return s.number(40, 400, 1) }
		case measure.Kg, measure.BF:
			hours = func() string { return s.number(5, 200, 4) }
		}
		s.dated("Norms", "Hours", func() []string {
			return []string{"Task", name, "Trade", s.spell(trade), "Unit", string(u), "Set-up hours", s.maybe(2, "0.5", "1.25", "2"),
				"Learning %", s.maybe(3, "85%", "90%", "97.5%"), "Place", s.maybe(2, "bench", "aboard")}
		}, hours)
	}
	for _, u := range some(rates.MaterialPart) {
		name := add(rates.MaterialPart, "Spike \"no\"", u, "")
		s.dated("Materials", "Price", func() []string { return []string{"Material", name, "Unit", string(u), "Pack", s.maybe(3, "50", "2.5")} },
			func() string { return s.money(0, 30) })
	}
	for _, u := range some(rates.PlantPart) {
		name := add(rates.PlantPart, "Crane", u, "")
		s.dated("Plant", "Each", func() []string {
			return []string{"Plant", name, "Unit", string(u), "Fixed", s.maybe(3, "350", "99.995"), "A week", s.maybe(3, "425", "71.25")}
		}, func() string { return s.money(1, 140) })
	}
	for _, u := range some(rates.WorkPart) {
		name := add(rates.WorkPart, "Blast, 'zinc'", u, "")
		s.dated("Subcontract", "Price", func() []string {
			return []string{"Work", name, "Unit", string(u), "Least charge", s.maybe(2, "60", "180.50", "45.125")}
		}, func() string { return s.money(1, 95) })
	}
	for i := range s.from(0, 2) {
		name := fmt.Sprintf("Cover %d", i)
		s.weekly = append(s.weekly, name)
		s.dated("Plant", "A week", func() []string { return []string{"Plant", name, "Fixed", s.maybe(2, "6400", "180.335")} },
			func() string { return s.money(20, 450) })
	}
}

// stockLine is a stock line as rows are bound to it: what is clear of it, in
// whole millimetres and with something to spare.
type stockLine struct {
	name, timber, form string
	thick, wide, long  int
	sweep              int
}

// timber is the timbers, each with a baulk from which anything unbound can be
// got, and stock of other forms.
func (s *sketch) timber() {
	s.timbers = []string{"Oak", "Larch", "Douglas fir"}[:s.from(1, 3)]
	for _, t := range s.timbers {
		sawn, used := "", ""
		if s.odds(3) {
			sawn, used = "25%", "16%"
		}
		s.put("Timber", "Timber", t, "Density", s.pick("720", "590.5", "1050"), "Tangential %", s.maybe(2, "8.9%", "7.8%"), "Radial %", s.maybe(2, "5.3%"),
			"Sawn at MC %", sawn, "In use MC %", used, s.in("Planing a face", true), s.maybe(2, "3 mm", "1/8\"", "2 mm"), s.in("Kerf", true), s.maybe(2, "4 mm", "1/4\""))
		s.stick(t, "baulk", false)
		for range s.from(1, 4) {
			s.stick(t, s.pick("plank", "baulk", "flitch", "log", "crook", "knee", "spar", "cube", "log", "spar"), true)
		}
	}
}

// stick is one stock line. The first of a timber is large and without limit.
func (s *sketch) stick(timber, form string, more bool) {
	l := stockLine{name: fmt.Sprintf("%s %s %d", timber, form, len(s.lines)+1), timber: timber, form: form}
	cells := []string{"Stock", l.name, "Timber", s.spell(timber), "Form", form, "Delivery", s.maybe(2, "42", "1.6", "0.125"), "Supplier", "the country sawmill"}
	put := func(heading, text string) { cells = append(cells, heading, text) }
	size := func(heading string, mm int) { put(s.in(heading, true), s.small(mm)) }
	thick, wide, long := s.from(45, 140), s.from(160, 420), s.from(2500, 7000)
	if !more {
		thick, wide, long = 400, 440, 7300
	}
	units := []measure.Unit{measure.M3, measure.Ft3, measure.Nr, measure.BF, measure.M, measure.Ft2, measure.Std, measure.Load, measure.Ft, measure.M2}
	trim := 0
	if form != "knee" && form != "cube" {
		trim = s.from(0, 100)
		put(s.in("End trim", true), fmt.Sprintf("%d mm", trim))
	}
	l.thick, l.wide, l.long = thick-10, wide-10, long-2*trim-30
	switch form {
	case "flitch":
		size("Sapwood", 25)
		put(s.in("Bark", true), s.maybe(2, "8 mm"))
		l.wide = wide - 80
	case "crook":
		thick, wide, long = s.from(100, 200), s.from(280, 380), s.from(1800, 3200)
		l = stockLine{l.name, timber, form, thick - 10, 110, long / 2, s.from(0, 240)}
		if l.sweep > 0 {
			put(s.in("Sweep", true), fmt.Sprintf("%d mm", l.sweep))
		}
		units = units[:4]
	case "knee":
		l.long = 900
		long = 1000
		units = []measure.Unit{measure.Nr}
	case "cube":
		l = stockLine{l.name, timber, form, 250, 300, 6000, 0}
		units = []measure.Unit{measure.M3, measure.Ft3, measure.BF, measure.Load}
		put("Yield %", s.pick("55%", "62.5%", "71%"))
	case "log", "spar":
		top := s.from(380, 560)
		long = min(long, 5900) // the printed scales end at 20 ft
		cells = append(cells, s.round(top, long)...)
		l = stockLine{l.name, timber, form, (top - 90) * 6 / 10, (top - 90) * 6 / 10, long - 2*trim - 30, 0}
	}
	if form != "log" && form != "spar" {
		if form != "cube" {
			size("Thickness", thick)
			size("Width", wide)
			put(s.in("Length", false), s.long(long))
		}
		u := units[s.from(0, len(units)-1)]
		put("Unit", string(u))
		if s.odds(3) && form != "knee" {
			put("Sawing charge", s.money(0, 3))
			put("Sawing unit", s.pick("m3", "ft3", "bf"))
		}
	}
	if form == "plank" || form == "baulk" || form == "flitch" || form == "log" || form == "cube" {
		put("Loss %", s.maybe(2, "10%", "12.5%", "5%"))
	}
	owner := more && s.odds(5)
	if owner {
		put("Supplied by", "owner")
	}
	if more && s.odds(3) {
		put("Available", "4000")
	}
	if owner {
		s.put("Stock", append(cells, "Price", "0")...)
	} else {
		s.dated("Stock", "Price", func() []string { return cells }, func() string { return s.money(5, 400) })
	}
	s.lines = append(s.lines, l)
}

// round is the sizes and the rule of a log or spar.
func (s *sketch) round(top, long int) []string {
	out := []string{s.in("Top diameter", true), s.small(top), s.in("Length", false), s.long(long), s.in("Bark", true), s.maybe(2, "10 mm"), s.in("Sapwood", true), s.maybe(2, "25 mm")}
	if s.odds(2) {
		out = append(out, s.in("Mid girth", true), fmt.Sprintf("%d mm", top*33/10))
	} else {
		out = append(out, s.in("Taper", true), fmt.Sprintf("%d mm", s.from(0, 12)))
	}
	switch s.from(0, 5) {
	case 0, 5:
		return append(out, "Unit", "bf", "Measured by", s.pick("doyle", "scribner", "international"))
	case 1:
		return append(out, "Unit", "hft", "Measured by", s.maybe(2, "hoppus"), "Sawing charge", s.money(0, 90), "Sawing unit", "m3")
	case 2:
		return append(out, "Unit", s.pick("m3", "ft3"), "Measured by", s.maybe(2, "hoppus", "true"))
	case 3:
		return append(out, "Unit", s.pick("m", "ft"))
	}
	return append(out, "Unit", "nr")
}

// fastenings is the rules, each with rows for any width.
func (s *sketch) fastenings() {
	var counted []string
	for _, k := range s.keys[rates.MaterialPart] {
		if k.unit.Dimension() == measure.Count {
			counted = append(counted, k.name)
		}
	}
	for i := range s.from(0, 2) {
		rule := fmt.Sprintf("Hull %d", i)
		s.rules = append(s.rules, rule)
		row := func(over, to, each string) {
			material := ""
			if len(counted) > 0 {
				material = s.spell(s.pick(append(counted, "")...))
			}
			s.put("Fastenings", "Rule", rule, "Plank over (mm)", over, "Plank to (mm)", to, "Each crossing", each, "Material", material)
		}
		row("", "150", s.pick("1", "1.5", "2"))
		row("150", "", s.pick("2", "2.5", "3"))
		if s.odds(2) {
			row("100", "", "0.75")
		}
	}
}
