package templates

import (
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// yardToMark is a workbook with a title above its headings, a Job whose first row is none
// of its own, and a sheet Problems that is the yard's.
func yardToMark() grid.Workbook {
	text := func(col int, s string) grid.Datum { return grid.Datum{Col: col, Kind: grid.Text, Raw: s} }
	return grid.Workbook{Name: "yard.xlsx", Sheets: []grid.Page{
		{Name: "Job", Rows: []grid.Line{
			{Row: 1, Cells: []grid.Datum{text(1, "The Creek yard")}},
			{Row: 3, Cells: []grid.Datum{text(2, "Vessel"), text(3, "Speedwell")}},
		}},
		{Name: "Sections", Rows: []grid.Line{
			{Row: 2, Cells: []grid.Datum{text(1, "of the bill")}},
			{Row: 4, Cells: []grid.Datum{text(2, "Section"), text(3, "Title")}},
			{Row: 5, Cells: []grid.Datum{text(3, "Planking")}},
		}},
		{Name: "problems", Rows: []grid.Line{{Row: 1, Cells: []grid.Datum{text(1, "of the yard's own")}}}},
		{Name: "Bare"},
		{Name: "Yard's own", Rows: []grid.Line{{Row: 7, Cells: []grid.Datum{text(4, "x")}}}},
	}}
}

func TestProblemsAreMarkedWhereTheyAreSeen(t *testing.T) {
	at := func(sheet string, row, col int) origin.Cell {
		return origin.Cell{Book: "yard.xlsx", Sheet: sheet, Row: row, Col: col}
	}
	for _, c := range []struct {
		name string
		at   origin.Cell
		want string // the cell that is marked, blank for none
	}{
		{"a cell, where it is", at("Sections", 5, 2), "Sections!B5"},
		{"a row, on the first cell that holds anything", at("Sections", 5, 0), "Sections!C5"},
		{"a row that is blank, on its first cell", at("Sections", 9, 0), "Sections!A9"},
		{"a sheet, on the first of its headings", at("Sections", 0, 0), "Sections!B4"},
		{"a sheet whose headings run down, on the first of them", at("Job", 0, 0), "Job!B3"},
		{"a sheet of the yard's own, on its first cell", at("Yard's own", 0, 0), "Yard's own!D7"},
		{"a sheet that is blank, on its first cell", at("Bare", 0, 0), "Bare!A1"},
		{"a sheet that is not there, nowhere", at("Members", 0, 0), ""},
		{"a workbook, nowhere", origin.Cell{Book: "yard.xlsx"}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			m := Marked(yardToMark(), "yard.xlsx", problem.List{{Code: problem.LengthForm, At: c.at, Text: `"6-3" is ambiguous`}})
			got := ""
			for _, k := range m.Cells {
				got += fmt.Sprintf("%s!%s", k.Sheet, origin.Cell{Row: k.Row, Col: k.Col}.Address())
			}
			if got != c.want {
				t.Errorf("marked is %q, not %q", got, c.want)
			}
			row := m.List.Rows[len(m.List.Rows)-1].Cells
			link := ""
			if c.want != "" {
				sheet, cell, _ := strings.Cut(c.want, "!")
				link = "'" + strings.ReplaceAll(sheet, "'", "''") + "'!" + cell
			}
			if row[0].Text != c.at.Sheet || row[1].Link != link || row[3].Text != `"6-3" is ambiguous` {
				t.Errorf("the list says %q, linked to %q", row[0].Text, row[1].Link)
			}
		})
	}
}

func TestANoteTellsEveryProblemOfItsCell(t *testing.T) {
	at := origin.Cell{Book: "yard.xlsx", Sheet: "Sections", Row: 5, Col: 3}
	found := problem.List{
		{Code: problem.OldPrice, At: at, Text: "the price is old"},
		{Code: problem.KeyUnknown, At: at, Text: "\"a\x01b\tc\" is not in the sheet \"Timber\"", Near: "abc", Example: "oak"},
	}
	m := Marked(yardToMark(), "yard.xlsx", found)
	want := []grid.Mark{{Sheet: "Sections", Row: 5, Col: 3, Fill: "F68B78", Note: "Remark: the price is old\n" + problem.OldPrice.Cure() + " [old-price]\n\n" +
		"Error: \"a b c\" is not in the sheet \"Timber\"; did you mean \"abc\"?, such as oak\n" + problem.KeyUnknown.Cure() + " [" + string(problem.KeyUnknown) + "]"}}
	if d := cmp.Diff(want, m.Cells); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if m.List.Name != "Problems 2" || m.List.Rows[2].Cells[0].Text != "Errors: 1    Warnings: 0    Remarks: 1" {
		t.Errorf("the list is %q, with %q", m.List.Name, m.List.Rows[2].Cells[0].Text)
	}
	for range 20 {
		found = append(found, problem.Problem{Code: problem.OldPrice, At: at, Text: strings.Repeat("long ", 1000)})
	}
	note := Marked(yardToMark(), "yard.xlsx", found).Cells[0].Note
	if !strings.HasSuffix(note, "\n\nand 12 more, in the sheet \"Problems 2\"") || len(note) > 20_000 {
		t.Errorf("the note of %d bytes ends %q", len(note), note[max(0, len(note)-60):])
	}
}

// Of marks that a merge brings together the first gives the colour: the gravest.
func TestTheGravestMarksComeFirst(t *testing.T) {
	at := origin.Cell{Book: "yard.xlsx", Sheet: "Sections", Row: 5, Col: 1}
	m := Marked(yardToMark(), "yard.xlsx", problem.List{
		{Code: problem.OldPrice, At: at}, {Code: problem.PercentDoubt, At: at.In(2)}, {Code: problem.LengthForm, At: at.In(3)},
	})
	var fills []string
	for _, k := range m.Cells {
		fills = append(fills, k.Fill)
	}
	if d := cmp.Diff([]string{"F68B78", "FFD58A", "FFF3C4"}, fills); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestAMarkedCopyIsKnownAgain(t *testing.T) {
	m := Marked(yardToMark(), "the yard's.xlsx", nil)
	page := grid.Page{Name: "renamed"}
	for i, r := range m.List.Rows {
		if len(r.Cells) > 0 {
			page.Rows = append(page.Rows, grid.Line{Row: i + 1, Cells: []grid.Datum{{Col: 1, Kind: grid.Text, Raw: r.Cells[0].Text}}})
		}
	}
	w := yardToMark()
	if of := MarkedOf(w); of != "" {
		t.Errorf("the yard's own workbook is taken for a marked copy of %q", of)
	}
	w.Sheets = append(w.Sheets, page)
	if of := MarkedOf(w); of != "the yard's.xlsx" {
		t.Errorf("it is taken for a marked copy of %q", of)
	}
	for file, want := range map[string]string{"yard.xlsx": "yard-marked.xlsx", "YARD.v2.XLSM": "YARD.v2-marked.XLSM", "yard": "yard-marked"} {
		if got := MarkedName(file); got != want {
			t.Errorf("the copy of %q is named %q, not %q", file, got, want)
		}
	}
}
