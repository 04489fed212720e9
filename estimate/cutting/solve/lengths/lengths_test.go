package lengths

import (
	"math/rand"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/cutting/solve"
)

// fits tells whether the yield of a column can be sawn from its kind.
func fits(g *Generator, c solve.Column) bool {
	left := g.stock[c.Kind].Length
	for _, e := range c.Gives {
		left -= g.pieces[e.Piece].Length * int64(e.Count)
	}
	return left >= 0
}

// every calls yield with each count of the pieces that a stick of length left can hold within the numbers wanted.
func every(pieces []Piece, wanted []int, left int64, yield func(count []int, left int64)) {
	count := make([]int, len(pieces))
	var fill func(i int, left int64)
	fill = func(i int, left int64) {
		if i == len(pieces) {
			yield(count, left)
			return
		}
		for q := 0; q <= wanted[i] && int64(q)*pieces[i].Length <= left; q++ {
			count[i] = q
			fill(i+1, left-int64(q)*pieces[i].Length)
		}
		count[i] = 0
	}
	fill(0, left)
}

func worthOf(c solve.Column, worth []int64) int64 {
	v := int64(0)
	for _, e := range c.Gives {
		v += worth[e.Piece] * int64(e.Count)
	}
	return v
}

func free() *solve.Steps { return &solve.Steps{Most: 1 << 60} }

func TestTheWorkedFigureOfThePackageComment(t *testing.T) {
	g := New([]Piece{{4, 2}, {3, 2}}, []Stock{{Length: 10, Cost: 1, Most: -1}})
	most, columns := g.Best([]int64{5, 4}, []int{2, 2}, nil, free())
	if most[0] != 13 {
		t.Errorf("greatest worth %d, not 13", most[0])
	}
	want := []solve.Column{{Gives: []solve.Entry{{Piece: 0, Count: 1}, {Piece: 1, Count: 2}}}}
	if d := cmp.Diff(want, columns); d != "" {
		t.Error(d)
	}
}

// agree compares Best and List with trying every yield.
func agree(t *testing.T, pieces []Piece, stock []Stock, worth []int64, wanted []int, floor []int64) {
	g := New(pieces, stock)
	most, columns := g.Best(worth, wanted, floor, free())
	full := make([]int, len(pieces))
	for i, p := range pieces {
		full[i] = p.Wanted
	}
	best := make([]int64, len(stock))
	worthy := map[string]bool{}
	for k, s := range stock {
		every(pieces, wanted, s.Length, func(count []int, _ int64) {
			v := int64(0)
			for i, q := range count {
				v += worth[i] * int64(q)
			}
			best[k] = max(best[k], v)
		})
		every(pieces, full, s.Length, func(count []int, left int64) {
			v, some := int64(0), false
			for i, q := range count {
				v += worth[i] * int64(q)
				some = some || q > 0
				if q < full[i] && pieces[i].Length <= left {
					return
				}
			}
			if some && v >= floor[k] {
				worthy[name(k, count)] = true
			}
		})
	}
	if d := cmp.Diff(best, most); d != "" {
		t.Fatalf("greatest worths: %s", d)
	}
	reached := make([]int64, len(stock))
	for _, c := range columns {
		v := worthOf(c, worth)
		if !fits(g, c) || v <= floor[c.Kind] || v > most[c.Kind] {
			t.Fatalf("column %v worth %d, floor %d, most %d", c, v, floor[c.Kind], most[c.Kind])
		}
		for _, e := range c.Gives {
			if e.Count > wanted[e.Piece] {
				t.Fatalf("column %v gives more than wanted", c)
			}
		}
		reached[c.Kind] = max(reached[c.Kind], v)
	}
	for k := range stock {
		if most[k] > floor[k] && most[k] > 0 && reached[k] != most[k] {
			t.Fatalf("kind %d holds %d, but no column more than %d", k, most[k], reached[k])
		}
	}
	listed, whole := g.List(worth, floor, 1<<20, free())
	if !whole {
		t.Fatal("the list was cut short")
	}
	got := map[string]bool{}
	for _, c := range listed {
		count := make([]int, len(pieces))
		for _, e := range c.Gives {
			count[e.Piece] = e.Count
		}
		if got[name(c.Kind, count)] {
			t.Fatalf("%v is listed twice", c)
		}
		got[name(c.Kind, count)] = true
	}
	if d := cmp.Diff(worthy, got); d != "" {
		t.Fatalf("list: %s", d)
	}
	if len(worthy) > 0 {
		if _, whole := g.List(worth, floor, len(worthy)-1, free()); whole {
			t.Fatal("a list longer than allowed was called whole")
		}
	}
}

func name(kind int, count []int) string {
	b := []byte{byte('a' + kind)}
	for _, q := range count {
		b = append(b, byte('0'+q))
	}
	return string(b)
}

func drawn(seed int64) (pieces []Piece, stock []Stock, worth []int64, wanted []int, floor []int64) {
	r := rand.New(rand.NewSource(seed))
	seen := map[int64]bool{}
	for n := 1 + r.Intn(6); n > 0; n-- {
		l := 1 + r.Int63n(40)
		if seen[l] {
			continue
		}
		seen[l] = true
		p := Piece{Length: l, Wanted: 1 + r.Intn(4)}
		pieces = append(pieces, p)
		worth = append(worth, r.Int63n(30))
		wanted = append(wanted, r.Intn(p.Wanted+1))
	}
	for n := 1 + r.Intn(3); n > 0; n-- {
		stock = append(stock, Stock{Length: 1 + r.Int63n(90), Cost: 1, Most: -1})
		floor = append(floor, r.Int63n(60))
	}
	return pieces, stock, worth, wanted, floor
}

func TestBestAndListAgreeWithTryingEveryYield(t *testing.T) {
	for seed := int64(0); seed < 400; seed++ {
		pieces, stock, worth, wanted, floor := drawn(seed)
		agree(t, pieces, stock, worth, wanted, floor)
	}
}

func FuzzBestAndListAgreeWithTryingEveryYield(f *testing.F) {
	for seed := int64(1000); seed < 1010; seed++ {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, seed int64) {
		pieces, stock, worth, wanted, floor := drawn(seed)
		agree(t, pieces, stock, worth, wanted, floor)
	})
}

func TestLengthsTooFineToReckonWithAreBoundedFromAboveAndSawnFromBelow(t *testing.T) {
	r := rand.New(rand.NewSource(5))
	for turn := 0; turn < 20; turn++ {
		var pieces []Piece
		var worth []int64
		var wanted []int
		for i := 0; i < 6; i++ {
			pieces = append(pieces, Piece{Length: 500_000_001 + r.Int63n(3_000_000_000), Wanted: 2})
			worth = append(worth, 1+r.Int63n(50))
			wanted = append(wanted, 2)
		}
		pieces = append(pieces, Piece{Length: 7, Wanted: 3})
		worth, wanted = append(worth, 1), append(wanted, 3)
		stock := []Stock{{Length: 6_000_000_007, Cost: 1, Most: -1}, {Length: 4_500_000_001, Cost: 1, Most: -1}}
		g := New(pieces, stock)
		if g.coarse == nil {
			t.Fatal("these lengths were meant to be too fine")
		}
		most, columns := g.Best(worth, wanted, nil, free())
		for k, s := range stock {
			truth := int64(0)
			every(pieces, wanted, s.Length, func(count []int, _ int64) {
				v := int64(0)
				for i, q := range count {
					v += worth[i] * int64(q)
				}
				truth = max(truth, v)
			})
			if most[k] < truth {
				t.Errorf("kind %d: bound %d under the truth %d", k, most[k], truth)
			}
		}
		if len(columns) != 2 {
			t.Errorf("%d columns for two kinds", len(columns))
		}
		for _, c := range columns {
			if !fits(g, c) {
				t.Errorf("column %v is too long", c)
			}
		}
		if _, whole := g.List(worth, []int64{0, 0}, 1<<20, free()); whole {
			t.Error("a list by coarse lengths was called whole")
		}
	}
}

func TestLengthsThatMakeNoSenseAreRefused(t *testing.T) {
	for name, pieces := range map[string][]Piece{
		"no length":             {{0, 1}},
		"none wanted":           {{5, 0}},
		"one length in two":     {{5, 1}, {6, 1}, {5, 2}},
		"a length under nought": {{-5, 1}},
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("taken without a word")
				}
			}()
			New(pieces, []Stock{{Length: 10, Cost: 1, Most: -1}})
		})
	}
}
