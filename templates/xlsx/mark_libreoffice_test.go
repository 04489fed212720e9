package xlsx

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/templates/grid"
)

// Marked copies are opened and saved again by LibreOffice: of its own workbook, which has
// a note already, and of one made by hand with every sort of note. Every note and every
// colour is still there, and no cell holds anything else.
func TestLibreOfficeShowsMarks(t *testing.T) {
	if testing.Short() {
		t.Skip("LibreOffice is slow")
	}
	own := converted(t, "", map[string][]byte{"yard.fods": []byte(flatYard)})["yard.fods"]
	marks := []grid.Mark{
		{Sheet: "Stock", Row: 2, Col: 3, Note: "Error: \"310\" is dear;\nask again", Fill: red},
		{Sheet: "Stock", Row: 3, Col: 5, Note: "Warning: blank", Fill: amber},
		{Sheet: "Stock", Row: 9, Col: 1, Note: "Remark: no row is here", Fill: amber},
		{Sheet: "Yard's sums", Row: 1, Col: 1, Note: "Remark: no note was on this sheet", Fill: amber},
	}
	fromOwn, err := Mark(own, marks, problemList("'Stock'!C2"))
	if err != nil {
		t.Fatal(err)
	}
	byHand, err := Mark(zipped(t, commented(openable(yardParts()))), []grid.Mark{
		{Sheet: "Stock", Row: 6, Col: 5, Note: "Error: one", Fill: red}, {Sheet: "Stock", Row: 5, Col: 5, Note: "two", Fill: red},
		{Sheet: "Materials", Row: 3, Col: 5, Note: "three", Fill: amber},
	}, problemList("'Stock'!E6"))
	if err != nil {
		t.Fatal(err)
	}
	resaved := converted(t, "", map[string][]byte{"own.xlsx": fromOwn, "byhand.xlsx": byHand})
	want := map[string]string{
		"Stock!C2": "agreed by telephone\n\nError: \"310\" is dear;\nask again", "Stock!E3": "Warning: blank", "Stock!A9": "Remark: no row is here",
		"Yard's sums!A1": "Remark: no note was on this sheet",
	}
	if diff := cmp.Diff(want, trimmed(notesOf(t, resaved["own.xlsx"]))); diff != "" {
		t.Errorf("notes (-want +got):\n%s", diff)
	}
	want = map[string]string{"Stock!E6": "agreed in May\n\nError: one", "Stock!E5": "Clerk:\nby letter\n\ntwo", "Materials!E3": "three"}
	got := trimmed(notesOf(t, resaved["byhand.xlsx"]))
	for cell, text := range want {
		if got[cell] != text {
			t.Errorf("by hand: %s has the note %q, not %q", cell, got[cell], text)
		}
	}
	before, after := shownOf(t, own), shownOf(t, resaved["own.xlsx"])
	for cell, text := range before {
		if after[cell] != text {
			t.Errorf("%s holds %q, not %q", cell, after[cell], text)
		}
	}
	fills := partsOf(t, resaved["own.xlsx"])["xl/styles.xml"]
	for _, colour := range []string{red, amber} {
		if !strings.Contains(fills, "FF"+colour) {
			t.Errorf("the colour %s is lost", colour)
		}
	}
}

// trimmed are notes without the blanks that programs leave at the ends of their lines.
func trimmed(notes map[string]string) map[string]string {
	out := make(map[string]string, len(notes))
	for cell, text := range notes {
		var lines []string
		for line := range strings.SplitSeq(text, "\n") {
			lines = append(lines, strings.TrimRight(line, " "))
		}
		out[cell] = strings.Join(lines, "\n")
	}
	return out
}
