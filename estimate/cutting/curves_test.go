package cutting

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

func TestSticksByNumber(t *testing.T) {
	crook := rates.Stock{Stock: "crook", Timber: "oak", Form: rates.Crook, Thickness: 160 * mm, Width: 300 * mm, Length: 2600 * mm,
		Sweep: 250 * mm, Available: 3, Limited: true, Loss: percent("50"), Price: price("95"), Unit: measure.Nr}
	log := rates.Stock{Stock: "log", Timber: "oak", Form: rates.Log, TopDiameter: 440 * mm, Sapwood: 30 * mm, Bark: 5 * mm,
		Length: 6 * m, EndTrim: 100 * mm, Loss: percent("10"), Price: price("150"), Unit: measure.Nr}
	bound := func(p takeoff.Piece, stock string) takeoff.Piece {
		p.Stock = stock
		return p
	}
	futtock := func(n int, sweep measure.Length) takeoff.Piece {
		c := takeoff.Curve{Chord: 2000 * mm, Sweep: sweep}
		p := straight("1", n, 150*mm, 250*mm, c.LengthGot(250*mm))
		p.Curve, p.Stock = &c, "crook"
		return p
	}
	tests := []struct {
		name  string
		piece takeoff.Piece
		want  []string
		codes []problem.Code
	}{
		// Over 2.0 m the crook itself has a sweep of 0.146: its radius is 2.6^2/(8 x 0.25) + 0.125 = 3.505.
		{"a crook gives one piece of its own sweep and bears no loss", futtock(3, 146*mm), []string{"3 of crook 285.00"}, nil},
		{"one of less sweep goes in by the width to spare", futtock(1, 110*mm), []string{"1 of crook 95.00"}, nil},
		{"and not where that is too little", futtock(1, 60*mm), nil, []problem.Code{problem.StockTooSmall}},
		{"nor one of more sweep than the width to spare gives", futtock(1, 230*mm), nil, []problem.Code{problem.StockTooSmall}},
		{"three crooks do not give four", futtock(4, 146*mm), []string{"3 of crook 285.00"}, []problem.Code{problem.StockShort}},
		// Clear of bark and sapwood the top is 440 - 10 - 60 = 370; 260 x 260 is 367.7 across the corners. 2 / 0.9 is 3.
		{"a log gives one baulk round the heart", bound(straight("1", 2, 260*mm, 260*mm, 5800*mm), "log"), []string{"3 of log 450.00"}, nil},
		{"whose corners must be clear of sapwood", bound(straight("1", 2, 262*mm, 262*mm, 5800*mm), "log"), nil, []problem.Code{problem.StockTooSmall}},
		{"and its ends of the trim", bound(straight("1", 2, 260*mm, 260*mm, 5801*mm), "log"), nil, []problem.Code{problem.StockTooSmall}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			plan, problems := Cut(oakJob(), book(crook, log), pieces(tt.piece))
			if d := cmp.Diff(tt.want, boughtText(plan.Order)); d != "" {
				t.Error(d)
			}
			if d := cmp.Diff(tt.codes, codes(problems)); d != "" {
				t.Error(d)
			}
		})
	}
}

// A crook of 160 mm gives two layers of 75, and in its 540 mm two lie side by side: that they
// are of four rows is of no account.
func TestLikeCurvesOfSeveralRowsShareACrook(t *testing.T) {
	crook := rates.Stock{Stock: "crook", Timber: "oak", Form: rates.Crook, Thickness: 160 * mm, Width: 540 * mm, Length: 2600 * mm,
		Sweep: 250 * mm, Price: price("95"), Unit: measure.Nr}
	var rows []takeoff.Piece
	for _, ref := range []string{"1", "2", "3", "4"} {
		c := takeoff.Curve{Chord: 2000 * mm, Sweep: 146 * mm}
		p := straight(ref, 1, 75*mm, 250*mm, c.LengthGot(250*mm))
		p.Curve = &c
		rows = append(rows, p)
	}
	plan, problems := Cut(oakJob(), book(crook), pieces(rows...))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	if d := cmp.Diff([]string{"1 of crook 95.00"}, boughtText(plan.Order)); d != "" {
		t.Error(d)
	}
}

// The timber handbook's arc: R 3 m, m 0.25 m, length got 2.4 m lies in 0.4796 m.
func TestSawnCurvesLieNested(t *testing.T) {
	// ri 2.75; chord 2.2 on the concave edge is 2.4 on the convex; sweep 2.75 - sqrt(2.75^2 - 1.1^2) = 0.229591.
	c := takeoff.Curve{Inner: 2750 * mm, Chord: 2200 * mm, Sweep: 229591 * measure.Micrometre}
	p := straight("1", 4, 75*mm, 250*mm, c.LengthGot(250*mm))
	p.Curve = &c
	// Two nested: 479.6 + p + 3/cos a with p = sqrt(9 - 1.21) - 2.520409 = 0.270639, cos a = 0.916515: 753.5.
	wide := plank("wide", 80*mm, 754*mm, 5000*mm, "200")
	plan, problems := Cut(oakJob(), book(wide), pieces(p, straight("2", 2, 75*mm, 200*mm, 2*m)))
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	// 4.9 usable is 2 x 2.4 + 3 mm: all four come out of one plank; the straight pieces need another.
	if d := cmp.Diff([]string{"2 of wide 400.00"}, boughtText(plan.Order)); d != "" {
		t.Error(d)
	}
	narrow := plank("narrow", 80*mm, 753*mm, 5000*mm, "200")
	plan, _ = Cut(oakJob(), book(narrow), pieces(p))
	if d := cmp.Diff([]string{"2 of narrow 400.00"}, boughtText(plan.Order)); d != "" {
		t.Error(d)
	}
}
