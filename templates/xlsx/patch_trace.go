package xlsx

import (
	"encoding/xml"
	"fmt"
	"slices"
	"strings"
)

// column is the formula cells of one column, to be gone through once: next
// leads past those that have been.
type column struct {
	col   int
	rows  []int
	cells []int // in the sheet's list of formulas
	next  []int
}

// tracer finds out whether a cell that is read is reckoned from one that is
// changed. It goes backwards from the cells read and comes to each formula
// once.
type tracer struct {
	p       *patcher
	columns [][]*column // by sheet, in rising order
	sheets  func(string) (int, bool)
	touched map[int][]span        // by sheet: what is changed
	known   map[*definedName]bool // names that have been followed
	steps   int
	open    []formulaAt // formulas still to be looked at
}

// formulaAt is a formula cell on a sheet.
type formulaAt struct {
	sheet int
	formulaCell
}

// maxSteps is how many steps are taken before a workbook counts as one that
// cannot be traced. A yard's workbook takes some ten thousand.
const maxSteps = 50_000_000

// trace refuses the changes if a stored result that is kept would no longer be
// true, or if it cannot be told whether it would.
func (p *patcher) trace() error {
	t := &tracer{p: p, sheets: p.sheetIndex, touched: p.touched(), known: make(map[*definedName]bool)}
	for _, s := range p.sheets {
		by := make(map[int]*column)
		for i, f := range s.formulas {
			c := by[f.col]
			if c == nil {
				c = &column{col: f.col}
				by[f.col] = c
			}
			c.next = append(c.next, len(c.rows))
			c.rows = append(c.rows, f.row)
			c.cells = append(c.cells, i)
		}
		list := make([]*column, 0, len(by))
		for _, c := range by {
			list = append(list, c)
		}
		slices.SortFunc(list, func(a, b *column) int { return a.col - b.col })
		t.columns = append(t.columns, list)
	}
	for i, s := range p.sheets {
		for _, f := range s.formulas {
			if !p.read(s.sheet.name, f.row, f.col) {
				continue
			}
			if err := t.from(formulaAt{i, f}); err != nil {
				return err
			}
		}
	}
	return nil
}

// from goes backwards from one cell that is read.
func (t *tracer) from(root formulaAt) error {
	t.visit(root.sheet, span{root.row, root.col, root.row, root.col})
	for len(t.open) > 0 {
		f := t.open[len(t.open)-1]
		t.open = t.open[:len(t.open)-1]
		if err := t.look(root, f); err != nil {
			return err
		}
	}
	return nil
}

// look refuses on what a formula reads, or goes on to the formulas in it.
func (t *tracer) look(root, f formulaAt) error {
	text := f.formula
	if text.lost != "" {
		return t.untraceable(root, f, text.lost)
	}
	if text.parsed == nil {
		text.parsed = readsOf(text.text, f.sheet, t.sheets)
	}
	down, right := f.row-text.row, f.col-text.col
	if text.fixed {
		down, right = 0, 0
	}
	return t.reads(root, f, text.parsed, down, right)
}

// reads follows what a formula or a name reads. Down and right are how far it
// is from the cell it was written for.
func (t *tracer) reads(root, f formulaAt, r *refs, down, right int) error {
	if r.lost != "" {
		return t.untraceable(root, f, r.lost)
	}
	for _, a := range r.areas {
		for sheet := a.from; sheet <= a.to; sheet++ {
			if err := t.area(root, f, sheet, a.shifted(down, right)); err != nil {
				return err
			}
		}
	}
	for _, s := range r.tables {
		sheet, area, ok := t.p.tableArea(s, f)
		if !ok {
			return t.untraceable(root, f, fmt.Sprintf("the table %q", clip(s.table)))
		}
		if err := t.area(root, f, sheet, area); err != nil {
			return err
		}
	}
	for _, name := range r.names {
		if err := t.named(root, f, name); err != nil {
			return err
		}
	}
	return nil
}

// named follows a name to what it stands for, on whichever sheet it is known,
// and each name once.
func (t *tracer) named(root, f formulaAt, name string) error {
	found := false
	for _, n := range t.p.names {
		if n.key != name {
			continue
		}
		found = true
		if t.known[n] {
			continue
		}
		t.known[n] = true
		home := max(n.sheet, 0)
		r := readsOf(strings.TrimPrefix(n.text.text, "="), home, t.sheets)
		for i := range r.areas {
			if a := &r.areas[i]; a.topMoves || a.leftMoves || a.bottomMoves || a.rightMoves {
				return t.untraceable(root, f, fmt.Sprintf("the name %q, which moves with the cell it stands in", clip(name)))
			}
		}
		if err := t.reads(root, f, r, 0, 0); err != nil {
			return err
		}
	}
	if area := slices.IndexFunc(t.p.tables, func(b *table) bool { return b.key == name }); !found && area >= 0 {
		return t.area(root, f, t.p.tables[area].sheet, t.p.tables[area].area)
	}
	if !found {
		return t.untraceable(root, f, fmt.Sprintf("the name %q, which nothing defines", clip(name)))
	}
	return nil
}

// area refuses if the range takes in a changed cell, and goes on to the
// formulas in it.
func (t *tracer) area(root, f formulaAt, sheet int, a span) error {
	for _, s := range t.touched[sheet] {
		if t.steps++; s.meets(a) {
			return &Refusal{
				Why: Dependent, Sheet: t.p.sheets[sheet].sheet.name, Cell: cellName(max(s.left, a.left), max(s.top, a.top)),
				BySheet: t.p.sheets[root.sheet].sheet.name, By: cellName(root.col, root.row),
			}
		}
	}
	for _, s := range t.p.sheets[sheet].spread {
		if t.steps++; s.area.meets(a) {
			t.visit(sheet, span{s.formula.row, s.formula.col, s.formula.row, s.formula.col})
		}
	}
	t.visit(sheet, a)
	if t.steps > maxSteps {
		return t.untraceable(root, f, "more formulas than can be followed")
	}
	return nil
}

// visit opens the formulas in a range that have not been looked at.
func (t *tracer) visit(sheet int, a span) {
	list := t.columns[sheet]
	from, _ := slices.BinarySearchFunc(list, a.left, func(c *column, col int) int { return c.col - col })
	for _, c := range list[from:] {
		if t.steps++; c.col > a.right {
			break
		}
		i, _ := slices.BinarySearch(c.rows, a.top)
		for i = c.free(i); i < len(c.rows) && c.rows[i] <= a.bottom; i = c.free(i) {
			c.next[i] = i + 1
			t.open = append(t.open, formulaAt{sheet, t.p.sheets[sheet].formulas[c.cells[i]]})
			t.steps++
		}
	}
}

// free is the first cell from i on that has not been gone through.
func (c *column) free(i int) int {
	end := i
	for end < len(c.next) && c.next[end] != end {
		end = c.next[end]
	}
	for i < end { // so that the way is short the next time
		i, c.next[i] = c.next[i], end
	}
	return end
}

// untraceable refuses for a formula on the way to a cell that is read.
func (t *tracer) untraceable(root, f formulaAt, what string) error {
	first := t.p.targets[0]
	if f.sheet != root.sheet || f.row != root.row || f.col != root.col {
		what += fmt.Sprintf(" in %s!%s", t.p.sheets[f.sheet].sheet.name, cellName(f.col, f.row))
	}
	return &Refusal{
		Why: Untraceable, Sheet: t.p.sheets[first.sheet].sheet.name, Cell: cellName(first.col, first.row),
		BySheet: t.p.sheets[root.sheet].sheet.name, By: cellName(root.col, root.row), Detail: what,
	}
}

// shifted is the range as a formula filled down and across reads it. What
// falls off the sheet comes in again at the other side.
func (r ref) shifted(down, right int) span {
	a := r.area
	turn := func(n, by, last int, moves bool) int {
		if !moves {
			return n
		}
		return ((n+by-1)%last+last)%last + 1
	}
	a.top, a.bottom = turn(a.top, down, lastRow, r.topMoves), turn(a.bottom, down, lastRow, r.bottomMoves)
	a.left, a.right = turn(a.left, right, lastColumn, r.leftMoves), turn(a.right, right, lastColumn, r.rightMoves)
	return span{min(a.top, a.bottom), min(a.left, a.right), max(a.top, a.bottom), max(a.left, a.right)}
}

// definedName is a name of the workbook and what it stands for.
type definedName struct {
	key   string // in lower case
	sheet int    // the sheet it is for, -1 for all
	text  textPlace
}

// definedNames reads the names and where they stand in the workbook's part.
func definedNames(pack *bundle, main string) ([]*definedName, error) {
	var names []*definedName
	err := walk(pack, main, func(w *walker, t xml.StartElement) error {
		if w.depth != 3 || t.Name.Local != "definedName" || !isMain(t.Name.Space) {
			return nil
		}
		n := &definedName{key: strings.ToLower(attr(t, "name")), sheet: -1}
		if s := attr(t, "localSheetId"); s != "" {
			n.sheet = atoi(s)
		}
		var err error
		n.text, err = w.content()
		names = append(names, n)
		return err
	})
	return names, err
}
