package sheets

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/templates/grid"
)

// Columns of the prices used. Every block of the sheet has its price in the
// third and what it is for one of in the fourth; the last three are alike too.
const (
	priceName = iota + 1
	priceText
	priceOf
	priceUnit
	priceE
	priceF
	priceG
	priceH
	priceI
	priceJ
	priceEach
	priceFrom
	priceSource
	priceCell
)

// prices lays out every price in force that the job uses, each with the cell of
// the yard's workbook it came from. All prices of the model stand here, but for
// those that only one line has.
func (w *working) prices() {
	p := w.page(priceSheet, "Prices used", "Prices in force on the tender date, "+w.Job.TenderDate.Format("2 January 2006")+
		". A shaded figure may be changed here to see what the bill comes to; the yard's workbook is not changed by it.",
		26, 38, 11, 12, 11, 10, 10, 10, 10, 9, 12, 12, 31, 17)
	p.Freeze.Rows = p.next() - 1
	w.labourPrices(p)
	w.stockPrices(p)
	w.boughtPrices(p)
	w.normsUsed(p)
	w.additions(p)
	w.taxRates(p)
	w.timbers(p)
	for _, from := range w.blocks { // the heading of a table is printed with its first rows
		p.together(from, min(from+4, p.next()-1))
	}
	p.Print.Area = "$A$1:$N$" + itoa(p.next()-1)
}

// block heads a table of the prices used with what it holds.
func (w *working) block(p *page, text string, names ...string) {
	w.blocks = append(w.blocks, p.add(append([]grid.Cell{words(text, band)}, blanks(priceCell-1, band)...)...))
	p.add(heads(names...)...)
}

// source completes a row of prices: the day it is in force from, who supplies
// it and its cell.
func (w *working) source(row []grid.Cell, from time.Time, by string, at origin.Cell) []grid.Cell {
	for len(row) < priceCell {
		row = append(row, grid.Cell{})
	}
	if !from.IsZero() {
		row[priceFrom-1] = grid.Dated(from, grid.Style{Top: true, Format: dayFormat, Align: grid.Right})
	}
	row[priceSource-1], row[priceCell-1] = words(by, beside), w.place(at)
	return row
}

func cost(p money.Price) grid.Cell { return typed(p.Decimal(), priceFormat) }

func fraction(p money.Percent) grid.Cell { return typed(p.Fraction(), percentFormat(p)) }

func unitCell(u measure.Unit) grid.Cell { return words(string(u), centred(plain)) }

// labourPrices are the trades at work in the job, with the build of the hour
// from pay where it was given so:
//
//	pay x paid hours x (1 + on-costs) / worked hours + other costs
func (w *working) labourPrices(p *page) {
	used := cells{}
	for _, l := range w.Hours.Lines {
		used.set(l.Trade, "")
	}
	for _, l := range w.Priced.Preliminaries {
		used.set(l.Row.Trade, "")
		for _, c := range l.Costs {
			used.set(c.Name, "")
		}
	}
	for _, d := range w.Priced.Dayworks {
		used.set(d.Row.Of, "")
	}
	var rows []rates.Labour
	for _, l := range w.Book.Labour {
		if in, ok := w.Book.Trade(l.Trade, w.Job.TenderDate); ok && has(used, l.Trade) && in.At == l.At {
			rows = append(rows, l)
		}
	}
	if len(rows) == 0 {
		return
	}
	w.block(p, "Labour: an hour costs pay x paid hours x (1 + on-costs) / worked hours + other", "Trade", "", ">Pay "+w.sign, ">Paid hours", ">On-costs", ">Worked hours", ">Other "+w.sign, ">Rate given "+w.sign,
		"", "", ">All-in hour "+w.sign, ">From", "", "<Cell")
	for _, l := range rows {
		n := p.next()
		row := append([]grid.Cell{words(l.Trade, plain), words("built from pay", remark)}, make([]grid.Cell, priceEach-priceText)...)
		formula := "ROUND(" + at(priceH, n) + ",2)"
		if l.Rate.IsZero() {
			row[priceOf-1], row[priceUnit-1], row[priceE-1] = cost(l.Pay), typed(l.Paid, asFine(l.Paid, 2)), fraction(l.OnCosts)
			row[priceF-1], row[priceG-1] = typed(l.Worked, asFine(l.Worked, 2)), cost(l.Other)
			formula = "ROUND(" + at(priceOf, n) + "*" + at(priceUnit, n) + "*(1+" + at(priceE, n) + ")/" + at(priceF, n) + "+" + at(priceG, n) + ",2)"
		} else {
			row[priceText-1], row[priceH-1] = words("as given", remark), cost(l.Rate)
		}
		row[priceEach-1] = sumBy(formula, l.Hour(), plain)
		p.add(w.source(row, l.From, "", l.At)...)
		w.trades.set(l.Trade, p.cell(priceEach, n))
	}
	p.gap()
}

func has(c cells, key string) bool {
	_, ok := c[rates.Key(key)]
	return ok
}

// cubed is where the parts of the price of timber by the cube stand.
type cubed struct{ price, delivery, sawing, measure string }

// stockPrices are the stock lines bought, with the price of one stick:
//
//	(price + delivery) x measure + sawing x measure in the sawing unit
func (w *working) stockPrices(p *page) {
	var lines []rates.Stock
	seen := cells{}
	for _, l := range append(w.Plan.Order[:len(w.Plan.Order):len(w.Plan.Order)], w.Plan.Maybe...) {
		if !has(seen, l.Stock.Stock) {
			seen.set(l.Stock.Stock, "")
			lines = append(lines, l.Stock)
		}
	}
	if len(lines) == 0 {
		return
	}
	w.block(p, "Timber: a stick costs (price + delivery) x units in it + sawing x units sawn", "Stock", "Timber and form", ">Price "+w.sign, "=Unit", ">Units in a stick", ">Delivery a unit "+w.sign, ">Sawing a unit "+w.sign,
		"=Sawn by", ">Units sawn", ">Loss", ">One stick "+w.sign, ">From", "<Supplier", "<Cell")
	for _, s := range lines {
		n := p.next()
		bought, sawn, sawUnit := sizes(s)
		row := []grid.Cell{
			words(s.Stock, wrapped), words(s.Timber+", "+string(s.Form), wrapped), cost(s.Price), unitCell(s.Unit), figure(bought, asFine(bought, 6)),
			cost(s.Delivery), cost(s.Sawing), unitCell(sawUnit), figure(sawn, asFine(sawn, 6)), fraction(s.Loss),
		}
		if sawUnit == s.Unit {
			row[priceI-1] = live(at(priceE, n), sawn, row[priceI-1].Style.Format)
		}
		if inspected(s.Form) {
			row[priceJ-1] = grid.Cell{}
		}
		if s.ByOwner {
			row[priceOf-1] = words("owner's", grid.Style{Top: true, Align: grid.Right, Font: grid.Font{Italic: true, Colour: grey}})
		}
		paid := "(" + at(priceOf, n) + "+" + at(priceF, n) + ")"
		if s.ByOwner {
			paid = at(priceF, n)
		}
		if s.Form == rates.Cube {
			w.cubes[rates.Key(s.Stock)] = cubed{p.cell(priceOf, n), p.cell(priceF, n), p.cell(priceG, n), p.cell(priceI, n)}
			row = append(row, words("by the cube", aside))
		} else {
			each, _, err := s.StickPrice()
			if err != nil {
				panic("sheets: stock " + s.Stock + " was bought and has no price: " + err.Error())
			}
			row = append(row, sumBy("ROUND("+paid+"*"+at(priceE, n)+"+"+at(priceG, n)+"*"+at(priceI, n)+",2)", each, plain))
			w.sticks.set(s.Stock, p.cell(priceEach, n))
		}
		at := s.PriceAt
		if at.IsZero() {
			at = s.At
		}
		p.add(w.source(row, s.From, s.Supplier, at)...)
		w.losses.set(s.Stock, p.cell(priceJ, n))
	}
	p.gap()
}

// inspected reports a form that is chosen stick by stick, so that none is lost.
func inspected(f rates.Form) bool { return f == rates.Crook || f == rates.Knee || f == rates.Spar }

// sizes is how many units of its price a stick is, and how many of its sawing,
// as fine as a spreadsheet keeps them; of the cube, one unit and what that is in the
// sawing unit.
func sizes(s rates.Stock) (bought, sawn decimal.Decimal, sawUnit measure.Unit) {
	const fine = 14
	sawUnit = s.SawingUnit
	if sawUnit == "" || s.Sawing.IsZero() {
		sawUnit = s.Unit
	}
	if s.Form == rates.Cube {
		one := decimal.New(1, 0)
		return one, measure.Of(one, s.Unit).In(sawUnit, fine), sawUnit
	}
	in := func(u measure.Unit) decimal.Decimal {
		q, err := s.Measured(u)
		if err != nil {
			panic("sheets: stock " + s.Stock + " was bought and cannot be measured: " + err.Error())
		}
		return q.In(u, fine)
	}
	return in(s.Unit), in(sawUnit), sawUnit
}

// usedPrices are the keys of what is bought by build-ups, fastening rules and
// preliminaries.
type usedPrices struct {
	materials, plant, work cells
	each                   cells // plant by the unit
}

func (w *working) usedPrices() usedPrices {
	u := usedPrices{cells{}, cells{}, cells{}, cells{}}
	for _, i := range w.Priced.Items {
		for _, c := range i.Costs {
			switch w.sourceOf(c) {
			case fromFastening:
				u.materials.set(c.Name, "")
			case fromBuildUp:
				switch c.Asked[0].BuildUp.Part {
				case rates.MaterialPart:
					u.materials.set(c.Name, "")
				case rates.PlantPart:
					u.plant.set(c.Name, "")
					u.each.set(c.Name, "")
				case rates.WorkPart:
					u.work.set(c.Name, "")
				}
			}
		}
	}
	for _, l := range w.Priced.Preliminaries {
		u.plant.set(l.Row.Plant, "")
	}
	return u
}

// from is what a cost line takes its quantity and rate from.
type from int

const (
	fromHours from = iota
	fromTimber
	fromBuildUp
	fromFastening
	fromRow // a sum that the row of the schedule gives itself
)

// sourceOf tells where a cost line of an item comes from.
func (w *working) sourceOf(c price.Cost) from {
	r := w.rowOf(c.Ref)
	switch {
	case len(c.Asked) > 0:
		return fromBuildUp
	case r.Item != nil && c.RateAt == r.Item.CostAt && c.Name == r.Item.Description:
		return fromRow
	case c.Kind == rates.OfLabour:
		return fromHours
	case c.Kind == rates.OfTimber:
		return fromTimber
	}
	return fromFastening
}
