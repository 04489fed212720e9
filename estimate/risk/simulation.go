package risk

import (
	"github.com/shopspring/decimal"

	"futtock/rates/money"
	"futtock/rates/origin"
)

// Draws is how many times everything uncertain is drawn.
const Draws = 100_000

// Simulation is a contingency found by drawing, a hundred thousand times, all
// that may come out otherwise than priced.
//
// What is drawn:
//
//   - Measured and provisional rows with a range: the amount times a factor
//     drawn from the triangle of Least %, 100 % and Most %, the hours of the row
//     times the same factor.
//   - Rows carried as risk: nothing, or at their Chance the amount (times a
//     factor, where they have a range) and the hours.
//   - The rows of the Risks sheet: nothing, or at their Chance a sum from the
//     triangle of Least, Likely and Most, at selling price, and the Extra weeks.
//
// One draw a row: the row's place between its best and its worst, out of which
// come occurrence and cost together. Places are bound by a Gaussian copula
// with one factor common to all,
//
//	z = sqrt(r) F + sqrt(1 - r) E
//
// r being Surprises together % and the place the normal probability of z, so
// that every row keeps its own distribution, and its mean, whatever r is. Each
// row's E comes from a stream of its own, from the Draw number and its Ref: a
// row more, or another order, leaves the draws of the others as they were.
//
// With the hours drawn the programme is laid out anew, and each line that runs
// with time is charged for the weeks its span then has, in the step it is
// charged in; hours for which the stage has no gang take no time. Extra weeks
// lengthen the charges whose span takes in the stage of the risk's Section, or,
// where it has no stage, those that run to the end of the job. Percentages, fixed
// charges, sums and dayworks stand as priced.
//
// A percentile is the least total drawn that is not exceeded in that share of
// the draws. Sums of money are rounded to the penny where they are handed over,
// and nowhere before.
type Simulation struct {
	Draws      int
	DrawNumber int64
	Together   money.Percent
	Confidence money.Percent

	Base   money.Amount // A and B as priced
	Chosen money.Amount // total not exceeded in Confidence % of the draws
	Held   money.Amount // Chosen less Base, not under nil, up to a whole unit of the currency

	// Of the total: Base with what the draws make of it.
	Mean, SD           money.Amount
	P10, P50, P80, P90 money.Amount
	Least, Most        money.Amount

	BaseEnough  money.Percent // share of draws in which Base is enough
	PriceEnough money.Percent // share of draws in which Base with Held is enough

	Rows    []Uncertain // rows with a range and those at risk by Ref, then the register by Ref
	Drivers []Driver    // what the sum held is for, the heaviest first
	Bins    []Bin       // of the total; of one width and next to each other
	Hours   decimal.Decimal
	Weeks   *Weeks // of the job; nil where there is no programme
}

// Source is what makes a figure uncertain.
type Source string

// The sources.
const (
	Ranged   Source = "range"
	MayBe    Source = "may be wanted"
	Register Source = "risk register"
	Longer   Source = "longer time"
)

// Uncertain is one row that is drawn. Least, Likely and Most are what it comes
// to where it comes about; Mean and SD are exact, of what it adds to Base.
type Uncertain struct {
	Ref                 string
	Description         string
	Source              Source
	At                  origin.Cell
	Priced              money.Amount  // what Base holds for it; nil of risks
	Chance              money.Percent // 100 % of a range
	Least, Likely, Most money.Amount
	Mean, SD            money.Amount
	Hours               decimal.Decimal // of the row as priced, which go with the draw
	ExtraWeeks          decimal.Decimal
}

// Driver is what one row, or one charge that runs on, has to do with the sum
// held. Bears is the average of what it adds in those draws whose total lies
// within 2.5 points of the chosen percentile, so that all of them together are
// about what is held; Mean is the average over all draws.
type Driver struct {
	Ref         string
	Description string
	Source      Source
	Bears       money.Amount
	Mean        money.Amount
	Share       money.Percent // of all that is borne, to a tenth; nil where they come to nothing
}

// Bin is the number of draws whose total is From or more and under To.
type Bin struct {
	From, To money.Amount
	Draws    int
}

// Weeks is how long the job comes to take, in calendar weeks to a tenth.
type Weeks struct {
	Priced, Mean, P10, P50, P80, P90 decimal.Decimal
}
