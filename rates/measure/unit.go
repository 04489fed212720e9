package measure

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"
)

// Dimension is the kind of thing a unit measures. Quantities of unlike
// dimensions are never added or converted.
type Dimension uint8

// The dimensions. Day and Week stand apart from Hours: how many hours a man
// works in one is the yard's own affair. Liquid stands apart from Volume:
// litres of paint are not cubic metres of oak.
const (
	None Dimension = iota
	Count
	Item
	Set
	Day
	Tide
	Hours
	Week
	LinearMeasure
	AreaMeasure
	VolumeMeasure
	Liquid
	Mass
	Lift
	Sum
)

// Unit is one of the closed list. The zero Unit is no unit.
type Unit string

// The closed list of units.
const (
	Nr    Unit = "nr"
	One   Unit = "item"
	Pair  Unit = "pair"
	Kit   Unit = "set"
	Days  Unit = "day"
	Tides Unit = "tide"
	Hour  Unit = "h"
	Weeks Unit = "wk"
	M     Unit = "m"
	Ft    Unit = "ft"
	M2    Unit = "m2"
	Ft2   Unit = "ft2"
	M3    Unit = "m3"
	Ft3   Unit = "ft3"
	HFt   Unit = "hft"
	BF    Unit = "bf"
	Std   Unit = "std"
	Litre Unit = "l"
	Gal   Unit = "gal"
	Kg    Unit = "kg"
	Lb    Unit = "lb"
	Cwt   Unit = "cwt"
	T     Unit = "t"
	Load  Unit = "load"
	Lifts Unit = "lift"
	Sums  Unit = "sum"

	// Mm and In state sizes in headings; nothing is billed in them.
	Mm Unit = "mm"
	In Unit = "in"

	// cm is read but never written.
	cm Unit = "cm"
)

type unitFacts struct {
	unit   Unit
	dim    Dimension
	si     string // exact size in m, m2, m3, l, kg, or of its own kind
	places int32  // places of a billed quantity
	name   string
}

// Sizes: the international foot of 0.3048 m and pound of 0.45359237 kg, the
// imperial gallon of 4.54609 l and hundredweight of 112 lb; a board foot is
// 144 cubic inches; a standard is the Petrograd standard of 165 ft3 sawn; a
// load is 50 ft3 squared. A Hoppus foot of round timber is 4/pi ft3 by true
// measure: its size here is that number to eighteen places.
var units = []unitFacts{
	{Nr, Count, "1", 0, "number"},
	{One, Item, "1", 0, "item"},
	{Pair, Count, "2", 0, "pair"},
	{Kit, Set, "1", 0, "set"},
	{Days, Day, "1", 0, "day"},
	{Tides, Tide, "1", 0, "tide"},
	{Hour, Hours, "1", 2, "hour"},
	{Weeks, Week, "1", 1, "week"},
	{M, LinearMeasure, "1", 2, "metre"},
	{Ft, LinearMeasure, "0.3048", 2, "foot"},
	{M2, AreaMeasure, "1", 2, "square metre"},
	{Ft2, AreaMeasure, "0.09290304", 2, "square foot"},
	{M3, VolumeMeasure, "1", 3, "cubic metre"},
	{Ft3, VolumeMeasure, "0.028316846592", 2, "cubic foot"},
	{HFt, VolumeMeasure, "0.036054128863133523", 2, "Hoppus foot"},
	{BF, VolumeMeasure, "0.002359737216", 0, "board foot"},
	{Std, VolumeMeasure, "4.67227968768", 3, "standard"},
	{Litre, Liquid, "1", 1, "litre"},
	{Gal, Liquid, "4.54609", 1, "gallon"},
	{Kg, Mass, "1", 1, "kilogram"},
	{Lb, Mass, "0.45359237", 1, "pound"},
	{Cwt, Mass, "50.80234544", 2, "hundredweight"},
	{T, Mass, "1000", 3, "tonne"},
	{Load, VolumeMeasure, "1.4158423296", 1, "load"},
	{Lifts, Lift, "1", 0, "lift"},
	{Sums, Sum, "1", 0, "sum"},
	{Mm, LinearMeasure, "0.001", 0, "millimetre"},
	{In, LinearMeasure, "0.0254", 0, "inch"},
	{cm, LinearMeasure, "0.01", 1, "centimetre"},
}

// Units is the closed list in its printed order, without the units of sizes.
func Units() []Unit {
	list := make([]Unit, 0, len(units))
	for _, f := range units {
		if f.unit != Mm && f.unit != In && f.unit != cm {
			list = append(list, f.unit)
		}
	}
	return list
}

func (u Unit) facts() unitFacts {
	for _, f := range units {
		if f.unit == u {
			return f
		}
	}
	panic(fmt.Sprintf("measure: %q is not a unit", string(u)))
}

// Dimension is what the unit measures; the zero Unit measures None.
func (u Unit) Dimension() Dimension {
	if u == "" {
		return None
	}
	return u.facts().dim
}

// Places is how many decimal places a billed quantity in this unit has.
func (u Unit) Places() int32 { return u.facts().places }

// Size is the unit in m, m2, m3, l or kg, or 1 of its own kind.
func (u Unit) Size() decimal.Decimal { return decimal.RequireFromString(u.facts().si) }

// Name is the unit in words, singular.
func (u Unit) Name() string { return u.facts().name }

// ParseUnit finds a unit by its sign, case, spaces and a full stop aside;
// m², ft³, "no" for nr and "wks" are taken as people write them. It finds the
// units of sizes too (mm, cm, in), which Units leaves out.
func ParseUnit(s string) (Unit, bool) {
	k := strings.ToLower(strings.TrimSpace(s))
	k = strings.TrimSuffix(k, ".")
	k = strings.NewReplacer("²", "2", "³", "3", " ", "").Replace(k)
	for _, abbreviated := range []string{"sq.", "cu.", "lin."} {
		if rest, ok := strings.CutPrefix(k, abbreviated); ok {
			k = strings.TrimSuffix(abbreviated, ".") + rest
		}
	}
	if other, ok := spellings[k]; ok {
		return other, true
	}
	for _, f := range units {
		if string(f.unit) == k {
			return f.unit, true
		}
	}
	return "", false
}

var spellings = map[string]Unit{
	"no": Nr, "nos": Nr, "each": Nr, "ea": Nr, "pairs": Pair, "pr": Pair, "sets": Kit, "days": Days,
	"tides": Tides, "hr": Hour, "hrs": Hour, "hour": Hour, "hours": Hour,
	"week": Weeks, "weeks": Weeks, "wks": Weeks, "metre": M, "metres": M,
	"foot": Ft, "feet": Ft, "'": Ft, "′": Ft, "sqm": M2, "sqft": Ft2, "cum": M3,
	"cuft": Ft3, "hoppusft": HFt, "boardfoot": BF, "boardfeet": BF, "bdft": BF, "standard": Std, "standards": Std,
	"loads": Load, "litre": Litre, "litres": Litre, "gallon": Gal, "gallons": Gal, "gals": Gal,
	"kgs": Kg, "lbs": Lb, "cwts": Cwt, "tonne": T, "tonnes": T,
	"linm": M, "lm": M, "linft": Ft, "lft": Ft, "ltr": Litre, "ltrs": Litre,
	"inch": In, "inches": In, "\"": In, "″": In, "lifts": Lifts, "items": One, "sums": Sums,
}

// Quantity is an exact amount of something in the base unit of its
// dimension: m, m2, m3, l, kg, h, or a number.
type Quantity struct {
	Base decimal.Decimal
	Dim  Dimension
}

// Of is n of unit u.
func Of(n decimal.Decimal, u Unit) Quantity {
	return Quantity{n.Mul(u.Size()), u.Dimension()}
}

// Times is the quantity taken n times.
func (q Quantity) Times(n decimal.Decimal) Quantity { return Quantity{q.Base.Mul(n), q.Dim} }

// Add is q + r; it panics on unlike dimensions, which is a fault of ours.
func (q Quantity) Add(r Quantity) Quantity {
	if q.Dim == None {
		return r
	}
	if r.Dim != None && q.Dim != r.Dim {
		panic(fmt.Sprintf("measure: adding dimension %d to %d", r.Dim, q.Dim))
	}
	return Quantity{q.Base.Add(r.Base), q.Dim}
}

// In is the quantity in unit u, rounded once to the given places, halves away
// from zero. It panics on unlike dimensions: ask Dim first.
func (q Quantity) In(u Unit, places int32) decimal.Decimal {
	if q.Dim != u.Dimension() {
		panic(fmt.Sprintf("measure: dimension %d in %s", q.Dim, u))
	}
	return q.Base.DivRound(u.Size(), places)
}

// Billed is the quantity in unit u at the unit's own places, but never
// rounded to nil: something that is there is billed as at least the last place.
func (q Quantity) Billed(u Unit) decimal.Decimal {
	n := q.In(u, u.Places())
	if n.IsZero() && !q.Base.IsZero() {
		return decimal.New(int64(q.Base.Sign()), -u.Places())
	}
	return n
}

// IsZero reports nothing at all.
func (q Quantity) IsZero() bool { return q.Base.IsZero() }
