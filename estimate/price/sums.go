package price

import (
	"cmp"
	"fmt"
	"slices"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// sums is the provisional and prime cost sums and quotations, by Ref:
//
//	total = amount + round(amount x Profit %, 2) + attendance
func (p *pricing) sums() []Sum {
	var out []Sum
	for _, r := range p.job.Sums {
		if r.Amount.Sign() < 0 || r.Attendance.Sign() < 0 {
			p.problem(problem.SumNegative, r.At, fmt.Sprintf("%q is %s with attendance %s; neither may be less than nil", r.Ref, r.Amount, r.Attendance), "")
			continue
		}
		s := Sum{Row: r, Amount: r.Amount.Amount(), Attendance: r.Attendance.Amount(), VAT: cmp.Or(r.VAT, p.job.VATCode)}
		s.Profit = s.Amount.Percent(r.Profit)
		s.Total = money.Sum(s.Amount, s.Profit, s.Attendance)
		out = append(out, s)
	}
	slices.SortStableFunc(out, func(a, b Sum) int { return job.CompareRefs(a.Row.Ref, b.Row.Ref) })
	return out
}

// dayworks is the allowances for work paid by time and cost, in the order of
// the workbook: hours of a trade at its rate, or a sum of materials, plant or
// subcontract, with the addition the row states. The general overheads and
// profit do not go on them.
func (p *pricing) dayworks() []Daywork {
	var out []Daywork
	for _, r := range p.job.Dayworks {
		d := Daywork{Row: r}
		switch {
		case daywork(r.Of):
			d.Cost = money.Round(r.Quantity)
		case slices.ContainsFunc(p.book.Labour, func(l rates.Labour) bool { return rates.Same(l.Trade, r.Of) }):
			trade, ok := p.trade(r.Of, r.At)
			if !ok {
				continue
			}
			d.Trade, d.Rate, d.RateAt = true, trade.Hour(), trade.At
			d.Cost = d.Rate.Times(r.Quantity)
		default:
			p.problems.Add(problem.Problem{Code: problem.DayworkUnknown, At: r.At, Near: problem.Nearest(r.Of, p.dayworkNames()),
				Text: fmt.Sprintf("%q is no trade, and none of materials, plant, subcontract", r.Of)})
			continue
		}
		d.Addition = d.Cost.Percent(r.Addition)
		d.Total = d.Cost.Add(d.Addition)
		out = append(out, d)
	}
	return out
}

// daywork reports a kind of cost that daywork is allowed for in money.
func daywork(name string) bool {
	return slices.ContainsFunc(dayworkKinds(), func(k rates.Kind) bool { return rates.Same(string(k), name) })
}

func dayworkKinds() []rates.Kind {
	return []rates.Kind{rates.OfMaterials, rates.OfPlant, rates.OfSubcontract}
}

func (p *pricing) dayworkNames() []string {
	var names []string
	for _, k := range dayworkKinds() {
		names = append(names, string(k))
	}
	for _, l := range p.book.Labour {
		names = append(names, l.Trade)
	}
	return names
}

// sheet is a whole sheet of the job's workbook.
func (p *pricing) sheet(name string) origin.Cell { return origin.Cell{Book: p.job.Book, Sheet: name} }
