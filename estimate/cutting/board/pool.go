package board

import (
	"slices"

	"futtock/estimate/cutting/solve"
)

// Pool answers package solve from the layouts a Saw has handed out, each with as
// much of it as is wanted and with what else goes in. Its greatest worths are far
// above the truth: it finds purchases and proves nothing.
type Pool struct{ saw *Saw }

// Pool is the layouts known.
func (s *Saw) Pool() Pool { return Pool{s} }

func (p Pool) known() solve.Known {
	return solve.Known{Yields: p.saw.yields, Kind: func(tag int) int { return p.saw.layouts[tag].Stick }}
}

// Columns is every layout known.
func (p Pool) Columns() []solve.Column { return p.known().Columns() }

// Best answers package solve.
func (p Pool) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	s := p.saw
	most := make([]int64, len(s.shop.Sticks))
	s.far(most, worth, wanted)
	best := p.known().Worthiest(len(most), worth, wanted, floor, steps)
	var found []solve.Column
	s.asked()
	for _, of := range best {
		for _, tag := range of {
			found = append(found, s.filled(tag, worth, wanted, steps))
		}
	}
	return most, found
}

// filled is a known layout with as much of it as is wanted, filled with what else goes in.
func (s *Saw) filled(tag int, worth []int64, wanted []int, steps *solve.Steps) solve.Column {
	gives := solve.Entries(s.layouts[tag].gives(s.counts), wanted)
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
