package board

import (
	"cmp"
	"slices"

	"futtock/estimate/cutting/solve"
)

// keep is how many layouts of a stick the pool answers with.
const keep = 3

// Pool answers package solve from the layouts a Saw has handed out, each with as
// much of it as is wanted and with what else goes in. Its greatest worths are far
// above the truth: it finds purchases and proves nothing.
type Pool struct{ saw *Saw }

// Pool is the layouts known.
func (s *Saw) Pool() Pool { return Pool{s} }

// Columns is every layout known.
func (p Pool) Columns() []solve.Column {
	var out []solve.Column
	for tag, l := range p.saw.layouts {
		if len(p.saw.yields[tag]) > 0 {
			out = append(out, solve.Column{Kind: l.Stick, Gives: p.saw.yields[tag], Tag: tag})
		}
	}
	return out
}

// Best answers package solve.
func (p Pool) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	s := p.saw
	most := make([]int64, len(s.shop.Sticks))
	s.far(most, worth, wanted)
	type worthy struct {
		tag   int
		worth int64
	}
	best := make([][]worthy, len(s.shop.Sticks))
	for tag, l := range s.layouts {
		v := int64(0)
		for _, e := range s.yields[tag] {
			v += worth[e.Piece] * int64(min(e.Count, wanted[e.Piece]))
		}
		steps.Add(2 * len(s.yields[tag]))
		of := best[l.Stick]
		if v == 0 || floor != nil && v <= floor[l.Stick] || len(of) == keep && v <= of[keep-1].worth {
			continue
		}
		of = append(of, worthy{tag, v})
		slices.SortStableFunc(of, func(a, b worthy) int { return cmp.Compare(b.worth, a.worth) })
		best[l.Stick] = of[:min(keep, len(of))]
	}
	var found []solve.Column
	s.asked()
	for _, of := range best {
		for _, w := range of {
			found = append(found, s.filled(w.tag, worth, wanted, steps))
		}
	}
	return most, found
}

// filled is a known layout with as much of it as is wanted, filled with what else goes in.
func (s *Saw) filled(tag int, worth []int64, wanted []int, steps *solve.Steps) solve.Column {
	gives := entries(s.layouts[tag].gives(s.counts), wanted)
	l := s.Sawn(tag, gives)
	if l.Given != nil || s.shop.Sticks[l.Stick].Whole {
		return solve.Column{Kind: l.Stick, Gives: gives, Tag: tag}
	}
	for at, g := range s.groups {
		if slices.ContainsFunc(g.bays, func(b bay) bool { return b.stick == l.Stick && b.sap == l.Sap }) {
			s.fill(&l, at, worth, wanted)
			steps.Add(20 * len(wanted))
		}
	}
	return s.column(l, wanted)
}
