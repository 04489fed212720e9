package solve_test

import (
	"path/filepath"
	"testing"

	"futtock/estimate/cutting/solve"
	"futtock/estimate/cutting/solve/lengths"
)

// planking is one group like those of a refit: 27 lengths of plank from six stock lengths.
const planking = "planking 6 4104 9272 5304 12064 5904 13484 8904 20822 9504 22337 10104 23868 27 8554 5 8179 1 7914 6 7694 3 7064 1 6989 1 6374 2 " +
	"6214 4 5634 5 5289 6 5124 2 5004 2 4754 1 4604 1 4569 6 4269 6 4249 1 3984 4 3969 6 3759 4 3549 3 3309 3 3239 2 2764 1 1464 6 1414 4 1219 2"

func BenchmarkPlanking(b *testing.B) {
	p := read(b, planking)
	for b.Loop() {
		g := lengths.New(p.pieces, p.stock)
		a := solve.Solve(g.Instance(), g, solve.Usual)
		b.ReportMetric(float64(a.Cost-a.Bound), "pence-gap")
		b.ReportMetric(float64(a.Steps), "steps")
	}
}

func BenchmarkOurOwnSet(b *testing.B) {
	var all []purchase
	for _, file := range []string{"single.txt", "several.txt"} {
		for _, line := range lines(b, filepath.Join("..", "..", "..", "testdata", "cuttingstock", file)) {
			all = append(all, read(b, line))
		}
	}
	for b.Loop() {
		for _, p := range all {
			g := lengths.New(p.pieces, p.stock)
			solve.Solve(g.Instance(), g, solve.Usual)
		}
	}
}

func BenchmarkGraphAndOnePricing(b *testing.B) {
	p := read(b, planking)
	wanted := make([]int, len(p.pieces))
	worth := make([]int64, len(p.pieces))
	for i, piece := range p.pieces {
		wanted[i], worth[i] = piece.Wanted, piece.Length
	}
	b.Run("graph", func(b *testing.B) {
		for b.Loop() {
			lengths.New(p.pieces, p.stock)
		}
	})
	g := lengths.New(p.pieces, p.stock)
	b.Run("pricing", func(b *testing.B) {
		for b.Loop() {
			g.Best(worth, wanted, nil, &solve.Steps{})
		}
	})
}
