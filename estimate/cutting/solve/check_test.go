package solve_test

import (
	"fmt"

	"futtock/estimate/cutting/solve"
)

// recheck adds up an answer anew from the lengths alone: every stick must hold what is sawn from it, every piece must be had exactly, no kind
// bought beyond its number, cost and bound agree.
func recheck(p purchase, a solve.Answer) error {
	if a.Impossible {
		return nil
	}
	got := make([]int, len(p.pieces))
	bought := make([]int, len(p.stock))
	var cost int64
	for n, u := range a.Use {
		if u.Times < 1 || u.Kind < 0 || u.Kind >= len(p.stock) {
			return fmt.Errorf("use %d: kind %d, %d times", n, u.Kind, u.Times)
		}
		left := p.stock[u.Kind].Length
		last := -1
		for _, e := range u.Gives {
			if e.Piece <= last || e.Count < 1 {
				return fmt.Errorf("use %d: yield %v", n, u.Gives)
			}
			last = e.Piece
			left -= int64(e.Count) * p.pieces[e.Piece].Length
			got[e.Piece] += e.Count * u.Times
		}
		if left < 0 {
			return fmt.Errorf("use %d: %v is too long for its stick by %d", n, u.Gives, -left)
		}
		bought[u.Kind] += u.Times
		cost += int64(u.Times) * p.stock[u.Kind].Cost
	}
	short := 0
	for i, piece := range p.pieces {
		want := piece.Wanted
		if a.Short != nil {
			want -= a.Short[i]
			short += a.Short[i]
		}
		if got[i] != want {
			return fmt.Errorf("piece %d: %d wanted, %d had", i, want, got[i])
		}
	}
	for k, s := range p.stock {
		if s.Most >= 0 && bought[k] > s.Most {
			return fmt.Errorf("kind %d: %d bought of %d", k, bought[k], s.Most)
		}
	}
	if cost != a.Cost || short == 0 && a.Bound > a.Cost || a.Proven != (short == 0 && a.Bound == a.Cost) {
		return fmt.Errorf("cost %d said %d, bound %d, proven %v, short %d", cost, a.Cost, a.Bound, a.Proven, short)
	}
	return nil
}
