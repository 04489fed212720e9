package parcel

import "math"

// relaxed is the linear programme of a node solved: the weight of every row, and of every
// offer how much is used and what that costs by the hull.
type relaxed struct {
	weights    []float64
	used, cost []float64
}

// side is one side of the lower hull of an offer's costs: so many sticks at so much each.
type side struct {
	offer int
	long  float64
	slope float64
}

// hull is the sides of the lower hull of an offer between two numbers, by rising slope.
func (o Offer) hull(offer, lo, hi int) []side {
	var at []int
	slope := func(a, b int) float64 { return float64(o.Costs[b]-o.Costs[a]) / float64(b-a) }
	for n := lo; n <= hi; n++ {
		for len(at) > 1 && slope(at[len(at)-2], at[len(at)-1]) >= slope(at[len(at)-1], n) {
			at = at[:len(at)-1]
		}
		at = append(at, n)
	}
	var out []side
	for i := 1; i < len(at); i++ {
		out = append(out, side{offer, float64(at[i] - at[i-1]), slope(at[i-1], at[i])})
	}
	return out
}

// relax solves the linear programme of a node by its dual, which is feasible from
// weights of nil: greatest weighted need, less what limits are worth, where the weight that a
// stick holds is no more than it costs along each side of the hull.
func (s *search) relax(n *node) relaxed {
	var sides []side
	for i, o := range s.offers {
		sides = append(sides, o.hull(i, n.lo[i], n.hi[i])...)
		s.left -= int64(n.hi[i] - n.lo[i] + 1)
	}
	m, r := len(sides), len(s.rows)
	// Columns: rows, limits of the sides, slacks; last the right-hand side.
	wide := r + 2*m + 1
	t := make([][]float64, m+1)
	if len(s.table) < (m+1)*wide {
		s.table = make([]float64, 2*(m+1)*wide)
	}
	clear(s.table[:(m+1)*wide])
	for i := range t {
		t[i] = s.table[i*wide : (i+1)*wide]
	}
	for i, sd := range sides {
		for k, row := range s.rows {
			t[i][k] = float64(row.Holds[sd.offer]) / float64(row.Need)
		}
		t[i][r+i], t[i][r+m+i] = -1, 1
		t[i][wide-1] = sd.slope
		t[m][r+i] = sd.long
	}
	for k, row := range s.rows {
		need := row.Need
		for i, h := range row.Holds {
			need -= h * int64(n.lo[i])
		}
		t[m][k] = -float64(need) / float64(row.Need)
	}
	basis := make([]int, m)
	for i := range basis {
		basis[i] = r + m + i
	}
	s.left -= int64((m + 1) * wide)
	for range 20 * (m + r + 1) {
		in, worst := -1, -1e-9
		for k, v := range t[m][:wide-1] {
			if v < worst {
				in, worst = k, v
			}
		}
		if in < 0 || s.left <= 0 {
			break
		}
		out, least := -1, math.Inf(1)
		for i := range m {
			if a := t[i][in]; a > 1e-9 {
				if q := t[i][wide-1] / a; q < least-1e-12 || q <= least && basis[i] < basis[out] {
					out, least = i, q
				}
			}
		}
		if out < 0 {
			break // no numbers meet the rows
		}
		s.left -= int64((m + 1) * wide)
		pivot(t, out, in)
		basis[out] = in
	}
	p := relaxed{weights: make([]float64, r), used: make([]float64, len(s.offers)), cost: make([]float64, len(s.offers))}
	for i, b := range basis {
		if b < r {
			p.weights[b] = max(0, t[i][wide-1]) / float64(s.rows[b].Need)
		}
	}
	for i, o := range s.offers {
		p.used[i], p.cost[i] = float64(n.lo[i]), float64(o.Costs[n.lo[i]])
	}
	for i, sd := range sides {
		v := min(sd.long, max(0, t[m][r+m+i]))
		p.used[sd.offer] += v
		p.cost[sd.offer] += float64(v * sd.slope)
	}
	return p
}

func pivot(t [][]float64, out, in int) {
	row := t[out]
	by := row[in]
	for k := range row {
		row[k] /= by
	}
	for i := range t {
		f := t[i][in]
		if i == out || f == 0 {
			continue
		}
		to := t[i]
		for k, v := range row {
			to[k] -= float64(f * v)
		}
	}
}

// safe is what no numbers of a node that meet the rows cost less than, for any
// weights of the rows, in whole numbers.
func (s *search) safe(n *node, weights []float64) int64 {
	// So fine that no sum passes 2^61.
	const room = 1 << 61
	var high float64
	for k, w := range weights {
		high += float64(w * float64(s.rows[k].Need))
	}
	for i, o := range s.offers {
		held := 0.0
		for k, w := range weights {
			held += float64(w * float64(s.rows[k].Holds[i]))
		}
		high += float64(float64(n.hi[i])*held) + float64(o.Costs[n.hi[i]])
	}
	fine := uint(0)
	for fine < 30 && high*float64(int64(2)<<fine) < room {
		fine++
	}
	if fine == 0 {
		return 0
	}
	whole := make([]int64, len(weights))
	var sum int64
	for k, w := range weights {
		whole[k] = int64(w * float64(int64(1)<<fine))
		sum += whole[k] * s.rows[k].Need
	}
	for i, o := range s.offers {
		var held int64
		for k, w := range whole {
			held += w * s.rows[k].Holds[i]
		}
		least := int64(math.MaxInt64)
		for u := n.lo[i]; u <= n.hi[i]; u++ {
			least = min(least, o.Costs[u]<<fine-held*int64(u))
		}
		sum += least
	}
	s.left -= int64(len(weights) * len(s.offers))
	up := (sum + 1<<fine - 1) >> fine // down for sums under nil too, and then rounded up
	return (up + s.unit - 1) / s.unit * s.unit
}
