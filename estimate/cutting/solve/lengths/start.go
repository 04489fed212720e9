package lengths

import "futtock/estimate/cutting/solve"

// start makes first yields, in the order in which they are to be used: for each stock length in unlimited supply all pieces are laid, longest
// first, each in the fullest stick that still takes it, and each stick is then changed for the cheapest that holds as much; the cheapest such
// purchase stands first. At the end come each piece alone on the cheapest stick that holds it, and on every limited one.
func (g *Generator) start() []solve.Column {
	var columns []solve.Column
	best := int64(-1)
	for k := range g.stock {
		if g.stock[k].Most >= 0 {
			continue
		}
		sticks, cost := g.fullest(k)
		if sticks == nil {
			continue
		}
		if best < 0 || cost < best {
			best, columns = cost, append(sticks, columns...)
		}
	}
	for i, p := range g.pieces {
		alone := []solve.Entry{{Piece: i, Count: 1}}
		if k := g.cheapest(p.Length); k >= 0 {
			columns = append(columns, solve.Column{Kind: k, Gives: alone})
		}
		for k, s := range g.stock {
			if s.Most >= 0 && s.Length >= p.Length {
				columns = append(columns, solve.Column{Kind: k, Gives: alone})
			}
		}
	}
	return columns
}

// cheapest is the cheapest unlimited stock that holds a length, or -1.
func (g *Generator) cheapest(length int64) int {
	best := -1
	for k, s := range g.stock {
		if s.Most < 0 && s.Length >= length && (best < 0 || s.Cost < g.stock[best].Cost) {
			best = k
		}
	}
	return best
}

// fullest lays all pieces on sticks of kind k; nil where one is too long. Many equal sticks are laid at once.
func (g *Generator) fullest(k int) (columns []solve.Column, cost int64) {
	type stick struct {
		left  int64
		gives []solve.Entry
	}
	var sticks []stick
	for _, i := range g.order {
		length := g.pieces[i].Length
		if length > g.stock[k].Length {
			return nil, 0
		}
		for left := g.pieces[i].Wanted; left > 0; {
			at := -1
			for b := range sticks {
				if sticks[b].left >= length && (at < 0 || sticks[b].left < sticks[at].left) {
					at = b
				}
			}
			if at < 0 {
				sticks = append(sticks, stick{left: g.stock[k].Length})
				at = len(sticks) - 1
			}
			n := int(min(int64(left), sticks[at].left/length))
			sticks[at].left -= int64(n) * length
			sticks[at].gives = append(sticks[at].gives, solve.Entry{Piece: i, Count: n})
			left -= n
		}
	}
	for _, st := range sticks {
		kind := k
		if c := g.cheapest(g.stock[k].Length - st.left); c >= 0 {
			kind = c
		}
		sortGives(st.gives)
		columns = append(columns, solve.Column{Kind: kind, Gives: st.gives})
		cost += g.stock[kind].Cost
	}
	return columns, cost
}

// worths are the lengths themselves, whose bound is that of the length in all, and the worths of the bound L2 (Martello and Toth 1990) on the
// longest stock: for the best threshold t, pieces longer than L - t count as L and those shorter than t as nothing, which no stick can pass.
// Last come lengths bent a little in favour of the long pieces, for a purchase that does not leave those to the end.
func (g *Generator) worths() [][]int64 {
	plain := make([]int64, len(g.pieces))
	var longest int64
	for _, s := range g.stock {
		longest = max(longest, s.Length)
	}
	for i, p := range g.pieces {
		plain[i] = p.Length
	}
	sum := func(t int64) (worth []int64, total int64) {
		worth = make([]int64, len(g.pieces))
		for i, p := range g.pieces {
			switch {
			case p.Length > longest-t:
				worth[i] = longest
			case p.Length >= t:
				worth[i] = p.Length
			}
			total += worth[i] * int64(p.Wanted)
		}
		return worth, total
	}
	best, most := plain, int64(0)
	for _, p := range g.pieces {
		if 2*p.Length > longest {
			continue
		}
		if worth, total := sum(p.Length); total > most {
			best, most = worth, total
		}
	}
	bent := make([]int64, len(g.pieces))
	for i, p := range g.pieces {
		bent[i] = int64(64 * float64(p.Length) * (1 + float64(p.Length)/float64(16*longest)))
	}
	return [][]int64{plain, best, bent}
}
