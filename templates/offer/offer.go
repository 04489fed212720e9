// Package offer reads back what others make of a bill. A workbook goes in as it
// was read; out comes either the bill that quotes are measured against (Sent) or
// one firm's quote (Quote), with what keeps it from being compared.
//
// Quote judges nothing: figures, words and marks are handed on as they stand, for
// estimate/quotes to examine. Columns are found by their headings, the sign of a
// currency after them ignored, wherever the row of headings stands among the first
// fifty; rows may stand in any order; a sheet whose name is gone is known by its
// headings. What stands in the rows of a table and is none of its lines is a line
// that the firm put in, so that nothing typed is lost.
//
// A cell of "£ 1,234.50" typed as text under Rate is Words, with 1234.50 for its
// Value: the examiner asks. "twelve" is Words without one; #REF! is Faulty.
package offer

import (
	"fmt"
	"slices"
	"strings"

	"futtock/estimate/bill"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
)

// Limits on what is taken from one workbook, far above any bill.
const (
	mostLines          = 20_000
	mostQualifications = 500
	mostDayRates       = 200
)

// reader reads one workbook.
type reader struct {
	book  grid.Workbook
	found problem.List
	used  map[string]bool // sheets that something was read of
}

func read(book grid.Workbook) *reader { return &reader{book: book, used: map[string]bool{}} }

// list is what was found, in the order of the sheets.
func (r *reader) list() problem.List {
	names := make([]string, len(r.book.Sheets))
	for i, p := range r.book.Sheets {
		names[i] = p.Name
	}
	return r.found.Sorted(names)
}

func (r *reader) at(sheet string, row, col int) origin.Cell {
	return origin.Cell{Book: r.book.Name, Sheet: sheet, Row: row, Col: col}
}

func (r *reader) say(code problem.Code, at origin.Cell, text string) {
	r.found.Add(problem.Problem{Code: code, At: at, Text: text})
}

// ours are the names of the sheets that our bills, forms and letters have: none
// of them is taken for another whose name is gone.
func ours() []string {
	return []string{
		bill.FormCover, bill.FormOffer, bill.FormQualifications, bill.FormSummary, bill.FormWork, bill.FormPreliminaries, bill.FormSums, bill.FormDayworks,
		billContingency, billProgramme, notesSheet, LetterSheet, LetterSections, LetterItems,
	}
}

// Sheets of a priced bill that a form has not, and the one that nothing is read of.
const (
	billContingency = "Contingency"
	billProgramme   = "Programme"
	notesSheet      = "Notes and cautions"
)

// named is the sheet of a name, case and spacing aside.
func (r *reader) named(name string) (*grid.Page, bool) {
	i := slices.IndexFunc(r.book.Sheets, func(p grid.Page) bool { return alike(p.Name, name) })
	if i < 0 {
		return nil, false
	}
	return &r.book.Sheets[i], true
}

// candidates are the sheets on which something of a name may stand: the one so
// named, else those whose names are none of ours.
func (r *reader) candidates(name string) []*grid.Page {
	if p, ok := r.named(name); ok {
		return []*grid.Page{p}
	}
	var out []*grid.Page
	for i := range r.book.Sheets {
		p := &r.book.Sheets[i]
		if !r.used[p.Name] && !slices.ContainsFunc(ours(), func(n string) bool { return alike(p.Name, n) }) {
			out = append(out, p)
		}
	}
	return out
}

// take marks a sheet as read, and remarks on one that cannot be seen.
func (r *reader) take(p *grid.Page) {
	if p.Hidden && !r.used[p.Name] {
		r.say(problem.SheetHidden, r.at(p.Name, 0, 0), "the sheet is hidden and read like the others")
	}
	r.used[p.Name] = true
}

func alike(a, b string) bool {
	return a == b || a != "" && b != "" && templates.Folded(a) == templates.Folded(b)
}

// quoted is a list of headings in a message.
func quoted(names []string) string {
	out := make([]string, len(names))
	for i, n := range names {
		out[i] = fmt.Sprintf("%q", n)
	}
	if len(out) < 2 {
		return strings.Join(out, "")
	}
	return strings.Join(out[:len(out)-1], ", ") + " and " + out[len(out)-1]
}
