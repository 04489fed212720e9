package main

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/rates/money"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// reread is a book as it is read from its file.
func reread(t fatal, name string, b *grid.Book) grid.Workbook {
	t.Helper()
	data, err := xlsx.Write(b)
	if err != nil {
		t.Fatalf("%v", err)
	}
	w, err := xlsx.Read(name, data)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return w
}

// sentOf is a bill read back, in which nothing is found amiss.
func sentOf(t fatal, w grid.Workbook) quotes.Sent {
	t.Helper()
	s, found := offer.Sent(w)
	for _, p := range found {
		t.Fatalf("found: %s", p)
	}
	return s
}

// fixedOf is the lines of a form by part.
func fixedOf(f bill.Form) []bill.Fixed {
	var out []bill.Fixed
	keep := func(lines []bill.FormLine) {
		for _, l := range lines {
			out = append(out, l.Fixed)
		}
	}
	for _, s := range f.Sections {
		keep(s.Lines)
	}
	keep(f.Preliminaries)
	keep(f.Sums)
	keep(f.Dayworks)
	return out
}

// The form of any job is read back with the lines it was made with, and its
// fingerprint is that of what was read.
func TestAFormIsReadBackAsItWasMade(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		formReadBack(t, formOf(t, tables))
	})
	formReadBack(t, demonstratedForm(t))
}

func formReadBack(t fatal, f estimate.Form) {
	t.Helper()
	s := sentOf(t, reread(t, "x-unpriced.xlsx", sheets.Unpriced(f)))
	var got []bill.Fixed
	for _, l := range s.Lines {
		got = append(got, l.Fixed)
	}
	if d := cmp.Diff(fixedOf(f.Bill), got); d != "" {
		t.Fatalf("the lines (-made +read):\n%s", d)
	}
	if s.Fingerprint != f.Bill.Fingerprint || bill.Fingerprint(s.Reference, got) != f.Bill.Fingerprint {
		t.Fatalf("the fingerprint is %s, read as %s, and of what was read %s", f.Bill.Fingerprint, s.Fingerprint, bill.Fingerprint(s.Reference, got))
	}
	if s.Vessel != templates.Single(f.Job.Vessel) || s.Reference != f.Job.Reference || s.Currency != f.Job.Currency || !s.Tendered.Equal(f.Job.TenderDate) || s.Client != templates.Tidy(f.Job.Client) {
		t.Fatalf("the form is of %q, %q, %q, %q of %s", s.Vessel, s.Client, s.Reference, s.Currency, s.Tendered)
	}
	i := 0
	for _, sec := range f.Bill.Sections {
		for _, l := range sec.Lines {
			if s.Lines[i].Section != sec.Section || s.Lines[i].Carried != l.Carried || s.Lines[i].Priced || s.Lines[i].Ref != l.Ref {
				t.Fatalf("%s stands in section %q, carried as %q", s.Lines[i].ID, s.Lines[i].Section, s.Lines[i].Carried)
			}
			i++
		}
	}
	for _, l := range s.Lines[i:] {
		if l.Given != (l.Part == quotes.Sums && l.Standing != string(job.Quotation)) {
			t.Fatalf("whether %s is given is %v", l.ID, l.Given)
		}
	}
}

// The priced bill of any job is read back with the ids of its form and the
// amounts of every line, section and sum, to the penny.
func TestAPricedBillIsReadBackToThePenny(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		pricedReadBack(t, pricedTables(t, tables), formOf(t, tables))
	})
	pricedReadBack(t, demonstration(t), demonstratedForm(t))
}

func pricedReadBack(t fatal, r estimate.Result, f estimate.Form) {
	t.Helper()
	s, found := offer.Sent(reread(t, "x-bill.xlsx", sheets.Bill(r)))
	for _, p := range found {
		if p.Code != "bill-only" {
			t.Fatalf("found: %s", p)
		}
	}
	var want, got []string
	for _, l := range fixedOf(f.Bill) {
		want = append(want, l.ID)
	}
	sum := map[quotes.Part]money.Amount{}
	section := map[string]money.Amount{}
	for _, l := range s.Lines {
		got = append(got, l.ID)
		if l.InTotal() {
			sum[l.Part] = sum[l.Part].Add(l.Amount)
			section[l.Section] = section[l.Section].Add(l.Amount)
		}
	}
	slices.Sort(want)
	slices.Sort(got)
	if d := cmp.Diff(want, got); d != "" {
		t.Fatalf("the ids (-of the form +of the priced bill):\n%s", d)
	}
	prelims := r.Bill.Prelims
	for _, l := range r.Bill.Preliminaries {
		if l.Ref == "waiting time" {
			prelims = prelims.Sub(l.Amount)
		}
	}
	for what, pair := range map[string][2]money.Amount{
		"measured work": {sum[quotes.Work], r.Bill.Items}, "preliminaries": {sum[quotes.Preliminaries], prelims},
		"sums and dayworks": {sum[quotes.Sums].Add(sum[quotes.Dayworks]), r.Bill.SumsDayworks}, "held": {s.Contingency, r.Bill.Held.Add(r.Bill.Rises)},
	} {
		if !pair[0].Equal(pair[1]) {
			t.Fatalf("%s come to %s, and to %s in the bill", what, pair[0], pair[1])
		}
	}
	made := map[string]bill.Fixed{}
	for _, l := range fixedOf(f.Bill) {
		made[l.ID] = l
	}
	for _, sec := range r.Bill.Sections {
		if !section[sec.Section].Equal(sec.Total) {
			t.Fatalf("section %s comes to %s, and to %s in the bill", sec.Section, section[sec.Section], sec.Total)
		}
	}
	for _, l := range s.Lines {
		if l.Part == quotes.Work && cmp.Diff(made[l.ID], l.Fixed) != "" {
			t.Fatalf("%s (-of the form +of the priced bill):\n%s", l.ID, cmp.Diff(made[l.ID], l.Fixed))
		}
	}
	if s.Weeks.Known != (len(r.Programme.Stages) > 0) || !s.Weeks.Weeks.Equal(r.Programme.Weeks) || len(s.Stages) != len(r.Programme.Stages) {
		t.Fatalf("%v weeks and %d stages are read of %s and %d", s.Weeks, len(s.Stages), r.Programme.Weeks, len(r.Programme.Stages))
	}
	read := map[string]quotes.Stage{}
	for _, stage := range s.Stages {
		read[stage.Stage] = stage
	}
	for _, stage := range r.Programme.Stages {
		g, is := read[templates.Single(stage.Stage.Stage)]
		if !is || !g.From.Equal(stage.Earliest) || !g.To.Equal(stage.EarliestFinish) {
			t.Fatalf("stage %v is read as %v", stage.Stage.Stage, g)
		}
	}
	if s.Reference != r.Job.Reference || s.Currency != r.Job.Currency || s.Client != templates.Tidy(r.Job.Client) || !s.Priced {
		t.Fatalf("the bill is of %q, %q, in %q", s.Client, s.Reference, s.Currency)
	}
}
