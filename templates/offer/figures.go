package offer

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// FiguresSheet is the sheet of a comparison that the client may fill in.
const FiguresSheet = "Client's figures"

// AskWeek stands above the table of qualifications, before the cost of a week on
// site, which stands in the column of the amounts.
const AskWeek = "What a week on site costs you"

// Headings of the table of qualifications there, beside bill.HeadAmount: what
// each is worth to the client.
const (
	HeadFirm          = "Firm"
	HeadNumber        = "No."
	HeadQualification = "Qualification"
)

// Figures reads back what the client typed into a comparison: what a week on
// site costs him, nil where he does not say, and what qualifications are worth to
// him. A blank cell is no figure; a nought that was typed is one. What cannot be read
// is a problem at its cell, and so is a workbook without the sheet.
func Figures(book grid.Workbook) (week money.Amount, figures []quotes.Priced, found problem.List) {
	r := read(book)
	page, ok := r.named(FiguresSheet)
	if !ok {
		r.say(problem.SheetMissing, origin.Cell{Book: book.Name}, fmt.Sprintf("the workbook has no sheet %q; a comparison as futtock wrote it is wanted", FiguresSheet))
		return week, nil, r.list()
	}
	marks := []string{HeadFirm, HeadQualification, bill.HeadAmount}
	t, ok := r.find(outline{name: FiguresSheet, marks: marks, others: []string{HeadNumber}})
	if !ok {
		r.say(problem.HeadingMissing, r.at(page.Name, 0, 0), "there is no row with the headings "+quoted(marks))
		return week, nil, r.list()
	}
	for _, l := range page.Rows {
		switch {
		case l.Row < t.head && alike(t.text(l, HeadFirm, book.Date1904), AskWeek):
			week, _ = r.sum(t, l)
			if week.Sign() < 0 {
				r.say(problem.OutOfRange, r.at(page.Name, l.Row, t.cols[bill.HeadAmount]), fmt.Sprintf("a week on site at %s is less than nothing; what it costs is wanted", week.Grouped()))
				week = money.Amount{}
			}
		case l.Row > t.head && t.text(l, HeadQualification, book.Date1904) != "":
			if a, given := r.sum(t, l); given {
				figures = append(figures, quotes.Priced{Firm: t.text(l, HeadFirm, book.Date1904), Text: t.text(l, HeadQualification, book.Date1904),
					Amount: a, At: r.at(page.Name, l.Row, t.cols[bill.HeadAmount])})
			}
		}
	}
	return week, figures, r.list()
}

// mostOfAFigure is a sum that nobody means.
var mostOfAFigure = decimal.New(1, 9)

// sum is the money that the client typed in a row, and whether there is any.
func (r *reader) sum(t table, l grid.Line) (money.Amount, bool) {
	d := t.cell(l, bill.HeadAmount)
	f := r.figureIn(t, l, bill.HeadAmount)
	refuse := func(code problem.Code, text string) (money.Amount, bool) {
		r.say(code, f.At, text)
		return money.Amount{}, false
	}
	switch {
	case d.Kind == grid.Fault:
		return refuse(problem.CellFault, fmt.Sprintf("the spreadsheet shows the error %s; a sum of money is wanted", f.Text))
	case f.State == quotes.Faulty:
		return refuse(problem.NotCalculated, fmt.Sprintf("the formula %s has no result stored with it; a workbook saved after calculating is wanted", f.Text))
	case f.State == quotes.Missing, f.State == quotes.Words && strings.Trim(f.Text, "-–— ") == "":
		return money.Amount{}, false
	case f.State == quotes.Words && !f.Plain:
		return refuse(problem.MoneyForm, fmt.Sprintf("%q is not a sum of money; a number is wanted", clipped(f.Text)))
	case f.Value.Abs().GreaterThan(mostOfAFigure):
		return refuse(problem.OutOfRange, fmt.Sprintf("%s is beyond what a figure can be, %s", f.Value, money.Round(mostOfAFigure).Grouped()))
	}
	return money.Round(f.Value), true
}
