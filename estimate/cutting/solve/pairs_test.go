package solve_test

import (
	"testing"

	"pgregory.net/rapid"

	"futtock/estimate/cutting/solve"
	"futtock/estimate/cutting/solve/lengths"
)

// onceWanted is a random purchase of which most pieces are wanted once, so that it is branched on in pairs.
func onceWanted(t *rapid.T) purchase {
	p := purchase{name: "once"}
	seen := map[int64]bool{}
	for n := rapid.IntRange(4, 11).Draw(t, "pieces"); n > 0; n-- {
		l := rapid.Int64Range(10, 60).Draw(t, "length")
		if seen[l] {
			continue
		}
		seen[l] = true
		wanted := 1
		if rapid.IntRange(0, 9).Draw(t, "more") == 7 {
			wanted = 2
		}
		p.pieces = append(p.pieces, lengths.Piece{Length: l, Wanted: wanted})
	}
	for n := rapid.IntRange(1, 3).Draw(t, "kinds"); n > 0; n-- {
		p.stock = append(p.stock, lengths.Stock{
			Length: rapid.Int64Range(60, 110).Draw(t, "stock"),
			Cost:   rapid.Int64Range(5, 15).Draw(t, "cost"),
			Most:   rapid.SampledFrom([]int{-1, -1, -1, 3}).Draw(t, "most"),
		})
	}
	return p
}

// From no purchase at hand a search may be long; what it has at the end of its steps must be sound even so.
func TestTheTreeAloneFindsWhatExhaustiveSearchFinds(t *testing.T) {
	runs, cut, open := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		p := onceWanted(t)
		want := cheapest(p)
		g := lengths.New(p.pieces, p.stock)
		a, inPairs := solve.SearchOnly(g.Instance(), g, solve.Usual)
		runs++
		if inPairs {
			cut++
		}
		if err := recheck(p, a); err != nil {
			t.Fatal(err)
		}
		switch {
		case want < 0 && (a.Short == nil || a.Proven):
			t.Fatalf("impossible, but answered %+v", a)
		case want < 0:
		case a.Impossible || a.Bound > want || a.Short == nil && a.Cost < want || a.Proven && a.Cost != want:
			t.Fatalf("cost %d by search, answered %+v", want, a)
		case !a.Proven:
			open++
		}
	})
	if cut == 0 || open > runs/20 {
		t.Errorf("of %d purchases %d were branched on in pairs, %d left open", runs, cut, open)
	}
}
