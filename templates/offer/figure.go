package offer

import (
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/quotes"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/templates"
	"futtock/templates/grid"
)

func columnName(n int) string { return origin.Column(n) }

// figure is what stands in a cell for money or a number. A date is words: a
// spreadsheet makes one of 6-3, and its day number is nobody's rate.
func (r *reader) figure(d grid.Datum, at origin.Cell) quotes.Figure {
	f := quotes.Figure{At: at}
	switch {
	case d.Kind == grid.Fault:
		f.State, f.Text = quotes.Faulty, templates.Single(d.Raw)
	case d.Kind == grid.Blank && d.IsFormula():
		f.State, f.Text = quotes.Faulty, "="+templates.Single(d.Formula)
	case d.Kind == grid.Number && !templates.IsDate(d):
		f.State, f.Value = quotes.Given, d.Value
		if d.IsFormula() {
			f.State = quotes.Reckoned
		}
	default:
		if f.Text = templates.Single(templates.Shown(d, r.book.Date1904)); f.Text == "" {
			break
		}
		f.State = quotes.Words
		if d.Kind == grid.Text {
			f.Value, f.Plain = plainly(f.Text)
		}
	}
	return f
}

// figureIn is the figure under a heading of a row.
func (r *reader) figureIn(t table, l grid.Line, heading string) quotes.Figure {
	if !t.has(heading) {
		return quotes.Figure{}
	}
	return r.figure(t.cell(l, heading), r.at(t.page.Name, l.Row, t.cols[heading]))
}

var (
	// A comma before one or two digits at the end can part no thousands.
	commaPoint = regexp.MustCompile(`^(-?)(\d+|[1-9]\d{0,2}(?:\.\d{3})+),(\d{1,2})$`)
	moneySigns = regexp.MustCompile(`(?i)£|€|\$|\b(?:GBP|EUR|USD|DKK|NOK|SEK|CHF)\b`)
	timeWords  = regexp.MustCompile(`(?i) ?(?:weeks?|wks?|days?)\.?$`)
)

// plainly is the number that a text says and cannot mean otherwise: 1,234.50,
// £ 12.50, 12,50, 1.234,50, 5 % (a fraction), 32 weeks.
func plainly(text string) (decimal.Decimal, bool) {
	if n, ok := templates.ShareIn(text); ok {
		return n, true
	}
	text = strings.TrimSpace(moneySigns.ReplaceAllString(text, ""))
	text = timeWords.ReplaceAllString(text, "")
	text = strings.TrimSuffix(strings.TrimSuffix(text, "/-"), ".-")
	if m := commaPoint.FindStringSubmatch(text); m != nil {
		text = m[1] + strings.ReplaceAll(m[2], ".", "") + "." + m[3]
	}
	n, err := measure.ParseNumber(text)
	return n, err == nil
}
