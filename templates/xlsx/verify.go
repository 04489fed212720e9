package xlsx

import (
	"bytes"
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// verify reads a written file back and compares every cell with what was to
// be written: kind, value, formula and number format. It is the guard that
// nothing was lost, cut or altered between here and the file. One sheet at a time
// is held, so that a book may be larger than a stranger's file.
func verify(book *grid.Book, data []byte) error {
	kept := &budget{left: maxKept}
	n := 0
	_, err := eachPage(bytes.NewReader(data), int64(len(data)), kept, func(page grid.Page) error {
		if n == len(book.Sheets) {
			return fmt.Errorf("it has more than %d sheets", n)
		}
		s := book.Sheets[n]
		if n++; page.Name != s.Name {
			return fmt.Errorf("sheet %d is named %q, not %q", n, page.Name, s.Name)
		}
		if err := verifySheet(s, page.Rows); err != nil {
			return fmt.Errorf("sheet %q: %w", s.Name, err)
		}
		kept.left = maxKept
		return nil
	})
	if err == nil && n < len(book.Sheets) {
		err = fmt.Errorf("it has %d sheets, not %d", n, len(book.Sheets))
	}
	return err
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
