package quotes

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// rank gives every offer its place before and after levelling, the lowest
// first, how far it stands from the lowest and from the yardstick, and its marks,
//
//	marks = lowest levelled / levelled x 100, to two places
//
// the usual way of marking a price. An offer that levels to nil or less bears
// no marks and is not the lowest that the others are marked by.
func (l *levelling) rank() {
	offers := l.c.Offers
	before := make([]Money, len(offers))
	after := make([]Money, len(offers))
	lowest := Money{}
	for i, o := range offers {
		before[i], after[i] = Money{o.Net, true}, Money{o.Levelled, true}
		if o.Levelled.Sign() > 0 && (!lowest.Known || o.Levelled.Cmp(lowest.Amount) < 0) {
			lowest = after[i]
		}
	}
	was, is := ranks(before), ranks(after)
	for i := range offers {
		o := &offers[i]
		o.RankBefore, o.RankAfter = was[i], is[i]
		o.Behind = o.Levelled.Sub(after[slices.Index(is, 1)].Amount)
		if y := l.c.Yardstick; y.Known {
			o.Over = o.Levelled.Sub(y.Amount)
			if y.Amount.Sign() > 0 {
				o.OverPart = ratio(o.Over, y.Amount)
			}
		}
		if o.Levelled.Sign() > 0 {
			o.Marks = lowest.Amount.Decimal().Mul(hundred).DivRound(o.Levelled.Decimal(), 2)
		}
	}
}

var hundred = decimal.New(100, 0)

// ranks is the place of each sum, from 1; equal sums share a place and the next
// is as many further on. A sum that is not known has none.
func ranks(sums []Money) []int {
	order := ascending(sums)
	places := make([]int, len(sums))
	for k, i := range order {
		places[i] = k + 1
		if k > 0 && sums[i].Amount.Equal(sums[order[k-1]].Amount) {
			places[i] = places[order[k-1]]
		}
	}
	return places
}

// ascending is the known sums by their index, the lowest first; equal ones as they stand.
func ascending(sums []Money) []int {
	var order []int
	for i, s := range sums {
		if s.Known {
			order = append(order, i)
		}
	}
	slices.SortStableFunc(order, func(a, b int) int { return sums[a].Amount.Cmp(sums[b].Amount) })
	return order
}

// median is the middle of sorted sums: of an even number the mean of the two in
// the middle, rounded to the penny.
func median(sums []money.Amount) money.Amount {
	n := len(sums)
	if n%2 == 1 {
		return sums[n/2]
	}
	return sums[n/2-1].Add(sums[n/2]).Per(decimal.New(2, 0))
}

// medianWithout is the middle of sorted sums but for one of them.
func medianWithout(sums []money.Amount, one money.Amount) money.Amount {
	k, ok := slices.BinarySearchFunc(sums, one, money.Amount.Cmp)
	if !ok {
		panic("quotes: " + one.String() + " is not among the sums it is left out of")
	}
	at := func(n int) money.Amount {
		if n >= k {
			n++
		}
		return sums[n]
	}
	n := len(sums) - 1
	if n%2 == 1 {
		return at(n / 2)
	}
	return at(n/2 - 1).Add(at(n / 2)).Per(decimal.New(2, 0))
}

// ratio is a/b in hundredths, to a tenth; b is not nil.
func ratio(a, b money.Amount) money.Percent {
	return money.NewPercent(a.Decimal().Mul(hundred).DivRound(b.Decimal(), 1))
}

// abs is the sum without its sign.
func abs(a money.Amount) money.Amount {
	if a.Sign() < 0 {
		return a.Neg()
	}
	return a
}
