package quotes

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/bill"
	"futtock/rates/problem"
)

// one is a bill with a single line of 10 m, priced or not.
func one(rate, sum string) Sent {
	return Sent{Book: "bill.xlsx", Priced: sum != "", Sections: []Section{{"F", "Frames"}}, Lines: []Line{line(Work, "B/1", "F", "", "10", rate, sum)}}
}

// priced is quotes for one line, each answered by its word or sum.
func priced(s Sent, answers ...Cell) []checked {
	var all []checked
	for n, a := range answers {
		all = append(all, examined(s, Quote{Firm: string(rune('A' + n)), Tax: bill.LeftOut}, a))
	}
	return all
}

func TestALineLeftOutIsLevelledByTheRuleChosen(t *testing.T) {
	left, silent, owner := cell(LeftOff, "", ""), cell(Silent, "", ""), cell(ForOwner, "", "")
	in, lump := cell(WithinOthers, "", ""), cell(WithinLump, "", "")
	p := func(sum string) Cell { return cell(Answered, sum, "") }
	for _, c := range []struct {
		name  string
		rule  GapRule
		bill  string
		cells []Cell
		want  string // of the first quote
		why   string
	}{
		{"at the yardstick", AtYardstick, "500", []Cell{left, p("400"), p("700")}, "500.00", "excluded: levelled at the yardstick, 500.00"},
		{"at the mean of the others, rounded once", AtMean, "500", []Cell{silent, p("400"), p("700.01"), p("100")}, "400.00", "not priced: levelled at the mean of 3 other quotes, 400.00"},
		{"at the highest of the others", AtHighest, "500", []Cell{owner, p("400"), p("700")}, "700.00", "by owner: levelled at the highest of 2 other quotes, 700.00"},
		{"others who are silent do not count", AtMean, "500", []Cell{silent, left, p("700"), owner}, "700.00", "not priced: levelled at the mean of 1 other quote, 700.00"},
		{"others who have it in other rates do not count", AtMean, "500", []Cell{silent, in, p("700")}, "700.00", "not priced: levelled at the mean of 1 other quote, 700.00"},
		{"others who have it in a section's sum do not count", AtHighest, "500", []Cell{silent, lump, p("300")}, "300.00", "not priced: levelled at the highest of 1 other quote, 300.00"},
		{"others at nothing do not count", AtMean, "500", []Cell{silent, p("0"), p("300")}, "300.00", "not priced: levelled at the mean of 1 other quote, 300.00"},
		{"the yardstick where nobody else prices it", AtMean, "500", []Cell{silent, left}, "500.00", "not priced: levelled at the yardstick, as no other quote prices it, 500.00"},
		{"what stands beside a word is not counted with it", AtYardstick, "500", []Cell{cell(LeftOff, "20", "")}, "500.00", "excluded: levelled at the yardstick, 500.00"},
		{"a yardstick of nothing is a figure", AtYardstick, "0", []Cell{silent, p("300")}, "0.00", "not priced: levelled at the yardstick, 0.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := one("50", c.bill)
			terms := Usual()
			terms.Gaps = c.rule
			got := mustCompare(t, s, priced(s, c.cells...), terms)
			x := got.Rows[0].Cells[0]
			if x.Levelled.String() != c.want || got.Offers[0].Levelled.String() != c.want {
				t.Errorf("levelled at %s, the whole at %s, want %s", x.Levelled, got.Offers[0].Levelled, c.want)
			}
			if d := cmp.Diff([]string{c.why}, x.Why); d != "" {
				t.Errorf("why, -want +got:\n%s", d)
			}
			step := []step{{GapFilled, "B/1", amount(c.want).Sub(x.Net).String()}}
			if d := cmp.Diff(step, steps(got.Offers[0])); d != "" {
				t.Errorf("steps, -want +got:\n%s", d)
			}
		})
	}
}

// Two of 100.00 and 100.01 are 200.01, half of it 100.005: a half upward.
func TestTheMeanIsRoundedOnceHalvesUpward(t *testing.T) {
	s := one("50", "500")
	terms := Usual()
	terms.Gaps = AtMean
	c := mustCompare(t, s, priced(s, cell(Silent, "", ""), cell(Answered, "100", ""), cell(Answered, "100.01", "")), terms)
	if got := c.Offers[0].Levelled.String(); got != "100.01" {
		t.Errorf("got %s", got)
	}
}

func TestOnlyWhatIsInTheTotalAndNotPricedIsAGap(t *testing.T) {
	s := one("50", "500")
	c := mustCompare(t, s, priced(s, cell(WithinOthers, "", ""), cell(WithinLump, "", ""), cell(Answered, "0", "0")), Usual())
	for _, o := range c.Offers {
		if len(o.Adjustments) > 0 || !o.Levelled.IsZero() {
			t.Errorf("%s levels to %s by %v", o.Name, o.Levelled, o.Adjustments)
		}
	}
}

func TestGapsAtAYardstickWithoutPricesAreRefusedAtOnce(t *testing.T) {
	s := one("", "")
	c, problems := compare(s, priced(s, cell(Silent, "", ""), cell(Answered, "300", "")), Usual())
	if d := cmp.Diff([]problem.Code{problem.YardstickUnpriced}, codes(problems)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
	why := "not priced: levelled at the mean of 1 other quote, as the yardstick bears no price, 300.00"
	if got := c.Rows[0].Cells[0].Why; len(got) != 1 || got[0] != why {
		t.Errorf("why it is levelled: %q", got)
	}
}

func TestALineThatNobodyPricesCannotBeLevelledAndIsNamedForEachQuote(t *testing.T) {
	s := one("", "")
	terms := Usual()
	terms.Gaps = AtHighest
	_, problems := compare(s, priced(s, cell(Silent, "", ""), cell(LeftOff, "", "")), terms)
	if d := cmp.Diff([]problem.Code{problem.LineNotLevelled, problem.LineNotLevelled}, codes(problems)); d != "" {
		t.Fatalf("-want +got:\n%s", d)
	}
	for n, want := range []string{`"B/1", "work of B/1", cannot be levelled for "A" (not priced)`, `"B/1", "work of B/1", cannot be levelled for "B" (excluded)`} {
		if !strings.HasPrefix(problems[n].Text, want) || problems[n].With != s.Lines[0].At {
			t.Errorf("problem %d: %s, with %s", n, problems[n].Text, problems[n].With)
		}
	}
}

// A sum of 1,000.00 with the yardstick's profit and attendance at 100.00.
func TestGivenSumsAreMadeEqualAndOnlyWhatIsPutOnThemDiffers(t *testing.T) {
	s := refit()
	s.Lines = s.Lines[4:5]
	said := func(sum, profit, attendance string) Cell {
		c := cell(Answered, sum, "")
		if profit != "" {
			c.Offered.Profit = given(profit)
		}
		if attendance != "" {
			c.Offered.Attendance = given(attendance)
		}
		return c
	}
	for _, c := range []struct {
		name  string
		cell  Cell
		rule  GapRule
		want  string
		steps []step
	}{
		{"profit and attendance as offered", said("1115", "0.05", "65"), AtYardstick, "1115.00", nil},
		{"a profit of nothing is said", said("1000", "0", ""), AtYardstick, "1000.00", nil},
		{"a sum that the firm has raised", said("1270", "0.05", "65"), AtYardstick, "1115.00", []step{{SumsEqual, "S/1", "-155.00"}}},
		{"nothing said is filled in by the yardstick", said("1000", "", ""), AtYardstick, "1100.00", []step{{GapFilled, "S/1", "100.00"}}},
		{"or by the mean of the others", said("1000", "", ""), AtMean, "1035.00", []step{{GapFilled, "S/1", "35.00"}}},
		{"or by the highest", said("1000", "", ""), AtHighest, "1050.00", []step{{GapFilled, "S/1", "50.00"}}},
		{"left out altogether", cell(LeftOff, "", ""), AtYardstick, "1100.00", []step{{GapFilled, "S/1", "100.00"}, {SumsEqual, "S/1", "1000.00"}}},
		{"its profit in other rates", cell(WithinOthers, "", ""), AtYardstick, "1000.00", []step{{SumsEqual, "S/1", "1000.00"}}},
		{"within the sum of a letter", cell(WithinLump, "", ""), AtYardstick, "0.00", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			all := []checked{examined(s, Quote{Firm: "A", Tax: bill.LeftOut}, c.cell),
				examined(s, Quote{Firm: "B", Tax: bill.LeftOut}, said("1050", "0.05", "")),
				examined(s, Quote{Firm: "C", Tax: bill.LeftOut}, said("1020", "", "20"))}
			terms := Usual()
			terms.Gaps = c.rule
			s := s
			s.HasHeld = false
			got := mustCompare(t, s, all, terms)
			if x := got.Rows[0].Cells[0].Levelled.String(); x != c.want || got.Offers[0].Levelled.String() != c.want {
				t.Errorf("levelled at %s, the whole at %s, want %s", x, got.Offers[0].Levelled, c.want)
			}
			if d := cmp.Diff(c.steps, steps(got.Offers[0])); d != "" {
				t.Errorf("-want +got:\n%s", d)
			}
		})
	}
}

func TestALetterWithAFigureForAGivenSumAddsWhatIsAboveIt(t *testing.T) {
	s := refit()
	s.Lines, s.HasHeld = s.Lines[4:5], false
	for _, c := range []struct{ name, sum, want string }{
		{"above it", "1080", "1080.00"},
		{"the sum itself", "1000", "1000.00"},
		{"below it", "950", "1000.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := mustCompare(t, s, []checked{examined(s, Quote{Firm: "A", Lump: true, Tax: bill.LeftOut}, cell(Answered, c.sum, ""))}, Usual())
			if got.Offers[0].Levelled.String() != c.want {
				t.Errorf("got %s, want %s", got.Offers[0].Levelled, c.want)
			}
		})
	}
}

func TestASumWhoseProfitNobodySaysIsAProblemWithoutAYardstick(t *testing.T) {
	s := refit()
	s.Lines, s.HasHeld, s.Priced = s.Lines[4:5], false, false
	c, problems := compare(s, []checked{examined(s, Quote{Firm: "A", Tax: bill.LeftOut}, cell(Answered, "1000", ""))}, asMean())
	if d := cmp.Diff([]problem.Code{problem.LineNotLevelled}, codes(problems)); d != "" {
		t.Fatalf("-want +got:\n%s", d)
	}
	if !strings.HasPrefix(problems[0].Text, `profit and attendance on "S/1"`) || c.Offers[0].Levelled.String() != "1000.00" {
		t.Errorf("%s; levelled at %s", problems[0], c.Offers[0].Levelled)
	}
}

func TestProfitSaidToBeInOtherRatesIsNotFilledInNorCounted(t *testing.T) {
	s := refit()
	s.Lines, s.HasHeld = s.Lines[4:5], false
	in, silent, said := cell(Answered, "1000", ""), cell(Answered, "1000", ""), cell(Answered, "1060", "")
	in.Offered.Choice, said.Offered.Attendance = bill.Included, given("60")
	c := mustCompare(t, s, priced(s, in, silent, said), asMean())
	for i, want := range []string{"1000.00", "1060.00", "1060.00"} {
		if got := c.Offers[i].Levelled.String(); got != want {
			t.Errorf("quote %d levels to %s, want %s", i, got, want)
		}
	}
}
