package solve

import "sort"

// cover is what any purchase of the whole must hold by some worths: the sum over its sticks of the greatest worth each kind can hold is at least
// the worth of all that is wanted.
type cover struct {
	most []int64 // by kind
	need int64
}

const (
	coversMost  = 8
	coversFirst = 4 // of them stay; the others are exchanged in turn
)

// coverOf is the cover by worths of which a stick of each kind holds at most so much.
func (s *solver) coverOf(worth, most []int64) cover {
	c := cover{most: append([]int64(nil), most...)}
	for i, d := range s.in.Demand {
		c.need += worth[i] * int64(d)
	}
	return c
}

// cover takes note of one more cover for good: the greatest worths must be those of the generator, not of a pool.
func (s *solver) cover(c cover) {
	if len(s.covers) < coversMost {
		s.covers = append(s.covers, c)
		return
	}
	s.covers[coversFirst+s.exchanged%(coversMost-coversFirst)] = c
	s.exchanged++
}

// attained is the least cost, not under a bound proven already, of whole numbers of each kind within the limits of p that meet all the covers. There
// is no purchase whose prices add up to less, whatever its sawing. Where sticks are few, so that sums of prices lie far apart, or where their
// lengths do not go into what is wanted, this is well above the relaxation. With it come those numbers, by kind, if there are any cheaper than the
// best purchase. Here are covers that hold only in p. The bound itself is answered where they are too many to go through within the work, in steps, or some stick costs nothing.
func (s *solver) attained(p part, bound int64, work int, here ...cover) (least int64, numbers []int, whole bool) {
	a := attaining{s: s, p: p, covers: append(here, s.covers...), best: s.cost, bound: bound, work: work}
	for k, kind := range s.in.Kinds {
		if p.hi[k] > 0 && kind.Cost == 0 {
			return bound, nil, false
		}
		if p.hi[k] > 0 {
			a.order = append(a.order, k)
		}
	}
	if p.spent > 0 || len(a.covers) == 0 || len(a.order) == 0 || bound >= s.cost {
		return bound, nil, false
	}
	a.prepare()
	a.now = make([]int, len(s.in.Kinds))
	whole = a.from(0, 0)
	s.steps.Add(work - a.work)
	if !whole {
		return bound, nil, false
	}
	return max(bound, a.best), a.numbers, true
}

// sum bounds the whole by the sums its prices can add up to, when the relaxation is solved.
func (s *solver) sum() {
	if s.root.worth != nil {
		s.cover(s.coverOf(s.root.worth, s.root.most))
	}
	bound, numbers, _ := s.attained(s.whole(), s.lower, min(workAtRoot, int(s.steps.Most-s.steps.Done)/8))
	s.raise(bound)
	s.aim = numbers
}

// attaining goes through the numbers of each kind.
type attaining struct {
	s      *solver
	p      part
	covers []cover
	order  []int     // kinds that can be bought
	need   [][]int64 // by how many kinds are settled, and by cover: the worth still to be held
	cheap  [][]int   // likewise, which of the kinds not yet settled costs least for what it holds; -1 where none holds any
	now    []int     // the numbers settled, by kind
	best   int64
	bound  int64
	work   int
	// numbers are those of the best; nil where there are none cheaper than the best purchase.
	numbers []int
}

// prepare puts those kinds first that are dear for what they hold, as few of them can be had.
func (a *attaining) prepare() {
	covers, kinds := a.covers, a.s.in.Kinds
	dearer := func(c cover, i, j int) bool {
		return times(kinds[j].Cost, c.most[i]).less(times(kinds[i].Cost, c.most[j]))
	}
	by := covers[0]
	sort.SliceStable(a.order, func(i, j int) bool { return dearer(by, a.order[i], a.order[j]) })
	a.need, a.cheap = make([][]int64, len(a.order)+1), make([][]int, len(a.order)+1)
	for d := len(a.order); d >= 0; d-- {
		a.need[d], a.cheap[d] = make([]int64, len(covers)), make([]int, len(covers))
		for j, c := range covers {
			a.cheap[d][j] = -1
			if d == len(a.order) {
				continue
			}
			k := a.order[d]
			a.cheap[d][j] = a.cheap[d+1][j]
			if d == 0 {
				a.need[0][j] = c.need
			}
			if c.most[k] > 0 && (a.cheap[d][j] < 0 || dearer(c, a.cheap[d][j], k)) {
				a.cheap[d][j] = k
			}
		}
	}
}

// rest is the least that can still be spent when d kinds are settled.
func (a *attaining) rest(d int) int64 {
	least := int64(0)
	for j, need := range a.need[d] {
		if need <= 0 {
			continue
		}
		k := a.cheap[d][j]
		if k < 0 {
			return dear
		}
		least = max(least, ratioUp(need, a.s.in.Kinds[k].Cost, a.covers[j].most[k]))
	}
	a.work -= 12 * (1 + len(a.covers))
	return least
}

// from goes through the numbers of the kinds from the d-th on; false where the work is used up.
func (a *attaining) from(d int, spent int64) bool {
	k := a.order[d]
	cost := a.s.in.Kinds[k].Cost
	low, high := int64(a.p.lo[k]), min(int64(a.p.hi[k]), (a.best-1-spent)/cost)
	if d == len(a.order)-1 {
		for j, need := range a.need[d] {
			switch most := a.covers[j].most[k]; {
			case need <= 0:
			case most <= 0:
				return true
			default:
				low = max(low, (need-1)/most+1)
			}
		}
		a.work -= 12 * (1 + len(a.covers))
		if spent < a.bound {
			low = max(low, (a.bound-spent-1)/cost+1)
		}
		if low <= high {
			a.best, a.now[k] = spent+low*cost, int(low)
			a.numbers = append(a.numbers[:0], a.now...)
		}
		return a.work > 0
	}
	for n := low; n <= high && a.best > a.bound; n++ {
		for j, need := range a.need[d] {
			most := a.covers[j].most[k]
			if need <= 0 || most > 0 && n > need/most {
				need = 0
			} else {
				need -= n * most
			}
			a.need[d+1][j] = need
		}
		a.now[k] = int(n)
		if now := spent + n*cost; now+a.rest(d+1) < a.best && !a.from(d+1, now) {
			return false
		}
		high = min(high, (a.best-1-spent)/cost)
		if a.work <= 0 {
			return false
		}
	}
	return true
}
