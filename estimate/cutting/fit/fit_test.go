package fit

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// line is a stock line of planks 52 thick, sold one by one with no loss; a limit
// below nil is none.
func line(width, length, each int64, limit int) Line {
	return Line{Thickness: 52, Width: width, Clear: width, Length: length, Each: each, PerUsed: float64(each),
		Buy: func(n int) int { return n }, Limit: limit}
}

func kind(t, w, l int64, n int, lines int) Kind {
	k := Kind{Thickness: t, Width: w, Length: l, Count: n}
	for range lines {
		k.Lines = append(k.Lines, true)
	}
	return k
}

func TestPlacesWorkedByHand(t *testing.T) {
	nested := kind(50, 120, 1000, 3, 1)
	nested.Pitch = 90
	tests := []struct {
		name string
		in   Input
		want []Stick
	}{
		{
			"strips and lengths stand a saw-cut apart",
			Input{Looks: 1_000_000, Kerf: 3, Lines: []Line{line(203, 2003, 100, -1)}, Kinds: []Kind{kind(50, 100, 1000, 4, 1)}},
			[]Stick{{0, []Place{{0, 0, 0, false}, {0, 1003, 0, false}, {0, 0, 103, false}, {0, 1003, 103, false}}, -1}},
		},
		{
			"a piece too wide lies on edge in a thick stick",
			Input{Looks: 1_000_000, Kerf: 3, Lines: []Line{line(50, 1000, 100, -1)}, Kinds: []Kind{kind(40, 51, 1000, 1, 1)}},
			[]Stick{{0, []Place{{0, 0, 0, true}}, -1}},
		},
		{
			// 120 + 2 x 90 = 300: all three lie in one strip of one length.
			"curves lie nested by their step",
			Input{Looks: 1_000_000, Kerf: 3, Lines: []Line{line(300, 1000, 100, -1)}, Kinds: []Kind{nested}},
			[]Stick{{0, []Place{{0, 0, 0, false}, {0, 0, 90, false}, {0, 0, 180, false}}, -1}},
		},
		{
			// The end of the 200 strip is ripped again: 98 + 3 + 98 = 199.
			"the end of a wide strip is ripped again",
			Input{Looks: 1_000_000, Kerf: 3, Lines: []Line{line(200, 1503, 100, -1)}, Kinds: []Kind{kind(50, 200, 1000, 1, 1), kind(50, 98, 500, 2, 1)}},
			[]Stick{{0, []Place{{0, 0, 0, false}, {1, 1003, 0, false}, {1, 1003, 101, false}}, -1}},
		},
		{
			"a cheap line that is used up gives way to the next",
			Input{Looks: 1_000_000, Kerf: 3, Lines: []Line{line(100, 1000, 10, 1), line(100, 1000, 20, -1)}, Kinds: []Kind{kind(50, 100, 1000, 2, 2)}},
			[]Stick{{0, []Place{{0, 0, 0, false}}, -1}, {1, []Place{{0, 0, 0, false}}, -1}},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := Sticks(tt.in)
			if d := cmp.Diff(tt.want, got.Sticks); d != "" {
				t.Error(d)
			}
			for k, n := range got.Short {
				if n > 0 {
					t.Errorf("%d of kind %d found no place", n, k)
				}
			}
		})
	}
}

func TestWhatFindsNoPlaceIsCounted(t *testing.T) {
	got := Sticks(Input{Looks: 1_000_000, Kerf: 3, Lines: []Line{line(100, 1000, 10, 2)}, Kinds: []Kind{kind(50, 100, 1000, 5, 1), kind(53, 54, 100, 1, 1)}})
	if d := cmp.Diff([]int{3, 1}, got.Short); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([][]int{{1}, {0}}, got.Holds); d != "" {
		t.Error(d)
	}
}

// By the price a piece in a filled stick the long piece opens a stick at 60 and
// the short one, three of which go in, another at 70. Broken up, both come out
// of one at 70.
func TestSticksAreBrokenUpForACheaperOne(t *testing.T) {
	in := Input{Looks: 1_000_000, Lines: []Line{line(100, 1000, 60, -1), line(100, 1500, 70, -1)},
		Kinds: []Kind{kind(50, 100, 900, 1, 2), kind(50, 100, 500, 1, 2)}}
	b := newBench(&in)
	s := b.blank()
	for k := range in.Kinds {
		b.insert(s, k, 1, rule{score: byFilled, prefer: -1})
	}
	if before, after := b.total(s), b.total(b.improve(s)); before != 130 || after != 70 {
		t.Errorf("%v before and %v after; by hand 130 and 70", before, after)
	}
}

// Many thousand sticks use up the work that is allowed before all layouts are made.
func TestTheLayoutKeptIsNoDearerThanTheFirst(t *testing.T) {
	in := Input{Looks: 1_000_000, Kerf: 3, Lines: []Line{line(300, 4000, 100, -1)}}
	for i := range int64(60) {
		in.Kinds = append(in.Kinds, kind(50, 60+3*i, 700+31*i, 2000, 1))
	}
	b := newBench(&in)
	s := b.blank()
	for _, k := range b.order(0) {
		b.insert(s, k, in.Kinds[k].Count, rule{prefer: -1})
	}
	if first := b.total(s); first < float64(100*len(Sticks(in).Sticks)) {
		t.Errorf("the first layout at %v is cheaper than the one kept", first)
	}
}
