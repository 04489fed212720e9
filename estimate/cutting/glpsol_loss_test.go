package cutting

import (
	"fmt"
	"math/rand/v2"
	"sync/atomic"
	"testing"
)

// lossyJob is a small job with a Loss on most lines and more of each piece, so that rounding up tells.
func lossyJob(seed uint64) trial {
	draw := rand.New(rand.NewPCG(seed, 23))
	j := smallJob(seed)
	for i := range j.pieces {
		p := &j.pieces[i]
		*p = straight(p.Ref, p.Count+draw.IntN(7), p.Thickness, p.Width, p.Length)
		j.want[i] = p.Count
	}
	for i := range j.stock {
		if draw.IntN(5) > 0 {
			j.stock[i].Loss = percent([]string{"5", "8", "10", "12", "35"}[draw.IntN(5)])
		}
	}
	return j
}

// Of jobs with a Loss the cost is never under what an independent solver finds, the bound
// never over it, and nearly all are proven.
func TestSmallJobsWithALossAreProvenAgainstAnIndependentSolver(t *testing.T) {
	const jobs = 60
	var proven atomic.Int32
	t.Run("jobs", func(t *testing.T) {
		for seed := range uint64(jobs) {
			t.Run(fmt.Sprint(seed), func(t *testing.T) {
				t.Parallel()
				j := lossyJob(seed)
				want := j.least(t, nil)
				plan, problems := Cut(oakJob(), book(j.stock...), pieces(j.pieces...))
				if len(problems) > 0 {
					t.Fatal(problems)
				}
				cost, least := plan.Bound.Cost.Decimal().Shift(2).IntPart(), plan.Bound.Least.Decimal().Shift(2).IntPart()
				if cost < want || least > want {
					t.Errorf("costs %d, not under %d; glpsol has %d", cost, least, want)
				}
				if cost == want && least == want {
					proven.Add(1)
				} else {
					t.Logf("costs %d, not under %d; glpsol has %d", cost, least, want)
				}
			})
		}
	})
	if n := proven.Load(); n < jobs*9/10 {
		t.Errorf("%d of %d are proven", n, jobs)
	}
}
