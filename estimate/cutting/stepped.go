package cutting

import (
	"slices"

	"futtock/estimate/cutting/parcel"
	"futtock/estimate/cutting/solve"
)

// far is above any cost.
const far = int64(1) << 60

// stepped finds what no purchase costs less than in whole sticks, bought as they are
// sold with what rounding up for Loss adds, as the bound of a sawing: the one given, or a better
// one found on the way. The worths that the relaxation was asked by are needs that any
// purchase meets; the least numbers of sticks that meet them are tried, first by the
// relaxation with no more than those, which gives more such worths, then by solving
// for them.
func (q *question) stepped(best sawing, effort solve.Effort) sawing {
	t := &trying{question: q, best: best, left: int64(effort)}
	least := t.least(q.hundredths(best), func(used []int, rows bool) (parcel.Verdict, []parcel.Row) {
		verdict, found := t.check(used)
		if verdict == parcel.Open && !rows && t.left > 0 && !t.dear {
			verdict = t.try(used)
		}
		return verdict, found
	})
	t.best.held, t.best.least = best.held, max(best.least, least)
	return t.best
}

// relaxed is the same bound by the relaxation alone, in hundredths of a penny.
func (q *question) relaxed(effort solve.Effort) int64 {
	t := &trying{question: q, left: int64(effort)}
	return t.least(far, func(used []int, _ bool) (parcel.Verdict, []parcel.Row) { return t.check(used) })
}

// least is what whole purchases cost at least, at most upper; nil where the relaxation was
// asked nothing.
func (t *trying) least(upper int64, check parcel.Check) int64 {
	asked := t.eased.first
	if len(asked) == 0 {
		return 0
	}
	t.dear = t.left < fewAsks*t.eased.spent/int64(len(asked))
	var offers []parcel.Offer
	for i := range t.kinds {
		offers = append(offers, t.offer(i))
	}
	least := parcel.Least(offers, t.rows(asked), upper, check, t.left/2)
	if least == far {
		return 0
	}
	return least
}

// offer is what numbers of a kind of stick cost, up to as many as there are, and no
// more than the pieces: a stick that gives nothing wanted is never bought.
func (q *question) offer(kind int) parcel.Offer {
	of := q.in.Kinds[kind]
	limit := 0
	for _, w := range q.wants {
		limit += w.count
	}
	if of.Most >= 0 {
		limit = min(limit, of.Most)
	}
	out := parcel.Offer{Costs: make([]int64, limit+1), Parts: q.kinds[kind].parts}
	for n := range out.Costs {
		out.Costs[n] = of.Cost * int64(n)
		if s := q.of(kind); s != nil {
			out.Costs[n] = int64(buys(s.stock, n)) * q.each(kind)
		}
	}
	return out
}

// rows is the needs of what is wanted by the worths of the tables' answers.
func (q *question) rows(asked []figures) []parcel.Row {
	var out []parcel.Row
	for _, f := range asked {
		r := parcel.Row{Holds: f.most}
		for i, v := range f.worth {
			r.Need += v * int64(q.eased.once[i])
		}
		out = append(out, r)
	}
	return out
}

// trying is a search for the least whole purchase.
type trying struct {
	*question
	best sawing
	left int64 // steps
	dear bool  // to check
}

// fewAsks is how many answers of the tables the steps must suffice for, for any check to be made.
const fewAsks = 12

// check tells whether numbers of sticks give all that is wanted, as far as the relaxation tells.
func (t *trying) check(used []int) (parcel.Verdict, []parcel.Row) {
	if t.left <= 0 || t.dear {
		return parcel.Open, nil
	}
	in := t.eased.in
	in.Kinds = slices.Clone(in.Kinds)
	for k, n := range used {
		in.Kinds[k].Most = n
	}
	in.Start = slices.Concat(in.Start, t.eased.Columns(t.eased.once))
	before := len(t.eased.Asked())
	answer := t.parts(t.eased.looser, in, t.eased.times, solve.Effort(3*t.left)) // a third of it is for the relaxation
	t.left -= answer.steps
	found := t.rows(t.eased.Asked()[before:])
	if answer.never {
		return parcel.Lacking, found
	}
	return parcel.Open, found
}

// try solves for a purchase of no more than numbers of sticks.
func (t *trying) try(used []int) parcel.Verdict {
	in := t.in
	in.Kinds = slices.Clone(in.Kinds)
	for k, n := range used {
		in.Kinds[k].Most = n
	}
	in.Start = t.saw.Pool().Columns()
	answer := solve.Solve(in, t.saw, solve.Effort(t.left/2))
	t.left -= answer.Steps
	switch {
	case answer.Impossible:
		return parcel.Never
	case answer.Short != nil:
		return parcel.Open
	}
	t.best = t.better(t.best, t.sawing(answer))
	return parcel.Enough
}
