package solve

// pool is every yield that a purchase cheaper than the best can use. With it at hand nothing need be priced any more: it stands in for the
// generator, and a yield can be barred, which no generator could heed.
type pool struct {
	columns []Column
	barred  []int // how many times each is barred at the point of the search now looked at
	place   map[string]int
	part    part    // what it was listed for
	figures figures // by what worths
	cost    int64   // and against what best purchase
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
	out := &pool{part: p, figures: f, cost: s.cost, place: map[string]int{}}
	floor := s.worthHaving(p, f)
	if floor == nil {
		return out
	}
	columns, whole := g.List(f.worth, floor, most, s.steps)
	if !whole {
		return nil
	}
	out.columns, out.barred = columns, make([]int, len(columns))
	for n, c := range columns {
		out.place[key(c)] = n
	}
	return out
}

// worthHaving is the least worth, by kind, of a column that a purchase cheaper than the best can use; nil where there is no such purchase.
func (s *solver) worthHaving(p part, f figures) []int64 {
	slack := s.slack(f)
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

// tighten bars for good the columns that are of no use any more after a better purchase was found.
func (p *pool) tighten(s *solver) {
	p.cost = s.cost
	floor := s.worthHaving(p.part, p.figures)
	for j, c := range p.columns {
		if floor == nil || p.figures.value(c) < floor[c.Kind] {
			p.barred[j]++
		}
	}
	s.steps.Add(6 * len(p.columns))
}

// value is the worth of a column.
func (f figures) value(c Column) int64 {
	v := int64(0)
	for _, e := range c.Gives {
		v += f.worth[e.Piece] * int64(e.Count)
	}
	return v
}

// slack is how far above a proven bound a purchase cheaper than the best may lie, in 2^-shift pennies.
func (s *solver) slack(f figures) int64 {
	room := times(s.cost-s.step, int64(1)<<s.shift).plus(wide{^f.bound.hi, ^f.bound.lo}.plus(wide{0, 1}))
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
	const kept = 40
	var found [kept]int
	var gain [kept]int64
	n, entries := 0, 0
	for j := range p.columns {
		if p.barred[j] > 0 {
			continue
		}
		c := &p.columns[j]
		v := int64(0)
		for _, e := range c.Gives {
			v += worth[e.Piece] * int64(min(e.Count, wanted[e.Piece]))
		}
		entries += len(c.Gives)
		most[c.Kind] = max(most[c.Kind], v)
		over := v - floor[c.Kind]
		if over <= 0 || n == kept && over <= gain[kept-1] {
			continue
		}
		if n < kept {
			n++
		}
		at := n - 1
		for ; at > 0 && gain[at-1] < over; at-- {
			gain[at], found[at] = gain[at-1], found[at-1]
		}
		gain[at], found[at] = over, j
	}
	steps.Add(2*len(p.columns) + 2*entries)
	for _, j := range found[:n] {
		columns = append(columns, p.columns[j])
	}
	return most, columns
}

// find is where a column stands in the pool, or -1.
func (p *pool) find(c Column) int {
	if n, ok := p.place[key(c)]; ok {
		return n
	}
	return -1
}
