package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/rates"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// enough is the sheets a bill for others to price is made from.
var enough = []string{"job", "sections", "members", "items", "preliminaries", "sums"}

// formOf is the bill for others to price of a job as sheets; an error in it stops the test.
func formOf(t fatal, tables []templates.Table) estimate.Form {
	t.Helper()
	p := formOne("yard.xlsx", templates.TextBook("yard.xlsx", tables), nil, nil)
	if p.problems.HasErrors() {
		t.Fatalf("the job is sound, and here is an error: %v", p.problems)
	}
	return *p.form
}

// only is those of the sheets that a form is made from.
func only(tables []templates.Table) []templates.Table {
	return slices.DeleteFunc(slices.Clone(tables), func(s templates.Table) bool {
		return !slices.ContainsFunc(enough, func(n string) bool { return rates.Same(n, s.Sheet) })
	})
}

// demonstratedForm is the form of the demonstration.
func demonstratedForm(t *testing.T) estimate.Form {
	t.Helper()
	tables, err := demoTables()
	if err != nil {
		t.Fatal(err)
	}
	return formOf(t, tables)
}

// A form has the lines of the priced bill, worded, measured and marked alike,
// whatever the job; and the same without a price book, but for lines billed by
// weight, which rest on the density of the timber, and the owner's timber, which
// only Stock knows of.
func TestAFormSaysWhatThePricedBillSays(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		r := pricedTables(t, tables)
		var want []string
		for _, s := range r.Bill.Sections {
			for _, n := range s.Lines {
				if n.Carried == job.RateOnly {
					n.Quantity = decimal.Decimal{}
				}
				want = append(want, fmt.Sprintf("%s %s %s: %s, %s %s, %s", s.Section, s.Title, n.Ref, n.Description, n.Quantity, n.Unit, n.Remark))
			}
		}
		said := func(f estimate.Form) (out []string) {
			for _, s := range f.Bill.Sections {
				for _, n := range s.Lines {
					out = append(out, fmt.Sprintf("%s %s %s: %s, %s %s, %s", s.Section, s.Title, n.Ref, n.Description, n.Quantity, n.Unit, n.Standing))
				}
			}
			return out
		}
		if d := cmp.Diff(want, said(formOf(t, tables))); d != "" {
			t.Errorf("the form (-priced bill +form):\n%s", d)
		}
		without := func(lines []string) (out []string) {
			for _, l := range lines {
				l = strings.TrimSuffix(strings.TrimSuffix(l, "timber by owner"), "; ")
				out = append(out, l)
			}
			return out
		}
		f := estimate.Unpriced(r.Job, rates.Book{})
		for _, p := range f.Problems {
			if p.Code == problem.UnitUnlike {
				return // billed by weight
			}
		}
		if d := cmp.Diff(without(want), without(said(f))); d != "" {
			t.Errorf("the form without a price book (-priced bill +form):\n%s", d)
		}
	})
}

// The six sheets are enough for the demonstration, and give the form that the
// whole workbook gives, but that whose timber it is stands in Stock.
func TestSixSheetsAreEnoughForAForm(t *testing.T) {
	tables, err := demoTables()
	if err != nil {
		t.Fatal(err)
	}
	whole, few := formOf(t, tables), formOf(t, only(tables))
	if few.Bill.OwnersTimber || !whole.Bill.OwnersTimber {
		t.Error("whose timber it is stands in Stock")
	}
	owners := 0
	for i, s := range whole.Bill.Sections {
		for k, n := range s.Lines {
			switch m := few.Bill.Sections[i].Lines[k]; {
			case n.Standing != m.Standing:
				owners++
			case n.Mark != m.Mark:
				t.Errorf("%s: %v of the whole workbook is %v of six sheets", n.Ref, n.Fixed, m.Fixed)
			}
		}
	}
	if owners == 0 || owners > 5 {
		t.Errorf("%d lines are marked otherwise; one to five are of the owner's timber", owners)
	}
	if len(few.Bill.Preliminaries) < 10 || len(few.Bill.Sums) < 5 || len(few.Bill.Dayworks) > 0 {
		t.Error("preliminaries and sums are in the six sheets, dayworks are not")
	}
}

// Only blank cells are open, and every sheet is locked.
func TestOfAFormOnlyWhatIsToBeFilledInIsOpen(t *testing.T) {
	open := 0
	for _, s := range sheets.Unpriced(demonstratedForm(t)).Sheets {
		if !s.Locked {
			t.Errorf("%s is not locked", s.Name)
		}
		for n, row := range s.Rows {
			for k, c := range row.Cells {
				if !c.Style.Open {
					continue
				}
				if open++; c.Kind != grid.Blank || c.Formula != "" || c.Style.Fill == "" || c.Style.Border != grid.Box {
					t.Errorf("%s row %d column %d is open and is not blank, or does not show it", s.Name, n+1, k+1)
				}
			}
		}
	}
	if open < 3*186 {
		t.Errorf("only %d cells are open", open)
	}
}

// An independent spreadsheet program reckons a blank form as futtock stored it,
// and so all that was left out of it.
func TestABlankFormRecalculatesToThePenny(t *testing.T) {
	spreadsheet(t)
	was, now := recalculatedAll(t, map[string]*grid.Book{"form": sheets.Unpriced(demonstratedForm(t))})
	n, differ := compareFormulas(was["form"], now["form"])
	if n < 200 {
		t.Errorf("only %d formulas", n)
	}
	for _, d := range differ {
		t.Error(d)
	}
}

// Words that a spreadsheet might take for something else, and letters of any
// alphabet, stand in a form as they were typed; so do three thousand items.
func TestAFormKeepsOddWordsAndManyLines(t *testing.T) {
	odd := []string{"=1+1", "+44 feet", "@sum", `a "quoted" & <marked> word`, "Ærøskøbing Кий 舟", "sound ⚓🙂", strings.Repeat("very long ", 120)}
	var items strings.Builder
	items.WriteString("Ref\tSection\tDescription\tQuantity\tUnit\n")
	for i := range odd {
		fmt.Fprintf(&items, "O%d\tH\todd\t%d.25\tm\n", i, i+1)
	}
	for i := range 3000 {
		fmt.Fprintf(&items, "M%d\tH\tline\t2\tnr\n", i)
	}
	f := formOf(t, []templates.Table{
		templates.ParseTSV("job", "Heading\tValue\nVessel\tKij\nClient\tThe owner\nYard\tThe yard\nTender reference\tODD-1\nTender date\t2026-03-02\nVAT code\tS\nHours a week\t40\n"),
		templates.ParseTSV("sections", "Section\tTitle\nH\tHull's \"skin\"\n"),
		templates.ParseTSV("members", "Ref\tSection\tMember\tNr\tLength\tTreatment\n"),
		templates.ParseTSV("items", items.String()),
	})
	j := f.Job
	j.Vessel, j.Items = `=Кий & "Co" 🙂`, slices.Clone(j.Items)
	for i, text := range odd {
		j.Items[i].Description = text
	}
	f = estimate.Unpriced(j, rates.Book{})
	data, err := xlsx.Write(sheets.Unpriced(f))
	if err != nil {
		t.Fatal(err)
	}
	back, err := xlsx.Read("form.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	var lines []bill.Fixed
	for _, s := range back.Sheets {
		lines = append(lines, returned(t, s)...)
	}
	if len(lines) != 3000+len(odd) || bill.Fingerprint("ODD-1", lines) != f.Bill.Fingerprint {
		t.Errorf("%d lines are in the form, or they are others", len(lines))
	}
	for i, text := range odd {
		if !slices.ContainsFunc(lines, func(l bill.Fixed) bool { return l.ID == fmt.Sprintf("B/O%d", i) && l.Description == text }) {
			t.Errorf("%q is not in the form as it was typed", text)
		}
	}
}
