// Package quotes compares the prices that others return for one bill, so that
// whoever pays can decide and defend it. The bill that went out and the quotes
// that came back go in, as they were read; out comes a Comparison: what is
// amiss with each, four figures a line (as tendered, corrected, levelled, and
// why), the order before and after, and what speaks for asking again.
//
// The figure as tendered is never overwritten. Corrections follow the one
// rule that was chosen before the quotes were opened (ErrorRule); levelling is
// for comparison only and changes no offer.
//
// A rate of 12.00 on 10 m with an amount of 130.00 beside it is corrected to
// 120.00 where the rate governs; 1,200.00 beside it would be a decimal point
// misplaced, and then the amount governs and the rate is 120.00.
package quotes

import (
	"cmp"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Part is the part of a bill that a line stands in.
type Part string

// The parts, in the order of the summary.
const (
	Work          Part = "measured work"
	Preliminaries Part = "preliminaries"
	Sums          Part = "sums"
	Dayworks      Part = "dayworks"
)

// Parts is the closed list in its printed order.
func Parts() []Part { return []Part{Work, Preliminaries, Sums, Dayworks} }

// Sent is the bill that quotes are measured against: the yard's priced bill, a
// bill to be priced as it went out, or one that the client's own surveyor filled in.
type Sent struct {
	Book        string // base name of the workbook
	Vessel      string
	Client      string
	Reference   string
	Currency    string
	Tendered    time.Time // tender date; zero where it is not said
	Paper       job.Paper // that the bill is printed on
	Fingerprint string    // of the form; blank in a priced bill, which has none
	Priced      bool      // lines bear rates
	Sections    []Section // of measured work, in order
	Lines       []Line    // by part, then in their order
	Contingency money.Amount
	HasHeld     bool    // whether the bill says what contingency the client holds
	Weeks       Stretch // of the programme; not known of a bill to be priced
	Stages      []Stage // of the programme, in order; none where it is not known
}

// Section is a section of measured work.
type Section struct{ Section, Title string }

// Line is one line of the bill that went out.
type Line struct {
	bill.Fixed
	Part    Part
	Ref     string // as printed
	Wording string // as printed; the Description, but of a preliminary of a priced bill, which has none that can be compared
	Section string // of measured work, and of a sum that says so
	Carried job.Carried
	Stage   string       // when it is done; blank where it is not said
	Given   bool         // its amount is given and is not for others to say: provisional and prime cost sums
	Rate    money.Amount // of the yardstick; nil where it bears none
	Amount  money.Amount // of the yardstick: of a sum with its profit and attendance
	Priced  bool         // it bears a price
	At      origin.Cell
}

// says is what the line says, of a priced bill too.
func (l Line) says() string { return cmp.Or(l.Description, l.Wording) }

// InTotal reports a line whose amount is added up.
func (l Line) InTotal() bool { return l.Carried.InTotal() }

// Stretch is a number of weeks that may not be known.
type Stretch struct {
	Weeks decimal.Decimal
	Known bool
}

// Stage is when one stage of the works runs, in weeks from the start on site.
type Stage struct {
	Stage    string
	From, To decimal.Decimal
}

// Quote is what one firm returned, as it was read: nothing in it is judged yet.
type Quote struct {
	Book           string // base name of the workbook
	Firm           string // blank where it is not said
	Lump           bool   // typed by the client from a letter, into a form for that
	Fingerprint    string // as it stands on the form; blank where it is gone
	Reference      string // tender reference as it stands there; blank where it is gone
	Lines          []Offered
	Totals         []Total   // of sections and parts, as they stand; of one that stands otherwise on the summary a second, from there
	DayRates       []DayRate // for work by time and cost where the bill allows none; nothing of them is in the total
	Tax            string    // bill.LeftOut, bill.AddedIn, or as it was typed; blank where it is not said
	TaxRate        money.Percent
	TaxRateGiven   bool
	Stated         Figure // total as the firm states it; of a form where none is typed, as it is reckoned there
	Words          string // the total in words; blank where it is not said
	Weeks          Figure
	Start          time.Time // earliest start on site; zero where it is not said
	Until          time.Time // last day on which it may be accepted; zero where it is not said
	Signed         string
	Dated          time.Time
	Qualifications []Qualification
	At             origin.Cell // the sheet where the offer is made
}

// Offered is one line as it came back. The unit is as it stands there, and may be
// none of the closed list. A line of a letter has only an Amount, and only those
// are there of which the letter says something: a line of the bill by its ID; the
// sum for all else of a section, without an ID, by its Section; that for all else
// of a part without either; and what the letter puts in, without an ID, NotInBill.
type Offered struct {
	bill.Fixed        // as it stands there now; the Quantity nil of what Standing leaves to others
	Mark       string // as it stands there
	Part       Part   // of the sheet it stands on
	Section    string // of a letter: key of the section whose sum of money it is, or NotInBill; else blank
	Quantity   Figure // of Fixed, as it was found: text there, or nothing, is seen here alone; of a quotation the sum that is asked for it
	Rate       Figure // for one of the unit; of a preliminary for one of the unit of time
	Once       Figure // of a preliminary: what is paid once
	Time       Figure // of a preliminary: how much of the unit of time
	Profit     Figure // of a sum: a fraction, 0.05 for 5 %
	Attendance Figure // of a sum
	Addition   Figure // of a daywork that is a sum of money: a fraction
	Amount     Figure // as it stands, reckoned or typed
	Choice     string // bill.Included, bill.Excluded, bill.ByOwner, or as it was typed
	Remark     string
	At         origin.Cell // of the row
}

// NotInBill is the Section of what a letter puts in that is not in the bill.
const NotInBill = "not in the bill"

// Figure is a cell that holds money or a number, as it was found.
type Figure struct {
	State State
	Value decimal.Decimal // of Given and Reckoned; of Words where Plain
	Text  string          // of Words and Faulty: what stands there
	Plain bool            // of Words: they read plainly as a number, such as "£ 1,234.50"
	At    origin.Cell
}

// State is how a Figure was found.
type State uint8

// The states of a cell.
const (
	Missing  State = iota // nothing stands there
	Given                 // a number somebody typed
	Reckoned              // a formula with a number for its stored result
	Words                 // text
	Faulty                // an error value, or a formula without a result
)

// Is reports a figure that is a number.
func (f Figure) Is() bool { return f.State == Given || f.State == Reckoned }

// Total is what a section or a part comes to, as it stands in a quote.
type Total struct {
	Of string // key of a section, or a Part; blank of the whole, as it is reckoned there
	Figure
}

// reckoned is the total of the whole as the form reckons it: where it is not
// there, what the firm states stands in its place.
func (q *Quote) reckoned() Figure {
	for _, t := range q.Totals {
		if t.Of == "" {
			return t.Figure
		}
	}
	return q.Stated
}

// DayRate is what a firm asks for work by time and cost.
type DayRate struct {
	Of       string // trade or kind of cost
	Rate     Figure // for an hour
	Addition Figure // on cost: a fraction
	Remark   string
	At       origin.Cell
}

// Qualification is what a firm cannot offer as described, or would do otherwise.
type Qualification struct {
	Number int    // in their order, from 1
	Of     string // item it is of, as typed
	Text   string
	Worth  Figure // what it would add to the total, or take off it, as the firm says
	At     origin.Cell
}
