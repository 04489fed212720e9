package drawing

import (
	"fmt"
	"math"
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/rates"
)

// The room a bent stick takes at the most, mm of paper.
const (
	crookWide = 190.0
	crookDeep = 62.0
)

// crook draws a grown crook in its own bend, a face for every layer, its concave
// edge toward you. Pieces lie in the middle of its length, the lowest of a layer as
// far in as its sweep lets it, the others so far above it as the plan says.
func (f Frame) crook(s rates.Stock, p order.Pattern) Sketch {
	k := f.keyOf(p)
	flat := order.Pattern{Cuts: slices.Clone(p.Cuts), Offcuts: p.Offcuts}
	for i, c := range flat.Cuts {
		flat.Cuts[i].Width = f.Pieces[c.Piece].Width
		if c.Curve == nil {
			flat.Cuts[i].Width = c.Width
		}
	}
	shape := crookShape(s)
	wide, rise := shape.size()
	n := max(f.scale(wide, crookWide, 5), f.scale(rise, crookDeep, 5))
	layers := inLayers(flat)
	var blocks []Drawing
	for i, l := range layers {
		title := fmt.Sprintf("%s thick, %s across, sweep %s on %s", f.Size(s.Thickness), f.Size(s.Width), f.Size(s.Sweep), f.Length(s.Length))
		if len(layers) > 1 {
			layer := fmt.Sprintf("Layer %d of %d: %s thick, from %s up", i+1, len(layers), f.Size(l.thickness), f.Size(l.up))
			if i == 0 {
				layer += ". The crook is " + title
			}
			title = layer
		}
		blocks = append(blocks, f.bentFace(s, p, k, l, shape, n, title))
	}
	blocks = append(blocks, f.drawKey(k, f.Width)...)
	return Sketch{Scale{Along: n, Across: n}, f.stack(blocks)}
}

// bend is the shape of a crook in mm of timber: the radius of its concave edge,
// nil for a straight one, and half the angle it spans.
type bend struct {
	inner, half   float64
	width, length float64
}

func crookShape(s rates.Stock) bend {
	b := bend{width: mm(s.Width), length: mm(s.Length)}
	if s.Sweep > 0 {
		h := mm(s.Sweep)
		b.inner = b.length*b.length/(8*h) + h/2
		b.half = math.Asin(math.Min(1, b.length/(2*b.inner)))
		if h > b.length/2 {
			b.half = math.Pi - b.half
		}
	}
	return b
}

// size is how wide the crook is and how far it rises.
func (b bend) size() (wide, rise float64) {
	if b.inner == 0 {
		return b.length, b.width
	}
	outer := b.inner + b.width
	return 2 * outer * math.Sin(math.Min(b.half, math.Pi/2)), outer - b.inner*math.Cos(b.half)
}

// part is the outline of the crook between two heights over its concave edge, its
// ends taken off by so much; low is the middle of the concave edge on the paper.
func (b bend) part(low Point, from, to, end, k float64) []Step {
	if b.inner == 0 {
		return oblong(low.X-(b.length/2-end)*k, low.Y-to*k, (b.length-2*end)*k, (to-from)*k)
	}
	centre := Point{low.X, low.Y + b.inner*k}
	return sector(centre, (b.inner+from)*k, (b.inner+to)*k, b.half-end/b.inner)
}

func (f Frame) bentFace(s rates.Stock, p order.Pattern, key key, l layer, shape bend, n int, title string) Drawing {
	v := view{Frame: f, key: key}
	k := 1 / float64(n)
	wide, rise := shape.size()
	top := 3.6 + numbered + 1
	// The concave edge of the middle stands over that of the ends by the sweep.
	low := Point{gutter + wide*k/2, top + shape.width*k}
	bark, sap := mm(s.Bark), mm(s.Sapwood)
	fill := Waste
	if sap > 0 {
		fill = Sapwood
	}
	if bark > 0 {
		v.back.put(Shape{Of: Body, Path: shape.part(low, 0, shape.width, 0, k), Fill: Bark, Line: edge},
			Shape{Path: shape.part(low, bark, shape.width-bark, 0, k), Fill: fill, Line: fine})
	} else {
		v.back.put(Shape{Of: Body, Path: shape.part(low, 0, shape.width, 0, k), Fill: fill, Line: edge})
	}
	if sap > 0 {
		v.back.put(Shape{Path: shape.part(low, bark+sap, shape.width-bark-sap, 0, k), Fill: Waste, Line: sawn})
	}
	if t := mm(s.EndTrim); t > 0 {
		v.back.put(Shape{Path: shape.part(low, 0, shape.width, t, k), Line: sawn})
	}
	floor := f.seat(s, p, l, shape)
	for _, i := range l.offcuts {
		o := p.Offcuts[i]
		w, h := mm(o.Length)*k, mm(o.Width)*k
		v.keep(low.X-w/2, low.Y-(floor+mm(o.Across))*k-h, w, h, i)
	}
	for _, i := range l.cuts {
		c := p.Cuts[i]
		at := Point{low.X, low.Y - (floor+mm(c.Across))*k}
		if c.Curve == nil {
			w, h := mm(c.Length)*k, mm(c.Width)*k
			v.back.put(Shape{Of: Piece, Cut: i, Path: oblong(at.X-w/2, at.Y-h, w, h), Fill: White, Line: edge})
			v.label(inOblong(at.X-w/2, at.Y-h, w, h), key.piece[i], i)
			continue
		}
		path, room := bent(at, mm(c.Curve.Chord), mm(c.Curve.Sweep), mm(f.Pieces[c.Piece].Width), k)
		v.back.put(Shape{Of: Piece, Cut: i, Path: path, Fill: White, Line: edge})
		v.label(room, key.piece[i], i)
	}
	down := float64(max(0, v.lead(top-1.4, gutter, gutter+wide*k)-1)) * rowDeep
	v.back.scaled(Scale{Along: n, Across: n})
	d := Drawing{}
	d.over(v.back, 0, down)
	d.over(v.front, 0, down)
	d.put(tell(gutter, 2.8, title, plainSize, false, Left))
	d.Width, d.Height = f.Width, top+rise*k+3+down
	return d
}

// seat is how high over the crook's concave edge the middle of a layer lies where
// the plan's across is nil: its lowest piece touches the clear wood there, at its
// middle where it is the flatter of the two and at its ends where it is not.
func (f Frame) seat(s rates.Stock, p order.Pattern, l layer, shape bend) float64 {
	if len(l.cuts) == 0 {
		return mm(s.Bark) + mm(s.Sapwood)
	}
	c := p.Cuts[l.cuts[0]]
	for _, i := range l.cuts {
		if p.Cuts[i].Across < c.Across {
			c = p.Cuts[i]
		}
	}
	off := mm(s.Bark)
	if !f.Pieces[c.Piece].Sapwood {
		off += mm(s.Sapwood)
	}
	up := off - mm(c.Across)
	if c.Curve == nil {
		return up
	}
	chord, sweep := mm(c.Curve.Chord), mm(c.Curve.Sweep)
	if shape.inner == 0 {
		return up + sweep
	}
	inner := chord*chord/(8*sweep) + sweep/2
	clear := shape.inner + off
	if inner >= clear {
		return up
	}
	// The ends of the piece's concave edge lie on the clear edge.
	return up + sweep - (clear - math.Sqrt(math.Max(0, clear*clear-chord*chord/4)))
}
