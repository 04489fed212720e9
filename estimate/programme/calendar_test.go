package programme

import (
	"testing"
	"time"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/rates"
)

func on(s string) time.Time {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		panic(err)
	}
	return t
}

// Work begins on Monday 7 December 2026, 39 hours a week; 117 hours of one man
// are three weeks of work, which is twenty-one days of the calendar.
func TestStagesStretchOverClosedDays(t *testing.T) {
	for _, c := range []struct {
		name                                   string
		closures                               [][2]string
		finish, next, working, lastDay         string
		nextFinish, firstFloat, programmeWeeks string
	}{
		// Days 14 to 27: two weeks of work, two closed, one of work.
		{"over a fortnight's closure in its midst", [][2]string{{"2026-12-21", "2027-01-03"}}, "5", "5", "3", "2027-01-10", "6", "0", "6"},
		// Days 17 to 26: seventeen days of work, ten closed, four of work: 31 days are 4.43 weeks.
		{"up to a tenth where the days are no whole weeks", [][2]string{{"2026-12-24", "2027-01-02"}}, "4.5", "4.5", "3", "2027-01-07", "5.5", "0", "5.5"},
		{"over two closures that overlap as over one", [][2]string{{"2026-12-28", "2027-01-03"}, {"2026-12-21", "2026-12-30"}}, "5", "5", "3", "2027-01-10", "6", "0", "6"},
		// Done on day 20, closed from day 21: the next stage waits two weeks.
		{"and none begins while the yard is closed", [][2]string{{"2026-12-28", "2027-01-10"}}, "3", "5", "3", "2026-12-27", "6", "0", "6"},
		{"nor over a closure that was over before", [][2]string{{"2026-11-01", "2026-11-15"}}, "3", "3", "3", "2026-12-27", "4", "0", "4"},
		// Closed to 13 December: begins in week 1.
		{"and begins late where the start is closed", [][2]string{{"2026-12-01", "2026-12-13"}}, "4", "4", "3", "2027-01-03", "5", "0", "5"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := &job.Job{
				Particulars: job.Particulars{HoursAWeek: decimal.New(39, 0), WorkingWeeks: decimal.New(46, 0), Start: on("2026-12-07")},
				Stages: []job.Stage{
					{Stage: "planking"},
					{Stage: "caulking", After: []string{"planking"}, LeastWeeks: decimal.New(1, 0)},
				},
				Gangs: []job.Gang{{Stage: "planking", Trade: "shipwright", Men: decimal.New(1, 0)}},
			}
			for _, k := range c.closures {
				j.Closures = append(j.Closures, job.Closure{From: on(k[0]), To: on(k[1])})
			}
			h := labour.Hours{Lines: []labour.Line{{Ref: "1", Trade: "shipwright", Stage: "planking", Carried: job.Measured, Hours: decimal.New(117, 0)}}}
			p, problems := Lay(j, &rates.Book{}, h)
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			first, second := p.Stages[0], p.Stages[1]
			for _, f := range []struct {
				what string
				got  decimal.Decimal
				want string
			}{
				{"output", p.Output, "39"}, {"finish", first.EarliestFinish, c.finish}, {"working weeks", first.Working, c.working},
				{"kept", first.Trades[0].Kept, "117"}, {"float", first.Float, c.firstFloat},
				{"next start", second.Earliest, c.next}, {"next finish", second.EarliestFinish, c.nextFinish},
				{"programme", p.Weeks, c.programmeWeeks},
			} {
				if !f.got.Equal(decimal.RequireFromString(f.want)) {
					t.Errorf("%s %s; want %s", f.what, f.got, f.want)
				}
			}
			if got := first.Finish.Format("2006-01-02"); got != c.lastDay {
				t.Errorf("last day %s; want %s", got, c.lastDay)
			}
		})
	}
}

// Three closed days and a fortnight of work end with day 16; up to a tenth that
// is 2.5 weeks, which reaches into day 17, when the yard is closed again.
func TestAStageNeverEndsOnAClosedDay(t *testing.T) {
	j := &job.Job{
		Particulars: job.Particulars{HoursAWeek: decimal.New(39, 0), Start: on("2026-12-07")},
		Stages:      []job.Stage{{Stage: "planking", LeastWeeks: decimal.New(2, 0)}},
		Closures: []job.Closure{
			{From: on("2026-12-10"), To: on("2026-12-12")},
			{From: on("2026-12-24"), To: on("2027-01-03")},
		},
	}
	p, _ := Lay(j, &rates.Book{}, labour.Hours{})
	if got := p.Stages[0].Finish.Format("2006-01-02"); got != "2026-12-23" || p.Finish != p.Stages[0].Finish {
		t.Errorf("last day %s, of all %s; want 2026-12-23", got, p.Finish.Format("2006-01-02"))
	}
	if !p.Weeks.Equal(decimal.RequireFromString("2.5")) {
		t.Errorf("weeks %s; want 2.5", p.Weeks)
	}
}

// The yard is closed in weeks 4 and 5. Two weeks of spars begun after week 2 are
// done with week 6, and need not be before week 7, when the hull is: they may begin
// three weeks later, since nothing is done in two of them, and end one week later.
// Their float is the one week that may be lost.
func TestClosedDaysAreNoFloat(t *testing.T) {
	weeks := func(name, least string, after ...string) job.Stage {
		return job.Stage{Stage: name, After: after, LeastWeeks: decimal.RequireFromString(least)}
	}
	j := &job.Job{
		Particulars: job.Particulars{HoursAWeek: decimal.New(39, 0), Start: on("2026-12-07")},
		Stages:      []job.Stage{weeks("strip out", "2"), weeks("hull", "3", "strip out"), weeks("spars", "2", "strip out")},
		Closures:    []job.Closure{{From: on("2026-12-28"), To: on("2027-01-10")}},
	}
	p, problems := Lay(j, &rates.Book{}, labour.Hours{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	spars := p.Stages[2]
	for _, f := range []struct {
		what string
		got  decimal.Decimal
		want string
	}{
		{"earliest", spars.Earliest, "2"}, {"earliest finish", spars.EarliestFinish, "6"},
		{"latest", spars.Latest, "5"}, {"latest finish", spars.LatestFinish, "7"}, {"float", spars.Float, "1"},
	} {
		if !f.got.Equal(decimal.RequireFromString(f.want)) {
			t.Errorf("%s %s; want %s", f.what, f.got, f.want)
		}
	}
}

// closedAt walks the seventieths one by one, as the calendar does not.
func (c calendar) closedAt(n int64) bool {
	for _, s := range c {
		if s.from <= n && n < s.to {
			return true
		}
	}
	return false
}

func (c calendar) walked(start, work int64) int64 {
	at := start * inTenth
	for need := work * inTenth; need > 0; at++ {
		if !c.closedAt(at) {
			need--
		}
	}
	return up(at)
}

func TestTheCalendarAgreesWithWalkingItDayByDay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var c calendar
		from := int64(0)
		for range rapid.IntRange(0, 4).Draw(t, "closures") {
			from += rapid.Int64Range(1, 20).Draw(t, "open days") * inDay
			to := from + rapid.Int64Range(1, 15).Draw(t, "closed days")*inDay
			c = append(c, span{from, to})
			from = to
		}
		start, work := rapid.Int64Range(0, 90).Draw(t, "start"), rapid.Int64Range(0, 60).Draw(t, "work")
		end := c.finish(start, work)
		if want := c.walked(start, work); end != want {
			t.Fatalf("%v: %d from %d ends at %d; walked %d", c, work, start, end, want)
		}
		late := c.begin(end, work)
		if late < start || c.walked(late, work) > end {
			t.Fatalf("%v: %d may end by %d and must begin by %d", c, work, end, late)
		}
		if work > 0 && c.walked(late+1, work) <= end {
			t.Fatalf("%v: %d begun at %d still ends by %d, so %d is not the latest", c, work, late+1, end, late)
		}
		open := c.open(start)
		for k := start; k <= open; k++ {
			if c.closedAt(k*inTenth) == (k == open) {
				t.Fatalf("%v: the first open tenth from %d is said to be %d; at %d that is wrong", c, start, open, k)
			}
		}
	})
}
