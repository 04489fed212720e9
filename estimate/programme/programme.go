// Package programme turns hours into weeks. In go the stages with what they
// come after, the gangs, the closures of the yard and the hours of work in the
// total; out come how long each stage takes, when it can begin and when it must,
// and for how many weeks the charges that run with time are to be paid.
//
// A man works
//
//	Hours a week x Working weeks a year / 52
//
// a week, or, where closures are listed, Hours a week outside them, and the
// stages stretch over the closed days of the calendar. A stage lasts as long as
// its slowest trade, hours / (men x output), not under its Least weeks, up to a
// tenth of a week. Earliest and latest times are those of the critical path
// method (Kelley and Walker, 1959), a Lag counted from the end of every stage it
// comes after.
//
// 39 hours a week over 46 weeks a year are 34.50 a week; 240 hours of two men
// take 240 / 69 = 3.478, so 3.5 weeks, in which the two are kept 241.50 hours.
package programme

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/rates"
	"futtock/rates/problem"
)

// Programme is the stages laid out in weeks from the start on site. All times
// are in calendar weeks, to a tenth.
type Programme struct {
	Output decimal.Decimal // hours of one man in a week the yard is open, to 0.01
	Stages []Stage         // in the order of the Stages sheet
	Weeks  decimal.Decimal // from the start to the last finish
	Start  time.Time       // of the job; zero where not given
	Finish time.Time       // the last day; zero where Start is not given
}

// Stage is one stage laid out. Start is the day in which its earliest start
// falls and Finish the last day of its earliest finish; both are zero where the
// job has no start.
type Stage struct {
	Stage          job.Stage
	Working        decimal.Decimal // weeks of work, without the days the yard is closed
	Weeks          decimal.Decimal // from the earliest start to the earliest finish
	Earliest       decimal.Decimal // start
	EarliestFinish decimal.Decimal
	Latest         decimal.Decimal // start
	LatestFinish   decimal.Decimal
	Float          decimal.Decimal // weeks it may slip; the lesser of that of its start and its finish
	Critical       bool            // it has no float
	Trades         []Trade         // in the order of the Labour sheet
	Governs        string          // the trade that makes it as long as it is; blank where Least weeks does
	Start, Finish  time.Time
}

// Trade is one trade at work in a stage.
type Trade struct {
	Trade string
	Hours decimal.Decimal // priced
	Men   decimal.Decimal // of all its gangs in the stage
	Weeks decimal.Decimal // it needs by itself, to 0.001
	Kept  decimal.Decimal // men kept x working weeks of the stage x output, h to 0.01
	Idle  decimal.Decimal // Kept less Hours: time kept and not priced
}

// Lay is the programme of a job. Only work in the total takes time. Where the
// Stages sheet is empty there is nothing to lay out: the result holds the
// output and the start alone.
//
// A circle of stages, hours with nobody to do them, and closures without a
// start are problems, each at its cell; the rest is laid out as if the offending
// link, hours or closures were not there.
func Lay(j *job.Job, b *rates.Book, h labour.Hours) (Programme, problem.List) {
	p := Programme{Output: output(j), Start: j.Start}
	if len(j.Stages) == 0 {
		return p, nil
	}
	l := layout{job: j, book: b, output: p.Output, places: labour.Places(b)}
	l.calendar = l.closures()
	if p.Output.Sign() <= 0 {
		l.problems.Add(problem.Problem{
			Code: problem.NoWorkingHours, At: j.Cell("Hours a week"),
			Text: fmt.Sprintf("%q hours a week leave a man no time to work; more is wanted", j.HoursAWeek),
		})
	}
	l.stages()
	l.gangs(h)
	for i := range l.nodes {
		l.last(i)
	}
	order := l.order()
	end := l.forward(order)
	l.backward(order, end)
	for i := range l.nodes {
		p.Stages = append(p.Stages, l.stage(i))
	}
	p.Weeks = weeks(end)
	p.Finish = l.lastDay(0, end)
	l.strength()
	return p, l.problems
}

// CriticalPath is the stages without float, in the order in which they begin.
func (p Programme) CriticalPath() []Stage {
	var path []Stage
	for _, s := range p.Stages {
		if s.Critical {
			path = append(path, s)
		}
	}
	slices.SortStableFunc(path, func(a, b Stage) int {
		return cmp.Or(a.Earliest.Cmp(b.Earliest), a.EarliestFinish.Cmp(b.EarliestFinish))
	})
	return path
}

// Span is the weeks from the earliest start of one stage to the earliest finish
// of another, for charges that run with time. A blank from is the first to
// begin, a blank to the last to end. It is below nil where the second stage
// ends before the first begins; it returns false where there is no such stage,
// or no programme.
func (p Programme) Span(from, to string) (decimal.Decimal, bool) {
	if len(p.Stages) == 0 {
		return decimal.Decimal{}, false
	}
	begin, end := p.Stages[0].Earliest, p.Weeks
	for _, s := range p.Stages {
		begin = decimal.Min(begin, s.Earliest)
	}
	if from != "" {
		s, ok := p.find(from)
		if !ok {
			return decimal.Decimal{}, false
		}
		begin = s.Earliest
	}
	if to != "" {
		s, ok := p.find(to)
		if !ok {
			return decimal.Decimal{}, false
		}
		end = s.EarliestFinish
	}
	return end.Sub(begin), true
}

func (p Programme) find(stage string) (Stage, bool) {
	i := slices.IndexFunc(p.Stages, func(s Stage) bool { return rates.Same(s.Stage.Stage, stage) })
	if i < 0 {
		return Stage{}, false
	}
	return p.Stages[i], true
}

// output is the hours of one man in a week the yard is open, to 0.01. Working
// weeks left blank are all fifty-two.
func output(j *job.Job) decimal.Decimal {
	year := decimal.New(52, 0)
	if j.WorkingWeeks.IsZero() || (len(closed(j)) > 0 && !j.Start.IsZero()) {
		return j.HoursAWeek.Round(2)
	}
	return j.HoursAWeek.Mul(j.WorkingWeeks).DivRound(year, 2)
}

// weeks is a number of tenths as weeks.
func weeks(tenths int64) decimal.Decimal { return decimal.New(tenths, -1) }
