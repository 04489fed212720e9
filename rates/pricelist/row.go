package pricelist

import (
	"fmt"
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// row is one row of the price book, whatever its sheet.
type row struct {
	sheet    Sheet
	key      string
	supplier string // blank where none is named
	from     time.Time
	at       origin.Cell
	charge   func(l Line) (charge, string)
}

// charge is the price of a row that a line is of.
type charge struct {
	column string // the heading it stands under
	old    decimal.Decimal
	unit   measure.Unit
	// ratio is what a price for one Per is multiplied and divided by; else
	// why it cannot be converted.
	ratio func(p Per) (num, den decimal.Decimal, why string)
}

// rowsOf is every row that a list may be of, in the order of the sheets.
func rowsOf(b *rates.Book) []row {
	var out []row
	add := func(sheet Sheet, key, supplier string, from time.Time, at origin.Cell, of func(l Line) (charge, string)) {
		out = append(out, row{sheet, key, supplier, from, at, func(l Line) (charge, string) {
			if l.Percent && sheet != VAT {
				return charge{}, "a percentage is no price"
			}
			return of(l)
		}})
	}
	for _, s := range b.Stock {
		add(Stock, s.Stock, s.Supplier, s.From, s.At, func(Line) (charge, string) { return ofStock(s) })
	}
	for _, m := range b.Materials {
		add(Materials, m.Material, m.Supplier, m.From, m.At, func(Line) (charge, string) {
			return charge{"Price", m.Price.Decimal(), m.Unit, bySize(m.Unit, m.Pack)}, ""
		})
	}
	for _, p := range b.Plant {
		add(Plant, p.Plant, "", p.From, p.At, func(l Line) (charge, string) { return ofPlant(p, l.Per) })
	}
	for _, s := range b.Subcontract {
		add(Subcontract, s.Work, s.Supplier, s.From, s.At, func(Line) (charge, string) {
			return charge{"Price", s.Price.Decimal(), s.Unit, bySize(s.Unit, decimal.Decimal{})}, ""
		})
	}
	for _, t := range b.Labour {
		add(Labour, t.Trade, "", t.From, t.At, func(l Line) (charge, string) { return ofTrade(t, l.Of) })
	}
	for _, v := range b.VAT {
		add(VAT, v.Code, "", v.From, v.At, func(Line) (charge, string) {
			return charge{"Rate %", v.Rate.Decimal(), "", asItStands("a rate of tax is a percentage")}, ""
		})
	}
	return out
}

func ofStock(s rates.Stock) (charge, string) {
	if s.ByOwner {
		return charge{}, "the owner supplies it, and it has no price"
	}
	return charge{"Price", s.Price.Decimal(), s.Unit, func(p Per) (decimal.Decimal, decimal.Decimal, string) { return byStick(s, p) }}, ""
}

// ofTrade is the pay of a trade whose hour is reckoned from pay, else its rate.
func ofTrade(t rates.Labour, gives Gives) (charge, string) {
	c := charge{"Rate", t.Rate.Decimal(), measure.Hour, bySize(measure.Hour, decimal.Decimal{})}
	own := GivesRate
	if t.Rate.IsZero() {
		own, c.column, c.old = GivesPay, "Pay", t.Pay.Decimal()
	}
	if gives != "" && gives != own {
		return charge{}, fmt.Sprintf("the list gives %s, and the row has %s", gives, own)
	}
	return c, ""
}

// ofPlant is the charge of plant that the unit of the line is of: by the week, for
// each of its Unit, or once. Without a unit it is the one charge it has.
func ofPlant(p rates.Plant, per Per) (charge, string) {
	var each []charge
	if !p.Each.IsZero() && p.Unit != "" {
		each = append(each, charge{"Each", p.Each.Decimal(), p.Unit, bySize(p.Unit, decimal.Decimal{})})
	}
	if !p.Weekly.IsZero() {
		each = append(each, charge{"A week", p.Weekly.Decimal(), measure.Weeks, bySize(measure.Weeks, decimal.Decimal{})})
	}
	if !p.Fixed.IsZero() {
		each = append(each, charge{"Fixed", p.Fixed.Decimal(), measure.Sums, bySize(measure.Sums, decimal.Decimal{})})
	}
	var fit []charge
	for _, c := range each {
		if _, _, why := c.ratio(per); why == "" {
			fit = append(fit, c)
		}
	}
	switch {
	case len(fit) == 1:
		return fit[0], ""
	case len(fit) > 1:
		return charge{}, "it has several charges, and the line does not say which it is of: a week, once, or each"
	case len(each) == 0:
		return charge{}, "it has no charge"
	}
	return charge{}, fmt.Sprintf("it is not charged %s", per)
}

// Keys is every key of the price book that a list may be of, as often as it has rows.
func Keys(b *rates.Book) []string {
	var out []string
	for _, r := range rowsOf(b) {
		out = append(out, r.key)
	}
	return out
}
