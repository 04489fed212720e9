package lengths

import (
	"math/bits"
	"sort"
)

// graph holds every yield of every stock length once. A node stands for a piece (its layer, pieces by falling length) and a length left; its arcs
// take that piece 0, 1, 2 ... times and lead to the node of the next shorter piece that still fits. A length left is rounded down to the greatest
// sum that the pieces from there on can make, so that sticks that can hold just the same go on as one. Nodes are numbered with arcs leading
// downwards; node 0 is the end.
type graph struct {
	layer []int32 // layer[n]: which piece in order; nodes of one layer stand together
	first []int32 // first[n]: the first arc of node n; one more at the end
	to    []int32 // where each arc leads
	root  []int32 // the node of each stock length
	free  []int   // pieces shorter than the unit of a coarse graph, taken to need no length at all
}

// limits of the size of a graph: bits of all the layers, and arcs.
const (
	mostBits = 1 << 27
	mostArcs = 1 << 23
)

// layerSet is a set of lengths left, with the number of members before each word.
type layerSet struct {
	word   []uint64
	before []int32
}

func (s layerSet) place(x int64) int32 {
	w := s.word[x>>6] & (1<<(uint(x)&63) - 1)
	return s.before[x>>6] + int32(bits.OnesCount64(w))
}

// build makes the graph in lengths of unit, or answers nil where it would be too large. The lengths of pieces are rounded up where up is set,
// else down; those of the stock down.
func (g *Generator) build(unit int64, up bool) *graph {
	size := make([]int64, 0, len(g.order))
	out := &graph{first: []int32{0, 0}}
	for _, i := range g.order {
		switch n := g.pieces[i].Length; {
		case up:
			size = append(size, (n+unit-1)/unit)
		case n < unit:
			out.free = append(out.free, i) // the shortest pieces stand last
		default:
			size = append(size, n/unit)
		}
	}
	var longest int64
	for _, s := range g.stock {
		longest = max(longest, s.Length/unit)
	}
	words := longest>>6 + 1
	if words*int64(len(size)+1) > mostBits/64 {
		return nil
	}
	sums := g.sums(size, words)
	// settle answers the layer and length left at which to go on with x from layer j.
	settle := func(j int, x int64) (int, int64) {
		x = below(sums[j], x)
		if x == 0 {
			return len(size), 0
		}
		return j + sort.Search(len(size)-j, func(a int) bool { return size[j+a] <= x }), x
	}
	layers := make([]layerSet, len(size))
	for j := range layers {
		layers[j].word = make([]uint64, words)
	}
	mark := func(j int, x int64) {
		if j < len(size) {
			layers[j].word[x>>6] |= 1 << (uint(x) & 63)
		}
	}
	for _, s := range g.stock {
		mark(settle(0, s.Length/unit))
	}
	arcs := 0
	for j := range layers {
		most := int64(g.pieces[g.order[j]].Wanted)
		for w, word := range layers[j].word {
			for ; word != 0; word &= word - 1 {
				x := int64(w)<<6 + int64(bits.TrailingZeros64(word))
				for q := int64(0); q <= min(most, x/size[j]); q++ {
					mark(settle(j+1, x-q*size[j]))
					arcs++
				}
			}
		}
		if arcs > mostArcs {
			return nil
		}
	}
	out.layer, out.to = []int32{int32(len(size))}, make([]int32, 0, arcs)
	base := make([]int32, len(size)+1)
	node := func(j int, x int64) int32 {
		if j == len(size) {
			return 0
		}
		return base[j] + layers[j].place(x)
	}
	for j := len(layers) - 1; j >= 0; j-- {
		base[j] = int32(len(out.layer))
		layers[j].before = make([]int32, words)
		members := int32(0)
		most := int64(g.pieces[g.order[j]].Wanted)
		for w, word := range layers[j].word {
			layers[j].before[w] = members
			for ; word != 0; word &= word - 1 {
				members++
				x := int64(w)<<6 + int64(bits.TrailingZeros64(word))
				for q := int64(0); q <= min(most, x/size[j]); q++ {
					out.to = append(out.to, node(settle(j+1, x-q*size[j])))
				}
				out.layer = append(out.layer, int32(j))
				out.first = append(out.first, int32(len(out.to)))
			}
		}
	}
	for _, s := range g.stock {
		out.root = append(out.root, node(settle(0, s.Length/unit)))
	}
	return out
}

// sums answers, for each layer, the set of lengths that the pieces from there on can make.
func (g *Generator) sums(size []int64, words int64) [][]uint64 {
	sums := make([][]uint64, len(size)+1)
	sums[len(size)] = make([]uint64, words)
	sums[len(size)][0] = 1
	for j := len(size) - 1; j >= 0; j-- {
		set := append([]uint64(nil), sums[j+1]...)
		// Binary parts of the number wanted make every count up to it.
		for left, part := int64(g.pieces[g.order[j]].Wanted), int64(1); left > 0; part *= 2 {
			part = min(part, left)
			left -= part
			if part > words*64/size[j] {
				break
			}
			shifted(set, part*size[j])
		}
		sums[j] = set
	}
	return sums
}

// shifted adds to the set all its members raised by n.
func shifted(set []uint64, n int64) {
	w, b := int(n>>6), uint(n&63)
	for i := len(set) - 1; i >= w; i-- {
		v := set[i-w] << b
		if b > 0 && i > w {
			v |= set[i-w-1] >> (64 - b)
		}
		set[i] |= v
	}
}

// below is the greatest member of the set not above x.
func below(set []uint64, x int64) int64 {
	w := x >> 6
	word := set[w] & (^uint64(0) >> (63 - uint(x)&63))
	for word == 0 {
		w--
		word = set[w]
	}
	return w<<6 + 63 - int64(bits.LeadingZeros64(word))
}
