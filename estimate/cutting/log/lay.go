package log

import (
	"cmp"
	"slices"
)

// bench is one log class with its grid and its tables.
type bench struct {
	log      int
	up, down *sweep // greatest worths; layouts
}

// pitch is the fineness of a grid: of places across a band and up the log, and how
// many of those lie between two heights at which bands are looked into.
type pitch struct {
	fine int64
	skip int
}

const mm = 1_000_000 // nanometres

// pitches is the grids tried, each coarser and with less work than the one before.
var pitches = [...]pitch{{mm / 4, 1}, {mm / 2, 1}, {mm / 2, 2}, {mm, 1}, {mm, 2}, {mm, 3}, {mm, 5}, {mm, 8}, {2 * mm, 5}, {2 * mm, 8}, {3 * mm, 8}, {5 * mm, 8}, {8 * mm, 8}}

// bench is that of a sweep.
func (g *group) bench(of *sweep) *bench {
	return g.benches[slices.IndexFunc(g.benches, func(b *bench) bool { return b.down == of || b.up == of })]
}

// lay finds the ways of a group's pieces and makes its tables; false where no
// piece goes into any of its logs.
func (g *group) lay(s Shop) bool {
	var wide, long int64
	for _, i := range g.logs {
		wide, long = max(wide, s.Logs[i].diameter(s.Logs[i].Length, true)), max(long, s.Logs[i].Length)
	}
	free, boxed := false, false
	for i, ok := range g.gives {
		p := s.Pieces[i]
		if !ok || p.Length > long || reach(p.Thickness, p.Width) > wide {
			continue
		}
		g.ways = append(g.ways, way{i, false, p.Thickness, p.Width, p.Length})
		if p.Thickness != p.Width {
			g.ways = append(g.ways, way{i, true, p.Width, p.Thickness, p.Length})
		}
		g.sap, free, boxed = g.sap || p.Sapwood, free || p.Free, boxed || p.Boxed
	}
	if len(g.ways) == 0 {
		return false
	}
	if free {
		g.same[met] = met
	}
	if g.same[heart] = g.same[met]; boxed {
		g.same[heart] = heart
	}
	slices.SortStableFunc(g.ways, func(a, b way) int {
		return cmp.Or(cmp.Compare(a.through, b.through), cmp.Compare(a.across, b.across), cmp.Compare(a.length, b.length))
	})
	for i, w := range g.ways {
		if i+1 == len(g.ways) || g.ways[i+1].through > w.through {
			g.levels = append(g.levels, g.level(i+1))
		}
	}
	for _, l := range g.levels {
		g.uses += len(l.ways)
	}
	g.long = long + s.Kerf
	g.up, g.down = g.tables(s, false), g.tables(s, true)
	for _, i := range g.logs {
		p := g.pitch(s, i, s.Work/len(s.Logs)/2)
		g.benches = append(g.benches, &bench{i, g.up.sweep(i, p, false), g.down.sweep(i, p, true)})
	}
	return true
}

// level is the first ways, by the width they take.
func (g *group) level(n int) level {
	l := level{through: g.ways[n-1].through}
	for i := range n {
		l.ways = append(l.ways, int32(i))
		l.widths = append(l.widths, g.ways[i].across)
	}
	slices.SortStableFunc(l.ways, func(a, b int32) int {
		return cmp.Or(cmp.Compare(g.ways[a].across, g.ways[b].across), cmp.Compare(g.ways[a].length, g.ways[b].length))
	})
	slices.Sort(l.widths)
	l.widths = slices.Compact(l.widths)
	return l
}

// tables makes room for the tables of lengths.
func (g *group) tables(s Shop, down bool) *tables {
	t := &tables{group: g, shop: s, down: down, worth: make([]int64, len(s.Pieces))}
	for i := range t.runs {
		for _, l := range g.levels {
			t.runs[i] = append(t.runs[i], make([]front, len(l.widths)))
		}
	}
	return t
}

// pitch is the finest grid of a log that costs no more than the work.
func (g *group) pitch(s Shop, log int, work int) pitch {
	l := s.Logs[log]
	wide := l.diameter(l.Length, g.sap)
	for _, p := range pitches {
		cells := 0
		for _, v := range g.levels {
			step := p.fine * int64(p.skip)
			for a := v.through / 2; 2*a < wide; a += step {
				cells += len(v.widths) * int(across(wide/2, a)/p.fine)
			}
		}
		if cells <= work {
			return p
		}
	}
	return pitches[len(pitches)-1]
}

// ask fills the tables of lengths for the worths given, both alike where they are exact.
func (g *group) ask(worth []int64, wanted []int) int {
	steps := g.up.ask(worth, wanted, 0)
	if g.up.unit > 1 {
		return steps + g.down.ask(worth, wanted, g.up.unit)
	}
	copy(g.down.worth, g.up.worth)
	g.down.runs, g.down.nodes = g.up.runs, g.up.nodes
	return steps
}
