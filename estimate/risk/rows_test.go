package risk_test

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// ranged is a measured line of one row.
func ranged(ref, amount, least, most string) price.Item {
	i := line(ref, "hull", job.Measured, amount, "0")
	i.Rows[0].Least, i.Rows[0].Most = percent(least), percent(most)
	return i
}

// A row of 1,000.00 between 80 % and 150 % is not above 1,235.43 in four cases
// of five: 1,500 - sqrt(0.2 x 700 x 500).
func TestARowWithARangeHoldsItsPercentileLessItsAmount(t *testing.T) {
	s := hold(drawn("0"), price.Priced{Items: []price.Item{ranged("1", "1000.00", "80", "150")}})
	near(t, "P80", s.P80, 1235.43, 1.5)
	near(t, "mean", s.Mean, 1100, 1.5)
	if s.Base.String() != "1000.00" || !s.Held.Decimal().IsInteger() {
		t.Errorf("on %s is held %s", s.Base, s.Held)
	}
	near(t, "held", s.Held, 236, 2)
	if got := s.Rows[0]; got.Least.String() != "800.00" || got.Most.String() != "1500.00" || got.Mean.String() != "100.00" {
		t.Errorf("the row is %+v", got)
	}
}

func TestWhatIsSureHoldsNothing(t *testing.T) {
	s := hold(drawn("20"), price.Priced{Items: []price.Item{
		ranged("1", "1000.00", "100", "100"), line("2", "hull", job.Option, "500.00", "0"), line("3", "hull", job.RateOnly, "70.00", "0")}})
	if !s.Held.IsZero() || len(s.Rows) != 0 || s.P90.String() != "1000.00" || s.BaseEnough.String() != "100 %" {
		t.Errorf("held %s on %d rows, P90 %s, enough in %s", s.Held, len(s.Rows), s.P90, s.BaseEnough)
	}
}

// Rows that may only come out cheaper hold nothing, not less than nothing.
func TestNothingIsHeldBelowNil(t *testing.T) {
	s := hold(drawn("0"), price.Priced{Items: []price.Item{ranged("1", "1000.00", "50", "100")}})
	if !s.Held.IsZero() || s.Chosen.Cmp(s.Base) > 0 {
		t.Errorf("held %s where %s is chosen", s.Held, s.Chosen)
	}
}

// A risk of 30 % comes about in three draws of ten: P50 is nil of it, P80 all.
func TestARiskComesAboutAtItsChance(t *testing.T) {
	i := line("1", "hull", job.AtRisk, "4000.00", "30")
	i.Rows[0].Least, i.Rows[0].Most = percent("100"), percent("100")
	s := hold(drawn("0"), price.Priced{Items: []price.Item{i}})
	near(t, "mean", s.Mean, 1200, 30)
	if s.Base.String() != "0.00" || s.P50.String() != "0.00" || s.P80.String() != "4000.00" || s.Rows[0].Source != risk.MayBe {
		t.Errorf("base %s, P50 %s, P80 %s, %s", s.Base, s.P50, s.P80, s.Rows[0].Source)
	}
	if got := s.BaseEnough.Decimal().Sub(decimal.New(70, 0)).Abs(); got.GreaterThan(decimal.New(5, -1)) {
		t.Errorf("the base is enough in %s of draws; want 70 %%", s.BaseEnough)
	}
}

// A credit that may come out smaller is dear where it does: all alike, its dear
// end goes with that of the others.
func TestACreditIsDearAtItsLowEnd(t *testing.T) {
	s := hold(drawn("100"), price.Priced{Items: []price.Item{ranged("1", "1000.00", "50", "150"), ranged("2", "-1000.00", "50", "150")}})
	// Both at one place: 1,000 f and -1,000 (2 - f), in all 2,000 (f - 1), from -1,000 to 1,000.
	near(t, "most", s.Most, 1000, 20)
	near(t, "least", s.Least, -1000, 20)
}

// slipway is a job of two stages with a week each: 80 h of two men at 40 hours
// a week, and rent by the week of 100.00 over both, of 50.00 by the whole week
// over the first.
func slipway(risks ...job.Risk) (*job.Job, labour.Hours, price.Priced) {
	j := drawn("0", risks...)
	j.HoursAWeek = decimal.New(40, 0)
	j.Sections = []job.Section{{Section: "hull", Stage: "Planking"}, {Section: "all"}}
	j.Stages = []job.Stage{{Stage: "Planking"}, {Stage: "Painting", After: []string{"Planking"}}}
	j.Gangs = []job.Gang{{Stage: "Planking", Trade: "shipwright", Men: decimal.New(2, 0)}, {Stage: "Painting", Trade: "painter", Men: decimal.New(1, 0)}}
	h := labour.Hours{Lines: []labour.Line{
		{Ref: "1", Trade: "shipwright", Stage: "Planking", Carried: job.Measured, Hours: decimal.New(80, 0)},
		{Ref: "2", Trade: "painter", Stage: "Painting", Carried: job.Measured, Hours: decimal.New(40, 0)},
	}}
	rent := func(ref, to string, by job.Charged, weeks, rate string) price.Preliminary {
		return price.Preliminary{
			Ref: ref, Row: job.Preliminary{Ref: ref, Description: "rent", ToStage: to, Charged: by}, Basis: price.Timed, Unit: measure.Weeks,
			Quantity: decimal.RequireFromString(weeks), Programmed: decimal.RequireFromString(weeks),
			Rate: money.MustAmount(rate), Amount: money.MustAmount(rate).Times(decimal.RequireFromString(weeks)),
		}
	}
	p := price.Priced{
		Items:         []price.Item{ranged("1", "0.00", "100", "100"), ranged("2", "0.00", "100", "100")},
		Preliminaries: []price.Preliminary{rent("P1", "", job.ByWeek, "2", "100.00"), rent("P2", "Planking", job.ByWholeWeek, "1", "50.00")},
	}
	return j, h, p
}

func lay(j *job.Job, h labour.Hours, p price.Priced) risk.Simulation {
	return *risk.Hold(j, &rates.Book{}, h, programme.Programme{}, p).Simulation
}

// With twice the hours the first stage takes two weeks for one: 100.00 and
// 50.00 more. The range runs from 100 % to 200 %, so the most drawn is just under,
// by the tenth 1.9 or 2.0 weeks, and by the whole week 2.
func TestMoreHoursRunIntoTheChargesOfTime(t *testing.T) {
	j, h, p := slipway()
	p.Items[0].Rows[0].Most = percent("200")
	s := lay(j, h, p)
	if got := s.Most.String(); got != "400.00" {
		t.Errorf("at the most %s; want 250.00 priced and 150.00 more", got)
	}
	if s.Weeks == nil || s.Weeks.Priced.String() != "2" || !s.Weeks.P80.GreaterThan(s.Weeks.P10) {
		t.Errorf("weeks %+v", s.Weeks)
	}
	// The mean factor is (1 + 1 + 2) / 3, so a third of 80 h more.
	if got := s.Hours.String(); got != "26.67" {
		t.Errorf("%s h more on the average; want 26.67", got)
	}
	for _, d := range s.Drivers {
		if d.Source == risk.Longer && d.Bears.Sign() <= 0 {
			t.Errorf("%s bears %s", d.Ref, d.Bears)
		}
	}
	if len(s.Drivers) != 2 {
		t.Errorf("drivers %+v; want both rents", s.Drivers)
	}
}

// Two extra weeks of a risk in Planking lengthen both charges, 200.00 and
// 100.00; those of one in no stage only the charge that runs to the end.
func TestExtraWeeksLengthenTheChargesOfTheirTime(t *testing.T) {
	for section, want := range map[string]string{"hull": "550.00", "all": "450.00", "": "450.00"} {
		t.Run(fmt.Sprintf("section %q", section), func(t *testing.T) {
			r := sure("R", 0, 0, 0)
			r.Section, r.ExtraWeeks = section, decimal.New(2, 0)
			s := lay(slipway(r))
			if got := s.Mean.String(); got != want {
				t.Errorf("in all %s; want %s", got, want)
			}
			if s.Weeks.P50.String() != "4" {
				t.Errorf("%s weeks; want 4", s.Weeks.P50)
			}
		})
	}
}

// Where Weeks are given and there is no programme, extra weeks run on from them
// in the step of the charge: 3 weeks by four weeks are 4, two more are 8.
func TestExtraWeeksRunOnFromWeeksGiven(t *testing.T) {
	r := sure("R", 0, 0, 0)
	r.ExtraWeeks = decimal.New(2, 0)
	j := drawn("0", r)
	l := price.Preliminary{
		Ref: "P1", Row: job.Preliminary{Ref: "P1", Weeks: decimal.New(3, 0), WeeksGiven: true, Charged: job.ByFourWeeks}, Basis: price.Timed,
		Unit: measure.Weeks, Quantity: decimal.New(4, 0), Rate: money.MustAmount("10.00"), Amount: money.MustAmount("40.00"),
	}
	s := lay(j, labour.Hours{}, price.Priced{Preliminaries: []price.Preliminary{l}})
	if s.Held.String() != "40.00" || s.Weeks != nil {
		t.Errorf("held %s, weeks %v; want 40.00 and none", s.Held, s.Weeks)
	}
}

// The rows of one bill item are drawn apart, each on its share of the amount by
// what it costs: 300 and 100 of 440.00 are 330.00 and 110.00.
func TestRowsOfOneBillItemAreDrawnApart(t *testing.T) {
	i := ranged("A", "440.00", "100", "200")
	i.Rows = append(i.Rows, i.Rows[0])
	i.Rows[0].Ref, i.Rows[1].Ref = "1", "2"
	i.Costs = []price.Cost{{Ref: "1", Kind: rates.OfLabour, Cost: money.MustAmount("300.00")}, {Ref: "2", Kind: rates.OfLabour, Cost: money.MustAmount("100.00")}}
	s := hold(drawn("0"), price.Priced{Items: []price.Item{i}})
	if len(s.Rows) != 2 || s.Rows[0].Priced.String() != "330.00" || s.Rows[1].Priced.String() != "110.00" {
		t.Errorf("rows %+v", s.Rows)
	}
}

// A hundred and fifty rows, a third of them at risk, with hours and a programme.
func BenchmarkSimulation(b *testing.B) {
	j, h, p := slipway()
	j.Together = percent("20")
	p.Items = nil
	for n := range 150 {
		ref := fmt.Sprintf("1.%d", n)
		i := ranged(ref, "1200.00", "80", "160")
		if n%3 == 0 {
			i.Carried, i.Rows[0].Chance = job.AtRisk, percent("30")
		}
		p.Items = append(p.Items, i)
		h.Lines = append(h.Lines, labour.Line{Ref: ref, Trade: "shipwright", Stage: "Planking", Carried: i.Carried, Hours: decimal.New(12, 0)})
	}
	for b.Loop() {
		lay(j, h, p)
	}
}
