package cutting

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// run is a row of so many runs alike, each in n pieces of 50 x 140 mm.
func run(ref string, runs, n int, along, shortest, longest measure.Length) takeoff.Piece {
	p := straight(ref, runs*n, 50*mm, 140*mm, along/measure.Length(n))
	p.Run = &takeoff.Run{Runs: runs, Pieces: n, Along: along, Shortest: shortest, Longest: longest}
	return p
}

func TestRunsWorkedByHand(t *testing.T) {
	three, six := plank("three", 52*mm, 150*mm, 3100*mm, "30"), plank("six", 52*mm, 150*mm, 6100*mm, "61")
	tests := []struct {
		name  string
		stock []rates.Stock
		rows  []takeoff.Piece
		want  []string
		cuts  string // lengths in mm, row by row
	}{
		{
			// Equal pieces of 4 m want a long plank each, 183.
			"12 m in three pieces are a long plank and two short ones",
			[]rates.Stock{three, six}, []takeoff.Piece{run("1", 1, 3, 12*m, 2*m, 0)},
			[]string{"1 of six 61.00", "2 of three 60.00"}, "1: 6000 3000 3000",
		},
		{
			// None over 5 m, and two of the three are over 3 m: two long planks and a short one, which gives 3 m at most.
			"no piece is over the longest",
			[]rates.Stock{three, six}, []takeoff.Piece{run("1", 1, 3, 12*m, 2*m, 5*m)},
			[]string{"2 of six 122.00", "1 of three 30.00"}, "1: 5000 5000 2000",
		},
		{
			// Of 3 + 3 + 3 m there are only 9: one at least is long, and none under 3.5 m lets three fit no short plank.
			"no piece is under the shortest",
			[]rates.Stock{three, six}, []takeoff.Piece{run("1", 1, 3, 12*m, 3500*mm, 0)},
			[]string{"3 of six 183.00"}, "1: 4000 4000 4000",
		},
		{
			// 2 x 9 m in two pieces each: 6 + 3 twice; the same row by row.
			"two runs are each made up",
			[]rates.Stock{three, six}, []takeoff.Piece{run("1", 2, 2, 9*m, 2*m, 0)},
			[]string{"2 of six 122.00", "2 of three 60.00"}, "1: 6000 3000 6000 3000",
		},
		{
			// A plank of 6,000 gives 2,500 + 3 and 3,497 beside it; 6,497 - 3,497 is 3,000 of a short plank.
			"a run takes what another piece leaves",
			[]rates.Stock{three, six}, []takeoff.Piece{straight("0", 1, 50*mm, 140*mm, 2500*mm), run("1", 1, 2, 6497*mm, 2*m, 0)},
			[]string{"1 of six 61.00", "1 of three 30.00"}, "0: 2500; 1: 3497 3000",
		},
		{
			"without a shortest the pieces are equal",
			[]rates.Stock{three, six}, []takeoff.Piece{straight("1", 3, 50*mm, 140*mm, 4*m)},
			[]string{"3 of six 183.00"}, "1: 4000 4000 4000",
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			plan, problems := Cut(oakJob(), book(tt.stock...), pieces(tt.rows...))
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			if got := boughtText(plan.Order); strings.Join(got, ", ") != strings.Join(tt.want, ", ") {
				t.Errorf("bought %q, by hand %q", got, tt.want)
			}
			var rows []string
			for i, p := range plan.Pieces {
				if i == 0 || p.Ref != plan.Pieces[i-1].Ref {
					rows = append(rows, p.Ref+":")
				}
				for range p.Count {
					rows[len(rows)-1] += fmt.Sprint(" ", int64(p.Length/mm))
				}
			}
			if got := strings.Join(rows, "; "); got != tt.cuts {
				t.Errorf("cut %q, by hand %q", got, tt.cuts)
			}
		})
	}
}

// unit is what the lengths of a loose job are whole numbers of.
const unit = 250 * mm

// A log of 150 mm has one board of 50 x 140 in it, 74.3 mm from the pith to its corner. So 12 m
// in three pieces are had for 61 + 2 x 30 out of logs as out of planks, and nothing may be proven above that.
func TestRunsThatOnlyLogsGiveHaveNoProofAboveWhatOtherLengthsCost(t *testing.T) {
	log := func(name string, length measure.Length, each string) rates.Stock {
		return rates.Stock{Stock: name, Timber: "oak", Form: rates.Log, TopDiameter: 150 * mm, Length: length, EndTrim: 50 * mm,
			Price: price(each), Unit: measure.Nr}
	}
	plan, problems := Cut(oakJob(), book(log("three", 3100*mm, "30"), log("six", 6100*mm, "61")), pieces(run("1", 1, 3, 12*m, 2*m, 0)))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if least := plan.Bound.Least.String(); plan.Bound.Least.Decimal().GreaterThan(dec("121")) {
		t.Errorf("%s is said to be the least, and 121 buys it", least)
	}
	if plan.Bound.Cost.Decimal().GreaterThan(dec("183")) {
		t.Errorf("%s, where equal pieces cost 183", plan.Bound.Cost)
	}
}

// By the cube a metre is 0.007 m3 / 0.50 at 1000, 14.00: 6.5 m of it and a plank of 6 m are 111, equal pieces
// of 6.25 m, which no plank gives, 175.
func TestARunOfWhichOnlyTheCubeGivesTheMeanLengthIsProvenOverAllLengths(t *testing.T) {
	six, sized := plank("six", 52*mm, 150*mm, 6100*mm, "20"), cube("1000", "50")
	sized.Length = 8 * m
	plan, problems := Cut(oakJob(), book(six, sized), pieces(run("1", 1, 2, 12500*mm, 2*m, 0)))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if plan.Bound.Least.Decimal().GreaterThan(dec("111")) || plan.Bound.Cost.Decimal().GreaterThanOrEqual(dec("175")) {
		t.Errorf("%s, and no less than %s", plan.Bound.Cost, plan.Bound.Least)
	}
}

// A log of 130 mm and 30 mm of taper is 148.7 mm, and holds a board of 50 x 140, up to 5.38 m from its butt. Two
// pieces of 11.6 m are over that, of whatever lengths: they are not had, and nothing is proven of what they cost.
func TestARunThatNoLogHoldsIsShortAndProvesNothing(t *testing.T) {
	log := rates.Stock{Stock: "log", Timber: "oak", Form: rates.Log, TopDiameter: 130 * mm, Taper: 30 * mm, Length: 6 * m, Price: price("61"), Unit: measure.Nr}
	plan, problems := Cut(oakJob(), book(log, plank("batten", 30*mm, 40*mm, 2100*mm, "2")),
		pieces(run("1", 1, 2, 11600*mm, 2*m, 0), straight("2", 1, 25*mm, 35*mm, 2*m)))
	if plan.Bound.Cost.String() != "2.00" || plan.Bound.Least.Cmp(plan.Bound.Cost) > 0 || len(problems) != 1 || problems[0].Code != problem.StockTooSmall {
		t.Errorf("%v, no less than %s, and %v", boughtText(plan.Order), plan.Bound.Least, problems)
	}
}

// looseJob is runs of one section, and fixed pieces beside them, out of planks just so
// wide, sawn without a kerf; every length is a whole number of units.
func looseJob(seed uint64) (stock []rates.Stock, rows []takeoff.Piece) {
	draw := rand.New(rand.NewPCG(seed, 21))
	for i, l := range []int{12, 16, 21}[:2+draw.IntN(2)] {
		s := plank(fmt.Sprint(l), 52*mm, 140*mm, measure.Length(l)*unit, fmt.Sprint(l+i+draw.IntN(4)))
		s.EndTrim = 0
		stock = append(stock, s)
	}
	for i := range 1 + draw.IntN(2) {
		n := 2 + draw.IntN(3)
		mean := measure.Length(7 + draw.IntN(5))
		rows = append(rows, run(fmt.Sprint("run ", i+1), 1, n, (mean*measure.Length(n)+measure.Length(draw.IntN(n)))*unit, measure.Length(4+draw.IntN(3))*unit, 0))
		r := rows[len(rows)-1].Run
		rows[len(rows)-1].Length = (r.Along + measure.Length(n) - 1) / measure.Length(n)
	}
	for i := range draw.IntN(3) {
		rows = append(rows, straight(fmt.Sprint("short ", i+1), 1+draw.IntN(2), 50*mm, 140*mm, measure.Length(3+draw.IntN(8))*unit))
	}
	return stock, rows
}

// looseLeast is the least cost of a loose job by an independent solver, in pounds. Every
// piece of a run stands in one plank and one run, so that for any way of sharing the
// pieces out the lengths make a transport problem, whose best lengths are whole where all
// that bounds them is whole: trying whole units is trying all lengths.
func looseLeast(t *testing.T, stock []rates.Stock, rows []takeoff.Piece) int64 {
	var costs, names []string
	number, long := make([][]string, len(rows)), make([][]string, len(rows))
	units := func(l measure.Length) int { return int(l / unit) }
	for _, s := range stock {
		var grow func(left, from, least int, n, l []int)
		grow = func(left, from, least int, n, l []int) {
			if from > 0 || least > 0 {
				x := fmt.Sprintf("x%d", len(names))
				names, costs = append(names, x), append(costs, fmt.Sprintf("%s %s", s.Price, x))
				for i := range rows {
					if n[i] > 0 {
						number[i] = append(number[i], fmt.Sprintf("%d %s", n[i], x))
						long[i] = append(long[i], fmt.Sprintf("%d %s", l[i], x))
					}
				}
			}
			for i := from; i < len(rows); i++ {
				low, high := units(rows[i].Length), units(rows[i].Length)
				if r := rows[i].Run; r != nil {
					low, high = units(r.Shortest), units(s.Length)
				}
				if i == from {
					low = max(low, least)
				}
				for k := low; k <= min(high, left); k++ {
					if n[i] == rows[i].Count {
						break
					}
					m, o := append([]int(nil), n...), append([]int(nil), l...)
					m[i]++
					o[i] += k
					grow(left-k, i, k, m, o)
				}
			}
		}
		grow(units(s.Length), 0, 0, make([]int, len(rows)), make([]int, len(rows)))
	}
	text := "Minimize\n obj: " + strings.Join(costs, "\n + ") + "\nSubject To\n"
	for i, p := range rows {
		text += fmt.Sprintf(" %s = %d\n", strings.Join(number[i], "\n + "), p.Count)
		if p.Run != nil {
			text += fmt.Sprintf(" %s >= %d\n", strings.Join(long[i], "\n + "), units(p.Run.Along))
		}
	}
	return glpsol(t, text+"General\n "+strings.Join(names, "\n ")+"\nEnd\n")
}

// The cost is never under what an independent solver finds over all lengths, nor the bound over it.
func TestRunsAgainstAnIndependentSolver(t *testing.T) {
	stock, met := 0, 0
	for seed := range uint64(30) {
		lines, rows := looseJob(seed)
		want := looseLeast(t, lines, rows) * 100
		b := book(lines...)
		b.Timber[0].Kerf = 0
		plan, problems := Cut(oakJob(), b, pieces(rows...))
		if len(problems) > 0 {
			continue // a run whose mean is over every plank
		}
		cost, least := plan.Bound.Cost.Decimal().Shift(2).IntPart(), plan.Bound.Least.Decimal().Shift(2).IntPart()
		if cost < want || least > want {
			t.Errorf("seed %d: costs %d, not under %d; glpsol has %d", seed, cost, least, want)
		}
		stock++
		if cost == want {
			met++
		}
	}
	t.Logf("of %d jobs %d cost the least there is", stock, met)
	if stock < 25 || met*10 < stock*8 {
		t.Errorf("of %d jobs only %d cost the least there is", stock, met)
	}
}
