package xlsx

import (
	"errors"
	"fmt"
	"maps"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"futtock/templates/grid"
)

// model is a sheet as plain texts: what each cell shows, by row and column.
// Formulas begin with =.
type model map[[2]int]string

// drawnSheet draws a sheet and writes it the way some program might: with the
// names of rows and cells or without, with or without a prefix, with blank rows and cells.
func drawnSheet(t *rapid.T) (string, model, int) {
	p := rapid.SampledFrom([]string{"", "x:"}).Draw(t, "prefix")
	named, spaced := rapid.Bool().Draw(t, "named"), rapid.Bool().Draw(t, "spaced")
	bottom := rapid.IntRange(1, 8).Draw(t, "bottom")
	m := make(model)
	var out strings.Builder
	number, last := 0, 0
	for row := 1; row <= bottom; row++ {
		if rapid.IntRange(0, 4).Draw(t, "gap") == 0 && named && row < bottom {
			number++ // a row that is not in the file
		}
		number++
		tag := "<" + p + "row"
		if named {
			tag += fmt.Sprintf(` r="%d"`, number)
		}
		cells := ""
		col := 0
		for range rapid.IntRange(0, 5).Draw(t, "cells") {
			col++
			if named && rapid.Bool().Draw(t, "skip") {
				col++
			}
			head := "<" + p + "c"
			if named {
				head += fmt.Sprintf(` r="%s"`, cellName(col, number))
			}
			if rapid.Bool().Draw(t, "style") {
				head += ` s='1'`
			}
			at := [2]int{number, col}
			switch rapid.IntRange(0, 5).Draw(t, "kind") {
			case 0:
				cells += head + "/>"
			case 1:
				cells += head + "></" + p + "c >"
			case 2:
				n := rapid.IntRange(-50, 50).Draw(t, "number")
				cells += fmt.Sprintf("%s><%sv>%d</%sv></%sc>", head, p, n, p, p)
				m[at] = fmt.Sprint(n)
			case 3:
				cells += fmt.Sprintf("%s t=\"inlineStr\" ><%sis><%st><![CDATA[<b>]]> &amp;</%st></%sis></%sc>", head, p, p, p, p, p)
				m[at] = "<b> &"
			case 4:
				cells += fmt.Sprintf("%s t='str'><%sf>\"r\"</%sf><%sv>r</%sv></%sc>", head, p, p, p, p, p)
				m[at] = `="r"`
			case 5:
				cells += fmt.Sprintf("%s t=\"b\"><%sv>1</%sv></%sc>", head, p, p, p)
				m[at] = "1"
			}
			last = number
		}
		if cells == "" {
			out.WriteString(tag + "/>")
		} else {
			out.WriteString(tag + ">" + cells + "</" + p + "row>")
		}
		if spaced {
			out.WriteString("\r\n  ")
		}
	}
	return fmt.Sprintf(`<%sworksheet xmlns%s="%s"><%sdimension ref="A1"/><%ssheetData>%s</%ssheetData></%sworksheet>`,
		p, strings.TrimSuffix(":"+p, ":"), nsMain, p, p, out.String(), p, p), m, last
}

// drawnChanges draws changes of the sheet and makes them in the model.
func drawnChanges(t *rapid.T, m model, last int) []grid.Change {
	var changes []grid.Change
	seen := make(map[[2]int]bool)
	puts := func(row int) []grid.Put {
		var out []grid.Put
		for range rapid.IntRange(1, 3).Draw(t, "puts") {
			col := rapid.IntRange(1, 9).Draw(t, "col")
			at := [2]int{row, col}
			if seen[at] {
				continue
			}
			seen[at] = true
			switch rapid.IntRange(0, 2).Draw(t, "what") {
			case 0:
				n := rapid.IntRange(-9999, 9999).Draw(t, "put")
				out = append(out, grid.PutNumber(col, dec(fmt.Sprint(n)).Shift(-2)))
				m[at] = dec(fmt.Sprint(n)).Shift(-2).String()
			case 1:
				s := rapid.StringMatching(`[ -~\n]{1,12}`).Draw(t, "text")
				out = append(out, grid.PutText(col, s))
				m[at] = s
			case 2:
				out = append(out, grid.PutDay(col, april))
				m[at] = "day"
			}
		}
		return out
	}
	for range rapid.IntRange(0, 3).Draw(t, "news") {
		n := 1
		for _, c := range changes {
			if c.New {
				n++
			}
		}
		if put := puts(last + n); len(put) > 0 {
			changes = append(changes, grid.Change{Sheet: "Members", Row: last, New: true, Put: put})
		}
	}
	if put := puts(last); len(put) > 0 {
		changes = append(changes, grid.Change{Sheet: "Members", Row: last, Put: put})
	}
	return changes
}

func TestAnyChangesGiveTheOldCellsAndTheChanges(outer *testing.T) {
	made := 0
	rapid.Check(outer, func(t *rapid.T) {
		sheet, old, last := drawnSheet(t)
		if last == 0 {
			return
		}
		m := maps.Clone(old)
		changes := drawnChanges(t, m, last)
		parts := plainParts("")
		parts["xl/worksheets/sheet1.xml"] = sheet
		data := wideZip(parts)
		out, err := Patch(data, changes, nothing)
		for at := range old {
			if strings.HasPrefix(old[at], "=") && m[at] != old[at] {
				var r *Refusal
				if !errors.As(err, &r) || r.Why != Reckoned {
					t.Fatalf("a formula is written over: %v", err)
				}
				return
			}
		}
		if err != nil {
			t.Fatalf("%v\n%s", err, sheet)
		}
		book, err := Read("yard.xlsx", out)
		if err != nil {
			t.Fatal(err)
		}
		got := make(model)
		for _, l := range book.Sheets[0].Rows {
			for _, d := range l.Cells {
				text := d.Raw
				switch {
				case d.IsFormula() && d.Kind == grid.Blank:
					text = "=" + d.Formula
				case d.Kind == grid.Number:
					text = d.Value.String()
				}
				if text == "46478" && d.Format == builtin(14) || text == "2027-04-01" && d.Format != builtin(14) {
					text = "day"
				}
				got[[2]int{l.Row, d.Col}] = text
			}
		}
		if diff := cmp.Diff(m, got); diff != "" {
			t.Fatalf("(-want +got):\n%s\n%s\n%s", diff, sheet, partsOf(outer, out)["xl/worksheets/sheet1.xml"])
		}
		before, after := partsOf(outer, data), partsOf(outer, out)
		delete(before, "xl/worksheets/sheet1.xml")
		delete(after, "xl/worksheets/sheet1.xml")
		if diff := cmp.Diff(before, after); diff != "" {
			t.Fatal(diff)
		}
		made++
	})
	if made == 0 {
		outer.Error("nothing was patched")
	}
}
