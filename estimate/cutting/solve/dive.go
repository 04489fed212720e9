package solve

import (
	"math"
	"sort"
)

// dives looks further for good purchases: the whole parts of the relaxation are bought, then the greatest fraction is rounded up, the rest is solved
// anew, and so to the end. Further dives differ from the first in a limited number of choices, made early, as those by rounding are least sure there
// (limited discrepancy: Harvey and Ginsberg 1995; for columns Sadykov et al. 2019).
func (s *solver) dives(limits ...limit) {
	for _, l := range limits {
		s.lp.restore(s.basis)
		if s.plunge(s.whole(), nil, l.depth, l.differ); s.done() {
			return
		}
	}
}

// limit is down to what depth dives may differ from the first, and in how many choices.
type limit struct{ depth, differ int }

// plunge dives from p with the first prices of artificial pieces, under which few rounds of pricing suffice.
func (s *solver) plunge(p part, use []Used, deepest, differ int) {
	firm := append([]float64(nil), s.lp.forced...)
	copy(s.lp.forced, s.calm)
	s.dive(p, use, nil, 0, deepest, differ)
	copy(s.lp.forced, firm)
}

// aimed dives from the whole for a purchase of just these numbers of each kind.
func (s *solver) aimed(p part, numbers []int) {
	if numbers == nil || len(numbers) == 1 || s.done() {
		return
	}
	s.lp.restore(s.basis)
	copy(p.lo, numbers)
	copy(p.hi, numbers)
	s.plunge(p, nil, 0, 0)
}

// mask puts off the columns that p cannot use whole, and those barred.
func (s *solver) mask(p part, barred []int) {
	for j, c := range s.columns {
		off := p.hi[c.Kind] <= 0
		for _, e := range c.Gives {
			if e.Count > p.want[e.Piece] {
				off = true
				break
			}
		}
		s.lp.off[j] = off
	}
	for _, j := range barred {
		s.lp.off[j] = true
	}
	s.steps.Add(3 * len(s.columns))
}

// roundsInDive is how often the patterns are priced at each place of a dive: better duals are not worth more, the less the larger the master; and
// a dive of some dozen places should be paid for by what is left of the steps.
func (s *solver) roundsInDive() int {
	rounds := max(4, min(25, 2500/s.lp.rows))
	return max(2, min(rounds, int((s.steps.Most-s.steps.Done)/(12*s.pricing+1))))
}

// places is among how many places of a dive the steps left are to be shared: a large master could spend them all at the first few.
func (s *solver) places() int64 {
	if s.lp.rows > 150 {
		return 12
	}
	return 2
}

// share is a column and how often the relaxation uses it.
type share struct {
	column int
	value  float64
}

// shares are the columns in use, by number.
func (lp *master) shares() []share {
	var out []share
	n := int32(2 * lp.rows)
	for i, v := range lp.basis {
		if v >= n && !lp.off[v-n] && lp.x[i] > 1e-6 {
			out = append(out, share{int(v - n), lp.x[i]})
		}
	}
	sort.Slice(out, func(a, b int) bool { return out[a].column < out[b].column })
	return out
}

// dive goes down from part p, reached by use; barred columns are not chosen again below the place where another was tried instead.
func (s *solver) dive(p part, use []Used, barred []int, depth, deepest, differ int) {
	for {
		if p.left() == 0 {
			s.offer(use)
			return
		}
		if s.done() {
			return
		}
		s.mask(p, barred)
		s.share(1, s.places(), func() { s.settle(p, -dear, s.cost-s.step+1, s.roundsInDive(), nil) })
		if s.steps.Spent() || s.pricing > int64(100*len(s.columns)) {
			// Where pricing is dear, few dives reach the end; so each place is completed from the columns known as well.
			s.consider(s.finish(p, use, s.worths(s.lp.y)))
		}
		if s.done() || s.hopeless(p) {
			return
		}
		shares := s.usable(p)
		p = p.clone()
		whole := false
		for _, sh := range shares {
			c := s.columns[sh.column]
			if n := min(int(sh.value+1e-4), s.times(p, c)); n > 0 {
				p.buy(c, n, s.in.Kinds)
				use = append(use[:len(use):len(use)], Used{c, n})
				whole = true
			}
		}
		if whole {
			barred = nil
			continue
		}
		sort.SliceStable(shares, func(a, b int) bool { return shares[a].value > shares[b].value })
		if len(shares) == 0 {
			return
		}
		ways := 1
		if depth < deepest {
			ways = min(1+differ, len(shares))
		}
		if ways == 1 {
			c := s.columns[shares[0].column]
			p.buy(c, 1, s.in.Kinds)
			use = append(use[:len(use):len(use)], Used{c, 1})
			depth++
			continue
		}
		basis := s.lp.stand()
		for w := 0; w < ways; w++ {
			if w > 0 {
				s.lp.restore(basis)
			}
			c := s.columns[shares[w].column]
			next := p.clone()
			next.buy(c, 1, s.in.Kinds)
			s.dive(next, append(use[:len(use):len(use)], Used{c, 1}), append(barred[:len(barred):len(barred)], others(shares[:w])...), depth+1, deepest, differ-w)
			if s.done() {
				return
			}
		}
		return
	}
}

// usable are the shares that part p can take at least once.
func (s *solver) usable(p part) []share {
	var out []share
	for _, sh := range s.lp.shares() {
		if s.times(p, s.columns[sh.column]) > 0 {
			out = append(out, sh)
		}
	}
	return out
}

func others(shares []share) []int {
	var out []int
	for _, sh := range shares {
		out = append(out, sh.column)
	}
	return out
}

// hopeless tells that the relaxation, as it stands, leaves no purchase cheaper than the best. It rests on floating point and only ends a dive.
func (s *solver) hopeless(p part) bool {
	least := int64(math.Ceil(s.lp.objective() - 1e-4))
	return s.roundUp(least+p.spent) >= s.cost
}
