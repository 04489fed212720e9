package xlsx

import (
	"bytes"
	"strings"
	"testing"

	"futtock/templates/grid"
)

// attempt patches a file that may be anything: whatever it is, the patcher
// neither panics nor gives both an error and bytes, and what it gives can be
// patched again.
func attempt(t *testing.T, data []byte) {
	book, err := Read("yard.xlsx", data)
	sheet, row := "Stock", 6
	if err == nil && len(book.Sheets) > 0 {
		sheet = book.Sheets[0].Name
		if n := len(book.Sheets[0].Rows); n > 0 {
			row = book.Sheets[0].Rows[n-1].Row
		}
	}
	changes := []grid.Change{
		{Sheet: sheet, Row: row, New: true, Put: []grid.Put{grid.PutText(1, "Oak"), grid.PutNumber(5, dec("7.5")), grid.PutDay(3, april)}},
		{Sheet: sheet, Row: row, Put: []grid.Put{grid.PutNumber(5, dec("8"))}},
	}
	for i, list := range [][]grid.Change{changes, changes[:1], changes[1:]} {
		out, err := Patch(data, list, func(_ string, row, col int) bool { return (row+col+i)%3 == 0 })
		switch {
		case err != nil && out != nil:
			t.Fatal("an error and bytes")
		case err == nil && bytes.Equal(out, data):
			t.Fatal("nothing is changed")
		case err == nil:
			again := []grid.Change{{Sheet: sheet, Row: list[0].Row, Put: []grid.Put{grid.PutNumber(5, dec("9"))}}}
			if _, err := Patch(out, again, func(string, int, int) bool { return false }); err != nil {
				t.Fatalf("it cannot be patched again: %v", err)
			}
		}
	}
}

func FuzzPatchNeverPanicsOnAnyBytes(f *testing.F) {
	f.Add(zipped(f, yardParts()))
	f.Add(oddZip(f, yardParts()))
	f.Add(wideZip(yardParts()))
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(attempt)
}

func FuzzPatchNeverPanicsOnAnyParts(f *testing.F) {
	p := yardParts()
	f.Add(p["xl/worksheets/sheet1.xml"], p["xl/worksheets/sheet5.xml"], p["xl/worksheets/sheet7.xml"], p["xl/tables/table1.xml"], p["xl/workbook.xml"])
	f.Add(`<worksheet xmlns="`+nsMain+`"><sheetData><row r="6"><c r="A6"><f>Sheet1:Stock!A:B+T[[#All],['#]]+A1:INDEX(B:B,2)+1:2#</f></c></row></sheetData></worksheet>`, "<a/>", "<a/>", "<table/>", "<workbook/>")
	f.Fuzz(func(t *testing.T, one, five, seven, table, workbook string) {
		p := yardParts()
		p["xl/worksheets/sheet1.xml"], p["xl/worksheets/sheet5.xml"], p["xl/worksheets/sheet7.xml"] = one, five, seven
		p["xl/tables/table1.xml"], p["xl/workbook.xml"] = table, workbook
		attempt(t, wideZip(p))
	})
}

// Formulas come from the yard: whatever they are, they are gone through to the
// end, and nothing they name is beyond the sheet.
func FuzzFormulasAreGoneThroughToTheEnd(f *testing.F) {
	for _, s := range []string{
		`SUM($A$1:B2,'Yard''s own'!C3,[1]X!D4,Stock:Own!E5,T[[#This Row],[a]:[b]])&"A1"`, `A1:INDEX(B:B,2)`, `'`, `"`, `[`, `T[`, `#REF!A1`, `XFE1+A1048577+$A$`, `1:3`, `$1:$3`, `'[0]'!x`, `!A1`,
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		r := readsOf(s, 0, func(name string) (int, bool) { return len(name), len(name) < 5 })
		for _, a := range r.areas {
			for _, by := range []int{0, 1, -7, lastRow - 1} {
				if b := a.shifted(by, by); b.top < 1 || b.left < 1 || b.bottom > lastRow || b.right > lastColumn || b.top > b.bottom || b.left > b.right {
					t.Fatalf("%v shifted by %d is %v", a, by, b)
				}
			}
		}
		for _, within := range r.tables {
			for _, item := range itemsOf(within.within) {
				if len(item) > len(s) || strings.ContainsRune(within.table, '[') {
					t.Fatalf("%q out of %q", item, s)
				}
			}
		}
	})
}
