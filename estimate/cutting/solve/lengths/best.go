package lengths

import "futtock/estimate/cutting/solve"

// Best answers the greatest worth that a stick of each stock length can hold within the numbers wanted, and for each stock length and piece the
// best yield of which that piece is the longest, where worth more than floor. One walk over the graph serves all.
func (g *Generator) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) (most []int64, columns []solve.Column) {
	most = make([]int64, len(g.stock))
	bounds := g.exact
	g.fill(bounds, worth, wanted, steps)
	for k := range g.stock {
		most[k] = g.value[bounds.root[k]]
		for _, i := range bounds.free {
			most[k] += worth[i] * int64(wanted[i])
		}
	}
	yields := g.exact
	if g.coarse != nil {
		yields = g.coarse
		g.fill(yields, worth, wanted, steps)
	}
	for k := range g.stock {
		columns = g.yields(columns, yields, k, worth, wanted, floor, steps)
	}
	return most, columns
}

// fill reckons the greatest worth from every node on.
func (g *Generator) fill(gr *graph, worth []int64, wanted []int, steps *solve.Steps) {
	if len(g.value) < len(gr.layer) {
		g.value = make([]int64, len(gr.layer))
	}
	value := g.value
	value[0] = 0
	taken := 0
	for n := 1; n < len(gr.layer); n++ {
		i := g.order[gr.layer[n]]
		arcs := gr.to[gr.first[n]:gr.first[n+1]]
		best := value[arcs[0]]
		if w := worth[i]; w > 0 {
			if len(arcs) > wanted[i]+1 {
				arcs = arcs[:wanted[i]+1]
			}
			taken += len(arcs)
			sum := int64(0)
			for _, to := range arcs[1:] {
				sum += w
				best = max(best, sum+value[to])
			}
		}
		value[n] = best
	}
	steps.Add(taken + 3*len(gr.layer))
}

// take is the number of the piece of node n, at least least, in the best yield from there on, and its worth.
func (g *Generator) take(gr *graph, n int32, least int, worth []int64, wanted []int) (int, int64) {
	i := g.order[gr.layer[n]]
	arcs := gr.to[gr.first[n]:gr.first[n+1]]
	count, best := -1, int64(-1)
	for q := least; q < len(arcs) && q <= wanted[i]; q++ {
		if v := g.value[arcs[q]] + worth[i]*int64(q); v > best {
			count, best = q, v
		}
	}
	return count, best
}

// yields adds the good yields of stock length k to columns.
func (g *Generator) yields(columns []solve.Column, gr *graph, k int, worth []int64, wanted []int, floor []int64, steps *solve.Steps) []solve.Column {
	least := g.value[gr.root[k]]
	if least == 0 {
		return columns
	}
	if floor != nil {
		least = floor[k] + 1
	}
	for n := gr.root[k]; n != 0 && g.value[n] >= least; n = gr.to[gr.first[n]] {
		if worth[g.order[gr.layer[n]]] == 0 {
			continue
		}
		count, v := g.take(gr, n, 1, worth, wanted)
		steps.Add(10)
		if v < least || count < 1 {
			continue
		}
		c := solve.Column{Kind: k}
		for at := n; at != 0; {
			i := g.order[gr.layer[at]]
			if at != n {
				count, _ = g.take(gr, at, 0, worth, wanted)
			}
			if count > 0 && worth[i] > 0 {
				c.Gives = append(c.Gives, solve.Entry{Piece: i, Count: count})
			}
			at = gr.to[int(gr.first[at])+count]
			steps.Add(5)
		}
		sortGives(c.Gives)
		columns = append(columns, c)
		if floor == nil {
			break
		}
	}
	return columns
}

// sortGives puts the few entries of a yield in the order of the pieces.
func sortGives(e []solve.Entry) {
	for a := 1; a < len(e); a++ {
		for b := a; b > 0 && e[b].Piece < e[b-1].Piece; b-- {
			e[b], e[b-1] = e[b-1], e[b]
		}
	}
}
