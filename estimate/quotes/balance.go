package quotes

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// Limits of what balance tells of.
const (
	mostSwings   = 20  // of two offers
	mostMore     = 300 // % more of a quantity: beyond it nobody would look for the order to turn on it
	leastOfGapIn = 100 // a line is told of from one hundredth of the gap on
)

// balance tries what more of a quantity would do to the order. Of each two
// offers next to one another after levelling, the one in front is set beside the
// other line by line, where both price measured work by a rate:
//
//	extra = round(More % x quantity x (rate - rate of the other), 2)
//	turns = gap between the two / (quantity x (rate - rate of the other))
//
// the second being by how much more of that line alone the one in front becomes
// the dearer, told where it is not above 300 %. Lines with an extra of at least a
// hundredth of the gap are told of, the greatest first, 20 at the most of two offers.
//
// What is told is a reason to ask, and no verdict. 23 CFR 635.102 calls a bid
// mathematically unbalanced whose lines do not each carry their cost and share of
// overheads and profit, and materially unbalanced where it is so and there is
// also reasonable doubt that it will come to the lowest cost; the first without
// the second is no ground for anything (635.114). The quantity is to be looked at
// first. No published threshold is known.
func (l *levelling) balance() {
	sums := make([]Money, len(l.c.Offers))
	for i, o := range l.c.Offers {
		sums[i] = Money{o.Levelled, true}
	}
	order := ascending(sums)
	for k := 1; k < len(order); k++ {
		l.c.Swings = append(l.c.Swings, l.swings(order[k-1], order[k])...)
	}
}

// swings is the lines that would bring an offer up to the one behind it.
func (l *levelling) swings(offer, other int) []Swing {
	gap := l.c.Offers[other].Levelled.Sub(l.c.Offers[offer].Levelled)
	least := gap.Per(decimal.New(leastOfGapIn, 0))
	more, worthwhile := l.terms.More.Fraction(), l.worthwhile(gap, least)
	var out []Swing
	for n := range l.c.Rows {
		r := &l.c.Rows[n]
		a, b := &r.Cells[offer], &r.Cells[other]
		if r.Line.Part != Work || !r.Line.InTotal() || !a.rated() || !b.rated() || a.Rate.Amount.Cmp(b.Rate.Amount) <= 0 {
			continue
		}
		dearer := r.Line.Quantity.Mul(a.Rate.Amount.Sub(b.Rate.Amount).Decimal())
		if dearer.Cmp(worthwhile) <= 0 {
			continue
		}
		s := Swing{Offer: offer, Other: other, Line: n, Extra: money.Round(dearer.Mul(more))}
		s.turn(gap, dearer)
		if s.Extra.Sign() > 0 && s.Extra.Cmp(least) >= 0 || s.Turns.Known {
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b Swing) int { return cmp.Or(b.Extra.Cmp(a.Extra), cmp.Compare(a.Line, b.Line)) })
	return out[:min(len(out), mostSwings)]
}

// worthwhile is what a line must be the dearer by, at the very least, to be told
// of: most lines are not, and are passed over by this alone.
func (l *levelling) worthwhile(gap, least money.Amount) decimal.Decimal {
	floor := gap.Decimal().DivRound(decimal.New(mostMore+1, -2), 8).RoundFloor(2)
	if more := l.terms.More.Fraction(); more.Sign() > 0 {
		floor = decimal.Min(floor, least.Sub(money.Pennies(1)).Decimal().DivRound(more, 8).RoundFloor(2))
	}
	return decimal.Max(decimal.Decimal{}, floor)
}

// turn finds by how much more of the line the gap is made good, if by no more
// than is told of. Between offers of one sum anything more turns the order.
func (s *Swing) turn(gap money.Amount, dearer decimal.Decimal) {
	points := gap.Decimal().Mul(hundred)
	if points.GreaterThan(dearer.Mul(decimal.New(mostMore, 0))) {
		return
	}
	s.Turns = Money{gap, true}
	s.At = money.NewPercent(points.DivRound(dearer, 8).RoundCeil(1))
}
