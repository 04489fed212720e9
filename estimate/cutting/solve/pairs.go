package solve

import "sort"

// Ways in which a node cuts the yields its parent left it.
const (
	asTheyAre = iota
	barred    // a yield is not used (again)
	together  // two pieces come from one stick
	apart     // they do not
)

// rule is one of these ways: of yield a of the pool, or of pieces a and b.
//
// Pieces still wanted once are branched on in pairs (Ryan and Foster 1981; for bin packing Vance et al., Computational Optimization and Applications
// 3, 1994): either both come from one stick or they do not, which halves the purchases left far more evenly than using a yield or not. A yield that
// breaks the rule is not struck off but cut down, by one of the two pieces, to what the rule allows. So whatever sticks a purchase has that keeps
// all the rules of a node, each is part of a yield kept there: if it was part of a yield that had just one of two pieces to be together, it holds
// neither, and if it was part of one with both of two to be apart, it lacks one of them.
type rule struct{ how, a, b int }

// cut hands on what the rule leaves of yield j of the pool.
func (r rule) cut(s *solver, p *pool, j int32, put func(int32)) {
	switch r.how {
	case asTheyAre:
		put(j)
		return
	case barred:
		if int(j) != r.a {
			put(j)
		}
		return
	}
	hasA, hasB := false, false
	for _, e := range p.columns[j].Gives {
		hasA = hasA || e.Piece == r.a
		hasB = hasB || e.Piece == r.b
	}
	switch {
	case r.how == together && hasA != hasB:
		if hasB {
			p.without(s, j, r.b, put)
		} else {
			p.without(s, j, r.a, put)
		}
	case r.how == apart && hasA && hasB:
		p.without(s, j, r.a, put)
		p.without(s, j, r.b, put)
	default:
		put(j)
	}
}

// without hands on yield j less a piece.
func (p *pool) without(s *solver, j int32, piece int, put func(int32)) {
	c := p.columns[j]
	if len(c.Gives) == 1 {
		return
	}
	var rest []Entry
	for _, e := range c.Gives {
		if e.Piece != piece {
			rest = append(rest, e)
		}
	}
	c.Gives = rest
	put(p.put(s, c))
}

// pair is two pieces wanted once more that the relaxation has partly in one stick.
func (s *solver) pair(p part, shares []share) (a, b int, ok bool) {
	type joint struct {
		a, b  int
		value float64
	}
	var all []joint
	for _, sh := range shares {
		gives := s.columns[sh.column].Gives
		for i, e := range gives {
			if p.want[e.Piece] != 1 {
				continue
			}
			for _, f := range gives[i+1:] {
				if p.want[f.Piece] == 1 {
					all = append(all, joint{e.Piece, f.Piece, sh.value})
				}
			}
		}
	}
	s.steps.Add(20 * len(all))
	sort.SliceStable(all, func(i, j int) bool { return all[i].a < all[j].a || all[i].a == all[j].a && all[i].b < all[j].b })
	best := 0.0
	for n := 0; n < len(all); {
		pair, sum := all[n], 0.0
		for ; n < len(all) && all[n].a == pair.a && all[n].b == pair.b; n++ {
			sum += all[n].value
		}
		if sum < 1e-3 || sum > 1-1e-3 {
			continue
		}
		if v := pairScore(sum, s.lp.y[pair.a]+s.lp.y[pair.b]); v > best {
			a, b, best = pair.a, pair.b, v
		}
	}
	return a, b, best > 0
}

// pairScore is how good a pair is to branch on: the nearer to half it stands in one
// stick the better, and of equals the one worth more.
func pairScore(sum, worth float64) float64 { return min(sum, 1-sum) + 1e-3*worth }
