package solve

import "math"

// Part is a column and how many sticks of it the relaxation buys, which need not be whole.
type Part struct {
	Column
	Sticks float64
}

// Relaxed is what a purchase would come to if sticks could be bought in parts.
type Relaxed struct {
	// Use is what is bought; it rests on floating point and is a guide, no more.
	Use []Part
	// Bound is proven by whole-number reckoning to be no more than the cost of any purchase, in the unit of the costs.
	Bound int64
	// Impossible tells that no purchase whatever gives all that is wanted, proven likewise.
	Impossible bool
	// Steps is the work done, in counted steps.
	Steps int64
}

// Relax solves the linear relaxation alone. Beside the pieces of Solve it takes limits: a Demand under nil says that no more than so many may be
// taken in all, of which a column takes by a Count under nil; the worth that the generator is asked by is then what it is charged for each. With
// demands of -4 and 10, and columns that give 3 of the second and take 1 of the first, or give 2 and take nothing, at most four sticks are of the first
// sort. A demand may also be of a measure, such as millimetres. Worth x Demand has no longer the bound of Generator.Best on each side alone: what is given
// and what is charged keep it each.
func Relax(in Instance, g Generator, effort Effort) Relaxed {
	s := prepare(in, g, effort)
	if s.pieces == 0 {
		return Relaxed{}
	}
	s.step = 1 // parts of sticks cost parts of prices
	for _, c := range in.Start {
		s.know(c)
		for _, e := range c.Gives {
			// A measure is worth no more, a unit, than the stick that gives it over what it gives.
			if each := 1.02*float64(in.Kinds[c.Kind].Cost)/math.Max(1, float64(e.Count)) + 1e-3; in.Demand[e.Piece] >= 0 && in.Kinds[c.Kind].Most < 0 {
				s.lp.forced[e.Piece] = math.Min(s.lp.forced[e.Piece], each)
			}
		}
	}
	s.relax()
	out := Relaxed{Bound: max(0, min(s.lower, s.cost)), Steps: s.steps.Done, Impossible: s.lower >= s.cost}
	for _, sh := range s.lp.shares() {
		out.Use = append(out.Use, Part{s.columns[sh.column], sh.value})
	}
	return out
}
