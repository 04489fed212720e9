package main

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate"
	"futtock/estimate/changes"
	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates"
	"futtock/templates/grid"
)

// revision is one thing changed in a job, and the steps that alone may move its total.
type revision struct {
	name  string
	moves []changes.Kind
	set   func(j *job.Job, b *rates.Book)
}

// by multiplies a figure.
func by(factor string) raise {
	return func(d decimal.Decimal) decimal.Decimal { return d.Mul(decimal.RequireFromString(factor)).Round(4) }
}

func revisions() []revision {
	one := func(k ...changes.Kind) []changes.Kind { return k }
	return []revision{
		{"every pay and rate", one(changes.Pay), func(_ *job.Job, b *rates.Book) {
			for i := range b.Labour {
				reprice(&b.Labour[i].Rate, by("1.0731"))
				reprice(&b.Labour[i].Pay, by("1.0731"))
			}
		}},
		{"every price of timber", one(changes.TimberCost, changes.TimberPlan), func(_ *job.Job, b *rates.Book) {
			for i := range b.Stock {
				reprice(&b.Stock[i].Price, by(fmt.Sprintf("1.%d3", i%4)))
			}
		}},
		{"every norm", one(changes.Norms), func(_ *job.Job, b *rates.Book) {
			for i := range b.Norms {
				b.Norms[i].Hours = by("1.17")(b.Norms[i].Hours)
			}
		}},
		{"every price of materials", one(changes.Materials), func(_ *job.Job, b *rates.Book) {
			for i := range b.Materials {
				reprice(&b.Materials[i].Price, by("1.31"))
			}
		}},
		{"every price of plant and of others' work", one(changes.Plant), func(_ *job.Job, b *rates.Book) {
			for i := range b.Plant {
				reprice(&b.Plant[i].Each, by("1.31"))
				reprice(&b.Plant[i].Weekly, by("1.31"))
			}
			for i := range b.Subcontract {
				reprice(&b.Subcontract[i].Price, by("0.93"))
			}
		}},
		{"every sum", one(changes.Sums), func(j *job.Job, _ *rates.Book) {
			for i := range j.Sums {
				reprice(&j.Sums[i].Amount, by("1.5"))
			}
			for i := range j.Dayworks {
				j.Dayworks[i].Addition = money.NewPercent(j.Dayworks[i].Addition.Decimal().Add(decimal.New(7, 0)))
			}
		}},
		{"every overhead", one(changes.Additions), func(j *job.Job, _ *rates.Book) {
			for i := range j.Additions {
				percent(&j.Additions[i].Overheads, by("1.25"))
			}
		}},
		{"a gang of each stage", one(changes.Programme), func(j *job.Job, _ *rates.Book) {
			for i := range j.Gangs {
				j.Gangs[i].Men = j.Gangs[i].Men.Add(decimal.New(1, 0))
			}
		}},
		{"every charge by the week", one(changes.Programme), func(j *job.Job, _ *rates.Book) {
			for i := range j.Preliminaries {
				reprice(&j.Preliminaries[i].Weekly, by("1.4"))
			}
		}},
		{"every rate of VAT", one(changes.VAT), func(_ *job.Job, b *rates.Book) {
			for i := range b.VAT {
				percent(&b.VAT[i].Rate, by("0.5"))
			}
		}},
		{"every number of items", one(changes.Quantities), func(j *job.Job, _ *rates.Book) {
			for i := range j.Items {
				j.Items[i].Quantity = j.Items[i].Quantity.Mul(decimal.New(2, 0))
			}
		}},
		{"the number of every third member", one(changes.Quantities, changes.TimberPlan), func(j *job.Job, _ *rates.Book) {
			for i := range j.Members {
				if i%3 == 0 {
					j.Members[i].Nr += 2
				}
			}
		}},
		{"a member taken out", one(changes.Members, changes.TimberPlan), func(j *job.Job, _ *rates.Book) {
			if len(j.Members) > 1 {
				j.Members = slices.Delete(slices.Clone(j.Members), 0, 1)
			}
		}},
		{"a member like another", one(changes.Members, changes.TimberPlan), func(j *job.Job, _ *rates.Book) {
			if len(j.Members) > 0 {
				m := j.Members[len(j.Members)/2]
				m.Ref, m.BillItem = "new."+m.Ref, ""
				j.Members = append(slices.Clone(j.Members), m)
			}
		}},
		{"a thicker member", one(changes.Members, changes.TimberPlan), func(j *job.Job, _ *rates.Book) {
			for i := range j.Members {
				if m := &j.Members[i]; m.Sided > 10*measure.Millimetre && i%2 == 0 {
					m.Sided -= 3 * measure.Millimetre
				}
			}
		}},
		{"more lost of every stock", one(changes.TimberPlan), func(_ *job.Job, b *rates.Book) {
			for i := range b.Stock {
				b.Stock[i].Loss = money.NewPercent(b.Stock[i].Loss.Decimal().Add(decimal.New(15, 0)))
			}
		}},
		{"a later date", one(changes.Additions), func(j *job.Job, b *rates.Book) { j.TenderDate = j.TenderDate.AddDate(0, 0, -1) }},
		{"the words", nil, func(j *job.Job, b *rates.Book) {
			j.Description, j.Client = "another word", "other trustees"
			for i := range j.Members {
				j.Members[i].Note = "seen again"
			}
			for i := range j.Items {
				j.Items[i].Funding = "a fund"
			}
		}},
	}
}

// revisedJob is a job with a revision, priced; false where that has made an error of it.
func revisedJob(was estimate.Result, set ...func(*job.Job, *rates.Book)) (estimate.Result, bool) {
	j, b := was.Job, was.Book
	for _, rows := range []func(){
		func() { j.Members = slices.Clone(j.Members) }, func() { j.Items = slices.Clone(j.Items) }, func() { j.Preliminaries = slices.Clone(j.Preliminaries) },
		func() { j.Sums = slices.Clone(j.Sums) }, func() { j.Dayworks = slices.Clone(j.Dayworks) }, func() { j.Gangs = slices.Clone(j.Gangs) },
		func() { j.Additions = slices.Clone(j.Additions) }, func() { b.Norms = slices.Clone(b.Norms) }, func() { b.Labour = slices.Clone(b.Labour) },
		func() { b.Timber = slices.Clone(b.Timber) }, func() { b.Stock = slices.Clone(b.Stock) }, func() { b.Materials = slices.Clone(b.Materials) },
		func() { b.Plant = slices.Clone(b.Plant) }, func() { b.Subcontract = slices.Clone(b.Subcontract) }, func() { b.VAT = slices.Clone(b.VAT) },
	} {
		rows()
	}
	for _, s := range set {
		s(&j, &b)
	}
	r := estimate.Run(j, b)
	return r, !r.Problems.HasErrors()
}

// bridged is a bridge whose steps add up, and whose lines add up to their steps.
func bridged(t fatal, old, new estimate.Result) changes.Bridge {
	t.Helper()
	b, found := changes.Reconcile(old, new)
	if found.HasErrors() {
		t.Fatalf("two sound issues, and here is an error: %s", found)
	}
	total, net := old.Bill.Total, old.Bill.Net
	for _, s := range b.Steps {
		total, net = total.Add(s.Worth), net.Add(s.Net)
		if !s.After.Equal(total) {
			t.Fatalf("after %s the total is %s, and %s by its steps", s.Kind.Title(), s.After, total)
		}
		var lines money.Amount
		for _, l := range s.Lines {
			lines = lines.Add(l.Moved)
		}
		if !lines.Equal(s.Worth) {
			t.Fatalf("%s is worth %s, and its lines %s", s.Kind.Title(), s.Worth, lines)
		}
	}
	if !total.Equal(new.Bill.Total) || !net.Equal(new.Bill.Net) {
		t.Fatalf("the steps come to %s, net %s, and the new issue is %s, net %s", total, net, new.Bill.Total, new.Bill.Net)
	}
	return b
}

// Whatever is changed between two issues, the steps add up to the difference, to the penny.
func TestTheStepsBetweenAnyTwoIssuesAddUp(t *testing.T) {
	all := revisions()
	moved := map[changes.Kind]int{}
	joined := 0
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		old := pricedTables(t, tables)
		var set []func(*job.Job, *rates.Book)
		for range rapid.IntRange(1, 5).Draw(t, "how many") {
			set = append(set, rapid.SampledFrom(all).Draw(t, "revision").set)
		}
		new, sound := revisedJob(old, set...)
		if !sound {
			return
		}
		for _, s := range bridged(t, old, new).Steps {
			if !s.Worth.IsZero() {
				moved[s.Kind]++
			}
			if s.Cannot != "" {
				joined++
			}
		}
	})
	t.Logf("worth something: %v; %d steps could not be priced by themselves", moved, joined)
	for _, k := range changes.Kinds()[:changes.Rest] {
		if moved[k] == 0 && !testing.Short() {
			t.Errorf("%s was worth nothing in any of them", k.Title())
		}
	}
}

// One thing changed moves its own step and no other; an issue held against itself moves
// nothing and lists nothing.
func TestOneThingChangedMovesItsOwnStepAlone(t *testing.T) {
	all := drawn(t)
	for n, c := range append(revisions(), revision{"nothing", nil, func(*job.Job, *rates.Book) {}}) {
		t.Run(c.name, func(t *testing.T) {
			told, moves := 0, 0
			for i := range 8 {
				old := all[(n*8+i)%len(all)]
				new, sound := revisedJob(old, c.set)
				if !sound {
					continue
				}
				b := bridged(t, old, new)
				for _, s := range b.Steps {
					told += len(s.Changes)
					if !s.Worth.IsZero() {
						moves++
					}
					if !s.Worth.IsZero() && !slices.Contains(c.moves, s.Kind) {
						t.Errorf("job %d: %s is worth %s; %s", (n*8+i)%len(all), s.Kind.Title(), s.Worth, s.Cannot)
					}
				}
			}
			if told == 0 != (c.name == "nothing") {
				t.Errorf("%d changes are told of", told)
			}
			if moves == 0 && c.moves != nil && c.name != "a later date" {
				t.Error("it moves nothing in any of them, and so shows nothing")
			}
		})
	}
}

// Two jobs that have nothing to do with each other are reconciled all the same.
func TestTwoJobsThatAreNotOneAreReconciledAllTheSame(t *testing.T) {
	all := drawn(t)
	joined, done := 0, 0
	for i := range 40 {
		old, new := all[i], all[i+40]
		if old.Job.Currency != new.Job.Currency {
			continue
		}
		done++
		for _, s := range bridged(t, old, new).Steps {
			if s.Cannot != "" {
				joined++
			}
		}
	}
	if done < 10 {
		t.Fatalf("only %d were", done)
	}
	t.Logf("%d pairs; %d steps could not be priced by themselves", done, joined)
}

// An independent spreadsheet program reckons every formula of the workbook of two issues to
// the same penny: of the demonstration and of drawn jobs, each with five revisions at once.
func TestTheWorkbookOfChangesRecalculatesToThePenny(t *testing.T) {
	spreadsheet(t)
	jobs := map[string]estimate.Result{"demonstration": demonstration(t)}
	for i, r := range drawn(t)[:12] {
		jobs[fmt.Sprintf("drawn %d", i)] = r
	}
	books := map[string]*grid.Book{}
	all := revisions()
	for n, name := range slices.Sorted(maps.Keys(jobs)) {
		var set []func(*job.Job, *rates.Book)
		for i := range 5 {
			set = append(set, all[(n+i*3)%len(all)].set)
		}
		if new, sound := revisedJob(jobs[name], set...); sound {
			books[name] = sheets.Changes(bridged(t, jobs[name], new))
		}
	}
	if books["demonstration"] == nil || len(books) < 6 {
		t.Fatalf("only %d are sound", len(books))
	}
	was, now := recalculatedAll(t, books)
	for _, name := range slices.Sorted(maps.Keys(was)) {
		n, differ := compareFormulas(was[name], now[name])
		if n < 30 {
			t.Errorf("%s: only %d formulas, and a bridge has more", name, n)
		}
		for _, d := range differ {
			t.Errorf("%s: %s", name, d)
		}
	}
}
