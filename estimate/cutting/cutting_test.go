package cutting

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

const (
	mm = measure.Millimetre
	m  = measure.Metre
)

func dec(s string) decimal.Decimal   { return decimal.RequireFromString(s) }
func price(s string) money.Price     { return money.NewPrice(dec(s)) }
func percent(s string) money.Percent { return money.NewPercent(dec(s)) }
func cell(sheet string, r int) origin.Cell {
	return origin.Cell{Book: "yard.xlsx", Sheet: sheet, Row: r, Col: 1}
}

// oakJob is a job priced on one day; its timbers are sawn with a kerf of 3 mm.
func oakJob() *job.Job {
	var j job.Job
	j.TenderDate = time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)
	j.LengthsIn, j.SizesIn = measure.M, measure.Mm
	return &j
}

func book(stock ...rates.Stock) *rates.Book {
	b := &rates.Book{Timber: []rates.Timber{{Timber: "oak", Kerf: 3 * mm}, {Timber: "larch", Kerf: 3 * mm}}}
	for i, s := range stock {
		s.At, s.PriceAt = cell("Stock", i+2), cell("Stock", i+2).In(20)
		b.Stock = append(b.Stock, s)
	}
	return b
}

// plank is a plank sold by number, ends trimmed by 50 mm.
func plank(name string, t, w, l measure.Length, each string) rates.Stock {
	return rates.Stock{Stock: name, Timber: "oak", Form: rates.Plank, Thickness: t, Width: w, Length: l,
		EndTrim: 50 * mm, Price: price(each), Unit: measure.Nr}
}

// straight is pieces of oak whose finished size is their sawn size.
func straight(ref string, n int, t, w, l measure.Length) takeoff.Piece {
	vol := l.Volume(w, t).Times(decimal.New(int64(n), 0))
	row := len(ref) + 2
	return takeoff.Piece{Ref: ref, At: cell("Members", row), LengthAt: cell("Members", row).In(7),
		TimberAt: cell("Members", row).In(14), StockAt: cell("Members", row).In(15),
		Carried: job.Measured, Timber: "oak", Shape: job.Square, Heart: job.AnyHeart,
		Count: n, Thickness: t, Width: w, Length: l, Net: vol, Sawn: vol.Base.Round(6)}
}

func pieces(p ...takeoff.Piece) takeoff.Takeoff { return takeoff.Takeoff{Pieces: p} }

// bought says what is bought, "3 of deck plank 90.00", one line a stock line.
func boughtText(lines []order.Line) []string {
	var out []string
	for _, l := range lines {
		out = append(out, fmt.Sprintf("%s of %s %s", l.Buy, l.Stock.Stock, l.Cost))
	}
	return out
}

func codes(l problem.List) []problem.Code {
	var out []problem.Code
	for _, p := range l {
		out = append(out, p.Code)
	}
	return out
}

func TestPurchasesWorkedByHand(t *testing.T) {
	tests := []struct {
		name   string
		stock  []rates.Stock
		pieces []takeoff.Piece
		want   []string
	}{
		{
			// 6.110 less 2 x 0.050 is 6.010; 3 x 2.000 + 2 x 0.003 = 6.006 goes in: 3, 3 and 2.
			"eight deck planks come out of three with the kerf between them",
			[]rates.Stock{plank("deck plank", 52*mm, 150*mm, 6110*mm, "30")},
			[]takeoff.Piece{straight("1", 8, 50*mm, 140*mm, 2*m)},
			[]string{"3 of deck plank 90.00"},
		},
		{
			// 6.105 less 0.100 is 6.005, 1 mm short of the third: two a plank.
			"a millimetre less of plank makes it four",
			[]rates.Stock{plank("deck plank", 52*mm, 150*mm, 6105*mm, "30")},
			[]takeoff.Piece{straight("1", 8, 50*mm, 140*mm, 2*m)},
			[]string{"4 of deck plank 120.00"},
		},
		{
			// 200 + 3 + 103 = 306 across, 2 x 2.950 + 0.003 = 5.903 along: two of each a plank.
			"two widths are ripped from one plank",
			[]rates.Stock{plank("wide plank", 52*mm, 306*mm, 6003*mm, "80")},
			[]takeoff.Piece{straight("1", 4, 50*mm, 200*mm, 2950*mm), straight("2", 4, 50*mm, 103*mm, 2950*mm)},
			[]string{"2 of wide plank 160.00"},
		},
		{
			// 305 mm leaves 102 beside the 200 and the cut: 103 needs planks of its own,
			// of which 2 x 103 + 3 go across and 2 along: 2 planks and 1.
			"a millimetre less across makes it three",
			[]rates.Stock{plank("wide plank", 52*mm, 305*mm, 6003*mm, "80")},
			[]takeoff.Piece{straight("1", 4, 50*mm, 200*mm, 2950*mm), straight("2", 4, 50*mm, 103*mm, 2950*mm)},
			[]string{"3 of wide plank 240.00"},
		},
		{
			// On edge a baulk of 300 square gives (300+3)/(75+3) = 3 planks of 75 by up to 300.
			"a baulk is sawn into planks on edge",
			[]rates.Stock{{Stock: "baulk", Timber: "oak", Form: rates.Baulk, Thickness: 300 * mm, Width: 300 * mm, Length: 4 * m, Price: price("400"), Unit: measure.Nr}},
			[]takeoff.Piece{straight("1", 6, 75*mm, 290*mm, 4*m)},
			[]string{"2 of baulk 800.00"},
		},
		{
			// The long plank gives three at 50, the short one each at 20: 16.67 against 20.
			// Three long would be 150 for nine; two long and two short are 140 for eight.
			"the last sticks are of a cheaper line",
			[]rates.Stock{plank("long", 52*mm, 150*mm, 6110*mm, "50"), plank("short", 52*mm, 150*mm, 2200*mm, "20")},
			[]takeoff.Piece{straight("1", 8, 50*mm, 140*mm, 2*m)},
			[]string{"2 of long 100.00", "2 of short 40.00"},
		},
		{
			// 9 x 0.014 = 0.126 m3 net, at 80 % yield 0.1575, 0.158 at 560: 88.48 against three planks at 90.
			"timber by the cube is taken where it is cheaper",
			[]rates.Stock{plank("deck plank", 52*mm, 150*mm, 6110*mm, "30"), cube("560", "80")},
			[]takeoff.Piece{straight("1", 9, 50*mm, 140*mm, 2*m)},
			[]string{"0.158 of cube 88.48"},
		},
		{
			// 0.158 at 600 is 94.80.
			"and the plank where that is",
			[]rates.Stock{plank("deck plank", 52*mm, 150*mm, 6110*mm, "30"), cube("600", "80")},
			[]takeoff.Piece{straight("1", 9, 50*mm, 140*mm, 2*m)},
			[]string{"3 of deck plank 90.00"},
		},
		{
			// Two filled planks, and 0.028 / 0.8 = 0.035 m3 for the last two: 81.00 against 90 or 84.
			"and the cube for what would leave a plank half empty",
			[]rates.Stock{plank("deck plank", 52*mm, 150*mm, 6110*mm, "30"), cube("600", "80")},
			[]takeoff.Piece{straight("1", 8, 50*mm, 140*mm, 2*m)},
			[]string{"0.035 of cube 21.00", "2 of deck plank 60.00"},
		},
		{
			// 3 needed / (1 - 0.10) = 3.33, so 4 are bought.
			"loss is a share of what is bought",
			[]rates.Stock{func() rates.Stock {
				s := plank("deck plank", 52*mm, 150*mm, 6110*mm, "30")
				s.Loss = percent("10")
				return s
			}()},
			[]takeoff.Piece{straight("1", 8, 50*mm, 140*mm, 2*m)},
			[]string{"4 of deck plank 120.00"},
		},
		{
			// A flitch 400 over the wane with 40 of sapwood each side and 10 of bark is 300 clear: one of 160
			// across; with sapwood 380: two of 160 and a cut.
			"sapwood comes off a flitch",
			[]rates.Stock{flitch("flitch", 400*mm)},
			[]takeoff.Piece{straight("1", 2, 50*mm, 160*mm, 3*m)},
			[]string{"2 of flitch 140.00"},
		},
		{
			// 2 x 50 + 3 = 103 of 105 through: two layers of two lengths each.
			"a thick plank is resawn",
			[]rates.Stock{plank("thick plank", 105*mm, 150*mm, 4103*mm, "60")},
			[]takeoff.Piece{straight("1", 8, 50*mm, 140*mm, 2*m)},
			[]string{"2 of thick plank 120.00"},
		},
		{
			// 102 through is a millimetre short of the second layer.
			"and not where the cut has no room",
			[]rates.Stock{plank("thick plank", 102*mm, 150*mm, 4103*mm, "60")},
			[]takeoff.Piece{straight("1", 8, 50*mm, 140*mm, 2*m)},
			[]string{"4 of thick plank 240.00"},
		},
		{
			// 60 + 3 + 40 = 103 through; over the 60 of the first row lie two of 70 across, 70 + 3 + 70 = 143.
			"layers are of different thickness, each ripped by itself",
			[]rates.Stock{plank("thick plank", 103*mm, 143*mm, 2100*mm, "60")},
			[]takeoff.Piece{straight("1", 1, 60*mm, 140*mm, 2*m), straight("2", 2, 40*mm, 70*mm, 2*m)},
			[]string{"1 of thick plank 60.00"},
		},
		{
			"unless sapwood is allowed",
			[]rates.Stock{flitch("flitch", 400*mm)},
			[]takeoff.Piece{func() takeoff.Piece {
				p := straight("1", 2, 50*mm, 160*mm, 3*m)
				p.Sapwood = true
				return p
			}()},
			[]string{"1 of flitch 70.00"},
		},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			plan, problems := Cut(oakJob(), book(tt.stock...), pieces(tt.pieces...))
			if len(problems) > 0 {
				t.Fatalf("problems: %v", problems)
			}
			if d := cmp.Diff(tt.want, boughtText(plan.Order)); d != "" {
				t.Error(d)
			}
		})
	}
}

func cube(each, yield string) rates.Stock {
	return rates.Stock{Stock: "cube", Timber: "oak", Form: rates.Cube, Yield: percent(yield), Price: price(each), Unit: measure.M3}
}

func flitch(name string, w measure.Length) rates.Stock {
	return rates.Stock{Stock: name, Timber: "oak", Form: rates.Flitch, Thickness: 55 * mm, Width: w, Length: 3100 * mm,
		Sapwood: 40 * mm, Bark: 10 * mm, EndTrim: 50 * mm, Price: price("70"), Unit: measure.Nr}
}

func TestOwnersTimberServesBoundRowsAlone(t *testing.T) {
	owner := plank("owner's oak", 52*mm, 150*mm, 6110*mm, "30")
	owner.ByOwner = true
	owner.Sawing, owner.SawingUnit = price("1.50"), measure.M // 6.11 m at 1.50 is 9.165, 9.17
	bound := straight("1", 2, 50*mm, 140*mm, 2*m)
	bound.Stock = "Owner's  Oak"
	plan, problems := Cut(oakJob(), book(owner, plank("deck plank", 52*mm, 150*mm, 6110*mm, "30")),
		pieces(bound, straight("2", 1, 50*mm, 140*mm, 2*m)))
	if len(problems) > 0 {
		t.Fatalf("problems: %v", problems)
	}
	// The owner's plank has room for the third piece, but may not give it.
	if d := cmp.Diff([]string{"1 of deck plank 30.00", "1 of owner's oak 9.17"}, boughtText(plan.Order)); d != "" {
		t.Error(d)
	}
	for _, s := range plan.Shares {
		if s.Owner != (s.Ref == "1") {
			t.Errorf("row %s: owner's is %v", s.Ref, s.Owner)
		}
	}
	if got := plan.Order[1].Material; !got.IsZero() {
		t.Errorf("the owner's timber is priced at %s", got)
	}
}

func TestUnboundPiecesFillPlanksBoughtForBoundRows(t *testing.T) {
	bound := straight("1", 2, 50*mm, 140*mm, 2*m)
	bound.Stock = "deck plank"
	plan, _ := Cut(oakJob(), book(plank("deck plank", 52*mm, 150*mm, 6110*mm, "30"), plank("short", 52*mm, 150*mm, 2200*mm, "8")),
		pieces(bound, straight("2", 1, 50*mm, 140*mm, 2*m)))
	if d := cmp.Diff([]string{"1 of deck plank 30.00"}, boughtText(plan.Order)); d != "" {
		t.Error(d)
	}
}

func TestWhatMayBeWantedIsPlannedApart(t *testing.T) {
	few := plank("few", 52*mm, 150*mm, 2200*mm, "20")
	few.Available, few.Limited = 3, true
	risk, option := straight("2", 1, 50*mm, 140*mm, 2*m), straight("3", 2, 50*mm, 140*mm, 2*m)
	risk.Carried, option.Carried = job.AtRisk, job.Option
	provisional := straight("4", 1, 50*mm, 140*mm, 2*m)
	provisional.Carried = job.Provisional
	plan, problems := Cut(oakJob(), book(few), pieces(straight("1", 1, 50*mm, 140*mm, 2*m), risk, option, provisional))
	// The order takes 2 of 3: one is left for the risk, and one, not two, for the option.
	if d := cmp.Diff([]string{"2 of few 40.00"}, boughtText(plan.Order)); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]string{"1 of few 20.00", "1 of few 20.00"}, boughtText(plan.Maybe)); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]problem.Code{problem.StockShort}, codes(problems)); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff([]order.Short{{Ref: "3", At: option.At, Piece: 2, Count: 1}}, plan.Short); d != "" {
		t.Error(d)
	}
}

func TestHeartBoxedLiesAloneInABaulk(t *testing.T) {
	baulk := rates.Stock{Stock: "baulk", Timber: "oak", Form: rates.Baulk, Thickness: 300 * mm, Width: 320 * mm, Length: 4 * m, Price: price("400"), Unit: measure.Nr}
	boxed := straight("1", 2, 150*mm, 150*mm, 4*m)
	boxed.Heart = job.Boxed
	plan, _ := Cut(oakJob(), book(baulk), pieces(boxed))
	if d := cmp.Diff([]string{"2 of baulk 800.00"}, boughtText(plan.Order)); d != "" {
		t.Error(d)
	}
	if got := plan.Order[0].Patterns[0].Cuts[0].Across; got != 85*mm { // (320 - 150) / 2
		t.Errorf("lies at %v", got)
	}
}
