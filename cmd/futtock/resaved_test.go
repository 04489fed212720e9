package main

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"futtock/estimate"
	"futtock/output/sheets"
	"futtock/templates"
	"futtock/templates/xlsx"
)

// A workbook that another spreadsheet program has saved again gives the same
// bill, byte for byte.
func TestAWorkbookSavedByAnotherProgramGivesTheSameBill(t *testing.T) {
	spreadsheet(t)
	path := filepath.Join(t.TempDir(), "yard.xlsx")
	if err := writeDemo(path); err != nil {
		t.Fatal(err)
	}
	own, err := xlsx.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	other := recalculated(t, path)
	other.Name = own.Name
	var bills [2][]byte
	for i, book := range []estimate.Result{priceOne(path, own, nil, nil).result, priceOne(path, other, nil, nil).result} {
		if bills[i], err = xlsx.Write(sheets.Bill(book)); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(bills[0], bills[1]) {
		t.Error("the bills differ")
	}
}

// A blank workbook that another spreadsheet program has saved again still has
// its example rows passed over.
func TestExampleRowsArePassedOverWhenSavedByAnotherProgram(t *testing.T) {
	spreadsheet(t)
	data, err := xlsx.Write(templates.Blank())
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "yard.xlsx")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	j, b, _ := templates.Read(recalculated(t, path), nil)
	if n := len(j.Sections) + len(j.Members) + len(j.Items) + len(b.Norms) + len(b.Stock) + len(b.VAT); n != 0 {
		t.Errorf("%d rows were read of a workbook that has none", n)
	}
}
