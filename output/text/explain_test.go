package text

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate"
	"futtock/output/explain"
	"futtock/rates/origin"
)

// A page of a hundred letters: labels run on under themselves, figures stand in
// one column, and words and cells beside them.
func TestExplainedLinesStandInTheirColumns(t *testing.T) {
	r := estimate.Result{}
	r.Job.Vessel, r.Job.Reference, r.Job.Currency = "Polly", "T1", "GBP"
	cell := origin.Cell{Book: "yard.xlsx", Sheet: "Norms", Row: 14, Col: 4}
	var b strings.Builder
	Explained(&b, r, []explain.Line{{Label: "Bill item 1", How: "Renew covering board", Under: []explain.Line{
		{Label: "Section", How: "D, Deck", At: cell},
		{Label: "Amount", Value: "1234.50", Unit: "GBP", How: "24.50 ft x 50.39", Under: []explain.Line{
			{Label: "Rate of a board that is long enough to run on", Value: "50.39", Unit: "GBP/ft", At: cell},
			{Label: "Norm", Value: "0.9", Unit: "h/ft", How: "as the yard's books have it, of ten boards at 12 %", At: cell},
			{Label: "Length", Value: `24' 6"`},
		}},
	}}})
	want := `Polly, tender T1, 1 January 0001; money in GBP

Bill item 1
  Renew covering board

Section                                 D, Deck  yard.xlsx: Norms!D14

Amount                                        1,234.50        24.50 ft x 50.39
  Rate of a board that is long enough
    to run on                                    50.39 /ft    yard.xlsx: Norms!D14
  Norm                                             0.9 h/ft   as the yard's books have it, of ten
                                                              boards at 12 %  yard.xlsx: Norms!D14
  Length                                        24' 6"
`
	if d := cmp.Diff(want, b.String()); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

func TestWordsBreakBetweenThemselvesOnly(t *testing.T) {
	for _, c := range []struct {
		name, text string
		width      int
		want       []string
	}{
		{"nothing", "", 10, nil},
		{"what fits stays", "10 % waste", 10, []string{"10 % waste"}},
		{"a figure keeps its unit", "and 10 % waste", 7, []string{"and", "10 %", "waste"}},
		{"a metre too", "of 13.5 m2 face", 8, []string{"of", "13.5 m2", "face"}},
		{"a word too long stays whole", "a sternpost", 4, []string{"a", "sternpost"}},
	} {
		if d := cmp.Diff(c.want, wrap(c.text, c.width)); d != "" {
			t.Errorf("%s (-want +got):\n%s", c.name, d)
		}
	}
}
