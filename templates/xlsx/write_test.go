package xlsx

import (
	"archive/zip"
	"bytes"
	"fmt"
	"io"
	"regexp"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"futtock/templates/grid"
)

// partOf is one part of a written file.
func partOf(t *testing.T, data []byte, name string) string {
	t.Helper()
	z, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	f, err := z.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	b, err := io.ReadAll(f)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

func written(t *testing.T, book *grid.Book) []byte {
	t.Helper()
	data, err := Write(book)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// oneCell is a book of a single cell.
func oneCell(c grid.Cell) *grid.Book {
	return &grid.Book{Title: "one", Sheets: []*grid.Sheet{{Name: "Job", Rows: []grid.Row{{Cells: []grid.Cell{c}}}}}}
}

func TestTheSameBookGivesTheSameBytes(t *testing.T) {
	first := written(t, sampleBook())
	for range 20 {
		if !bytes.Equal(first, written(t, sampleBook())) {
			t.Fatal("other bytes the next time")
		}
	}
	z, err := zip.NewReader(bytes.NewReader(first), int64(len(first)))
	if err != nil {
		t.Fatal(err)
	}
	if z.File[0].Name != "[Content_Types].xml" {
		t.Errorf("the first part is %q", z.File[0].Name)
	}
	for _, f := range z.File {
		if f.Modified.Year() != 1980 {
			t.Errorf("%s bears the date %v", f.Name, f.Modified)
		}
	}
}

func TestABookIsReadBackAsItWasWritten(t *testing.T) {
	book, err := Read("bill.xlsx", written(t, sampleBook()))
	if err != nil {
		t.Fatal(err)
	}
	bill := book.Sheets[0]
	var got []string
	for _, l := range bill.Rows {
		for _, d := range l.Cells {
			if l.Row > 5 || d.IsFormula() {
				got = append(got, fmt.Sprintf("%s kind %d %q %s =%s [%s]", cellName(d.Col, l.Row), d.Kind, clip(d.Raw), d.Value, d.Formula, d.Format))
			}
		}
	}
	want := []string{
		`F5 kind 1 "3878.13" 3878.13 =ROUND(C5*E5,2) [[$£-809]#,##0.00]`,
		`A6 kind 2 "3.1a" 0 = []`,
		`B6 kind 2 "of which steaming & bending, \"as needed\" <half>" 0 = []`,
		`F6 kind 2 "" 0 =IF(F5>0,"","none") []`,
		`A7 kind 2 "3.1b" 0 = []`,
		`B7 kind 2 "=1+1 is text" 0 = []`,
		`C7 kind 3 "1" 0 = []`,
		`D7 kind 3 "1" 0 =C5>1 []`,
		`E7 kind 1 "46450" 46450 = [d mmm yyyy]`,
		`F7 kind 2 " 3.1 " 0 =" "&A5&" " []`,
		`B8 kind 2 "Total" 0 = []`,
		`F8 kind 1 "3878.13" 3878.13 =SUM(F5:F7) [[$£-809]#,##0.00]`,
	}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestEveryFeatureOfASheetIsInTheFile(t *testing.T) {
	data := written(t, sampleBook())
	cases := []struct{ name, part, want string }{
		{"the range in use", "xl/worksheets/sheet1.xml", `<dimension ref="A1:G8">`},
		{"the tab's colour", "xl/worksheets/sheet1.xml", `<tabColor rgb="336699">`},
		{"the outline folding upwards", "xl/worksheets/sheet1.xml", `<outlinePr summaryBelow="false">`},
		{"the depth of the outline", "xl/worksheets/sheet1.xml", `<sheetFormatPr outlineLevelRow="1" `},
		{"the level of a row", "xl/worksheets/sheet1.xml", `<row r="7" outlineLevel="1">`},
		{"the panes kept in view", "xl/worksheets/sheet1.xml", `state="frozen" topLeftCell="C5" xSplit="2" ySplit="4"`},
		{"the columns in rising order, the last hidden", "xl/worksheets/sheet1.xml",
			`<cols><col min="1" max="1" width="8.7109375" customWidth="1"/><col min="2" max="2" width="40.7109375" customWidth="1"/>`},
		{"a hidden column", "xl/worksheets/sheet1.xml", `<col min="7" max="7" width="9.7109375" customWidth="1" hidden="1"/></cols>`},
		{"a merge", "xl/worksheets/sheet1.xml", `<mergeCell ref="A2:F2"/>`},
		{"a link", "xl/worksheets/sheet1.xml", `<hyperlink ref="A5" location="&#39;Working&#39;!A2">`},
		{"a strict list", "xl/worksheets/sheet1.xml", `error="choose one of the units" errorStyle="stop" errorTitle="Unit" showErrorMessage="true" sqref="D5:D7" type="list"><formula1>'Working'!$A$2:$A$4</formula1>`},
		{"a warning list of a name", "xl/worksheets/sheet1.xml", `errorStyle="warning" errorTitle="Amount" showErrorMessage="true" sqref="C5:C7" type="list"><formula1>Units</formula1>`},
		{"a shade", "xl/worksheets/sheet1.xml", `<cfRule type="expression" dxfId="0" priority="1"><formula>AND($E5=&#34;&#34;,$C5&lt;&gt;&#34;&#34;)`},
		{"the fill of the shade", "xl/styles.xml", `<dxf><fill><patternFill patternType="solid"><bgColor rgb="FFFFCCCC">`},
		{"protection without a password", "xl/worksheets/sheet1.xml", `<sheetProtection sheet="true" objects="true" scenarios="true" formatCells="true" formatColumns="false" formatRows="false"`},
		{"selecting on a protected sheet", "xl/worksheets/sheet1.xml", `selectLockedCells="false" sort="true" autoFilter="false" pivotTables="true" selectUnlockedCells="false"`},
		{"a cell open to change", "xl/styles.xml", `<protection hidden="false" locked="false">`},
		{"the filter", "xl/worksheets/sheet1.xml", `<autoFilter ref="$A$4:$F$7">`},
		{"the filter's name", "xl/workbook.xml", `_xlnm._FilterDatabase">&#39;Bill of O&#39;&#39;Hara&#39;!$A$4:$F$7<`},
		{"the paper", "xl/worksheets/sheet1.xml", `<pageSetup fitToHeight="0" fitToWidth="1" orientation="landscape" paperSize="9">`},
		{"one page wide", "xl/worksheets/sheet1.xml", `<pageSetUpPr fitToPage="true">`},
		{"the page break", "xl/worksheets/sheet1.xml", `<brk id="6" max="16383" man="true">`},
		{"the foot of the page", "xl/worksheets/sheet1.xml", `<oddFooter>&amp;RPage &amp;P of &amp;N</oddFooter>`},
		{"the headings on every page", "xl/workbook.xml", `name="_xlnm.Print_Titles">&#39;Bill of O&#39;&#39;Hara&#39;!$4:$4<`},
		{"the area printed", "xl/workbook.xml", `name="_xlnm.Print_Area">&#39;Bill of O&#39;&#39;Hara&#39;!$A$1:$F$8<`},
		{"a defined name", "xl/workbook.xml", `<definedName name="Units">&#39;Working&#39;!$A$2:$A$4<`},
		{"reckoning on loading", "xl/workbook.xml", `fullCalcOnLoad="true"`},
		{"a note's text", "xl/comments1.xml", `The rate is by the metre run.`},
		{"a note's letters", "xl/comments1.xml", `<sz val="9">`},
		{"the notes of the second sheet", "xl/comments2.xml", `Read by the lists.`},
		{"a note beside its cell, not on it", "xl/drawings/vmlDrawing1.vml", `<x:Anchor>5, 15, 3, 4, `},
		{"the ordinary letters", "xl/styles.xml", `<font><sz val="10"></sz><color theme="1"></color><name val="Arial">`},
		{"the title", "docProps/core.xml", `<dc:title>Bill T-1</dc:title>`},
		{"the creator", "docProps/core.xml", `<dc:creator>The yard</dc:creator><lastModifiedBy>The yard</lastModifiedBy><dc:language>en-GB`},
		{"the stamp", "docProps/core.xml", `<dcterms:created xsi:type="dcterms:W3CDTF">2027-01-02T00:00:00Z`},
		{"the program", "docProps/app.xml", `<Application>futtock</Application>`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			if part := partOf(t, data, c.part); !strings.Contains(part, c.want) {
				t.Errorf("%s has no %s", c.part, c.want)
			}
		})
	}
}

func TestNumbersGoOutAtFifteenDigitsHalvesAwayFromNought(t *testing.T) {
	cases := map[string]string{
		"0.1":                  "0.1",
		"1234567.891":          "1234567.891",
		"123456789012345":      "123456789012345",
		"1234567890123.455":    "1234567890123.46", // 16 digits, a half
		"-1234567890123.455":   "-1234567890123.46",
		"1.99999999999999989":  "2",
		"12345678901234567890": "12345678901234600000",
		"0.00000000000001":     "0.00000000000001",
		"-0.005":               "-0.005",
		"0":                    "0",
	}
	for in, want := range cases {
		data := written(t, oneCell(grid.Numeric(dec(in), grid.Style{})))
		book, err := Read("one.xlsx", data)
		if err != nil {
			t.Fatal(err)
		}
		if got := book.Sheets[0].Rows[0].Cell(1).Value; !got.Equal(dec(want)) {
			t.Errorf("%s is read back as %s, want %s", in, got, want)
		}
		if v := regexp.MustCompile(`<v>(.*?)</v>`).FindStringSubmatch(partOf(t, data, "xl/worksheets/sheet1.xml")); v[1] != want {
			t.Errorf("%s stands in the file as %s, want %s", in, v[1], want)
		}
	}
}

func TestDaysAreCountedAsSpreadsheetsDo(t *testing.T) {
	// 1 January 2024 is 45292 and 1 March 1900 is 61 in every spreadsheet program.
	for day, want := range map[string]int{"2024-01-01": 45292, "1900-03-01": 61, "2027-03-04": 46450} {
		d, err := time.ParseInLocation(time.DateOnly, day, time.FixedZone("far west", -11*3600))
		if err != nil {
			t.Fatal(err)
		}
		if got := serial(d); got != want {
			t.Errorf("%s: day %d, want %d", day, got, want)
		}
	}
}

func TestWhatAFileCannotHoldIsAnErrorNamingItsPlace(t *testing.T) {
	text := func(s string) *grid.Book { return oneCell(grid.Textual(s, grid.Style{})) }
	with := func(change func(*grid.Sheet)) *grid.Book {
		b := text("x")
		change(b.Sheets[0])
		return b
	}
	cases := []struct {
		name string
		book *grid.Book
		says string
	}{
		{"no sheets", &grid.Book{}, "no sheets"},
		{"two sheets of one name", &grid.Book{Sheets: []*grid.Sheet{{Name: "Job"}, {Name: "JOB"}}}, `"JOB"`},
		{"a sheet's name too long", &grid.Book{Sheets: []*grid.Sheet{{Name: strings.Repeat("n", 32)}}}, "31"},
		{"a sheet's name with a stroke", &grid.Book{Sheets: []*grid.Sheet{{Name: "a/b"}}}, `"a/b"`},
		{"a text too long", text(strings.Repeat("n", 32_768)), `sheet "Job": cell A1: its text is 32768 characters`},
		{"a text too long by pairs", text(strings.Repeat("\U0001F600", 16_384)), "cell A1"},
		{"a control character", text("a\x07b"), "cell A1: its text holds the control character U+0007"},
		{"a carriage return", text("a\r\nb"), "U+000D"},
		{"broken letters", text("a\xffb"), "UTF-8"},
		{"a formula without its result", oneCell(grid.Cell{Formula: "A1"}), "cell A1: its formula has no stored result"},
		{"a formula with its sign", oneCell(grid.Reckoned("=A1", dec("1"), grid.Style{})), "begins with ="},
		{"a number beyond all", oneCell(grid.Numeric(dec("1e400"), grid.Style{})), "cell A1: the number"},
		{"a day before counting began", oneCell(grid.Dated(time.Date(1872, 5, 1, 0, 0, 0, 0, time.UTC), grid.Style{})), "1 May 1872"},
		{"an error value", oneCell(grid.Cell{Kind: grid.Fault, Text: "#REF!"}), "cell A1"},
		{"a merge that hides a cell", with(func(s *grid.Sheet) {
			s.Rows[0].Cells = append(s.Rows[0].Cells, s.Rows[0].Cells[0])
			s.Merges = []string{"A1:B1"}
		}), "cell B1 would be hidden"},
		{"merges that overlap", with(func(s *grid.Sheet) { s.Merges = []string{"A1:B2", "B2:C3"} }), `"B2:C3" overlaps`},
		{"a merge of one cell", with(func(s *grid.Sheet) { s.Merges = []string{"A1"} }), `"A1"`},
		{"two notes on a cell", with(func(s *grid.Sheet) { s.Notes = []grid.Note{{Cell: "A1"}, {Cell: "A1"}} }), "two notes"},
		{"a note nowhere", with(func(s *grid.Sheet) { s.Notes = []grid.Note{{Cell: "1A"}} }), `"1A"`},
		{"a list that reads nothing", with(func(s *grid.Sheet) { s.Lists = []grid.List{{Range: "A1"}} }), "reads no range"},
		{"a list's message too long", with(func(s *grid.Sheet) {
			s.Lists = []grid.List{{Range: "A1", Source: "B1:B2", Prompt: strings.Repeat("n", 256)}}
		}), "256"},
		{"a bound's message too long", with(func(s *grid.Sheet) {
			s.Bounds = []grid.Bound{{Range: "A1", Title: strings.Repeat("n", 33)}}
		}), "33"},
		{"a bound without room", with(func(s *grid.Sheet) {
			s.Bounds = []grid.Bound{{Range: "A1", Least: dec("1"), Most: dec("0")}}
		}), `"A1" from 1 to 0`},
		{"a column too wide", with(func(s *grid.Sheet) { s.Columns = []grid.Width{{}, {Chars: 300}} }), "column B"},
		{"a row too high", with(func(s *grid.Sheet) { s.Rows[0].Height = 500 }), "row 1"},
		{"an outline too deep", with(func(s *grid.Sheet) { s.Rows[0].Level = 8 }), "row 1"},
		{"a page break before the first row", with(func(s *grid.Sheet) { s.Print.Breaks = []int{1} }), "row 1"},
		{"a heading too long", with(func(s *grid.Sheet) { s.Print.Header = strings.Repeat("n", 300) }), "OddHeader"},
		{"a bad defined name", &grid.Book{Sheets: []*grid.Sheet{{Name: "Job"}}, Names: []grid.Name{{Name: "two words", Range: "Job!$A$1"}}}, `"two words"`},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			data, err := Write(c.book)
			if err == nil || !strings.Contains(err.Error(), c.says) {
				t.Errorf("error %v does not say %q", err, c.says)
			}
			if data != nil {
				t.Error("bytes all the same")
			}
		})
	}
}

func TestTheGuardFindsWhateverDiffersFromTheBook(t *testing.T) {
	book := oneCell(grid.Reckoned("1+1", dec("2"), grid.Style{Format: "0.00"}))
	data := written(t, book)
	cell := &book.Sheets[0].Rows[0].Cells[0]
	sound := *cell
	for name, c := range map[string]grid.Cell{
		"another result":  grid.Reckoned("1+1", dec("2.01"), sound.Style),
		"another formula": grid.Reckoned("1+2", dec("2"), sound.Style),
		"another kind":    {Kind: grid.Text, Text: "2", Formula: "1+1", Style: sound.Style},
		"another format":  grid.Reckoned("1+1", dec("2"), grid.Style{Format: "0.0"}),
		"a blank":         {},
	} {
		*cell = c
		if err := verify(book, data); err == nil || !strings.Contains(err.Error(), "A1") {
			t.Errorf("%s: error %v", name, err)
		}
	}
	*cell = sound
	if err := verify(book, data); err != nil {
		t.Error(err)
	}
	book.Sheets[0].Rows = append(book.Sheets[0].Rows, grid.Row{Cells: []grid.Cell{{}, sound}})
	if err := verify(book, data); err == nil || !strings.Contains(err.Error(), "B2 is lost") {
		t.Errorf("a cell more: error %v", err)
	}
}

// Any text that passes the check is read back letter for letter, in a cell
// and as the result of a formula.
func TestAnyTextIsReadBackLetterForLetter(t *testing.T) {
	letters := rapid.StringOf(rapid.RuneFrom([]rune("ab_x0050FDd&<>\"'=+ \t\n½é€\U0001F600;]")))
	rapid.Check(t, func(t *rapid.T) {
		s := letters.Draw(t, "text")
		book := oneCell(grid.Textual(s, grid.Style{Wrap: true}))
		cells := &book.Sheets[0].Rows[0].Cells
		*cells = append(*cells, grid.Cell{Kind: grid.Text, Text: s, Formula: "A1"})
		if _, err := Write(book); err != nil {
			t.Fatal(err)
		}
	})
}

func TestRowsAreMadeHighEnoughForTheirWrappedText(t *testing.T) {
	// At 10 points a line is 12.75 high and a row 1.5 higher than its lines,
	// in steps of 0.75. A column of 20 figures shows 145 - 5 = 140 dots; a
	// lower-case n of Arial is 0.556 x 10 pt = 7.41 dots, 7.56 with 2 % over:
	// 18 of them and no more.
	wrap := grid.Style{Wrap: true}
	width := []grid.Width{{Chars: 20}, {Chars: 20}, {Chars: 20, Hidden: true}}
	n := func(count int) string { return strings.Repeat("n", count) }
	cell := func(s string, st grid.Style) []grid.Cell { return []grid.Cell{grid.Textual(s, st)} }
	cases := []struct {
		name string
		s    grid.Sheet
		want []float64
	}{
		{"one line is a plain row", grid.Sheet{Rows: []grid.Row{{Cells: cell(n(18), wrap)}}}, []float64{0}},
		{"a word too long is broken", grid.Sheet{Rows: []grid.Row{{Cells: cell(n(19), wrap)}}}, []float64{27}},
		{"two words", grid.Sheet{Rows: []grid.Row{{Cells: cell(n(10)+" "+n(10), wrap)}}}, []float64{27}},
		{"three lines by their own ends", grid.Sheet{Rows: []grid.Row{{Cells: cell("a\nb\nc", wrap)}}}, []float64{39.75}},
		{"no wrap, one line", grid.Sheet{Rows: []grid.Row{{Cells: cell(n(60), grid.Style{})}}}, []float64{0}},
		{"a height given stands", grid.Sheet{Rows: []grid.Row{{Height: 20, Cells: cell("a\nb\nc", wrap)}}}, []float64{20}},
		{"large letters", grid.Sheet{Rows: []grid.Row{{Cells: cell("a", grid.Style{Font: grid.Font{Size: 16}})}}}, []float64{22.5}},
		{"merged across has the width of both", grid.Sheet{Merges: []string{"A1:B1"}, Rows: []grid.Row{{Cells: cell(n(36), wrap)}}}, []float64{0}},
		{"merged down, the last row has what is lacking", grid.Sheet{Merges: []string{"A1:A2"},
			Rows: []grid.Row{{Cells: cell("a\nb\nc", wrap)}, {}}}, []float64{0, 25.5}}, // 39.75 - 14.25
		{"a hidden column counts for nothing", grid.Sheet{Rows: []grid.Row{{Cells: []grid.Cell{{}, {}, grid.Textual(n(90), wrap)}}}}, []float64{0}},
		{"never above what a row can be", grid.Sheet{Rows: []grid.Row{{Cells: cell(strings.Repeat("a\n", 100), wrap)}}}, []float64{409}},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			c.s.Columns = width
			if diff := cmp.Diff(c.want, lay(&c.s).heights); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}
