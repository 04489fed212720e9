package takeoff

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

// soldSawn reports a form that is ripped and cross-cut, or bought to size: it
// is told by its Thickness, Width and Length what it gives.
func soldSawn(f rates.Form) bool {
	return f == rates.Plank || f == rates.Baulk || f == rates.Flitch || f == rates.Cube
}

// Clear is what can be sawn from a plank, baulk or flitch: the width with bark
// off both edges and half the taper of its length, and sapwood off too unless it
// is allowed; the length with both ends trimmed. A dimension that the stock line
// does not give is nil, and one of which nothing is left is below nil.
func Clear(k rates.Stock, sapwood bool) (thickness, width, length measure.Length) {
	thickness = k.Thickness
	if k.Width > 0 {
		width = k.Width - 2*k.Bark
		if k.Taper > 0 {
			taper := k.Taper.Metres().Mul(k.Length.Metres()).Shift(9).Mul(decimal.New(5, -1)).Ceil()
			width -= measure.Length(taper.IntPart())
		}
		if !sapwood {
			width -= 2 * k.Sapwood
		}
		width = left(width)
	}
	if k.Length > 0 {
		length = left(k.Length - 2*k.EndTrim)
	}
	return thickness, width, length
}

func left(l measure.Length) measure.Length {
	if l <= 0 {
		return -1
	}
	return l
}

// Serves reports whether a stock line serves pieces that are not bound to it, so long as
// they can be got from it: what is sold sawn serves any, a log straight square pieces, a
// crook sawn curves. Other round stock, knees, and the owner's serve the rows bound to them
// alone.
func (p Piece) Serves(k rates.Stock) bool {
	switch {
	case k.ByOwner:
		return false
	case k.Form == rates.Log:
		return p.SawnUp()
	case k.Form == rates.Crook:
		return p.Curve != nil && p.Heart != job.Boxed
	}
	return soldSawn(k.Form)
}

// SawnUp reports a piece that is sawn from a log among others: straight and square. Round
// work and work sawn to a curve take a log to themselves.
func (p Piece) SawnUp() bool { return p.Curve == nil && p.Shape == job.Square }

// From reports whether one piece can be got from a stick of the stock line, or
// from timber by the cube of the sizes it is had in. A straight piece may be
// turned on its side; a dimension the stock line does not give limits nothing.
func (p Piece) From(k rates.Stock) bool {
	if p.Heart == job.Boxed && !givesHeart(k.Form) {
		return false
	}
	if !soldSawn(k.Form) {
		return p.fromWhole(k)
	}
	thickness, width, length := Clear(k, p.Sapwood)
	if length != 0 && p.Length > length {
		return false
	}
	within := func(t, w measure.Length) bool {
		return (thickness == 0 || t <= thickness) && (width == 0 || w <= width)
	}
	across := p.oblong()
	return within(p.Thickness, across) || (p.Curve == nil && within(across, p.Thickness))
}

// givesHeart reports a form that can have the heart boxed in the piece.
func givesHeart(f rates.Form) bool {
	return f == rates.Baulk || f == rates.Log || f == rates.Spar || f == rates.Cube
}

// oblong is the width of stock that takes the piece with its sweep.
func (p Piece) oblong() measure.Length {
	if p.Curve == nil {
		return p.Width
	}
	return p.Curve.NestedWidth(p.Width, 0, 1)
}
