package price

import (
	"slices"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/programme"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// Unpriced is the bill that others are to price: the lines of the work worded,
// measured and carried as Price has them, and the preliminaries, sums and
// dayworks as they were asked, without a cost, a rate or an addition. The takeoff
// of such a bill goes in.
//
// A preliminary is one line, since what it costs once and what by the week is
// for others to say; its quantity is the Weeks given, in the step it is charged in,
// nil where there are none. The yard's own time, supervision and percentages stay out.
func Unpriced(j *job.Job, b *rates.Book, t takeoff.Takeoff) (Priced, problem.List) {
	p := begin(j, b, t, cutting.Plan{}, labour.Hours{}, programme.Programme{})
	out := Priced{Items: p.lines(p.line)}
	for _, r := range j.Preliminaries {
		var s span
		s.step(r.Weeks, r.Charged)
		out.Preliminaries = append(out.Preliminaries, Preliminary{Row: r, Ref: r.Ref, Quantity: s.quantity, Unit: s.unit, VAT: p.code(r.VAT)})
	}
	slices.SortStableFunc(out.Preliminaries, func(a, b Preliminary) int { return job.CompareRefs(a.Ref, b.Ref) })
	for _, r := range j.Sums {
		out.Sums = append(out.Sums, Sum{Row: r, Amount: r.Amount.Amount(), VAT: p.code(r.VAT)})
	}
	slices.SortStableFunc(out.Sums, func(a, b Sum) int { return job.CompareRefs(a.Row.Ref, b.Row.Ref) })
	for _, r := range j.Dayworks {
		d := Daywork{Row: r, Trade: !daywork(r.Of), VAT: p.code("")}
		if !d.Trade {
			d.Cost = money.Round(r.Quantity)
		}
		out.Dayworks = append(out.Dayworks, d)
	}
	return out, p.problems
}
