package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/offer"
)

// plant does what the rows of a firm's text say, in their order: what is answered
// besides prices, and the faults, among them what a form forbids and a spreadsheet
// program does not, once its lock is taken off.
func (q *demoQuote) plant() {
	for _, row := range q.rows {
		do, known := map[string]func(demoRow){
			"by": pass, "level": pass, "varies": pass, "rounds": pass, "time": pass, "profit": pass, "addition": pass, "silent": pass, "unsaid": pass,
			"offer": q.offered, "stated": q.offered, "qualification": q.qualify, "remark": q.remark,
			"rate": q.rate, "words": q.words, "blank": q.blank, "excluded": q.choose, "by owner": q.choose, "included": q.choose,
			"amount": q.amount, "point": q.point, "section": q.section,
			"quantity": q.quantity, "given": q.quantity, "unit": q.unit, "description": q.describe, "standing": q.stand,
			"insert": q.insert, "delete": q.remove,
			"sum": q.sum, "beside": q.beside,
		}[row.does]
		if !known {
			panic(fmt.Sprintf("a quote of the demonstration, %q, does %q", q.name, row.does))
		}
		do(row)
	}
}

// pass is of rows that prices follow from, and of what is left unanswered.
func pass(demoRow) {}

// mayAlter is a form whose lines may be altered.
func mayAlter(f estimate.Form) estimate.Form {
	f.Bill.Sections = slices.Clone(f.Bill.Sections)
	for i := range f.Bill.Sections {
		f.Bill.Sections[i].Lines = slices.Clone(f.Bill.Sections[i].Lines)
	}
	f.Bill.Preliminaries, f.Bill.Sums, f.Bill.Dayworks = slices.Clone(f.Bill.Preliminaries), slices.Clone(f.Bill.Sums), slices.Clone(f.Bill.Dayworks)
	return f
}

// place is the lines that one of the form stands among, and where.
func (q *demoQuote) place(id string) (*[]bill.FormLine, int) {
	all := []*[]bill.FormLine{&q.form.Bill.Preliminaries, &q.form.Bill.Sums, &q.form.Bill.Dayworks}
	for i := range q.form.Bill.Sections {
		all = append(all, &q.form.Bill.Sections[i].Lines)
	}
	for _, lines := range all {
		if i := slices.IndexFunc(*lines, func(n bill.FormLine) bool { return n.ID == id }); i >= 0 {
			return lines, i
		}
	}
	panic(fmt.Sprintf("a quote of the demonstration, %q, names the line %q, and the form has none", q.name, id))
}

func (q *demoQuote) line(id string) *bill.FormLine {
	lines, i := q.place(id)
	return &(*lines)[i]
}

// answer alters the answer to a line.
func (q *demoQuote) answer(id string, alter func(*sheets.Answer)) {
	a := q.answers.Lines[id]
	alter(&a)
	q.answers.Lines[id] = a
}

// reckons is what a line of work comes to by its rate, as the form reckons it.
func (q *demoQuote) reckons(id string) decimal.Decimal {
	return money.Round(q.line(id).Quantity.Mul(q.answers.Lines[id].Rate.Number)).Decimal()
}

func (q *demoQuote) offered(row demoRow) {
	if row.with != asReckoned {
		q.answers.Offer[row.on] = demoAnswer(row.with)
	}
}

func (q *demoQuote) qualify(row demoRow) {
	said := sheets.Qualified{Of: row.on, Text: row.with}
	if text, worth, ok := strings.Cut(row.with, " | "); ok {
		said.Text, said.Amount = text, demoAnswer(worth)
	}
	q.answers.Qualifications = append(q.answers.Qualifications, said)
}

func (q *demoQuote) remark(row demoRow) {
	q.answer(row.on, func(a *sheets.Answer) { a.Remark = row.with })
}

// rate gives a line a rate of its own.
func (q *demoQuote) rate(row demoRow) {
	q.answer(row.on, func(a *sheets.Answer) { a.Rate = demoAnswer(row.with) })
}

// words puts words in place of a rate, and takes away the formula of the amount,
// which would show an error.
func (q *demoQuote) words(row demoRow) {
	q.answer(row.on, func(a *sheets.Answer) { a.Rate, a.Amount = demoAnswer(row.with), &grid.Cell{} })
}

// blank leaves a line without an answer.
func (q *demoQuote) blank(row demoRow) { q.answers.Lines[row.on] = sheets.Answer{} }

// choose takes the price of a line away and chooses the word that the row is of.
func (q *demoQuote) choose(row demoRow) { q.answers.Lines[row.on] = sheets.Answer{Choice: row.does} }

// amount types an amount over its formula, so much more than the form reckons.
func (q *demoQuote) amount(row demoRow) {
	typed := grid.Numeric(q.reckons(row.on).Add(demoNumber(row.with)), grid.Style{})
	q.answer(row.on, func(a *sheets.Answer) { a.Amount = &typed })
}

// point types the amount over its formula and moves the decimal point of the rate
// beside it by so many places to the right.
func (q *demoQuote) point(row demoRow) {
	typed := grid.Numeric(q.reckons(row.on), grid.Style{})
	q.answer(row.on, func(a *sheets.Answer) {
		a.Rate.Number = a.Rate.Number.Shift(int32(demoNumber(row.with).IntPart()))
		a.Amount = &typed
	})
}

// section types the total of a section over its formula, so much more than its
// lines come to. It stands below them in the text.
func (q *demoQuote) section(row demoRow) {
	i := slices.IndexFunc(q.form.Bill.Sections, func(s bill.FormSection) bool { return s.Section == row.on })
	total := demoNumber(row.with)
	for _, n := range q.form.Bill.Sections[i].Lines {
		switch a := q.answers.Lines[n.ID]; {
		case !n.Carried.InTotal():
		case a.Amount != nil:
			total = total.Add(a.Amount.Number)
		default:
			total = total.Add(q.reckons(n.ID))
		}
	}
	q.answers.Sections[row.on] = money.Round(total)
}

// quantity changes the quantity of a line, or the sum that the bill gives.
func (q *demoQuote) quantity(row demoRow) { q.line(row.on).Quantity = demoNumber(row.with) }

func (q *demoQuote) unit(row demoRow) { q.line(row.on).Unit = measure.Unit(row.with) }

func (q *demoQuote) describe(row demoRow) { q.line(row.on).Description = row.with }

func (q *demoQuote) stand(row demoRow) { q.line(row.on).Standing = row.with }

// insert puts a line in behind another, of one of its unit: "description | unit | rate".
func (q *demoQuote) insert(row demoRow) {
	says := strings.Split(row.with, " | ")
	if len(says) != 3 {
		panic(fmt.Sprintf("a quote of the demonstration, %q, puts in %q, which wants a description, a unit and a rate", q.name, row.with))
	}
	lines, i := q.place(row.on)
	id := "put in behind " + row.on
	*lines = slices.Insert(*lines, i+1, bill.FormLine{Carried: job.Measured,
		Fixed: bill.Fixed{ID: id, Description: says[0], Unit: measure.Unit(says[1]), Quantity: decimal.New(1, 0)}})
	q.answers.Lines[id] = sheets.Answer{Rate: demoAnswer(says[2])}
}

func (q *demoQuote) remove(row demoRow) {
	lines, i := q.place(row.on)
	*lines = slices.Delete(*lines, i, i+1)
}

// sum is what a letter asks for a line, a section or a part.
func (q *demoQuote) sum(row demoRow) {
	q.answer(row.on, func(a *sheets.Answer) { a.Sum = demoAnswer(row.with) })
}

// beside is what a letter puts in: "words | sum".
func (q *demoQuote) beside(row demoRow) {
	text, worth, _ := strings.Cut(row.with, " | ")
	q.answers.Lines[offer.OfBeside+row.on] = sheets.Answer{Text: text, Sum: demoAnswer(worth)}
}
