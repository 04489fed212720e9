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
	strokes  = regexp.MustCompile(`^\d{1,4}[./\\-]\d{1,2}[./\\-]\d{1,4}$`)
	dayForms = []string{isoDay, "2 January 2006", "2 Jan 2006", "2-Jan-2006", "2-January-2006"}
	ordinal  = regexp.MustCompile(`^(\d{1,2})(?:st|nd|rd|th) `)
)

// parseDay reads a date as text: 2026-03-12, 12 March 2026 or 12 Mar 2026.
// A date in figures that may put the month first or last is refused.
func parseDay(s string) (time.Time, error) {
	text := ordinal.ReplaceAllString(single(s), "$1 ")
	text = strings.Replace(text, "Sept ", "Sep ", 1)
	for _, form := range dayForms {
		if day, err := time.Parse(form, text); err == nil {
			if !inYears(day) {
				return time.Time{}, fmt.Errorf("%q is not a date of our time", s)
			}
			return day, nil
		}
	}
	if strokes.MatchString(text) && !strings.HasPrefix(text, "20") {
		return time.Time{}, fmt.Errorf("%q may be read day first or month first", s)
	}
	return time.Time{}, fmt.Errorf("%q is not a date", s)
}
