package solve

import "math"

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
			rho[k] = v / a
		}
	}
	changed := 0
	for i, f := range lp.alpha {
		if i == r || math.Abs(f) < 1e-13 {
			continue
		}
		lp.x[i] -= float64(f * t)
		changed++
		row := lp.inv[i*n : i*n+n]
		for k, v := range rho {
			row[k] -= float64(f * v)
		}
	}
	lp.x[r] = t
	lp.at[lp.basis[r]] = -1
	lp.basis[r], lp.at[q] = q, int32(r)
	lp.steps.Add(n * (changed + 2) / 2)
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

// eliminate turns alpha into the unit column of row r throughout the inverse.
func (lp *master) eliminate(r int) {
	n := lp.rows
	rho := lp.inv[r*n : r*n+n]
	for k := range rho {
		rho[k] /= lp.alpha[r]
	}
	changed := 1
	for i, f := range lp.alpha {
		if i == r || f == 0 {
			continue
		}
		row := lp.inv[i*n : i*n+n]
		for k, v := range rho {
			if v != 0 {
				row[k] -= float64(f * v)
			}
		}
		changed++
	}
	lp.steps.Add(n * changed / 2)
}
