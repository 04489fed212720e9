package solve

import (
	"container/heap"
	"math"
)

// node is a part of the search still to be looked at.
type node struct {
	lo, hi []int // the numbers of each kind, in all
	use    []Used
	kept   kept    // what yields its parent left it, where they are listed
	rule   rule    // and how to cut them
	basis  []int32 // of its parent's relaxation; nil for none
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

// tree is branch and bound, best bound first: on the numbers bought of a kind while they are broken, then, where the pool is at hand, on two pieces
// wanted once more, together or apart, or else on a yield, used once more or not again.
type tree struct {
	s     *solver
	pool  *pool // nil where the yields could not be listed
	all   Generator
	open  nodes
	trunk bool  // the tree is that of the whole, not of a branch
	stuck int64 // least bound of the nodes that could not be branched
	turn  int
	seen  int
	vain  int     // how often in succession numbers were too many to go through
	basis []int32 // the basis stood at, if it is that of a node looked at
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
	if t.pool != nil {
		t.pool.use(s, n.kept, n.rule)
	}
	t.mask()
	if n.basis != nil && (len(t.basis) == 0 || &n.basis[0] != &t.basis[0]) {
		s.lp.restore(n.basis)
	}
	t.basis = nil
	var f figures
	n.bound = s.firm(p, n.bound, s.cost-s.step+1, 1000, &f)
	if s.steps.Spent() {
		return false
	}
	var aim []int
	if f.worth != nil && len(n.use) == 0 && len(s.in.Kinds) > 1 && n.bound < s.cost {
		n.bound, aim = t.attained(p, n.bound, s.coverOf(f.worth, f.most))
		if t.pool == nil {
			s.cover(s.coverOf(f.worth, f.most))
		}
	}
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
	if t.plunges(n) {
		t.plunge(p, n, aim)
		if s.steps.Spent() {
			return false
		}
		if s.cost < before && s.roundUp(n.bound) >= s.cost {
			return true
		}
	}
	return t.split(n, p, f, shares, numbers)
}

// attained is that of the solver, but where the numbers were too many again and again only now and then.
func (t *tree) attained(p part, bound int64, here cover) (int64, []int) {
	if t.vain >= 4 && t.seen%8 != 0 {
		return bound, nil
	}
	bound, numbers, whole := t.s.attained(p, bound, workAtNode, here)
	if t.vain++; whole {
		t.vain = 0
	}
	return bound, numbers
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

// plunges tells whether to dive from node n, which is dear: seldom where pieces are branched on in pairs, for going down by pairs is a dive itself.
func (t *tree) plunges(n *node) bool {
	if n.rule.how >= together {
		return t.seen >= 64 && t.seen&(t.seen-1) == 0
	}
	return t.seen <= 12 || t.seen&(t.seen-1) == 0 || t.seen%16 == 0
}

// plunge dives from node n with the generator itself, whose yields fit what is left.
func (t *tree) plunge(p part, n *node, aim []int) {
	s := t.s
	here := s.g
	s.g = t.all
	basis := s.lp.stand()
	s.plunge(p, n.use, 0, 0)
	s.aimed(p.clone(), aim)
	s.lp.restore(basis)
	s.g = here
}

// mask puts off the columns of the master that are not in the pool, or are barred.
func (t *tree) mask() {
	s := t.s
	for j := range s.columns {
		s.lp.off[j] = false
		if t.pool == nil {
			continue
		}
		at := t.pool.at(s, j)
		s.lp.off[j] = at < 0 || t.pool.mark[at] != t.pool.turn
	}
	s.steps.Add(len(s.columns))
}

// branchOff searches node n, whose numbers are whole but not its yields, in a tree of its own, as the yields worth having there may be few enough
// to list. What it leaves open stays stuck.
func (t *tree) branchOff(n *node, p part, f figures) {
	least := n.bound
	t.s.share(1, 4, func() {
		off := &tree{s: t.s, all: t.all, stuck: dear, pool: t.s.list(p, f, poolLargest)}
		if off.pool != nil {
			off.push(&node{lo: n.lo, hi: n.hi, kept: off.pool.listed, basis: t.basis, bound: n.bound})
			least = off.search(1 << 30)
		}
	})
	t.stuck = min(t.stuck, max(least, n.bound))
}

// split branches node n: on the number of the kind that is farthest from whole, or else on a pair of pieces, or on the yield whose use is the
// greatest fraction: used once more, or not again.
func (t *tree) split(n *node, p part, f figures, shares []share, numbers []float64) bool {
	s := t.s
	child := func(r rule) *node {
		return &node{lo: n.lo, hi: n.hi, use: n.use, kept: n.kept, rule: r, basis: t.basis, bound: n.bound, depth: n.depth + 1}
	}
	t.basis = s.lp.stand()
	if t.pool != nil {
		n.kept = t.pool.keep(s, p, f)
	}
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
		less, more := child(rule{}), child(rule{})
		less.hi, more.lo = append([]int(nil), n.hi...), append([]int(nil), n.lo...)
		less.hi[kind] = min(less.hi[kind], cut)
		more.lo[kind] = max(more.lo[kind], cut+1)
		t.push(less)
		t.push(more)
		return true
	}
	if t.pool == nil {
		t.branchOff(n, p, f)
		return true
	}
	if a, b, ok := s.pair(p, shares); ok {
		t.push(child(rule{apart, a, b}))
		t.push(child(rule{together, a, b}))
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
	t.push(child(rule{barred, int(t.pool.at(s, best)), 0}))
	more := child(rule{})
	more.use = append(n.use[:len(n.use):len(n.use)], Used{s.columns[best], 1})
	t.push(more)
	return true
}
