package json

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting"
	"futtock/rates/money"
)

// A bound is written with what is proven; what is not is null, never nil money.
func TestABoundIsWrittenAsFarAsItIsProven(t *testing.T) {
	for _, c := range []struct{ name, cost, least, gap, want string }{
		{"proven", "74764.72", "71109.46", "4.89", "{\n  \"cost\": \"74764.72\",\n  \"least\": \"71109.46\",\n  \"gap_percent\": \"4.89\"\n}\n"},
		{"not proven", "74764.72", "0", "100", "{\n  \"cost\": \"74764.72\",\n  \"least\": null,\n  \"gap_percent\": null\n}\n"},
		{"for nothing", "0", "0", "0", "{\n  \"cost\": \"0.00\",\n  \"least\": \"0.00\",\n  \"gap_percent\": \"0\"\n}\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := Write(boundOf(cutting.Bound{Cost: money.MustAmount(c.cost), Least: money.MustAmount(c.least), Gap: money.NewPercent(decimal.RequireFromString(c.gap))}))
			if err != nil {
				t.Fatal(err)
			}
			if d := cmp.Diff(c.want, string(got)); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
		})
	}
}

// Every timber has its own bound, and the order has one.
func TestTimberIsWrittenWithItsBound(t *testing.T) {
	least := money.MustAmount("600")
	all, _ := timber(cutting.Plan{Species: []cutting.Species{{Timber: "oak", Cost: money.MustAmount("700"), Bound: cutting.Bound{Cost: money.MustAmount("700"), Least: least}}}})
	if len(all) != 1 || all[0].Bound.Least == nil || !all[0].Bound.Least.Equal(least) {
		t.Errorf("got %+v", all)
	}
}
