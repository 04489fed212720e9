package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/output/sheets"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// An independent spreadsheet program reckons every formula of bill, estimate and
// form to be priced of two hundred drawn jobs to the same penny as futtock stored;
// and the form of every fifth, filled in with the yard's own rates, every result in it still that of
// the blank one, comes to the measured work of the bill.
func TestDrawnJobsRecalculateToThePenny(t *testing.T) {
	spreadsheet(t)
	jobs, dir := drawn(t), t.TempDir()
	var paths []string
	var of []int // job of each
	const filled = "filled in"
	for i, r := range jobs {
		form := estimate.Unpriced(r.Job, r.Book)
		type named struct {
			name string
			book *grid.Book
		}
		books := []named{{"bill", sheets.Bill(r)}, {"estimate", sheets.Estimate(r)}, {"form", sheets.Unpriced(form)}}
		if i%5 == 0 {
			books = append(books, named{filled, filledIn(t, r, form)})
		}
		for _, b := range books {
			for _, s := range b.book.Sheets {
				// These take the program long to lay out, and nothing is reckoned by them.
				s.Print, s.Charts, s.Images = grid.Print{}, nil, nil
			}
			data, err := xlsx.Write(b.book)
			if err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(dir, fmt.Sprintf("job %d, %s.xlsx", i, b.name))
			if err := os.WriteFile(path, data, 0o644); err != nil {
				t.Fatal(err)
			}
			paths, of = append(paths, path), append(of, i)
		}
	}
	formulas, was := map[string]int{}, make([]grid.Workbook, len(paths))
	for i, path := range paths {
		var err error
		if was[i], err = xlsx.Open(path); err != nil {
			t.Fatal(err)
		}
	}
	worked := 0
	for i, now := range recalculatedFigures(t, was, paths) {
		_, name, _ := strings.Cut(strings.TrimSuffix(filepath.Base(paths[i]), ".xlsx"), ", ")
		if name == filled {
			items := jobs[of[i]].Bill.Items
			if got := onSummary(t, now, "Measured work", 4); !got.Equal(items.Decimal()) {
				t.Errorf("%s: measured work comes to %s, and the bill has %s", filepath.Base(paths[i]), got, items)
			}
			if items.Sign() > 0 {
				worked++
			}
			continue
		}
		n, differ := compareFormulas(was[i], now)
		formulas[name] += n
		for _, d := range differ {
			t.Errorf("%s: %s", filepath.Base(paths[i]), d)
		}
	}
	t.Logf("%d jobs: formulas %v, %d forms filled in", len(jobs), formulas, worked)
	for name, least := range map[string]int{"bill": 20, "estimate": 250, "form": 10} {
		if formulas[name] < least*len(jobs) {
			t.Errorf("%s: only %d formulas in %d jobs, and there should be %d or more", name, formulas[name], len(jobs), least*len(jobs))
		}
	}
	if worked < len(jobs)*3/20 {
		t.Errorf("only %d forms come to anything", worked)
	}
}

// filledIn is a form with the yard's own rates in the measured work.
func filledIn(t *testing.T, r estimate.Result, f estimate.Form) *grid.Book {
	t.Helper()
	rate := map[string]decimal.Decimal{}
	for _, s := range r.Bill.Sections {
		for _, n := range s.Lines {
			rate[bill.OfWork+n.Ref] = n.Rate.Decimal()
		}
	}
	book := sheets.Unpriced(f)
	for _, row := range sheetNamed(t, book, "Bill").Rows {
		if len(row.Cells) > 10 && row.Cells[4].Style.Open {
			row.Cells[4].Kind, row.Cells[4].Number = grid.Number, rate[row.Cells[10].Text]
		}
	}
	return book
}
