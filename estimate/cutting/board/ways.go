package board

import (
	"cmp"
	"slices"
)

// way is how pieces lie in a strip: one, or several alike side by side, flat or
// on edge.
type way struct {
	piece   int
	deep    int // pieces side by side
	turned  bool
	through int64 // of the thickness
	across  int64 // of the width, all of them
	length  int64
}

// ways is every way a piece may lie in a stick so thick and wide, no more of them
// side by side than are wanted. Sawn curves lie flat.
func (s Shop) ways(piece int, thick, wide int64) []way {
	p := s.Pieces[piece]
	var out []way
	add := func(through, across, pitch int64, turned bool) {
		if through > thick {
			return
		}
		for deep := 1; deep <= p.Wanted && across <= wide; deep++ {
			out = append(out, way{piece, deep, turned, through, across, p.Length})
			across += pitch
		}
	}
	if p.Pitch > 0 {
		add(p.Thickness, p.Width, p.Pitch, false)
		return out
	}
	add(p.Thickness, p.Width, p.Width+s.Kerf, false)
	if p.Thickness != p.Width {
		add(p.Width, p.Thickness, p.Thickness+s.Kerf, true)
	}
	return out
}

// lay finds the ways of a group's pieces and makes its tables; false where no
// piece goes into any of its sticks.
func (g *group) lay(s Shop, open func(*tables)) bool {
	var thick, wide, long int64
	for _, b := range g.bays {
		st := s.Sticks[b.stick]
		thick, wide, long = max(thick, st.Thickness), max(wide, b.width), max(long, st.Length)
	}
	for i, ok := range g.gives {
		p := s.Pieces[i]
		if !ok || p.Length > long {
			continue
		}
		ways := s.ways(i, thick, wide)
		g.runs = g.runs || p.Longest > 0
		if !p.Boxed {
			g.ways = append(g.ways, ways...)
			continue
		}
		for _, w := range ways {
			if w.deep == 1 {
				g.boxed = append(g.boxed, w)
			}
		}
	}
	slices.SortStableFunc(g.ways, func(a, b way) int {
		return cmp.Or(cmp.Compare(a.through, b.through), cmp.Compare(a.across, b.across), cmp.Compare(a.length, b.length))
	})
	if len(g.ways)+len(g.boxed) == 0 {
		return false
	}
	var exact bool
	if g.up, exact = g.finest(s, open); exact {
		g.down = g.up
		return true
	}
	g.down = g.tables(s, g.up.unit, true)
	g.down.free = g.up.free
	open(g.down)
	return true
}

// ladder is the units of length tried, nil standing for the common divisor alone,
// each coarser and with less work than the one before.
var ladder = [...]int64{0, mm, 2 * mm, 3 * mm, 5 * mm, 8 * mm, 12 * mm, 20 * mm, 30 * mm, 50 * mm}

// bounded is the last unit of the ladder on which a strip holds no more of a piece
// than are wanted; on coarser ones, where work is dear, it may.
const bounded = 1

const mm = 1_000_000 // nanometres

// finest is the tables of the finest unit of the ladder that cost no more than the
// work allowed, never finer than the common divisor of the lengths. They are exact
// where the unit divides every length with its cut.
func (g *group) finest(s Shop, open func(*tables)) (*tables, bool) {
	var divisor int64
	least := int64(1) << 62
	all := slices.Concat(g.ways, g.boxed)
	for _, w := range all {
		divisor, least = gcd(divisor, w.length+s.Kerf), min(least, w.length+s.Kerf)
	}
	var t *tables
	for i, unit := range ladder {
		// No unit is more than the least length, which would then take none.
		unit = min(max(unit, divisor), least)
		if g.runs {
			unit = max(mm, min(ladder[i], least)/mm*mm)
		}
		t = g.tables(s, unit, false)
		t.free = i > bounded
		if t.cells() <= s.Work {
			break
		}
	}
	open(t)
	exact := !g.runs
	for _, w := range all {
		exact = exact && (w.length+s.Kerf)%t.unit == 0
	}
	return t, exact
}

func gcd(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
