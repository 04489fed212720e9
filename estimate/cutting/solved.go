package cutting

import (
	"futtock/estimate/cutting/board"
	"futtock/estimate/cutting/solve"
	"futtock/estimate/takeoff"
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

// perPiece is the price by the cube of one of like pieces, in hundredths of a
// penny rounded down.
func (s *source) perPiece(p takeoff.Piece) int64 {
	keeps := s.stock.Unit.Size().Mul(s.stock.Yield.Fraction()).Mul(hundred.Sub(s.stock.Loss.Decimal())).Shift(-2)
	q, _ := cubeUnit(s.stock).Mul(p.Net.Base).Shift(2+hundredths).QuoRem(keeps.Mul(count(p)), 0)
	return q.IntPart()
}

// from is what one kind of stick of the solver stands for.
type from struct{ line, crook, cube int } // the two others below nil

// lastAsked is how many of the last answers of the tables, when worths have
// settled, are tried for a bound by whole purchases.
const lastAsked = 3

// question is the purchase of a bench as package solve takes it.
type question struct {
	*bench
	in    solve.Instance
	kinds []from // by kind of stick
	saw   *board.Saw
	held  []bool // by kind of piece: some stick gives it
}

// question puts the purchase of a bench, with the sticks of a first sawing to begin with.
func (b *bench) question(first sawing, effort solve.Effort) *question {
	q := &question{bench: b, held: make([]bool, len(b.kinds))}
	shop := board.Shop{Kerf: b.in.Kerf, Work: int(effort / questions)}
	for _, k := range b.in.Kinds {
		shop.Pieces = append(shop.Pieces, board.Piece{Thickness: k.Thickness, Width: k.Width, Length: k.Length, Pitch: k.Pitch,
			Sapwood: k.Sapwood, Boxed: k.Boxed, Wanted: k.Count})
	}
	add := func(f from, cost int64, most int, s board.Stick) {
		shop.Sticks = append(shop.Sticks, s)
		q.in.Kinds = append(q.in.Kinds, solve.Kind{Cost: cost, Most: most})
		q.kinds = append(q.kinds, f)
	}
	for i, l := range b.in.Lines {
		st := board.Stick{Thickness: l.Thickness, Length: l.Length, Width: l.Width, Clear: l.Clear}
		for _, k := range b.in.Kinds {
			st.Gives = append(st.Gives, k.Lines[i])
		}
		add(from{i, -1, -1}, b.lines[i].perStick(), l.Limit, st)
	}
	for c, s := range b.crooks {
		st := board.Stick{Whole: true}
		for k := range b.kinds {
			st.Gives = append(st.Gives, b.crook(c, k))
		}
		add(from{-1, c, -1}, s.perStick(), b.spare[c], st)
	}
	for c, s := range b.cubes {
		for k, kind := range b.kinds {
			if !b.in.Kinds[k].Cubes[c] {
				continue
			}
			st := board.Stick{Whole: true, Gives: make([]bool, len(b.kinds))}
			st.Gives[k] = true
			most := -1
			if limit := b.in.Cubes[c].Limit; limit >= 0 && kind.net > 0 {
				most = int(limit / kind.net)
			}
			add(from{-1, -1, c}, s.perPiece(kind.piece), most, st)
		}
	}
	q.saw = board.New(shop)
	for _, st := range first.sticks {
		q.in.Start = append(q.in.Start, q.saw.Given(st.line, st.places))
	}
	q.in.Demand = make([]int, len(b.kinds))
	for i := range q.kinds {
		for k := range b.kinds {
			if c, ok := q.saw.Alone(i, k); ok {
				q.in.Start = append(q.in.Start, c)
				q.in.Demand[k], q.held[k] = b.in.Kinds[k].Count, true
			}
		}
	}
	return q
}

// solved is the purchase that is solved for.
func (q *question) solved(effort solve.Effort) sawing {
	least, good := q.eased(effort)
	q.in.Start = append(q.in.Start, good...)
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
			l := q.saw.Sawn(u.Tag, u.Gives)
			out.sticks = append(out.sticks, stick{f.line, u.Times, q.saw.Places(l), &l})
		case f.crook >= 0:
			out.crooked[f.crook][u.Gives[0].Piece] += u.Times
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

// eased is what no purchase can cost less than, and layouts to begin with. The
// demand is taken many times over, so that no layout holds more of a piece than
// is wanted in all; what that costs at least is as many times what it costs once.
func (q *question) eased(effort solve.Effort) (int64, []solve.Column) {
	times := max(1, min(64, 1<<20/max(1, total(q.in.Demand))))
	many := solve.Instance{Start: q.in.Start}
	for _, n := range q.in.Demand {
		many.Demand = append(many.Demand, n*times)
	}
	for _, k := range q.in.Kinds {
		if k.Most > 0 {
			k.Most *= times
		}
		many.Kinds = append(many.Kinds, k)
	}
	e := q.saw.Ease(many.Demand)
	answer := solve.Solve(many, e, 2*effort) // it ends when its relaxation is solved
	least := (answer.Bound + int64(times) - 1) / int64(times)
	asked := e.Asked()
	for _, f := range asked[max(0, len(asked)-lastAsked):] {
		least = max(least, q.stepped(f))
	}
	return least, e.Sound()
}
