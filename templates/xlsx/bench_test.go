package xlsx

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// wideBook is a book of 20 columns: 5 texts, 11 numbers, 4 formulas.
func wideBook(rows int) *grid.Book {
	s := &grid.Sheet{Name: "Members"}
	money := grid.Style{Format: "#,##0.00"}
	for i := range rows {
		cells := make([]grid.Cell, 0, 20)
		for j := range 5 {
			cells = append(cells, grid.Textual(fmt.Sprintf("member %d of frame %d", j, i), grid.Style{}))
		}
		for j := range 11 {
			cells = append(cells, grid.Numeric(decimal.New(int64(i*100+j), -2), money))
		}
		for j := range 4 {
			sum := decimal.New(int64(i*200+2*j+1), -2)
			cells = append(cells, grid.Reckoned(fmt.Sprintf("%s%d+%s%d", columnName(6+j), i+1, columnName(7+j), i+1), sum, money))
		}
		s.Rows = append(s.Rows, grid.Row{Cells: cells})
	}
	return &grid.Book{Title: "bench", Sheets: []*grid.Sheet{s}}
}

func BenchmarkRead(b *testing.B) {
	data, err := Write(wideBook(10_000))
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Read("bench.xlsx", data); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkWrite(b *testing.B) {
	book := wideBook(10_000)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Write(book); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkPatch(b *testing.B) {
	data, err := Write(wideBook(10_000))
	if err != nil {
		b.Fatal(err)
	}
	change := []grid.Change{{Sheet: "Members", Row: 5_000, Put: []grid.Put{grid.PutNumber(8, decimal.New(725, -2))}}}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := Patch(data, change, func(string, int, int) bool { return false }); err != nil {
			b.Fatal(err)
		}
	}
}
