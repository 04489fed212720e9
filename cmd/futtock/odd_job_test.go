package main

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"futtock/estimate"
	"futtock/output/sheets"
	"futtock/rates/problem"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// clean is the job of testdata/problems/base.txt with sheets in place of its own.
func clean(t testing.TB, sheets ...txtar.File) estimate.Result {
	t.Helper()
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	a, _ := replacedBy(base, &txtar.Archive{Files: sheets}, "")
	return pricedTables(t, tables(a))
}

// A code of VAT with quotes in it is a formula's text, and however a row
// spells it, it is printed and found as the VAT sheet has it.
func TestACodeOfVATIsOneCodeHoweverItIsSpelt(t *testing.T) {
	r := clean(t,
		txtar.File{Name: "vat", Data: []byte("Code\tCategory\tMeaning\tRate %\nS\tS\tstandard rate\t20 %\nZ \"ship\"\tZ\tqualifying ship\t0 %\n")},
		txtar.File{Name: "items", Data: []byte("Ref\tSection\tDescription\tQuantity\tUnit\tBuild-up\tVAT\n5.1\t5\ttwo coats of paint\t6.2\tm2\tPaint\tz  \"SHIP\"\n")},
		txtar.File{Name: "sums", Data: []byte("Ref\tSection\tDescription\tKind\tAmount\tVAT\nS1\t4\tdecay\tquotation\t2500.00\ts\n")})
	if got := r.Bill.Sections[1].Lines[0].VAT; got != `Z "ship"` {
		t.Errorf("the line bears %q, and the sheet has %q", got, `Z "ship"`)
	}
	if got := r.Bill.Sums[0].VAT; got != "S" {
		t.Errorf("the sum bears %q, and the sheet has %q", got, "S")
	}
	for _, book := range []*grid.Book{sheets.Bill(r), sheets.Estimate(r)} {
		for _, d := range cast(book, 4) {
			t.Errorf("%s: %s", book.Title, d)
		}
	}
}

// Three planks of 14' 7" are 43.75 ft, 13.335 m, billed as 13.34 m. The
// workbook keeps 14.5833333333333 ft of each, and comes to the same.
func TestAHalfIsKeptOfALengthThatGoesIntoNoDecimal(t *testing.T) {
	r := clean(t, txtar.File{Name: "members", Data: []byte("Ref\tSection\tMember\tNr\tLength\tSided\tMoulded\tTimber\tTreatment\tBuild-up\tBill unit\n" +
		"4.1\t4\tside plank\t3\t14' 7\"\t2\"\t10\"\tOak\trenew\tPlank\tm\n")})
	if got := r.Priced.Items[0].Quantity.String(); got != "13.34" {
		t.Fatalf("%s m are billed, and three times 14' 7\" is 13.335", got)
	}
	data, err := xlsx.Write(sheets.Estimate(r))
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "planks.xlsx")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	was, err := xlsx.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if _, differ := compareFormulas(was, recalculated(t, path)); len(differ) > 0 {
		t.Error(differ)
	}
}

// An item of no quantity is refused: there is nothing to bill, and it would
// be billed as one.
func TestAnItemOfNoQuantityIsRefused(t *testing.T) {
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	found := raised(t, base, firstRow(t, base, "items", map[string]string{"Quantity": "0"}))
	for _, p := range found {
		if p.Code == problem.OutOfRange && p.At.Sheet == "Items" {
			return
		}
	}
	t.Errorf("nobody minds; found %v", found)
}
