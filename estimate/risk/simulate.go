package risk

import (
	"math"
	"runtime"
	"slices"
	"sync"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/rates/money"
)

// Draws are made in blocks of a fixed size, each by itself and put where it
// belongs, so that it does not matter how many are made at once.
const (
	blockSize = 1000
	blocks    = Draws / blockSize
)

// simulation is a contingency while it is drawn.
type simulation struct {
	draw      int64
	together  float64
	programme *programme.Again
	base      programme.Times // as priced
	listed    []Uncertain
	drawn     []drawn // side by side with listed
	timed     []timed
	hours     decimal.Decimal // more than priced, on the average
}

// simulate draws the contingency of a job.
func simulate(j *job.Job, a *programme.Again, h labour.Hours, p price.Priced) *Simulation {
	s := &simulation{draw: j.DrawNumber, together: j.Together.Fraction().InexactFloat64(), programme: a, base: a.Times()}
	a.Lay(make([]float64, a.Slots()), &s.base)
	s.lines(p)
	s.rows(j, h, p)

	extra, weeks, lines := s.all()
	out := &Simulation{
		Draws: Draws, DrawNumber: j.DrawNumber, Together: j.Together, Confidence: j.Confidence,
		Base: base(p), Rows: s.listed, Hours: s.hours.Round(2),
	}
	sorted := slices.Clone(extra)
	slices.Sort(sorted)
	out.totals(extra, sorted)
	if len(j.Stages) > 0 {
		out.Weeks = laid(float64(s.base.End)/10, weeks)
	}
	s.drivers(out, extra, sorted, lines)
	return out
}

// all draws everything: what each draw adds to the base and how long the job
// comes to take, and of each line that runs with time what it adds on the average.
func (s *simulation) all() (extra, weeks, lines []float64) {
	extra, weeks = make([]float64, Draws), make([]float64, Draws)
	sums := make([][]float64, blocks)
	each(func() func(int) {
		b := s.room()
		return func(n int) {
			b.reckon(n)
			copy(extra[n*blockSize:], b.extra)
			copy(weeks[n*blockSize:], b.weeks)
			sums[n] = slices.Clone(b.lines)
		}
	})
	lines = make([]float64, len(s.timed))
	for _, sum := range sums {
		for i, v := range sum {
			lines[i] += v / Draws
		}
	}
	return extra, weeks, lines
}

// each does the work of every block, as many at once as there are processors;
// every one of these has a worker of its own.
func each(worker func() func(block int)) {
	next := make(chan int)
	var wait sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), blocks) {
		work := worker()
		wait.Go(func() {
			for n := range next {
				work(n)
			}
		})
	}
	for n := range blocks {
		next <- n
	}
	close(next)
	wait.Wait()
}

// block is room for one block of draws.
type block struct {
	s            *simulation
	common       []float64
	extra, weeks []float64 // of each draw
	more         []float64 // hours by draw and slot
	longer       []float64 // extra weeks by draw and line, and last of the job
	times        programme.Times
	lines        []float64 // what each line adds, over the draws of the block
	rows         []float64 // the same of each row, where it is asked
	only         []bool    // the draws that count; nil is all
}

func (s *simulation) room() *block {
	return &block{
		s: s, common: make([]float64, blockSize), extra: make([]float64, blockSize), weeks: make([]float64, blockSize),
		more: make([]float64, blockSize*s.programme.Slots()), longer: make([]float64, blockSize*(len(s.timed)+1)),
		times: s.programme.Times(), lines: make([]float64, len(s.timed)),
	}
}

// reckon makes the draws of one block.
func (b *block) reckon(n int) {
	s := b.s
	clear(b.extra)
	clear(b.more)
	clear(b.longer)
	clear(b.lines)
	random := stream(s.draw, "", n)
	bell := bells()
	own, shared := math.Sqrt(1-s.together), math.Sqrt(s.together)
	for k := range b.common {
		b.common[k] = shared * random.NormFloat64()
	}
	for i := range s.drawn {
		d := &s.drawn[i]
		random := stream(s.draw, d.ref, n)
		var sum float64
		for k := range b.extra {
			e := random.NormFloat64() // even where the draw does not count: the next takes the next number
			if b.only == nil || b.only[k] {
				add := b.take(d, k, bell.upTo(b.common[k]+own*e))
				b.extra[k] += add
				sum += add
			}
		}
		if b.rows != nil {
			b.rows[i] = sum
		}
	}
	for k := range b.extra {
		if b.only == nil || b.only[k] {
			b.time(k)
		}
	}
}

// take draws one row at its place between best and worst: the hours and weeks
// it brings go to the draw, and what it adds to the base is returned.
func (b *block) take(d *drawn, k int, place float64) float64 {
	var f float64
	if came := place - (1 - d.chance); came >= 0 && d.chance > 0 {
		v := min(came/d.chance, 1)
		if d.credit {
			v = 1 - v
		}
		f = d.factor.at(v)
		for _, l := range d.longer {
			b.longer[k*(len(b.lines)+1)+l] += d.weeks
		}
		b.longer[k*(len(b.lines)+1)+len(b.lines)] += d.weeks
	}
	slots := b.more[k*b.s.programme.Slots():]
	for _, h := range d.hours {
		slots[h.slot] += h.hours*f - h.base
	}
	return d.amount*f - d.priced
}

// time lays the programme out with the hours of a draw and charges what runs
// with time.
func (b *block) time(k int) {
	s, slots, lines := b.s, b.s.programme.Slots(), len(b.lines)
	s.programme.Lay(b.more[k*slots:(k+1)*slots], &b.times)
	longer := b.longer[k*(lines+1) : (k+1)*(lines+1)]
	for i, t := range s.timed {
		add := t.more(b.times.Span(t.from, t.to), longer[i])
		b.extra[k] += add
		b.lines[i] += add
	}
	b.weeks[k] = float64(b.times.End)/10 + longer[lines]
}

// rest is the least whole unit of the currency not under what is asked for,
// and never under nil.
func rest(f float64) money.Amount {
	return money.Round(decimal.NewFromFloat(max(math.Ceil(f-slack), 0)))
}
