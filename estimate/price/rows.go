package price

import (
	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// ByRow shares a sum of the item, such as its amount, over its rows: in the
// proportion of their costs with additions, by running totals in the order of
// the rows, so that no penny is lost. Where the rows cost nothing the first has
// it all.
func (i Item) ByRow(a money.Amount) []money.Amount {
	weights := make([]decimal.Decimal, len(i.Rows))
	for n, w := range i.Rows {
		for _, c := range i.Costs {
			if c.Ref == w.Ref {
				weights[n] = weights[n].Add(c.Cost.Decimal().Mul(i.addition(c)))
			}
		}
	}
	shares, ok := money.Share(a, weights)
	if !ok {
		shares = make([]money.Amount, len(i.Rows))
		shares[0] = a
	}
	return shares
}

// addition is how many times dearer a cost is with its overheads and profit.
func (i Item) addition(c Cost) decimal.Decimal {
	if !c.Bare {
		for _, k := range i.Kinds {
			if k.Kind == c.Kind {
				return one.Add(k.OverheadsPercent.Fraction()).Mul(one.Add(k.ProfitPercent.Fraction()))
			}
		}
	}
	return one
}
