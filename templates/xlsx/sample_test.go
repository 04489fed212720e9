package xlsx

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// sampleBook is a small bill with everything a book can have.
func sampleBook() *grid.Book {
	head := grid.Style{Font: grid.Font{Bold: true}, Fill: "DDE6EE", Border: grid.Box, Wrap: true, Top: true}
	wrap := grid.Style{Wrap: true, Top: true, Border: grid.Hair}
	money := grid.Style{Format: `[$£-809]#,##0.00`, Border: grid.Hair, Top: true}
	total := grid.Style{Format: `[$£-809]#,##0.00`, Font: grid.Font{Bold: true}, Border: grid.Over | grid.Double}
	open := grid.Style{Format: "0.00", Fill: "FFF8DC", Open: true, Border: grid.Box}
	text := func(s string, st grid.Style) grid.Cell { return grid.Textual(s, st) }

	bill := &grid.Sheet{
		Name: "Bill of O'Hara",
		Columns: []grid.Width{{Chars: 8}, {Chars: 40}, {Chars: 10}, {Chars: 6}, {Chars: 12}, {Chars: 14},
			{Chars: 9, Hidden: true}},
		Rows: []grid.Row{
			{Cells: []grid.Cell{text("Bill of quantities", grid.Style{Font: grid.Font{Bold: true, Size: 16}})}},
			{Cells: []grid.Cell{text("Timber is measured net as fixed in place; the rates are for work complete, with fastenings, "+
				"bedding and making good, and nothing is added afterwards for waste, scarphs or laps.", grid.Style{Wrap: true, Top: true})}},
			{},
			{Cells: []grid.Cell{text("Ref", head), text("Description", head), text("Quantity", head), text("Unit", head),
				text("Rate", head), text("Amount", head), text("own", head)}},
			{Cells: []grid.Cell{
				{Kind: grid.Text, Text: "3.1", Link: "'Working'!A2", Style: grid.Style{Font: grid.Font{Colour: "0000CC"}, Border: grid.Hair, Top: true}},
				text("Oak futtocks, port and starboard, frames 12 to 19, sided 150 mm and moulded 200 mm at the heel: "+
					"take out old, mould, get out, fit and fasten", wrap),
				grid.Numeric(dec("12.5"), grid.Style{Format: "0.00", Border: grid.Hair, Top: true}), text("m", wrap),
				grid.Numeric(dec("310.25"), open), grid.Reckoned("ROUND(C5*E5,2)", dec("3878.13"), money),
				grid.Numeric(dec("1"), grid.Style{})}},
			{Level: 1, Cells: []grid.Cell{text("3.1a", wrap), text("of which steaming & bending, \"as needed\" <half>", wrap), {}, {}, {},
				{Kind: grid.Text, Formula: `IF(F5>0,"","none")`, Text: "", Style: wrap}}},
			{Level: 1, Cells: []grid.Cell{text("3.1b", wrap), text("=1+1 is text", wrap), {Kind: grid.Bool, Bool: true},
				{Kind: grid.Bool, Formula: "C5>1", Bool: true}, grid.Dated(time.Date(2027, 3, 4, 0, 0, 0, 0, time.UTC), grid.Style{}),
				{Kind: grid.Text, Formula: `" "&A5&" "`, Text: " 3.1 "}}},
			{Height: 20, Cells: []grid.Cell{{}, text("Total", grid.Style{Font: grid.Font{Bold: true}, Align: grid.Right}), {}, {}, {},
				grid.Reckoned("SUM(F5:F7)", dec("3878.13"), total)}},
		},
		Freeze: grid.Freeze{Rows: 4, Cols: 2},
		Lists: []grid.List{
			{Range: "D5:D7", Source: "'Working'!$A$2:$A$4", Strict: true, Title: "Unit", Prompt: "choose one of the units"},
			{Range: "C5:C7", Source: "Units", Title: "Amount", Prompt: "not one of the usual"},
		},
		Notes: []grid.Note{
			{Cell: "E5", Text: "The rate is by the metre run.\nFill it in; the amount follows, and so do the section and the summary, down to the total with VAT."},
			{Cell: "A1", Text: "Short."},
		},
		Merges: []string{"A2:F2"},
		Shades: []grid.Shade{{Range: "E5:E7", Formula: `AND($E5="",$C5<>"")`, Fill: "FFCCCC"}},
		Print: grid.Print{Landscape: true, FitWidth: true, Repeat: "$4:$4", Area: "$A$1:$F$8", Header: "&LSmack & Co&RTender T/1",
			Footer: "&RPage &P of &N", Breaks: []int{7}},
		Tab: "336699", Filter: "A4:F7", Locked: true, Above: true,
	}
	working := &grid.Sheet{
		Name:    "Working",
		Columns: []grid.Width{{Chars: 12}, {Chars: 12}},
		Rows: []grid.Row{
			{Cells: []grid.Cell{text("Units", head)}},
			{Cells: []grid.Cell{text("m", grid.Style{})}},
			{Cells: []grid.Cell{text("m2", grid.Style{})}},
			{Cells: []grid.Cell{text("nr", grid.Style{}), {Kind: grid.Blank, Style: open}}},
		},
		Notes: []grid.Note{{Cell: "A1", Text: "Read by the lists."}},
	}
	return &grid.Book{
		Sheets: []*grid.Sheet{bill, working}, Title: "Bill T-1", Subject: "Smack", Creator: "The yard", Language: "en-GB",
		Stamp: time.Date(2027, 1, 2, 0, 0, 0, 0, time.UTC),
		Names: []grid.Name{{Name: "Units", Range: "'Working'!$A$2:$A$4"}},
	}
}
