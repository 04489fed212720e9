package rates_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

func num(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func price(s string) money.Price { return money.NewPrice(num(s)) }

const (
	mm = measure.Millimetre
	in = measure.Inch
	ft = measure.Foot
)

// plank is 24 ft x 9 in x 2 1/2 in: 24 x 0.75 x 2.5/12 = 3.75 ft3, 45 board feet.
func plank() rates.Stock {
	return rates.Stock{Stock: "plank", Form: rates.Plank, Thickness: 2*in + in/2, Width: 9 * in, Length: 24 * ft}
}

// log is 16 ft long, 44 in about: quarter girth 11 in, 121 x 16 / 144 = 13.4444
// Hoppus feet; true 1936 x 16 / (4 pi x 144) = 17.1180 ft3. Its top is 12 in.
func log() rates.Stock {
	return rates.Stock{Stock: "log", Form: rates.Log, MidGirth: 44 * in, TopDiameter: 12 * in, Length: 16 * ft}
}

func with(s rates.Stock, change func(*rates.Stock)) rates.Stock {
	change(&s)
	return s
}

func by(rule rates.LogRule) rates.Stock {
	return with(log(), func(s *rates.Stock) { s.Measure = rule })
}

func TestOneStickIsMeasuredInTheUnitItIsSoldBy(t *testing.T) {
	spar := with(log(), func(s *rates.Stock) {
		// 200 mm at the top, 10 mm a metre over 8 m: 280 mm at the butt.
		// pi x 8 / 12 x (0.04 + 0.056 + 0.0784) = 0.365263 m3.
		s.Form, s.MidGirth, s.TopDiameter, s.Taper, s.Length = rates.Spar, 0, 200*mm, 10*mm, 8000*mm
	})
	for _, c := range []struct {
		name   string
		stock  rates.Stock
		unit   measure.Unit
		places int32
		want   string
	}{
		{"a plank by number", plank(), measure.Nr, 0, "1"},
		{"a plank by the pair", plank(), measure.Pair, 1, "0.5"},
		{"a plank by the foot run", plank(), measure.Ft, 4, "24"},
		{"a plank by the metre run", plank(), measure.M, 4, "7.3152"},
		{"a plank by the square foot", plank(), measure.Ft2, 4, "18"},
		{"a plank by the cubic foot", plank(), measure.Ft3, 6, "3.75"},
		{"a plank by the board foot", plank(), measure.BF, 6, "45"},
		{"a plank by the load", plank(), measure.Load, 6, "0.075"},
		{"a plank by the standard", plank(), measure.Std, 6, "0.022727"},
		{"a plank measured true in as many words", with(plank(), func(s *rates.Stock) { s.Measure = rates.True }), measure.M3, 6, "0.106188"},
		{"a crook by its block", with(plank(), func(s *rates.Stock) { s.Form = rates.Crook }), measure.Ft3, 6, "3.75"},
		{"a log true by its mid girth", log(), measure.Ft3, 4, "17.1180"},
		{"a log by the metre run", log(), measure.M, 4, "4.8768"},
		{"a log by Hoppus in Hoppus feet", by(rates.Hoppus), measure.HFt, 4, "13.4444"},
		{"a log in Hoppus feet needs no rule named", log(), measure.HFt, 4, "13.4444"},
		{"a log by Hoppus in cubic feet is so many Hoppus feet", by(rates.Hoppus), measure.Ft3, 4, "13.4444"},
		{"a log by Hoppus in cubic metres", by(rates.Hoppus), measure.M3, 4, "0.3807"},
		// (12 - 4)2 x 16 / 16.
		{"a log by Doyle", by(rates.Doyle), measure.BF, 2, "64"},
		{"a log by Scribner", by(rates.Scribner), measure.BF, 2, "80"},
		{"a spar by the cone", spar, measure.M3, 6, "0.365263"},
	} {
		t.Run(c.name, func(t *testing.T) {
			q, err := c.stock.Measured(c.unit)
			if err != nil {
				t.Fatal(err)
			}
			if got := q.In(c.unit, c.places); !got.Equal(num(c.want)) {
				t.Errorf("got %s %s, want %s", got, c.unit, c.want)
			}
		})
	}
}

func TestAStickIsRefusedWhereItsMeasureIsInDoubt(t *testing.T) {
	for _, c := range []struct {
		name  string
		stock rates.Stock
		unit  measure.Unit
		want  string
	}{
		{"timber by the cube", with(plank(), func(s *rates.Stock) { s.Form = rates.Cube }), measure.M3, "no sticks"},
		{"a plank by weight", plank(), measure.T, "not sold by the tonne"},
		{"a plank with no width by volume", with(plank(), func(s *rates.Stock) { s.Width = 0 }), measure.M3, "one is wanting"},
		{"a plank with no width by area", with(plank(), func(s *rates.Stock) { s.Width = 0 }), measure.M2, "needs a length and a width"},
		{"a knee with no length by the foot", rates.Stock{Form: rates.Knee}, measure.Ft, "no length"},
		{"a plank in Hoppus feet", plank(), measure.HFt, "true measure"},
		{"a plank by Doyle", with(plank(), func(s *rates.Stock) { s.Measure = rates.Doyle }), measure.BF, "true measure"},
		{"a log by the square metre", log(), measure.M2, "needs a length and a width"},
		{"a log by the board foot with no scale", log(), measure.BF, "needs a scale"},
		{"a log by Doyle in cubic feet", by(rates.Doyle), measure.Ft3, "gives board feet"},
		{"a log by the standard", log(), measure.Std, "squared timber"},
		{"a log by the load", by(rates.Hoppus), measure.Load, "squared timber"},
		{"a log with no dimension", rates.Stock{Form: rates.Log, Length: ft}, measure.M3, "no top diameter"},
		{"a log beyond the printed scale", with(by(rates.Scribner), func(s *rates.Stock) { s.TopDiameter = 60 * in }), measure.BF, "outside the scribner scale"},
	} {
		t.Run(c.name, func(t *testing.T) {
			q, err := c.stock.Measured(c.unit)
			if err == nil || q != (measure.Quantity{}) {
				t.Fatalf("got %v, %v, want an error and nil", q, err)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("message %q does not say %q", err, c.want)
			}
		})
	}
}

func TestAStickCostsItsPriceItsCarriageAndItsSawing(t *testing.T) {
	dear := with(plank(), func(s *rates.Stock) {
		s.Unit, s.Price, s.Delivery = measure.Ft3, price("62.50"), price("4.10")
		s.Sawing, s.SawingUnit = price("0.35"), measure.Ft
	})
	for _, c := range []struct {
		name            string
		stock           rates.Stock
		total, material string
	}{
		// (62.50 + 4.10) x 3.75 + 0.35 x 24 = 249.75 + 8.40.
		{"a plank by the cubic foot, sawn by the foot run", dear, "258.15", "258.15"},
		// 4.10 x 3.75 + 8.40 = 23.775, a half upward.
		{"the owner's plank bears carriage and sawing alone", with(dear, func(s *rates.Stock) { s.ByOwner = true }), "23.78", "0.00"},
		// (62.50 + 4.10 + 0.35) x 3.75 = 251.0625.
		{"sawing with no unit of its own goes by the price's", with(dear, func(s *rates.Stock) { s.SawingUnit = "" }), "251.06", "251.06"},
		{"no sawing", with(dear, func(s *rates.Stock) { s.Sawing, s.SawingUnit = money.Price{}, measure.Kg }), "249.75", "249.75"},
		// 13.4444... x 7.20 = 96.80 to the penny, and no less.
		{"a log by Hoppus", with(by(rates.Hoppus), func(s *rates.Stock) { s.Unit, s.Price = measure.HFt, price("7.20") }), "96.80", "96.80"},
		{"a log by Doyle", with(by(rates.Doyle), func(s *rates.Stock) { s.Unit, s.Price = measure.BF, price("1.255") }), "80.32", "80.32"},
		{"a knee by number", rates.Stock{Form: rates.Knee, Unit: measure.Nr, Price: price("85")}, "85.00", "85.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			total, material, err := c.stock.StickPrice()
			if err != nil {
				t.Fatal(err)
			}
			if total.String() != c.total || material.String() != c.material {
				t.Errorf("got %s of which timber %s, want %s of which timber %s", total, material, c.total, c.material)
			}
		})
	}
}

func TestAStickThatCannotBeMeasuredHasNoPrice(t *testing.T) {
	for name, s := range map[string]rates.Stock{
		"no width":                with(plank(), func(s *rates.Stock) { s.Unit, s.Width, s.Price = measure.M2, 0, price("5") }),
		"a sawing unit of weight": with(plank(), func(s *rates.Stock) { s.Unit, s.Sawing, s.SawingUnit = measure.M3, price("5"), measure.T }),
	} {
		if total, material, err := s.StickPrice(); err == nil || !total.IsZero() || !material.IsZero() {
			t.Errorf("%s: got %s, %s, %v, want an error and nil", name, total, material, err)
		}
	}
}

func TestTheTrueVolumeStandsWhateverTheStickIsSoldBy(t *testing.T) {
	for name, c := range map[string]struct {
		stock rates.Stock
		want  string
	}{
		"a log by Doyle": {by(rates.Doyle), "17.1180"},
		"a plank":        {plank(), "3.7500"},
	} {
		q, err := c.stock.TrueVolume()
		if err != nil {
			t.Fatal(err)
		}
		if got := q.In(measure.Ft3, 4).StringFixed(4); got != c.want {
			t.Errorf("%s is %s ft3, want %s", name, got, c.want)
		}
	}
}
