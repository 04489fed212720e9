package labour

import (
	"math"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// Learning is what n pieces made one after another take on the average, in
// times of the first, to 0.0001:
//
//	(1^b + 2^b + ... + n^b) / n,  b = log2(slope)
//
// by the unit-time curve (T. P. Wright, 1936, as read of the single unit):
// each time the number doubles, the last piece takes the slope times what it
// took before. Ten pieces at 80 % take 6.315 times the first, so 0.6315 each.
// Where n is not whole the last piece counts in part. A nil slope, or one piece
// or less, is 1.
func Learning(slope money.Percent, n decimal.Decimal) decimal.Decimal {
	if slope.Decimal().Sign() <= 0 || n.LessThanOrEqual(one) {
		return one
	}
	b := math.Log2(slope.Fraction().InexactFloat64())
	pieces := n.InexactFloat64()
	return decimal.NewFromFloat(together(b, pieces) / pieces).Round(4)
}

// together is 1^b + 2^b + ... + n^b. Beyond a thousand terms the rest is taken
// by the Euler-Maclaurin formula, whose error there is far below the last
// place printed, so that no number of pieces is too many.
func together(b, n float64) float64 {
	const exact = 1000
	whole := math.Floor(n)
	sum := 0.0
	for i := 1.0; i <= math.Min(whole, exact); i++ {
		sum += math.Pow(i, b)
	}
	if whole > exact {
		sum += between(b, exact, whole)
	}
	return sum + float64((n-whole)*math.Pow(whole+1, b))
}

// between is (m+1)^b + ... + n^b for large m.
func between(b, m, n float64) float64 {
	area := math.Log(n / m)
	if b != -1 {
		area = (math.Pow(n, b+1) - math.Pow(m, b+1)) / (b + 1)
	}
	ends := (math.Pow(n, b) - math.Pow(m, b)) / 2
	slopes := b * (math.Pow(n, b-1) - math.Pow(m, b-1)) / 12
	return area + ends + slopes
}
