package xlsx

import (
	"errors"
	"strings"
	"testing"

	"futtock/templates/grid"
)

// sane fails unless a reading is either a refusal or a workbook as grid
// promises it.
func sane(t *testing.T, book grid.Workbook, err error) {
	t.Helper()
	if err != nil {
		var refused *Refused
		if !errors.As(err, &refused) || !strings.HasPrefix(err.Error(), "yard.xlsx ") {
			t.Fatalf("not a refusal: %v", err)
		}
		return
	}
	for _, page := range book.Sheets {
		row := 0
		for _, l := range page.Rows {
			if l.Row <= row || l.Row > lastRow || len(l.Cells) == 0 {
				t.Fatalf("row %d after %d with %d cells", l.Row, row, len(l.Cells))
			}
			row = l.Row
			col := 0
			for _, d := range l.Cells {
				if d.Col <= col || d.Col > lastColumn || d.IsBlank() {
					t.Fatalf("column %d after %d in row %d: %+v", d.Col, col, row, d)
				}
				col = d.Col
				if d.Kind == grid.Number && d.Value.NumDigits() > 15 {
					t.Fatalf("more than 15 digits: %s", d.Value)
				}
			}
		}
	}
}

func FuzzReadNeverPanicsOnAnyBytes(f *testing.F) {
	data, err := Write(sampleBook())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data)
	f.Add(data[:len(data)/2])
	f.Add(zipped(f, plainParts(`<row r="1"><c r="A1"><v>1</v></c></row>`)))
	f.Add([]byte("PK\x03\x04"))
	f.Add(oldOffice("Workbook")[:70_000])
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, data []byte) {
		book, err := Read("yard.xlsx", data)
		sane(t, book, err)
	})
}

// Bytes at random seldom get past the checksums, so the parts are fuzzed too.
func FuzzReadNeverPanicsOnAnyParts(f *testing.F) {
	p := plainParts(`<row r="1" hidden="1"><c r="A1" s="1" t="s"><v>0</v></c><c t="inlineStr"><is><r><t>a_x000D_</t></r></is></c>` +
		`<c r="D1"><f t="shared" si="0" ref="D1:D2">A1*2</f><v>1.5E-3</v></c><c r="E1"><f t="array" ref="E1:F9">A1</f></c></row>` +
		`<row><c t="e"><v>#REF!</v></c><c t="b"><v>1</v></c><c t="d"><v>2027-01-01</v></c><c t="str"><f>A1</f><v>x</v></c></row>`)
	f.Add(p["xl/worksheets/sheet1.xml"], p["xl/sharedStrings.xml"], p["xl/styles.xml"], p["xl/workbook.xml"], p["xl/_rels/workbook.xml.rels"])
	f.Add(`<a><b/></a>`, `<sst/>`, "", "<!DOCTYPE a>", `<Relationships xmlns="`+nsPack+`"/>`)
	f.Fuzz(func(t *testing.T, sheet, strs, styles, workbook, rels string) {
		p := plainParts("")
		p["xl/worksheets/sheet1.xml"], p["xl/sharedStrings.xml"], p["xl/styles.xml"] = sheet, strs, styles
		p["xl/workbook.xml"], p["xl/_rels/workbook.xml.rels"] = workbook, rels
		book, err := Read("yard.xlsx", zipped(t, p))
		sane(t, book, err)
	})
}
