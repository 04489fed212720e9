package explain

import (
	"futtock/estimate/cutting/order"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// trade is an hour of a trade, and where its hours go.
func (m maker) trade(t rates.Labour) Line {
	out := words("Trade "+t.Trade, "", t.At)
	out.Under = []Line{{Label: "Hour", Value: t.Hour().String(), Unit: m.per(measure.Hour), How: joined("; ", m.hourWords(t), inForce(t.From)), At: m.hourAt(t)}}
	for _, h := range m.HoursByTrade() {
		if rates.Same(h.Trade, t.Trade) {
			out.Under = append(out.Under, Line{Label: "Hours priced", Value: h.Hours.StringFixed(2), Unit: string(measure.Hour), How: Added, Under: m.hoursOf(t.Trade)})
		}
	}
	var charged []Line
	for _, l := range m.Priced.Preliminaries {
		for _, c := range l.Costs {
			if c.RateAt == t.At {
				how := extended(c)
				if runs(l) {
					how += ", for each " + string(l.Unit)
				}
				charged = append(charged, m.money(joined("  ", l.Ref, l.Row.Description), c.Cost, how, origin.Cell{}))
			}
		}
	}
	out.Under = append(out.Under, heading("In the preliminaries, before overheads and profit", charged)...)
	return out
}

// hoursOf is the hours of a trade in the total, by row.
func (m maker) hoursOf(trade string) []Line {
	var out []Line
	for _, h := range m.Hours.Lines {
		if h.Carried.InTotal() && !h.Hours.IsZero() && rates.Same(h.Trade, trade) {
			out = append(out, Line{Label: h.Ref, Value: h.Hours.StringFixed(2), Unit: string(measure.Hour), How: rowWords(m.rows[h.Ref])})
		}
	}
	return out
}

// stockRow is a line of stock: what of it is bought or may be wanted, what one
// stick costs, and which rows bear it.
func (m maker) stockRow(k rates.Stock) Line {
	out := words("Stock "+k.Stock, k.Timber, k.At)
	for _, lines := range [][]order.Line{m.Plan.Order, m.Plan.Maybe} {
		for _, l := range lines {
			if l.Stock.At == k.At {
				out.Under = append(out.Under, m.stock(l), m.money("Borne by", l.Cost, Added, origin.Cell{}, m.bearers(l)...))
			}
		}
	}
	if len(out.Under) > 0 {
		return out
	}
	out.Under = []Line{words("Not bought", "no row gets any of it", origin.Cell{})}
	if each, _, err := k.StickPrice(); err == nil {
		out.Under = append(out.Under, m.stick(order.Line{Stock: k, Each: each}))
	}
	out.Under = append(out.Under, m.stockPrices(k)...)
	return out
}

// bearers is the shares of a line, by row.
func (m maker) bearers(l order.Line) []Line {
	var out []Line
	for _, s := range m.Plan.Shares {
		row := m.rows[s.Ref]
		if found, ok := m.stockLine(s, row.Work.Carried); ok && found.Stock.At == l.Stock.At && found.Carried == l.Carried {
			out = append(out, m.money(s.Ref, s.Cost, joined("; ", rowWords(row), m.across(s.Thickness, s.Width)+" as sawn"), origin.Cell{}))
		}
	}
	return out
}

// stockPrices is what the row of a stock line says of money, each with its cell.
func (m maker) stockPrices(k rates.Stock) []Line {
	price := Line{Label: "Price", Value: k.Price.String(), Unit: m.per(k.Unit), How: joined("; ", k.Supplier, inForce(k.From)), At: k.PriceAt}
	if k.ByOwner {
		price = words("Price", "supplied by the owner; sawing and delivery only", m.Job.Under(k.At, "Supplied by"))
	}
	out := []Line{price}
	if !k.Delivery.IsZero() {
		out = append(out, Line{Label: "Delivery", Value: k.Delivery.String(), Unit: m.per(k.Unit), At: m.Job.Under(k.At, "Delivery")})
	}
	if !k.Sawing.IsZero() {
		out = append(out, Line{Label: "Sawing", Value: k.Sawing.String(), Unit: m.per(sawingUnit(k)), At: m.Job.Under(k.At, "Sawing charge")})
	}
	return out
}
