package solve_test

import (
	"testing"

	"futtock/estimate/cutting/solve"
	"futtock/estimate/cutting/solve/lengths"
)

// Eleven pieces of 1 from sticks of 5 at 50 pence and of 3 at 36. A length of 1 costs 10 at least, which makes 110. The numbers that hold 11 cost
// 150 (three of 5), 136 (two and one), 122 (one and two) or 144 (four of 3), so nothing is cheaper than 122.
func TestTheBoundIsASumOfPricesThatHoldsWhatIsWanted(t *testing.T) {
	g := lengths.New([]lengths.Piece{{Length: 1, Wanted: 11}},
		[]lengths.Stock{{Length: 5, Cost: 50, Most: -1}, {Length: 3, Cost: 36, Most: -1}})
	relaxed, summed := solve.SumBound(g.Instance(), g)
	if relaxed != 110 || summed != 122 {
		t.Errorf("%d and %d, by hand 110 and 122", relaxed, summed)
	}
	// With one stick of 3 to be had, 136 is the least.
	g = lengths.New([]lengths.Piece{{Length: 1, Wanted: 11}},
		[]lengths.Stock{{Length: 5, Cost: 50, Most: -1}, {Length: 3, Cost: 36, Most: 1}})
	if _, summed := solve.SumBound(g.Instance(), g); summed != 136 {
		t.Errorf("%d with one stick of 3, by hand 136", summed)
	}
}
