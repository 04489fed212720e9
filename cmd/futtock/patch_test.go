package main

import (
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"futtock/output"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// twiceAsDear is the changes that make every material of the demonstration cost
// twice its latest price: by a new dated row for each, or in the rows that are
// there.
func twiceAsDear(t *testing.T, book grid.Workbook) (rows, cells []grid.Change) {
	t.Helper()
	for _, s := range book.Sheets {
		if s.Name != "Materials" {
			continue
		}
		columns := map[string]int{}
		head := 0
		for i, l := range s.Rows {
			if head = i; l.Cell(1).Raw == "Material" {
				for _, d := range l.Cells {
					columns[d.Raw] = d.Col
				}
				break
			}
		}
		data := s.Rows[head+1:]
		price, from, unit := columns["Price"], columns["From"], columns["Unit"]
		latest := map[string]grid.Line{}
		for _, l := range data {
			if was, ok := latest[l.Cell(1).Raw]; !ok || l.Cell(from).Value.GreaterThan(was.Cell(from).Value) {
				latest[l.Cell(1).Raw] = l
			}
		}
		two := decimal.NewFromInt(2)
		for _, l := range data {
			last := latest[l.Cell(1).Raw]
			twice := last.Cell(price).Value.Mul(two)
			cells = append(cells, grid.Change{Sheet: s.Name, Row: l.Row, Put: []grid.Put{grid.PutNumber(price, twice)}})
			if last.Row == l.Row {
				put := []grid.Put{
					grid.PutText(1, l.Cell(1).Raw), grid.PutText(unit, l.Cell(unit).Raw), grid.PutNumber(price, twice),
					grid.PutDay(from, time.Date(2026, 9, 1, 0, 0, 0, 0, time.UTC)),
				}
				if pack := columns["Pack"]; l.Cell(pack).Kind == grid.Number {
					put = append(put, grid.PutNumber(pack, l.Cell(pack).Value))
				}
				rows = append(rows, grid.Change{Sheet: s.Name, Row: data[len(data)-1].Row, New: true, Put: put})
			}
		}
	}
	if len(rows) < 5 || len(cells) <= len(rows) {
		t.Fatalf("%d materials in %d rows: the demonstration is not as thought", len(rows), len(cells))
	}
	return rows, cells
}

// A workbook with new prices put in is priced at them, whether they stand in
// rows of their own or in the place of the old.
func TestTheNextPriceReadsWhatIsPutIntoAWorkbook(t *testing.T) {
	if testing.Short() {
		t.Skip("the demonstration is priced three times")
	}
	path := filepath.Join(t.TempDir(), "yard.xlsx")
	if err := writeDemo(path); err != nil {
		t.Fatal(err)
	}
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	book, err := xlsx.Read("yard.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	rows, cells := twiceAsDear(t, book)
	totals := map[string]string{}
	for name, changes := range map[string][]grid.Change{"as it was": nil, "new rows": rows, "new cells": cells} {
		next, err := xlsx.Patch(data, changes, func(string, int, int) bool { return true })
		if err != nil {
			t.Fatal(err)
		}
		was, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := output.Replace(path, was, next); err != nil {
			t.Fatal(err)
		}
		patched, err := xlsx.Open(path)
		p := priceOne(path, patched, err, nil)
		if p.err != nil || p.problems.HasErrors() {
			t.Fatalf("%s: %v %v", name, p.err, p.problems)
		}
		totals[name] = p.result.Bill.Total.String()
	}
	if totals["new rows"] != totals["new cells"] || totals["new rows"] == totals["as it was"] {
		t.Errorf("the totals are %v", totals)
	}
}
