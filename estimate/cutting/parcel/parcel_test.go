package parcel

import (
	"testing"

	"pgregory.net/rapid"
)

// lost is what numbers of a stick cost that loses so many in a hundred.
func lost(each int64, loss, most int) []int64 {
	var out []int64
	for n := range most + 1 {
		bought := (100*n + 99 - loss) / (100 - loss)
		out = append(out, each*int64(bought))
	}
	return out
}

func open([]int, bool) (Verdict, []Row) { return Open, nil }

func TestTheWorkedFigureOfThePackage(t *testing.T) {
	offers := []Offer{{Costs: lost(5000, 10, 20)}, {Costs: lost(7000, 0, 20)}}
	if offers[0].Costs[9] != 50000 || offers[0].Costs[10] != 60000 {
		t.Fatalf("planks cost %v", offers[0].Costs)
	}
	rows := []Row{{Need: 10, Holds: []int64{1, 1}}}
	if got := Least(offers, rows, 1<<40, open, 1_000_000); got != 57000 {
		t.Errorf("least %d, want 57000", got)
	}
}

// someRows is rows over offers.
func someRows(t *rapid.T, offers int, most int64) []Row {
	var out []Row
	for range rapid.IntRange(1, 3).Draw(t, "rows") {
		r := Row{Need: rapid.Int64Range(1, most).Draw(t, "need")}
		for range offers {
			r.Holds = append(r.Holds, r.Need/rapid.Int64Range(1, 9).Draw(t, "parts")*rapid.Int64Range(0, 1).Draw(t, "any"))
		}
		out = append(out, r)
	}
	return out
}

// cheapest tries all numbers that meet the rows; false where none do.
func cheapest(offers []Offer, rows []Row, suffices func([]int) bool) (int64, bool) {
	best, found := int64(0), false
	used := make([]int, len(offers))
	var grow func(at int, cost int64)
	grow = func(at int, cost int64) {
		if at == len(offers) {
			for _, r := range rows {
				var held int64
				for i, h := range r.Holds {
					held += h * int64(used[i])
				}
				if held < r.Need {
					return
				}
			}
			if suffices(used) && (!found || cost < best) {
				best, found = cost, true
			}
			return
		}
		for n, c := range offers[at].Costs {
			used[at] = n
			grow(at+1, cost+c)
		}
		used[at] = 0
	}
	grow(0, 0)
	return best, found
}

// With time enough the least is that of all numbers tried, whether the check gives the rows that are wanted
// bit by bit, or says of numbers no more than whether they suffice; and never over it with little time.
func TestLeastIsThatOfAllNumbersTried(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var offers []Offer
		for range rapid.IntRange(1, 3).Draw(t, "offers") {
			each := rapid.Int64Range(1, 90).Draw(t, "each") * 100
			offers = append(offers, Offer{Costs: lost(each, rapid.SampledFrom([]int{0, 5, 10, 12, 60}).Draw(t, "loss"), rapid.IntRange(0, 10).Draw(t, "most"))})
		}
		most := rapid.SampledFrom([]int64{100, 1 << 20, 1<<narrow - 1, 1 << 50}).Draw(t, "great")
		known, hidden := someRows(t, len(offers), most), someRows(t, len(offers), most)
		odd := rapid.Bool().Draw(t, "odd") // the first offer's number is of no use unless even
		suffices := func(used []int) bool {
			least := append([]int(nil), used...)
			if odd {
				least[0] &^= 1
			}
			for _, r := range hidden {
				if !r.met(least) {
					return false
				}
			}
			return true
		}
		check := func(used []int, rows bool) (Verdict, []Row) {
			for _, r := range hidden {
				if !r.met(used) {
					return Lacking, []Row{r}
				}
			}
			switch {
			case rows:
				return Open, nil
			case suffices(used):
				return Enough, nil
			}
			return Never, nil
		}
		const far = 1 << 50
		got := Least(offers, known, far, check, 1<<40)
		want, found := cheapest(offers, known, suffices)
		if !found {
			want = far
		}
		// Greater needs are rounded, which may leave a little out.
		if got > want || got < want && most < 1<<narrow {
			t.Fatalf("least %d, want %d", got, want)
		}
		if little := Least(offers, known, far, check, rapid.Int64Range(0, 3000).Draw(t, "steps")); little > want {
			t.Fatalf("with few steps least %d, over %d", little, want)
		}
	})
}

func TestPartsOfAStickAreHadForPartsOfItsCost(t *testing.T) {
	// Three need 2.5 of the second at 100 each, or planks at 90 each that hold one.
	offers := []Offer{{Costs: lost(9000, 0, 9)}, {Costs: lost(10000, 0, 9), Parts: true}}
	rows := []Row{{Need: 30, Holds: []int64{10, 12}}}
	if got := Least(offers, rows, 1<<40, open, 1_000_000); got != 25000 {
		t.Errorf("least %d, want 25000", got)
	}
}
