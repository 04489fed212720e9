package quotes

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/bill"
	"futtock/rates/money"
	"futtock/rates/problem"
)

func TestOnlyAContingencyThatAFirmPutInIsTakenOutOfWhatItPutIn(t *testing.T) {
	s := one("50", "500")
	a := examined(s, Quote{Firm: "A", Tax: bill.AddedIn, TaxRate: points("20"), TaxRateGiven: true}, cell(Answered, "600", "60")).
		with(nil, &Offered{Fixed: bill.Fixed{Description: "shed"}, Amount: given("240")}, &Offered{Fixed: bill.Fixed{Description: "allow for the unforeseen"}, Amount: given("120")})
	a.findings = []Finding{{Kind: LineInserted, Worth: amount("240")}, {Kind: ContingencyPut, Worth: amount("120")}}
	c := mustCompare(t, s, []checked{a}, Usual())
	o := c.Offers[0]
	if d := cmp.Diff([]step{{TakenOut, "", "-100.00"}}, steps(o)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
	if o.Net.String() != "800.00" || o.Beside.String() != "300.00" || o.OutOfScope.String() != "360.00" || o.Levelled.String() != "700.00" {
		t.Errorf("net %s, beside %s, out of scope %s, levelled %s", o.Net, o.Beside, o.OutOfScope, o.Levelled)
	}
}

func TestFiguresForQualificationsAreMatchedWithoutRegardToCaseAndSpacing(t *testing.T) {
	docking := []Qualification{{Number: 1, Text: "Docking by owner", At: one("", "").Lines[0].At}, {Number: 2, Text: "No work in frost", At: one("", "").Lines[0].At}}
	for _, c := range []struct {
		name    string
		figures []Priced
		want    []step
		codes   []problem.Code
		near    string
		text    string
	}{
		{"none given", nil, nil, nil, "", ""},
		{"one matched", []Priced{{Firm: "YARD a", Text: "docking  BY owner", Amount: amount("250")}}, []step{{Qualified, "", "250.00"}}, nil, "", ""},
		{"one that saves", []Priced{{Firm: "Yard A", Text: "No work in frost", Amount: amount("-40")}}, []step{{Qualified, "", "-40.00"}}, nil, "", ""},
		{"words mistyped", []Priced{{Firm: "Yard A", Text: "Dokcing by owner", Amount: amount("250")}}, nil, []problem.Code{problem.FigureUnmatched}, "Docking by owner", "which makes no such qualification"},
		{"firm mistyped", []Priced{{Firm: "Yrad A", Text: "Docking by owner", Amount: amount("250")}}, nil, []problem.Code{problem.FigureUnmatched}, "Yard A", "which makes no such qualification"},
		{"given twice", []Priced{{Firm: "Yard A", Text: "Docking by owner", Amount: amount("250")}, {Firm: "Yard A", Text: "Docking by owner", Amount: amount("260")}},
			[]step{{Qualified, "", "250.00"}}, []problem.Code{problem.FigureUnmatched}, "", "is given a figure twice, the second time 260.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := one("50", "500")
			all := []checked{examined(s, Quote{Firm: "Yard A", Tax: bill.LeftOut, Qualifications: docking}, cell(Answered, "600", "60")),
				examined(s, Quote{Book: "second.xlsx", Tax: bill.LeftOut}, cell(Answered, "610", "61"))}
			terms := Usual()
			terms.Figures = c.figures
			got, problems := compare(s, all, terms)
			if d := cmp.Diff(c.want, steps(got.Offers[0])); d != "" {
				t.Errorf("-want +got:\n%s", d)
			}
			if d := cmp.Diff(c.codes, codes(problems)); d != "" {
				t.Fatalf("problems, -want +got:\n%s", d)
			}
			if len(problems) > 0 && (problems[0].Near != c.near || !strings.Contains(problems[0].Text, c.text)) {
				t.Errorf("%s", problems[0])
			}
		})
	}
}

func TestWeeksArePricedAtWhatOneCostsTheClient(t *testing.T) {
	week := amount("100")
	for _, c := range []struct {
		name      string
		programme string
		weeks     []string // of each quote; blank where unsaid
		week      money.Amount
		want      []string
		how       string // of the last
		codes     []problem.Code
	}{
		{"as offered", "6", []string{"5", "8.5"}, week, []string{"500.00", "850.00"}, "8.5 weeks at 100.00", nil},
		{"unsaid, those of the programme", "6", []string{"5", ""}, week, []string{"500.00", "600.00"}, "6 weeks at 100.00; the weeks are not said, and are those of the programme", nil},
		{"unsaid, the longest of the others", "", []string{"5", "9", ""}, week, []string{"500.00", "900.00", "900.00"}, "9 weeks at 100.00; the weeks are not said, and are the longest of the others", nil},
		{"nobody says", "", []string{"", ""}, week, []string{"", ""}, "", []problem.Code{problem.WeeksNowhere, problem.WeeksNowhere}},
		{"a week has no price", "", []string{"5", ""}, money.Amount{}, []string{"", ""}, "", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := one("50", "500")
			if c.programme != "" {
				s.Weeks = Stretch{num(c.programme), true}
			}
			var all []checked
			for _, w := range c.weeks {
				q := Quote{Firm: "A", Tax: bill.LeftOut}
				if w != "" {
					q.Weeks = given(w)
				}
				all = append(all, examined(s, q, cell(Answered, "600", "60")))
			}
			terms := Usual()
			terms.Week = c.week
			got, problems := compare(s, all, terms)
			if d := cmp.Diff(c.codes, codes(problems)); d != "" {
				t.Errorf("problems, -want +got:\n%s", d)
			}
			last := ""
			for i, o := range got.Offers {
				last = ""
				var priced string
				for _, a := range o.Adjustments {
					priced, last = a.Amount.String(), a.Text
				}
				if priced != c.want[i] || o.Weeks.Known != (c.weeks[i] != "") {
					t.Errorf("quote %d: weeks priced %q, want %q; known %t", i, priced, c.want[i], o.Weeks.Known)
				}
			}
			if last != c.how {
				t.Errorf("got %q, want %q", last, c.how)
			}
		})
	}
	if problem.List([]problem.Problem{{Code: problem.WeeksNowhere}}).HasErrors() {
		t.Error("weeks that nobody says stop the comparison")
	}
}
