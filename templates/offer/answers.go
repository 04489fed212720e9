package offer

import (
	"fmt"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/quotes"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
)

// answer is what stands beside a label.
type answer struct {
	grid.Datum
	at origin.Cell
}

// answers are those of one sheet or several, by the folded label; of two that
// are alike the first that is not blank.
type answers map[string]answer

// reckonedAnswers are labels beside which a formula stands: they show in which
// column answers are, where one has been put in before it.
var reckonedAnswers = []string{"Total of the lines", "Still without a rate", SaidTyped}

// answer reads the labels of a sheet, the first text of each row, with what
// stands beside them: in the next column, or in that of the answers reckoned.
func (r *reader) answer(p *grid.Page, into answers) {
	col := 0
	for _, l := range p.Rows {
		if len(l.Cells) > 1 && l.Cells[1].IsFormula() && slices.ContainsFunc(reckonedAnswers, func(n string) bool { return alike(n, l.Cells[0].Raw) }) {
			col = l.Cells[1].Col
			break
		}
	}
	for _, l := range p.Rows {
		if len(l.Cells) == 0 || l.Cells[0].Kind != grid.Text {
			continue
		}
		d := l.Cells[0]
		key := templates.Folded(d.Raw)
		beside := d.Col + 1
		if col > d.Col {
			beside = col
		}
		if had, twice := into[key]; !twice || had.IsBlank() {
			into[key] = answer{l.Cell(beside), r.at(p.Name, l.Row, beside)}
		}
	}
}

// find is the answer to the first of labels that has one.
func (a answers) find(labels []string) (answer, bool) {
	for _, l := range labels {
		if got, ok := a[templates.Folded(l)]; ok && !got.IsBlank() {
			return got, true
		}
	}
	return answer{}, false
}

// asked reports how many of the labels are there, answered or not.
func (a answers) asked(labels ...string) int {
	n := 0
	for _, l := range labels {
		if _, ok := a[templates.Folded(l)]; ok {
			n++
		}
	}
	return n
}

// textOf is an answer in words, its line breaks kept.
func (r *reader) textOf(a answers, labels ...string) (string, bool) {
	got, ok := a.find(labels)
	if !ok {
		return "", false
	}
	text := r.long(got.Datum)
	return text, text != ""
}

// dayOf is an answer that is a date. One that cannot be read as such is put down.
func (r *reader) dayOf(a answers, labels ...string) (time.Time, bool) {
	got, ok := a.find(labels)
	if text, _ := r.textOf(a, labels...); !ok || text == "" {
		return time.Time{}, false
	}
	day, err := templates.DayIn(got.Datum, r.book.Date1904)
	if err != nil {
		r.say(problem.QuoteAnswer, got.at, fmt.Sprintf("%s under %q; a date such as 2026-03-12 is wanted", err, labels[0]))
		return time.Time{}, false
	}
	return day, true
}

// shareOf is an answer that is a percentage: 20 %, 0.2 shown so, or 20.
func (r *reader) shareOf(a answers, labels ...string) (money.Percent, bool) {
	got, ok := a.find(labels)
	if !ok {
		return money.Percent{}, false
	}
	f := r.figure(got.Datum, got.at)
	switch {
	case f.State == quotes.Missing:
		return money.Percent{}, false
	case f.Is() && (templates.IsShare(got.Datum) || f.Value.LessThanOrEqual(decimal.New(1, 0))) || f.Plain && isShareText(f.Text):
		return money.NewPercent(f.Value.Shift(2)), true
	case f.Is() || f.Plain:
		return money.NewPercent(f.Value), true
	}
	r.say(problem.QuoteAnswer, got.at, fmt.Sprintf("%q under %q is not a percentage; one such as 20 %% is wanted", clipped(f.Text), labels[0]))
	return money.Percent{}, false
}

func isShareText(text string) bool {
	_, ok := templates.ShareIn(text)
	return ok
}

// figureOf is an answer that is a figure.
func (r *reader) figureOf(a answers, labels ...string) quotes.Figure {
	got, ok := a.find(labels)
	if !ok {
		return quotes.Figure{}
	}
	return r.figure(got.Datum, got.at)
}
