package cutting

import (
	"testing"

	"futtock/rates"
	"futtock/rates/measure"
)

// A sawing unit that goes into the price's without end is not rounded before
// the penny: a board foot is a twelfth of a cubic foot.
func TestTimberByTheCubeIsRoundedOnce(t *testing.T) {
	cube := rates.Stock{Form: rates.Cube, Unit: measure.BF, Price: price("203"), Sawing: price("2.05"), SawingUnit: measure.Ft3}
	for _, c := range []struct{ name, buy, want string }{
		// 138 x 203 = 28,014.00 and 11.5 ft3 x 2.05 = 23.575.
		{"a half goes up", "138", "28037.58"},
		// 137 x 203 = 27,811.00 and 11.41666... x 2.05 = 23.40416...
		{"less than a half goes down", "137", "27834.40"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := cubeCost(cube, dec(c.buy)).String(); got != c.want {
				t.Errorf("%s bf cost %s, want %s", c.buy, got, c.want)
			}
		})
	}
	cube.ByOwner = true
	if got := cubeCost(cube, dec("138")).String(); got != "23.58" {
		t.Errorf("the owner's bears sawing alone, 23.58, and costs %s", got)
	}
}
