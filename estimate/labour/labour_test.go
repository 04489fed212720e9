package labour_test

import (
	"fmt"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

func n(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func work(ref, buildUp string) job.Work {
	return job.Work{
		Ref: ref, Section: "3", BuildUp: buildUp, Difficulty: n("1"), Access: n("1"), Carried: job.Measured,
		BuildUpAt: origin.Cell{Sheet: "Members", Row: 2, Col: 9},
	}
}

func frames(w job.Work, nr int) takeoff.Row {
	return takeoff.Row{
		Work: w, Member: &job.Member{Work: w, Nr: nr},
		Amounts: map[rates.Driver]measure.Quantity{
			rates.ByNr:     measure.Of(decimal.New(int64(nr), 0), measure.Nr),
			rates.ByVolume: measure.Of(n("0.25").Mul(decimal.New(int64(nr), 0)), measure.M3),
			rates.BySeam:   measure.Of(n("0"), measure.M),
			rates.ByItem:   measure.Of(n("1"), measure.One),
		},
	}
}

func book() *rates.Book {
	task := func(name, item string, by rates.Driver, quantity string, row int) rates.BuildUp {
		return rates.BuildUp{Name: name, Part: rates.Task, Item: item, By: by, Quantity: n(quantity),
			ItemAt: origin.Cell{Sheet: "Build-ups", Row: row, Col: 3}, DriverAt: origin.Cell{Sheet: "Build-ups", Row: row, Col: 4}}
	}
	return &rates.Book{
		BuildUps: []rates.BuildUp{
			task("frame", "shape frame", rates.ByNr, "1", 2),
			task("frame", "clean up", rates.ByVolume, "1", 3),
			task("frame", "caulk", rates.BySeam, "1", 4),
			{Name: "frame", Part: rates.MaterialPart, Item: "oakum", By: rates.ByNr, Quantity: n("1")},
			task("twice", "shape frame", rates.ByNr, "1", 5),
			task("twice", "Shape  Frame", rates.ByNr, "0.5", 6),
			task("later", "not yet", rates.ByNr, "1", 7),
			task("wrong", "clean up", rates.ByNr, "1", 8),
			task("wrong", "paint", rates.ByFace, "1", 9),
			task("odd", "odd", rates.ByNr, "1", 10),
			task("bench", "plane", rates.ByVolume, "1", 11),
		},
		Norms: []rates.Norm{
			{Task: "shape frame", Trade: "shipwright", Hours: n("12"), Unit: measure.Nr, SetUp: n("2"), Learning: money.NewPercent(n("85")), Place: rates.Aboard},
			{Task: "clean up", Trade: "Labourer", Hours: n("3"), Unit: measure.M3, Place: rates.Aboard},
			{Task: "caulk", Trade: "caulker", Hours: n("1"), Unit: measure.M, SetUp: n("4"), Place: rates.Aboard},
			{Task: "not yet", Trade: "shipwright", Hours: n("1"), Unit: measure.Nr, From: time.Date(2026, 9, 1, 0, 0, 0, 0, time.UTC)},
			{Task: "paint", Trade: "painter", Hours: n("1"), Unit: measure.M2},
			{Task: "odd", Trade: "shipwright", Hours: n("1"), Unit: measure.Nr, Learning: money.NewPercent(n("15")), At: origin.Cell{Sheet: "Norms", Row: 7, Col: 1}},
			{Task: "plane", Trade: "shipwright", Hours: n("8"), Unit: measure.M3, Learning: money.NewPercent(n("80")), Place: rates.Bench},
		},
		Labour: []rates.Labour{{Trade: "labourer"}, {Trade: "Shipwright"}, {Trade: "caulker"}},
	}
}

// reckoned is what a line comes to, as the tests compare it.
type reckoned struct{ Ref, Trade, Hours string }

func lines(h labour.Hours) []reckoned {
	var out []reckoned
	for _, l := range h.Lines {
		out = append(out, reckoned{l.Ref, l.Trade, l.Hours.StringFixed(2)})
	}
	return out
}

func TestReckonAddsUpTheHoursOfEachTrade(t *testing.T) {
	aboard := func(w job.Work, difficulty, access string) job.Work {
		w.Difficulty, w.Access = n(difficulty), n(access)
		return w
	}
	own := func(w job.Work, hours, trade string) job.Work {
		w.Hours, w.Trade = n(hours), trade
		return w
	}
	for _, c := range []struct {
		name string
		rows []takeoff.Row
		want []reckoned
	}{
		// 2 + 12 x 6 x 0.7813 = 58.2536; 3 x 6 x 0.25 = 4.5; no seam, so nothing to set up for.
		{"trades in the order of the Labour sheet, set-up once",
			[]takeoff.Row{frames(work("3.1", "frame"), 6)},
			[]reckoned{{"3.1", "labourer", "4.50"}, {"3.1", "Shipwright", "58.25"}}},
		// 58.2536 x 1.25 x 1.2 = 87.3804; 4.5 x 1.25 x 1.2 = 6.75
		{"difficulty and access on work aboard",
			[]takeoff.Row{frames(aboard(work("3.1", "frame"), "1.25", "1.2"), 6)},
			[]reckoned{{"3.1", "labourer", "6.75"}, {"3.1", "Shipwright", "87.38"}}},
		// 8 x 4 x 0.25 = 8, of four members (1 + 0.8 + 0.7021 + 0.64) / 4 = 0.7855: 6.284 x 1.5
		{"no access on the bench, and learning by the members of the row",
			[]takeoff.Row{frames(aboard(work("3.1", "bench"), "1.5", "2"), 4)},
			[]reckoned{{"3.1", "Shipwright", "9.43"}}},
		// 10 x 1.1 x 1.2 = 13.2; Nr does not multiply it
		{"hours of the row itself, for the whole row, as work aboard",
			[]takeoff.Row{frames(aboard(own(work("3.1", ""), "10", "SHIPWRIGHT"), "1.1", "1.2"), 6)},
			[]reckoned{{"3.1", "Shipwright", "13.20"}}},
		// 58.2536 + 1.005 = 59.2586: the two are rounded together
		{"hours of the row beside its build-up, in one line",
			[]takeoff.Row{frames(own(work("3.1", "frame"), "1.005", "shipwright"), 6)},
			[]reckoned{{"3.1", "labourer", "4.50"}, {"3.1", "Shipwright", "59.26"}}},
		// 58.2536 + 12 x 3 x 0.8743 = 89.7284, of three pieces (1 + 0.85 + 0.77292) / 3 = 0.8743
		{"a task named twice in a build-up is set up once",
			[]takeoff.Row{frames(work("3.1", "twice"), 6)},
			[]reckoned{{"3.1", "Shipwright", "89.73"}}},
		{"rows by Ref as people read them, a trade not in Labour last",
			[]takeoff.Row{frames(own(work("3.10", ""), "1", "shipwright"), 1), frames(own(work("3.2", ""), "1", "rigger"), 1), frames(own(work("3.2", ""), "1", "caulker"), 1)},
			[]reckoned{{"3.2", "caulker", "1.00"}, {"3.2", "rigger", "1.00"}, {"3.10", "Shipwright", "1.00"}}},
		{"nothing of a row without work", []takeoff.Row{frames(work("3.1", ""), 6)}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, problems := labour.Reckon(&job.Job{}, book(), takeoff.Takeoff{Rows: c.rows})
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			if diff := cmp.Diff(c.want, lines(h)); diff != "" {
				t.Errorf("lines (-want +got):\n%s", diff)
			}
		})
	}
}

func TestALineCarriesWhereItsHoursComeFrom(t *testing.T) {
	j := &job.Job{Sections: []job.Section{{Section: "3", Stage: "framing"}}}
	w := work("3.1", "frame")
	w.Carried, w.Access = job.Option, n("1.2")
	h, _ := labour.Reckon(j, book(), takeoff.Takeoff{Rows: []takeoff.Row{frames(w, 6)}})
	got := h.Lines[1]
	if got.Stage != "framing" || got.Carried != job.Option || len(got.Tasks) != 1 {
		t.Fatalf("stage %q, carried %q, %d tasks; want framing, option, 1", got.Stage, got.Carried, len(got.Tasks))
	}
	task := got.Tasks[0]
	for _, c := range []struct {
		name string
		got  decimal.Decimal
		want string
	}{
		{"amount", task.Taken.Amount, "6"}, {"set-up", task.SetUp, "2"}, {"learning", task.Learning, "0.7813"},
		{"access", task.Access, "1.2"}, {"hours", task.Hours, "69.90432"}, {"line", got.Hours, "69.90"},
	} {
		if !c.got.Equal(n(c.want)) {
			t.Errorf("%s %s; want %s", c.name, c.got, c.want)
		}
	}
}

func TestReckonGoesOnAfterAProblem(t *testing.T) {
	j := &job.Job{Particulars: job.Particulars{TenderDate: time.Date(2026, 5, 1, 0, 0, 0, 0, time.UTC)}}
	buildUp := func(row, col int) origin.Cell { return origin.Cell{Sheet: "Build-ups", Row: row, Col: col} }
	type found struct {
		Code problem.Code
		At   origin.Cell
	}
	for _, c := range []struct {
		name, buildUp string
		want          []found
	}{
		{"a norm that begins later", "later", []found{{problem.NormNotInForce, buildUp(7, 3)}}},
		{"a number for a norm by the cubic metre is each, and a face the row lacks", "wrong", []found{{problem.DriverMissing, work("", "").BuildUpAt}}},
		{"a saving written for a slope", "odd", []found{{problem.LearningOdd, origin.Cell{Sheet: "Norms", Row: 7, Col: 1}}}},
		{"nothing of a build-up that is not there", "no such thing", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			rows := []takeoff.Row{frames(work("3.1", c.buildUp), 2), frames(work("3.2", "frame"), 6)}
			h, problems := labour.Reckon(j, book(), takeoff.Takeoff{Rows: rows})
			var got []found
			for _, p := range problems {
				got = append(got, found{p.Code, p.At})
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("problems (-want +got):\n%s", diff)
			}
			if l := lines(h); len(l) < 2 || l[len(l)-1] != (reckoned{"3.2", "Shipwright", "58.25"}) {
				t.Errorf("lines %v; want those of the next row still", l)
			}
		})
	}
}

func TestAVolumeForANormByTheMetreIsAProblemAtMeasuredBy(t *testing.T) {
	b := book()
	b.Norms[1].Unit = measure.M
	_, problems := labour.Reckon(&job.Job{}, b, takeoff.Takeoff{Rows: []takeoff.Row{frames(work("3.1", "frame"), 6)}})
	want := `Build-ups!D3: error: "volume" cannot be measured in m, the unit of "clean up"; a driver that can is wanted, or one with its own unit in brackets [unlike-dimensions]`
	if len(problems) != 1 || problems[0].String() != want {
		t.Errorf("problems %v; want %s", problems, want)
	}
}

func BenchmarkReckonOf5000Rows(b *testing.B) {
	bk := book()
	for k := range 500 {
		bk.BuildUps = append(bk.BuildUps, rates.BuildUp{Name: fmt.Sprintf("other %d", k), Part: rates.Task, Item: "clean up"})
	}
	var t takeoff.Takeoff
	for k := range 5000 {
		t.Rows = append(t.Rows, frames(work(fmt.Sprintf("3.%d", k), "frame"), 1+k%20))
	}
	for b.Loop() {
		labour.Reckon(&job.Job{}, bk, t)
	}
}
