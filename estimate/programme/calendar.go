package programme

import (
	"cmp"
	"slices"
	"sort"
	"time"

	"futtock/estimate/job"
	"futtock/rates/problem"
)

// Times are whole tenths of a week. Beside closed days, which are not whole
// tenths, both are counted in seventieths of a week: ten to a day, seven to a
// tenth.
const (
	inDay   = 10
	inTenth = 7
)

// calendar is the time the yard is closed, in seventieths of a week from the
// start, the spans in order and apart.
type calendar []span

type span struct{ from, to int64 }

// closures is the calendar of the job; empty where no closures are listed, or
// no start is given to place them by, which is a problem.
func (l *layout) closures() calendar {
	listed := closed(l.job)
	if len(listed) == 0 {
		return nil
	}
	if l.job.Start.IsZero() {
		l.problems.Add(problem.Problem{
			Code: problem.ClosuresNeedStart, At: listed[0].At, With: l.job.Cell("Start on site"),
			Text: "closures are listed, and Start on site of Job is blank; the day work begins is wanted",
		})
		return nil
	}
	start := dayNumber(l.job.Start)
	var c calendar
	for _, k := range listed {
		s := span{(dayNumber(k.From) - start) * inDay, (dayNumber(k.To) - start + 1) * inDay}
		if s.to > 0 {
			c = append(c, span{max(s.from, 0), s.to})
		}
	}
	slices.SortFunc(c, func(a, b span) int { return cmp.Or(cmp.Compare(a.from, b.from), cmp.Compare(a.to, b.to)) })
	var apart calendar
	for _, s := range c {
		if n := len(apart); n > 0 && s.from <= apart[n-1].to {
			apart[n-1].to = max(apart[n-1].to, s.to)
			continue
		}
		apart = append(apart, s)
	}
	return apart
}

// closed is the closures that run forwards.
func closed(j *job.Job) []job.Closure {
	var list []job.Closure
	for _, c := range j.Closures {
		if !c.To.Before(c.From) {
			list = append(list, c)
		}
	}
	return list
}

// open is the first tenth not before t at which the yard is open.
func (c calendar) open(t int64) int64 {
	for _, s := range c[c.after(t*inTenth):] {
		if t*inTenth < s.from {
			break
		}
		t = up(s.to)
	}
	return t
}

// finish is when work of so many tenths begun at a tenth is done, up to a tenth.
func (c calendar) finish(start, work int64) int64 {
	if work == 0 {
		return start
	}
	at, need := start*inTenth, work*inTenth
	for _, s := range c[c.after(at):] {
		if at+need <= s.from {
			break
		}
		need -= max(s.from-at, 0)
		at = s.to
	}
	return up(at + need)
}

// begin is the latest tenth at which work of so many tenths may begin and be
// done by end.
func (c calendar) begin(end, work int64) int64 {
	if work == 0 {
		return end
	}
	at, need := end*inTenth, work*inTenth
	for i := len(c) - 1; i >= 0; i-- {
		s := c[i]
		if s.from >= at {
			continue
		}
		if at-need >= s.to {
			break
		}
		need -= max(at-s.to, 0)
		at = s.from
	}
	return down(at - need)
}

// after is the first span that ends after a seventieth.
func (c calendar) after(at int64) int {
	return sort.Search(len(c), func(i int) bool { return c[i].to > at })
}

func up(n int64) int64 { return -down(-n) }

func down(n int64) int64 {
	q := n / inTenth
	if n%inTenth < 0 {
		q--
	}
	return q
}

// day is the date on which a time of so many tenths falls; the zero time where
// the job has no start.
func (l *layout) day(tenths int64) time.Time {
	if l.job.Start.IsZero() {
		return time.Time{}
	}
	return l.job.Start.AddDate(0, 0, int(tenths*inTenth/inDay))
}

// lastDay is the last day, the yard being open, of a time that runs from one
// tenth to another.
func (l *layout) lastDay(from, to int64) time.Time {
	if l.job.Start.IsZero() {
		return time.Time{}
	}
	if to == from {
		return l.day(to)
	}
	last := to*inTenth - 1
	for _, s := range l.calendar {
		if s.from <= last && last < s.to && s.from > from*inTenth {
			last = s.from - 1
		}
	}
	return l.job.Start.AddDate(0, 0, int(last/inDay))
}

// dayNumber counts days on the calendar, the hour and the zone aside.
func dayNumber(t time.Time) int64 {
	y, m, d := t.Date()
	return time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Unix() / (24 * 60 * 60)
}
