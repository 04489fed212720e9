package solve

import "math"

// master is the linear programme over the patterns known: least cost, every demand covered, the number of each kind between limits. Rows are
// the pieces (yield at least the demand), then for each kind its least number and the negative of its greatest. All rows read "at least", and
// each has a slack and an artificial piece at a price, so that there is always an answer: a bought-in piece stands for what the patterns
// cannot give. Variables are numbered slack by row, artificial by row, then columns.
//
// The method is the revised simplex with an explicit dense inverse: primal after new columns, dual after new right-hand sides. Everything is in
// floating point; nothing here is ever taken as proof. Products are rounded by float64(...) before they are added, so that no machine fuses the two and
// all give the same answer.
type master struct {
	rows   int
	pieces int
	big    float64   // scale of the prices
	forced []float64 // price of the artificial piece of each row, as things stand
	steps  *Steps

	start []int32 // entries of column j: row, val [start[j]:start[j+1]]
	row   []int32
	val   []float64
	cost  []float64
	off   []bool // columns that may not be used now

	b      []float64 // right-hand sides, perturbed
	nudge  []float64
	basis  []int32 // variable basic in each place
	at     []int32 // place of each variable, or -1
	inv    []float64
	x      []float64 // value by place
	y      []float64 // dual by row
	alpha  []float64 // column of the variable entering, by place
	fresh  int       // pivots since the inverse was made anew
	list   []int32   // columns that looked good when last all were priced
	stop   float64   // the dual method ends once the cost is at least this; nil for none
	filled []int32   // places not nil of the row of the inverse last scaled
	sign   []float64 // steepness of each column, for choosing the one to enter
}

const (
	pivotLeast = 1e-7
	priceLeast = 1e-7 // times the greatest price
	valueLeast = 1e-9
	dustLeast  = 1e-13 // what is under it in the inverse is rounding
	renewAfter = 120
	listed     = 24
)

func newMaster(in Instance, greatest float64, steps *Steps) *master {
	m, k := len(in.Demand), len(in.Kinds)
	lp := &master{rows: m + 2*k, pieces: m, big: greatest, steps: steps, start: []int32{0}}
	n := lp.rows
	lp.b, lp.nudge, lp.x, lp.y, lp.alpha = make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
	lp.forced = make([]float64, n)
	for i := range lp.forced {
		lp.forced[i] = 3 * greatest
	}
	lp.basis, lp.at, lp.inv = make([]int32, n), make([]int32, 2*n), make([]float64, n*n)
	for v := range lp.at {
		lp.at[v] = -1
	}
	mix := uint32(12345)
	for i := range lp.basis {
		mix = mix*1664525 + 1013904223
		lp.nudge[i] = 1e-7 * (1 + float64(mix>>16)/65536)
		v := int32(i)
		if i < m && in.Demand[i] >= 0 {
			v += int32(n)
		} else {
			lp.nudge[i] = -lp.nudge[i]
		}
		lp.basis[i], lp.at[v] = v, int32(i)
	}
	lp.renew()
	return lp
}

// add takes a column into the programme.
func (lp *master) add(c Column, cost int64) {
	put := func(r int, v float64) {
		lp.row, lp.val = append(lp.row, int32(r)), append(lp.val, v)
	}
	square := 1.0
	for _, e := range c.Gives {
		put(e.Piece, float64(e.Count))
		square += float64(e.Count * e.Count)
	}
	kinds := (lp.rows - lp.pieces) / 2
	put(lp.pieces+c.Kind, 1)
	put(lp.pieces+kinds+c.Kind, -1)
	lp.start = append(lp.start, int32(len(lp.row)))
	lp.cost, lp.off, lp.at = append(lp.cost, float64(cost)), append(lp.off, false), append(lp.at, -1)
	lp.sign = append(lp.sign, 1/math.Sqrt(square))
}

// demand sets the right-hand sides to those of p; the values by place follow.
func (lp *master) demand(p part) {
	for i, d := range p.want {
		lp.b[i] = float64(d) + lp.nudge[i]
	}
	kinds := len(p.lo)
	for k := range p.lo {
		r := lp.pieces + k
		lp.b[r], lp.b[r+kinds] = float64(p.lo[k])+lp.nudge[r], -float64(p.hi[k])+lp.nudge[r+kinds]
	}
	lp.values()
}

func (lp *master) values() {
	n := lp.rows
	for i := range lp.x {
		sum := 0.0
		for k, v := range lp.inv[i*n : i*n+n] {
			sum += float64(v * lp.b[k])
		}
		lp.x[i] = sum
	}
	lp.steps.Add(n * n / 2)
}

// price is the cost of variable v as things stand; a column that is off is dearer than any artificial piece.
func (lp *master) price(v int32) float64 {
	n := int32(lp.rows)
	switch {
	case v < n:
		return 0
	case v < 2*n:
		return lp.forced[v-n]
	case lp.off[v-2*n]:
		return lp.cost[v-2*n] + 100*lp.big
	}
	return lp.cost[v-2*n]
}

func (lp *master) duals() {
	n := lp.rows
	clear(lp.y)
	for i, v := range lp.basis {
		if c := lp.price(v); c != 0 {
			for k, w := range lp.inv[i*n : i*n+n] {
				lp.y[k] += float64(c * w)
			}
		}
	}
	lp.steps.Add(n * n / 2)
}

// reduced is the price of variable v less the worth of what it gives.
func (lp *master) reduced(v int32) float64 {
	n := int32(lp.rows)
	switch {
	case v < n:
		return lp.y[v]
	case v < 2*n:
		return lp.forced[v-n] - lp.y[v-n]
	}
	j := v - 2*n
	d := lp.cost[j]
	y, vals := lp.y, lp.val[lp.start[j]:lp.start[j+1]]
	for e, r := range lp.row[lp.start[j]:lp.start[j+1]] {
		d -= float64(vals[e] * y[r])
	}
	return d
}

// entering chooses the variable to come in: the best of a short list, which is made anew from all when none of it is good.
func (lp *master) entering() int32 {
	least := -priceLeast * lp.big
	choose := func() int32 {
		best, q := least, int32(-1)
		for _, v := range lp.list {
			if lp.at[v] < 0 {
				if d := lp.reduced(v) * lp.steep(v); d < best {
					best, q = d, v
				}
			}
		}
		lp.steps.Add(8 * len(lp.list))
		return q
	}
	if q := choose(); q >= 0 {
		return q
	}
	lp.list = lp.list[:0]
	var worth [listed]float64
	promising := func(v int32, d float64) {
		if len(lp.list) < listed {
			lp.list = append(lp.list, 0)
		}
		at := len(lp.list) - 1
		for ; at > 0 && worth[at-1] > d; at-- {
			worth[at], lp.list[at] = worth[at-1], lp.list[at-1]
		}
		worth[at], lp.list[at] = d, v
	}
	n := int32(2 * lp.rows)
	for v := range n {
		if lp.at[v] >= 0 {
			continue
		}
		if d := lp.reduced(v) * lp.steep(v); d < least && (len(lp.list) < listed || d < worth[listed-1]) {
			promising(v, d)
		}
	}
	y, from := lp.y, lp.start[0]
	for j, at := range lp.at[n:] {
		to := lp.start[j+1]
		rows, vals := lp.row[from:to], lp.val[from:to]
		if from = to; at >= 0 || lp.off[j] {
			continue
		}
		d := lp.cost[j]
		for e, r := range rows {
			d -= float64(vals[e] * y[r])
		}
		if d *= lp.sign[j]; d < least && (len(lp.list) < listed || d < worth[listed-1]) {
			promising(n+int32(j), d)
		}
	}
	lp.steps.Add(2*lp.rows + 2*len(lp.cost) + len(lp.row))
	return choose()
}

func (lp *master) steep(v int32) float64 {
	if n := int32(2 * lp.rows); v >= n {
		return lp.sign[v-n]
	}
	return math.Sqrt2 / 2
}

// primal goes on from a basis whose values are not under nil to the least cost, by at most so many pivots. It answers whether it got there; if not,
// the basis is still sound.
func (lp *master) primal(pivots int) bool {
	lp.list = lp.list[:0]
	for ; pivots > 0 && !lp.steps.Spent(); pivots-- {
		q := lp.entering()
		if q < 0 {
			return true
		}
		lp.column(q)
		r, most := -1, math.Inf(1)
		for i, a := range lp.alpha {
			if a > pivotLeast {
				t := math.Max(lp.x[i], 0) / a
				if t < most-1e-12 || t <= most+1e-12 && a > lp.alpha[r] {
					r, most = i, math.Min(t, most)
				}
			}
		}
		if r < 0 {
			lp.renew() // nothing bounds it: only a spoilt inverse can say so
			continue
		}
		lp.pivot(r, q)
	}
	return false
}

// dual goes on from a basis of least cost whose values may be under nil, until none is.
func (lp *master) dual() {
	n := int32(lp.rows)
	for turn := 0; turn < 400+40*lp.rows && !lp.steps.Spent(); turn++ {
		r, worst := -1, -valueLeast
		for i, v := range lp.x {
			if v < worst {
				r, worst = i, v
			}
		}
		if r < 0 {
			return
		}
		if lp.stop > 0 && lp.value() >= lp.stop {
			return
		}
		rho := lp.inv[r*lp.rows : (r+1)*lp.rows]
		q, least, size := int32(-1), math.Inf(1), 0.0
		try := func(v int32, a float64) {
			if a > -pivotLeast || lp.at[v] >= 0 {
				return
			}
			t := math.Max(lp.reduced(v), 0) / -a
			if t < least-1e-9 || t <= least+1e-9 && -a > size {
				q, least, size = v, math.Min(t, least), -a
			}
		}
		for i, a := range rho {
			try(int32(i), -a)
			try(int32(i)+n, a)
		}
		start := lp.start
		entries := 0
		for j, off := range lp.off {
			if off {
				continue
			}
			a := 0.0
			rows := lp.row[start[j]:start[j+1]]
			vals := lp.val[start[j]:start[j+1]]
			entries += len(rows)
			for e, r := range rows {
				a += float64(vals[e] * rho[r])
			}
			if a <= -pivotLeast {
				try(int32(j)+2*n, a)
			}
		}
		lp.steps.Add(2*lp.rows + len(lp.cost) + entries)
		if q < 0 {
			return // as above
		}
		lp.column(q)
		lp.pivot(r, q)
	}
}

// value is what the basis costs, with the values under nil in it.
func (lp *master) value() float64 {
	sum := 0.0
	for i, v := range lp.basis {
		sum += float64(lp.price(v) * lp.x[i])
	}
	return sum
}

// objective is the cost of the basis.
func (lp *master) objective() float64 {
	sum := 0.0
	for i, v := range lp.basis {
		sum += float64(lp.price(v) * math.Max(lp.x[i], 0))
	}
	return sum
}
