package cutting

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// sixth is the places of a volume in m3.
const sixth = 6

// count is the number of pieces as a decimal.
func count(p takeoff.Piece) decimal.Decimal { return decimal.New(int64(p.Count), 0) }

// needed is what a purchase needs of a source: sticks, or by the cube the net
// volume over Yield in the stock's unit, to 0.000001.
func (p *purchase) needed(at int) decimal.Decimal {
	s, l := p.yard.sources[at].stock, p.lots[at]
	if s.Form != rates.Cube {
		return decimal.New(int64(l.sticks), 0)
	}
	var net decimal.Decimal
	for i, n := range l.got {
		if n > 0 {
			piece := p.yard.pieces[i]
			net = net.Add(piece.Net.Base.Mul(decimal.New(int64(n), 0)).DivRound(count(piece), 20))
		}
	}
	return cubeNeeded(s, net)
}

// cubeNeeded is the volume needed by the cube for a net volume in m3, in the
// stock's unit, to 0.000001.
func cubeNeeded(s rates.Stock, net decimal.Decimal) decimal.Decimal {
	return net.DivRound(s.Yield.Fraction().Mul(s.Unit.Size()), sixth)
}

// cubeBuy is needed raised for Loss, up to the places of the unit.
func cubeBuy(s rates.Stock, needed decimal.Decimal) decimal.Decimal {
	return needed.Shift(2).DivRound(hundred.Sub(s.Loss.Decimal()), sixth).RoundUp(s.Unit.Places())
}

// cubeCost is what so much costs by the cube. It is taken over one divisor, so
// that a sawing unit which goes into the price's without end is not rounded
// before the penny: 138 bf sawn at 2.05 a cubic foot are 23.575.
func cubeCost(s rates.Stock, buy decimal.Decimal) money.Amount {
	each := s.Delivery.Decimal()
	if !s.ByOwner {
		each = each.Add(s.Price.Decimal())
	}
	over := sawingUnit(s).Size()
	sum := each.Mul(over).Add(s.Sawing.Decimal().Mul(s.Unit.Size())).Mul(buy)
	return money.Round(sum.DivRound(over, 2))
}

// buy is what is bought so that the needed is left after Loss: whole sticks, or
// the cube up to the places of its unit.
func (p *purchase) buy(at int) decimal.Decimal {
	if !p.takes(at) {
		return decimal.Decimal{}
	}
	s := p.yard.sources[at].stock
	if s.Form != rates.Cube {
		return decimal.New(int64(buys(s, p.lots[at].sticks)), 0)
	}
	return cubeBuy(s, p.needed(at))
}

// takes reports a source that gives the purchase anything.
func (p *purchase) takes(at int) bool {
	return slices.ContainsFunc(p.lots[at].got, func(n int) bool { return n > 0 })
}

// buys is buy in whole numbers, upward.
func (p *purchase) buys(at int) int { return int(p.buy(at).Ceil().IntPart()) }

// lines is the purchase as the order shows it, by timber and stock line.
func (p *purchase) lines() []order.Line {
	got := p.got()
	var out []order.Line
	for at, s := range p.yard.sources {
		if len(got[at]) == 0 {
			continue
		}
		l := order.Line{Stock: s.stock, Carried: p.carried, Needed: p.needed(at), Buy: p.buy(at),
			Patterns: p.lots[at].patterns, Got: got[at]}
		if sawn(s.stock.Form) {
			l.Patterns = p.withOffcuts(s, l.Patterns)
			l.InHand = inHand(l.Patterns)
		}
		for _, g := range l.Got {
			l.Sawn, l.Net = l.Sawn.Add(g.Sawn), l.Net.Add(g.Net)
		}
		if s.stock.Form == rates.Cube {
			l.Cost = cubeCost(s.stock, l.Buy)
			if !s.stock.ByOwner {
				l.Material = l.Cost
			}
		} else {
			l.Each, l.Cost, l.Material = s.each, s.each.Times(l.Buy), s.material.Times(l.Buy)
		}
		l.Bought = bought(l)
		l.Sections = p.sections(l)
		out = append(out, l)
	}
	return out
}

// bought is the true volume of what is bought, in m3 to 0.000001.
func bought(l order.Line) decimal.Decimal {
	if l.Stock.Form == rates.Cube {
		return measure.Of(l.Buy, l.Stock.Unit).Base.Round(sixth)
	}
	v, err := l.Stock.TrueVolume()
	if err != nil { // bought by number, its size not stated
		return l.Sawn
	}
	return v.Base.Mul(l.Buy).Round(sixth)
}

// got is what every source gives of every piece. Volumes of a piece had from
// several sources are parted by running totals, so that they add up to the piece's.
func (p *purchase) got() [][]order.Got {
	out := make([][]order.Got, len(p.lots))
	given := make([]int, len(p.yard.pieces))
	for at, l := range p.lots {
		for i, n := range l.got {
			if n == 0 {
				continue
			}
			piece := p.yard.pieces[i]
			part := func(whole decimal.Decimal) decimal.Decimal {
				upTo := func(n int) decimal.Decimal {
					return whole.Mul(decimal.New(int64(n), 0)).DivRound(count(piece), sixth)
				}
				return upTo(given[i] + n).Sub(upTo(given[i]))
			}
			out[at] = append(out[at], order.Got{Ref: piece.Ref, Piece: i, Count: n, Sawn: part(piece.Sawn), Net: part(piece.Net.Base)})
			given[i] += n
		}
		slices.SortStableFunc(out[at], func(a, b order.Got) int { return job.CompareRefs(a.Ref, b.Ref) })
	}
	return out
}

// sections shares the cost of a line among the sections cut from it, by sawn volume.
func (p *purchase) sections(l order.Line) []order.Section {
	var out []order.Section
	for _, g := range l.Got {
		s := sectionOf(p.yard.pieces[g.Piece])
		at := slices.IndexFunc(out, func(o order.Section) bool {
			return o.Thickness == s.Thickness && o.Width == s.Width && o.Bound == s.Bound
		})
		if at < 0 {
			at = len(out)
			out = append(out, s)
		}
		out[at].Sawn = out[at].Sawn.Add(g.Sawn)
	}
	slices.SortFunc(out, func(a, b order.Section) int {
		return cmp.Or(cmp.Compare(a.Thickness, b.Thickness), cmp.Compare(a.Width, b.Width), boundLast(a.Bound, b.Bound))
	})
	weights := make([]decimal.Decimal, len(out))
	for i, s := range out {
		weights[i] = s.Sawn
	}
	for i, c := range share(l.Cost, weights) {
		out[i].Cost = c
	}
	return out
}

func sectionOf(p takeoff.Piece) order.Section {
	return order.Section{Thickness: p.Thickness, Width: p.Width, Bound: p.Stock != ""}
}

func boundLast(a, b bool) int {
	switch {
	case a == b:
		return 0
	case a:
		return 1
	}
	return -1
}

// share is money.Share, but by equal parts where the volumes are all below a
// millionth of a cubic metre.
func share(c money.Amount, weights []decimal.Decimal) []money.Amount {
	if out, ok := money.Share(c, weights); ok {
		return out
	}
	equal := make([]decimal.Decimal, len(weights))
	for i := range equal {
		equal[i] = decimal.New(1, 0)
	}
	out, _ := money.Share(c, equal)
	return out
}
