package quotes

import (
	"testing"

	"futtock/estimate/bill"
	"futtock/rates/money"
)

// At 5 % a year a week is worth 1.05^(-1/52) = 0.99906217 of itself.
func TestPaymentsAreDiscountedWeekByWeek(t *testing.T) {
	stages := []Stage{{"Hauling", num("0"), num("2")}, {"Planking", num("2"), num("6")}, {"Painting", num("5.5"), num("52")}, {"Launch", num("52"), num("52")}}
	for _, c := range []struct {
		name, stage, discount, sum string
		worth, middle              string
	}{
		// 5,200 x (0.99906217 + 0.99812522) / 2.
		{"two weeks", "hauling", "5", "5200", "5192.69", "1"},
		// Weeks 3 to 6: 0.99718916, 0.99625396, 0.99531965, 0.99438621; mean 0.99578724.
		{"four weeks further on", "Planking", "5", "5200", "5178.09", "4"},
		{"nothing discounted", "planking", "0", "5200", "5200.00", "4"},
		// From 0 to week 6: mean of the six, (2 x 0.99859370 + 4 x 0.99578724) / 6 = 0.99672273.
		{"between two stages", "hauling to planking", "5", "5200", "5182.96", "3"},
		{"up to a stage", "to planking", "5", "5200", "5182.96", "3"},
		// A tenth of week 53 at 1.05^(-53/52) = 0.95148778, from week 52 to 52.1.
		{"a stage that takes no time", "launch", "5", "5200", "4947.74", "52.1"},
		{"from a stage to the end", "from launch", "5", "5200", "4947.74", "52.1"},
		// A year and a tenth of a week: 521 tenths.
		{"no stage, the whole programme", "", "0", "5200", "5200.00", "26.1"},
		{"a stage nobody knows, too", "elsewhere to nowhere", "0", "5200", "5200.00", "26.1"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := Sent{Stages: stages, Lines: []Line{line(Preliminaries, "P/1", "", c.stage, "1", "", "100")}, Priced: true}
			terms := Usual()
			terms.Discount = points(c.discount)
			o := mustCompare(t, s, priced(s, cell(Answered, c.sum, "")), terms).Offers[0]
			if o.Worth.String() != c.worth || o.Middle.Weeks.String() != c.middle || !o.Middle.Known || o.RankWorth != 1 {
				t.Errorf("worth %s, middle week %s, want %s and %s", o.Worth, o.Middle.Weeks, c.worth, c.middle)
			}
		})
	}
}

// A has 900.00 in weeks 0 to 2 and 100.00 in weeks 2 to 6; B the other way
// round. Half of A is paid at 2 x 500 / 900 = 1.1 weeks, of B at 2 + 4 x 400 / 900 = 3.8.
func TestAnOfferLoadedTowardsTheFrontShowsByItsWorthAndItsMiddle(t *testing.T) {
	s := refit()
	s.HasHeld, s.Lines = false, s.Lines[:2]
	all := []checked{
		examined(s, Quote{Firm: "A", Tax: bill.LeftOut}, cell(Answered, "900", "90"), cell(Answered, "100", "5")),
		examined(s, Quote{Firm: "B", Tax: bill.LeftOut}, cell(Answered, "100", "10"), cell(Answered, "900", "45")),
	}
	c := mustCompare(t, s, all, Usual())
	a, b := c.Offers[0], c.Offers[1]
	if a.Middle.Weeks.String() != "1.1" || b.Middle.Weeks.String() != "3.8" {
		t.Errorf("half is paid by weeks %s and %s", a.Middle.Weeks, b.Middle.Weeks)
	}
	// 900 x 0.99859370 + 100 x 0.99578724, and the other way round.
	if a.Worth.String() != "998.31" || b.Worth.String() != "996.07" {
		t.Errorf("worth %s and %s", a.Worth, b.Worth)
	}
	if a.RankAfter != 1 || b.RankAfter != 1 || a.RankWorth != 2 || b.RankWorth != 1 {
		t.Errorf("ranks %d and %d, by worth %d and %d", a.RankAfter, b.RankAfter, a.RankWorth, b.RankWorth)
	}
}

func TestASumForASectionIsPaidOverTheStagesOfItsLines(t *testing.T) {
	s := refit()
	s.HasHeld, s.Lines = false, s.Lines[:2]
	a := examined(s, Quote{Firm: "A", Lump: true, Tax: bill.LeftOut}, cell(WithinLump, "", ""), cell(WithinLump, "", "")).
		with(map[string]money.Amount{"P": amount("5200")})
	if o := mustCompare(t, s, []checked{a}, Usual()).Offers[0]; o.Worth.String() != "5178.09" {
		t.Errorf("worth %s", o.Worth)
	}
}

func TestWithoutAProgrammeNothingIsDiscounted(t *testing.T) {
	s := one("50", "500")
	o := mustCompare(t, s, priced(s, cell(Answered, "500", "50")), Usual()).Offers[0]
	if !o.Worth.IsZero() || o.Middle.Known || o.RankWorth != 0 {
		t.Errorf("worth %s, middle %v, rank %d", o.Worth, o.Middle, o.RankWorth)
	}
}

func TestCreditsDoNotHideTheWeekByWhichHalfIsPaid(t *testing.T) {
	s := refit()
	s.HasHeld, s.Lines = false, s.Lines[:2]
	all := []checked{examined(s, Quote{Firm: "A", Tax: bill.LeftOut}, cell(Answered, "-100", "-10"), cell(Answered, "300", "15")),
		examined(s, Quote{Firm: "B", Tax: bill.LeftOut}, cell(Answered, "-100", "-10"), cell(Answered, "100", "5"))}
	c := mustCompare(t, s, all, Usual())
	// From -100 at week 2 to 200 at week 6: 100 at 2 + 4 x 200 / 300.
	if m := c.Offers[0].Middle; m.Weeks.String() != "4.7" {
		t.Errorf("half is paid by week %s", m.Weeks)
	}
	if m := c.Offers[1].Middle; m.Known {
		t.Errorf("half of nothing is paid by week %s", m.Weeks)
	}
}
