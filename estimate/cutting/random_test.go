package cutting

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// millimetres is a length drawn in tenths of a millimetre.
func millimetres(t *rapid.T, low, high int, name string) measure.Length {
	return measure.Length(rapid.IntRange(low*10, high*10).Draw(t, name)) * mm / 10
}

// someStock is a stock line of any form, limited or not, the yard's or the owner's; the first
// of a job is of logs.
func someStock(t *rapid.T, i int) rates.Stock {
	form := rates.Log
	if i > 0 {
		form = rapid.SampledFrom([]rates.Form{rates.Plank, rates.Plank, rates.Baulk, rates.Flitch, rates.Cube, rates.Crook, rates.Log, rates.Spar, rates.Knee}).Draw(t, "form")
	}
	s := rates.Stock{Stock: fmt.Sprintf("line %d", i), Timber: rapid.SampledFrom([]string{"oak", "oak", "larch"}).Draw(t, "timber"), Form: form,
		ByOwner: rapid.IntRange(0, 5).Draw(t, "owner") == 0, Unit: measure.M3,
		Price:    money.NewPrice(decimal.New(rapid.Int64Range(20000, 150000).Draw(t, "price"), -2)),
		Delivery: money.NewPrice(decimal.New(rapid.Int64Range(0, 5000).Draw(t, "delivery"), -2)),
		Loss:     money.NewPercent(decimal.New(rapid.Int64Range(0, 20).Draw(t, "loss"), 0))}
	s.Length = millimetres(t, 1500, 7000, "length")
	s.EndTrim = millimetres(t, 0, 100, "trim")
	if rapid.IntRange(0, 3).Draw(t, "limited") == 0 {
		s.Limited, s.Available = true, rapid.IntRange(0, 12).Draw(t, "available")
	}
	if rapid.Bool().Draw(t, "sawing") {
		s.Sawing = money.NewPrice(decimal.New(rapid.Int64Range(100, 2000).Draw(t, "charge"), -2))
		s.SawingUnit = measure.Ft3
	}
	switch form {
	case rates.Plank, rates.Flitch:
		s.Thickness, s.Width = millimetres(t, 20, 110, "thickness"), millimetres(t, 100, 600, "width")
	case rates.Baulk:
		s.Thickness, s.Width = millimetres(t, 150, 400, "thickness"), millimetres(t, 150, 400, "width")
	case rates.Cube:
		s.Yield = money.NewPercent(decimal.New(rapid.Int64Range(30, 90).Draw(t, "yield"), 0))
		s.Length = 0
	case rates.Crook, rates.Knee:
		s.Thickness, s.Width = millimetres(t, 50, 200, "thickness"), millimetres(t, 150, 500, "width")
		s.Sweep = millimetres(t, 0, 600, "sweep")
	default:
		s.Taper = millimetres(t, 0, 12, "taper")
		if top := millimetres(t, 200, 600, "top"); rapid.IntRange(0, 2).Draw(t, "girthed") == 0 {
			s.MidGirth = 3*top + top/4
		} else {
			s.TopDiameter = top
		}
		s.SawingUnit = measure.M3
	}
	if form == rates.Flitch || form == rates.Log {
		s.Sapwood, s.Bark = millimetres(t, 0, 30, "sapwood"), millimetres(t, 0, 10, "bark")
	}
	return s
}

// somePiece is like pieces of one row, straight or sawn to a curve, bound or not.
func somePiece(t *rapid.T, i int, stock []rates.Stock) takeoff.Piece {
	thick := rapid.SampledFrom([]measure.Length{25 * mm, 50 * mm, 51 * mm, 75 * mm, 150 * mm}).Draw(t, "sided")
	wide := rapid.SampledFrom([]measure.Length{60 * mm, 100 * mm, 150 * mm, 203 * mm, 260 * mm}).Draw(t, "moulded")
	long := rapid.SampledFrom([]measure.Length{400 * mm, 1200 * mm, 1999 * mm, 3300 * mm, 5000 * mm}).Draw(t, "long")
	p := straight(fmt.Sprintf("%d.%d", 1+i/4, 1+i%4), rapid.IntRange(1, 12).Draw(t, "count"), thick, wide, long)
	p.Timber = rapid.SampledFrom([]string{"oak", "oak", "larch"}).Draw(t, "timber")
	p.Carried = rapid.SampledFrom([]job.Carried{job.Measured, job.Measured, job.Measured, job.Provisional, job.AtRisk, job.Option, job.RateOnly}).Draw(t, "carried")
	p.Sapwood = rapid.Bool().Draw(t, "sapwood")
	p.Heart = rapid.SampledFrom([]job.Heart{job.AnyHeart, job.AnyHeart, job.AnyHeart, job.Boxed, job.Free}).Draw(t, "heart")
	p.Shape = rapid.SampledFrom([]job.Shape{job.Square, job.Square, job.Round, job.Eight}).Draw(t, "shape")
	if p.Shape != job.Square {
		p.Width = p.Thickness
	} else if long < 2500*mm && rapid.IntRange(0, 2).Draw(t, "curved") == 0 {
		c := takeoff.Curve{Chord: long, Sweep: millimetres(t, 1, int(long/mm)/3, "sweep")}
		p.Curve, p.Length = &c, c.LengthGot(wide)
	}
	if rapid.IntRange(0, 3).Draw(t, "bound") == 0 {
		s := rapid.SampledFrom(stock).Draw(t, "to")
		p.Stock, p.Timber = s.Stock, s.Timber
	}
	if p.Curve == nil && p.Shape == job.Square && p.Heart != job.Boxed && rapid.IntRange(0, 2).Draw(t, "run") == 0 {
		r := takeoff.Run{Runs: rapid.IntRange(1, 3).Draw(t, "runs"), Pieces: rapid.IntRange(2, 7).Draw(t, "in one"),
			Shortest: long * measure.Length(rapid.IntRange(20, 100).Draw(t, "shortest")) / 100}
		if rapid.Bool().Draw(t, "limit") {
			r.Longest = long * measure.Length(rapid.IntRange(100, 150).Draw(t, "longest")) / 100
		}
		r.Along = long*measure.Length(r.Pieces) - measure.Length(r.Pieces-1)
		p.Count, p.Run = r.Runs*r.Pieces, &r
	}
	p.Net = measure.Of(p.Length.Metres().Mul(p.Width.Metres()).Mul(p.Thickness.Metres()).Mul(decimal.New(int64(p.Count), 0)), measure.M3)
	p.Net = p.Net.Times(decimal.New(9, -1))
	p.Sawn = p.Length.Volume(p.Width, p.Thickness).Times(decimal.New(int64(p.Count), 0)).Base.Round(6)
	return p
}

// few is the effort spent on a job drawn at random.
const few = 400_000

// Cut reads every plan back with verify and panics on one that does not hold, or
// that costs less than its bound. Two thousand jobs with logs among the stock are drawn each time.
func TestAnyJobIsCutSoundly(t *testing.T) {
	for i := range 20 {
		t.Run(fmt.Sprint(i), func(t *testing.T) {
			t.Parallel()
			rapid.Check(t, anyJob)
		})
	}
}

func anyJob(t *rapid.T) {
	var stock []rates.Stock
	for i := range rapid.IntRange(1, 8).Draw(t, "stocks") {
		stock = append(stock, someStock(t, i))
	}
	var all []takeoff.Piece
	for i := range rapid.IntRange(1, 16).Draw(t, "rows") {
		all = append(all, somePiece(t, i, stock))
	}
	b := book(stock...)
	plan, problems := CutWith(oakJob(), b, pieces(all...), few)
	if (len(plan.Short) > 0) != (len(problems) > 0) {
		t.Fatalf("short %v, problems %v", plan.Short, problems)
	}
	equalPieces(t, all, plan)
	noDearer(t, b, all)

	// Leave to choose the lengths of a run never makes the order dearer, nor leaves more short.
	var equal []takeoff.Piece
	for _, p := range all {
		p.Run = nil
		equal = append(equal, p)
	}
	bound, _ := CutWith(oakJob(), b, pieces(equal...), few)
	if len(plan.Short) == 0 && len(bound.Short) == 0 && plan.Bound.Cost.Cmp(bound.Bound.Cost) > 0 {
		t.Fatalf("with lengths chosen %s, with equal pieces %s", plan.Bound.Cost, bound.Bound.Cost)
	}

	// The same rows and stock in another order are the same plan.
	draw := rand.New(rand.NewPCG(1, rapid.Uint64().Draw(t, "shuffle")))
	draw.Shuffle(len(b.Stock), func(i, k int) { b.Stock[i], b.Stock[k] = b.Stock[k], b.Stock[i] })
	draw.Shuffle(len(all), func(i, k int) { all[i], all[k] = all[k], all[i] })
	again, _ := CutWith(oakJob(), b, pieces(all...), few)
	if d := cmp.Diff(plan, again); d != "" {
		t.Fatal(d)
	}
}

// equalPieces checks that rows alike in section, length and binding, all of
// whose pieces were got, cost the same a piece, but for a penny of each stock line.
func equalPieces(t *rapid.T, all []takeoff.Piece, plan Plan) {
	short := map[string]bool{}
	for _, s := range plan.Short {
		short[s.Ref] = true
	}
	cost, lines := map[string]decimal.Decimal{}, map[string]int{}
	for _, s := range plan.Shares {
		cost[s.Ref] = cost[s.Ref].Add(s.Cost.Decimal())
		lines[s.Ref]++
	}
	for i, a := range all {
		for _, b := range all[:i] {
			same := a.Thickness == b.Thickness && a.Width == b.Width && a.Length == b.Length && a.Stock == b.Stock && a.Timber == b.Timber &&
				(a.Carried == b.Carried || a.Carried.InTotal() && b.Carried.InTotal())
			if !same || short[a.Ref] || short[b.Ref] {
				continue
			}
			// Equal to the penny for each line; and a volume is carried to a
			// millionth of a cubic metre, which of a small piece is more than that.
			each := cost[a.Ref].Mul(count(b)).Sub(cost[b.Ref].Mul(count(a))).Abs()
			most := decimal.New(int64(lines[a.Ref]*(a.Count+b.Count)), -2)
			if a.Count != b.Count {
				grain := decimal.New(1, -6).DivRound(decimal.Min(a.Sawn, b.Sawn), 9)
				most = most.Add(cost[a.Ref].Mul(count(b)).Mul(grain))
			}
			if each.GreaterThan(most) {
				t.Fatalf("rows %s and %s: %d cost %s and %d cost %s", a.Ref, b.Ref, a.Count, cost[a.Ref], b.Count, cost[b.Ref])
			}
		}
	}
}

// noDearer checks that what is bought is no dearer than what first-fit makes of it.
func noDearer(t *rapid.T, b *rates.Book, all []takeoff.Piece) {
	y := newYard(oakJob(), b, pieces(all...))
	p := &purchase{yard: y, lots: make([]lot, len(y.sources))}
	for _, timber := range []string{"larch", "oak"} {
		var kinds []*kind
		var places []int
		for i, piece := range all {
			if piece.Timber == timber && piece.Carried.InTotal() {
				places = append(places, i)
			}
		}
		for _, k := range p.kinds(places) {
			if k.bound == nil || !whole(k.bound.stock.Form) {
				kinds = append(kinds, k)
			}
		}
		if len(kinds) == 0 {
			continue
		}
		bench := p.bench(timber, kinds)
		if out := bench.saw(few); bench.less(bench.first(), out) {
			t.Fatalf("%s: first-fit gets it for %s, short %v; bought for %s, short %v",
				timber, bench.cost(bench.first()), bench.first().short, bench.cost(out), out.short)
		}
	}
}
