package solve

// pool is every yield that a purchase cheaper than the best can use, as listed for a part, and such parts of them as branching asks for later. With
// it at hand nothing need be priced any more: at each node it stands in for the generator, with the yields in use there.
type pool struct {
	columns []Column
	place   map[string]int
	listed  kept
	active  []int32 // the yields in use at the node now looked at
	mark    []int32 // the last turn in which each was put in use
	turn    int32
	known   []int32 // where each column of the master stands in the pool; -1 where it does not
}

// kept is what a node leaves to its branches: the yields that can still be of use, and the figures that tell it.
type kept struct {
	columns []int32
	part    part
	figures figures
}

// list makes the pool of part p, of which nothing is bought yet, or answers nil where the generator cannot list, there would be more than most, or
// the steps do not suffice. By the figures of a proven bound a purchase with a given column costs at least the bound and the worth by which the
// column falls short of the greatest of its kind, or of its price where that is more and the kind need not be bought at all; so those that fall
// short by more than there is room for are left out.
func (s *solver) list(p part, f figures, most int) *pool {
	g, ok := s.g.(Lister)
	if !ok || f.worth == nil {
		return nil
	}
	out := &pool{place: map[string]int{}, listed: kept{part: p, figures: f}}
	floor := s.worthHaving(p, f)
	if floor == nil {
		return out
	}
	columns, whole := g.List(f.worth, floor, most, s.steps)
	if !whole {
		return nil
	}
	for _, c := range columns {
		out.listed.columns = append(out.listed.columns, out.put(s, c))
	}
	return out
}

// put is where a column stands in the pool; it is added if it is new.
func (p *pool) put(s *solver, c Column) int32 {
	s.text = c.Text(s.text[:0])
	if n, ok := p.place[string(s.text)]; ok {
		return int32(n)
	}
	n := len(p.columns)
	p.columns, p.mark = append(p.columns, c), append(p.mark, 0)
	p.place[string(s.text)] = n
	if j, ok := s.known[string(s.text)]; ok && j < len(p.known) {
		p.known[j] = int32(n)
	}
	return int32(n)
}

// at is where column j of the master stands in the pool, or -1.
func (p *pool) at(s *solver, j int) int32 {
	for len(p.known) <= j {
		s.text = s.columns[len(p.known)].Text(s.text[:0])
		n, ok := p.place[string(s.text)]
		if !ok {
			n = -1
		}
		p.known = append(p.known, int32(n))
	}
	return p.known[j]
}

// use puts in use what is kept, cut as the rule says, less what is of no use any more because a better purchase was found since, or for being cut.
func (p *pool) use(s *solver, k kept, r rule) {
	p.active = p.active[:0]
	p.turn++
	floor := s.worthHaving(k.part, k.figures)
	if floor == nil {
		return
	}
	entries := 0
	put := func(j int32) {
		c := &p.columns[j]
		entries += len(c.Gives)
		if p.mark[j] != p.turn && k.figures.value(*c) >= floor[c.Kind] {
			p.mark[j] = p.turn
			p.active = append(p.active, j)
		}
	}
	for _, j := range k.columns {
		r.cut(s, p, j, put)
	}
	s.steps.Add(4*len(k.columns) + 2*entries)
}

// keep is what of the yields in use can be of use in part q, by the figures of its bound.
func (p *pool) keep(s *solver, q part, f figures) kept {
	k := kept{part: q, figures: f}
	floor := s.worthHaving(q, f)
	if floor == nil {
		return k
	}
	for _, j := range p.active {
		c := &p.columns[j]
		v := int64(0)
		for _, e := range c.Gives {
			v += f.worth[e.Piece] * int64(min(e.Count, q.want[e.Piece]))
		}
		if v >= floor[c.Kind] {
			k.columns = append(k.columns, j)
		}
	}
	s.steps.Add(10 * len(p.active))
	return k
}

// worthHaving is the least worth, by kind, of a column that a purchase cheaper than the best can use; nil where there is no such purchase.
func (s *solver) worthHaving(p part, f figures) []int64 {
	slack := s.slack(p, f)
	if slack < 0 {
		return nil
	}
	floor := make([]int64, len(s.in.Kinds))
	for k, kind := range s.in.Kinds {
		floor[k] = f.most[k] - slack
		if c := kind.Cost << s.shift; c > f.most[k] && p.lo[k] == 0 {
			floor[k] = c - slack
		}
		if p.hi[k] == 0 {
			floor[k] = f.most[k] + 1
		}
	}
	return floor
}

// value is the worth of a column.
func (f figures) value(c Column) int64 {
	v := int64(0)
	for _, e := range c.Gives {
		v += f.worth[e.Piece] * int64(e.Count)
	}
	return v
}

// slack is how far above a proven bound of part p a purchase cheaper than the best may lie, in 2^-shift pennies.
func (s *solver) slack(p part, f figures) int64 {
	room := times(s.cost-s.step-p.spent, int64(1)<<s.shift).plus(wide{^f.bound.hi, ^f.bound.lo}.plus(wide{0, 1}))
	if room.hi < 0 {
		return -1
	}
	if room.hi > 0 || room.lo > 1<<60 {
		return 1 << 60
	}
	return int64(room.lo)
}

// Best is the greatest worth in the pool, by kind, of what is wanted, and up to a few dozen columns worth more than floor.
func (p *pool) Best(worth []int64, wanted []int, floor []int64, steps *Steps) ([]int64, []Column) {
	most := make([]int64, len(floor))
	var columns []Column
	const held = 40
	var found [held]int32
	var gain [held]int64
	n, entries := 0, 0
	for _, j := range p.active {
		c := &p.columns[j]
		v := int64(0)
		for _, e := range c.Gives {
			v += worth[e.Piece] * int64(min(e.Count, wanted[e.Piece]))
		}
		entries += len(c.Gives)
		most[c.Kind] = max(most[c.Kind], v)
		over := v - floor[c.Kind]
		if over <= 0 || n == held && over <= gain[held-1] {
			continue
		}
		if n < held {
			n++
		}
		at := n - 1
		for ; at > 0 && gain[at-1] < over; at-- {
			gain[at], found[at] = gain[at-1], found[at-1]
		}
		gain[at], found[at] = over, j
	}
	steps.Add(2*len(p.active) + 2*entries)
	for _, j := range found[:n] {
		columns = append(columns, p.columns[j])
	}
	return most, columns
}
