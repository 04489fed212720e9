package cutting

import (
	"fmt"
	"slices"
	"testing"

	"futtock/estimate/takeoff"
	"futtock/rates"
)

// Four boards of 50 x 140 x 2,000: a plank at 30 gives two (2 x 2,000 + 3 of 4,010), a baulk at 52 four (50 + 3 + 50
// through). One baulk is the plan at 52; two planks are 60. Timber by the cube at 2,000 with a yield of 50 %: 0.056 m3 in
// the ship are 0.112 bought, 224. A row bound to the owner's plank keeps it.
func TestSecondBestPlansWorkedByHand(t *testing.T) {
	baulk := plank("baulk", 105*mm, 150*mm, 4110*mm, "52")
	baulk.Form = rates.Baulk
	owners := plank("owner's", 52*mm, 150*mm, 4110*mm, "1")
	owners.ByOwner = true
	bound := straight("2", 1, 50*mm, 140*mm, 2*m)
	bound.Stock = "owner's"
	b := book(plank("plank", 52*mm, 150*mm, 4110*mm, "30"), baulk, cube("2000", "50"), owners)
	taken := pieces(straight("1", 4, 50*mm, 140*mm, 2*m), bound)
	plan, problems := Cut(oakJob(), b, taken)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	var got []string
	for _, i := range Seconds(oakJob(), b, taken, plan) {
		got = append(got, fmt.Sprintf("%s%s %s %d", i.Without.Form, i.Without.Stock, i.Bound.Cost, i.Short))
	}
	want := []string{"plank 60.00 0", "baulk 52.00 0", "cube 224.00 0", "baulk 60.00 0"}
	if !slices.Equal(got, want) {
		t.Errorf("got %q, by hand %q", got, want)
	}
}

// A plan with something struck out is never cheaper than its own bound says, and
// what it lacks is told of.
func TestWithoutTheOneLineThatGivesItAPieceIsShort(t *testing.T) {
	b := book(plank("plank", 52*mm, 150*mm, 4110*mm, "30"), plank("thin", 30*mm, 150*mm, 4110*mm, "20"))
	taken := pieces(straight("1", 3, 50*mm, 140*mm, 2*m), straight("2", 2, 25*mm, 140*mm, 2*m))
	plan, _ := Cut(oakJob(), b, taken)
	seconds := Seconds(oakJob(), b, taken, plan)
	if len(seconds) != 2 || seconds[0].Without.Stock != "plank" || seconds[0].Short != 3 || seconds[1].Short != 0 || seconds[1].Bound.Cost.Cmp(plan.Bound.Cost) <= 0 {
		t.Errorf("%+v, order %v", seconds, boughtText(plan.Order))
	}
	var none takeoff.Takeoff
	if got := Seconds(oakJob(), b, none, Plan{}); len(got) > 0 {
		t.Errorf("of nothing %+v", got)
	}
}
