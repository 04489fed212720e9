package cutting

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/solve"
)

// A line that bears a Loss is bought in whole sticks. Of ten bought with a Loss of
// 10 % nine are used, and of twenty eighteen; so its sticks come in lots of nine, and a
// lot costs one stick more, the lost one, than the sticks used of it. Package solve
// counts each stick at its price over the share kept, so that where lots end is of
// no account to it. Here the lots are chosen first; within them a stick costs its price
// and no more.

// lots is how many lots of each line are taken up.
type lots struct {
	*question
	good  []solve.Column // of use within them
	each  []int64        // of a stick bought, by kind of stick, in hundredths of a penny
	taken []int          // by kind of stick; nil of those that bear no Loss
}

// lossy reports a kind of stick that comes in lots.
func (q *question) lossy(kind int) bool {
	s := q.of(kind)
	return s != nil && !inspected(s.stock.Form) && s.stock.Loss.Decimal().Sign() > 0
}

// lossyAny reports that some kind does.
func (q *question) lossyAny() bool {
	for k := range q.kinds {
		if q.lossy(k) {
			return true
		}
	}
	return false
}

// each is the price of a stick bought, in hundredths of a penny.
func (q *question) each(kind int) int64 {
	if s := q.of(kind); s != nil {
		return s.each.Decimal().Shift(2 + hundredths).IntPart()
	}
	return q.in.Kinds[kind].Cost
}

// most is the most sticks of a kind that may be used.
func (q *question) most(kind int) int {
	if most := q.in.Kinds[kind].Most; most >= 0 {
		return most
	}
	return total(q.in.Demand)
}

// holds is the most sticks that are used of so many lots: u where u / (1 - Loss) is no more
// than u + n.
func (q *question) holds(kind, n int) int {
	most := q.most(kind)
	if !q.lossy(kind) {
		return most
	}
	loss := q.of(kind).stock.Loss.Decimal()
	u, _ := hundred.Sub(loss).Mul(decimal.New(int64(n), 0)).QuoRem(loss, 0)
	return min(most, int(u.IntPart()))
}

// limits is the most sticks of each kind within lots.
func (q *question) limits(taken []int) []int {
	out := make([]int, len(taken))
	for k, n := range taken {
		out[k] = q.holds(k, n)
	}
	return out
}

// near is how far over the worth of what it gives, in parts of its price, a layout may cost that
// is of use when lots are chosen.
const near = 0.1

// lots chooses lots by the relaxation over columns: from those that what it uses falls
// into, one at a time is left or taken, or left for another's, while that costs less.
func (q *question) lots(columns []solve.Column, effort solve.Effort) *lots {
	l := &lots{question: q, taken: make([]int, len(q.kinds))}
	in := q.in
	in.Start = columns
	in.Kinds = slices.Clone(in.Kinds)
	free := make([]int, len(q.kinds))
	for k := range q.kinds {
		l.each = append(l.each, q.each(k))
		in.Kinds[k].Cost = l.each[k]
		free[k] = total(q.in.Demand)
	}
	all := solve.Limit(in, effort/2)
	all.Least(free, 0)
	in.Start = all.Good(near)
	l.good = all.Good(3 * near)
	r := solve.Limit(in, effort/2)
	_, used, _ := r.Least(free, 0)
	for k := range l.taken {
		// The relaxation may use more than there are, where it cannot do otherwise.
		for most := l.most(k); l.lossy(k) && l.holds(k, l.taken[k]) < most && float64(l.holds(k, l.taken[k])) < used[k]-0.5; {
			l.taken[k]++
		}
	}
	for l.exchange(r) {
	}
	return l
}

// exchange is one change of lots for the better; false where there is none, or
// the steps are spent.
func (l *lots) exchange(r *solve.Limits) bool {
	cost, _, saves := r.Least(l.limits(l.taken), 0)
	better := func(leave, take int) bool {
		next := slices.Clone(l.taken)
		more := int64(0)
		if leave >= 0 {
			next[leave]--
			more -= l.each[leave]
		}
		if take >= 0 {
			next[take]++
			more += l.each[take]
		}
		stop := cost - float64(more) - 1
		if stop <= 0 {
			return false
		}
		if v, _, _ := r.Least(l.limits(next), stop); v >= stop || r.Spent() {
			return false
		}
		l.taken = next
		return true
	}
	var kinds []int
	for k := range l.taken {
		if l.lossy(k) {
			kinds = append(kinds, k)
		}
	}
	for _, k := range kinds {
		if l.taken[k] > 0 && better(k, -1) {
			return true
		}
		// More sticks never save more than the first of them.
		gain := saves[k] * float64(l.holds(k, l.taken[k]+1)-l.holds(k, l.taken[k]))
		if gain > float64(l.each[k]) && better(-1, k) {
			return true
		}
	}
	for _, k := range kinds {
		for _, j := range kinds {
			if k != j && l.taken[k] > 0 && better(k, j) {
				return true
			}
		}
	}
	return false
}

// The purchase is first solved for with the tables, for a part of the effort in hundredths, and then, with
// lots chosen anew, from the layouts that came of it, which is quick: once, and again for every
// further Usual of effort. What
// a stick beyond the lots is counted as, in hundredths of its price, differs each time: it opens another
// lot, so it is dear, but the rest of that lot may do for what is to come.
const (
	byTables, beyondFirst = 30, 300
	byLayouts             = 20
)

var beyondNext = [...]int64{220, 400, 300}

// lotted is the cheapest of the purchases solved for within lots.
func (q *question) lotted(effort solve.Effort) sawing {
	first := q.lots(q.in.Start, effort/8)
	out := first.solved(q.saw, q.in.Start, beyondFirst, effort*byTables/100)
	l := q.lots(q.saw.Pool().Columns(), effort/8)
	for _, beyond := range beyondNext[:max(1, min(len(beyondNext), int(effort/Usual)))] {
		out = q.better(out, l.solved(q.saw.Pool(), l.good, beyond, effort*byLayouts/100))
	}
	return out
}

// solved is the purchase solved for within the lots, from columns to begin with.
func (l *lots) solved(g solve.Generator, start []solve.Column, dearer int64, effort solve.Effort) sawing {
	b := beyond{saw: g}
	in := l.in
	limits := l.limits(l.taken)
	in.Kinds = nil
	rest := make([]int, len(l.kinds))
	for k, kind := range l.in.Kinds {
		if kind.Cost = l.each[k]; l.lossy(k) {
			if rest[k] = -1; kind.Most >= 0 {
				rest[k] = kind.Most - limits[k]
			}
			kind.Most = limits[k]
		}
		in.Kinds = append(in.Kinds, kind)
	}
	in.Start = start
	return l.sawing(b.solve(in, rest, dearer, effort))
}
