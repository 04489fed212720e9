package verify

import (
	"math"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

// squared reports a pattern of straight square pieces, which are sawn from a log; round
// and curved work takes a log to itself.
func (r *reading) squared(p order.Pattern) bool {
	for _, c := range p.Cuts {
		if k := r.pieces[c.Piece]; k.Curve != nil || k.Shape != job.Square {
			return false
		}
	}
	return true
}

// log checks one pattern of a round log, whose cuts are measured from the pith.
func (r *reading) log(s rates.Stock, p order.Pattern, kerf measure.Length) {
	length := s.Length - 2*s.EndTrim
	var blocks []block
	for _, c := range p.Cuts {
		k := r.pieces[c.Piece]
		flat := c.Thickness == k.Thickness && c.Width == k.Width
		if edge := c.Thickness == k.Width && c.Width == k.Thickness; !flat && !edge || c.Length != k.Length {
			r.fault("row %q: %d x %d x %d nm are cut where %d x %d x %d nm are wanted", c.Ref, c.Thickness, c.Width, c.Length, k.Thickness, k.Width, k.Length)
		}
		if c.Along < 0 || c.Along+c.Length > length {
			r.fault("row %q: a piece from %d to %d nm along lies outside the %d nm of stock %q", c.Ref, c.Along, c.Along+c.Length, length, s.Stock)
		}
		// The wood is narrowest at the end of the piece that is nearer the top.
		clear := radiusAt(s, length-c.Along-c.Length, k.Sapwood)
		x := math.Max(math.Abs(float64(c.Across)), math.Abs(float64(c.Across+c.Width)))
		y := math.Max(math.Abs(float64(c.Through)), math.Abs(float64(c.Through+c.Thickness)))
		if math.Hypot(x, y) > clear+hair {
			r.fault("row %q: a corner lies %.0f nm from the pith of stock %q, where %.0f are clear", c.Ref, math.Hypot(x, y), s.Stock, clear)
		}
		inside := c.Across < 0 && c.Across+c.Width > 0 && c.Through < 0 && c.Through+c.Thickness > 0
		if k.Heart == job.Boxed && !inside || k.Heart == job.Free && inside {
			r.fault("row %q: a piece whose heart is to be %s lies at %d across and %d through of stock %q", c.Ref, k.Heart, c.Across, c.Through, s.Stock)
		}
		blocks = append(blocks, block{c.Along, c.Along + c.Length, c.Across, c.Across + c.Width, c.Through, c.Through + c.Thickness})
	}
	if !sawable(blocks, kerf) {
		r.fault("stock %q: the pattern of %d pieces cannot be sawn by cuts right across: %+v", s.Stock, len(p.Cuts), p.Cuts)
	}
}

// radiusAt is the radius of the wood so far from the top, bark off, and sapwood too
// unless it is allowed, in nanometres.
func radiusAt(s rates.Stock, down measure.Length, sapwood bool) float64 {
	taper := s.Taper.Metres().InexactFloat64() / 2
	out := float64(s.TopDiameter)/2 + taper*float64(down)
	if s.TopDiameter == 0 {
		out = float64(s.MidGirth)/(2*math.Pi) + taper*(float64(down)-float64(s.Length)/2)
	}
	out -= float64(s.Bark)
	if !sapwood {
		out -= float64(s.Sapwood)
	}
	return out
}

// layers checks one pattern of a crook sawn through and through: like curves lie nested in
// a layer, in the sweep of the crook, and a saw-cut parts the layers.
func (r *reading) layers(s rates.Stock, p order.Pattern, kerf measure.Length) {
	var blocks []block
	for i := 0; i < len(p.Cuts); {
		first, k := p.Cuts[i], r.pieces[p.Cuts[i].Piece]
		last := first
		for i++; i < len(p.Cuts) && p.Cuts[i].Through == first.Through; i++ {
			if !r.nested(last, p.Cuts[i], kerf) {
				r.fault("row %q: a piece %d nm across does not clear the one at %d in stock %q", p.Cuts[i].Ref, p.Cuts[i].Across, last.Across, s.Stock)
			}
			last = p.Cuts[i]
		}
		for _, c := range []order.Cut{first, last} {
			if own := r.pieces[c.Piece]; c.Curve == nil || own.Curve == nil || *c.Curve != *own.Curve || c.Length != own.Length || c.Thickness != own.Thickness || c.Along != 0 {
				r.fault("row %q: a piece is not cut in its own size from stock %q", c.Ref, s.Stock)
			}
		}
		if first.Through < 0 || first.Through+first.Thickness > s.Thickness || k.Curve == nil || !inCrook(k, s, last.Across-first.Across) {
			r.fault("row %q: %d to %d nm across, %d nm up, do not lie within a crook of %q", first.Ref, first.Across, last.Across, first.Through, s.Stock)
		}
		blocks = append(blocks, block{0, 1, 0, 1, first.Through, first.Through + first.Thickness})
	}
	if !sawable(blocks, kerf) {
		r.fault("stock %q: the layers of a crook are not a saw-cut apart", s.Stock)
	}
}
