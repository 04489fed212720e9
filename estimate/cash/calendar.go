package cash

import (
	"slices"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
)

// Times within the package are days from the start on site. A tenth of a week
// is 0.7 of a day, so they are decimals.
var (
	week   = decimal.New(7, 0)
	year   = decimal.New(7*52, 0) // where there is no calendar
	twelve = decimal.New(12, 0)
)

// begins is when a month begins where there is no calendar.
func begins(n int) decimal.Decimal { return year.Mul(decimal.New(int64(n), 0)).DivRound(twelve, 12) }

// spell is a stretch of time, in days from the start.
type spell struct{ from, to decimal.Decimal }

func (s spell) length() decimal.Decimal { return s.to.Sub(s.from) }

// within is the part of s that falls in t; one of no length where none does.
func (s spell) within(t spell) spell {
	from, to := decimal.Max(s.from, t.from), decimal.Min(s.to, t.to)
	return spell{from, decimal.Max(from, to)}
}

// weeks is a time in weeks, to a hundredth.
func weeks(days decimal.Decimal) decimal.Decimal { return days.DivRound(week, 2) }

// closures is the days on which the yard is closed, apart and in order; none
// where there is no start to place them by.
func closures(j *job.Job) []spell {
	if j.Start.IsZero() {
		return nil
	}
	var list []spell
	for _, c := range j.Closures {
		if !c.To.Before(c.From) {
			list = append(list, spell{days(j.Start, c.From), days(j.Start, c.To).Add(decimal.New(1, 0))})
		}
	}
	slices.SortFunc(list, func(a, b spell) int { return a.from.Cmp(b.from) })
	var apart []spell
	for _, s := range list {
		if n := len(apart); n > 0 && s.from.LessThanOrEqual(apart[n-1].to) {
			apart[n-1].to = decimal.Max(apart[n-1].to, s.to)
			continue
		}
		apart = append(apart, s)
	}
	return apart
}

// open is how long of a spell the yard is open.
func (l *layout) open(s spell) decimal.Decimal {
	length := s.length()
	for _, c := range l.closed {
		length = length.Sub(c.within(s).length())
	}
	return length
}

// days is how many days after the start another day begins.
func days(start, day time.Time) decimal.Decimal {
	return decimal.New(int64(noon(day).Sub(noon(start))/(24*time.Hour)), 0)
}

// noon is a day on the calendar, zone and hour aside.
func noon(t time.Time) time.Time {
	y, m, d := t.Date()
	return time.Date(y, m, d, 12, 0, 0, 0, time.UTC)
}

// day is the date on which a time falls; zero where there is no start.
func (l *layout) day(at decimal.Decimal) time.Time {
	if !l.dated() {
		return time.Time{}
	}
	return l.job.Start.AddDate(0, 0, int(at.Floor().IntPart()))
}

// lastDay is the last day of what ends at a time.
func (l *layout) lastDay(at decimal.Decimal) time.Time {
	return l.day(decimal.Max(at.Ceil().Sub(decimal.New(1, 0)), decimal.Zero))
}

func (l *layout) dated() bool { return !l.job.Start.IsZero() }

// monthAt is the month, counted from nil, in which a time falls: of the
// calendar where the start is known. A time at which one month ends and the next
// begins is of the next.
func (l *layout) monthAt(at decimal.Decimal) int {
	if !l.dated() {
		return int(at.Mul(twelve).Div(year).Floor().IntPart())
	}
	d := l.day(at)
	return (d.Year()-l.job.Start.Year())*12 + int(d.Month()) - int(l.job.Start.Month())
}

// monthOf is the month in which the end of something falls.
func (l *layout) monthOf(end decimal.Decimal) int {
	if !l.dated() {
		return max(int(end.Mul(twelve).Div(year).Ceil().IntPart())-1, 0)
	}
	return l.monthAt(days(l.job.Start, l.lastDay(end)))
}

// monthly is the n-th month; the first begins with the work.
func (l *layout) monthly(n int) spell {
	if !l.dated() {
		return spell{begins(n), begins(n + 1)}
	}
	y, m, _ := l.job.Start.Date()
	first := func(n int) decimal.Decimal {
		return days(l.job.Start, time.Date(y, m+time.Month(n), 1, 12, 0, 0, 0, time.UTC))
	}
	return spell{decimal.Max(first(n), decimal.Zero), first(n + 1)}
}
