package money

import "github.com/shopspring/decimal"

// Share splits c in the proportion of the weights by running totals,
//
//	share i = round(c (w1+...+wi) / w, 2) - round(c (w1+...+wi-1) / w, 2)
//
// so that the shares add up to c exactly and each is a formula of its own
// cells. Weights are taken as they stand and in the order given; a weight
// below nil, a credit, takes a share of the other sign. When the weights add up
// to nil there is nothing to share by: it returns false.
func Share(c Amount, weights []decimal.Decimal) ([]Amount, bool) {
	var total decimal.Decimal
	for _, w := range weights {
		total = total.Add(w)
	}
	if total.IsZero() {
		return nil, false
	}
	shares := make([]Amount, len(weights))
	var run decimal.Decimal
	var before Amount
	for i, w := range weights {
		run = run.Add(w)
		upTo := Amount{c.d.Mul(run).DivRound(total, 2)}
		shares[i] = upTo.Sub(before)
		before = upTo
	}
	return shares, true
}
