package cutting

import (
	"strings"
	"testing"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// A piece that cannot be got is told of at the cell that keeps it from being
// got, with what was wanted and the nearest there is.
func TestWhatCannotBeGotIsToldOf(t *testing.T) {
	deck := plank("deck plank", 52*mm, 150*mm, 6110*mm, "30")
	few := deck
	few.Available, few.Limited = 2, true
	later := deck
	later.From = oakJob().TenderDate.AddDate(0, 0, 1)
	byFoot := deck
	byFoot.Unit = measure.HFt
	trimmed := deck
	trimmed.EndTrim = 4 * m
	lossy := deck
	lossy.Loss = percent("100")
	noYield := cube("600", "0")
	boxed := straight("1", 1, 50*mm, 140*mm, 2*m)
	boxed.Heart = job.Boxed
	bound := straight("1", 1, 50*mm, 140*mm, 2*m)
	bound.Stock = "deck plank"
	larch := straight("1", 1, 50*mm, 140*mm, 2*m)
	larch.Timber = "larch"
	log := rates.Stock{Stock: "log", Timber: "oak", Form: rates.Log, TopDiameter: 430 * mm, Length: 5 * m, Price: price("150"), Unit: measure.Nr}
	// Over 2.0 m the crook has a sweep of 0.146, and is 150 mm wide.
	crook := rates.Stock{Stock: "crook", Timber: "oak", Form: rates.Crook, Thickness: 160 * mm, Width: 150 * mm, Length: 2600 * mm,
		Sweep: 250 * mm, Price: price("95"), Unit: measure.Nr}
	c := takeoff.Curve{Chord: 2000 * mm, Sweep: 146 * mm}
	curve := straight("1", 1, 75*mm, 160*mm, c.LengthGot(160*mm))
	curve.Curve = &c
	curvedLarch := curve
	curvedLarch.Timber = "larch"
	row := func(col int) origin.Cell { return cell("Members", 3).In(col) }
	tests := []struct {
		name  string
		stock rates.Stock
		piece takeoff.Piece
		code  problem.Code
		at    origin.Cell
		says  []string
	}{
		{"too thick", deck, straight("1", 1, 60*mm, 140*mm, 2*m), problem.StockTooSmall, row(8), []string{"60 mm x 140 mm x 2.00 m of \"oak\"", "\"deck plank\" with 52 mm x 150 mm x 6.01 m usable"}},
		{"too wide", deck, straight("1", 1, 50*mm, 160*mm, 2*m), problem.StockTooSmall, row(9), []string{"1 piece"}},
		{"too long", deck, straight("1", 3, 50*mm, 140*mm, 6011*mm), problem.StockTooSmall, row(7), []string{"3 pieces", "6.011 m"}},
		{"too thick for a log", log, straight("1", 1, 400*mm, 400*mm, 2*m), problem.StockTooSmall, row(8), []string{"\"log\" with 430 mm clear at the top x 5.00 m"}},
		{"too wide for a crook", crook, curve, problem.StockTooSmall, row(9), []string{"\"crook\" with 160 mm x 150 mm x 2.60 m usable and a sweep of 250 mm"}},
		{"a curve of another timber", crook, curvedLarch, problem.StockNone, row(14), []string{"a plank, baulk, flitch, crook or cube"}},
		{"too few", few, straight("1", 9, 50*mm, 140*mm, 2*m), problem.StockShort, row(14), []string{"3 pieces", "2 sticks of \"deck plank\""}},
		{"of another timber", deck, larch, problem.StockNone, row(14), []string{"\"larch\""}},
		{"not yet to be had", later, straight("1", 1, 50*mm, 140*mm, 2*m), problem.StockNone, row(14), []string{"in force"}},
		{"not yet to be had though bound", later, bound, problem.StockNone, row(15), []string{"\"deck plank\""}},
		{"no heart in a plank", deck, boxed, problem.HeartNotHad, row(14), []string{"boxed", "a baulk, log or cube"}},
		{"sold by a measure of round timber", byFoot, straight("1", 1, 50*mm, 140*mm, 2*m), problem.StockUnusable, cell("Stock", 2).In(20), []string{"round timber"}},
		{"trimmed to nothing", trimmed, bound, problem.StockUnusable, cell("Stock", 2).In(20), []string{"nothing is left"}},
		{"lost altogether", lossy, bound, problem.StockUnusable, cell("Stock", 2).In(20), []string{"100 %"}},
		{"a cube without a yield", noYield, straight("1", 1, 50*mm, 140*mm, 2*m), problem.StockUnusable, cell("Stock", 2).In(20), []string{"Yield"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			j := oakJob()
			j.Members = []job.Member{{Work: job.Work{Ref: "1"}, SidedAt: row(8), MouldedAt: row(9)}}
			plan, problems := Cut(j, book(tt.stock), pieces(tt.piece))
			if len(problems) != 1 || problems[0].Code != tt.code || problems[0].At != tt.at {
				t.Fatalf("problems %v, wanted %s at %v", problems, tt.code, tt.at)
			}
			for _, s := range tt.says {
				if !strings.Contains(problems[0].Text, s) {
					t.Errorf("%q does not say %q", problems[0].Text, s)
				}
			}
			if len(plan.Short) != 1 {
				t.Errorf("short %v", plan.Short)
			}
		})
	}
}

// A timber that no row of the Timber sheet names was told of when the sheets
// were checked, and is not told of again.
func TestAMisspelledTimberIsToldOfOnce(t *testing.T) {
	oka := straight("1", 1, 50*mm, 140*mm, 2*m)
	oka.Timber = "oka"
	plan, problems := Cut(oakJob(), book(plank("deck plank", 52*mm, 150*mm, 6110*mm, "30")), pieces(oka))
	if len(problems) != 0 || len(plan.Short) != 1 {
		t.Errorf("problems %v, short %v", problems, plan.Short)
	}
}

// A fault of a stock line is told once, and other lines serve.
func TestAnotherLineServesWhereOneCannotBeReckonedWith(t *testing.T) {
	bad := plank("bad", 52*mm, 150*mm, 6110*mm, "1")
	bad.Unit = measure.HFt
	plan, problems := Cut(oakJob(), book(bad, plank("good", 52*mm, 150*mm, 6110*mm, "30")),
		pieces(straight("1", 1, 50*mm, 140*mm, 2*m), straight("2", 1, 50*mm, 140*mm, 2*m)))
	if len(problems) != 1 || problems[0].Code != problem.StockUnusable {
		t.Errorf("problems %v", problems)
	}
	if len(plan.Order) != 1 || plan.Order[0].Stock.Stock != "good" {
		t.Errorf("bought %v", boughtText(plan.Order))
	}
}
