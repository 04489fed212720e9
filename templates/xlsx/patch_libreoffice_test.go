package xlsx

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/templates/grid"
)

// flatYard is a price book as flat OpenDocument, from which LibreOffice makes
// a workbook in its own way: a filtered range, a drop-down that reads a name,
// a note, protection, formulas filled down, a sheet of sums.
const flatYard = `<?xml version="1.0" encoding="UTF-8"?>
<office:document xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"
 xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"
 xmlns:number="urn:oasis:names:tc:opendocument:xmlns:datastyle:1.0" xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0"
 xmlns:dc="http://purl.org/dc/elements/1.1/" xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2"
 office:version="1.2" office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:automatic-styles>
 <number:number-style style:name="N1"><number:number number:decimal-places="2" number:min-decimal-places="2" number:min-integer-digits="1" number:grouping="true"/></number:number-style>
 <number:date-style style:name="N2"><number:day number:style="long"/><number:text>/</number:text><number:month number:style="long"/><number:text>/</number:text><number:year number:style="long"/></number:date-style>
 <style:style style:name="ro1" style:family="table-row"><style:table-row-properties style:row-height="9mm" style:use-optimal-row-height="false"/></style:style>
 <style:style style:name="price" style:family="table-cell" style:data-style-name="N1"><style:table-cell-properties fo:background-color="#ffffcc"/></style:style>
 <style:style style:name="day" style:family="table-cell" style:data-style-name="N2"/>
 <style:style style:name="head" style:family="table-cell"><style:text-properties fo:font-weight="bold"/></style:style>
</office:automatic-styles>
<office:body><office:spreadsheet>
<table:content-validations><table:content-validation table:name="v1" table:condition="of:cell-content-is-in-list([$Stock.$A$2:.$A$3])" table:allow-empty-cell="true" table:base-cell-address="Stock.F2"/></table:content-validations>
<table:table table:name="Stock" table:protected="true">
 <table:table-column table:number-columns-repeated="6"/>
 <table:table-row><table:table-cell table:style-name="head" office:value-type="string"><text:p>Stock</text:p></table:table-cell><table:table-cell table:style-name="head" office:value-type="string"><text:p>From</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>Price</text:p></table:table-cell><table:table-cell office:value-type="string"><text:p>With tax</text:p></table:table-cell></table:table-row>
 <table:table-row><table:table-cell office:value-type="string"><text:p>Oak baulk</text:p></table:table-cell><table:table-cell table:style-name="day" office:value-type="date" office:date-value="2026-04-01"/><table:table-cell table:style-name="price" office:value-type="float" office:value="310"><office:annotation><dc:date>2026-05-01T00:00:00</dc:date><text:p>agreed by telephone</text:p></office:annotation></table:table-cell><table:table-cell table:formula="of:=[.C2]*1.2" office:value-type="float" office:value="372"/><table:table-cell/><table:table-cell table:content-validation-name="v1"/></table:table-row>
 <table:table-row table:style-name="ro1"><table:table-cell office:value-type="string"><text:p>Larch &amp; pine</text:p></table:table-cell><table:table-cell table:style-name="day" office:value-type="date" office:date-value="2026-05-01"/><table:table-cell table:style-name="price" office:value-type="float" office:value="95.5"/><table:table-cell table:formula="of:=[.C3]*1.2" office:value-type="float" office:value="114.6"/><table:table-cell/><table:table-cell table:content-validation-name="v1"/></table:table-row>
</table:table>
<table:table table:name="Yard's sums">
 <table:table-column/>
 <table:table-row><table:table-cell table:formula="of:=SUM([$Stock.C2:.C50])" office:value-type="float" office:value="405.5"/><table:table-cell table:formula="of:=IF([.A1]&gt;500;&quot;dear&quot;;&quot;cheap&quot;)" office:value-type="string" office:string-value="cheap"/></table:table-row>
</table:table>
<table:named-expressions><table:named-range table:name="StockPrices" table:base-cell-address="$Stock.$A$1" table:cell-range-address="$Stock.$C$2:.$C$3"/></table:named-expressions>
<table:database-ranges><table:database-range table:name="__Anonymous_Sheet_DB__0" table:target-range-address="Stock.A1:Stock.D3" table:display-filter-buttons="true"/></table:database-ranges>
</office:spreadsheet></office:body></office:document>`

// shownOf are the cells of a workbook by name: what they hold, and what formula.
func shownOf(t *testing.T, data []byte) map[string]string {
	t.Helper()
	book, err := Read("yard.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	out := make(map[string]string)
	for _, s := range book.Sheets {
		for _, l := range s.Rows {
			for _, d := range l.Cells {
				text := d.Raw
				if d.Kind == grid.Number {
					text = d.Value.String()
				}
				out[s.Name+"!"+cellName(d.Col, l.Row)] = text
			}
		}
	}
	return out
}

func TestPatchedWorkbooksAreReckonedAnewByLibreOffice(t *testing.T) {
	if testing.Short() {
		t.Skip("LibreOffice is slow")
	}
	data := converted(t, "", map[string][]byte{"yard.fods": []byte(flatYard)})["yard.fods"]
	out, err := Patch(data, []grid.Change{
		{Sheet: "Stock", Row: 2, Put: []grid.Put{grid.PutNumber(3, dec("320.25"))}},
		{Sheet: "Stock", Row: 3, New: true, Put: []grid.Put{grid.PutText(1, "Oak baulk"), grid.PutDay(2, april), grid.PutNumber(3, dec("331"))}},
	}, nothing)
	if err != nil {
		t.Fatal(err)
	}
	before, after := partsOf(t, data), partsOf(t, out)
	var changed []string
	for name := range before {
		if before[name] != after[name] {
			changed = append(changed, name)
		}
	}
	if len(changed) != 3 || len(before) != len(after) {
		t.Errorf("the parts that changed are %v", changed)
	}
	for name, want := range map[string][]string{
		"xl/workbook.xml":          {`Stock!$A$1:$D$4<`, `Stock!$C$2:$C$3<`},
		"xl/worksheets/sheet1.xml": {`ref="A1:D4"`, `sqref="F2:F4"`, `$A$2:$A$4<`, `<sheetProtection sheet="true"`, `<v>320.25</v>`, `<row r="4" `, `t="inlineStr"><is><t>Oak baulk</t></is>`},
	} {
		for _, s := range want {
			if !strings.Contains(after[name], s) {
				t.Errorf("no %s in %s:\n%s", s, name, after[name])
			}
		}
	}
	want := map[string]string{
		"Stock!A1": "Stock", "Stock!B1": "From", "Stock!C1": "Price", "Stock!D1": "With tax",
		"Stock!A2": "Oak baulk", "Stock!B2": "46113", "Stock!C2": "320.25", "Stock!D2": "384.3",
		"Stock!A3": "Larch & pine", "Stock!B3": "46143", "Stock!C3": "95.5", "Stock!D3": "114.6",
		"Stock!A4": "Oak baulk", "Stock!B4": "46478", "Stock!C4": "331",
		"Yard's sums!A1": "746.75", "Yard's sums!B1": "dear",
	}
	byHand, err := Patch(zipped(t, openable(yardParts())), []grid.Change{newPrice()}, nothing)
	if err != nil {
		t.Fatal(err)
	}
	// As it comes LibreOffice trusts stored results: that these are right shows
	// that the old ones are gone and that it reckons what has none.
	resaved := converted(t, "", map[string][]byte{"own.xlsx": out, "byhand.xlsx": byHand})
	if diff := cmp.Diff(want, shownOf(t, resaved["own.xlsx"])); diff != "" {
		t.Errorf("resaved (-want +got):\n%s", diff)
	}
	got := shownOf(t, resaved["byhand.xlsx"])
	for cell, want := range map[string]string{
		"Stock!F4": "372", "Stock!F6": "384", "Stock!E7": "331.25", "Stock!A7": "Oak <baulk> & _x0041_", "Stock!C7": "46478",
		"Yard's own!B1": "1256.75", "Yard's own!C3": "14", "Yard's own!A5": "14", "Materials!A7": "2", // 310 + 295.5 + 320 + 331.25
	} {
		if got[cell] != want {
			t.Errorf("by hand: %s holds %q, not %q", cell, got[cell], want)
		}
	}
}

// openable gives the parts the types of content that a program asks for which
// goes by them.
func openable(p map[string]string) map[string]string {
	const kind = `application/vnd.openxmlformats-officedocument.spreadsheetml.`
	types := `<Types xmlns="http://schemas.openxmlformats.org/package/2006/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/>` +
		`<Default Extension="bin" ContentType="application/vnd.ms-office.vbaProject"/><Override PartName="/xl/workbook.xml" ContentType="` + kind + `sheet.main+xml"/>`
	for part, what := range map[string]string{"sharedStrings": "sharedStrings", "styles": "styles", "tables/table1": "table", "worksheets/sheet1": "worksheet", "worksheets/sheet5": "worksheet", "worksheets/sheet7": "worksheet"} {
		types += `<Override PartName="/xl/` + part + `.xml" ContentType="` + kind + what + `+xml"/>`
	}
	p["[Content_Types].xml"] = types + `</Types>`
	return p
}
