// Package lengths tells the purchase solver what one stick sawn to length can hold.
//
// In come the lengths wanted and the stock lengths, kerf and trims already in them (piece + kerf, stock - trims + kerf). Out come, for any worth of
// the pieces, the greatest worth each stock length can hold and the yields that come near it: a bounded knapsack for all stock lengths at once.
//
// The table over all lengths of the usual method is replaced by a graph made once (graph.go), in which sticks with different lengths left but room
// for just the same pieces are one; it is the graph of Valerio de Carvalho's arc-flow model (Annals of OR 86, 1999), and mostly far smaller than the
// table: 2,000 arcs where a table of 27 pieces on 10,104 mm has 270,000 cells.
//
// The program saws boards, logs and crooks, each with a generator of its own; this one,
// the plainest, is for the tests of the solver, on the instances of the literature and
// on purchases small enough to be searched through.
//
// Worked figure: stock 10, pieces of 4 and 3 wanted twice each, worth 5 and 4. Two of 4 leave 2, room for nothing: 10. One of 4 leaves 6 for two of
// 3: 5 + 8 = 13, the greatest; none of 4: 8.
package lengths

import (
	"fmt"
	"sort"

	"futtock/estimate/cutting/solve"
)

// Piece is a length wanted a number of times.
type Piece struct {
	// Length is in any whole unit, the saw kerf added, above nil. No two pieces have one length.
	Length int64
	// Wanted is how many, above nil.
	Wanted int
}

// Stock is a length to be bought.
type Stock struct {
	// Length is in the unit of the pieces, end trims taken off and one kerf added, above nil.
	Length int64
	// Cost is the price of one, in pennies.
	Cost int64
	// Most is the greatest number to be had; -1 where as many as wanted.
	Most int
}

// Generator is a solve.Lister for sticks sawn to length only.
type Generator struct {
	pieces []Piece
	stock  []Stock
	order  []int // pieces by falling length
	exact  *graph
	// Where lengths are too fine to reckon with, yields come from a graph of coarse lengths that never hold too much, and exact is one that never
	// hold too little.
	coarse *graph
	value  []int64
}

// New makes the generator. It panics on lengths or numbers not above nil and on two pieces of one length.
func New(pieces []Piece, stock []Stock) *Generator {
	g := &Generator{pieces: pieces, stock: stock, order: make([]int, len(pieces))}
	for i, p := range pieces {
		if p.Length <= 0 || p.Wanted <= 0 {
			panic(fmt.Sprintf("lengths: piece %d of length %d wanted %d times", i, p.Length, p.Wanted))
		}
		g.order[i] = i
	}
	sort.SliceStable(g.order, func(a, b int) bool { return pieces[g.order[a]].Length > pieces[g.order[b]].Length })
	for a := 1; a < len(g.order); a++ {
		if pieces[g.order[a]].Length == pieces[g.order[a-1]].Length {
			panic(fmt.Sprintf("lengths: two pieces of length %d", pieces[g.order[a]].Length))
		}
	}
	var common int64
	for _, p := range pieces {
		common = divisor(common, p.Length)
	}
	g.exact = g.build(common, false)
	for unit := common; g.exact == nil; {
		unit *= 2
		if g.coarse = g.build(unit, true); g.coarse != nil {
			g.exact = g.build(unit, false)
		}
	}
	return g
}

// Instance is the purchase to hand to solve.Solve together with the generator.
func (g *Generator) Instance() solve.Instance {
	in := solve.Instance{Demand: make([]int, len(g.pieces))}
	for i, p := range g.pieces {
		in.Demand[i] = p.Wanted
	}
	for k, s := range g.stock {
		most := s.Most
		for l, other := range g.stock {
			// A kind no longer and no cheaper than another is never wanted.
			if other.Most < 0 && other.Length >= s.Length && other.Cost <= s.Cost && (other.Length > s.Length || other.Cost < s.Cost || l < k) {
				most = 0
			}
		}
		in.Kinds = append(in.Kinds, solve.Kind{Cost: s.Cost, Most: most})
	}
	in.Start = g.start()
	in.Worths = g.worths()
	return in
}

func divisor(a, b int64) int64 {
	for b != 0 {
		a, b = b, a%b
	}
	return a
}
