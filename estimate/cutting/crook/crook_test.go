package crook

import (
	"math/rand/v2"
	"testing"

	"futtock/estimate/cutting/solve"
)

const mm = 1_000_000

func free() *solve.Steps { return &solve.Steps{Most: 1 << 60} }

func TestCrooksWorkedByHand(t *testing.T) {
	shop := Shop{Kerf: 3 * mm, Pieces: []Piece{{75 * mm, 9}, {50 * mm, 9}}, Crooks: []Crook{{160 * mm, []int{2, 1}}, {152 * mm, []int{2, 1}}, {74 * mm, []int{2, 0}}}}
	// 160: 75 + 3 + 75 = 153, four at 40. 152: 75 + 3 + 50 = 128, two and one at 32, and three of 50 take
	// 156. 74 takes neither: the thinner does not lie in its sweep.
	s := New(shop)
	most, columns := s.Best([]int64{10, 12}, []int{9, 9}, nil, free())
	if want := [...]int64{40, 32, 0}; most[0] != want[0] || most[1] != want[1] || most[2] != want[2] {
		t.Fatalf("worth %v, by hand %v", most, want)
	}
	if len(columns) != 2 || len(columns[0].Gives) != 1 || columns[0].Gives[0] != (solve.Entry{Piece: 0, Count: 4}) {
		t.Fatalf("laid out %+v", columns)
	}
	layers := s.Sawn(columns[0].Tag, columns[0].Gives)
	if len(layers) != 2 || layers[0].Low != 0 || layers[1].Low != 78*mm || layers[0].Beside != 2 {
		t.Errorf("layers %+v; by hand at 0 and 78 mm, two each", layers)
	}
	if part := s.Sawn(columns[0].Tag, []solve.Entry{{Piece: 0, Count: 3}}); len(part) != 2 || part[0].Beside != 2 || part[1].Beside != 1 {
		t.Errorf("of three %+v", part)
	}
	if _, ok := s.Alone(2, 0); ok {
		t.Error("75 mm are got from 74")
	}
	if c, ok := s.Alone(0, 1); !ok || c.Gives[0].Count != 3 {
		t.Errorf("of 50 mm alone %+v, by hand three", c)
	}
}

// The greatest worth is that of trying every pile of layers.
func TestWorthsAgreeWithTryingEveryPile(t *testing.T) {
	draw := rand.New(rand.NewPCG(4, 4))
	for range 400 {
		shop := Shop{Kerf: int64(draw.IntN(5)) * mm}
		var worth []int64
		var wanted, beside []int
		for range 1 + draw.IntN(4) {
			shop.Pieces = append(shop.Pieces, Piece{int64(20+draw.IntN(90)) * mm, 9})
			worth = append(worth, int64(draw.IntN(30)))
			wanted = append(wanted, draw.IntN(4))
			beside = append(beside, draw.IntN(3))
		}
		shop.Crooks = []Crook{{int64(80+draw.IntN(200)) * mm, beside}}
		var best int64
		var pile func(left, v int64)
		pile = func(left, v int64) {
			best = max(best, v)
			for i, p := range shop.Pieces {
				if n := min(beside[i], wanted[i]); n > 0 && p.Thickness <= left {
					pile(left-p.Thickness-shop.Kerf, v+worth[i]*int64(n))
				}
			}
		}
		pile(shop.Crooks[0].Thickness, 0)
		if most, _ := New(shop).Best(worth, wanted, nil, free()); most[0] != best {
			t.Fatalf("%+v at %v, %v wanted: %d, and every pile tried gives %d", shop, worth, wanted, most[0], best)
		}
	}
}
