package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/rates/measure"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// The form that comes back is the one that went out: filled in with the yard's
// own rates and saved by another program every mark is as it was, the sheets are
// locked still, and the measured work comes to what the priced bill says.
func TestAFormComesBackFromAnotherProgramFilledIn(t *testing.T) {
	spreadsheet(t)
	f, r := demonstratedForm(t), demonstration(t)
	book := filledIn(t, r, f)
	data, err := xlsx.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "filled.xlsx")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	out := filepath.Join(converted(t, "xlsx", []string{path}), "filled.xlsx")
	back, err := xlsx.Open(out)
	if err != nil {
		t.Fatal(err)
	}
	var lines []bill.Fixed
	for _, s := range back.Sheets {
		lines = append(lines, returned(t, s)...)
	}
	if n := len(slices.Concat(lineSets(f.Bill)...)); len(lines) != n {
		t.Fatalf("%d lines came back of %d", len(lines), n)
	}
	if got := bill.Fingerprint(r.Job.Reference, lines); got != f.Bill.Fingerprint {
		t.Errorf("the fingerprint is %s and was %s", got, f.Bill.Fingerprint)
	}
	saved, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	parts := partsOf(t, saved)
	if !strings.Contains(parts["xl/workbook.xml"], bill.FormName) || !strings.Contains(parts["xl/workbook.xml"], f.Bill.Fingerprint) {
		t.Error("the fingerprint is gone from the defined name")
	}
	for i := range back.Sheets {
		part := parts[fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)]
		if !strings.Contains(part, "<sheetProtection") || !strings.Contains(part, `sheet="true"`) || strings.Contains(part, "password=") {
			t.Errorf("sheet %d is not locked without a password", i+1)
		}
	}
	for what, want := range map[string]string{"Measured work": r.Bill.Items.String(), "Preliminaries": "0", "Total of this offer": r.Bill.Items.Decimal().Add(dec("65750")).String()} {
		if got := onSummary(t, back, what, 4); !got.Equal(dec(want)) {
			t.Errorf("%s comes to %s, and %s is right", what, got, want)
		}
	}
	if got := onSummary(t, back, "Measured work", 3); !got.IsZero() {
		t.Errorf("%s lines of measured work are still to be priced", got)
	}
	if got := onSummary(t, back, "Preliminaries", 3); got.IntPart() != int64(len(f.Bill.Preliminaries)) {
		t.Errorf("%s preliminaries are still to be priced, and all %d are", got, len(f.Bill.Preliminaries))
	}
}

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func sheetNamed(t *testing.T, b *grid.Book, name string) *grid.Sheet {
	t.Helper()
	for _, s := range b.Sheets {
		if s.Name == name {
			return s
		}
	}
	t.Fatalf("there is no sheet %q", name)
	return nil
}

// onSummary is a figure of the summary that came back.
func onSummary(t *testing.T, b grid.Workbook, what string, col int) decimal.Decimal {
	t.Helper()
	for _, s := range b.Sheets {
		for _, l := range s.Rows {
			if s.Name == "Summary" && strings.HasSuffix(l.Cell(2).Raw, what) {
				return l.Cell(col).Value
			}
		}
	}
	t.Fatalf("the summary has no %q", what)
	return decimal.Decimal{}
}

// returned is the lines of one sheet as they came back; each bears the mark of
// what it says.
func returned(t *testing.T, s grid.Page) []bill.Fixed {
	t.Helper()
	// Columns of description, quantity, unit, standing, id.
	columns := map[string][5]int{"Bill": {2, 3, 4, 9, 11}, "Preliminaries": {2, 4, 5, 10, 12}, "Sums": {2, 4, 0, 3, 12}, "Dayworks": {1, 2, 0, 0, 9}}[s.Name]
	var out []bill.Fixed
	for _, l := range s.Rows {
		id := l.Cell(columns[4]).Raw
		if columns[4] == 0 || !strings.Contains(id, "/") {
			continue
		}
		f := bill.Fixed{ID: id, Description: l.Cell(columns[0]).Raw, Unit: measure.Unit(l.Cell(columns[2]).Raw), Quantity: l.Cell(columns[1]).Value}
		if columns[3] > 0 {
			f.Standing = l.Cell(columns[3]).Raw
		}
		switch {
		case s.Name == "Sums":
			f.Unit = measure.Sums
		case s.Name == "Dayworks" && l.Cell(2).Kind == grid.Number:
			f.Unit = measure.Hour
		case s.Name == "Dayworks":
			f.Unit, f.Quantity = measure.Sums, l.Cell(4).Value
		}
		if mark := l.Cell(columns[4] + 1).Raw; f.Mark() != mark {
			t.Errorf("%s row %d: the mark is %s, and what stands there has %s", s.Name, l.Row, mark, f.Mark())
		}
		out = append(out, f)
	}
	return out
}
