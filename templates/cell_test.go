package templates

import (
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/rates/measure"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

func number(value, format string) grid.Datum {
	return grid.Datum{Kind: grid.Number, Raw: value, Value: decimal.RequireFromString(value), Format: format}
}

func text(s string) grid.Datum { return grid.Datum{Kind: grid.Text, Raw: s} }

// in is a heading of a sheet by itself, for cells of any form.
func in(form Form) Heading { return Heading{Name: "Cell", Form: form, Example: "12"} }

func TestCellsAreReadAsPeopleMeanThem(t *testing.T) {
	choice := Heading{Name: "Shape", Form: Choice, Choices: []string{"square", "round", "eight-sided"}, Default: "square"}
	driver := Heading{Name: "Measured by", Form: Choice, Choices: []string{"seam", "face area"}, Bracket: true}
	formula := number("6", "")
	formula.Formula = "2*3"
	cases := []struct {
		name string
		h    Heading
		p    place
		d    grid.Datum
		want Entry
	}{
		{"a number typed as text", in(Number), place{}, text(" 1,250.5 "), Entry{Number: dec("1250.5")}},
		{"a formula gives its stored result", in(Number), place{}, formula, Entry{Number: dec("6")}},
		{"a whole number with a nought behind the point", in(Whole), place{}, number("3.0", ""), Entry{Whole: 3, Number: dec("3")}},
		{"a number shown as a percentage", in(Percent), place{}, number("0.12", "0%"), Entry{Number: dec("12")}},
		{"a bare 12 is 12 %", in(Percent), place{}, number("12", ""), Entry{Number: dec("12")}},
		{"12 % as text", in(Percent), place{}, text("12 %"), Entry{Number: dec("12")}},
		{"12% as text", in(Percent), place{}, text("12%"), Entry{Number: dec("12")}},
		{"12 as text", in(Percent), place{}, text("12"), Entry{Number: dec("12")}},
		{"0.12 % as text leaves no doubt", in(Percent), place{}, text("0.12 %"), Entry{Number: dec("0.12")}},
		{"a number with % in quotes is what it says", in(Percent), place{}, number("12", `0"%"`), Entry{Number: dec("12")}},
		{"nil per cent leaves no doubt", in(Percent), place{}, number("0", ""), Entry{}},
		{"money as text", in(Money), place{}, text("£1,250.00"), Entry{Number: dec("1250")}},
		{"money with the letters of the currency", in(Money), place{}, text("GBP 85"), Entry{Number: dec("85")}},
		{"money by number format", in(Money), place{}, number("85.5", `[$£-809]#,##0.00;[Red]-[$£-809]#,##0.00`), Entry{Number: dec("85.5")}},
		{"a bare length takes the Job's unit", Heading{Name: "Length", Form: Length}, place{}, number("2.5", ""), Entry{Length: 2500 * measure.Millimetre}},
		{"a bare small size takes the Job's other unit", Heading{Name: "Sided", Form: Length, Scale: Small}, place{}, number("63", ""), Entry{Length: 63 * measure.Millimetre}},
		{"a heading's unit is stronger", Heading{Name: "Length", Form: Length}, place{unit: measure.Ft}, number("10", ""), Entry{Length: 10 * measure.Foot}},
		{"a bare number as text takes it too", Heading{Name: "Length", Form: Length}, place{unit: measure.Ft}, text("10"), Entry{Length: 10 * measure.Foot}},
		{"text brings its own unit", Heading{Name: "Length", Form: Length}, place{unit: measure.M}, text("24' 6\""), Entry{Length: 24*measure.Foot + 6*measure.Inch}},
		{"inches with a fraction sign", Heading{Name: "Sided", Form: Length, Scale: Small}, place{}, text("4½″"), Entry{Length: 9 * measure.Inch / 2}},
		{"a choice in other letters and spaces", choice, place{}, text("  Eight sided "), Entry{Text: "eight-sided"}},
		{"a choice with the curled apostrophe that spreadsheets put in", Heading{Name: "Shown", Form: Choice, Choices: []string{"as a client's sum"}}, place{}, text("As a client’s sum"), Entry{Text: "as a client's sum"}},
		{"a choice with a no-break space", driver, place{}, text("FACE\u00a0AREA"), Entry{Text: "face area"}},
		{"a choice with a unit", driver, place{}, text("seam ( M )"), Entry{Text: "seam", Unit: measure.M}},
		{"a unit as people write it", in(Unit), place{}, text("m²"), Entry{Text: "m2", Unit: measure.M2}},
		{"yes as the spreadsheet keeps it", in(YesNo), place{}, grid.Datum{Kind: grid.Bool, Raw: "1"}, Entry{Yes: true}},
		{"no in one letter", in(YesNo), place{}, text("N"), Entry{}},
		{"a name typed as a number", in(Key), place{}, number("12", ""), Entry{Text: "12"}},
		{"a name with stray and unseen marks", in(Key), place{}, text(" Side\u00a0\u200b plank "), Entry{Text: "Side plank"}},
		{"words keep their lines", in(Words), place{}, text("first  line \n second"), Entry{Text: "first line\nsecond"}},
		{"names parted by commas", in(Keys), place{}, text("Docking, Framing ;  Deck"), Entry{Text: "Docking, Framing, Deck", Keys: []string{"Docking", "Framing", "Deck"}}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := blankReader()
			got := r.entry(c.h, &c.p, c.d, r.at("S", 1, 1))
			if len(r.found) > 0 || !got.Given {
				t.Fatalf("given %t, problems %v", got.Given, r.found)
			}
			if got.Text != c.want.Text || got.Unit != c.want.Unit || !got.Number.Equal(c.want.Number) || got.Whole != c.want.Whole ||
				got.Length != c.want.Length || got.Yes != c.want.Yes || len(got.Keys) != len(c.want.Keys) {
				t.Errorf("got %+v\nwant %+v", got, c.want)
			}
		})
	}
}

func TestCellsThatCannotBeReadSaySo(t *testing.T) {
	length := Heading{Name: "Length", Form: Length, Example: "11.7"}
	cases := []struct {
		name string
		h    Heading
		d    grid.Datum
		code problem.Code
	}{
		{"a length turned into a date", length, number("46187", "d-mmm"), problem.DateInCell},
		{"a length turned into a time", length, number("0.25", "[h]:mm"), problem.DateInCell},
		{"a name turned into a date", in(Key), number("46187", "d-mmm"), problem.DateInCell},
		{"a date stored as such", in(Number), grid.Datum{Kind: grid.Date, Raw: "2026-03-06"}, problem.DateInCell},
		{"an error value", in(Words), grid.Datum{Kind: grid.Fault, Raw: "#N/A"}, problem.CellFault},
		{"a formula never calculated", in(Words), grid.Datum{Formula: "A1"}, problem.NotCalculated},
		{"an error with a formula behind it", in(Number), grid.Datum{Kind: grid.Fault, Raw: "#REF!", Formula: "A1"}, problem.CellFault},
		{"a truth for a number", in(Number), grid.Datum{Kind: grid.Bool, Raw: "1"}, problem.NumberForm},
		{"inches of twelve and more", length, text(`24' 13"`), problem.LengthForm},
		{"money in another currency's format", in(Money), number("4.2", `[$€-407] #,##0.00`), problem.CurrencyOther},
		{"money in another currency's letters", in(Money), text("4.20 USD"), problem.CurrencyOther},
		{"a bare share of one", in(Percent), number("0.12", ""), problem.PercentDoubt},
		{"a bare share of one as text", in(Percent), text("0.5"), problem.PercentDoubt},
		{"a number too long for a whole one", in(Whole), number("12345678901", ""), problem.WholeForm},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			r := blankReader()
			r.entry(c.h, &place{}, c.d, r.at("S", 1, 1))
			if len(r.found) != 1 || r.found[0].Code != c.code {
				t.Errorf("got %v, want one %s", r.found, c.code)
			}
		})
	}
}

func TestACellWithNothingMeantInItIsBlank(t *testing.T) {
	for _, d := range []grid.Datum{{}, text(""), text(" \u00a0 "), text("-"), text("–"), {Kind: grid.Text, Formula: `IF(A1="","",A1)`}} {
		r := blankReader()
		e := r.entry(in(Number), &place{}, d, r.at("S", 1, 1))
		if e.Given || len(r.found) > 0 {
			t.Errorf("%+v: given %t, problems %v", d, e.Given, r.found)
		}
	}
}

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// TestAnyCellIsReadOrBlankOrHasOneProblem types anything at all under every heading.
func TestAnyCellIsReadOrBlankOrHasOneProblem(t *testing.T) {
	var all []Heading
	eachHeading(func(_ Outline, h Heading) { all = append(all, h) })
	rapid.Check(t, func(t *rapid.T) {
		h := rapid.SampledFrom(all).Draw(t, "heading")
		d := anyDatum(t)
		r := blankReader()
		r.prices = rapid.Bool().Draw(t, "price sheet")
		e := r.entry(h, &place{}, d, r.at("S", 1, 1))
		errors := r.found.Count(problem.Error)
		switch {
		case errors > 1 || len(r.found) > 1:
			t.Errorf("%d problems: %v", len(r.found), r.found)
		case e.Given && (errors > 0 || e.bad):
			t.Errorf("given, and yet wrong: %v", r.found)
		case !e.Given && errors == 0 && !nothing(d):
			t.Error("neither read nor blank nor wrong")
		case errors > 0 && !e.bad:
			t.Error("wrong, and not known to be")
		}
	})
}

// anyDatum is a cell with anything in it.
func anyDatum(t *rapid.T) grid.Datum {
	d := grid.Datum{Kind: rapid.SampledFrom([]grid.Kind{grid.Blank, grid.Number, grid.Text, grid.Bool, grid.Fault, grid.Date}).Draw(t, "kind")}
	d.Formula = rapid.SampledFrom([]string{"", "", "A1"}).Draw(t, "formula")
	switch d.Kind {
	case grid.Number:
		d.Value = decimal.New(rapid.Int64Range(-1e12, 1e12).Draw(t, "number"), rapid.Int32Range(-9, 3).Draw(t, "places"))
		d.Raw = d.Value.String()
		d.Format = rapid.SampledFrom([]string{"", "0%", "0.00", "yyyy-mm-dd", "[h]:mm", `"£"0.00`, "[$€-2]0"}).Draw(t, "format")
	case grid.Text:
		d.Raw = rapid.OneOf(rapid.String(), rapid.SampledFrom([]string{
			"12", "12 %", "£4.20", "24' 6\"", "6-3", "seam (m)", "renew", "yes", "2026-03-12", "m2", "-", " ", "1e9", "(", "()", "seam ()", ",",
		})).Draw(t, "text")
	case grid.Bool:
		d.Raw = rapid.SampledFrom([]string{"0", "1"}).Draw(t, "truth")
	case grid.Fault:
		d.Raw = "#VALUE!"
	case grid.Date:
		d.Raw = rapid.SampledFrom([]string{"2026-03-12", "2026", "", "1872-01-01T00:00:00"}).Draw(t, "date")
	}
	return d
}
