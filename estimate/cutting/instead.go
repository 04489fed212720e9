package cutting

import (
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
)

// Seconds is the second-best plans of every timber of the order, by timber: with each form
// alone that the timber is offered in, where there are several, and with each line struck out
// that the plan buys from. Each is planned like the order itself, with the same effort; a
// timber for which rows are bound to all there is has none.
func Seconds(j *job.Job, b *rates.Book, t takeoff.Takeoff, plan Plan) []order.Instead {
	var out []order.Instead
	for _, s := range plan.Species {
		for _, w := range withouts(j, b, plan, s.Timber) {
			out = append(out, order.Instead{Timber: s.Timber, Without: w})
		}
	}
	each(len(out), func(i int) {
		o := &out[i]
		of := takeoff.Takeoff{Rows: t.Rows}
		for _, p := range t.Pieces {
			if rates.Same(p.Timber, o.Timber) && p.Carried.InTotal() {
				of.Pieces = append(of.Pieces, p)
			}
		}
		y := newYard(j, b, of)
		y.struck = o.Without.Strikes
		plan, _ := y.planned(of, searched(y.job))
		for _, s := range plan.Species {
			if rates.Same(s.Timber, o.Timber) {
				o.Bound = s.Bound
			}
		}
		for _, s := range plan.Short {
			o.Short += s.Count
		}
	})
	return out
}

// withouts is what may be struck out for a timber, as far as rows not bound to a line
// can have any of it.
func withouts(j *job.Job, b *rates.Book, plan Plan, timber string) []order.Without {
	free := func(s rates.Stock) bool {
		return rates.Same(s.Timber, timber) && !s.ByOwner && (!whole(s.Form) || s.Form == rates.Crook || s.Form == rates.Log)
	}
	var forms []rates.Form
	for _, s := range b.StockInForce(j.TenderDate) {
		if free(s) && !slices.Contains(forms, s.Form) {
			forms = append(forms, s.Form)
		}
	}
	var out []order.Without
	if len(forms) > 1 {
		for _, f := range rates.Forms() {
			if slices.Contains(forms, f) && f != rates.Crook { // crooks alone give no straight piece
				out = append(out, order.Without{Form: f})
			}
		}
	}
	for _, l := range plan.Order {
		bound := func(g order.Got) bool { return plan.Pieces[g.Piece].Stock != "" }
		if free(l.Stock) && !allOf(l.Got, bound) {
			out = append(out, order.Without{Stock: l.Stock.Stock})
		}
	}
	return out
}

func allOf(got []order.Got, is func(order.Got) bool) bool {
	return !slices.ContainsFunc(got, func(g order.Got) bool { return !is(g) })
}
