package verify

import (
	"strings"
	"testing"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// A log of 600 mm at the top, growing 10 mm a metre, 6.1 m long less 50 mm at each end,
// 30 mm of sapwood: 270 mm are clear at the top and 270 + 4 x 10 / 2 = 290 mm four metres down.
// A board of 52 x 500 with its lower face 29 mm over the pith has its corner at
// hypot(250, 81) = 262.8 mm; one of 52 x 480 at 84 mm at hypot(240, 136) = 275.9, so that it is
// clear from (275.9 - 270) / 5 = 1.17 m down, and 4.8 m of it lie against the butt.
func TestPatternsOfALogAreReadBack(t *testing.T) {
	stock := rates.Stock{Stock: "butt", Timber: "oak", Form: rates.Log, TopDiameter: 600 * mm, Taper: 10 * mm, Length: 6100 * mm,
		EndTrim: 50 * mm, Sapwood: 30 * mm}
	piece := func(w, l measure.Length, heart job.Heart, sapwood bool) takeoff.Piece {
		return takeoff.Piece{Ref: "1", Shape: job.Square, Heart: heart, Sapwood: sapwood, Thickness: 52 * mm, Width: w * mm, Length: l * mm}
	}
	cut := func(n int, along, across, through, l, w, h measure.Length) order.Cut {
		return order.Cut{Ref: "1", Piece: n, Along: along * mm, Across: across * mm, Through: through * mm, Length: l * mm, Width: w * mm, Thickness: h * mm}
	}
	tests := []struct {
		name   string
		pieces []takeoff.Piece
		cuts   []order.Cut
		says   string // nothing: it holds
	}{
		{"a board over the heart runs the whole length", []takeoff.Piece{piece(500, 6000, job.AnyHeart, false)},
			[]order.Cut{cut(0, 0, -250, 29, 6000, 500, 52)}, ""},
		{"a side board lies against the butt", []takeoff.Piece{piece(480, 4800, job.AnyHeart, false)}, []order.Cut{cut(0, 0, -240, 84, 4800, 480, 52)}, ""},
		{"and not a tenth of a metre farther up", []takeoff.Piece{piece(480, 4800, job.AnyHeart, false)}, []order.Cut{cut(0, 100, -240, 84, 4800, 480, 52)}, "from the pith"},
		{"with sapwood it may", []takeoff.Piece{piece(480, 4800, job.AnyHeart, true)}, []order.Cut{cut(0, 100, -240, 84, 4800, 480, 52)}, ""},
		{"on edge", []takeoff.Piece{piece(300, 2000, job.AnyHeart, false)}, []order.Cut{cut(0, 0, 10, -150, 2000, 52, 300)}, ""},
		{"a heart boxed in has the pith within it", []takeoff.Piece{piece(300, 2000, job.Boxed, false)}, []order.Cut{cut(0, 0, -150, -26, 2000, 300, 52)}, ""},
		{"and is not beside it", []takeoff.Piece{piece(300, 2000, job.Boxed, false)}, []order.Cut{cut(0, 0, -150, 0, 2000, 300, 52)}, "is to be boxed"},
		{"free of heart it may lie against the pith", []takeoff.Piece{piece(300, 2000, job.Free, false)}, []order.Cut{cut(0, 0, -150, 0, 2000, 300, 52)}, ""},
		{"and not over it", []takeoff.Piece{piece(300, 2000, job.Free, false)}, []order.Cut{cut(0, 0, -150, -1, 2000, 300, 52)}, "is to be free"},
		{"boards a cut apart", []takeoff.Piece{piece(300, 2000, job.AnyHeart, false), piece(300, 2000, job.AnyHeart, false)},
			[]order.Cut{cut(0, 0, -150, 0, 2000, 300, 52), cut(1, 0, -150, 55, 2000, 300, 52)}, ""},
		{"boards less than a cut apart", []takeoff.Piece{piece(300, 2000, job.AnyHeart, false), piece(300, 2000, job.AnyHeart, false)},
			[]order.Cut{cut(0, 0, -150, 0, 2000, 300, 52), cut(1, 0, -150, 54, 2000, 300, 52)}, "cannot be sawn"},
		{"a board beyond the butt", []takeoff.Piece{piece(300, 2000, job.AnyHeart, false)}, []order.Cut{cut(0, 4001, -150, 0, 2000, 300, 52)}, "outside the"},
		{"another size than its own", []takeoff.Piece{piece(300, 2000, job.AnyHeart, false)}, []order.Cut{cut(0, 0, -150, 0, 2000, 299, 52)}, "are wanted"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			r := &reading{pieces: tt.pieces}
			r.log(stock, order.Pattern{Times: 1, Cuts: tt.cuts}, 3*mm)
			got := strings.Join(r.faults, "\n")
			if tt.says == "" && got != "" || !strings.Contains(got, tt.says) {
				t.Errorf("found %q, wanted %q", got, tt.says)
			}
		})
	}
}

// Frames of R 3 m moulded 250 mm over a chord of 2.2 m (inner radius 2.75 m, sweep 229.591 mm), in a crook
// of its own inner edge: over 3 m the sweep is 2750 - sqrt(2750^2 - 1500^2) = 445.1 mm. The step from one
// to the next is 273.913 mm with 3 mm of cut, so that a crook 530 mm wide holds two and 520 does not.
func TestLayersOfACrookAreReadBack(t *testing.T) {
	c := takeoff.Curve{Inner: 2750 * mm, Chord: 2200 * mm, Sweep: 229591 * measure.Micrometre}
	p := takeoff.Piece{Ref: "1", Shape: job.Square, Thickness: 75 * mm, Width: 250 * mm, Length: c.LengthGot(250 * mm), Curve: &c}
	cut := func(across, through measure.Length) order.Cut {
		return order.Cut{Ref: "1", Across: across, Through: through, Length: p.Length, Width: 480 * mm, Thickness: 75 * mm, Curve: &c}
	}
	step := 273913 * measure.Micrometre
	tests := []struct {
		name  string
		width measure.Length
		cuts  []order.Cut
		says  string
	}{
		{"two layers of two", 530 * mm, []order.Cut{cut(0, 0), cut(step, 0), cut(0, 78*mm), cut(step, 78*mm)}, ""},
		{"a crook too narrow for two", 520 * mm, []order.Cut{cut(0, 0), cut(step, 0)}, "do not lie within"},
		{"curves nearer than a cut", 530 * mm, []order.Cut{cut(0, 0), cut(step-mm, 0)}, "does not clear"},
		{"layers nearer than a cut", 530 * mm, []order.Cut{cut(0, 0), cut(0, 77*mm)}, "a saw-cut apart"},
		{"a layer above the crook", 530 * mm, []order.Cut{cut(0, 0), cut(0, 86*mm)}, "do not lie within"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			s := rates.Stock{Stock: "crook", Form: rates.Crook, Thickness: 160 * mm, Width: tt.width, Length: 3000 * mm, Sweep: 445100 * measure.Micrometre}
			r := &reading{pieces: []takeoff.Piece{p}}
			r.layers(s, order.Pattern{Times: 1, Cuts: tt.cuts}, 3*mm)
			got := strings.Join(r.faults, "\n")
			if tt.says == "" && got != "" || !strings.Contains(got, tt.says) {
				t.Errorf("found %q, wanted %q", got, tt.says)
			}
		})
	}
}
