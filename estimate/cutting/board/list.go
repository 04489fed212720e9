package board

import (
	"slices"

	"futtock/estimate/cutting/solve"
)

// listing is a search for every yield of the sticks of a shop, in whole
// nanometres, whatever the unit of the tables.
type listing struct {
	*Saw
	worth []int64
	floor []int64
	steps *solve.Steps
	left  int // yields that may still be found at any stage
}

// got is what some part of a stick gives, with what it takes of the next stage.
type got struct {
	gives []int
	worth int64
	size  int64 // with a cut: a strip's width, a layer's thickness
	strip Strip
	layer Layer
}

// stages is how many times as many yields may be found on the way as are asked for.
const stages = 4

// List names every yield of the class that is worth the floor of its stick and that no
// other has all of, for package solve; false where there are more than most, or more
// work than steps. Of a heavy shop it lists nothing.
func (s *Saw) List(worth []int64, floor []int64, most int, steps *solve.Steps) ([]solve.Column, bool) {
	if s.heavy {
		return nil, false
	}
	l := &listing{s, worth, floor, steps, stages * most}
	var out []solve.Column
	for i, st := range s.shop.Sticks {
		for k, ok := range st.Gives {
			if st.Whole && ok && s.whole[k] > 0 && worth[k] >= floor[i] {
				out = append(out, s.column(Layout{Stick: i, Layers: []Layer{{{{Piece: k, Deep: 1}}}}}, s.whole))
			}
		}
	}
	for _, g := range s.groups {
		steps.Add(g.down.ask(worth, s.whole, false))
		for i := range g.down.bays {
			b := &g.down.bays[i]
			if b.best < floor[b.stick] {
				continue
			}
			found, ok := l.sticks(g, b)
			if !ok {
				return nil, false
			}
			for _, f := range found {
				f.Stick, f.Sap = b.stick, b.sap
				out = append(out, s.column(f, s.whole))
			}
			if len(out) > most {
				return nil, false
			}
		}
	}
	return out, true
}

// sticks is every layout of a bay that may be worth its floor.
func (l *listing) sticks(g *group, b *tabled) ([]Layout, bool) {
	floor, st := l.floor[b.stick], l.shop.Sticks[b.stick]
	t := g.down
	one, ok := l.layers(g, b, st.Thickness, floor, t.slot(b.single))
	if !ok {
		return nil, false
	}
	var out []Layout
	for _, y := range one {
		out = append(out, Layout{Layers: []Layer{y.layer}})
	}
	if b.front.at(b.thick).worth >= floor {
		var all []got
		for i := range b.layers {
			y := &b.layers[i]
			rest := b.front.at(b.thick - y.through).worth
			some, ok := l.layers(g, b, y.through-l.shop.Kerf, floor-rest, t.slot(y.place))
			if !ok {
				return nil, false
			}
			for _, s := range some {
				s.size = y.through
				all = append(all, s)
			}
		}
		sets, ok := l.together(l.best(all), b.thick, floor, b.front)
		if !ok {
			return nil, false
		}
		for _, parts := range sets {
			var s Layout
			for _, y := range parts {
				s.Layers = append(s.Layers, y.layer)
			}
			out = append(out, s)
		}
	}
	if b.middle >= floor {
		strips, ok := l.strips(slices.Concat(g.boxed, g.ways), b, st.Thickness)
		if !ok {
			return nil, false
		}
		for _, s := range strips {
			if s.worth >= floor {
				out = append(out, Layout{Boxed: true, Layers: []Layer{{s.strip}}})
			}
		}
	}
	return out, true
}

// layers is every layer so thick that may be worth the floor.
func (l *listing) layers(g *group, b *tabled, thick, floor int64, s *slot) ([]got, bool) {
	if s.front.at(b.wide).worth < floor {
		return nil, true
	}
	strips, ok := l.strips(g.ways, b, thick)
	if !ok {
		return nil, false
	}
	sets, ok := l.together(strips, b.wide, floor, s.front)
	if !ok {
		return nil, false
	}
	var out []got
	for _, parts := range sets {
		y := got{gives: make([]int, len(l.whole))}
		for _, p := range parts {
			y = y.plus(p, l)
			y.layer = append(y.layer, p.strip)
		}
		out = append(out, y)
	}
	return l.best(out), true
}

// strips is every strip of ways no thicker, that no other narrower has all of.
func (l *listing) strips(ways []way, b *tabled, thick int64) ([]got, bool) {
	var out []got
	ok := true
	var grow func(y got, from int, long int64)
	grow = func(y got, from int, long int64) {
		if l.steps.Add(len(ways)); l.steps.Spent() || len(out) > l.left {
			ok = false
		}
		if !ok {
			return
		}
		for i := from; i < len(ways); i++ {
			w := ways[i]
			if w.through > thick || w.across > b.width || w.length > long || y.gives[w.piece]+w.deep > l.whole[w.piece] {
				continue
			}
			next := y
			next.gives = slices.Clone(y.gives)
			next.gives[w.piece] += w.deep
			next.worth += l.worth[w.piece] * int64(w.deep)
			next.size = max(y.size, w.across+l.shop.Kerf)
			next.strip = append(y.strip[:len(y.strip):len(y.strip)], Run{Piece: w.piece, Deep: w.deep, Turned: w.turned})
			grow(next, i, long-w.length-l.shop.Kerf)
		}
		if len(y.strip) > 0 {
			out = append(out, y)
		}
	}
	grow(got{gives: make([]int, len(l.whole))}, 0, l.shop.Sticks[b.stick].Length)
	if !ok {
		return nil, false
	}
	return l.best(out), true
}

// together is every set of parts that goes into a size and may be worth the floor;
// the front says what the rest of the size is worth at best.
func (l *listing) together(parts []got, size, floor int64, front front) ([][]got, bool) {
	var out [][]got
	ok := true
	var grow func(y got, set []got, from int)
	grow = func(y got, set []got, from int) {
		if l.steps.Add(len(parts)); l.steps.Spent() || len(out) > l.left {
			ok = false
		}
		if !ok {
			return
		}
		for i := from; i < len(parts); i++ {
			p := parts[i]
			left := size - y.size - p.size
			if left < 0 || y.worth+p.worth+front.at(left).worth < floor {
				continue
			}
			next := y.plus(p, l)
			if slices.Equal(next.gives, y.gives) || next.worth+front.at(left).worth < floor {
				continue
			}
			with := append(set[:len(set):len(set)], p)
			if next.worth >= floor {
				out = append(out, with)
			}
			grow(next, with, i)
		}
	}
	grow(got{gives: make([]int, len(l.whole))}, nil, 0)
	return out, ok
}

// plus is two parts together, no more of a piece than is wanted.
func (y got) plus(p got, l *listing) got {
	out := got{gives: slices.Clone(y.gives), size: y.size + p.size, layer: y.layer}
	for i, n := range p.gives {
		out.gives[i] = min(l.whole[i], out.gives[i]+n)
		out.worth += l.worth[i] * int64(out.gives[i])
	}
	return out
}

// best leaves out parts of which another no larger has all.
func (l *listing) best(in []got) []got {
	slices.SortStableFunc(in, func(a, b got) int {
		switch {
		case a.size != b.size:
			return int(max(-1, min(1, a.size-b.size)))
		case a.worth != b.worth:
			return int(max(-1, min(1, b.worth-a.worth)))
		}
		return total(b.gives) - total(a.gives)
	})
	var out []got
next:
	for _, y := range in {
		l.steps.Add(len(out))
		for _, o := range out {
			if all(o.gives, y.gives) {
				continue next
			}
		}
		out = append(out, y)
	}
	return out
}

func total(n []int) int {
	sum := 0
	for _, v := range n {
		sum += v
	}
	return sum
}

// all reports a yield that has all of another.
func all(a, b []int) bool {
	for i := range a {
		if a[i] < b[i] {
			return false
		}
	}
	return true
}
