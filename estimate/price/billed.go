package price

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// billed is the quantity and unit of a bill line: as the first row that gives
// them says, else as measured. A measured quantity is rounded to the places of
// its unit, never to nil; a typed one stands as it was typed.
//
// With a Bill unit every row is measured in it and the rows add up. Without,
// members are billed by nr, items in their own unit, and both together as one
// item.
func (p *pricing) billed(rows []takeoff.Row) (decimal.Decimal, measure.Unit) {
	q, unit := p.measured(rows, billUnit(rows))
	for _, r := range rows {
		if !r.Work.BillQty.IsZero() {
			return r.Work.BillQty, unit
		}
	}
	if q.Sign() <= 0 { // a size was wanting, and is a problem told of
		return one, unit
	}
	return q, unit
}

// billUnit is the first Bill unit given, else the one the rows have in common,
// else blank.
func billUnit(rows []takeoff.Row) measure.Unit {
	for _, r := range rows {
		if r.Work.BillUnit != "" {
			return r.Work.BillUnit
		}
	}
	unit := ownUnit(rows[0])
	members, items := 0, 0
	for _, r := range rows {
		if r.Member != nil {
			members++
		} else {
			items++
		}
		if ownUnit(r) != unit {
			unit = ""
		}
	}
	if members > 0 && items > 0 {
		return measure.One
	}
	return unit
}

func ownUnit(r takeoff.Row) measure.Unit {
	if r.Item != nil {
		return r.Item.Unit
	}
	return measure.Nr
}

// measured adds the rows up in a unit.
func (p *pricing) measured(rows []takeoff.Row, unit measure.Unit) (decimal.Decimal, measure.Unit) {
	if unit == "" {
		if !given(rows) {
			p.problem(problem.UnitsMixed, cmp.Or(rows[0].Work.BillItemAt, rows[0].Work.At),
				fmt.Sprintf("the rows of bill item %q are in several units; a Bill unit is wanted", rows[0].Work.Line()), "item")
		}
		return one, measure.One
	}
	if dim := unit.Dimension(); dim == measure.Item || dim == measure.Sum {
		return itemsOf(rows, unit), unit
	}
	var total measure.Quantity
	typed := true
	for _, r := range rows {
		q, ok := inDimension(r, unit.Dimension())
		if !ok {
			if !given(rows) {
				wanted := "a unit it has"
				if _, solid := r.Amount(rates.ByVolume); solid && r.Member != nil && unit.Dimension() == measure.Mass {
					wanted = "the Density of its timber"
				}
				p.problem(problem.UnitUnlike, cmp.Or(r.Work.BillUnitAt, rows[0].Work.BillUnitAt, r.Work.At),
					fmt.Sprintf("%q cannot be measured in %q; %s is wanted, or a Bill quantity", r.Work.Ref, string(unit), wanted), "")
			}
			return one, unit
		}
		typed = typed && r.Item != nil && r.Item.Unit == unit
		total = total.Add(q)
	}
	if typed {
		return total.In(unit, exact), unit
	}
	if unit == measure.Pair && !given(rows) && !total.Base.Mod(unit.Size()).IsZero() {
		p.problem(problem.UnitUnlike, cmp.Or(rows[0].Work.BillUnitAt, rows[0].Work.At),
			fmt.Sprintf("%s nr are not whole pairs; nr is wanted as the Bill unit, or a Bill quantity", total.Base), "")
	}
	return total.Billed(unit), unit
}

// exact is places enough for any typed quantity to come back as it was typed.
const exact = 12

// itemsOf is a quantity in items: what an item alone says in that unit, else one.
func itemsOf(rows []takeoff.Row, unit measure.Unit) decimal.Decimal {
	if len(rows) == 1 && rows[0].Item != nil && rows[0].Item.Unit == unit {
		return rows[0].Item.Quantity
	}
	return one
}

// given reports that some row gives the quantity to bill.
func given(rows []takeoff.Row) bool {
	for _, r := range rows {
		if !r.Work.BillQty.IsZero() {
			return true
		}
	}
	return false
}

// inDimension is the row's own quantity of a dimension: of a member its number,
// length, face area, volume or weight, of an item what it says.
func inDimension(r takeoff.Row, dim measure.Dimension) (measure.Quantity, bool) {
	if r.Item != nil {
		return measure.Of(r.Item.Quantity, r.Item.Unit), r.Item.Unit.Dimension() == dim
	}
	return r.Amount(driverOf(dim))
}

// driverOf is what a member is measured by in a dimension, or blank.
func driverOf(dim measure.Dimension) rates.Driver {
	for _, d := range []rates.Driver{rates.ByNr, rates.ByLength, rates.ByFace, rates.ByVolume, rates.ByWeight} {
		if d.Dimension() == dim {
			return d
		}
	}
	return ""
}

// billedBy is where the quantity of a line in a unit came from: what its
// members are measured by, or the cell of a Bill quantity. Both are blank where
// items alone say it, and where it is one item.
func billedBy(rows []takeoff.Row, unit measure.Unit) (rates.Driver, origin.Cell) {
	members := false
	for _, r := range rows {
		if !r.Work.BillQty.IsZero() {
			return "", r.Work.BillQtyAt
		}
		members = members || r.Member != nil
	}
	if !members {
		return "", origin.Cell{}
	}
	return driverOf(unit.Dimension()), origin.Cell{}
}
