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
		{"[broken", false, false, ""},
	}
	for _, c := range cases {
		l := lookOf(c.format)
		if l.percent != c.percent || l.date != c.date || foreign(l.said, "GBP") != c.foreign {
			t.Errorf("%q: percent %t, date %t, foreign %q", c.format, l.percent, l.date, foreign(l.said, "GBP"))
		}
	}
}
