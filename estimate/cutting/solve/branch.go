package solve

import (
	"container/heap"
	"math"
)

// node is a part of the search still to be looked at.
type node struct {
	lo, hi []int // the numbers of each kind, in all
	use    []Used
	barred []int // yields of the pool that may not be used (again)
	bound  int64
	depth  int
	turn   int // order of making, for ties
}

// nodes is a heap: least bound first, then deepest, then last made.
type nodes []*node

func (h nodes) Len() int      { return len(h) }
func (h nodes) Swap(a, b int) { h[a], h[b] = h[b], h[a] }
func (h nodes) Less(a, b int) bool {
	switch {
	case h[a].bound != h[b].bound:
		return h[a].bound < h[b].bound
	case h[a].depth != h[b].depth:
		return h[a].depth > h[b].depth
	}
	return h[a].turn > h[b].turn
}
func (h *nodes) Push(x any) { *h = append(*h, x.(*node)) }
func (h *nodes) Pop() any {
	old := *h
	x := old[len(old)-1]
	*h = old[:len(old)-1]
	return x
}

// tree is branch and bound, best bound first: on the numbers bought of a kind while they are broken, then, where the pool is at hand, on a yield:
// used once more, or not used again.
type tree struct {
	s     *solver
	pool  *pool // nil where the yields could not be listed
	all   Generator
	open  nodes
	trunk bool  // the tree is that of the whole, not of a branch
	stuck int64 // least bound of the nodes that could not be branched
	turn  int
	seen  int
	// inPool is where each column of the master stands in the pool; -1 where it does not.
	inPool []int
}

func (t *tree) push(n *node) {
	n.turn = t.turn
	t.turn++
	heap.Push(&t.open, n)
}

// search goes on until nothing is open, the steps are spent, or most nodes were looked at. It answers the least bound of what is left.
func (t *tree) search(most int) int64 {
	s := t.s
	if t.pool != nil {
		s.g = t.pool
		defer func() { s.g = t.all }()
	}
	for last := t.seen + most; len(t.open) > 0 && !s.done() && t.seen < last; {
		if t.trunk {
			s.raise(min(t.open[0].bound, t.stuck))
		}
		n := heap.Pop(&t.open).(*node)
		if s.roundUp(n.bound) >= s.cost {
			continue
		}
		t.seen++
		if t.pool != nil && s.cost < t.pool.cost {
			t.pool.tighten(s)
		}
		if !t.look(n) {
			heap.Push(&t.open, n) // the steps ended before it was looked at
			break
		}
	}
	least := t.stuck
	if len(t.open) > 0 {
		least = min(least, t.open[0].bound)
	}
	if t.trunk {
		s.raise(least)
	}
	return least
}

// ended tells that nothing is left of the tree.
func (t *tree) ended() bool { return len(t.open) == 0 && t.stuck >= t.s.cost }

// part is what node n leaves to buy.
func (t *tree) part(n *node) part {
	p := part{append([]int(nil), t.s.in.Demand...), append([]int(nil), n.lo...), append([]int(nil), n.hi...), 0}
	for _, u := range n.use {
		p.buy(u.Column, u.Times, t.s.in.Kinds)
	}
	return p
}

// look bounds node n and branches; false where the steps ended first.
func (t *tree) look(n *node) bool {
	s := t.s
	p := t.part(n)
	for k := range p.hi {
		if p.hi[k] < p.lo[k] {
			return true
		}
	}
	if p.left() == 0 {
		// Whatever else the least numbers ask for is bought for nothing; a node with smaller numbers has the same purchase cheaper.
		s.offer(n.use)
		return true
	}
	t.bar(n.barred, 1)
	defer t.bar(n.barred, -1)
	t.mask()
	var f figures
	bound := s.firm(p, s.cost-s.step+1, 1000, &f)
	if s.steps.Spent() {
		n.bound = max(n.bound, bound)
		return false
	}
	n.bound = max(n.bound, bound)
	if s.roundUp(n.bound) >= s.cost {
		return true
	}
	shares := s.lp.shares()
	numbers := make([]float64, len(p.lo))
	for _, sh := range shares {
		numbers[s.columns[sh.column].Kind] += sh.value
	}
	if t.whole(shares, n) {
		return true
	}
	before := s.cost
	if t.seen <= 12 || t.seen&(t.seen-1) == 0 || t.seen%16 == 0 {
		t.plunge(p, n)
		if s.steps.Spent() {
			return false
		}
		if s.cost < before && s.roundUp(n.bound) >= s.cost {
			return true
		}
	}
	return t.split(n, p, f, shares, numbers)
}

// whole takes a relaxation that is in whole numbers as the purchase it is.
func (t *tree) whole(shares []share, n *node) bool {
	s := t.s
	use := append([]Used(nil), n.use...)
	for _, sh := range shares {
		r := math.Round(sh.value)
		if math.Abs(sh.value-r) > 1e-4 {
			return false
		}
		if r > 0 {
			use = append(use, Used{s.columns[sh.column], int(r)})
		}
	}
	had := make([]int, len(s.in.Demand))
	var cost int64
	for _, u := range use {
		cost += int64(u.Times) * s.in.Kinds[u.Kind].Cost
		for _, e := range u.Gives {
			had[e.Piece] += e.Count * u.Times
		}
	}
	bought := make([]int, len(s.in.Kinds))
	for _, u := range use {
		bought[u.Kind] += u.Times
	}
	for k, kind := range s.in.Kinds {
		if kind.Most >= 0 && bought[k] > kind.Most {
			return false
		}
	}
	for i, d := range s.in.Demand {
		if had[i] < d {
			return false
		}
	}
	s.offer(use)
	return s.roundUp(n.bound) >= s.cost
}

// plunge dives from node n with the generator itself, whose yields fit what is left.
func (t *tree) plunge(p part, n *node) {
	s := t.s
	here := s.g
	s.g = t.all
	s.plunge(p, n.use, 0, 0)
	s.g = here
}

// bar adds by to the bars on yields of the pool.
func (t *tree) bar(yields []int, by int) {
	for _, j := range yields {
		t.pool.barred[j] += by
	}
}

// mask puts off the columns of the master that are not in the pool, or are barred.
func (t *tree) mask() {
	s := t.s
	for j := range s.columns {
		s.lp.off[j] = false
		if t.pool == nil {
			continue
		}
		at := t.at(j)
		s.lp.off[j] = at < 0 || t.pool.barred[at] > 0
	}
	s.steps.Add(len(s.columns))
}

// at is where column j of the master stands in the pool, or -1.
func (t *tree) at(j int) int {
	for len(t.inPool) <= j {
		t.inPool = append(t.inPool, t.pool.find(t.s.columns[len(t.inPool)]))
	}
	return t.inPool[j]
}

// branchOff searches node n, whose numbers are whole but not its yields, in a tree of its own, as the yields worth having there may be few enough
// to list. What it leaves open stays stuck.
func (t *tree) branchOff(n *node, p part, f figures) {
	least := n.bound
	t.s.share(1, 4, func() {
		off := &tree{s: t.s, all: t.all, stuck: dear, pool: t.s.list(p, f, poolLargest)}
		if off.pool != nil {
			off.push(&node{lo: n.lo, hi: n.hi, bound: n.bound})
			least = off.search(1 << 30)
		}
	})
	t.stuck = min(t.stuck, max(least, n.bound))
}

// split branches node n: on the number of the kind that is farthest from whole, or else on the yield whose use is the greatest fraction.
func (t *tree) split(n *node, p part, f figures, shares []share, numbers []float64) bool {
	s := t.s
	kind, far := -1, 5e-3
	for k, v := range numbers {
		if d := math.Abs(v - math.Round(v)); d > far {
			kind, far = k, d
		}
	}
	if kind >= 0 {
		done := 0
		for _, u := range n.use {
			if u.Kind == kind {
				done += u.Times
			}
		}
		cut := done + int(math.Floor(numbers[kind]))
		less := &node{append([]int(nil), n.lo...), append([]int(nil), n.hi...), n.use, n.barred, n.bound, n.depth + 1, 0}
		less.hi[kind] = min(less.hi[kind], cut)
		more := &node{append([]int(nil), n.lo...), append([]int(nil), n.hi...), n.use, n.barred, n.bound, n.depth + 1, 0}
		more.lo[kind] = max(more.lo[kind], cut+1)
		t.push(less)
		t.push(more)
		return true
	}
	if t.pool == nil {
		t.branchOff(n, p, f)
		return true
	}
	best, value := -1, 0.0
	for _, sh := range shares {
		if f := sh.value - math.Floor(sh.value+1e-4); f > value {
			best, value = sh.column, f
		}
	}
	if len(shares) == 0 {
		t.stuck = min(t.stuck, n.bound) // the relaxation gives no way of going on
		return true
	}
	if best < 0 {
		best = shares[0].column
	}
	c := s.columns[best]
	at := t.at(best)
	t.push(&node{n.lo, n.hi, n.use, append(n.barred[:len(n.barred):len(n.barred)], at), n.bound, n.depth + 1, 0})
	t.push(&node{n.lo, n.hi, append(n.use[:len(n.use):len(n.use)], Used{c, 1}), n.barred, n.bound, n.depth + 1, 0})
	return true
}
