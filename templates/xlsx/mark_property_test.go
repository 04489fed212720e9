package xlsx

import (
	"regexp"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"futtock/templates/grid"
)

// turned finds what of a sheet a mark may turn into something else: styles, how far a
// row or the sheet goes, a tag that closes itself.
var turned = regexp.MustCompile(` s=["'][0-9]+["']| spans="[^"]*"| ref="[A-Z0-9:]*"|/`)

// Whatever sheet is marked wherever, what it holds stands in the marked one in its order,
// and other parts are the same.
func TestAnyMarksLeaveAllElseAsItWas(outer *testing.T) {
	made := 0
	rapid.Check(outer, func(t *rapid.T) {
		sheet, _, _ := drawnSheet(t)
		parts := openable(plainParts(""))
		parts["xl/worksheets/sheet1.xml"] = sheet
		parts["xl/media/image1.png"] = "as it was"
		var marks []grid.Mark
		want := make(map[string]string)
		for range rapid.IntRange(1, 6).Draw(t, "marks") {
			m := grid.Mark{
				Sheet: "Members", Row: rapid.IntRange(1, 12).Draw(t, "row"), Col: rapid.IntRange(1, 12).Draw(t, "col"),
				Note: rapid.StringMatching(`[!-~]([ -~\n]{0,30}[!-~])?`).Draw(t, "note"), Fill: rapid.SampledFrom([]string{red, amber}).Draw(t, "fill"),
			}
			marks = append(marks, m)
			at := "Members!" + cellName(m.Col, m.Row)
			want[at] = strings.TrimPrefix(want[at]+"\n\n"+m.Note, "\n\n")
		}
		out, err := Mark(wideZip(parts), marks, problemList("Members!A1"))
		if err != nil {
			t.Fatalf("%v\n%s", err, sheet)
		}
		for at, text := range notesOf(outer, out) {
			if strings.Join(strings.Fields(want[at]), " ") != strings.Join(strings.Fields(text), " ") {
				t.Fatalf("%s has the note %q, not %q", at, text, want[at])
			}
			delete(want, at)
		}
		if len(want) > 0 {
			t.Fatalf("lost are %q", want)
		}
		after := partsOf(outer, out)
		old, now := turned.ReplaceAllString(sheet, ""), turned.ReplaceAllString(after["xl/worksheets/sheet1.xml"], "")
		for len(old) > 0 && len(now) > 0 {
			if old[0] == now[0] {
				old = old[1:]
			}
			now = now[1:]
		}
		if old != "" {
			t.Fatalf("of\n%s\nthis is lost in\n%s\n%s", sheet, after["xl/worksheets/sheet1.xml"], old)
		}
		for name, was := range parts {
			switch name {
			case "[Content_Types].xml", "xl/_rels/workbook.xml.rels", "xl/workbook.xml", "xl/styles.xml", "xl/worksheets/sheet1.xml":
			default:
				if after[name] != was {
					t.Fatalf("%s is altered", name)
				}
			}
		}
		made++
	})
	if made == 0 {
		outer.Error("nothing was marked")
	}
}
