package xlsx

import (
	"fmt"
	"strings"
	"testing"

	"futtock/templates/grid"
)

// thousands is a workbook of so many rows, with a mark on each.
func thousands(t testing.TB, n int) ([]byte, []grid.Mark) {
	t.Helper()
	var rows strings.Builder
	var marks []grid.Mark
	for i := 1; i <= n; i++ {
		fmt.Fprintf(&rows, `<row r="%d"><c r="A%d"><v>%d</v></c><c r="C%d" s="4"><v>12</v></c></row>`, i+1, i+1, i, i+1)
		marks = append(marks, grid.Mark{Sheet: "Members", Row: i + 1, Col: 3, Fill: red, Note: fmt.Sprintf(
			"Error: \"litr %d\" is not a unit that can stand under \"Unit\"; one of nr, item, pair, set, day, tide, h, wk, m, ft is wanted\nTake one from the list; the message names those that may stand there. [unit-unknown]", i)})
	}
	return zipped(t, openable(plainParts(rows.String()))), marks
}

func BenchmarkMarkOfFiveThousandCells(b *testing.B) {
	data, marks := thousands(b, 5000)
	for b.Loop() {
		if _, err := Mark(data, marks, problemList("Members!C2")); err != nil {
			b.Fatal(err)
		}
	}
}
