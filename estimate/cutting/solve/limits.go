package solve

// Limits is the relaxation over columns known, which is asked again and again with
// other limits to how many of each kind may be bought. It asks no generator and
// proves nothing: it tells which limits look worth while.
type Limits struct{ s *solver }

// Limit takes the columns of an instance's Start.
func Limit(in Instance, effort Effort) *Limits {
	s := prepare(in, nil, effort)
	for i := range s.lp.forced {
		s.lp.forced[i] = 3 * s.lp.big
	}
	for _, c := range in.Start {
		s.know(c)
	}
	s.lp.demand(s.whole())
	return &Limits{s}
}

// Spent tells that the work allowed is done.
func (l *Limits) Spent() bool { return l.s.steps.Spent() }

// Least is what the demand costs with no more than most of each kind, what is used of each
// and what one more of it would save; what columns do not give is bought in at three
// times the dearest stick. It is left alone once it costs as much as stop, where that is not nil.
func (l *Limits) Least(most []int, stop float64) (cost float64, used, saves []float64) {
	s, lp := l.s, l.s.lp
	p := s.whole()
	for k, n := range most {
		p.hi[k] = min(p.hi[k], n)
	}
	lp.demand(p)
	lp.stop = stop
	lp.dual()
	if stop > 0 && lp.value() >= stop {
		return lp.value(), nil, nil
	}
	lp.duals()
	lp.primal(20 * lp.rows)
	used, saves = make([]float64, len(most)), make([]float64, len(most))
	for _, sh := range lp.shares() {
		used[s.columns[sh.column].Kind] += sh.value
	}
	for k := range saves {
		saves[k] = max(0, lp.y[lp.pieces+len(most)+k])
	}
	return lp.objective(), used, saves
}

// Good is the columns whose price is at most so much over the worth of what they give, as
// the relaxation stands, of each kind in the order they came.
func (l *Limits) Good(over float64) []Column {
	var out []Column
	for j, c := range l.s.columns {
		if l.s.lp.reduced(int32(2*l.s.lp.rows+j)) <= over*float64(l.s.in.Kinds[c.Kind].Cost) {
			out = append(out, c)
		}
	}
	return out
}
