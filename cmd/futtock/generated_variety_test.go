package main

import (
	"maps"
	"slices"
	"testing"

	"futtock/estimate"
	"futtock/estimate/job"
	pricing "futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/measure"
)

// What is drawn is as various as it is meant to be: properties of jobs that are
// all alike would say little. It speaks of what is drawn, whose pricing the
// other tests have with the race detector too, so that it is left out with -short.
func TestTheDrawnJobsAreVarious(t *testing.T) {
	if testing.Short() {
		t.Skip("a hundred and sixty jobs are priced without -short")
	}
	seen := map[string]int{}
	for _, r := range drawn(t)[:160] {
		for _, what := range has(r) {
			seen[what]++
		}
	}
	for _, what := range everything() {
		if seen[what] == 0 {
			t.Errorf("of 160 jobs none has %s", what)
		}
	}
	if t.Failed() {
		t.Log(slices.Sorted(maps.Keys(seen)))
	}
}

// everything is what some drawn job should have.
func everything() []string {
	out := []string{
		"shape square", "shape round", "shape eight-sided", "a sweep", "a bevel", "drying", "heart boxed", "heart free", "sapwood", "sizes as sawn",
		"joint none", "joint scarph", "joint butt", "a run of several pieces", "a joint to old work", "owner's timber", "limited stock", "a fastening rule",
		"item of several rows", "members and items in one line", "a Bill quantity", "an item below nil", "a difference of a penny or more",
		"waste", "a unit in brackets", "set-up", "learning", "work on the bench", "hours given", "an hour by rate", "an hour by pay", "a least charge",
		"price history", "plant in a preliminary", "by week", "by whole week", "by four weeks", "by day", "weeks given",
		"stages", "a lag", "an overlap", "closures", "waiting time priced", "work in no stage",
		"several codes of VAT", "otherwise", "VAT nearest", "VAT down", "contingency on items", "contingency on items and preliminaries",
		"contingency as a client's sum", "contingency within rates", "a section's own contingency", "price rises", "feet", "metres",
		"a daywork by the hour", "a daywork in money", "a sum below nil",
	}
	for _, x := range job.Treatments() {
		out = append(out, "treatment "+string(x))
	}
	for _, x := range job.CarriedAs() {
		out = append(out, "carried as "+string(x))
	}
	for _, x := range job.SumKinds() {
		out = append(out, "sum "+string(x))
	}
	for _, x := range rates.Forms() {
		out = append(out, "bought "+string(x))
	}
	for _, x := range rates.LogRules() {
		out = append(out, "measured by "+string(x))
	}
	for _, x := range rates.Drivers() {
		out = append(out, "by "+string(x))
	}
	for _, x := range rates.Parts() {
		out = append(out, "part "+string(x))
	}
	for _, x := range rates.Kinds() {
		out = append(out, "cost of "+string(x))
	}
	for _, x := range []pricing.Basis{pricing.Fixed, pricing.Timed, pricing.Supervision, pricing.Percentage} {
		out = append(out, "preliminary "+string(x))
	}
	return out
}

// has is what a job has of all that.
func has(r estimate.Result) []string {
	var out []string
	put := func(what string, holds bool) {
		if holds {
			out = append(out, what)
		}
	}
	j, b := r.Job, r.Book
	for _, m := range j.Members {
		s, bound := b.StockRow(m.Stock, j.TenderDate)
		timber, _ := b.TimberRow(m.Timber)
		out = append(out, "treatment "+string(m.Treatment), "shape "+string(m.Shape), "joint "+string(m.Joint), "heart "+string(m.Heart))
		put("a sweep", m.Sweep > 0)
		put("a bevel", !m.Bevel.IsZero())
		put("drying", timber.Dries && !m.AsSawn && m.Treatment.TakesTimber())
		put("sapwood", m.Sapwood)
		put("sizes as sawn", m.AsSawn)
		put("owner's timber", bound && s.ByOwner)
		put("a fastening rule", m.Fastening != "")
		put("a joint to old work", m.Joints > 0)
	}
	for _, w := range j.Works() {
		out = append(out, "carried as "+string(w.Carried))
		put("a Bill quantity", !w.BillQty.IsZero())
		put("hours given", !w.Hours.IsZero())
		put("work in no stage", len(j.Stages) > 0 && j.StageOf(w) == "")
	}
	for _, row := range r.Takeoff.Rows {
		put("a run of several pieces", row.PiecesEach > 1)
	}
	for _, l := range r.Plan.Order {
		out = append(out, "bought "+string(l.Stock.Form))
		put("limited stock", l.Stock.Limited)
		put("measured by "+string(l.Stock.Measure), l.Stock.Round())
	}
	for _, h := range r.Hours.Lines {
		trade, _ := b.Trade(h.Trade, j.TenderDate)
		put("an hour by pay", trade.Rate.IsZero())
		put("an hour by rate", !trade.Rate.IsZero())
		for _, task := range h.Tasks {
			out = append(out, "part task", "by "+string(task.BuildUp.By))
			put("set-up", !task.SetUp.IsZero())
			put("learning", !task.Norm.Learning.IsZero())
			put("work on the bench", task.Norm.Place == rates.Bench)
		}
	}
	return slices.Concat(out, hasPriced(r), hasTerms(r))
}

// hasPriced is what the priced items, preliminaries, sums and dayworks have.
func hasPriced(r estimate.Result) []string {
	var out []string
	put := func(what string, holds bool) {
		if holds {
			out = append(out, what)
		}
	}
	for _, i := range r.Priced.Items {
		put("item of several rows", len(i.Rows) > 1)
		put("members and items in one line", len(i.Rows) > 1 && i.QuantityBy == "" && i.Unit == measure.One)
		put("an item below nil", i.Amount.Sign() < 0)
		put("a difference of a penny or more", i.Difference.Sign() != 0)
		for _, c := range i.Costs {
			out = append(out, "cost of "+string(c.Kind))
			put("a least charge", c.Cost.Equal(c.Least) && !c.Least.IsZero())
			for _, a := range c.Asked {
				out = append(out, "part "+string(a.BuildUp.Part), "by "+string(a.BuildUp.By))
				put("waste", !a.BuildUp.Waste.IsZero())
				put("a unit in brackets", a.BuildUp.Per != "")
			}
		}
	}
	for _, l := range r.Priced.Preliminaries {
		out = append(out, "preliminary "+string(l.Basis), "by "+string(l.Row.Charged))
		put("plant in a preliminary", l.Row.Plant != "")
		put("weeks given", l.Row.WeeksGiven)
		put("waiting time priced", l.Basis == pricing.Waiting)
	}
	for _, s := range r.Priced.Sums {
		out = append(out, "sum "+string(s.Row.Kind))
		put("a sum below nil", s.Amount.Sign() < 0)
	}
	for _, d := range r.Priced.Dayworks {
		put("a daywork by the hour", d.Trade)
		put("a daywork in money", !d.Trade)
	}
	return out
}

// hasTerms is what the terms of the job and its programme have.
func hasTerms(r estimate.Result) []string {
	j := r.Job
	out := []string{"contingency on " + string(j.ContingencyOn), "contingency " + string(j.ContingencyShown), "VAT " + string(j.VATRounding),
		map[bool]string{true: "feet", false: "metres"}[j.LengthsIn == measure.Ft]}
	put := func(what string, holds bool) {
		if holds {
			out = append(out, what)
		}
	}
	for _, s := range j.Stages {
		put("a lag", s.Lag.Sign() > 0)
		put("an overlap", s.Lag.Sign() < 0)
	}
	for _, s := range j.Sections {
		put("a section's own contingency", s.OwnRate)
	}
	materials := map[string]int{}
	for _, m := range r.Book.Materials {
		materials[m.Material]++
		put("price history", materials[m.Material] > 2)
	}
	put("stages", len(j.Stages) > 0)
	put("closures", len(j.Closures) > 0)
	put("several codes of VAT", len(r.Bill.VAT) > 1)
	put("otherwise", r.Bill.Otherwise != nil)
	put("price rises", !r.Bill.Rises.IsZero())
	return out
}
