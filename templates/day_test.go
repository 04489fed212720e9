package templates

import (
	"testing"

	"futtock/templates/grid"
)

func TestDatesAreReadFromNumbersAndFromText(t *testing.T) {
	cases := []struct {
		name     string
		d        grid.Datum
		from1904 bool
		want     string // blank: refused
	}{
		// ECMA-376 day numbers: 45292 is 1 January 2024, and 1,462 days less from 1904.
		{"a day number from 1900", number("45292", "yyyy-mm-dd"), false, "2024-01-01"},
		{"a day number from 1904", number("43830", "yyyy-mm-dd"), true, "2024-01-01"},
		{"a day number without its format", number("46093", ""), false, "2026-03-12"},
		{"a day with a time of day", number("46093.75", "yyyy-mm-dd hh:mm"), false, "2026-03-12"},
		{"a date stored as such", grid.Datum{Kind: grid.Date, Raw: "2026-03-12T00:00:00"}, false, "2026-03-12"},
		{"year first", text("2026-03-12"), false, "2026-03-12"},
		{"the month in full", text(" 12  March 2026"), false, "2026-03-12"},
		{"the month cut short", text("12 mar 2026"), false, "2026-03-12"},
		{"the day as people say it", text("1st April 2026"), false, "2026-04-01"},
		{"the day as people write it", text("12th of March, 2026"), false, "2026-03-12"},
		{"year first with strokes", text("2026/03/12"), false, "2026-03-12"},
		{"year first with stops", text("2026.3.12"), false, "2026-03-12"},
		{"the month first and in words", text("March 12, 2026"), false, "2026-03-12"},
		{"the month cut short with a stop", text("12 Sept. 2026"), false, "2026-09-12"},
		{"with the day of the week", text("Thursday, 12 March 2026"), false, "2026-03-12"},
		{"with the day of the week cut short", text("Thu 12 Mar 2026"), false, "2026-03-12"},
		{"with a time of nothing", text("2026-03-12 00:00:00"), false, "2026-03-12"},
		{"as programs write it", text("2026-03-12T00:00:00.000"), false, "2026-03-12"},
		{"with strokes, a day that is no month", text("14/09/2026"), false, "2026-09-14"},
		{"the same with the month first", text("09-14-2026"), false, "2026-09-14"},
		{"with strokes, day and month the same", text("4/04/2026"), false, "2026-04-04"},
		{"with strokes, neither a month", text("14/13/2026"), false, ""},
		{"with strokes, a year of two figures", text("14/09/26"), false, ""},
		{"strokes of two sorts", text("14/09-2026"), false, ""},
		{"a day and a time of it", text("2026-03-12 09:30"), false, ""},
		{"day or month first", text("03/04/2026"), false, ""},
		{"the same with stops", text("3.4.2026"), false, ""},
		{"a year alone", number("2026", ""), false, ""},
		{"a day there is not", text("31 February 2026"), false, ""},
		{"a year of two figures", text("12 March 26"), false, ""},
		{"words", text("spring"), false, ""},
		{"a truth", grid.Datum{Kind: grid.Bool, Raw: "1"}, false, ""},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			got, err := dayOf(c.d, c.from1904)
			switch {
			case c.want == "" && err == nil:
				t.Errorf("read as %s", got.Format(isoDay))
			case c.want != "" && (err != nil || got.Format(isoDay) != c.want):
				t.Errorf("got %s, %v, want %s", got.Format(isoDay), err, c.want)
			}
		})
	}
}

func TestADateThatIsRefusedSaysWhy(t *testing.T) {
	for typed, want := range map[string]string{
		"03/04/2026": `"03/04/2026" may be read day first or month first`,
		"14-Sep-26":  `"14-Sep-26" has a year of two figures`,
		"14/09/26":   `"14/09/26" has a year of two figures`,
		"14/13/2026": `"14/13/2026" is not a date`,
		"3 May 1805": `"3 May 1805" is not a date of our time`,
	} {
		if _, err := parseDay(typed); err == nil || err.Error() != want {
			t.Errorf("got %v, want %s", err, want)
		}
	}
}

func TestATimeIsShownAsTheSpreadsheetShowsIt(t *testing.T) {
	for _, c := range []struct{ value, want string }{
		{"0.25", "6:00"}, {"0.0104166666666667", "0:15"}, {"1.5", "36:00"}, {"46093.75", "2026-03-12"}, {"12", "12"}, {"-0.5", "-0.5"},
	} {
		if got := shown(number(c.value, "[h]:mm"), false); got != c.want {
			t.Errorf("%s shows as %s, want %s", c.value, got, c.want)
		}
	}
}

func TestDayNumbersGoThereAndBack(t *testing.T) {
	for _, s := range []string{"1950-01-01", "2000-02-29", "2026-03-12", "2149-12-31"} {
		day, err := parseDay(s)
		if err != nil {
			t.Fatal(err)
		}
		if got, ok := serialDay(daySerial(day), false); !ok || !got.Equal(day) {
			t.Errorf("%s comes back as %s", s, got.Format(isoDay))
		}
	}
}

func TestNumberFormatsAreTakenForWhatTheyShow(t *testing.T) {
	cases := []struct {
		format        string
		percent, date bool
		foreign       string // to a job in pounds
	}{
		{"", false, false, ""},
		{"General", false, false, ""},
		{"0.00%", true, false, ""},
		{`0.0\%`, false, false, ""},
		{"d/m/yyyy", false, true, ""},
		{"mmm-yy", false, true, ""},
		{"[h]:mm:ss", false, true, ""},
		{"[$-809]dd mmmm yyyy;@", false, true, ""},
		{"0.00E+00", false, false, ""},
		{"[Red]0.00;[Blue]-0.00", false, false, ""},
		{`0.0" days"`, false, false, ""},
		{"_-* #,##0.00_-;-* #,##0.00_-;_-* \"-\"??_-;_-@_-", false, false, ""},
		{`"£"#,##0.00`, false, false, ""},
		{"[$£-809]#,##0.00", false, false, ""},
		{"[$€-2] #,##0.00", false, false, "€"},
		{"#,##0.00 [$USD]", false, false, "USD"},
		{"$#,##0", false, false, "$"},
		{`0.00" NET"`, false, false, ""},
		{`0.00" EUR"`, false, false, "EUR"},
		{"[broken", false, false, ""},
	}
	for _, c := range cases {
		l := lookOf(c.format)
		if l.percent != c.percent || l.date != c.date || foreign(l.said, "GBP") != c.foreign {
			t.Errorf("%q: percent %t, date %t, foreign %q", c.format, l.percent, l.date, foreign(l.said, "GBP"))
		}
	}
}
