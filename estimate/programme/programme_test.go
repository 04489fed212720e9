package programme_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/programme"
	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

func n(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func cell(sheet string, row, col int) origin.Cell {
	return origin.Cell{Sheet: sheet, Row: row, Col: col}
}

func date(s string) time.Time {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		panic(err)
	}
	return t
}

// stage is a row of Stages; its cells are told apart by the row given.
func stage(row int, name, least, lag string, after ...string) job.Stage {
	return job.Stage{
		At: cell("Stages", row, 1), Stage: name, After: after, AfterAt: cell("Stages", row, 2),
		Lag: n(lag), LeastWeeks: n(least), LeastAt: cell("Stages", row, 4),
	}
}

func gang(row int, stage, trade, men string) job.Gang {
	return job.Gang{At: cell("Gangs", row, 1), Stage: stage, Trade: trade, Men: n(men)}
}

func line(ref, trade, stage, hours string) labour.Line {
	return labour.Line{Ref: ref, Trade: trade, Stage: stage, Carried: job.Measured, Hours: n(hours)}
}

// yard is a week of 39 hours over 46 weeks a year: 34.50 hours a week.
func yard(stages ...job.Stage) *job.Job {
	return &job.Job{
		Particulars: job.Particulars{HoursAWeek: n("39"), WorkingWeeks: n("46"), TenderDate: date("2026-05-01")},
		Stages:      stages,
	}
}

func book() *rates.Book {
	return &rates.Book{Labour: []rates.Labour{
		{At: cell("Labour", 2, 1), Trade: "shipwright", Men: n("5"), MenGiven: true},
		{At: cell("Labour", 3, 1), Trade: "caulker"},
	}}
}

func same(t *testing.T, what string, got decimal.Decimal, want string) {
	t.Helper()
	if !got.Equal(n(want)) {
		t.Errorf("%s %s; want %s", what, got, want)
	}
}

func TestAStageLastsAsLongAsItsSlowestTrade(t *testing.T) {
	j := yard(stage(2, "planking", "0", "0"))
	j.Gangs = []job.Gang{gang(2, "planking", "caulker", "1"), gang(3, "Planking", "shipwright", "1"), gang(4, "planking", "shipwright", "1")}
	option := line("4.3", "shipwright", "planking", "500")
	option.Carried = job.Option
	h := labour.Hours{Lines: []labour.Line{
		line("4.1", "shipwright", "planking", "200"), line("4.2", "Shipwright", "planking", "40"),
		line("4.2", "caulker", "planking", "100"), option,
	}}
	p, problems := programme.Lay(j, book(), h)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	// 39 x 46 / 52 = 34.5; 240 / (2 x 34.5) = 3.478..., 100 / 34.5 = 2.898...
	same(t, "output", p.Output, "34.5")
	s := p.Stages[0]
	same(t, "weeks", s.Weeks, "3.5")
	same(t, "programme", p.Weeks, "3.5")
	if s.Governs != "shipwright" {
		t.Errorf("%q governs; want shipwright", s.Governs)
	}
	if len(s.Trades) != 2 || s.Trades[0].Trade != "shipwright" || s.Trades[1].Trade != "caulker" {
		t.Fatalf("trades %v; want shipwright, caulker", s.Trades)
	}
	w, c := s.Trades[0], s.Trades[1]
	same(t, "shipwright hours", w.Hours, "240")
	same(t, "shipwright men", w.Men, "2")
	same(t, "shipwright weeks", w.Weeks, "3.478")
	same(t, "shipwright kept", w.Kept, "241.5") // 2 x 3.5 x 34.5
	same(t, "shipwright idle", w.Idle, "1.5")
	same(t, "caulker weeks", c.Weeks, "2.899")
	same(t, "caulker kept", c.Kept, "120.75") // 3.5 x 34.5
	same(t, "caulker idle", c.Idle, "20.75")
}

func TestLeastWeeksHoldAStageOpen(t *testing.T) {
	for _, c := range []struct{ name, least, hours, weeks, governs string }{
		{"least weeks over the work", "4.25", "69", "4.3", ""},
		{"work over least weeks", "1", "69", "2", "shipwright"},
		{"work just over a tenth", "0", "69.01", "2.1", "shipwright"},
		{"least weeks as long as the work", "2", "69", "2", "shipwright"},
		{"a stage without hours or least weeks", "0", "0", "0", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			j := yard(stage(2, "planking", c.least, "0"))
			j.Gangs = []job.Gang{gang(2, "planking", "shipwright", "1")}
			p, _ := programme.Lay(j, book(), labour.Hours{Lines: []labour.Line{line("4.1", "shipwright", "planking", c.hours)}})
			same(t, "weeks", p.Stages[0].Weeks, c.weeks)
			if p.Stages[0].Governs != c.governs {
				t.Errorf("%q governs; want %q", p.Stages[0].Governs, c.governs)
			}
		})
	}
}

func TestLagsAndOverlaps(t *testing.T) {
	p, problems := programme.Lay(yard(
		stage(2, "docking", "1", "0.5"),
		stage(3, "planking", "6", "0", "docking"),
		stage(4, "caulking", "3", "-2", "planking"),
		stage(5, "painting", "2", "1", "caulking", "planking"),
		stage(6, "masts", "4", "0", "docking"),
	), book(), labour.Hours{})
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	// docking 0.5-1.5; planking 1.5-7.5; caulking 7.5-2 = 5.5-8.5; painting 8.5+1 = 9.5-11.5; masts 1.5-5.5.
	for i, w := range []struct{ start, finish, latest, float string }{
		{"0.5", "1.5", "0.5", "0"}, {"1.5", "7.5", "1.5", "0"}, {"5.5", "8.5", "5.5", "0"}, {"9.5", "11.5", "9.5", "0"}, {"1.5", "5.5", "7.5", "6"},
	} {
		s := p.Stages[i]
		same(t, s.Stage.Stage+" start", s.Earliest, w.start)
		same(t, s.Stage.Stage+" finish", s.EarliestFinish, w.finish)
		same(t, s.Stage.Stage+" latest", s.Latest, w.latest)
		same(t, s.Stage.Stage+" float", s.Float, w.float)
	}
	var path []string
	for _, s := range p.CriticalPath() {
		path = append(path, s.Stage.Stage)
	}
	if diff := cmp.Diff([]string{"docking", "planking", "caulking", "painting"}, path); diff != "" {
		t.Errorf("critical path (-want +got):\n%s", diff)
	}
	for _, c := range []struct{ from, to, weeks string }{
		{"", "", "11"}, {"planking", "caulking", "7"}, {"", "docking", "1"}, {"MASTS", "", "10"}, {"painting", "docking", "-8"},
	} {
		got, ok := p.Span(c.from, c.to)
		if !ok {
			t.Fatalf("no span from %q to %q", c.from, c.to)
		}
		same(t, fmt.Sprintf("span from %q to %q", c.from, c.to), got, c.weeks)
	}
	if _, ok := p.Span("no such stage", ""); ok {
		t.Error("a span from a stage that is not there")
	}
	if _, ok := (programme.Programme{}).Span("", ""); ok {
		t.Error("a span without a programme")
	}
}

func TestDatesRunFromTheStartOnSite(t *testing.T) {
	j := yard(stage(2, "docking", "1", "0"), stage(3, "planking", "1.3", "0", "docking"))
	j.Start = date("2026-06-01")
	p, _ := programme.Lay(j, book(), labour.Hours{})
	// Docking fills the seven days to 7 June; 2.3 weeks are 16.1 days, the last of them the 17th.
	for i, want := range [][2]string{{"2026-06-01", "2026-06-07"}, {"2026-06-08", "2026-06-17"}} {
		s := p.Stages[i]
		if got := [2]string{s.Start.Format("2006-01-02"), s.Finish.Format("2006-01-02")}; got != want {
			t.Errorf("%s from %s to %s; want %s to %s", s.Stage.Stage, got[0], got[1], want[0], want[1])
		}
	}
	if got := p.Finish.Format("2006-01-02"); got != "2026-06-17" {
		t.Errorf("finish %s; want 2026-06-17", got)
	}
	j.Start = time.Time{}
	if p, _ := programme.Lay(j, book(), labour.Hours{}); !p.Finish.IsZero() || !p.Stages[0].Start.IsZero() {
		t.Error("dates without a start on site")
	}
}

func TestAnEmptyStagesSheetIsNoProgramme(t *testing.T) {
	p, problems := programme.Lay(yard(), book(), labour.Hours{Lines: []labour.Line{line("4.1", "shipwright", "", "10")}})
	if len(problems) > 0 || len(p.Stages) > 0 || !p.Weeks.IsZero() {
		t.Errorf("programme %v, problems %v; want neither", p, problems)
	}
}

func TestProblemsOfTheProgramme(t *testing.T) {
	type found struct {
		Code problem.Code
		At   origin.Cell
	}
	two := func() *job.Job {
		j := yard(stage(2, "planking", "6", "0"), stage(3, "caulking", "3", "0", "planking"))
		j.Gangs = []job.Gang{gang(2, "planking", "shipwright", "4")}
		j.Sections = []job.Section{{Section: "4"}}
		j.Members = []job.Member{{Work: job.Work{At: cell("Members", 2, 1), Ref: "4.1", Section: "4", StageAt: cell("Members", 2, 20)}}}
		return j
	}
	work := labour.Hours{Lines: []labour.Line{line("4.1", "shipwright", "planking", "600")}}
	for _, c := range []struct {
		name string
		set  func(j *job.Job, h *labour.Hours)
		want []found
	}{
		{"nothing amiss", func(*job.Job, *labour.Hours) {}, nil},
		{"nothing of a predecessor that is not there, which is found in reading", func(j *job.Job, _ *labour.Hours) { j.Stages[1].After = []string{"plankin"} }, nil},
		{"stages in a circle", func(j *job.Job, _ *labour.Hours) { j.Stages[0].After = []string{"caulking"} }, []found{{problem.StagesInCircle, cell("Stages", 3, 2)}}},
		{"a stage after itself", func(j *job.Job, _ *labour.Hours) { j.Stages[0].After = []string{"planking"} }, []found{{problem.StagesInCircle, cell("Stages", 2, 2)}}},
		{"an overlap longer than what it overlaps", func(j *job.Job, _ *labour.Hours) {
			j.Stages[0].Lag, j.Stages[1].Lag = n("9"), n("-6.1")
		}, []found{{problem.OverlapTooLong, cell("Stages", 3, 2)}}},
		{"an overlap with nothing", func(j *job.Job, _ *labour.Hours) { j.Stages[0].Lag = n("-1") }, []found{{problem.LagWithoutPrecursor, cell("Stages", 2, 1)}}},
		{"no hours in a week", func(j *job.Job, _ *labour.Hours) { j.HoursAWeek = n("0") }, []found{{problem.NoWorkingHours, origin.Cell{Sheet: "Job"}}}},
		{"closures without a start", func(j *job.Job, _ *labour.Hours) {
			j.Closures = []job.Closure{{At: cell("Closures", 2, 1), From: date("2026-12-24"), To: date("2027-01-03")}}
		}, []found{{problem.ClosuresNeedStart, cell("Closures", 2, 1)}}},
		{"hours with nobody to do them", func(_ *job.Job, h *labour.Hours) {
			h.Lines = append(h.Lines, line("4.2", "caulker", "planking", "10"))
		}, []found{{problem.NobodyToDoIt, cell("Stages", 2, 1)}}},
		{"a stage of a thousand years", func(j *job.Job, _ *labour.Hours) { j.Stages[0].LeastWeeks = n("52000") }, []found{{problem.StageTooLong, cell("Stages", 2, 1)}}},
		{"more work than a hundred years hold", func(_ *job.Job, h *labour.Hours) { h.Lines[0].Hours = n("1e12") }, []found{{problem.StageTooLong, cell("Stages", 2, 1)}}},
		{"more men at once than the yard has", func(j *job.Job, h *labour.Hours) {
			j.Stages = append(j.Stages, stage(4, "deck", "2", "0"))
			j.Gangs = append(j.Gangs, gang(3, "deck", "shipwright", "2"))
			h.Lines = append(h.Lines, line("5.1", "shipwright", "deck", "10"))
		}, []found{{problem.MoreMenThanYard, cell("Gangs", 3, 1)}}},
		{"no more men than the yard has where one stage follows the other", func(j *job.Job, h *labour.Hours) {
			j.Gangs = append(j.Gangs, gang(3, "caulking", "shipwright", "2"))
			h.Lines = append(h.Lines, line("5.1", "shipwright", "caulking", "10"))
		}, nil},
		{"a gang with nothing to do", func(j *job.Job, _ *labour.Hours) {
			j.Gangs = append(j.Gangs, gang(3, "caulking", "caulker", "1"))
		}, []found{{problem.GangWithoutWork, cell("Gangs", 3, 1)}}},
		{"hours in no stage", func(_ *job.Job, h *labour.Hours) {
			h.Lines = append(h.Lines, line("4.1", "caulker", "", "10"))
		}, []found{{problem.HoursOutsideStages, cell("Members", 2, 20)}}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, h := two(), labour.Hours{Lines: append([]labour.Line{}, work.Lines...)}
			c.set(j, &h)
			p, problems := programme.Lay(j, book(), h)
			var got []found
			for _, p := range problems {
				got = append(got, found{p.Code, p.At})
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("problems (-want +got):\n%s\n%v", diff, problems)
			}
			if len(p.Stages) != len(j.Stages) {
				t.Errorf("%d stages are laid out; want all %d", len(p.Stages), len(j.Stages))
			}
		})
	}
}

func TestTheCircleIsNamed(t *testing.T) {
	j := yard(stage(2, "a", "1", "0", "c"), stage(3, "b", "1", "0", "a"), stage(4, "c", "1", "0", "b"))
	_, problems := programme.Lay(j, book(), labour.Hours{})
	want := `Stages!B3: error: "b" comes after "a", which in the end comes after "b"; stages in a line are wanted [stages-in-a-circle]`
	if len(problems) != 1 || problems[0].String() != want {
		t.Errorf("problems %v; want %s", problems, want)
	}
}
