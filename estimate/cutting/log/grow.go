package log

import (
	"cmp"
	"slices"

	"futtock/estimate/cutting/solve"
)

// A log may hold more of a piece than are wanted, by the tables: they know nothing of
// what other strips give. A layout that is to give no more is grown from the middle outward, strip by
// strip, each time of what is left; the tables say what lies beyond.

// choices is how many bands, the most promising by the tables, are tried at a height.
const choices = 4

// growth is a layout under way.
type growth struct {
	*bench
	left  []int
	bands []Band
	had   int64 // worth of the bands so far, as the tables count it
	said  int64 // and as they said
}

// grown is bands about the best middle by the tables that together give no more than is wanted.
func (b *bench) grown(worth []int64, wanted []int, steps *solve.Steps) []Band {
	w := b.down
	y := growth{bench: b, left: slices.Clone(wanted)}
	copy(b.trial.tables.worth, worth)
	b.trial.unit, b.trial.cells = w.unit, 0
	_, c := w.whole()
	if c.part >= 0 {
		t := traced{astride, c.part, w.places(c.reaches), 1}
		if c.even {
			t = traced{even, c.part, 0, 1}
		}
		band, _, left := y.band(t, c.reaches-w.levels[c.part].through)
		y.take(band, w.known(t), left)
	}
	for ends := [2]int{c.right, c.left}; ; {
		side := 0
		if ends[1] < ends[0] {
			side = 1
		}
		if w.stack[ends[side]] == 0 {
			if side = 1 - side; w.stack[ends[side]] == 0 {
				break
			}
		}
		ends[side] = y.beyond(ends[side], side == 1)
	}
	steps.Add(b.trial.cells)
	return slices.DeleteFunc(sorted(y.bands), func(b Band) bool { return len(b.Strips) == 0 })
}

// sorted is bands from the top down.
func sorted(in []Band) []Band {
	slices.SortFunc(in, func(a, b Band) int { return cmp.Compare(b.Low, a.Low) })
	return in
}

// known is what a band is worth by the tables.
func (w *sweep) known(b traced) int64 {
	if b.place == even {
		return w.even[b.at]
	}
	return w.mid[b.at][b.n].worth
}

func (y *growth) take(b Band, said int64, left []int) {
	for i, n := range left {
		y.had += int64(y.left[i]-n) * y.down.tables.worth[i]
	}
	y.bands, y.left, y.said = append(y.bands, b), left, y.said+said
}

// beyond takes the best band that lies beyond a height, of what is left, and returns where
// the rest begins. What lies beyond that counts as it did before: so much less than the
// tables say.
func (y *growth) beyond(i int, under bool) int {
	w := y.down
	_, here, _ := w.above(i)
	type try struct {
		at   int
		says int64
	}
	var order []try
	for at := range w.levels {
		if worth := w.side[at][here].worth; worth > 0 {
			order = append(order, try{at, worth + w.stack[here+w.nexts[at]]})
		}
	}
	slices.SortStableFunc(order, func(a, b try) int { return cmp.Compare(b.says, a.says) })
	after := here + cell
	var best Band
	var said int64
	var left []int
	most := -1.0
	for _, t := range order[:min(choices, len(order))] {
		k, through := w.side[t.at][here], w.levels[t.at].through
		low := int64(here) * w.fine
		if under {
			low = -low - through
		}
		b, v, rest := y.band(traced{beside, t.at, here, 1}, low)
		next := here + w.nexts[t.at]
		if over := float64(v) + float64(w.stack[next])*float64(y.had+1)/float64(y.said+1); v > 0 && over > most {
			best, said, left, most, after = b, k.worth, rest, over, next
		}
	}
	if most >= 0 {
		y.take(best, said, left)
	}
	return after
}

// band is a band of the tables of what is left, its worth, and what is left after it.
func (y *growth) band(b traced, low int64) (Band, int64, []int) {
	t, left := y.trial, slices.Clone(y.left)
	out, worth := Band{Low: low, Thickness: t.levels[b.at].through}, int64(0)
	ask := func() (relation, int64) {
		t.nodes = append(t.nodes[:0], node{})
		n, _ := t.tables.level(b.at, left)
		t.cells += n
		t.staged(b.at)
		return t.prepared(b)
	}
	lay := func(sp spot) bool {
		lots := t.lots(sp.stage.end)
		for i, o := range lots {
			if left[o.Piece]--; left[o.Piece] < 0 {
				for _, o := range lots[:i+1] {
					left[o.Piece]++
				}
				return false
			}
		}
		for _, o := range lots {
			worth += t.tables.worth[o.Piece]
		}
		out.Strips = append(out.Strips, Strip{sp.across, sp.width, sp.stage.sap, lots})
		return true
	}
	r, up := ask()
	_, c := t.centre(r, b.at, up)
	if c.part >= 0 {
		width := t.levels[b.at].widths[c.part]
		lay(spot{c.reaches - width, width, t.last(t.kinds[t.same[r]][b.at][c.part], c.reaches, up)})
	}
	before := t.metBefore(t.cored(b))
	fresh := false
	for ends := [2]int{c.right, c.left}; ; {
		side := 0
		if ends[1] < ends[0] {
			side = 1
		}
		if t.row[ends[side]] == 0 {
			if side = 1 - side; t.row[ends[side]] == 0 {
				break
			}
		}
		i, s, here, after := t.next(b.at, up, before, ends[side])
		if !lay(t.spot(t.levels[b.at].widths[i], s, here, side == 1)) && !fresh {
			ask()
			fresh = true
			continue
		}
		ends[side], fresh = after, false
	}
	slices.SortFunc(out.Strips, func(a, b Strip) int { return cmp.Compare(a.Left, b.Left) })
	return out, worth, left
}
