// Package sheets lays out the workbooks futtock hands over. Each document is
// placed row by row first, so that every formula knows the cells it reads, and
// then handed on as plain data: positions of output cells live only here.
//
// Every figure that is arithmetic on other cells is a live formula with its
// result stored beside it, and comes out to the same penny in any spreadsheet
// program.
package sheets

import (
	"strings"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// Bill is the client's copy of the priced bill: cover, summary, bill,
// preliminaries, sums, dayworks, contingency, programme, notes. It holds nothing of how a rate is made
// up, no hours and no margins.
func Bill(r estimate.Result) *grid.Book {
	l := &ledger{Result: r, sign: wording.Sign(r.Job.Currency), analysis: map[string][]string{}}
	if len(r.Bill.VAT) > 1 {
		for _, t := range r.Bill.VAT {
			l.codes = append(l.codes, t.Code)
		}
	}
	l.measured()
	l.preliminaries()
	l.sums()
	l.dayworks()
	l.contingency()
	l.programme()
	l.notes()
	l.summary()
	l.cover()

	book := &grid.Book{
		Title:    "Bill of quantities, " + r.Job.Vessel,
		Subject:  "Tender " + r.Job.Reference,
		Creator:  r.Job.Yard,
		Language: "en-GB",
		Stamp:    r.Job.TenderDate,
	}
	for _, p := range l.pages {
		p.Print.FitWidth = true
		p.Print.Paper = paperOf(r.Job.Paper)
		p.Print.Header = "&L" + headerText(r.Job.Vessel) + "&R" + headerText(r.Job.Reference)
		p.Print.Footer = "&L" + headerText(r.Job.Yard) + "&R" + p.Name + ", page &P of &N"
		book.Sheets = append(book.Sheets, p.Sheet)
	}
	return book
}

// ledger is the bill while it is laid out.
type ledger struct {
	estimate.Result
	sign  string
	pages []*page // the cover first

	codes    []string            // VAT codes analysed in columns; none where the bill has but one
	analysis map[string][]string // cells that add up to the net of each code

	sections []string // cell of each section's total
	items    string   // cell of A in the collection
	prelims  string   // cell of B
	sumTotal string
	dayTotal string
	held     string // cell of D, "" where there is none
	net      string // cell of the net total
	gross    string // cell of the total with VAT
}

// headerText is text in a corner of a page header, where & is a sign. A header
// has room for 255 characters and a corner for half the page, so what is longer
// than any name is cut short.
func headerText(s string) string { return cornerText(s, 50) }

// cornerText is text in a corner that has room for so many letters.
func cornerText(s string, most int) string {
	if r := []rune(s); len(r) > most {
		s = strings.TrimSpace(string(r[:most-1])) + "…"
	}
	return strings.ReplaceAll(s, "&", "&&")
}

func (l *ledger) keep(p *page) { l.pages = append(l.pages, p) }

// analyse puts an amount in the column of its VAT code, beside the printed
// part of the sheet.
func (l *ledger) analyse(row []grid.Cell, n, codeCol, sumCol int, code string, a money.Amount) []grid.Cell {
	if len(l.codes) == 0 {
		return row
	}
	row = append(row, grid.Cell{})
	for _, c := range l.codes {
		is := money.Amount{}
		if rates.Same(c, code) {
			is = a
		}
		row = append(row, sumBy("IF($"+at(codeCol, n)+"="+inFormula(c)+",$"+at(sumCol, n)+",0)", is, label))
	}
	return row
}

// analysisHead is the heading of those columns.
func (l *ledger) analysisHead(p *page, row []grid.Cell) []grid.Cell {
	if len(l.codes) == 0 {
		return row
	}
	row = append(row, grid.Cell{})
	p.Columns = append(p.Columns, grid.Width{Chars: 3})
	for _, c := range l.codes {
		row = append(row, words("VAT "+c, headRow))
		p.Columns = append(p.Columns, grid.Width{Chars: 14})
	}
	return row
}

// analysisFoot adds the columns up from row to row and keeps the cells.
func (l *ledger) analysisFoot(p *page, width, from, to int) {
	if len(l.codes) == 0 || to < from {
		return
	}
	row := make([]grid.Cell, width+1, width+1+len(l.codes))
	at := p.next()
	for i, c := range l.codes {
		col := width + 2 + i
		row = append(row, sumBy(sumOf(col, from, to), l.netOn(p.Name, c), strong))
		l.analysis[c] = append(l.analysis[c], p.cell(col, at))
	}
	p.add(row...)
}

// netOn is the net of one VAT code on one sheet.
func (l *ledger) netOn(sheet, code string) money.Amount {
	var t money.Amount
	take := func(c string, a money.Amount) {
		if rates.Same(c, code) {
			t = t.Add(a)
		}
	}
	switch sheet {
	case billSheet:
		for _, s := range l.Bill.Sections {
			for _, n := range s.Lines {
				if n.Carried.InTotal() {
					take(n.VAT, n.Amount)
				}
			}
		}
	case prelimSheet:
		for _, n := range l.Bill.Preliminaries {
			take(n.VAT, n.Amount)
		}
	case sumSheet:
		for _, n := range l.Bill.Sums {
			take(n.VAT, n.Total)
		}
	case daySheet:
		for _, n := range l.Bill.Dayworks {
			take(n.VAT, n.Total)
		}
	}
	return t
}

const (
	coverSheet   = "Cover"
	summarySheet = "Summary"
	billSheet    = "Bill"
	prelimSheet  = "Preliminaries"
	sumSheet     = "Sums"
	daySheet     = "Dayworks"
	heldSheet    = "Contingency"
	stageSheet   = "Programme"
	notesSheet   = "Notes and cautions"
)

// top is the title block of a sheet of which so many columns are printed.
func (l *ledger) top(p *page, text string, cols int) {
	p.add(words(text, title))
	p.across(l.Job.Vessel+", tender "+l.Job.Reference, subtitle, cols)
	p.gap()
}

// carried parts the lines of a section into those in its total and the rest.
func parted(s bill.Section) (in, out []bill.Line) {
	for _, n := range s.Lines {
		if n.Carried.InTotal() {
			in = append(in, n)
		} else {
			out = append(out, n)
		}
	}
	return in, out
}
