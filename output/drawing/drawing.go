// Package drawing draws how sticks of timber are sawn. A stock line and one
// pattern of its cuts go in; out come shapes in millimetres on paper: outlines
// of lines and arcs with their fill, hatches, and writing with its size and
// place. It knows no painter and no page: whoever paints them says how wide a
// drawing may be and how deep one part of it.
//
// Every figure written is one the plan holds, and every piece, off-cut and stick
// is drawn where the plan lays it, to the scale the drawing carries. A curve is
// drawn by its own arcs, from its chord and sweep, the concave edge of each lying
// toward the lower edge of the stick. A plank of 4.80 m at 1 to 20 is 240 mm of
// paper long.
//
// Places run from the top left corner, to the right and down.
package drawing

import "math"

// Drawing is one part of a drawing, whole by itself.
type Drawing struct {
	Width, Height float64
	Shapes        []Shape
}

// Shape is an outline or a piece of writing.
type Shape struct {
	Of    What
	Cut   int // of a piece or its writing, its place in Pattern.Cuts; of an off-cut in Pattern.Offcuts
	Path  []Step
	Fill  Shade
	Line  Line
	Scale Scale // what it is drawn to, of the stick, its pieces and off-cuts

	Text   string // writing has a text, an outline none
	At     Point  // of writing, the end or middle of its baseline
	Size   float64
	Bold   bool
	Anchor Anchor
}

// What is what a shape stands for.
type What uint8

// The kinds of shape.
const (
	Other   What = iota
	Body         // the outline of the stick as it is bought
	Piece        // a piece seen on its face
	Offcut       // an off-cut worth keeping, seen on its face
	Ring         // a circle on the end of a log
	Section      // a piece seen on its end
)

// Point is a place on the drawing in mm.
type Point struct{ X, Y float64 }

// Step is one step round an outline: a move, a line, or a curve with its two
// control points. The last step of a closed outline is Close.
type Step struct {
	Kind   StepKind
	To     Point
	C1, C2 Point
}

// StepKind is how a step gets there.
type StepKind uint8

// The kinds of step.
const (
	Move StepKind = iota
	Straight
	Bend
	Close
)

// Shade is how dark a filling is; every shade is told from the next in black and white.
type Shade uint8

// The shades.
const (
	Clear Shade = iota // nothing is filled
	White              // of paper: pieces
	Waste              // what is left of a stick
	Sapwood
	Bark
	Ink
)

// Line is how an outline is drawn: its thickness in mm, nil for none.
type Line struct {
	Thick float64
	Dash  bool
}

// The lines in use.
var (
	edge     = Line{Thick: 0.35}
	fine     = Line{Thick: 0.15}
	sawn     = Line{Thick: 0.2, Dash: true}
	hatching = Line{Thick: 0.13}
	stout    = Line{Thick: 0.5}
)

// Anchor is which part of writing stands at its place.
type Anchor uint8

// The anchors.
const (
	Left Anchor = iota
	Middle
	Right
)

// put adds shapes.
func (d *Drawing) put(s ...Shape) { d.Shapes = append(d.Shapes, s...) }

// over lays another drawing on this one with its corner at x, y, and grows to hold it.
func (d *Drawing) over(o Drawing, x, y float64) {
	for _, s := range o.Shapes {
		s.At = Point{s.At.X + x, s.At.Y + y}
		path := make([]Step, len(s.Path))
		for i, st := range s.Path {
			for _, p := range []*Point{&st.To, &st.C1, &st.C2} {
				p.X, p.Y = p.X+x, p.Y+y
			}
			path[i] = st
		}
		s.Path = path
		d.put(s)
	}
	d.Width, d.Height = max(d.Width, x+o.Width), max(d.Height, y+o.Height)
}

// scaled notes the scale of what is drawn.
func (d *Drawing) scaled(s Scale) {
	for i := range d.Shapes {
		d.Shapes[i].Scale = s
	}
}

// polygon is an outline through points, closed.
func polygon(points ...Point) []Step {
	var out []Step
	for i, p := range points {
		kind := Straight
		if i == 0 {
			kind = Move
		}
		out = append(out, Step{Kind: kind, To: p})
	}
	return append(out, Step{Kind: Close})
}

func oblong(x, y, w, h float64) []Step {
	return polygon(Point{x, y}, Point{x + w, y}, Point{x + w, y + h}, Point{x, y + h})
}

// stroke is a line from one place to another.
func stroke(x0, y0, x1, y1 float64, l Line) Shape {
	return Shape{Path: []Step{{Kind: Move, To: Point{x0, y0}}, {Kind: Straight, To: Point{x1, y1}}}, Line: l}
}

// widestBend is the most of a circle one curve stands for: an eighth, on which it
// is out by less than a 200,000th of the radius.
const widestBend = math.Pi / 4

// arc goes round a centre from one angle to another, beginning where the outline
// stands; angles are counted from the right, upward on the paper.
func arc(centre Point, r, from, to float64) []Step {
	n := max(1, int(math.Ceil(math.Abs(to-from)/widestBend)))
	step := (to - from) / float64(n)
	k := 4.0 / 3 * math.Tan(step/4)
	on := func(a, along float64) Point {
		return Point{centre.X + r*(math.Cos(a)-along*math.Sin(a)), centre.Y - r*(math.Sin(a)+along*math.Cos(a))}
	}
	var out []Step
	for i := range n {
		a, b := from+float64(i)*step, from+float64(i+1)*step
		out = append(out, Step{Kind: Bend, C1: on(a, k), C2: on(b, -k), To: on(b, 0)})
	}
	return out
}

// circle is a whole round.
func circle(centre Point, r float64) []Step {
	out := []Step{{Kind: Move, To: Point{centre.X + r, centre.Y}}}
	return append(append(out, arc(centre, r, 0, 2*math.Pi)...), Step{Kind: Close})
}

// sector is the outline of a bent stick: between two radii about a centre, each
// side of upright by half an angle.
func sector(centre Point, inner, outer, half float64) []Step {
	up := math.Pi / 2
	start := Point{centre.X + inner*math.Cos(up+half), centre.Y - inner*math.Sin(up+half)}
	cross := Point{centre.X + outer*math.Cos(up-half), centre.Y - outer*math.Sin(up-half)}
	out := []Step{{Kind: Move, To: start}}
	out = append(out, arc(centre, inner, up+half, up-half)...)
	out = append(out, Step{Kind: Straight, To: cross})
	out = append(out, arc(centre, outer, up-half, up+half)...)
	return append(out, Step{Kind: Close})
}

// hatch is slanting lines over an oblong, so far apart.
func hatch(x, y, w, h, apart float64) []Shape {
	var out []Shape
	for c := apart; c < w+h; c += apart {
		// The line from (x+c, y) down to (x, y+c), cut off by the oblong.
		x0, y0 := x+c, y
		if c > w {
			x0, y0 = x+w, y+c-w
		}
		x1, y1 := x, y+c
		if c > h {
			x1, y1 = x+c-h, y+h
		}
		out = append(out, stroke(x0, y0, x1, y1, hatching))
	}
	return out
}
