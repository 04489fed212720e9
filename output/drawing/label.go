package drawing

import (
	"cmp"
	"math"
	"slices"
)

// view is a face of a stick being drawn: pieces are put on it, then what stands
// in them, then the figures round it.
type view struct {
	Frame
	key     key
	back    Drawing // bodies, pieces
	front   Drawing // writing
	leaders []leader
}

// leader is a number that stands outside its piece, with a line to it.
type leader struct {
	to   Point
	text string
	cut  int
}

// place is the room for writing in a piece: how deep it is for writing of a
// width, and where the middle of that stands.
type place struct {
	wide   float64
	deep   func(width float64) float64
	middle func(width float64) Point
}

// inOblong is the room in a straight piece.
func inOblong(x, y, w, h float64) place {
	return place{w, func(float64) float64 { return h }, func(float64) Point { return Point{x + w/2, y + h/2} }}
}

// inArc is the room in a curved piece of moulding m, the middle of its concave
// edge at low, its convex edge of radius r: the writing stands on the level, and
// the piece falls away to either side of it.
func inArc(low Point, m, r, chord float64) place {
	deep := func(w float64) float64 { return m - (r - math.Sqrt(math.Max(0, r*r-w*w/4))) }
	return place{chord, deep, func(w float64) Point { return Point{low.X, low.Y - deep(w)/2} }}
}

// Room kept round writing, and the pitch of lines of it in a piece, for writing of
// the small size.
const (
	leastDeep = 2.5
	sides     = 1.4
	pieceLine = 3.1
)

// written is the sizes of writing in pieces, in points: the largest there is room
// for is taken, so that it is read at arm's length.
var written = []float64{10.5, 9, smallSize}

// label writes what there is room for in a piece: its name with its size, its
// name, its number, or its number outside with a line to the piece.
func (v *view) label(p place, entry, cut int) {
	e := v.key.entries[entry]
	one := func(x, y float64, text string, size float64, bold bool) {
		s := centred(x, y, text, size, bold)
		s.Cut = cut
		v.front.put(s)
	}
	for _, pt := range written {
		k, air := pt/smallSize, 0.0
		if pt > smallSize {
			air = 0.7 // larger writing is taken only where it stands clear of the edges
		}
		fits := func(w float64, lines int) bool {
			return w+sides <= p.wide && p.deep(w+sides) >= air+k*(leastDeep+float64(lines-1)*(pieceLine+0.3))
		}
		name, size := v.wide(e.name, true, pt), v.wide(e.size, false, pt)
		if w := name + 1.5*k + size; fits(w, 1) {
			at := p.middle(w + sides)
			one(at.X-w/2+name/2, at.Y, e.name, pt, true)
			one(at.X+w/2-size/2, at.Y, e.size, pt, false)
			return
		}
		if w := math.Max(name, size); fits(w, 2) {
			at := p.middle(w + sides)
			one(at.X, at.Y-k*pieceLine/2, e.name, pt, true)
			one(at.X, at.Y+k*pieceLine/2, e.size, pt, false)
			return
		}
	}
	for _, text := range []string{v.key.short(entry), v.key.number(entry)} {
		for _, pt := range written {
			if w := v.wide(text, true, pt); w+0.8 <= p.wide && p.deep(w+0.8) >= leastDeep*pt/smallSize+(pt-smallSize)/4 {
				at := p.middle(w)
				one(at.X, at.Y, text, pt, true)
				return
			}
		}
	}
	to := p.middle(0)
	to.X += v.aside(p.wide)
	v.leaders = append(v.leaders, leader{to, v.key.number(entry), cut})
}

// aside is how far from the middle of a piece its leader ends: near its left end,
// clear of what is written in the middles of others, each a step on from the last.
func (v *view) aside(wide float64) float64 {
	return math.Min(0, 4+5*float64(len(v.leaders))-wide/2)
}

// rowDeep is the pitch of rows of numbers over a stick.
const rowDeep = 3.0

// lead sets the numbers that stand outside in rows, the lowest at y, and draws
// their lines. It says how many rows it took.
func (v *view) lead(y, from, to float64) int {
	if len(v.leaders) == 0 {
		return 0
	}
	slices.SortStableFunc(v.leaders, func(a, b leader) int {
		return cmp.Or(cmp.Compare(a.to.X, b.to.X), cmp.Compare(a.to.Y, b.to.Y))
	})
	all := 0.0
	room := func(l leader) float64 { return v.wide(l.text, true, smallSize) + 1.4 }
	for _, l := range v.leaders {
		all += room(l)
	}
	// Numbers of one row are not all as wide as the next's: a little is left over.
	rows := int(math.Ceil(all / (0.92 * (to - from))))
	for row := range rows {
		var at, wide []float64
		var here []leader
		for i := row; i < len(v.leaders); i += rows {
			l := v.leaders[i]
			here, at, wide = append(here, l), append(at, l.to.X), append(wide, room(l))
		}
		high := y - float64(row)*rowDeep
		for i, x := range spread(at, wide, from, to) {
			s := tell(x, high, here[i].text, smallSize, true, Middle)
			s.Cut = here[i].cut
			v.front.put(s, stroke(x, high+0.6, here[i].to.X, here[i].to.Y, fine), Shape{Path: circle(here[i].to, 0.35), Fill: Ink})
		}
	}
	return rows
}

// spread moves places so far apart that what stands at them does not overlap,
// each as little as may be, within bounds; past them where there is no room.
func spread(at, wide []float64, from, to float64) []float64 {
	out := slices.Clone(at)
	edge := from
	for i := range out {
		out[i] = math.Max(out[i], edge+wide[i]/2)
		edge = out[i] + wide[i]/2
	}
	edge = to
	for i := len(out) - 1; i >= 0; i-- {
		out[i] = math.Min(out[i], edge-wide[i]/2)
		edge = out[i] - wide[i]/2
	}
	return out
}

// mark is a figure at a place along an edge.
type mark struct {
	at   float64
	text string
}

// marks gathers figures by place, each place once.
func marks(list []mark) []mark {
	slices.SortStableFunc(list, func(a, b mark) int {
		switch {
		case a.at < b.at:
			return -1
		case a.at > b.at:
			return 1
		}
		return 0
	})
	return slices.CompactFunc(list, func(a, b mark) bool { return a.text == b.text })
}

// below sets figures under an edge at y; none where they have no room beside one
// another, since every size stands in the key as well.
func (v *view) below(y, from, to float64, list []mark) {
	at, wide, all := make([]float64, len(list)), make([]float64, len(list)), 0.0
	for i, m := range list {
		at[i], wide[i] = m.at, v.wide(m.text, false, smallSize)+2
		all += wide[i]
	}
	if all > to-from {
		return
	}
	for i, x := range spread(at, wide, from, to) {
		v.front.put(stroke(list[i].at, y, list[i].at, y+1, fine), stroke(list[i].at, y+1, x, y+2.6, fine),
			tell(x, y+5, list[i].text, smallSize, false, Middle))
	}
}

// beside sets figures left of an edge at x; places are heights on the paper.
func (v *view) beside(x, from, to float64, list []mark) {
	at, wide := make([]float64, len(list)), make([]float64, len(list))
	for i, m := range list {
		at[i], wide[i] = m.at, 2.9
	}
	if float64(len(list))*2.9 > to-from {
		return
	}
	for i, y := range spread(at, wide, from, to) {
		v.front.put(stroke(x, list[i].at, x-1, list[i].at, fine), stroke(x-1, list[i].at, x-2.2, y, fine),
			tell(x-2.6, y+capital/2, list[i].text, smallSize, false, Right))
	}
}
