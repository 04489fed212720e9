package log

import (
	"cmp"
	"slices"

	"futtock/estimate/cutting/solve"
)

// keep is how many layouts of a log the pool answers with.
const keep = 3

// Pool answers package solve from the layouts a Saw has handed out, each with as
// much of it as is wanted and with what else goes in. Its greatest worths are far
// above the truth: it finds purchases and proves nothing.
type Pool struct{ saw *Saw }

// Pool is the layouts known.
func (s *Saw) Pool() Pool { return Pool{s} }

// Columns is every layout known.
func (p Pool) Columns() []solve.Column {
	s := p.saw
	var out []solve.Column
	for tag, l := range s.layouts {
		if len(s.yields[tag]) > 0 {
			out = append(out, solve.Column{Kind: l.Log, Gives: s.yields[tag], Tag: tag})
		}
	}
	return out
}

// Best answers package solve.
func (p Pool) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	s := p.saw
	most := make([]int64, len(s.shop.Logs))
	for i := range most {
		most[i] = bounty(worth, wanted)
	}
	type worthy struct {
		tag   int
		worth int64
	}
	best := make([][]worthy, len(s.shop.Logs))
	for tag, l := range s.layouts {
		v := int64(0)
		for _, e := range s.yields[tag] {
			v += worth[e.Piece] * int64(min(e.Count, wanted[e.Piece]))
		}
		steps.Add(2 * len(s.yields[tag]))
		of := best[l.Log]
		if v == 0 || floor != nil && v <= floor[l.Log] || len(of) == keep && v <= of[keep-1].worth {
			continue
		}
		of = append(of, worthy{tag, v})
		slices.SortStableFunc(of, func(a, b worthy) int { return cmp.Compare(b.worth, a.worth) })
		best[l.Log] = of[:min(keep, len(of))]
	}
	var found []solve.Column
	for _, g := range s.groups {
		order := g.order(worth, wanted)
		for _, i := range g.logs {
			for _, w := range best[i] {
				found = append(found, s.filled(s.layouts[w.tag].clone(), order, wanted, steps))
			}
		}
	}
	return most, found
}
