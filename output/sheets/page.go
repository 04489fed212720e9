package sheets

import (
	"strconv"
	"strings"

	"futtock/rates/origin"
	"futtock/templates/grid"
)

// page is a sheet being laid out from the top down.
type page struct {
	*grid.Sheet
	joined [][2]int // first and last of rows printed on one page, see together
}

func newPage(name string, widths ...float64) *page {
	p := &page{Sheet: &grid.Sheet{Name: name}}
	for _, w := range widths {
		p.Columns = append(p.Columns, grid.Width{Chars: w})
	}
	return p
}

// next is the number of the row that add will write.
func (p *page) next() int { return len(p.Rows) + 1 }

// add writes a row and returns its number.
func (p *page) add(cells ...grid.Cell) int {
	p.Rows = append(p.Rows, grid.Row{Cells: cells})
	return len(p.Rows)
}

// gap leaves a row blank.
func (p *page) gap() { p.add() }

// keep prints a row on the page of the row after it.
func (p *page) keep(row int) { p.Rows[row-1].Keep = true }

// merge joins the cells of a row from one column to another.
func (p *page) merge(row, from, to int) {
	p.Merges = append(p.Merges, at(from, row)+":"+at(to, row))
}

// across writes one text over so many columns from the first, on as many lines
// as it takes: whatever a vessel is called, her name is not cut off in print.
func (p *page) across(text string, style grid.Style, cols int) {
	style.Wrap, style.Top, style.Align = true, true, grid.Left
	p.merge(p.add(words(text, style)), 1, cols)
}

// repeat prints the rows down to and including row on every page, and keeps
// them in view.
func (p *page) repeat(from, to int) {
	p.Print.Repeat = "$" + strconv.Itoa(from) + ":$" + strconv.Itoa(to)
	p.Freeze.Rows = to
}

// cell is a place on the page as other sheets name it.
func (p *page) cell(col, row int) string { return quoted(p.Name) + "!" + at(col, row) }

// at is a place on its own sheet, such as F12.
func at(col, row int) string { return origin.Column(col) + strconv.Itoa(row) }

// span is a range down one column.
func span(col, from, to int) string { return at(col, from) + ":" + at(col, to) }

// quoted is a sheet's name as a formula writes it.
func quoted(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }

// inFormula is text as a formula writes it.
func inFormula(s string) string { return `"` + strings.ReplaceAll(s, `"`, `""`) + `"` }

// sumOf is the sum of a run of cells down a column, or nil where there is none.
func sumOf(col, from, to int) string {
	if to < from {
		return "0"
	}
	return "SUM(" + span(col, from, to) + ")"
}

// addUp is the sum of single cells.
func addUp(cells ...string) string {
	if len(cells) == 0 {
		return "0"
	}
	return strings.Join(cells, "+")
}

func itoa(n int) string { return strconv.Itoa(n) }

// put writes a cell into a row that is already there, for what is known only
// once a later sheet is placed.
func (p *page) put(col, row int, c grid.Cell) {
	r := &p.Rows[row-1]
	for len(r.Cells) < col {
		r.Cells = append(r.Cells, grid.Cell{})
	}
	r.Cells[col-1] = c
}

// sum is figures that stand together down a column, as other sheets add them up.
func (p *page) sum(col, from, to int) string {
	if from == to {
		return p.cell(col, from)
	}
	return "SUM(" + p.cell(col, from) + ":" + at(col, to) + ")"
}

// together prints rows on one page, also those that are yet to be written: join
// does it once the page is laid out.
func (p *page) together(from, to int) { p.joined = append(p.joined, [2]int{from, to}) }

// join keeps the rows together of which together was told.
func (p *page) join() {
	for _, rows := range p.joined {
		for row := rows[0]; row < min(rows[1], len(p.Rows)); row++ {
			p.keep(row)
		}
	}
}

// lead makes a cell that is there lead elsewhere in the workbook; "" is nowhere.
func (p *page) lead(col, row int, to string) {
	if to == "" {
		return
	}
	c := &p.Rows[row-1].Cells[col-1]
	c.Link, c.Style.Font.Colour = to, jump.Font.Colour
}

// fold puts the rows from one to another at an outline level.
func (p *page) fold(from, to, level int) {
	for n := from; n <= to; n++ {
		p.Rows[n-1].Level = level
	}
}
