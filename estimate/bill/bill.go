// Package bill casts the finished bill: the lines by section, preliminaries,
// sums and dayworks, contingency, price rises, VAT by code, and the total. Priced
// work, the contingency and the programme go in. Every later figure starts from
// printed ones, so that the bill casts by hand; what was lost or won by rounding
// stands in the Reconciliation.
//
//	A items, B preliminaries, C sums and dayworks, D contingency,
//	E price rises, net total, VAT by code, total
//
// VAT on a net total of 704.88 at 20 % is 140.98 to the nearest penny, 140.97
// rounded down (VAT Notice 700, section 17.5), and the total 845.86 or 845.85: net
// plus the rounded VAT.
package bill

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// Bill is the finished bill.
type Bill struct {
	Sections      []Section
	Preliminaries []Line
	Sums          []SumLine
	Dayworks      []DayworkLine
	Contingency   Contingency
	Items         money.Amount    // A
	Prelims       money.Amount    // B
	SumsDayworks  money.Amount    // C
	Held          money.Amount    // D; nil in the bill where it stands within the rates
	Rises         money.Amount    // E
	RiseDays      decimal.Decimal // from the tender date to the middle of the programme; nil where none is asked
	RiseFactor    decimal.Decimal // f, to six places; 1 where none is asked
	Net           money.Amount
	VAT           []Tax
	VATTotal      money.Amount
	Total         money.Amount
	Otherwise     *Otherwise // where a code has one
	Reconciled    []Reconciled
}

// Section is one section of the bill.
type Section struct {
	Section string
	Title   string
	Lines   []Line
	Total   money.Amount // of lines in the total
}

// Line is one line of the bill as printed.
type Line struct {
	Ref         string
	Description string
	Carried     job.Carried
	Quantity    decimal.Decimal
	Unit        measure.Unit
	Rate        money.Amount
	Amount      money.Amount // Quantity x Rate; of an option shown but not added, of a rate-only line nil
	VAT         string
	Funding     string
	Remark      string // provisional quantity, option, rate only, timber by owner
	Stage       string // when it is done; of a preliminary, from which to which it runs
}

// SumLine is a sum as printed.
type SumLine struct {
	Ref         string
	Section     string
	Description string
	Kind        job.SumKind
	Amount      money.Amount
	Profit      money.Percent
	ProfitSum   money.Amount
	Attendance  money.Amount
	Total       money.Amount
	VAT         string
	QuotedBy    string
	Stage       string
}

// DayworkLine is a daywork allowance as printed.
type DayworkLine struct {
	Of       string
	Quantity decimal.Decimal // hours, or nil for a sum of money
	Hours    bool
	Rate     money.Amount  // for an hour, its addition in it
	Sum      money.Amount  // of money, nil for hours
	Addition money.Percent // on Sum
	Total    money.Amount
	VAT      string
}

// Contingency is the client's sum as printed, or nothing where it stands
// within the rates. Parts stand by section, as the bill has them, then the
// preliminaries where it is on them too; there are none where no percentage is
// asked. One that is simulated is a single sum, with the Basis beside it.
type Contingency struct {
	Shown job.Shown
	Parts []ContingencyPart
	Risks []RiskPart
	Basis string // such as "simulated, at 80 %"; blank by percent
}

// ContingencyPart is the contingency on one section's total.
type ContingencyPart struct {
	Title   string
	On      money.Amount
	Percent money.Percent
	Amount  money.Amount
}

// RiskPart is what is held for one row that may be wanted.
type RiskPart struct {
	Ref         string
	Description string
	Amount      money.Amount
	Chance      money.Percent
	Held        money.Amount
}

// Tax is one code of VAT on the bill.
type Tax struct {
	Code     string
	Category string
	Meaning  string
	Rate     money.Percent
	Net      money.Amount
	VAT      money.Amount
}

// Otherwise is the VAT and total if the vessel did not qualify.
type Otherwise struct {
	VAT      []Tax
	VATTotal money.Amount
	Total    money.Amount
}

// Reconciled is what rounding the rate made of the sum of one item in the
// total: Amount - Sum.
type Reconciled struct {
	Ref        string
	Kind       rates.Kind   // blank for an item of several kinds
	Sum        money.Amount // as priced
	Share      money.Amount // of a contingency within the rates, else nil
	Amount     money.Amount
	Difference money.Amount // Amount less Sum and Share
}

// Cast makes the bill of what is priced. Input is not changed; a code of VAT
// that is not in force bears nothing and stands on the list.
func Cast(j *job.Job, b *rates.Book, p price.Priced, r risk.Contingency, g programme.Programme) (Bill, problem.List) {
	c := casting{job: j, book: b}
	out := Bill{Contingency: Contingency{Shown: j.ContingencyShown}}
	c.sections(&out, p.Items, c.within(p.Items, r))
	out.Preliminaries, out.Prelims = c.preliminaries(p.Preliminaries)
	var sums, dayworks money.Amount
	out.Sums, sums = c.sums(p.Sums)
	out.Dayworks, dayworks = c.dayworks(p.Dayworks)
	out.SumsDayworks = sums.Add(dayworks)
	if j.ContingencyShown != job.WithinRates {
		c.held(&out, r)
	}
	c.rise(&out, g)
	out.Net = money.Sum(out.Items, out.Prelims, out.SumsDayworks, out.Held, out.Rises)
	c.tax(&out)
	return out, c.problems
}

// casting is one bill while it is cast: what each code of VAT is borne by so
// far, and the problems found.
type casting struct {
	job      *job.Job
	book     *rates.Book
	nets     []net
	problems problem.List
}

// mustCast stops on a figure that does not cast: the fault would be ours.
func mustCast(what string, got, want money.Amount) {
	if !got.Equal(want) {
		panic(fmt.Sprintf("bill: %s comes to %s and to %s", what, got, want))
	}
}
