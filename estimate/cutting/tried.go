package cutting

import (
	"cmp"
	"slices"
	"sync"

	"futtock/estimate/cutting/solve"
)

// tried is a bench with the sawing of it.
type tried struct {
	*bench
	sawing
}

// sawn is every bench sawn, with equal pieces of its runs or with their lengths chosen,
// whichever is the cheaper. What was not taken is put down as given.
func (y *yard) sawn(benches []*bench, effort solve.Effort) []tried {
	picks, may := make([]chosen, len(benches)), make([]bool, len(benches))
	tries := slices.Clone(benches)
	out := make([]sawing, 2*len(benches))
	var all, choosing sync.WaitGroup
	for i, b := range benches { // what has no lengths to choose need not wait for what has
		if _, loose := b.loosed(); loose {
			choosing.Go(func() { picks[i], may[i] = b.choose(effort) })
			continue
		}
		all.Go(func() { out[i] = b.saw(effort) })
	}
	choosing.Wait()
	of := make([]int, 0, len(benches)) // the bench that a further one stands for
	for i, b := range benches {
		if _, loose := b.loosed(); !loose {
			continue
		}
		if b.bounded = may[i]; may[i] {
			other := b.of.bench(b.timber, b.of.withChosen(b.kinds, picks[i]))
			other.bounded = true
			tries, of = append(tries, other), append(of, i)
			all.Go(func() { picks[i].least = max(picks[i].least, picks[i].asked.relaxed(effort/relaxing)) })
			at := len(tries) - 1
			all.Go(func() { out[at] = other.saw(effort) })
		}
		all.Go(func() { out[i] = b.saw(effort) })
	}
	all.Wait()
	var best []tried
	for i, b := range benches {
		best = append(best, tried{b, out[i]})
	}
	for n, i := range of {
		other := tried{tries[len(benches)+n], out[len(benches)+n]}
		drop := other
		if other.before(best[i]) {
			drop, best[i] = best[i], other
		}
		for _, k := range drop.kinds {
			for _, piece := range k.pieces {
				y.given[piece] = y.given[piece] || !best[i].has(piece)
			}
		}
	}
	for i, b := range benches {
		if _, loose := b.loosed(); !loose || !best[i].proven {
			continue
		}
		// What is proven of equal pieces is not of all lengths, and what is proven of a run is of no
		// account where it is not had.
		if best[i].least = picks[i].least; total(best[i].short) > 0 {
			best[i].least = 0
		}
	}
	return best
}

// before reports a sawing that is to be had before another: fewer pieces short, or cheaper.
func (s tried) before(o tried) bool {
	return cmp.Or(cmp.Compare(total(s.short), total(o.short)), s.cost(s.sawing).Cmp(o.cost(o.sawing))) < 0
}

func (b *bench) has(piece int) bool {
	return slices.ContainsFunc(b.kinds, func(k *kind) bool { return slices.Contains(k.pieces, piece) })
}

// withChosen is kinds with the pieces of runs that have their lengths chosen in the place of the equal ones.
func (p *purchase) withChosen(kinds []*kind, c chosen) []*kind {
	var places []int
	for k, of := range kinds {
		if c.pieces[k] == nil {
			places = append(places, of.pieces...)
			continue
		}
		for _, piece := range c.pieces[k] {
			places = append(places, len(p.yard.pieces))
			p.yard.pieces = append(p.yard.pieces, piece)
			p.yard.given = append(p.yard.given, false)
		}
	}
	slices.SortStableFunc(places, func(a, b int) int {
		return cmp.Or(compareRows(p.yard.pieces[a], p.yard.pieces[b]), cmp.Compare(a, b))
	})
	return p.kinds(places)
}

// each does n things side by side, each by itself.
func each(n int, do func(i int)) {
	var all sync.WaitGroup
	for i := range n {
		all.Go(func() { do(i) })
	}
	all.Wait()
}
