package log

import "math/bits"

// square is a sum of two squares in 128 bits.
type square struct{ hi, lo uint64 }

// squares is a2 + b2.
func squares(a, b int64) square {
	h, l := bits.Mul64(uint64(abs(a)), uint64(abs(a)))
	g, k := bits.Mul64(uint64(abs(b)), uint64(abs(b)))
	lo, carry := bits.Add64(l, k, 0)
	hi, _ := bits.Add64(h, g, carry)
	return square{hi, lo}
}

func (a square) less(b square) bool { return a.hi < b.hi || a.hi == b.hi && a.lo < b.lo }

func abs(a int64) int64 { return max(a, -a) }

// reach is the distance sqrt(a2 + b2), rounded up to a whole unit.
func reach(a, b int64) int64 {
	want := squares(a, b)
	low, high := max(abs(a), abs(b)), abs(a)+abs(b)
	for low < high {
		if mid := low + (high-low)/2; squares(mid, 0).less(want) {
			low = mid + 1
		} else {
			high = mid
		}
	}
	return low
}

// across is the greatest whole b with a2 + b2 within r2; below nil where a is
// beyond r.
func across(r, a int64) int64 {
	if abs(a) > r {
		return -1
	}
	within := squares(r, 0)
	low, high := int64(0), r
	for low < high {
		if mid := low + (high-low+1)/2; within.less(squares(a, mid)) {
			high = mid - 1
		} else {
			low = mid
		}
	}
	return low
}

const metre = 1_000_000_000 // nanometres

// diameter is that of the wood at a distance from the small end, clear of sapwood
// or with it, rounded down.
func (l Log) diameter(along int64, sapwood bool) int64 {
	hi, lo := bits.Mul64(uint64(l.Taper), uint64(along))
	grown, _ := bits.Div64(hi, lo, metre)
	d := l.Top + int64(grown)
	if !sapwood {
		d -= 2 * l.Sapwood
	}
	return d
}

// clear is the length, to the butt, over which a point at a distance across and up
// from the pith is wood, clear of sapwood or not; nil where it nowhere is.
func (l Log) clear(x, y int64, sapwood bool) int64 {
	need := reach(2*x, 2*y) - l.diameter(0, sapwood)
	switch {
	case need <= 0:
		return l.Length
	case need > l.diameter(l.Length, sapwood)-l.diameter(0, sapwood):
		return 0
	}
	hi, lo := bits.Mul64(uint64(need), metre)
	along, rest := bits.Div64(hi, lo, uint64(l.Taper))
	if rest > 0 {
		along++
	}
	return max(0, l.Length-int64(along))
}

// farthest is the distance from the pith of the farther end of what begins at low
// and is so wide.
func farthest(low, size int64) int64 { return max(abs(low), abs(low+size)) }

// nearest is the distance from the pith of what begins at low and is so wide.
func nearest(low, size int64) int64 { return max(0, low, -low-size) }

// within reports the pith within what begins at low and is so wide.
func within(low, size int64) bool { return low < 0 && low+size > 0 }

// nestled is where what is so wide begins that lies in a space as near the pith as
// it goes.
func nestled(size, low, space int64) int64 { return min(max(-size/2, low), low+space-size) }
