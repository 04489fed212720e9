package xlsx

import (
	"errors"
	"fmt"
	"strings"
	"testing"
	"time"

	"futtock/templates/grid"
)

func TestChangesThatWouldDoDamageAreRefused(t *testing.T) {
	const one, seven, own = "xl/worksheets/sheet1.xml", "xl/worksheets/sheet7.xml", "xl/worksheets/sheet5.xml"
	price := func(row, col int) grid.Change {
		return grid.Change{Sheet: "Stock", Row: row, Put: []grid.Put{grid.PutNumber(col, dec("1"))}}
	}
	material := grid.Change{Sheet: "Materials", Row: 3, New: true, Put: []grid.Put{grid.PutNumber(2, dec("1"))}}
	cases := map[string]struct {
		part, old, new string // what is different in the workbook
		change         grid.Change
		read           string // a cell that is read
		why            Reason
		want           string
	}{
		"a formula": {change: price(5, 6), why: Reckoned, want: "Stock!F5 holds a formula, which is not written over"},
		"the result of a formula in another cell": {
			change: grid.Change{Sheet: "Yard's own", Row: 5, Put: []grid.Put{grid.PutNumber(1, dec("1"))}},
			why:    Reckoned, want: "Yard's own!A5 holds a formula, which is not written over"},
		"no such sheet": {change: grid.Change{Sheet: "Timber", Row: 1, Put: []grid.Put{grid.PutNumber(1, dec("1"))}}, why: Absent, want: `"Timber" cannot be changed: there is no such sheet`},
		"no such row":   {change: price(2, 1), why: Absent, want: "Stock!A2 cannot be changed: there is no such row"},
		"a row under nothing": {
			change: grid.Change{Sheet: "Stock", Row: 7, New: true, Put: []grid.Put{grid.PutNumber(1, dec("1"))}}, why: Absent, want: `"Stock" cannot be changed: there is no row 7 to put a new one under`},
		"a cell merged into another": {one, `<conditionalFormatting `, `<mergeCells><mergeCell ref="D4:E5"/></mergeCells><conditionalFormatting `,
			price(5, 5), "", Occupied, "there is no room at Stock!E5: it is merged into the cell at Stock!D4"},
		"a linked value": {one, `<c r="E4" s="4"`, `<c r="E4" s="4" vm="1"`, price(4, 5), "", Sealed, "Stock!E4 cannot be changed: its value is linked to data kept elsewhere in the file"},
		"a text under the last row": {one, `<row r="8">`, `<row r="7"><c r="D7" t="s"><v>0</v></c></row><row r="8">`,
			newPrice(), "", Occupied, "there is no room at Stock!A7: something is written at Stock!D7"},
		"a formula under the last row": {one, `<row r="8">`, `<row r="7"><c r="Z7"><f>E6</f></c></row><row r="8">`,
			newPrice(), "", Occupied, "there is no room at Stock!A7: something is written at Stock!Z7"},
		"a hidden row under the last": {one, `<row r="8">`, `<row r="7" hidden="1"/><row r="8">`, newPrice(), "", Occupied, "there is no room at Stock!A7: a hidden row stands at Stock!A7"},
		"merged cells under the last row": {one, `<conditionalFormatting `, `<mergeCells><mergeCell ref="J5:K7"/></mergeCells><conditionalFormatting `,
			newPrice(), "", Occupied, "there is no room at Stock!A7: cells are merged at Stock!J7"},
		"room of a formula under the last row": {one, `<f>"see "&amp;B6</f>`, `<f t="array" ref="A7:A8">1</f>`, newPrice(), "", Occupied,
			"there is no room at Stock!A7: the results of a formula have their place at Stock!A7"},
		"a blank row of totals": {"xl/tables/table1.xml", `ref="A3:F6" totalsRowShown="0"`, `ref="A3:F7" totalsRowCount="1"`, newPrice(), "", Occupied,
			"there is no room at Stock!A7: the table has its row of totals at Stock!A7"},
		"the row of totals itself": {"xl/tables/table1.xml", `totalsRowShown="0"`, `totalsRowCount="1"`, newPrice(), "", Occupied,
			"there is no room at Stock!A7: the table has its row of totals at Stock!A6"},
		"another table under the last row": {"xl/tables/table1.xml", `ref="A3:F6" totalsRowShown="0"`, `ref="A7:F9" totalsRowShown="0"`, newPrice(), "", Occupied,
			"there is no room at Stock!A7: another table begins at Stock!A7"},
		"a table filled by a query": {"xl/tables/table1.xml", `totalsRowShown="0"`, `tableType="queryTable"`, newPrice(), "", Sealed,
			"Stock!A7 cannot be changed: the table above it is filled from elsewhere"},
		"a table without a row": {"xl/tables/table1.xml", `totalsRowShown="0"`, `insertRow="1"`, newPrice(), "", Sealed,
			"Stock!A7 cannot be changed: the table above it has no row yet"},
		"the end of the sheet": {seven, `<row r="7"><c r="A7">`, `<row r="1048576"><c r="A1048576">`,
			grid.Change{Sheet: "Materials", Row: 1048576, New: true, Put: []grid.Put{grid.PutNumber(2, dec("1"))}}, "", Occupied, "there is no room at Materials!B1048576: the sheet ends there"},
		"a signed workbook": {"_xmlsignatures/sig1.xml", "", "<a/>", price(4, 5), "", Sealed, `"Stock" cannot be changed: the workbook is signed, and a change would break the signature`},
		"a control character": {change: grid.Change{Sheet: "Stock", Row: 6, Put: []grid.Put{grid.PutText(1, "a\x01")}}, why: Unfit,
			want: "Stock!A6 cannot be changed: its text holds the control character U+0001, which a file cannot"},
		"a number too large": {change: grid.Change{Sheet: "Stock", Row: 6, Put: []grid.Put{grid.PutNumber(5, dec("1E400"))}}, why: Unfit,
			want: "Stock!E6 cannot be changed: the number is beyond what a cell can hold"},
		"a day too early": {change: grid.Change{Sheet: "Stock", Row: 6, Put: []grid.Put{grid.PutDay(3, time.Date(1899, 1, 1, 0, 0, 0, 0, time.UTC))}}, why: Unfit,
			want: "Stock!C6 cannot be changed: spreadsheets cannot count days as early as 1 January 1899; write it as text"},
		"sheets that share their cells": {"xl/workbook.xml", `r:id="rId7"`, `r:id="rId1"`, price(4, 5), "", Unsure, `"Materials" cannot be changed: it shares its cells with the sheet "Stock"`},
		"a range written in marks of XML": {"xl/tables/table1.xml", `ref="A3:F6" totalsRowShown="0"`, `ref="A3:F&#54;" totalsRowShown="0"`, newPrice(), "", Unsure,
			`Stock!A7 cannot be changed: the range "A3:F&#54;" is written in an unusual way`},

		"a cell that is read hangs on the changed one": {change: price(4, 5), read: "Stock!F4", why: Dependent,
			want: "Stock!E4 cannot be changed: Stock!F4 is reckoned from it, and its stored result would no longer be true"},
		"a cell filled down hangs on the changed one": {change: price(6, 5), read: "Stock!F6", why: Dependent,
			want: "Stock!E6 cannot be changed: Stock!F6 is reckoned from it, and its stored result would no longer be true"},
		"a range takes in the new row": {change: newPrice(), read: "Yard's own!B1", why: Dependent,
			want: "Stock!E7 cannot be changed: Yard's own!B1 is reckoned from it, and its stored result would no longer be true"},
		"by way of another sheet and another formula": {own, "B3*2", "Stock!$F$5+1", price(5, 5), "Yard's own!C3", Dependent,
			"Stock!E5 cannot be changed: Yard's own!C3 is reckoned from it, and its stored result would no longer be true"},
		"by way of results that fill a range": {seven, "COUNTA(A2:A6)", "'Yard''s own'!A5", grid.Change{Sheet: "Yard's own", Row: 3, Put: []grid.Put{grid.PutNumber(2, dec("1"))}}, "Materials!A7", Dependent,
			"Yard's own!B3 cannot be changed: Materials!A7 is reckoned from it, and its stored result would no longer be true"},
		"by a name that grows with the rows": {seven, "COUNTA(A2:A6)", "COUNTA(kinds)", newPrice(), "Materials!A7", Dependent,
			"Stock!A7 cannot be changed: Materials!A7 is reckoned from it, and its stored result would no longer be true"},
		"by a table that grows with the rows": {seven, "COUNTA(A2:A6)", "SUM(StockLines[With tax])", newPrice(), "Materials!A7", Dependent,
			"Stock!F7 cannot be changed: Materials!A7 is reckoned from it, and its stored result would no longer be true"},
		"by several sheets": {seven, "COUNTA(A2:A6)", "SUM(Stock:'Yard''s own'!E5)", price(5, 5), "Materials!A7", Untraceable,
			"Stock!E5 cannot be changed: Materials!A7 may be reckoned from it, which cannot be told because of a range whose ends are reckoned"},
		"by several sheets in quotes": {seven, "COUNTA(A2:A6)", "SUM('Stock:Yard''s own'!E5)", price(5, 5), "Materials!A7", Dependent,
			"Stock!E5 cannot be changed: Materials!A7 is reckoned from it, and its stored result would no longer be true"},
		"in the column of the new row": {seven, "COUNTA(A2:A6)", "COUNTA(B:B)", material, "Materials!A7", Dependent,
			"Materials!B4 cannot be changed: Materials!A7 is reckoned from it, and its stored result would no longer be true"},
		"by INDIRECT, with a space": {seven, "COUNTA(A2:A6)", `INDIRECT ("A"&amp;2)`, price(4, 5), "Materials!A7", Untraceable,
			"Stock!E4 cannot be changed: Materials!A7 may be reckoned from it, which cannot be told because of INDIRECT"},
		"by INDIRECT": {seven, "COUNTA(A2:A6)", `INDIRECT("A"&amp;2)`, price(4, 5), "Materials!A7", Untraceable,
			"Stock!E4 cannot be changed: Materials!A7 may be reckoned from it, which cannot be told because of INDIRECT"},
		"by OFFSET in a formula on the way": {own, "B3*2", "_xlfn.OFFSET(A1,1,1)", price(4, 5), "Materials!A7", Untraceable,
			"Stock!E4 cannot be changed: Materials!A7 may be reckoned from it, which cannot be told because of OFFSET in Yard's own!C3"},
		"by a name that nothing defines": {seven, "COUNTA(A2:A6)", "Rate*2", price(4, 5), "Materials!A7", Untraceable,
			`Stock!E4 cannot be changed: Materials!A7 may be reckoned from it, which cannot be told because of the name "rate", which nothing defines`},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			parts := yardParts()
			if c.part != "" {
				if c.old != "" && strings.Count(parts[c.part], c.old) != 1 {
					t.Fatalf("%s holds %q %d times", c.part, c.old, strings.Count(parts[c.part], c.old))
				}
				parts[c.part] = strings.Replace(parts[c.part], c.old, c.new, 1)
			}
			if strings.Contains(c.new, "OFFSET") {
				parts[seven] = strings.Replace(parts[seven], "COUNTA(A2:A6)", "'Yard''s own'!$C$3", 1)
			}
			r := refusal(t, parts, reads(c.read), c.change)
			if r.Why != c.why || r.Error() != c.want {
				t.Errorf("reason %d: %s\nwanted %d: %s", r.Why, r, c.why, c.want)
			}
		})
	}
}

// What a formula that is read asks for may lie anywhere; whatever is in doubt
// is named.
func TestWhatCannotBeTracedIsRefusedWithItsCause(t *testing.T) {
	const names, cells = "xl/workbook.xml", "xl/worksheets/sheet7.xml"
	for name, c := range map[string]struct {
		formula, names, cause string
	}{
		"a name that moves with its cell": {`<f>Near</f>`, `<definedName name="Near">Stock!E4</definedName>`, `the name "near", which moves with the cell it stands in`},
		"a name that stands for itself and for a cell": {`<f>Loop</f>`, `<definedName name="Loop">Other+1</definedName><definedName name="other">Loop+Near</definedName><definedName name="Near">A1</definedName>`,
			`the name "near", which moves with the cell it stands in`},
		"a name of a sheet that wanders":      {`<f>Far*2</f>`, `<definedName name="Far" localSheetId="1">OFFSET(Stock!$A$1,1,1)</definedName>`, "OFFSET"},
		"a table that is not there":           {`<f>SUM(Gone[Price])</f>`, "", `the table "gone"`},
		"a table without a name":              {`<f>SUM([Price])</f>`, "", `the table ""`},
		"a table of trial values":             {`<f t="dataTable" ref="A7:A8" r1="A2"/>`, "", "a table of trial values"},
		"a formula filled down from nowhere":  {`<f t="shared" si="9"/>`, "", "a filled-down formula whose first cell is not above it"},
		"a range to a reckoned end":           {`<f>SUM(A1:INDEX(A:A,3))</f>`, "", "a range whose ends are reckoned"},
		"a range from a reckoned end":         {`<f>SUM(INDEX(A:A,3):A9)</f>`, "", "a range whose ends are reckoned"},
		"a range that names its sheet twice":  {`<f>SUM(Stock!A1:Stock!A2)</f>`, "", "a range whose ends are reckoned"},
		"a bracket that is not closed":        {`<f>SUM(StockLines[Price)</f>`, "", "a bracket that is not closed"},
		"a function of another old program":   {`<f>MULTIPLE.OPERATIONS(A1,A2,A3)</f>`, "", "MULTIPLE.OPERATIONS"},
		"a word that is no name and no cell":  {`<f>XFE1+A2</f>`, "", `the name "xfe1", which nothing defines`},
		"a cell beyond the last row of all":   {`<f>A1048577</f>`, "", `the name "a1048577", which nothing defines`},
		"a function of the macros by a name":  {`<f>Ours</f>`, `<definedName name="Ours" hidden="1">EVALUATE("A"&amp;1)</definedName>`, "EVALUATE"},
		"a name whose case is another's":      {`<f>nEaR</f>`, `<definedName name="NEAR">Stock!E$4</definedName>`, `the name "near", which moves with the cell it stands in`},
		"a name behind the name of its sheet": {`<f>'Yard''s own'!Far</f>`, `<definedName name="Far" localSheetId="1">INDIRECT("A1")</definedName>`, "INDIRECT"},
	} {
		t.Run(name, func(t *testing.T) {
			parts := yardParts()
			parts[cells] = strings.Replace(parts[cells], "<f>COUNTA(A2:A6)</f>", c.formula, 1)
			parts[names] = strings.Replace(parts[names], "</definedNames>", c.names+"</definedNames>", 1)
			r := refusal(t, parts, reads("Materials!A7"), grid.Change{Sheet: "Stock", Row: 5, Put: []grid.Put{grid.PutNumber(5, dec("1"))}})
			want := "Stock!E5 cannot be changed: Materials!A7 may be reckoned from it, which cannot be told because of " + c.cause
			if r.Why != Untraceable || r.Error() != want {
				t.Errorf("reason %d: %s\nwanted: %s", r.Why, r, want)
			}
		})
	}
}

// The last guard finds any cell that is not as it was meant.
func TestRowsThatAreNotAsMeantAreFound(t *testing.T) {
	cell := grid.Datum{Col: 2, Kind: grid.Number, Raw: "7", Value: dec("7"), Format: "0.00"}
	other := func(change func(*grid.Datum)) []grid.Line {
		d := cell
		change(&d)
		return []grid.Line{{Row: 4, Cells: []grid.Datum{d}}}
	}
	want := []grid.Line{{Row: 4, Cells: []grid.Datum{cell}}}
	for name, got := range map[string][]grid.Line{
		"no row":          nil,
		"a row too many":  append(other(func(*grid.Datum) {}), grid.Line{Row: 5}),
		"another row":     {{Row: 5, Cells: []grid.Datum{cell}}},
		"a hidden row":    {{Row: 4, Hidden: true, Cells: []grid.Datum{cell}}},
		"a cell too many": {{Row: 4, Cells: []grid.Datum{cell, {Col: 3}}}},
		"another column":  other(func(d *grid.Datum) { d.Col = 3 }),
		"another kind":    other(func(d *grid.Datum) { d.Kind = grid.Text }),
		"another text":    other(func(d *grid.Datum) { d.Raw = "7.0" }),
		"another number":  other(func(d *grid.Datum) { d.Value = dec("8") }),
		"another format":  other(func(d *grid.Datum) { d.Format = "" }),
		"a formula":       other(func(d *grid.Datum) { d.Formula = "A1" }),
		"as it should be": other(func(d *grid.Datum) { d.Value = dec("7.00") }),
	} {
		if err := samePage(want, got); (err == nil) != (name == "as it should be") {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestOnlyWhatHangsOnTheChangeIsRefused(t *testing.T) {
	const seven = "xl/worksheets/sheet7.xml"
	price := grid.Change{Sheet: "Stock", Row: 5, Put: []grid.Put{grid.PutNumber(5, dec("1"))}}
	for _, formula := range []string{
		"SUM(Stock!E4,Stock!E6)", "Stock!$F$4", `"Stock!E5"&amp;A2`, "StockLines[[#Headers],[Price]]", "StockLines[[Stock]:[Unit]]", "StockLines[from]",
		"[1]Stock!E5", "'[3]Stock'!$E$5", "Gone!E5", "SUM (E5)", "COUNT(Stock!A:A)+COUNT(Stock!F4:G4)", "#REF!", "IF(TRUE,1E5,2.5)", "Stock!5:5*0", "_xlfn.LET(_xlpm.E5,2,_xlpm.E5*2)", "LOG10(5)", "E5", "Materials!Kinds", "[0]!Kinds", "SUM({1,2;3,4})", "Stock!A4#",
	} {
		parts := yardParts()
		parts[seven] = strings.Replace(parts[seven], "COUNTA(A2:A6)", formula, 1)
		_, err := Patch(zipped(t, parts), []grid.Change{price}, reads("Materials!A7"))
		if refused := formula == "Stock!5:5*0"; refused != (err != nil) {
			t.Errorf("%s: %v", formula, err)
		}
	}
}

// Sixty names, each made of the next one twice, are followed in sixty steps.
func TestNamesMadeOfNamesAreFollowedOnce(t *testing.T) {
	parts := yardParts()
	names := `<definedName name="name.60">Stock!$E$4</definedName>`
	for n := range 60 {
		names += fmt.Sprintf(`<definedName name="name.%d">name.%d+name.%d</definedName>`, n, n+1, n+1)
	}
	parts["xl/workbook.xml"] = strings.Replace(parts["xl/workbook.xml"], "</definedNames>", names+"</definedNames>", 1)
	parts["xl/worksheets/sheet7.xml"] = strings.Replace(parts["xl/worksheets/sheet7.xml"], "COUNTA(A2:A6)", "name.0", 1)
	price := func(row int) grid.Change {
		return grid.Change{Sheet: "Stock", Row: row, Put: []grid.Put{grid.PutNumber(5, dec("1"))}}
	}
	if _, err := Patch(zipped(t, parts), []grid.Change{price(5)}, reads("Materials!A7")); err != nil {
		t.Error(err)
	}
	if r := refusal(t, parts, reads("Materials!A7"), price(4)); r.Why != Dependent || r.By != "A7" {
		t.Error(r)
	}
}

func TestABrokenWorkbookIsRefusedAsWhenRead(t *testing.T) {
	data := zipped(t, yardParts())
	data[len(data)/2] ^= 0x55
	out, err := Patch(data, []grid.Change{newPrice()}, nothing)
	var r *Refused
	if !errors.As(err, &r) || !errors.Is(err, ErrDamaged) || out != nil {
		t.Errorf("error %v, %d bytes", err, len(out))
	}
}

func TestAPartInAnotherEncodingIsRefused(t *testing.T) {
	parts := yardParts()
	wideText := "\xFF\xFE" + string(wide(parts["xl/worksheets/sheet1.xml"]))
	for name, part := range map[string]string{
		"two bytes a letter": wideText,
		"an old code page":   strings.Replace(parts["xl/worksheets/sheet1.xml"], "UTF-8", "windows-1252", 1),
	} {
		parts["xl/worksheets/sheet1.xml"] = part
		out, err := Patch(zipped(t, parts), []grid.Change{newPrice()}, nothing)
		if !errors.Is(err, ErrDamaged) || out != nil {
			t.Errorf("%s: error %v, %d bytes", name, err, len(out))
		}
	}
}

func TestChangesThatContradictEachOtherAreAFaultOfOurs(t *testing.T) {
	one := []grid.Put{grid.PutNumber(1, dec("1"))}
	for name, changes := range map[string][]grid.Change{
		"one cell twice":            {{Sheet: "Stock", Row: 4, Put: one}, {Sheet: "stock", Row: 4, Put: one}},
		"new rows under two rows":   {{Sheet: "Stock", Row: 6, New: true, Put: one}, {Sheet: "Stock", Row: 5, New: true, Put: one}},
		"nothing to put":            {{Sheet: "Stock", Row: 6}},
		"row 0":                     {{Sheet: "Stock", Put: one}},
		"a column off the sheet":    {{Sheet: "Stock", Row: 6, Put: []grid.Put{grid.PutNumber(0, dec("1"))}}},
		"a kind that cannot be put": {{Sheet: "Stock", Row: 6, Put: []grid.Put{{Col: 1, Kind: grid.Fault}}}},
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("no panic")
				}
			}()
			Patch(zipped(t, yardParts()), changes, nothing)
		})
	}
}
