package cutting

import (
	"math"
	"slices"

	"futtock/estimate/cutting/fit"
	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
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
func (y *yard) cut(piece int, at fit.Place, k fit.Kind) order.Cut {
	p := y.pieces[piece]
	c := order.Cut{Ref: p.Ref, Piece: piece, Along: measure.Length(at.Along), Across: measure.Length(at.Across),
		Length: p.Length, Width: measure.Length(k.Width), Thickness: p.Thickness, Curve: p.Curve}
	if at.Turned {
		c.Width, c.Thickness = p.Thickness, p.Width
	}
	return c
}

// leastOf is the least that the pieces got of one timber can cost, in pennies;
// see order.Bound for what it rests on.
func leastOf(in fit.Input, kinds []*kind, holds [][]int) float64 {
	total := 0.0
	for i, k := range in.Kinds {
		least := math.Inf(1)
		for l, line := range in.Lines {
			if holds[i][l] > 0 {
				least = math.Min(least, line.PerUsed*faceShare(kinds[i].piece, line, float64(in.Kerf)))
			}
		}
		for c, cube := range in.Cubes {
			if k.Cubes[c] {
				least = math.Min(least, cube.PerNet*k.Net)
			}
		}
		if kinds[i].count > 0 {
			total += least * float64(kinds[i].count)
		}
	}
	return total
}

// faceShare is the least part of a stick's face that the piece takes: with a
// saw-cut each way for a straight one, its own face for a curve. Where
// the line is too thin for the piece it is without end.
func faceShare(p takeoff.Piece, l fit.Line, kerf float64) float64 {
	face := (float64(l.Width) + kerf) * (float64(l.Length) + kerf)
	least := math.Inf(1)
	if p.Curve != nil {
		if int64(p.Thickness) <= l.Thickness {
			least = bandFace(p)
		}
		return least / face
	}
	if int64(p.Thickness) <= l.Thickness {
		least = (float64(p.Width) + kerf) * (float64(p.Length) + kerf)
	}
	if int64(p.Width) <= l.Thickness {
		least = math.Min(least, (float64(p.Thickness)+kerf)*(float64(p.Length)+kerf))
	}
	return least / face
}

// bandFace is the face of a sawn curve, moulding x length round the middle.
func bandFace(p takeoff.Piece) float64 {
	c, h, m := float64(p.Curve.Chord), float64(p.Curve.Sweep), float64(p.Width)
	ri := c*c/(8*h) + h/2
	return 2 * math.Asin(math.Min(1, c/(2*ri))) * (ri + m/2) * m
}
