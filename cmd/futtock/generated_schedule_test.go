package main

import (
	"fmt"

	"futtock/rates"
	"futtock/rates/measure"
)

// group is a bill item that several rows make. Further members may join one that
// is not to be measured, or whose unit they have; items too.
type group struct {
	name, section, vat, carried, chance string
	unit                                measure.Unit
}

// ofDimension is the units a driver of a dimension can be stated in.
func ofDimension(d measure.Dimension) []measure.Unit {
	var out []measure.Unit
	for _, u := range measure.Units() {
		if u.Dimension() == d {
			out = append(out, u)
		}
	}
	return out
}

// buildUp puts a build-up of a few rows, driven by what its rows have. The
// first row is a task where there is one, so that the work comes to something.
func (s *sketch) buildUp(drivers map[rates.Driver]measure.Dimension) string {
	name := fmt.Sprintf("Work %d", len(s.buildUps)+1)
	s.buildUps[name] = []string{}
	var all []string
	for _, d := range rates.Drivers() {
		if _, ok := drivers[d]; ok {
			all = append(all, string(d))
		}
	}
	for i := range s.from(1, 6) {
		part := rates.Part(s.pick("task", "material", "plant", "subcontract", "task", "material"))
		if i == 0 {
			part = rates.Task
		}
		keys := s.keys[part]
		k := keys[s.from(0, len(keys)-1)]
		by := s.pick(all...)
		dim := drivers[rates.Driver(by)]
		few := dim != measure.VolumeMeasure && k.unit.Dimension() == measure.VolumeMeasure
		counts := dim == measure.Count || dim == measure.Item
		if !counts && dim != k.unit.Dimension() || dim != measure.Item && s.odds(4) {
			units := ofDimension(dim)
			unit := units[s.from(0, len(units)-1)]
			by = fmt.Sprintf("%s (%s)", by, unit)
			few = few || unit == measure.Kg || unit == measure.Lb || unit == measure.BF // there are thousands of them
		}
		quantity := s.number(5, 150, 2)
		if few {
			quantity = s.number(5, 150, 4)
		}
		waste := ""
		if part == rates.MaterialPart {
			waste = s.maybe(2, "5%", "12.5%", "7.5%")
		}
		if part == rates.Task {
			s.buildUps[name] = append(s.buildUps[name], k.trade)
		}
		s.put("Build-ups", "Build-up", s.spell(name), "Kind", string(part), "Key", s.spell(k.name), "Measured by", by,
			"Quantity", quantity, "Waste %", waste)
	}
	return name
}

// members is what every member has, whatever it is.
func memberDrivers() map[rates.Driver]measure.Dimension {
	out := map[rates.Driver]measure.Dimension{}
	for _, d := range rates.Drivers() {
		out[d] = d.Dimension()
	}
	return out
}

// itemDrivers is what work of a unit has: the drivers of its dimension, else
// its number in its own unit.
func itemDrivers(u measure.Unit) map[rates.Driver]measure.Dimension {
	out := map[rates.Driver]measure.Dimension{rates.ByItem: measure.Item}
	for _, d := range rates.Drivers() {
		if d != rates.ByItem && d.Dimension() == u.Dimension() {
			out[d] = u.Dimension()
		}
	}
	if len(out) == 1 && u.Dimension() != measure.Item {
		out[rates.ByNr] = u.Dimension()
	}
	return out
}

// schedule is the members and the items. The first item is work that costs
// something, so that a contingency within the rates has where to stand.
func (s *sketch) schedule() {
	var builds []string
	for range s.from(2, 4) {
		builds = append(builds, s.buildUp(memberDrivers()))
	}
	s.put("Items", "Ref", s.ref("I"), "Section", s.sections[0], "Description", "Shore & block her, \"true\"", "Quantity", "1", "Unit", "item",
		"Hours", s.number(1000, 9000, 2), "Trade", s.trades[0])
	s.works(s.sections[0], "", "", "measured", s.trades[0])
	for range s.from(1, 7) {
		s.member(builds)
	}
	for range s.from(0, 5) {
		s.item()
	}
}

// works takes note of the hours a row brings to its stage.
func (s *sketch) works(section, stage, build, carried, trade string) {
	if stage == "" {
		stage = s.stageOf[section]
	}
	if stage == "" || carried != "" && carried != "measured" && carried != "provisional" {
		return
	}
	for _, t := range append(s.buildUps[build], trade) {
		if t != "" {
			s.needs[[2]string{stage, t}] = true
		}
	}
}

// carriage is how a row stands in the price.
func (s *sketch) carriage() (carried, chance string) {
	if !s.odds(3) {
		return s.maybe(4, "measured"), ""
	}
	carried = s.pick("provisional", "risk", "option", "rate only")
	if carried == "risk" {
		chance = s.pick("40%", "12.5%", "33%")
	}
	return carried, chance
}

// billed is the line of the bill a row belongs to: its own, a new one that
// others may join, or one there is. Own are the units that can measure it.
func (s *sketch) billed(opens bool, own []measure.Unit) (g group, cells []string) {
	g = group{section: s.pick(s.sections...), vat: s.code()}
	g.carried, g.chance = s.carriage()
	put := func(heading, text string) { cells = append(cells, heading, text) }
	quantity := func(u measure.Unit) string { return s.number(1, 400, int(u.Places())) }
	if len(s.groups) > 0 && s.odds(3) {
		join := s.groups[s.from(0, len(s.groups)-1)]
		for _, u := range own {
			if join.unit == "" || join.unit == u {
				put("Bill item", s.spell(join.name))
				return join, cells
			}
		}
	}
	if len(own) > 0 && s.odds(2) {
		g.unit = own[s.from(0, len(own)-1)]
	}
	if opens && s.odds(3) {
		g.name = "Line " + s.ref("L")
		put("Bill item", g.name)
		s.groups = append(s.groups, g)
	}
	if g.unit != "" {
		put("Bill unit", string(g.unit))
		if s.odds(3) {
			put("Bill quantity", quantity(g.unit))
		}
	} else if g.name == "" && s.odds(6) {
		u := measure.Units()[s.from(0, len(measure.Units())-1)]
		put("Bill unit", string(u))
		put("Bill quantity", quantity(u))
	}
	return g, cells
}

// member is one row of the schedule of members.
func (s *sketch) member(builds []string) {
	nr := s.from(1, 6)
	own := []measure.Unit{measure.Nr, measure.M, measure.Ft, measure.M2, measure.Ft2, measure.M3, measure.Ft3, measure.HFt, measure.BF, measure.Std,
		measure.Load, measure.Kg, measure.Lb, measure.Cwt, measure.T, measure.One, measure.Sums}
	treatment := s.pick("renew", "renew", "part", "graving piece", "refasten", "off and back", "preserve", "remove", "retain")
	onRecord := treatment == "retain" && s.odds(2)
	if onRecord {
		own = nil
	}
	g, cells := s.billed(!onRecord, own)
	put := func(heading, text string) { cells = append(cells, heading, text) }
	build, stage, trade := s.pick(builds...), s.stage(5), ""
	if onRecord {
		build = ""
	} else {
		put("Build-up", s.spell(build))
		if s.odds(4) {
			trade = s.pick(s.trades...)
			put("Hours", s.number(1, 900, 2))
			put("Trade", s.spell(trade))
		}
	}
	s.works(g.section, stage, build, g.carried, trade)
	put("Ref", s.ref("M"))
	put("Section", s.spell(g.section))
	put("Member", s.pick("side plank", "futtock", "keel \"B\"", "beam & carling", "stem"))
	put("Side", s.maybe(2, "port", "both"))
	put("Nr", fmt.Sprint(nr))
	put("Treatment", treatment)
	s.wood(treatment, put)
	put("Carried as", g.carried)
	put("Chance %", g.chance)
	put("Least %", s.maybe(6, "80%"))
	put("Most %", s.maybe(6, "150%"))
	put("VAT", g.vat)
	put("Stage", s.spell(stage))
	put("Difficulty", s.maybe(2, "1.1", "1.25", "0.95"))
	put("Access", s.maybe(2, "1.15", "1.3"))
	put("Condition", s.maybe(3, "0", "3", "5"))
	put("Seams", s.maybe(2, "1", "2", "1.5"))
	if len(s.rules) > 0 && s.odds(2) {
		put("Fastening", s.spell(s.pick(s.rules...)))
		switch {
		case s.odds(3):
			put("From frame", "7")
			put("To frame", s.number(8, 30, 0))
		case !s.spaced || s.odds(3):
			put("Spacing", s.small(480))
		}
	}
	s.put("Members", cells...)
}

// wood is the sizes of a member, and how it is got.
func (s *sketch) wood(treatment string, put func(heading, text string)) {
	line := stockLine{timber: s.pick(s.timbers...), thick: 390, wide: 430, long: 7000}
	if treatment == "renew" && s.odds(2) {
		line = s.lines[s.from(0, len(s.lines)-1)]
		put("Stock", s.spell(line.name))
	}
	put("Timber", s.spell(line.timber))
	// Planing, drying and the bevel add to the section: 15 % and 8 mm are more
	// than they come to, and a quarter of the siding.
	sided := s.from(20, max(20, min(220, (line.thick-8)*100/115)))
	room := line.wide - sided/4 - 8
	if line.form == "log" || line.form == "spar" {
		room = line.wide - 8
	}
	moulded := s.from(20, max(20, min(220, room*100/115)))
	round := ""
	if line.form == "" || line.form == "baulk" || line.form == "log" || line.form == "spar" || line.form == "cube" {
		round = s.maybe(6, "round", "eight-sided")
		if line.form != "" {
			sided = min(sided, moulded)
		}
	}
	put("Shape", round)
	put("Sided", s.small(sided))
	if round == "" {
		put("Moulded", s.small(moulded))
		put("Bevel", s.maybe(4, "5", "12.5"))
	}
	put("Planed faces", s.maybe(2, "1", "2", "3", "4"))
	put("Sizes are", s.maybe(5, "as sawn", "finished"))
	put("Sapwood", s.maybe(4, "yes", "no"))
	if round == "" && (line.form == "" || line.form == "baulk" || line.form == "cube" || line.form == "log") {
		put("Heart", s.maybe(4, "boxed", "any"))
	} else if line.form == "flitch" || line.form == "plank" {
		put("Heart", s.maybe(3, "free"))
	}
	long := s.from(400, line.long*8/10)
	joint := ""
	if line.form == "" && (treatment == "renew" || treatment == "part") {
		if joint = s.maybe(2, "scarph", "butt"); joint != "" {
			long = s.from(900, 36000)
			put("Longest piece", s.maybe(3, "4.2 m", "18'"))
			put("Shortest piece", s.maybe(4, "150 mm"))
		}
	}
	put("Joint", joint)
	if joint == "scarph" {
		put("Scarph (to one)", s.pick("4", "6", "7.5"))
		put("Scarph through", s.maybe(3, "sided", "moulded"))
	}
	if treatment == "part" {
		put("Renewed length", s.long(long))
		long += s.from(50, 5000)
		if joint != "" {
			put("Joints", s.maybe(2, "1", "2"))
		}
	}
	put("Length", s.long(long))
	if spare := room - moulded*115/100; round == "" && treatment == "renew" && spare > 20 && s.odds(3) {
		switch {
		case line.form == "crook":
			put("Sweep", fmt.Sprintf("%d mm", line.sweep/5))
		case joint != "":
			put("Sweep", fmt.Sprintf("%d mm", s.from(1, long/25)))
		case line.form != "log" && line.form != "spar":
			put("Sweep", fmt.Sprintf("%d mm", s.from(1, min(spare*8/10, long/8))))
		}
	}
}

// item is one row of work without timber.
func (s *sketch) item() {
	u := measure.Units()[s.from(0, len(measure.Units())-1)]
	own := []measure.Unit{measure.One}
	if d := u.Dimension(); d != measure.Item && d != measure.Sum && d != measure.Count {
		own = append(own, ofDimension(d)...)
	}
	g, cells := s.billed(false, own)
	put := func(heading, text string) { cells = append(cells, heading, text) }
	stage, build, trade := s.stage(5), "", ""
	put("Ref", s.ref("I"))
	put("Section", s.spell(g.section))
	put("Description", s.pick("Paint her", "<Lead> & zinc, 3/4\"", "Été: £5 of tallow", "Strip out"))
	put("Quantity", s.number(1, 900, int(u.Places())))
	put("Unit", string(u))
	if s.odds(2) {
		build = s.buildUp(itemDrivers(u))
		put("Build-up", s.spell(build))
	}
	if build == "" || s.odds(3) {
		trade = s.pick(s.trades...)
		put("Hours", s.number(1, 5000, 2))
		put("Trade", trade)
	}
	if s.odds(3) {
		put("Cost", s.money(1, 900))
		put("Cost kind", s.pick("labour", "timber", "materials", "plant", "subcontract", "preliminaries"))
	} else if s.odds(3) {
		put("Cost", "-"+s.money(1, 90))
		put("Cost kind", "materials")
	}
	s.works(g.section, stage, build, g.carried, trade)
	put("Carried as", g.carried)
	put("Chance %", g.chance)
	put("VAT", g.vat)
	put("Stage", stage)
	put("Difficulty", s.maybe(4, "1.2"))
	put("Access", s.maybe(4, "1.05"))
	s.put("Items", cells...)
}
