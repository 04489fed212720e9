package solve

import (
	"fmt"
	"math"
)

// cheapStart makes purchases without any linear programme and tries the worths given for bounds.
func (s *solver) cheapStart() {
	p := s.whole()
	s.offer(s.inOrder(p, s.in.Start))
	for _, c := range s.in.Start {
		s.know(c)
	}
	for n, w := range s.in.Worths {
		worth := s.fit(w)
		most, _ := s.g.Best(worth, p.want, nil, s.steps)
		s.cover(s.coverOf(worth, most))
		// As the worths given are in any unit, only the ratio bound can use them.
		if s.impossible(worth, most, p) {
			s.raise(dear)
		}
		before := s.lower
		if s.raise(s.ratio(worth, most, p)); s.done() {
			return
		}
		if s.guess == nil || s.lower > before {
			s.guess = s.scaled(worth, most)
		}
		if n < len(s.in.Worths)-1 {
			continue
		}
		use, left := s.greedy(p, worth)
		s.consider(use, left)
		if s.done() {
			return
		}
	}
}

// scaled are duals by row after worths in any unit, such that no stick holds more than its price.
func (s *solver) scaled(worth, most []int64) []float64 {
	factor := math.Inf(1)
	for k, kind := range s.in.Kinds {
		if most[k] > 0 && kind.Most != 0 {
			factor = math.Min(factor, float64(kind.Cost)/float64(most[k]))
		}
	}
	if math.IsInf(factor, 1) {
		return nil
	}
	y := make([]float64, s.lp.rows)
	for i, w := range worth {
		y[i] = factor * float64(w)
	}
	return y
}

// fit scales worths given in any unit so that their sums stay within the limit of a generator.
func (s *solver) fit(w []int64) []int64 {
	worth := append([]int64(nil), w...)
	for {
		sum := 0.0
		for i, v := range worth {
			sum += float64(float64(v) * float64(s.in.Demand[i]))
		}
		if sum < 1<<54 {
			return worth
		}
		for i := range worth {
			worth[i] /= 1024
		}
	}
}

// inOrder uses each column in turn once where all it yields is wanted, then whatever yields anything wanted. Nil where that leaves pieces.
func (s *solver) inOrder(p part, columns []Column) []Used {
	p = p.clone()
	var use []Used
	for _, c := range columns {
		if s.times(p, c) > 0 {
			p.buy(c, 1, s.in.Kinds)
			use = append(use, Used{c, 1})
		}
	}
	for _, c := range columns {
		for len(s.within(c.Gives, p.want)) > 0 && p.hi[c.Kind] > 0 {
			p.buy(c, 1, s.in.Kinds)
			use = append(use, Used{c, 1})
		}
	}
	if p.left() > 0 {
		return nil
	}
	return use
}

// times is how often a column can be used with nothing wasted.
func (s *solver) times(p part, c Column) int {
	n := p.hi[c.Kind]
	for _, e := range c.Gives {
		n = min(n, p.want[e.Piece]/e.Count)
	}
	return n
}

// buy takes n sticks sawn by c off what is left to buy.
func (p *part) buy(c Column, n int, kinds []Kind) {
	for _, e := range c.Gives {
		p.want[e.Piece] = max(0, p.want[e.Piece]-n*e.Count)
	}
	p.lo[c.Kind] = max(0, p.lo[c.Kind]-n)
	p.hi[c.Kind] -= n
	p.spent += int64(n) * kinds[c.Kind].Cost
}

// left is how many pieces are still wanted.
func (p part) left() int {
	sum := 0
	for _, d := range p.want {
		sum += d
	}
	return sum
}

// greedy completes p by taking, again and again, the yield of most worth for its price; it answers what it used and what is left then. It stops
// when that costs as much as the best purchase.
func (s *solver) greedy(p part, worth []int64) ([]Used, part) {
	p = p.clone()
	var use []Used
	for p.left() > 0 && !s.steps.Spent() && p.spent < s.cost {
		_, columns := s.g.Best(worth, p.want, nil, s.steps)
		var best Column
		value, price, found := 0.0, 0.0, false
		for _, c := range columns {
			if p.hi[c.Kind] <= 0 {
				continue
			}
			v, cost := 0.0, float64(s.in.Kinds[c.Kind].Cost)
			for _, e := range s.within(c.Gives, p.want) {
				v += float64(worth[e.Piece] * int64(e.Count))
			}
			if v > 0 && (!found || v*price > value*cost) {
				best, value, price, found = c, v, cost, true
			}
		}
		if !found {
			break // what is left has no worth, or no stick to come from
		}
		best.Gives = s.within(best.Gives, p.want)
		n := s.times(p, best)
		p.buy(best, n, s.in.Kinds)
		use = append(use, Used{best, n})
		s.know(best)
	}
	return s.finish(p, use, worth)
}

// finish completes p from the columns known, without the generator: again and again the one of most worth wanted for its price.
func (s *solver) finish(p part, use []Used, worth []int64) ([]Used, part) {
	p = p.clone()
	use = use[:len(use):len(use)]
	for p.left() > 0 && p.spent < s.cost {
		best, value, price := -1, 0.0, 1.0
		for j, c := range s.columns {
			if p.hi[c.Kind] <= 0 {
				continue
			}
			v := int64(0)
			for _, e := range c.Gives {
				v += (worth[e.Piece] + 1) * int64(min(e.Count, p.want[e.Piece]))
			}
			if cost := float64(s.in.Kinds[c.Kind].Cost); v > 0 && (best < 0 || float64(v)*price > value*cost) {
				best, value, price = j, float64(v), cost
			}
		}
		if best < 0 {
			break
		}
		c := s.columns[best]
		c.Gives = s.within(c.Gives, p.want)
		n := s.times(p, c)
		p.buy(c, n, s.in.Kinds)
		use = append(use, Used{c, n})
		s.steps.Add(4 * len(s.columns))
	}
	return use, p
}

// consider offers a purchase if it leaves nothing wanted.
func (s *solver) consider(use []Used, p part) {
	if p.left() == 0 {
		s.offer(use)
	}
}

// offer keeps a purchase of the whole demand if it is the cheapest yet. Its cost is added up here.
func (s *solver) offer(use []Used) {
	if use == nil {
		return
	}
	var cost int64
	for _, u := range use {
		cost += int64(u.Times) * s.in.Kinds[u.Kind].Cost
	}
	if cost < s.cost {
		if cost < s.lower {
			panic(fmt.Sprintf("solve: a purchase of %d found under the proven bound %d", cost, s.lower))
		}
		s.best, s.cost = append([]Used(nil), use...), cost
	}
}
