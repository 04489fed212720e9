package takeoff

import (
	"math"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

// fromWhole reports whether a log, spar, crook or knee gives the piece.
func (p Piece) fromWhole(k rates.Stock) bool {
	if k.Round() {
		return p.fromRound(k)
	}
	if k.Thickness > 0 && k.Thickness < p.Thickness {
		return false
	}
	if k.Form == rates.Crook && k.Width > 0 && k.Length > 0 {
		return p.fromCrook(k)
	}
	return (k.Width <= 0 || k.Width >= p.oblong()) && (k.Length <= 0 || k.Length-2*k.EndTrim >= p.Length)
}

// fromRound lays the section about the heart: of round work the diameter, of
// eight-sided work the corners, else the diagonal lies within the clear top. A
// section free of heart lies against it with its longer or its shorter side.
func (p Piece) fromRound(k rates.Stock) bool {
	top := Top(k) - 2*float64(k.Bark)
	if !p.Sapwood {
		top -= 2 * float64(k.Sapwood)
	}
	t, w := float64(p.Thickness), float64(p.oblong())
	straight := p.Curve == nil
	switch {
	case k.Length > 0 && k.Length-2*k.EndTrim < p.Length:
		return false
	case straight && p.Shape == job.Round:
		return t <= top && p.Heart != job.Free
	case straight && p.Shape == job.Eight:
		return t <= top*math.Cos(math.Pi/8) && p.Heart != job.Free
	case p.Heart == job.Free:
		return math.Min(math.Hypot(t, w/2), math.Hypot(t/2, w)) <= top/2
	}
	return math.Hypot(t, w) <= top
}

// Top is the diameter of round stock at the small end over bark, in nanometres; where it is
// not given it comes from the mid girth and the taper.
func Top(k rates.Stock) float64 {
	if k.TopDiameter > 0 {
		return float64(k.TopDiameter)
	}
	return float64(k.MidGirth)/math.Pi - float64(k.Taper)*float64(k.Length)/2/float64(measure.Metre)
}

// fromCrook reports whether the piece lies within a crook, a band between two
// arcs about one centre of which the inner has the crook's Sweep over its
// Length. A flatter piece touches the inner arc at its middle, a rounder one
// with its ends; both must keep within the outer arc and the trimmed ends.
func (p Piece) fromCrook(k rates.Stock) bool {
	off := k.Bark
	if !p.Sapwood {
		off += k.Sapwood
	}
	width := k.Width - 2*off
	switch {
	case k.Sweep <= 0:
		return width >= p.oblong() && k.Length-2*k.EndTrim >= p.Length
	case 2*k.Sweep > k.Length:
		return false // more than half a circle is no crook
	}
	edge := radius(k.Length, k.Sweep)
	half := math.Asin(math.Min(1, float64(k.Length)/(2*edge))) - float64(k.EndTrim)/edge
	in := edge + float64(off)
	out := in + float64(width)
	if p.Curve == nil {
		x := float64(p.Length) / 2
		return math.Hypot(x, in+float64(p.Width)) <= out && math.Atan2(x, in) <= half
	}
	inner := radius(p.Curve.Chord, p.Curve.Sweep)
	outer := inner + float64(p.Width)
	sin := float64(p.Curve.Chord) / (2 * inner)
	cos := math.Sqrt(math.Max(0, 1-sin*sin))
	rise := in - inner // of the piece's centre over the crook's
	if inner < in {
		if in <= inner*sin {
			return false
		}
		rise = math.Sqrt(in*in-inner*inner*sin*sin) - inner*cos
	}
	farthest := math.Max(outer+rise, math.Hypot(outer*sin, outer*cos+rise))
	ends := math.Max(math.Atan2(inner*sin, inner*cos+rise), math.Atan2(outer*sin, outer*cos+rise))
	// A tenth of a micrometre is noise: the piece may be of the crook's own sweep.
	return farthest <= out+100 && ends <= half
}
