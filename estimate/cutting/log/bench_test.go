package log

import (
	"fmt"
	"testing"
	"time"

	"futtock/estimate/cutting/solve"
)

// free is steps without end.
func free() *solve.Steps { return &solve.Steps{Most: 1 << 62} }

// yard is 252 kinds of piece, 6 thicknesses by 7 widths by 6 lengths, and a log of
// 6 m with a taper of 8 mm/m, sapwood of 25 mm and cuts of 4 mm.
func yard(diameter int64, work int) (Shop, []int64, []int) {
	s := Shop{Kerf: 4 * mm, Work: work}
	var worth []int64
	var wanted []int
	for i, t := range []int64{25, 32, 50, 63, 75, 100} {
		for k, w := range []int64{75, 100, 125, 150, 200, 225, 300} {
			for n, l := range []int64{1800, 2400, 3000, 3600, 4800, 6000} {
				s.Pieces = append(s.Pieces, Piece{Thickness: t * mm, Width: w * mm, Length: l * mm, Wanted: 1000})
				// Worth by volume, bent a little so that no two are alike.
				worth = append(worth, t*w*l*int64(1000+17*((i*5+k*3+n)%11)+4*i+6*k)/1_000_000)
				wanted = append(wanted, 1000)
			}
		}
	}
	l := Log{Top: diameter * mm, Taper: 8 * mm, Length: 6000 * mm, Sapwood: 25 * mm}
	for range s.Pieces {
		l.Gives = append(l.Gives, true)
	}
	s.Logs = append(s.Logs, l)
	return s, worth, wanted
}

func TestReport(t *testing.T) {
	for _, d := range []int64{250, 450, 800} {
		for _, work := range []int{100_000, 200_000, 400_000, 1_000_000, 2_000_000, 4_000_000, 16_000_000, 64_000_000} {
			shop, worth, wanted := yard(d, work)
			s := New(shop)
			s.Best(worth, wanted, nil, free())
			st := free()
			at := time.Now()
			most, columns := s.Best(worth, wanted, nil, st)
			el := time.Since(at)
			b := s.groups[0].benches[0]
			low, _ := b.down.whole()
			fmt.Printf("d %d work %d grid %v unit %d: %v steps %d cells up %d  most %d laid %d column %d  gap %.2f%%\n", d, work, b.up.fine, s.groups[0].up.unit, el, st.Done, b.up.cells, most[0], low, value(columns[0], worth), 100*float64(most[0]-value(columns[0], worth))/float64(most[0]))
		}
	}
}
