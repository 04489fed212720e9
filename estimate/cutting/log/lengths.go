package log

// way is how a piece lies in a band: flat, or turned on edge.
type way struct {
	piece           int
	turned          bool
	through, across int64
	length          int64
}

// relation is how a strip lies to the pith.
type relation int

const (
	open  relation = iota // clear of the core
	met                   // in the core, the pith not within it
	heart                 // the pith within it
	relations
)

// takes reports a piece that a strip of such a relation may give.
func (r relation) takes(p Piece) bool {
	return (!p.Boxed || r == heart) && (!p.Free || r == open)
}

// level is all ways no thicker than a band.
type level struct {
	through int64
	ways    []int32 // by width taken, then length
	widths  []int64
}

// group is the logs that may give the same pieces, and have tables of lengths alike.
type group struct {
	gives   []bool
	logs    []int
	ways    []way
	levels  []level
	sap     bool // some piece allows sapwood
	same    [relations]relation
	long    int64 // of the longest log with a cut
	uses    int   // of ways in levels
	benches []*bench
}

// tables is what strips are worth by their length.
type tables struct {
	*group
	shop  Shop
	down  bool // lengths are rounded up where they are rounded, so that they can be sawn
	unit  int64
	runs  [2 * relations][][]front
	worth []int64 // of each piece, nil where none is wanted
	front front
	room  front
	nodes []node
}

// front is what lengths are worth at best: rising lengths of rising worth, a cut
// in each of their pieces.
type front []run

// run is the best that a length holds, where it is better than any shorter.
type run struct {
	length, worth int64
	end           int32 // node of the last way
}

// node is a way along a strip after those before it; the first stands for none.
type node struct{ way, before int32 }

// set is the place of the runs of strips of a relation, clear of sapwood or with it.
func set(r relation, sapwood bool) int {
	if sapwood {
		return 2*int(r) + 1
	}
	return 2 * int(r)
}

// units is the units of length tried, the first of them exact.
var units = [...]int64{1, mm, 5 * mm, 20 * mm, coarsest}

const coarsest = 50 * mm

// crowd is how many lengths a front may hold before the next unit is tried.
const crowd = 3_000

// many is how many uses of ways in levels there are before strips may hold more of a
// piece than are wanted.
const many = 1_500

// ask fills the tables for the worths given from a unit on, and returns the steps.
func (t *tables) ask(worth []int64, wanted []int, from int64) int {
	for i := range t.worth {
		t.worth[i] = 0
		if wanted[i] > 0 {
			t.worth[i] = worth[i]
		}
	}
	steps := 0
	for _, t.unit = range units {
		if t.unit < from {
			continue
		}
		n, ok := t.fill(wanted)
		if steps += n; ok {
			break
		}
	}
	return steps
}

// fill makes the fronts of all strips; false where one is crowded.
func (t *tables) fill(wanted []int) (int, bool) {
	t.nodes = append(t.nodes[:0], node{})
	steps := 0
	for l := range t.levels {
		n, ok := t.level(l, wanted)
		if steps += n; !ok && t.unit < coarsest {
			return steps, false
		}
	}
	return steps, true
}

// level makes the fronts of one level; false where one is crowded.
func (t *tables) level(at int, wanted []int) (int, bool) {
	steps, fine := 0, true
	for r := range relations {
		for _, sapwood := range []bool{false, true} {
			if t.same[r] == r && (t.sap || !sapwood) {
				n, ok := t.strips(r, sapwood, at, wanted)
				steps, fine = steps+n, fine && ok
			}
		}
	}
	return steps, fine
}

// strips makes the fronts of one level, for strips of rising width; of one worth no more
// than a narrower there is none.
func (t *tables) strips(r relation, sapwood bool, at int, wanted []int) (int, bool) {
	l, out := &t.levels[at], t.runs[set(r, sapwood)][at]
	t.front = append(t.front[:0], run{})
	steps, next := 0, 0
	for i, width := range l.widths {
		if out[i] = out[i][:0]; t.crowded() {
			continue
		}
		better := false
		for ; next < len(l.ways) && t.ways[l.ways[next]].across == width; next++ {
			w := l.ways[next]
			piece := t.ways[w].piece
			steps++
			if p := t.shop.Pieces[piece]; t.worth[piece] > 0 && r.takes(p) && (p.Sapwood || !sapwood) {
				n := t.lengthen(w, wanted[piece])
				steps, better = steps+n, better || n > 0
			}
		}
		if better {
			out[i] = append(out[i], t.front[1:]...)
			steps += len(t.front)
		}
	}
	return steps, !t.crowded()
}

// crowded reports a front with so many lengths that they are to be in the next unit, or that
// layouts are to do with fewer.
func (t *tables) crowded() bool {
	return len(t.front) > crowd && (t.down || t.unit < coarsest)
}

// lengthen lets one more way into the front, as often as it goes in and, unless
// there are many ways, is wanted. It returns the steps, nil where nothing is better for it.
func (t *tables) lengthen(w int32, wanted int) int {
	worth, long := t.worth[t.ways[w].piece], t.rounded(t.ways[w].length+t.shop.Kerf)
	uses := int(t.long / long)
	free := t.uses > many
	if uses == 0 || free && worth <= t.front.holds(long).worth {
		return 0 // where all are free, whatever holds it holds what is worth as much instead
	}
	again := free || wanted >= uses
	steps, better := 0, false
	for n := 0; n < uses && n < wanted && (n == 0 || !again); n++ {
		changed := t.with(w, long, worth, again)
		steps += len(t.front)
		if better = better || changed; !changed {
			break
		}
	}
	if !better {
		return 0
	}
	return steps
}

// rounded is a length in whole units; one that is shorter than a unit in millimetres, and one
// that is shorter still as it is.
func (t *tables) rounded(long int64) int64 {
	unit := t.unit
	if long < unit {
		unit = min(unit, mm)
	}
	switch {
	case long < unit:
		return long
	case t.down:
		long += unit - 1
	}
	return long - long%unit
}

// with lets a way into the front once or, again, as often as it goes in; false
// where nothing is better for it.
func (t *tables) with(w int32, long, worth int64, again bool) bool {
	out, from := t.room[:0], t.front
	best, changed := int64(-1), false
	for i, k := 0, 0; ; {
		if again {
			from = out
		}
		old := i < len(t.front)
		more := k < len(from) && from[k].length+long <= t.long
		switch {
		case !old && !more:
			t.front, t.room = out, t.front
			return changed
		case more && (!old || from[k].length+long < t.front[i].length || from[k].length+long == t.front[i].length && from[k].worth+worth > t.front[i].worth):
			if v := from[k].worth + worth; v > best {
				best, changed = v, true
				out = append(out, run{from[k].length + long, v, t.add(w, from[k].end)})
			}
			k++
		default:
			if t.front[i].worth > best {
				best = t.front[i].worth
				out = append(out, t.front[i])
			}
			i++
		}
	}
}

// holds is the best of no more than a length.
func (f front) holds(length int64) run {
	low, high := 0, len(f)
	for low < high {
		if mid := int(uint(low+high) / 2); f[mid].length > length {
			high = mid
		} else {
			low = mid + 1
		}
	}
	if low == 0 {
		return run{}
	}
	return f[low-1]
}

// add is the node of a way after those before it.
func (t *tables) add(way, before int32) int32 {
	t.nodes = append(t.nodes, node{way, before})
	return int32(len(t.nodes) - 1)
}

// lots is the pieces up to a node.
func (t *tables) lots(end int32) []Lot {
	var out []Lot
	for ; end != 0; end = t.nodes[end].before {
		w := t.ways[t.nodes[end].way]
		out = append(out, Lot{w.piece, w.turned})
	}
	return out
}
