package programme_test

import (
	"fmt"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/programme"
)

// Laid out again with no hours more, any programme is the one it was: with
// overlaps, least weeks and a yard closed for a fortnight.
func TestLaidOutAgainAProgrammeIsTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		count := rapid.IntRange(1, 8).Draw(t, "stages")
		var stages []job.Stage
		var gangs []job.Gang
		var h labour.Hours
		for i := range count {
			name := fmt.Sprintf("s%d", i)
			var after []string
			for k := range i {
				if rapid.Bool().Draw(t, "after") {
					after = append(after, fmt.Sprintf("s%d", k))
				}
			}
			lag := "0"
			if len(after) > 0 {
				lag = rapid.SampledFrom([]string{"0", "-0.5", "1.3"}).Draw(t, "lag")
			}
			stages = append(stages, stage(i+2, name, rapid.SampledFrom([]string{"0", "2"}).Draw(t, "least"), lag, after...))
			gangs = append(gangs, gang(i+2, name, "shipwright", rapid.SampledFrom([]string{"1", "2.5", "3"}).Draw(t, "men")))
			h.Lines = append(h.Lines, line(name, "shipwright", name, decimal.New(rapid.Int64Range(0, 60000).Draw(t, "hours"), -2).String()))
		}
		j := yard(stages...)
		j.Gangs = gangs
		if rapid.Bool().Draw(t, "closed") {
			j.Start = date("2026-06-01")
			j.Closures = []job.Closure{{From: date("2026-07-04"), To: date("2026-07-17")}}
		}
		p, _ := programme.Lay(j, book(), h)
		a := programme.Ready(j, book(), h)
		times := a.Times()
		a.Lay(make([]float64, a.Slots()), &times)
		for i, s := range p.Stages {
			if !decimal.New(times.Start[i], -1).Equal(s.Earliest) || !decimal.New(times.Finish[i], -1).Equal(s.EarliestFinish) {
				t.Fatalf("%s lies from %d to %d tenths; want %s to %s weeks", s.Stage.Stage, times.Start[i], times.Finish[i], s.Earliest, s.EarliestFinish)
			}
		}
		if !decimal.New(times.End, -1).Equal(p.Weeks) {
			t.Fatalf("%d tenths; want %s weeks", times.End, p.Weeks)
		}
		if all, ok := p.Span("", ""); ok && !decimal.New(times.Span(-1, -1), -1).Equal(all) {
			t.Fatalf("all of it %d tenths; want %s weeks", times.Span(-1, -1), all)
		}
	})
}

// 69 h of two men take a week; 34.5 h more, half as much again.
func TestMoreHoursMakeAStageLonger(t *testing.T) {
	j := yard(stage(2, "Planking", "0", "0"), stage(3, "Painting", "1", "0", "Planking"))
	j.Gangs = []job.Gang{gang(2, "Planking", "shipwright", "2")}
	a := programme.Ready(j, book(), labour.Hours{Lines: []labour.Line{line("1", "shipwright", "Planking", "69")}})
	slot, ok := a.Slot("planking", "Shipwright")
	if _, other := a.Slot("Painting", "shipwright"); !ok || other {
		t.Fatal("the hours of a trade go where it has a gang, and nowhere else")
	}
	more, times := make([]float64, a.Slots()), a.Times()
	more[slot] = 34.5
	a.Lay(more, &times)
	if times.Finish[0] != 15 || times.End != 25 || times.Span(-1, 0) != 15 || times.Span(1, -1) != 10 {
		t.Errorf("%+v; want the first done at 15 tenths, all at 25", times)
	}
}
