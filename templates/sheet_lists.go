package templates

import (
	"fmt"

	"futtock/rates"
	"futtock/rates/pricelist"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// The marks that part the pence from the pounds.
const (
	Comma = "comma"
	Point = "point"
)

// priceLists is the Lists sheet: how the price lists of suppliers are read.
func priceLists() Sheet[rates.PriceList] {
	type L = rates.PriceList
	heading := func(name, example, help string) Heading {
		return Heading{Name: name, Form: Words, Example: example, Help: help}
	}
	return outlined(Sheet[L]{
		Outline: Outline{
			Name: "Lists", Purpose: "how the price lists of suppliers are read by futtock rates, where their headings are their own",
			Prices: true, Once: []string{"List"},
		},
		Columns: []Column[L]{
			{Heading{Name: "List", Form: Key, Required: true, Names: true, Example: "sawmill",
				Help: "How the name of the list's file begins; of several the longest holds"},
				func(l *L, e Entry) { l.List, l.At = e.Text, e.At }},
			{Heading{Name: "Kind", Form: Choice, Choices: words(pricelist.Sheets()), Example: "Stock",
				Help: "The sheet that its keys are looked up in; blank is all of these"},
				func(l *L, e Entry) { l.Sheet = e.Text }},
			{heading("Key under", "Article", "The list's heading of what the workbook's keys are"), func(l *L, e Entry) { l.Key = e.Text }},
			{heading("Price under", "Net price", "Its heading of the price before VAT"), func(l *L, e Entry) { l.Price = e.Text }},
			{heading("Unit under", "Per", "Its heading of what the price is for one of"), func(l *L, e Entry) { l.Unit = e.Text }},
			{heading("From under", "Valid from", "Its heading of the day the price holds from"), func(l *L, e Entry) { l.From = e.Text }},
			{heading("Supplier under", "Mill", "Its heading of who sells it; a price of another than the row names is held back"), func(l *L, e Entry) { l.Supplier = e.Text }},
			{Heading{Name: "Priced per", Form: Words, Example: "100 super ft",
				Help: "What all its prices are for, where no column says so: a unit, so many of one, each, or a pack"},
				func(l *L, e Entry) { l.Per = e.Text }},
			{Heading{Name: "Decimal mark", Form: Choice, Choices: []string{Comma, Point}, Example: Point,
				Help: "What parts the pence in prices typed as text; blank is told from the whole column"},
				func(l *L, e Entry) { l.Mark = e.Text }},
		},
		Check: func(l *L, line *Line) {
			if _, ok := pricelist.ParsePer(l.Per); !ok {
				line.Say("Priced per", problem.UnitUnknown, fmt.Sprintf("%q is not what a price may be for; a unit, so many of one, each or a pack is wanted under %q", l.Per, "Priced per"), "100 super ft")
			}
		},
	})
}

// known is the reader without a sheet Lists that has none of its headings: it is
// the yard's own, or holds what drop-down lists offer.
func (r *reader) known() *reader {
	if r == nil {
		return nil
	}
	o := priceLists().Outline
	page, ok := r.page(o.Name)
	if !ok {
		return r
	}
	if head, _ := o.headingRow(page); len(o.held(head)) > 1 || o.headed(head) {
		return r
	}
	other := *r
	other.book.Sheets = nil
	for _, p := range r.book.Sheets {
		if !alike(p.Name, o.Name) {
			other.book.Sheets = append(other.book.Sheets, p)
		}
	}
	return &other
}

// headed reports a row that begins with the first heading of the sheet.
func (o Outline) headed(line grid.Line) bool {
	for _, d := range line.Cells {
		if i, _ := o.heading(d.Raw); d.Kind == grid.Text && i == 0 {
			return true
		}
	}
	return false
}
