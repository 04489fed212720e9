package quotes

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/bill"
	"futtock/estimate/job"
)

// rated is quotes with a rate on one line of 10 m each; blank where there is none.
func rated(s Sent, rates ...string) []checked {
	var cells []Cell
	for _, r := range rates {
		c := cell(Silent, "", "")
		if r != "" {
			c = cell(Answered, num(r).Mul(num("10")).String(), r)
		}
		cells = append(cells, c)
	}
	return priced(s, cells...)
}

type outlier struct {
	Offer         int
	Beside        string
	Of            string
	Ratio, Amount string
}

func outliersOf(c Comparison) []outlier {
	var out []outlier
	for _, o := range c.Rates {
		out = append(out, outlier{o.Offer, o.Beside.String(), o.Of, o.Ratio.Decimal().String(), o.Amount.String()})
	}
	return out
}

// The usual terms: more than 50 % above, or 35 % below.
func TestRatesStandOutFromTheYardstickAndFromAMiddleOfThreeOrMore(t *testing.T) {
	for _, c := range []struct {
		name  string
		bill  string
		rates []string
		want  []outlier
	}{
		{"two have no middle", "", []string{"10", "90"}, nil},
		{"one beside the yardstick", "50", []string{"75.01"}, []outlier{{0, "50.00", OfYardstick, "150", "750.10"}}},
		{"just at the limits is within them", "50", []string{"75", "32.50"}, nil},
		{"a penny below", "50", []string{"32.49"}, []outlier{{0, "50.00", OfYardstick, "65", "324.90"}}},
		{"above a limit of part of a penny, 15.015", "10.01", []string{"15.01", "15.02"}, []outlier{{1, "10.01", OfYardstick, "150", "150.20"}}},
		{"below one, 6.5065", "10.01", []string{"6.51", "6.50"}, []outlier{{1, "10.01", OfYardstick, "64.9", "65.00"}}},
		{"three have a middle", "", []string{"10", "40", "62"}, []outlier{{0, "40.00", OfMiddle, "25", "100.00"}, {2, "40.00", OfMiddle, "155", "620.00"}}},
		{"three quotes, two with a rate", "", []string{"10", "", "62"}, nil},
		{"both, the most money first", "50", []string{"90", "40", "41"}, []outlier{{0, "41.00", OfMiddle, "219.5", "900.00"}, {0, "50.00", OfYardstick, "180", "900.00"}}},
		{"a rate of nothing", "50", []string{"0"}, []outlier{{0, "50.00", OfYardstick, "0", "0.00"}}},
		{"beside a yardstick of nothing there is no ratio", "0", []string{"90"}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := one(c.bill, c.bill)
			terms := Usual()
			terms.Gaps = AtMean
			got, _ := compare(s, rated(s, c.rates...), terms)
			if d := cmp.Diff(c.want, outliersOf(got)); d != "" {
				t.Errorf("-want +got:\n%s", d)
			}
		})
	}
}

func TestOnlyMeasuredWorkHasRatesThatStandOut(t *testing.T) {
	s := refit()
	all := three(s)
	all[0].cells[3] = cell(Answered, "4000", "4000") // staging
	all[0].cells[2] = cell(Answered, "160", "32")    // an option is judged too
	c := mustCompare(t, s, all, chosen())
	want := []outlier{{0, "10.00", OfYardstick, "320", "160.00"}}
	if d := cmp.Diff(want, outliersOf(c)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}

func TestARateAboutTenTimesThatOfTwoOthersIsAskedAfterWhereTheBillHasNone(t *testing.T) {
	for _, c := range []struct {
		name   string
		bill   string
		rates  []string
		offers string // those asked
		text   string
	}{
		{"ten times", "", []string{"400", "40", "41"}, "A", "rate is 400.00, about ten times the middle of 2 others, 40.50: the decimal point may be misplaced"},
		{"a tenth", "", []string{"40", "41", "39", "4"}, "D", "rate is 4.00, about a tenth of the middle of 3 others, 40.00: the decimal point may be misplaced"},
		{"eight times and twelve and a half times are", "", []string{"320", "40", "40", "40", "500"}, "AE", ""},
		{"a little less and more are not", "", []string{"319.99", "40", "40", "40", "500.01"}, "", ""},
		{"one other is not enough", "", []string{"400", "40"}, "", ""},
		{"a priced bill is judged by itself", "40", []string{"400", "40", "41"}, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := one(c.bill, c.bill)
			all := rated(s, c.rates...)
			for i := range all {
				all[i].findings = []Finding{{Kind: Unsigned}}
			}
			terms := Usual()
			terms.Gaps = AtMean
			got, _ := compare(s, all, terms)
			asked, text := "", ""
			for i, o := range got.Offers {
				if !o.Corrected.Equal(all[i].corrected) {
					t.Errorf("%s is corrected to %s", o.Name, o.Corrected)
				}
				for _, f := range o.Findings[1:] {
					asked += o.Name
					text = f.Text
					if f.Kind != PointDoubtful || f.ID != "B/1" || !strings.HasPrefix(f.Query, "Please confirm your rate of ") {
						t.Errorf("the finding is %v", f)
					}
				}
			}
			if asked != c.offers || c.text != "" && text != c.text {
				t.Errorf("asked of %q: %s", asked, text)
			}
		})
	}
}

func TestAFindingOfRatesComesWhereItsLineStands(t *testing.T) {
	s := Sent{Sections: []Section{{"F", "Frames"}}}
	for _, id := range []string{"B/1", "B/2", "B/3"} {
		s.Lines = append(s.Lines, line(Work, id, "F", "", "10", "", ""))
	}
	var all []checked
	for _, rates := range [][]string{{"4", "400", "4"}, {"4", "40", "4"}, {"4", "40", "4"}} {
		var cells []Cell
		for _, r := range rates {
			cells = append(cells, cell(Answered, r+"0", r))
		}
		all = append(all, examined(s, Quote{Firm: "A", Tax: bill.LeftOut}, cells...))
	}
	all[0].findings = append(make([]Finding, 0, 9), Finding{Kind: Unsigned}, Finding{Kind: RateNil, ID: "B/1"}, Finding{Kind: AmountDiffers, ID: "B/3"}, Finding{Kind: LineInserted, ID: "B/9"})
	terms := Usual()
	terms.Gaps = AtMean
	c := mustCompare(t, s, all, terms)
	var got []FindingKind
	for _, f := range c.Offers[0].Findings {
		got = append(got, f.Kind)
	}
	if d := cmp.Diff([]FindingKind{Unsigned, RateNil, PointDoubtful, AmountDiffers, LineInserted}, got); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
	if f := all[0].findings; len(f) != 4 || f[2].Kind != AmountDiffers {
		t.Errorf("what was examined now reads %v", f)
	}
}

func TestARateOnlyLineHasARateThatMayStandOut(t *testing.T) {
	s := one("50", "500")
	s.Lines[0].Carried, s.Lines[0].Quantity = job.RateOnly, num("0")
	got := mustCompare(t, s, priced(s, cell(Answered, "", "90")), Usual())
	if d := cmp.Diff([]outlier{{0, "50.00", OfYardstick, "180", "0.00"}}, outliersOf(got)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}
