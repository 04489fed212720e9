package board

import "testing"

// Small pieces in a large stick are thousands: of one yield only one layout is
// kept however often it is found, and laying it out is counted as work.
func TestALayoutFoundAgainIsKeptOnceAndCounted(t *testing.T) {
	// A baulk of 400 x 400 x 7,000, no cut: 20 layers, 4 strips, 17 runs of 400.
	s := New(Shop{Pieces: []Piece{{Thickness: 20 * mm, Width: 100 * mm, Length: 400 * mm, Wanted: 5000}}, Work: 1_000_000,
		Sticks: []Stick{stick(400*mm, 400*mm, 7000*mm, 1)}})
	e := s.Ease()
	steps := free()
	for range 50 {
		before := steps.Done
		if most, _ := e.Best([]int64{7}, s.whole, nil, steps); most[0] != 7*20*4*17 {
			t.Fatalf("the baulk is worth %d, and by hand 1,360 pieces at 7", most[0])
		}
		if steps.Done-before < perRun*1360 {
			t.Fatalf("%d steps are counted for laying out 1,360 pieces", steps.Done-before)
		}
	}
	if len(e.found) != 1 {
		t.Errorf("%d layouts are kept of the one there is", len(e.found))
	}
}
