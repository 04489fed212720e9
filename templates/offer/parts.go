package offer

import (
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/rates/measure"
	"futtock/templates"
	"futtock/templates/grid"
)

// part is how the lines of one part stand on their sheet.
type part struct {
	quotes.Part
	outline
	prefix   string   // of an id
	text     string   // heading of the description
	total    string   // heading of what a line comes to
	choice   string   // heading of the word in place of a rate
	unit     string   // heading
	quantity string   // heading
	standing string   // heading
	money    []string // headings without which the sheet cannot be compared
}

// parts are those of a form.
func parts() []part {
	ids := []string{bill.HeadID, bill.HeadMark, bill.HeadForm}
	said := func(own ...string) []string { return append(append(own, bill.HeadRemarks, bill.HeadStage), ids...) }
	return []part{
		{
			Part: quotes.Work, prefix: bill.OfWork, text: bill.HeadDescription, total: bill.HeadAmount, choice: bill.HeadWithout,
			unit: bill.HeadUnit, quantity: bill.HeadQuantity, standing: bill.HeadMarked, money: []string{bill.HeadRate},
			outline: outline{
				name: bill.FormWork, marks: []string{bill.HeadDescription, bill.HeadUnit}, not: []string{bill.HeadTime, bill.HeadOnce, HeadSaidFor},
				others: said(bill.HeadItem, bill.HeadQuantity, bill.HeadRate, bill.HeadAmount, bill.HeadWithout, bill.HeadMarked),
			},
		},
		{
			Part: quotes.Preliminaries, prefix: bill.OfPreliminaries, text: bill.HeadDescription, total: bill.HeadAmount, choice: bill.HeadWithout,
			unit: bill.HeadUnit, quantity: bill.HeadTime, standing: bill.HeadMarked, money: []string{bill.HeadOnce, bill.HeadRate},
			outline: outline{
				name: bill.FormPreliminaries, marks: []string{bill.HeadDescription, bill.HeadTime},
				others: said(bill.HeadItem, bill.HeadOnce, bill.HeadUnit, bill.HeadRate, bill.HeadAmount, bill.HeadWithout, bill.HeadMarked),
			},
		},
		{
			Part: quotes.Sums, prefix: bill.OfSums, text: bill.HeadDescription, total: bill.HeadTotal, choice: bill.HeadNoSum,
			quantity: bill.HeadSum, standing: bill.HeadKind, money: []string{bill.HeadSum},
			outline: outline{
				name: bill.FormSums, marks: []string{bill.HeadDescription, bill.HeadKind},
				others: said(bill.HeadItem, bill.HeadSum, bill.HeadProfit, bill.HeadProfitSum, bill.HeadAttendance, bill.HeadTotal, bill.HeadNoSum),
			},
		},
		{
			Part: quotes.Dayworks, prefix: bill.OfDayworks, text: bill.HeadTrade, total: bill.HeadTotal, choice: bill.HeadWithout,
			money: []string{bill.HeadRate},
			outline: outline{
				name: bill.FormDayworks, marks: []string{bill.HeadTrade, bill.HeadHours},
				others: said(bill.HeadRate, bill.HeadSum, bill.HeadAddition, bill.HeadTotal, bill.HeadWithout),
			},
		},
	}
}

// row is one row of a part that is a line, as it came back.
type row struct {
	quotes.Offered
	ref     string // under Item
	section string // key of the section it stands in, as it is printed over it
	stage   string
	form    string // fingerprint of the form it is of
}

// sheet is a part as it came back.
type sheet struct {
	part
	table    table
	sections []quotes.Section
	rows     []row
	totals   []quotes.Total // under the lines

	collected []quotes.Total // in the collection at the end
}

// sheetOf reads every row below the headings of a part. Of measured work the rows
// that name a section are told by having a key and a title and nothing else;
// where sections are known, only theirs count.
func (r *reader) sheetOf(p part, t table, known []quotes.Section) sheet {
	s := sheet{part: p, table: t}
	var hidden []int
	section := ""
	rows := t.rows()
	s.rows = make([]row, 0, len(rows))
	for _, l := range rows {
		if l.Hidden && !r.nothing(t, l) {
			hidden = append(hidden, l.Row)
		}
		item, text := t.text(l, bill.HeadItem, r.book.Date1904), t.text(l, p.text, r.book.Date1904)
		id := t.text(l, bill.HeadID, r.book.Date1904)
		switch {
		case id == "" && r.nothing(t, l):
		case id == "" && carriedOn(text):
			of := string(p.Part)
			if p.Part == quotes.Work && item == "" {
				of = sectionTotalled(text, section, s.sections)
			}
			if f := r.figureIn(t, l, p.total); f.State != quotes.Missing {
				s.totals = append(s.totals, quotes.Total{Of: of, Figure: f})
			}
		case id == "" && p.Part == quotes.Work && r.only(t, l, bill.HeadItem, p.text) && isSection(item, text, known):
			section = keyIn(item, known)
			s.sections = append(s.sections, quotes.Section{Section: section, Title: text})
		case id == "" && p.Part == quotes.Work && r.only(t, l, bill.HeadItem, p.text, p.total) && isSection(item, text, s.sections):
			if f := r.figureIn(t, l, p.total); f.State != quotes.Missing { // of the collection at the end
				s.collected = append(s.collected, quotes.Total{Of: keyIn(item, s.sections), Figure: f})
			}
		case id == "" && (alike(text, notInTotal) || alike(text, collection)):
		default:
			s.rows = append(s.rows, r.row(s, l, id, item, section))
		}
	}
	r.hidden(t.page.Name, hidden)
	return s
}

// row is a line as it came back.
func (r *reader) row(s sheet, l grid.Line, id, item, section string) row {
	p, t := s.part, s.table
	out := row{ref: item, section: section, stage: t.text(l, bill.HeadStage, r.book.Date1904), form: t.text(l, bill.HeadForm, r.book.Date1904)}
	o := &out.Offered
	o.At, o.Part = r.at(t.page.Name, l.Row, 0), p.Part
	o.ID, o.Mark = id, t.text(l, bill.HeadMark, r.book.Date1904)
	if o.Description = r.asTyped(t.cell(l, p.text)); o.Description == "" && id == "" {
		o.Description = item
	}
	o.Standing = r.asTyped(t.cell(l, p.standing))
	o.Rate, o.Amount = r.figureIn(t, l, bill.HeadRate), r.figureIn(t, l, p.total)
	o.Choice = choiceOf(t.text(l, p.choice, r.book.Date1904))
	o.Remark = r.long(t.cell(l, bill.HeadRemarks))
	o.Quantity = r.figureIn(t, l, p.quantity)
	o.Unit = measure.Unit(r.asTyped(t.cell(l, p.unit)))
	switch p.Part {
	case quotes.Work:
		if o.Amount.State == quotes.Words && alike(o.Amount.Text, string(job.RateOnly)) {
			o.Amount.State, o.Amount.Text = quotes.Missing, "" // the form's own words
		}
	case quotes.Preliminaries:
		o.Once, o.Time = r.figureIn(t, l, bill.HeadOnce), o.Quantity
	case quotes.Sums:
		o.Unit = measure.Sums
		o.Profit, o.Attendance = r.figureIn(t, l, bill.HeadProfit), r.figureIn(t, l, bill.HeadAttendance)
	case quotes.Dayworks:
		o.Addition = r.figureIn(t, l, bill.HeadAddition)
		if o.Quantity = r.figureIn(t, l, bill.HeadHours); o.Quantity.State != quotes.Missing {
			o.Unit = measure.Hour
		} else if o.Quantity = r.figureIn(t, l, bill.HeadSum); o.Quantity.State != quotes.Missing || id != "" {
			o.Unit = measure.Sums
		}
	}
	leftOpen := p.Part == quotes.Preliminaries && alike(o.Standing, bill.TimeOpen) || p.Part == quotes.Sums && alike(o.Standing, string(job.Quotation))
	if o.Quantity.Is() && !leftOpen {
		o.Fixed.Quantity = o.Quantity.Value
	}
	return out
}

// asTyped is a cell's text letter by letter, since marks are reckoned from it.
func (r *reader) asTyped(d grid.Datum) string {
	if d.Kind == grid.Text {
		return d.Raw
	}
	return templates.Shown(d, r.book.Date1904)
}

// long is a cell's text, its line breaks kept.
func (r *reader) long(d grid.Datum) string { return templates.Tidy(r.asTyped(d)) }

// nothing reports a row without anything under the headings of the table, or
// with formulas alone that come to nothing.
func (r *reader) nothing(t table, l grid.Line) bool { return r.only(t, l) }

// only reports a row that has nothing under the headings of the table but these.
func (r *reader) only(t table, l grid.Line, headings ...string) bool {
	for h, col := range t.cols {
		d := l.Cell(col)
		if d.IsBlank() || d.Kind == grid.Text && templates.Single(d.Raw) == "" || contains(headings, h) {
			continue
		}
		return false
	}
	return true
}

func contains(list []string, s string) bool {
	for _, l := range list {
		if l == s {
			return true
		}
	}
	return false
}

// carriedOn reports the row that closes a section or a part.
func carriedOn(text string) bool {
	return strings.Contains(templates.Folded(text), templates.Folded(carried))
}

// What the bill and the form say of rows that are no lines.
const (
	carried    = "carried to summary"
	collection = "Collection"
	notInTotal = "Not in the total: options, and lines of which only the rate is asked"
)

// sectionTotalled is the section that a row of a total names by its title, or
// the one it stands in.
func sectionTotalled(text, here string, sections []quotes.Section) string {
	if _, title, ok := strings.Cut(text, ": "); ok {
		found, n := "", 0
		for _, s := range sections {
			if alike(s.Title, title) {
				found = s.Section
				n++
			}
		}
		if n == 1 {
			return found
		}
	}
	return here
}

// keyIn is the key of a section as the list has it, or as it was typed.
func keyIn(item string, sections []quotes.Section) string {
	for _, k := range sections {
		if sameKey(k.Section, item) {
			return k.Section
		}
	}
	return item
}

// isSection reports a row that has a key and a title, the key one of those
// known; nil knows none, and takes any.
func isSection(item, text string, known []quotes.Section) bool {
	if item == "" || text == "" {
		return false
	}
	if known == nil {
		return true
	}
	for _, k := range known {
		if sameKey(k.Section, item) {
			return true
		}
	}
	return false
}

// choiceOf is a word in place of a rate in its declared spelling, or as it was typed.
func choiceOf(text string) string {
	if text == "" {
		return ""
	}
	for _, c := range []string{bill.Included, bill.Excluded, bill.ByOwner} {
		if alike(c, text) {
			return c
		}
	}
	return text
}
