package log

// Board is a board of a log sawn through and through, edged square.
type Board struct {
	At          int   // boards from the middle one, upward
	Low         int64 // its lower face, from the pith upward
	Small, Butt int64 // its clear width at the small end and at the butt, rounded down; nil where it is not clear there
	Length      int64 // over which any of its width is clear, to the butt
}

// Boards is what a log gives sawn through and through into boards of one
// thickness, the middle one on the pith, from the top down: every board of
// which some width is clear at the butt. A board with its faces y1 and y2 from
// the pith has the clear width 2 sqrt(r2 - max(y1, y2)2) where the radius of the clear wood is r.
func Boards(l Log, thickness, kerf int64, sapwood bool) []Board {
	width := func(d, low int64) int64 { return max(0, across(d, 2*farthest(low, thickness))) }
	small, butt := l.diameter(0, sapwood), l.diameter(l.Length, sapwood)
	var out []Board
	side := max(0, butt/2) / (thickness + kerf)
	for n := side + 1; n >= -side-1; n-- {
		low := n*(thickness+kerf) - thickness/2
		b := Board{At: int(n), Low: low, Small: width(small, low), Butt: width(butt, low), Length: l.clear(0, farthest(low, thickness), sapwood)}
		if b.Butt > 0 {
			out = append(out, b)
		}
	}
	return out
}
