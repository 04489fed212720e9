package verify

import (
	"strings"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

const mm = measure.Millimetre

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// hand is a plan made by hand: five strips of 100 mm, three from one plank of
// 306 mm and two from the next, with a kerf of 3 mm, at 50 a plank.
type hand struct {
	job  job.Job
	book rates.Book
	take takeoff.Takeoff
	plan order.Plan
}

func byHand() *hand {
	stock := rates.Stock{At: origin.Cell{Sheet: "Stock", Row: 2, Col: 1}, Stock: "plank", Timber: "oak", Form: rates.Plank,
		Thickness: 52 * mm, Width: 306 * mm, Length: 2100 * mm, EndTrim: 50 * mm,
		Price: money.NewPrice(dec("50")), Unit: measure.Nr, Available: 2, Limited: true}
	piece := func(ref string, n int) takeoff.Piece {
		v := dec("0.01").Mul(decimal.New(int64(n), 0))
		return takeoff.Piece{Ref: ref, Carried: job.Measured, Timber: "oak", Shape: job.Square, Heart: job.AnyHeart, Count: n,
			Thickness: 50 * mm, Width: 100 * mm, Length: 2000 * mm, Net: measure.Of(v, measure.M3), Sawn: v}
	}
	cut := func(ref string, piece int, across measure.Length) order.Cut {
		return order.Cut{Ref: ref, Piece: piece, Across: across, Length: 2000 * mm, Width: 100 * mm, Thickness: 50 * mm}
	}
	h := &hand{
		job:  job.Job{Particulars: job.Particulars{TenderDate: time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)}},
		book: rates.Book{Timber: []rates.Timber{{Timber: "oak", Kerf: 3 * mm}}, Stock: []rates.Stock{stock}},
		take: takeoff.Takeoff{Pieces: []takeoff.Piece{piece("1", 3), piece("2", 2)}},
	}
	h.plan = order.Plan{
		Order: []order.Line{{
			Stock: stock, Carried: job.Measured, Needed: decimal.New(2, 0), Buy: decimal.New(2, 0),
			Each: money.MustAmount("50"), Material: money.MustAmount("100"), Cost: money.MustAmount("100"),
			// 2 x 0.052 x 0.306 x 2.1
			Bought: dec("0.066830"), Sawn: hundredth(5), Net: hundredth(5),
			Patterns: []order.Pattern{
				{Times: 1, Cuts: []order.Cut{cut("1", 0, 0), cut("1", 0, 103*mm), cut("1", 0, 206*mm)}},
				{Times: 1, Cuts: []order.Cut{cut("2", 1, 0), cut("2", 1, 103*mm)}},
			},
			Got: []order.Got{{Ref: "1", Piece: 0, Count: 3, Sawn: hundredth(3), Net: hundredth(3)},
				{Ref: "2", Piece: 1, Count: 2, Sawn: hundredth(2), Net: hundredth(2)}},
			Sections: []order.Section{{Thickness: 50 * mm, Width: 100 * mm, Sawn: hundredth(5), Cost: money.MustAmount("100")}},
		}},
		Shares: []order.Share{
			{Ref: "1", Stock: "plank", Thickness: 50 * mm, Width: 100 * mm, Sawn: hundredth(3), Of: hundredth(5), Cost: money.MustAmount("60")},
			{Ref: "2", Stock: "plank", Thickness: 50 * mm, Width: 100 * mm, Sawn: hundredth(2), Of: hundredth(5), Cost: money.MustAmount("40")},
		},
		Species: []order.Species{{Timber: "oak", Net: hundredth(5), Sawn: hundredth(5), Bought: dec("0.066830"), Waste: dec("0.016830"), Cost: money.MustAmount("100")}},
		Bound:   order.Bound{Cost: money.MustAmount("100"), Least: money.MustAmount("80")},
	}
	return h
}

func hundredth(n int64) decimal.Decimal { return decimal.New(n, -2) }

func (h *hand) faults() []string {
	h.plan.Pieces = h.take.Pieces
	return Plan(&h.job, &h.book, h.take, h.plan)
}

func TestAPlanMadeByHandHolds(t *testing.T) {
	if got := byHand().faults(); len(got) > 0 {
		t.Error(strings.Join(got, "\n"))
	}
}

func TestEveryFaultIsFound(t *testing.T) {
	line := func(h *hand) *order.Line { return &h.plan.Order[0] }
	cuts := func(h *hand) []order.Cut { return line(h).Patterns[0].Cuts }
	stock := func(h *hand, change func(*rates.Stock)) {
		change(&h.book.Stock[0])
		line(h).Stock = h.book.Stock[0]
	}
	tests := []struct {
		name   string
		change func(*hand)
		says   string
	}{
		{"a piece got too often", func(h *hand) { line(h).Patterns[1].Times = 2; line(h).Got[1].Count = 4 }, `row "2" wants 2, gets 4`},
		{"a piece not got", func(h *hand) { h.take.Pieces[1].Count = 3 }, `row "2" wants 3, gets 2`},
		{"the list and the patterns differ", func(h *hand) { line(h).Got[1].Count = 3 }, "lists 3"},
		{"a row that is not the piece's", func(h *hand) { cuts(h)[0].Ref = "2" }, `cuts piece 0 of row "2"`},
		{"short of what is got", func(h *hand) { h.plan.Short = []order.Short{{Ref: "1", Piece: 0, Count: 1}} }, "is short of 1"},
		{"a saw-cut too thin by a nanometre", func(h *hand) { cuts(h)[1].Across-- }, "cannot be sawn"},
		{"pieces one upon the other", func(h *hand) { cuts(h)[1].Across = 0 }, "cannot be sawn"},
		{"over the edge", func(h *hand) { cuts(h)[2].Across++ }, "lies outside"},
		{"into the trimmed end", func(h *hand) { cuts(h)[2].Along++ }, "lies outside"},
		{"before the butt", func(h *hand) { cuts(h)[0].Along = -1 }, "lies outside"},
		{"in the sapwood", func(h *hand) { stock(h, func(s *rates.Stock) { s.Sapwood = 1 }) }, "lies outside"},
		{"in the bark", func(h *hand) { stock(h, func(s *rates.Stock) { s.Bark = 1 }) }, "lies outside"},
		{"in the taper", func(h *hand) { stock(h, func(s *rates.Stock) { s.Taper = mm }) }, "lies outside"},
		{"a stick too thin", func(h *hand) { stock(h, func(s *rates.Stock) { s.Thickness = 49 * mm }) }, "thick out of"},
		{"a piece cut short", func(h *hand) { cuts(h)[0].Length-- }, "are wanted"},
		{"a piece cut narrow", func(h *hand) { cuts(h)[0].Width-- }, "are wanted"},
		{"a stick that is not bought", func(h *hand) { line(h).Needed, line(h).Buy = whole(1), whole(1) }, "are sawn"},
		{"loss left out", func(h *hand) { stock(h, func(s *rates.Stock) { s.Loss = money.NewPercent(dec("10")) }) }, "with a loss of 10 %"},
		{"one stick too many", func(h *hand) { line(h).Buy = whole(3) }, "are bought for"},
		{"more than there is", func(h *hand) { stock(h, func(s *rates.Stock) { s.Available = 1 }) }, "of 1 available"},
		{"a cost that is not the price", func(h *hand) { line(h).Cost = money.MustAmount("99") }, "reckoned again"},
		{"the owner's timber priced", func(h *hand) {
			stock(h, func(s *rates.Stock) { s.ByOwner = true })
			h.take.Pieces[0].Stock, h.take.Pieces[1].Stock = "plank", "plank"
		}, "reckoned again"},
		{"the owner's timber for a row not bound to it", func(h *hand) { stock(h, func(s *rates.Stock) { s.ByOwner = true }) }, "is the owner's"},
		{"a row bound elsewhere", func(h *hand) { h.take.Pieces[0].Stock = "other" }, `is bound to "other"`},
		{"another timber", func(h *hand) { h.take.Pieces[0].Timber = "larch" }, "is oak and not larch"},
		{"an option in the order", func(h *hand) { h.take.Pieces[0].Carried = job.Option }, "carried as measured"},
		{"a crook for an unbound row", func(h *hand) { stock(h, func(s *rates.Stock) { s.Form = rates.Crook }) }, "which is a crook"},
		{"two pieces of one spar", func(h *hand) {
			stock(h, func(s *rates.Stock) { s.Form = rates.Spar })
			h.take.Pieces[0].Stock, h.take.Pieces[1].Stock = "plank", "plank"
		}, "is had one a stick"},
		{"a boxed heart in a plank", func(h *hand) { h.take.Pieces[0].Heart = job.Boxed }, "boxes no heart"},
		{"a boxed heart beside others", func(h *hand) {
			stock(h, func(s *rates.Stock) { s.Form = rates.Baulk })
			h.take.Pieces[0].Heart = job.Boxed
		}, "2 others beside it"},
		{"a stock row out of force", func(h *hand) { h.book.Stock[0].At.Row++ }, "not the row in force"},
		{"a line that stands twice", func(h *hand) { h.plan.Order = append(h.plan.Order, h.plan.Order[0]) }, "stands 2 times"},
		{"a volume that is not the sticks'", func(h *hand) { line(h).Bought = dec("0.06") }, "m3 bought"},
		{"a section that costs too little", func(h *hand) { line(h).Sections[0].Cost = money.MustAmount("99.99") }, "the sections bear 99.99"},
		{"a row that bears too much", func(h *hand) {
			h.plan.Shares[0].Cost, h.plan.Shares[1].Cost = money.MustAmount("60.02"), money.MustAmount("39.98")
		}, "60.02 of 100.00 is borne"},
		{"a share of another volume", func(h *hand) { h.plan.Shares[0].Of = hundredth(6) }, "0.03 of 0.06 m3, and has 0.03 of 0.05"},
		{"a penny lost", func(h *hand) { h.plan.Shares[1].Cost = money.MustAmount("39.99") }, "the rows bear 99.99"},
		{"a share without a line", func(h *hand) { h.plan.Shares = append(h.plan.Shares, order.Share{Ref: "9", Stock: "plank"}) }, "2 shares belong to a line, and there are 3"},
		{"a summary that is not the order's", func(h *hand) { h.plan.Species[0].Net = dec("0.04") }, "net"},
		{"a bound above the cost", func(h *hand) { h.plan.Bound.Least = money.MustAmount("100.01") }, "could not cost less"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := byHand()
			tt.change(h)
			if got := strings.Join(h.faults(), "\n"); !strings.Contains(got, tt.says) {
				t.Errorf("found %q, wanted %q", got, tt.says)
			}
		})
	}
}

// The third oblong bars every cut from edge to edge of the pinwheel of the others.
func TestAPinwheelCannotBeSawn(t *testing.T) {
	wheel := []block{{0, 20, 0, 10, 0, 5}, {20, 30, 0, 20, 0, 5}, {10, 30, 20, 30, 0, 5}, {0, 10, 10, 30, 0, 5}}
	if sawable(wheel, 0) {
		t.Error("a pinwheel of four was passed as sawable")
	}
	if !sawable(wheel[:3], 0) {
		t.Error("three of its four were not")
	}
}

// R 3 m, m 0.25 m, chord 2.2 m: p = sqrt(9 - 1.21) - 2.520409 = 270.639 mm, and 3 mm of kerf
// is 3 / 0.916515 = 3.273 mm upright. The bound is on the safe side by less than 0.1 mm.
func TestNestedCurvesClearEachOtherByTheKerf(t *testing.T) {
	c := takeoff.Curve{Inner: 2750 * mm, Chord: 2200 * mm, Sweep: 229591 * measure.Micrometre}
	r := &reading{pieces: []takeoff.Piece{{Width: 250 * mm, Curve: &c}}}
	at := func(across measure.Length) order.Cut {
		return order.Cut{Across: across, Length: 2400 * mm, Width: 480 * mm, Thickness: 75 * mm, Curve: &c}
	}
	if !r.nested(at(0), at(273913*measure.Micrometre), 3*mm) {
		t.Error("the published step is said to be too small")
	}
	if r.nested(at(0), at(273*mm), 3*mm) {
		t.Error("a millimetre less is passed")
	}
}
