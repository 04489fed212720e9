package board

import (
	"slices"

	"futtock/estimate/cutting/solve"
)

// The pieces of a run whose lengths may be chosen are asked for by three worths: that
// of a piece, what is charged for one, as there may be no more than takeoff found, and
// that of a millimetre of it. They stand in this order: the pieces of the shop by their
// places, then for every piece with its length to choose, by place, its charge and its
// millimetre. So the tables tell what is best over all lengths at once, and the
// relaxation finds which of them it would have.

// Rows is how many worths a question to the shop has.
func (s Shop) Rows() int {
	n := len(s.Pieces)
	for _, p := range s.Pieces {
		if p.Longest > 0 {
			n += 2
		}
	}
	return n
}

// Charge is the place of the charge for a piece whose length may be chosen; that of
// its millimetre follows.
func (s Shop) Charge(piece int) int {
	n := len(s.Pieces)
	for _, p := range s.Pieces[:piece] {
		if p.Longest > 0 {
			n += 2
		}
	}
	return n
}

// run is what a way has to choose of its length.
type run struct {
	chosen  bool
	charge  int // place of the charge
	longest int // units with a cut

	// Of the question asked: what so many units are worth is base + each x units.
	base, each int64
}

// run is the choice of a way; units counts a length with its cut.
func (s Shop) run(w way, units func(int64) int) run {
	if longest := s.Pieces[w.piece].Longest; longest > 0 {
		return run{chosen: true, charge: s.Charge(w.piece), longest: units(longest)}
	}
	return run{}
}

// priced sets what lengths of a way are worth and returns the worth of the shortest.
// As lengths were rounded down to units, one of so many is under (units + 1) x unit less
// the cut, and that is what is counted of it: never under the truth.
func (t *tables) priced(i int, worth []int64) int64 {
	r, w := &t.runs[i], t.ways[i]
	deep, each := int64(w.deep), worth[t.runs[i].charge+1]
	r.each = deep * each * (t.unit / mm)
	r.base = deep*(worth[w.piece]-worth[r.charge]-each*(t.shop.Kerf/mm)) + r.each
	return r.base + r.each*int64(t.along[i])
}

// stretch lets a way whose length may be chosen into the strips. What a length is worth
// rises evenly with it, so that of all of one way in a strip no more than one need be
// neither the shortest nor the longest.
func (t *tables) stretch(w int32, long int) int {
	r, short := &t.runs[w], t.along[w]
	if short > long {
		return 0
	}
	cells := 0
	for _, u := range []int{short, r.longest} {
		v := r.base + r.each*int64(u)
		if v <= 0 || u > long {
			continue
		}
		t.again(t.length(w, u), u, long, v)
		cells += long - u
	}
	// The best of what may lie before the one between: rows[before] - each x before is
	// greatest at the front of the window, which moves down with the end of the strip.
	first := len(t.pad.before)
	t.pad.passes = append(t.pad.passes, pass{windows, w, int32(short), int32(first)})
	t.pad.before = slices.Grow(t.pad.before, long+1-short)[:first+long+1-short]
	from, rows := t.pad.before[first:], t.rows[:long+1]
	if len(t.window) <= long {
		t.window = make([]ahead, len(t.rows))
	}
	window, front, open, next := t.window, 0, 0, long-short // the window is from front up to open
	for i := long - short; i >= 0; i-- {
		for low := max(0, i+short-r.longest); next >= low; next-- {
			v := rows[next] - r.each*int64(next)
			for open > front && window[open-1].worth <= v {
				open--
			}
			window[open] = ahead{next, v}
			open++
		}
		for window[front].before > i {
			front++
		}
		best, end := window[front], i+short
		from[i] = -1
		if v := best.worth + r.base + r.each*int64(end); v > rows[end] {
			rows[end], from[i] = v, int32(best.before)
		}
	}
	return cells + 3*(long-short)
}

// ahead is a place before a part between the shortest and the longest, and what lies up to it is worth
// less what the part would be worth there.
type ahead struct {
	before int
	worth  int64
}

// length is the part of a way so many units long.
func (t *tables) length(w int32, units int) int32 {
	return int32(len(t.ways)) + w*int32(len(t.rows)) + int32(units)
}

// part is the run of a part of a strip. A chosen length is what its units hold less the cut, within its bounds.
func (t *tables) part(at int32) Run {
	n := int32(len(t.ways))
	switch {
	case at < 0:
		w := t.boxed[-1-at].way
		return Run{Piece: w.piece, Deep: w.deep, Turned: w.turned}
	case at < n:
		return t.shortest(t.ways[at])
	}
	units := int64(at-n) % int64(len(t.rows))
	r := t.shortest(t.ways[int(at-n)/len(t.rows)])
	r.Long = min(max(units*t.unit-t.shop.Kerf, r.Long), t.shop.Pieces[r.Piece].Longest)
	return r
}

// shortest is a way as a run, the shortest where its length may be chosen.
func (t *tables) shortest(w way) Run {
	r := Run{Piece: w.piece, Deep: w.deep, Turned: w.turned}
	if t.shop.Pieces[w.piece].Longest > 0 {
		r.Long = w.length
	}
	return r
}

// entries is what a layout gives and takes: pieces, and of each whose length may be chosen
// one of those that there may be, and its millimetres up.
func (e *Eased) entries(l Layout, wanted []int) []solve.Entry {
	s := e.saw.shop
	out := solve.Entries(l.gives(e.saw.counts), wanted)
	if len(wanted) == len(s.Pieces) {
		return out
	}
	sum := make([]int, len(wanted))
	for _, y := range l.Layers {
		for _, strip := range y {
			for _, r := range strip {
				if r.Long > 0 {
					at := s.Charge(r.Piece)
					sum[at] -= r.Deep
					sum[at+1] += r.Deep * int((r.Long+mm-1)/mm)
				}
			}
		}
	}
	for at, n := range sum {
		if n > 0 {
			n = min(n, wanted[at])
		}
		if n != 0 {
			out = append(out, solve.Entry{Piece: at, Count: n})
		}
	}
	return out
}

// Alone is a stick with one of a piece in it, for the relaxation to begin with, the longest that
// goes in where its length may be chosen; false where none goes in.
func (e *Eased) Alone(stick, piece int) (solve.Column, bool) {
	s := e.saw
	st, p := s.shop.Sticks[stick], s.shop.Pieces[piece]
	if !st.Gives[piece] || p.Wanted == 0 {
		return solve.Column{}, false
	}
	wanted := make([]int, s.shop.Rows())
	for i := range wanted {
		wanted[i] = int(max(p.Longest/mm+1, 1))
	}
	if st.Whole {
		return e.column(s.shop.only(stick, piece), wanted), true
	}
	wide := st.Clear
	if p.Sapwood {
		wide = st.Width
	}
	ways := s.shop.ways(piece, st.Thickness, wide)
	if len(ways) == 0 || ways[0].length > st.Length {
		return solve.Column{}, false
	}
	r := Run{Piece: piece, Deep: 1, Turned: ways[0].turned}
	if p.Longest > 0 {
		r.Long = min(p.Longest, st.Length)
	}
	return e.column(Layout{Stick: stick, Sap: p.Sapwood, Boxed: p.Boxed, Layers: []Layer{{{r}}}}, wanted), true
}

// Columns is every layout found, as package solve takes it.
func (e *Eased) Columns(wanted []int) []solve.Column {
	var out []solve.Column
	for tag, l := range e.found {
		out = append(out, solve.Column{Kind: l.Stick, Gives: e.entries(l, wanted), Tag: tag})
	}
	return out
}
