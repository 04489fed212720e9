package log

import "futtock/estimate/cutting/solve"

// ask fills the tables by the runs of lengths there are, and returns the best that
// the log holds.
func (w *sweep) ask(steps *solve.Steps) int64 {
	w.cells, w.traced = 0, map[traced][]spot{}
	for at := range w.levels {
		w.staged(at)
		w.coarse(at)
		w.even[at] = w.worth(traced{even, at, 0, 1})
		copy(w.rows[at], w.row)
	}
	w.pile()
	w.refine()
	steps.Add(w.cells)
	best, _ := w.whole()
	return best
}

// staged turns the runs of a level into stages.
func (w *sweep) staged(at int) {
	for r := range relations {
		for i := range w.levels[at].widths {
			if w.same[r] == r {
				w.kinds[r][at][i] = w.stages(w.kinds[r][at][i], r, at, i)
				w.cells += 8 * len(w.kinds[r][at][i])
			}
		}
	}
}

// coarse looks into the bands of a level at every so many heights. What one is
// worth stands for the heights up to the next: farther out it is worth no more, but for
// the core, which is left out of it as far as it may be.
func (w *sweep) coarse(at int) {
	side, mid := w.side[at], w.mid[at]
	clear(side)
	clear(mid)
	fill := func(to []known, b traced) int64 {
		k := known{w.worth(b), b.n, b.cell}
		for i := b.n; i < b.n+b.cell && i < len(to); i++ {
			to[i] = k
		}
		return k.worth
	}
	for n := 0; n < len(side); n += cell {
		if b := (traced{beside, at, n, cell}); fill(side, b) == 0 && w.cored(b) >= w.log.Core {
			break
		}
	}
	for n := w.places(w.levels[at].through / 2); n < len(mid); n += cell {
		fill(mid, traced{astride, at, n, cell})
	}
}

// pile makes the table of what lies beyond every height.
func (w *sweep) pile() {
	clear(w.stack)
	for i := len(w.side[0]) - 1; i >= 0; i-- {
		best := w.stack[i+1]
		for at := range w.levels {
			if worth := w.side[at][i].worth; worth > 0 {
				best = max(best, worth+w.stack[i+w.nexts[at]])
			}
		}
		w.stack[i] = best
	}
	w.cells += len(w.side[0]) * len(w.levels)
}

// refine looks into the bands that the greatest worth is made of at their own heights,
// and anew into what it is then made of, until it is of such alone.
func (w *sweep) refine() {
	for w.cells < w.work {
		_, c := w.whole()
		var look []traced
		if c.part >= 0 {
			look = append(look, traced{astride, c.part, w.places(c.reaches), 1})
		}
		for _, i := range []int{c.right, c.left} {
			for at, here, after := w.above(i); at >= 0; at, here, after = w.above(after) {
				look = append(look, traced{beside, at, here, 1})
			}
		}
		fresh := false
		for _, b := range look {
			of := w.side[b.at]
			if b.place == astride {
				of = w.mid[b.at]
			}
			if k := of[b.n]; k.n == b.n && k.cell == 1 {
				continue
			}
			fresh = true
			k := known{w.worth(b), b.n, 1}
			of[b.n] = k
			// Farther out it is worth no more, once it is clear of the core.
			for j := b.n + 1; j < len(of) && of[j].worth > k.worth && (b.place == astride || w.cored(b) >= w.log.Core || w.same[met] != met); j++ {
				of[j] = k
			}
		}
		if !fresh {
			return
		}
		w.pile()
	}
}

// above is the level of the next band that lies beyond a height, where it begins, and where the
// rest does; below nil is none.
func (w *sweep) above(i int) (at, here, after int) {
	for w.stack[i] > 0 && w.stack[i] == w.stack[i+1] {
		i++
	}
	if w.stack[i] == 0 {
		return -1, 0, 0
	}
	for at := range w.levels {
		if worth := w.side[at][i].worth; worth > 0 && worth+w.stack[i+w.nexts[at]] == w.stack[i] {
			return at, i, i + w.nexts[at]
		}
	}
	panic("log: a height with a worth that no band gives it")
}

// known is what a band is worth, and the height and cell that was reckoned for.
type known struct {
	worth   int64
	n, cell int
}

// place is how a band lies: beside the pith, astride it, or with it in the very middle.
type place int

const (
	beside place = iota
	astride
	even
)

// traced is one band of the tables: its nearer face, or of one astride the pith
// its farther face, at a height of the grid that stands for so many.
type traced struct {
	place   place
	at      int
	n, cell int
}

// cored is how near the pith the nearer face may be for the core: the farthest of
// its cell, for greatest worths the next after it.
func (w *sweep) cored(b traced) int64 {
	switch {
	case b.place != beside:
		return 0
	case w.down:
		return int64(b.n+b.cell-1) * w.fine
	}
	return int64(b.n+b.cell) * w.fine
}

// prepared fills the row of a band, and returns how its middle lies to the pith and
// how high its farther face is.
func (w *sweep) prepared(b traced) (relation, int64) {
	v := w.levels[b.at]
	switch b.place {
	case beside:
		up, near, r := int64(b.n)*w.fine+v.through, w.cored(b), open
		if near < w.log.Core {
			r = met
		}
		w.fill(b.at, up, w.metBefore(near))
		return r, up
	case astride:
		up := max(int64(b.n)*w.fine, v.through/2)
		if w.down {
			up = min(int64(b.n)*w.fine, v.through)
		}
		w.fill(b.at, up, w.metBefore(0))
		return heart, up
	}
	up := v.through - v.through/2
	if !w.down {
		up = v.through / 2
	}
	w.fill(b.at, up, w.metBefore(0))
	return heart, up
}

func (w *sweep) worth(b traced) int64 {
	r, up := w.prepared(b)
	best, _ := w.centre(r, b.at, up)
	return best
}

// whole is the best of the log, with a band or a cut across the pith.
func (w *sweep) whole() (int64, choice) {
	best, chosen := w.cut(w.stack)
	for at, v := range w.levels {
		if w.down {
			low := v.through - v.through/2
			j := w.places(low + w.shop.Kerf)
			if worth := w.even[at] + 2*w.stack[j]; worth > best {
				best, chosen = worth, choice{at, j, j, low, true}
			}
		}
		first, last := w.span(v.through)
		others, cut := w.others(v.through)
		back, half := w.back(), w.places(v.through/2)
		for j := first; j <= last; j++ {
			other := max(cut, others-j)
			if worth := w.mid[at][max(j-back, half)].worth + w.stack[j] + w.stack[other]; worth > best {
				best, chosen = worth, choice{part: at, right: j, left: other, reaches: max(int64(j)*w.fine-w.shop.Kerf, v.through/2)}
			}
		}
	}
	return best, chosen
}
