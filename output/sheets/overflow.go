package sheets

import (
	"fmt"
	"unicode/utf16"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// Overflow says what of a laid out document a spreadsheet program has no room
// for, so that nothing is cut: rows and links of a sheet, characters of a text or
// formula. A text or formula is told once for each row of the job's own workbook
// that it comes from, as far as that is known by the Ref its row begins with.
func Overflow(j job.Job, document string, b *grid.Book) problem.List {
	o := overflow{document: document, book: origin.Cell{Book: j.Book}, refs: map[string]origin.Cell{}, told: map[origin.Cell]bool{}}
	for _, w := range j.Works() {
		o.refs[rates.Key(w.Ref)] = w.At
	}
	for _, p := range j.Preliminaries {
		o.refs[rates.Key(p.Ref)] = p.At
	}
	for _, s := range j.Sums {
		o.refs[rates.Key(s.Ref)] = s.At
	}
	for _, r := range j.Risks {
		o.refs[rates.Key(r.Ref)] = r.At
	}
	for _, s := range b.Sheets {
		o.sheet(s)
	}
	return o.found
}

// overflow is what was found so far.
type overflow struct {
	document string
	book     origin.Cell
	refs     map[string]origin.Cell
	told     map[origin.Cell]bool
	found    problem.List
}

func (o *overflow) sheet(s *grid.Sheet) {
	links := 0
	for i, row := range s.Rows {
		for k, c := range row.Cells {
			if c.Link != "" {
				links++
			}
			place := fmt.Sprintf("%s of the sheet %q of the %s", at(k+1, i+1), s.Name, o.document)
			if n := inFile(c.Text); n > grid.MostText {
				o.tell(o.of(row), fmt.Sprintf("the text of %s would be %s characters long, and a cell has room for %s", place, many(n), many(grid.MostText)))
			}
			if n := len(c.Formula); n > grid.MostFormula {
				o.tell(o.of(row), fmt.Sprintf("the formula of %s would be %s characters long, and a cell has room for %s", place, many(n), many(grid.MostFormula)))
			}
		}
	}
	whole := func(n, most int, what string) {
		if n > most {
			o.found.Add(problem.Problem{Code: problem.NoRoom, At: o.book,
				Text: fmt.Sprintf("the sheet %q of the %s would have %s %s, and a sheet has room for %s", s.Name, o.document, many(n), what, many(most))})
		}
	}
	whole(len(s.Rows), grid.MostRows, "rows")
	whole(links, grid.MostLinks, "links")
}

// of is the row of the job's workbook that a row of the document comes from.
func (o *overflow) of(row grid.Row) origin.Cell {
	if c, known := o.refs[rates.Key(row.Cells[0].Text)]; known {
		return c
	}
	return o.book
}

func (o *overflow) tell(where origin.Cell, text string) {
	if !o.told[where] {
		o.told[where] = true
		o.found.Add(problem.Problem{Code: problem.NoRoom, At: where, Text: text})
	}
}

// inFile is how many characters a file counts in a text.
func inFile(s string) int {
	if len(s) <= grid.MostText {
		return len(s) // bytes, of which there are never fewer than that
	}
	n := 0
	for _, r := range s {
		n += utf16.RuneLen(r)
	}
	return n
}

func many(n int) string { return money.Group(decimal.New(int64(n), 0), 0) }
