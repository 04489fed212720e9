package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/templates/grid"
)

const (
	relsHead = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?><Relationships xmlns="` + nsPack + `">`
	docType  = `http://schemas.openxmlformats.org/officeDocument/2006/relationships/`
)

// plainParts is a workbook of one sheet as a program would write it, by part;
// tests replace what they are about.
func plainParts(sheetData string) map[string]string {
	return map[string]string{
		"[Content_Types].xml": `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"/>`,
		"_rels/.rels":         relsHead + `<Relationship Id="rId1" Type="` + docType + `officeDocument" Target="xl/workbook.xml"/></Relationships>`,
		"xl/workbook.xml": `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\r\n" +
			`<workbook xmlns="` + nsMain + `" xmlns:r="` + nsRel + `"><workbookPr/><sheets><sheet name="Members" sheetId="1" r:id="rId1"/></sheets></workbook>`,
		"xl/_rels/workbook.xml.rels": relsHead +
			`<Relationship Id="rId1" Type="` + docType + `worksheet" Target="worksheets/sheet1.xml"/>` +
			`<Relationship Id="rId2" Type="` + docType + `sharedStrings" Target="sharedStrings.xml"/>` +
			`<Relationship Id="rId3" Type="` + docType + `styles" Target="styles.xml"/></Relationships>`,
		"xl/sharedStrings.xml": `<sst xmlns="` + nsMain + `"><si><t>Frame 12</t></si>` +
			`<si><r><rPr><b/></rPr><t>Oak </t></r><r><t xml:space="preserve">futtock </t></r><rPh sb="0" eb="1"><t>yomi</t></rPh><phoneticPr fontId="1"/></si>` +
			`<si><t xml:space="preserve"> two_x000D_` + "\n" + `lines _x005F_x000D_ </t></si><si><t/></si></sst>`,
		"xl/styles.xml": `<styleSheet xmlns="` + nsMain + `"><numFmts count="2"><numFmt numFmtId="164" formatCode="0.0 &quot;m&quot;"/><numFmt numFmtId="165" formatCode="General"/></numFmts>` +
			`<cellStyleXfs><xf numFmtId="9"/></cellStyleXfs><cellXfs>` +
			`<xf numFmtId="0"/><xf numFmtId="14"/><xf numFmtId="10"/><xf numFmtId="13"/><xf numFmtId="164"/><xf numFmtId="165"/><xf numFmtId="46"/><xf numFmtId="30"/>` +
			`</cellXfs></styleSheet>`,
		"xl/worksheets/sheet1.xml": sheetXML(sheetData),
	}
}

func sheetXML(sheetData string) string {
	return `<?xml version="1.0" encoding="UTF-8" standalone="yes"?><worksheet xmlns="` + nsMain + `" xmlns:r="` + nsRel + `"><dimension ref="A1"/><sheetData>` +
		sheetData + `</sheetData><mergeCells count="1"><mergeCell ref="A1:B1"/></mergeCells></worksheet>`
}

// zipped packs parts into a file, in the order of their names.
func zipped(t testing.TB, parts map[string]string) []byte {
	t.Helper()
	var buf bytes.Buffer
	z := zip.NewWriter(&buf)
	for _, name := range slices.Sorted(maps.Keys(parts)) {
		w, err := z.Create(name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write([]byte(parts[name])); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// readParts reads a workbook of these parts and gives its first sheet.
func readParts(t *testing.T, parts map[string]string) grid.Page {
	t.Helper()
	book, err := Read("yard.xlsx", zipped(t, parts))
	if err != nil {
		t.Fatal(err)
	}
	return book.Sheets[0]
}

func num(col int, raw, value, format string) grid.Datum {
	return grid.Datum{Col: col, Kind: grid.Number, Raw: raw, Value: dec(value), Format: format}
}

func TestEveryKindOfCellIsReadAsItIsStored(t *testing.T) {
	text := func(col int, s string) grid.Datum { return grid.Datum{Col: col, Kind: grid.Text, Raw: s} }
	reckoned := func(d grid.Datum, formula string) grid.Datum { d.Formula = formula; return d }
	cases := []struct {
		name, row string
		want      []grid.Datum
	}{
		{"a number with no kind", `<c r="A1"><v>12.5</v></c>`, []grid.Datum{num(1, "12.5", "12.5", "")}},
		{"a number as LibreOffice marks it", `<c r="A1" t="n"><v>1E-005</v></c>`, []grid.Datum{num(1, "1E-005", "0.00001", "")}},
		{"binary noise beyond 15 digits", `<c r="A1"><v>1.1499999999999999</v></c><c r="B1"><v>0.30000000000000004</v></c>`,
			[]grid.Datum{num(1, "1.1499999999999999", "1.15", ""), num(2, "0.30000000000000004", "0.3", "")}},
		{"a large and a negative number", `<c r="A1"><v>1.2345678901234567E+19</v></c><c r="B1"><v>-3</v></c>`,
			[]grid.Datum{num(1, "1.2345678901234567E+19", "12345678901234600000", ""), num(2, "-3", "-3", "")}},
		{"the number formats", `<c r="A1" s="1"><v>45292</v></c><c r="B1" s="2"><v>0.12</v></c><c r="C1" s="3"><v>0.5</v></c><c r="D1" s="4"><v>7.5</v></c><c r="E1" s="5"><v>1</v></c><c r="F1" s="6"><v>1.5</v></c><c r="G1" s="7"><v>45292</v></c>`,
			[]grid.Datum{num(1, "45292", "45292", "mm-dd-yy"), num(2, "0.12", "0.12", "0.00%"), num(3, "0.5", "0.5", "# ??/??"),
				num(4, "7.5", "7.5", `0.0 "m"`), num(5, "1", "1", ""), num(6, "1.5", "1.5", "[h]:mm:ss"), num(7, "45292", "45292", "yyyy/m/d")}},
		{"shared texts, rich and escaped", `<c r="A1" t="s"><v>0</v></c><c r="B1" t="s"><v>1</v></c><c r="C1" t="s"><v>2</v></c>`,
			[]grid.Datum{text(1, "Frame 12"), text(2, "Oakfuttock "), text(3, " two\nlines _x000D_ ")}},
		{"an empty shared text is blank", `<c r="A1" t="s"><v>3</v></c>`, nil},
		{"texts within the cell", `<c r="A1" t="inlineStr"><is><t>in&amp;line</t></is></c><c r="B1" t="inlineStr"><is><r><t>a</t></r><r><t>b</t></r></is></c>`,
			[]grid.Datum{text(1, "in&line"), text(2, "ab")}},
		{"spaces alone are text", `<c r="A1" t="inlineStr"><is><t xml:space="preserve">  </t></is></c>`, []grid.Datum{text(1, "  ")}},
		{"truth values of both spellings", `<c r="A1" t="b"><v>1</v></c><c r="B1" t="b"><v>false</v></c>`,
			[]grid.Datum{{Col: 1, Kind: grid.Bool, Raw: "1"}, {Col: 2, Kind: grid.Bool, Raw: "0"}}},
		{"an error value", `<c r="A1" t="e"><f>B1/0</f><v>#DIV/0!</v></c>`, []grid.Datum{{Col: 1, Kind: grid.Fault, Raw: "#DIV/0!", Formula: "B1/0"}}},
		{"a date stored as such", `<c r="A1" t="d"><v>2027-03-04</v></c>`, []grid.Datum{{Col: 1, Kind: grid.Date, Raw: "2027-03-04"}}},
		{"formulas with their results", `<c r="A1"><f>1+1</f><v>2</v></c><c r="B1" t="str"><f>"a"</f><v>a</v></c><c r="C1" t="b"><f aca="false">FALSE()</f><v>0</v></c>`,
			[]grid.Datum{reckoned(num(1, "2", "2", ""), "1+1"), reckoned(text(2, "a"), `"a"`),
				{Col: 3, Kind: grid.Bool, Raw: "0", Formula: "FALSE()"}}},
		{"a formula never calculated is not zero", `<c r="A1"><f>SUM(B1:B9)</f></c><c r="B1" t="str"><f>C1</f></c><c r="C1"><f>D1</f><v></v></c>`,
			[]grid.Datum{{Col: 1, Formula: "SUM(B1:B9)"}, {Col: 2, Formula: "C1"}, {Col: 3, Formula: "D1"}}},
		{"a formula that comes to no text", `<c r="A1" t="str"><f>IF(1,"","")</f><v></v></c>`,
			[]grid.Datum{{Col: 1, Kind: grid.Text, Formula: `IF(1,"","")`}}},
		{"cells with only a look are left out", `<c r="A1" s="4"/><c r="B1" s="4"><v></v></c><c r="C1" s="0"><v>1</v></c>`, []grid.Datum{num(3, "1", "1", "")}},
		{"cells without places follow on", `<c><v>1</v></c><c><v>2</v></c><c r="F1"><v>3</v></c><c><v>4</v></c>`,
			[]grid.Datum{num(1, "1", "1", ""), num(2, "2", "2", ""), num(6, "3", "3", ""), num(7, "4", "4", "")}},
		{"the last cell there can be", `<c r="XFD1"><v>1</v></c>`, []grid.Datum{num(16384, "1", "1", "")}},
		{"extensions within a cell are passed over", `<c r="A1"><v>1</v><extLst><ext uri="x"><v>9</v></ext></extLst></c>`, []grid.Datum{num(1, "1", "1", "")}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			page := readParts(t, plainParts(`<row r="1">`+c.row+`</row>`))
			var got []grid.Datum
			if len(page.Rows) > 0 {
				got = page.Rows[0].Cells
			}
			if diff := cmp.Diff(c.want, got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

func TestCellsOfFilledDownAndArrayFormulasAllCountAsReckoned(t *testing.T) {
	page := readParts(t, plainParts(
		`<row r="1"><c r="A1"><f t="shared" ref="A1:A3" si="0">B1*2</f><v>2</v></c><c r="C1"><f t="array" ref="C1:D2">{1,2;3,4}</f><v>1</v></c><c r="D1"><v>2</v></c><c r="E1"><v>9</v></c></row>`+
			`<row r="2"><c r="A2"><f t="shared" si="0"/><v>4</v></c><c r="C2"><v>3</v></c><c r="D2"><v>4</v></c></row>`+
			`<row r="3"><c r="A3"><f t="shared" si="0"></f><v>6</v></c><c r="B3"><f t="shared" si="7"/><v>6</v></c><c r="C3"><v>5</v></c></row>`+
			`<row r="4"><c r="A4"><f t="dataTable" ref="A4:A5" dt2D="0" r1="B1"/><v>1</v></c></row><row r="5"><c r="A5"><v>1</v></c></row>`))
	var got []string
	for _, l := range page.Rows {
		for _, d := range l.Cells {
			got = append(got, fmt.Sprintf("%s=%s %s", cellName(d.Col, l.Row), d.Value, d.Formula))
		}
	}
	want := []string{"A1=2 B1*2", "C1=1 {1,2;3,4}", "D1=2 {1,2;3,4}", "E1=9 ", "A2=4 B1*2", "C2=3 {1,2;3,4}", "D2=4 {1,2;3,4}",
		"A3=6 B1*2", "B3=6 (filled down)", "C3=5 ", "A4=1 TABLE()", "A5=1 TABLE()"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestRowsKeepTheirNumbersAndWhetherTheyAreHidden(t *testing.T) {
	page := readParts(t, plainParts(`<row><c><v>1</v></c></row><row r="4" hidden="1"><c><v>2</v></c></row><row hidden="true"><c><v>3</v></c></row><row r="9" hidden="1"/><row r="1048576"><c><v>4</v></c></row>`))
	var got []string
	for _, l := range page.Rows {
		got = append(got, fmt.Sprint(l.Row, l.Hidden))
	}
	if diff := cmp.Diff([]string{"1 false", "4 true", "5 true", "1048576 false"}, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestSheetsKeepOrderNamesAndWhetherTheyAreHidden(t *testing.T) {
	parts := plainParts("")
	parts["xl/workbook.xml"] = `<workbook xmlns="` + nsMain + `" xmlns:r="` + nsRel + `"><workbookPr date1904="1"/><sheets>` +
		`<sheet name="Stock &amp; timber" sheetId="4" r:id="b"/><sheet name="Job" sheetId="1" state="hidden" r:id="a"/><sheet name="Chart" sheetId="2" r:id="c"/><sheet name="Norms" sheetId="3" state="veryHidden" r:id="d"/></sheets></workbook>`
	parts["xl/_rels/workbook.xml.rels"] = relsHead +
		`<Relationship Id="a" Type="` + docType + `worksheet" Target="/xl/worksheets/one.xml"/>` +
		`<Relationship Id="b" Type="` + docType + `worksheet" Target="worksheets/../worksheets/TWO.xml"/>` +
		`<Relationship Id="c" Type="` + docType + `chartsheet" Target="chartsheets/sheet1.xml"/>` +
		`<Relationship Id="d" Type="` + docType + `worksheet" Target="worksheets\three.xml"/>` +
		`<Relationship Id="e" Type="` + docType + `hyperlink" Target="http://example.org" TargetMode="External"/></Relationships>`
	parts["xl/worksheets/one.xml"] = sheetXML(`<row r="1"><c r="A1"><v>1</v></c></row>`)
	parts["xl/worksheets/two.xml"] = sheetXML(`<row r="1"><c r="A1"><v>2</v></c></row>`)
	parts["xl/worksheets/three.xml"] = sheetXML("")
	parts["xl/chartsheets/sheet1.xml"] = `<chartsheet xmlns="` + nsMain + `"><sheetViews/></chartsheet>`
	book, err := Read("yard.xlsx", zipped(t, parts))
	if err != nil {
		t.Fatal(err)
	}
	want := grid.Workbook{Name: "yard.xlsx", Date1904: true, Sheets: []grid.Page{
		{Name: "Stock & timber", Rows: []grid.Line{{Row: 1, Cells: []grid.Datum{num(1, "2", "2", "")}}}},
		{Name: "Job", Hidden: true, Rows: []grid.Line{{Row: 1, Cells: []grid.Datum{num(1, "1", "1", "")}}}},
		{Name: "Chart"}, {Name: "Norms", Hidden: true},
	}}
	if diff := cmp.Diff(want, book); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestTheStrictFormIsReadLikeTheUsualOne(t *testing.T) {
	row := `<row r="1"><c r="A1" t="s"><v>0</v></c><c r="B1" s="2"><v>0.5</v></c></row>`
	usual := plainParts(row)
	strict := make(map[string]string)
	for name, part := range usual {
		part = strings.ReplaceAll(part, nsMain, nsMainStrict)
		strict[name] = strings.ReplaceAll(part, nsRel, nsRelStrict)
	}
	if diff := cmp.Diff(readParts(t, usual), readParts(t, strict)); diff != "" {
		t.Errorf("(-usual +strict):\n%s", diff)
	}
	if got := readParts(t, strict).Rows[0].Cell(1).Raw; got != "Frame 12" {
		t.Errorf("A1 = %q", got)
	}
}

func TestPrefixedNamesAndAByteMarkAreRead(t *testing.T) {
	parts := plainParts("")
	parts["xl/worksheets/sheet1.xml"] = "\uFEFF" + `<?xml version="1.0" encoding="utf-8"?><x:worksheet xmlns:x="` + nsMain + `"><x:sheetData><x:row r="2"><x:c r="B2"><x:v>7</x:v></x:c></x:row></x:sheetData></x:worksheet>`
	if got := readParts(t, parts).Rows[0].Cell(2).Value; !got.Equal(dec("7")) {
		t.Errorf("B2 = %s", got)
	}
}

func TestEscapesInTextAreDecoded(t *testing.T) {
	cases := map[string]string{
		"plain":                           "plain",
		"a_x000D__x000A_b":                "a\nb",
		"a\rb":                            "a\nb",
		"_x005F_x000D_":                   "_x000D_",
		"_x005f_":                         "_",
		"_xD83D__xDE00_":                  "\U0001F600",
		"_xD83D_ alone":                   "_xD83D_ alone",
		"_x00e9_t_x00E9_":                 "été",
		"_x12_ _xZZZZ_ _x0041":            "_x12_ _xZZZZ_ _x0041",
		"part_x0020number and ½ é \u20AC": "part_x0020number and ½ é €",
	}
	for in, want := range cases {
		if got := unescape(in); got != want {
			t.Errorf("%q: got %q, want %q", in, got, want)
		}
	}
}

func TestCellNamesAreReadAndWritten(t *testing.T) {
	for name, at := range map[string][2]int{"A1": {1, 1}, "Z9": {26, 9}, "AA10": {27, 10}, "XFD1048576": {16384, 1048576}} {
		col, row, ok := parseCell(name)
		if !ok || col != at[0] || row != at[1] || cellName(col, row) != name {
			t.Errorf("%s: %d %d %v, written %s", name, col, row, ok, cellName(col, row))
		}
	}
	for _, name := range []string{"", "A", "1", "a1", "A0", "A01", "XFE1", "A1048577", "AAAA1", "A1:B2", "$A$1", "A1 ", "A99999999999999999999"} {
		if _, _, ok := parseCell(name); ok {
			t.Errorf("%q is taken for a cell", name)
		}
	}
}
