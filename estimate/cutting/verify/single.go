package verify

import (
	"math"
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// hair is what floating point may lose in a stick's length, in nanometres.
const hair = 100

// single checks the one piece of a stick bought by number, by walking round
// its outline and asking of every point whether it lies in the stick.
func (r *reading) single(s rates.Stock, c order.Cut) {
	p := r.pieces[c.Piece]
	if c.Along != 0 || c.Across != 0 || c.Length != p.Length || c.Thickness != p.Thickness {
		r.fault("row %q: a piece is not cut in its own size from stock %q", c.Ref, s.Stock)
		return
	}
	holds := true
	switch {
	case s.Round():
		holds = inRound(p, s)
	case s.Thickness > 0 && p.Thickness > s.Thickness:
		holds = false
	case s.Form == rates.Crook && s.Width > 0 && s.Length > 0:
		holds = inCrook(p, s, 0)
	default:
		holds = (s.Width <= 0 || p.Width <= s.Width) && (s.Length <= 0 || p.Length <= s.Length-2*s.EndTrim)
	}
	if !holds {
		r.fault("row %q: %d x %d x %d nm do not lie within a stick of %q", c.Ref, p.Thickness, p.Width, p.Length, s.Stock)
	}
}

// inRound puts the section in the top end.
func inRound(p takeoff.Piece, s rates.Stock) bool {
	r := float64(s.TopDiameter)/2 - float64(s.Bark)
	if s.TopDiameter == 0 {
		mid := float64(s.MidGirth) / (2 * math.Pi)
		r = mid - s.Taper.Metres().InexactFloat64()*float64(s.Length)/4 - float64(s.Bark)
	}
	if !p.Sapwood {
		r -= float64(s.Sapwood)
	}
	if s.Length > 0 && p.Length > s.Length-2*s.EndTrim {
		return false
	}
	t, w := float64(p.Thickness)/2, float64(p.Width)/2
	if p.Curve != nil {
		w += float64(p.Curve.Sweep) / 2
	}
	if p.Heart == job.Free { // with one side against the heart
		return math.Min(math.Hypot(2*t, w), math.Hypot(t, 2*w)) <= r+hair
	}
	switch {
	case p.Curve == nil && p.Shape == job.Round:
		return t <= r+hair
	case p.Curve == nil && p.Shape == job.Eight:
		return math.Hypot(t, t*math.Tan(math.Pi/8)) <= r+hair
	}
	return math.Hypot(t, w) <= r+hair
}

// inCrook lays the piece's outline, and the same so much above it, in the crook at every
// height that might serve and asks whether all of it is wood.
func inCrook(p takeoff.Piece, s rates.Stock, above measure.Length) bool {
	off := s.Bark
	if !p.Sapwood {
		off += s.Sapwood
	}
	length := s.Length - 2*s.EndTrim
	if s.Sweep <= 0 {
		need := p.Width
		if p.Curve != nil {
			need += p.Curve.Sweep
		}
		return need+above <= s.Width-2*off && p.Length <= length
	}
	edge := arc(s.Length, s.Sweep)
	in, out := edge+float64(off), edge+float64(s.Width-off)
	half := math.Asin(math.Min(1, float64(s.Length)/2/edge)) - float64(s.EndTrim)/edge
	shape := outline(p)
	for _, q := range slices.Clone(shape) {
		shape = append(shape, point{q.x, q.y + float64(above)})
	}
	// The lowest height at which no point lies under the inner edge is the best.
	low, high := -2*out, 2*out
	clears := func(up float64) bool {
		for _, q := range shape {
			if q.y+up < 0 || math.Hypot(q.x, q.y+up) < in-hair {
				return false
			}
		}
		return true
	}
	for range 200 {
		if mid := (low + high) / 2; clears(mid) {
			high = mid
		} else {
			low = mid
		}
	}
	for _, q := range shape {
		y := q.y + high
		if math.Hypot(q.x, y) > out+2*hair || math.Abs(math.Atan2(q.x, y)) > half+hair/in {
			return false
		}
	}
	return true
}

type point struct{ x, y float64 }

// outline is points round a piece, its concave edge downward, about the middle.
func outline(p takeoff.Piece) []point {
	const steps = 200
	var out []point
	w := float64(p.Width)
	for i := range steps + 1 {
		at := float64(2*i-steps) / steps
		if p.Curve == nil {
			x := at * float64(p.Length) / 2
			out = append(out, point{x, 0}, point{x, w})
			continue
		}
		ri := arc(p.Curve.Chord, p.Curve.Sweep)
		a := at * math.Asin(math.Min(1, float64(p.Curve.Chord)/2/ri))
		for _, r := range []float64{ri, ri + w} {
			out = append(out, point{r * math.Sin(a), r*math.Cos(a) - ri})
		}
	}
	return out
}
