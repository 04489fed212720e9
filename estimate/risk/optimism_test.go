package risk_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/rates"
	"futtock/rates/money"
)

// Every class stands in the published table with its four bounds, duration and
// capital, the upper before the lower.
func TestTheBoundsOfBiasAreThosePublished(t *testing.T) {
	for _, b := range risk.Biases() {
		_, want := published(t, b.ID)
		n := func(p money.Percent) string { return p.Decimal().String() }
		if got := n(b.DurationUpper) + ";" + n(b.DurationLower) + " / " + n(b.CapitalUpper) + ";" + n(b.CapitalLower); got != strings.ReplaceAll(want, " ; ", ";") {
			t.Errorf("%s: %s; want %s", b.Class, got, want)
		}
	}
}

// The published cases: 28 months at 39 % become 38.9, and
// a project of which 30 % is non-standard and 70 % standard building has a
// bound of 11.7 + 2.8 = 14.5 %.
func TestPublishedCasesOfBias(t *testing.T) {
	bounds := map[string]money.Percent{}
	for _, b := range risk.Biases() {
		bounds[b.Class] = b.DurationUpper
	}
	c := risk.Hold(&job.Job{}, &rates.Book{}, labour.Hours{}, programme.Programme{Weeks: decimal.New(28, 0)},
		price.Priced{Items: []price.Item{line("1", "hull", job.Measured, "1000.00", "0")}})
	var found bool
	for _, b := range c.Bias {
		if b.Bias.Class == "Non-standard buildings" {
			found = true
			if _, want := published(t, "R-RSK-08"); b.WeeksUpper.String() != want || b.CapitalUpper.String() != "510.00" || b.CapitalLower.String() != "40.00" {
				t.Errorf("28 become %s, 1,000.00 %s to %s more; want %s, 40.00 to 510.00", b.WeeksUpper, b.CapitalLower, b.CapitalUpper, want)
			}
		}
	}
	if !found {
		t.Error("no comparison with non-standard buildings")
	}
	non, std := bounds["Non-standard buildings"].Decimal(), bounds["Standard buildings"].Decimal()
	if _, want := published(t, "R-RSK-07"); non.Mul(decimal.New(3, -1)).Add(std.Mul(decimal.New(7, -1))).String() != want {
		t.Errorf("of 30 %% at %s and 70 %% at %s; want %s", non, std, want)
	}
}
