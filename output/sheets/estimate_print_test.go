package sheets_test

import (
	"strings"
	"testing"
)

// The working is read on paper too: letters of ten points come out at nearly six on
// every sheet, by the widths LibreOffice draws, 5.56 points a figure and 0.71 of
// one clear to a column, on A4 with half an inch to each side (523 points standing,
// 769 lying); and headings come again on every page of a sheet that has a table.
func TestTheWorkingPrintsInLettersThatCanBeRead(t *testing.T) {
	const least = 0.57
	standing := 0
	for _, s := range laidOutSimulated(t).Sheets {
		across := 769.0
		if !s.Print.Landscape {
			across = 523
			standing++
		}
		_, end, _ := strings.Cut(strings.ReplaceAll(s.Print.Area, "$", ""), ":")
		m := reference.FindStringSubmatch(end)
		wide := 0.0
		for col := range columnOf(m[2]) {
			chars := 10.0
			if col < len(s.Columns) && s.Columns[col].Chars > 0 {
				chars = s.Columns[col].Chars
			}
			wide += (chars + 0.71) * 5.56
		}
		if scale := across / wide; scale < least {
			t.Errorf("%s is %.0f points wide and printed at %.2f", s.Name, wide, scale)
		}
		if !s.Print.FitWidth || !strings.Contains(s.Print.Footer, "&P of &N") {
			t.Errorf("%s is not printed one page wide with its pages numbered", s.Name)
		}
	}
	if standing < 8 {
		t.Errorf("only %d sheets are printed standing, where a page holds twice the rows", standing)
	}
}
