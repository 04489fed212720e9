package offer

import (
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/quotes"
	"futtock/rates/origin"
	"futtock/templates/grid"
)

// What cannot be meant otherwise is read as a number; what may be, is not.
func TestTextReadsPlainlyAsANumberOrNot(t *testing.T) {
	for text, want := range map[string]string{
		"12.5": "12.5", "1,234.50": "1234.5", "£ 12.50": "12.5", "£1,234": "1234", "12.50 GBP": "12.5", "GBP 12": "12", "€12,50": "12.5", "12,5": "12.5",
		"1.234,50": "1234.5", "-5": "-5", "−5": "-5", "5 %": "0.05", "5.5%": "0.055", "32 weeks": "32", "2 wks.": "2", "12.-": "12", "10/-": "10", "0": "0",
		"": "", "-": "", "twelve": "", "6-3": "", "1,25,000": "", "1,2345": "", "12 or 13": "", "12 per m": "", "1e3": "", "#REF!": "", "(12.50)": "", "12m": "", "12 50": "",
	} {
		n, ok := plainly(text)
		if ok != (want != "") || ok && !n.Equal(decimal.RequireFromString(want)) {
			t.Errorf("%q reads %s, %v; %q is right", text, n, ok, want)
		}
	}
}

func TestACellIsAFigureInOneOfFiveStates(t *testing.T) {
	number := decimal.RequireFromString("12.5")
	r := read(grid.Workbook{Name: "q.xlsx"})
	at := origin.Cell{Book: "q.xlsx", Sheet: "Bill", Row: 7, Col: 5}
	for _, c := range []struct {
		name string
		cell grid.Datum
		want quotes.Figure
	}{
		{"nothing", grid.Datum{}, quotes.Figure{}},
		{"spaces", grid.Datum{Kind: grid.Text, Raw: " \u00a0 "}, quotes.Figure{}},
		{"a number", grid.Datum{Kind: grid.Number, Value: number}, quotes.Figure{State: quotes.Given, Value: number}},
		{"a number shown as a share", grid.Datum{Kind: grid.Number, Value: number, Format: "0%"}, quotes.Figure{State: quotes.Given, Value: number}},
		{"a formula", grid.Datum{Kind: grid.Number, Value: number, Formula: "A1*B1"}, quotes.Figure{State: quotes.Reckoned, Value: number}},
		{"a formula never reckoned", grid.Datum{Formula: "A1*B1"}, quotes.Figure{State: quotes.Faulty, Text: "=A1*B1"}},
		{"an error", grid.Datum{Kind: grid.Fault, Raw: "#REF!", Formula: "#REF!"}, quotes.Figure{State: quotes.Faulty, Text: "#REF!"}},
		{"words", grid.Datum{Kind: grid.Text, Raw: " as  above "}, quotes.Figure{State: quotes.Words, Text: "as above"}},
		{"a number typed as text", grid.Datum{Kind: grid.Text, Raw: "£ 12.50"}, quotes.Figure{State: quotes.Words, Text: "£ 12.50", Value: number, Plain: true}},
		{"a day", grid.Datum{Kind: grid.Number, Value: decimal.New(46082, 0), Format: "d mmm"}, quotes.Figure{State: quotes.Words, Text: "2026-03-01"}},
		{"true", grid.Datum{Kind: grid.Bool, Raw: "1"}, quotes.Figure{State: quotes.Words, Text: "TRUE"}},
	} {
		c.want.At = at
		got := r.figure(c.cell, at)
		if got.State != c.want.State || got.Text != c.want.Text || got.Plain != c.want.Plain || !got.Value.Equal(c.want.Value) || got.At != at {
			t.Errorf("%s is %+v, and %+v is right", c.name, got, c.want)
		}
	}
}

func TestAHeadingIsKnownWithItsCurrencyOrWithout(t *testing.T) {
	all := []string{"Rate", "Profit %", "Profit", "Sum", "Without a sum", "Line id"}
	for text, want := range map[string]string{
		"Rate": "Rate", "rate £": "Rate", "Rate (EUR)": "Rate", "Rate DKK": "Rate", "RATE  €": "Rate", "Profit %": "Profit %", "Profit(%)": "Profit %", "Profit £": "Profit",
		"Without a sum": "Without a sum", "line-id": "Line id", "Rate per m": "", "Rate typed": "", "": "", "our rate": "",
	} {
		if got, _ := headingOf(text, all); got != want {
			t.Errorf("%q is the heading %q, and %q is right", text, got, want)
		}
	}
}
