package xlsx

import (
	"encoding/xml"
	"slices"
	"strconv"
	"strings"
)

// scan finds the places of a sheet. Keep tells the formula cells whose stored
// results stay.
func scan(pack *bundle, index int, s sheetPart, part []byte, wanted []int, keep func(row, col int) bool) (*scanned, error) {
	c := &scanned{
		index: index, sheet: s, part: part, wanted: wanted, keep: keep,
		rows: make(map[int]*rowPlace), gaps: make(map[int]int), shared: make(map[int]*formulaText), heights: make(map[int]float64),
	}
	err := walk(pack, s.part, func(w *walker, t xml.StartElement) error {
		name := t.Name.Local
		switch {
		case name == "dataValidation":
			return c.rule(w, t)
		case !isMain(t.Name.Space):
		case w.depth == 2 && name == "dimension":
			c.size = place{w.from, w.to()}
		case w.depth == 2 && name == "autoFilter":
			c.filter = place{w.from, w.to()}
		case w.depth == 2 && name == "sheetData":
			c.data = place{w.from, w.to()}
			return c.lines(w)
		case w.depth == 2 && name == "sheetFormatPr":
			c.wide, c.high = figure(t, "defaultColWidth"), figure(t, "defaultRowHeight")
			if isTrue(attr(t, "zeroHeight")) {
				c.high = hiddenHigh
			}
		case w.depth == 3 && name == "col":
			from, _ := strconv.Atoi(attr(t, "min"))
			to, _ := strconv.Atoi(attr(t, "max"))
			c.columns = append(c.columns, columnStyle{from, to, attr(t, "style"), figure(t, "width"), isTrue(attr(t, "hidden"))})
		case w.depth == 3 && name == "mergeCell":
			if m, ok := parseRange(attr(t, "ref")); ok {
				c.merges = append(c.merges, m)
			}
		}
		return nil
	})
	return c, err
}

// hiddenHigh is how high rows are of which a sheet says that they are hidden
// unless they say otherwise.
const hiddenHigh = -1

// figure is an attribute that is a number, 0 where there is none.
func figure(t xml.StartElement, name string) float64 {
	n, err := strconv.ParseFloat(attr(t, name), 64)
	if err != nil {
		return 0
	}
	return n
}

// lines finds the rows.
func (c *scanned) lines(w *walker) error {
	c.end = w.to()
	for {
		t, err := w.next()
		if err != nil {
			return w.early(err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			if err := c.line(w, t); err != nil {
				return err
			}
		case xml.EndElement:
			if w.depth < 2 {
				c.pass(lastRow + 1)
				return nil
			}
		}
	}
}

// pass notes the wanted rows that are missing before the next one.
func (c *scanned) pass(next int) {
	for len(c.wanted) > 0 && c.wanted[0] < next {
		c.gaps[c.wanted[0]] = c.end
		c.wanted = c.wanted[1:]
	}
}

// line goes through one row. The file has been read before: numbers and order
// of rows and cells are right.
func (c *scanned) line(w *walker, t xml.StartElement) error {
	c.row++
	if n, err := strconv.Atoi(attr(t, "r")); err == nil {
		c.row = n
	}
	c.pass(c.row)
	switch high := figure(t, "ht"); {
	case isTrue(attr(t, "hidden")):
		c.heights[c.row] = 0
	case high > 0:
		c.heights[c.row] = high
	}
	var r *rowPlace
	if len(c.wanted) > 0 && c.wanted[0] == c.row {
		c.wanted = c.wanted[1:]
		r = &rowPlace{tag: place{w.from, w.to()}, hidden: isTrue(attr(t, "hidden"))}
		c.rows[c.row] = r
	}
	from, col := w.from, 0
	for {
		t, err := w.next()
		if err != nil {
			return w.early(err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			if w.depth != 4 || !isMain(t.Name.Space) || t.Name.Local != "c" {
				continue
			}
			cell, err := c.cell(w, t, col)
			if err != nil {
				return err
			}
			col = cell.col
			if r != nil {
				r.cells = append(r.cells, cell)
			}
		case xml.EndElement:
			if w.depth < 3 {
				c.end = w.to()
				if r != nil {
					r.all = place{from, c.end}
				}
				return nil
			}
		}
	}
}

// cell goes through one cell. Last is the column of the one before.
func (c *scanned) cell(w *walker, t xml.StartElement, last int) (cellPlace, error) {
	cell := cellPlace{col: last + 1, tag: place{w.from, w.to()}, style: attr(t, "s"), kind: attr(t, "t")}
	if col, _, ok := parseCell(attr(t, "r")); ok {
		cell.col = col
	}
	cell.valueKin = attr(t, "vm") != "" || attr(t, "cm") != ""
	var own *formulaText
	for {
		t, err := w.next()
		if err != nil {
			return cell, w.early(err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			if w.depth != 5 || !isMain(t.Name.Space) {
				continue
			}
			from := w.from
			switch t.Name.Local {
			case "f":
				own, err = c.formula(w, t, cell.col)
			case "v", "is":
				_, err = w.chars()
				cell.value = append(cell.value, place{from, w.to()})
			}
			if err != nil {
				return cell, err
			}
		case xml.EndElement:
			if w.depth < 4 {
				cell.all = place{cell.tag.from, w.to()}
				c.reckoned(cell, own)
				return cell, nil
			}
		}
	}
}

// formula notes the formula of a cell: its own, or one filled down to it.
func (c *scanned) formula(w *walker, t xml.StartElement, col int) (*formulaText, error) {
	text, err := w.chars()
	if err != nil {
		return nil, err
	}
	f := &formulaText{row: c.row, col: col, text: strings.TrimPrefix(strings.TrimSpace(text), "=")}
	switch attr(t, "t") {
	case "shared":
		n, _ := strconv.Atoi(attr(t, "si")) // it has been read before
		if f.text != "" {
			c.shared[n] = f
			return f, nil
		}
		if first := c.shared[n]; first != nil {
			return first, nil
		}
		f.lost = "a filled-down formula whose first cell is not above it"
	case "dataTable":
		f.lost = "a table of trial values"
	case "array":
	default:
		return f, nil
	}
	f.fixed = true
	if area, ok := parseRange(attr(t, "ref")); ok && area != (span{c.row, col, c.row, col}) {
		c.spread = append(c.spread, spreadFormula{area, f})
	}
	return f, nil
}

// reckoned notes a cell with a formula, or with a result of one that fills a
// range, and that its stored result goes unless it is kept.
func (c *scanned) reckoned(cell cellPlace, own *formulaText) {
	if own == nil {
		for _, s := range slices.Backward(c.spread) {
			if s.area.holds(c.row, cell.col) {
				own = s.formula
				break
			}
		}
	}
	if own == nil {
		return
	}
	c.formulas = append(c.formulas, formulaCell{c.row, cell.col, own})
	if c.keep(c.row, cell.col) || len(cell.value) == 0 {
		return
	}
	for _, v := range cell.value {
		c.drops = append(c.drops, edit{place: v})
	}
	if _, all, ok := attrIn(c.part, cell.tag, "t"); ok {
		c.drops = append(c.drops, edit{place: all})
	}
}

// rule notes a check on what is typed, in the sheet's own form or that of the
// extension, which has its ranges and formulas in elements of their own.
func (c *scanned) rule(w *walker, t xml.StartElement) error {
	r := rule{list: attr(t, "type") == "list"}
	if v, _, ok := attrIn(c.part, place{w.from, w.to()}, "sqref"); ok {
		r.cells = textPlace{v, attr(t, "sqref")}
	}
	base, first := w.depth, false // within the first formula
	for {
		t, err := w.next()
		if err != nil {
			return w.early(err)
		}
		switch t := t.(type) {
		case xml.StartElement:
			name := t.Name.Local
			first = first && w.depth > base+1 || name == "formula1"
			switch {
			case name == "sqref":
				r.cells, err = w.content()
			case name == "formula1" && isMain(t.Name.Space), name == "f" && first:
				r.source, err = w.content()
			}
			if err != nil {
				return err
			}
		case xml.EndElement:
			if w.depth < base {
				c.rules = append(c.rules, r)
				return nil
			}
		}
	}
}

// content is the text of the element just started and where it stands.
func (w *walker) content() (textPlace, error) {
	from := w.to()
	text, err := w.chars()
	return textPlace{place{from, w.from}, text}, err
}
