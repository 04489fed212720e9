package takeoff

import (
	"testing"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// wanted is a piece as it is worked by hand: sizes and lengths as written, net
// and sawn volume of all of them in cubic feet.
type wanted struct {
	count                    int
	thickness, width, length string
	chord, sweep             string
	net, sawn                string
}

func TestPieces(t *testing.T) {
	stock := func(k ...rates.Stock) func(*rates.Book) {
		return func(b *rates.Book) { b.Stock = k }
	}
	for _, c := range []struct {
		name string
		m    job.Member
		book func(*rates.Book)
		want wanted
		each int
	}{
		{
			// 152.4 (1 + tan 10) = 179.272; ri = 2438.4^2 / 1625.6 + 101.6 = 3759.2;
			// length 2438.4 x 3938.48 / 3759.2 = 2554.6897.
			name: "an oak frame sided and moulded 6 in is sawn wider for its bevel, and longer and wider for its sweep",
			m: oak("1", "8ft", "6in", "6in", func(m *job.Member) {
				m.Nr, m.Sweep, m.Bevel = 2, l("8in"), dec("10")
			}),
			want: wanted{2, "152.4", "179.28", "2554.69", "2438.4", "203.2", "4", "4.929534"},
			each: 1,
		},
		{
			// s = 6 x 4 1/2 in = 2.25 ft; (60 + 2 x 2.25) / 3 = 21.5 ft, and two pieces would be 31.125 ft.
			name: "a wale of 60 ft on both sides is got in three lengths scarphed through its thickness",
			m: oak("2", "60ft", "4 1/2in", "10in", func(m *job.Member) {
				m.Nr, m.Joint, m.Scarph = 2, job.Scarph, dec("6")
			}),
			book: stock(plankStock("oak 5in", "5in", "12in", "24ft")),
			want: wanted{6, "4 1/2in", "10in", "21ft 6in", "", "", "37.5", "40.3125"},
			each: 3,
		},
		{
			name: "a deck of 700 ft butted out of 20 ft planks takes 35 lengths",
			m:    oak("3", "700ft", "2 1/2in", "5in", func(m *job.Member) { m.Joint = job.Butt }),
			book: stock(plankStock("deck", "2 1/2in", "5in", "20ft")),
			want: wanted{35, "2 1/2in", "5in", "20ft", "", "", "60.763889", "60.763889"},
			each: 35,
		},
		{
			// s = 6 x 4 in = 2 ft at each end.
			name: "30 ft of inwale let in with two scarphs takes 34 ft",
			m: oak("4", "80ft", "4in", "9in", func(m *job.Member) {
				m.Treatment, m.Renewed, m.Joints, m.Joint, m.Scarph = job.Part, l("30ft"), 2, job.Scarph, dec("6")
			}),
			want: wanted{1, "4in", "9in", "34ft", "", "", "7.5", "8.5"},
			each: 1,
		},
		{
			// (34 + 2) / 2 = 18 ft.
			name: "the same inwale out of 24 ft planks is got in two lengths with a scarph between them",
			m: oak("5", "80ft", "4in", "9in", func(m *job.Member) {
				m.Treatment, m.Renewed, m.Joints, m.Joint, m.Scarph = job.Part, l("30ft"), 2, job.Scarph, dec("6")
			}),
			book: stock(plankStock("oak 5in", "5in", "12in", "24ft")),
			want: wanted{2, "4in", "9in", "18ft", "", "", "7.5", "9"},
			each: 2,
		},
		{
			// R' = 60^2/24 + 1.5 = 151.5 ft, the edge is 60.3992 ft round; with two
			// scarphs of 30 in each of three is 21.7997 ft round, 21.7809 ft over a
			// sweep of 4.7032 in. Got: 21.7809 x 152.3333 / 151.5 = 21.9007 ft.
			name: "a covering board of 60 ft with 3 ft of sweep is got in three lengths of 24 ft by 18 in",
			m: oak("6", "60ft", "2 1/2in", "10in", func(m *job.Member) {
				m.Sweep, m.Joint, m.Scarph, m.ThroughGiven = l("3ft"), job.Scarph, dec("3"), true
			}),
			book: stock(plankStock("wide", "3in", "18in", "24ft")),
			want: wanted{3, "2 1/2in", "10in", "6675.35", "6638.83", "119.47", "10.416667", "11.406636"},
			each: 3,
		},
		{
			// In 12 in the sweep may be 2 in: (60.3992 + 4 x 2.5) / 5 = 14.0798 ft round has 1.9624 in;
			// four would be 16.975 ft with 2.85 in.
			name: "the same covering board out of 12 in planks of 40 ft is got in five, as longer ones have too much sweep",
			m: oak("7", "60ft", "2 1/2in", "10in", func(m *job.Member) {
				m.Sweep, m.Joint, m.Scarph, m.ThroughGiven = l("3ft"), job.Scarph, dec("3"), true
			}),
			book: stock(plankStock("narrow", "3in", "12in", "40ft")),
			want: wanted{5, "2 1/2in", "10in", "4313.60", "4290.00", "49.85", "10.416667", "12.284976"},
			each: 5,
		},
		{
			// Published rule L + (n-1) s: 100 + 2 x 6.25 = 112.5 ft.
			name: "a keel of 100 ft moulded 15 in takes 112.5 ft in three pieces scarphed at five times its depth",
			m: oak("8", "100ft", "12in", "15in", func(m *job.Member) {
				m.Joint, m.Scarph, m.ThroughGiven = job.Scarph, dec("5"), true
			}),
			want: wanted{3, "12in", "15in", "37ft 6in", "", "", "125", "140.625"},
			each: 3,
		},
		{
			name: "Longest piece makes more pieces than the stock would",
			m:    oak("9", "60ft", "4in", "8in", func(m *job.Member) { m.Joint, m.Longest = job.Butt, l("15ft") }),
			want: wanted{4, "4in", "8in", "15ft", "", "", "13.333333", "13.333333"},
			each: 4,
		},
		{
			// 4 + 2/16, 8 + 1/16: three faces, two of them the sided way.
			name: "planing thickens by the first two faces and widens by the third",
			m:    oak("10", "10ft", "4in", "8in", func(m *job.Member) { m.PlanedFaces = 3 }),
			want: wanted{1, "4 1/8in", "8 1/16in", "10ft", "", "", "2.222222", "2.309570"},
			each: 1,
		},
		{
			name: "sizes as sawn take neither planing nor drying",
			m:    oak("11", "10ft", "4in", "8in", func(m *job.Member) { m.PlanedFaces, m.AsSawn = 4, true }),
			book: func(b *rates.Book) {
				b.Timber[0].Tangential, b.Timber[0].SawnAt, b.Timber[0].InUse, b.Timber[0].Dries = percent("10.5"), percent("60"), percent("15"), true
			},
			want: wanted{1, "4in", "8in", "10ft", "", "", "2.222222", "2.222222"},
			each: 1,
		},
		{
			// pi/4 x 25 x 20 / 144 in the ship, out of 5 in square.
			name: "a round spar is sawn square",
			m:    oak("12", "20ft", "5in", "", func(m *job.Member) { m.Shape = job.Round }),
			want: wanted{1, "5in", "5in", "20ft", "", "", "2.727077", "3.472222"},
			each: 1,
		},
		{
			// 2 (root 2 - 1) x 25 x 20 / 144.
			name: "an eight-sided spar is sawn square",
			m:    oak("13", "20ft", "5in", "5in", func(m *job.Member) { m.Shape = job.Eight }),
			want: wanted{1, "5in", "5in", "20ft", "", "", "2.876483", "3.472222"},
			each: 1,
		},
		{
			name: "a straight piece may be turned: sided 10 in, moulded 4 in comes out of a 5 in plank",
			m:    oak("14", "40ft", "10in", "4in", func(m *job.Member) { m.Joint = job.Butt }),
			book: stock(plankStock("oak 5in", "5in", "12in", "24ft")),
			want: wanted{2, "10in", "4in", "20ft", "", "", "11.111111", "11.111111"},
			each: 2,
		},
		{
			// 24 ft less 6 in at each end is 23 ft; 12 in less sap of 1 in on both edges just takes 10 in.
			name: "trimmed ends and sapwood are not usable",
			m:    oak("15", "46ft", "4in", "10in", func(m *job.Member) { m.Joint = job.Butt }),
			book: func(b *rates.Book) {
				k := plankStock("oak 5in", "5in", "12in", "24ft")
				k.EndTrim, k.Sapwood = l("6in"), l("1in")
				b.Stock = []rates.Stock{k}
			},
			want: wanted{2, "4in", "10in", "23ft", "", "", "12.777778", "12.777778"},
			each: 2,
		},
		{
			name: "the owner's long timber does not serve a row that is not bound to it",
			m:    oak("16", "48ft", "4in", "10in", func(m *job.Member) { m.Joint = job.Butt }),
			book: func(b *rates.Book) {
				k := plankStock("owner's", "5in", "12in", "50ft")
				k.ByOwner = true
				b.Stock = []rates.Stock{k, plankStock("oak 5in", "5in", "12in", "24ft")}
			},
			want: wanted{2, "4in", "10in", "24ft", "", "", "13.333333", "13.333333"},
			each: 2,
		},
	} {
		t.Run(c.name, func(t *testing.T) {
			row, pieces := measured(t, c.m, c.book)
			if len(pieces) != 1 {
				t.Fatalf("%d pieces, want one that stands for all", len(pieces))
			}
			p := pieces[0]
			got := wanted{p.Count, p.Thickness.In(measure.Mm, 4).String(), p.Width.In(measure.Mm, 4).String(), p.Length.In(measure.Mm, 3).String(),
				"", "", p.Net.In(measure.Ft3, 6).String(), measure.Quantity{Base: p.Sawn, Dim: measure.VolumeMeasure}.In(measure.Ft3, 3).String()}
			want := c.want
			want.thickness, want.width = l(want.thickness).In(measure.Mm, 4).String(), l(want.width).In(measure.Mm, 4).String()
			want.length, want.sawn = l(want.length).In(measure.Mm, 3).String(), dec(want.sawn).Round(3).String()
			if p.Curve != nil {
				got.chord, got.sweep = p.Curve.Chord.In(measure.Mm, 2).String(), p.Curve.Sweep.In(measure.Mm, 2).String()
				want.chord, want.sweep = l(want.chord).In(measure.Mm, 2).String(), l(want.sweep).In(measure.Mm, 2).String()
			}
			if got != want {
				t.Errorf("piece\n got %+v\nwant %+v", got, want)
			}
			if row.PiecesEach != c.each {
				t.Errorf("pieces each %d, want %d", row.PiecesEach, c.each)
			}
		})
	}
}

func TestTimberOfTheBoundStockStandsInForABlankOne(t *testing.T) {
	_, pieces := measured(t, oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.Timber, m.Stock = "", "OAK 5in" }), nil)
	if len(pieces) != 1 || pieces[0].Timber != "oak" || pieces[0].Stock != "OAK 5in" {
		t.Errorf("pieces %+v, want one of oak bound to its stock", pieces)
	}
}

func TestABoundRunIsGotOutOfItsOwnStockOnly(t *testing.T) {
	row, _ := measured(t, oak("1", "48ft", "4in", "8in", func(m *job.Member) { m.Stock, m.Joint = "oak 5in", job.Butt }), nil)
	if row.PiecesEach != 2 {
		t.Errorf("%d pieces out of 24 ft, want 2", row.PiecesEach)
	}
}

// 56 ft out of planks of 24 ft is three pieces, out of logs of 30 ft two: 4 x 8 in is 8.94 in
// across the corners.
func TestARunIsGotOutOfLogsAndCrooksThatServeIt(t *testing.T) {
	log := rates.Stock{Stock: "log", Timber: "oak", Form: rates.Log, TopDiameter: l("9in"), Length: l("30ft")}
	thin, thick, owners := log, log, log
	thin.TopDiameter, thick.TopDiameter, owners.ByOwner = l("8.9in"), l("40in"), true
	girthed := log
	girthed.TopDiameter, girthed.MidGirth = 0, l("29in") // 9.23 in through
	// Half of 12 ft with a sweep of 2 ft is 6.32 ft of chord, sweep 6.15 in: R = 10 ft. The crook has a radius of 9.85 ft.
	crook := rates.Stock{Stock: "crook", Timber: "oak", Form: rates.Crook, Thickness: l("6in"), Width: l("12in"), Length: l("8ft"), Sweep: l("10in")}
	plank := plankStock("plank", "5in", "12in", "24ft")
	swept := func(m *job.Member) { m.Length, m.Sweep = l("12ft"), l("2ft") }
	for _, c := range []struct {
		name  string
		stock []rates.Stock
		row   func(*job.Member)
		each  int
	}{
		{"planks alone", []rates.Stock{plank}, nil, 3},
		{"logs that are longer", []rates.Stock{plank, log}, nil, 2},
		{"logs alone", []rates.Stock{log}, nil, 2},
		{"logs measured by their girth", []rates.Stock{plank, girthed}, nil, 2},
		{"logs too thin", []rates.Stock{plank, thin}, nil, 3},
		{"logs of the owner's", []rates.Stock{plank, owners}, nil, 3},
		{"logs with the heart boxed in", []rates.Stock{plank, log}, func(m *job.Member) { m.Heart = job.Boxed }, 2},
		{"logs do not serve what is sawn to a curve", []rates.Stock{plankStock("plank", "5in", "20in", "8ft"), thick}, swept, 2},
		{"crooks do", []rates.Stock{crook}, swept, 2},
	} {
		t.Run(c.name, func(t *testing.T) {
			row, _ := measured(t, oak("1", "56ft", "4in", "8in", func(m *job.Member) {
				m.Joint = job.Butt
				if c.row != nil {
					c.row(m)
				}
			}), func(b *rates.Book) { b.Stock = c.stock })
			if row.PiecesEach != c.each {
				t.Errorf("%d pieces, want %d", row.PiecesEach, c.each)
			}
		})
	}
}

func TestLengthsMayBeChosenOfARunWithAShortestPieceUnlessItBoxesTheHeart(t *testing.T) {
	for heart, want := range map[job.Heart]bool{job.AnyHeart: true, job.Free: true, job.Boxed: false} {
		_, pieces := measured(t, oak("1", "72ft", "4in", "8in", func(m *job.Member) { m.Joint, m.Shortest, m.Heart = job.Butt, l("12ft"), heart }), nil)
		if got := len(pieces) == 1 && pieces[0].Run != nil; got != want {
			t.Errorf("heart %s: lengths to be chosen %t, want %t", heart, got, want)
		}
	}
}

func TestRowsAndPiecesComeByRef(t *testing.T) {
	j, b := yard(oak("3.10", "10ft", "4in", "8in", nil), oak("3.2", "10ft", "4in", "8in", nil), oak("2", "10ft", "4in", "8in", nil))
	j.Items = []job.Item{{Work: job.Work{Ref: "3.3"}, Quantity: dec("1"), Unit: measure.One}}
	got, _ := Measure(j, b)
	var rows, pieces string
	for _, r := range got.Rows {
		rows += r.Work.Ref + " "
	}
	for _, p := range got.Pieces {
		pieces += p.Ref + " "
	}
	if rows != "2 3.2 3.3 3.10 " || pieces != "2 3.2 3.10 " {
		t.Errorf("rows %s, pieces %s", rows, pieces)
	}
}

func TestPriceThatDoesNotYetHoldGivesNoStick(t *testing.T) {
	j, b := yard(oak("1", "48ft", "4in", "8in", func(m *job.Member) { m.Joint = job.Butt }))
	j.TenderDate = day("2026-05-01")
	long := plankStock("long", "5in", "12in", "50ft")
	long.From = day("2026-09-01")
	b.Stock = []rates.Stock{plankStock("oak 5in", "5in", "12in", "24ft"), long}
	got, problems := Measure(j, b)
	if len(problems) > 0 || got.Rows[0].PiecesEach != 2 {
		t.Errorf("%d pieces and %v, want 2 out of the 24 ft planks", got.Rows[0].PiecesEach, problems)
	}
}

func TestProblemStandsAtTheRefWhereTheSheetHasNoSuchColumn(t *testing.T) {
	at := origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: 9, Col: 12}
	m := oak("1", "20ft", "4in", "", nil)
	for _, c := range []struct{ cell, want origin.Cell }{{origin.Cell{}, m.At}, {at, at}} {
		m.MouldedAt = c.cell
		j, b := yard(m)
		_, problems := Measure(j, b)
		if len(problems) != 1 || problems[0].At != c.want || problems[0].Code != problem.SizeMissing {
			t.Errorf("%v, want one at %s", problems, c.want)
		}
	}
}

// Oak of 10 % the larger way, sawn at 24 % for 15 %: 1 - 0.1 (1 - 24/30) = 0.98 over
// 1 - 0.1 (1 - 15/30) = 0.95. Planed 1/8 in on three faces, 4 in is 4 1/4 in, and 8 in
// 8 1/8 in: 107.95 x 0.98 / 0.95 = 111.3590 and 206.375 x 0.98 / 0.95 = 212.8921, rounded
// up to 0.01 mm; a bevel of 10 degrees adds 101.6 x 0.176327 = 17.9148 to 212.90.
func TestASectionGrowsStepByStep(t *testing.T) {
	row, _ := measured(t, oak("1", "10ft", "4in", "8in", func(m *job.Member) { m.PlanedFaces, m.Bevel = 3, dec("10") }), func(b *rates.Book) {
		k := &b.Timber[0]
		k.Tangential, k.Radial = percent("10"), percent("5")
		k.Dries, k.SawnAt, k.InUse = true, percent("24"), percent("15")
		k.Planing = l("1/8in")
	})
	mm := func(hundredths int64) measure.Length { return measure.Length(hundredths) * 10 * measure.Micrometre }
	want := Growth{
		Finished: Section{l("4in"), l("8in")},
		Planed:   Section{l("4 1/4in"), l("8 1/8in")},
		Green:    Section{mm(11136), mm(21290)},
		Sawn:     Section{mm(11136), mm(23082)},
	}
	if row.Growth != want {
		t.Errorf("got %v, want %v", row.Growth, want)
	}
}

// Two joints to old work of six times 3 in: 30 ft and twice 18 in are 33 ft.
func TestARunIsLongerByItsJointsToOldWork(t *testing.T) {
	row, _ := measured(t, oak("1", "60ft", "3in", "8in", func(m *job.Member) {
		m.Treatment, m.Renewed, m.Joint, m.Joints, m.Scarph = job.Part, l("30ft"), job.Scarph, 2, dec("6")
	}), nil)
	if row.Along != l("33ft") {
		t.Errorf("the run is %s", row.Along.FeetInches())
	}
}
