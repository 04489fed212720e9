package xlsx

import (
	"errors"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/templates/grid"
)

func TestSheetsOfUnusualMakeAreMarked(t *testing.T) {
	rows := `<row r="2"><c r="A2" s="4"><v>1</v></c></row>`
	prefixed := func(s string) string {
		for _, r := range []string{"styleSheet", "cellXfs", "xf", "numFmts", "numFmt", "cellStyleXfs"} {
			s = strings.ReplaceAll(strings.ReplaceAll(s, "<"+r+" ", "<x:"+r+" "), "<"+r+">", "<x:"+r+">")
			s = strings.ReplaceAll(s, "</"+r+">", "</x:"+r+">")
		}
		return strings.Replace(s, `xmlns="`, `xmlns:x="`, 1)
	}
	for name, change := range map[string]func(p map[string]string){
		"no rows at all": func(p map[string]string) {
			p["xl/worksheets/sheet1.xml"] = `<worksheet xmlns="` + nsMain + `"><sheetData/></worksheet>`
		},
		"no styles": func(p map[string]string) {
			delete(p, "xl/styles.xml")
			p["xl/_rels/workbook.xml.rels"] = relsHead + `<Relationship Id="rId1" Type="` + docType + `worksheet" Target="worksheets/sheet1.xml"/></Relationships>`
			p["xl/worksheets/sheet1.xml"] = sheetXML(`<row r="2"><c r="A2"><v>1</v></c></row>`)
		},
		"empty styles": func(p map[string]string) {
			p["xl/styles.xml"] = `<styleSheet xmlns="` + nsMain + `"/>`
			p["xl/worksheets/sheet1.xml"] = sheetXML(`<row r="2"><c r="A2"><v>1</v></c></row>`)
		},
		"prefixed styles":   func(p map[string]string) { p["xl/styles.xml"] = prefixed(p["xl/styles.xml"]) },
		"the strict form":   func(p map[string]string) { strictly(p) },
		"a drawing of ours": func(p map[string]string) { p["xl/drawings/vmlDrawing1.vml"], p["xl/comments1.xml"] = "x", "x" },
		"alternatives": func(p map[string]string) {
			p["xl/worksheets/sheet1.xml"] = strings.Replace(sheetXML(rows), "</worksheet>", `<mc:AlternateContent xmlns:mc="urn:mc"><mc:Choice Requires="x14"><controls/></mc:Choice></mc:AlternateContent></worksheet>`, 1)
		},
		"a drawing by another name": func(p map[string]string) {
			commented(p)
			p["xl/worksheets/sheet1.xml"] = strings.Replace(sheetXML(rows), "</worksheet>", `<legacyDrawing r:id="rId8"/></worksheet>`, 1)
			p["xl/drawings/vmlDrawing1.vml"] = `<?xml version="1.0"?><xml-fragment xmlns:v="urn:schemas-microsoft-com:vml"><v:shape id="_x0000_s9000"/></xml-fragment>`
			p["xl/comments1.xml"] = `<comments xmlns="` + nsMain + `"/>`
			delete(p, "xl/threadedComments/threadedComment1.xml")
			p["xl/worksheets/_rels/sheet1.xml.rels"] = strings.Replace(p["xl/worksheets/_rels/sheet1.xml.rels"], "threadedComment\"", "other\"", 1)
		},
		"views": func(p map[string]string) {
			p["xl/workbook.xml"] = strings.Replace(p["xl/workbook.xml"], "<sheets>", `<bookViews><workbookView firstSheet="0" activeTab='0'/></bookViews><sheets>`, 1)
			p["xl/worksheets/sheet1.xml"] = strings.Replace(sheetXML(rows), "<sheetData>", `<sheetViews><sheetView tabSelected="true" workbookViewId="0"/></sheetViews><sheetData>`, 1)
		},
	} {
		t.Run(name, func(t *testing.T) {
			parts := openable(plainParts(rows))
			change(parts)
			out, err := Mark(zipped(t, parts), []grid.Mark{
				{Sheet: "Members", Row: 2, Col: 1, Note: "one", Fill: red}, {Sheet: "Members", Row: 1, Col: 2, Note: "two", Fill: red},
				{Sheet: "Members", Row: 7, Col: 3, Note: "three", Fill: amber},
			}, problemList("Members!A2"))
			if err != nil {
				t.Fatal(err)
			}
			row1 := "B1"
			if strings.Contains(parts["xl/worksheets/sheet1.xml"], `<mergeCell ref="A1:B1"/>`) {
				row1 = "A1"
			}
			if diff := cmp.Diff(map[string]string{"Members!A2": "one", "Members!" + row1: "two", "Members!C7": "three"}, notesOf(t, out)); diff != "" {
				t.Error(diff)
			}
			got := partsOf(t, out)
			switch name {
			case "alternatives":
				has(t, got, "xl/worksheets/sheet1.xml", `</mergeCells><legacyDrawing `, `"/><mc:AlternateContent`)
			case "a drawing by another name":
				has(t, got, "xl/drawings/vmlDrawing1.vml", `<xml-fragment xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="`, `id="_x0000_s9001"`, `</v:shape></xml-fragment>`, `<v:shapetype id="_x0000_t202"`)
				has(t, got, "xl/comments1.xml", `"><authors><author>futtock</author></authors><commentList>`)
			case "views":
				has(t, got, "xl/worksheets/sheet1.xml", `tabSelected="0"`)
			case "prefixed styles":
				has(t, got, "xl/styles.xml", `</x:cellXfs>`, `<x:xf numFmtId="164" fillId="2" applyFill="1"/>`, `<fills xmlns="`+nsMain+`" count=`, `<xf xmlns="`+nsMain+`" numFmtId="0"`)
			}
		})
	}
}

func TestASheetThatIsAllChartIsLeftAsItIs(t *testing.T) {
	parts := openable(plainParts(`<row r="1"><c r="A1"><v>1</v></c></row>`))
	parts["xl/workbook.xml"] = strings.Replace(parts["xl/workbook.xml"], "</sheets>", `<sheet name="Chart" sheetId="2" r:id="rId7"/></sheets>`, 1)
	parts["xl/_rels/workbook.xml.rels"] = strings.Replace(parts["xl/_rels/workbook.xml.rels"], "</Relationships>", `<Relationship Id="rId7" Type="`+docType+`chartsheet" Target="chartsheets/sheet1.xml"/></Relationships>`, 1)
	parts["xl/chartsheets/sheet1.xml"] = `<chartsheet xmlns="` + nsMain + `"><sheetViews><sheetView workbookViewId="0"/></sheetViews></chartsheet>`
	got := marked(t, parts, []grid.Mark{{Sheet: "Chart", Row: 1, Col: 1, Note: "x", Fill: red}},
		"[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/workbook.xml", "xl/styles.xml")
	if strings.Contains(got["[Content_Types].xml"], "comments") {
		t.Error("there are notes")
	}
}

// strictly turns a workbook into the strict form.
func strictly(p map[string]string) {
	for name, part := range p {
		p[name] = strings.ReplaceAll(strings.ReplaceAll(part, nsMain, nsMainStrict), nsRel, nsRelStrict)
	}
}

func TestMarksAreRefused(t *testing.T) {
	mark := []grid.Mark{{Sheet: "Stock", Row: 6, Col: 3, Note: "x", Fill: red}}
	for name, c := range map[string]struct {
		change func(p map[string]string)
		why    Reason
	}{
		"in a signed workbook": {func(p map[string]string) { p["_xmlsignatures/sig1.xml"] = "<Signature/>" }, Sealed},
		"on a sheet that shares its cells": {func(p map[string]string) {
			p["xl/_rels/workbook.xml.rels"] = strings.Replace(p["xl/_rels/workbook.xml.rels"], "worksheets/sheet7.xml", "worksheets/sheet1.xml", 1)
		}, Unsure},
		"beside a drawing that is none": {func(p map[string]string) {
			commented(p)
			p["xl/drawings/vmlDrawing1.vml"] = "<html/>"
		}, Unsure},
		"beside a drawing of other names": {func(p map[string]string) {
			commented(p)
			p["xl/drawings/vmlDrawing1.vml"] = `<xml xmlns:x="urn:other"></xml>`
		}, Unsure},
	} {
		t.Run(name, func(t *testing.T) {
			parts := openable(yardParts())
			c.change(parts)
			_, err := Mark(zipped(t, parts), mark, problemList("Stock!C6"))
			var r *Refusal
			if !errors.As(err, &r) || r.Why != c.why {
				t.Errorf("%v", err)
			}
		})
	}
	if _, err := Mark([]byte("no workbook"), mark, problemList("Stock!C6")); !errors.Is(err, ErrNotWorkbook) {
		t.Errorf("%v", err)
	}
	parts := yardParts()
	delete(parts, "[Content_Types].xml")
	if _, err := Mark(zipped(t, parts), mark, problemList("Stock!C6")); err == nil || !strings.Contains(err.Error(), "[Content_Types].xml") {
		t.Errorf("%v", err)
	}
}
