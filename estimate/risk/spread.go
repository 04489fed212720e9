package risk

import (
	"cmp"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates/money"
)

// totals is what the draws come to: what each adds to the base, as drawn and
// in rising order.
func (o *Simulation) totals(extra, sorted []float64) {
	total := func(f float64) money.Amount { return o.Base.Add(pounds(f)) }
	at := func(p int64) money.Amount {
		return total(sorted[place(money.NewPercent(decimal.New(p, 0)), len(sorted))])
	}
	mean, sd := moments(extra)
	o.Mean, o.SD = total(mean), pounds(sd)
	o.P10, o.P50, o.P80, o.P90 = at(10), at(50), at(80), at(90)
	o.Least, o.Most = total(sorted[0]), total(sorted[len(sorted)-1])

	chosen := sorted[place(o.Confidence, len(sorted))]
	o.Chosen, o.Held = total(chosen), rest(chosen)
	o.BaseEnough = enough(sorted, 0)
	o.PriceEnough = enough(sorted, o.Held.Decimal().InexactFloat64())
	o.Bins = bins(sorted, o.Base.Decimal().InexactFloat64())
}

// place is where the percentile stands in a sorted list: the least value that is
// not exceeded in that share of it.
func place(p money.Percent, n int) int {
	up := p.Fraction().Mul(decimal.New(int64(n), 0)).Ceil().IntPart()
	return int(min(max(up, 1), int64(n))) - 1
}

// enough is the share of a sorted list that is not above a value, to a tenth of
// a percent and never rounded up.
func enough(sorted []float64, value float64) money.Percent {
	n, _ := slices.BinarySearchFunc(sorted, value+slack, cmp.Compare[float64])
	return money.NewPercent(decimal.New(int64(n), 2).Div(decimal.New(int64(len(sorted)), 0)).Truncate(1))
}

func moments(list []float64) (mean, sd float64) {
	for _, v := range list {
		mean += v
	}
	mean /= float64(len(list))
	var square float64
	for _, v := range list {
		square += (v - mean) * (v - mean)
	}
	return mean, math.Sqrt(square / float64(len(list)))
}

// mostBins is the most bars a picture of the totals has.
const mostBins = 40

// bins counts the totals into bars of one width: the least of 1, 2 or 5 and
// noughts by which they are no more than mostBins, each beginning at a multiple
// of it.
func bins(sorted []float64, base float64) []Bin {
	least, most := base+sorted[0], base+sorted[len(sorted)-1]
	width := 1.0
	for i := 0; math.Floor(most/width)-math.Floor(least/width) >= mostBins; i++ {
		width *= []float64{2, 2.5, 2}[i%3]
	}
	first := math.Floor(least / width)
	out := make([]Bin, int(math.Floor(most/width)-first)+1)
	for i := range out {
		out[i].From, out[i].To = pounds((first+float64(i))*width), pounds((first+float64(i)+1)*width)
	}
	for _, v := range sorted {
		out[int(math.Floor((base+v)/width)-first)].Draws++
	}
	return out
}

// laid is the weeks of the job over all draws.
func laid(priced float64, weeks []float64) *Weeks {
	tenths := func(f float64) decimal.Decimal { return decimal.NewFromFloat(f).Round(1) }
	mean, _ := moments(weeks)
	slices.Sort(weeks)
	at := func(p int64) decimal.Decimal {
		return tenths(weeks[place(money.NewPercent(decimal.New(p, 0)), len(weeks))])
	}
	return &Weeks{Priced: tenths(priced), Mean: tenths(mean), P10: at(10), P50: at(50), P80: at(80), P90: at(90)}
}

// near is how many percentage points about the chosen percentile a draw may lie
// that is asked what made it so dear.
var near = decimal.New(25, -1)

// drivers ranks what the sum held is for. The draws near the chosen percentile
// are made once more, and what each row adds in them is averaged: what is
// expected of the row, given that the total is such.
func (s *simulation) drivers(o *Simulation, extra, sorted, lines []float64) {
	chosen := o.Confidence.Decimal()
	low := sorted[place(money.NewPercent(chosen.Sub(near)), len(sorted))]
	high := sorted[place(money.NewPercent(chosen.Add(near)), len(sorted))]

	count := 0
	only := make([]bool, len(extra))
	for k, v := range extra {
		if only[k] = v >= low && v <= high; only[k] {
			count++
		}
	}
	rows, runs := make([][]float64, blocks), make([][]float64, blocks)
	each(func() func(int) {
		b := s.room()
		return func(n int) {
			b.only, b.rows = only[n*blockSize:(n+1)*blockSize], make([]float64, len(s.drawn))
			b.reckon(n)
			rows[n], runs[n] = b.rows, slices.Clone(b.lines)
		}
	})
	average := func(sums [][]float64, i int) money.Amount {
		var sum float64
		for _, block := range sums {
			sum += block[i]
		}
		return pounds(sum / float64(count))
	}
	var all money.Amount
	put := func(d Driver) {
		if !d.Bears.IsZero() || !d.Mean.IsZero() {
			o.Drivers = append(o.Drivers, d)
			all = all.Add(d.Bears)
		}
	}
	for i, u := range s.listed {
		put(Driver{Ref: u.Ref, Description: u.Description, Source: u.Source, Bears: average(rows, i), Mean: u.Mean})
	}
	for i, t := range s.timed {
		put(Driver{Ref: t.line.Ref, Description: t.line.Row.Description, Source: Longer, Bears: average(runs, i), Mean: pounds(lines[i])})
	}
	for i := range o.Drivers {
		if !all.IsZero() {
			o.Drivers[i].Share = money.NewPercent(o.Drivers[i].Bears.Decimal().Shift(2).DivRound(all.Decimal(), 1))
		}
	}
	slices.SortStableFunc(o.Drivers, func(a, b Driver) int {
		return cmp.Or(b.Bears.Cmp(a.Bears), job.CompareRefs(a.Ref, b.Ref))
	})
}
