package money_test

import (
	"encoding/csv"
	"encoding/json"
	"os"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/rates/money"
)

func num(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func TestMoneyAgreesWithPublishedFigures(t *testing.T) {
	// average is the mean of a list of sums, rounded once.
	average := func(list string) money.Amount {
		var sum decimal.Decimal
		parts := strings.Split(list, "; ")
		for _, p := range parts {
			sum = sum.Add(num(p))
		}
		return money.Round(sum).Per(decimal.New(int64(len(parts)), 0))
	}
	quotient := func(sum string) money.Amount {
		a, b, _ := strings.Cut(sum, " / ")
		return money.MustAmount(a).Per(num(b))
	}
	tax := money.RoundDown(num("704.88").Mul(money.NewPercent(num("20")).Fraction()))
	checks := map[string]func(inputs string) money.Amount{
		"R-RND-02": func(in string) money.Amount { return money.Round(num(in)) },
		"R-RND-03": quotient, "R-RND-04": quotient,
		"R-RND-05": average, "R-PRC-03": average, "R-PRC-04": average,
		"R-VAT-03": func(string) money.Amount { return tax },
		"R-VAT-04": func(string) money.Amount { return money.MustAmount("704.88").Add(tax) },
	}
	f, err := os.Open("../../testdata/published/money.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		id, inputs, want := r[0], r[2], r[3]
		check, ok := checks[id]
		if !ok {
			t.Errorf("%s is not checked", id)
			continue
		}
		if got := check(inputs); got.String() != want {
			t.Errorf("%s: got %s, want %s (%s)", id, got, want, r[6])
		}
		delete(checks, id)
	}
	if len(checks) > 0 {
		t.Errorf("%d checks have no published row", len(checks))
	}
}

func TestRoundingToThePenny(t *testing.T) {
	for _, c := range []struct{ name, figure, nearest, down string }{
		{"a half goes up", "2.345", "2.35", "2.34"},
		{"a half that half-even would drop goes up", "0.125", "0.13", "0.12"},
		{"a half below nil goes down", "-2.345", "-2.35", "-2.34"},
		{"a hair under a half goes down", "2.3449999999999999999", "2.34", "2.34"},
		{"a hair over a half goes up", "2.3450000000000000001", "2.35", "2.34"},
		{"what binary would make 1.00", "1.005", "1.01", "1.00"},
		{"half a penny below nil is a penny", "-0.005", "-0.01", "0.00"},
		{"less than half a penny below nil has no sign", "-0.004", "0.00", "0.00"},
		{"a large figure", "12345678901234567.895", "12345678901234567.90", "12345678901234567.89"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := money.Round(num(c.figure)).String(); got != c.nearest {
				t.Errorf("to the nearest: got %s, want %s", got, c.nearest)
			}
			if got := money.RoundDown(num(c.figure)).String(); got != c.down {
				t.Errorf("down: got %s, want %s", got, c.down)
			}
		})
	}
}

func TestEveryProductIsRoundedOnce(t *testing.T) {
	for _, c := range []struct {
		name string
		got  money.Amount
		want string
	}{
		{"an hourly rate by hours", money.NewPrice(num("12.50")).Times(num("3.33")), "41.63"},
		{"a price finer than a penny is kept until the product", money.NewPrice(num("0.0125")).Times(num("1000")), "12.50"},
		{"an amount taken a part of a time", money.MustAmount("0.05").Times(num("0.1")), "0.01"},
		{"a credit rounds away from nil", money.MustAmount("-0.05").Times(num("0.1")), "-0.01"},
		{"a percentage of an amount", money.MustAmount("10.10").Percent(money.NewPercent(num("12.5"))), "1.26"},
		{"a rate from a sum and a quantity", money.MustAmount("100.00").Per(num("3")), "33.33"},
		{"a credit by a quantity", money.MustAmount("-0.01").Per(num("2")), "-0.01"},
		{"a sum of none", money.Sum(), "0.00"},
		{"a sum", money.Sum(money.Pennies(1), money.Pennies(-3), money.MustAmount("1250")), "1249.98"},
	} {
		if got := c.got.String(); got != c.want {
			t.Errorf("%s: got %s, want %s", c.name, got, c.want)
		}
	}
}

func TestParseAmount(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"pounds and pence", "1250.00", "1250.00"},
		{"whole pounds", "1250", "1250.00"},
		{"a credit", "-3.5", "-3.50"},
		{"noughts beyond the penny", "3.5000", "3.50"},
		{"finer than a penny", "3.501", ""},
		{"a comma", "1,250", ""},
		{"a currency sign", "£5", ""},
		{"an exponent", "1e3", ""},
		{"a blank", "", ""},
		{"a point alone", ".", ""},
		{"not a number", "NaN", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := money.ParseAmount(c.text)
			switch {
			case c.want == "" && (err == nil || !got.IsZero()):
				t.Errorf("ParseAmount(%q) = %s, %v, want an error and nil", c.text, got, err)
			case c.want != "" && (err != nil || got.String() != c.want):
				t.Errorf("ParseAmount(%q) = %s, %v, want %s", c.text, got, err, c.want)
			}
		})
	}
}

func TestMoneyIsPrintedAsPeopleWriteIt(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{money.MustAmount("1234567.5").Grouped(), "1,234,567.50"},
		{money.MustAmount("-123456").Grouped(), "-123,456.00"},
		{money.MustAmount("-999.99").Grouped(), "-999.99"},
		{money.Amount{}.Grouped(), "0.00"},
		{money.NewPrice(num("12.5")).String(), "12.50"},
		{money.NewPrice(num("0.01250")).String(), "0.0125"},
		{money.NewPercent(num("17.50")).String(), "17.5 %"},
		{money.Group(num("1234.5"), 3), "1,234.500"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestMoneyIsWrittenToJSONAsText(t *testing.T) {
	got, err := json.Marshal([]any{money.MustAmount("1250"), money.NewPrice(num("0.0125")), money.NewPercent(num("12.50")), money.Amount{}})
	if err != nil {
		t.Fatal(err)
	}
	if want := `["1250.00","0.0125","12.5","0.00"]`; string(got) != want {
		t.Errorf("got %s, want %s", got, want)
	}
}

func FuzzParseAmount(f *testing.F) {
	for _, s := range []string{"1250.00", "-3.5", "1e3", "3.501", "", "£5", "007.10"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		a, err := money.ParseAmount(s)
		if err != nil {
			if !a.IsZero() {
				t.Fatalf("%q is refused and still %s", s, a)
			}
			return
		}
		again, err := money.ParseAmount(a.String())
		if err != nil || !again.Equal(a) {
			t.Fatalf("%q is printed %s, read again as %s, %v", s, a, again, err)
		}
	})
}

func TestTheOrderOfAddingDoesNotMatter(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pennies := rapid.SliceOf(rapid.Int64Range(-1e12, 1e12)).Draw(t, "pennies")
		var whole int64
		var list []money.Amount
		for _, p := range pennies {
			whole += p
			list = append(list, money.Pennies(p))
		}
		shuffled := rapid.Permutation(list).Draw(t, "shuffled")
		if got := money.Sum(shuffled...); !got.Equal(money.Sum(list...)) || !got.Equal(money.Pennies(whole)) {
			t.Fatalf("sum is %s, want %s", got, money.Pennies(whole))
		}
	})
}

func TestFiguresCompareByValueAndNotByHowTheyWereWritten(t *testing.T) {
	a, b := money.MustAmount("1.10"), money.MustAmount("1.1")
	p, q := money.NewPrice(num("0.0125")), money.NewPrice(num("0.01250"))
	c, d := money.NewPercent(num("17.5")), money.NewPercent(num("17.50"))
	if !a.Equal(b) || !p.Equal(q) || !c.Equal(d) || a.Cmp(b) != 0 || p.Cmp(q) != 0 || c.Cmp(d) != 0 {
		t.Error("figures alike in value differ")
	}
	more, finer, half := money.MustAmount("1.11"), money.NewPrice(num("0.012")), money.NewPercent(num("8.75"))
	if more.Equal(a) || more.Cmp(a) != 1 || a.Cmp(more) != -1 || finer.Equal(p) || finer.Cmp(p) != -1 || half.Equal(c) || half.Cmp(c) != -1 {
		t.Error("figures that differ in value are alike")
	}
	if a.Neg().Sign() != -1 || !a.Sub(b).IsZero() || finer.Sign() != 1 || finer.IsZero() || half.IsZero() {
		t.Error("a sign is wrong")
	}
	if got := p.Amount(); !got.Equal(money.Pennies(1)) || !money.PriceOf(got).Equal(money.NewPrice(num("0.01"))) {
		t.Errorf("0.0125 as an amount is %s, want 0.01", got)
	}
}
