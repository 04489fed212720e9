package log

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"futtock/estimate/cutting/solve"
)

// some is a shop of several logs drawn at random.
func some(draw *rand.Rand) (Shop, []int64, []int) {
	size := func(low, high int) int64 { return int64(low+draw.IntN(high-low)) * []int64{mm, 396_875}[draw.IntN(2)] }
	s := Shop{Kerf: size(0, 10), Work: []int{20_000, 200_000, 1_000_000}[draw.IntN(3)]}
	for range 1 + draw.IntN(8) {
		p := Piece{Thickness: size(20, 120), Width: size(60, 300), Length: size(400, 6000), Sapwood: draw.IntN(3) == 0,
			Boxed: draw.IntN(6) == 0, Wanted: 1 + draw.IntN(12)}
		p.Free = !p.Boxed && draw.IntN(3) == 0
		s.Pieces = append(s.Pieces, p)
	}
	for range 1 + draw.IntN(3) {
		l := Log{Top: size(150, 800), Taper: size(0, 15), Length: size(2000, 9000), Sapwood: size(0, 40)}
		if draw.IntN(2) == 0 {
			l.Core = size(1, 60)
		}
		for range s.Pieces {
			l.Gives = append(l.Gives, draw.IntN(5) > 0)
		}
		s.Logs = append(s.Logs, l)
	}
	var worth []int64
	var wanted []int
	for _, p := range s.Pieces {
		worth = append(worth, p.Thickness/mm*(p.Width/mm)*(p.Length/mm)*int64(8+draw.IntN(5)))
		wanted = append(wanted, p.Wanted)
	}
	if draw.IntN(2) == 0 {
		odd(draw, &s, worth, wanted)
	}
	return s, worth, wanted
}

// odd makes a shop odd: sizes to the nanometre, pieces worth nothing or not wanted, very short ones,
// logs of great taper, of no size, with much core or sapwood.
func odd(draw *rand.Rand, s *Shop, worth []int64, wanted []int) {
	for i := range s.Pieces {
		p := &s.Pieces[i]
		p.Thickness, p.Width, p.Length = p.Thickness+draw.Int64N(mm), p.Width+draw.Int64N(mm), p.Length+draw.Int64N(mm)
		switch draw.IntN(8) {
		case 0:
			p.Wanted, wanted[i] = 0, 0
		case 1:
			p.Thickness, p.Width = p.Width, p.Thickness
		case 2:
			p.Length = draw.Int64N(20*mm) + 1
		case 3:
			worth[i] = 0
		case 4:
			worth[i] *= 20
		}
	}
	for i := range s.Logs {
		l := &s.Logs[i]
		switch draw.IntN(6) {
		case 0:
			l.Taper = draw.Int64N(200 * mm)
		case 1:
			l.Top = draw.Int64N(60*mm) + 1
		case 2:
			l.Core = draw.Int64N(400 * mm)
		case 3:
			l.Sapwood = draw.Int64N(200 * mm)
		}
	}
}

// sound asks of every piece by itself whether its corners lie in the wood at its
// small end and its section to the pith as it is wanted, and of any two whether a
// cut lies between them.
func sound(t *testing.T, s Shop, l Layout, places []Place) {
	t.Helper()
	log := s.Logs[l.Log]
	for i, a := range places {
		p := s.Pieces[a.Piece]
		wide, high := p.Width, p.Thickness
		if a.Turned {
			wide, high = high, wide
		}
		r := float64(log.Top)/2 + float64(log.Taper)*float64(a.Along)/2e9
		if !p.Sapwood {
			r -= float64(log.Sapwood)
		}
		far := math.Hypot(math.Max(math.Abs(float64(a.Left)), math.Abs(float64(a.Left+wide))), math.Max(math.Abs(float64(a.Low)), math.Abs(float64(a.Low+high))))
		near := math.Hypot(math.Max(0, math.Max(float64(a.Left), -float64(a.Left+wide))), math.Max(0, math.Max(float64(a.Low), -float64(a.Low+high))))
		pith := a.Left < 0 && a.Left+wide > 0 && a.Low < 0 && a.Low+high > 0
		switch {
		case !log.Gives[a.Piece] || a.Wide != wide || a.High != high:
			t.Fatalf("%+v is not piece %+v of log %+v", a, p, log)
		case a.Along < 0 || a.Along+p.Length > log.Length || far > r+1e-3:
			t.Fatalf("%+v reaches %.0f nm from the pith, and the wood %.0f (%+v in %+v)", a, far, r, p, log)
		case p.Boxed && !pith || p.Free && (pith || near < float64(log.Core)-1e-3):
			t.Fatalf("%+v lies %.0f nm from the pith (%+v in %+v)", a, near, p, log)
		}
		for _, b := range places[:i] {
			apart := max(a.Left-b.Left-b.Wide, b.Left-a.Left-a.Wide, a.Low-b.Low-b.High, b.Low-a.Low-a.High,
				a.Along-b.Along-s.Pieces[b.Piece].Length, b.Along-a.Along-p.Length)
			if apart < s.Kerf {
				t.Fatalf("%+v and %+v lie %d nm apart, and a cut takes %d", a, b, apart, s.Kerf)
			}
		}
	}
}

// counts fails unless a column is what its layout gives, and no more than is wanted.
func counts(t *testing.T, s Shop, c solve.Column, places []Place, wanted []int) {
	t.Helper()
	got := make([]int, len(s.Pieces))
	for _, a := range places {
		got[a.Piece]++
	}
	for _, e := range c.Gives {
		if e.Count > wanted[e.Piece] || e.Count != got[e.Piece] {
			t.Fatalf("%d of piece %d are counted, %d laid out, %d wanted", e.Count, e.Piece, got[e.Piece], wanted[e.Piece])
		}
		got[e.Piece] = 0
	}
	if slices.ContainsFunc(got, func(n int) bool { return n > 0 }) {
		t.Fatalf("%v are laid out and not counted", got)
	}
}

func TestLayoutsCanBeSawnAndAreWorthNoMoreThanTheGreatest(t *testing.T) {
	draw := rand.New(rand.NewPCG(5, 2))
	laid, alone := 0, 0
	for range 600 {
		shop, worth, wanted := some(draw)
		s := New(shop)
		floor := make([]int64, len(shop.Logs))
		most, columns := s.Best(worth, wanted, floor, free())
		e := s.Ease()
		eased, relaxed := e.Best(worth, wanted, floor, free())
		for i := range most {
			if most[i] > eased[i] {
				t.Fatalf("a log is worth %d at most, and %d with less asked of it", most[i], eased[i])
			}
		}
		for _, c := range relaxed {
			if v := value(c, worth); v > eased[c.Kind] {
				t.Fatalf("%d is found, and the greatest said to be %d", v, eased[c.Kind])
			}
		}
		_, pooled := s.Pool().Best(worth, wanted, floor, free())
		columns = slices.Concat(columns, pooled, e.Sound())
		for i := range shop.Logs {
			for p := range shop.Pieces {
				if c, ok := s.Alone(i, p); ok {
					alone++
					columns = append(columns, c)
				}
			}
		}
		for _, c := range columns {
			laid++
			l := s.Sawn(c.Tag, c.Gives)
			places := s.Places(l)
			sound(t, shop, l, places)
			counts(t, shop, c, places, wanted)
			if v := value(c, worth); v > most[c.Kind] {
				t.Fatalf("%d is laid out, and the greatest said to be %d: %+v of %+v", v, most[c.Kind], l, shop)
			}
			// Half of what it gives is a layout too.
			half := solve.Column{Kind: c.Kind}
			for _, e := range c.Gives {
				if e.Count/2 > 0 {
					half.Gives = append(half.Gives, solve.Entry{Piece: e.Piece, Count: e.Count / 2})
				}
			}
			l = s.Sawn(c.Tag, half.Gives)
			sound(t, shop, l, s.Places(l))
			counts(t, shop, half, s.Places(l), wanted)
		}
	}
	if laid < 1000 || alone < 500 {
		t.Errorf("%d layouts, %d of one piece alone: too few to tell", laid, alone)
	}
}

func TestSameQuestionsGetTheSameAnswers(t *testing.T) {
	draw := rand.New(rand.NewPCG(9, 4))
	for range 40 {
		shop, worth, wanted := some(draw)
		s := New(shop)
		most, columns := s.Best(worth, wanted, nil, free())
		s.Best(wantedWorth(wanted), wanted, nil, free())
		again, same := s.Best(worth, wanted, nil, free())
		if !slices.Equal(most, again) || !slices.EqualFunc(columns, same, func(a, b solve.Column) bool {
			return a.Kind == b.Kind && a.Tag == b.Tag && slices.Equal(a.Gives, b.Gives)
		}) {
			t.Fatalf("%v %+v and then %v %+v", most, columns, again, same)
		}
	}
}

// wantedWorth is other worths: each piece by how many are wanted.
func wantedWorth(wanted []int) []int64 {
	var out []int64
	for _, n := range wanted {
		out = append(out, int64(n))
	}
	return out
}

// A thinner cut never gives less, and on small logs up to a third more. (Hallock, FPL
// Report 2254, 1962: 9/32 in for 12/32 in on logs of 5 1/2 to 12 in gives nothing to 33 % more,
// slightly over 7 % in the mean of logs each of the least diameter of its pattern; of logs of
// all diameters the mean is less.)
func TestAThinnerCutNeverGivesLess(t *testing.T) {
	gain, greatest, logs := 0.0, 0.0, 0
	for d := int64(88); d <= 192; d += 2 { // sixteenths of an inch
		var most [2]int64
		var got [2]int64
		for i, kerf := range []int64{12, 9} {
			shop := Shop{Kerf: kerf * inch / 32, Work: 400_000}
			var worth []int64
			var wanted []int
			l := Log{Top: d * inch / 16, Length: 12 * 12 * inch}
			for _, t := range []int64{1, 2} {
				for w := int64(4); w <= 10; w += 2 {
					shop.Pieces = append(shop.Pieces, Piece{Thickness: t * inch, Width: w * inch, Length: l.Length, Wanted: 1000})
					worth, wanted = append(worth, t*w), append(wanted, 1000)
					l.Gives = append(l.Gives, true)
				}
			}
			shop.Logs = []Log{l}
			top, columns := New(shop).Best(worth, wanted, nil, free())
			most[i] = top[0]
			for _, c := range columns {
				got[i] = max(got[i], value(c, worth))
			}
		}
		if got[0] > most[1] {
			t.Errorf("top %d/16 in: %d is laid out with the thick cut, and at most %d with the thin", d, got[0], most[1])
		}
		if most[0] == got[0] && most[1] == got[1] && got[0] > 0 {
			more := 100 * float64(got[1]-got[0]) / float64(got[0])
			gain, logs, greatest = gain+more, logs+1, max(greatest, more)
		}
	}
	if mean := gain / float64(logs); logs < 40 || mean < 2 || mean > 7 || greatest > 34 {
		t.Errorf("%d logs gain %.1f %% in the mean and %.1f %% at most", logs, mean, greatest)
	}
}

// A boxed heart of most of the log beside many small pieces of one section: 3 x 100
// go in with 5 of the small ones, which by themselves would be worth more for a
// length than one of the great. By hand, without a cut: 3 x 2,000 + 5 x 200 of the 7,000 mm.
func TestFewSmallPiecesDoNotHideAGreatOne(t *testing.T) {
	s := New(Shop{Work: 100_000, Logs: []Log{{Top: 150 * mm, Length: 7000 * mm, Gives: []bool{true, true}}},
		Pieces: []Piece{{Thickness: 100 * mm, Width: 100 * mm, Length: 2000 * mm, Boxed: true, Wanted: 9},
			{Thickness: 90 * mm, Width: 90 * mm, Length: 200 * mm, Boxed: true, Wanted: 5}}})
	most, columns := s.Best([]int64{100, 30}, []int{9, 5}, nil, free())
	if most[0] != 450 || len(columns) == 0 || value(columns[0], []int64{100, 30}) != 450 {
		t.Errorf("worth %v, laid out %+v, by hand 3 x 100 + 5 x 30", most, columns)
	}
}

// Worths as great as a purchase may ask with: many small pieces of them go in a log.
func TestGreatWorthsDoNotPassTheirBounds(t *testing.T) {
	s := New(Shop{Work: 100_000, Logs: []Log{{Top: 600 * mm, Length: 9000 * mm, Gives: []bool{true}}},
		Pieces: []Piece{{Thickness: 20 * mm, Width: 20 * mm, Length: 100 * mm, Wanted: 2}}})
	const worth = 1 << 54
	if most, columns := s.Best([]int64{worth}, []int{2}, nil, free()); most[0] != 2*worth || value(columns[0], []int64{worth}) != 2*worth {
		t.Errorf("two of worth %d are said to be worth %d", int64(worth), most[0])
	}
	if most, _ := s.Ease().Best([]int64{worth}, []int{2}, nil, free()); most[0] < 2*worth {
		t.Errorf("with less asked two of worth %d are said to be worth %d", int64(worth), most[0])
	}
}
