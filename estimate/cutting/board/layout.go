package board

import (
	"encoding/binary"
	"slices"

	"futtock/estimate/cutting/solve"
)

// Layout is one way of sawing a stick.
type Layout struct {
	Stick  int
	Sap    bool // laid out over its whole width
	Boxed  bool // one strip of the whole section, pieces with the heart boxed in among it
	Layers []Layer
	Given  []Place // of a layout laid out elsewhere, instead of Layers
}

// Layer is the strips of one layer, from the lower edge.
type Layer []Strip

// Strip is what follows each other along a strip, from the butt.
type Strip []Run

// Run is pieces side by side in a strip.
type Run struct {
	Piece, Deep int
	Turned      bool  // on edge: its thickness lies across the stick
	Long        int64 // where the length of the piece may be chosen
}

// Place is where a piece lies: from the butt after trimming, from the lower edge
// of the stick's Width, and from its lower face.
type Place struct {
	Piece                  int
	Along, Across, Through int64
	Turned                 bool
}

// size is what a run takes of the stick.
func (s Shop) size(r Run) (through, across, length, pitch int64) {
	p := s.Pieces[r.Piece]
	through, across = p.Thickness, p.Width
	if r.Turned {
		through, across = across, through
	}
	pitch = across + s.Kerf
	if p.Pitch > 0 {
		pitch = p.Pitch
	}
	length = p.Length
	if r.Long > 0 {
		length = r.Long
	}
	return through, across + int64(r.Deep-1)*pitch, length, pitch
}

// extent is what a strip takes of the stick.
func (s Shop) extent(st Strip) (through, across, length int64) {
	for i, r := range st {
		t, a, l, _ := s.size(r)
		through, across, length = max(through, t), max(across, a), length+l
		if i > 0 {
			length += s.Kerf
		}
	}
	return through, across, length
}

// extent is what a layer takes of the stick.
func (s Shop) layer(l Layer) (through, across int64) {
	for i, st := range l {
		t, a, _ := s.extent(st)
		through, across = max(through, t), across+a
		if i > 0 {
			across += s.Kerf
		}
	}
	return through, across
}

// fits reports a layout that goes into its stick, in whole nanometres.
func (s Shop) fits(l Layout) bool {
	st := s.Sticks[l.Stick]
	wide := st.Clear
	if l.Sap {
		wide = st.Width
	}
	var thick int64
	for i, y := range l.Layers {
		t, a := s.layer(y)
		thick += t
		if i > 0 {
			thick += s.Kerf
		}
		if a > wide {
			return false
		}
		for _, strip := range y {
			if _, _, long := s.extent(strip); long > st.Length {
				return false
			}
		}
	}
	return thick <= st.Thickness
}

// Places is where every piece of a layout lies, by the layout's own order.
func (s *Saw) Places(l Layout) []Place {
	shop := s.shop
	if l.Given != nil {
		return l.Given
	}
	st := shop.Sticks[l.Stick]
	edge := int64(0)
	if !l.Sap {
		edge = (st.Width - st.Clear) / 2
	}
	var out []Place
	through := int64(0)
	for _, y := range l.Layers {
		across := edge
		thick, _ := shop.layer(y)
		for _, strip := range y {
			along := int64(0)
			for _, r := range strip {
				t, a, length, pitch := shop.size(r)
				for i := range int64(r.Deep) {
					at := Place{Piece: r.Piece, Along: along, Across: across + i*pitch, Through: through, Turned: r.Turned}
					if shop.Pieces[r.Piece].Boxed {
						at.Across, at.Through = (st.Width-a)/2, (st.Thickness-t)/2
					}
					out = append(out, at)
				}
				along += length + shop.Kerf
			}
			_, wide, _ := shop.extent(strip)
			across += wide + shop.Kerf
		}
		through += thick + shop.Kerf
	}
	return out
}

// gives is how many of each piece a layout gives, counted into out.
func (l Layout) gives(out []int) []int {
	clear(out)
	for _, at := range l.Given {
		out[at.Piece]++
	}
	for _, y := range l.Layers {
		for _, strip := range y {
			for _, r := range strip {
				out[r.Piece] += r.Deep
			}
		}
	}
	return out
}

// trim takes pieces that are not wanted out of a layout.
func (l *Layout) trim(gives, wanted []int) {
	for i := len(l.Layers) - 1; i >= 0; i-- {
		y := l.Layers[i]
		for k := len(y) - 1; k >= 0; k-- {
			for n := len(y[k]) - 1; n >= 0; n-- {
				r := &y[k][n]
				over := min(r.Deep, gives[r.Piece]-wanted[r.Piece])
				if over <= 0 {
					continue
				}
				gives[r.Piece] -= over
				if r.Deep -= over; r.Deep == 0 {
					y[k] = slices.Delete(y[k], n, n+1)
				}
			}
			if len(y[k]) == 0 {
				y = slices.Delete(y, k, k+1)
			}
		}
		if l.Layers[i] = y; len(y) == 0 {
			l.Layers = slices.Delete(l.Layers, i, i+1)
		}
	}
}

// Sawn is a layout that gives what is counted and no more.
func (s *Saw) Sawn(tag int, gives []solve.Entry) Layout {
	l := s.layouts[tag]
	wanted := s.first
	clear(wanted)
	for _, e := range gives {
		wanted[e.Piece] = e.Count
	}
	if l.Given != nil {
		var given []Place
		for _, at := range l.Given {
			if wanted[at.Piece] > 0 {
				wanted[at.Piece]--
				given = append(given, at)
			}
		}
		l.Given = given
		return l
	}
	l = l.clone()
	l.trim(l.gives(s.counts), wanted)
	return l
}

// clone is a layout of layers that may be changed by itself.
func (l Layout) clone() Layout {
	strips, runs := 0, 0
	for _, y := range l.Layers {
		strips += len(y)
		for _, strip := range y {
			runs += len(strip)
		}
	}
	layers, all, each := make([]Layer, len(l.Layers)), make(Layer, 0, strips), make(Strip, 0, runs)
	for i, y := range l.Layers {
		from := len(all)
		for _, strip := range y {
			at := len(each)
			each = append(each, strip...)
			all = append(all, each[at:len(each):len(each)])
		}
		layers[i] = all[from:len(all):len(all)]
	}
	l.Layers = layers
	return l
}

// append appends what a layout of layers is to bytes, so that two are told apart by them.
func (l Layout) append(to []byte) []byte {
	flag := func(b bool) int {
		if b {
			return 1
		}
		return 0
	}
	put := func(n int) { to = binary.AppendUvarint(to, uint64(n)) }
	put(4*l.Stick + 2*flag(l.Sap) + flag(l.Boxed))
	for _, y := range l.Layers {
		put(len(y))
		for _, strip := range y {
			put(len(strip))
			for _, r := range strip {
				put(r.Piece)
				put(2*r.Deep + flag(r.Turned))
				put(int(r.Long))
			}
		}
	}
	return to
}

// Given takes a stick laid out elsewhere, and returns it as a column.
func (s *Saw) Given(stick int, places []Place) solve.Column {
	l := Layout{Stick: stick, Given: places}
	s.keep(l, l.gives(s.counts))
	tag := len(s.layouts) - 1
	return solve.Column{Kind: stick, Gives: s.yields[tag], Tag: tag}
}

// Alone is a layout of as many of one piece as are wanted and go into a stick; false
// where not even one does.
func (s *Saw) Alone(stick, piece int) (solve.Column, bool) {
	p := s.shop.Pieces[piece]
	wanted := make([]int, len(s.shop.Pieces))
	wanted[piece] = p.Wanted
	best, found := Layout{}, 0
	for _, b := range []bay{{stick, s.shop.Sticks[stick].Clear, false}, {stick, s.shop.Sticks[stick].Width, true}} {
		st := s.shop.Sticks[stick]
		if !st.Gives[piece] || p.Wanted == 0 || b.sap && !p.Sapwood {
			continue
		}
		if st.Whole {
			best, found = Layout{Stick: stick, Layers: []Layer{{{{Piece: piece, Deep: 1}}}}}, 1
			break
		}
		for _, w := range s.shop.ways(piece, st.Thickness, b.width) {
			l, n := Layout{Stick: stick, Sap: b.sap, Boxed: p.Boxed}, 0
			for n < p.Wanted && w.deep == 1 && !(p.Boxed && n > 0) && s.shop.lay(&l, w) {
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
