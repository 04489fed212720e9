package estimate

import "futtock/rates/money"

// Effect is what other prices do to a job.
type Effect struct {
	CostBefore, CostAfter   money.Amount // see Cost
	NetBefore, NetAfter     money.Amount // net of VAT
	TotalBefore, TotalAfter money.Amount
}

// EffectOf sets a job priced with new prices against the same job before.
func EffectOf(before, after Result) Effect {
	return Effect{
		CostBefore: before.Cost(), CostAfter: after.Cost(),
		NetBefore: before.Bill.Net, NetAfter: after.Bill.Net,
		TotalBefore: before.Bill.Total, TotalAfter: after.Bill.Total,
	}
}

// Cost is what measured work in the total and the preliminaries cost the yard,
// before overheads and profit. Sums, dayworks, contingency and price rises are
// no part of it.
func (r Result) Cost() money.Amount {
	var all money.Amount
	for _, i := range r.Priced.Items {
		if !i.Carried.InTotal() {
			continue
		}
		all = all.Add(i.Bare)
		for _, k := range i.Kinds {
			all = all.Add(k.Cost)
		}
	}
	for _, p := range r.Priced.Preliminaries {
		all = all.Add(p.Cost.Times(p.Quantity))
	}
	return all
}
