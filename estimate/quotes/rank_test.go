package quotes

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/rates/money"
)

// published is the rows of testdata/published/tenders.csv by id: the inputs
// and what is expected of them.
func published(t *testing.T) map[string][2][]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/tenders.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	rows := map[string][2][]string{}
	for _, line := range lines[1:] {
		rows[line[0]] = [2][]string{strings.Split(line[2], "; "), strings.Split(line[3], "; ")}
	}
	return rows
}

func amounts(list ...string) []money.Amount {
	var out []money.Amount
	for _, s := range list {
		out = append(out, amount(s))
	}
	return out
}

// ofSums is quotes of one line with these sums on it.
func ofSums(t *testing.T, sums ...string) Comparison {
	t.Helper()
	s := one("50", "500")
	var cells []Cell
	for _, sum := range sums {
		cells = append(cells, cell(Answered, sum, ""))
	}
	return mustCompare(t, s, priced(s, cells...), Usual())
}

func TestMarksAreThoseOfThePublishedRule(t *testing.T) {
	row := published(t)["R-TEN-01"]
	c := ofSums(t, row[0]...)
	for i, want := range row[1] {
		if got := c.Offers[i].Marks; got.Sub(num(want)).Abs().GreaterThan(num("0.5")) {
			t.Errorf("%s: got %s marks, want %s", row[0][i], got, want)
		}
	}
}

func TestEqualSumsShareARankAndNilBearsNoMarks(t *testing.T) {
	c := ofSums(t, "300", "200", "300", "-10", "0", "400")
	var ranks []int
	var marks []string
	for _, o := range c.Offers {
		ranks = append(ranks, o.RankAfter)
		marks = append(marks, o.Marks.String())
	}
	if d := cmp.Diff([]int{4, 3, 4, 1, 2, 6}, ranks); d != "" {
		t.Errorf("ranks, -want +got:\n%s", d)
	}
	if d := cmp.Diff([]string{"66.67", "100", "66.67", "0", "0", "50"}, marks); d != "" {
		t.Errorf("marks, -want +got:\n%s", d)
	}
}

func TestTheMiddleOfSumsWithAndWithoutOneOfThem(t *testing.T) {
	for _, c := range []struct {
		name      string
		sums      []string
		one       string
		all, less string
	}{
		{"three", []string{"1", "2", "9"}, "1", "2.00", "5.50"},
		{"four, a half upward", []string{"1", "2", "2.01", "9"}, "9", "2.01", "2.00"},
		{"two alike", []string{"3", "3", "4"}, "3", "3.00", "3.50"},
		{"five, without the middle one", []string{"1", "2", "3", "4", "5"}, "3", "3.00", "3.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			sums := amounts(c.sums...)
			if got := median(sums).String(); got != c.all {
				t.Errorf("the middle is %s, want %s", got, c.all)
			}
			if got := medianWithout(sums, amount(c.one)).String(); got != c.less {
				t.Errorf("without %s it is %s, want %s", c.one, got, c.less)
			}
		})
	}
}

type spreadRow struct {
	Key, Yardstick string
	Levelled       []string
	Low, High      string
	Percent        string
}

func spreads(c Comparison) []spreadRow {
	var out []spreadRow
	for _, s := range c.Sections {
		r := spreadRow{Key: s.Key, Yardstick: s.Yardstick.Amount.String(), Low: s.Low.String(), High: s.High.String(), Percent: s.Percent.Decimal().String()}
		for i, a := range s.Levelled {
			if s.Within[i] {
				r.Levelled = append(r.Levelled, "within")
			} else {
				r.Levelled = append(r.Levelled, a.String())
			}
		}
		out = append(out, r)
	}
	return out
}

func TestTheSpreadBySectionCastsToEachLevelledFigure(t *testing.T) {
	s := refit()
	c := mustCompare(t, s, three(s), chosen())
	want := []spreadRow{
		{"F", "500.00", []string{"550.00", "500.00", "480.00"}, "480.00", "550.00", "14.6"}, // 70 / 480
		{"P", "600.00", []string{"600.00", "600.00", "700.00"}, "600.00", "700.00", "16.7"},
		{"preliminaries", "400.00", []string{"0.00", "400.00", "400.00"}, "0.00", "400.00", "0"},
		{"sums", "1100.00", []string{"1100.00", "1100.00", "1080.00"}, "1080.00", "1100.00", "1.9"},
		{"dayworks", "400.00", []string{"380.00", "400.00", "400.00"}, "380.00", "400.00", "5.3"},
		{"beside the lines", "900.00", []string{"800.00", "900.00", "1350.00"}, "800.00", "1350.00", "68.8"}, // 68.75, a half upward
	}
	if d := cmp.Diff(want, spreads(c)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}

func TestALetterForMeasuredWorkAsAWholeIsLeftOutOfItsSections(t *testing.T) {
	s := refit()
	all := three(s)
	all[2].lumps = map[string]money.Amount{string(Work): amount("1180")}
	c := mustCompare(t, s, all, chosen())
	want := []spreadRow{
		{"F", "500.00", []string{"550.00", "500.00", "within"}, "500.00", "550.00", "10"},
		{"P", "600.00", []string{"600.00", "600.00", "within"}, "600.00", "600.00", "0"},
		{"measured work", "0.00", []string{"within", "within", "1180.00"}, "1180.00", "1180.00", "0"},
	}
	if d := cmp.Diff(want, spreads(c)[:3]); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
	if got := c.Offers[2].Levelled.String(); got != "4410.00" {
		t.Errorf("Cedar levels to %s", got)
	}
}

func TestWorkOfNoSectionOfTheBillIsNotLost(t *testing.T) {
	s := one("50", "500")
	s.Lines[0].Section = "elsewhere"
	c := mustCompare(t, s, priced(s, cell(Answered, "600", "60")), Usual())
	want := []spreadRow{
		{"F", "0.00", []string{"0.00"}, "0.00", "0.00", "0"},
		{"measured work", "500.00", []string{"600.00"}, "600.00", "600.00", "0"},
	}
	if d := cmp.Diff(want, spreads(c)[:2]); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}

func TestALettersSumOfNothingForASectionCounts(t *testing.T) {
	s := refit()
	all := three(s)
	all[2] = examined(s, *all[2].quote, all[2].cells...).with(map[string]money.Amount{"F": amount("0"), "P": amount("700")})
	f := mustCompare(t, s, all, chosen()).Sections[0]
	if f.Within[2] || !f.Low.IsZero() || f.High.String() != "550.00" {
		t.Errorf("within %v, from %s to %s", f.Within, f.Low, f.High)
	}
}
