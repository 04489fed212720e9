// Package price puts money to the schedule: what every item costs by kind,
// the overheads and profit on each kind, the rate and the amount; and the
// preliminaries, sums and dayworks beside them. What goes in is the job, its
// price book and the finished takeoff, cutting plan, hours and programme.
//
// A cost line is round(quantity x rate, 2). For each item and kind overheads
// are round(cost x O, 2) and profit round((cost + overheads) x P, 2). The rate
// is round(sum / billed quantity, 2) and the amount round(billed quantity x
// rate, 2); the pennies between sum and amount are kept as Difference, never
// spread. Halves go away from zero, as ROUND in spreadsheets has them.
//
// 3.33 h at 38.50 is 128.205, a cost of 128.21; with overheads of 12 %
// (15.39) and profit of 8 % on 143.60 (11.49) the sum is 155.09; billed as 24.5
// ft the rate is 6.33 and the amount 155.09 (155.085), a difference of nil.
package price

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/programme"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// Priced is all that is priced. Items stand in the order of the Sections
// sheet, then by Ref; the rest by Ref, dayworks as the workbook has them.
type Priced struct {
	Items         []Item
	Preliminaries []Preliminary
	Sums          []Sum
	Dayworks      []Daywork
	Materials     []Ordered // by supplier, then by material
}

// Item is one line of the bill: a row of the schedule, or several that name
// one bill item. What the first row says of wording, section and VAT holds.
type Item struct {
	Ref         string
	Section     string // key as the Sections sheet has it
	Description string
	Carried     job.Carried
	VAT         string // code, never blank
	Funding     string
	Rows        []job.Work // by Ref
	OwnerTimber bool
	Costs       []Cost          // by row, then kind in printed order, then name
	Kinds       []Kind          // by kind in printed order, those that cost something
	Bare        money.Amount    // costs that bear no additions: handling and sawing of owner's timber
	Sum         money.Amount    // all kinds with additions, and Bare
	Quantity    decimal.Decimal // as billed
	Unit        measure.Unit
	QuantityBy  rates.Driver // what the members are measured by for Quantity; blank where there are none, or it is one item
	QuantityAt  origin.Cell  // where a Bill quantity was typed, which stands whatever is measured
	Rate        money.Amount
	Amount      money.Amount
	Difference  money.Amount // Amount - Sum
}

// Cost is one cost line: round(Quantity x Rate, 2), and not under Least.
type Cost struct {
	Ref      string // of the row it belongs to
	Kind     rates.Kind
	Name     string // trade, stock, material, plant or work
	Quantity decimal.Decimal
	Unit     measure.Unit
	Rate     money.Price
	Least    money.Amount // least charge for a row of the schedule; nil where there is none
	Cost     money.Amount
	Bare     bool        // bears no additions
	RateAt   origin.Cell // the row of the price
	UseAt    origin.Cell // the row that asks for it: of the build-up, the fastening rule or the schedule
	Asked    []Asked     // what rows of the build-up ask, adding up to Quantity; none for labour, timber, fastenings
	Note     string      // such as "least charge" or "fastening rule hull"
}

// Asked is what one row of a build-up asks of a material, plant or work:
// Taken, with the waste of the row added.
type Asked struct {
	BuildUp  rates.BuildUp
	Taken    takeoff.Taken
	Quantity decimal.Decimal // to 0.001
}

// Kind is one kind of cost of an item with its additions.
type Kind struct {
	Kind             rates.Kind
	Cost             money.Amount
	OverheadsPercent money.Percent
	Overheads        money.Amount
	ProfitPercent    money.Percent
	Profit           money.Amount
	Sum              money.Amount
}

// Preliminary is one line of the preliminaries, priced. A row that is both a
// fixed and a weekly charge makes two lines.
type Preliminary struct {
	Row        job.Preliminary
	Ref        string // of the line: the row's Ref, with "a" and "b" where it makes two
	Basis      Basis
	Quantity   decimal.Decimal // weeks, days, charges, or 1
	Unit       measure.Unit
	Costs      []Cost       // of one unit
	Cost       money.Amount // of one unit before additions: the sum of Costs
	Kind       Kind         // additions on one unit
	Rate       money.Amount
	Amount     money.Amount
	VAT        string
	Explained  string          // how the quantity was found
	Programmed decimal.Decimal // weeks by the programme, beside weeks given; nil where there are none
}

// Basis is how a preliminary line is charged.
type Basis string

// The bases.
const (
	Fixed       Basis = "fixed"
	Timed       Basis = "time-related"
	Supervision Basis = "supervision"
	Percentage  Basis = "percentage of items"
	Waiting     Basis = "time kept and not priced"
)

// WaitingRef is the Ref of the line that prices waiting time, which no row of the
// workbook gives; it has a star after it where a row has that Ref already.
const WaitingRef = "waiting time"

// Words is the basis as a bill line says it.
func (b Basis) Words() string {
	switch b {
	case Fixed:
		return "fixed charge"
	case Timed:
		return "time-related charge"
	}
	return string(b)
}

// Sum is a sum with its profit and attendance.
type Sum struct {
	Row        job.Sum
	Amount     money.Amount // as given
	Profit     money.Amount
	Attendance money.Amount
	Total      money.Amount
	VAT        string
}

// Daywork is one allowance for daywork: hours of a trade at Charge, or a sum of
// money with its addition.
type Daywork struct {
	Row      job.Daywork
	Trade    bool         // Quantity is hours; else a sum of money
	Rate     money.Amount // all-in hour of the trade
	RateAt   origin.Cell
	Charge   money.Amount // round(Rate x (1 + addition), 2): what the client pays for an hour
	Cost     money.Amount // the sum of money; nil for a trade
	Addition money.Amount // on Cost
	Total    money.Amount // hours x Charge, or Cost + Addition
	VAT      string
}

// Price puts money to a job. Prices are those in force on the tender date. A
// row whose price is wanting is priced without it and stands on the list.
func Price(j *job.Job, b *rates.Book, t takeoff.Takeoff, c cutting.Plan, h labour.Hours, g programme.Programme) (Priced, problem.List) {
	p := begin(j, b, t, c, h, g)
	var out Priced
	out.Items = p.items()
	out.Preliminaries = p.preliminaries(out.Items)
	out.Sums = p.sums()
	out.Dayworks = p.dayworks()
	out.Materials = p.ordered(out.Items)
	p.remarkAdditions()
	return out, p.problems
}

// Measured is A, the measured work: the amounts of all items in the total.
func Measured(items []Item) money.Amount {
	var a money.Amount
	for _, i := range items {
		if i.Carried.InTotal() {
			a = a.Add(i.Amount)
		}
	}
	return a
}
