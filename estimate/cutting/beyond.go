package cutting

import (
	"slices"

	"futtock/estimate/cutting/solve"
)

// beyond answers package solve for sticks that are paid for up to a number, and dearer
// beyond it: those beyond are kinds of their own, after all others, sawn as they are.
type beyond struct {
	saw solve.Generator
	of  []int // by kind beyond, the kind it is sawn as
	n   int   // kinds that are not beyond
}

// solve solves an instance of the saw with so many of each kind beyond its limit, below nil as
// many as wanted, at so many hundredths of its cost. The answer is in the kinds of the saw.
func (b beyond) solve(in solve.Instance, rest []int, dearer int64, effort solve.Effort) solve.Answer {
	b.n = len(in.Kinds)
	in.Kinds = slices.Clone(in.Kinds)
	room := most / int64(total(in.Demand)+1) // that package solve has
	for k, n := range rest {
		if n != 0 {
			b.of = append(b.of, k)
			cost := in.Kinds[k].Cost
			in.Kinds = append(in.Kinds, solve.Kind{Cost: max(cost, min(dearer*cost/100, room)), Most: n})
		}
	}
	in.Start = b.with(slices.Clone(in.Start))
	a := solve.Solve(in, b, effort)
	for i, u := range a.Use {
		if u.Kind >= b.n {
			a.Use[i].Kind = b.of[u.Kind-b.n]
		}
	}
	return a
}

// with is columns, and after them the same of kinds beyond.
func (b beyond) with(columns []solve.Column) []solve.Column {
	for _, c := range columns {
		if i := slices.Index(b.of, c.Kind); i >= 0 {
			columns = append(columns, solve.Column{Kind: b.n + i, Gives: c.Gives, Tag: c.Tag})
		}
	}
	return columns
}

// Best answers package solve.
func (b beyond) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	var low []int64
	if floor != nil {
		low = slices.Clone(floor[:b.n])
		for i, k := range b.of {
			low[k] = min(low[k], floor[b.n+i])
		}
	}
	most, found := b.saw.Best(worth, wanted, low, steps)
	for _, k := range b.of {
		most = append(most, most[k])
	}
	return most, b.with(found)
}
