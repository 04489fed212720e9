package cutting

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/takeoff"
	"futtock/rates"
)

// What rows bear of a purchase that is held: two rows of one section got from planks
// at 30.00, three of them (see TestWhatRowsBear: 90.00 by 0.070 and 0.042 m3), while rows
// and prices change.
func TestWhatRowsBearOfAHeldPurchase(t *testing.T) {
	deck := plank("deck plank", 52*mm, 150*mm, 6110*mm, "30")
	one, two := straight("1", 5, 50*mm, 140*mm, 2*m), straight("2", 3, 50*mm, 140*mm, 2*m)
	dearer := deck
	dearer.Price = price("33")
	larch := plank("larch board", 30*mm, 150*mm, 2200*mm, "12")
	larch.Timber = "larch"
	inLarch := straight("4", 2, 25*mm, 140*mm, 2*m)
	inLarch.Timber = "larch"
	risk := straight("3", 1, 50*mm, 140*mm, 2*m)
	risk.Carried = "risk"
	for _, c := range []struct {
		name   string
		stock  []rates.Stock
		pieces []takeoff.Piece
		want   []string
	}{
		{"as they were bought for", []rates.Stock{deck}, []takeoff.Piece{one, two},
			[]string{"1: 56.25 of deck plank for 0.07 m3", "2: 33.75 of deck plank for 0.042 m3"}},
		// 99.00, by the same volumes: 61.875.
		{"at other prices", []rates.Stock{dearer}, []takeoff.Piece{one, two},
			[]string{"1: 61.88 of deck plank for 0.07 m3", "2: 37.12 of deck plank for 0.042 m3"}},
		{"one row gone, the other as it was", []rates.Stock{deck}, []takeoff.Piece{two}, []string{"2: 33.75 of deck plank for 0.042 m3"}},
		// 90.00 x 0.168 / 0.112 = 135.00.
		{"one row twice as long", []rates.Stock{deck}, []takeoff.Piece{one, straight("2", 7, 50*mm, 140*mm, 2*m)},
			[]string{"1: 56.25 of deck plank for 0.07 m3", "2: 78.75 of deck plank for 0.098 m3"}},
		// 0.05 x 0.1 x 2 = 0.010 m3 at 90.00 / 0.112 = 803.571: 8.04 (8.0357).
		{"a section that was not bought, at what its timber came to", []rates.Stock{deck}, []takeoff.Piece{one, two, straight("3", 1, 50*mm, 100*mm, 2*m)},
			[]string{"1: 56.25 of deck plank for 0.07 m3", "2: 33.75 of deck plank for 0.042 m3", "3: 8.04 of deck plank for 0.01 m3"}},
		// 0.014 m3 likewise: 11.25. It stands apart from the order.
		{"a row that may be wanted, at what the order came to", []rates.Stock{deck}, []takeoff.Piece{one, two, risk},
			[]string{"1: 56.25 of deck plank for 0.07 m3", "2: 33.75 of deck plank for 0.042 m3", "3: 11.25 of deck plank for 0.014 m3"}},
		// Two boards of 2 m take a board each.
		{"a timber that was not bought, planned by itself", []rates.Stock{deck, larch}, []takeoff.Piece{two, inLarch},
			[]string{"2: 33.75 of deck plank for 0.042 m3", "4: 24.00 of larch board for 0.014 m3"}},
		{"a line that is gone, at what it cost", []rates.Stock{larch}, []takeoff.Piece{one, two},
			[]string{"1: 56.25 of deck plank for 0.07 m3", "2: 33.75 of deck plank for 0.042 m3"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			was := takeoff.Takeoff{Pieces: []takeoff.Piece{one, two}}
			plan, found := Cut(oakJob(), book(deck), was)
			if found.HasErrors() {
				t.Fatal(found)
			}
			got, held, found := Hold(plan, was).Bear(oakJob(), book(c.stock...), takeoff.Takeoff{Pieces: c.pieces})
			if found.HasErrors() {
				t.Fatal(found)
			}
			if d := cmp.Diff(c.want, shareText(got.Shares)); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
			again, _, _ := held.Bear(oakJob(), book(c.stock...), takeoff.Takeoff{Pieces: c.pieces})
			if d := cmp.Diff(got, again); d != "" {
				t.Errorf("once more (-first +second):\n%s", d)
			}
		})
	}
}
