package log

import (
	"cmp"
	"encoding/binary"
	"fmt"
	"slices"

	"futtock/estimate/cutting/solve"
)

// Layout is one way of sawing a log: its bands, from the top down. A band with
// the pith well within it and more than one strip beside another is a baulk that is ripped; the rest
// are flitches. Heights are from the pith upward, distances across from it to the
// right, looking at the small end.
type Layout struct {
	Log   int
	Bands []Band
}

// Band is a flitch or baulk, its lower face at Low, with its strips from the left.
type Band struct {
	Low, Thickness int64
	Strips         []Strip
}

// Strip is what a band is edged to, its left edge at Left, and the pieces that
// follow each other along it from the butt.
type Strip struct {
	Left, Width int64
	Sap         bool // with sapwood, for pieces that allow it
	Lots        []Lot
}

// Lot is one piece of a strip.
type Lot struct {
	Piece  int
	Turned bool // on edge: its thickness lies across
}

// Place is where a piece lies: from the small end after trimming, and the lower
// left corner of its section from the pith with how wide and high it is.
type Place struct {
	Piece      int
	Along      int64
	Left, Low  int64
	Wide, High int64
	Turned     bool
}

// section is what a piece takes across a strip and through it.
func (s Shop) section(o Lot) (wide, high int64) {
	p := s.Pieces[o.Piece]
	if o.Turned {
		return p.Thickness, p.Width
	}
	return p.Width, p.Thickness
}

// extent is the length that a strip takes.
func (s Shop) extent(t Strip) int64 {
	long := int64(0)
	for i, o := range t.Lots {
		if long += s.Pieces[o.Piece].Length; i > 0 {
			long += s.Kerf
		}
	}
	return long
}

// clear is the length of a strip that is wood.
func (s Shop) clear(log int, b Band, t Strip) int64 {
	return s.Logs[log].clear(farthest(t.Left, t.Width), farthest(b.Low, b.Thickness), t.Sap)
}

// relation is how a strip lies to the pith.
func (s Shop) relation(log int, b Band, t Strip) relation {
	core := s.Logs[log].Core
	switch {
	case within(b.Low, b.Thickness) && within(t.Left, t.Width):
		return heart
	case squares(nearest(b.Low, b.Thickness), nearest(t.Left, t.Width)).less(squares(core, 0)):
		return met
	}
	return open
}

// holds reports a strip that can be sawn where it lies.
func (s Shop) holds(log int, b Band, t Strip) bool {
	r := s.relation(log, b, t)
	for _, o := range t.Lots {
		wide, high := s.section(o)
		p := s.Pieces[o.Piece]
		if wide > t.Width || high > b.Thickness || !r.takes(p) || t.Sap && !p.Sapwood {
			return false
		}
	}
	return s.extent(t) <= s.clear(log, b, t)
}

// fits reports a layout that can be sawn, in whole nanometres.
func (s Shop) fits(l Layout) bool {
	for i, b := range l.Bands {
		if i > 0 && l.Bands[i-1].Low < b.Low+b.Thickness+s.Kerf {
			return false
		}
		for k, t := range b.Strips {
			if k > 0 && b.Strips[k-1].Left+b.Strips[k-1].Width+s.Kerf > t.Left || !s.holds(l.Log, b, t) {
				return false
			}
		}
	}
	return true
}

// Places is where every piece of a layout lies, by the layout's own order.
func (s *Saw) Places(l Layout) []Place {
	var out []Place
	for _, b := range l.Bands {
		for _, t := range b.Strips {
			along := s.shop.Logs[l.Log].Length
			for _, o := range t.Lots {
				wide, high := s.shop.section(o)
				along -= s.shop.Pieces[o.Piece].Length
				out = append(out, Place{Piece: o.Piece, Along: along, Left: nestled(wide, t.Left, t.Width), Low: nestled(high, b.Low, b.Thickness),
					Wide: wide, High: high, Turned: o.Turned})
				along -= s.shop.Kerf
			}
		}
	}
	return out
}

// Sawn is a layout that gives what is counted and no more.
func (s *Saw) Sawn(tag int, gives []solve.Entry) Layout {
	l := s.layouts[tag].clone()
	wanted := make([]int, len(s.shop.Pieces))
	for _, e := range gives {
		wanted[e.Piece] = e.Count
	}
	l.trim(l.gives(s.counts), wanted)
	return l
}

func (l Layout) clone() Layout {
	l.Bands = slices.Clone(l.Bands)
	for i := range l.Bands {
		b := &l.Bands[i]
		b.Strips = slices.Clone(b.Strips)
		for k := range b.Strips {
			b.Strips[k].Lots = slices.Clone(b.Strips[k].Lots)
		}
	}
	return l
}

// gives is how many of each piece a layout gives, counted into out.
func (l Layout) gives(out []int) []int {
	clear(out)
	for _, b := range l.Bands {
		for _, t := range b.Strips {
			for _, o := range t.Lots {
				out[o.Piece]++
			}
		}
	}
	return out
}

// trim takes pieces that are not wanted out of a layout, the outermost first.
func (l *Layout) trim(gives, wanted []int) {
	type at struct{ band, strip int }
	var order []at
	for i, b := range l.Bands {
		for k := range b.Strips {
			order = append(order, at{i, k})
		}
	}
	out := func(a at) int64 {
		b := l.Bands[a.band]
		t := b.Strips[a.strip]
		return reach(farthest(t.Left, t.Width), farthest(b.Low, b.Thickness))
	}
	slices.SortStableFunc(order, func(a, b at) int { return cmp.Compare(out(b), out(a)) })
	for _, a := range order {
		t := &l.Bands[a.band].Strips[a.strip]
		t.Lots = slices.DeleteFunc(t.Lots, func(o Lot) bool {
			over := gives[o.Piece] > wanted[o.Piece]
			if over {
				gives[o.Piece]--
			}
			return over
		})
	}
	l.tidy()
}

// tidy takes out strips and bands left empty.
func (l *Layout) tidy() {
	for i := range l.Bands {
		b := &l.Bands[i]
		b.Strips = slices.DeleteFunc(b.Strips, func(t Strip) bool { return len(t.Lots) == 0 })
	}
	l.Bands = slices.DeleteFunc(l.Bands, func(b Band) bool { return len(b.Strips) == 0 })
}

// column is a layout as package solve takes it.
func (s *Saw) column(l Layout, wanted []int) solve.Column {
	if !s.shop.fits(l) {
		panic(fmt.Sprintf("log: a layout that does not go into its log: %+v in %+v", l, s.shop.Logs[l.Log]))
	}
	s.text = l.append(s.text[:0])
	gives := l.gives(s.counts)
	tag, ok := s.known[string(s.text)]
	if !ok {
		tag = len(s.layouts)
		s.layouts = append(s.layouts, l)
		s.yields = append(s.yields, solve.Entries(gives, s.whole))
		s.known[string(s.text)] = tag
	}
	return solve.Column{Kind: l.Log, Gives: solve.Entries(gives, wanted), Tag: tag}
}

// append appends what a layout is to bytes, so that two are told apart by them.
func (l Layout) append(to []byte) []byte {
	flag := func(b bool) int64 {
		if b {
			return 1
		}
		return 0
	}
	put := func(n int64) { to = binary.AppendVarint(to, n) }
	put(int64(l.Log))
	for _, b := range l.Bands {
		put(b.Low)
		put(b.Thickness)
		put(int64(len(b.Strips)))
		for _, t := range b.Strips {
			put(t.Left)
			put(2*t.Width + flag(t.Sap))
			put(int64(len(t.Lots)))
			for _, o := range t.Lots {
				put(2*int64(o.Piece) + flag(o.Turned))
			}
		}
	}
	return to
}
