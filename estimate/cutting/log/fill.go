package log

import (
	"cmp"
	"slices"

	"futtock/estimate/cutting/solve"
)

// tried is how many ways, the best for what they take first, are tried to fill a layout.
const tried = 16

// perLot is the steps that laying out one piece is counted as, beside those of the tables.
const perLot = 150

// filled is a layout with what is not wanted taken out, closed up, and what else is
// wanted laid where there is room, in the order given, as a column.
func (s *Saw) filled(l Layout, order []way, wanted []int, steps *solve.Steps) solve.Column {
	gives := l.gives(s.counts)
	for _, n := range gives {
		steps.Add(perLot * n)
	}
	l.trim(gives, wanted)
	s.shop.pack(&l)
	gives = l.gives(s.counts)
	left := tried
	for _, w := range order {
		if gives[w.piece] >= wanted[w.piece] {
			continue
		}
		if left--; left < 0 {
			break
		}
		for gives[w.piece] < wanted[w.piece] && s.shop.lay(&l, w) {
			gives[w.piece]++
			steps.Add(perLot)
		}
		steps.Add(perLot)
	}
	return s.column(l, wanted)
}

// order is the ways of what is worth anything and wanted, worth most for the timber they take first.
func (g *group) order(worth []int64, wanted []int) []way {
	out := make([]way, 0, len(g.ways))
	for _, w := range g.ways {
		if worth[w.piece] > 0 && wanted[w.piece] > 0 {
			out = append(out, w)
		}
	}
	density := func(w way) float64 {
		return float64(worth[w.piece]) / (float64(w.through) * float64(w.across) * float64(w.length))
	}
	slices.SortStableFunc(out, func(a, b way) int { return cmp.Compare(density(b), density(a)) })
	return out
}

// pack puts bands, and strips in them, as near the pith as they go from the
// middle outward, and takes out what then does not fit.
func (s Shop) pack(l *Layout) {
	for i := range l.Bands {
		b := &l.Bands[i]
		s.outward(len(b.Strips), func(k int) (*int64, int64) { return &b.Strips[k].Left, b.Strips[k].Width },
			func(k int) bool { return s.holds(l.Log, *b, b.Strips[k]) })
	}
	slices.Reverse(l.Bands) // upward, as strips go from the left
	s.outward(len(l.Bands), func(i int) (*int64, int64) { return &l.Bands[i].Low, l.Bands[i].Thickness }, func(i int) bool {
		return !slices.ContainsFunc(l.Bands[i].Strips, func(t Strip) bool { return !s.holds(l.Log, l.Bands[i], t) })
	})
	slices.Reverse(l.Bands)
	s.drop(l)
}

// drop takes out what does not fit where it lies.
func (s Shop) drop(l *Layout) {
	for i := range l.Bands {
		b := &l.Bands[i]
		for k := range b.Strips {
			for t := &b.Strips[k]; len(t.Lots) > 0 && !s.holds(l.Log, *b, *t); {
				t.Lots = t.Lots[:len(t.Lots)-1]
			}
		}
	}
	l.tidy()
}

// outward puts parts in a row, a cut between any two: one with the pith within it where it is, the
// others as near to it as they hold or, if they do not hold there, not nearer than they were.
func (s Shop) outward(n int, at func(int) (*int64, int64), holds func(int) bool) {
	right := 0
	for ; right < n; right++ {
		if low, size := at(right); *low+size > 0 {
			break
		}
	}
	left := right - 1
	if right < n {
		if low, size := at(right); within(*low, size) {
			right++
		}
	}
	for k := right; k < n; k++ {
		low, _ := at(k)
		was, next := *low, int64(0)
		if k > 0 {
			before, size := at(k - 1)
			next = max(0, *before+size+s.Kerf)
		}
		if *low = next; !holds(k) {
			*low = max(was, next)
		}
	}
	for k := left; k >= 0; k-- {
		low, size := at(k)
		was, next := *low, -size
		if k+1 < n {
			after, _ := at(k + 1)
			next = min(0, *after-s.Kerf) - size
		}
		if *low = next; !holds(k) {
			*low = min(was, next)
		}
	}
}

// lay lays one more piece in a layout, where it goes in: along a strip, in a strip of its own,
// or in a band of its own.
func (s Shop) lay(l *Layout, w way) bool {
	o, p := Lot{w.piece, w.turned}, s.Pieces[w.piece]
	log := s.Logs[l.Log]
	for i := range l.Bands {
		b := &l.Bands[i]
		if w.through > b.Thickness {
			continue
		}
		for k := range b.Strips {
			t := &b.Strips[k]
			long := s.extent(*t) + s.Kerf + w.length
			if w.across > t.Width || long > log.Length || t.Sap && !p.Sapwood || !s.relation(l.Log, *b, *t).takes(p) || long > s.clear(l.Log, *b, *t) {
				continue
			}
			t.Lots = append(t.Lots, o)
			return true
		}
	}
	if len(l.Bands) == 0 {
		return s.begin(l, w, false)
	}
	for i := range l.Bands {
		b := &l.Bands[i]
		first, last := b.Strips[0], b.Strips[len(b.Strips)-1]
		left, right := first.Left-s.Kerf-w.across, last.Left+last.Width+s.Kerf
		if w.through > b.Thickness {
			continue
		}
		if -left < right+w.across {
			if t, ok := s.strip(l.Log, *b, left, w); ok {
				b.Strips = slices.Insert(b.Strips, 0, t)
				return true
			}
		}
		if t, ok := s.strip(l.Log, *b, right, w); ok {
			b.Strips = append(b.Strips, t)
			return true
		}
	}
	top, bottom := l.Bands[0], l.Bands[len(l.Bands)-1]
	over := Band{Low: top.Low + top.Thickness + s.Kerf, Thickness: w.through}
	under := Band{Low: bottom.Low - s.Kerf - w.through, Thickness: w.through}
	if farthest(over.Low, w.through) <= farthest(under.Low, w.through) {
		if t, ok := s.strip(l.Log, over, -w.across/2, w); ok {
			over.Strips = []Strip{t}
			l.Bands = slices.Insert(l.Bands, 0, over)
			return true
		}
	}
	t, ok := s.strip(l.Log, under, -w.across/2, w)
	if ok {
		under.Strips = []Strip{t}
		l.Bands = append(l.Bands, under)
	}
	return ok
}

// begin lays the first piece of a layout: about the pith or, if it is to be free
// of heart or another is to lie on the other side of a cut, beside it.
func (s Shop) begin(l *Layout, w way, parted bool) bool {
	b := Band{Low: -w.through / 2, Thickness: w.through}
	if s.Pieces[w.piece].Free {
		b.Low = s.Logs[l.Log].Core
	} else if parted {
		b.Low = 0
	}
	t, ok := s.strip(l.Log, b, -w.across/2, w)
	if ok {
		b.Strips = []Strip{t}
		l.Bands = []Band{b}
	}
	return ok
}

// strip is a strip of one piece at a place, if it can be sawn there.
func (s Shop) strip(log int, b Band, left int64, w way) (Strip, bool) {
	t := Strip{Left: left, Width: w.across, Lots: []Lot{{w.piece, w.turned}}}
	if s.holds(log, b, t) {
		return t, true
	}
	t.Sap = s.Pieces[w.piece].Sapwood
	return t, t.Sap && s.holds(log, b, t)
}

// Alone is a layout of one piece as often as it is wanted and was found to go into a
// log; false where not even one does.
func (s *Saw) Alone(log, piece int) (solve.Column, bool) {
	p := s.shop.Pieces[piece]
	wanted := make([]int, len(s.shop.Pieces))
	wanted[piece] = p.Wanted
	best, found := Layout{}, 0
	for _, turned := range []bool{false, true} {
		w := way{piece, turned, p.Thickness, p.Width, p.Length}
		if turned {
			w.through, w.across = w.across, w.through
		}
		for _, parted := range []bool{false, true} {
			l := Layout{Log: log}
			if !s.shop.Logs[log].Gives[piece] || p.Wanted == 0 || p.Boxed && parted || !s.shop.begin(&l, w, parted) {
				continue
			}
			n := 1
			for n < p.Wanted && s.shop.lay(&l, w) {
				n++
			}
			if n > found {
				best, found = l, n
			}
		}
	}
	if found == 0 {
		return solve.Column{}, false
	}
	return s.column(best, wanted), true
}
