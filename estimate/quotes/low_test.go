package quotes

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// flagged is the prices that are asked after.
func flagged(test LowTest, totals ...string) []string {
	var out []string
	for i, low := range test.Low {
		if low {
			out = append(out, totals[i])
		}
	}
	return out
}

func TestTheScottishRuleAgreesWithItsPublishedTermsAndSample(t *testing.T) {
	rows := published(t)
	sample := rows["F-TEN-09"]
	test := Low(Scottish, amounts(sample[0]...), Money{})
	if want := sample[1][0] + ".00"; !test.Applies || test.Limit.String() != want {
		t.Errorf("the limit is %s, want %s", test.Limit, want)
	}
	if d := cmp.Diff(sample[1][1:], flagged(test, sample[0]...)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
	if margins := rows["R-TEN-07"][1]; margins[0] != "15" || margins[1] != "1" {
		t.Fatalf("the margins are %v", margins)
	}
	if limits := rows["R-TEN-08"][1]; limits[0] != "1000" || limits[1] != "100000" {
		t.Fatalf("the limits are %v", limits)
	}
	for _, c := range []struct {
		name   string
		totals []string
		want   []string
		limit  string
	}{
		// (85 + 115) / 2 = 100 thousand: just 15 % below is not more than 15 %, and qualifies.
		{"just 15 % below the average", []string{"85000", "115000", "120000"}, nil, "84000.00"},
		// A penny less: the average falls by half a penny, the limit by 0.425 of one.
		{"more than 15 % below", []string{"84999.99", "115000", "120000"}, []string{"84999.99"}, "85000.00"},
		// Average (340,000 + 399,000 + 500,000 + 500,000) / 4 = 434,750, limit 369,537.50.
		{"one of them is below", []string{"340000", "399000", "500000", "500000", "900000"}, []string{"340000"}, "369537.50"},
		// Average (3,000 + 3,900 + 4,000 + 4,000) / 4 = 3,725.00, limit 3,166.25; the margin is 1,000
		// at the least, so 3,000 lies within it of 3,900 and is not asked after.
		{"within 1,000 of the lowest qualifying", []string{"3000", "3900", "4000", "4000", "9000"}, nil, "2900.00"},
		// Average (10,100,000 + 10,150,000 + 15,800,000) / 3 = 12,016,666.67, limit 10,214,166.67: two are
		// below; the lowest qualifying is 15,800,000, its margin 100,000 at the most.
		{"two are below", []string{"10100000", "10150000", "15800000", "16000000"}, []string{"10100000", "10150000"}, "10214166.67"},
		// Average (8,460,000 + 8,500,000 + 13,000,000) / 3 = 9,986,666.67 and limit 8,488,666.67; 8,500,000
		// qualifies, its margin of 85,000 goes down to 8,415,000.
		{"within 1 % of the lowest qualifying", []string{"8460000", "8500000", "13000000", "14000000"}, nil, "8415000.00"},
		// Average (16,900,000 + 17,020,000 + 26,000,000) / 3 = 19,973,333.33, limit 16,977,333.33; 1 % of
		// 17,020,000 is 170,200, held to 100,000: 16,920,000.
		{"more than 100,000 below is asked after", []string{"16900000", "17020000", "26000000", "27000000"}, []string{"16900000"}, "16920000.00"},
		{"only one of two highest is left out", []string{"70", "100", "100"}, nil, "-900.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			test := Low(Scottish, amounts(c.totals...), Money{})
			if test.Limit.String() != c.limit || !test.Applies {
				t.Errorf("the limit is %s, want %s: %s", test.Limit, c.limit, test.Basis)
			}
			if d := cmp.Diff(c.want, flagged(test, c.totals...)); d != "" {
				t.Errorf("-want +got:\n%s\n%s", d, test.Basis)
			}
		})
	}
}

func TestTheSpanishRuleAgreesWithItsPublishedTermsAndSample(t *testing.T) {
	rows := published(t)
	sample := rows["F-TEN-15"]
	test := Low(Spanish, amounts(sample[0]...), Money{})
	if !test.Applies || test.Limit.String() != sample[1][0] || flagged(test, sample[0]...) != nil {
		t.Errorf("limit %s, asked %v, want %s and none: %s", test.Limit, test.Low, sample[1][0], test.Basis)
	}
	if d := cmp.Diff([]string{"10", "10", "25"}, rows["R-TEN-13"][1]); d != "" {
		t.Fatal(d)
	}
	if d := cmp.Diff([]string{"10", "10", "3"}, rows["R-TEN-14"][1]); d != "" {
		t.Fatal(d)
	}
	for _, c := range []struct {
		name   string
		totals []string
		budget string
		want   []string
		limit  string
	}{
		{"two, just 20 points below", []string{"80", "100"}, "", nil, "80.00"},
		{"two, more than 20 points below", []string{"100", "79.99"}, "", []string{"79.99"}, "80.00"},
		// Mean 100, nothing above 110; just 10 points below is not more.
		{"three, just 10 points below", []string{"90", "100", "110"}, "", nil, "90.00"},
		// Mean 99.333: 110 is above 109.267 and left out; of 88 and 100 it is 94, limit 84.60.
		{"three, the highest left out", []string{"88", "100", "110"}, "", nil, "84.60"},
		// Mean 70, two are above 77, the highest alone is left out: 55, limit 49.50.
		{"three, the highest alone left out", []string{"10", "100", "100"}, "", []string{"10"}, "49.50"},
		// Mean 97.67, no one above 107.43, limit 87.90; 75 % of a budget of 120 is 90.
		{"three, more than 25 points below the budget", []string{"89", "100", "104"}, "120", []string{"89"}, "90.00"},
		{"a budget that cuts less", []string{"89", "100", "104"}, "100", nil, "87.90"},
		// Mean 100, no one above 110.
		{"four, more than 10 points below", []string{"89", "100", "101", "110"}, "", []string{"89"}, "90.00"},
		// Mean 87.50, 110 and 120 above 96.25; two are left, so the three lowest: 76.67, limit 69.00.
		{"four, fewer than three left", []string{"60", "60", "110", "120"}, "", []string{"60", "60"}, "69.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			budget := Money{}
			if c.budget != "" {
				budget = Money{amount(c.budget), true}
			}
			test := Low(Spanish, amounts(c.totals...), budget)
			if test.Limit.String() != c.limit || !test.Applies {
				t.Errorf("the limit is %s, want %s: %s", test.Limit, c.limit, test.Basis)
			}
			if d := cmp.Diff(c.want, flagged(test, c.totals...)); d != "" {
				t.Errorf("-want +got:\n%s\n%s", d, test.Basis)
			}
		})
	}
}

func TestARuleWithTooFewPricesIsNotApplied(t *testing.T) {
	for _, c := range []struct {
		name   string
		rule   LowRule
		totals []string
		basis  string
	}{
		{"Scottish of two", Scottish, []string{"10", "100"}, "it needs three prices, and has 2"},
		{"nil and less do not count", Scottish, []string{"10", "100", "0", "-5"}, "it needs three prices, and has 2"},
		{"Spanish of one", Spanish, []string{"10"}, "it needs two prices, and has 1"},
		{"no rule", NoLow, []string{"10", "100", "110"}, ""},
		{"no quotes", Scottish, nil, "it needs three prices, and has 0"},
	} {
		t.Run(c.name, func(t *testing.T) {
			test := Low(c.rule, amounts(c.totals...), Money{})
			if test.Applies || test.Basis != c.basis || flagged(test, c.totals...) != nil || len(test.Low) != len(c.totals) {
				t.Errorf("got %+v", test)
			}
		})
	}
}

// Of three, 0.60 with 0.66 and 0.74 have a mean of 0.666..., and 10 points
// below is 0.60 exactly.
func TestAPriceJustAtALimitThatHasNoEndIsNotBelowIt(t *testing.T) {
	if test := Low(Spanish, amounts("0.60", "0.67", "0.73"), Money{}); test.Low[0] || test.Limit.String() != "0.60" {
		t.Errorf("got %+v", test)
	}
}
