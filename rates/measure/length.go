package measure

import (
	"fmt"

	"github.com/shopspring/decimal"
)

// Length is a distance in whole nanometres.
type Length int64

// Lengths that others are built of.
const (
	Micrometre Length = 1_000
	Millimetre Length = 1_000_000
	Inch       Length = 25_400_000
	Foot       Length = 304_800_000
	Metre      Length = 1_000_000_000
)

// MaxLength is the longest length the tool takes: ten kilometres.
const MaxLength = 10_000 * Metre

// LengthOf is n of a linear unit, which must come out in whole nanometres
// once rounded to the nearest; beyond MaxLength it is refused.
func LengthOf(n decimal.Decimal, u Unit) (Length, error) {
	if u.Dimension() != LinearMeasure {
		return 0, fmt.Errorf("%q does not measure length", string(u))
	}
	nm := n.Mul(u.Size()).Shift(9).Round(0)
	if nm.Abs().GreaterThan(decimal.New(int64(MaxLength), 0)) {
		return 0, fmt.Errorf("%s %s is beyond any ship", n, u)
	}
	return Length(nm.IntPart()), nil
}

// Metres is the length in metres, exactly.
func (l Length) Metres() decimal.Decimal { return decimal.New(int64(l), -9) }

// In is the length in a linear unit, rounded to the given places.
func (l Length) In(u Unit, places int32) decimal.Decimal {
	return Quantity{l.Metres(), LinearMeasure}.In(u, places)
}

// Quantity is the length as a quantity.
func (l Length) Quantity() Quantity { return Quantity{l.Metres(), LinearMeasure} }

// Area is l times w.
func (l Length) Area(w Length) Quantity {
	return Quantity{l.Metres().Mul(w.Metres()), AreaMeasure}
}

// Volume is l times w times t.
func (l Length) Volume(w, t Length) Quantity {
	return Quantity{l.Metres().Mul(w.Metres()).Mul(t.Metres()), VolumeMeasure}
}

// Format prints the length in a unit as that unit's users write it: feet as
// 24' 6 1/2", inches as 4 1/2", millimetres as 150 mm, metres as 7.50 m. Feet
// and inches go to the nearest sixty-fourth, millimetres to a tenth, metres to
// the millimetre.
func (l Length) Format(u Unit) string {
	switch u {
	case Ft:
		return l.FeetInches()
	case In:
		return l.inches()
	case Mm:
		return l.In(Mm, 1).String() + " mm"
	}
	m := l.In(M, 3)
	if m.Equal(m.Round(2)) {
		return m.StringFixed(2) + " m"
	}
	return m.StringFixed(3) + " m"
}

// FeetInches is the length to the nearest sixty-fourth of an inch: 24' 6 1/2".
func (l Length) FeetInches() string {
	sign, n := l.sixtyfourths()
	feet, rest := n/(12*64), n%(12*64)
	if rest == 0 {
		return fmt.Sprintf("%s%d'", sign, feet)
	}
	if feet == 0 {
		return sign + inchText(rest)
	}
	return fmt.Sprintf("%s%d' %s", sign, feet, inchText(rest))
}

func (l Length) inches() string {
	sign, n := l.sixtyfourths()
	return sign + inchText(n)
}

// sixtyfourths is the sign and the whole number of sixty-fourths of an inch
// nearest to the length; nothing has no sign. A sixty-fourth is an odd number
// of nanometres, so there is never a half to decide.
func (l Length) sixtyfourths() (sign string, n int64) {
	const step = int64(Inch / 64)
	n = int64(max(l, -l))
	n = (n + step/2) / step
	if l < 0 && n > 0 {
		sign = "-"
	}
	return sign, n
}

func inchText(n int64) string {
	whole, num := n/64, n%64
	if num == 0 {
		return fmt.Sprintf("%d\"", whole)
	}
	den := int64(64)
	for num%2 == 0 {
		num, den = num/2, den/2
	}
	if whole == 0 {
		return fmt.Sprintf("%d/%d\"", num, den)
	}
	return fmt.Sprintf("%d %d/%d\"", whole, num, den)
}
