// Package board tells what one stick of sawn timber can hold when every piece
// has a worth: planks, baulks and flitches that are resawn, ripped and
// cross-cut. In come the pieces and the usable sizes of the sticks in whole
// nanometres; for given worths out come the greatest worth a stick of each line
// can hold and layouts that reach it, with the place of every piece.
//
// A layout is sawn in stages: through the thickness into layers, where the stick
// is thick enough for two or more; each layer across the width into strips; each
// strip across into lengths; and a length wide enough for several of one piece
// side by side is ripped once more. A piece may lie flat or on edge, thinner or
// narrower than what it is cut from. Sawn curves lie nested, each a fixed step above
// the last. A stick is laid out either within its heartwood or, with
// pieces that allow sapwood alone, over its whole width. A piece with the heart
// boxed in is cut from the whole section, in the middle. That is the class of
// layouts the worths are greatest over.
//
// The rule is nested tables (Gilmore and Gomory, Operations Research 13, 1965): what a
// length of strip is worth, for every width and thickness of strip; from that
// what a width of layer is worth; from that what a thickness is worth. A saw-cut
// lies between any two pieces, so a piece takes its size and a cut, and a stick
// gives its size and one cut more: three strips of 100 mm with a 3 mm kerf take 3 x
// 103 of the 306 + 3 mm. Widths and thicknesses are exact. Lengths are counted in units:
// the common divisor of them where the tables stay small, else a millimetre or more.
// Layouts come from tables with lengths rounded up, so that they can be sawn;
// greatest worths, where the unit does not divide the lengths, from tables with
// lengths rounded down, so that they are never under the truth on any unit.
package board

import (
	"slices"

	"futtock/estimate/cutting/solve"
)

// Piece is a number of like pieces.
type Piece struct {
	Thickness, Width, Length int64 // sawn; the width of a sawn curve with its sweep
	Longest                  int64 // of a piece of a run, whose length may be chosen from Length up to it; nil where Length is fixed
	Pitch                    int64 // of a sawn curve, from one to the next nested in it; nil for a straight piece
	Sapwood                  bool  // sapwood is allowed
	Boxed                    bool  // has the heart in it
	Wanted                   int
}

// Stick is a stock line, as it can be used: ends trimmed, bark off.
type Stick struct {
	Thickness, Length int64
	Width             int64  // bark off, sapwood on
	Clear             int64  // clear of sapwood, in the middle of Width
	Whole             bool   // gives one piece a stick, as timber had to size does; where the length is to choose, of the stick's Length
	Gives             []bool // by piece: may be cut from it and, where it is Whole, fits
}

// Shop is what is to be sawn, from what, and with which saw.
type Shop struct {
	Kerf   int64
	Pieces []Piece
	Sticks []Stick
	Work   int  // table cells one question may cost, before the grid is made coarser
	Light  bool // small enough for branching, however fine its lengths
}

// Saw answers for one shop. It keeps every layout it has handed out.
type Saw struct {
	shop    Shop
	groups  []*group
	layouts []Layout
	yields  [][]solve.Entry // of each layout
	whole   []int           // what is wanted in all
	heavy   bool
	parted  bool           // has been asked of a part
	known   map[string]int // layout by its text, only looked up
	pads    *pads

	// Scratch.
	text   []byte
	counts []int   // of a layout, by piece
	first  []int   // likewise, as fill found it
	orders [][]way // by group, as fill tries them for the worths asked last
}

// heavy is the cells of tables, with lengths in millimetres, beyond which a shop is heavy.
const heavy = 300_000

// New prepares the tables of a shop.
func New(shop Shop) *Saw { return newSaw(shop, &pads{}) }

// Part prepares the tables of another shop that is never asked while this one's
// answers are still read: they write where these do.
func (s *Saw) Part(shop Shop) *Saw { return newSaw(shop, s.pads) }

func newSaw(shop Shop, on *pads) *Saw {
	s := &Saw{shop: shop, known: map[string]int{}, pads: on}
	for i, st := range shop.Sticks {
		if st.Whole {
			continue
		}
		s.join(bay{stick: i, width: st.Clear})
		if st.Width > st.Clear {
			s.join(bay{stick: i, width: st.Width, sap: true})
		}
	}
	for _, p := range shop.Pieces {
		s.whole = append(s.whole, p.Wanted)
	}
	opened := 0
	open := func(t *tables) {
		t.open(on.at(opened))
		opened++
	}
	s.groups = slices.DeleteFunc(s.groups, func(g *group) bool { return !g.lay(shop, open) })
	cells := 0
	for _, g := range s.groups {
		cells += int(float64(g.up.cells()) * float64(g.up.unit) / mm)
	}
	s.heavy = cells > heavy && !shop.Light
	s.counts, s.first, s.orders = make([]int, len(shop.Pieces)), make([]int, len(shop.Pieces)), make([][]way, len(s.groups))
	return s
}

// Heavy reports a shop whose tables are large, so that branching is not worth while.
func (s *Saw) Heavy() bool { return s.heavy }

// bay is a stick laid out within its heartwood or over its whole width.
type bay struct {
	stick int
	width int64
	sap   bool
}

// group is the bays that may give the same pieces, and share their tables.
type group struct {
	gives    []bool
	bays     []bay
	ways     []way   // of every piece that is not boxed, by thickness taken
	boxed    []way   // of those that are
	runs     bool    // some piece has its length to choose
	up, down *tables // the same where the grid is exact
}

// join puts a bay among those that may give the same pieces.
func (s *Saw) join(b bay) {
	gives := make([]bool, len(s.shop.Pieces))
	for i, p := range s.shop.Pieces {
		gives[i] = s.shop.Sticks[b.stick].Gives[i] && p.Wanted > 0 && (!b.sap || p.Sapwood)
	}
	if !slices.Contains(gives, true) {
		return
	}
	for _, g := range s.groups {
		if slices.Equal(g.gives, gives) {
			g.bays = append(g.bays, b)
			return
		}
	}
	s.groups = append(s.groups, &group{gives: gives, bays: []bay{b}})
}
