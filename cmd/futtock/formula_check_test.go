package main

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/output/sheets"
	"futtock/templates"
	"futtock/templates/grid"
)

func TestTheCalculatorReckonsAsSpreadsheetsDo(t *testing.T) {
	number := func(s string) grid.Cell { return grid.Numeric(decimal.RequireFromString(s), grid.Style{}) }
	c := newCalculator(&grid.Book{Sheets: []*grid.Sheet{
		{Name: "A", Rows: []grid.Row{{Cells: []grid.Cell{number("3.33"), number("38.5")}}, {Cells: []grid.Cell{number("-2.675"), grid.Textual(`z "1"`, grid.Style{})}}}},
		{Name: "Owner's", Rows: []grid.Row{{Cells: []grid.Cell{number("7")}}}},
	}})
	for formula, want := range map[string]string{
		"ROUND(A1*B1,2)": "128.21", "ROUND(A2,2)": "-2.68", "ROUNDDOWN(A2,2)": "-2.67", "ROUNDUP(A1,0)": "4", "SUM(A1:A3)+1": "1.655", "SUM(A1:B1)": "41.83",
		"'Owner''s'!$A$1-2*3^2": "-11", "(A1+1)/2": "2.165", `IF($B2="Z ""1""",5,6)`: "5", `IF(A1<3,5,6)`: "6", "-A1+A2": "-6.005", "2^0.5*2^0.5>1.9999": "1",
	} {
		if got := c.of("A", formula); !got.Equal(decimal.RequireFromString(want)) {
			t.Errorf("=%s is %s, not %s", formula, got, want)
		}
	}
}

// Every formula of the yard's working comes out, from the figures in the cells it
// reads, at the figure stored beside it: to a hundredth of a penny, since sizes
// that go into no decimal are kept to sixteen places.
func TestAnyWorkingCastsByHand(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		if differ := cast(sheets.Estimate(pricedTables(t, tables)), 4); len(differ) > 0 {
			t.Fatalf("%s", strings.Join(differ, "\n"))
		}
	})
}
