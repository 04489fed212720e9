package explain

import (
	"fmt"

	"futtock/estimate"
	"futtock/estimate/cutting/order"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
)

// Seconds is the timber plan of a job beside its second-best plans: by timber, what the
// order costs and what it cannot cost less than, then what it would cost from one form of
// stock alone, and with one line struck out, each with what it costs more.
func Seconds(r estimate.Result, seconds []order.Instead) []Line {
	m := begin(r)
	var out []Line
	for _, s := range r.Plan.Species {
		head := Line{Label: s.Timber, How: fmt.Sprintf("The order as it is planned, and what it would come to otherwise. Rows bound to a stock line keep it; "+
			"%s of what is bought is in the ship.", s.Yield)}
		head.Under = append(head.Under, m.planned("As planned", s.Bound))
		for _, i := range seconds {
			if rates.Same(i.Timber, s.Timber) {
				head.Under = append(head.Under, m.second(i, s))
			}
		}
		if len(head.Under) > 1 {
			out = append(out, head)
		}
	}
	return out
}

// planned is a plan's cost with its bound.
func (m maker) planned(label string, b order.Bound) Line {
	how := "nothing is proven of it"
	switch {
	case b.Least.Equal(b.Cost):
		how = "proven: no purchase costs less"
	case b.Least.Sign() > 0:
		how = fmt.Sprintf("no purchase costs less than %s, a gap of %s", b.Least.Grouped(), b.Gap)
	}
	return Line{Label: label, Value: b.Cost.String(), Unit: m.Job.Currency, How: how}
}

// second is a second-best plan.
func (m maker) second(i order.Instead, s order.Species) Line {
	label := "From " + plural(i.Without.Form) + " alone"
	at := origin.Cell{}
	if i.Without.Stock != "" {
		label = "Without " + i.Without.Stock
		if row, ok := m.Book.StockRow(i.Without.Stock, m.Job.TenderDate); ok {
			at = row.PriceAt
		}
	}
	if i.Short > 0 {
		return Line{Label: label, Value: "not to be had", How: counted(i.Short, "piece") + " of it nothing else gives", At: at}
	}
	l := m.planned(label, i.Bound)
	l.At = at
	switch more := i.Bound.Cost.Sub(s.Cost); {
	case more.Sign() > 0 && s.Cost.Sign() > 0:
		l.How = fmt.Sprintf("%s more, %s; %s", more.Grouped(), money.NewPercent(more.Decimal().Shift(2).DivRound(s.Cost.Decimal(), 1)), l.How)
	case more.Sign() < 0:
		l.How = fmt.Sprintf("%s less than the plan found: it may be had for that; %s", more.Neg().Grouped(), l.How)
	default:
		l.How = "as much; " + l.How
	}
	return l
}

// plural is the sticks of a form.
func plural(f rates.Form) string {
	switch f {
	case rates.Flitch:
		return "flitches"
	case rates.Cube:
		return "timber by the cube"
	}
	return string(f) + "s"
}
