package main

import (
	"cmp"
	"fmt"
	"hash/fnv"
	"io/fs"
	"path"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates"
	"futtock/templates/demo"
	"futtock/templates/grid"
	"futtock/templates/offer"
)

// demoFirm is one firm of the demonstration as its text has it.
type demoFirm struct {
	name string // of the file
	rows []demoRow
}

// demoRow is one row of the text: what it does, on which line or question, with
// what, and why.
type demoRow struct{ does, on, with, why string }

// demoFirms is the firms that price the bill of the demonstration, by name.
func demoFirms() ([]demoFirm, error) {
	files := demo.Files()
	names, err := fs.Glob(files, "quotes/*.tsv")
	if err != nil {
		return nil, err
	}
	var out []demoFirm
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		out = append(out, parseFirm(strings.TrimSuffix(path.Base(name), ".tsv"), string(text)))
	}
	return out, nil
}

// parseFirm reads the text of a firm, the headings passed over.
func parseFirm(name, text string) demoFirm {
	f := demoFirm{name: name}
	for _, row := range templates.ParseTSV(name, text).Rows[1:] {
		cells := append(slices.Clone(row.Cells), "", "", "")
		f.rows = append(f.rows, demoRow{cells[0], cells[1], cells[2], cells[3]})
	}
	return f
}

// returned is the workbook of a firm's quote: the form filled in, or the form for
// a letter with its letter typed in.
func (f demoFirm) returned(r estimate.Result, form estimate.Form) *grid.Book {
	q := &demoQuote{demoFirm: f, form: mayAlter(form), answers: sheets.Answers{Lines: map[string]sheets.Answer{}, Sections: map[string]money.Amount{}, Offer: map[string]grid.Cell{}}}
	if f.said("by", "") == "letter" {
		sent, _ := offer.Sent(templates.AsRead("unpriced.xlsx", sheets.Unpriced(form)))
		q.plant()
		return sheets.FromLetter(sent, q.answers)
	}
	q.price(asksOf(r))
	q.plant()
	if f.said("offer", bill.AskTotal) == asReckoned {
		sent, _ := offer.Sent(templates.AsRead("unpriced.xlsx", sheets.Unpriced(form)))
		back, _ := offer.Quote(templates.AsRead("quote.xlsx", sheets.Returned(q.form, q.answers)), sent)
		q.answers.Offer[bill.AskTotal] = grid.Numeric(back.Stated.Value, grid.Style{})
	}
	return sheets.Returned(q.form, q.answers)
}

// asReckoned is a total offered that is the one the form comes to.
const asReckoned = "as reckoned"

// said is what the text of a firm has for something, on whatever it is where that
// is blank; blank where it has nothing.
func (f demoFirm) said(does, on string) string {
	for _, row := range f.rows {
		if row.does == does && (row.on == on || on == "") {
			return row.with
		}
	}
	return ""
}

// yardAsks is what the yard itself asks for a line.
type yardAsks struct {
	rate, once, time decimal.Decimal
	sum, attendance  decimal.Decimal
}

// asksOf is what the yard asks for every line of the form, by its id.
func asksOf(r estimate.Result) map[string]yardAsks {
	out := map[string]yardAsks{}
	for _, i := range r.Priced.Items {
		out[bill.OfWork+i.Ref] = yardAsks{rate: i.Rate.Decimal()}
	}
	for _, p := range r.Priced.Preliminaries {
		id := bill.OfPreliminaries + p.Row.Ref
		a := out[id]
		if p.Unit == measure.Weeks || p.Unit == measure.Days {
			a.rate, a.time = p.Rate.Decimal(), p.Quantity
		} else {
			a.once = a.once.Add(p.Amount.Decimal())
		}
		out[id] = a
	}
	for _, s := range r.Priced.Sums {
		out[bill.OfSums+s.Row.Ref] = yardAsks{sum: s.Amount.Decimal(), attendance: s.Attendance.Decimal()}
	}
	for n, d := range r.Priced.Dayworks {
		out[fmt.Sprint(bill.OfDayworks, n+1)] = yardAsks{rate: d.Charge.Decimal()}
	}
	return out
}

// demoQuote is a quote while it is priced and its faults are planted.
type demoQuote struct {
	demoFirm
	form    estimate.Form // with lines altered
	answers sheets.Answers
}

// price answers every line of the form at the yard's own price by the levels of the firm.
func (q *demoQuote) price(yard map[string]yardAsks) {
	for _, s := range q.form.Bill.Sections {
		for _, n := range s.Lines {
			q.answers.Lines[n.ID] = sheets.Answer{Rate: q.at(yard[n.ID].rate, n, s.Section)}
		}
	}
	for _, n := range q.form.Bill.Preliminaries {
		y := yard[n.ID]
		a := sheets.Answer{Rate: q.at(y.rate, n, string(quotes.Preliminaries)), Once: q.at(y.once, n, string(quotes.Preliminaries))}
		if n.Open && !y.time.IsZero() {
			a.Time = grid.Numeric(y.time.Mul(demoNumber(cmp.Or(q.said("time", ""), "1"))).Round(0), grid.Style{})
		}
		q.answers.Lines[n.ID] = a
	}
	for _, n := range q.form.Bill.Sums {
		y := yard[n.ID]
		a := sheets.Answer{Attendance: q.at(y.attendance, n, string(quotes.Sums)), Profit: demoShare(q.said("profit", ""))}
		if n.Open {
			a.Sum = q.at(y.sum, n, string(quotes.Sums))
		}
		q.answers.Lines[n.ID] = a
	}
	for _, n := range q.form.Bill.Dayworks {
		a := sheets.Answer{Rate: q.at(yard[n.ID].rate, n, string(quotes.Dayworks))}
		if n.Unit != measure.Hour {
			a = sheets.Answer{Addition: demoShare(q.said("addition", ""))}
		}
		q.answers.Lines[n.ID] = a
	}
}

// at is a price of the yard's at the level of the firm, a little off from line to
// line and rounded as the firm does; nothing where the yard asks nothing. Of the
// levels the most particular holds: that of the line, of how it is carried, of its
// section or part, of all.
func (q *demoQuote) at(price decimal.Decimal, n bill.FormLine, section string) grid.Cell {
	if price.IsZero() {
		return grid.Cell{}
	}
	carried := ""
	if n.Carried != job.Measured {
		carried = string(n.Carried)
	}
	price = price.Mul(q.level(n.ID, carried, section)).Mul(q.off(n.ID))
	if q.said("rounds", "") == "round figures" {
		return grid.Numeric(roundly(price), grid.Style{})
	}
	return grid.Numeric(price.Round(2), grid.Style{})
}

// level is the first of these levels that the text has, else that of all.
func (q *demoQuote) level(of ...string) decimal.Decimal {
	for _, o := range append(of, "all") {
		if text := q.said("level", o); o != "" && text != "" {
			return demoNumber(text)
		}
	}
	return decimal.New(1, 0)
}

// off is by what the firm is off its level on one line: a hash of the two takes
// it to one of 201 places either way.
func (q *demoQuote) off(id string) decimal.Decimal {
	h := fnv.New32a()
	fmt.Fprint(h, q.name, "/", id)
	place := decimal.New(int64(h.Sum32()%201)-100, -2)
	return decimal.New(1, 0).Add(place.Mul(demoShare(q.said("varies", "")).Number))
}

// roundly rounds a price as people do: to 0.05 below ten, 0.50 below a hundred,
// 5 below a thousand, 25 above.
func roundly(price decimal.Decimal) decimal.Decimal {
	step := decimal.New(25, 0)
	for _, s := range []struct{ below, step string }{{"10", "0.05"}, {"100", "0.5"}, {"1000", "5"}} {
		if price.LessThan(demoNumber(s.below)) {
			step = demoNumber(s.step)
			break
		}
	}
	return price.DivRound(step, 0).Mul(step)
}

// demoNumber is a number of the text, which is ours and says one.
func demoNumber(text string) decimal.Decimal {
	n, err := measure.ParseNumber(text)
	if err != nil {
		panic(fmt.Sprintf("a quote of the demonstration has %q for a number: %v", text, err))
	}
	return n
}

// demoShare is a percentage of the text.
func demoShare(text string) grid.Cell {
	n, ok := templates.ShareIn(cmp.Or(text, "0%"))
	if !ok {
		panic(fmt.Sprintf("a quote of the demonstration has %q for a percentage", text))
	}
	return grid.Numeric(n, grid.Style{})
}

// demoAnswer is an answer on the sheet of the offer: a day, a share, a number or words.
func demoAnswer(text string) grid.Cell {
	if day, err := time.Parse(time.DateOnly, text); err == nil {
		return grid.Dated(day, grid.Style{})
	}
	if n, ok := templates.ShareIn(text); ok {
		return grid.Numeric(n, grid.Style{})
	}
	if n, err := decimal.NewFromString(text); err == nil {
		return grid.Numeric(n, grid.Style{})
	}
	return grid.Textual(text, grid.Style{})
}
