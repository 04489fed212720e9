package json

import (
	"futtock/estimate/quotes"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// Compared is the answer of the compare command.
type Compared struct {
	Schema    int       `json:"schema"`
	Bill      string    `json:"bill"`
	Vessel    string    `json:"vessel,omitempty"`
	Reference string    `json:"reference,omitempty"`
	Currency  string    `json:"currency,omitempty"`
	Errors    string    `json:"errors,omitempty"`
	Gaps      string    `json:"gaps,omitempty"`
	Low       *LowTest  `json:"low,omitempty"`
	Quotes    []Quoted  `json:"quotes,omitempty"`
	Sections  []Spread  `json:"sections,omitempty"`
	Lines     []Four    `json:"lines,omitempty"`
	Problems  []Problem `json:"problems"`
	Files     []string  `json:"files,omitempty"`
}

// Quoted is one quote, examined and levelled.
type Quoted struct {
	Workbook       string       `json:"workbook"`
	Firm           string       `json:"firm"`
	AsTendered     money.Amount `json:"as_tendered"`
	Corrected      money.Amount `json:"corrected"`
	TaxOut         money.Amount `json:"vat_taken_out"`
	Net            money.Amount `json:"before_vat"`
	Adjustments    []Adjusted   `json:"adjustments,omitempty"`
	Levelled       money.Amount `json:"levelled"`
	RankBefore     int          `json:"rank_before"`
	RankAfter      int          `json:"rank_after"`
	Marks          string       `json:"marks"`
	Weeks          string       `json:"weeks,omitempty"`
	Findings       []Found      `json:"findings"`
	Qualifications []string     `json:"qualifications,omitempty"`
}

// Adjusted is one step from a quote's net figure to its levelled one.
type Adjusted struct {
	Kind   string       `json:"kind"`
	Line   string       `json:"line,omitempty"`
	Text   string       `json:"text"`
	Amount money.Amount `json:"amount"`
}

// Found is one thing amiss in a quote, or to be asked.
type Found struct {
	Kind  string       `json:"kind"`
	Line  string       `json:"line,omitempty"`
	Sheet string       `json:"sheet,omitempty"`
	Cell  string       `json:"cell,omitempty"`
	Text  string       `json:"text"`
	Query string       `json:"query,omitempty"`
	Worth money.Amount `json:"worth"`
}

// Spread is what a section comes to across quotes, levelled.
type Spread struct {
	Section   string         `json:"section"`
	Title     string         `json:"title"`
	Yardstick *money.Amount  `json:"yardstick,omitempty"`
	Levelled  []money.Amount `json:"levelled"`
}

// Four is one line of the bill with four figures of every quote.
type Four struct {
	Line    string   `json:"line"`
	Figures []Figure `json:"figures"`
}

// Figure is one line of one quote.
type Figure struct {
	Answer     string        `json:"answer"`
	AsTendered *money.Amount `json:"as_tendered,omitempty"`
	Corrected  money.Amount  `json:"corrected"`
	Levelled   money.Amount  `json:"levelled"`
	Why        []string      `json:"why,omitempty"`
}

// LowTest is a published rule for prices that are abnormally low.
type LowTest struct {
	Rule    string       `json:"rule"`
	Applies bool         `json:"applies"`
	Limit   money.Amount `json:"limit"`
	Ask     []string     `json:"ask_for_an_explanation,omitempty"`
}

// OfComparison is a comparison as it is written.
func OfComparison(c quotes.Comparison, problems problem.List) Compared {
	out := Compared{Schema: Schema, Bill: c.Sent.Book, Vessel: c.Sent.Vessel, Reference: c.Sent.Reference, Currency: c.Sent.Currency,
		Errors: string(c.Terms.Errors), Gaps: string(c.Terms.Gaps), Problems: Problems(problems)}
	if problems.HasErrors() {
		return out
	}
	out.Low = &LowTest{Rule: string(c.Low.Rule), Applies: c.Low.Applies, Limit: c.Low.Limit}
	for i, o := range c.Offers {
		out.Quotes = append(out.Quotes, quoted(o))
		if c.Low.Applies && c.Low.Low[i] {
			out.Low.Ask = append(out.Low.Ask, o.Name)
		}
	}
	for _, s := range c.Sections {
		out.Sections = append(out.Sections, Spread{s.Key, s.Title, known(s.Yardstick), s.Levelled})
	}
	for _, r := range c.Rows {
		f := Four{Line: r.Line.ID}
		for _, x := range r.Cells {
			f.Figures = append(f.Figures, Figure{string(x.State), known(x.AsTendered), x.Corrected, x.Levelled, x.Why})
		}
		out.Lines = append(out.Lines, f)
	}
	return out
}

// known is an amount where there is one.
func known(m quotes.Money) *money.Amount {
	if !m.Known {
		return nil
	}
	return &m.Amount
}

func quoted(o quotes.Offer) Quoted {
	q := Quoted{Workbook: o.Book, Firm: o.Name, AsTendered: o.AsTendered, Corrected: o.Corrected, TaxOut: o.TaxOut, Net: o.Net, Levelled: o.Levelled,
		RankBefore: o.RankBefore, RankAfter: o.RankAfter, Marks: o.Marks.StringFixed(2), Findings: []Found{}}
	if o.Weeks.Known {
		q.Weeks = o.Weeks.Weeks.String()
	}
	for _, a := range o.Adjustments {
		q.Adjustments = append(q.Adjustments, Adjusted{string(a.Kind), a.ID, a.Text, a.Amount})
	}
	for _, f := range o.Findings {
		q.Findings = append(q.Findings, Found{string(f.Kind), f.ID, f.At.Sheet, f.At.Address(), f.Text, f.Query, f.Worth})
	}
	for _, n := range o.Qualifications {
		q.Qualifications = append(q.Qualifications, n.Text)
	}
	return q
}
