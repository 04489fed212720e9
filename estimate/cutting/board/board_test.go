package board

import (
	"math/rand/v2"
	"testing"

	"futtock/estimate/cutting/solve"
)

// free is steps without end.
func free() *solve.Steps { return &solve.Steps{Most: 1 << 62} }

func stick(thick, wide, long int64, gives int) Stick {
	s := Stick{Thickness: thick, Width: wide, Clear: wide, Length: long}
	for range gives {
		s.Gives = append(s.Gives, true)
	}
	return s
}

// In units of a millimetre: what a stick is worth at best, worked by hand.
func TestGreatestWorthsWorkedByHand(t *testing.T) {
	piece := func(t, w, l int64) Piece { return Piece{Thickness: t * mm, Width: w * mm, Length: l * mm, Wanted: 100} }
	curve := piece(50, 120, 1000)
	curve.Pitch = 90 * mm
	tests := []struct {
		name   string
		stick  [3]int64
		pieces []Piece
		worth  []int64
		want   int64
	}{
		{"three strips of 100 with two cuts of 3", [3]int64{50, 306, 1000}, []Piece{piece(50, 100, 1000)}, []int64{10}, 30},
		{"a millimetre less gives two", [3]int64{50, 305, 1000}, []Piece{piece(50, 100, 1000)}, []int64{10}, 20},
		{"two layers of 50 with a cut", [3]int64{103, 100, 1000}, []Piece{piece(50, 100, 1000)}, []int64{10}, 20},
		// On edge: (103 + 3) / (50 + 3) = 2 across, 100 of the 100 through.
		{"two on edge", [3]int64{100, 103, 1000}, []Piece{piece(50, 100, 1000)}, []int64{10}, 20},
		// A strip of 200: a length of it is ripped again, 98 + 3 + 98 = 199.
		{"the end of a wide strip is ripped again", [3]int64{50, 200, 1503}, []Piece{piece(50, 200, 1000), piece(50, 98, 500)}, []int64{20, 4}, 28},
		// 120 + 2 x 90 = 300.
		{"three curves nested", [3]int64{50, 300, 1000}, []Piece{curve}, []int64{7}, 21},
		// 60 + 3 + 40 through; two of 70 across the second layer.
		// 60 on edge + 3 + 80 through, of 150; 75 + 3 + 70 across the second.
		{"a layer as thick as a piece on edge", [3]int64{150, 150, 1200}, []Piece{piece(150, 60, 1200), piece(75, 75, 1200), piece(80, 70, 1200)}, []int64{10, 9, 5}, 24},
		{"layers of two thicknesses", [3]int64{103, 143, 1000}, []Piece{piece(60, 140, 1000), piece(40, 70, 1000)}, []int64{10, 4}, 18},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := New(Shop{Kerf: 3 * mm, Pieces: tt.pieces, Work: 1_000_000,
				Sticks: []Stick{stick(tt.stick[0]*mm, tt.stick[1]*mm, tt.stick[2]*mm, len(tt.pieces))}})
			most, columns := s.Best(tt.worth, s.whole, nil, free())
			if most[0] != tt.want {
				t.Errorf("worth %d, by hand %d", most[0], tt.want)
			}
			if len(columns) != 1 || value(columns[0], tt.worth) != tt.want {
				t.Errorf("laid out %+v", columns)
			}
		})
	}
}

func value(c solve.Column, worth []int64) int64 {
	v := int64(0)
	for _, e := range c.Gives {
		v += worth[e.Piece] * int64(e.Count)
	}
	return v
}

// some is a shop drawn at random, lengths of pieces in units.
func some(draw *rand.Rand, unit int64, work int) Shop {
	s := Shop{Kerf: int64(draw.IntN(5)) * mm, Work: work}
	size := func(low, high int) int64 { return int64(low+draw.IntN(high-low)) * mm }
	for range 1 + draw.IntN(5) {
		p := Piece{Thickness: size(20, 80), Width: size(50, 200), Length: size(300, 2000),
			Sapwood: draw.IntN(2) == 0, Boxed: draw.IntN(6) == 0, Wanted: 1 + draw.IntN(5)}
		p.Length += int64(draw.IntN(1000)) * unit
		s.Pieces = append(s.Pieces, p)
	}
	for range 1 + draw.IntN(3) {
		st := stick(size(25, 200), size(60, 500), size(1000, 5000), len(s.Pieces))
		st.Clear = st.Width - 2*int64(draw.IntN(20))*mm
		s.Sticks = append(s.Sticks, st)
	}
	return s
}

// No yield that can be listed is worth more than the greatest worth, on any unit of
// length, and none that is laid out is worth more than the best that is listed.
func TestGreatestWorthsAreNeverUnderTheTruth(t *testing.T) {
	draw := rand.New(rand.NewPCG(3, 1))
	listed, reached := 0, 0
	for range 600 {
		shop := some(draw, []int64{1, 1000, mm}[draw.IntN(3)], []int{2_000, 20_000, 1_000_000}[draw.IntN(3)])
		s := New(shop)
		worth, floor := make([]int64, len(shop.Pieces)), make([]int64, len(shop.Sticks))
		for i, p := range shop.Pieces {
			worth[i] = p.Thickness / mm * (p.Width / mm) * (p.Length / mm) * int64(8+draw.IntN(5))
		}
		most, columns := s.Best(worth, s.whole, nil, free())
		best := make([]int64, len(shop.Sticks))
		s.heavy = false
		all, ok := s.List(worth, floor, 4_000, &solve.Steps{Most: 3_000_000})
		if !ok {
			continue
		}
		listed++
		for _, c := range all {
			best[c.Kind] = max(best[c.Kind], value(c, worth))
		}
		eased, _ := s.Ease().Best(worth, s.whole, nil, free())
		for k := range best {
			if best[k] > most[k] || best[k] > eased[k] {
				t.Fatalf("%+v in %+v: %d can be had, and the greatest is said to be %d, eased %d", shop.Pieces, shop.Sticks[k], best[k], most[k], eased[k])
			}
			if best[k] == most[k] {
				reached++
			}
		}
		for _, c := range columns {
			if v := value(c, worth); v > best[c.Kind] {
				t.Fatalf("%+v in %+v: %d is laid out, and the best listed is %d", shop.Pieces, shop.Sticks[c.Kind], v, best[c.Kind])
			}
		}
	}
	if listed < 300 || reached < listed/2 {
		t.Errorf("%d shops were listed, and the truth was met %d times: too few to tell", listed, reached)
	}
}
