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
		b := traced{astride, c.part, w.rise(c.reaches)}
		if c.even {
			b = traced{even, c.part, 0}
		}
		out = append(out, banded{c.reaches - v.through, v.through, w.strips(b)})
	}
	out = w.beyond(out, c.right, false)
	return w.beyond(out, c.left, true)
}

// beyond appends the bands beyond a place, upward or downward.
func (w *sweep) beyond(out []banded, i int, under bool) []banded {
next:
	for w.stack[i] > 0 {
		if w.stack[i] == w.stack[i+1] {
			i++
			continue
		}
		n := w.rough(i)
		for at, v := range w.levels {
			after := i + w.places(v.through+w.shop.Kerf)
			if w.side[at][n] == 0 || w.side[at][n]+w.stack[after] != w.stack[i] {
				continue
			}
			low := int64(i) * w.grid.fine
			if under {
				low = -low - v.through
			}
			out = append(out, banded{low, v.through, w.strips(traced{beside, at, n})})
			i = after
			continue next
		}
		panic("log: a height with a worth that no band gives it")
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
	before := 0
	switch b.place {
	case beside:
		before = w.metBefore(w.cored(b.n))
	default:
		before = w.metBefore(0)
	}
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
next:
	for w.row[j] > 0 {
		if w.row[j] == w.row[j+1] {
			j++
			continue
		}
		r := open
		if j < before {
			r = w.same[met]
		}
		x := int64(j) * w.grid.fine
		for i, width := range w.levels[at].widths {
			s := w.last(w.kinds[r][at][i], x+width, up)
			after := j + w.places(width+w.shop.Kerf)
			if s.worth == 0 || s.worth+w.row[after] != w.row[j] {
				continue
			}
			if left {
				x = -x - width
			}
			out = append(out, spot{x, width, s})
			j = after
			continue next
		}
		panic("log: a place with a worth that no strip gives it")
	}
	return out
}

// chosen is the best bands with a piece in their middle.
type chosen struct {
	sweep *sweep
	bands []banded
	over  float64
}

// each looks, for every piece, for bands about a strip in the middle that holds it,
// worth more over the floor, in parts of it, than those known.
func (w *sweep) each(best []chosen, floor int64) {
	for i, y := range w.ways {
		p := w.shop.Pieces[y.piece]
		if w.tables.worth[y.piece] == 0 {
			continue
		}
		at := w.levelOf(y)
		b := traced{even, at, 0}
		up, low, row := y.through-y.through/2, y.through/2-y.through, w.rows[at]
		r := heart
		first, second := w.places(up+w.shop.Kerf), w.places(up+w.shop.Kerf)
		if p.Free {
			// Beside the core, a cut across the pith.
			n := w.rise(w.log.Core)
			if w.down && n > 0 && w.cored(n) < w.log.Core {
				n++
			}
			if n >= len(w.side[at]) {
				continue
			}
			b, r = traced{beside, at, n}, open
			_, up = w.prepared(b)
			row, low = w.row, w.height(n)
			first, second = n*w.grid.skip+w.places(y.through+w.shop.Kerf), max(0, w.places(w.shop.Kerf)-n*w.grid.skip)
		}
		half := y.across - y.across/2
		reaches, begins := half, w.places(half+w.shop.Kerf)
		worth, s := w.with(i, r, at, reaches, up)
		if worth == 0 || first >= len(w.stack) {
			continue
		}
		total := worth + 2*row[begins] + w.stack[first] + w.stack[second]
		if total <= floor {
			continue
		}
		if over := float64(total-floor) / float64(floor+1); best[y.piece].sweep == nil || over > best[y.piece].over {
			if !p.Free {
				w.prepared(b)
			}
			before := w.metBefore(0)
			if p.Free {
				before = w.metBefore(w.cored(b.n))
			}
			spots := []spot{{half - y.across, y.across, s}}
			spots = w.outward(spots, at, up, before, begins, false)
			spots = w.outward(spots, at, up, before, begins, true)
			bands := []banded{{low, y.through, spots}}
			bands = w.beyond(bands, first, false)
			best[y.piece] = chosen{w, w.beyond(bands, second, true), over}
		}
	}
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
