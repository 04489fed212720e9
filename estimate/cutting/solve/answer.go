package solve

import "strconv"

// answer is what was found, as it is handed out.
func (s *solver) answer() Answer {
	a := Answer{Steps: s.steps.Done}
	if s.best == nil {
		use, short := s.shortest()
		if s.consider(use, short); s.best == nil {
			a.Impossible = s.lower >= s.cost
			a.Use, a.Short = use, short.want
		}
	}
	if s.best != nil {
		a.Use = s.best
	}
	a.Use = s.trim(a.Use, a.Short)
	for _, u := range a.Use {
		a.Cost += s.in.Kinds[u.Kind].Cost * int64(u.Times)
	}
	if a.Impossible {
		return a
	}
	a.Bound = min(s.lower, s.cost)
	a.Proven = a.Short == nil && a.Bound == a.Cost
	return a
}

// trim merges equal columns and strikes off what is beyond the demand less what is short, from the last sticks first.
func (s *solver) trim(use []Used, short []int) []Used {
	over := make([]int, len(s.in.Demand))
	for i, d := range s.in.Demand {
		over[i] = -d
		if short != nil {
			over[i] += short[i]
		}
	}
	var sticks []Used
	for _, u := range use {
		for _, e := range u.Gives {
			over[e.Piece] += e.Count * u.Times
		}
		sticks = append(sticks, u)
	}
	for n := len(sticks) - 1; n >= 0; n-- {
		// A column used several times sheds its surplus one stick at a time.
		for sheds(sticks[n].Column, over) {
			u := sticks[n]
			cut := u.Column
			cut.Gives = nil
			for _, e := range u.Gives {
				less := min(e.Count, over[e.Piece])
				over[e.Piece] -= less
				if e.Count > less {
					cut.Gives = append(cut.Gives, Entry{e.Piece, e.Count - less})
				}
			}
			if u.Times == 1 {
				sticks[n].Column = cut
				break
			}
			sticks[n].Times--
			if len(cut.Gives) > 0 {
				sticks = append(sticks, Used{cut, 1})
			}
		}
	}
	var merged []Used
	place := map[string]int{}
	for _, u := range sticks {
		if len(u.Gives) == 0 {
			continue
		}
		k := string(strconv.AppendInt(u.Text(nil), int64(u.Tag), 10))
		if at, ok := place[k]; ok {
			merged[at].Times += u.Times
			continue
		}
		place[k] = len(merged)
		merged = append(merged, u)
	}
	return merged
}

func sheds(c Column, over []int) bool {
	for _, e := range c.Gives {
		if over[e.Piece] > 0 {
			return true
		}
	}
	return false
}

// shortest is the purchase that leaves fewest pieces as far as it was looked for: where the limited sticks do not suffice, the columns known are
// used by the most pieces given, cheapest first among equals.
func (s *solver) shortest() ([]Used, part) {
	p := s.whole()
	var use []Used
	for p.left() > 0 {
		best, given := -1, 0
		for j, c := range s.columns {
			if p.hi[c.Kind] <= 0 {
				continue
			}
			n := 0
			for _, e := range s.within(c.Gives, p.want) {
				n += e.Count
			}
			if n > given || n == given && n > 0 && s.in.Kinds[c.Kind].Cost < s.in.Kinds[s.columns[best].Kind].Cost {
				best, given = j, n
			}
		}
		if best < 0 {
			break
		}
		p.buy(s.columns[best], 1, s.in.Kinds)
		use = append(use, Used{s.columns[best], 1})
	}
	return use, p
}
