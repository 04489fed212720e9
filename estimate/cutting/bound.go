package cutting

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/rates"
	"futtock/rates/money"
)

// proof is what the pieces of one timber, those had by number apart, cannot cost
// less than.
type proof struct {
	timber string
	least  decimal.Decimal // pounds
	proven bool
}

// cubeSlack is what rounding Needed and Cost of a line by the cube may take off its
// price: the volume less than a millionth of the unit, the cost less than half a penny.
var cubeSlack = decimal.New(6, -3)

// proof is the bound of a bench in money: the purchase comes to whole pennies, so
// the bound is rounded up to the penny.
func (b *bench) proof(s sawing) proof {
	least := decimal.New(s.least, -2-hundredths).Sub(cubeSlack.Mul(decimal.New(int64(len(b.cubes)), 0)))
	return proof{b.kinds[0].sources[0].stock.Timber, decimal.Max(decimal.Decimal{}, least).RoundUp(2), s.proven}
}

// bounds puts the bound of every timber of the order beside its cost, and
// returns that of the whole.
func (p *purchase) bounds(species []order.Species) order.Bound {
	var all order.Bound
	for i := range species {
		s := &species[i]
		s.Bound = bound(s.Cost, p.least(s.Timber))
		all.Cost, all.Least = all.Cost.Add(s.Bound.Cost), all.Least.Add(s.Bound.Least)
	}
	return bound(all.Cost, all.Least)
}

// least is what the purchase of a timber cannot cost less than: its proof, and the
// sticks that rows bound to them have by number.
func (p *purchase) least(timber string) money.Amount {
	var sum money.Amount
	for _, f := range p.proofs {
		if rates.Same(f.timber, timber) && f.proven {
			sum = sum.Add(money.Round(f.least))
		}
	}
	for at, s := range p.yard.sources {
		if rates.Same(s.stock.Timber, timber) && whole(s.stock.Form) {
			n := p.lots[at].fixed
			if s.stock.Form != rates.Log { // whose lost sticks are shared with those sawn up
				n = buys(s.stock, n)
			}
			sum = sum.Add(s.each.Times(decimal.New(int64(n), 0)))
		}
	}
	return sum
}

func bound(cost, least money.Amount) order.Bound {
	out := order.Bound{Cost: cost, Least: least}
	if cost.Sign() > 0 {
		gap := cost.Sub(least).Decimal().Shift(2).DivRound(cost.Decimal(), 8)
		out.Gap = money.NewPercent(gap.RoundUp(2))
	}
	return out
}
