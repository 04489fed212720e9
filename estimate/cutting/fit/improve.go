package fit

import (
	"cmp"
	"slices"
)

// worst is how many of the emptiest sticks are broken up in a pass, and
// together how many of them, one after the other, at a time.
const worst = 40

var together = [...]int{1, 2, 4}

// improve breaks up sticks, the emptiest first, and keeps what costs less, until
// nothing more is won or the passes are spent.
func (b *bench) improve(s *state) *state {
	for range passes {
		next := b.pass(s)
		if next == s {
			return s
		}
		s = next
	}
	return s
}

// pass tries the emptiest sticks one at a time, then several that stand
// together, and returns the layout with all that was won, or the one it was given.
func (b *bench) pass(s *state) *state {
	out := s
	for _, n := range together {
		few := b.emptiest(out, worst)
		for i := range len(few) - n + 1 {
			if b.looked > b.in.Looks {
				return out
			}
			out = b.without(out, few[i:i+n]...)
		}
	}
	return out
}

// without is the layout with the given sticks broken up and their pieces got
// otherwise, if that is better; a stick no longer in the layout leaves it as it is.
func (b *bench) without(s *state, sticks ...*stick) *state {
	bare := s.clone()
	var lots []lot
	for _, st := range sticks {
		at := slices.Index(bare.sticks, st)
		if at < 0 {
			return s
		}
		bare.sticks = slices.Delete(bare.sticks, at, at+1)
		bare.used[st.line]--
		lots = append(lots, st.content()...)
	}
	slices.SortStableFunc(lots, func(x, y lot) int { return cmp.Compare(b.rank[0][x.kind], b.rank[0][y.kind]) })
	best := s
	try := func(t *state) {
		if b.better(t, best) < 0 {
			best = t
		}
	}
	for l := range b.in.Lines {
		if t, ok := b.into(bare, l, lots); ok {
			try(t)
		}
	}
	for c := range b.in.Cubes {
		t, all := bare.clone(), true
		for _, lot := range lots {
			all = all && b.take(t, c, lot.kind, lot.count) == lot.count
		}
		if all {
			try(t)
		}
	}
	for o := range orders {
		slices.SortStableFunc(lots, func(x, y lot) int { return cmp.Compare(b.rank[o][x.kind], b.rank[o][y.kind]) })
		for sc := range scores {
			t := bare.clone()
			for _, lot := range lots {
				b.insert(t, lot.kind, lot.count, rule{score: sc, prefer: -1})
			}
			try(t)
		}
	}
	return best
}

// into is the layout with all the lots in one new stick of a line.
func (b *bench) into(bare *state, line int, lots []lot) (*state, bool) {
	if !b.open(bare, line) {
		return nil, false
	}
	st := &stick{line: line, sap: true}
	for _, l := range lots {
		st.sap = st.sap && b.in.Kinds[l.kind].Sapwood
	}
	for _, l := range lots {
		next, placed := b.fill(st, l.kind, l.count)
		if placed < l.count {
			return nil, false
		}
		st = next
	}
	t := bare.clone()
	t.sticks = append(t.sticks, st)
	t.used[line]++
	return t, true
}

// emptiest is up to n sticks, those with most of their face unused first.
func (b *bench) emptiest(s *state, n int) []*stick {
	filled := make(map[*stick]float64, len(s.sticks))
	for _, st := range s.sticks {
		for _, l := range st.content() {
			filled[st] += float64(l.count) * b.share(l.kind, st.line)
		}
	}
	out := slices.Clone(s.sticks)
	slices.SortStableFunc(out, func(x, y *stick) int { return cmp.Compare(filled[x], filled[y]) })
	return out[:min(n, len(out))]
}
