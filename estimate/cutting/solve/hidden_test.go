package solve_test

import (
	"testing"

	"pgregory.net/rapid"

	"futtock/estimate/cutting/solve"
	"futtock/estimate/cutting/solve/lengths"
)

// plain prices but cannot list, pays no heed to what is wanted, and answers a worth somewhat above the truth, as a generator for boards or logs may.
type plain struct {
	g      *lengths.Generator
	wanted []int
	extra  int64
}

func (p plain) Best(worth []int64, _ []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	most, columns := p.g.Best(worth, p.wanted, floor, steps)
	for k := range most {
		most[k] += most[k] / 100 * p.extra
	}
	return most, columns
}

func TestAGeneratorThatOnlyPricesIsAnsweredSoundly(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := drawn(t)
		want := cheapest(p)
		g := lengths.New(p.pieces, p.stock)
		in := g.Instance()
		if rapid.Bool().Draw(t, "without a start") {
			in.Start, in.Worths = nil, nil
		}
		a := solve.Solve(in, plain{g, in.Demand, rapid.Int64Range(0, 5).Draw(t, "extra")}, 3_000_000)
		if err := recheck(p, a); err != nil {
			t.Fatal(err)
		}
		if want < 0 && (a.Short == nil || a.Proven) {
			t.Fatalf("impossible, but answered %+v", a)
		}
		if want >= 0 && (a.Impossible || a.Bound > want || a.Short == nil && a.Cost < want || a.Proven && a.Cost != want) {
			t.Fatalf("cost %d by search, answered %+v", want, a)
		}
	})
}

func TestNoDemandNeedsNoPurchase(t *testing.T) {
	a := solve.Solve(solve.Instance{Demand: []int{0}, Kinds: []solve.Kind{{Cost: 5, Most: -1}}}, nil, solve.Usual)
	if !a.Proven || a.Cost != 0 || a.Bound != 0 || a.Use != nil {
		t.Errorf("answered %+v", a)
	}
}
