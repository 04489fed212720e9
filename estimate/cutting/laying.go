package cutting

import (
	"slices"

	"futtock/estimate/cutting/board"
	"futtock/estimate/cutting/fit"
	"futtock/estimate/cutting/log"
	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// fitLine is a source as it is laid out.
func fitLine(s *source) fit.Line {
	return fit.Line{
		Thickness: int64(s.size.thickness), Width: int64(s.size.width),
		Clear: int64(s.size.clear), Length: int64(s.size.length),
		Each:    s.each.Decimal().Shift(2).IntPart(),
		Buy:     func(n int) int { return buys(s.stock, n) },
		Limit:   s.uses(),
		PerUsed: s.perUsed(),
	}
}

// fitKind is a kind as it is laid out.
func fitKind(k *kind, y *yard, lines, cubes []*source) fit.Kind {
	p := k.piece
	out := fit.Kind{Thickness: int64(p.Thickness), Width: int64(p.Width), Length: int64(p.Length),
		Sapwood: p.Sapwood, Boxed: p.Heart == job.Boxed, Bound: k.bound != nil, Count: k.count, Net: k.net}
	if p.Curve != nil {
		kerf := y.kerf(k.sources[0].stock.Timber)
		one, two := p.Curve.NestedWidth(p.Width, kerf, 1), p.Curve.NestedWidth(p.Width, kerf, 2)
		out.Width = int64(one)
		// Both widths were rounded up to 0.01 mm, which may have taken so
		// much from their difference.
		out.Pitch = int64(two - one + 10*measure.Micrometre)
	}
	serves := func(s *source) bool { return slices.Contains(k.sources, s) }
	for _, s := range lines {
		out.Lines = append(out.Lines, serves(s))
	}
	for _, s := range cubes {
		out.Cubes = append(out.Cubes, serves(s) && p.From(s.stock))
	}
	return out
}

// oblong is the width of stock that takes a piece, a curve with its sweep.
func oblong(p takeoff.Piece) measure.Length {
	if p.Curve == nil {
		return p.Width
	}
	return p.Curve.NestedWidth(p.Width, 0, 1)
}

// cut is a place in a stick as the order shows it.
func (y *yard) cut(piece int, at board.Place, k fit.Kind) order.Cut {
	p := y.pieces[piece]
	c := order.Cut{Ref: p.Ref, Piece: piece, Along: measure.Length(at.Along), Across: measure.Length(at.Across), Through: measure.Length(at.Through),
		Length: p.Length, Width: measure.Length(k.Width), Thickness: p.Thickness, Curve: p.Curve}
	if at.Turned {
		c.Width, c.Thickness = p.Thickness, p.Width
	}
	return c
}

// ofLog is a place in a log as the order shows it: from the butt, and from the pith.
func (y *yard) ofLog(piece int, at log.Place, s rates.Stock) order.Cut {
	p := y.pieces[piece]
	return order.Cut{Ref: p.Ref, Piece: piece, Along: s.Length - 2*s.EndTrim - measure.Length(at.Along) - p.Length,
		Across: measure.Length(at.Left), Through: measure.Length(at.Low), Length: p.Length, Width: measure.Length(at.Wide), Thickness: measure.Length(at.High)}
}

// alone is the one piece of a stick that is had by number.
func (y *yard) alone(piece int) order.Cut {
	p := y.pieces[piece]
	return order.Cut{Ref: p.Ref, Piece: piece, Length: p.Length, Width: oblong(p), Thickness: p.Thickness, Curve: p.Curve}
}
