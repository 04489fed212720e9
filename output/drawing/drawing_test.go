package drawing

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"futtock/estimate/cutting/order"
	"futtock/estimate/takeoff"
	"futtock/output/letters"
	"futtock/rates"
	"futtock/rates/measure"
)

const one = measure.Millimetre

// box is the oblong round a shape's steps; curves lie within that of their control points.
func box(s Shape) (from, to Point) {
	from, to = Point{math.Inf(1), math.Inf(1)}, Point{math.Inf(-1), math.Inf(-1)}
	take := func(p Point) {
		from = Point{math.Min(from.X, p.X), math.Min(from.Y, p.Y)}
		to = Point{math.Max(to.X, p.X), math.Max(to.Y, p.Y)}
	}
	for _, st := range s.Path {
		switch st.Kind {
		case Bend:
			take(st.C1)
			take(st.C2)
			take(st.To)
		case Move, Straight:
			take(st.To)
		}
	}
	return from, to
}

// bench is a pattern made by hand, its pieces and the frame they are drawn in.
type bench struct {
	Frame
	pattern order.Pattern
}

func newBench(t testing.TB) *bench {
	t.Helper()
	face, err := letters.New()
	if err != nil {
		t.Fatal(err)
	}
	return &bench{Frame: Frame{Type: face, Width: 267, Height: 144, LengthIn: measure.M, SizeIn: measure.Mm, Member: map[string]string{}}, pattern: order.Pattern{Times: 1}}
}

// saw adds a piece where it lies: along, across, through, and length, width, thickness, in mm.
func (b *bench) saw(ref string, along, across, through, length, width, thickness int, curve *takeoff.Curve) {
	at := func(n int) measure.Length { return measure.Length(n) * one }
	own := takeoff.Piece{Ref: ref, Thickness: at(thickness), Width: at(width), Length: at(length), Curve: curve}
	c := order.Cut{Ref: ref, Piece: len(b.Pieces), Along: at(along), Across: at(across), Through: at(through), Length: at(length), Width: at(width), Thickness: at(thickness), Curve: curve}
	if curve != nil {
		c.Width += curve.Sweep
	}
	b.Pieces = append(b.Pieces, own)
	b.pattern.Cuts = append(b.pattern.Cuts, c)
}

func (b *bench) keep(along, across, through, length, width, thickness int) {
	at := func(n int) measure.Length { return measure.Length(n) * one }
	b.pattern.Offcuts = append(b.pattern.Offcuts, order.Offcut{Along: at(along), Across: at(across), Through: at(through), Length: at(length), Width: at(width), Thickness: at(thickness)})
}

// writing is every text of a sketch.
func writing(s Sketch) []string {
	var out []string
	for _, d := range s.Parts {
		for _, sh := range d.Shapes {
			if sh.Text != "" {
				out = append(out, strings.ReplaceAll(sh.Text, "\u00a0", " "))
			}
		}
	}
	return out
}

// onThePaper checks that nothing of a sketch lies off its parts, and no writing is
// smaller than may be read.
func onThePaper(t interface{ Fatalf(string, ...any) }, f Frame, s Sketch) {
	const hair = 0.3 // half a line
	for n, d := range s.Parts {
		if d.Width > f.Width+hair || d.Height > f.Height+hair {
			t.Fatalf("part %d is %.1f x %.1f mm, in a frame of %.0f x %.0f", n, d.Width, d.Height, f.Width, f.Height)
		}
		for _, sh := range d.Shapes {
			if sh.Text != "" {
				w := f.wide(sh.Text, sh.Bold, sh.Size)
				x := sh.At.X - map[Anchor]float64{Middle: w / 2, Right: w}[sh.Anchor]
				if x < -hair || x+w > d.Width+hair || sh.At.Y > d.Height+hair || sh.At.Y-2 < -hair {
					t.Fatalf("part %d of %.0f x %.0f mm: %q stands from %.1f to %.1f at %.1f", n, d.Width, d.Height, sh.Text, x, x+w, sh.At.Y)
				}
				if sh.Size < smallSize {
					t.Fatalf("%q is written in %g point", sh.Text, sh.Size)
				}
				continue
			}
			from, to := box(sh)
			if from.X < -hair || from.Y < -hair || to.X > d.Width+hair || to.Y > d.Height+hair {
				t.Fatalf("part %d of %.0f x %.0f mm: a shape of kind %d lies from %.1f, %.1f to %.1f, %.1f", n, d.Width, d.Height, sh.Of, from.X, from.Y, to.X, to.Y)
			}
		}
	}
}

// shapes is every shape of a kind, in order.
func shapes(s Sketch, of What) []Shape {
	var out []Shape
	for _, d := range s.Parts {
		for _, sh := range d.Shapes {
			if sh.Of == of {
				out = append(out, sh)
			}
		}
	}
	return out
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 0.001*math.Max(1, want) {
		t.Errorf("%s is %.4f mm, want %.4f", what, got, want)
	}
}

// A plank of 4.80 m by 230 mm at 1 to 20 is 240 mm of paper long and 11.5 mm wide; its
// piece of 2.40 m lies 2.5 mm (the trim of 50) from its end.
func TestAPlankIsDrawnToItsScale(t *testing.T) {
	b := newBench(t)
	b.saw("PL1", 0, 0, 0, 2400, 230, 66, nil)
	b.saw("PL2", 2404, 0, 0, 1000, 230, 66, nil)
	b.keep(3408, 0, 0, 1200, 230, 66)
	plank := rates.Stock{Stock: "plank", Form: rates.Plank, Thickness: 70 * one, Width: 230 * one, Length: 4800 * one, EndTrim: 50 * one}
	s := b.Draw(plank, b.pattern)
	onThePaper(t, b.Frame, s)
	if want := (Scale{Along: 20, Across: 20}); s.Scale != want {
		t.Fatalf("scale %+v, want %+v", s.Scale, want)
	}
	from, to := box(shapes(s, Body)[0])
	near(t, "the stick", to.X-from.X, 240)
	near(t, "its width", to.Y-from.Y, 11.5)
	first, end := box(shapes(s, Piece)[0])
	near(t, "the trim", first.X-from.X, 2.5)
	near(t, "the first piece", end.X-first.X, 120)
	cut, far := box(shapes(s, Offcut)[0])
	near(t, "the off-cut", far.X-cut.X, 60)
	near(t, "its place", cut.X-first.X, 3408.0/20)
	text := strings.Join(writing(s), "\n")
	for _, want := range []string{"PL1", "66 × 230 mm × 2.40 m", "66 × 230 mm × 1.00 m", "keep", "66 × 230 mm × 1.20 m", "2.40 m", "3.404 m", "4.608 m", "230 mm"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the drawing:\n%s", want, text)
		}
	}
}

// Strips of 60 mm are 2 mm wide at 1 to 30: the layer is drawn larger across, and the
// heading says so.
func TestNarrowStripsAreDrawnLargerAcross(t *testing.T) {
	b := newBench(t)
	for i := range 3 {
		b.saw(fmt.Sprint("S", i), 0, i*64, 0, 7000, 60, 50, nil)
	}
	s := b.Draw(rates.Stock{Form: rates.Plank, Thickness: 50 * one, Width: 200 * one, Length: 7200 * one, EndTrim: 50 * one}, b.pattern)
	onThePaper(t, b.Frame, s)
	if got, want := b.ScaleText(s.Scale), "scale 1:30 along, 1:15 across"; got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
	for _, p := range shapes(s, Piece) {
		from, to := box(p)
		near(t, "a strip", to.Y-from.Y, 4)
		near(t, "its length", to.X-from.X, 7000.0/30)
	}
}

// A frame of 1.80 m chord and 175 mm sweep, moulded 200 mm: inner radius 1800²/1400 +
// 87.5 = 2401.79 mm; the corners of its concave edge are 1800 mm apart, its middle
// stands 175 mm over them, and its convex edge lies 200 mm further out.
func TestASawnCurveIsDrawnByItsOwnArc(t *testing.T) {
	b := newBench(t)
	b.saw("FR1", 0, 0, 0, 1950, 200, 125, &takeoff.Curve{Chord: 1800 * one, Sweep: 175 * one})
	s := b.Draw(rates.Stock{Form: rates.Flitch, Thickness: 140 * one, Width: 520 * one, Length: 3500 * one, EndTrim: 75 * one}, b.pattern)
	onThePaper(t, b.Frame, s)
	path := shapes(s, Piece)[0].Path
	k := float64(s.Scale.Along)
	corner := []Point{path[0].To}
	var top float64 = math.Inf(1)
	var inner []Point
	for i, st := range path {
		if st.Kind == Straight {
			corner = append(corner, path[i-1].To)
		}
		if st.Kind == Bend {
			from := path[i-1].To
			for n := range 21 {
				f := float64(n) / 20
				p := bezier(from, st, f)
				top = math.Min(top, p.Y)
				if len(corner) == 1 {
					inner = append(inner, p)
				}
			}
		}
	}
	near(t, "the chord", (corner[1].X-corner[0].X)*k, 1800)
	highest := slices.MinFunc(inner, func(a, b Point) int { return int(math.Copysign(1, a.Y-b.Y)) })
	near(t, "the sweep", (corner[0].Y-highest.Y)*k, 175)
	near(t, "the moulding", (highest.Y-top)*k, 200)
	ri := 1800.0*1800/8/175 + 87.5
	centre := Point{(corner[0].X + corner[1].X) / 2, highest.Y + ri/k}
	for _, p := range inner {
		near(t, "a radius", math.Hypot(p.X-centre.X, p.Y-centre.Y)*k, ri)
	}
}

func bezier(from Point, st Step, t float64) Point {
	u := 1 - t
	a, b, c, d := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
	return Point{a*from.X + b*st.C1.X + c*st.C2.X + d*st.To.X, a*from.Y + b*st.C1.Y + c*st.C2.Y + d*st.To.Y}
}

// A baulk resawn into two layers, the upper with an off-cut on it: a face for each, and
// the butt end with what is sawn there.
func TestLayersAreDrawnOneByOne(t *testing.T) {
	b := newBench(t)
	b.saw("KE1", 0, 0, 0, 3000, 300, 140, nil)
	b.saw("KE2", 0, 0, 144, 3000, 140, 156, nil)
	b.saw("KE3", 0, 144, 144, 2000, 140, 156, nil)
	s := b.Draw(rates.Stock{Form: rates.Baulk, Thickness: 300 * one, Width: 300 * one, Length: 4000 * one, EndTrim: 50 * one}, b.pattern)
	onThePaper(t, b.Frame, s)
	text := strings.Join(writing(s), "\n")
	for _, want := range []string{"Layer 1 of 2: 140 mm thick, from 0 mm up", "Layer 2 of 2: 156 mm thick, from 144 mm up", "butt end"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the drawing:\n%s", want, text)
		}
	}
	ends := shapes(s, Section)
	if len(ends) != 3 || s.Scale.End == 0 {
		t.Fatalf("%d pieces on the end at 1:%d, want 3", len(ends), s.Scale.End)
	}
	from, to := box(ends[1])
	near(t, "KE2 across", (to.X-from.X)*float64(s.Scale.End), 140)
	near(t, "KE2 through", (to.Y-from.Y)*float64(s.Scale.End), 156)
}

// Whatever layers, strips and lengths a stick is sawn into, each piece is drawn once on
// its face, to scale and in its place, and every size stands in the key.
func TestEveryPieceIsDrawnInItsPlace(t *testing.T) {
	face := newBench(t)
	rapid.Check(t, func(t *rapid.T) {
		b := &bench{Frame: face.Frame, pattern: order.Pattern{Times: 1}}
		b.Pieces = nil
		if rapid.Bool().Draw(t, "in feet") {
			b.LengthIn, b.SizeIn = measure.Ft, measure.In
		}
		long, wide, thick := rapid.IntRange(600, 12000).Draw(t, "long"), rapid.IntRange(60, 900).Draw(t, "wide"), rapid.IntRange(20, 400).Draw(t, "thick")
		n := 0
		for z := 0; z < thick-15; {
			tk := rapid.IntRange(15, thick-z).Draw(t, "layer")
			for y := 0; y < wide-20; {
				w := rapid.IntRange(20, wide-y).Draw(t, "strip")
				for x := 0; x < long-100; {
					l := rapid.IntRange(100, long-x).Draw(t, "length")
					if n > 60 {
						break
					}
					if n++; rapid.IntRange(0, 5).Draw(t, "kept") == 0 {
						b.keep(x, y, z, l, w, tk)
					} else {
						b.saw(fmt.Sprintf("M%d", rapid.IntRange(1, 12).Draw(t, "ref")), x, y, z, l, w, tk, nil)
					}
					x += l + 4
				}
				y += w + 4
			}
			z += tk + 4
		}
		if len(b.pattern.Cuts) == 0 {
			t.Skip("nothing sawn")
		}
		stick := rates.Stock{Form: rates.Baulk, Thickness: measure.Length(thick) * one, Width: measure.Length(wide) * one, Length: measure.Length(long+100) * one, EndTrim: 50 * one}
		s := b.Draw(stick, b.pattern)
		onThePaper(t, b.Frame, s)
		drawn := map[int]int{}
		for _, sh := range shapes(s, Piece) {
			drawn[sh.Cut]++
			c := b.pattern.Cuts[sh.Cut]
			from, to := box(sh)
			if math.Abs((to.X-from.X)*float64(sh.Scale.Along)-mm(c.Length)) > 0.01 || math.Abs((to.Y-from.Y)*float64(sh.Scale.Across)-mm(c.Width)) > 0.01 {
				t.Fatalf("piece %d is drawn %.2f x %.2f mm at %+v", sh.Cut, to.X-from.X, to.Y-from.Y, sh.Scale)
			}
			if math.Abs((from.X-gutter)*float64(sh.Scale.Along)-mm(c.Along)-50) > 0.01 {
				t.Fatalf("piece %d begins at %.2f", sh.Cut, from.X)
			}
		}
		text := strings.Join(writing(s), "\n")
		for i, c := range b.pattern.Cuts {
			if drawn[i] != 1 {
				t.Fatalf("piece %d is drawn %d times", i, drawn[i])
			}
			if size := strings.ReplaceAll(b.Three(c.Thickness, c.Width, c.Length), "\u00a0", " "); !strings.Contains(text, size) || !strings.Contains(text, c.Ref) {
				t.Fatalf("%s of %s is not told:\n%s", c.Ref, size, text)
			}
		}
		if got := len(shapes(s, Offcut)); got != len(b.pattern.Offcuts) {
			t.Fatalf("%d off-cuts are drawn of %d", got, len(b.pattern.Offcuts))
		}
	})
}

func TestScalesAreThoseOfARule(t *testing.T) {
	b := newBench(t)
	if got := b.scale(7200, 240, 5); got != 30 {
		t.Errorf("7.20 m on 240 mm is drawn 1:%d, want 1:30", got)
	}
	b.LengthIn = measure.Ft
	if got := b.scale(7200, 240, 5); got != 32 {
		t.Errorf("in feet it is drawn 1:%d, want 1:32, three eighths of an inch to the foot", got)
	}
}
