package log

import (
	"cmp"
	"math"
	"slices"

	"futtock/estimate/cutting/solve"
)

// A log may hold more of a piece than are wanted, by the tables. A price on every
// piece, no more than its worth, mends that: no layout that gives no more than is
// wanted is worth more than the prices of all that is wanted and the most that a log holds
// of what worths are left over the prices. It holds for any prices (the relaxation is
// Lagrange's); they are raised on what the best has too much of and lowered on what it has not.

// rounds is how often the prices are set anew.
const rounds = 2

// priced is worths left over prices, and the greatest worth of a log they prove.
type priced struct {
	worth []int64
	most  int64
}

// greatest is the least of the greatest worths proven, and the worths it was proven by.
func (b *bench) greatest(worth []int64, wanted []int, steps *solve.Steps) priced {
	w := b.up
	volumes := w.volumes()
	price, least, bears := make([]float64, len(worth)), make([]float64, len(worth)), b.bearable(volumes)
	for i, v := range worth {
		least[i] = float64(max(0, v-bears))
		price[i] = least[i]
	}
	best := priced{worth: worth, most: bounty(worth, wanted)}
	for round := range rounds {
		p := priced{worth: make([]int64, len(worth))}
		for i, v := range worth {
			if wanted[i] > 0 {
				off := min(v, int64(price[i]))
				p.worth[i] = v - off
				p.most += off * int64(wanted[i])
			}
		}
		steps.Add(w.tables.ask(p.worth, wanted, 0))
		if p.most += w.ask(steps); p.most < best.most {
			best = p
		}
		over, l := false, Layout{Bands: w.bands(w.best())}
		step := 0.4 / float64(1+round)
		rate := b.rate(worth, wanted, volumes)
		for i, n := range l.gives(make([]int, len(worth))) {
			over = over || n > wanted[i]
			if wanted[i] > 0 && n+wanted[i] > 0 {
				price[i] += step * float64(worth[i]) * float64(n-wanted[i]) / float64(n+wanted[i])
			}
			if round == 0 {
				price[i] = max(price[i], float64(worth[i])-float64(rate*volumes[i]))
			}
			price[i] = max(least[i], min(price[i], float64(worth[i])))
		}
		if !over {
			break
		}
	}
	return best
}

// volumes is the timber that each piece takes with a cut beside it; nil for one that
// does not go into the log.
func (w *sweep) volumes() []float64 {
	out := make([]float64, len(w.shop.Pieces))
	for _, y := range w.ways {
		k := float64(w.shop.Kerf)
		out[y.piece] = (float64(y.through) + k) * (float64(y.across) + k) * (float64(y.length) + k)
	}
	return out
}

// volume is that of the wood.
func (l Log) volume() float64 {
	top, butt := float64(l.Top), float64(l.diameter(l.Length, true))
	return math.Pi * float64(l.Length) * (float64(top*top) + float64(top*butt) + float64(butt*butt)) / 12
}

// bearable is the greatest worth of a piece with which no sum in the tables of a log passes
// 2^62, however many go in.
func (b *bench) bearable(volumes []float64) int64 {
	least := math.Inf(1)
	for _, v := range volumes {
		if v > 0 {
			least = min(least, v)
		}
	}
	return int64((1 << 61) / (2 + 2*b.up.log.volume()/least))
}

// yields is about the share of the wood that is sawn.
const yields = 0.6

// rate is the worth of timber at which what is worth more for its timber about fills the log.
func (b *bench) rate(worth []int64, wanted []int, volumes []float64) float64 {
	room := yields * b.up.log.volume()
	var order []int
	for i, v := range volumes {
		if v > 0 && wanted[i] > 0 && worth[i] > 0 {
			order = append(order, i)
		}
	}
	rate := func(i int) float64 { return float64(worth[i]) / volumes[i] }
	slices.SortStableFunc(order, func(i, k int) int { return cmp.Compare(rate(k), rate(i)) })
	last := 0.0
	for _, i := range order {
		last = rate(i)
		if room -= float64(volumes[i] * float64(wanted[i])); room <= 0 {
			break
		}
	}
	return last
}
