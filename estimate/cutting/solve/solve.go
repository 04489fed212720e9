// Package solve finds the purchase of least cost: which sticks to buy and how to saw them so that every piece wanted is had.
//
// In come the number wanted of each piece, the kinds of stick with price and greatest number, and a Generator that tells what one stick can hold
// (package lengths has the plainest, for sawing to length alone; boards, logs and crooks differ in nothing else). Out come the sticks with their
// sawing, the cost in pennies, and a lower bound that no purchase can pass under.
//
// The model is Gilmore and Gomory's (Operations Research 9, 1961): one whole number for every way of sawing a stick, every demand covered, least
// cost. Its order of work:
//
//  1. a purchase and bounds without any linear programme (start.go);
//  2. the linear relaxation, ways of sawing being asked for as they are needed (simplex.go, pivot.go, price.go);
//  3. the sums that prices can add up to: the least of numbers of each kind that hold what is wanted (numbers.go);
//  4. a dive: buy the whole parts, round the greatest fraction up, solve again (dive.go);
//  5. the ways that a cheaper purchase could still use are listed (enumerate.go) and searched by branch and bound, on the numbers bought of each kind
//     first (Valerio de Carvalho, Annals of OR 86, 1999; Belov and Scheithauer, EJOR 171, 2006), then on pairs of pieces wanted once (pairs.go), then
//     on the ways themselves (branch.go, exact.go).
//
// Floating point only guides the search. Every bound is reckoned in whole numbers from duals rounded down (bound.go), so that it holds for any
// duals whatever, and a proof is never taken from the linear programme.
//
// Worked figure: sticks of 100 at 9 pence and of 60 at 6; wanted 50 twice, 40 twice, 30 once. By worths of 4.5, 4 and 3 pence no stick holds more
// than its price (50 + 50 is worth 9 in the 100; the 60 takes only one piece, worth 4.5 at most), so any purchase costs at least
// 2 x 4.5 + 2 x 4 + 3 = 20, and as all prices are multiples of 3, at least 21. That could only be one of 100 and two of 60, which take two pieces
// and one and one: four of the five. 24 buys two of 100 (50 + 50, 40 + 40) and one of 60 (30), and the search proves that nothing is cheaper.
package solve

import "fmt"

// Kind is one kind of stick that may be bought.
type Kind struct {
	// Cost is the price of one stick, in pennies, not under nil.
	Cost int64
	// Most is the greatest number that can be had; -1 where as many as wanted.
	Most int
}

// Entry is how many of a piece a pattern gives.
type Entry struct {
	// Piece is the place of the piece in Instance.Demand.
	Piece int
	// Count is how many of it, at least 1.
	Count int
}

// Column is one way of sawing a stick of a kind.
type Column struct {
	// Kind is the place of the kind in Instance.Kinds.
	Kind int
	// Gives is what the sawing yields, by rising Piece, each piece once.
	Gives []Entry
	// Tag is the generator's own handle on the layout; it comes back in the answer as it was given.
	Tag int
}

// Effort is how much work to spend on one instance, in counted steps and never by the clock, so that the same instance gets the same answer
// everywhere. A step is about one addition in an inner loop.
type Effort int64

// Steps counts the work done.
type Steps struct {
	// Done is the work so far, Most the work allowed.
	Done, Most int64
}

// Add counts n steps.
func (s *Steps) Add(n int) { s.Done += int64(n) }

// Spent tells that the work allowed is done.
func (s *Steps) Spent() bool { return s.Done >= s.Most }

// Generator tells what one stick can hold: the one thing that differs between lengths, boards and logs.
// Any part of what a stick yields must be a yield too, as pieces can always be left unsawn.
type Generator interface {
	// Best answers, for a worth of each piece (whole numbers, not under nil, the sum of worth x Demand under 2^55) and a number of each that a
	// stick need not exceed, the greatest worth one stick of each kind can yield. It may answer more than the truth, never less: proofs rest
	// on it. The columns are good ways of sawing worth more than floor[kind] (all kinds' best where floor is nil), the best of each kind among
	// them; they may be fewer than there are, and may yield more of a piece than wanted. The same questions get the same answers.
	Best(worth []int64, wanted []int, floor []int64, steps *Steps) (most []int64, columns []Column)
}

// Lister is a Generator that can also name every yield worth having; without it no instance is proven by listing patterns.
type Lister interface {
	Generator
	// List names every yield of each kind worth at least floor[kind], within Demand, to which no wanted piece can be added, each once. It answers
	// false as soon as there would be more than most, or the steps are spent.
	List(worth []int64, floor []int64, most int, steps *Steps) ([]Column, bool)
}

// Instance is one purchase to be solved.
type Instance struct {
	// Demand is how many of each piece are wanted, not under nil.
	Demand []int
	// Kinds are the sticks to choose from.
	Kinds []Kind
	// Start is a first set of ways of sawing. Used once each in this order, as far as wanted, they make the first purchase looked at, so a way
	// meant for several sticks stands there several times.
	Start []Column
	// Worths are first guesses of the worth of the pieces in any unit, such as their lengths or volumes; each gives a bound, and the
	// last a purchase, for which worths bent in favour of the unwieldy pieces are best.
	Worths [][]int64
}

// Used is a column and the number of sticks sawn so.
type Used struct {
	Column
	Times int
}

// Answer is the purchase found.
type Answer struct {
	// Use is what to buy and how to saw it. Together the columns give exactly the demand, less Short; each gives at most what the layout of its
	// Tag gives.
	Use []Used
	// Short is how many of each piece the limited sticks could not give in the purchase found; nil where every piece is had.
	Short []int
	// Cost is the price of the sticks in Use, in pennies.
	Cost int64
	// Bound is proven by whole-number reckoning to be no more than the cost of any purchase that gives all that is wanted.
	Bound int64
	// Proven tells that no purchase is cheaper: Cost equals Bound and nothing is short.
	Proven bool
	// Impossible tells that no purchase whatever gives all that is wanted, proven likewise.
	Impossible bool
	// Steps is the work done, in counted steps.
	Steps int64
}

// solver holds one solution under way.
type solver struct {
	in      Instance
	g       Generator
	steps   *Steps
	pieces  int   // sum of the demand
	step    int64 // common divisor of the prices
	shift   uint  // worths are whole numbers of 2^-shift pennies
	cap     float64
	pricing int64     // steps of the last question to the generator
	calm    []float64 // prices of the artificial pieces in dives

	lp      *master
	columns []Column       // the columns of the master, by number
	known   map[string]int // column by its yield, only looked up
	text    []byte         // a yield to be looked up

	best  []Used // nil until a purchase without shortage is found
	cost  int64  // of best; while there is none, more than any purchase of as many sticks as pieces can cost
	lower int64  // proven

	covers    []cover // for bounds by sums of prices
	exchanged int     // of the covers
	aim       []int   // numbers of each kind that may do for a purchase at the bound; nil for none

	root  figures   // of the best bound of the whole
	basis []int32   // of the relaxation of the whole
	guess []float64 // duals by row to begin pricing from, nil for none
}

// dear is above every cost, with room to add a few of it.
const dear = int64(1) << 58

// Solve finds a purchase of least cost as far as the effort goes. It panics on demands or costs under nil, and on costs that for all pieces together pass 2^48 pennies.
func Solve(in Instance, g Generator, effort Effort) Answer {
	for i, d := range in.Demand {
		if d < 0 {
			panic(fmt.Sprintf("solve: demand %d of piece %d", d, i))
		}
	}
	s := prepare(in, g, effort)
	if s.pieces == 0 {
		return Answer{Proven: true}
	}
	if s.share(1, 4, s.cheapStart); s.done() {
		return s.answer()
	}
	s.share(1, 3, s.relax)
	if s.sum(); s.done() {
		return s.answer()
	}
	s.consider(s.finish(s.whole(), nil, s.worths(s.lp.y)))
	s.plunge(s.whole(), nil, 0, 0)
	if s.aimed(s.whole(), s.aim); s.done() {
		return s.answer()
	}
	s.exact()
	return s.answer()
}

func prepare(in Instance, g Generator, effort Effort) *solver {
	s := &solver{in: in, g: g, steps: &Steps{Most: int64(effort)}, known: map[string]int{}}
	for _, d := range in.Demand {
		s.pieces += max(0, d)
	}
	var greatest int64
	for k, kind := range in.Kinds {
		if kind.Cost < 0 || kind.Cost > 1<<48/int64(s.pieces+1) {
			panic(fmt.Sprintf("solve: cost %d of kind %d with %d pieces", kind.Cost, k, s.pieces))
		}
		greatest = max(greatest, kind.Cost)
		s.step = divisor(s.step, kind.Cost)
	}
	s.step = max(s.step, 1)
	s.cost = greatest*int64(s.pieces) + s.step
	s.cap = 40 * float64(greatest+1)
	for s.shift < 40 && s.cap*float64(s.pieces)*float64(int64(2)<<s.shift) < 1<<55 {
		s.shift++
	}
	s.lp = newMaster(in, float64(greatest+1), s.steps)
	s.calm = s.forcedPrices()
	copy(s.lp.forced, s.calm)
	return s
}

// done tells that nothing is left to look for.
func (s *solver) done() bool {
	return s.lower >= s.cost || s.steps.Spent()
}

// roundUp is the least sum of prices that is not under v.
func (s *solver) roundUp(v int64) int64 {
	if v >= dear {
		return dear
	}
	return (v + s.step - 1) / s.step * s.step
}

// raise takes note of a proven bound of the whole.
func (s *solver) raise(bound int64) {
	s.lower = max(s.lower, min(s.roundUp(bound), s.cost))
}

func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
