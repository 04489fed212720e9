package templates

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/rates/origin"
	"futtock/rates/pricelist"
	"futtock/templates/grid"
)

// Only what is read here keeps its stored results: not what the yard reckons
// above, beside or apart from its prices.
func TestCellsAreReadUnderTheHeadingsOfDeclaredSheetsAlone(t *testing.T) {
	w := TextBook("yard.xlsx", []Table{
		ParseTSV("materials", "Prices of the yard\t=SUM(C4:C9) => 12\nin force\n\nMaterial\tUnit\tPrice\tWith tax\nOil paint\tl\t12\t=C5*1.2 => 14.4\n"),
		ParseTSV("job", "Vessel\tSpeedwell\t=1+1 => 2\n"),
		{Sheet: "Mine", Rows: []TextRow{{Cells: []string{"Material", "Price"}}, {Cells: []string{"Oil paint", "12"}}}},
	})
	w.Sheets[0].Rows[0].Cells[1].Kind = grid.Number // words are typed above headings
	read := IsRead(w)
	for _, c := range []struct {
		name, sheet string
		row, col    int
		want        bool
	}{
		{"a price", "Materials", 5, 3, true},
		{"a key", "Materials", 5, 1, true},
		{"a price that is still to come", "Materials", 40, 3, true},
		{"a heading", "Materials", 4, 3, true},
		{"words above, among which headings are looked for", "Materials", 1, 1, true},
		{"a total above", "Materials", 1, 2, false},
		{"a column of the yard's own", "Materials", 5, 4, false},
		{"the Job", "Job", 1, 2, true},
		{"all of the Job", "Job", 1, 3, true},
		{"a sheet of the yard's own", "Mine", 2, 2, false},
		{"a sheet that is not there", "Stock", 2, 2, false},
	} {
		if got := read(c.sheet, c.row, c.col); got != c.want {
			t.Errorf("%s is read: %v", c.name, got)
		}
	}
}

func TestANewRowSaysWhatTheRowSaysThatItFollows(t *testing.T) {
	w := TextBook("yard.xlsx", []Table{ParseTSV("stock",
		"Stock\tMine\tLoss %\tTimber\tForm\tThickness (in)\tPrice\tUnit\tFrom\tSupplier\n"+
			"Oak\tx\t12%\toak\tplank\t2 1/2\t=55*1 => 55\tft3\t2026-01-05\tthe mill\n"+
			"Elm\tx\t\telm\tplank\t3\t40\tft3\t\tthe mill\n")})
	move := pricelist.Move{
		State: pricelist.Up, Sheet: pricelist.Stock, Key: "Oak", Column: "Price", New: decimal.New(575, -1), Supplier: "the other mill",
		Row: origin.Cell{Book: "yard.xlsx", Sheet: "Stock", Row: 2, Col: 1}, From: time.Date(2027, 1, 1, 0, 0, 0, 0, time.UTC),
	}
	same := pricelist.Move{State: pricelist.Down, Sheet: pricelist.Stock, Key: "Elm", Column: "Price", New: decimal.New(39, 0), Row: origin.Cell{Book: "yard.xlsx", Sheet: "Stock", Row: 3, Col: 1}}
	held := pricelist.Move{State: pricelist.Held, Sheet: pricelist.Stock, Key: "Elm", Column: "Price", New: decimal.New(390, 0), Row: same.Row}
	got := PriceChanges(w, []pricelist.Move{move, held, same})
	want := []grid.Change{
		{Sheet: "Stock", Row: 3, New: true, Put: []grid.Put{
			grid.PutText(1, "Oak"), grid.PutText(4, "oak"), grid.PutText(5, "plank"), grid.PutText(6, "2 1/2"), grid.PutText(3, "12 %"), grid.PutText(8, "ft3"),
			grid.PutNumber(7, decimal.New(575, -1)), grid.PutText(10, "the other mill"), grid.PutDay(9, move.From),
		}},
		{Sheet: "Stock", Row: 3, Put: []grid.Put{grid.PutNumber(7, decimal.New(39, 0))}},
	}
	if d := cmp.Diff(want, got, cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) })); d != "" {
		t.Error(d)
	}
}

// A percentage is put as the cells of its column show one.
func TestARateOfTaxIsPutAsItsColumnShowsIt(t *testing.T) {
	for _, c := range []struct {
		name, last string
		want       grid.Put
	}{
		{"shown as a percentage", "0%", grid.PutNumber(4, decimal.New(21, -2))},
		{"a bare number", "5", grid.PutNumber(4, decimal.New(21, 0))},
		{"written out", "'5 %", grid.PutText(4, "21 %")},
	} {
		w := TextBook("yard.xlsx", []Table{ParseTSV("vat", "Code\tCategory\tMeaning\tRate %\nS\tS\tstandard\t20 %\nR\tS\treduced\t"+c.last+"\n")})
		m := pricelist.Move{State: pricelist.Up, Sheet: pricelist.VAT, Key: "R", Column: "Rate %", New: decimal.New(21, 0), Row: origin.Cell{Book: "yard.xlsx", Sheet: "VAT", Row: 3, Col: 1}}
		got := PriceChanges(w, []pricelist.Move{m})
		if d := cmp.Diff([]grid.Change{{Sheet: "VAT", Row: 3, Put: []grid.Put{c.want}}}, got, cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) })); d != "" {
			t.Errorf("%s: %s", c.name, d)
		}
	}
}
