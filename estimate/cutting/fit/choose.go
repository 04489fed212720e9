package fit

import (
	"cmp"
	"math"
	"slices"
)

// rule is one way of making a layout: the order the pieces go in, and how the
// stock line of a new stick is chosen.
type rule struct {
	order  int
	score  score
	prefer int  // a line to take wherever it serves, or -1
	sticks bool // timber by the cube only where no stick serves
}

// score is what a stock line is judged by, the lower the better.
type score int

const (
	byFilled score = iota // price a piece in a stick filled with the kind
	byFace                // price of the face the piece takes
	byRest                // price a piece of the sticks that all the rest need
	byMean                // mean of the first two
	scores
)

const orders = 5

// preferred is the most lines that are tried as the one to take throughout.
const preferred = 12

// rules is every way of making a layout that is tried.
func (b *bench) rules() []rule {
	var out []rule
	for _, sticks := range []bool{false, true} {
		if sticks && len(b.in.Cubes) == 0 {
			break
		}
		for o := range orders {
			for s := range scores {
				out = append(out, rule{o, s, -1, sticks})
			}
			for l := range min(len(b.in.Lines), preferred) {
				out = append(out, rule{o, byFilled, l, sticks})
			}
		}
	}
	return out
}

// order is the kinds in the order they go in, the largest first by one of
// several measures; pieces bound to a line always go before the others. The last
// order takes first what the fewest lines serve.
func (b *bench) order(n int) []int {
	out := make([]int, len(b.in.Kinds))
	for i := range out {
		out[i] = i
	}
	serve := func(k int) int {
		lines := 0
		for _, n := range b.full[k] {
			if n > 0 {
				lines++
			}
		}
		return lines
	}
	slices.SortStableFunc(out, func(x, y int) int {
		p, q := b.in.Kinds[x], b.in.Kinds[y]
		bound := 0
		if p.Bound != q.Bound {
			bound = 1
			if p.Bound {
				bound = -1
			}
		}
		thick := cmp.Compare(q.Thickness, p.Thickness)
		wide := cmp.Compare(q.Width, p.Width)
		long := cmp.Compare(q.Length, p.Length)
		face := cmp.Compare(float64(q.Width)*float64(q.Length), float64(p.Width)*float64(p.Length))
		few := cmp.Compare(serve(x), serve(y))
		first := [orders][]int{{wide, long, thick}, {thick, wide, long}, {long, wide, thick}, {face, thick}, {few, thick, wide, long}}[n]
		return cmp.Or(bound, cmp.Or(first...), cmp.Compare(x, y))
	})
	return out
}

// insert finds places for n of a kind: in sticks already there, in the order
// they were opened, then in new ones.
func (b *bench) insert(s *state, kind, n int, r rule) {
	for i := 0; i < len(s.sticks) && n > 0; i++ {
		st, placed := b.fill(s.sticks[i], kind, n)
		s.sticks[i] = st
		n -= placed
	}
	for n > 0 {
		line, cube := b.choose(s, kind, n, r)
		switch {
		case line >= 0:
			st, placed := b.fill(&stick{line: line, sap: b.in.Kinds[kind].Sapwood}, kind, n)
			s.sticks = append(s.sticks, st)
			s.used[line]++
			n -= placed
		case cube >= 0:
			n -= b.take(s, cube, kind, n)
		default:
			s.short[kind] += n
			return
		}
	}
}

// take puts up to n of a kind down to timber by the cube, and says how many.
func (b *bench) take(s *state, cube, kind, n int) int {
	n = min(n, b.cubeRoom(s, cube, kind))
	s.cubed[cube][kind] += n
	s.volume[cube] += float64(n) * b.in.Kinds[kind].Net
	return n
}

// cubeRoom is how many of the kind the timber by the cube still gives.
func (b *bench) cubeRoom(s *state, cube, kind int) int {
	c, q := b.in.Cubes[cube], b.in.Kinds[kind]
	if !q.Cubes[cube] {
		return 0
	}
	if c.Limit < 0 || q.Net <= 0 {
		return everything
	}
	return int(math.Min(everything, math.Max(0, math.Floor((c.Limit-s.volume[cube])/q.Net))))
}

// choose is the line, or else the cube, for the next of n pieces of a kind; -1
// of both where none has room left.
func (b *bench) choose(s *state, kind, n int, r rule) (line, cube int) {
	line, cube = -1, -1
	least := math.Inf(1)
	for l := range b.in.Lines {
		if !b.open(s, l) || b.full[kind][l] == 0 {
			continue
		}
		if v := b.judge(kind, l, n, r); v < least {
			line, least = l, v
		}
	}
	for c := range b.in.Cubes {
		if b.cubeRoom(s, c, kind) == 0 || (r.sticks && line >= 0) {
			continue
		}
		if v := b.in.Cubes[c].PerNet * b.in.Kinds[kind].Net; v < least {
			line, cube, least = -1, c, v
		}
	}
	return line, cube
}

// open reports a line with a stick to be had yet.
func (b *bench) open(s *state, line int) bool {
	limit := b.in.Lines[line].Limit
	return limit < 0 || s.used[line] < limit
}

// judge is the score of a line for the next of n pieces.
func (b *bench) judge(kind, line, n int, r rule) float64 {
	if r.prefer == line {
		return -1
	}
	full := b.full[kind][line]
	price := b.in.Lines[line].PerUsed
	filled := price / float64(full)
	switch r.score {
	case byFace:
		return price * b.share(kind, line)
	case byRest:
		return price * math.Ceil(float64(n)/float64(full)) / float64(n)
	case byMean:
		return (filled + price*b.share(kind, line)) / 2
	}
	return filled
}

// share is the part of a stick's face that one of the kind takes, with a
// saw-cut each way.
func (b *bench) share(kind, line int) float64 {
	l, q := b.in.Lines[line], b.in.Kinds[kind]
	width := l.Clear
	if q.Sapwood {
		width = l.Width
	}
	face := float64(width+b.in.Kerf) * float64(l.Length+b.in.Kerf)
	return float64(b.ways[kind][line][0].pitch) * float64(q.Length+b.in.Kerf) / face
}
