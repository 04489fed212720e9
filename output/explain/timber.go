package explain

import (
	"fmt"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// timber is what rows bear of the sticks bought: the line's cost goes to the
// sections cut from it, a section's to its rows, by sawn volume.
func (m maker) timber(rows []takeoff.Row, several bool) []Line {
	var out []Line
	parted := false
	for _, r := range rows {
		for _, s := range m.Plan.Shares {
			if s.Ref != r.Work.Ref {
				continue
			}
			l, ok := m.stockLine(s, r.Work.Carried)
			if !ok {
				continue
			}
			at := sectionOf(l, s)
			share := m.money(of(s.Ref, s.Stock, several), s.Cost, "all that its section bears", origin.Cell{},
				m.money("Section "+m.across(s.Thickness, s.Width), at.Cost, "all of this stock is sawn to it", origin.Cell{}))
			if !s.Sawn.Equal(s.Of) {
				parted = true
				share.How = fmt.Sprintf("%s x %s / %s m3: its part of what is sawn to this section", at.Cost.Grouped(), number(s.Sawn), number(s.Of))
			}
			if !at.Sawn.Equal(l.Sawn) {
				parted = true
				share.Under[0].How = fmt.Sprintf("%s x %s / %s m3: its part of what is sawn from this stock", l.Cost.Grouped(), number(at.Sawn), number(l.Sawn))
			}
			if s.Owner {
				share.How = "owner's timber, sawing and delivery only: " + share.How
			}
			out = append(out, share)
		}
	}
	if parted {
		out = append(out, words("", "Shares go to the penny by running totals, so that none is lost: one may differ by a penny from its own product.", origin.Cell{}))
	}
	return out
}

// stockLine is the line of the order, or of what may be wanted, that a share is of.
func (m maker) stockLine(s order.Share, c job.Carried) (order.Line, bool) {
	lines := m.Plan.Order
	if !c.InTotal() {
		lines = m.Plan.Maybe
	}
	for _, l := range lines {
		if rates.Same(l.Stock.Stock, s.Stock) && (c.InTotal() || l.Carried == c) {
			return l, true
		}
	}
	return order.Line{}, false
}

// sectionOf is the section of a line that a share is of.
func sectionOf(l order.Line, s order.Share) order.Section {
	for _, at := range l.Sections {
		if at.Thickness == s.Thickness && at.Width == s.Width && at.Bound == s.Bound {
			return at
		}
	}
	panic(fmt.Sprintf("explain: row %s bears a section of %d x %d nm that %s does not have", s.Ref, s.Thickness, s.Width, l.Stock.Stock))
}

// bought is the stock lines that rows bear a part of, each once.
func (m maker) bought(rows []takeoff.Row) []Line {
	var out []Line
	seen := map[origin.Cell]bool{}
	for _, r := range rows {
		for _, s := range m.Plan.Shares {
			if s.Ref != r.Work.Ref {
				continue
			}
			l, ok := m.stockLine(s, r.Work.Carried)
			if !ok || seen[l.Stock.At] {
				continue
			}
			seen[l.Stock.At] = true
			out = append(out, m.stock(l))
		}
	}
	return out
}

// stock is one line of stock bought: how many, and what one costs.
func (m maker) stock(l order.Line) Line {
	k := l.Stock
	unit := l.BuyUnit()
	needed := Line{Label: "Needed", Value: l.Needed.String(), Unit: string(unit), How: "sticks, as the pieces are laid out on them"}
	if k.Form == rates.Cube {
		needed.How, needed.At = fmt.Sprintf("%s m3 in the ship / yield %s", number(l.Net), k.Yield), m.Job.Under(k.At, "Yield %")
	}
	buy := Line{Label: "Bought", Value: l.Buy.String(), Unit: string(unit), How: "as needed; no loss"}
	switch {
	case k.Loss.IsZero() && k.Form == rates.Cube:
		buy.How = fmt.Sprintf("as needed, up to %d places", unit.Places())
	case !l.Buy.Equal(l.Needed) && k.Form == rates.Cube:
		buy.How = fmt.Sprintf("%s / (1 - %s loss), up to %d places", number(l.Needed), k.Loss, unit.Places())
	case !l.Buy.Equal(l.Needed):
		buy.How = fmt.Sprintf("%s / (1 - %s loss), up to whole sticks", number(l.Needed), k.Loss)
	}
	if !k.Loss.IsZero() && !l.Buy.Equal(l.Needed) {
		buy.At = m.Job.Under(k.At, "Loss %")
	}
	out := m.money(k.Stock, l.Cost, "", k.At, buy, needed)
	if k.Form == rates.Cube {
		volume := measure.Of(l.Buy, k.Unit)
		out.How = m.eachWords(k, number(l.Buy)+" "+string(k.Unit), number(volume.In(sawingUnit(k), 6))+" "+string(sawingUnit(k)))
	} else {
		out.How = fmt.Sprintf("%s x %s", number(l.Buy), l.Each.Grouped())
		out.Under = append(out.Under, m.stick(l))
	}
	if l.Carried != job.Measured {
		out.How += "; not ordered, may be wanted for what is carried as " + string(l.Carried)
	}
	out.Under = append(out.Under, m.stockPrices(k)...)
	return out
}

// stick is what one stick costs, and its measure.
func (m maker) stick(l order.Line) Line {
	k := l.Stock
	text := func(u measure.Unit) string {
		q, err := k.Measured(u)
		if err != nil {
			return "1 " + string(u)
		}
		return number(q.In(u, 6)) + " " + string(u)
	}
	return m.money("One stick", l.Each, m.eachWords(k, text(k.Unit), text(sawingUnit(k))), origin.Cell{},
		words("Size", m.stickSize(k), k.At))
}

// sawingUnit is the unit a sawing charge is for; blank is the price's unit.
func sawingUnit(k rates.Stock) measure.Unit {
	if k.SawingUnit == "" {
		return k.Unit
	}
	return k.SawingUnit
}

// eachWords is how a stick, or timber by the cube, is priced: (price + delivery)
// x measure + sawing x measure.
func (m maker) eachWords(k rates.Stock, bought, sawn string) string {
	price := priceText(k.Price)
	switch {
	case k.ByOwner:
		price = priceText(k.Delivery) + " delivery"
	case !k.Delivery.IsZero():
		price = "(" + price + " + " + priceText(k.Delivery) + " delivery)"
	}
	how := price + " x " + bought
	if !k.Sawing.IsZero() {
		how += " + " + priceText(k.Sawing) + " sawing x " + sawn
	}
	return how
}

// stickSize is the size of a stick as the stock line has it.
func (m maker) stickSize(k rates.Stock) string {
	text := string(k.Form)
	switch {
	case k.MidGirth > 0:
		text += ", mid girth " + m.size(k.MidGirth)
	case k.TopDiameter > 0:
		text += ", top diameter " + m.size(k.TopDiameter)
	case k.Thickness > 0 && k.Width > 0:
		text += ", " + m.across(k.Thickness, k.Width)
	}
	if k.Length > 0 {
		text += " x " + m.length(k.Length)
	}
	if k.Round() && k.Measure != "" {
		text += ", by " + string(k.Measure) + " measure"
	}
	return text
}
