package solve

import "math"

// part is what is left to buy at a point of the search: the pieces wanted, the least and greatest number of each kind yet to be bought, and the
// cost of what is settled.
type part struct {
	want   []int
	lo, hi []int
	spent  int64
}

// whole is the instance itself.
func (s *solver) whole() part {
	p := part{want: append([]int(nil), s.in.Demand...), lo: make([]int, len(s.in.Kinds)), hi: make([]int, len(s.in.Kinds))}
	for k, kind := range s.in.Kinds {
		p.hi[k] = s.pieces // a stick that gives nothing wanted is never bought
		if kind.Most >= 0 {
			p.hi[k] = min(p.hi[k], kind.Most)
		}
	}
	return p
}

func (p part) clone() part {
	return part{append([]int(nil), p.want...), append([]int(nil), p.lo...), append([]int(nil), p.hi...), p.spent}
}

// whole worths of the pieces, from the duals of the master.
func (s *solver) worths(y []float64) []int64 {
	unit := float64(int64(1) << s.shift)
	w := make([]int64, len(s.in.Demand))
	for i := range w {
		if v := y[i]; v > 0 {
			w[i] = int64(math.Min(v, s.cap) * unit)
		}
	}
	return w
}

// greatest is the number of sticks of kind k that a purchase cheaper than the best could still hold.
func (s *solver) greatest(p part, k int) int64 {
	hi := int64(p.hi[k])
	if c := s.in.Kinds[k].Cost; c > 0 {
		hi = min(hi, (s.cost-s.step-p.spent)/c)
	}
	return max(hi, 0)
}

// safe is a lower bound on the cost of completing p in any purchase cheaper than the best, in 2^-shift pennies, for any worths whatever:
//
//	cost = sum over sticks of (price - worth held) + sum of worth held
//	    >= sum over kinds of (price - most) x number + sum of worth x wanted
//
// where the number is the greatest possible for kinds with price under most, else the least. All in whole numbers, so no floating error of the
// duals can make it wrong, only weak.
func (s *solver) safe(worth, most []int64, p part) wide {
	var sum wide
	for i, d := range p.want {
		sum = sum.plus(times(worth[i], int64(d)))
	}
	for k, kind := range s.in.Kinds {
		if r := kind.Cost<<s.shift - most[k]; r < 0 {
			sum = sum.plus(times(r, s.greatest(p, k)))
		} else {
			sum = sum.plus(times(r, int64(p.lo[k])))
		}
	}
	return sum
}

// ratio is a second lower bound from the same figures: all worths are scaled by the one factor at which no kind holds more than its price.
// It is dear where the pieces of any worth cannot be had at all.
func (s *solver) ratio(worth, most []int64, p part) int64 {
	var sum int64
	for i, d := range p.want {
		sum += worth[i] * int64(d)
	}
	if sum <= 0 { // what limits charge may come to more than all that is wanted
		return 0
	}
	bound := dear
	for k, kind := range s.in.Kinds {
		if most[k] > 0 && p.hi[k] > 0 {
			bound = min(bound, ratioUp(sum, kind.Cost, most[k]))
		}
	}
	return bound
}

// impossible tells, by worths alone, that the sticks to be had cannot hold what is wanted.
func (s *solver) impossible(worth, most []int64, p part) bool {
	var sum wide
	for i, d := range p.want {
		sum = sum.plus(times(worth[i], int64(d)))
	}
	var held wide
	for k := range s.in.Kinds {
		held = held.plus(times(most[k], int64(p.hi[k])))
	}
	return held.less(sum)
}

// figures are the worths that proved the best bound of a part, the greatest worth of a stick of each kind by them, and that bound in 2^-shift
// pennies.
type figures struct {
	worth, most []int64
	bound       wide
}

// prove bounds the cost of p from worths; dear where it cannot be completed. The figures of the best bound are kept for listing where asked.
func (s *solver) prove(worth, most []int64, p part, keep *figures) int64 {
	if s.impossible(worth, most, p) {
		return dear
	}
	exact := s.safe(worth, most, p)
	bound := max(exact.shiftUp(s.shift), s.ratio(worth, most, p))
	if keep != nil && (keep.worth == nil || keep.bound.less(exact)) {
		*keep = figures{append([]int64(nil), worth...), append([]int64(nil), most...), exact}
	}
	return min(bound+p.spent, dear)
}
