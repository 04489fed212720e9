package cutting

import (
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/board"
	"futtock/estimate/cutting/crook"
	"futtock/estimate/cutting/log"
	"futtock/estimate/cutting/solve"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
)

// questions is how many questions of the tables the effort is meant for, see board.Shop.Work.
const questions = 150

// hundredths is the unit costs are solved in, of a penny, by power of ten.
const hundredths = 2

// perStick is the price of a stick used, the lost ones in it, in hundredths of a
// penny rounded down.
func (s *source) perStick() int64 {
	each := s.each.Decimal().Shift(2 + hundredths)
	if inspected(s.stock.Form) {
		return each.Floor().IntPart()
	}
	q, _ := each.Shift(2).QuoRem(hundred.Sub(s.stock.Loss.Decimal()), 0)
	return q.IntPart()
}

// perPiece is the price by the cube of one of like pieces, or of as much of it as is
// so long, in hundredths of a penny rounded down.
func (s *source) perPiece(p takeoff.Piece, length int64) int64 {
	keeps := s.stock.Unit.Size().Mul(s.stock.Yield.Fraction()).Mul(hundred.Sub(s.stock.Loss.Decimal())).Shift(-2)
	net := cubeUnit(s.stock).Mul(p.Net.Base).Mul(decimal.New(length, 0))
	q, _ := net.Shift(2+hundredths).QuoRem(keeps.Mul(count(p)).Mul(decimal.New(int64(p.Length), 0)), 0)
	return q.IntPart()
}

// from is what one kind of stick of the solver stands for.
type from struct {
	line, crook, log, cube int  // the others below nil
	parts                  bool // of the cube, had to any length
}

// no is a kind of stick of nothing yet.
var no = from{line: -1, crook: -1, log: -1, cube: -1}

// want is what the tables are asked for: like pieces, or the pieces of runs of one
// section with their lengths to choose.
type want struct {
	kinds             []int // of the bench, alike but for their length
	count             int
	shortest, longest int64 // nil where the length is that of the kind
	millimetres       int   // of all pieces together, where their lengths are to choose
}

// question is the purchase of a bench as package solve takes it.
type question struct {
	*bench
	in    solve.Instance
	wants []want
	kinds []from // by kind of stick
	saw   *mill
	held  []bool // by want: some stick gives it
	eased eased
}

// asked is every kind of the bench as a want.
func (b *bench) asked() []want {
	var out []want
	for k, kind := range b.in.Kinds {
		out = append(out, want{kinds: []int{k}, count: kind.Count})
	}
	return out
}

// question lays the wants and all there is out for package solve.
func (b *bench) question(wants []want, effort solve.Effort) *question {
	q := &question{bench: b, wants: wants, held: make([]bool, len(wants))}
	shop := board.Shop{Kerf: b.in.Kerf, Work: int(effort / questions)}
	for _, w := range wants {
		k := b.in.Kinds[w.kinds[0]]
		p := board.Piece{Thickness: k.Thickness, Width: k.Width, Length: k.Length, Pitch: k.Pitch,
			Sapwood: k.Sapwood, Boxed: k.Boxed, Wanted: w.count}
		if w.longest > 0 {
			p.Length, p.Longest = w.shortest, w.longest
		}
		shop.Pieces = append(shop.Pieces, p)
	}
	kind := func(f from, cost int64, most int) {
		q.in.Kinds = append(q.in.Kinds, solve.Kind{Cost: cost, Most: most})
		q.kinds = append(q.kinds, f)
	}
	add := func(f from, cost int64, most int, s board.Stick) {
		shop.Sticks = append(shop.Sticks, s)
		kind(f, cost, most)
	}
	for i, l := range b.in.Lines {
		st := board.Stick{Thickness: l.Thickness, Length: l.Length, Width: l.Width, Clear: l.Clear}
		for _, w := range wants {
			st.Gives = append(st.Gives, b.in.Kinds[w.kinds[0]].Lines[i])
		}
		f := no
		f.line = i
		add(f, b.lines[i].perStick(), l.Limit, st)
	}
	for c, s := range b.cubes {
		for at, w := range wants {
			k := w.kinds[0]
			if !b.in.Kinds[k].Cubes[c] {
				continue
			}
			lengths := []int64{b.in.Kinds[k].Length}
			if w.longest > 0 { // what a length costs rises evenly with it
				lengths = []int64{w.shortest, w.longest}
			}
			for _, l := range lengths {
				st := board.Stick{Whole: true, Gives: make([]bool, len(wants)), Length: l}
				st.Gives[at] = true
				most, net := -1, b.kinds[k].net*float64(l)/float64(b.in.Kinds[k].Length)
				if limit := b.in.Cubes[c].Limit; limit >= 0 && net > 0 {
					most = int(limit / net)
				}
				f := no
				f.cube, f.parts = c, w.longest > 0
				add(f, s.perPiece(b.kinds[k].piece, l), most, st)
			}
		}
	}
	crooks := crook.Shop{Kerf: shop.Kerf}
	logs := log.Shop{Kerf: shop.Kerf, Work: int(effort / logQuestions)}
	for n, w := range wants {
		p := shop.Pieces[n]
		crooks.Pieces = append(crooks.Pieces, crook.Piece{Thickness: p.Thickness, Wanted: w.count})
		logs.Pieces = append(logs.Pieces, log.Piece{Thickness: p.Thickness, Width: p.Width, Length: p.Length, Sapwood: p.Sapwood,
			Boxed: p.Boxed, Free: b.kinds[w.kinds[0]].piece.Heart == job.Free, Wanted: w.count})
	}
	for c, s := range b.crooks {
		one := crook.Crook{Thickness: int64(s.stock.Thickness)}
		for _, w := range wants {
			one.Beside = append(one.Beside, b.beside(c, w.kinds[0]))
		}
		crooks.Crooks = append(crooks.Crooks, one)
		f := no
		f.crook = c
		kind(f, s.perStick(), b.spare[byCrook][c])
	}
	for l, s := range b.logs {
		one := logOf(s.stock)
		for _, w := range wants {
			one.Gives = append(one.Gives, slices.Contains(b.kinds[w.kinds[0]].sources, s))
		}
		logs.Logs = append(logs.Logs, one)
		f := no
		f.log = l
		kind(f, s.perStick(), b.spare[byLog][l])
	}
	q.saw = newMill(shop, crooks, logs)
	return q
}

// logQuestions is likewise how many questions of a log's tables it is meant for.
const logQuestions = 100

// logOf is a log as it can be sawn: bark off, ends trimmed, and no wider than at its own top.
func logOf(s rates.Stock) log.Log {
	return log.Log{Top: int64(math.Floor(takeoff.Top(s))) - 2*int64(s.Bark), Taper: int64(s.Taper), Length: int64(s.Length - 2*s.EndTrim), Sapwood: int64(s.Sapwood)}
}

// of is the stock line of a kind of stick; nil for timber by the cube.
func (q *question) of(kind int) *source {
	switch f := q.kinds[kind]; {
	case f.line >= 0:
		return q.lines[f.line]
	case f.crook >= 0:
		return q.crooks[f.crook]
	case f.log >= 0:
		return q.logs[f.log]
	}
	return nil
}

// begin sets what is wanted, with the sticks of a first sawing to begin with.
func (q *question) begin(first sawing) {
	for _, st := range first.sticks {
		q.in.Start = append(q.in.Start, q.saw.Given(st.line, st.places))
	}
	q.in.Demand = make([]int, len(q.wants))
	for i := range q.kinds {
		for k, w := range q.wants {
			if c, ok := q.saw.Alone(i, k); ok {
				q.in.Start = append(q.in.Start, c)
				q.in.Demand[k], q.held[k] = w.count, true
			}
		}
	}
}

// solved is the purchase that is solved for.
func (q *question) solved(effort solve.Effort) sawing {
	least := q.relax(q.saw.Ease(), q.in, effort).least
	q.in.Start = append(q.in.Start, q.eased.Sound()...)
	if q.saw.Heavy() && q.lossyAny() {
		// What it costs by the share kept cannot be proven there, and is of no use.
		out := q.lotted(effort)
		out.least = least
		return out
	}
	answer := solve.Solve(q.in, q.saw, effort)
	out := q.sawing(answer)
	out.least = max(least, answer.Bound)
	return out
}

// sawing is an answer as it is sawn.
func (q *question) sawing(a solve.Answer) sawing {
	out := q.blank()
	copy(out.held, q.held)
	for k := range q.in.Demand {
		if out.short[k] = q.bench.in.Kinds[k].Count - q.in.Demand[k]; a.Short != nil {
			out.short[k] += a.Short[k]
		}
	}
	for _, u := range a.Use {
		switch f := q.kinds[u.Kind]; {
		case f.line >= 0:
			l := q.saw.board.Sawn(u.Tag/saws, u.Gives)
			out.sticks = append(out.sticks, stick{f.line, u.Times, q.saw.board.Places(l), &l})
		case f.crook >= 0:
			out.crooked = append(out.crooked, crooked{f.crook, u.Times, q.saw.crook.Sawn(u.Tag/saws, u.Gives)})
		case f.log >= 0:
			out.logged = append(out.logged, logged{f.log, u.Times, q.saw.log.Places(q.saw.log.Sawn(u.Tag/saws, u.Gives))})
		default:
			out.cubed[f.cube][u.Gives[0].Piece] += u.Times
		}
	}
	return q.within(out)
}

// within leaves out of a sawing what limited timber by the cube does not give:
// the solver counts it by kinds, and not together.
func (b *bench) within(s sawing) sawing {
	for c, byKind := range s.cubed {
		limit := b.in.Cubes[c].Limit
		for k, n := range byKind {
			for ; n > 0 && limit >= 0; n-- {
				if limit -= b.kinds[k].net; limit < 0 {
					s.short[k] += n
					byKind[k] -= n
					limit = 0
					break
				}
			}
		}
	}
	return s
}

// times is how many times over the demand is taken for the relaxation, so that no
// layout holds more of a piece than is wanted in all; what that costs at least is as
// many times what it costs once. Nil where package solve could not count so far.
func (q *question) times(demand []int) int {
	pieces, all, dearest := 1, int64(1), int64(1)
	for _, w := range q.wants {
		pieces += w.count
	}
	for _, d := range demand {
		all += int64(max(0, d))
	}
	for _, k := range q.in.Kinds {
		dearest = max(dearest, k.Cost)
	}
	return int(min(64, max(1, 1<<20/int64(pieces)), most/dearest/all))
}

// most is what all that is wanted may come to by package solve, were every piece, or
// millimetre, a stick.
const most = int64(1) << 47

// eased is the relaxation of what is wanted, as it was asked and may be asked again: so
// many times over, of layouts that are asked less of.
type eased struct {
	*looser
	in    solve.Instance
	once  []int     // the demand
	first []figures // what it was asked for the whole of it
	times int
	spent int64 // steps of that
}

// relaxation is what it comes to if sticks could be bought in parts.
type relaxation struct {
	least int64
	use   []solve.Part // once
	steps int64
	never bool // what is wanted cannot be had, not even in parts
}

// relax solves the relaxation of what is wanted, and bounds what is wanted by it.
func (q *question) relax(e *looser, in solve.Instance, effort solve.Effort) relaxation {
	q.eased = eased{looser: e, in: in, once: in.Demand, times: q.times(in.Demand)}
	if q.eased.times == 0 {
		return relaxation{}
	}
	out := q.parts(e, in, q.eased.times, 2*effort)
	q.eased.first, q.eased.spent = e.Asked(), out.steps
	return out
}

// parts solves the relaxation of what is wanted, taken n times over.
func (q *question) parts(e *looser, in solve.Instance, n int, effort solve.Effort) relaxation {
	many := solve.Instance{Start: in.Start}
	for _, d := range in.Demand {
		many.Demand = append(many.Demand, d*n)
	}
	for _, k := range in.Kinds {
		if k.Most > 0 {
			k.Most *= n
		}
		many.Kinds = append(many.Kinds, k)
	}
	r := solve.Relax(many, e, effort)
	out := relaxation{least: (r.Bound + int64(n) - 1) / int64(n), use: r.Use, steps: r.Steps, never: r.Impossible}
	for i := range out.use {
		out.use[i].Sticks /= float64(n)
	}
	return out
}
