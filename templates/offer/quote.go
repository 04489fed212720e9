package offer

import (
	"fmt"
	"slices"

	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
)

// Quote reads what one firm returned: a form of the bill that was sent, or a
// letter that the client typed into the form for one. What is found is handed on
// as it stands. An error on the list says that it is no quote of this bill, or that
// a column is gone without which nobody could tell what the firm asks.
func Quote(book grid.Workbook, sent quotes.Sent) (quotes.Quote, problem.List) {
	q := &quoting{reader: read(book), sent: sent, out: quotes.Quote{Book: book.Name, At: read(book).at("", 0, 0)}, byID: map[string]int{}, byRef: map[string]int{}}
	for i, l := range sent.Lines {
		q.byID[l.ID] = i
		q.byRef[string(l.Part)+"/"+templates.Folded(refOf(l))] = i
	}
	if t, ok := q.find(letterSections()); ok {
		q.letter(t)
	} else if !q.form() {
		return q.out, q.list()
	}
	q.offer()
	q.qualified()
	q.identity()
	q.notes()
	q.unread()
	return q.out, q.list()
}

// refOf is what a line is called on the sheet: its Ref, or of a daywork what it is of.
func refOf(l quotes.Line) string {
	if l.Part == quotes.Dayworks {
		return l.Description
	}
	return l.Ref
}

// quoting is a quote while it is read.
type quoting struct {
	*reader
	sent  quotes.Sent
	out   quotes.Quote
	byID  map[string]int
	byRef map[string]int
	said  answers
}

// form reads the lines of a returned form; false where it is none.
func (q *quoting) form() bool {
	lines, ours := 0, false
	for _, p := range parts() {
		t, ok := q.find(p.outline)
		wanted := q.partSent(p.Part)
		switch {
		case !ok && p.Part == quotes.Dayworks && q.dayRates():
			continue
		case !ok && wanted:
			if page, there := q.named(p.name); there {
				q.say(problem.QuoteHeading, q.at(page.Name, 0, 0), fmt.Sprintf("the headings %s are not there, so that no line of this sheet can be read", quoted(p.marks)))
				q.take(page)
			} else {
				q.say(problem.QuoteSheet, q.at("", 0, 0), fmt.Sprintf("the sheet %q is not there; its lines count as not priced", p.name))
			}
			continue
		case !ok:
			continue
		}
		ours = ours || t.has(bill.HeadID) || t.has(bill.HeadRate)
		if missing := q.lacks(t, p.money); len(missing) > 0 {
			q.say(problem.QuoteHeading, q.at(t.page.Name, t.head, 0), fmt.Sprintf("the heading %s is not there, so that what is asked cannot be read", quoted(missing)))
		}
		lines += q.lines(q.sheetOf(p, t, q.sent.Sections), t)
	}
	switch {
	case !ours:
		q.found = nil // what else was found is of a workbook of another sort
		q.say(problem.NotAQuote, q.at("", 0, 0), "no sheet holds the headings of a form or of a letter typed into one; the form as it was sent out is wanted")
		return false
	case lines == 0 && !q.found.HasErrors():
		q.say(problem.QuoteEmpty, q.at("", 0, 0), "no line of the bill stands in it; the form as it was sent out is wanted")
	}
	q.summary()
	return true
}

// partSent reports a part of which the bill has lines.
func (q *quoting) partSent(p quotes.Part) bool {
	for _, l := range q.sent.Lines {
		if l.Part == p {
			return true
		}
	}
	return false
}

// lines takes the lines of a part, and returns how many are of the bill. Where
// the column of ids is gone, or none is left in it, a line is known by its Ref.
func (q *quoting) lines(s sheet, t table) int {
	if len(q.out.Lines)+len(s.rows) > mostLines {
		q.say(problem.TooMuch, q.at(t.page.Name, 0, 0), fmt.Sprintf("there are more than %d lines; the form as it was sent out is wanted", mostLines))
		return 0
	}
	ids := 0
	for _, r := range s.rows {
		if r.ID != "" {
			ids++
		}
	}
	ours := 0
	q.out.Lines = slices.Grow(q.out.Lines, len(s.rows))
	for i := range s.rows {
		r := &s.rows[i]
		if ids == 0 {
			ref := r.ref
			if s.Part == quotes.Dayworks {
				ref = r.Description
			}
			if i, ok := q.byRef[string(s.Part)+"/"+templates.Folded(ref)]; ok && ref != "" {
				r.ID = q.sent.Lines[i].ID
			}
		}
		if _, ok := q.byID[r.ID]; ok {
			ours++
		}
		if q.out.Fingerprint == "" {
			q.out.Fingerprint = r.form
		}
		q.out.Lines = append(q.out.Lines, r.Offered)
	}
	if ids == 0 && ours > 0 {
		q.say(problem.QuoteIDs, q.at(t.page.Name, t.head, 0), "the ids of the lines are gone; each line is known by what stands under Item")
	}
	q.out.Totals = append(q.out.Totals, s.totals...)
	for _, c := range s.collected {
		q.total(c)
	}
	q.besides(t, t.rows())
	return ours
}

// total adds a total carried elsewhere, unless it is the one that stands already.
func (q *quoting) total(t quotes.Total) {
	for _, had := range q.out.Totals {
		if had.Of == t.Of && had.Is() && t.State == quotes.Reckoned && had.Value.Equal(t.Value) {
			return
		}
	}
	q.out.Totals = append(q.out.Totals, t)
}

// What the summary says of the parts and of the whole.
const (
	headSummary = "Summary"
	saidWork    = "Measured work"
	saidPrelims = "Preliminaries"
	saidSums    = "Provisional sums, prime cost sums, quotations and dayworks"
	saidWhole   = "Total of this offer"
)

// summary reads the totals as they are carried there. Sums and dayworks have one
// between them, which is read where the bill has one of them alone.
func (q *quoting) summary() {
	t, ok := q.find(outline{name: bill.FormSummary, marks: []string{headSummary, bill.HeadAmount}})
	if !ok {
		return
	}
	for _, l := range t.rows() {
		text := t.text(l, headSummary, q.book.Date1904)
		f := q.figureIn(t, l, bill.HeadAmount)
		key := single(l.Cell(t.cols[headSummary] - 1).Raw)
		if f.State == quotes.Missing {
			continue
		}
		switch {
		case alike(text, saidWhole):
			q.out.Totals = append(q.out.Totals, quotes.Total{Figure: f})
			q.out.Stated = f
		case key == "A" && alike(text, saidWork):
			q.total(quotes.Total{Of: string(quotes.Work), Figure: f})
		case key == "B" && alike(text, saidPrelims):
			q.total(quotes.Total{Of: string(quotes.Preliminaries), Figure: f})
		case key == "C" && alike(text, saidSums):
			if sums, days := q.partSent(quotes.Sums), q.partSent(quotes.Dayworks); sums != days {
				of := quotes.Sums
				if days {
					of = quotes.Dayworks
				}
				q.total(quotes.Total{Of: string(of), Figure: f})
			}
		case isSection(key, text, q.sent.Sections):
			q.total(quotes.Total{Of: keyIn(key, q.sent.Sections), Figure: f})
		}
	}
}

// dayRates reads rates for work by time and cost where the bill allows none.
func (q *quoting) dayRates() bool {
	t, ok := q.find(outline{name: bill.FormDayworks, marks: []string{bill.HeadTrade, bill.HeadRate, bill.HeadAddition}, not: []string{bill.HeadHours}, others: []string{bill.HeadRemarks}})
	if !ok {
		return false
	}
	for _, l := range t.rows() {
		d := quotes.DayRate{
			Of: t.text(l, bill.HeadTrade, q.book.Date1904), Rate: q.figureIn(t, l, bill.HeadRate), Addition: q.figureIn(t, l, bill.HeadAddition),
			Remark: t.text(l, bill.HeadRemarks, q.book.Date1904), At: q.at(t.page.Name, l.Row, 0),
		}
		if d.Rate.State == quotes.Missing && d.Addition.State == quotes.Missing && d.Remark == "" {
			continue
		}
		if q.out.DayRates = append(q.out.DayRates, d); len(q.out.DayRates) == mostDayRates {
			break
		}
	}
	return true
}
