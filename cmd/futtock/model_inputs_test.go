package main

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/rates"
)

// inputChanges are the kinds of figure beside prices that may be changed in the
// written estimate: what an hour and a stick are built of, what a line takes, what
// a row is worked by, and what only one line has.
func inputChanges() []priceChange {
	one := func(names ...string) func(estimate.Result) []string {
		return func(estimate.Result) []string { return names }
	}
	trade := func(name, column string, set func(l *rates.Labour, to raise)) priceChange {
		return priceChange{name, used, "Trade", column, one("Joiner"), func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Labour {
				if l := &b.Labour[i]; rates.Same(l.Trade, row) {
					set(l, to)
				}
			}
		}, false}
	}
	member := func(name, column string, set func(m *job.Member, to raise)) priceChange {
		return priceChange{name, "Members", "Ref", column, one("RU5", "IR1", "KE12", "KE8"), func(j *job.Job, _ *rates.Book, row string, to raise) {
			for i := range j.Members {
				if m := &j.Members[i]; m.Ref == row {
					set(m, to)
				}
			}
		}, true}
	}
	prelim := func(name, ref, column string, set func(p *job.Preliminary, to raise)) priceChange {
		return priceChange{name, "Preliminaries", "Item", column, one(ref), func(j *job.Job, _ *rates.Book, row string, to raise) {
			for i := range j.Preliminaries {
				if p := &j.Preliminaries[i]; p.Ref == row {
					set(p, to)
				}
			}
		}, false}
	}
	sum := func(name, column string, set func(s *job.Sum, to raise)) priceChange {
		return priceChange{name, "Sums", "Item", column, one("SU3"), func(j *job.Job, _ *rates.Book, row string, to raise) {
			for i := range j.Sums {
				if s := &j.Sums[i]; s.Ref == row {
					set(s, to)
				}
			}
		}, false}
	}
	daywork := func(name, column, of string, set func(d *job.Daywork, to raise)) priceChange {
		return priceChange{name, "Dayworks", "Trade or kind of cost", column, one(of), func(j *job.Job, _ *rates.Book, row string, to raise) {
			for i := range j.Dayworks {
				if d := &j.Dayworks[i]; rates.Same(d.Of, row) {
					set(d, to)
				}
			}
		}, false}
	}
	// The first row of a build-up by which something is bought.
	buildUp := func(name, of, column string, set func(u *rates.BuildUp, to raise)) priceChange {
		return priceChange{name, "Build-ups", "Build-up", column, one(of), func(_ *job.Job, b *rates.Book, row string, to raise) {
			i := slices.IndexFunc(b.BuildUps, func(u rates.BuildUp) bool { return rates.Same(u.Name, row) && u.Part != rates.Task })
			set(&b.BuildUps[i], to)
		}, false}
	}
	figure := func(d *decimal.Decimal, to raise) { *d = to(*d) }
	return []priceChange{
		trade("on-costs", "On-costs", func(l *rates.Labour, to raise) { percent(&l.OnCosts, to) }),
		trade("other costs of an hour", "Other £", func(l *rates.Labour, to raise) { reprice(&l.Other, to) }),
		trade("hours paid", "Paid hours", func(l *rates.Labour, to raise) { figure(&l.Paid, to) }),
		trade("hours worked", "Worked hours", func(l *rates.Labour, to raise) { figure(&l.Worked, to) }),
		{"delivery of a stick", used, "Stock", "Delivery a unit £", one("oak hanging knee"), func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Stock {
				if s := &b.Stock[i]; rates.Same(s.Stock, row) {
					reprice(&s.Delivery, to)
				}
			}
		}, true},
		{"the hire of a plant", used, "Plant", "A week £", one("Tented cover"), func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Plant {
				if p := &b.Plant[i]; rates.Same(p.Plant, row) {
					reprice(&p.Weekly, to)
				}
			}
		}, false},
		{"the least charge of a work", used, "Work", "Least a row £", one("Tip and sort"), func(_ *job.Job, b *rates.Book, row string, to raise) {
			for i := range b.Subcontract {
				if s := &b.Subcontract[i]; rates.Same(s.Work, row) {
					reprice(&s.Least, to)
				}
			}
		}, false},
		buildUp("what a build-up takes", "Splices", "For one", func(u *rates.BuildUp, to raise) { figure(&u.Quantity, to) }),
		buildUp("what a build-up wastes", "Heavy timber", "Waste", func(u *rates.BuildUp, to raise) { percent(&u.Waste, to) }),
		{"a fastening rule", "Build-ups", "Fastening rule", "Each crossing", one("Square fastened"), func(_ *job.Job, b *rates.Book, row string, to raise) {
			i := slices.IndexFunc(b.Fastenings, func(f rates.Fastening) bool { return rates.Same(f.Rule, row) })
			figure(&b.Fastenings[i].Each, to)
		}, false},
		member("difficulty", "Diffi- culty", func(m *job.Member, to raise) { figure(&m.Difficulty, to) }),
		prelim("a share of the hours", "PR9", "Share", func(p *job.Preliminary, to raise) { percent(&p.Share, to) }),
		prelim("hours a week", "PR10", "Quantity", func(p *job.Preliminary, to raise) { figure(&p.HoursAWeek, to) }),
		prelim("a share of the items", "PR11", "Share", func(p *job.Preliminary, to raise) { percent(&p.Share, to) }),
		sum("a sum", "Sum £", func(s *job.Sum, to raise) { reprice(&s.Amount, to) }),
		sum("profit on a sum", "Profit", func(s *job.Sum, to raise) { percent(&s.Profit, to) }),
		sum("attendance", "Attendance £", func(s *job.Sum, to raise) { reprice(&s.Attendance, to) }),
		daywork("hours by the day", "Hours", "Shipwright", func(d *job.Daywork, to raise) { figure(&d.Quantity, to) }),
		daywork("an addition by the day", "Addition", "Rigger", func(d *job.Daywork, to raise) { percent(&d.Addition, to) }),
		{"the Job's contingency", "Contingency", "Section", "Share", one("Job"), func(j *job.Job, _ *rates.Book, _ string, to raise) {
			percent(&j.Contingency, to)
		}, false},
		{"a section's contingency", "Contingency", "Section", "Share", one("FR"), func(j *job.Job, _ *rates.Book, row string, to raise) {
			for i := range j.Sections {
				if s := &j.Sections[i]; s.Section == row {
					percent(&s.Contingency, to)
				}
			}
		}, false},
		{"the chance of a risk", "Contingency", "Section", "Share", one("FR7"), func(j *job.Job, _ *rates.Book, row string, to raise) {
			for i := range j.Members {
				if m := &j.Members[i]; m.Ref == row {
					percent(&m.Chance, to)
				}
			}
		}, false},
	}
}
