package cutting

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/solve"
)

// A line that bears a Loss is bought in whole sticks: of ten used with a Loss of
// 10 % twelve are bought, of nine ten. Package solve counts each at its price
// over the share kept, so that where the steps fall is of no account to it. What
// rounding up adds is looked into here.

// dearSteps is how many sticks of a price rounding up must add to a line before
// its purchase is held down to the step before.
var dearSteps = decimal.New(3, -1)

// whole is a sawing whose purchase comes to whole sticks for less: line by line,
// the one that rounding up adds most to is held to what the purchase before the
// last step gives, and the rest is solved anew from the layouts known; but of a
// large shop, where that is dear, the sticks are only worked over.
func (q *question) whole(from sawing, effort solve.Effort) sawing {
	best := q.better(from, q.over(from))
	if q.saw.Heavy() {
		return best
	}
	in := q.in
	in.Kinds = append([]solve.Kind(nil), q.in.Kinds...)
	in.Start = q.saw.Pool().Columns()
	held := make([]bool, len(q.lines))
	for spent := int64(0); spent < int64(effort)/2; {
		line, most := q.dearest(best, held)
		if line < 0 {
			break
		}
		held[line] = true
		was := in.Kinds[line].Most
		in.Kinds[line].Most = most
		answer := solve.Solve(in, q.saw.Pool(), effort)
		spent += answer.Steps
		next := q.sawing(answer)
		if next = q.better(next, q.over(next)); q.less(next, best) {
			best = next
		} else {
			in.Kinds[line].Most = was
		}
	}
	return best
}

// dearest is the line, not yet held, to whose price rounding up adds most, and the
// sticks that one bought less would leave of it; -1 where it adds little to any.
func (q *question) dearest(s sawing, held []bool) (line, most int) {
	used := make([]int, len(q.lines))
	for _, st := range s.sticks {
		used[st.line] += st.times
	}
	line = -1
	var worst decimal.Decimal
	for i, n := range used {
		of := q.lines[i]
		if held[i] || n == 0 {
			continue
		}
		bought := decimal.New(int64(buys(of.stock, n)), 0)
		keeps := hundred.Sub(of.stock.Loss.Decimal()).Shift(-2)
		over := bought.Sub(decimal.New(int64(n), 0).DivRound(keeps, 6))
		if over.LessThan(dearSteps) {
			continue
		}
		if adds := over.Mul(of.each.Decimal()); adds.GreaterThan(worst) {
			line, worst = i, adds
			most = int(bought.Sub(decimal.New(1, 0)).Mul(keeps).Floor().IntPart())
		}
	}
	return line, most
}
