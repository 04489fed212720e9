package log

import (
	"math/rand/v2"
	"testing"

	"futtock/estimate/cutting/solve"
)

// Logs of three classes are bought for whole lists of pieces: all that is wanted is
// had from layouts that can be sawn, and no purchase costs less than the bound that
// is proven with less asked of the logs, the demand taken many times over.
func TestPurchasesGiveWhatIsWantedAndCostNoLessThanTheBound(t *testing.T) {
	draw := rand.New(rand.NewPCG(1, 8))
	gap, bought := 0.0, 0
	for range 6 {
		s := Shop{Kerf: 4 * mm, Work: 300_000}
		from := func(low, high, step int) int64 { return int64(low+step*draw.IntN((high-low)/step)) * mm }
		for range 5 {
			s.Pieces = append(s.Pieces, Piece{Thickness: from(25, 105, 5), Width: from(75, 260, 5), Length: from(1200, 5800, 10),
				Sapwood: draw.IntN(4) == 0, Free: draw.IntN(4) == 0, Wanted: 10 + draw.IntN(40)})
		}
		var in solve.Instance
		for i, d := range []int64{350, 450, 600} {
			l := Log{Top: d * mm, Taper: 8 * mm, Length: 6000 * mm, Sapwood: 25 * mm, Core: 30 * mm}
			for range s.Pieces {
				l.Gives = append(l.Gives, true)
			}
			s.Logs = append(s.Logs, l)
			in.Kinds = append(in.Kinds, solve.Kind{Cost: d * d * int64(100+4*i) / 1000, Most: -1})
		}
		saw := New(s)
		in.Demand = make([]int, len(s.Pieces))
		for p := range s.Pieces {
			for i := range s.Logs {
				if c, ok := saw.Alone(i, p); ok {
					in.Start = append(in.Start, c)
					in.Demand[p] = s.Pieces[p].Wanted
				}
			}
		}
		const times = 64
		many := in
		many.Demand = nil
		for _, n := range in.Demand {
			many.Demand = append(many.Demand, times*n)
		}
		eased := saw.Ease()
		bound := solve.Relax(many, eased, 20_000_000).Bound / times
		in.Start = append(in.Start, eased.Sound()...)
		answer := solve.Solve(in, saw, 20_000_000)
		bound = max(bound, answer.Bound)
		if answer.Short != nil || answer.Cost < bound {
			t.Fatalf("%v are short, and the cost is %d with a bound of %d", answer.Short, answer.Cost, bound)
		}
		got := make([]int, len(s.Pieces))
		for _, u := range answer.Use {
			l := saw.Sawn(u.Tag, u.Gives)
			sound(t, s, l, saw.Places(l))
			counts(t, s, u.Column, saw.Places(l), in.Demand)
			for _, e := range u.Gives {
				got[e.Piece] += u.Times * e.Count
			}
			bought += u.Times
		}
		for i, n := range in.Demand {
			if got[i] != n {
				t.Fatalf("%d of piece %d are had, and %d wanted", got[i], i, n)
			}
		}
		gap += 100 * float64(answer.Cost-bound) / float64(answer.Cost) / 6
		// What is known is enough for the same purchase, and proves nothing.
		in.Start = saw.Pool().Columns()
		if again := solve.Solve(in, saw.Pool(), 2_000_000); again.Short != nil || again.Cost < bound {
			t.Fatalf("from the layouts known: %v are short, and the cost is %d with a bound of %d", again.Short, again.Cost, bound)
		}
	}
	if gap > 15 || bought < 30 {
		t.Errorf("the mean gap is %.2f %%, of %d logs", gap, bought)
	}
}
