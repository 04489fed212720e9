package fit

import (
	"cmp"
	"slices"
)

// bench is an input with what is worked out of it once, and a count of the work done.
type bench struct {
	looked int // sticks looked into
	in     *Input
	ways   [][][]way   // by kind, then line
	full   [][]int     // by kind, then line: pieces in an empty stick
	rank   [][]int     // by order, then kind: when it goes in
	cost   [][]float64 // by line, then sticks used: pennies
}

// everything is more pieces than any stick holds.
const everything = 1 << 30

func newBench(in *Input) *bench {
	b := &bench{in: in}
	for k := range in.Kinds {
		b.ways = append(b.ways, make([][]way, len(in.Lines)))
		b.full = append(b.full, make([]int, len(in.Lines)))
		for l := range in.Lines {
			b.ways[k][l] = b.waysOf(k, l)
			b.full[k][l] = b.holds(k, l)
		}
	}
	for o := range orders {
		rank := make([]int, len(in.Kinds))
		for i, k := range b.order(o) {
			rank[k] = i
		}
		b.rank = append(b.rank, rank)
	}
	b.cost = make([][]float64, len(in.Lines))
	return b
}

// waysOf is how a piece may lie in a stick of the line, the way that takes
// least of the width first. A straight piece may be turned; a sawn curve lies flat.
func (b *bench) waysOf(kind, line int) []way {
	q, l := b.in.Kinds[kind], b.in.Lines[line]
	var out []way
	if q.Thickness <= l.Thickness {
		w := way{width: q.Width, pitch: q.Pitch}
		if w.pitch == 0 {
			w.pitch = q.Width + b.in.Kerf
		}
		out = append(out, w)
	}
	if q.Pitch == 0 && q.Width != q.Thickness && q.Width <= l.Thickness {
		out = append(out, way{width: q.Thickness, pitch: q.Thickness + b.in.Kerf, turned: true})
	}
	slices.SortStableFunc(out, func(x, y way) int { return cmp.Compare(x.width, y.width) })
	return out
}

// holds counts strips by lengths, at most everything.
func (b *bench) holds(kind, line int) int {
	q, l := b.in.Kinds[kind], b.in.Lines[line]
	if !q.Lines[line] {
		return 0
	}
	s := &stick{line: line, sap: q.Sapwood}
	lengths := b.room(&strip{}, line, kind)
	best := 0
	for _, w := range b.ways[kind][line] {
		width := l.Clear
		if q.Sapwood {
			width = l.Width
		}
		n := w.deep(width)
		if q.Boxed {
			n = min(n, 1)
		}
		if b.across(s, kind, w) <= width {
			best = max(best, n)
		}
	}
	return min(best*lengths, everything)
}

// state is a layout in the making.
type state struct {
	sticks []*stick
	used   []int // by line
	cubed  [][]int
	volume []float64 // by cube, in the ship
	short  []int
}

func (b *bench) blank() *state {
	s := &state{used: make([]int, len(b.in.Lines)), cubed: make([][]int, len(b.in.Cubes)),
		volume: make([]float64, len(b.in.Cubes)), short: make([]int, len(b.in.Kinds))}
	for i := range s.cubed {
		s.cubed[i] = make([]int, len(b.in.Kinds))
	}
	return s
}

func (s *state) clone() *state {
	c := &state{sticks: slices.Clone(s.sticks), used: slices.Clone(s.used),
		cubed: make([][]int, len(s.cubed)), volume: slices.Clone(s.volume), short: slices.Clone(s.short)}
	for i := range c.cubed {
		c.cubed[i] = slices.Clone(s.cubed[i])
	}
	return c
}

// priceOf is what n sticks used of a line cost, in pennies.
func (b *bench) priceOf(line, n int) float64 {
	l := b.in.Lines[line]
	for k := len(b.cost[line]); k <= n; k++ {
		b.cost[line] = append(b.cost[line], float64(int64(l.Buy(k))*l.Each))
	}
	return b.cost[line][n]
}

// total is what the layout costs in pennies, timber by the cube before it is
// rounded to its unit.
func (b *bench) total(s *state) float64 {
	total := 0.0
	for l, n := range s.used {
		total += b.priceOf(l, n)
	}
	for c, v := range s.volume {
		total += v * b.in.Cubes[c].PerNet
	}
	return total
}

// better orders layouts: fewer pieces short, then cost, then fewer sticks.
func (b *bench) better(x, y *state) int {
	sum := func(n []int) int {
		t := 0
		for _, v := range n {
			t += v
		}
		return t
	}
	return cmp.Or(cmp.Compare(sum(x.short), sum(y.short)), cmp.Compare(b.total(x), b.total(y)),
		cmp.Compare(len(x.sticks), len(y.sticks)))
}

// layout turns the state into its result: sticks by line, like layouts side by side.
func (b *bench) layout(s *state) Layout {
	out := Layout{Cubed: s.cubed, Short: s.short, Holds: b.full}
	for _, st := range s.sticks {
		made := Stick{Line: st.line, Made: st.made - 1}
		if st.made == 0 {
			made.Places = b.places(st)
		}
		out.Sticks = append(out.Sticks, made)
	}
	slices.SortStableFunc(out.Sticks, func(x, y Stick) int {
		return cmp.Or(cmp.Compare(x.Line, y.Line), cmp.Compare(x.Made, y.Made), slices.CompareFunc(x.Places, y.Places, comparePlaces))
	})
	return out
}

func comparePlaces(x, y Place) int {
	turned := func(t bool) int {
		if t {
			return 1
		}
		return 0
	}
	return cmp.Or(cmp.Compare(x.Kind, y.Kind), cmp.Compare(x.Across, y.Across),
		cmp.Compare(x.Along, y.Along), cmp.Compare(turned(x.Turned), turned(y.Turned)))
}
