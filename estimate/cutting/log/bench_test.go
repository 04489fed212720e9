package log

import (
	"fmt"
	"testing"

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

// The greatest worth of a log, and a layout, on the grids that so much work allows:
// over is by how much the one passes the other, in a thousandth.
func BenchmarkBest(b *testing.B) {
	for _, d := range []int64{250, 450, 800} {
		for _, work := range []int{500_000, 2_000_000, 20_000_000} {
			shop, worth, wanted := yard(d, work)
			s := New(shop)
			b.Run(fmt.Sprintf("%d mm, work %d", d, work), func(b *testing.B) {
				var over float64
				for b.Loop() {
					most, columns := s.Best(worth, wanted, nil, free())
					got := int64(0)
					for _, c := range columns {
						got = max(got, value(c, worth))
					}
					over = 1000 * float64(most[0]-got) / float64(most[0])
				}
				b.ReportMetric(over, "over")
				b.ReportMetric(float64(s.groups[0].benches[0].up.fine)/mm, "grid-mm")
			})
		}
	}
}
