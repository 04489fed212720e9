package xlsx

import (
	"archive/zip"
	"bytes"
	"errors"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"futtock/templates/grid"
)

// yardParts is a workbook as another program writes it, with all that a yard
// may have in one: a table of stock with drop-downs, notes, protection and a
// conditional format; a price list with a filter; a sheet of the yard's own
// with formulas and a chart; macros.
func yardParts() map[string]string {
	const head = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\r\n"
	p := plainParts("")
	p["[Content_Types].xml"] = head + `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="bin" ContentType="application/vnd.ms-office.vbaProject"/></Types>`
	p["xl/vbaProject.bin"] = "macros\x00\x01\xff"
	p["xl/charts/chart1.xml"] = head + `<c:chartSpace xmlns:c="urn:c"><c:f>Stock!$E$4:$E$6</c:f></c:chartSpace>`
	p["xl/comments1.xml"] = head + `<comments xmlns="` + nsMain + `"><commentList><comment ref="E6"><text><t>agreed in May</t></text></comment></commentList></comments>`
	p["xl/workbook.xml"] = head + `<workbook xmlns="` + nsMain + `" xmlns:r="` + nsRel + `"><workbookPr codeName="ThisWorkbook"/><workbookProtection lockStructure="1"/>` +
		`<sheets><sheet name="Stock" sheetId="1" r:id="rId1"/><sheet name="Yard's own" sheetId="4" state="hidden" r:id="rId5"/><sheet name="Materials" sheetId="7" r:id="rId7"/></sheets>` +
		`<definedNames><definedName name="_xlnm._FilterDatabase" localSheetId="2" hidden="1">Materials!$A$1:$C$3</definedName>` +
		`<definedName name="_xlnm.Print_Area" localSheetId="0">Stock!$A$1:$F$6</definedName>` +
		`<definedName name="Kinds"> Stock!$A$4:$A$6 </definedName><definedName name="Prices">Stock!$E$4:$E$6</definedName></definedNames>` +
		`<calcPr calcId="191029"/></workbook>`
	p["xl/_rels/workbook.xml.rels"] = relsHead +
		`<Relationship Id="rId1" Type="` + docType + `worksheet" Target="worksheets/sheet1.xml"/>` +
		`<Relationship Id="rId2" Type="` + docType + `sharedStrings" Target="sharedStrings.xml"/>` +
		`<Relationship Id="rId3" Type="` + docType + `styles" Target="styles.xml"/>` +
		`<Relationship Id="rId5" Type="` + docType + `worksheet" Target="/xl/worksheets/sheet5.xml"/>` +
		`<Relationship Id="rId7" Type="` + docType + `worksheet" Target="worksheets/sheet7.xml"/></Relationships>`
	p["xl/worksheets/_rels/sheet1.xml.rels"] = relsHead + `<Relationship Id="rId1" Type="` + docType + `table" Target="../tables/table1.xml"/></Relationships>`
	p["xl/tables/table1.xml"] = head + `<table xmlns="` + nsMain + `" id="1" name="Table1" displayName="StockLines" ref="A3:F6" totalsRowShown="0"><autoFilter ref="A3:F6"/>` +
		`<tableColumns count="6"><tableColumn id="1" name="Stock"/><tableColumn id="2" name="Timber"/><tableColumn id="3" name="From"/><tableColumn id="4" name="Unit"/>` +
		`<tableColumn id="5" name="Price"/><tableColumn id="6" name="With tax"><calculatedColumnFormula>StockLines[[#This Row],[Price]]*1.2</calculatedColumnFormula></tableColumn></tableColumns></table>`
	p["xl/worksheets/sheet1.xml"] = head + `<worksheet xmlns="` + nsMain + `" xmlns:r="` + nsRel + `" xmlns:x14ac="urn:x14ac">` +
		`<sheetPr><tabColor rgb="FF00FF00"/></sheetPr><dimension ref="A1:F8"/><sheetViews><sheetView workbookViewId="0"/></sheetViews>` +
		`<cols><col min="1" max="4" width="20" style="0"/><col min="7" max="9" width="9" style="2"/></cols><sheetData>` +
		`<row r="1" spans="1:6"><c r="A1" t="s"><v>0</v></c></row>` + "\n" +
		`<row r="3"><c r="A3" t="inlineStr"><is><t>Stock</t></is></c><c r="B3" t="inlineStr"><is><t>Timber</t></is></c><c r="E3" t="inlineStr"><is><t>Price</t></is></c></row>` +
		`<row r="4"><c r="A4" t="s"><v>1</v></c><c r="E4" s="4"><v>310</v></c><c r="F4" s="4"><f t="shared" ref="F4:F6" si="0">E4*1.2</f><v>372</v></c></row>` +
		`<row r="5"><c r="A5" t="s"><v>2</v></c><c r="E5" s="4" t="n"><v>295.5</v></c><c r="F5" s="4"><f t="shared" si="0"/><v>354.6</v></c></row>` +
		`<row r="6" spans="1:6" ht="22.5" customHeight="1" x14ac:dyDescent="0.25"><c r="A6" s="6" t="s"><v>1</v></c><c r="B6" s="5"/><c r="C6" s="1"><v>46113</v></c>` +
		`<c r="E6" s="4"><v>320</v></c><c r="F6" s="4"><f t="shared" si="0"/><v>384</v></c></row>` +
		`<row r="8"><c r="A8" t="str"><f>"see "&amp;B6</f><v>see </v></c></row>` +
		`</sheetData><sheetProtection algorithmName="SHA-512" hashValue="x" saltValue="y" sheet="1" objects="1"/>` +
		`<conditionalFormatting sqref="E4:E6"><cfRule type="cellIs" dxfId="0" priority="1" operator="lessThan"><formula>0</formula></cfRule></conditionalFormatting>` +
		`<dataValidations count="3"><dataValidation type="list" allowBlank="1" sqref="B4:B6 D4:D6 G4:G5"><formula1>Kinds</formula1></dataValidation>` +
		`<dataValidation type="decimal" sqref="E4:E6"><formula1>0</formula1></dataValidation>` +
		`<dataValidation type="list" sqref="A4:A6"><formula1>$A$4:$A$6</formula1></dataValidation></dataValidations>` +
		`<tableParts count="1"><tablePart r:id="rId1"/></tableParts>` +
		`<extLst><ext uri="{u}" xmlns:x14="http://schemas.microsoft.com/office/spreadsheetml/2009/9/main"><x14:dataValidations count="1" xmlns:xm="http://schemas.microsoft.com/office/excel/2006/main">` +
		`<x14:dataValidation type="list"><x14:formula1><xm:f>Materials!$A$2:$A$3</xm:f></x14:formula1><x14:formula2><xm:f>Stock!$A$4:$A$6</xm:f></x14:formula2><xm:sqref>C4:C6</xm:sqref></x14:dataValidation>` +
		`</x14:dataValidations></ext></extLst></worksheet>`
	p["xl/worksheets/sheet5.xml"] = "\uFEFF" + head + `<x:worksheet xmlns:x="` + nsMain + `"><x:dimension ref="A1:C9"/><x:sheetData>` +
		`<x:row><x:c><x:v>1</x:v></x:c><x:c><x:f>SUM(Stock!E4:E99)</x:f><x:v>925.5</x:v></x:c><x:c t='e'><x:f>1/0</x:f><x:v>#DIV/0!</x:v></x:c></x:row>` +
		`<x:row r="2"/><x:row><x:c r='B3'><x:v>7</x:v></x:c><x:c><x:f>B3*2</x:f><x:v>14</x:v></x:c></x:row>` +
		`<x:row><x:c><x:f t="array" ref="A4:A5">B3*{1;2}</x:f><x:v>7</x:v></x:c></x:row><x:row><x:c><x:v>14</x:v></x:c></x:row></x:sheetData></x:worksheet>`
	p["xl/worksheets/sheet7.xml"] = head + `<worksheet xmlns="` + nsMain + `"><dimension ref="A1:C3"/><sheetData>` +
		`<row r="1"><c r="A1" t="inlineStr"><is><t>Material</t></is></c><c r="B1" t="inlineStr"><is><t>Price</t></is></c><c r="C1" t="inlineStr"><is><t>From</t></is></c></row>` +
		`<row r="2"><c r="A2" t="s"><v>0</v></c><c r="B2"><v>4</v></c></row><row r="3" s="3" customFormat="1"><c r="A3" t="s"><v>1</v></c><c r="B3"><v>5</v></c></row><row r="4"><c r="A4" s="2"/></row><row r="5"/>` +
		`<row r="7"><c r="A7"><f>COUNTA(A2:A6)</f><v>2</v></c></row></sheetData><autoFilter ref="A1:C3"/>` +
		`<dataValidations count="1"><dataValidation type="list" sqref="D1"><formula1>'Yard''s own'!$B$1:$B$3</formula1></dataValidation></dataValidations></worksheet>`
	return p
}

// nothing is a program that reads no formula.
func nothing(string, int, int) bool { return false }

// reads is a program that reads the cells named, as "Stock!F4".
func reads(cells ...string) func(string, int, int) bool {
	return func(sheet string, row, col int) bool { return slices.Contains(cells, sheet+"!"+cellName(col, row)) }
}

// partsOf are the parts of a file by name.
func partsOf(t testing.TB, data []byte) map[string]string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	out := make(map[string]string)
	for _, f := range z.File {
		r, err := f.Open()
		if err != nil {
			t.Fatal(err)
		}
		b, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		out[f.Name] = string(b)
	}
	return out
}

// swaps are what is different in each part: old text, new text in turn.
type swaps map[string][]string

// patched makes the changes and checks that the parts differ in the swaps and
// in nothing else.
func patched(t *testing.T, parts map[string]string, changes []grid.Change, read func(string, int, int) bool, want swaps) []byte {
	t.Helper()
	data := zipped(t, parts)
	out, err := Patch(data, changes, read)
	if err != nil {
		t.Fatal(err)
	}
	meant := maps.Clone(parts)
	for name, list := range want {
		for i := 0; i < len(list); i += 2 {
			if n := strings.Count(meant[name], list[i]); n != 1 {
				t.Fatalf("%s holds %q %d times", name, list[i], n)
			}
			meant[name] = strings.Replace(meant[name], list[i], list[i+1], 1)
		}
	}
	if diff := cmp.Diff(meant, partsOf(t, out)); diff != "" {
		t.Errorf("parts (-meant +made):\n%s", diff)
	}
	return out
}

var april = time.Date(2027, 4, 1, 0, 0, 0, 0, time.UTC)

// newPrice is a new dated row of stock. 1 April 2027 is day 46478.
func newPrice() grid.Change {
	return grid.Change{Sheet: "stock", Row: 6, New: true, Put: []grid.Put{
		grid.PutNumber(5, dec("331.25")), grid.PutText(1, "Oak <baulk> & _x0041_"), grid.PutDay(3, april),
	}}
}

// dropped are the stored results of formulas that go when nothing is read.
func dropped() swaps {
	return swaps{
		"xl/worksheets/sheet1.xml": {
			`E4*1.2</f><v>372</v>`, `E4*1.2</f>`, `<v>354.6</v>`, ``, `<v>384</v>`, ``,
			`<c r="A8" t="str"><f>"see "&amp;B6</f><v>see </v></c>`, `<c r="A8"><f>"see "&amp;B6</f></c>`,
		},
		"xl/worksheets/sheet5.xml": {
			`<x:v>925.5</x:v>`, ``, `<x:c t='e'><x:f>1/0</x:f><x:v>#DIV/0!</x:v>`, `<x:c><x:f>1/0</x:f>`, `B3*2</x:f><x:v>14</x:v>`, `B3*2</x:f>`,
			`{1;2}</x:f><x:v>7</x:v>`, `{1;2}</x:f>`, `<x:row><x:c><x:v>14</x:v></x:c></x:row>`, `<x:row><x:c></x:c></x:row>`,
		},
		"xl/worksheets/sheet7.xml": {`<v>2</v></c></row></sheetData>`, `</c></row></sheetData>`},
	}
}

func TestANewRowIsPutAndTheRangesThatEndAboveItGrow(t *testing.T) {
	want := dropped()
	want["xl/worksheets/sheet1.xml"] = append(want["xl/worksheets/sheet1.xml"],
		`</c></row><row r="8">`, `</c></row><row r="7" ht="22.5" customHeight="1"><c r="A7" s="6" t="inlineStr"><is><t>Oak &lt;baulk&gt; &amp; _x005F_x0041_</t></is></c>`+
			`<c r="B7" s="5"/><c r="C7" s="1"><v>46478</v></c><c r="E7" s="4"><v>331.25</v></c><c r="F7" s="4"/></row><row r="8">`,
		`sqref="B4:B6 D4:D6 G4:G5"`, `sqref="B4:B7 D4:D7 G4:G5"`,
		`sqref="A4:A6"><formula1>$A$4:$A$6<`, `sqref="A4:A7"><formula1>$A$4:$A$7<`,
		`<xm:sqref>C4:C6<`, `<xm:sqref>C4:C7<`,
	)
	want["xl/tables/table1.xml"] = []string{`ref="A3:F6" totalsRowShown="0"><autoFilter ref="A3:F6"`, `ref="A3:F7" totalsRowShown="0"><autoFilter ref="A3:F7"`}
	want["xl/workbook.xml"] = []string{`> Stock!$A$4:$A$6 <`, `> Stock!$A$4:$A$7 <`}
	out := patched(t, yardParts(), []grid.Change{newPrice()}, nothing, want)

	book, err := Read("yard.xlsm", out)
	if err != nil {
		t.Fatal(err)
	}
	row := book.Sheets[0].Rows[5]
	if row.Row != 7 || row.Cell(1).Raw != "Oak <baulk> & _x0041_" || row.Cell(3).Raw != "46478" || row.Cell(3).Format != builtin(14) || !row.Cell(5).Value.Equal(dec("331.25")) {
		t.Errorf("the new row is read as %+v", row)
	}
}

func TestATableBesideTheOnePutIntoStaysAsItIs(t *testing.T) {
	parts := yardParts()
	parts["xl/worksheets/_rels/sheet1.xml.rels"] = strings.Replace(parts["xl/worksheets/_rels/sheet1.xml.rels"], "</Relationships>",
		`<Relationship Id="rId2" Type="`+docType+`table" Target="../tables/table2.xml"/></Relationships>`, 1)
	parts["xl/tables/table2.xml"] = `<table xmlns="` + nsMain + `" id="2" displayName="Own" ref="H3:I6"><tableColumns count="2"><tableColumn id="1" name="a"/><tableColumn id="2" name="b"/></tableColumns></table>`
	parts["xl/worksheets/sheet1.xml"] = strings.Replace(parts["xl/worksheets/sheet1.xml"], `<v>384</v></c></row>`, `<v>384</v></c><c r="H6" s="6"><v>1</v></c></row>`, 1)
	out, err := Patch(zipped(t, parts), []grid.Change{newPrice()}, nothing)
	if err != nil {
		t.Fatal(err)
	}
	got := partsOf(t, out)
	if got["xl/tables/table2.xml"] != parts["xl/tables/table2.xml"] || !strings.Contains(got["xl/tables/table1.xml"], "A3:F7") {
		t.Errorf("%s\n%s", got["xl/tables/table1.xml"], got["xl/tables/table2.xml"])
	}
}

func TestSeveralNewRowsStackAndBlankRowsAreFilled(t *testing.T) {
	want := dropped()
	want["xl/worksheets/sheet7.xml"] = append(want["xl/worksheets/sheet7.xml"],
		// Row 3 has a style of its own, which goes for cells that it lacks and does not show dates.
		`<c r="A4" s="2"/></row><row r="5"/><row r="7">`,
		`<c r="A4" t="inlineStr"><is><t>Oakum</t></is></c><c r="B4"><v>6</v></c></row>`+
			`<row r="5"><c r="A5" t="inlineStr"><is><t xml:space="preserve"> Pitch</t></is></c><c r="C5" s="3" t="inlineStr"><is><t>2027-04-01</t></is></c></row>`+
			`<row r="6" s="3" customFormat="1"><c r="A6" t="inlineStr"><is><t>Tar</t></is></c></row><row r="7">`,
		`<dimension ref="A1:C3"/>`, `<dimension ref="A1:C6"/>`,
		`<autoFilter ref="A1:C3"/>`, `<autoFilter ref="A1:C6"/>`,
	)
	want["xl/workbook.xml"] = []string{`Materials!$A$1:$C$3`, `Materials!$A$1:$C$6`}
	want["xl/worksheets/sheet1.xml"] = append(want["xl/worksheets/sheet1.xml"], `Materials!$A$2:$A$3`, `Materials!$A$2:$A$6`)
	add := func(put ...grid.Put) grid.Change { return grid.Change{Sheet: "Materials", Row: 3, New: true, Put: put} }
	patched(t, yardParts(), []grid.Change{
		add(grid.PutText(1, "Oakum"), grid.PutNumber(2, dec("6"))), add(grid.PutText(1, " Pitch"), grid.PutDay(3, april)), add(grid.PutText(1, "Tar")),
	}, nothing, want)
}

func TestACellIsPutAndNothingElseChanges(t *testing.T) {
	cases := map[string]struct {
		change grid.Change
		part   string
		want   []string
	}{
		"a price": {grid.Change{Sheet: "Stock", Row: 4, Put: []grid.Put{grid.PutNumber(5, dec("311.10"))}}, "sheet1.xml", []string{`<v>310</v>`, `<v>311.1</v>`}},
		"a price that says it is a number": {
			grid.Change{Sheet: "Stock", Row: 5, Put: []grid.Put{grid.PutNumber(5, dec("300"))}}, "sheet1.xml", []string{`<v>295.5</v>`, `<v>300</v>`}},
		"a text in the place of a shared one": {
			grid.Change{Sheet: "Stock", Row: 6, Put: []grid.Put{grid.PutText(1, "Larch")}}, "sheet1.xml",
			[]string{`<c r="A6" s="6" t="s"><v>1</v>`, `<c r="A6" s="6" t="inlineStr"><is><t>Larch</t></is>`}},
		"a number in the place of a text": {
			grid.Change{Sheet: "Stock", Row: 3, Put: []grid.Put{grid.PutNumber(5, dec("1"))}}, "sheet1.xml",
			[]string{`<c r="E3" t="inlineStr"><is><t>Price</t></is>`, `<c r="E3"><v>1</v>`}},
		"a blank cell with a look": {
			grid.Change{Sheet: "Stock", Row: 6, Put: []grid.Put{grid.PutText(2, "oak")}}, "sheet1.xml",
			[]string{`<c r="B6" s="5"/>`, `<c r="B6" s="5" t="inlineStr"><is><t>oak</t></is></c>`}},
		"two cells that are not there, within the row and past its end and that of the sheet": {
			grid.Change{Sheet: "Stock", Row: 4, Put: []grid.Put{grid.PutDay(8, april), grid.PutText(2, "oak")}}, "sheet1.xml",
			[]string{`<c r="E4"`, `<c r="B4" s="0" t="inlineStr"><is><t>oak</t></is></c><c r="E4"`, `</f></c></row><row r="5">`,
				`</f></c><c r="H4" s="2" t="inlineStr"><is><t>2027-04-01</t></is></c></row><row r="5">`, `ref="A1:F8"`, `ref="A1:H8"`}},
		"a cell past those a row says it takes": {
			grid.Change{Sheet: "Stock", Row: 1, Put: []grid.Put{grid.PutNumber(9, dec("1.5"))}}, "sheet1.xml",
			[]string{`<row r="1" spans="1:6"><c r="A1" t="s"><v>0</v></c>`, `<row r="1" spans="1:9"><c r="A1" t="s"><v>0</v></c><c r="I1" s="2"><v>1.5</v></c>`, `ref="A1:F8"`, `ref="A1:I8"`}},
		"a cell of a row without cells": {
			grid.Change{Sheet: "Yard's own", Row: 2, Put: []grid.Put{grid.PutNumber(2, dec("-0.000000000012")), grid.PutText(1, "a")}}, "sheet5.xml",
			[]string{`<x:row r="2"/>`, `<x:row r="2"><x:c r="A2" t="inlineStr"><x:is><x:t>a</x:t></x:is></x:c><x:c r="B2"><x:v>-1.2E-11</x:v></x:c></x:row>`}},
		"a cell without its name": {
			grid.Change{Sheet: "Yard's own", Row: 1, Put: []grid.Put{grid.PutNumber(1, dec("12345678901234567"))}}, "sheet5.xml",
			[]string{`<x:row><x:c><x:v>1</x:v>`, `<x:row><x:c><x:v>12345678901234600</x:v>`}},
	}
	for name, c := range cases {
		t.Run(name, func(t *testing.T) {
			want := dropped()
			part := "xl/worksheets/" + c.part
			want[part] = append(want[part], c.want...)
			patched(t, yardParts(), []grid.Change{c.change}, nothing, want)
		})
	}
}

func TestFormulasThatAreReadKeepTheirResults(t *testing.T) {
	want := dropped()
	want["xl/worksheets/sheet1.xml"] = []string{
		`<v>384</v>`, ``, `<c r="A8" t="str"><f>"see "&amp;B6</f><v>see </v></c>`, `<c r="A8"><f>"see "&amp;B6</f></c>`, `<v>320</v>`, `<v>321</v>`,
	}
	want["xl/worksheets/sheet5.xml"] = want["xl/worksheets/sheet5.xml"][:2]
	patched(t, yardParts(), []grid.Change{{Sheet: "Stock", Row: 6, Put: []grid.Put{grid.PutNumber(5, dec("321"))}}},
		reads("Stock!F4", "Stock!F5", "Yard's own!C1", "Yard's own!C3", "Yard's own!A4", "Yard's own!A5"), want)
}

func TestNoChangesAreNoDifference(t *testing.T) {
	data := zipped(t, yardParts())
	out, err := Patch(data, nil, nothing)
	if err != nil || !bytes.Equal(data, out) {
		t.Errorf("other bytes, error %v", err)
	}
}

// A workbook that the library has made, with charts, notes and a locked sheet.
func TestAWorkbookOfTheLibraryKeepsItsParts(t *testing.T) {
	book := sampleBook()
	charts := drawn()
	book.Sheets = append(book.Sheets, charts.Sheets...)
	data := written(t, book)
	out, err := Patch(data, []grid.Change{
		{Sheet: "Working", Row: 4, New: true, Put: []grid.Put{grid.PutText(1, "ft3")}},
		{Sheet: "Cash", Row: 2, Put: []grid.Put{grid.PutNumber(2, dec("77"))}},
	}, reads("Bill of O'Hara!F6", "Bill of O'Hara!F7", "Bill of O'Hara!D7"))
	if err != nil {
		t.Fatal(err)
	}
	want, got := partsOf(t, data), partsOf(t, out)
	for name, list := range map[string][]string{
		"xl/worksheets/sheet1.xml": {`<v>3878.13</v></c><c r="G5"`, `</c><c r="G5"`, `<v>3878.13</v></c></row></sheetData>`, `</c></row></sheetData>`,
			`'Working'!$A$2:$A$4`, `'Working'!$A$2:$A$5`},
		"xl/worksheets/sheet2.xml": {`</row></sheetData>`, `</row><row r="5"><c r="A5" t="inlineStr"><is><t>ft3</t></is></c><c r="B5" s="7"/></row></sheetData>`, `ref="A1:B4"`, `ref="A1:B5"`},
		"xl/worksheets/sheet3.xml": {`<v>2</v>`, `<v>77</v>`},
		"xl/workbook.xml":          {`$A$2:$A$4`, `$A$2:$A$5`},
	} {
		for i := 0; i < len(list); i += 2 {
			if n := strings.Count(want[name], list[i]); n != 1 {
				t.Fatalf("%s holds %q %d times", name, list[i], n)
			}
			want[name] = strings.Replace(want[name], list[i], list[i+1], 1)
		}
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("parts (-meant +made):\n%s", diff)
	}
}

// refusal makes the changes, which must be refused, and gives the refusal.
func refusal(t *testing.T, parts map[string]string, read func(string, int, int) bool, changes ...grid.Change) *Refusal {
	t.Helper()
	out, err := Patch(zipped(t, parts), changes, read)
	var r *Refusal
	if !errors.As(err, &r) || out != nil {
		t.Fatalf("error %v, %d bytes", err, len(out))
	}
	return r
}
