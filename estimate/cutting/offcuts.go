package cutting

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// room is a part of a stick: from and to, along it, across it and through it.
type room struct{ from, to [3]measure.Length }

const (
	along = iota
	across
	through
)

// offcuts is what is left of a sawn stick in useful sizes once its pieces are sawn,
// in the order the cuts part it: beyond the last layer, beyond the last strip of a
// layer, beyond the last length of a strip.
func (s *source) offcuts(cuts []order.Cut, kerf measure.Length, sapwood bool) []order.Offcut {
	wide, edge := s.size.clear, (s.size.width-s.size.clear)/2
	if sapwood {
		wide, edge = s.size.width, 0
	}
	var taken []room
	for _, c := range cuts {
		taken = append(taken, room{[3]measure.Length{c.Along, c.Across, c.Through},
			[3]measure.Length{c.Along + c.Length, c.Across + c.Width, c.Through + c.Thickness}})
	}
	whole := room{[3]measure.Length{0, edge, 0}, [3]measure.Length{s.size.length, edge + wide, s.size.thickness}}
	var out []order.Offcut
	for _, r := range whole.rest(taken, kerf) {
		o := order.Offcut{Along: r.from[along], Across: r.from[across], Through: r.from[through],
			Length: r.to[along] - r.from[along], Width: r.to[across] - r.from[across], Thickness: r.to[through] - r.from[through]}
		if o.Length < order.LeastLength || max(o.Width, o.Thickness) < order.LeastWidth || min(o.Width, o.Thickness) < order.LeastThickness {
			continue
		}
		if v, err := s.stock.TrueVolume(); err == nil {
			o.Worth = money.Round(s.each.Decimal().Mul(o.Length.Volume(o.Width, o.Thickness).Base).DivRound(v.Base, 2))
		}
		out = append(out, o)
	}
	return out
}

// rest is what the cuts that part a room leave beyond what is taken of it.
func (r room) rest(taken []room, kerf measure.Length) []room {
	var out []room
	for _, axis := range []int{through, across, along} {
		end := slices.MaxFunc(taken, func(a, b room) int { return cmp.Compare(a.to[axis], b.to[axis]) }).to[axis]
		if left := r; end+kerf < r.to[axis] {
			left.from[axis] = end + kerf
			out = append(out, left)
			r.to[axis] = end
		}
		groups := parted(taken, axis, kerf)
		if len(groups) == 1 {
			continue
		}
		for _, g := range groups {
			part := r
			part.from[axis] = slices.MinFunc(g, func(a, b room) int { return cmp.Compare(a.from[axis], b.from[axis]) }).from[axis]
			part.to[axis] = slices.MaxFunc(g, func(a, b room) int { return cmp.Compare(a.to[axis], b.to[axis]) }).to[axis]
			out = append(out, part.rest(g, kerf)...)
		}
		break
	}
	return out
}

// parted is what is taken in groups that cuts square to an axis part.
func parted(taken []room, axis int, kerf measure.Length) [][]room {
	taken = slices.Clone(taken)
	slices.SortStableFunc(taken, func(a, b room) int { return cmp.Compare(a.from[axis], b.from[axis]) })
	var groups [][]room
	var end measure.Length
	for i, t := range taken {
		if i == 0 || t.from[axis] >= end+kerf {
			groups = append(groups, nil)
		}
		groups[len(groups)-1] = append(groups[len(groups)-1], t)
		end = max(end, t.to[axis])
	}
	return groups
}

// withOffcuts is the patterns of a sawn line with what each leaves.
func (p *purchase) withOffcuts(s *source, patterns []order.Pattern) []order.Pattern {
	kerf := p.yard.kerf(s.stock.Timber)
	for i := range patterns {
		cuts := patterns[i].Cuts
		sapwood := !slices.ContainsFunc(cuts, func(c order.Cut) bool { return !p.yard.pieces[c.Piece].Sapwood })
		patterns[i].Offcuts = s.offcuts(cuts, kerf, sapwood)
	}
	return patterns
}

// inHand is the worth of all off-cuts of a line, at the price of its sticks by volume.
func inHand(patterns []order.Pattern) money.Amount {
	var sum money.Amount
	for _, p := range patterns {
		for _, o := range p.Offcuts {
			sum = sum.Add(o.Worth.Times(decimal.New(int64(p.Times), 0)))
		}
	}
	return sum
}
