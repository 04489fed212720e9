// Package cash lays the finished bill out in time: what is worth being valued
// at the end of every month, what is kept back of it, when it is paid, and
// which pot of money it draws on. The bill goes in with the priced work and the
// programme; the months, the lines they are made of and the funds come out.
//
// Measured work is spread evenly over the weeks its stage is open, all that
// runs with time over the weeks it is charged for; the rules stand at Lay. What
// falls due at a valuation is
//
//	work valued so far - retention on it - what fell due before
//
// 200,000 valued, of which 5 % is kept back, after 142,500 due before, leave
// 47,500. When the work is done half of what is kept back is released, and the
// other half once defects are made good: at the end of the Job's Defects period,
// and on no date where none is given.
//
// Every line is shared in whole pennies, first over the funds and then over the
// months, so that months and funds both add up to the bill. All sums are before
// VAT, which stands apart.
package cash

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// Cash is the bill in time.
type Cash struct {
	Dated        bool         // months are those of the calendar; else of 52/12 weeks
	Months       []Month      // those of the work, those in which it is still paid for, and that of the last release
	Lines        []Line       // stages in their order, then the rest; those worth something
	Funds        []Fund       // named in the order of the bill, then what is of none
	Orders       []Order      // sums to be ordered ahead, the earliest first
	Net          money.Amount // of the bill
	Retained     money.Amount // kept back when the work is done: both halves
	AtCompletion money.Amount // released with the last valuation
	AtMakingGood money.Amount // released once defects are made good
	MadeGood     *Release     // when that is; nil where it is not dated, or nothing is kept back
	VAT          money.Amount // of the bill
}

// Release is when defects are made good and the second half of the retention is
// let go: it is paid on that day.
type Release struct {
	Month int             // of Cash
	At    decimal.Decimal // weeks from the start on site, to 0.01
	On    time.Time       // zero where there is no start
}

// Month is one month: the work of it, valued at its end, and what is paid for
// in it.
type Month struct {
	From, To        decimal.Decimal // weeks from the start on site, to 0.01
	Begins, Ends    time.Time       // first and last day; zero where there is no start
	Working         bool            // a valuation is made at its end
	Value           money.Amount    // of the work of the month
	Cumulative      money.Amount    // valued so far
	Retention       money.Amount    // kept back so far, after what is released
	Due             money.Amount    // on this valuation
	VAT             money.Amount    // on the work of the month
	PaidAt          decimal.Decimal // weeks from the start, when Due is paid
	PaidOn          time.Time       // the day; zero where there is no start
	Received        money.Amount    // paid within the month
	ReceivedSoFar   money.Amount
	Outstanding     money.Amount  // valued so far less received so far
	CumulativeShare money.Percent // of Net, to 0.1
	ReceivedShare   money.Percent
}

// Of is what a line of the cash flow is made of.
type Of string

// The kinds of line.
const (
	OfStage       Of = "stage"
	OfNoStage     Of = "work of no stage"
	OfPrelims     Of = "preliminaries"
	OfDeposits    Of = "deposits on orders"
	OfSums        Of = "sums"
	OfDayworks    Of = "dayworks"
	OfContingency Of = "contingency"
	OfRises       Of = "price rises"
)

// Line is what one stage, or one other part of the bill, is worth in each of
// the months of Cash.
type Line struct {
	Of       Of
	Name     string          // of the stage; else as Of
	From, To decimal.Decimal // weeks from the start over which a stage lies; nil of the rest
	Months   []money.Amount
	Total    money.Amount
}

// Fund is what one pot of money is drawn for in each of the months. What
// measured work and sums name is Named; the preliminaries without a name of
// their own, dayworks, contingency and price rises follow it pro rata, and are Shared.
type Fund struct {
	Fund   string // blank is of none
	Named  money.Amount
	Shared money.Amount
	Months []money.Amount
	Total  money.Amount
}

// Order is when a sum with Lead weeks or a deposit must be ordered, to be there
// when its stage begins.
type Order struct {
	Row     job.Sum
	Week    decimal.Decimal // from the start on site; below nil is before it
	Day     time.Time       // zero where there is no start
	Deposit money.Amount    // in the sum; nil where none is asked
	Month   int             // in which the deposit is valued
}

// Lay lays a bill out in time. Input is not changed.
//
// Measured work lies over the weeks of its stage on which the yard is open.
// Charges that run with time lie over their span, closed days and all; where
// Weeks are given, over so many from its beginning. What is charged once falls
// at the beginning of its From stage. A deposit is round(amount x Deposit %, 2)
// and falls when the sum is ordered, Lead weeks before its stage begins but not
// before the start on site; the rest of the sum, with profit and attendance, lies
// over its stage, as sums without a deposit do.
// Percentages, waiting time, dayworks, the contingency where it is a client's
// sum, and whatever has no stage, lie over the whole of the work: preliminaries
// closed days and all, the others over the open days. Price rises
// follow what they are reckoned on: measured work, preliminaries and contingency.
//
// Where no programme says how long the work is, it is as long as the longest
// charge given in weeks, else one month.
func Lay(j *job.Job, g programme.Programme, p price.Priced, b bill.Bill) (Cash, problem.List) {
	l := begin(j, g, p)
	l.work(p, b)
	l.sums(b)
	l.pool()
	l.preliminaries(p, b)
	l.rest(b)
	l.rises(b)
	l.mustReach(b.Net)
	out := Cash{Dated: l.dated(), Net: b.Net, VAT: b.VATTotal}
	l.months(&out)
	l.value(&out, b)
	l.pay(&out)
	out.Lines, out.Funds, out.Orders = l.lines(len(out.Months)), l.drawn(len(out.Months)), l.orders()
	return out, l.problems
}
