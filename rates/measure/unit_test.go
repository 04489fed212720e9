package measure_test

import (
	"encoding/csv"
	"math/big"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/rates/measure"
)

func num(s string) decimal.Decimal { return decimal.RequireFromString(s) }

// published is the rows of a file of figures from published sources, by
// column. It fails where there are none.
func published(t *testing.T, name string) []map[string]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/" + name)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	lines, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, head := range lines[0] {
			row[head] = line[i]
		}
		rows = append(rows, row)
	}
	if len(rows) == 0 {
		t.Fatalf("%s has no rows", name)
	}
	return rows
}

// near fails unless got is within the row's tolerance of its expected figure.
func near(t *testing.T, row map[string]string, got decimal.Decimal) {
	t.Helper()
	want, tolerance := num(row["expected"]), num(row["tolerance"])
	if got.Sub(want).Abs().GreaterThan(tolerance) {
		t.Errorf("%s: got %s, want %s within %s (%s, %s)", row["id"], got, want, tolerance, row["source"], row["where"])
	}
}

func TestUnitsAgreeWithPublishedTables(t *testing.T) {
	size := func(u, in measure.Unit) decimal.Decimal { return measure.Of(num("1"), u).In(in, 9) }
	// pieces is so many pieces of a length by two sizes in inches, in ft3.
	pieces := func(n int64, ft, a, b string) decimal.Decimal {
		length := must(t, ft, measure.Ft)
		one := length.Volume(must(t, a, measure.In), must(t, b, measure.In))
		return one.Times(decimal.New(n, 0)).In(measure.Ft3, 9)
	}
	checks := map[string]func() decimal.Decimal{
		"UNIT-01": func() decimal.Decimal { return size(measure.Std, measure.Ft3) },
		"UNIT-02": func() decimal.Decimal { return size(measure.Std, measure.M3) },
		"UNIT-08": func() decimal.Decimal { return pieces(120, "12", "3", "9") },
		"UNIT-09": func() decimal.Decimal { return pieces(120, "12", "2.5", "7") },
		"UNIT-12": func() decimal.Decimal { return pieces(1, "6", "72", "72") },
		"UNIT-13": func() decimal.Decimal { return size(measure.Load, measure.Ft3) },
		"UNIT-15": func() decimal.Decimal { return size(measure.Load, measure.BF) },
		"UNIT-20": func() decimal.Decimal {
			foot := must(t, "1", measure.Ft)
			return foot.Volume(foot, must(t, "1", measure.In)).In(measure.BF, 9)
		},
		"HOP-06": func() decimal.Decimal { return size(measure.M3, measure.HFt) },
		"HOP-07": func() decimal.Decimal { return size(measure.HFt, measure.M3) },
		// A Hoppus board foot is a twelfth of a Hoppus foot.
		"HOP-11": func() decimal.Decimal { return size(measure.HFt, measure.BF).DivRound(num("12"), 9) },
		// A quarter of the girth of a 1 cm diameter, in inches.
		"HOP-12": func() decimal.Decimal {
			return measure.Pi().Mul(must(t, "1 cm", "").In(measure.In, 9)).DivRound(num("4"), 9)
		},
	}
	for _, row := range published(t, "units.csv") {
		if row["id"] == "R-BOQ-03" {
			// Rounding of measured work: timber volume, area, length, weight.
			want := []int32{places(row, 0), places(row, 2), places(row, 3), places(row, 4)}
			got := []int32{measure.M3.Places(), measure.M2.Places(), measure.M.Places(), measure.T.Places()}
			if !slices.Equal(got, want) {
				t.Errorf("%s: places %v, want %v", row["id"], got, want)
			}
			continue
		}
		check, ok := checks[row["id"]]
		if !ok {
			t.Errorf("%s is not checked", row["id"])
			continue
		}
		near(t, row, check())
		delete(checks, row["id"])
	}
	if len(checks) > 0 {
		t.Errorf("%d checks have no published row", len(checks))
	}
}

// places is the decimal places of the i-th step of a list such as "0.001 m3; 0.01 m3".
func places(row map[string]string, i int) int32 {
	step, _, _ := strings.Cut(strings.TrimSpace(strings.Split(row["expected"], ";")[i]), " ")
	return -num(step).Exponent()
}

func must(t *testing.T, s string, bare measure.Unit) measure.Length {
	t.Helper()
	l, err := measure.ParseLength(s, bare)
	if err != nil {
		t.Fatal(err)
	}
	return l
}

// A Hoppus foot is 4/pi cubic feet; pi to 30 places from published tables.
func TestTheHoppusFootIsFourOverPiCubicFeet(t *testing.T) {
	want := num("4").Mul(measure.Ft3.Size()).DivRound(num("3.141592653589793238462643383280"), 18)
	if got := measure.HFt.Size(); !got.Equal(want) {
		t.Errorf("a Hoppus foot is %s m3, want %s", got, want)
	}
}

// Pi is checked by Machin's formula, pi = 16 atan(1/5) - 4 atan(1/239).
func TestPiIsRightToThirtyPlaces(t *testing.T) {
	atan := func(n int64) *big.Rat {
		sum := new(big.Rat)
		power := big.NewRat(1, n)
		for k := range int64(30) {
			term := new(big.Rat).Quo(power, big.NewRat(2*k+1, 1))
			if k%2 == 1 {
				term.Neg(term)
			}
			sum.Add(sum, term)
			power.Quo(power, big.NewRat(n*n, 1))
		}
		return sum
	}
	a, b := atan(5), atan(239)
	pi := new(big.Rat).Sub(a.Mul(a, big.NewRat(16, 1)), b.Mul(b, big.NewRat(4, 1)))
	if got := measure.Pi().StringFixed(30); got != pi.FloatString(30) {
		t.Errorf("pi is %s, want %s", got, pi.FloatString(30))
	}
}

func TestEveryUnitIsFoundByItsOwnSign(t *testing.T) {
	list := measure.Units()
	if len(list) != 26 {
		t.Fatalf("there are %d units, want the 26 of the closed list", len(list))
	}
	for _, u := range list {
		for _, s := range []string{string(u), " " + strings.ToUpper(string(u)) + ". "} {
			if got, ok := measure.ParseUnit(s); !ok || got != u {
				t.Errorf("ParseUnit(%q) = %q, %v, want %q", s, got, ok, u)
			}
		}
		if u.Name() == "" || u.Size().Sign() <= 0 || u.Dimension() == measure.None {
			t.Errorf("%q lacks a name, a size or a dimension", u)
		}
	}
}

func TestParseUnitTakesWhatPeopleWrite(t *testing.T) {
	for text, want := range map[string]measure.Unit{
		"m²": measure.M2, "ft³": measure.Ft3, "No.": measure.Nr, "each": measure.Nr, "hrs": measure.Hour,
		"sq m": measure.M2, "cu. ft": measure.Ft3, "lin m": measure.M, "lin. ft": measure.Ft, "lm": measure.M, "sq.m": measure.M2, "sqm": measure.M2, "cu m": measure.M3, "cum": measure.M3,
		"nr.": measure.Nr, "no.": measure.Nr, "ea": measure.Nr, "pairs": measure.Pair, "items": measure.One, "ltr": measure.Litre, "tonne": measure.T, "weeks": measure.Weeks, "hours": measure.Hour,
		"m run": "", "lot": "", "cu ft": measure.Ft3, "feet": measure.Ft, "wks": measure.Weeks,
		"tonnes": measure.T, "mm": measure.Mm, "″": measure.In, "": "", "yard": "", "m4": "",
	} {
		got, ok := measure.ParseUnit(text)
		if got != want || ok != (want != "") {
			t.Errorf("ParseUnit(%q) = %q, %v, want %q", text, got, ok, want)
		}
	}
}

func TestQuantitiesRoundHalvesAwayFromNil(t *testing.T) {
	for _, c := range []struct {
		name   string
		n      string
		unit   measure.Unit
		places int32
		want   string
	}{
		{"a half goes up", "2.345", measure.M, 2, "2.35"},
		{"a half below nil goes down", "-2.345", measure.M, 2, "-2.35"},
		{"just under a half goes down", "2.34499999999999999999", measure.M, 2, "2.34"},
		{"a half of a whole", "0.5", measure.Kg, 0, "1"},
		{"a half of a whole below nil", "-0.5", measure.Kg, 0, "-1"},
		{"a half behind a division", "0.125", measure.Ft3, 2, "0.13"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := measure.Of(num(c.n), c.unit).In(c.unit, c.places); !got.Equal(num(c.want)) {
				t.Errorf("%s %s is %s, want %s", c.n, c.unit, got, c.want)
			}
		})
	}
}

func TestABilledQuantityIsNeverRoundedToNil(t *testing.T) {
	for _, c := range []struct {
		name string
		q    measure.Quantity
		unit measure.Unit
		want string
	}{
		{"a crumb of oak is the last place", measure.Of(num("0.0001"), measure.M3), measure.M3, "0.001"},
		{"a crumb taken off is the last place below nil", measure.Of(num("-0.0001"), measure.M3), measure.M3, "-0.001"},
		{"nothing stays nothing", measure.Quantity{Dim: measure.VolumeMeasure}, measure.M3, "0"},
		{"board feet are whole", measure.Of(num("0.2"), measure.BF), measure.BF, "1"},
		{"what rounds to something is rounded", measure.Of(num("1.2345"), measure.M3), measure.M3, "1.235"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.q.Billed(c.unit); !got.Equal(num(c.want)) {
				t.Errorf("billed %s, want %s", got, c.want)
			}
		})
	}
}

func TestQuantitiesOfOneKindAreAdded(t *testing.T) {
	// 3 m x 0.2 m and 1 ft2; 4 m and nothing at all.
	area := (3 * measure.Metre).Area(200 * measure.Millimetre).Add(measure.Of(num("1"), measure.Ft2))
	if got := area.In(measure.M2, 8); !got.Equal(num("0.69290304")) {
		t.Errorf("the area is %s m2, want 0.69290304", got)
	}
	length := measure.Quantity{}.Add((4 * measure.Metre).Quantity()).Add(measure.Quantity{}).Times(num("2.5"))
	if got := length.In(measure.M, 3); !got.Equal(num("10")) || length.IsZero() {
		t.Errorf("the length is %s m, want 10", got)
	}
}

func TestUnlikeDimensionsPanic(t *testing.T) {
	for name, f := range map[string]func(){
		"adding an area to a length": func() {
			measure.Of(num("1"), measure.M).Add(measure.Of(num("1"), measure.M2))
		},
		"asking a volume in metres": func() { measure.Of(num("1"), measure.M3).In(measure.M, 2) },
		"asking litres in m3":       func() { measure.Of(num("1"), measure.Litre).In(measure.M3, 2) },
		"a unit that is none":       func() { measure.Of(num("1"), "furlong") },
	} {
		t.Run(name, func(t *testing.T) {
			defer func() {
				if recover() == nil {
					t.Error("it did not panic")
				}
			}()
			f()
		})
	}
}

func TestLengthsConvertThereAndBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.Int64Range(-20_000_000, 20_000_000).Draw(t, "sixty-fourths")
		l := measure.Length(n) * (measure.Inch / 64)
		for _, u := range []measure.Unit{measure.Ft, measure.In} {
			if got, err := measure.ParseLength(l.Format(u), ""); err != nil || got != l {
				t.Fatalf("%d nm is printed %s, read as %d nm, %v", l, l.Format(u), got, err)
			}
		}
		if got, err := measure.LengthOf(l.In(measure.M, 9), measure.M); err != nil || got != l {
			t.Fatalf("%d nm in metres and back is %d nm, %v", l, got, err)
		}
	})
}

func TestLengthOfRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		n    string
		unit measure.Unit
	}{
		{"a unit of area", "1", measure.M2},
		{"what is beyond any ship", "10000.1", measure.M},
		{"what is beyond any ship the other way", "-1e30", measure.Mm},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got, err := measure.LengthOf(num(c.n), c.unit); err == nil || got != 0 {
				t.Errorf("LengthOf(%s, %s) = %d, %v, want an error and nil", c.n, c.unit, got, err)
			}
		})
	}
}

func TestLengthsArePrintedAsTheirUsersWriteThem(t *testing.T) {
	for _, c := range []struct {
		l    measure.Length
		unit measure.Unit
		want string
	}{
		{24*measure.Foot + 6*measure.Inch + measure.Inch/2, measure.Ft, `24' 6 1/2"`},
		{24 * measure.Foot, measure.Ft, `24'`},
		{measure.Inch * 3 / 4, measure.Ft, `3/4"`},
		{11*measure.Inch + measure.Inch*127/128 + 100, measure.Ft, `1'`},
		{-measure.Foot - measure.Inch, measure.Ft, `-1' 1"`},
		{-1, measure.Ft, `0'`},
		{0, measure.In, `0"`},
		{150 * measure.Millimetre, measure.Mm, "150 mm"},
		{150*measure.Millimetre + 50*measure.Micrometre, measure.Mm, "150.1 mm"},
		{7*measure.Metre + measure.Metre/2, measure.M, "7.50 m"},
		{7*measure.Metre + 5*measure.Millimetre, measure.M, "7.005 m"},
	} {
		if got := c.l.Format(c.unit); got != c.want {
			t.Errorf("%d nm in %s is %q, want %q", c.l, c.unit, got, c.want)
		}
	}
}
