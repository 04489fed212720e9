package log

import (
	"cmp"
	"math"
	"slices"
)

// stage is what a strip is worth whose farthest corner lies no farther from the
// pith. The stages of a strip come by falling distance and rising worth.
type stage struct {
	corner float64 // nanometres
	worth  int64
	end    int32 // node of its lengths
	sap    bool
}

// stages turns runs by length into stages by distance.
func (w *sweep) stages(to []stage, r relation, at, width int) []stage {
	to = to[:0]
	for _, sapwood := range []bool{false, true} {
		if sapwood && (!w.sap || w.log.Sapwood == 0) {
			continue
		}
		for _, run := range w.runs[set(r, sapwood)][at][width] {
			if corner := w.corner(run.length-w.shop.Kerf, sapwood); corner > 0 {
				to = append(to, stage{corner, run.worth, run.end, sapwood})
			}
		}
	}
	slices.SortStableFunc(to, func(a, b stage) int {
		return cmp.Or(cmp.Compare(b.corner, a.corner), cmp.Compare(b.worth, a.worth))
	})
	out := to[:0]
	best := int64(0)
	for _, s := range to {
		if s.worth > best {
			best = s.worth
			out = append(out, s)
		}
	}
	return out
}

// corner is how far from the pith a strip may reach that is so long; nil where the
// log is shorter.
func (w *sweep) corner(length int64, sapwood bool) float64 {
	if length > w.log.Length {
		return 0
	}
	along := float64(w.log.Length - max(0, length))
	d := float64(w.log.Top) + float64(w.log.Taper)*along/metre
	if !sapwood {
		d -= 2 * float64(w.log.Sapwood)
	}
	return d / 2
}

// limit is how far across a strip may reach whose farther face is so far up: for
// greatest worths a hair more, for what floating point loses.
func (w *sweep) limit(s stage, up int64) int64 {
	a := float64(up)
	if a > s.corner {
		if !w.down && a <= s.corner+hair {
			return hair
		}
		return -1
	}
	x := math.Sqrt((s.corner - a) * (s.corner + a))
	if w.down {
		return int64(x)
	}
	return int64(x) + hair
}

// hair is what floating point may lose in a place, in nanometres.
const hair = 10

// cursor walks through the stages of a width as strips come nearer the middle.
type cursor struct {
	list  []stage
	width int64
	next  int // places to the next strip
	at    int // stages passed
	lim   int64
	worth int64
}

func (w *sweep) cursor(c *cursor, list []stage, width, up int64) {
	*c = cursor{list: list, width: width, next: w.places(width + w.shop.Kerf), lim: -1}
	if len(list) > 0 {
		c.lim = w.limit(list[0], up)
	}
}

// to moves a cursor to a strip that reaches so far.
func (w *sweep) to(c *cursor, reaches, up int64) {
	for reaches <= c.lim {
		c.worth = c.list[c.at].worth
		if c.at++; c.at == len(c.list) {
			c.lim = -1
			return
		}
		c.lim = w.limit(c.list[c.at], up)
	}
}

// last is the stage of a strip that reaches so far and has so far up its farther face.
func (w *sweep) last(list []stage, reaches, up int64) stage {
	for i := len(list) - 1; i >= 0; i-- {
		if reaches <= w.limit(list[i], up) {
			return list[i]
		}
	}
	return stage{}
}
