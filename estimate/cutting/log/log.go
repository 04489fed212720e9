// Package log tells what one round log can give when every piece has a worth:
// logs sawn through and through, or round a baulk in the middle. In come the
// pieces and the logs in whole nanometres, bark off and ends trimmed; for given
// worths out come the greatest worth a log of each class can hold and layouts
// that come near it, with the place of every piece.
//
// A layout is sawn in three stages. The log is sawn along into bands, one above
// another across its diameter: flitches, and in the middle a baulk if that is
// worth more. Each band is as thick as some piece is thick or, on edge, wide. A
// band is edged into strips as wide as pieces, and a strip is cross-cut into lengths
// from the butt. Pieces may lie flat or on edge, thinner or narrower than their
// strip, in it as near the heart as they go. A cut lies between any two bands,
// strips and lengths. A strip has the length over which its farthest corner from
// the pith is wood: the log is a straight cone, so that outer strips are shorter.
// It lies clear of sapwood or, with pieces that allow sapwood alone, in the whole
// of the wood. Pieces with the heart boxed in come from the strip that has the pith
// within it; pieces free of heart from strips that keep their distance from it.
// That is the class of layouts the worths are greatest over. Sweep, wane that is
// let pass and the wandering of the saw are not in it.
//
// The rule is nested tables (Todoroki and Rönnqvist's for flitches, 1997, and for live
// sawing as a whole, 1999): what a strip is worth by how far its corner lies from the
// pith; from that, what lies beyond a point across a band; from that, what lies beyond a
// height. A cut moved towards the pith shortens nothing, so that only what lies
// across the pith has a free place, and each side is one table. Lengths are exact, places
// are counted on a grid. Layouts come from tables with places rounded away from the
// pith, so that they can be sawn, and are then measured in whole nanometres; greatest
// worths from tables with places rounded towards it, so that they are never under the
// truth, whatever the grid. Where both agree the layout is the best of its class. Bands are
// looked into at few heights first, and at others only where the best is made of them.
//
// A log may hold more of a piece than are wanted. Layouts give no more: what is over
// is taken out and other pieces laid in, and one layout grows strip by strip within
// what is left. Greatest worths come down by prices on the pieces (priced.go).
//
// Worked figure: a top of 600 mm with 30 mm of sapwood, boards of 52 mm with cuts of
// 3 mm and the middle one on the pith. The faces of the next board lie 29 and 81 mm
// from the pith, and its clear width is 2 sqrt(270^2 - 81^2) = 515.13 mm.
package log

import (
	"slices"
	"sync"

	"futtock/estimate/cutting/solve"
)

// Piece is a number of like straight pieces.
type Piece struct {
	Thickness, Width, Length int64 // sawn
	Sapwood                  bool  // sapwood is allowed
	Boxed                    bool  // has the pith within it
	Free                     bool  // is free of heart
	Wanted                   int
}

// Log is a class of logs alike, as it can be used: bark off, ends trimmed.
type Log struct {
	Top     int64  // diameter at the small end, sapwood on
	Taper   int64  // of diameter, for each metre of length
	Length  int64  // ends trimmed
	Sapwood int64  // thickness
	Core    int64  // radius about the pith that pieces free of heart keep clear of; nil where they must only not have the pith within them
	Gives   []bool // by piece: may be cut from it
}

// Shop is what is to be sawn, from what, and with which saw.
type Shop struct {
	Kerf   int64
	Pieces []Piece
	Logs   []Log
	Work   int // table cells one question may cost, shared by the logs, before the grid is made coarser
}

// Saw answers for one shop. It keeps every layout it has handed out.
type Saw struct {
	shop    Shop
	groups  []*group
	layouts []Layout
	yields  [][]solve.Entry // of each layout
	known   map[string]int  // layout by its text, only looked up
	whole   []int           // what is wanted in all

	// Scratch.
	text   []byte
	counts []int // of a layout, by piece
}

// New prepares the tables of a shop.
func New(shop Shop) *Saw {
	s := &Saw{shop: shop, known: map[string]int{}, counts: make([]int, len(shop.Pieces))}
	for _, p := range shop.Pieces {
		s.whole = append(s.whole, p.Wanted)
	}
	for i, l := range shop.Logs {
		gives := make([]bool, len(shop.Pieces))
		for p := range gives {
			gives[p] = l.Gives[p] && shop.Pieces[p].Wanted > 0
		}
		at := slices.IndexFunc(s.groups, func(g *group) bool { return slices.Equal(g.gives, gives) })
		if at < 0 {
			at = len(s.groups)
			s.groups = append(s.groups, &group{gives: gives})
		}
		s.groups[at].logs = append(s.groups[at].logs, i)
	}
	s.groups = slices.DeleteFunc(s.groups, func(g *group) bool { return !g.lay(shop) })
	return s
}

// Best answers package solve: the greatest worth a log of each class can hold,
// never under the truth for the layouts of the package's class, and layouts
// worth more than the floor: of each class the best by the tables, one grown
// within what is wanted, and for every piece one with the piece in its middle.
func (s *Saw) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	most := make([]int64, len(s.shop.Logs))
	var found []solve.Column
	for _, g := range s.groups {
		order := g.order(worth, wanted)
		laid := make([][][]Band, len(g.benches))
		g.each(steps, func(i int, b *bench, steps *solve.Steps) { most[b.log], laid[i] = b.laid(worth, wanted, floor, steps) })
		for i, b := range g.benches {
			for _, bands := range laid[i] {
				found = append(found, s.filled(Layout{b.log, bands}, order, wanted, steps))
			}
		}
	}
	return most, slices.DeleteFunc(found, func(c solve.Column) bool {
		return len(c.Gives) == 0 || floor != nil && value(c, worth) <= floor[c.Kind]
	})
}

// each does something with every bench, side by side, and adds up the steps.
func (g *group) each(steps *solve.Steps, do func(i int, b *bench, steps *solve.Steps)) {
	all := make([]solve.Steps, len(g.benches))
	var others sync.WaitGroup
	for i := 1; i < len(g.benches); i++ {
		others.Go(func() { do(i, g.benches[i], &all[i]) })
	}
	do(0, g.benches[0], &all[0])
	others.Wait()
	for _, s := range all {
		steps.Done += s.Done
	}
}

// laid is the greatest worth of a log and, where it passes the floor, bands to be filled.
func (b *bench) laid(worth []int64, wanted []int, floor []int64, steps *solve.Steps) (int64, [][]Band) {
	left := b.greatest(worth, wanted, steps)
	if left.most == 0 || floor != nil && left.most <= floor[b.log] {
		return left.most, nil
	}
	steps.Add(b.ask(left.worth, wanted))
	b.down.ask(steps)
	out := [][]Band{b.down.bands(b.down.best()), b.grown(worth, wanted, steps)}
	if floor != nil {
		// The prices of what is wanted are worth as much whatever is laid out.
		for _, c := range b.down.each(len(worth), floor[b.log]-bounty(worth, wanted)+bounty(left.worth, wanted)) {
			out = append(out, b.down.bands(c))
		}
	}
	return left.most, out
}

// bounty is what all that is wanted is worth.
func bounty(worth []int64, wanted []int) int64 {
	all := int64(0)
	for i, v := range worth {
		all += v * int64(wanted[i])
	}
	return all
}

// value is what a column is worth.
func value(c solve.Column, worth []int64) int64 {
	v := int64(0)
	for _, e := range c.Gives {
		v += worth[e.Piece] * int64(e.Count)
	}
	return v
}
