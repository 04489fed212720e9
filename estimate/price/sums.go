package price

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// sums is the provisional and prime cost sums and quotations, by Ref:
//
//	total = amount + round(amount x Profit %, 2) + attendance
func (p *pricing) sums() []Sum {
	var out []Sum
	for _, r := range p.job.Sums {
		s := Sum{Row: r, Amount: r.Amount.Amount(), Attendance: r.Attendance.Amount(), VAT: p.code(r.VAT)}
		s.Profit = s.Amount.Percent(r.Profit)
		s.Total = money.Sum(s.Amount, s.Profit, s.Attendance)
		p.remarkSum(s)
		out = append(out, s)
	}
	slices.SortStableFunc(out, func(a, b Sum) int { return job.CompareRefs(a.Row.Ref, b.Row.Ref) })
	return out
}

// dayworks is the allowances for work paid by time and cost, in the order of
// the workbook: hours of a trade, charged at its all-in hour with the row's
// addition in it,
//
//	hours x round(hour x (1 + Addition %), 2)
//
// or a sum of materials, plant or subcontract and the row's addition on it. The
// general overheads and profit do not go on them. An hour is billed at one
// figure, so that the client's copy does not show what it costs the yard.
func (p *pricing) dayworks() []Daywork {
	var out []Daywork
	for _, r := range p.job.Dayworks {
		d := Daywork{Row: r, VAT: p.code("")}
		if daywork(r.Of) {
			d.Cost = money.Round(r.Quantity)
			d.Addition = d.Cost.Percent(r.Addition)
			d.Total = d.Cost.Add(d.Addition)
		} else {
			trade, ok := p.trade(r.Of, r.At)
			if !ok {
				continue
			}
			d.Trade, d.Rate, d.RateAt = true, trade.Hour(), trade.At
			d.Charge = d.Rate.Times(r.Addition.Fraction().Add(decimal.New(1, 0)))
			d.Total = d.Charge.Times(r.Quantity)
		}
		out = append(out, d)
	}
	return out
}

// daywork reports a kind of cost that daywork is allowed for in money.
func daywork(name string) bool {
	kinds := []rates.Kind{rates.OfMaterials, rates.OfPlant, rates.OfSubcontract}
	return slices.ContainsFunc(kinds, func(k rates.Kind) bool { return rates.Same(string(k), name) })
}

// sheet is a whole sheet of the job's workbook.
func (p *pricing) sheet(name string) origin.Cell { return origin.Cell{Book: p.job.Book, Sheet: name} }
