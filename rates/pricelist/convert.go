package pricelist

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// The fewest and the most places of a converted price.
const (
	fewest = 2
	most   = 4
)

var one = decimal.New(1, 0)

// converted is the price of a line in the unit of the charge, how it came about,
// and why it cannot be had.
func converted(l Line, c charge) (price decimal.Decimal, how, why string) {
	num, den, why := c.ratio(l.Per)
	if why != "" {
		return decimal.Decimal{}, "", why
	}
	if num.Equal(den) {
		return l.Price, "", ""
	}
	places := min(max(fewest, -c.old.Exponent()), most)
	if l.Price.Mul(num).LessThan(den) {
		places = most // of a nail at 0.395 a half penny is much
	}
	price = l.Price.Mul(num).DivRound(den, places)
	sign := "x"
	if num.LessThan(den) {
		sign, num, den = "/", den, num
	}
	return price, fmt.Sprintf("%s %s, %s %s", money.NewPrice(l.Price), l.Per, sign, significant(num, den)), ""
}

// significant is a quotient of one or more to six figures or so, for reading.
func significant(num, den decimal.Decimal) decimal.Decimal {
	q := num.DivRound(den, 12)
	whole := int32(q.Truncate(0).NumDigits())
	q = q.Round(max(0, 6-whole))
	return decimal.RequireFromString(q.String()) // without noughts at its end
}

// bySize converts between units of one dimension, and packs to what is in them.
func bySize(unit measure.Unit, pack decimal.Decimal) func(Per) (decimal.Decimal, decimal.Decimal, string) {
	return func(p Per) (decimal.Decimal, decimal.Decimal, string) {
		switch {
		case p.Own():
			return one, one, ""
		case p.Pack && p.Number.IsZero() && pack.IsZero():
			return one, one, "how many are in a pack stands neither in the list nor under Pack"
		case p.Pack && p.Number.IsZero():
			return one, pack, ""
		case p.Pack && p.Unit == "":
			return one, p.Number, ""
		case p.Unit.Dimension() != unit.Dimension():
			return one, one, fmt.Sprintf("a price %s gives none per %s", p, unit)
		}
		return unit.Size(), p.Number.Mul(p.Unit.Size()), ""
	}
}

// asItStands takes a price that is for one of nothing.
func asItStands(why string) func(Per) (decimal.Decimal, decimal.Decimal, string) {
	return func(p Per) (decimal.Decimal, decimal.Decimal, string) {
		if !p.Own() {
			return one, one, why
		}
		return one, one, ""
	}
}

// byStick converts the price of timber. Units of one dimension go by their
// sizes, save by volume of round timber and by the Hoppus foot, where, as
// between unlike dimensions, the stick itself says how much of each it is:
//
//	price x (measure in the list's unit) / (measure in the yard's unit)
//
// The yard's unit is by the rule the stock is measured by. A list's cubic metre and
// cubic foot are true measure, and its Hoppus foot is by Hoppus, whatever that rule
// is.
func byStick(s rates.Stock, p Per) (num, den decimal.Decimal, why string) {
	switch {
	case p.Own() || p.Unit == s.Unit && p.Number.Equal(one):
		return one, one, ""
	case p.Pack:
		return one, one, "timber is not sold by the pack"
	case p.Unit == s.Unit:
		return one, p.Number, ""
	case p.Unit.Dimension() == s.Unit.Dimension() && plainly(s, p.Unit) && plainly(s, s.Unit):
		return s.Unit.Size(), p.Number.Mul(p.Unit.Size()), ""
	}
	listed, err := sold(s, p.Unit)
	if err != nil {
		return one, one, err.Error()
	}
	own, err := s.Measured(s.Unit)
	if err != nil {
		return one, one, err.Error()
	}
	if listed.IsZero() || own.IsZero() {
		return one, one, "a stick of it measures nothing"
	}
	return listed.Base.Mul(s.Unit.Size()), own.Base.Mul(p.Number).Mul(p.Unit.Size()), ""
}

// plainly reports a unit in which the stock is measured without regard to the
// stick.
func plainly(s rates.Stock, u measure.Unit) bool {
	return u.Dimension() != measure.VolumeMeasure || !s.Round() && u != measure.HFt
}

// sold is how much of a unit a stick is to somebody who sells by it.
func sold(s rates.Stock, u measure.Unit) (measure.Quantity, error) {
	if s.Round() {
		switch u {
		case measure.M3, measure.Ft3:
			return s.TrueVolume()
		case measure.HFt:
			s.Measure = rates.Hoppus
		}
	}
	return s.Measured(u)
}
