package main

import (
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/output/sheets"
	"futtock/templates/grid"
)

// sheetBy is a sheet of a book being made and its columns, found by a heading row
// that holds a word.
type sheetBy struct {
	*grid.Sheet
	head int
}

func onSheet(t fatal, b *grid.Book, name, heading string) sheetBy {
	t.Helper()
	for _, s := range b.Sheets {
		for n, r := range s.Rows {
			for _, c := range r.Cells {
				if s.Name == name && c.Text == heading {
					return sheetBy{s, n}
				}
			}
		}
	}
	t.Fatalf("no sheet %q has %q", name, heading)
	return sheetBy{}
}

// col is the column under a heading, the sign of the currency aside.
func (s sheetBy) col(heading string) int {
	for i, c := range s.Rows[s.head].Cells {
		if c.Text == heading || strings.TrimSuffix(c.Text, " £") == heading {
			return i
		}
	}
	panic("no heading " + heading)
}

// row is the first row below the headings in which a cell says so.
func (s sheetBy) row(text string) int {
	for n := s.head + 1; n < len(s.Rows); n++ {
		if slices.ContainsFunc(s.Rows[n].Cells, func(c grid.Cell) bool { return c.Text == text }) {
			return n
		}
	}
	panic("no row " + text)
}

// put types into the cell under a heading in the row of a line.
func (s sheetBy) put(line, heading string, value any) {
	s.set(s.row(line), s.col(heading), value)
}

// set types into a cell as somebody at a spreadsheet would.
func (s sheetBy) set(row, col int, value any) {
	cells := s.Rows[row].Cells
	for len(cells) <= col {
		cells = append(cells, grid.Cell{})
	}
	s.Rows[row].Cells = cells
	c := &cells[col]
	switch v := value.(type) {
	case decimal.Decimal:
		c.Kind, c.Number, c.Formula = grid.Number, v, ""
	case time.Time:
		c.Kind, c.Day, c.Formula = grid.Date, v, ""
	case string:
		c.Kind, c.Text, c.Formula = grid.Text, v, ""
	}
}

// ask answers a label of the sheet where the offer is made.
func ask(t fatal, b *grid.Book, sheet, label string, value any) {
	t.Helper()
	s := onSheet(t, b, sheet, label)
	s.set(s.head, 1, value)
}

var march = time.Date(2027, 3, 1, 0, 0, 0, 0, time.UTC)

// filledForm is the form of the demonstration as a careful firm fills it in:
// every rate 12.50, but for what is said otherwise. Results stand as they
// were stored before, since nobody has reckoned it.
func filledForm(t fatal, f estimate.Form) *grid.Book {
	t.Helper()
	b := sheets.Unpriced(f)
	work := onSheet(t, b, "Bill", bill.HeadID)
	for _, sec := range f.Bill.Sections {
		for _, l := range sec.Lines {
			work.put(l.ID, bill.HeadRate, dec("12.50"))
		}
	}
	ask(t, b, "Offer", bill.AskFirm, "Creek & Sons")
	ask(t, b, "Offer", bill.AskVAT, bill.LeftOut)
	ask(t, b, "Offer", bill.AskVATRate, dec("0.2"))
	ask(t, b, "Offer", bill.AskTotal, dec("123456.78"))
	ask(t, b, "Offer", bill.AskWeeks, dec("31.5"))
	ask(t, b, "Offer", bill.AskStart, march)
	ask(t, b, "Offer", bill.AskOpenUntil, march.AddDate(0, 0, 30))
	ask(t, b, "Offer", bill.AskSigned, "the foreman")
	q := onSheet(t, b, "Qualifications", bill.HeadSaid)
	q.set(q.head+1, 0, "PL1")
	q.set(q.head+1, 1, "Larch in place of oak,\nif it cannot be had.")
	q.set(q.head+1, 2, dec("-900"))
	q.set(q.head+3, 1, "Masts are drawn by others.")
	return b
}
