package cutting

import (
	"cmp"
	"slices"

	"futtock/estimate/cutting/board"
	"futtock/estimate/cutting/solve"
)

// Sticks that are taken apart together, the steps one turn of it may cost, and the
// cells of its tables.
const (
	apart      = 10
	apartSteps = 1_000_000
	apartWork  = 40_000
)

// anotherLot is what a stick beyond those paid for is counted as, in hundredths of its price: the lost one of its
// lot is paid with it.
const anotherLot = 200

// again is a sawing of which some sticks at a time, mostly those that hold least for
// their price, are taken apart and their pieces got for less, with tables of those
// pieces alone.
func (q *question) again(from sawing, effort solve.Effort) sawing {
	best := split(from)
	asked := q.eased.first
	if len(best.sticks) == 0 || len(asked) == 0 {
		return from
	}
	worth := asked[len(asked)-1]
	mix := uint32(1)
	draw := func(n int) int {
		mix = mix*1664525 + 1013904223
		return int(uint64(mix>>8) * uint64(n) >> 24)
	}
	for left := int64(effort); left > 0; {
		order := q.emptiest(best, worth)
		out := make([]bool, len(order))
		for n := 0; n < min(apart, len(order)); {
			if i := order[min(draw(len(order)), draw(len(order)))]; !out[i] {
				out[i] = true
				n++
			}
		}
		next, steps := q.apart(best, out, solve.Effort(min(left, apartSteps)))
		left -= steps + apartWork
		if q.less(next, best) {
			best = split(next)
		}
	}
	return best
}

// split is a sawing with its sticks one by one.
func split(s sawing) sawing {
	var sticks []stick
	for _, st := range s.sticks {
		for range st.times {
			sticks = append(sticks, stick{st.line, 1, st.places, st.layout})
		}
	}
	s.sticks = sticks
	return s
}

// emptiest is the places of sticks, those first that hold least worth for their price.
func (q *question) emptiest(s sawing, by figures) []int {
	var order []int
	lost := make([]float64, len(s.sticks))
	for i, st := range s.sticks {
		var held int64
		for _, at := range st.places {
			held += by.worth[at.Piece]
		}
		order = append(order, i)
		lost[i] = float64(q.in.Kinds[st.line].Cost) * (1 - float64(held)/float64(max(1, by.most[st.line])))
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(lost[b], lost[a]) })
	return order
}

// apart is a sawing with the sticks named taken apart and their pieces sawn anew, and
// the steps it took.
func (q *question) apart(from sawing, out []bool, effort solve.Effort) (sawing, int64) {
	next := from
	next.sticks = nil
	wanted := make([]int, len(q.in.Demand))
	used, kept := make([]int, len(q.lines)), make([]int, len(q.lines))
	var freed []stick
	for i, st := range from.sticks {
		used[st.line]++
		if !out[i] {
			next.sticks = append(next.sticks, st)
			kept[st.line]++
			continue
		}
		freed = append(freed, st)
		for _, at := range st.places {
			wanted[at.Piece]++
		}
	}
	s := q.part(wanted)
	rest := make([]int, len(q.lines))
	for i, l := range q.bench.in.Lines {
		kind := solve.Kind{Cost: q.each(i), Most: -1}
		if l.Limit >= 0 {
			kind.Most = l.Limit - kept[i]
		}
		if q.lossy(i) {
			// What is left of the lots that are paid for, and beyond it another lot.
			paid := q.holds(i, buys(q.lines[i].stock, used[i])-used[i]) - kept[i]
			if rest[i] = -1; kind.Most >= 0 {
				rest[i] = kind.Most - paid
			}
			kind.Most = paid
		}
		s.in.Kinds = append(s.in.Kinds, kind)
	}
	s.begin(freed)
	answer := beyond{saw: s.saw}.solve(s.in, rest, anotherLot, effort)
	if answer.Short != nil {
		return from, answer.Steps
	}
	for _, u := range answer.Use {
		next.sticks = append(next.sticks, s.stick(u))
	}
	return next, answer.Steps
}

// part is a shop of some pieces of a question alone, by all its lines.
type part struct {
	saw   *board.Saw
	in    solve.Instance
	piece []int // of the question, by piece
	at    []int // by piece of the question
}

func (q *question) part(wanted []int) *part {
	s := &part{at: make([]int, len(wanted))}
	shop := board.Shop{Kerf: q.saw.shop.Kerf, Work: apartWork, Light: true}
	for k, n := range wanted {
		if n > 0 {
			s.at[k] = len(s.piece)
			s.piece = append(s.piece, k)
			s.in.Demand = append(s.in.Demand, n)
			p := q.saw.shop.Pieces[k]
			p.Wanted = n
			shop.Pieces = append(shop.Pieces, p)
		}
	}
	for _, st := range q.saw.shop.Sticks[:len(q.lines)] {
		gives := st.Gives
		st.Gives = nil
		for _, k := range s.piece {
			st.Gives = append(st.Gives, gives[k])
		}
		shop.Sticks = append(shop.Sticks, st)
	}
	s.saw = q.saw.board.Part(shop)
	return s
}

// begin puts what the sticks taken apart were, and every piece alone.
func (s *part) begin(freed []stick) {
	for _, st := range freed {
		places := slices.Clone(st.places)
		for i := range places {
			places[i].Piece = s.at[places[i].Piece]
		}
		s.in.Start = append(s.in.Start, s.saw.Given(st.line, places))
	}
	for line := range s.in.Kinds {
		for p := range s.piece {
			if c, ok := s.saw.Alone(line, p); ok {
				s.in.Start = append(s.in.Start, c)
			}
		}
	}
}

// stick is sticks of the answer, in the pieces of the question.
func (s *part) stick(u solve.Used) stick {
	places := slices.Clone(s.saw.Places(s.saw.Sawn(u.Tag, u.Gives)))
	for i := range places {
		places[i].Piece = s.piece[places[i].Piece]
	}
	return stick{line: u.Kind, times: u.Times, places: places}
}
