package xlsx

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// verify reads the changed file back and compares every cell with the old
// ones, the changes, and the stored results that were to go.
func (p *patcher) verify(data []byte) error {
	after, err := Read("the changed workbook", data)
	if err != nil {
		return err
	}
	if len(after.Sheets) != len(p.before.Sheets) || after.Date1904 != p.before.Date1904 {
		return fmt.Errorf("it would have %d sheets, not %d", len(after.Sheets), len(p.before.Sheets))
	}
	for i, want := range p.before.Sheets {
		got := after.Sheets[i]
		if got.Name != want.Name || got.Hidden != want.Hidden {
			return fmt.Errorf("the sheet %q would be %q", want.Name, got.Name)
		}
		if err := samePage(p.meant(i), got.Rows); err != nil {
			return fmt.Errorf("on sheet %q %w", want.Name, err)
		}
	}
	return nil
}

// meant are the rows of a sheet as they should be read back.
func (p *patcher) meant(sheet int) []grid.Line {
	name := p.before.Sheets[sheet].Name
	var rows []grid.Line
	for _, l := range p.before.Sheets[sheet].Rows {
		l.Cells = slices.Clone(l.Cells)
		for i := range l.Cells {
			if d := &l.Cells[i]; d.IsFormula() && !p.read(name, l.Row, d.Col) {
				d.Kind, d.Raw, d.Value = grid.Blank, "", decimal.Zero
			}
		}
		rows = append(rows, l)
	}
	for _, t := range p.targets {
		if t.sheet != sheet {
			continue
		}
		d := p.datumOf(t)
		i, there := slices.BinarySearchFunc(rows, t.row, func(l grid.Line, row int) int { return l.Row - row })
		if !there {
			rows = slices.Insert(rows, i, grid.Line{Row: t.row, Hidden: p.hidden(t)})
		}
		cells := &rows[i].Cells
		j, there := slices.BinarySearchFunc(*cells, t.col, func(d grid.Datum, col int) int { return d.Col - col })
		switch {
		case there && d.IsBlank():
			*cells = slices.Delete(*cells, j, j+1)
		case there:
			(*cells)[j] = d
		case !d.IsBlank():
			*cells = slices.Insert(*cells, j, d)
		}
	}
	return slices.DeleteFunc(rows, func(l grid.Line) bool { return len(l.Cells) == 0 })
}

// hidden reports a target in a hidden row.
func (p *patcher) hidden(t target) bool {
	row := p.sheets[t.sheet].rows[t.row]
	return row != nil && row.hidden
}

// datumOf is a target as it should be read back.
func (p *patcher) datumOf(t target) grid.Datum {
	f := p.filling(t)
	d := grid.Datum{Col: t.col, Kind: grid.Text, Raw: f.text, Format: p.format(t.style)}
	if f.kind == "" {
		d.Kind = grid.Number
		d.Value = decimal.RequireFromString(f.text)
	}
	if d.Raw == "" {
		return grid.Datum{Col: t.col}
	}
	return d
}

// samePage says where the rows of a sheet differ.
func samePage(want, got []grid.Line) error {
	for i := range max(len(want), len(got)) {
		switch {
		case i >= len(got):
			return fmt.Errorf("row %d would be lost", want[i].Row)
		case i >= len(want):
			return fmt.Errorf("row %d would be there", got[i].Row)
		case want[i].Row != got[i].Row || want[i].Hidden != got[i].Hidden:
			return fmt.Errorf("row %d would stand in the place of row %d", got[i].Row, want[i].Row)
		case len(want[i].Cells) != len(got[i].Cells):
			return fmt.Errorf("row %d would have %d cells, not %d", got[i].Row, len(got[i].Cells), len(want[i].Cells))
		}
		for j, w := range want[i].Cells {
			g := got[i].Cells[j]
			if g.Col != w.Col || g.Kind != w.Kind || g.Raw != w.Raw || g.Formula != w.Formula || g.Format != w.Format || !g.Value.Equal(w.Value) {
				return fmt.Errorf("cell %s would hold %s, not %s", cellName(g.Col, got[i].Row), show(g), show(w))
			}
		}
	}
	return nil
}
