package price_test

import (
	"slices"
	"strings"
	"testing"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// laid is shoring from week 0 to 2, planking from 2 to 10.4, caulking from 8.4
// to 12.4.
func laid() programme.Programme {
	stage := func(name, start, finish string) programme.Stage {
		return programme.Stage{Stage: job.Stage{Stage: name}, Earliest: dec(start), EarliestFinish: dec(finish)}
	}
	return programme.Programme{Weeks: dec("12.4"), Stages: []programme.Stage{
		stage("shoring", "0", "2"), stage("planking", "2", "10.4"), stage("caulking", "8.4", "12.4"),
	}}
}

// printed is a line as a test states it: ref, basis, quantity, unit, cost of
// one, rate, amount.
func printed(p price.Preliminary) string {
	return strings.Join([]string{p.Ref, string(p.Basis), p.Quantity.String(), string(p.Unit), p.Cost.String(), p.Rate.String(), p.Amount.String()}, " ")
}

// All preliminaries here bear 10 % and then 5 %.
func TestPreliminariesAreWorkedAsByHand(t *testing.T) {
	h := labour.Hours{Lines: []labour.Line{
		{Ref: "1", Trade: "shipwright", Carried: job.Measured, Hours: dec("100.50")},
		{Ref: "2", Trade: "caulker", Carried: job.Provisional, Hours: dec("33.20")},
		{Ref: "3", Trade: "shipwright", Carried: job.Option, Hours: dec("999")},
	}}
	for _, c := range []struct {
		name string
		row  job.Preliminary
		want []string
	}{
		// 350.00 + 35.00 + 5 % of 385.00 = 19.25 is 404.25, twice.
		// 2 x 120.00 = 240.00 + 24.00 + 13.20 is 277.20 a week, for 12.4 - 2 = 10.4 weeks 2,882.88.
		{"two cranes from planking to caulking, fixed and weekly",
			job.Preliminary{Plant: "Crane", Quantity: dec("2"), FromStage: "Planking", ToStage: "caulking"},
			[]string{"P1a fixed 2 nr 350.00 404.25 808.50", "P1b time-related 10.4 wk 240.00 277.20 2882.88"}},
		{"a sum in the row goes before the plant's",
			job.Preliminary{Plant: "crane", Fixed: quoted("100"), FixedGiven: true, Weekly: quoted("10"), WeeklyGiven: true, ToStage: "shoring"},
			[]string{"P1a fixed 1 item 100.00 115.50 115.50", "P1b time-related 2 wk 10.00 11.55 23.10"}},
		// The plant's 120.00 a week, 12.00, 6.60; its fixed charge is struck out by a nil.
		{"a nil in the row goes before the plant's too",
			job.Preliminary{Plant: "crane", FixedGiven: true, ToStage: "shoring"},
			[]string{"P1 time-related 2 wk 120.00 138.60 277.20"}},
		// 2 x 10 h x 45.00 = 900.00; + 90.00; + 49.50 is 1,039.50 a week, for 2 weeks.
		{"two foremen ten hours a week",
			job.Preliminary{Trade: "foreman", HoursAWeek: dec("10"), Quantity: dec("2"), FromStage: "shoring", ToStage: "shoring"},
			[]string{"P1 supervision 2 wk 900.00 1039.50 2079.00"}},
		// 10 h x 45.00 x 0.2 = 90.00 a day; + 9.00; + 4.95 is 103.95, for 2 x 5 days.
		{"a foreman by the day",
			job.Preliminary{Trade: "foreman", HoursAWeek: dec("10"), FromStage: "shoring", ToStage: "shoring", Charged: job.ByDay},
			[]string{"P1 supervision 10 day 90.00 103.95 1039.50"}},
		{"half of one by the week",
			job.Preliminary{Weekly: quoted("100"), Quantity: dec("0.5"), FromStage: "shoring", ToStage: "shoring"},
			[]string{"P1 time-related 2 wk 50.00 57.75 115.50"}},
		{"a part of one is priced as one item",
			job.Preliminary{Fixed: quoted("33.33"), Quantity: dec("1.5")},
			// 49.995 = 50.00; + 5.00; + 2.75.
			[]string{"P1 fixed 1 item 50.00 57.75 57.75"}},
		{"from the first start to the last finish where no stage is named",
			job.Preliminary{Weekly: quoted("100")},
			[]string{"P1 time-related 12.4 wk 100.00 115.50 1432.20"}},
		{"8.4 weeks by the whole week are 9",
			job.Preliminary{Weekly: quoted("100"), FromStage: "planking", ToStage: "planking", Charged: job.ByWholeWeek},
			[]string{"P1 time-related 9 wk 100.00 115.50 1039.50"}},
		{"8.4 weeks by four weeks are 12",
			job.Preliminary{Weekly: quoted("100"), FromStage: "planking", ToStage: "planking", Charged: job.ByFourWeeks},
			[]string{"P1 time-related 12 wk 100.00 115.50 1386.00"}},
		{"8 weeks by four weeks are 8",
			job.Preliminary{Weekly: quoted("100"), Weeks: dec("8"), WeeksGiven: true, Charged: job.ByFourWeeks},
			[]string{"P1 time-related 8 wk 100.00 115.50 924.00"}},
		// 101.00 / 5 = 20.20; + 2.02; + 1.11 (1.111) is 23.33 a day, for 8.4 x 5 = 42 days.
		{"8.4 weeks by the day are 42",
			job.Preliminary{Weekly: quoted("101"), FromStage: "planking", ToStage: "planking", Charged: job.ByDay},
			[]string{"P1 time-related 42 day 20.20 23.33 979.86"}},
		{"weeks given govern, up to a tenth",
			job.Preliminary{Weekly: quoted("100"), Weeks: dec("3.21"), WeeksGiven: true},
			[]string{"P1 time-related 3.3 wk 100.00 115.50 381.15"}},
		// 10 h x 45.00 = 450.00; + 45.00; + 24.75 is 519.75 a week, for 2 weeks.
		{"a foreman ten hours a week",
			job.Preliminary{Trade: "foreman", HoursAWeek: dec("10"), FromStage: "shoring", ToStage: "shoring"},
			[]string{"P1 supervision 2 wk 450.00 519.75 1039.50"}},
		// 8 % of 100.50 + 33.20 = 133.70 h is 10.696 = 10.70 h; x 45.00 = 481.50; + 48.15; + 26.48 (26.4825).
		{"supervision as a share of all hours in the total",
			job.Preliminary{Trade: "foreman", Share: percent("8"), ShareGiven: true, Of: job.OfHours},
			[]string{"P1 supervision 1 item 481.50 556.13 556.13"}},
		// 2.5 % of A 10,500.00 is 262.50; + 26.25; + 14.44 (14.4375).
		{"a share of the measured work, the option left out",
			job.Preliminary{Share: percent("2.5"), ShareGiven: true, Of: job.OfItems},
			[]string{"P1 percentage of items 1 item 262.50 303.19 303.19"}},
		// Labour: 350.00 + 12 % 42.00 + 8 % of 392.00 = 31.36.
		{"of another kind it bears that kind's additions",
			job.Preliminary{Kind: rates.OfLabour, Fixed: quoted("350")},
			[]string{"P1 fixed 1 item 350.00 423.36 423.36"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard()
			c.row.Ref = "P1"
			j.Preliminaries = []job.Preliminary{c.row}
			rows := []takeoff.Row{
				item(job.Item{Work: job.Work{Ref: "1"}, Quantity: dec("1"), Unit: measure.One, Cost: quoted("10000"), CostKind: rates.OfPlant}),
				item(job.Item{Work: job.Work{Ref: "3", Carried: job.Option}, Quantity: dec("1"), Unit: measure.One, Cost: quoted("700"), CostKind: rates.OfPlant}),
			}
			p, found := price.Price(j, b, takeoff.Takeoff{Rows: rows}, cutting.Plan{}, labour.Hours{Lines: h.Lines[:0]}, laid())
			if c.row.Of == job.OfHours {
				p, found = price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, h, laid())
			}
			if found.HasErrors() {
				t.Errorf("problems: %v", found)
			}
			var got []string
			for _, l := range p.Preliminaries {
				got = append(got, printed(l))
				if l.VAT != "S" || l.Explained == "" {
					t.Errorf("%s bears VAT %q and is explained as %q", l.Ref, l.VAT, l.Explained)
				}
			}
			equal(t, "lines", got, c.want)
		})
	}
}

// What comes to nothing, or gives what no charge reads, is warned of; the rest is not.
func TestAChargeIsNeverSilentlyNilNorACellSilentlyUnread(t *testing.T) {
	for _, c := range []struct {
		name string
		row  job.Preliminary
		want string // the warning, blank where there is none
	}{
		{"no weeks", job.Preliminary{Weekly: quoted("100"), WeeksGiven: true}, `"P1" comes to nothing: 0 wk at 115.50`},
		{"a percentage of nil", job.Preliminary{ShareGiven: true, Of: job.OfItems}, `"P1" comes to nothing: 1 item at 0.00`},
		{"less than half a penny", job.Preliminary{Weekly: quoted("0.004")}, `"P1" comes to nothing: 12.4 wk at 0.00`},
		{"weeks beside a fixed charge", job.Preliminary{Fixed: quoted("165"), Weeks: dec("40"), WeeksGiven: true},
			`"P1" is priced as fixed charge, and what it gives under Weeks is not read`},
		{"when it begins says when a fixed charge is due", job.Preliminary{Fixed: quoted("165"), FromStage: "planking"}, ""},
		{"when it ends says nothing of it", job.Preliminary{Fixed: quoted("165"), ToStage: "planking", Charged: job.ByDay},
			`"P1" is priced as fixed charge, and what it gives under To stage, Charged by is not read`},
		{"a trade without hours", job.Preliminary{Fixed: quoted("165"), Trade: "foreman"}, `"P1" is priced as fixed charge, and what it gives under Trade is not read`},
		{"of what without a percentage", job.Preliminary{Weekly: quoted("165"), Of: job.OfItems}, `"P1" is priced as time-related charge, and what it gives under Of is not read`},
		{"a number beside a percentage", job.Preliminary{Quantity: dec("3"), Share: percent("2"), ShareGiven: true, Of: job.OfItems},
			`"P1" is priced as percentage of items, and what it gives under Quantity is not read`},
		{"weeks beside hours a week", job.Preliminary{Trade: "foreman", HoursAWeek: dec("10"), Weeks: dec("12.4"), WeeksGiven: true, Quantity: dec("2")}, ""},
		{"a week and a percentage", job.Preliminary{Weekly: quoted("100"), ToStage: "caulking", Share: percent("2"), ShareGiven: true, Of: job.OfItems}, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard()
			c.row.Ref = "P1"
			j.Preliminaries = []job.Preliminary{c.row}
			rows := []takeoff.Row{item(job.Item{Work: job.Work{Ref: "1"}, Quantity: dec("1"), Unit: measure.One, Cost: quoted("10000"), CostKind: rates.OfPlant})}
			_, found := price.Price(j, b, takeoff.Takeoff{Rows: rows}, cutting.Plan{}, labour.Hours{}, laid())
			var got []string
			for _, p := range found {
				if p.Code == problem.ChargeFree || p.Code == problem.ChargeUnread {
					got = append(got, p.Text)
				}
			}
			if strings.Join(got, "; ") != c.want {
				t.Errorf("got %q, want %q", got, c.want)
			}
		})
	}
}

func TestASumOfNothingIsWarnedOf(t *testing.T) {
	j, b := yard()
	j.Sums = []job.Sum{{Ref: "S1"}, {Ref: "S2", Amount: quoted("0.01")}, {Ref: "S3", Attendance: quoted("40")}}
	_, found := price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, labour.Hours{}, laid())
	if len(found) != 1 || found[0].Code != problem.ChargeFree || found[0].Text != `"S1" comes to nothing; an Amount is wanted` {
		t.Errorf("problems: %v", found)
	}
}

// A contingency within the rates makes the measured work dearer after the
// preliminaries are reckoned: 2.5 % of 10,500.00 stays 262.50, and says of what.
func TestAShareOfTheMeasuredWorkLeavesOutAContingencyWithinRates(t *testing.T) {
	for shown, want := range map[job.Shown]string{
		job.ClientSum:   "2.5 % of the measured work, 10,500.00",
		job.WithinRates: "2.5 % of the measured work, 10,500.00 before the contingency within its rates",
	} {
		j, b := yard()
		j.ContingencyShown = shown
		j.Preliminaries = []job.Preliminary{{Ref: "P1", Share: percent("2.5"), ShareGiven: true, Of: job.OfItems}}
		row := item(job.Item{Work: job.Work{Ref: "1"}, Quantity: dec("1"), Unit: measure.One, Cost: quoted("10000"), CostKind: rates.OfPlant})
		p, _ := price.Price(j, b, takeoff.Takeoff{Rows: []takeoff.Row{row}}, cutting.Plan{}, labour.Hours{}, laid())
		l := p.Preliminaries[0]
		equal(t, string(shown), []string{l.Cost.String(), l.Explained}, []string{"262.50", want})
	}
}

func TestWeeksGivenAreComparedWithTheProgramme(t *testing.T) {
	j, b := yard()
	j.Preliminaries = []job.Preliminary{{Ref: "P1", Weekly: quoted("100"), FromStage: "shoring", Weeks: dec("12"), WeeksGiven: true, WeeksAt: cell("Preliminaries", 2)}}
	p, found := price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, labour.Hours{}, laid())
	if len(found) != 1 || found[0].Code != problem.WeeksDiffer || found[0].At != cell("Preliminaries", 2) {
		t.Fatalf("problems: %v", found)
	}
	l := p.Preliminaries[0]
	equal(t, "weeks", []string{l.Quantity.String(), l.Programmed.String()}, []string{"12", "12.4"})
	equal(t, "explained", l.Explained, "12 weeks given; the programme makes it 12.4, from the start of shoring to the end of the job")
}

// Time kept: shipwright 10.40 + 2.10 = 12.50 h x 38.50 = 481.25, foreman 3.00 h
// x 45.00 = 135.00; 616.25 + 61.63 (61.625) + 33.89 (33.894) = 711.77.
func TestWaitingTimeIsPricedWhereTheJobAsksForIt(t *testing.T) {
	j, b := yard()
	g := laid()
	g.Stages[0].Trades = []programme.Trade{{Trade: "shipwright", Idle: dec("10.40")}, {Trade: "foreman", Idle: dec("3")}}
	g.Stages[1].Trades = []programme.Trade{{Trade: "shipwright", Idle: dec("2.10")}, {Trade: "foreman", Idle: dec("0")}}

	p, found := price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, labour.Hours{}, g)
	equal(t, "lines where it is not asked", len(p.Preliminaries), 0)
	equal(t, "problems where it is not asked", codes(found), []problem.Code{problem.WaitingTime})

	j.PriceWaiting = true
	j.Preliminaries = []job.Preliminary{{Ref: "Waiting time", Fixed: quoted("1")}}
	p, found = price.Price(j, b, takeoff.Takeoff{}, cutting.Plan{}, labour.Hours{}, g)
	if len(found) > 0 {
		t.Errorf("problems: %v", found)
	}
	i := slices.IndexFunc(p.Preliminaries, func(l price.Preliminary) bool { return l.Basis == price.Waiting })
	if i < 0 {
		t.Fatalf("no line for waiting among %v", p.Preliminaries)
	}
	equal(t, "line", printed(p.Preliminaries[i]), "waiting time* time kept and not priced 1 item 616.25 711.77 711.77")
}
