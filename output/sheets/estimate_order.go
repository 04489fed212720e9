package sheets

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the timber order.
const (
	ordName = iota + 1
	ordText
	ordForm
	ordSize
	ordBuy
	ordUnit
	ordVolume
	ordEach
	ordCost
	ordLead
)

const (
	nobody = "No supplier named"
	owners = "Owner's timber: nothing to order, sawing and delivery only"
)

// supplied is one line of the order with its place in the plan.
type supplied struct {
	order.Line
	place int
}

// supplier is the heading a line of stock stands under.
func supplier(s rates.Stock) string {
	if s.ByOwner {
		return owners
	}
	return cmp.Or(s.Supplier, nobody)
}

// bySupplier is the order by supplier, then by timber; what no supplier is
// named for, then the owner's timber, stand last.
func (w *working) bySupplier() []supplied {
	var out []supplied
	for i, l := range w.Plan.Order {
		out = append(out, supplied{l, i})
	}
	last := func(s rates.Stock) int { return slices.Index([]string{nobody, owners}, supplier(s)) }
	slices.SortStableFunc(out, func(a, b supplied) int {
		x, y := a.Stock, b.Stock
		return cmp.Or(last(x)-last(y), cmp.Compare(rates.Key(supplier(x)), rates.Key(supplier(y))), cmp.Compare(rates.Key(x.Timber), rates.Key(y.Timber)))
	})
	return out
}

// timberOrder lays out the timber of the work in the total, with a sub-total for
// every supplier.
func (w *working) timberOrder() {
	lines := w.bySupplier()
	if len(lines) == 0 {
		return
	}
	p := w.page(orderSheet, "Timber to order", "For the work in the total. Numbers and costs follow Timber bought; the volume bought is as priced.",
		25, 15, 8, 38, 9, 5, 11, 12, 13, 8)
	head := p.add(heads("Stock", "Timber", "Form", "Size", ">Buy", "=Unit", ">Bought m3", ">Each "+w.sign, ">Cost "+w.sign, ">Lead, weeks")...)
	p.repeat(head, head)
	var volumes, costs []string
	var volume decimal.Decimal
	var cost money.Amount
	for i := 0; i < len(lines); {
		from, key := p.next()+1, rates.Key(supplier(lines[i].Stock))
		p.add(append([]grid.Cell{words(supplier(lines[i].Stock), band)}, blanks(ordLead-1, band)...)...)
		var ofVolume decimal.Decimal
		var ofCost money.Amount
		for ; i < len(lines) && rates.Key(supplier(lines[i].Stock)) == key; i++ {
			p.add(w.orderLine(lines[i])...)
			ofVolume, ofCost = ofVolume.Add(lines[i].Bought), ofCost.Add(lines[i].Cost)
		}
		n := p.next()
		row := blanks(ordLead, strong)
		row[0] = words("Sub-total", strong)
		row[ordVolume-1] = total(sumOf(ordVolume, from, n-1), ofVolume)
		row[ordCost-1] = sumBy(sumOf(ordCost, from, n-1), ofCost, strong)
		p.add(row...)
		p.gap()
		volumes, costs = append(volumes, at(ordVolume, n)), append(costs, at(ordCost, n))
		volume, cost = volume.Add(ofVolume), cost.Add(ofCost)
	}
	row := blanks(ordLead, grand)
	row[0] = words("Timber of the order", grand)
	row[ordVolume-1] = total(addUp(volumes...), volume)
	row[ordVolume-1].Style.Border, row[ordVolume-1].Style.Font = grand.Border, grand.Font
	row[ordCost-1] = sumBy(addUp(costs...), cost, grand)
	p.add(row...)
	p.Print.Area = "$A$1:$J$" + itoa(p.next()-1)
}

// total is a sum of volumes.
func total(formula string, d decimal.Decimal) grid.Cell {
	s := strong
	s.Format = "0.000"
	return grid.Reckoned(formula, d, s)
}

func (w *working) orderLine(l supplied) []grid.Cell {
	s, to := l.Stock, w.ordered[l.place]
	name := words(s.Stock, jump)
	name.Link = to.buy
	row := []grid.Cell{name, words(s.Timber, wrapped), words(string(s.Form), plain), words(w.stickSize(s), wrapped),
		live(to.buy, l.Buy, asFine(l.Buy, l.BuyUnit().Places())), unitCell(l.BuyUnit()), chosen(l.Bought, "0.000"), {}, sumBy(to.cost, l.Cost, plain)}
	if s.Form != rates.Cube {
		row[ordEach-1] = sumBy(to.each, l.Each, plain)
	}
	if s.LeadGiven {
		row = append(row, figure(s.LeadWeeks, asFine(s.LeadWeeks, 1)))
	}
	return row
}

// size and length are as the job writes them.
func (w *working) size(l measure.Length) string   { return l.Format(w.units.size) }
func (w *working) length(l measure.Length) string { return l.Format(w.units.length) }

// stickSize is the size of a stick as the job writes sizes; nothing for timber by the cube.
func (w *working) stickSize(s rates.Stock) string {
	text := ""
	switch {
	case s.MidGirth > 0:
		text = "mid girth " + w.size(s.MidGirth)
	case s.TopDiameter > 0:
		text = "top diameter " + w.size(s.TopDiameter)
	case s.Thickness > 0 && s.Width > 0:
		text = w.size(s.Thickness) + " x " + w.size(s.Width)
	case s.Thickness > 0:
		text = w.size(s.Thickness) + " thick"
	}
	switch {
	case s.Length > 0 && text != "":
		text += " x " + w.length(s.Length)
	case s.Length > 0:
		text = w.length(s.Length) + " long"
	}
	if s.Round() && s.Measure != "" {
		text += ", by " + string(s.Measure) + " measure"
	}
	return text
}
