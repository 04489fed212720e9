package measure

import (
	"errors"
	"fmt"

	"github.com/shopspring/decimal"
)

// Log is a round stick as it is measured. A dimension that is not known is
// nil. Dimensions are under bark, unless Bark is given: then they were taken
// over it, and twice the bark comes off a diameter and 2 pi times the bark off
// a girth before anything is reckoned.
type Log struct {
	Top      Length // diameter at the top, which is the small end
	MidGirth Length // the full girth at half the length
	Taper    Length // of diameter, for each metre of length
	Bark     Length // thickness
	Length   Length
}

// carried is how many places a quotient is carried to: far beyond any place
// that is ever printed.
const carried = 30

// True is the true volume of the stick: from the mid girth by Huber's rule,
//
//	V = G2 L / (4 pi)
//
// else from the top diameter and the taper as the frustum of a cone,
//
//	V = pi L (d2 + d D + D2) / 12
//
// with D the diameter at the butt. With no taper the cone is a cylinder.
func (g Log) True() (Quantity, error) {
	if err := g.sound(); err != nil {
		return Quantity{}, err
	}
	if g.MidGirth > 0 {
		girth, err := g.girth()
		if err != nil {
			return Quantity{}, err
		}
		v := girth.Mul(girth).Mul(g.Length.Metres()).DivRound(Pi().Mul(four), carried)
		return Quantity{v, VolumeMeasure}, nil
	}
	top, err := g.top()
	if err != nil {
		return Quantity{}, err
	}
	butt := top.Add(g.Taper.Metres().Mul(g.Length.Metres()))
	squares := top.Mul(top).Add(top.Mul(butt)).Add(butt.Mul(butt))
	v := Pi().Mul(g.Length.Metres()).Mul(squares).DivRound(decimal.New(12, 0), carried)
	return Quantity{v, VolumeMeasure}, nil
}

// Hoppus is what Hoppus's measure calls the volume of the stick: the square of
// the quarter girth at half the length, times the length. It is pi/4 of the
// true volume of a cylinder. So many cubic feet by this measure are so many
// Hoppus feet. Where no mid girth is given it is pi times the diameter
// reckoned at half the length from the top diameter and the taper.
func (g Log) Hoppus() (Quantity, error) {
	if err := g.sound(); err != nil {
		return Quantity{}, err
	}
	girth, err := g.girth()
	if err != nil {
		return Quantity{}, err
	}
	v := girth.Mul(girth).Mul(g.Length.Metres()).Mul(sixteenth)
	return Quantity{v, VolumeMeasure}, nil
}

var (
	two       = decimal.New(2, 0)
	four      = decimal.New(4, 0)
	half      = decimal.New(5, -1)
	sixteenth = decimal.New(625, -4)
)

// sound refuses a stick with no length, or with a dimension below nil.
func (g Log) sound() error {
	if g.Length <= 0 {
		return errors.New("no length is given")
	}
	if g.Top < 0 || g.MidGirth < 0 || g.Taper < 0 || g.Bark < 0 {
		return errors.New("a dimension is below nil")
	}
	return nil
}

// girth is the mid girth under bark in metres, as given or from the top
// diameter and taper.
func (g Log) girth() (decimal.Decimal, error) {
	if g.MidGirth == 0 {
		top, err := g.top()
		if err != nil {
			return decimal.Decimal{}, errors.New("neither a mid girth nor a top diameter is given")
		}
		mid := top.Add(g.Taper.Metres().Mul(g.Length.Metres()).Mul(half))
		return mid.Mul(Pi()), nil
	}
	girth := g.MidGirth.Metres().Sub(Pi().Mul(two).Mul(g.Bark.Metres()))
	if girth.Sign() <= 0 {
		return decimal.Decimal{}, fmt.Errorf("bark of %s leaves nothing of a girth of %s", g.Bark.Format(Mm), g.MidGirth.Format(Mm))
	}
	return girth, nil
}

// top is the top diameter under bark in metres.
func (g Log) top() (decimal.Decimal, error) {
	if g.Top == 0 {
		return decimal.Decimal{}, errors.New("no top diameter is given")
	}
	top := g.Top - 2*g.Bark
	if top <= 0 {
		return decimal.Decimal{}, fmt.Errorf("bark of %s leaves nothing of a diameter of %s", g.Bark.Format(Mm), g.Top.Format(Mm))
	}
	return top.Metres(), nil
}
