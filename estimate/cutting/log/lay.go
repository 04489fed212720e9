package log

import (
	"cmp"
	"slices"
)

// bench is one log class with its grid and its tables.
type bench struct {
	log      int
	up, down *sweep // greatest worths; layouts
	trial    *sweep // of what is left while a layout grows
}

const mm = 1_000_000 // nanometres

// grids is the grids tried, in parts of a base, each coarser and with less work than the one before.
var grids = [...]struct{ over, under int64 }{{1, 16}, {1, 4}, {1, 2}, {1, 1}, {2, 1}, {3, 1}, {4, 1}}

// base is about a millimetre: where it can, what goes into every size with its cut,
// so that nothing is rounded but what lies across the pith.
func (g *group) base(s Shop) int64 {
	divisor := int64(0)
	for _, w := range g.ways {
		for a := w.through + s.Kerf; a > 0; {
			divisor, a = a, divisor%a
		}
	}
	if parts := (divisor + mm/2) / mm; parts > 1 && divisor%parts == 0 {
		return divisor / parts
	}
	if 4*divisor < mm || divisor > 2*mm {
		return mm
	}
	return divisor
}

// cell is at every how many heights of the grid bands are looked into at first, and
// refined about how many times as much work as that the heights between them take.
const (
	cell    = 12
	refined = 3
)

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
	for _, i := range g.logs {
		work := s.Work / len(s.Logs) / 2
		fine := g.grid(s, i, work)
		g.benches = append(g.benches, &bench{i, g.tables(s, false).sweep(i, fine, work, false), g.tables(s, true).sweep(i, fine, 3*work, true), g.tables(s, true).sweep(i, fine, 0, true)})
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

// grid is the finest grid of a log that costs no more than the work.
func (g *group) grid(s Shop, log int, work int) int64 {
	l := s.Logs[log]
	wide := l.diameter(l.Length, g.sap)
	base, fine := g.base(s), int64(0)
	for _, of := range grids {
		fine = base * of.over / of.under
		cells := 0
		for _, v := range g.levels {
			for a := v.through / 2; 2*a < wide; a += fine * cell {
				cells += len(v.widths) * int(across(wide/2, a)/fine)
			}
		}
		if cells*(1+refined) <= work {
			break
		}
	}
	return fine
}

// ask fills the tables of lengths for the worths given, both alike where they are exact.
func (b *bench) ask(worth []int64, wanted []int) int {
	up, down := b.up.tables, b.down.tables
	steps := up.ask(worth, wanted, 0)
	if up.unit > 1 {
		return steps + down.ask(worth, wanted, up.unit)
	}
	copy(down.worth, up.worth)
	down.unit, down.runs, down.nodes = up.unit, up.runs, up.nodes
	return steps
}
