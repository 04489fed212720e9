package xlsx

import (
	"bytes"
	"cmp"
	"encoding/xml"
	"fmt"
	"slices"

	"futtock/templates/grid"
)

// Mark gives the workbook file with notes and colours put on cells and, before
// all others, the sheet given. Every other byte of its parts is as it was, in the
// way of Patch.
//
// A cell keeps its content, number format, letters, lines and alignment: it gets
// a style like its own with another fill. A cell that is not there is made blank,
// in the style of its row or column. Of cells that are merged the first is marked; on
// a sheet that is all chart there are none.
// Of several marks on one cell the first gives the colour, and the notes follow one
// another. A note that is on the cell already keeps what it says, and the new text
// goes below it; a conversation of many hands (threadedComments) stays as it is,
// and the cell gets the colour only. Notes stand in the comments part of the sheet and
// in its old drawing (ECMA-376 part 1, 18.7; part 4, 19), which both spreadsheet
// programs of the day show. No stored result goes: no cell changes what it holds.
//
// The sheet put first is of cells, widths, panes and links alone. It is the one in view
// when the file is opened.
//
// The error is a *Refused if the file cannot be read, else a *Refusal. Before the bytes
// are handed over they are read back, and all cells and notes compared.
func Mark(data []byte, marks []grid.Mark, first *grid.Sheet) ([]byte, error) {
	before, err := Read("the workbook", data)
	if err != nil {
		return nil, err
	}
	all := func(string, int, int) bool { return true } // every stored result stays true
	m := &marker{
		patcher: &patcher{before: before, read: all, edits: make(map[string][]edit), parts: make(map[string][]byte)},
		first:   first, fresh: make(map[string][]byte), leads: make(map[string][]lead),
	}
	if err := m.unfold(data); err != nil {
		return nil, named("the workbook", err)
	}
	if m.signed() {
		return nil, &Refusal{Why: Sealed, Sheet: m.list.sheets[0].name, Detail: signedDetail}
	}
	steps := []func() error{
		func() error { return m.gather(marks) }, m.openStyles, m.dress, m.notes, m.putFirst, m.closeStyles, m.closeParts,
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return nil, m.asRefusal(err)
		}
	}
	out, err := m.packed(data)
	if err == nil {
		err = m.verify(out)
	}
	if err != nil {
		return nil, m.asRefusal(err)
	}
	return out, nil
}

// marker is one run of Mark. Of its patcher the targets are the marked cells, on
// which nothing is put but a style.
type marker struct {
	*patcher
	first  *grid.Sheet
	on     []*markedSheet // in the order of the sheets
	styles *styleBook
	fresh  map[string][]byte // new parts, by name
	leads  map[string][]lead // new relationships, by the part they are of
	types  []string          // new entries of the content types
	strict bool              // the workbook is of the strict form
}

// markedSheet is a sheet with marks.
type markedSheet struct {
	*scanned
	cells   []*markedCell     // by row and column
	tree    *node             // its elements down to the second level
	written map[[2]int]string // whole notes that marks are in, by row and column
}

// markedCell is a cell with its mark.
type markedCell struct {
	row, col   int
	note, fill string
}

// unfold opens the file.
func (m *marker) unfold(data []byte) error {
	var err error
	if m.pack, err = unpack(bytes.NewReader(data), int64(len(data))); err != nil {
		return err
	}
	if m.list, err = contents(m.pack, &budget{left: maxKept}); err != nil {
		return err
	}
	if m.formats, err = numberFormats(m.pack, m.list.styles, &budget{left: maxKept}); err != nil {
		return err
	}
	return walk(m.pack, m.list.main, func(w *walker, t xml.StartElement) error {
		m.strict = m.strict || w.depth == 1 && t.Name.Space == nsMainStrict
		return nil
	})
}

// gather finds the marked cells on their sheets. Marks off the sheets are a fault of
// ours.
func (m *marker) gather(marks []grid.Mark) error {
	by := make([][]*markedCell, len(m.list.sheets))
	for _, k := range marks {
		i, ok := m.sheetIndex(k.Sheet)
		if !ok || k.Row < 1 || k.Row > lastRow || k.Col < 1 || k.Col > lastColumn || k.Note == "" || k.Fill == "" {
			panic(fmt.Sprintf("a mark on %s!%s with %d bytes of note", k.Sheet, cellName(k.Col, k.Row), len(k.Note)))
		}
		if err := checkText(k.Note); err != nil {
			panic(fmt.Sprintf("a mark on %s!%s: %v", k.Sheet, cellName(k.Col, k.Row), err))
		}
		by[i] = append(by[i], &markedCell{k.Row, k.Col, k.Note, k.Fill})
	}
	for i, cells := range by {
		if len(cells) == 0 {
			continue
		}
		s := m.list.sheets[i]
		part, err := m.part(s.part)
		if err != nil {
			return err
		}
		for j, other := range m.list.sheets {
			if j != i && memberKey(other.part) == memberKey(s.part) {
				return &Refusal{Why: Unsure, Sheet: s.name, Detail: fmt.Sprintf("it shares its cells with the sheet %q", clip(other.name))}
			}
		}
		rows := make(map[int]bool)
		for _, c := range cells {
			rows[c.row] = true
		}
		found, err := scan(m.pack, i, s, part, rising(rows), func(int, int) bool { return true })
		if err != nil {
			return err
		}
		if len(found.merges) > 0 {
			found, err = m.unmerged(found, cells)
		}
		if err != nil {
			return err
		}
		if !found.data.there() {
			continue
		}
		t, err := tree(m.pack, s.part, 2)
		if err != nil {
			return err
		}
		m.on = append(m.on, &markedSheet{scanned: found, cells: gathered(cells), tree: t, written: make(map[[2]int]string)})
	}
	return nil
}

// unmerged moves marks on cells that are merged into another to that one, and scans
// the sheet again for the rows they are in then.
func (m *marker) unmerged(s *scanned, cells []*markedCell) (*scanned, error) {
	rows := make(map[int]bool)
	for _, c := range cells {
		for _, r := range s.merges {
			if r.holds(c.row, c.col) {
				c.row, c.col = r.top, r.left
				break
			}
		}
		rows[c.row] = true
	}
	return scan(m.pack, s.index, s.sheet, s.part, rising(rows), s.keep)
}

// rising is a set of rows in order.
func rising(rows map[int]bool) []int {
	out := make([]int, 0, len(rows))
	for row := range rows {
		out = append(out, row)
	}
	slices.Sort(out)
	return out
}

// gathered is marks by row and column, those on one cell made one.
func gathered(cells []*markedCell) []*markedCell {
	slices.SortStableFunc(cells, func(a, b *markedCell) int { return cmp.Or(a.row-b.row, a.col-b.col) })
	var out []*markedCell
	for _, c := range cells {
		if n := len(out); n > 0 && out[n-1].row == c.row && out[n-1].col == c.col {
			out[n-1].note += "\n\n" + c.note
			continue
		}
		out = append(out, c)
	}
	return out
}

// dress gives the marked cells their colours, and makes those that are not there.
func (m *marker) dress() error {
	for _, s := range m.on {
		var puts []target
		for _, c := range s.cells {
			style, err := m.styles.filled(s.styleAt(c.row, c.col), c.fill)
			if err != nil {
				return err
			}
			puts = append(puts, target{sheet: s.index, row: c.row, col: c.col, put: grid.Put{Col: c.col}, style: style})
		}
		m.targets = append(m.targets, puts...)
		m.opened(s)
		for rest := puts; len(rest) > 0; {
			n := slices.IndexFunc(rest, func(t target) bool { return t.row != rest[0].row })
			if n < 0 {
				n = len(rest)
			}
			if row := s.rows[rest[0].row]; row != nil {
				m.fill(s.scanned, row, rest[:n])
			} else {
				m.bareRow(s, rest[:n])
			}
			rest = rest[n:]
		}
		m.growSize(s.scanned)
		m.closed(s)
	}
	return nil
}

// bareRow puts a row that is not there, with its marked cells.
func (m *marker) bareRow(s *markedSheet, puts []target) {
	prefix, number := prefixOf(s.part, s.data), puts[0].row
	text := fmt.Sprintf(`<%srow r="%d">`, prefix, number)
	for _, t := range puts {
		text += m.newCell(prefix, t)
	}
	at := s.gaps[number]
	m.edit(s.sheet.part, edit{place{at, at}, text + "</" + prefix + "row>"})
}

// opened gives a sheet without any row the place for them, which closed ends.
func (m *marker) opened(s *markedSheet) {
	if selfClosing(s.part, s.data) {
		m.edit(s.sheet.part, edit{place{s.data.to - 2, s.data.to}, ">"})
	}
}

func (m *marker) closed(s *markedSheet) {
	if selfClosing(s.part, s.data) {
		m.edit(s.sheet.part, edit{place{s.data.to, s.data.to}, "</" + prefixOf(s.part, s.data) + "sheetData>"})
	}
}

// asRefusal is an error as a refusal of the file or of the marks.
func (m *marker) asRefusal(err error) error {
	switch err := err.(type) {
	case *Refusal:
		return err
	case *Refused:
		return err
	}
	return &Refusal{Why: Unsure, Sheet: m.list.sheets[0].name, Detail: err.Error()}
}
