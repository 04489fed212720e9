package origin_test

import (
	"slices"
	"testing"

	"pgregory.net/rapid"

	"futtock/rates/origin"
)

func TestACellIsPrintedWithWhatIsKnownOfIt(t *testing.T) {
	for _, c := range []struct {
		name string
		cell origin.Cell
		want string
	}{
		{"a cell", origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: 14, Col: 4}, "yard.xlsx: Members!D14"},
		{"a whole row", origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: 14}, "yard.xlsx: Members!14"},
		{"a whole sheet", origin.Cell{Book: "yard.xlsx", Sheet: "Members"}, "yard.xlsx: Members"},
		{"a whole workbook", origin.Cell{Book: "yard.xlsx"}, "yard.xlsx"},
		{"a cell of no workbook", origin.Cell{Sheet: "Members", Row: 14, Col: 27}, "Members!AA14"},
		{"no cell at all", origin.Cell{}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.cell.String(); got != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestColumnsAreLettered(t *testing.T) {
	for n, want := range map[int]string{0: "", -1: "", 1: "A", 26: "Z", 27: "AA", 52: "AZ", 702: "ZZ", 703: "AAA", 16384: "XFD"} {
		if got := origin.Column(n); got != want {
			t.Errorf("column %d is %q, want %q", n, got, want)
		}
	}
}

// A column's letters are a number in twenty-six digits without a nought.
func TestEveryColumnHasANameOfItsOwn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.IntRange(1, 1_000_000).Draw(t, "n")
		back := 0
		for _, r := range origin.Column(n) {
			back = back*26 + int(r-'A') + 1
		}
		if back != n {
			t.Fatalf("column %d is %q, which is column %d", n, origin.Column(n), back)
		}
	})
}

func TestCellsAreOrderedAsTheyAreRead(t *testing.T) {
	sorted := []origin.Cell{
		{},
		{Book: "a.xlsx", Sheet: "Items", Row: 9, Col: 9},
		{Book: "a.xlsx", Sheet: "Members", Row: 2, Col: 3},
		{Book: "a.xlsx", Sheet: "Members", Row: 10, Col: 1},
		{Book: "a.xlsx", Sheet: "Members", Row: 10, Col: 2},
		{Book: "b.xlsx"},
	}
	got := slices.Clone(sorted)
	slices.Reverse(got)
	slices.SortFunc(got, origin.Compare)
	if !slices.Equal(got, sorted) {
		t.Errorf("got %v, want %v", got, sorted)
	}
}

func TestAnotherCellOfTheSameRow(t *testing.T) {
	c := origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: 14, Col: 4}
	if got := c.In(1).String(); got != "yard.xlsx: Members!A14" {
		t.Errorf("got %q, want the first cell of the row", got)
	}
	if c.Col != 4 || c.IsZero() || !(origin.Cell{}).IsZero() {
		t.Error("the cell itself has changed, or nil is not nil")
	}
}
