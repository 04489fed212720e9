package xlsx

import (
	"fmt"
	"slices"
	"strings"

	"futtock/templates/grid"
)

// put makes the edits of the cells and rows that change.
func (p *patcher) put() error {
	for _, a := range p.adds {
		if err := p.clear(a); err != nil {
			return err
		}
	}
	for i := range p.targets {
		t := &p.targets[i]
		if a := p.additionOf(t); a != nil {
			t.style = p.sheets[t.sheet].styleAt(a.under, t.col)
		} else if err := p.check(t); err != nil {
			return err
		}
	}
	for rest := p.targets; len(rest) > 0; {
		n := slices.IndexFunc(rest, func(t target) bool { return t.sheet != rest[0].sheet || t.row != rest[0].row })
		if n < 0 {
			n = len(rest)
		}
		s := p.sheets[rest[0].sheet]
		if row := s.rows[rest[0].row]; row != nil {
			p.fill(s, row, rest[:n])
		} else {
			p.newRow(s, s.rows[p.additionOf(&rest[0]).under], rest[:n])
		}
		rest = rest[n:]
	}
	return nil
}

// additionOf is the addition in whose rows a target lies, nil for none.
func (p *patcher) additionOf(t *target) *addition {
	for _, a := range p.adds {
		if a.sheet == t.sheet && t.row > a.under && t.row <= a.bottom() {
			return a
		}
	}
	return nil
}

// check finds the style of a cell of a row that is there, and refuses to put
// into what must not be written over.
func (p *patcher) check(t *target) error {
	s := p.sheets[t.sheet]
	refuse := func(why Reason, detail string) error {
		return &Refusal{Why: why, Sheet: s.sheet.name, Cell: cellName(t.col, t.row), Detail: detail}
	}
	if p.was(t.sheet, t.row).Cell(t.col).IsFormula() {
		return refuse(Reckoned, "")
	}
	for _, m := range s.merges {
		if m.holds(t.row, t.col) && (m.top != t.row || m.left != t.col) {
			return &Refusal{
				Why: Occupied, Sheet: s.sheet.name, Cell: cellName(t.col, t.row), Detail: "it is merged into the cell",
				BySheet: s.sheet.name, By: cellName(m.left, m.top),
			}
		}
	}
	row := s.rows[t.row]
	if row == nil {
		return refuse(Absent, "there is no such row")
	}
	if c := row.cell(t.col); c != nil && c.valueKin {
		return refuse(Sealed, "its value is linked to data kept elsewhere in the file")
	}
	t.style = s.styleAt(t.row, t.col)
	return nil
}

// clear makes sure that nothing stands where new rows go.
func (p *patcher) clear(a *addition) error {
	s := p.sheets[a.sheet]
	last := s.rows[a.under]
	if last == nil || len(last.cells) == 0 {
		return &Refusal{Why: Absent, Sheet: s.sheet.name, Detail: fmt.Sprintf("there is no row %d to put a new one under", a.under)}
	}
	a.left, a.right = lastColumn, 1
	for _, row := range a.rows {
		a.left, a.right = min(a.left, row[0].Col), max(a.right, row[len(row)-1].Col)
	}
	blocked := func(row, col int, detail string) error {
		return &Refusal{
			Why: Occupied, Sheet: s.sheet.name, Cell: cellName(a.rows[0][0].Col, a.under+1), Detail: detail,
			BySheet: s.sheet.name, By: cellName(col, row),
		}
	}
	room := span{a.under + 1, 1, a.bottom(), lastColumn}
	for row := room.top; row <= room.bottom; row++ {
		if cells := p.was(a.sheet, row).Cells; len(cells) > 0 {
			return blocked(row, cells[0].Col, "something is written")
		}
		if there := s.rows[row]; there != nil && there.hidden {
			return blocked(row, 1, "a hidden row stands")
		}
	}
	for _, m := range s.merges {
		if m.meets(room) {
			return blocked(max(m.top, room.top), m.left, "cells are merged")
		}
	}
	for _, f := range s.spread {
		if f.area.meets(room) {
			return blocked(max(f.area.top, room.top), f.area.left, "the results of a formula have their place")
		}
	}
	return p.clearOfTables(a, blocked)
}

// clearOfTables makes sure that the table the rows go under can grow, and that
// no other is in its way.
func (p *patcher) clearOfTables(a *addition, blocked func(row, col int, detail string) error) error {
	room := span{a.under + 1, a.left, a.bottom(), a.right}
	for _, b := range p.tables {
		if b.sheet != a.sheet || b.area.left > a.right || b.area.right < a.left {
			continue
		}
		if b.area.bottom == a.under {
			room.left, room.right = min(room.left, b.area.left), max(room.right, b.area.right)
			a.left, a.right = room.left, room.right
		}
		if b.sealed != "" && b.area.top <= a.under && b.area.bottom >= a.under {
			return &Refusal{
				Why: Sealed, Sheet: p.list.sheets[a.sheet].name, Cell: cellName(a.rows[0][0].Col, a.under+1),
				Detail: b.sealed,
			}
		}
	}
	for _, b := range p.tables {
		switch own := b.area.top <= a.under && b.area.bottom >= a.under; {
		case b.sheet != a.sheet || !b.area.meets(room) && (!own || b.area.bottom > a.under || b.area.left > a.right || b.area.right < a.left):
		case !own:
			return blocked(b.area.top, b.area.left, "another table begins")
		case b.totals && b.area.bottom <= a.bottom():
			return blocked(b.area.bottom, b.area.left, "the table has its row of totals")
		}
	}
	return nil
}

// newRow puts a row that is not there yet, in the likeness of the last row of
// data.
func (p *patcher) newRow(s *scanned, last *rowPlace, puts []target) {
	number, prefix := puts[0].row, prefixOf(s.part, last.tag)
	var text strings.Builder
	fmt.Fprintf(&text, `<%srow r="%d"`, prefix, number)
	for _, name := range []string{"s", "customFormat", "ht", "customHeight", "outlineLevel"} {
		if v, _, ok := attrIn(s.part, last.tag, name); ok {
			fmt.Fprintf(&text, ` %s="%s"`, name, s.part[v.from:v.to])
		}
	}
	text.WriteByte('>')
	above := last.cells
	for _, t := range puts {
		for ; len(above) > 0 && above[0].col <= t.col; above = above[1:] {
			if above[0].col < t.col {
				text.WriteString(blankCell(prefix, above[0].col, number, above[0].style))
			}
		}
		text.WriteString(p.newCell(prefix, t))
	}
	for _, c := range above {
		text.WriteString(blankCell(prefix, c.col, number, c.style))
	}
	fmt.Fprintf(&text, "</%srow>", prefix)
	at := s.gaps[number]
	p.edit(s.sheet.part, edit{place{at, at}, text.String()})
}

// fill puts cells of a row that is there.
func (p *patcher) fill(s *scanned, row *rowPlace, puts []target) {
	prefix, closed, opened := prefixOf(s.part, row.tag), selfClosing(s.part, row.tag), false
	p.widen(s, row, puts)
	for _, t := range puts {
		if there := row.cell(t.col); there != nil {
			p.putCell(s, there, t)
			continue
		}
		at := row.tag.to // of a row without cells
		if i := slices.IndexFunc(row.cells, func(c cellPlace) bool { return c.col > t.col }); i >= 0 {
			at = row.cells[i].all.from
		} else if n := len(row.cells); n > 0 {
			at = row.cells[n-1].all.to
		}
		if closed && !opened {
			opened = true
			p.edit(s.sheet.part, edit{place{row.tag.to - 2, row.tag.to}, ">"})
		}
		p.edit(s.sheet.part, edit{place{at, at}, p.newCell(prefix, t)})
	}
	if opened {
		p.edit(s.sheet.part, edit{place{row.tag.to, row.tag.to}, "</" + prefix + "row>"})
	}
}

// widen lets the note of a row on which columns it takes, where there is one,
// take in the cells that are put.
func (p *patcher) widen(s *scanned, row *rowPlace, puts []target) {
	v, _, ok := attrIn(s.part, row.tag, "spans")
	from, to, two := strings.Cut(string(s.part[v.from:v.to]), ":")
	left, right := atoi(from), atoi(to)
	if !ok || !two || left < 1 || right < left {
		return
	}
	first, last := min(left, puts[0].col), max(right, puts[len(puts)-1].col)
	if first < left || last > right {
		p.edit(s.sheet.part, edit{v, fmt.Sprintf("%d:%d", first, last)})
	}
}

// putCell makes the edits that give a cell that is there its content and style.
// It keeps all else it has, and its content where only the style is new.
func (p *patcher) putCell(s *scanned, there *cellPlace, t target) {
	p.setAttr(s, there.tag, "s", t.style)
	if t.put.Kind == grid.Blank {
		return
	}
	c := p.filling(t)
	if c.kind != "" || there.kind != "n" { // a number may say that it is one
		p.setAttr(s, there.tag, "t", c.kind)
	}
	prefix := prefixOf(s.part, there.tag)
	element := c.element(prefix)
	switch {
	case len(there.value) > 0:
		for i, v := range there.value {
			if i > 0 {
				element = ""
			}
			p.edit(s.sheet.part, edit{v, element})
		}
	case selfClosing(s.part, there.tag):
		p.edit(s.sheet.part, edit{place{there.tag.to - 2, there.tag.to}, ">" + element + "</" + prefix + "c>"})
	default:
		p.edit(s.sheet.part, edit{place{there.tag.to, there.tag.to}, element})
	}
}

// setAttr makes the edit that gives an attribute of a tag its value; "" takes
// it away.
func (p *patcher) setAttr(s *scanned, tag place, name, value string) {
	p.edit(s.sheet.part, attrEdits(s.part, tag, name, value)...)
}

// cell is the row's cell in a column, nil where there is none.
func (r *rowPlace) cell(col int) *cellPlace {
	i := slices.IndexFunc(r.cells, func(c cellPlace) bool { return c.col == col })
	if i < 0 {
		return nil
	}
	return &r.cells[i]
}

// styleAt is the style in force at a place: of the cell, else of the row, else
// of the column; "" is the ordinary one.
func (c *scanned) styleAt(row, col int) string {
	if r := c.rows[row]; r != nil {
		if cell := r.cell(col); cell != nil {
			return cell.style
		}
		if v, _, ok := attrIn(c.part, r.tag, "customFormat"); ok && isTrue(string(c.part[v.from:v.to])) {
			if v, _, ok := attrIn(c.part, r.tag, "s"); ok {
				return string(c.part[v.from:v.to])
			}
		}
	}
	for _, k := range c.columns {
		if col >= k.from && col <= k.to {
			return k.style
		}
	}
	return ""
}

// format is the number format of a style.
func (p *patcher) format(style string) string {
	if n := atoi(style); n >= 0 && n < len(p.formats) {
		return p.formats[n]
	}
	return ""
}

// was is a row of a sheet as it was read.
func (p *patcher) was(sheet, row int) grid.Line {
	rows := p.before.Sheets[sheet].Rows
	i, ok := slices.BinarySearchFunc(rows, row, func(l grid.Line, row int) int { return l.Row - row })
	if !ok {
		return grid.Line{Row: row}
	}
	return rows[i]
}
