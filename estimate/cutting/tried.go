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
	picks, others := make([]chosen, len(benches)), make([]*bench, len(benches))
	equal, unlike := make([]sawing, len(benches)), make([]sawing, len(benches))
	hands := hired(4 * len(benches))
	var choosing sync.WaitGroup
	var loose []int
	for _, i := range slowest(benches) { // what has no lengths to choose need not wait for what has
		b := benches[i]
		if _, has := b.loosed(); !has {
			hands.give(func() { equal[i] = b.saw(effort) })
			continue
		}
		loose = append(loose, i)
		choosing.Add(1)
		hands.give(func() {
			picks[i], b.bounded = b.choose(effort)
			choosing.Done()
		})
	}
	choosing.Wait()
	slices.Sort(loose) // pieces are numbered as the benches stand
	for _, i := range loose {
		b := benches[i]
		if b.bounded {
			other := b.of.bench(b.timber, b.of.withChosen(b.kinds, picks[i]))
			other.bounded = true
			others[i] = other
			hands.give(func() { unlike[i] = other.saw(effort) })
			hands.give(func() { picks[i].least = max(picks[i].least, picks[i].asked.relaxed(effort/relaxing)) })
		}
		hands.give(func() { equal[i] = b.saw(effort) })
	}
	hands.wait()
	var best []tried
	for i, b := range benches {
		best = append(best, tried{b, equal[i]})
	}
	for i, b := range others {
		if b == nil {
			continue
		}
		other := tried{b, unlike[i]}
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
