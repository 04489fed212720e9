package log

import (
	"cmp"
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

// hand is a log searched through and through without any grid, in millimetres: every
// row of strips and every stack of bands is tried, and of each the farthest from the pith at which
// it can begin is reckoned, so that what the middle leaves room for is known exactly.
type hand struct {
	kerf, top, taper, long, sap float64
	pieces                      []Piece
	worth                       []int64
}

// begins is how far from the pith something worth so much may begin.
type begins struct {
	at    float64
	worth int64
}

// cargo is what one strip may hold: how far its corner may be from the pith.
type cargo struct {
	corner float64
	worth  int64
	free   bool // with the pith within it it gives nothing
	boxed  bool // without it
}

func (h *hand) radius(along float64, sapwood bool) float64 {
	r := h.top/2 + h.taper*along/2000
	if !sapwood {
		r -= h.sap
	}
	return r
}

func millimetres(n int64) float64 { return float64(n) / mm }

// cargoes is everything that a strip so thick and wide may hold.
func (h *hand) cargoes(thick, wide float64) []cargo {
	var out []cargo
	var grow func(from int, c cargo, long float64, all bool)
	grow = func(from int, c cargo, long float64, sapwood bool) {
		if c.worth > 0 {
			c.corner = h.radius(h.long-long, sapwood)
			out = append(out, c)
		}
		for i := from; i < len(h.pieces); i++ {
			p := h.pieces[i]
			t, w, l := millimetres(p.Thickness), millimetres(p.Width), millimetres(p.Length)
			if long > 0 {
				l += h.kerf
			}
			if (t > thick || w > wide) && (w > thick || t > wide) || long+l > h.long || c.boxed && p.Free || c.free && p.Boxed {
				continue
			}
			grow(i, cargo{0, c.worth + h.worth[i], c.free || p.Free, c.boxed || p.Boxed}, long+l, sapwood && p.Sapwood)
		}
	}
	grow(0, cargo{}, 0, true)
	return out
}

// keepBest leaves out what is worth no more than something that may begin farther out.
func keepBest(in []begins) []begins {
	slices.SortFunc(in, func(a, b begins) int { return cmp.Or(cmp.Compare(b.at, a.at), cmp.Compare(b.worth, a.worth)) })
	var out []begins
	for _, b := range in {
		if len(out) == 0 || b.worth > out[len(out)-1].worth {
			out = append(out, b)
		}
	}
	return out
}

// part is a strip or a band with the farthest that its outer side may be from the pith.
type part struct {
	size, outer float64
	worth       int64
	within      bool // may have the pith within it
	beside      bool // may lie without it
}

// stacked is all rows of parts from somewhere outward.
func (h *hand) stacked(parts []part) []begins {
	all := []begins{{math.Inf(1), 0}}
	for fresh := all; len(fresh) > 0; {
		var next []begins
		for _, b := range fresh {
			for _, p := range parts {
				if at := math.Min(b.at-h.kerf, p.outer) - p.size; at >= 0 && p.beside {
					next = append(next, begins{at, b.worth + p.worth})
				}
			}
		}
		fresh = keepBest(next)
		all = keepBest(append(all, fresh...))
		fresh = slices.DeleteFunc(fresh, func(b begins) bool { return !slices.Contains(all, b) })
	}
	return all
}

// about is the best of a part, or a cut, across the pith and rows on both sides.
func (h *hand) about(parts []part) int64 {
	rows := h.stacked(parts)
	best := int64(0)
	for _, right := range rows {
		for _, left := range rows {
			if right.at+left.at >= h.kerf {
				best = max(best, right.worth+left.worth)
			}
			for _, p := range parts {
				low := math.Max(p.size-math.Min(left.at-h.kerf, p.outer), 0)
				high := math.Min(math.Min(right.at-h.kerf, p.outer), p.size)
				if p.within && low <= high {
					best = max(best, right.worth+left.worth+p.worth)
				}
			}
		}
	}
	return best
}

// band is what a band is worth with its farther face so high, astride the pith or beside it.
func (h *hand) band(strips []strips, up float64, astride bool) int64 {
	var parts []part
	for _, s := range strips {
		for _, c := range s.holds {
			if up <= c.corner {
				// In a band beside the pith no strip has it within.
				parts = append(parts, part{s.wide, math.Sqrt(c.corner*c.corner - up*up), c.worth, !astride && !c.boxed || astride && !c.free, !c.boxed})
			}
		}
	}
	return h.about(parts)
}

type strips struct {
	wide  float64
	holds []cargo
}

// best is the greatest worth of the log.
func (h *hand) best() int64 {
	var sizes []float64
	for _, p := range h.pieces {
		sizes = append(sizes, millimetres(p.Thickness), millimetres(p.Width))
	}
	slices.Sort(sizes)
	sizes = slices.Compact(sizes)
	far := h.radius(h.long, true)
	var bands []part
	for _, thick := range sizes {
		var s []strips
		for _, wide := range sizes {
			if c := h.cargoes(thick, wide); len(c) > 0 {
				s = append(s, strips{wide, c})
			}
		}
		// The heights at which the worth of a band falls, between two where it is known.
		var falls func(low, high float64, atLow, atHigh int64, astride bool)
		falls = func(low, high float64, atLow, atHigh int64, astride bool) {
			if atLow == atHigh {
				return
			}
			if high-low < 1e-7 {
				bands = append(bands, part{thick, low, atLow, astride, !astride})
				return
			}
			mid := (low + high) / 2
			v := h.band(s, mid, astride)
			falls(low, mid, atLow, v, astride)
			falls(mid, high, v, atHigh, astride)
		}
		if thick < far {
			falls(thick, far, h.band(s, thick, false), 0, false)
		}
		if thick/2 < far {
			falls(thick/2, math.Max(far, thick), h.band(s, thick/2, true), 0, true)
		}
	}
	return h.about(bands)
}

// small is a small shop of one log, drawn at random.
func small(draw *rand.Rand) (Shop, *hand, []int64) {
	from := func(low, high int) int64 { return int64(low + draw.IntN(high-low)) }
	kerf, top, taper, long, sap := from(0, 6), from(120, 300), from(0, 13), from(1500, 4500), from(0, 25)
	shop := Shop{Kerf: kerf * mm, Work: 40_000_000}
	h := &hand{kerf: float64(kerf), top: float64(top), taper: float64(taper), long: float64(long), sap: float64(sap)}
	l := Log{Top: top * mm, Taper: taper * mm, Length: long * mm, Sapwood: sap * mm}
	for range 1 + draw.IntN(3) {
		p := Piece{Thickness: from(18, 70) * mm, Width: from(40, 130) * mm, Length: from(700, 2500) * mm, Wanted: 1000,
			Sapwood: draw.IntN(3) == 0, Boxed: draw.IntN(5) == 0}
		p.Free = !p.Boxed && draw.IntN(4) == 0
		shop.Pieces = append(shop.Pieces, p)
		l.Gives = append(l.Gives, true)
		h.worth = append(h.worth, p.Thickness/mm*(p.Width/mm)*(p.Length/mm)/1000*from(8, 13))
	}
	shop.Logs = []Log{l}
	h.pieces = shop.Pieces
	return shop, h, h.worth
}

func TestSmallLogsAgreeWithAnExhaustiveSearch(t *testing.T) {
	draw := rand.New(rand.NewPCG(7, 1))
	worthy := 0
	for n := range 60 {
		shop, h, worth := small(draw)
		s := New(shop)
		wanted := make([]int, len(worth))
		for i := range wanted {
			wanted[i] = 1000
		}
		most, columns := s.Best(worth, wanted, nil, free())
		best, got := h.best(), int64(0)
		for _, c := range columns {
			got = max(got, value(c, worth))
		}
		if got != best || most[0] != best {
			t.Errorf("log %d %+v: %d is laid out, the best there is is %d, and the greatest is said to be %d", n, shop, got, best, most[0])
		}
		if best > 0 {
			worthy++
		}
	}
	if worthy < 50 {
		t.Errorf("only %d of the logs give anything", worthy)
	}
}
