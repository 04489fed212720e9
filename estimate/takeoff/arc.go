package takeoff

import (
	"fmt"
	"math"

	"futtock/rates/measure"
)

// Curve is the geometry of a sawn curved piece of sawn moulding m: its concave
// edge is an arc of radius Inner over the chord Chord. The ends are cut square
// to the edge, so that the convex edge, of radius Inner + m, is the longer one
// and fixes the length got. All figures come from Chord and Sweep.
type Curve struct {
	Inner measure.Length // radius of the concave edge, to the nearest 0.01 mm; of a flatter one than 10 km, 10 km
	Chord measure.Length // of the concave edge
	Sweep measure.Length // of the concave edge over that chord
}

// curveOver is the curve of a sweep over a chord.
func curveOver(chord, sweep measure.Length) Curve {
	inner := math.Min(radius(chord, sweep), float64(measure.MaxLength))
	return Curve{Inner: measure.Length(math.Round(inner/float64(step))) * step, Chord: chord, Sweep: sweep}
}

// LengthGot is the length of stock, ends square, that a piece of moulding m
// takes: the chord of its convex edge, c R / ri, rounded up to 0.01 mm.
func (c Curve) LengthGot(m measure.Length) measure.Length {
	return up(float64(c.Chord) * (1 + float64(m)/radius(c.Chord, c.Sweep)))
}

// NestedWidth is the width of stock that k alike pieces of moulding m take one
// above the other, parted by cuts of the kerf given, rounded up to 0.01 mm:
//
//	m + h + (k-1)(p + kerf / cos a), p = sqrt(R2 - c2/4) - (ri - h), sin a = c / 2ri
//
// One piece of 0.25 m with its convex edge on a radius of 3 m and 2.4 m got
// takes 0.4796 m. It panics on fewer pieces than one.
func (c Curve) NestedWidth(m, kerf measure.Length, k int) measure.Length {
	if k < 1 {
		panic(fmt.Sprintf("takeoff: the width of %d pieces", k))
	}
	chord, sweep := float64(c.Chord), float64(c.Sweep)
	inner := radius(c.Chord, c.Sweep)
	width := float64(m) + sweep
	if k > 1 {
		// R less its own sagitta, less ri less h, without taking one great radius from another.
		pitch := float64(m) + sweep - sagitta(inner+float64(m), chord)
		cos := math.Sqrt(math.Max(0, 1-square(chord/(2*inner))))
		if kerf > 0 {
			pitch += float64(kerf) / cos
		}
		width += float64(k-1) * pitch
	}
	return up(width)
}

// part is the curve of a length round this one's concave edge, chord and sweep
// rounded up to 0.01 mm. It returns false where that is more than half a circle.
func (c Curve) part(along measure.Length) (Curve, bool) {
	inner := radius(c.Chord, c.Sweep)
	if float64(along) > math.Pi*inner+float64(step) { // round may have added a step to half a circle
		return Curve{}, false
	}
	chord := up(2 * inner * math.Sin(float64(along)/(2*inner)))
	rise := sagitta(inner, float64(chord))
	return curveOver(chord, up(rise)), true
}

// round is the length round the concave edge over a chord of it, rounded up to
// 0.01 mm: what is jointed end to end follows the edge, not the chord.
func (c Curve) round(chord measure.Length) measure.Length {
	inner := radius(c.Chord, c.Sweep)
	return up(2 * inner * math.Asin(math.Min(1, float64(chord)/(2*inner))))
}

// step is 0.01 mm, to which the lengths reckoned here are rounded up.
const step = 10 * measure.Micrometre

// up turns nanometres reckoned in floating point into a length, rounded up to
// 0.01 mm. What lies less than a nanometre above a step is noise, not wood.
// Figures beyond any ship are held at twice MaxLength, which no stick has.
func up(nm float64) measure.Length {
	if math.IsNaN(nm) {
		panic("takeoff: a length that is no number")
	}
	most := 2 * float64(measure.MaxLength)
	return measure.Length(math.Ceil((math.Min(nm, most)-1)/float64(step))) * step
}

// radius is the radius, in nanometres, of an arc with a sweep over a chord: c2/8h + h/2.
func radius(chord, sweep measure.Length) float64 {
	c, h := float64(chord), float64(sweep)
	return c*c/(8*h) + h/2
}

// sagitta is the rise of an arc of radius r over a chord, r - sqrt(r2 - c2/4),
// in the form that keeps its figures where the arc is flat.
func sagitta(r, chord float64) float64 {
	q := chord * chord / 4
	return q / (r + math.Sqrt(math.Max(0, r*r-q)))
}

// bevelled is a width with what a bevel in degrees adds to it over the sided
// way, width + sided x tan(bevel), rounded up to 0.01 mm. It panics on a bevel
// past the square, which reading refuses.
func bevelled(width, sided measure.Length, degrees float64) measure.Length {
	if degrees >= 90 {
		panic(fmt.Sprintf("takeoff: a bevel of %f degrees", degrees))
	}
	return up(float64(width) + float64(sided)*math.Tan(degrees*math.Pi/180))
}

func square(x float64) float64 { return x * x }
