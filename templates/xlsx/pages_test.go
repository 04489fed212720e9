package xlsx

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/templates/grid"
)

// A page of A4 is 297 mm less twice 3/4 in high, 733.9 points, of which 0.96 are
// filled: 704.5 points are 49 plain rows of 14.25.
func TestRowsKeptTogetherAreNotPartedByAPage(t *testing.T) {
	for _, c := range []struct {
		name     string
		rows     int
		print    grid.Print
		high     map[int]float64 // points of rows with a height of their own
		together [][2]int
		want     []int
	}{
		{"nothing kept together, nothing broken", 200, grid.Print{}, nil, nil, nil},
		{"two of three groups of twenty on a page", 60, grid.Print{}, nil, [][2]int{{1, 20}, {21, 40}, {41, 60}}, []int{41}},
		{"what stands alone is broken too, where the page is full", 110, grid.Print{}, nil, [][2]int{{1, 2}}, []int{50, 99}},
		// 48 rows to a page beside the heading repeated: 2 to 49, then 50 to 97.
		{"under a heading repeated", 110, grid.Print{Repeat: "$1:$1"}, nil, [][2]int{{48, 51}}, []int{48, 96}},
		{"higher than a page, from the top of one and on", 110, grid.Print{}, nil, [][2]int{{11, 110}}, []int{11, 60, 109}},
		{"with a break of its own", 60, grid.Print{Breaks: []int{5}}, nil, [][2]int{{21, 40}, {41, 60}}, []int{5, 41}},
		{"a picture with its words", 12, grid.Print{}, map[int]float64{3: 400, 6: 300, 9: 100}, [][2]int{{2, 3}, {5, 6}, {8, 9}}, []int{5}},
		// Ten columns of 20 figures are 1,450 dots, 1,087.5 points, on 523.3: at 48 % 704.5 are 1,467.8, 103 rows.
		{"made smaller to fit the width", 210, grid.Print{FitWidth: true, Area: "$A$1:$J$210"}, nil, [][2]int{{100, 104}}, []int{100, 203}},
	} {
		s := &grid.Sheet{Name: "S", Print: c.print}
		s.Print.Together = c.together
		for range 10 {
			s.Columns = append(s.Columns, grid.Width{Chars: 20})
		}
		for n := range c.rows {
			s.Rows = append(s.Rows, grid.Row{Cells: []grid.Cell{grid.Textual("x", grid.Style{})}, Height: c.high[n+1]})
		}
		if d := cmp.Diff(c.want, lay(s).breaks()); d != "" {
			t.Errorf("%s: pages begin before rows (-by hand +laid out):\n%s", c.name, d)
		}
	}
}

// The breaks stand in the file, and rows that cannot be kept together are refused.
func TestPageBreaksAreWritten(t *testing.T) {
	book := &grid.Book{Sheets: []*grid.Sheet{{Name: "S", Print: grid.Print{Together: [][2]int{{1, 20}, {21, 60}}}}}}
	for range 60 {
		book.Sheets[0].Rows = append(book.Sheets[0].Rows, grid.Row{Cells: []grid.Cell{grid.Textual("x", grid.Style{})}})
	}
	if xml := partOf(t, written(t, book), "xl/worksheets/sheet1.xml"); !strings.Contains(xml, `<brk id="20"`) || strings.Count(xml, "<brk ") != 1 {
		t.Errorf("no page begins before row 21, or others do: %s", xml[len(xml)-400:])
	}
	for _, rows := range [][][2]int{{{3, 2}}, {{1, 61}}, {{1, 20}, {20, 30}}} {
		book.Sheets[0].Print.Together = rows
		if _, err := Write(book); err == nil || !strings.Contains(err.Error(), "cannot be kept together") {
			t.Errorf("rows %v are kept together: %v", rows, err)
		}
	}
}
