package lengths

import "futtock/estimate/cutting/solve"

// List names every yield worth at least floor[kind] and to which no wanted piece can be added.
func (g *Generator) List(worth []int64, floor []int64, most int, steps *solve.Steps) ([]solve.Column, bool) {
	if g.coarse != nil {
		return nil, false
	}
	wanted := make([]int, len(g.pieces))
	for i, p := range g.pieces {
		wanted[i] = p.Wanted
	}
	g.fill(g.exact, worth, wanted, steps)
	l := lister{g: g, gr: g.exact, worth: worth, most: most, steps: steps, count: make([]int, len(g.pieces))}
	for k := range g.stock {
		l.kind, l.floor = k, floor[k]
		if g.value[l.gr.root[k]] >= l.floor && !l.walk(l.gr.root[k], g.stock[k].Length, 0) {
			return nil, false
		}
	}
	return l.columns, true
}

// lister walks the graph depth first; the greatest worth from every node on tells exactly which arcs lead to a yield worth having.
type lister struct {
	g       *Generator
	gr      *graph
	worth   []int64
	floor   int64
	kind    int
	most    int
	steps   *solve.Steps
	count   []int
	columns []solve.Column
}

func (l *lister) walk(n int32, left, had int64) bool {
	if n == 0 {
		return l.end(left)
	}
	i := l.g.order[l.gr.layer[n]]
	arcs := l.gr.to[l.gr.first[n]:l.gr.first[n+1]]
	l.steps.Add(len(arcs))
	for q := len(arcs) - 1; q >= 0; q-- {
		v := had + l.worth[i]*int64(q)
		if v+l.g.value[arcs[q]] < l.floor {
			continue
		}
		l.count[i] = q
		on := l.walk(arcs[q], left-l.g.pieces[i].Length*int64(q), v)
		l.count[i] = 0
		if !on {
			return false
		}
	}
	return true
}

func (l *lister) end(left int64) bool {
	l.steps.Add(len(l.g.order))
	for j := len(l.g.order) - 1; j >= 0; j-- {
		p := l.g.pieces[l.g.order[j]]
		if p.Length > left {
			break
		}
		if l.count[l.g.order[j]] < p.Wanted {
			return !l.steps.Spent()
		}
	}
	if len(l.columns) >= l.most || l.steps.Spent() {
		return false
	}
	c := solve.Column{Kind: l.kind}
	for i, q := range l.count {
		if q > 0 {
			c.Gives = append(c.Gives, solve.Entry{Piece: i, Count: q})
		}
	}
	if len(c.Gives) > 0 {
		l.columns = append(l.columns, c)
	}
	return true
}
