package drawing

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"futtock/estimate/takeoff"
	"futtock/rates"
)

// A log of 400 mm at its top, 4 m long, that grows 10 mm a metre: a baulk with boards
// under, over and beside it makes five bands, of which two stand on edge.
func TestALogIsDrawnOnItsEndAndBandByBand(t *testing.T) {
	b := newBench(t)
	b.saw("KE1", 0, -100, -100, 3900, 200, 200, nil)
	b.saw("B1", 0, -75, -134, 3900, 150, 30, nil)
	b.saw("B2", 0, -75, 104, 2000, 150, 30, nil)
	b.saw("B3", 0, -134, -80, 3900, 30, 160, nil)
	b.saw("B4", 0, 104, -80, 3900, 30, 160, nil)
	log := rates.Stock{Form: rates.Log, TopDiameter: 400 * one, Taper: 10 * one, Length: 4000 * one, Bark: 10 * one, Sapwood: 20 * one, EndTrim: 50 * one}
	s := b.Draw(log, b.pattern)
	onThePaper(t, b.Frame, s)
	rings := shapes(s, Ring)
	for i, want := range []float64{440, 400, 380, 340} { // butt over bark, top over bark, wood, heart
		from, to := box(rings[i])
		near(t, fmt.Sprint("ring ", i), (to.X-from.X)*float64(s.Scale.End), want)
	}
	from, to := box(rings[2])
	pith := Point{(from.X + to.X) / 2, (from.Y + to.Y) / 2}
	for _, sh := range shapes(s, Section) {
		c := b.pattern.Cuts[sh.Cut]
		from, to := box(sh)
		k := float64(s.Scale.End)
		for _, w := range []struct {
			what      string
			got, want float64
		}{{"across", (from.X - pith.X) * k, mm(c.Across)}, {"through", (pith.Y - to.Y) * k, mm(c.Through)}, {"width", (to.X - from.X) * k, mm(c.Width)}, {"thickness", (to.Y - from.Y) * k, mm(c.Thickness)}} {
			if math.Abs(w.got-w.want) > 0.01 {
				t.Errorf("%s lies %.2f %s from the pith, want %.2f", c.Ref, w.got, w.what, w.want)
			}
		}
	}
	if got := len(shapes(s, Body)); got != 5 {
		t.Errorf("%d bands are laid flat, want 5", got)
	}
	for _, sh := range shapes(s, Piece) {
		c := b.pattern.Cuts[sh.Cut]
		from, to := box(sh)
		near(t, c.Ref+" flat", (to.X-from.X)*float64(s.Scale.Along), mm(c.Length))
		near(t, c.Ref+" wide", (to.Y-from.Y)*float64(s.Scale.Along), math.Max(mm(c.Width), mm(c.Thickness)))
	}
	text := strings.Join(writing(s), "\n")
	for _, want := range []string{"A", "E", "30 mm thick", "134 mm to 104 mm below", "134 mm to 104 mm left", "104 mm to 134 mm right", "30 × 150 mm × 2.00 m"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the drawing:\n%s", want, text)
		}
	}
}

// The outline of a crook holds its pieces: the lowest touches the clear wood over the
// concave edge, at its middle or its ends, and the next lies as far over it as the
// plan says.
func TestACrookIsDrawnInItsOwnBend(t *testing.T) {
	stick := rates.Stock{Form: rates.Crook, Thickness: 160 * one, Width: 400 * one, Length: 2300 * one, Sweep: 300 * one, Bark: 10 * one, Sapwood: 20 * one, EndTrim: 50 * one}
	shape := crookShape(stick)
	for name, c := range map[string]*takeoff.Curve{
		"flatter than the crook": {Chord: 1800 * one, Sweep: 150 * one},
		"more bent":              {Chord: 1800 * one, Sweep: 230 * one},
	} {
		t.Run(name, func(t *testing.T) {
			b := newBench(t)
			b.saw("FR1", 0, 0, 0, 1950, 120, 70, c)
			b.saw("FR2", 0, 130, 0, 1950, 120, 70, c)
			b.saw("FR3", 0, 0, 74, 1950, 120, 70, c)
			s := b.Draw(stick, b.pattern)
			onThePaper(t, b.Frame, s)
			if got := len(shapes(s, Body)); got != 2 {
				t.Fatalf("%d layers are drawn, want 2", got)
			}
			k := float64(s.Scale.Along)
			pieces := shapes(s, Piece)
			body := shapes(s, Body)[0].Path
			// The first step is to an end of the concave edge, which lies half the angle
			// of the crook to the left of its centre.
			centre := Point{body[0].To.X + shape.inner*math.Sin(shape.half)/k, body[0].To.Y + shape.inner*math.Cos(shape.half)/k}
			least := math.Inf(1)
			path := pieces[0].Path
			for i, st := range path {
				if st.Kind == Bend {
					for n := range 21 {
						p := bezier(path[i-1].To, st, float64(n)/20)
						least = math.Min(least, math.Hypot(p.X-centre.X, p.Y-centre.Y)*k)
					}
				}
			}
			near(t, "the least radius of the piece", least, shape.inner+30)
			near(t, "the second over the first", (pieces[0].Path[0].To.Y-pieces[1].Path[0].To.Y)*k, 130)
		})
	}
}

func TestBandsAreNamedOn(t *testing.T) {
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 27: "AB", 52: "BA"} {
		if got := bandName(n); got != want {
			t.Errorf("band %d is %s, want %s", n, got, want)
		}
	}
}

// Two lengths out of the heart of a log: seen from the top the second hides the first,
// and it alone is named on the end.
func TestTheTopEndShowsWhatLiesNearestToIt(t *testing.T) {
	b := newBench(t)
	b.saw("KE1", 0, -100, -100, 2000, 200, 200, nil)
	b.saw("KE2", 2004, -80, -80, 1800, 160, 160, nil)
	s := b.Draw(rates.Stock{Form: rates.Log, TopDiameter: 400 * one, Length: 4000 * one, EndTrim: 50 * one}, b.pattern)
	onThePaper(t, b.Frame, s)
	ends := shapes(s, Section)
	if len(ends) != 2 || ends[0].Cut != 0 || ends[1].Cut != 1 {
		t.Fatalf("the end is painted in the order %v", ends)
	}
	named := map[string]int{}
	for _, text := range writing(s) {
		named[text]++
	}
	if named["KE1"] != 2 || named["KE2"] != 3 { // in its band and the key, and the one seen on the end
		t.Errorf("KE1 is named %d times, want 2; KE2 %d, want 3", named["KE1"], named["KE2"])
	}
}
