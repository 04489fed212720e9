package sheets_test

import (
	"strings"
	"testing"

	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/rates/origin"
	"futtock/templates/grid"
)

func TestWhatASpreadsheetHasNoRoomForIsTold(t *testing.T) {
	at := origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: 7, Col: 1}
	j := job.Job{Book: "yard.xlsx", Members: []job.Member{{Work: job.Work{Ref: "PL1", At: at}}}}
	row := func(cells ...grid.Cell) grid.Row { return grid.Row{Cells: cells} }
	text := func(s string) grid.Cell { return grid.Textual(s, grid.Style{}) }
	formula := func(n int) grid.Cell { return grid.Cell{Kind: grid.Number, Formula: strings.Repeat("1", n)} }
	linked := make([]grid.Cell, 10_000)
	for i := range linked {
		linked[i].Link = "'Bill'!A1"
	}
	for _, c := range []struct {
		name string
		rows []grid.Row
		want string // "" where there is room
		at   origin.Cell
	}{
		{"a text that just goes in", []grid.Row{row(text("PL1"), text(strings.Repeat("a", 32_767)))}, "", origin.Cell{}},
		{"one that does not, twice", []grid.Row{row(text("pl1"), text(strings.Repeat("a", 32_768))), row(text("PL1"), text(strings.Repeat("a", 40_000)))},
			`the text of B1 of the sheet "S" of the bill would be 32,768 characters long, and a cell has room for 32,767`, at},
		{"letters of several bytes", []grid.Row{row(text(strings.Repeat("船", 32_767)))}, "", origin.Cell{}},
		{"pictures that count twice", []grid.Row{row(text(strings.Repeat("🚢", 16_384)))},
			`the text of A1 of the sheet "S" of the bill would be 32,768 characters long, and a cell has room for 32,767`, origin.Cell{Book: "yard.xlsx"}},
		{"a long formula", []grid.Row{row(text("PL1"), formula(8_193))},
			`the formula of B1 of the sheet "S" of the bill would be 8,193 characters long, and a cell has room for 8,192`, at},
		{"rows", make([]grid.Row, 1_048_577), `the sheet "S" of the bill would have 1,048,577 rows, and a sheet has room for 1,048,576`, origin.Cell{Book: "yard.xlsx"}},
		{"links", []grid.Row{row(linked...), row(linked...), row(linked...), row(linked...), row(linked...), row(linked...), row(linked...)},
			`the sheet "S" of the bill would have 70,000 links, and a sheet has room for 65,529`, origin.Cell{Book: "yard.xlsx"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			found := sheets.Overflow(j, "bill", &grid.Book{Sheets: []*grid.Sheet{{Name: "S", Rows: c.rows}}})
			switch {
			case c.want == "" && len(found) > 0:
				t.Errorf("told: %v", found)
			case c.want != "" && (len(found) != 1 || found[0].Text != c.want || found[0].At != c.at):
				t.Errorf("told: %v, want %q at %v", found, c.want, c.at)
			}
		})
	}
}
