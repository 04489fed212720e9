package drawing

import (
	"cmp"
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/rates/measure"
)

// band is a slice of a log between two saw cuts: a layer, or where it is turned a
// slab that stands beside a baulk. The places are from the pith.
type band struct {
	cuts, offcuts  []int
	x0, x1, z0, z1 measure.Length // across, and through
	turned         bool           // it is seen flat from the side
}

// oblongOn is a piece or off-cut on the end of a log.
type oblongOn struct {
	index          int
	offcut         bool
	x0, x1, z0, z1 measure.Length
}

// sideBoard is how many times higher than thick a strip stands that is a board at
// the side of a baulk.
const sideBoard = 2

// inBands parts what is seen on the end of a log by the cuts that go right
// through it, through the thickness first, as the log is sawn.
func inBands(p order.Pattern) []band {
	var all []oblongOn
	for i, c := range p.Cuts {
		all = append(all, oblongOn{i, false, c.Across, c.Across + c.Width, c.Through, c.Through + c.Thickness})
	}
	for i, o := range p.Offcuts {
		all = append(all, oblongOn{i, true, o.Across, o.Across + o.Width, o.Through, o.Through + o.Thickness})
	}
	return slabs(all)
}

func through(o oblongOn) (measure.Length, measure.Length)  { return o.z0, o.z1 }
func acrossOf(o oblongOn) (measure.Length, measure.Length) { return o.x0, o.x1 }

func slabs(in []oblongOn) []band {
	var out []band
	if layers := apart(in, through); len(layers) > 1 {
		for _, l := range layers {
			out = append(out, slabs(l)...)
		}
		return out
	}
	columns := apart(in, acrossOf)
	if len(columns) == 1 || oneLayer(columns) {
		return []band{bandOf(in)}
	}
	for _, c := range columns {
		out = append(out, slabs(c)...)
	}
	return out
}

// oneLayer reports columns that are the strips of one layer: all as deep as each
// other, and none of them a board on edge.
func oneLayer(columns [][]oblongOn) bool {
	first := bandOf(columns[0])
	for _, c := range columns {
		b := bandOf(c)
		if len(apart(c, through)) > 1 || b.z0 != first.z0 || b.z1-b.z0 > sideBoard*(b.x1-b.x0) {
			return false
		}
	}
	return true
}

func bandOf(in []oblongOn) band {
	b := band{x0: in[0].x0, x1: in[0].x1, z0: in[0].z0, z1: in[0].z1}
	for _, o := range in {
		b.x0, b.x1, b.z0, b.z1 = min(b.x0, o.x0), max(b.x1, o.x1), min(b.z0, o.z0), max(b.z1, o.z1)
		if o.offcut {
			b.offcuts = append(b.offcuts, o.index)
		} else {
			b.cuts = append(b.cuts, o.index)
		}
	}
	b.turned = b.z1-b.z0 > b.x1-b.x0
	return b
}

// apart is what lies clear of each other one way, in order.
func apart(in []oblongOn, span func(oblongOn) (measure.Length, measure.Length)) [][]oblongOn {
	sorted := slices.Clone(in)
	slices.SortStableFunc(sorted, func(a, b oblongOn) int {
		x, _ := span(a)
		y, _ := span(b)
		return cmp.Compare(x, y)
	})
	var out [][]oblongOn
	var end measure.Length
	for i, o := range sorted {
		from, to := span(o)
		if i == 0 || from >= end {
			out = append(out, nil)
			end = to
		}
		end = max(end, to)
		out[len(out)-1] = append(out[len(out)-1], o)
	}
	return out
}

// bandName is a letter for each band from below: A, B ... Z, AA, AB.
func bandName(n int) string {
	name := string(rune('A' + n%26))
	if n >= 26 {
		return bandName(n/26-1) + name
	}
	return name
}
