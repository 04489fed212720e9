package templates

import (
	"fmt"
	"regexp"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// isoDay is a date as it is printed, and best typed.
const isoDay = "2006-01-02"

// The years a date may lie in. A number far outside them is no date of a
// refit: 2026 alone would be a day in 1905.
const (
	firstYear = 1950
	lastYear  = 2149
)

// serialDay is the day of a spreadsheet's day number, the time of day dropped.
// Numbers count from 31 December 1899 with a 29 February 1900 that never was
// (ECMA-376, part 1, 18.17.4), so from 30 December 1899 for every day after;
// or from 1 January 1904. It returns false for a day outside the years taken.
func serialDay(n decimal.Decimal, date1904 bool) (time.Time, bool) {
	if n.Abs().GreaterThan(decimal.New(200_000, 0)) {
		return time.Time{}, false
	}
	first := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	if date1904 {
		first = time.Date(1904, 1, 1, 0, 0, 0, 0, time.UTC)
	}
	day := first.AddDate(0, 0, int(n.Floor().IntPart()))
	return day, inYears(day)
}

// daySerial is the day number of a day, by the same count.
func daySerial(day time.Time) decimal.Decimal {
	first := time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)
	return decimal.New(int64(day.Sub(first)/(24*time.Hour)), 0)
}

func inYears(day time.Time) bool { return day.Year() >= firstYear && day.Year() <= lastYear }

// dayOf is the date in a cell.
func dayOf(d grid.Datum, date1904 bool) (time.Time, error) {
	switch d.Kind {
	case grid.Number:
		if day, ok := serialDay(d.Value, date1904); ok {
			return day, nil
		}
		return time.Time{}, fmt.Errorf("%q is not a date of our time", shown(d, date1904))
	case grid.Date:
		if len(d.Raw) >= len(isoDay) {
			return parseDay(d.Raw[:len(isoDay)])
		}
	}
	return parseDay(shown(d, date1904))
}

var (
	strokes   = regexp.MustCompile(`^(\d{1,2})([./\\-])(\d{1,2})([./\\-])(\d{2}|\d{4})$`)
	yearFirst = regexp.MustCompile(`^(\d{4})[./](\d{1,2})[./](\d{1,2})$`)
	ordinal   = regexp.MustCompile(`(?i)\b(\d{1,2})(?:st|nd|rd|th)\b(?: of\b)?`)
	weekday   = regexp.MustCompile(`(?i)^(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,? `)
	september = regexp.MustCompile(`(?i)\bsept\b`)
	midnight  = regexp.MustCompile(`[ T]00:00(?::00(?:\.0+)?)?Z?$`)
	shortYear = regexp.MustCompile(`^\d{1,2}[ -][A-Za-z]+[ -]\d{2}$`)
	dayForms  = []string{isoDay, "2006-1-2", "2 January 2006", "2 Jan 2006", "2-Jan-2006", "2-January-2006", "January 2 2006", "Jan 2 2006"}
)

// parseDay reads a date as text: 2026-03-12, 2026/03/12, 12 March 2026, 12 Mar.
// 2026, March 12, 2026, with the day of the week before it or midnight after it.
// A date in figures that may put the month first or last is refused; 14/09/2026
// can be read in one way only.
func parseDay(s string) (time.Time, error) {
	text := ordinal.ReplaceAllString(weekday.ReplaceAllString(midnight.ReplaceAllString(single(s), ""), ""), "$1")
	text = yearFirst.ReplaceAllString(text, "$1-$2-$3")
	if m := strokes.FindStringSubmatch(text); m != nil {
		day, month := m[1], m[3]
		switch {
		case m[2] != m[4]:
			return time.Time{}, fmt.Errorf("%q is not a date", s)
		case len(m[5]) == 2:
			return time.Time{}, fmt.Errorf("%q has a year of two figures", s)
		case !over12(day) && !over12(month) && !same(day, month):
			return time.Time{}, fmt.Errorf("%q may be read day first or month first", s)
		case over12(month):
			day, month = month, day
		}
		text = m[5] + "-" + month + "-" + day
	} else if !strings.Contains(text, ":") {
		text = september.ReplaceAllString(single(strings.NewReplacer(",", " ", ".", " ").Replace(text)), "Sep")
	}
	for _, form := range dayForms {
		if day, err := time.Parse(form, text); err == nil {
			if !inYears(day) {
				return time.Time{}, fmt.Errorf("%q is not a date of our time", s)
			}
			return day, nil
		}
	}
	if shortYear.MatchString(text) {
		return time.Time{}, fmt.Errorf("%q has a year of two figures", s)
	}
	return time.Time{}, fmt.Errorf("%q is not a date", s)
}

// over12 reports figures that cannot be a month.
func over12(figures string) bool { return len(figures) == 2 && figures > "12" }

// same reports the same number, a nought in front aside.
func same(a, b string) bool { return strings.TrimLeft(a, "0") == strings.TrimLeft(b, "0") }
