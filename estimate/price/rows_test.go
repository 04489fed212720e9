package price_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/money"
)

// Labour at 10 % and 10 % on it, so 1.21, timber at cost, handling bare: 100.00
// of labour weighs 121, 60.00 of timber and 19.00 of handling 79, so 1,000.01
// is 605.01 (605.00605) and 395.00.
func TestASumIsSharedOverTheRowsByTheirCostWithAdditions(t *testing.T) {
	i := price.Item{
		Rows: []job.Work{{Ref: "1"}, {Ref: "2"}},
		Costs: []price.Cost{
			{Ref: "1", Kind: rates.OfLabour, Cost: money.MustAmount("100.00")},
			{Ref: "2", Kind: rates.OfTimber, Cost: money.MustAmount("60.00")},
			{Ref: "2", Kind: rates.OfLabour, Cost: money.MustAmount("19.00"), Bare: true},
		},
		Kinds: []price.Kind{
			{Kind: rates.OfLabour, OverheadsPercent: money.NewPercent(dec("10")), ProfitPercent: money.NewPercent(dec("10"))},
			{Kind: rates.OfTimber},
		},
	}
	check := func(sum string, want ...string) {
		t.Helper()
		var got []string
		for _, a := range i.ByRow(money.MustAmount(sum)) {
			got = append(got, a.String())
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s (-want +got):\n%s", sum, d)
		}
	}
	check("1000.01", "605.01", "395.00")
	i.Costs = nil
	check("12.00", "12.00", "0.00")
}
