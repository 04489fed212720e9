// Package crook tells what one grown crook can give when every piece has a
// worth: crooks sawn through and through in their own sweep. In come the pieces
// with how many of each lie side by side in a crook, and the crooks with their
// thickness, in whole nanometres; for given worths out come the greatest worth a
// crook of each line can hold and the layout that reaches it.
//
// A crook is sawn through its thickness into layers, each as thick as its pieces, and
// a layer is cut into as many alike as lie in its sweep one above another, each a
// fixed step above the last. A cut lies between any two layers. Whether a piece lies in
// the sweep is for takeoff to say. That is the class of layouts the worths are
// greatest over: knowing how many lie side by side, what is left is to fill the
// thickness, and every sum of thicknesses is tried.
//
// Worked figure: a crook 160 mm thick and a cut of 3 mm. Frames of 75 mm, two side by
// side, worth 10 each, and of 50 mm, one, worth 12: 75 + 3 + 75 = 153 holds four at 40;
// 50 + 3 + 50 + 3 + 50 = 156 three at 36; 75 + 3 + 50 = 128 three at 32.
package crook

import (
	"cmp"
	"fmt"
	"slices"

	"futtock/estimate/cutting/solve"
)

// Piece is a number of like pieces.
type Piece struct {
	Thickness int64 // sawn
	Wanted    int
}

// Crook is a stock line of crooks alike.
type Crook struct {
	Thickness int64
	Beside    []int // by piece: how many lie side by side in its sweep; nil where none
}

// Shop is what is to be sawn, from what, and with which saw.
type Shop struct {
	Kerf   int64
	Pieces []Piece
	Crooks []Crook
}

// Layer is one layer of a crook, from the lower face up: pieces alike side by side.
type Layer struct {
	Piece, Beside int
	Low           int64
}

// Saw answers for one shop. It keeps every layout it has handed out.
type Saw struct {
	shop    Shop
	layouts [][]Layer
}

// New prepares a shop.
func New(shop Shop) *Saw { return &Saw{shop: shop} }

// state is a thickness filled so far, with a cut after every layer, what it holds and its
// last layer.
type state struct {
	size, worth int64
	piece       int
	before      *state
}

// Best answers package solve, exactly but that a crook may hold more of a piece than
// are wanted.
func (s *Saw) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	most := make([]int64, len(s.shop.Crooks))
	var found []solve.Column
	for c, crook := range s.shop.Crooks {
		best := s.fullest(crook, worth, wanted, steps)
		if most[c] = best.worth; best.worth > 0 && (floor == nil || best.worth > floor[c]) {
			found = append(found, s.column(c, best, wanted))
		}
	}
	return most, found
}

// fullest is the greatest worth of the layers of a crook. States rise in size and in
// worth: one no smaller and no dearer than another is left out.
func (s *Saw) fullest(c Crook, worth []int64, wanted []int, steps *solve.Steps) *state {
	room := c.Thickness + s.shop.Kerf
	open := []*state{{}}
	best := open[0]
	for n := 0; n < len(open); n++ {
		for i, p := range s.shop.Pieces {
			v := worth[i] * int64(min(c.Beside[i], wanted[i]))
			size := open[n].size + p.Thickness + s.shop.Kerf
			if v <= 0 || size > room {
				continue
			}
			next := &state{size, open[n].worth + v, i, open[n]}
			if next.worth > best.worth {
				best = next
			}
			open = let(open, n+1, next)
		}
		steps.Add(len(s.shop.Pieces))
	}
	return best
}

// let puts a state among those still to be gone on from, unless one no larger holds as much.
func let(open []*state, from int, next *state) []*state {
	at, _ := slices.BinarySearchFunc(open[from:], next.size, func(s *state, size int64) int { return cmp.Compare(s.size, size) })
	at += from
	if at < len(open) && open[at].size == next.size && open[at].worth >= next.worth || open[at-1].worth >= next.worth {
		return open
	}
	end := at
	for end < len(open) && open[end].worth <= next.worth {
		end++
	}
	return slices.Replace(open, at, end, next)
}

// column is the layers up to a state.
func (s *Saw) column(crook int, end *state, wanted []int) solve.Column {
	gives := make([]int, len(wanted))
	var layers []Layer
	for ; end.before != nil; end = end.before {
		beside := min(s.shop.Crooks[crook].Beside[end.piece], wanted[end.piece])
		layers = append(layers, Layer{end.piece, beside, end.before.size})
		gives[end.piece] += beside
	}
	slices.Reverse(layers)
	s.layouts = append(s.layouts, layers)
	out := solve.Column{Kind: crook, Tag: len(s.layouts) - 1}
	for i, n := range gives {
		if n = min(n, wanted[i]); n > 0 {
			out.Gives = append(out.Gives, solve.Entry{Piece: i, Count: n})
		}
	}
	return out
}

// Alone is a crook with as many of one piece as go in and are wanted; false where not even one does.
func (s *Saw) Alone(crook, piece int) (solve.Column, bool) {
	worth, wanted := make([]int64, len(s.shop.Pieces)), make([]int, len(s.shop.Pieces))
	worth[piece], wanted[piece] = 1, s.shop.Pieces[piece].Wanted
	best := s.fullest(s.shop.Crooks[crook], worth, wanted, &solve.Steps{Most: 1 << 62})
	if best.worth == 0 {
		return solve.Column{}, false
	}
	return s.column(crook, best, wanted), true
}

// Sawn is the layers of a layout that give what is counted and no more.
func (s *Saw) Sawn(tag int, gives []solve.Entry) []Layer {
	left := make([]int, len(s.shop.Pieces))
	for _, e := range gives {
		left[e.Piece] = e.Count
	}
	var out []Layer
	for _, l := range s.layouts[tag] {
		if l.Beside = min(l.Beside, left[l.Piece]); l.Beside > 0 {
			left[l.Piece] -= l.Beside
			out = append(out, l)
		}
	}
	return out
}

// List names every yield that is worth the floor of its crook and to which no layer can be
// added, for package solve; false where there are more than most, or more work than steps.
func (s *Saw) List(worth []int64, wanted []int, floor []int64, most int, steps *solve.Steps) ([]solve.Column, bool) {
	var out []solve.Column
	for c, crook := range s.shop.Crooks {
		seen := map[string]bool{} // only looked up
		var pile func(top *state, gives []int, from int) bool
		pile = func(top *state, gives []int, from int) bool {
			if steps.Add(len(s.shop.Pieces)); steps.Spent() || len(out) > most {
				return false
			}
			full := true
			for i, p := range s.shop.Pieces {
				beside := min(crook.Beside[i], wanted[i]-gives[i])
				size := top.size + p.Thickness + s.shop.Kerf
				if beside <= 0 || size > crook.Thickness+s.shop.Kerf {
					continue
				}
				full = false
				if i < from {
					continue // the same layers in another order
				}
				more := slices.Clone(gives)
				more[i] += beside
				if !pile(&state{size, top.worth + worth[i]*int64(beside), i, top}, more, i) {
					return false
				}
			}
			if key := fmt.Sprint(gives); full && top.worth > 0 && top.worth >= floor[c] && !seen[key] {
				seen[key] = true
				out = append(out, s.column(c, top, wanted))
			}
			return true
		}
		if !pile(&state{}, make([]int, len(wanted)), 0) {
			return nil, false
		}
	}
	return out, true
}
