package rates

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
	"futtock/rates/money"
)

// Round reports a stick measured by girth or diameter: a log or a spar.
func (s Stock) Round() bool { return s.Form == Log || s.Form == Spar }

// asLog is the stick as round timber is measured.
func (s Stock) asLog() measure.Log {
	return measure.Log{Top: s.TopDiameter, MidGirth: s.MidGirth, Taper: s.Taper, Bark: s.Bark, Length: s.Length}
}

// TrueVolume is the volume of one stick by true measure, whatever rule it is
// sold by: of round timber under bark by Huber's rule or the cone, see
// measure.Log; of all other forms thickness x width x length. It is exact for
// sawn forms. It fails where a dimension is wanting, and for timber by the cube.
func (s Stock) TrueVolume() (measure.Quantity, error) {
	switch {
	case s.Form == Cube:
		return measure.Quantity{}, fmt.Errorf("timber by the cube comes in no sticks")
	case s.Round():
		return s.asLog().True()
	case s.Thickness <= 0 || s.Width <= 0 || s.Length <= 0:
		return measure.Quantity{}, fmt.Errorf("a %s is measured by thickness, width and length, and one is wanting", s.Form)
	}
	return s.Thickness.Volume(s.Width, s.Length), nil
}

// Measured is the measure of one stick in the dimension of a unit, unrounded,
// by the rule the stock is sold by: so many of the unit is what the stick is
// paid for. Ask In(u, places) of it for the number.
//
//   - nr and pair count it; m and ft take its length, m2 and ft2 length x width;
//   - sawn forms by volume are thickness x width x length in any unit of
//     volume but the Hoppus foot;
//   - round forms in m3 and ft3 are by true measure, or by Hoppus where that is
//     the rule; hft is by Hoppus; bf is by the scale named, and refused where
//     none is; std and load are refused, since the standard of 165 ft3 and the
//     load of 50 ft3 are of squared timber.
//
// It fails where the unit does not suit the form or the rule, a dimension is
// wanting, or the stick lies outside a printed scale.
func (s Stock) Measured(u measure.Unit) (measure.Quantity, error) {
	if s.Form == Cube {
		return measure.Quantity{}, fmt.Errorf("timber by the cube comes in no sticks")
	}
	switch u.Dimension() {
	case measure.Count:
		return measure.Of(decimal.New(1, 0), measure.Nr), nil
	case measure.LinearMeasure:
		if s.Length <= 0 {
			return measure.Quantity{}, fmt.Errorf("no length is given")
		}
		return s.Length.Quantity(), nil
	case measure.AreaMeasure:
		if s.Length <= 0 || s.Width <= 0 || s.Round() {
			return measure.Quantity{}, fmt.Errorf("a stick sold by the %s needs a length and a width", u)
		}
		return s.Length.Area(s.Width), nil
	case measure.VolumeMeasure:
		if s.Round() {
			return s.roundVolume(u)
		}
		return s.sawnVolume(u)
	}
	return measure.Quantity{}, fmt.Errorf("a stick of timber is not sold by the %s", u.Name())
}

func (s Stock) sawnVolume(u measure.Unit) (measure.Quantity, error) {
	if u == measure.HFt || s.Measure != True && s.Measure != "" {
		return measure.Quantity{}, fmt.Errorf("a %s is sold by true measure, not by a rule for round timber", s.Form)
	}
	return s.TrueVolume()
}

func (s Stock) roundVolume(u measure.Unit) (measure.Quantity, error) {
	scales := map[LogRule]func(measure.Log) (measure.Quantity, error){
		Doyle: measure.Log.Doyle, Scribner: measure.Log.Scribner, International: measure.Log.International,
	}
	scale, scaled := scales[s.Measure]
	switch {
	case u == measure.Std || u == measure.Load:
		return measure.Quantity{}, fmt.Errorf("the %s is of squared timber, and a %s is round", u.Name(), s.Form)
	case scaled && u != measure.BF:
		return measure.Quantity{}, fmt.Errorf("the %s scale gives board feet, not %s", s.Measure, u)
	case scaled:
		return scale(s.asLog())
	case u == measure.BF:
		return measure.Quantity{}, fmt.Errorf("a %s sold by the board foot needs a scale: doyle, scribner or international", s.Form)
	case u == measure.HFt:
		q, err := s.asLog().Hoppus()
		if err != nil {
			return measure.Quantity{}, err
		}
		// A Hoppus foot is one cubic foot by Hoppus's measure.
		return measure.Of(q.In(measure.Ft3, 20), measure.HFt), nil
	case s.Measure == Hoppus:
		return s.asLog().Hoppus()
	}
	return s.asLog().True()
}

// StickPrice is what one stick costs, rounded once to the penny:
//
//	(price + delivery) x measure + sawing charge x measure in the sawing unit
//
// A blank sawing unit is the price's unit. Material is the part of it that is
// timber: the whole, but nil for the owner's own timber, whose price is nil
// whatever the row says and which bears only handling and sawing.
func (s Stock) StickPrice() (total, material money.Amount, err error) {
	price := s.Delivery.Decimal()
	if !s.ByOwner {
		price = price.Add(s.Price.Decimal())
	}
	bought, err := s.Measured(s.Unit)
	if err != nil {
		return money.Amount{}, money.Amount{}, err
	}
	sawingUnit := s.SawingUnit
	if sawingUnit == "" {
		sawingUnit = s.Unit
	}
	sawn := bought
	if sawingUnit != s.Unit && !s.Sawing.IsZero() {
		if sawn, err = s.Measured(sawingUnit); err != nil {
			return money.Amount{}, money.Amount{}, err
		}
	}
	// Over one divisor, so that a measure without end in decimals is not
	// rounded before the penny.
	over, by := s.Unit.Size(), sawingUnit.Size()
	sum := price.Mul(bought.Base).Mul(by).Add(s.Sawing.Decimal().Mul(sawn.Base).Mul(over))
	total = money.Round(sum.DivRound(over.Mul(by), 2))
	if !s.ByOwner {
		material = total
	}
	return total, material, nil
}
