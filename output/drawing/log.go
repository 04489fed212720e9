package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

// Room on the drawing of a log, mm of paper.
const (
	logEnd  = 80.0 // the end, with the letters of the bands round it
	logName = 44.0 // what stands left of a band
	around  = 7.0  // round the end, for letters
)

// cone is the log under bark, in mm: the radius of the wood at a distance from the
// butt. The top diameter is that at the far end; without one it follows from the
// mid girth.
type cone struct{ top, taper, length, bark float64 }

func coneOf(s rates.Stock) cone {
	c := cone{mm(s.TopDiameter) / 2, mm(s.Taper) / 1000 / 2, mm(s.Length), mm(s.Bark)}
	if s.TopDiameter == 0 {
		c.top = mm(s.MidGirth)/(2*math.Pi) - c.taper*c.length/2
	}
	c.top -= c.bark
	return c
}

func (c cone) radius(fromButt float64) float64 { return c.top + c.taper*(c.length-fromButt) }

// wide is half the width of a plane so far from the pith.
func (c cone) wide(fromButt, off float64) float64 {
	r := c.radius(fromButt)
	return math.Sqrt(math.Max(0, r*r-off*off))
}

// log draws a log: its top end with bark, sapwood and every piece, and beside it
// each band it is sawn into, laid flat.
func (f Frame) log(s rates.Stock, p order.Pattern) Sketch {
	p = f.placed(p)
	g := logged{frame: f, stock: s, pattern: p, k: f.keyOf(p), cone: coneOf(s), bands: inBands(p)}
	butt := 2 * (g.cone.radius(0) + g.cone.bark)
	g.scale.End = f.scale(butt, logEnd-2*around, 5)
	g.scale.Along = f.scale(mm(s.Length), f.Width-logEnd-logName-6, 5)
	g.scale.Across = g.scale.Along
	var blocks []Drawing
	for n := range g.bands {
		blocks = append(blocks, g.band(n))
	}
	parts := f.stack(blocks)
	for i := range parts {
		moved := Drawing{}
		moved.over(parts[i], logEnd, 0)
		parts[i] = moved
	}
	parts[0].over(g.end(), 0, 0)
	parts = append(parts, f.drawKey(g.k, f.Width)...)
	return Sketch{g.scale, f.stack(parts)}
}

// logged is a log being drawn.
type logged struct {
	frame   Frame
	stock   rates.Stock
	pattern order.Pattern
	k       key
	cone    cone
	bands   []band
	scale   Scale
}

// end draws the top end, seen from the top: the pieces where the plan lays them
// from the pith, the rings of the top whole and that of the butt dashed.
func (g *logged) end() Drawing {
	v := view{Frame: g.frame, key: g.k}
	k := 1 / float64(g.scale.End)
	outer := (g.cone.radius(0) + g.cone.bark) * k
	pith := Point{around + outer, around + outer}
	top := g.cone.top * k
	ring := func(r float64, fill Shade, l Line) {
		if r > 0 {
			v.back.put(Shape{Of: Ring, Path: circle(pith, r), Fill: fill, Line: l})
		}
	}
	ring(outer, Clear, sawn)
	if g.cone.bark > 0 {
		ring(top+g.cone.bark*k, Bark, edge)
	}
	if sap := mm(g.stock.Sapwood) * k; sap > 0 {
		ring(top, Sapwood, fine)
		ring(top-sap, Waste, fine)
	} else {
		ring(top, Waste, edge)
	}
	for n, b := range g.bands {
		name := bandName(n)
		if b.turned {
			for _, a := range []measure.Length{b.x0, b.x1} {
				x := pith.X + mm(a)*k
				v.back.put(stroke(x, pith.Y-mm(b.z1)*k-1, x, pith.Y-mm(b.z0)*k+1, sawn))
			}
			at := pith.X + mm(b.x0+b.x1)/2*k
			v.front.put(centred(at, pith.Y-outer-3, name, plainSize, true),
				stroke(at, pith.Y-outer-1.2, at, pith.Y-math.Sqrt(math.Max(0, outer*outer-(at-pith.X)*(at-pith.X))), fine))
			continue
		}
		for _, z := range []measure.Length{b.z0, b.z1} {
			y := mm(z) * k
			half := math.Sqrt(math.Max(0, outer*outer-y*y)) + 1
			v.back.put(stroke(pith.X-half, pith.Y-y, pith.X+half, pith.Y-y, sawn))
		}
		y := mm(b.z0+b.z1) / 2 * k
		v.front.put(centred(pith.X+math.Sqrt(math.Max(0, outer*outer-y*y))+4, pith.Y-y, name, plainSize, true))
	}
	for _, i := range g.fromTheButt() {
		c := g.pattern.Cuts[i]
		x, y, w, h := pith.X+mm(c.Across)*k, pith.Y-mm(c.Through+c.Thickness)*k, mm(c.Width)*k, mm(c.Thickness)*k
		v.back.put(Shape{Of: Section, Cut: i, Path: oblong(x, y, w, h), Fill: White, Line: edge})
		if y < pith.Y && pith.Y < y+h && x < pith.X && pith.X < x+w { // clear of the pith
			if below := y + h - pith.Y - 1; below > 2*leastDeep {
				y, h = pith.Y+1, below
			} else {
				x, w = pith.X+2, x+w-pith.X-2
			}
		}
		if g.seen(i) {
			v.label(inOblong(x, y, w, h), g.k.piece[i], i)
		}
	}
	if len(v.leaders) > 12 {
		v.leaders = nil // the bands beside it show every piece
	}
	v.lead(2.8, 2, logEnd-2)
	v.front.put(stroke(pith.X-2, pith.Y, pith.X+2, pith.Y, fine), stroke(pith.X, pith.Y-2, pith.X, pith.Y+2, fine))
	text := "top end; butt dashed"
	if g.scale.End > 0 && g.cone.taper == 0 {
		text = "end"
	}
	v.front.put(tell(pith.X, pith.Y+outer+4.5, text, smallSize, false, Middle))
	v.back.scaled(Scale{Along: g.scale.End, Across: g.scale.End})
	d := Drawing{}
	d.over(v.back, 0, 0)
	d.over(v.front, 0, 0)
	d.Width, d.Height = logEnd, pith.Y+outer+7
	return d
}

// fromTheButt is the cuts in the order in which they hide one another seen from the
// top: those nearest to it last.
func (g *logged) fromTheButt() []int {
	var out []int
	for i := range g.pattern.Cuts {
		out = append(out, i)
	}
	slices.SortStableFunc(out, func(a, b int) int { return cmp.Compare(g.pattern.Cuts[a].Along, g.pattern.Cuts[b].Along) })
	return out
}

// seen reports a cut that none nearer to the top hides any of.
func (g *logged) seen(i int) bool {
	c := g.pattern.Cuts[i]
	return !slices.ContainsFunc(g.pattern.Cuts, func(o order.Cut) bool {
		return o.Along > c.Along && o.Across < c.Across+c.Width && c.Across < o.Across+o.Width && o.Through < c.Through+c.Thickness && c.Through < o.Through+o.Thickness
	})
}

// band draws one band laid flat: the wood of its narrower face, and its pieces.
func (g *logged) band(n int) Drawing {
	b := g.bands[n]
	v := view{Frame: g.frame, key: g.k}
	k := 1 / float64(g.scale.Along)
	lo, hi, off0, off1 := mm(b.x0), mm(b.x1), b.z0, b.z1
	if b.turned {
		lo, hi, off0, off1 = mm(b.z0), mm(b.z1), b.x0, b.x1
	}
	off := math.Max(math.Abs(mm(off0)), math.Abs(mm(off1)))
	half := math.Max(g.cone.wide(0, off)+g.cone.bark, math.Max(-lo, hi)) * k
	middle := numbered - 1 + half
	x := func(fromButt float64) float64 { return logName + fromButt*k }
	g.wood(&v, off, middle, k)
	if t := mm(g.stock.EndTrim); t > 0 {
		for _, at := range []float64{t, g.cone.length - t} {
			v.back.put(stroke(x(at), middle-half, x(at), middle+half, sawn))
		}
	}
	v.back.put(stroke(x(0)-1.5, middle, x(0)+1.5, middle, fine), stroke(x(g.cone.length)-1.5, middle, x(g.cone.length)+1.5, middle, fine))
	trim := mm(g.stock.EndTrim)
	along := []mark{{x(trim), "0"}}
	for _, i := range b.offcuts {
		o := g.pattern.Offcuts[i]
		from, wide := o.Across, o.Width
		if b.turned {
			from, wide = o.Through, o.Thickness
		}
		v.keep(x(trim+mm(o.Along)), middle-mm(from+wide)*k, mm(o.Length)*k, mm(wide)*k, i)
		along = append(along, mark{x(trim + mm(o.Along+o.Length)), g.frame.Length(o.Along + o.Length)})
	}
	for _, i := range b.cuts {
		c := g.pattern.Cuts[i]
		from, wide := c.Across, c.Width
		if b.turned {
			from, wide = c.Through, c.Thickness
		}
		px, py, w, h := x(trim+mm(c.Along)), middle-mm(from+wide)*k, mm(c.Length)*k, mm(wide)*k
		along = append(along, mark{x(trim + mm(c.Along+c.Length)), g.frame.Length(c.Along + c.Length)})
		if c.Curve != nil {
			path, room := bent(Point{px + w/2, py + h - mm(c.Curve.Sweep)*k}, mm(c.Curve.Chord), mm(c.Curve.Sweep), mm(g.frame.Pieces[c.Piece].Width), k)
			v.back.put(Shape{Of: Piece, Cut: i, Path: path, Fill: White, Line: edge})
			v.label(room, g.k.piece[i], i)
			continue
		}
		v.back.put(Shape{Of: Piece, Cut: i, Path: oblong(px, py, w, h), Fill: White, Line: edge})
		v.label(inOblong(px, py, w, h), g.k.piece[i], i)
	}
	down := float64(max(0, v.lead(middle-half-0.8, x(0), x(g.cone.length))-1)) * rowDeep
	v.below(middle+half, x(0)-4, x(g.cone.length)+6, marks(along))
	v.front.put(tell(0, middle-0.4, bandName(n), 11, true, Left), tell(6, middle-0.9, g.frame.Size(off1-off0)+" thick", plainSize, false, Left),
		tell(6, middle+2.6, g.where(b, off0, off1), smallSize, false, Left))
	v.back.scaled(Scale{Along: g.scale.Along, Across: g.scale.Along})
	d := Drawing{}
	d.over(v.back, 0, down)
	d.over(v.front, 0, down)
	d.Width, d.Height = x(g.cone.length)+3, middle+half+figured+0.5+down
	return d
}

// wood is the outline of the band's narrower face, from the butt to where there is
// wood no more, and the sapwood within it.
func (g *logged) wood(v *view, off, middle, k float64) {
	const steps = 24
	outline := func(in float64) []Step {
		var up, down []Point
		for i := range steps + 1 {
			at := g.cone.length * float64(i) / steps
			r := g.cone.radius(at) + in
			w := math.Sqrt(math.Max(0, r*r-off*off)) * k
			up = append(up, Point{logName + at*k, middle - w})
			down = append(down, Point{logName + at*k, middle + w})
		}
		for i := len(down) - 1; i >= 0; i-- {
			up = append(up, down[i])
		}
		return polygon(up...)
	}
	sap := mm(g.stock.Sapwood)
	fill := Waste
	if sap > 0 {
		fill = Sapwood
	}
	if g.cone.bark > 0 {
		v.back.put(Shape{Of: Body, Path: outline(g.cone.bark), Fill: Bark, Line: fine}, Shape{Path: outline(0), Fill: fill, Line: fine})
	} else {
		v.back.put(Shape{Of: Body, Path: outline(0), Fill: fill, Line: edge})
	}
	if sap > 0 {
		v.back.put(Shape{Path: outline(-sap), Fill: Waste, Line: sawn})
	}
}

// where says how far from the pith a band lies.
func (g *logged) where(b band, from, to measure.Length) string {
	low, high := "below", "above"
	if b.turned {
		low, high = "left", "right"
	}
	size := g.frame.Size
	switch {
	case from >= 0:
		return fmt.Sprintf("%s to %s %s", size(from), size(to), high)
	case from == -to:
		return "its middle on the pith"
	case to <= 0:
		return fmt.Sprintf("%s to %s %s", size(-from), size(-to), low)
	}
	return fmt.Sprintf("%s %s, %s %s", size(-from), low, size(to), high)
}

// placed is the pattern with a rounded or curved piece, which a log gives alone and
// the plan leaves unplaced, about the pith; with the heart kept out, beside it.
func (f Frame) placed(p order.Pattern) order.Pattern {
	p.Cuts = slices.Clone(p.Cuts)
	for i := range p.Cuts {
		c := &p.Cuts[i]
		own := f.Pieces[c.Piece]
		if c.Curve == nil && own.Shape != job.Round && own.Shape != job.Eight {
			continue
		}
		c.Across, c.Through = -c.Width/2, -c.Thickness/2
		if own.Heart == job.Free {
			c.Through = 0
		}
	}
	return p
}
