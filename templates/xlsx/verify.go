package xlsx

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// verify reads a written file back and compares every cell with what was to
// be written: kind, value, formula and number format. It is the guard that
// nothing was lost, cut or altered between here and the file.
func verify(book *grid.Book, data []byte) error {
	got, err := Read(book.Title, data)
	if err != nil {
		return err
	}
	if len(got.Sheets) != len(book.Sheets) {
		return fmt.Errorf("it has %d sheets, not %d", len(got.Sheets), len(book.Sheets))
	}
	for i, s := range book.Sheets {
		page := got.Sheets[i]
		if page.Name != s.Name {
			return fmt.Errorf("sheet %d is named %q, not %q", i+1, page.Name, s.Name)
		}
		if err := verifySheet(s, page.Rows); err != nil {
			return fmt.Errorf("sheet %q: %w", s.Name, err)
		}
	}
	return nil
}

// verifySheet compares the cells of one sheet.
func verifySheet(s *grid.Sheet, lines []grid.Line) error {
	next := 0 // line not yet met
	for i, row := range s.Rows {
		var cells []grid.Datum
		if next < len(lines) && lines[next].Row == i+1 {
			cells = lines[next].Cells
			next++
		}
		for j, c := range row.Cells {
			want := expected(c)
			if want.IsBlank() {
				continue
			}
			want.Col = j + 1
			if len(cells) == 0 {
				return fmt.Errorf("cell %s is lost", cellName(j+1, i+1))
			}
			got := cells[0]
			cells = cells[1:]
			if got.Col != want.Col || got.Kind != want.Kind || got.Formula != want.Formula || got.Format != want.Format ||
				got.Kind != grid.Number && got.Raw != want.Raw || !got.Value.Equal(want.Value) {
				return fmt.Errorf("cell %s holds %s, not %s", cellName(j+1, i+1), show(got), show(want))
			}
		}
		if len(cells) > 0 {
			return fmt.Errorf("cell %s holds %s, and should be blank", cellName(cells[0].Col, i+1), show(cells[0]))
		}
	}
	if next < len(lines) {
		return fmt.Errorf("row %d should not be there", lines[next].Row)
	}
	return nil
}

// expected is a cell as it should be read back.
func expected(c grid.Cell) grid.Datum {
	d := grid.Datum{Kind: c.Kind, Formula: c.Formula, Format: dressed(c).Format}
	switch c.Kind {
	case grid.Number:
		d.Value = significant(c.Number)
	case grid.Date:
		d.Kind, d.Value = grid.Number, decimal.NewFromInt(int64(serial(c.Day)))
	case grid.Bool:
		d.Raw = "0"
		if c.Bool {
			d.Raw = "1"
		}
	case grid.Text:
		d.Raw = c.Text
		if c.Text == "" && c.Formula == "" {
			d.Kind = grid.Blank
		}
	}
	if d.Format == "General" {
		d.Format = ""
	}
	return d
}

// show is a cell in a message.
func show(d grid.Datum) string {
	text := fmt.Sprintf("%q", clip(d.Raw))
	if d.Kind == grid.Number {
		text = d.Value.String()
	}
	if d.Formula != "" {
		text += " of =" + clip(d.Formula)
	}
	return fmt.Sprintf("%s (kind %d, format %q)", text, d.Kind, d.Format)
}
