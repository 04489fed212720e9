package solve

import "math/bits"

// wide is a whole number of 128 bits, for sums of worth x count that pass 64. hi carries the sign.
type wide struct {
	hi int64
	lo uint64
}

func (a wide) plus(b wide) wide {
	lo, carry := bits.Add64(a.lo, b.lo, 0)
	return wide{a.hi + b.hi + int64(carry), lo}
}

// times is the full product of two whole numbers.
func times(a, b int64) wide {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	h := int64(hi)
	if a < 0 {
		h -= b
	}
	if b < 0 {
		h -= a
	}
	return wide{h, lo}
}

func (a wide) less(b wide) bool {
	return a.hi < b.hi || a.hi == b.hi && a.lo < b.lo
}

// shiftUp is a / 2^n rounded up, held within -dear and dear.
func (a wide) shiftUp(n uint) int64 {
	if n > 0 {
		a = a.plus(wide{0, 1<<n - 1})
		a = wide{a.hi >> n, a.lo>>n | uint64(a.hi)<<(64-n)}
	}
	if v := int64(a.lo); a.hi == v>>63 {
		return max(-dear, min(v, dear))
	}
	if a.hi < 0 {
		return -dear
	}
	return dear
}

// ratioUp is a x b / c rounded up for a, b not under nil and c above nil, held under dear.
func ratioUp(a, b, c int64) int64 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	lo, carry := bits.Add64(lo, uint64(c-1), 0)
	hi += carry
	if hi >= uint64(c) {
		return dear
	}
	q, _ := bits.Div64(hi, lo, uint64(c))
	return int64(min(q, uint64(dear)))
}
