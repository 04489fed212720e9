// Package fit lays pieces of timber out in whole sticks. What comes in is
// plain: the usable size, price and number of every stock line, and the kinds of
// piece wanted, all in whole nanometres; what goes out is every stick with the
// place of each piece in it.
//
// The rule is first-fit decreasing on sticks that are ripped into strips
// across their width; a strip is cross-cut to length, and a length wider than
// the piece is ripped again. A saw-cut lies between any two pieces, so n pieces of
// width w with kerf k need n w + (n-1) k: three strips of 100 mm with a 3 mm kerf
// need a plank of 306 mm clear. Sawn curves lie nested in a strip, each a fixed
// step above the last. Many layouts are made, by several orders of the pieces
// and several ways of choosing the stock line, the cheapest is kept, and its
// sticks are then broken up one and two at a time wherever their pieces can be
// had for less. All choices are counted and tied by index: the same input
// gives the same layout. It is a sound layout, not a proven least one.
package fit

import "slices"

// Line is a stock line of sawn sticks, as it can be used: ends trimmed, bark off.
type Line struct {
	Thickness int64
	Width     int64 // bark off, sapwood on
	Clear     int64 // clear of sapwood, in the middle of Width
	Length    int64
	Each      int64           // price of a stick in pennies
	Buy       func(n int) int // sticks to buy for n used
	Limit     int             // most sticks that may be used; below nil is no limit
	PerUsed   float64         // price of a stick used, the lost ones in it
}

// Cube is timber that is had to size and paid for by volume.
type Cube struct {
	PerNet float64 // pennies for a cubic metre in the ship
	Limit  float64 // most cubic metres in the ship; below nil is no limit
}

// Kind is a number of like pieces.
type Kind struct {
	Thickness int64
	Width     int64 // of a sawn curve, with its sweep
	Length    int64
	Pitch     int64 // of a sawn curve, from one to the next nested in it; nil for a straight piece
	Sapwood   bool  // sapwood is allowed
	Boxed     bool  // has the heart in it: nothing may lie beside it across the stick
	Bound     bool  // comes before pieces that may be had elsewhere
	Count     int
	Net       float64 // cubic metres in the ship, of one
	Lines     []bool  // by line: may be cut from it
	Cubes     []bool  // by cube: may be had of it
}

// Input is what is to be laid out for one timber.
type Input struct {
	Kerf  int64
	Lines []Line
	Cubes []Cube
	Kinds []Kind
	Looks int // sticks that may be looked into
}

// Layout is the sticks used. Short counts, by kind, the pieces that found no place.
type Layout struct {
	Sticks []Stick
	Cubed  [][]int // by cube, then kind: pieces had of it
	Short  []int
	Holds  [][]int // by kind, then line: pieces in an empty stick; nil where it is too small
}

// Stick is one stick of a line and what is cut from it.
type Stick struct {
	Line   int
	Places []Place
	Made   int // the place of a stick that stands as it was made, and has no Places; below nil of all others
}

// Place is where one piece lies, from the butt after trimming and from the
// lower edge of the line's Width.
type Place struct {
	Kind          int
	Along, Across int64
	Turned        bool // its thickness lies across the stick
}

// tops is how many of the first layouts are worked over, and passes how often.
// Work is limited by the sticks looked into: after half of the looks allowed no more
// layouts are begun, after all of them none is worked over.
const (
	tops   = 3
	passes = 4
)

// Sticks lays out all pieces, at the least cost found. A layout that leaves
// fewer pieces short goes before a cheaper one.
func Sticks(in Input) Layout {
	b := newBench(&in)
	var found []*state
	for _, r := range b.rules() {
		if b.looked > in.Looks/2 {
			break
		}
		s := b.blank()
		for _, k := range b.order(r.order) {
			b.insert(s, k, in.Kinds[k].Count, r)
		}
		found = append(found, s)
	}
	slices.SortStableFunc(found, b.better)
	found = slices.CompactFunc(found, func(x, y *state) bool { return b.better(x, y) == 0 })
	if len(found) > tops {
		found = found[:tops]
	}
	for i, s := range found {
		found[i] = b.improve(s)
	}
	return b.layout(slices.MinFunc(found, b.better))
}
