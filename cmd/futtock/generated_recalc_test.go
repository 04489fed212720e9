package main

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"futtock/output/sheets"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// An independent spreadsheet program reckons every formula of bill and estimate
// of two hundred drawn jobs to the same penny as futtock stored.
func TestDrawnJobsRecalculateToThePenny(t *testing.T) {
	spreadsheet(t)
	jobs, dir := drawn(t), t.TempDir()
	var paths []string
	for i, r := range jobs {
		for name, book := range map[string]*grid.Book{"bill": sheets.Bill(r), "estimate": sheets.Estimate(r)} {
			for _, s := range book.Sheets {
				// These take the program long to lay out, and nothing is reckoned by them.
				s.Print, s.Charts = grid.Print{}, nil
			}
			data, err := xlsx.Write(book)
			if err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(dir, fmt.Sprintf("job %d, %s.xlsx", i, name))
			if err := os.WriteFile(path, data, 0o644); err != nil {
				t.Fatal(err)
			}
			paths = append(paths, path)
		}
	}
	formulas, was := 0, make([]grid.Workbook, len(paths))
	for i, path := range paths {
		var err error
		if was[i], err = xlsx.Open(path); err != nil {
			t.Fatal(err)
		}
	}
	for i, now := range recalculatedFigures(t, was, paths) {
		n, differ := compareFormulas(was[i], now)
		formulas += n
		for _, d := range differ {
			t.Errorf("%s: %s", filepath.Base(paths[i]), d)
		}
	}
	if least := 300 * len(jobs); formulas < least {
		t.Errorf("only %d formulas in %d jobs, and there should be %d or more", formulas, len(jobs), least)
	}
}
