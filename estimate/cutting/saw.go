package cutting

import (
	"cmp"

	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/board"
	"futtock/estimate/cutting/crook"
	"futtock/estimate/cutting/fit"
	"futtock/estimate/cutting/log"
	"futtock/estimate/cutting/solve"
	"futtock/rates"
	"futtock/rates/measure"
)

// bench is the sawing of all pieces of one timber that are not had by number
// alone: what is wanted, and what it may come from.
type bench struct {
	yard    *yard
	of      *purchase
	timber  string
	kinds   []*kind
	lines   []*source // ripped and cross-cut
	crooks  []*source // sawn through and through in their sweep
	logs    []*source
	cubes   []*source
	spare   [saws][]int // of each crook and log, what rows bound to it by number leave; below nil is no limit
	in      fit.Input   // of lines and cubes
	bounded bool        // over every choice of lengths, and not here
}

// sawing is how the pieces of a bench are got.
type sawing struct {
	sticks  []stick
	crooked []crooked
	logged  []logged
	cubed   [][]int // by cube, then kind
	short   []int   // by kind
	held    []bool  // by kind: some stick or cube is big enough
	least   int64   // hundredths of a penny; what all that was got cannot cost less than
	proven  bool    // least is a bound
}

// stick is a number of sticks sawn alike.
type stick struct {
	line, times int
	places      []board.Place // of kinds
	layout      *board.Layout // nil where first-fit made it
}

// crooked is a number of crooks sawn alike.
type crooked struct {
	crook, times int
	layers       []crook.Layer // of kinds
}

// logged is a number of logs sawn alike.
type logged struct {
	log, times int
	places     []log.Place // of kinds
}

// bench lays out what there is for the kinds of one timber.
func (p *purchase) bench(timber string, kinds []*kind) *bench {
	y := p.yard
	b := &bench{yard: y, of: p, timber: timber, kinds: kinds, in: fit.Input{Kerf: int64(y.kerf(timber))}}
	for _, s := range y.sources {
		switch {
		case !slices.ContainsFunc(kinds, func(k *kind) bool { return slices.Contains(k.sources, s) }):
		case s.stock.Form == rates.Cube:
			b.cubes = append(b.cubes, s)
			b.in.Cubes = append(b.in.Cubes, fit.Cube{PerNet: s.perNet(), Limit: s.netLeft()})
		case sawn(s.stock.Form):
			b.lines = append(b.lines, s)
			b.in.Lines = append(b.in.Lines, fitLine(s))
		default:
			spare := s.uses()
			if spare >= 0 {
				spare -= p.lots[s.at].sticks
			}
			if s.stock.Form == rates.Log {
				b.logs = append(b.logs, s)
				b.spare[byLog] = append(b.spare[byLog], spare)
				continue
			}
			b.crooks = append(b.crooks, s)
			b.spare[byCrook] = append(b.spare[byCrook], spare)
		}
	}
	for _, k := range kinds {
		b.in.Kinds = append(b.in.Kinds, fitKind(k, y, b.lines, b.cubes))
	}
	return b
}

// beside is how many of a kind lie side by side in the sweep of a crook: as many as one
// piece moulded so much more lies in it. That is on the safe side: like curves one above the
// other lie within the band of the lowest and the farthest.
func (b *bench) beside(c, k int) int {
	p := b.kinds[k].piece
	if !slices.Contains(b.kinds[k].sources, b.crooks[c]) {
		return 0
	}
	n := 0
	for n < b.kinds[k].count && p.From(b.crooks[c].stock) {
		p.Width += measure.Length(b.in.Kinds[k].Pitch)
		if n++; p.Curve == nil {
			break
		}
	}
	return n
}

// looks is how many steps one look of first-fit into a stick is counted as.
const looks = 2000

// saw gets the pieces of a bench at the least cost found: the cheapest of what
// first-fit lays out, of what is solved for, and of that worked over by first-fit, which
// knows what rounding up for Loss costs; fewest pieces short before cost. Its bound is of
// whole purchases; what that leaves open is worked over once more.
func (b *bench) saw(effort solve.Effort) sawing {
	b.in.Looks = int(effort / looks)
	first := b.first()
	q := b.question(b.asked(), effort)
	q.begin(first)
	effort = b.grown(effort)
	second := q.solved(effort)
	best := b.better(first, b.better(second, q.over(second)))
	best.held, best.least = second.held, second.least
	switch best = best.judged(); {
	case !best.proven || b.bounded:
	case len(b.lines)+len(b.crooks)+len(b.logs) == 0 && len(b.cubes) == 1: // there is no choice
		best.least = b.hundredths(best)
	default:
		best = q.stepped(best, effort/10)
	}
	if !best.proven || best.least < b.hundredths(best) {
		best = q.again(best, effort/30)
	}
	return best.judged()
}

// judged is a sawing with its proof put right. The bound is of all that some stick
// holds. It stands where all of that is got.
func (s sawing) judged() sawing {
	s.proven = true
	for k, n := range s.short {
		s.proven = s.proven && (n == 0 || !s.held[k])
	}
	if !s.proven {
		s.least = 0
	}
	return s
}

// hundredths is what a sawing costs in hundredths of a penny.
func (b *bench) hundredths(s sawing) int64 { return b.cost(s).Shift(2 + hundredths).IntPart() }

// usualKinds is the kinds of piece of one timber that an effort is meant for. More
// of them ask for more questions and dearer ones, up to so many times the effort.
const (
	usualKinds = 90
	mostTimes  = 20
)

// grown is the effort for the number of kinds there are.
func (b *bench) grown(effort solve.Effort) solve.Effort {
	n := int64(len(b.kinds))
	return effort * solve.Effort(max(usualKinds*usualKinds, min(mostTimes*usualKinds*usualKinds, n*n))) / (usualKinds * usualKinds)
}

// better is the better of two sawings, the first if they are equal.
func (b *bench) better(x, y sawing) sawing {
	if b.less(y, x) {
		return y
	}
	return x
}

func (b *bench) less(x, y sawing) bool {
	return cmp.Or(cmp.Compare(total(x.short), total(y.short)), b.cost(x).Cmp(b.cost(y))) < 0
}

func total(n []int) int {
	sum := 0
	for _, v := range n {
		sum += v
	}
	return sum
}

// first is the layout of first-fit.
func (b *bench) first() sawing {
	out := fit.Sticks(b.in)
	s := b.blank()
	s.short, s.cubed = out.Short, out.Cubed
	spare := slices.Clone(b.spare[byCrook])
	for _, st := range out.Sticks {
		s.sticks = append(s.sticks, b.filled(st))
	}
	for k, n := range s.short {
		for c, left := range spare {
			if got := n; got > 0 && b.beside(c, k) > 0 {
				if left >= 0 {
					got = min(n, left)
					spare[c] -= got
				}
				if got > 0 {
					s.crooked = append(s.crooked, crooked{c, got, []crook.Layer{{Piece: k, Beside: 1}}})
				}
				n -= got
			}
		}
		s.short[k] = n
	}
	return s
}

// over is a sawing worked over by first-fit. Sticks of one layer may be filled and broken up,
// others only broken up.
func (b *bench) over(from sawing) sawing {
	var made []fit.Made
	var sticks []stick
	for _, st := range from.sticks {
		m := fit.Made{Line: st.line, Closed: true}
		if l := st.layout; l != nil && l.Given == nil && len(l.Layers) == 1 && !l.Boxed {
			m.Sap, m.Closed = l.Sap, false
			for _, strip := range l.Layers[0] {
				var lots []fit.Lot
				for _, r := range strip {
					lots = append(lots, fit.Lot{Kind: r.Piece, Deep: r.Deep, Turned: r.Turned})
				}
				m.Strips = append(m.Strips, lots)
			}
		} else {
			var lots []fit.Lot
			for _, at := range st.places {
				lots = append(lots, fit.Lot{Kind: at.Piece, Deep: 1, Turned: at.Turned})
			}
			m.Strips = [][]fit.Lot{lots}
		}
		for range st.times {
			made = append(made, m)
			sticks = append(sticks, stick{st.line, 1, st.places, st.layout})
		}
	}
	in := b.in
	in.Looks /= 4
	lay := fit.Better(in, made, from.cubed, from.short)
	out := sawing{crooked: from.crooked, logged: from.logged, cubed: lay.Cubed, short: lay.Short}
	for _, st := range lay.Sticks {
		if st.Made >= 0 {
			out.sticks = append(out.sticks, sticks[st.Made])
			continue
		}
		out.sticks = append(out.sticks, b.filled(st))
	}
	return out
}

// filled is a stick that first-fit filled.
func (b *bench) filled(st fit.Stick) stick {
	out := stick{line: st.Line, times: 1}
	for _, at := range st.Places {
		out.places = append(out.places, b.place(st.Line, at))
	}
	return out
}

func (b *bench) blank() sawing {
	s := sawing{short: make([]int, len(b.kinds)), held: make([]bool, len(b.kinds))}
	for range b.cubes {
		s.cubed = append(s.cubed, make([]int, len(b.kinds)))
	}
	return s
}

// place is a place of first-fit: on the lower face, but with a boxed heart in the middle.
func (b *bench) place(line int, at fit.Place) board.Place {
	out := board.Place{Piece: at.Kind, Along: at.Along, Across: at.Across, Turned: at.Turned}
	if k := b.in.Kinds[at.Kind]; k.Boxed {
		through := k.Thickness
		if at.Turned {
			through = k.Width
		}
		out.Through = (b.in.Lines[line].Thickness - through) / 2
	}
	return out
}

// cost is what a sawing costs: whole sticks with the lost ones, the cube by its units.
func (b *bench) cost(s sawing) decimal.Decimal {
	used := make([]int, len(b.lines))
	for _, st := range s.sticks {
		used[st.line] += st.times
	}
	var sum decimal.Decimal
	for i, n := range used {
		sum = sum.Add(b.lines[i].each.Decimal().Mul(decimal.New(int64(buys(b.lines[i].stock, n)), 0)))
	}
	for _, c := range s.crooked {
		sum = sum.Add(b.crooks[c.crook].each.Decimal().Mul(decimal.New(int64(c.times), 0)))
	}
	logs := make([]int, len(b.logs))
	for _, l := range s.logged {
		logs[l.log] += l.times
	}
	for i, n := range logs {
		sum = sum.Add(b.logs[i].each.Decimal().Mul(decimal.New(int64(buys(b.logs[i].stock, n)), 0)))
	}
	for c, n := range s.cubed {
		var net decimal.Decimal
		for k, n := range n {
			net = net.Add(b.kinds[k].piece.Net.Base.Mul(decimal.New(int64(n), 0)).DivRound(count(b.kinds[k].piece), 20))
		}
		sum = sum.Add(cubeCost(b.cubes[c].stock, cubeBuy(b.cubes[c].stock, cubeNeeded(b.cubes[c].stock, net))).Decimal())
	}
	return sum
}
