package drawing

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/rates"
	"futtock/rates/measure"
)

// Room round the face of a stick: for the figures left of it, for its end view
// on the right, above it for numbers, below it for figures.
const (
	gutter   = 17.0
	endRoom  = 42.0
	numbered = 4.2
	figured  = 6.2
	mostFace = 0.6 // of the frame's depth
)

// board draws a plank, baulk or flitch: a face for every layer, the lowest first,
// and the butt end where the stick is resawn or a baulk.
func (f Frame) board(s rates.Stock, p order.Pattern) Sketch {
	k := f.keyOf(p)
	layers := inLayers(p)
	end := s.Form == rates.Baulk || len(layers) > 1
	room := f.Width - gutter - 3
	if end {
		room -= endRoom
	}
	b := board{stock: s, pattern: p, k: k, frame: f, usable: usable(s)}
	b.scale.Along = max(f.scale(mm(s.Length), room, 5), f.scale(mm(s.Width)+narrowed(s), f.Height*mostFace, 5))
	b.scale.Across = b.scale.Along
	var blocks []Drawing
	for n, l := range layers {
		title, across := "", b.across(l)
		switch {
		case len(layers) == 1:
			b.scale.Across = across
		default:
			title = fmt.Sprintf("Layer %d of %d: %s thick, from %s up", n+1, len(layers), f.Size(l.thickness), f.Size(l.up))
			if across != b.scale.Along {
				title += "; " + f.ratio(across) + " across"
			}
		}
		blocks = append(blocks, b.face(l, title, Scale{Along: b.scale.Along, Across: across}))
	}
	if !end {
		return Sketch{b.scale, f.stack(append(blocks, f.drawKey(k, f.Width)...))}
	}
	parts := f.stack(append(blocks, f.drawKey(k, f.Width-endRoom)...))
	b.end(&parts[0])
	return Sketch{b.scale, parts}
}

// board is a sawn stick being drawn.
type board struct {
	frame   Frame
	stock   rates.Stock
	pattern order.Pattern
	k       key
	usable  float64 // mm across, bark off and narrowed by the taper
	scale   Scale
}

// narrowed is how much narrower than in its middle a stick is at the far end, mm.
func narrowed(s rates.Stock) float64 { return mm(s.Taper) * mm(s.Length) / 1000 / 2 }

// usable is the width between the bark, at the far end.
func usable(s rates.Stock) float64 { return mm(s.Width) - 2*mm(s.Bark) - narrowed(s) }

// Narrowest that a strip is drawn where its scale may be chosen, and the widest
// that a stick then is, mm of paper.
const (
	leastStrip = 4.4
	widest     = 30.0
)

// across is the scale across a layer: that along it, but larger where straight
// strips would be too narrow to write in.
func (b board) across(l layer) int {
	least := math.Inf(1)
	for _, n := range l.cuts {
		if b.pattern.Cuts[n].Curve != nil {
			return b.scale.Along
		}
		least = math.Min(least, mm(b.pattern.Cuts[n].Width))
	}
	width := mm(b.stock.Width)
	if len(l.cuts) == 0 || b.stock.Taper > 0 || least/float64(b.scale.Along) >= leastStrip {
		return b.scale.Along
	}
	paper := math.Max(math.Min(leastStrip*width/least, widest), width/float64(b.scale.Along))
	return min(b.scale.Along, b.frame.scale(width, paper, 5))
}

// layer is what is seen on one face: cuts and off-cuts by their places in the
// pattern, none of them over another.
type layer struct {
	cuts, offcuts []int
	up, thickness measure.Length
	top           measure.Length
}

// inLayers parts a pattern into layers by where its pieces lie in the thickness.
// Pieces of one layer that lie over one another go to faces of their own, so that
// every piece is seen.
func inLayers(p order.Pattern) []layer {
	type part struct {
		index   int
		offcut  bool
		c       order.Cut
		nesting bool
	}
	var all []part
	for i, c := range p.Cuts {
		all = append(all, part{i, false, c, c.Curve != nil})
	}
	for i, o := range p.Offcuts {
		all = append(all, part{i, true, order.Cut{Along: o.Along, Across: o.Across, Through: o.Through, Length: o.Length, Width: o.Width, Thickness: o.Thickness}, false})
	}
	slices.SortStableFunc(all, func(a, b part) int { return cmp.Compare(a.c.Through, b.c.Through) })
	hides := func(a, b part) bool {
		if a.nesting && b.nesting && a.c.Through == b.c.Through {
			return false
		}
		return a.c.Along < b.c.Along+b.c.Length && b.c.Along < a.c.Along+a.c.Length && a.c.Across < b.c.Across+b.c.Width && b.c.Across < a.c.Across+a.c.Width
	}
	var out []layer
	var held [][]part
	begin := 0 // first face of the present layer
	for _, a := range all {
		top := a.c.Through + a.c.Thickness
		if n := len(out); n > begin && a.c.Through >= maxTop(out[begin:]) {
			begin = n
		}
		at := begin
		for at < len(out) && slices.ContainsFunc(held[at], func(b part) bool { return hides(a, b) }) {
			at++
		}
		if at == len(out) {
			out = append(out, layer{up: a.c.Through, thickness: a.c.Thickness, top: top})
			held = append(held, nil)
		}
		l := &out[at]
		held[at] = append(held[at], a)
		l.top, l.thickness = max(l.top, top), max(l.thickness, a.c.Thickness)
		if a.offcut {
			l.offcuts = append(l.offcuts, a.index)
		} else {
			l.cuts = append(l.cuts, a.index)
		}
	}
	return out
}

func maxTop(list []layer) measure.Length {
	var top measure.Length
	for _, l := range list {
		top = max(top, l.top)
	}
	return top
}

// face draws one layer as it lies on the saw bench, the lower edge toward you.
func (b board) face(l layer, title string, scale Scale) Drawing {
	v := view{Frame: b.frame, key: b.k}
	kx, ky := 1/float64(scale.Along), 1/float64(scale.Across)
	s := b.stock
	deep := (b.usable + 2*mm(s.Bark) + 2*narrowed(s)) * ky
	right := gutter + mm(s.Length)*kx
	top := numbered
	if title != "" {
		top += 3.6
	}
	low := top + deep - (mm(s.Bark)+narrowed(s))*ky // where across is nil
	x := func(along measure.Length) float64 { return gutter + (mm(s.EndTrim)+mm(along))*kx }
	y := func(across measure.Length) float64 { return low - mm(across)*ky }
	b.body(&v, low, kx, ky)

	var along, across []mark
	along = append(along, mark{x(0), "0"})
	for _, n := range l.offcuts {
		o := b.pattern.Offcuts[n]
		w, h := mm(o.Length)*kx, mm(o.Width)*ky
		v.keep(x(o.Along), y(o.Across+o.Width), w, h, n)
		along = append(along, mark{x(o.Along + o.Length), b.frame.Length(o.Along + o.Length)})
	}
	for _, n := range l.cuts {
		c := b.pattern.Cuts[n]
		along = append(along, mark{x(c.Along + c.Length), b.frame.Length(c.Along + c.Length)})
		if c.Across > 0 {
			across = append(across, mark{y(c.Across), b.frame.Size(c.Across)})
		}
		across = append(across, mark{y(c.Across + c.Width), b.frame.Size(c.Across + c.Width)})
		left, w := x(c.Along), mm(c.Length)*kx
		if c.Curve == nil {
			h := mm(c.Width) * ky
			v.back.put(Shape{Of: Piece, Cut: n, Path: oblong(left, y(c.Across+c.Width), w, h), Fill: White, Line: edge})
			v.label(inOblong(left, y(c.Across+c.Width), w, h), b.k.piece[n], n)
			continue
		}
		path, room := bent(Point{left + w/2, y(c.Across + c.Curve.Sweep)}, mm(c.Curve.Chord), mm(c.Curve.Sweep), mm(b.frame.Pieces[c.Piece].Width), kx)
		v.back.put(Shape{Of: Piece, Cut: n, Path: path, Fill: White, Line: edge})
		v.label(room, b.k.piece[n], n)
	}
	rows := v.lead(top-1.2, gutter, right)
	up := float64(1-rows) * rowDeep
	if rows == 0 {
		up = numbered - 1.6
	}
	bottom := top + deep
	v.below(bottom, 2, min(right+12, b.frame.Width), marks(along))
	v.beside(gutter, top-2, bottom+2, marks(across))
	v.back.scaled(scale)
	d := Drawing{}
	d.over(v.back, 0, -up)
	d.over(v.front, 0, -up)
	if title != "" {
		d.put(tell(gutter, 2.8, title, plainSize, true, Left))
	}
	d.Width, d.Height = b.frame.Width, bottom+figured-up
	return d
}

// body draws the stick as bought: bark and sapwood along its edges, its ends
// beyond the trimming.
func (b board) body(v *view, low, kx, ky float64) {
	s := b.stock
	x0, x1 := gutter, gutter+mm(s.Length)*kx
	n := narrowed(s)
	// An outline so far outside the usable width at either edge: the butt is
	// wider on both sides by what the taper takes.
	at := func(out float64) []Step {
		return polygon(Point{x0, low + (out+n)*ky}, Point{x1, low + out*ky}, Point{x1, low - (b.usable+out)*ky}, Point{x0, low - (b.usable+out+n)*ky})
	}
	fill := Waste
	if s.Sapwood > 0 {
		fill = Sapwood
	}
	if s.Bark > 0 {
		v.back.put(Shape{Of: Body, Path: at(mm(s.Bark)), Fill: Bark, Line: edge}, Shape{Path: at(0), Fill: fill, Line: fine})
	} else {
		v.back.put(Shape{Of: Body, Path: at(0), Fill: fill, Line: edge})
	}
	if s.Sapwood > 0 {
		v.back.put(Shape{Path: at(-mm(s.Sapwood)), Fill: Waste, Line: sawn})
	}
	if s.EndTrim > 0 {
		t := mm(s.EndTrim) * kx
		up, down := low-(b.usable+mm(s.Bark)+n)*ky-0.8, low+(mm(s.Bark)+n)*ky+0.8
		v.back.put(stroke(x0+t, up, x0+t, down, sawn), stroke(x1-t, up, x1-t, down, sawn))
	}
}

// keep draws an off-cut that is kept, hatched, with its size where there is room.
func (v *view) keep(x, y, w, h float64, n int) {
	v.back.put(Shape{Of: Offcut, Cut: n, Path: oblong(x, y, w, h), Fill: White, Line: fine})
	v.back.put(hatch(x, y, w, h, 1.8)...)
	e := v.key.entries[v.key.offcut[n]]
	for _, text := range []string{e.name + " " + e.size, v.key.short(v.key.offcut[n])} {
		if wide := v.wide(text, false, smallSize) + 1.4; wide <= w && h >= leastDeep+0.6 {
			v.front.put(Shape{Path: oblong(x+(w-wide)/2, y+h/2-1.45, wide, 2.9), Fill: White}, centred(x+w/2, y+h/2, text, smallSize, false))
			return
		}
	}
	v.leaders = append(v.leaders, leader{Point{x + w/2 + v.aside(w), y + h/2}, v.key.number(v.key.offcut[n]), n})
}

// bent is the outline of a sawn curve and the room in it: the middle of its
// concave edge at low, its sizes in mm of timber, k mm of paper for one of timber.
func bent(low Point, chord, sweep, moulded, k float64) ([]Step, place) {
	inner := chord*chord/(8*sweep) + sweep/2
	half := math.Asin(math.Min(1, chord/(2*inner)))
	if sweep > chord/2 {
		half = math.Pi - half
	}
	centre := Point{low.X, low.Y + inner*k}
	return sector(centre, inner*k, (inner+moulded)*k, half), inArc(low, moulded*k, (inner+moulded)*k, chord*k)
}

// end draws the butt end of the stick beside its first face, with what is sawn there.
func (b *board) end(to *Drawing) {
	s := b.stock
	b.scale.End = b.frame.scale(mm(s.Width)+narrowed(s), endRoom-14, 5)
	for mm(s.Thickness)/float64(b.scale.End) > 26 {
		b.scale.End = b.frame.scale(mm(s.Width)+narrowed(s), endRoom-14, b.scale.End+1)
	}
	k := 1 / float64(b.scale.End)
	v := view{Frame: b.frame, key: b.k}
	w0, h0 := (mm(s.Width)+narrowed(s))*k, mm(s.Thickness)*k
	x0, y0 := b.frame.Width-2-math.Max(w0, 12)/2-w0/2, 5.0
	v.back.put(Shape{Path: oblong(x0, y0, w0, h0), Fill: Waste, Line: edge})
	low := x0 + (mm(s.Bark)+narrowed(s))*k
	if s.Bark > 0 {
		v.back.put(stroke(x0+mm(s.Bark)*k, y0, x0+mm(s.Bark)*k, y0+h0, stout), stroke(x0+w0-mm(s.Bark)*k, y0, x0+w0-mm(s.Bark)*k, y0+h0, stout))
	}
	if s.Sapwood > 0 {
		t := (mm(s.Bark) + mm(s.Sapwood)) * k
		v.back.put(stroke(x0+t, y0, x0+t, y0+h0, sawn), stroke(x0+w0-t, y0, x0+w0-t, y0+h0, sawn))
	}
	first := firstAlong(b.pattern)
	section := func(across, through, width, thickness measure.Length) (x, y, w, h float64) {
		return low + mm(across)*k, y0 + h0 - mm(through+thickness)*k, mm(width) * k, mm(thickness) * k
	}
	for _, o := range b.pattern.Offcuts {
		if o.Along == first {
			x, y, w, h := section(o.Across, o.Through, o.Width, o.Thickness)
			v.back.put(Shape{Path: oblong(x, y, w, h), Fill: White, Line: fine})
			v.back.put(hatch(x, y, w, h, 1.8)...)
		}
	}
	for n, c := range b.pattern.Cuts {
		if c.Along == first {
			x, y, w, h := section(c.Across, c.Through, c.Width, c.Thickness)
			v.back.put(Shape{Of: Section, Cut: n, Path: oblong(x, y, w, h), Fill: White, Line: edge})
			v.label(inOblong(x, y, w, h), b.k.piece[n], n)
		}
	}
	v.leaders = nil
	v.front.put(tell(x0+w0/2, y0+h0+3.4, "butt end", smallSize, false, Middle))
	d := Drawing{}
	d.over(v.back, 0, 0)
	d.over(v.front, 0, 0)
	to.over(d, 0, 0)
	to.Height = max(to.Height, y0+h0+5)
}

// firstAlong is where the pieces nearest to the butt begin.
func firstAlong(p order.Pattern) measure.Length {
	var first measure.Length
	for i, c := range p.Cuts {
		if i == 0 || c.Along < first {
			first = c.Along
		}
	}
	return first
}
