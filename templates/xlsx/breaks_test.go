package xlsx

import (
	"slices"
	"strings"
	"testing"

	"futtock/templates/grid"
)

// A landscape page of A4 has 595.28 - 108 = 487.28 points for rows, and 3 % of
// it are left free: 472.66, which is 33 rows of 14.25 and 2.41 over. Letter has
// 612 - 108 = 504, so A4 rules. With one heading row repeated it is 32.
func TestPagesEndWhereNeitherPaperPartsWhatKeepsTogether(t *testing.T) {
	sheet := func(rows int, keep ...int) *grid.Sheet {
		s := &grid.Sheet{Columns: []grid.Width{{Chars: 20}}, Print: grid.Print{FitWidth: true, Landscape: true, Repeat: "$1:$1", Area: "$A$1:$A$99"}}
		for range rows {
			s.Rows = append(s.Rows, grid.Row{Cells: []grid.Cell{grid.Textual("x", grid.Style{})}})
		}
		for _, k := range keep {
			s.Rows[k-1].Keep = true
		}
		return s
	}
	wide := sheet(60, 1)
	wide.Columns[0].Chars = 200 // 1,405 dots are 1,053.75 points; A4 has 769.89 across, 73 %: 487.28 / 0.73 x 0.97 = 647.48, 45 rows
	asked := sheet(40, 1)
	asked.Print.Breaks = []int{11}
	empty := sheet(40, 1)
	empty.Rows[33] = grid.Row{} // row 34 would begin the second page, and has nothing in it
	grows := sheet(40, 1)
	grows.Rows[5].Grows = true // 6 % left free: 458.04 points, 32 rows
	pictures := sheet(12, 1, 2, 5, 8)
	for row, high := range map[int]float64{3: 250, 6: 200, 9: 100} {
		pictures.Rows[row-1].Height = high
	}
	near := sheet(40, 1)
	near.Close = true // 472.66 / 12.75 is 37 rows
	full := sheet(40, 1)
	full.Print.Full = true // 595.28 - 2 x 0.6 x 72 = 508.88 points, 3 % free 493.61: 34 rows
	standing := sheet(60, 1)
	standing.Print.Landscape = false // Letter rules: 792 - 108 = 684, 3 % free 663.48: 46 rows
	own := sheet(60, 1)
	own.Print.Landscape, own.Print.OwnPaper = false, true // A4: 841.89 - 108 = 733.89, 3 % free 711.87: 49 rows
	for _, c := range []struct {
		name  string
		sheet *grid.Sheet
		want  []int
	}{
		{"rows that stand close are more to a page", near, []int{38}},
		{"so are rows under a narrower head", full, []int{35}},
		{"standing up Letter holds the fewest", standing, []int{47}},
		{"which does not count where the sheet's own paper alone does", own, []int{50}},
		{"nothing keeps together: pages end where they are full", sheet(99), nil},
		{"a page holds 33 rows, and then 32 and the heading", sheet(70, 1), []int{34, 66}},
		{"a heading that would be last goes with what it heads", sheet(40, 33), []int{33}},
		{"so do two rows kept with a third", sheet(40, 32, 33), []int{32}},
		{"a heading that has its line on the page stays", sheet(40, 32), []int{34}},
		{"a wider sheet is printed smaller", wide, []int{46}},
		{"a page that is asked for begins where it is asked for", asked, []int{11}},
		{"a row with nothing in it begins no page", empty, []int{35}},
		{"a picture goes with the words above it", pictures, []int{5}},
		{"where rows grow there is room left for it", grows, []int{33}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := lay(c.sheet).breaks(); !slices.Equal(got, c.want) {
				t.Errorf("pages begin at %v, want %v", got, c.want)
			}
		})
	}
}

// The format takes 1,026 breaks on a sheet, so no more than a thousand are written.
func TestALongSheetHasNoMoreBreaksThanAFileTakes(t *testing.T) {
	s := &grid.Sheet{Columns: []grid.Width{{Chars: 20}}, Print: grid.Print{FitWidth: true}, Rows: make([]grid.Row, 70_000)}
	for i := range s.Rows {
		s.Rows[i].Cells = []grid.Cell{grid.Textual("x", grid.Style{})}
	}
	s.Rows[0].Keep = true
	if got := len(lay(s).breaks()); got != 1000 {
		t.Errorf("%d breaks", got)
	}
}

// A row that grows has the height it needs and none that is fixed, so that a
// program makes it higher when words are typed in; other rows keep theirs.
func TestARowThatGrowsHasNoFixedHeight(t *testing.T) {
	long := grid.Style{Wrap: true}
	s := &grid.Sheet{Name: "S", Columns: []grid.Width{{Chars: 10}}, Rows: []grid.Row{
		{Cells: []grid.Cell{grid.Textual("two lines of words", long)}},
		{Cells: []grid.Cell{grid.Textual("two lines of words", long)}, Grows: true},
		{Cells: []grid.Cell{grid.Textual("one", long)}, Grows: true},
	}}
	part := partOf(t, written(t, &grid.Book{Sheets: []*grid.Sheet{s}}), "xl/worksheets/sheet1.xml")
	for _, want := range []string{`<row r="1" ht="27" customHeight="1">`, `<row r="2" ht="27">`, `<row r="3" ht="14.25">`} {
		if !strings.Contains(part, want) {
			t.Errorf("the sheet has no %s", want)
		}
	}
}

// A hint is shown when a cell is chosen, a message when something else is typed.
func TestAHintIsShownWhenACellIsChosen(t *testing.T) {
	b := oneCell(grid.Textual("x", grid.Style{}))
	b.Sheets[0].Lists = []grid.List{{Range: "B1", Source: "A1:A1", Title: "VAT", Prompt: "one of these", Hint: "choose one"}}
	b.Sheets[0].Bounds = []grid.Bound{{Range: "B2", Title: "Weeks", Prompt: "a number"}}
	part := partOf(t, written(t, b), "xl/worksheets/sheet1.xml")
	if !strings.Contains(part, `promptTitle="VAT"`) || !strings.Contains(part, `prompt="choose one"`) || strings.Contains(part, `promptTitle="Weeks"`) {
		t.Errorf("the hints are not as they should be in %s", part)
	}
}
