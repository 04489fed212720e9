package cutting

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/cutting/order"
	"futtock/estimate/takeoff"
	"futtock/rates"
)

func shareText(shares []order.Share) []string {
	var out []string
	for _, s := range shares {
		out = append(out, fmt.Sprintf("%s: %s of %s for %s m3", s.Ref, s.Cost, s.Stock, s.Sawn))
	}
	return out
}

func TestWhatRowsBear(t *testing.T) {
	long, short := plank("long", 52*mm, 150*mm, 6110*mm, "50"), plank("short", 52*mm, 150*mm, 2200*mm, "20")
	tests := []struct {
		name   string
		stock  []rates.Stock
		pieces []takeoff.Piece
		want   []string
	}{
		{
			// 90.00 by 0.070 and 0.042 of 0.112 m3.
			"rows of one section share by sawn volume",
			[]rates.Stock{plank("deck plank", 52*mm, 150*mm, 6110*mm, "30")},
			[]takeoff.Piece{straight("1", 5, 50*mm, 140*mm, 2*m), straight("2", 3, 50*mm, 140*mm, 2*m)},
			[]string{"1: 56.25 of deck plank for 0.07 m3", "2: 33.75 of deck plank for 0.042 m3"},
		},
		{
			// 160 x 0.118 / 0.17877 = 105.611: the line goes to the sections first.
			"sections share a plank that both are ripped from",
			[]rates.Stock{plank("wide plank", 52*mm, 306*mm, 6003*mm, "80")},
			[]takeoff.Piece{straight("1", 4, 50*mm, 200*mm, 2950*mm), straight("2", 4, 50*mm, 103*mm, 2950*mm)},
			[]string{"1: 105.61 of wide plank for 0.118 m3", "2: 54.39 of wide plank for 0.06077 m3"},
		},
		{
			// Port comes out of the dear planks, half of starboard out of the cheap ones; both bear half of each.
			"port and starboard cost the same whichever plank they come from",
			[]rates.Stock{long, short},
			[]takeoff.Piece{straight("port", 4, 50*mm, 140*mm, 2*m), straight("starboard", 4, 50*mm, 140*mm, 2*m)},
			[]string{"port: 50.00 of long for 0.056 m3", "port: 20.00 of short for 0.056 m3",
				"starboard: 50.00 of long for 0.056 m3", "starboard: 20.00 of short for 0.056 m3"},
		},
		{
			// Three rows of one piece at 50.00: running totals give 16.67, 16.66, 16.67.
			"no penny is lost",
			[]rates.Stock{long},
			[]takeoff.Piece{straight("1.10", 1, 50*mm, 140*mm, 2*m), straight("1.9", 1, 50*mm, 140*mm, 2*m), straight("1.2", 1, 50*mm, 140*mm, 2*m)},
			[]string{"1.2: 16.67 of long for 0.014 m3", "1.9: 16.66 of long for 0.014 m3", "1.10: 16.67 of long for 0.014 m3"},
		},
		{
			"pieces under a millionth of a cubic metre share by equal parts",
			[]rates.Stock{long},
			[]takeoff.Piece{straight("1", 1, 5*mm, 5*mm, 5*mm), straight("2", 1, 5*mm, 5*mm, 5*mm)},
			[]string{"1: 25.00 of long for 0 m3", "2: 25.00 of long for 0 m3"},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			plan, problems := Cut(oakJob(), book(tt.stock...), pieces(tt.pieces...))
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			if d := cmp.Diff(tt.want, shareText(plan.Shares)); d != "" {
				t.Error(d)
			}
		})
	}
}

// Each row bears its volume of all that is sawn to the section, from whichever
// stick: 0.056 of the 0.112 m3 of both.
func TestAShareKnowsWhatItIsAShareOf(t *testing.T) {
	plan, problems := Cut(oakJob(), book(plank("long", 52*mm, 150*mm, 6110*mm, "50"), plank("short", 52*mm, 150*mm, 2200*mm, "20")),
		pieces(straight("port", 4, 50*mm, 140*mm, 2*m), straight("starboard", 4, 50*mm, 140*mm, 2*m)))
	if len(problems) > 0 || len(plan.Shares) != 4 {
		t.Fatalf("%d shares, %v", len(plan.Shares), problems)
	}
	for _, s := range plan.Shares {
		if s.Sawn.String() != "0.056" || s.Of.String() != "0.112" || s.Bound {
			t.Errorf("%s of %s bears for %s of %s m3, bound %t", s.Ref, s.Stock, s.Sawn, s.Of, s.Bound)
		}
	}
}

// A row bound to a line bears that line alone, though like pieces of other rows
// come from elsewhere for less.
func TestBoundRowsBearTheirOwnLine(t *testing.T) {
	bound := straight("1", 3, 50*mm, 140*mm, 2*m)
	bound.Stock = "dear"
	plan, _ := Cut(oakJob(), book(plank("dear", 52*mm, 150*mm, 6110*mm, "90"), plank("cheap", 52*mm, 150*mm, 6110*mm, "30")),
		pieces(bound, straight("2", 3, 50*mm, 140*mm, 2*m)))
	want := []string{"1: 90.00 of dear for 0.042 m3", "2: 30.00 of cheap for 0.042 m3"}
	if d := cmp.Diff(want, shareText(plan.Shares)); d != "" {
		t.Error(d)
	}
}

func TestSummaryAndBoundWorkedByHand(t *testing.T) {
	p := straight("1", 8, 50*mm, 140*mm, 2*m)
	p.Net = p.Net.Times(dec("0.9")) // planed: 0.1008 of 0.112
	plan, _ := Cut(oakJob(), book(plank("deck plank", 52*mm, 150*mm, 6110*mm, "30")), pieces(p))
	s := plan.Species[0]
	// 3 x 0.052 x 0.150 x 6.110 = 0.142974; 0.1008 of it is 70.5 %.
	got := fmt.Sprint(s.Timber, ": ", s.Net, ", ", s.Sawn, ", ", s.Bought, ", ", s.Waste, ", ", s.Yield, ", ", s.Cost)
	if want := "oak: 0.1008, 0.112, 0.142974, 0.042174, 70.5 %, 90.00"; got != want {
		t.Errorf("%s, wanted %s", got, want)
	}
	// A plank holds three of the eight: 8/3 planks are not to be had, three are.
	b := plan.Bound
	if got := fmt.Sprintf("%s, %s, %s", b.Cost, b.Least, b.Gap); got != "90.00, 90.00, 0 %" {
		t.Error(got)
	}
}
