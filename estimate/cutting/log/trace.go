package log

import (
	"cmp"
	"slices"
)

// spot is a strip of a band, by how far it begins across.
type spot struct {
	across, width int64
	stage         stage
}

// banded is a band with its strips.
type banded struct {
	low, through int64
	spots        []spot
}

// bands is bands of the tables with their pieces, from the top down.
func (w *sweep) bands(in []banded) []Band {
	var out []Band
	for _, y := range in {
		b := Band{Low: y.low, Thickness: y.through}
		for _, sp := range y.spots {
			b.Strips = append(b.Strips, Strip{sp.across, sp.width, sp.stage.sap, w.lots(sp.stage.end)})
		}
		slices.SortFunc(b.Strips, func(a, b Strip) int { return cmp.Compare(a.Left, b.Left) })
		out = append(out, b)
	}
	slices.SortFunc(out, func(a, b Band) int { return cmp.Compare(b.Low, a.Low) })
	return out
}

// best is the bands of the best that the log holds.
func (w *sweep) best() []banded {
	_, c := w.whole()
	return w.around(c)
}

// around is the bands about what lies across the pith.
func (w *sweep) around(c choice) []banded {
	var out []banded
	if c.part >= 0 {
		v := w.levels[c.part]
		b := traced{astride, c.part, w.places(c.reaches), 1}
		if c.even {
			b = traced{even, c.part, 0, 1}
		}
		out = append(out, banded{c.reaches - v.through, v.through, w.strips(b)})
	}
	out = w.beyond(out, c.right, false)
	return w.beyond(out, c.left, true)
}

// beyond appends the bands beyond a place, upward or downward, with what they hold at
// their own heights, be it less than the tables still say.
func (w *sweep) beyond(out []banded, i int, under bool) []banded {
	for at, here, after := w.above(i); at >= 0; at, here, after = w.above(after) {
		v := w.levels[at]
		low := int64(here) * w.fine
		if under {
			low = -low - v.through
		}
		out = append(out, banded{low, v.through, w.strips(traced{beside, at, here, 1})})
	}
	return out
}

// strips is the strips of a band of the tables.
func (w *sweep) strips(b traced) []spot {
	if known, ok := w.traced[b]; ok {
		return known
	}
	r, up := w.prepared(b)
	_, c := w.centre(r, b.at, up)
	before := w.metBefore(w.cored(b))
	var out []spot
	if c.part >= 0 {
		width := w.levels[b.at].widths[c.part]
		out = append(out, spot{c.reaches - width, width, w.last(w.kinds[w.same[r]][b.at][c.part], c.reaches, up)})
	}
	out = w.outward(out, b.at, up, before, c.right, false)
	out = w.outward(out, b.at, up, before, c.left, true)
	w.traced[b] = out
	return out
}

// outward appends the strips beyond a place, to the right or to the left.
func (w *sweep) outward(out []spot, at int, up int64, before, j int, left bool) []spot {
	for i, s, x, after := w.next(at, up, before, j); i >= 0; i, s, x, after = w.next(at, up, before, after) {
		out = append(out, w.spot(w.levels[at].widths[i], s, x, left))
	}
	return out
}

// spot is a strip that begins at a place, to the right or to the left.
func (w *sweep) spot(width int64, s stage, place int, left bool) spot {
	x := int64(place) * w.fine
	if left {
		x = -x - width
	}
	return spot{x, width, s}
}

// next is the width of the next strip that lies beyond a place, its stage, where it begins, and
// where the rest does; below nil is none.
func (w *sweep) next(at int, up int64, before, j int) (width int, s stage, here, after int) {
	for w.row[j] > 0 && w.row[j] == w.row[j+1] {
		j++
	}
	if w.row[j] == 0 {
		return -1, stage{}, 0, 0
	}
	r := open
	if j < before {
		r = w.same[met]
	}
	for i, width := range w.levels[at].widths {
		after := j + w.places(width+w.shop.Kerf)
		if s := w.last(w.kinds[r][at][i], int64(j)*w.fine+width, up); s.worth > 0 && s.worth+w.row[after] == w.row[j] {
			return i, s, j, after
		}
	}
	panic("log: a place with a worth that no strip gives it")
}

// each is, for every piece, bands about a strip in the middle that holds it, if
// they are worth more than a floor.
func (w *sweep) each(pieces int, floor int64) [][]banded {
	found, most := make([][]banded, pieces), make([]int64, pieces)
	for i, y := range w.ways {
		p := w.shop.Pieces[y.piece]
		if w.tables.worth[y.piece] == 0 {
			continue
		}
		at := w.levelOf(y)
		b, r := traced{even, at, 0, 1}, heart
		low, row := y.through/2-y.through, w.rows[at]
		up := -low
		first := w.places(up + w.shop.Kerf)
		second := first
		if p.Free {
			// Beside the core, with a cut between it and what lies on the other side.
			n := w.places(w.log.Core)
			if n >= len(w.side[at]) {
				continue
			}
			b, r = traced{beside, at, n, 1}, open
			_, up = w.prepared(b)
			row, low = w.row, int64(n)*w.fine
			first, second = n+w.nexts[at], max(0, w.places(w.shop.Kerf)-n)
		}
		half := y.across - y.across/2
		begins := w.places(half + w.shop.Kerf)
		worth, s := w.with(i, r, at, half, up)
		if worth == 0 || first >= len(w.stack) {
			continue
		}
		total := worth + 2*row[begins] + w.stack[first] + w.stack[second]
		if total <= floor || total <= most[y.piece] {
			continue
		}
		if !p.Free {
			w.prepared(b)
		}
		before := w.metBefore(w.cored(b))
		spots := []spot{{half - y.across, y.across, s}}
		spots = w.outward(spots, at, up, before, begins, false)
		spots = w.outward(spots, at, up, before, begins, true)
		bands := w.beyond([]banded{{low, y.through, spots}}, first, false)
		found[y.piece], most[y.piece] = w.beyond(bands, second, true), total
	}
	return slices.DeleteFunc(found, func(b []banded) bool { return b == nil })
}

// levelOf is the level of bands as thick as a way takes.
func (g *group) levelOf(y way) int {
	at, _ := slices.BinarySearchFunc(g.levels, y.through, func(v level, t int64) int { return cmp.Compare(v.through, t) })
	return at
}

// with is what a strip as wide as a way takes is worth with the way in it, and its
// lengths.
func (w *sweep) with(at int, r relation, level int, reaches, up int64) (int64, stage) {
	y := w.ways[at]
	p := w.shop.Pieces[y.piece]
	if !r.takes(p) {
		return 0, stage{}
	}
	width, _ := slices.BinarySearch(w.levels[level].widths, y.across)
	for _, sapwood := range []bool{false, true} {
		if sapwood && (!p.Sapwood || w.log.Sapwood == 0) {
			continue
		}
		rest := w.log.clear(reaches, up, sapwood) - y.length
		if rest < 0 {
			continue
		}
		run := w.runs[set(w.same[r], sapwood)][level][width].holds(rest)
		return w.tables.worth[y.piece] + run.worth, stage{end: w.add(int32(at), run.end), sap: sapwood}
	}
	return 0, stage{}
}
