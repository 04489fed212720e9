package sheets_test

import (
	"slices"
	"strings"
	"testing"

	"futtock/output/sheets"
	"futtock/templates/grid"
)

// rowWith is the first row of a sheet with a text that begins so.
func rowWith(t *testing.T, b *grid.Book, sheet, begins string) []grid.Cell {
	t.Helper()
	for _, s := range b.Sheets {
		if s.Name != sheet {
			continue
		}
		for _, r := range s.Rows {
			for _, c := range r.Cells {
				if strings.HasPrefix(c.Text, begins) {
					return r.Cells
				}
			}
		}
	}
	t.Fatalf("%s has no row with %q", sheet, begins)
	return nil
}

// The client's D is one typed sum with its wording; the summary reads it, and
// nothing of the draws beside the confidence goes with it.
func TestTheClientsSimulatedContingencyIsOneLine(t *testing.T) {
	r := simulated(t)
	b := sheets.Bill(r)
	line := rowWith(t, b, "Contingency", "All that may come out otherwise than priced")
	if !strings.HasSuffix(line[1].Text, "simulated, at 80 %") || line[4].Formula != "" || !line[4].Number.Equal(r.Bill.Held.Decimal()) {
		t.Errorf("the line is %q with %s by %q; want a typed %s", line[1].Text, line[4].Number, line[4].Formula, r.Bill.Held)
	}
	end := rowWith(t, b, "Contingency", "D   Contingency")[4]
	if !strings.HasPrefix(end.Formula, "SUM(") || !end.Number.Equal(r.Bill.Held.Decimal()) {
		t.Errorf("the sheet carries %s by %q", end.Number, end.Formula)
	}
	d := rowWith(t, b, "Summary", "Contingency")
	if got := d[len(d)-1]; !strings.Contains(got.Formula, "Contingency!") && !strings.Contains(got.Formula, "'Contingency'!") || !got.Number.Equal(r.Bill.Held.Decimal()) {
		t.Errorf("the summary's D is %s by %q", got.Number, got.Formula)
	}
	for _, s := range b.Sheets {
		if s.Name != "Contingency" {
			continue
		}
		sums := 0
		for _, row := range s.Rows {
			for _, c := range row.Cells {
				if c.Kind == grid.Number {
					sums++
				}
			}
		}
		if sums != 2 {
			t.Errorf("the sheet has %d figures, and the line and its total are two", sums)
		}
	}
}

// The client is told of a qualifying ship where the law of the United Kingdom holds, and elsewhere of relief.
func TestTheNoteOnReliefIsOfTheCountry(t *testing.T) {
	r := demonstration(t)
	for currency, want := range map[string]string{"GBP": "Where a line is zero-rated because the vessel is taken to be a qualifying ship", "NOK": "Where a line is relieved of tax on account of the vessel"} {
		r.Job.Currency = currency
		rowWith(t, sheets.Bill(r), "Notes and cautions", want)
	}
}

// Stages stand beside what is printed: however long, no row is the higher for them.
func TestWhatIsNotPrintedMakesNoRowHigher(t *testing.T) {
	r := demonstration(t)
	seen := 0
	for _, s := range sheets.Bill(r).Sheets {
		p := s.Name
		if !slices.Contains([]string{"Bill", "Preliminaries", "Sums"}, p) {
			continue
		}
		seen++
		_, last, _ := strings.Cut(strings.ReplaceAll(s.Print.Area, "$", ""), ":")
		col := int(last[0]-'A') + 1
		beside := 0
		for _, row := range s.Rows {
			for n, c := range row.Cells {
				if n >= col && c.Text != "" && c.Formula == "" && c.Style.Fill == "" {
					beside++
					if c.Style.Wrap {
						t.Errorf("%s: %q beside what is printed is broken into lines", p, c.Text)
					}
				}
			}
		}
		if beside == 0 {
			t.Errorf("%s: nothing stands beside what is printed", p)
		}
	}
	if seen != 3 {
		t.Errorf("%d sheets were looked at, want 3", seen)
	}
}
