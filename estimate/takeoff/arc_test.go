package takeoff

import (
	"testing"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

// The piece of frame(): ri 2.75 m, R 3 m, p = root(9 - 1.21) - 2.520417 = 0.270640 m,
// cos a = root(1 - 0.4^2) = 0.916515, so a kerf of 6 mm takes 6.546535 mm.
func TestNestedWidth(t *testing.T) {
	for _, c := range []struct {
		kerf string
		k    int
		want string
	}{
		{"0mm", 1, "479.59"},
		{"6mm", 1, "479.59"},
		{"0mm", 2, "750.23"},
		{"6mm", 2, "756.77"},
		{"6mm", 3, "1033.96"},
	} {
		if got := frame().NestedWidth(l("250mm"), l(c.kerf), c.k); got != l(c.want) {
			t.Errorf("%d nested with a kerf of %s take %s mm, want %s", c.k, c.kerf, got.In(measure.Mm, 3), c.want)
		}
	}
	if got := frame().LengthGot(l("250mm")); got != l("2400mm") {
		t.Errorf("length got %s, want 2400 mm", got.In(measure.Mm, 3))
	}
}

func TestUpKeepsExactFiguresAndRaisesTheRest(t *testing.T) {
	for _, c := range []struct {
		nm   float64
		want measure.Length
	}{
		{152_400_000, 152_400_000},
		{152_400_000.0000001, 152_400_000},
		{152_399_999.9999999, 152_400_000},
		{152_400_002, 152_410_000},
		{152_409_999, 152_410_000},
		{0, 0},
	} {
		if got := up(c.nm); got != c.want {
			t.Errorf("up(%f) = %d, want %d", c.nm, got, c.want)
		}
	}
}

func TestABevelOf45DegreesAddsJustTheSiding(t *testing.T) {
	if got := bevelled(l("6in"), l("6in"), 45); got != l("12in") {
		t.Errorf("%s mm, want 304.8", got.In(measure.Mm, 6))
	}
}

func TestAFlatSweepKeepsItsFigures(t *testing.T) {
	// 1 mm over 30 m: ri = 112.5 km, put down as 10 km; the width is still m + h.
	c := curveOver(l("30m"), l("1mm"))
	if c.Inner != measure.MaxLength {
		t.Errorf("radius %d nm, want ten kilometres", c.Inner)
	}
	if got := c.NestedWidth(l("250mm"), 0, 1); got != l("251mm") {
		t.Errorf("width %s mm, want 251", got.In(measure.Mm, 6))
	}
}

func TestPartsOfASemicircleMeetRoundIt(t *testing.T) {
	// Halves of a half circle of 1 m radius are over a chord of root 2 m, not 1 m.
	c := curveOver(l("2m"), l("1m"))
	part, ok := c.part(c.round(l("2m")) / 2)
	if !ok || part.Chord != l("1414.22mm") {
		t.Errorf("chord %s mm %t, want 1414.22", part.Chord.In(measure.Mm, 3), ok)
	}
	if _, ok := c.part(c.round(l("2m"))); !ok {
		t.Error("the half circle itself is refused")
	}
	if _, ok := c.part(l("3.2m")); ok {
		t.Error("more than half a circle is taken")
	}
}

func TestSawnSection(t *testing.T) {
	dry := func(sawnAt, inUse string) func(*rates.Book) {
		return func(b *rates.Book) {
			k := &b.Timber[0]
			k.Tangential, k.Radial, k.SawnAt, k.InUse, k.Dries = percent("10.5"), percent("5.6"), percent(sawnAt), percent(inUse), true
		}
	}
	for _, c := range []struct {
		name             string
		bevel, sawn, use string
		thickness, width string
	}{
		// 100 / (1 - 0.0525) = 105.5409 mm; 284.25 mm is 300.
		{"green oak for use at 15 %", "0", "60", "15", "105.55", "300"},
		// 100 x (1 - 0.035) / (1 - 0.0525) = 101.8470; 284.25 x the same = 289.5.
		{"oak sawn at 20 % for use at 15 %", "0", "20", "15", "101.85", "289.5"},
		{"oak that will swell is sawn to size", "0", "12", "15", "100", "284.25"},
		{"oak used above fibre saturation is sawn to size", "0", "60", "30", "100", "284.25"},
		// 300 + 100 tan 12 = 321.2557: of the finished siding.
		{"a bevel is added after drying", "12", "60", "15", "105.55", "321.26"},
		{"an under bevel takes as much wood as a standing one", "-12", "60", "15", "105.55", "321.26"},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, p := measured(t, oak("1", "2m", "100mm", "284.25mm", func(m *job.Member) { m.Bevel = dec(c.bevel) }), dry(c.sawn, c.use))
			if p[0].Thickness != l(c.thickness) || p[0].Width != l(c.width) {
				t.Errorf("%s x %s mm, want %s x %s", p[0].Thickness.In(measure.Mm, 4), p[0].Width.In(measure.Mm, 4), c.thickness, c.width)
			}
		})
	}
}

func TestFrom(t *testing.T) {
	log := rates.Stock{Form: rates.Log, TopDiameter: l("300mm"), Length: l("5m"), EndTrim: l("100mm")}
	crook := rates.Stock{Form: rates.Crook, Thickness: l("150mm"), Width: l("300mm"), Length: l("2.2m"), Sweep: l("229.583mm")}
	piece := func(t, w, length string) Piece { return Piece{Thickness: l(t), Width: l(w), Length: l(length)} }
	with := func(p Piece, f func(*Piece)) Piece { f(&p); return p }
	crookOf := func(width string) rates.Stock {
		k := crook
		k.Width = l(width)
		return k
	}
	girthed := rates.Stock{Form: rates.Log, MidGirth: l("1m"), Taper: l("10mm"), Length: l("6m")}
	flitch := rates.Stock{Form: rates.Flitch, Thickness: l("50mm"), Width: l("300mm"), Length: l("4m"), Taper: l("10mm")}
	sappy := rates.Stock{Form: rates.Plank, Thickness: l("50mm"), Width: l("100mm"), Length: l("4m"), Sapwood: l("50mm")}
	curve := func(chord, sweep string) *Curve {
		c := curveOver(l(chord), l(sweep))
		return &c
	}
	rounder, flatter := curve("2.2m", "300mm"), curve("1.4m", "60mm")
	c := frame()
	for _, c := range []struct {
		name string
		p    Piece
		k    rates.Stock
		want bool
	}{
		{"180 x 240 mm has a diagonal of just 300 mm", piece("180mm", "240mm", "4.8m"), log, true},
		{"181 x 240 mm has a longer one", piece("181mm", "240mm", "4.8m"), log, false},
		{"ends are trimmed", piece("180mm", "240mm", "4801mm"), log, false},
		{"round work of 300 mm lies within the top", with(piece("300mm", "300mm", "4m"), func(p *Piece) { p.Shape = job.Round }), log, true},
		{"eight-sided work of 278 mm is 300.9 mm over the corners", with(piece("278mm", "278mm", "4m"), func(p *Piece) { p.Shape = job.Eight }), log, false},
		{"eight-sided work of 277 mm is 299.8 mm over the corners", with(piece("277mm", "277mm", "4m"), func(p *Piece) { p.Shape = job.Eight }), log, true},
		{"free of heart 100 x 200 mm lies on one side of it", with(piece("100mm", "200mm", "4m"), func(p *Piece) { p.Heart = job.Free }), log, true},
		{"free of heart 180 x 240 mm does not", with(piece("180mm", "240mm", "4m"), func(p *Piece) { p.Heart = job.Free }), log, false},
		{"no heart is boxed in a plank", with(piece("2in", "6in", "10ft"), func(p *Piece) { p.Heart = job.Boxed }), plankStock("p", "3in", "12in", "20ft"), false},
		{"a plank an inch short", piece("2in", "6in", "20ft 1in"), plankStock("p", "3in", "12in", "20ft"), false},
		{"a curve is not turned", Piece{Thickness: l("480mm"), Width: l("50mm"), Length: l("2.3m"), Curve: &c}, plankStock("p", "300mm", "500mm", "3m"), false},
		{"a curve takes its moulding and sweep", Piece{Thickness: l("50mm"), Width: l("250mm"), Length: l("2.4m"), Curve: &c}, plankStock("p", "50mm", "479.59mm", "2.4m"), true},
		{"a crook of its own sweep takes the moulding alone", Piece{Thickness: l("150mm"), Width: l("300mm"), Length: l("2.4m"), Curve: &c}, crook, true},
		{"but no more of it", Piece{Thickness: l("150mm"), Width: l("301mm"), Length: l("2.4m"), Curve: &c}, crook, false},
		{"nor a thicker one", Piece{Thickness: l("151mm"), Width: l("250mm"), Length: l("2.4m"), Curve: &c}, crook, false},
		{"a rounder piece touches a crook with its ends and needs more", Piece{Thickness: l("150mm"), Width: l("299mm"), Length: l("2.4m"), Curve: rounder}, crook, false},
		{"a flatter piece touches it at the middle", Piece{Thickness: l("150mm"), Width: l("200mm"), Length: l("1.5m"), Curve: flatter}, crook, true},
		// On an inner arc of 2.75 m, 1 m of 200 mm stands root(0.5^2 + 2.95^2) - 2.75 = 242.1 mm out.
		{"a straight piece of 1 m lies in a crook of 242.1 mm", piece("100mm", "200mm", "1m"), crookOf("242.2mm"), true},
		{"and not in one of 242 mm", piece("100mm", "200mm", "1m"), crookOf("242mm"), false},
		{"a crook of no sweep is a plank", piece("150mm", "300mm", "2.2m"), rates.Stock{Form: rates.Crook, Thickness: l("150mm"), Width: l("300mm"), Length: l("2.2m")}, true},
		{"more than half a circle is no crook", piece("100mm", "100mm", "1m"), rates.Stock{Form: rates.Crook, Thickness: l("150mm"), Width: l("300mm"), Length: l("2m"), Sweep: l("1.1m")}, false},
		{"a knee takes what its sizes do", piece("100mm", "200mm", "1m"), rates.Stock{Form: rates.Knee, Thickness: l("100mm"), Width: l("200mm")}, true},
		{"and no more", piece("100mm", "201mm", "1m"), rates.Stock{Form: rates.Knee, Thickness: l("100mm"), Width: l("200mm")}, false},
		// Girth 1 m at 3 m is 318.3 mm across, less 3 m of 10 mm: 288.3 mm at the top.
		{"a log given by its mid girth takes 200 x 207 mm", piece("200mm", "207mm", "6m"), girthed, true},
		{"and not 200 x 209 mm", piece("200mm", "209mm", "6m"), girthed, false},
		{"taper narrows a flitch by half of what it loses in its length", piece("50mm", "280mm", "4m"), flitch, true},
		{"and by no less", piece("50mm", "281mm", "4m"), flitch, false},
		{"a plank that is all sap gives nothing", piece("10mm", "10mm", "10mm"), sappy, false},
		{"but where sapwood is allowed", with(piece("10mm", "10mm", "10mm"), func(p *Piece) { p.Sapwood = true }), sappy, true},
		{"timber by the cube comes to any size", piece("1m", "1m", "50m"), rates.Stock{Form: rates.Cube}, true},
		{"but for those it states", piece("1m", "1m", "50m"), rates.Stock{Form: rates.Cube, Length: l("12m")}, false},
	} {
		if got := c.p.From(c.k); got != c.want {
			t.Errorf("%s: %t", c.name, got)
		}
	}
}
