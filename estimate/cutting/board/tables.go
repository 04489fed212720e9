package board

import "slices"

// tables is the nested tables of a group: lengths on a grid, widths and
// thicknesses exact.
type tables struct {
	shop   Shop
	unit   int64 // of length
	ways   []way
	along  []int // units of each way with its cut
	runs   []run // of each way
	levels []level
	bays   []tabled
	boxed  []unitWay
	free   bool // a strip may hold more of a piece than are wanted

	// Scratch of one question.
	worth  []int64 // of each way
	rows   []int64 // worth by units of length
	forced []forced
	room   front
	window []ahead
	strung Strip
	pad    *pad
}

// unitWay is a way with its units of length.
type unitWay struct {
	way
	at    int32 // place among the boxed ways
	along int
}

// level is all ways up to a thickness, in a layer that takes it.
type level struct {
	ways  []int32 // by width, then length
	slots []slot  // by length of stick
}

// slot is the layers of one length at a level.
type slot struct {
	long   int   // units
	wide   int64 // the greatest width, with a cut
	best   int64 // of the strips so far
	strips []strip
	front  front
}

// strip is the best strip of a width, where it is better than any narrower.
type strip struct {
	across int64 // with its cut
	worth  int64
	end    reached
}

// node is a part, a strip of a layer or a layer of a stick, after the parts before it; the first node stands for none.
type node struct {
	part   int32
	before int32
}

// tabled is a bay with the levels of its layers.
type tabled struct {
	bay
	wide, thick int64   // with a cut
	single      place   // the layer that is the whole stick
	layers      []layer // that leave room for another
	front       front
	best        int64
	middle      int64 // of the best strip of the whole section, pieces with the heart boxed in among it
	end         reached
}

// place is a slot of a level.
type place struct{ level, slot int }

// layer is a level that leaves room for another layer.
type layer struct {
	place
	through int64 // with its cut
	worth   int64
}

// forced is the best strip that has a way in it.
type forced struct {
	place
	way    int32
	before reached
	worth  int64
}

// tables lays the tables of a group out. The length of a stick is rounded down:
// pieces that go in with their cuts rounded up go in, and those that go in at all
// go in with their cuts rounded down.
func (g *group) tables(s Shop, unit int64, down bool) *tables {
	t := &tables{shop: s, unit: unit, ways: g.ways}
	units := func(length int64) int {
		if down {
			return int((length + s.Kerf) / unit)
		}
		return int((length + s.Kerf + unit - 1) / unit)
	}
	for _, w := range g.ways {
		t.along = append(t.along, units(w.length))
	}
	for _, w := range g.ways {
		t.runs = append(t.runs, s.run(w, units))
	}
	for i, w := range g.boxed {
		t.boxed = append(t.boxed, unitWay{w, int32(i), units(w.length)})
	}
	levels := map[int]int{}
	at := func(n int, b *tabled) place {
		if _, ok := levels[n]; !ok {
			levels[n] = len(t.levels)
			t.levels = append(t.levels, level{})
			for i := range n {
				t.levels[levels[n]].ways = append(t.levels[levels[n]].ways, int32(i))
			}
		}
		l := levels[n]
		return place{l, t.levels[l].slot(t.long(b.bay), b.wide)}
	}
	for _, b := range g.bays {
		st := s.Sticks[b.stick]
		tb := tabled{bay: b, wide: b.width + s.Kerf, thick: st.Thickness + s.Kerf}
		n := 0
		for n < len(g.ways) && g.ways[n].through <= st.Thickness {
			n++
		}
		tb.single = at(n, &tb)
		for k, w := range g.ways[:n] {
			// The last way of a thickness ends the level.
			last := k+1 == n || g.ways[k+1].through > w.through
			if last && w.through+g.ways[0].through+2*s.Kerf <= tb.thick {
				tb.layers = append(tb.layers, layer{place: at(k+1, &tb), through: w.through + s.Kerf})
			}
		}
		t.bays = append(t.bays, tb)
	}
	for i := range t.levels {
		t.levels[i].sort(t)
	}
	return t
}

// long is the length of a bay in units.
func (t *tables) long(b bay) int {
	return int((t.shop.Sticks[b.stick].Length + t.shop.Kerf) / t.unit)
}

// sort puts the ways by width and leaves out those that go in no slot.
func (l *level) sort(t *tables) {
	long, wide := 0, int64(0)
	for _, s := range l.slots {
		long, wide = max(long, s.long), max(wide, s.wide)
	}
	l.ways = slices.DeleteFunc(l.ways, func(w int32) bool { return t.along[w] > long || t.ways[w].across+t.shop.Kerf > wide })
	slices.SortStableFunc(l.ways, func(a, b int32) int {
		if x, y := t.ways[a].across, t.ways[b].across; x != y {
			return int(x - y)
		}
		return t.along[a] - t.along[b]
	})
}

// slot is the place of the layers of a length, made wide enough.
func (l *level) slot(long int, wide int64) int {
	for i := range l.slots {
		if l.slots[i].long == long {
			l.slots[i].wide = max(l.slots[i].wide, wide)
			return i
		}
	}
	l.slots = append(l.slots, slot{long: long, wide: wide})
	return len(l.slots) - 1
}

// cells is about the cells of length a question fills.
func (t *tables) cells() int {
	cells := 0
	for _, l := range t.levels {
		long := 0
		for _, s := range l.slots {
			long = max(long, s.long)
		}
		cells += long
		for _, w := range l.ways {
			cells += max(0, long-t.along[w])
		}
	}
	for _, b := range t.bays {
		cells += len(t.boxed) * t.long(b.bay)
	}
	return cells
}

// open makes room for the answers to questions.
func (t *tables) open(on *pad) {
	t.pad = on
	long := 0
	for _, l := range t.levels {
		for _, s := range l.slots {
			long = max(long, s.long)
		}
	}
	t.worth = make([]int64, len(t.ways))
	t.rows = make([]int64, long+1)
}
