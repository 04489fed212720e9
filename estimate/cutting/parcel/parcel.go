// Package parcel tells what a purchase of whole sticks cannot cost less than, when
// sticks are paid for in steps. In come the stock lines, each with what any number
// of its sticks costs, and rows: the worth of all that is wanted, and the most of
// it that a stick of each line can hold. Whatever is bought must hold the need of
// every row. Out comes the least cost of numbers that do.
//
// The numbers may still not be enough, as rows know only worths. A check is asked
// about them (Benders, Numerische Mathematik 4, 1962): it answers with rows that they
// do not meet, that they suffice, or that no sawing of them suffices, and the search
// goes on until it ends or the steps do. The search is branch and bound on the
// numbers. Under each branch the costs are replaced by their lower hull, and the linear
// programme gives a weight for every row; the bound is then reckoned in whole
// numbers: for weights whatever, a purchase costs at least the weighted need and, line
// by line, the least of what so many sticks cost less the weight they hold. So no
// floating point can make it wrong, only weak.
//
// Worked figure: planks at 50 pounds, of ten bought one is lost, so that 9 used cost 500
// and 10 used 600; baulks at 70, none lost. A row needs 10, and either holds 1. By the
// plank's price over the share kept, 55.56, ten could not cost less than 555.56; in whole
// sticks nine planks and a baulk, at 570, are least.
package parcel

import (
	"container/heap"
	"math"
)

// Offer is a stock line: Costs is what 0, 1, 2 ... sticks used cost, never falling,
// from nil, up to as many as are to be had. Parts says that parts of a stick are to be had
// too, each at its part of the cost, which then rises evenly.
type Offer struct {
	Costs []int64
	Parts bool
}

// Row is a need and the most of it that one stick of each offer can hold, none under nil.
type Row struct {
	Need  int64
	Holds []int64
}

// Verdict is what a check says of numbers of sticks.
type Verdict int

const (
	Open    Verdict = iota // it cannot tell
	Lacking                // they do not meet the rows given
	Enough                 // there is a sawing of them that suffices
	Never                  // there is none
)

// Check tells whether numbers of sticks suffice. They are as many of each offer
// as cost no more. Where only rows are asked for, Open will do for Enough and Never.
type Check func(used []int, rows bool) (Verdict, []Row)

// Least is what no purchase that meets the rows and the check costs less than, at
// most upper: the cost of one that is known. Steps is the work allowed, about one
// addition each, that of the check not among it.
func Least(offers []Offer, rows []Row, upper int64, check Check, steps int64) int64 {
	s := &search{offers: offers, upper: upper, stuck: upper, left: steps, check: check}
	for _, o := range offers {
		for _, c := range o.Costs {
			if s.unit = divisor(s.unit, c); o.Parts && c > 0 {
				s.unit = 1
			}
		}
	}
	s.unit = max(s.unit, 1)
	s.take(rows)
	root := &node{lo: make([]int, len(offers)), hi: make([]int, len(offers))}
	for i, o := range offers {
		root.hi[i] = len(o.Costs) - 1
	}
	s.push(root)
	s.prepare(root)
	for len(s.open) > 0 && s.left > 0 && s.open[0].bound < min(s.upper, s.stuck) {
		s.look(heap.Pop(&s.open).(*node))
	}
	least := min(s.upper, s.stuck)
	if len(s.open) > 0 {
		least = min(least, s.open[0].bound)
	}
	return least
}

// prepared is how many times rows are asked for before the search.
const prepared = 40

// prepare asks for rows that the numbers of the root do not meet, each rounded up.
func (s *search) prepare(root *node) {
	for range prepared {
		if !s.meets(root.hi) || s.left <= 0 {
			return
		}
		p := s.relax(root)
		root.bound = max(root.bound, s.safe(root, p.weights))
		used, _ := s.whole(root, p)
		if root.bound >= s.upper {
			return
		}
		verdict, rows := s.check(used, true)
		if s.take(rows); verdict != Lacking {
			return
		}
	}
}

// search is a search under way.
type search struct {
	offers []Offer
	rows   []Row
	unit   int64 // that divides every cost
	upper  int64
	stuck  int64 // least bound of what could be neither bounded nor branched
	left   int64 // steps
	check  Check
	open   nodes
	turn   int
	table  []float64 // scratch of the linear programme
}

// narrow is the bits a need keeps, so that weighted sums stay whole in 64.
const narrow = 30

// take takes rows in, each rounded so that it still holds: needs down, what sticks
// hold up.
func (s *search) take(rows []Row) {
	for _, r := range rows {
		if r.Need <= 0 {
			continue
		}
		shift := 0
		for r.Need>>shift >= 1<<narrow {
			shift++
		}
		out := Row{Need: r.Need >> shift}
		for i, h := range r.Holds {
			if h = (h + 1<<shift - 1) >> shift; !s.offers[i].Parts {
				h = min(h, out.Need) // a whole stick that holds more is of no more use
			}
			out.Holds = append(out.Holds, h)
		}
		s.rows = append(s.rows, out)
	}
}

// node is a part of the search: the numbers lie from lo to hi.
type node struct {
	lo, hi []int
	bound  int64
	turn   int
}

// nodes is a heap: least bound first, then last made.
type nodes []*node

func (h nodes) Len() int      { return len(h) }
func (h nodes) Swap(a, b int) { h[a], h[b] = h[b], h[a] }
func (h nodes) Less(a, b int) bool {
	if h[a].bound != h[b].bound {
		return h[a].bound < h[b].bound
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

func (s *search) push(n *node) {
	s.turn++
	n.turn = s.turn
	heap.Push(&s.open, n)
}

// with is a node of the same bound with other limits of one offer.
func (n *node) with(offer, lo, hi int) *node {
	out := &node{lo: append([]int(nil), n.lo...), hi: append([]int(nil), n.hi...), bound: n.bound}
	out.lo[offer], out.hi[offer] = lo, hi
	return out
}

// look bounds a node and branches it.
func (s *search) look(n *node) {
	if !s.meets(n.hi) {
		return
	}
	p := s.relax(n)
	n.bound = max(n.bound, s.safe(n, p.weights))
	if n.bound >= s.upper {
		return
	}
	// The offer whose whole sticks cost most over the hull.
	at, most := -1, 1e-6*float64(s.unit)
	for i := range s.offers {
		if s.offers[i].Parts {
			continue
		}
		u := p.used[i]
		whole := min(int(math.Ceil(u-1e-6)), n.hi[i])
		if over := float64(s.offers[i].Costs[whole]) - p.cost[i]; over > most && n.lo[i] < n.hi[i] {
			at, most = i, over
		}
	}
	if at >= 0 {
		// Whole, it lies on no corner of the hull: all below it are cheaper apart from it.
		cut := max(n.lo[at], min(n.hi[at]-1, int(math.Floor(p.used[at]+1e-6))))
		s.push(n.with(at, n.lo[at], cut))
		s.push(n.with(at, cut+1, n.hi[at]))
		return
	}
	used, cost := s.whole(n, p)
	s.ask(n, used, cost)
}

// whole is the numbers of a relaxation rounded up, and then as many of each as cost no more.
func (s *search) whole(n *node, p relaxed) (used []int, cost int64) {
	used = make([]int, len(s.offers))
	for i, o := range s.offers {
		used[i] = min(int(math.Ceil(p.used[i]-1e-6)), n.hi[i])
		cost += o.Costs[used[i]]
		for used[i] < n.hi[i] && o.Costs[used[i]+1] == o.Costs[used[i]] {
			used[i]++
		}
	}
	return used, cost
}

// ask has numbers checked that are the least cost of a node.
func (s *search) ask(n *node, used []int, cost int64) {
	if !s.meets(used) {
		// The linear programme was not exact: it is cut where it stands.
		for i := range used {
			if n.lo[i] < n.hi[i] {
				cut := min(used[i], n.hi[i]-1)
				s.push(n.with(i, n.lo[i], cut))
				s.push(n.with(i, cut+1, n.hi[i]))
				return
			}
		}
		return
	}
	verdict, rows := s.check(used, false)
	before := len(s.rows)
	s.take(rows)
	lacks := false
	for _, r := range s.rows[before:] {
		lacks = lacks || !r.met(used)
	}
	switch {
	case verdict == Lacking && lacks:
		s.push(n)
	case verdict == Enough:
		if s.upper = min(s.upper, cost); n.bound < s.upper {
			s.besides(n, used)
		}
	case verdict == Never:
		s.besides(n, used)
	default:
		if b := s.safe(n, s.relax(n).weights); b > n.bound {
			n.bound = b
			s.push(n)
			return
		}
		s.stuck = min(s.stuck, n.bound)
	}
}

// besides parts a node without the numbers up to used: of one offer there are more.
func (s *search) besides(n *node, used []int) {
	rest := n
	for i := range used {
		if used[i] < n.hi[i] {
			s.push(rest.with(i, used[i]+1, n.hi[i]))
		}
		rest = rest.with(i, n.lo[i], used[i])
	}
}

// meets reports numbers that meet all rows.
func (s *search) meets(used []int) bool {
	for _, r := range s.rows {
		if !r.met(used) {
			return false
		}
	}
	return true
}

func (r Row) met(used []int) bool {
	left := r.Need
	for i, h := range r.Holds {
		if h > 0 && int64(used[i]) >= (left+h-1)/h {
			return true
		}
		left -= h * int64(used[i])
	}
	return left <= 0
}

func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
