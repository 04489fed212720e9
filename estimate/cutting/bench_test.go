package cutting

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// refit is a large refit: 150 kinds of piece, some of them sawn to a curve, out
// of planks, flitches, baulks and timber by the cube.
func refit() (*rates.Book, takeoff.Takeoff) {
	draw := rand.New(rand.NewPCG(7, 11))
	var stock []rates.Stock
	for i, t := range []measure.Length{30, 55, 80} {
		for k, l := range []measure.Length{3, 4, 5, 6} {
			w := 230 + 60*measure.Length(i)
			each := fmt.Sprint(float64(t*w*l) * (1.1 + 0.02*float64(k)) / 1000)
			stock = append(stock, plank(fmt.Sprintf("%dx%dx%d", t, w, l), t*mm, w*mm, l*m, each))
		}
	}
	stock = append(stock,
		rates.Stock{Stock: "flitch", Timber: "oak", Form: rates.Flitch, Thickness: 160 * mm, Width: 620 * mm, Length: 4 * m, Sapwood: 30 * mm, EndTrim: 50 * mm, Price: price("420"), Unit: measure.Nr},
		rates.Stock{Stock: "baulk", Timber: "oak", Form: rates.Baulk, Thickness: 300 * mm, Width: 300 * mm, Length: 6 * m, EndTrim: 50 * mm, Price: price("760"), Unit: measure.Nr},
		cube("2600", "55"))
	var all []takeoff.Piece
	for i := range 150 {
		t := []measure.Length{25, 50, 75, 150}[draw.IntN(4)] * mm
		p := straight(fmt.Sprintf("%d", i+1), 1+draw.IntN(8), t, measure.Length(60+draw.IntN(160))*mm, measure.Length(500+draw.IntN(3300))*mm)
		if i%10 == 0 {
			c := takeoff.Curve{Chord: p.Length / 2, Sweep: p.Length / 20}
			p.Curve, p.Length = &c, c.LengthGot(p.Width)
		}
		all = append(all, p)
	}
	return book(stock...), pieces(all...)
}

func BenchmarkCutRefit(b *testing.B) {
	book, taken := refit()
	j := oakJob()
	for b.Loop() {
		plan, problems := Cut(j, book, taken)
		if len(problems) > 0 {
			b.Fatal(problems)
		}
		b.ReportMetric(plan.Bound.Gap.Decimal().InexactFloat64(), "gap_%")
		b.ReportMetric(plan.Bound.Cost.Decimal().InexactFloat64(), "cost")
	}
}
