package quotes

import (
	"github.com/shopspring/decimal"

	"futtock/rates/money"
	"futtock/rates/origin"
)

// ErrorRule says what is done where the figures of a quote contradict one another.
type ErrorRule string

// The rules. World Bank standard bidding documents, as adopted in public
// procurement rules: the rate governs the amount, unless its decimal point is
// plainly misplaced; parts govern totals. Hong Kong general conditions of
// tender: the tendered total never changes, and errors are adjusted within it.
const (
	RateGoverns ErrorRule = "rate"
	TotalStands ErrorRule = "total"
	ReportOnly  ErrorRule = "report"
)

// ErrorRules is the closed list.
func ErrorRules() []ErrorRule { return []ErrorRule{RateGoverns, TotalStands, ReportOnly} }

// GapRule says at what a line that a quote leaves out is levelled.
type GapRule string

// The rules. Usual practice, no published formula: whichever is chosen is said once, before.
const (
	AtYardstick GapRule = "yardstick" // price of the bill quotes are measured against
	AtMean      GapRule = "mean"      // of those who priced the line
	AtHighest   GapRule = "highest"   // of those who priced the line
)

// GapRules is the closed list.
func GapRules() []GapRule { return []GapRule{AtYardstick, AtMean, AtHighest} }

// LowRule is a published rule by which a price is so low that an explanation is asked for.
type LowRule string

// The rules, see Low.
const (
	Scottish LowRule = "scotland"
	Spanish  LowRule = "spain"
	NoLow    LowRule = "none"
)

// LowRules is the closed list.
func LowRules() []LowRule { return []LowRule{Scottish, Spanish, NoLow} }

// Terms is how the quotes are to be compared, chosen by whoever pays.
type Terms struct {
	Errors   ErrorRule
	Gaps     GapRule
	Low      LowRule
	Week     money.Amount  // what a week on site costs the client himself; nil: weeks are shown and not priced
	Discount money.Percent // a year, at which payments are discounted
	More     money.Percent // by how much more of a quantity balance is tried
	Above    money.Percent // a rate stands out where it is so much above the yardstick or the middle quote
	Below    money.Percent // or so much below
	Figures  []Priced      // what the client gives for qualifications
}

// Usual are the terms where nothing else is said.
func Usual() Terms {
	whole := func(n int64) money.Percent { return money.NewPercent(decimal.New(n, 0)) }
	return Terms{Errors: RateGoverns, Gaps: AtYardstick, Low: Scottish, Discount: whole(5), More: whole(25), Above: whole(50), Below: whole(35)}
}

// Priced is what the client reckons a qualification to be worth: added to the
// levelled figure of the quote, for comparison only; negative where it saves.
type Priced struct {
	Firm   string
	Text   string // of the qualification, matched without regard to case and spacing
	Amount money.Amount
	At     origin.Cell // where it was typed; zero where it was typed in no cell
}

// Meaning says the rule as documents print it, a whole sentence.
func (r ErrorRule) Meaning() string {
	switch r {
	case RateGoverns:
		return "Where figures differ the rate governs the amount, and parts govern totals; a decimal point plainly misplaced is set right."
	case TotalStands:
		return "Where figures differ the total as tendered stands, and the difference is spread over the rates of measured work."
	case ReportOnly:
		return "Where figures differ it is reported, and nothing is corrected."
	}
	panic("quotes: no such rule for errors: " + string(r))
}

// Meaning says the rule as documents print it, a whole sentence.
func (r GapRule) Meaning() string {
	switch r {
	case AtYardstick:
		return "What a quote leaves out is levelled at the price of the bill it is compared with, for comparison only."
	case AtMean:
		return "What a quote leaves out is levelled at the mean of those who priced it, for comparison only."
	case AtHighest:
		return "What a quote leaves out is levelled at the highest price of those who priced it, for comparison only."
	}
	panic("quotes: no such rule for gaps: " + string(r))
}
