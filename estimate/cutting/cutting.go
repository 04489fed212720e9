// Package cutting decides what timber to buy for the pieces that takeoff
// found and how to saw it: whole sticks, each with its pattern, and the cost of
// every stick brought home to the rows cut from it.
//
// Pieces come in with their least sawn size; the stock lines in force on the
// tender date with their size, price and number. What is usable of a plank,
// baulk or flitch is its length less End trim at each end, and its width less
// bark, and less sapwood unless the row allows it. Width is measured at half the
// length, over the narrower face, bark and sapwood in; Taper, where given,
// brings it to the narrower end. Sticks are ripped into strips and cross-cut,
// with the timber's Kerf at every cut, and resawn where they are thick enough for
// two layers; a piece may lie flat or on edge, stock may be thicker than the piece,
// and sawn curves lie nested. Logs are sawn into bands, strips and lengths (package log), crooks through and
// through in their own sweep (package crook). An unbound piece comes from any plank, baulk, flitch or
// cube of its timber that the owner does not supply, a straight square one also from a log, a sawn
// curve from a crook it lies in; a piece bound to a stock line from that alone. Knees and spars give
// one piece a stick to rows bound to them, and so do logs to round work and curves, and crooks to rows
// bound to them. A heart boxed in is looked for in a baulk, a log, a spar or the cube; whether a baulk
// is free of heart is for its seller to say, and is not asked here.
//
// Sticks bought = sticks needed / (1 - Loss), rounded up; timber by the cube =
// net / Yield / (1 - Loss): 5,600 ft3 converted at a yield of 0.700 is 8,000
// ft3 bought (Laslett, Timber and Timber Trees, 1875). Loss and Yield are
// shares of what is bought. A line's cost goes to the sections cut from it by
// sawn volume, each section's total to its rows by sawn volume, with money.Share.
//
// The pieces of one timber are bought together: packages board, log and crook tell what a
// stick can hold, package solve which sticks to buy and a bound below every purchase, and
// the purchase is never dearer than what first-fit (package fit) makes of it. What
// the bound covers stands at order.Bound: two lengths to a plank at 100 with a Loss
// of 8 % take 400 for six, and no purchase is under 400. The pieces of a run whose row
// gives a Shortest piece are as long as makes the whole cheapest (runs.go): 12 m in
// three pieces out of planks of 3 and 6 m are 6, 3 and 3 m, and not three of 4 m out of
// three long planks. Every plan is read back by package verify before it is given out,
// and a plan that does not hold panics: that fault is ours.
package cutting

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"futtock/estimate/cutting/order"
	"futtock/estimate/cutting/solve"
	"futtock/estimate/cutting/verify"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/problem"
)

// The results of cutting are declared in package order, where verify can read
// them without this package.
type (
	Plan    = order.Plan
	Line    = order.Line
	Pattern = order.Pattern
	Share   = order.Share
	Species = order.Species
	Bound   = order.Bound
)

// Cut plans the timber of a job. Rows in the total make the order; risk,
// option and rate-only rows are each planned by themselves, out of what the
// order leaves of limited stock. A piece that cannot be got is a problem at
// its row and left out of the plan; its row then bears nothing for it.
// The effort is Usual, as many times over as the job asks for.
func Cut(j *job.Job, b *rates.Book, t takeoff.Takeoff) (Plan, problem.List) {
	return CutWith(j, b, t, searched(j))
}

// searched is the effort a job asks for.
func searched(j *job.Job) solve.Effort { return Usual * solve.Effort(max(1, j.TimberSearch)) }

// Usual is the effort spent on each timber of the order, in counted steps of about
// one addition each, up to some ninety kinds of piece; it grows with the square of more.
const Usual solve.Effort = 80_000_000

// fewer is the part of the effort that is spent on what may be wanted.
const fewer = 40

// CutWith is Cut with a given effort for each timber. The same effort gives the
// same plan anywhere; more of it a plan as cheap or cheaper, and a bound as high
// or higher, as a rule.
func CutWith(j *job.Job, b *rates.Book, t takeoff.Takeoff, effort solve.Effort) (Plan, problem.List) {
	return newYard(j, b, t).planned(t, effort)
}

// planned plans the timber of the yard.
func (y *yard) planned(t takeoff.Takeoff, effort solve.Effort) (Plan, problem.List) {
	var plan Plan
	main := y.buy(effort, job.Measured)[0]
	for i, s := range y.sources {
		s.bought = main.buys(i)
	}
	plan.Order = main.lines()
	for _, s := range y.sources {
		s.take()
	}
	maybe := y.buy(effort/fewer, slices.DeleteFunc(job.CarriedAs(), job.Carried.InTotal)...)
	for _, p := range maybe {
		plan.Maybe = append(plan.Maybe, p.lines()...)
	}
	purchases := append([]*purchase{main}, maybe...)
	for _, p := range purchases {
		plan.Short = append(plan.Short, p.short...)
	}
	plan = y.renumbered(plan)
	plan.Shares = shares(plan.Pieces, slices.Concat(plan.Order, plan.Maybe))
	plan.Species = species(plan.Order)
	plan.Bound = main.bounds(plan.Species)
	plan.Boards = y.boards(plan)
	if faults := verify.Plan(y.job, y.book, t, plan); len(faults) > 0 {
		panic(fmt.Sprintf("cutting: the plan does not hold:\n%s", strings.Join(faults, "\n")))
	}
	return plan, y.problems
}

// compareRows orders pieces by their row.
func compareRows(x, y takeoff.Piece) int { return job.CompareRefs(x.Ref, y.Ref) }

// compareStock orders stock lines by timber, then by name.
func compareStock(x, y rates.Stock) int {
	return cmp.Or(cmp.Compare(rates.Key(x.Timber), rates.Key(y.Timber)), job.CompareRefs(rates.Key(x.Stock), rates.Key(y.Stock)))
}
