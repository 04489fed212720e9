package xlsx

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"futtock/templates/grid"
)

const red, amber = "F68B78", "FFD58A"

// problemList is a sheet such as is put first.
func problemList(link string) *grid.Sheet {
	linked := grid.Textual("C6", grid.Style{Font: grid.Font{Colour: "0563C1"}})
	linked.Link = link
	return &grid.Sheet{
		Name: "Problems", Columns: []grid.Width{{Chars: 18}, {Chars: 40}}, Freeze: grid.Freeze{Rows: 1},
		Rows: []grid.Row{
			{Cells: []grid.Cell{grid.Textual("What was found", grid.Style{Font: grid.Font{Bold: true}, Fill: "1F4257"})}},
			{Cells: []grid.Cell{linked, grid.Textual(`a "date" <is> wanted & more`, grid.Style{Wrap: true, Border: grid.Hair})}},
		},
	}
}

// marked makes the marks and checks that only these parts differ, and that it comes
// out the same twice.
func marked(t testing.TB, parts map[string]string, marks []grid.Mark, differ ...string) map[string]string {
	t.Helper()
	data := zipped(t, parts)
	out, err := Mark(data, marks, problemList("'Stock'!C6"))
	if err != nil {
		t.Fatal(err)
	}
	again, err := Mark(data, slices.Clone(marks), problemList("'Stock'!C6"))
	if err != nil || !bytes.Equal(out, again) {
		t.Errorf("a second time other bytes come out (%v)", err)
	}
	got := partsOf(t, out)
	for name, was := range parts {
		if is := got[name]; (is == was) == slices.Contains(differ, name) {
			t.Errorf("%s: touched %v, which is not as it should be", name, is != was)
		}
	}
	return got
}

// notesOf are the notes of a workbook by cell.
func notesOf(t testing.TB, data []byte) map[string]string {
	t.Helper()
	book, err := Read("yard.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	out := make(map[string]string)
	for _, s := range book.Sheets {
		for _, n := range s.Notes {
			out[s.Name+"!"+cellName(n.Col, n.Row)] = n.Text
		}
	}
	return out
}

func has(t testing.TB, parts map[string]string, name string, wanted ...string) {
	t.Helper()
	for _, s := range wanted {
		if !strings.Contains(parts[name], s) {
			t.Errorf("no %s in %s:\n%s", s, name, parts[name])
		}
	}
}

func TestMarksTouchNothingButCellsStylesAndNotes(t *testing.T) {
	parts := openable(yardParts())
	got := marked(t, parts, []grid.Mark{
		{Sheet: "Stock", Row: 6, Col: 3, Note: "Error: not a day <&>", Fill: red},
		{Sheet: "stock", Row: 6, Col: 2, Note: "Warning: blank", Fill: amber},
		{Sheet: "Stock", Row: 6, Col: 3, Note: "Remark: again", Fill: amber},
		{Sheet: "Stock", Row: 5, Col: 8, Note: "no cell is here, and the column has a style", Fill: amber},
		{Sheet: "Stock", Row: 2, Col: 1, Note: "no row is here", Fill: amber},
		{Sheet: "Yard's own", Row: 2, Col: 1, Note: "within a prefix", Fill: red},
		{Sheet: "Materials", Row: 3, Col: 5, Note: "the row has a style", Fill: red},
	}, "[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/workbook.xml", "xl/styles.xml", "xl/worksheets/sheet1.xml",
		"xl/worksheets/sheet5.xml", "xl/worksheets/sheet7.xml", "xl/worksheets/_rels/sheet1.xml.rels")

	// In the order of the marks the styles are: 8 of column H in amber, 9 of B6, 10 of C6 in red.
	has(t, got, "xl/worksheets/sheet1.xml",
		`<row r="1" spans="1:6"><c r="A1" t="s"><v>0</v></c></row><row r="2"><c r="A2" s="8"/></row>`,
		`<c r="F5" s="4"><f t="shared" si="0"/><v>354.6</v></c><c r="H5" s="9"/></row>`,
		`<c r="B6" s="10"/><c r="C6" s="11"><v>46113</v></c>`,
		`<dimension ref="A1:H8"/>`,
		`</dataValidations><legacyDrawing xmlns:r="`+nsRel+`" r:id="rId3"/><tableParts count="1">`)
	has(t, got, "xl/worksheets/sheet5.xml", `<x:row r="2"><x:c r="A2" s="12"/></x:row>`, `</x:sheetData><x:legacyDrawing xmlns:r="`+nsRel+`" r:id="rId2"/></x:worksheet>`)
	has(t, got, "xl/worksheets/sheet7.xml", `<c r="B3"><v>5</v></c><c r="E3" s="13"/></row>`, `</dataValidations><legacyDrawing `)
	has(t, got, "xl/styles.xml",
		`<cellStyleXfs><xf numFmtId="9"/></cellStyleXfs><cellXfs><xf numFmtId="0"/>`,
		`<xf numFmtId="30"/><xf numFmtId="0" fillId="2" applyFill="1"/><xf numFmtId="10" fillId="2" applyFill="1"/>`,
		`</numFmts><fonts count=`, `</fonts><fills count="`, `</fills><borders count="`, `</borders><cellStyleXfs>`,
		`<patternFill patternType="gray125"/></fill><fill><patternFill patternType="solid"><fgColor rgb="FFFFD58A"/>`)
	has(t, got, "xl/workbook.xml", `<sheets><sheet name="Problems" sheetId="8" `, `localSheetId="3" hidden="1">Materials!`, `localSheetId="1">Stock!`)
	has(t, got, "xl/worksheets/_rels/sheet1.xml.rels", `<Relationship Id="rId2" Type="`+docType+`comments" Target="../comments2.xml"/><Relationship Id="rId3" Type="`+docType+`vmlDrawing" Target="../drawings/vmlDrawing1.vml"/></Relationships>`)
	has(t, got, "xl/comments2.xml", `<comment ref="C6" authorId="0"><text><r>`, "Error: not a day &lt;&amp;&gt;\n\nRemark: again</t>")
	has(t, got, "xl/drawings/vmlDrawing1.vml", `<o:idmap v:ext="edit" data="1"/>`, `id="_x0000_s1025"`, `<x:Row>5</x:Row><x:Column>2</x:Column>`)
	has(t, got, "[Content_Types].xml", `<Override PartName="/xl/comments2.xml" `, `<Override PartName="/xl/drawings/vmlDrawing1.vml" ContentType="`+cType+`vmlDrawing"/>`, `PartName="/xl/worksheets/sheet2.xml"`)
	if n := strings.Count(got["xl/workbook.xml"], "<sheet "); n != 4 {
		t.Errorf("%d sheets", n)
	}
}

// commented gives the parts notes as programs keep them: one of plain text, one of
// runs, one that is blank, and a conversation.
func commented(p map[string]string) map[string]string {
	p["xl/worksheets/_rels/sheet1.xml.rels"] = relsHead + `<Relationship Id="rId1" Type="` + docType + `table" Target="../tables/table1.xml"/>` +
		`<Relationship Id="rId8" Type="` + docType + `vmlDrawing" Target="../drawings/vmlDrawing1.vml"/><Relationship Id="rId9" Type="` + docType + `comments" Target="../comments1.xml"/>` +
		`<Relationship Id="rId10" Type="http://schemas.microsoft.com/office/2017/10/relationships/threadedComment" Target="../threadedComments/threadedComment1.xml"/></Relationships>`
	p["xl/worksheets/sheet1.xml"] = strings.Replace(p["xl/worksheets/sheet1.xml"], `<tableParts`, `<legacyDrawing r:id="rId8"/><tableParts`, 1)
	p["xl/comments1.xml"] = `<comments xmlns="` + nsMain + `"><authors><author>A. Clerk</author><author>tc={1}</author></authors><commentList>` +
		`<comment ref="E6" authorId="0"><text><t>agreed in May </t></text></comment>` +
		`<comment ref="E5" authorId="0"><text><r><rPr><b/></rPr><t xml:space="preserve">Clerk:
</t></r><r><t>by letter</t></r><phoneticPr fontId="1"/></text></comment>` +
		`<comment ref="E4" authorId="0"><text/></comment><comment ref="A4" authorId="1"><text><t>[Threaded comment] Your version is old. Comment: which mill?</t></text></comment></commentList></comments>`
	p["xl/threadedComments/threadedComment1.xml"] = `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="A4" id="{1}"><text>which mill?</text></threadedComment></ThreadedComments>`
	shape := func(id, row, col int) string {
		return fmt.Sprintf(`<v:shape id="_x0000_s%d" type="#_x0000_t202"><v:textbox><div>one<br>two</div></v:textbox><x:ClientData ObjectType="Note"><x:Anchor>
    7, 15, 2, 10, 9, 31, 4, 9</x:Anchor><x:Row>%d</x:Row><x:Column>%d</x:Column></x:ClientData></v:shape>`, id, row, col)
	}
	p["xl/drawings/vmlDrawing1.vml"] = `<xml xmlns:v="urn:schemas-microsoft-com:vml"` + "\n" + ` xmlns:o='urn:schemas-microsoft-com:office:office' xmlns:x="urn:schemas-microsoft-com:office:excel">` +
		`<v:shapetype id="_x0000_t202"/>` + shape(1025, 5, 4) + shape(1031, 4, 4) + shape(1026, 3, 4) + shape(1027, 3, 0) + `</xml>`
	p["[Content_Types].xml"] = strings.Replace(p["[Content_Types].xml"], `</Types>`, `<Default Extension="VML" ContentType="`+cType+`vmlDrawing"/></Types>`, 1)
	return p
}

func TestNotesThatAreThereAreKeptAndAddedTo(t *testing.T) {
	parts := commented(openable(yardParts()))
	long := "Error: the price is not a number; a price is wanted, such as 310.00\nType the price alone, without words. [number-form]"
	marks := []grid.Mark{
		{Sheet: "Stock", Row: 6, Col: 5, Note: long, Fill: red}, {Sheet: "Stock", Row: 5, Col: 5, Note: "two", Fill: red},
		{Sheet: "Stock", Row: 4, Col: 5, Note: "three", Fill: red}, {Sheet: "Stock", Row: 4, Col: 1, Note: "four", Fill: red},
		{Sheet: "Stock", Row: 4, Col: 6, Note: "five", Fill: amber},
	}
	got := marked(t, parts, marks, "[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/workbook.xml", "xl/styles.xml", "xl/worksheets/sheet1.xml",
		"xl/comments1.xml", "xl/drawings/vmlDrawing1.vml")
	has(t, got, "xl/comments1.xml",
		`<comment ref="E6" authorId="0"><text><r><t>agreed in May </t></r><r><rPr>`, `<r><t>by letter</t></r><r><rPr>`, `two</t></r><phoneticPr fontId="1"/></text>`,
		`<comment ref="A4" authorId="1"><text><t>[Threaded comment] Your version is old. Comment: which mill?</t></text></comment>`,
		`<author>tc={1}</author><author>futtock</author></authors>`, `<comment ref="F4" authorId="2"><text>`)
	has(t, got, "xl/drawings/vmlDrawing1.vml", `id="_x0000_s1032" type="#_x0000_t202"`, "<div>one<br>two</div>",
		"<x:Anchor>\n    7, 15, 2, 10, 9, 31, 4, 9</x:Anchor><x:Row>3</x:Row><x:Column>0</x:Column>")
	if n := strings.Count(got["xl/drawings/vmlDrawing1.vml"], "<v:shape "); n != 5 {
		t.Errorf("%d shapes", n)
	}
	if n := strings.Count(got["xl/drawings/vmlDrawing1.vml"], "7, 15, 2, 10, 9, 31, 4, 9"); n != 1 {
		t.Errorf("%d boxes are of the old size, and one should be", n)
	}
	out, err := Mark(zipped(t, parts), marks, problemList("'Stock'!C6"))
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{
		"Stock!E6": "agreed in May\n\n" + long, "Stock!E5": "Clerk:\nby letter\n\ntwo", "Stock!E4": "three", "Stock!A4": "which mill?", "Stock!F4": "five",
	}
	if diff := cmp.Diff(want, notesOf(t, out)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

// What another reader of the format makes of a marked workbook: the library, which
// shares no code with this package's reader and marker.
func TestTheLibraryReadsMarksBack(t *testing.T) {
	out, err := Mark(written(t, sampleBook()), []grid.Mark{
		{Sheet: "Bill of O'Hara", Row: 5, Col: 5, Note: "Error: a rate is wanted", Fill: red},
		{Sheet: "Bill of O'Hara", Row: 5, Col: 6, Note: "Remark: dear", Fill: amber},
		{Sheet: "Bill of O'Hara", Row: 2, Col: 4, Note: "within the merge", Fill: amber},
		{Sheet: "Working", Row: 9, Col: 2, Note: "below all rows", Fill: amber},
	}, problemList("'Bill of O''Hara'!E5"))
	if err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(bytes.NewReader(out))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if got := f.GetSheetList(); !slices.Equal(got, []string{"Problems", "Bill of O'Hara", "Working"}) || f.GetActiveSheetIndex() != 0 {
		t.Errorf("sheets %q, of which %d is in view", got, f.GetActiveSheetIndex())
	}
	got := map[string]string{}
	for _, sheet := range f.GetSheetList() {
		notes, err := f.GetComments(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for _, n := range notes {
			text := n.Text
			for _, p := range n.Paragraph {
				text += p.Text
			}
			if _, below, ok := strings.Cut(text, "\n\n"); ok {
				text = below
			}
			got[sheet+"!"+n.Cell] = text
		}
	}
	if got["Bill of O'Hara!E5"] != "Error: a rate is wanted" || got["Bill of O'Hara!F5"] != "Remark: dear" ||
		got["Bill of O'Hara!A2"] != "within the merge" || got["Working!B9"] != "below all rows" || len(got) != 6 {
		t.Errorf("notes %q", got)
	}
	for cell, want := range map[string]string{"E5": red, "F5": amber, "A2": amber} {
		style := styleOf(t, f, cell)
		if len(style.Fill.Color) != 1 || style.Fill.Color[0] != want {
			t.Errorf("%s is filled %q", cell, style.Fill.Color)
		}
	}
	was, err := excelize.OpenReader(bytes.NewReader(written(t, sampleBook())))
	if err != nil {
		t.Fatal(err)
	}
	defer was.Close()
	for _, cell := range []string{"E5", "F5", "A2"} {
		old, now := styleOf(t, was, cell), styleOf(t, f, cell)
		old.Fill, now.Fill = excelize.Fill{}, excelize.Fill{}
		if diff := cmp.Diff(old, now); diff != "" {
			t.Errorf("%s has another look (-was +is):\n%s", cell, diff)
		}
	}
	linked, target, err := f.GetCellHyperLink("Problems", "A2")
	if err != nil || !linked || target != "'Bill of O''Hara'!E5" {
		t.Errorf("the link is %v to %q (%v)", linked, target, err)
	}
}

func styleOf(t *testing.T, f *excelize.File, cell string) *excelize.Style {
	t.Helper()
	id, err := f.GetCellStyle("Bill of O'Hara", cell)
	if err != nil {
		t.Fatal(err)
	}
	s, err := f.GetStyle(id)
	if err != nil {
		t.Fatal(err)
	}
	return s
}
