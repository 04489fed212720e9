package solve

import (
	"math/big"
	"math/rand"
	"testing"
)

func large(w wide) *big.Int {
	v := new(big.Int).Lsh(big.NewInt(w.hi), 64)
	return v.Add(v, new(big.Int).SetUint64(w.lo))
}

func TestWideSumsAndProductsAgreeWithBigNumbers(t *testing.T) {
	r := rand.New(rand.NewSource(1))
	for turn := 0; turn < 5000; turn++ {
		a, b := r.Int63()>>uint(r.Intn(62)), r.Int63()>>uint(r.Intn(62))
		c, d := r.Int63()>>uint(r.Intn(62)), r.Int63()>>uint(r.Intn(62))
		if r.Intn(2) == 0 {
			a = -a
		}
		if r.Intn(2) == 0 {
			d = -d
		}
		x, y := times(a, b), times(c, d)
		p := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
		q := new(big.Int).Mul(big.NewInt(c), big.NewInt(d))
		if large(x).Cmp(p) != 0 {
			t.Fatalf("%d x %d = %v", a, b, large(x))
		}
		if sum := new(big.Int).Add(p, q); large(x.plus(y)).Cmp(sum) != 0 {
			t.Fatalf("%v + %v = %v", p, q, large(x.plus(y)))
		}
		if x.less(y) != (p.Cmp(q) < 0) {
			t.Fatalf("%v under %v: %v", p, q, x.less(y))
		}
		n := uint(r.Intn(41))
		up := new(big.Int).Neg(new(big.Int).Rsh(new(big.Int).Neg(p), n)) // shifts round down, so the negative rounds up
		if up.Cmp(big.NewInt(dear)) > 0 {
			up.SetInt64(dear)
		}
		if up.Cmp(big.NewInt(-dear)) < 0 {
			up.SetInt64(-dear)
		}
		if got := x.shiftUp(n); big.NewInt(got).Cmp(up) != 0 {
			t.Fatalf("%v / 2^%d rounded up = %d, not %v", p, n, got, up)
		}
		a, c = max(a, -a), c+1
		e := new(big.Int).Mul(big.NewInt(a), big.NewInt(b))
		e.Add(e, big.NewInt(c-1)).Div(e, big.NewInt(c))
		if e.Cmp(big.NewInt(dear)) > 0 {
			e.SetInt64(dear)
		}
		if got := ratioUp(a, b, c); big.NewInt(got).Cmp(e) != 0 {
			t.Fatalf("%d x %d / %d rounded up = %d, not %v", a, b, c, got, e)
		}
	}
}
