package text

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting"
	"futtock/rates/money"
)

func boundOf(cost, least, gap string) cutting.Bound {
	return cutting.Bound{Cost: money.MustAmount(cost), Least: money.MustAmount(least), Gap: money.NewPercent(decimal.RequireFromString(gap))}
}

// What is said of an order is what is proven of it and no more. 4,141.11 of
// 98,018.19 is 4.2248 %.
func TestTheBoundIsSaidAsFarAsItIsProven(t *testing.T) {
	for _, c := range []struct {
		name string
		all  cutting.Bound
		of   []cutting.Species
		want string
	}{
		{"a gap is given", boundOf("98018.19", "93877.08", "4.23"), nil,
			"  Bought for 98,018.19; no order from this stock, sawn in whole sticks,\n  can cost less than 93,877.08 (gap 4.23 %)\n"},
		{"without a gap none can cost less", boundOf("930", "930", "0"), nil,
			"  Bought for 930.00; no order from this stock, sawn in whole sticks, can cost less\n"},
		{"nothing proven is no bound of nothing", boundOf("930", "0", "100"), []cutting.Species{{Timber: "oak", Bound: boundOf("930", "0", "100")}},
			"  Bought for 930.00; what an order costs at least is not proven\n"},
		{"a timber without proof is named", boundOf("1000", "600", "40"), []cutting.Species{{Timber: "ash", Bound: boundOf("300", "0", "100")}, {Timber: "oak", Bound: boundOf("700", "600", "14.29")}},
			"  Bought for 1,000.00; no order from this stock, sawn in whole sticks,\n  can cost less than 600.00 (gap 40.00 %)\n  Nothing is proven of ash, which counts as nothing in that\n"},
		{"timber for nothing is proven", boundOf("0", "0", "0"), nil,
			"  Bought for 0.00; no order from this stock, sawn in whole sticks, can cost less\n"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var b strings.Builder
			bound(&b, cutting.Plan{Bound: c.all, Species: c.of})
			if d := cmp.Diff(c.want, b.String()); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
		})
	}
}

func TestEveryTimberHasItsGap(t *testing.T) {
	volume := decimal.RequireFromString
	oak := cutting.Species{Timber: "oak", Net: volume("21.196"), Sawn: volume("24.523"), Bought: volume("42.843"),
		Yield: money.NewPercent(volume("49.5")), Cost: money.MustAmount("74764.72"), Bound: boundOf("74764.72", "71109.46", "4.89")}
	ash := oak
	ash.Timber, ash.Bound = "ash", boundOf("74764.72", "0", "100")
	var b strings.Builder
	timber(&b, cutting.Plan{Species: []cutting.Species{ash, oak}, Bound: boundOf("149529.44", "71109.46", "52.45")})
	want := `
  Timber, m3  in the ship    sawn  bought   yield       cost       gap
  ash              21.196  24.523  42.843  49.5 %  74,764.72  unproven
  oak              21.196  24.523  42.843  49.5 %  74,764.72    4.89 %
`
	got, _, _ := strings.Cut(b.String(), "  Bought")
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}
