package solve

import (
	"math"
	"sort"
)

// column reckons alpha, the column of variable v in terms of the basis.
func (lp *master) column(v int32) {
	n := int32(lp.rows)
	switch {
	case v < n:
		for i := range lp.alpha {
			lp.alpha[i] = -lp.inv[i*lp.rows+int(v)]
		}
	case v < 2*n:
		for i := range lp.alpha {
			lp.alpha[i] = lp.inv[i*lp.rows+int(v-n)]
		}
	default:
		j := v - 2*n
		rows, vals := lp.row[lp.start[j]:lp.start[j+1]], lp.val[lp.start[j]:lp.start[j+1]]
		for i := range lp.alpha {
			inv := lp.inv[i*lp.rows : (i+1)*lp.rows]
			a := 0.0
			for e, r := range rows {
				a += float64(inv[r] * vals[e])
			}
			lp.alpha[i] = a
		}
	}
	lp.steps.Add(4 * lp.rows)
}

// pivot brings variable q in at place r; alpha holds its column.
func (lp *master) pivot(r int, q int32) {
	n := lp.rows
	a := lp.alpha[r]
	d := lp.reduced(q)
	rho := lp.inv[r*n : r*n+n]
	t, u := lp.x[r]/a, d/a
	for k, v := range rho {
		if v != 0 {
			lp.y[k] += float64(u * v)
		}
	}
	lp.scale(rho, a)
	for i, f := range lp.alpha {
		if i != r && math.Abs(f) >= dustLeast {
			lp.x[i] -= float64(f * t)
			lp.subtract(i, f, rho)
		}
	}
	lp.x[r] = t
	lp.at[lp.basis[r]] = -1
	lp.basis[r], lp.at[q] = q, int32(r)
	if lp.fresh++; lp.fresh >= renewAfter {
		lp.renew()
	}
}

// renew makes the inverse anew from the basis, and values and duals from it. A basis that has become singular is mended with artificials.
func (lp *master) renew() {
	n := lp.rows
	lp.fresh = 0
	clear(lp.inv)
	for i := 0; i < n; i++ {
		lp.inv[i*n+i] = 1
	}
	// Each basic variable in turn is pivoted into a row not yet taken, the one-entry variables first.
	taken := make([]bool, n)
	placed := make([]int32, n)
	var rest []int32
	for _, v := range lp.basis {
		switch m := int32(n); {
		case v < m && !taken[v]:
			taken[v], placed[v] = true, v
			lp.inv[int(v)*n+int(v)] = -1
		case v >= m && v < 2*m && !taken[v-m]:
			taken[v-m], placed[v-m] = true, v
		default:
			rest = append(rest, v)
		}
	}
	// Short columns first: the inverse fills up the later for it.
	sort.SliceStable(rest, func(a, b int) bool { return lp.length(rest[a]) < lp.length(rest[b]) })
	for _, v := range rest {
		lp.column(v)
		r, size := -1, 1e-9
		for i, a := range lp.alpha {
			if !taken[i] && math.Abs(a) > size {
				r, size = i, math.Abs(a)
			}
		}
		if r < 0 {
			lp.at[v] = -1
			continue
		}
		taken[r], placed[r] = true, v
		lp.eliminate(r)
	}
	for r := range placed {
		if !taken[r] {
			placed[r] = int32(n + r)
		}
		lp.basis[r] = placed[r]
		lp.at[placed[r]] = int32(r)
	}
	lp.values()
	lp.duals()
}

// stand is the basis as it is, to come back to.
func (lp *master) stand() []int32 { return append([]int32(nil), lp.basis...) }

// restore goes back to a basis of before.
func (lp *master) restore(basis []int32) {
	for _, v := range lp.basis {
		lp.at[v] = -1
	}
	copy(lp.basis, basis)
	lp.renew()
}

// eliminate turns alpha into the unit column of row r throughout the inverse.
func (lp *master) eliminate(r int) {
	n := lp.rows
	rho := lp.inv[r*n : r*n+n]
	lp.scale(rho, lp.alpha[r])
	for i, f := range lp.alpha {
		if i != r && f != 0 {
			lp.subtract(i, f, rho)
		}
	}
}

// scale divides a row of the inverse by a and notes where it is not nil, as most rows hold few such places. What only rounding left is cleared.
func (lp *master) scale(rho []float64, a float64) {
	lp.filled = lp.filled[:0]
	for k, v := range rho {
		switch {
		case v == 0:
		case math.Abs(v) < dustLeast:
			rho[k] = 0
		default:
			rho[k] = v / a
			lp.filled = append(lp.filled, int32(k))
		}
	}
	lp.steps.Add(len(rho))
}

// subtract takes f times the row last scaled off row i of the inverse.
func (lp *master) subtract(i int, f float64, rho []float64) {
	row := lp.inv[i*lp.rows : (i+1)*lp.rows]
	if 8*len(lp.filled) > 5*len(rho) {
		for k, v := range rho {
			row[k] -= float64(f * v)
		}
		lp.steps.Add(len(rho) / 2)
		return
	}
	for _, k := range lp.filled {
		row[k] -= float64(f * rho[k])
	}
	lp.steps.Add(len(lp.filled))
}

// length is how many rows variable v stands in.
func (lp *master) length(v int32) int {
	n := int32(2 * lp.rows)
	if v < n {
		return 1
	}
	return int(lp.start[v-n+1] - lp.start[v-n])
}
