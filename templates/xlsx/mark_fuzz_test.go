package xlsx

import (
	"bytes"
	"testing"

	"futtock/templates/grid"
)

// attemptMark marks a file that may be anything: whatever it is, marking neither panics
// nor gives both an error and bytes, and what it gives can be marked again.
func attemptMark(t *testing.T, data []byte) {
	sheet := "Stock"
	if book, err := Read("yard.xlsx", data); err == nil && len(book.Sheets) > 0 {
		sheet = book.Sheets[0].Name
	} else if err == nil {
		return
	}
	marks := []grid.Mark{
		{Sheet: sheet, Row: 6, Col: 5, Note: "one", Fill: red}, {Sheet: sheet, Row: 4, Col: 1, Note: "two", Fill: amber},
		{Sheet: sheet, Row: 900, Col: 30, Note: "three", Fill: red},
	}
	list := problemList("'Stock'!A1")
	list.Name = "Problems of the yard"
	out, err := Mark(data, marks, list)
	switch {
	case err != nil && out != nil:
		t.Fatal("an error and bytes")
	case err == nil && bytes.Equal(out, data):
		t.Fatal("nothing is changed")
	case err == nil:
		list.Name = "And once more"
		if _, err := Mark(out, marks, list); err != nil {
			t.Fatalf("it cannot be marked again: %v", err)
		}
	}
}

func FuzzMarkNeverPanicsOnAnyBytes(f *testing.F) {
	f.Add(zipped(f, commented(openable(yardParts()))))
	f.Add(oddZip(f, openable(yardParts())))
	f.Add([]byte("PK\x03\x04"))
	f.Fuzz(attemptMark)
}

func FuzzMarkNeverPanicsOnAnyParts(f *testing.F) {
	names := []string{"xl/worksheets/sheet1.xml", "xl/comments1.xml", "xl/drawings/vmlDrawing1.vml", "xl/styles.xml", "xl/workbook.xml", "[Content_Types].xml", "xl/worksheets/_rels/sheet1.xml.rels"}
	p := commented(openable(yardParts()))
	f.Add(p[names[0]], p[names[1]], p[names[2]], p[names[3]], p[names[4]], p[names[5]], p[names[6]])
	f.Add(`<worksheet xmlns="`+nsMain+`"><sheetData/></worksheet>`, `<comments/>`, `<xml/>`, `<styleSheet/>`, p[names[4]], `<Types/>`, p[names[6]])
	f.Fuzz(func(t *testing.T, sheet, notes, drawing, styles, workbook, types, rels string) {
		p := commented(openable(yardParts()))
		for i, part := range []string{sheet, notes, drawing, styles, workbook, types, rels} {
			p[names[i]] = part
		}
		attemptMark(t, wideZip(p))
	})
}
