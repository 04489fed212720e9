// Package grid is a workbook as plain data: cells, widths, notes and lists,
// and nothing of any library. Package xlsx turns files into a Workbook and a
// Book into files; everything else in the project sees only these types.
package grid

import "github.com/shopspring/decimal"

// Workbook is a workbook as it was read.
type Workbook struct {
	Name     string // base name of the file
	Sheets   []Page
	Date1904 bool // day numbers count from 1904 rather than 1900
}

// Page is one sheet as it was read. Rows hold only what the file holds, in
// rising order; a row that is not there is blank.
type Page struct {
	Name   string
	Hidden bool
	Paper  Paper // that it is set up to be printed on; A4 unless it says Letter
	Rows   []Line
	Notes  []Remark // in the order of the file
}

// Remark is a note that hangs on a cell, which may be blank.
type Remark struct {
	Row, Col int
	Text     string
}

// Line is one row of a Page.
type Line struct {
	Row    int // counted from 1
	Hidden bool
	Cells  []Datum // in rising order of column; blanks left out
}

// Cell is the datum in a column, the zero Datum where there is none.
func (l Line) Cell(col int) Datum {
	for i := range l.Cells {
		if l.Cells[i].Col == col {
			return l.Cells[i]
		}
	}
	return Datum{Col: col}
}

// Kind is what a cell holds.
type Kind uint8

// The kinds of cell.
const (
	Blank  Kind = iota
	Number      // Raw is its stored text, Value the number at 15 significant digits
	Text        // Raw is the text, rich text made plain
	Bool        // Raw is "1" or "0"
	Fault       // Raw is an error value such as #REF!
	Date        // Raw is an ISO date stored as such (t="d")
)

// Datum is one cell as it was read. A formula cell has the kind and value of
// its stored result; Formula with Kind Blank was never calculated.
type Datum struct {
	Col     int // counted from 1
	Kind    Kind
	Raw     string
	Value   decimal.Decimal // of a Number
	Format  string          // number format code in force, "" for General
	Formula string          // without the leading =; "" where there is none
}

// IsFormula reports a cell that is reckoned from others.
func (d Datum) IsFormula() bool { return d.Formula != "" }

// IsBlank reports a cell with nothing in it at all; spaces alone are text.
func (d Datum) IsBlank() bool { return d.Kind == Blank && d.Formula == "" }
