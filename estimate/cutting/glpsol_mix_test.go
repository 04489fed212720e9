package cutting

import (
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// mixedJob is a job in which planks, crooks and timber by the cube compete: frames
// sawn to a curve that lie in planks or in crooks of one layer, and straight pieces. A
// cubic metre in the ship costs 3000, and every piece comes to whole thousandths.
func mixedJob(seed uint64) (trial, []int64) {
	draw := rand.New(rand.NewPCG(seed, 9))
	j := trial{kerf: 3 * mm}
	c := takeoff.Curve{Chord: 1600 * mm, Sweep: 90 * mm}
	frame := straight("1", 3+draw.IntN(3), 100*mm, 200*mm, c.LengthGot(200*mm))
	frame.Curve = &c
	frame.Net = measure.Of(dec("0.03").Mul(count(frame)), measure.M3)
	frame.Sawn = frame.Length.Volume(frame.Width, frame.Thickness).Base.Mul(count(frame)).Round(6)
	beam := straight("2", 1+draw.IntN(3), 100*mm, 150*mm, 2400*mm) // 0.036 m3
	chock := straight("3", 1+draw.IntN(4), 50*mm, 100*mm, 1200*mm) // 0.006 m3
	j.pieces = []takeoff.Piece{frame, beam, chock}
	j.want = yield{frame.Count, beam.Count, chock.Count}
	j.stock = []rates.Stock{
		plank("flitch", 105*mm, 500*mm, 3700*mm, fmt.Sprint(300+draw.IntN(140))),
		plank("plank", 105*mm, 160*mm, 2600*mm, fmt.Sprint(95+draw.IntN(40))),
		{Stock: "crook", Timber: "oak", Form: rates.Crook, Thickness: 110 * mm, Width: 260 * mm, Length: 2200 * mm, Sweep: 165 * mm,
			Available: 2, Limited: true, Price: price(fmt.Sprint(70 + draw.IntN(40))), Unit: measure.Nr},
		cube("1800", "60"),
	}
	return j, []int64{9000, 10800, 1800}
}

func TestTheCheapestMixIsProven(t *testing.T) {
	mixes := map[string]int{}
	for seed := range uint64(24) {
		j, cubed := mixedJob(seed)
		want := j.least(t, cubed)
		plan, problems := Cut(oakJob(), book(j.stock...), pieces(j.pieces...))
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		cost, least := plan.Bound.Cost.Decimal().Shift(2).IntPart(), plan.Bound.Least.Decimal().Shift(2).IntPart()
		if cost != want || least != want {
			t.Errorf("%d costs %d, not under %d; glpsol has %d", seed, cost, least, want)
		}
		var forms []string
		for _, l := range plan.Order {
			forms = append(forms, string(l.Stock.Form))
		}
		mixes[strings.Join(forms, " ")]++
	}
	if mixes["crook cube flitch"]+mixes["crook cube plank"]+mixes["crook cube plank plank"] == 0 {
		t.Errorf("in no job do all three come into the cheapest mix: %v", mixes)
	}
}
