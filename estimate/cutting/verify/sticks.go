package verify

import (
	"cmp"
	"math"
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

// sticks checks every pattern of a line.
func (r *reading) sticks(l order.Line) {
	timber, _ := r.book.TimberRow(l.Stock.Timber)
	for n, p := range l.Patterns {
		switch {
		case len(p.Cuts) == 0:
			r.fault("stock %q, pattern %d cuts nothing", l.Stock.Stock, n+1)
		case ripped(l.Stock.Form):
			r.ripped(l.Stock, p, timber.Kerf)
		case l.Stock.Form == rates.Log && r.squared(p):
			r.log(l.Stock, p, timber.Kerf)
		case l.Stock.Form == rates.Crook && len(p.Cuts) > 1:
			r.layers(l.Stock, p, timber.Kerf)
		case len(p.Cuts) > 1:
			r.fault("stock %q gives %d pieces a stick, and is had one a stick", l.Stock.Stock, len(p.Cuts))
		default:
			r.single(l.Stock, p.Cuts[0])
		}
	}
}

// block is a part of a stick: along it, across it and through it.
type block struct{ x0, x1, y0, y1, z0, z1 measure.Length }

// ripped checks one pattern of a sawn stick.
func (r *reading) ripped(s rates.Stock, p order.Pattern, kerf measure.Length) {
	length := s.Length - 2*s.EndTrim
	narrow := s.Taper.Metres().Mul(s.Length.Metres()).Shift(9).InexactFloat64() / 2
	width := s.Width - 2*s.Bark - measure.Length(math.Ceil(narrow))
	for _, c := range p.Cuts {
		r.own(s, c, kerf)
		low, high := s.Sapwood, width-s.Sapwood
		if r.pieces[c.Piece].Sapwood {
			low, high = 0, width
		}
		if c.Along < 0 || c.Along+c.Length > length || c.Across < low || c.Across+c.Width > high {
			r.fault("row %q: a piece at %d along, %d across, %d x %d nm, lies outside the %d x (%d to %d) nm of stock %q",
				c.Ref, c.Along, c.Across, c.Length, c.Width, length, low, high, s.Stock)
		}
		if c.Through < 0 || c.Through+c.Thickness > s.Thickness {
			r.fault("row %q: a piece %d nm thick, %d up through stock %q, lies outside its %d nm", c.Ref, c.Thickness, c.Through, s.Stock, s.Thickness)
		}
		if r.pieces[c.Piece].Heart == job.Boxed {
			r.alone(s, c, p.Cuts)
		}
	}
	blocks := r.nests(p.Cuts, kerf) // of the pieces
	for _, o := range p.Offcuts {
		if o.Along < 0 || o.Across < 0 || o.Through < 0 || o.Length <= 0 || o.Width <= 0 || o.Thickness <= 0 ||
			o.Along+o.Length > length || o.Across+o.Width > width || o.Through+o.Thickness > s.Thickness {
			r.fault("stock %q: an off-cut lies outside it: %+v", s.Stock, o)
		}
		blocks = append(blocks, block{o.Along, o.Along + o.Length, o.Across, o.Across + o.Width, o.Through, o.Through + o.Thickness})
	}
	if !sawable(blocks, kerf) {
		r.fault("stock %q: the pattern of %d pieces cannot be sawn by cuts right across: %+v", s.Stock, len(p.Cuts), p.Cuts)
	}
}

// own checks that a piece is cut in its own sawn size and that the stick is thick enough.
func (r *reading) own(s rates.Stock, c order.Cut, kerf measure.Length) {
	p := r.pieces[c.Piece]
	if c.Thickness > s.Thickness {
		r.fault("row %q: %d nm thick out of stock %q of %d nm", c.Ref, c.Thickness, s.Stock, s.Thickness)
	}
	flat := c.Thickness == p.Thickness && c.Width == p.Width
	edge := c.Thickness == p.Width && c.Width == p.Thickness
	if p.Curve != nil {
		flat = c.Thickness == p.Thickness && c.Curve != nil && *c.Curve == *p.Curve &&
			c.Width >= p.Width+p.Curve.Sweep
		edge = false
		// The convex edge of a square-ended piece is as much longer than the
		// concave as its radius is greater.
		ri := arc(p.Curve.Chord, p.Curve.Sweep)
		got := float64(p.Curve.Chord) * (ri + float64(p.Width)) / ri
		if float64(c.Length) < got-1 {
			flat = false
		}
	}
	if !flat && !edge || c.Length != p.Length || (c.Curve == nil) != (p.Curve == nil) {
		r.fault("row %q: %d x %d x %d nm are cut where %d x %d x %d nm are wanted",
			c.Ref, c.Thickness, c.Width, c.Length, p.Thickness, p.Width, p.Length)
	}
}

// alone checks that nothing lies beside a piece with the heart in it, and that
// it lies about the middle.
func (r *reading) alone(s rates.Stock, c order.Cut, cuts []order.Cut) {
	beside := 0
	for _, o := range cuts {
		if o.Along < c.Along+c.Length && c.Along < o.Along+o.Length {
			beside++
		}
	}
	taper := measure.Length(math.Ceil(float64(s.Taper) * float64(s.Length) / 2 / float64(measure.Metre)))
	off := (s.Width - 2*s.Bark - taper) - (2*c.Across + c.Width)
	up := s.Thickness - (2*c.Through + c.Thickness)
	if beside != 1 || max(off, -off, up, -up) > 1 {
		r.fault("row %q: a piece with the heart boxed in lies %d nm across and %d through from the middle of stock %q with %d others beside it", c.Ref, off/2, up/2, s.Stock, beside-1)
	}
}

// arc is the radius of an arc with a sweep over a chord, in nanometres.
func arc(chord, sweep measure.Length) float64 {
	c, h := float64(chord), float64(sweep)
	return c*c/(8*h) + h/2
}

// nests turns the cuts into the blocks they take: like curves one above the
// other, each clear of the last by the kerf square to the cut, are one block.
func (r *reading) nests(cuts []order.Cut, kerf measure.Length) []block {
	in := slices.Clone(cuts)
	slices.SortStableFunc(in, func(a, b order.Cut) int {
		return cmp.Or(cmp.Compare(a.Through, b.Through), cmp.Compare(a.Along, b.Along), cmp.Compare(a.Across, b.Across))
	})
	var out []block
	var last order.Cut
	for _, c := range in {
		at := block{c.Along, c.Along + c.Length, c.Across, c.Across + c.Width, c.Through, c.Through + c.Thickness}
		n := len(out) - 1
		if n >= 0 && c.Through == last.Through && c.Along == last.Along && c.Across < last.Across+last.Width+kerf && r.nested(last, c, kerf) {
			out[n].y1 = at.y1
		} else {
			out = append(out, at)
		}
		last = c
	}
	return out
}

// nested reports two like curves of which the second clears the first by the
// kerf: the ends of its concave edge, which come nearest, lie that far outside
// the convex edge of the first, and so does its middle.
func (r *reading) nested(a, b order.Cut, kerf measure.Length) bool {
	if a.Curve == nil || b.Curve == nil || *a.Curve != *b.Curve || a.Length != b.Length || a.Thickness != b.Thickness ||
		r.pieces[a.Piece].Width != r.pieces[b.Piece].Width {
		return false
	}
	m := float64(r.pieces[a.Piece].Width)
	ri := arc(a.Curve.Chord, a.Curve.Sweep)
	up := float64(b.Across - a.Across)
	end := math.Hypot(float64(a.Curve.Chord)/2, ri-float64(a.Curve.Sweep)+up)
	return end >= ri+m+float64(kerf)-1 && up >= m+float64(kerf)-1
}

// sawable reports blocks that can be parted, kerf between them, by cuts
// right across what is being cut, again and again.
func sawable(in []block, kerf measure.Length) bool {
	if len(in) <= 1 {
		return true
	}
	for _, span := range []func(block) (measure.Length, measure.Length){
		func(b block) (measure.Length, measure.Length) { return b.z0, b.z1 },
		func(b block) (measure.Length, measure.Length) { return b.y0, b.y1 },
		func(b block) (measure.Length, measure.Length) { return b.x0, b.x1 },
	} {
		if groups := parted(in, kerf, span); len(groups) > 1 {
			for _, g := range groups {
				if !sawable(g, kerf) {
					return false
				}
			}
			return true
		}
	}
	return false
}

// parted is the blocks in groups that cuts square to the span part.
func parted(in []block, kerf measure.Length, span func(block) (measure.Length, measure.Length)) [][]block {
	sorted := slices.Clone(in)
	slices.SortStableFunc(sorted, func(a, b block) int {
		x, _ := span(a)
		y, _ := span(b)
		return cmp.Compare(x, y)
	})
	var groups [][]block
	var end measure.Length
	for i, o := range sorted {
		from, to := span(o)
		if i == 0 || from >= end+kerf {
			groups = append(groups, nil)
		}
		groups[len(groups)-1] = append(groups[len(groups)-1], o)
		if i == 0 || to > end {
			end = to
		}
	}
	return groups
}
