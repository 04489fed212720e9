package log

import "futtock/estimate/cutting/solve"

// Pool answers package solve from the layouts a Saw has handed out, each with as
// much of it as is wanted and with what else goes in. Its greatest worths are far
// above the truth: it finds purchases and proves nothing.
type Pool struct{ saw *Saw }

// Pool is the layouts known.
func (s *Saw) Pool() Pool { return Pool{s} }

func (p Pool) known() solve.Known {
	return solve.Known{Yields: p.saw.yields, Kind: func(tag int) int { return p.saw.layouts[tag].Log }}
}

// Columns is every layout known.
func (p Pool) Columns() []solve.Column { return p.known().Columns() }

// Best answers package solve.
func (p Pool) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	s := p.saw
	most := make([]int64, len(s.shop.Logs))
	for i := range most {
		most[i] = bounty(worth, wanted)
	}
	best := p.known().Worthiest(len(most), worth, wanted, floor, steps)
	var found []solve.Column
	for _, g := range s.groups {
		order := g.order(worth, wanted)
		for _, i := range g.logs {
			for _, tag := range best[i] {
				found = append(found, s.filled(s.layouts[tag].clone(), order, wanted, steps))
			}
		}
	}
	return most, found
}
