package xlsx

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/templates/grid"
)

func TestNotesOnCellsAreRead(t *testing.T) {
	s := &grid.Sheet{Name: "Bill", Rows: []grid.Row{{Cells: []grid.Cell{grid.Textual("Item", grid.Style{})}}},
		Notes: []grid.Note{{Cell: "A1", Text: "first line\nsecond"}, {Cell: "E7", Text: "see <our> letter & terms"}}}
	data, err := Write(&grid.Book{Sheets: []*grid.Sheet{{Name: "Cover"}, s}})
	if err != nil {
		t.Fatal(err)
	}
	w, err := Read("notes.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	want := []grid.Remark{{Row: 1, Col: 1, Text: "first line\nsecond"}, {Row: 7, Col: 5, Text: "see <our> letter & terms"}}
	if d := cmp.Diff(want, w.Sheets[1].Notes); d != "" || len(w.Sheets[0].Notes) > 0 {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestANoteOfAConversationIsWhatWasSaid(t *testing.T) {
	for text, want := range map[string]string{
		"[Threaded comment]\n\nYour version of the program lets you read this.\n\nComment:\n    price is for larch": "price is for larch",
		" price is for larch\n": "price is for larch",
		"Comment: larch":        "Comment: larch",
	} {
		if got := noteText(text); got != want {
			t.Errorf("%q says %q, and %q is right", text, got, want)
		}
	}
}
