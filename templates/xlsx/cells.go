package xlsx

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"futtock/templates/grid"
)

// sheetReader reads the cells of one sheet.
type sheetReader struct {
	sheet   sheetPart
	strs    []string
	formats []string
	kept    *budget

	lines  []grid.Line
	row    int            // the row being read, or last read
	col    int            // the column being read, or last read
	cells  []grid.Datum   // of the row being read
	shared map[int]string // first formulas of filled-down runs, by their number
	arrays []array        // formulas that fill more than one cell, still in force
	found  bool           // the cells of the sheet have been read
}

// letterPaper is the format's number of Letter.
const letterPaper = "1"

// array is a formula whose results fill a range.
type array struct {
	top, left, bottom, right int
	formula                  string
}

// readSheet reads the rows of a sheet that hold anything, and the notes on them.
func readSheet(pack *bundle, s sheetPart, strs, formats []string, kept *budget) (grid.Page, error) {
	r := &sheetReader{sheet: s, strs: strs, formats: formats, kept: kept, shared: make(map[int]string)}
	page := grid.Page{Name: s.name, Hidden: s.hidden}
	noted := false // something is drawn on its cells, as notes are
	drawn := false // a sheet that is all chart, or the dialogue sheet of old programs: it has no cells
	err := walk(pack, s.part, func(w *walker, t xml.StartElement) error {
		if w.depth == 1 {
			drawn = strings.HasSuffix(strings.ToLower(t.Name.Local), "sheet") && t.Name.Local != "worksheet"
			if !drawn && (!isMain(t.Name.Space) || t.Name.Local != "worksheet") {
				return damaged("the part of its sheet %q does not hold cells", clip(s.name))
			}
			return nil
		}
		if w.depth == 2 && isMain(t.Name.Space) {
			noted = noted || t.Name.Local == "legacyDrawing"
			if t.Name.Local == "pageSetup" && attr(t, "paperSize") == letterPaper {
				page.Paper = grid.Letter
			}
		}
		if w.depth != 2 || t.Name.Local != "sheetData" || !isMain(t.Name.Space) || drawn {
			return nil
		}
		if r.found {
			return damaged("its sheet %q holds its cells twice", clip(s.name))
		}
		r.found = true
		return r.data(w)
	})
	if err == nil && !r.found && !drawn {
		err = damaged("its sheet %q has no place for cells", clip(s.name))
	}
	page.Rows = r.lines
	if err == nil && noted {
		page.Notes, err = sheetNotes(pack, s, kept)
	}
	return page, err
}

// data reads the rows. Whatever else stands among them is damage: the rows
// within it would be lost without a word.
func (r *sheetReader) data(w *walker) error {
	for {
		t, err := w.next()
		if err != nil {
			return w.early(err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			if t.Name.Local != "row" || !isMain(t.Name.Space) {
				return damaged("there is a %q among the rows of its sheet %q", clip(t.Name.Local), clip(r.sheet.name))
			}
			if err := r.line(w, t); err != nil {
				return err
			}
		case xml.EndElement:
			if w.depth < 2 {
				return nil
			}
		}
	}
}

// line reads one row. A row without its number follows the one before.
func (r *sheetReader) line(w *walker, t xml.StartElement) error {
	row := r.row + 1
	if s := attr(t, "r"); s != "" {
		n, err := strconv.Atoi(s)
		if err != nil || n < row {
			return damaged("row %q of its sheet %q is out of order", clip(s), clip(r.sheet.name))
		}
		row = n
	}
	if row > lastRow {
		return damaged("its sheet %q has a row %d, and no sheet has more than %d", clip(r.sheet.name), row, lastRow)
	}
	r.row, r.col, r.cells = row, 0, r.cells[:0]
	for {
		n, err := w.next()
		if err != nil {
			return w.early(err)
		}
		switch n := n.(type) {
		case xml.StartElement:
			switch {
			case w.depth > 4 || isMain(n.Name.Space) && n.Name.Local == "extLst":
			case !isMain(n.Name.Space) || n.Name.Local != "c":
				return damaged("there is a %q among the cells of row %d of its sheet %q", clip(n.Name.Local), r.row, clip(r.sheet.name))
			default:
				if err := r.cell(w, n); err != nil {
					return err
				}
			}
		case xml.EndElement:
			if w.depth < 3 {
				return r.endLine(isTrue(attr(t, "hidden")))
			}
		}
	}
}

// endLine keeps the row just read if it holds anything.
func (r *sheetReader) endLine(hidden bool) error {
	live := r.arrays[:0]
	for _, a := range r.arrays {
		if a.bottom > r.row {
			live = append(live, a)
		}
	}
	r.arrays = live
	if len(r.cells) == 0 {
		return nil
	}
	line := grid.Line{Row: r.row, Hidden: hidden, Cells: make([]grid.Datum, len(r.cells))}
	copy(line.Cells, r.cells)
	r.lines = append(r.lines, line)
	return r.kept.keep(80)
}

// stored is a cell as the file has it.
type stored struct {
	kind    string // the t attribute
	style   string
	value   string // of v
	valued  bool   // there is a v
	text    string // of is
	formula string
}

// cell reads one cell and keeps it unless it is blank.
func (r *sheetReader) cell(w *walker, t xml.StartElement) error {
	s := stored{kind: "n"}
	col := r.col + 1
	for _, a := range t.Attr {
		if a.Name.Space != "" {
			continue
		}
		switch a.Name.Local {
		case "t":
			s.kind = a.Value
		case "s":
			s.style = a.Value
		case "r":
			c, row, ok := parseCell(a.Value)
			if !ok || row != r.row || c < col {
				return damaged("cell %q of its sheet %q is out of order or off the sheet", clip(a.Value), clip(r.sheet.name))
			}
			col = c
		}
	}
	if col > lastColumn {
		return damaged("its sheet %q has more than %d columns", clip(r.sheet.name), lastColumn)
	}
	r.col = col
	if err := r.parts(w, &s); err != nil {
		return r.here(err)
	}
	d, err := r.datum(s)
	if err != nil {
		return r.here(err)
	}
	if d.IsBlank() {
		return nil
	}
	cost := 88
	if d.Kind == grid.Number {
		cost += 64
	}
	if s.kind != "s" {
		cost += len(d.Raw)
	}
	if s.formula != "" {
		cost += 16 + len(s.formula)
	}
	r.cells = append(r.cells, d)
	return r.kept.keep(cost)
}

// parts reads what stands within a cell.
func (r *sheetReader) parts(w *walker, s *stored) error {
	for {
		t, err := w.next()
		if err != nil {
			return w.early(err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			if w.depth != 5 {
				continue
			}
			name := t.Name.Local
			if !isMain(t.Name.Space) {
				name = t.Name.Space + " " + name
			}
			switch name {
			case "v":
				s.valued = true
				s.value, err = w.chars()
			case "is":
				s.text, err = w.plain()
			case "f":
				err = r.formula(w, t, s)
			case "extLst":
			default:
				err = damaged("there is a %q in it", clip(t.Name.Local))
			}
			if err != nil {
				return err
			}
		case xml.EndElement:
			if w.depth < 4 {
				return nil
			}
		}
	}
}

// here names the cell in which an error was found.
func (r *sheetReader) here(err error) error {
	return fmt.Errorf("%w (cell %s of sheet %q)", err, cellName(r.col, r.row), clip(r.sheet.name))
}

// parseCell reads a cell name such as AB12.
func parseCell(s string) (col, row int, ok bool) {
	i := 0
	for ; i < len(s) && i < 4 && s[i] >= 'A' && s[i] <= 'Z'; i++ {
		col = col*26 + int(s[i]-'A') + 1
	}
	if i == 0 || i == len(s) || len(s)-i > 7 || s[i] == '0' {
		return 0, 0, false
	}
	for ; i < len(s); i++ {
		if s[i] < '0' || s[i] > '9' {
			return 0, 0, false
		}
		row = row*10 + int(s[i]-'0')
	}
	return col, row, col <= lastColumn && row <= lastRow
}

// cellName is a cell's name such as AB12.
func cellName(col, row int) string {
	return columnName(col) + strconv.Itoa(row)
}

// columnName is a column's letters.
func columnName(col int) string {
	name := ""
	for ; col > 0; col = (col - 1) / 26 {
		name = string(rune('A'+(col-1)%26)) + name
	}
	return name
}
