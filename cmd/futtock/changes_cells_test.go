package main

import (
	"slices"
	"testing"

	"futtock/estimate/changes"
	"futtock/rates/origin"
	"futtock/templates"
)

// Whatever cell of the demonstration is typed over by another of its column, that cell is told
// of as it stands in both workbooks, or its row as put in and taken out.
func TestEveryCellThatIsTypedOverIsTold(t *testing.T) {
	was, err := demoTables()
	if err != nil {
		t.Fatal(err)
	}
	read := func(name string, tables []templates.Table) changes.Input {
		j, b, _ := templates.Read(templates.TextBook(name, tables), nil)
		return changes.Input{Job: j, Book: b}
	}
	old, typed := read("old.xlsx", was), 0
	const passes = 8 // so that each cell of a pass has a row to itself
	for pass := range passes {
		var over []typedOver
		tables := slices.Clone(was)
		for i, sheet := range was {
			if sheet.Sheet == "Job" {
				continue
			}
			tables[i].Rows = slices.Clone(sheet.Rows)
			taken := map[int]bool{}
			for col := pass; col < len(sheet.Rows[0].Cells); col += passes {
				if c, ok := typeOver(tables[i], col, taken); ok {
					over = append(over, c)
				}
			}
		}
		told := changes.Listed(old, read("new.xlsx", tables))
		for _, c := range over {
			typed++
			if !slices.ContainsFunc(told, c.tells) {
				t.Errorf("%s, row %d, column %d is not told of", c.sheet, c.row, c.col)
			}
		}
	}
	if typed < 120 {
		t.Errorf("only %d columns were typed over", typed)
	}
}

// typedOver is a cell that was typed over.
type typedOver struct {
	sheet    string
	row, col int // from 1
}

// tells reports a change that is of the cell.
func (o typedOver) tells(c changes.Change) bool {
	here := func(at origin.Cell, book string) bool {
		return at.Book == book && at.Row == o.row && at.Sheet == o.sheet
	}
	switch {
	case c.PutIn():
		return here(c.NowAt, "new.xlsx")
	case c.TakenOut(): // a key typed over by that of another row, which goes before it
		return here(c.WasAt, "old.xlsx")
	}
	return here(c.NowAt, "new.xlsx") && here(c.WasAt, "old.xlsx") && c.NowAt.Col == o.col && c.WasAt.Col == o.col
}

// typeOver types the last cell of a column over by another of it that is not blank, in a row that is not
// taken and, where rows bear days, is the last of its key; false where there is none.
func typeOver(s templates.Table, col int, taken map[int]bool) (typedOver, bool) {
	filled := func(r templates.TextRow) bool { return col < len(r.Cells) && r.Cells[col] != "" }
	if s.Rows[0].Cells[col] == "From" && s.Sheet != "Closures" {
		return typedOver{}, false
	}
	for row := len(s.Rows) - 1; row > 0; row-- {
		cells := s.Rows[row].Cells
		if taken[row] || !filled(s.Rows[row]) || row+1 < len(s.Rows) && s.Rows[row+1].Cells[0] == cells[0] {
			continue
		}
		at := slices.IndexFunc(s.Rows[1:], func(r templates.TextRow) bool { return filled(r) && r.Cells[col] != cells[col] })
		if at < 0 {
			continue
		}
		taken[row] = true
		over := slices.Clone(cells)
		over[col] = s.Rows[at+1].Cells[col]
		s.Rows[row].Cells = over
		return typedOver{s.Sheet, row + 1, col + 1}, true
	}
	return typedOver{}, false
}
