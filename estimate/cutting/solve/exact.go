package solve

// Sizes of the stages after the first dive, chosen on the published instances and on groups like those of a refit.
const (
	poolSmall     = 3_000  // yields: so few are searched at once
	poolLargest   = 60_000 // yields: more are not listed
	nodesAtFirst  = 400
	nodesUnlisted = 300       // likewise, where the yields are too many to list
	workAtRoot    = 2_000_000 // steps on going through numbers of sticks
	workAtNode    = 120_000
)

// exact is the last stage. The yields still worth having are listed; where they are few the tree is searched at once. Otherwise, or when that
// search grows long, more dives look for a better purchase, which also leaves fewer yields, and then the tree is searched to its end or the end
// of the steps; what it could not branch is left to dives again.
func (s *solver) exact() {
	t := s.plant(poolSmall)
	first := nodesAtFirst
	if t.pool == nil {
		first = nodesUnlisted
	}
	if t.search(first); s.done() || t.ended() {
		return
	}
	before := s.cost
	s.share(1, 3, func() { s.dives(limit{3, 2}, limit{8, 3}) })
	if s.done() {
		return
	}
	if t.pool == nil || s.cost < before {
		t = s.plant(poolLargest)
	}
	if t.search(1 << 30); !s.done() && !t.ended() {
		s.dives(limit{16, 5}, limit{40, 12})
	}
}

// share spends on do no more than a part of the steps that are left.
func (s *solver) share(part, of int64, do func()) {
	most := s.steps.Most
	s.steps.Most = min(most, s.steps.Done+(most-s.steps.Done)*part/of)
	do()
	s.steps.Most = most
}

// plant makes the tree, with its pool if no more than most yields are worth listing.
func (s *solver) plant(most int) *tree {
	p := s.whole()
	t := &tree{s: s, all: s.g, trunk: true, stuck: dear, pool: s.list(p, s.root, most)}
	first := &node{lo: p.lo, hi: p.hi, basis: s.basis, bound: s.lower}
	if t.pool != nil {
		first.kept = t.pool.listed
	}
	t.push(first)
	return t
}
