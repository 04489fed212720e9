package solve

import "math"

// Text appends the kind and yield of a column to bytes, so that two columns are told apart by them.
func (c Column) Text(to []byte) []byte {
	put := func(n int) { to = append(to, byte(n), byte(n>>8), byte(n>>16)) }
	put(c.Kind)
	for _, e := range c.Gives {
		put(e.Piece)
		put(e.Count)
	}
	return to
}

// know takes a column into the master unless it is there already; what it yields beyond the whole demand is struck off.
func (s *solver) know(c Column) {
	c.Gives = s.within(c.Gives, s.in.Demand)
	if len(c.Gives) == 0 {
		return
	}
	s.text = c.Text(s.text[:0])
	if _, ok := s.known[string(s.text)]; ok {
		return
	}
	s.known[string(s.text)] = len(s.columns)
	s.columns = append(s.columns, c)
	s.lp.add(c, s.in.Kinds[c.Kind].Cost)
}

// within is what of a yield is wanted; what it takes of a limit stays.
func (s *solver) within(gives []Entry, want []int) []Entry {
	for n, e := range gives {
		if e.Count > want[e.Piece] && e.Count > 0 {
			cut := append([]Entry(nil), gives[:n]...)
			for _, e := range gives[n:] {
				if e.Count > 0 {
					e.Count = min(e.Count, want[e.Piece])
				}
				if e.Count != 0 {
					cut = append(cut, e)
				}
			}
			return cut
		}
	}
	return gives
}

// gain is the cost of a column less the worth of its yield by the duals of the master.
func (s *solver) gain(c Column) float64 {
	y, m, k := s.lp.y, len(s.in.Demand), len(s.in.Kinds)
	d := float64(s.in.Kinds[c.Kind].Cost) - y[m+c.Kind] + y[m+k+c.Kind]
	for _, e := range c.Gives {
		d -= float64(y[e.Piece] * float64(e.Count))
	}
	return d
}

// floors is, by kind, the worth that a yield must pass to be of use to the master.
func (s *solver) floors(y []float64) []int64 {
	m, k := len(s.in.Demand), len(s.in.Kinds)
	floor := make([]int64, k)
	unit := float64(int64(1) << s.shift)
	for i, kind := range s.in.Kinds {
		f := float64(kind.Cost) - y[m+i] + y[m+k+i]
		floor[i] = int64(math.Max(0, math.Min(f, 4*s.cap)) * unit)
	}
	return floor
}

// settle solves the relaxation of part p by pricing: the master is solved, the generator is asked for better columns by its duals, and so on until
// there are none, or a proven bound reaches stop, or the rounds are over. Least is a bound proven already. The duals asked by are drawn halfway to those of the best bound so far,
// which steadies them. It answers the best proven bound of p.
func (s *solver) settle(p part, least, stop int64, rounds int, keep *figures) int64 {
	lp := s.lp
	lp.demand(p)
	lp.dual()
	lp.duals()
	bound := least
	var centre []float64
	if keep == &s.root {
		centre = s.guess
	}
	drawn := true
	for round := 0; round < rounds && !s.steps.Spent(); round++ {
		settled := lp.primal(100 + lp.rows/4*(1+round))
		y := append([]float64(nil), lp.y...)
		if centre != nil && drawn {
			for i := range y {
				y[i] = (y[i] + centre[i]) / 2
			}
		} else {
			drawn = false
		}
		worth := s.worths(y)
		from := s.steps.Done
		most, columns := s.g.Best(worth, p.want, s.floors(y), s.steps)
		s.pricing = s.steps.Done - from
		if b := s.prove(worth, most, p, keep); b > bound {
			bound, centre = b, y
		}
		if bound >= stop {
			return bound
		}
		before := len(s.columns)
		for _, c := range columns {
			if p.hi[c.Kind] > 0 && s.gain(c) < -priceLeast*lp.big {
				s.know(c)
			}
		}
		objective := lp.objective() + float64(p.spent)
		if settled && float64(bound) >= objective-1e-6 || s.step > 1 && s.roundUp(bound) >= s.roundUp(int64(math.Ceil(objective-1e-4))) {
			return bound
		}
		switch {
		case len(s.columns) > before || !settled:
			drawn = true
		case drawn && centre != nil:
			drawn = false
		default:
			return bound
		}
	}
	return bound
}

// relax solves the relaxation of the whole.
func (s *solver) relax() {
	s.raise(s.firm(s.whole(), s.lower, s.cost, 10_000, &s.root))
	s.basis = s.lp.stand()
}

// firm settles p, and where something is still bought in at an artificial price, raises that price and settles again, until it does not pay.
func (s *solver) firm(p part, least, stop int64, rounds int, keep *figures) int64 {
	for {
		least = s.settle(p, least, stop, rounds, keep)
		if least >= stop || s.steps.Spent() || !s.lp.dearer(s.cap) {
			return least
		}
	}
}

// forcedPrices are the first prices of the artificial pieces: a little over the cheapest stick that gives the piece alone, as nothing wanted is
// ever worth more while sticks are to be had.
func (s *solver) forcedPrices() []float64 {
	price := make([]float64, s.lp.rows)
	for i := range price {
		price[i] = 3 * s.lp.big
	}
	for _, c := range s.in.Start {
		kind := s.in.Kinds[c.Kind]
		for _, e := range c.Gives {
			if kind.Most < 0 {
				price[e.Piece] = math.Min(price[e.Piece], 1.02*float64(kind.Cost)+1e-3)
			}
		}
	}
	return price
}

// dearer raises the price of every artificial piece bought, to at most a limit; false where there is none to raise.
func (lp *master) dearer(limit float64) bool {
	raised := false
	n := int32(lp.rows)
	for i, v := range lp.basis {
		if v >= n && v < 2*n && lp.x[i] > 1e-5 && lp.forced[v-n] < limit {
			lp.forced[v-n] = math.Min(4*lp.forced[v-n], limit)
			raised = true
		}
	}
	if raised {
		lp.duals()
	}
	return raised
}
