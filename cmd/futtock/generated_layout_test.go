package main

import (
	"fmt"
	"maps"
	"slices"
	"strings"
)

// particulars is the Job.
func (s *sketch) particulars() {
	s.started, s.spaced = s.odds(2), s.odds(2)
	lengths, sizes := "m", "mm"
	if s.feet {
		lengths, sizes = "ft", "in"
	}
	start, spacing, rises := "", "", ""
	if s.started {
		start, rises = s.pick("2026-05-04", "2026-11-02"), s.maybe(2, "4%", "3.75%")
	}
	if s.spaced {
		spacing = s.small(530)
	}
	s.put("Job",
		"Vessel", s.pick("Speedwell", "Pride & Joy", "L'Étoile", "\"Swan\" <1903>"), "Client", "The trustees", "Yard", "The Creek yard",
		"Tender reference", "DRAWN-1", "Tender date", "2026-03-02", "Valid for (days)", s.maybe(2, "60"), "Start on site", start,
		"Currency", s.maybe(3, "GBP", "EUR"), "Lengths in", lengths, "Sided and moulded in", sizes, "Volumes in", s.maybe(2, "m3", "ft3", "hft", "bf"),
		"VAT code", "S", "VAT rounding", s.maybe(2, "down", "nearest"),
		"Hours a week", s.pick("37", "38.75", "40"), "Working weeks a year", s.maybe(2, "46", "44.5"), "Spacing of frames", spacing,
		"Contingency %", s.maybe(2, "5%", "7.5%", "8.25%"), "Contingency on", s.maybe(2, "items", "items and preliminaries"),
		"Contingency shown", s.maybe(2, "within rates", "as a client's sum"), "Price rises % a year", rises, "Price waiting time", s.maybe(3, "yes", "no"))
}

// vat is the codes of VAT, the Job's first.
func (s *sketch) vat() {
	s.codes = []string{"S"}
	s.put("VAT", "Code", "S", "Category", "S", "Meaning", "Standard rate", "Rate %", "15%", "From", oldDay)
	s.put("VAT", "Code", "S", "Category", "S", "Meaning", "Standard rate", "Rate %", s.pick("20%", "17.5%", "19.6%"), "From", priceDay)
	for _, c := range []struct{ code, category, rate, otherwise string }{
		{"Z ship", "Z", "0%", s.maybe(2, "S", "R")}, {"R", "S", s.pick("5%", "8.375%"), ""}, {"o", "O", "0%", ""}, {"E \"1\"", "E", "0%", ""},
	} {
		if s.odds(2) || c.code == "R" && c.otherwise == "" {
			s.put("VAT", "Code", c.code, "Category", c.category, "Meaning", "Of \"kind\" "+c.category, "Rate %", c.rate, "Otherwise", c.otherwise)
			s.codes = append(s.codes, c.code)
		}
	}
}

// layout is the stages, the sections and the closures.
func (s *sketch) layout() {
	for i, name := range []string{"Docking", "Strip out", "Hull & deck", "Owner's paint", "Launch"}[:s.from(0, 5)] {
		after := ""
		if i > 0 {
			var names []string
			for range s.from(0, 2) {
				names = append(names, s.spell(s.pick(s.stages...)))
			}
			slices.Sort(names)
			after = strings.Join(slices.Compact(names), ", ")
		}
		lag := ""
		if after != "" {
			lag = s.maybe(3, "-0.1", "1", "0.5")
		}
		s.put("Stages", "Stage", name, "After", after, "Lag weeks", lag, "Least weeks", s.pick("0.1", "1.5", "0.55"))
		s.stages = append(s.stages, name)
	}
	for i := range s.from(1, 4) {
		key := s.pick(fmt.Sprint(i+1), fmt.Sprintf("%c%c", 'A'+i, 'K'+i))
		s.sections = append(s.sections, key)
		stage := s.stage(2)
		if stage != "" {
			s.stageOf[key] = stage
		}
		s.put("Sections", "Section", key, "Title", s.pick("Hull", "Deck & rails", "Owner's \"extras\""), "Stage", s.spell(stage), "Contingency %", s.maybe(3, "12.5%", "0%"))
	}
	if s.started && s.odds(3) {
		s.put("Closures", "From", "2026-05-18", "To", "2026-05-24", "Reason", "fair")
		s.put("Closures", "From", "2026-12-19", "To", "2027-01-03", "Reason", "Christmas")
	}
	for _, k := range []string{"labour", "timber", "materials", "plant", "subcontract", "preliminaries"} {
		if !s.odds(8) {
			s.put("Overheads and profit", "Kind", k, "Overheads %", s.percent(), "Profit %", s.percent())
		}
	}
}

// gangs gives every stage men of the trades it has hours of.
func (s *sketch) gangs() {
	needs := slices.SortedFunc(maps.Keys(s.needs), func(a, b [2]string) int { return strings.Compare(a[0]+a[1], b[0]+b[1]) })
	for _, n := range needs {
		s.put("Gangs", "Stage", s.spell(n[0]), "Trade", s.spell(n[1]), "Men", s.pick("1", "2", "3.5", "0.5"))
	}
	if len(s.stages) > 0 && s.odds(3) && !s.needs[[2]string{s.stages[0], s.trades[0]}] {
		s.put("Gangs", "Stage", s.stages[0], "Trade", s.trades[0], "Men", "1")
	}
}

// preliminaries is charges of every kind, one row now and then of several.
func (s *sketch) preliminaries() {
	for range s.from(0, 7) {
		cells := []string{"Ref", s.ref("P") + "x", "Description", s.pick("Slip & berth", "Cover \"A\"", "Foreman"),
			"Kind", s.maybe(2, "labour", "plant", "preliminaries"), "Quantity", s.maybe(4, "2", "2.5", "3"), "VAT", s.code()}
		put := func(heading, text string) { cells = append(cells, heading, text) }
		plain := true
		if len(s.weekly) > 0 && s.odds(4) {
			put("Plant", s.spell(s.pick(s.weekly...)))
			s.weeks(put)
			plain = false
		}
		if s.odds(3) {
			put("A week", s.money(10, 990))
			if plain {
				s.weeks(put)
			}
			plain = false
		} else if s.odds(3) {
			put("Hours a week", s.number(5, 400, 1))
			put("Trade", s.spell(s.pick(s.trades...)))
			if plain {
				s.weeks(put)
			}
			plain = false
		} else if s.odds(3) {
			of := s.pick("hours", "items")
			put("% of", s.pick("6.5%", "1.4%", "2.125%"))
			put("Of", of)
			if of == "hours" {
				put("Trade", s.pick(s.trades...))
			}
			plain = false
		}
		if plain || s.odds(4) {
			put("Fixed", s.money(10, 7800))
		}
		s.put("Preliminaries", cells...)
	}
}

// weeks is how long a charge runs: weeks given, or stages that are in order.
func (s *sketch) weeks(put func(heading, text string)) {
	if len(s.stages) == 0 || s.odds(3) {
		put("Weeks", s.number(1, 400, 1))
	}
	if len(s.stages) > 0 {
		stage := s.pick(s.stages...)
		switch s.from(0, 3) {
		case 1:
			put("From stage", s.spell(stage))
		case 2:
			put("To stage", s.spell(stage))
		case 3:
			put("From stage", stage)
			put("To stage", stage)
		}
	}
	put("Charged by", s.maybe(2, "week", "whole week", "four weeks", "day"))
}

// sums is the sums, dayworks and risks.
func (s *sketch) sums() {
	for range s.from(0, 4) {
		kind := s.pick("provisional defined", "provisional undefined", "prime cost", "quotation")
		amount := s.money(10, 19000)
		if s.odds(8) {
			amount = "-" + amount
		}
		s.put("Sums", "Ref", s.ref("S"), "Section", s.maybe(2, s.sections...), "Description", "Hidden \"decay\" & <bolts>", "Kind", kind, "Amount", amount,
			"Profit %", s.maybe(2, "7.5%", "2.375%"), "Attendance", s.maybe(2, "640", "71.125"), "Stage", s.stage(2), "VAT", s.code())
	}
	for range s.from(0, 3) {
		of := s.pick(append([]string{"materials", "plant", "subcontract"}, s.trades...)...)
		s.put("Dayworks", "Trade or kind", s.spell(of), "Hours or amount", s.number(100, 90000, 2), "Addition %", s.maybe(2, "30%", "12.5%"))
	}
	for range s.from(0, 2) {
		s.put("Risks", "Ref", s.ref("K"), "Description", "Tide missed", "Section", s.maybe(2, s.sections...), "Chance %", "25%", "Least", "500", "Likely", "1200", "Most", "3000")
	}
}
