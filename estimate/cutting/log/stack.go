package log

import "futtock/estimate/cutting/solve"

// ask fills the tables by the runs of lengths there are, and returns the best that
// the log holds.
func (w *sweep) ask(steps *solve.Steps) int64 {
	w.cells, w.traced = 0, map[traced][]spot{}
	for r := range relations {
		for at := range w.levels {
			for i := range w.levels[at].widths {
				if w.same[r] == r {
					w.kinds[r][at][i] = w.stages(w.kinds[r][at][i], r, at, i)
					w.cells += len(w.kinds[r][at][i])
				}
			}
		}
	}
	step := w.height(1)
	for at, v := range w.levels {
		clear(w.side[at])
		for n := range w.side[at] {
			if w.side[at][n] = w.worth(traced{beside, at, n}); w.side[at][n] == 0 && w.cored(n) >= w.log.Core {
				break
			}
		}
		clear(w.mid[at])
		for n := int(v.through / 2 / step); n < len(w.mid[at]); n++ {
			w.mid[at][n] = w.worth(traced{astride, at, n})
		}
		w.even[at] = w.worth(traced{even, at, 0})
		copy(w.rows[at], w.row)
	}
	clear(w.stack)
	for i := len(w.side[0])*w.grid.skip - 1; i >= 0; i-- {
		if i >= len(w.stack)-1 {
			continue
		}
		best := w.stack[i+1]
		if n := w.rough(i); n < len(w.side[0]) {
			for at, v := range w.levels {
				if worth := w.side[at][n]; worth > 0 {
					best = max(best, worth+w.stack[i+w.places(v.through+w.shop.Kerf)])
				}
			}
		}
		w.stack[i] = best
	}
	w.cells += len(w.stack) * len(w.levels)
	steps.Add(w.cells)
	best, _ := w.whole()
	return best
}

// place is how a band lies: beside the pith, astride it, or with it in the very middle.
type place int

const (
	beside place = iota
	astride
	even
)

// traced is one band of the tables.
type traced struct {
	place place
	at, n int
}

// prepared fills the row of a band, and returns how its middle lies to the pith and
// how high its farther face is.
func (w *sweep) prepared(b traced) (relation, int64) {
	v := w.levels[b.at]
	switch b.place {
	case beside:
		up, near, r := w.height(b.n)+v.through, w.cored(b.n), open
		if near < w.log.Core {
			r = met
		}
		w.fill(b.at, up, w.metBefore(near))
		return r, up
	case astride:
		up := max(w.height(b.n), v.through/2)
		if w.down {
			up = min(w.height(b.n), v.through)
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
		for j := first; j <= last; j++ {
			reaches := max(int64(j)*w.grid.fine-w.shop.Kerf, v.through/2)
			other := w.other(v.through, j)
			if worth := w.mid[at][w.rise(reaches)] + w.stack[j] + w.stack[other]; worth > best {
				best, chosen = worth, choice{part: at, right: j, left: other, reaches: reaches}
			}
		}
	}
	return best, chosen
}

// rise is a height on the grid of heights, rounded as the sweep rounds.
func (w *sweep) rise(height int64) int {
	if w.down {
		return int((height + w.height(1) - 1) / w.height(1))
	}
	return int(height / w.height(1))
}
