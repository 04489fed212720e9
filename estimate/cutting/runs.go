package cutting

import (
	"cmp"
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/estimate/cutting/solve"
	"futtock/estimate/takeoff"
	"futtock/rates/measure"
)

// The pieces of a run may be of any lengths within the bounds that the row gives, so
// long as there are no more of them than takeoff found and they come to the run. How
// long, is asked of the relaxation: it takes all runs of one section together, by three
// rows, the pieces, no more of them, and their millimetres, and finds what lengths it
// would have of them (package board, run.go). What it costs at least bounds every choice of
// lengths. Its lengths are then dealt to the runs in whole pieces, those are bought like any
// others, and of that purchase and the one with equal pieces the cheaper stands.

// likeRun is what the pieces of runs have in common whose lengths are chosen together.
type likeRun struct {
	thickness, width  int64
	shortest, longest int64
	sapwood           bool
	bound             *source
}

// loosed is the kinds of the bench as wants, runs of one section together with their
// lengths to choose; false where none may be chosen.
func (b *bench) loosed() ([]want, bool) {
	var out []want
	at := map[likeRun]int{}
	for k, kind := range b.kinds {
		w := want{kinds: []int{k}, count: kind.count}
		run := kind.piece.Run
		longest := b.longest(k)
		if run == nil || longest <= int64(kind.piece.Length) || run.Shortest >= kind.piece.Length {
			out = append(out, w)
			continue
		}
		w.shortest, w.longest = int64(run.Shortest), longest
		for _, i := range kind.pieces {
			r := b.yard.pieces[i].Run
			w.millimetres += int(int64(r.Along) * int64(r.Runs) / int64(measure.Millimetre))
		}
		f := b.in.Kinds[k]
		l := likeRun{f.Thickness, f.Width, w.shortest, w.longest, f.Sapwood, kind.bound}
		if n, ok := at[l]; ok {
			out[n].kinds = append(out[n].kinds, k)
			out[n].count += w.count
			out[n].millimetres += w.millimetres
			continue
		}
		at[l] = len(out)
		out = append(out, w)
	}
	return out, len(at) > 0
}

// longest is the longest piece that a run of kind k may have; nil where none of the
// equal pieces can be had, and so no run.
func (b *bench) longest(k int) int64 {
	p := b.kinds[k].piece
	run := p.Run
	if run == nil {
		return 0
	}
	cube := slices.Contains(b.in.Kinds[k].Cubes, true)
	var most int64
	had := cube
	short := p
	short.Length = run.Shortest
	for i, l := range b.in.Lines {
		if stock := b.lines[i].stock; b.in.Kinds[k].Lines[i] && short.From(stock) {
			most = max(most, l.Length)
			had = had || p.From(stock)
		}
	}
	for c, s := range b.cubes {
		if b.in.Kinds[k].Cubes[c] {
			most = max(most, int64(s.size.length))
		}
	}
	for _, s := range b.logs { // thicker toward the butt than From looks at, so that only its length limits a bound
		if l := logOf(s.stock).Length; slices.Contains(b.kinds[k].sources, s) && l >= int64(run.Shortest) {
			most = max(most, l)
			had = had || l >= int64(p.Length)
		}
	}
	if run.Longest > 0 && (most > int64(run.Longest) || cube) {
		most = int64(run.Longest)
	}
	if !had {
		return 0
	}
	return most
}

// chosen is pieces of runs with their lengths chosen, and what no choice of them costs less than.
type chosen struct {
	pieces [][]takeoff.Piece // by kind of the bench, in the order of its pieces; nil where the length stays
	least  int64
	asked  *question
}

// relaxing is the part of the effort that goes to a bound in whole sticks over every choice.
const relaxing = 2

// choose asks the relaxation what lengths it would have; false where none may be chosen, or none is found.
func (b *bench) choose(effort solve.Effort) (chosen, bool) {
	wants, ok := b.loosed()
	if !ok {
		return chosen{}, false
	}
	effort = b.grown(effort)
	q := b.question(wants, effort)
	e := q.saw.Ease()
	in := solve.Instance{Kinds: q.in.Kinds, Demand: make([]int, 0, len(wants))}
	for i := range q.kinds {
		for k := range wants {
			if c, ok := e.Alone(i, k); ok {
				in.Start = append(in.Start, c)
				q.held[k] = true
			}
		}
	}
	for k, w := range wants {
		if !q.held[k] {
			w.count, w.millimetres = 0, 0
		}
		in.Demand = append(in.Demand, w.count)
	}
	for k, w := range wants {
		if w.longest > 0 && q.held[k] {
			in.Demand = append(in.Demand, -w.count, w.millimetres)
		} else if w.longest > 0 {
			in.Demand = append(in.Demand, 0, 0)
		}
	}
	r := q.relax(e, in, effort)
	out := chosen{pieces: make([][]takeoff.Piece, len(b.kinds)), least: r.least, asked: q}
	if r.use == nil {
		return out, false
	}
	got := q.rounded(e, in, r, effort/4)
	for k, w := range wants {
		if w.longest > 0 && q.held[k] {
			slices.SortFunc(got[k], func(a, b int64) int { return cmp.Compare(b, a) })
			b.deal(w, got[k], out.pieces)
		}
	}
	return out, true
}

// rounded is the lengths of the pieces of each want whose lengths may be chosen: whole
// sticks of the relaxation are taken, or the greatest part of one as a whole, and what is
// left is relaxed anew, until all pieces have their length or the effort is spent; the rest
// are spread as the last relaxation has them.
func (q *question) rounded(e *looser, in solve.Instance, r relaxation, effort solve.Effort) [][]int64 {
	got := make([][]int64, len(q.wants))
	left := solve.Instance{Kinds: slices.Clone(in.Kinds), Demand: slices.Clone(in.Demand)}
	open := func() bool {
		for k, w := range q.wants {
			if w.longest > 0 && left.Demand[k] > 0 {
				return true
			}
		}
		return false
	}
	take := func(p solve.Part, times int) bool {
		some := false
		for range times {
			if p.Tag%saws != byBoard { // the lengths that a log gives of a run are not known
				for _, g := range p.Gives {
					if g.Piece < len(q.wants) && q.wants[g.Piece].longest == 0 {
						some = some || left.Demand[g.Piece] > 0
						left.Demand[g.Piece] = max(0, left.Demand[g.Piece]-g.Count)
					}
				}
			}
			e.lengths(p.Tag, func(piece int, long int64, n int) {
				for range min(n, left.Demand[piece]) {
					some = true
					left.Demand[piece]--
					if long > 0 {
						at := q.charge(piece)
						left.Demand[at]++
						left.Demand[at+1] = max(0, left.Demand[at+1]-int(long/int64(measure.Millimetre)))
						got[piece] = append(got[piece], long)
					}
				}
			})
			if left.Kinds[p.Kind].Most > 0 {
				left.Kinds[p.Kind].Most--
			}
		}
		return some
	}
	for open() && effort > 0 && len(r.use) > 0 {
		some, best := false, r.use[0]
		for _, p := range r.use {
			if whole := int(p.Sticks + 1e-6); whole > 0 {
				some = take(p, whole) || some
			}
			if p.Sticks > best.Sticks {
				best = p
			}
		}
		if !some && !take(best, 1) {
			break
		}
		left.Start = e.Columns(in.Demand)
		r = q.parts(e, left, 1, effort)
		effort -= solve.Effort(r.steps) + 1
	}
	for k, w := range q.wants {
		if n := left.Demand[k]; w.longest > 0 && n > 0 {
			rest := spread(used(e, r.use, k), n)
			for len(rest) < n {
				rest = append(rest, w.shortest)
			}
			got[k] = append(got[k], rest...)
		}
	}
	return got
}

// charge is the place of the limit of a want in the demand.
func (q *question) charge(want int) int {
	n := len(q.wants)
	for _, w := range q.wants[:want] {
		if w.longest > 0 {
			n += 2
		}
	}
	return n
}

// some is how many pieces, not always whole, the relaxation has of a length.
type some struct {
	length int64
	pieces float64
}

// used is the lengths that the relaxation has of a want, the longest first.
func used(e *looser, use []solve.Part, want int) []some {
	var out []some
	for _, p := range use {
		e.lengths(p.Tag, func(piece int, long int64, n int) {
			if piece == want {
				out = append(out, some{long, p.Sticks * float64(n)})
			}
		})
	}
	slices.SortStableFunc(out, func(a, b some) int { return cmp.Compare(b.length, a.length) })
	return out
}

// spread is n whole pieces, the longest first, whose lengths are spread as those given.
func spread(of []some, n int) []int64 {
	all := 0.0
	for _, s := range of {
		all += s.pieces
	}
	if all <= 0 {
		return nil
	}
	out := make([]int64, 0, n)
	at, upTo := 0, of[0].pieces
	for i := range n {
		for place := (float64(i) + 0.5) / float64(n) * all; upTo < place && at < len(of)-1; {
			at++
			upTo += of[at].pieces
		}
		out = append(out, of[at].length)
	}
	return out
}

// renumbered is a plan whose pieces are those that it cuts, by Ref: what was chosen of a
// run stands in the place of the row's equal pieces.
func (y *yard) renumbered(p Plan) Plan {
	place := make([]int, len(y.pieces))
	for i := range place {
		place[i] = -1
	}
	var kept []int
	for i := range y.pieces {
		if !y.given[i] {
			kept = append(kept, i)
		}
	}
	slices.SortStableFunc(kept, func(a, b int) int {
		x, z := y.pieces[a], y.pieces[b]
		return cmp.Or(compareRows(x, z), cmp.Compare(x.Of, z.Of))
	})
	for n, i := range kept {
		place[i] = n
		p.Pieces = append(p.Pieces, y.pieces[i])
	}
	for _, lines := range [][]order.Line{p.Order, p.Maybe} {
		for _, l := range lines {
			for i := range l.Got {
				l.Got[i].Piece = place[l.Got[i].Piece]
			}
			for _, pattern := range l.Patterns {
				for i := range pattern.Cuts {
					pattern.Cuts[i].Piece = place[pattern.Cuts[i].Piece]
				}
			}
		}
	}
	for i := range p.Short {
		p.Short[i].Piece = place[p.Short[i].Piece]
	}
	return p
}
