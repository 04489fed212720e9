package risk

import (
	"crypto/sha256"
	"encoding/binary"
	"fmt"
	"math"
	"math/rand/v2"
	"sync"
)

// triangle is a triangular distribution on the scale of a factor, or of money.
type triangle struct{ least, likely, most float64 }

// at is the quantile: the value not exceeded with probability v.
func (t triangle) at(v float64) float64 {
	width := t.most - t.least
	if width <= 0 {
		return t.likely
	}
	if left := t.likely - t.least; v*width < left {
		return t.least + math.Sqrt(v*width*left)
	}
	return t.most - math.Sqrt((1-v)*width*(t.most-t.likely))
}

func (t triangle) mean() float64 { return (t.least + t.likely + t.most) / 3 }

// square is the mean of the square: variance and squared mean together.
func (t triangle) square() float64 {
	a, m, b, mean := t.least, t.likely, t.most, t.mean()
	return (a*a+m*m+b*b-a*m-a*b-m*b)/18 + mean*mean
}

// bell is the normal probability, and its slope, at every step between -reach
// and reach; between them a cubic with both right at either end is out by no
// more than 1e-9, at a fraction of the time the error function takes.
type bell [2*reach*steps + 2]struct{ p, slope float64 }

const (
	reach = 8
	steps = 64
)

var bells = sync.OnceValue(func() *bell {
	var b bell
	for i := range b {
		z := float64(i)/steps - reach
		b[i].p = 0.5 * math.Erfc(-z/math.Sqrt2)
		b[i].slope = math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) / steps
	}
	return &b
})

// upTo is the probability that a standard normal variate is not above z.
func (b *bell) upTo(z float64) float64 {
	at := (min(max(z, -reach), reach) + reach) * steps
	i := int(at)
	t := at - float64(i)
	from, to := b[i], b[i+1]
	rise := to.p - from.p
	return from.p + t*(from.slope+t*(3*rise-2*from.slope-to.slope+t*(from.slope+to.slope-2*rise)))
}

// stream is the random numbers of one row in one block of draws: nothing but
// the draw number, the Ref and the block has a say in them. The seed is a digest
// of the three, so that streams whose names are alike have nothing in common.
func stream(draw int64, ref string, block int) *rand.Rand {
	seed := sha256.Sum256(fmt.Appendf(nil, "%d %d %s", draw, block, ref))
	return rand.New(rand.NewPCG(binary.LittleEndian.Uint64(seed[:]), binary.LittleEndian.Uint64(seed[8:])))
}
