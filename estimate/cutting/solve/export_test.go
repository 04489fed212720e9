package solve

// The efforts of the tests.
const (
	// Usual is for one group of timber: some 50 ms where a step takes a nanosecond.
	Usual Effort = 30_000_000
	// Thorough is for proving a single hard purchase: some 2 s.
	Thorough Effort = 1_200_000_000
)

// SearchOnly solves by the relaxation and the tree alone, from no purchase at hand and with few dives, so that small instances too are branched.
// It also tells whether yields were cut for being branched on in pairs.
func SearchOnly(in Instance, g Generator, effort Effort) (Answer, bool) {
	s := prepare(in, g, effort)
	for _, c := range in.Start {
		s.know(c)
	}
	s.relax()
	s.sum()
	t := s.plant(poolLargest)
	t.seen = 1<<40 + 1 // so many nodes on, dives are few
	t.search(1 << 30)
	return s.answer(), t.pool != nil && len(t.pool.columns) > len(t.pool.listed.columns)
}

// SumBound is the bound of the relaxation, and that by sums of prices.
func SumBound(in Instance, g Generator) (int64, int64) {
	s := prepare(in, g, Usual)
	for _, c := range in.Start {
		s.know(c)
	}
	s.relax()
	relaxed := s.lower
	s.sum()
	return relaxed, s.lower
}
