package log

import "math"

// sweep is the tables of one log on its grid, rounded one way: down for layouts,
// which lets everything lie as far from the pith as it may or farther; else for greatest worths.
type sweep struct {
	*tables
	log   *Log
	class int
	down  bool
	fine  int64                  // the grid
	kinds [relations][][][]stage // by relation, level and width

	row     []int64   // what lies beyond a place across the band under way
	side    [][]known // bands beside the pith, by level and height of the nearer face
	mid     [][]known // bands across it, by level and height of the farther face
	nexts   []int     // places from a band to the next, by level
	work    int       // cells after which bands are refined no more
	even    []int64   // of one with the pith in the very middle, by level
	rows    [][]int64 // the row of each of those
	stack   []int64   // what lies beyond a height
	cursors []cursor
	cells   int               // filled so far
	traced  map[traced][]spot // only looked up
}

// choice is what lies across the pith, of strips in a band or of bands in a log.
type choice struct {
	part        int // width or level; below nil is none, only a cut
	right, left int // where the rest begins on either side
	reaches     int64
	even        bool
}

func (t *tables) sweep(class int, fine int64, work int, down bool) *sweep {
	l := &t.shop.Logs[class]
	w := &sweep{tables: t, log: l, class: class, fine: fine, work: work, down: down}
	most := int(max(0, l.diameter(l.Length, t.sap))/2/fine) + 2
	far := t.levels[len(t.levels)-1].through
	for _, v := range t.levels {
		far = max(far, v.widths[len(v.widths)-1])
	}
	room := most + 2*w.places(far+t.shop.Kerf) + 2*w.places(t.shop.Kerf) + 4
	w.row, w.stack = make([]int64, room), make([]int64, room)
	for _, v := range t.levels {
		for r := range w.kinds {
			w.kinds[r] = append(w.kinds[r], make([][]stage, len(v.widths)))
		}
		w.side = append(w.side, make([]known, most))
		w.mid = append(w.mid, make([]known, w.places(v.through)+2))
		w.nexts = append(w.nexts, w.places(v.through+t.shop.Kerf))
		w.rows = append(w.rows, make([]int64, room))
		w.cursors = append(w.cursors, make([]cursor, len(v.widths))[:max(0, len(v.widths)-len(w.cursors))]...)
	}
	w.even = make([]int64, len(t.levels))
	return w
}

// places is a length in places of the grid, rounded as the sweep rounds.
func (w *sweep) places(length int64) int {
	if w.down {
		return int((length + w.fine - 1) / w.fine)
	}
	return int(length / w.fine)
}

// back is how many places a cut is back from one, rounded as the sweep rounds what is left.
func (w *sweep) back() int {
	if w.down {
		return int(w.shop.Kerf / w.fine)
	}
	return int((w.shop.Kerf + w.fine - 1) / w.fine)
}

// metBefore is the first place across at which a strip is clear of the core, where
// the band's nearer face is so high.
func (w *sweep) metBefore(near int64) int {
	core := w.log.Core
	if near >= core || w.same[met] != met {
		return 0
	}
	n := int((across(core, near) + w.fine) / w.fine)
	if w.down {
		return n
	}
	return n - 1
}

// fill makes the row of a band with its farther face so high: beyond every place
// across, the best that strips give, those before a place being met by the core.
func (w *sweep) fill(at int, up int64, before int) {
	clear(w.row)
	n := w.segment(open, at, up, before, len(w.row))
	w.cells += n
	if before > 0 {
		w.cells += w.segment(w.same[met], at, up, 0, before)
	}
}

// segment fills the places from one to another, from the outermost.
func (w *sweep) segment(r relation, at int, up int64, from, to int) int {
	v := &w.levels[at]
	n := 0
	w.cells += 4 * len(v.widths)
	for i, width := range v.widths {
		c := &w.cursors[n]
		if w.cursor(c, w.kinds[r][at][i], width, up); c.lim < width {
			continue
		}
		n++
		// The widths that reach farthest from the pith first.
		for k := n - 1; k > 0 && w.cursors[k].lim-w.cursors[k].width > w.cursors[k-1].lim-w.cursors[k-1].width; k-- {
			w.cursors[k], w.cursors[k-1] = w.cursors[k-1], w.cursors[k]
		}
	}
	if n == 0 {
		w.carry(from, to)
		return 0
	}
	all := w.cursors[:n]
	begins := min(to-1, int((all[0].lim-all[0].width)/w.fine))
	w.carry(max(from, begins+1), to)
	cells, active := 0, 0
	for j := begins; j >= from; j-- {
		x := int64(j) * w.fine
		for active < n && x+all[active].width <= all[active].lim {
			active++
		}
		best := w.row[j+1]
		for i := range all[:active] {
			c := &all[i]
			if x+c.width <= c.lim {
				w.to(c, x+c.width, up)
			}
			if v := c.worth + w.row[j+c.next]; v > best {
				best = v
			}
		}
		w.row[j] = best
		cells += active
	}
	return cells
}

// carry takes what lies beyond a place inward to another.
func (w *sweep) carry(from, to int) {
	for j := min(to, len(w.row)-1) - 1; j >= from && w.row[j+1] > 0; j-- {
		w.row[j] = w.row[j+1]
	}
}

// centre is the best of a band whose row is filled, with a strip of the relation,
// or a cut, across the pith.
func (w *sweep) centre(r relation, at int, up int64) (int64, choice) {
	best, chosen := w.cut(w.row)
	for i, width := range w.levels[at].widths {
		list := w.kinds[w.same[r]][at][i]
		if len(list) == 0 {
			continue
		}
		var c cursor
		w.cursor(&c, list, width, up)
		low := width - width/2
		if w.down {
			// With the pith in its very middle the strip reaches least.
			if s := w.last(list, low, up); s.worth > 0 {
				j := w.places(low + w.shop.Kerf)
				if v := s.worth + 2*w.row[j]; v > best {
					best, chosen = v, choice{i, j, j, low, true}
				}
			}
		}
		first, last := w.span(width)
		others, cut := w.others(width)
		for j := last; j >= first; j-- {
			reaches := max(int64(j)*w.fine-w.shop.Kerf, width/2)
			w.to(&c, reaches, up)
			if c.worth == 0 {
				continue
			}
			other := max(cut, others-j)
			if v := c.worth + w.row[j] + w.row[other]; v > best {
				best, chosen = v, choice{part: i, right: j, left: other, reaches: reaches}
			}
		}
		w.cells += last - first + 1
	}
	return best, chosen
}

// span is the places at which the rest begins on the farther side of what lies
// across the pith, from the middle outward.
func (w *sweep) span(size int64) (first, last int) {
	if w.down {
		return w.places(size - size/2 + w.shop.Kerf), int((size + w.shop.Kerf) / w.fine)
	}
	return w.places(size/2 + w.shop.Kerf), w.places(size + w.shop.Kerf)
}

// others is where the rest begins on the nearer side: as many places as there are over those to the right,
// but no nearer than a cut.
func (w *sweep) others(size int64) (all, least int) {
	if w.down {
		return w.places(size + 2*w.shop.Kerf), math.MinInt
	}
	return w.places(size+2*w.shop.Kerf) - 1, w.places(w.shop.Kerf)
}

// cut is the best with nothing but a cut across the pith.
func (w *sweep) cut(rest []int64) (int64, choice) {
	n := w.places(w.shop.Kerf)
	best, chosen := int64(-1), choice{}
	for j := n / 2; j <= n; j++ {
		other := n - j
		if !w.down {
			other = max(0, other-1)
		}
		if v := rest[j] + rest[other]; v > best {
			best, chosen = v, choice{part: -1, right: j, left: other}
		}
	}
	return best, chosen
}
