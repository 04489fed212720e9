// Package origin says where a figure came from, so that any figure of a
// bill can be followed back to the cell somebody typed.
package origin

import (
	"cmp"
	"fmt"
)

// Cell is one cell of one workbook. Row and Col count from 1; a zero Col is
// the whole row, a zero Row the whole sheet, an empty Sheet the whole book.
type Cell struct {
	Book  string // base name of the workbook, such as "yard.xlsx"
	Sheet string // name of the sheet as it stands in the workbook
	Row   int
	Col   int
}

// Address is the cell's place within its sheet in A1 form: "D14", or "14"
// for a whole row, or "" for a whole sheet.
func (c Cell) Address() string {
	if c.Row == 0 {
		return ""
	}
	return fmt.Sprintf("%s%d", Column(c.Col), c.Row)
}

// Column is the letter name of a column counted from 1 ("A", "Z", "AA");
// anything below 1 has no name.
func Column(n int) string {
	name := ""
	for ; n > 0; n = (n - 1) / 26 {
		name = string(rune('A'+(n-1)%26)) + name
	}
	return name
}

// String is the cell as messages print it: "yard.xlsx: Members!D14".
func (c Cell) String() string {
	place := c.Sheet
	if a := c.Address(); a != "" {
		place += "!" + a
	}
	switch {
	case c.Book == "":
		return place
	case place == "":
		return c.Book
	}
	return c.Book + ": " + place
}

// In is another cell of the same row.
func (c Cell) In(col int) Cell {
	c.Col = col
	return c
}

// IsZero reports a figure that came from no cell.
func (c Cell) IsZero() bool { return c == Cell{} }

// Compare orders cells by book, sheet name, row and column.
func Compare(a, b Cell) int {
	return cmp.Or(cmp.Compare(a.Book, b.Book), cmp.Compare(a.Sheet, b.Sheet),
		cmp.Compare(a.Row, b.Row), cmp.Compare(a.Col, b.Col))
}
