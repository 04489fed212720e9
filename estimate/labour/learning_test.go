package labour

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/rates/money"
)

func slope(s string) money.Percent { return money.NewPercent(decimal.RequireFromString(s)) }

// published is the rows of testdata/published/learning.csv, by id.
func published(t *testing.T) map[string][]string {
	t.Helper()
	f, err := os.Open("../../testdata/published/learning.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	byID := map[string][]string{}
	for _, r := range rows[1:] {
		byID[r[0]] = r
	}
	return byID
}

func number(t *testing.T, s string) float64 {
	t.Helper()
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// The ids of the table cells are R-LRN-slope-unit; each gives the factor of
// that unit and of all units up to it, in times of the first.
func TestLearningAgreesWithThePublishedTable(t *testing.T) {
	cells := 0
	for id, row := range published(t) {
		part := strings.Split(id, "-")
		if len(part) != 4 {
			continue
		}
		cells++
		unit, cumulative, _ := strings.Cut(row[3], ";")
		n := number(t, part[3])
		b := math.Log2(number(t, part[2]) / 100)
		all := together(b, n)
		if got := all - together(b, n-1); math.Abs(got-number(t, unit)) > 0.0005 {
			t.Errorf("%s: unit factor %.5f; want %s", id, got, unit)
		}
		if math.Abs(all-number(t, cumulative)) > 0.0005 {
			t.Errorf("%s: cumulative factor %.5f; want %s", id, all, cumulative)
		}
		mean := decimal.NewFromFloat(number(t, cumulative) / n)
		if got := Learning(slope(part[2]), decimal.NewFromFloat(n)); got.Sub(mean).Abs().GreaterThan(decimal.RequireFromString("0.0001")) {
			t.Errorf("%s: multiplier %s; want %s", id, got, mean.Round(4))
		}
	}
	if cells != 8 {
		t.Errorf("%d cells of the table were read; want 8", cells)
	}
}

// F-LRN-03: the tenth unit of 6,000,000 at 80 % takes 2,859,059.25, not what
// raising the slope to the ninth or tenth power gives. R-LRN-02: at four times
// the number a unit takes 36 % less.
func TestTheLastUnitFollowsTheUnitTimeCurve(t *testing.T) {
	rows := published(t)
	want := number(t, strings.ReplaceAll(strings.Fields(rows["F-LRN-03"][3])[0], ",", ""))
	b := math.Log2(0.8)
	if got := 6e6 * (together(b, 10) - together(b, 9)); math.Abs(got-want) > 0.01 {
		t.Errorf("tenth unit %.2f; want %.2f", got, want)
	}
	if got, want := 100*(1-(together(b, 4)-together(b, 3))), number(t, rows["R-LRN-02"][3]); math.Abs(got-want) > 1e-9 {
		t.Errorf("the fourth unit saves %.2f %%; want %.0f", got, want)
	}
}

func TestLearningAtTheEdges(t *testing.T) {
	for _, c := range []struct {
		name, slope, n, want string
	}{
		{"no slope is no learning", "0", "20", "1"},
		{"a slope of 100 % is no learning", "100", "20", "1"},
		{"one piece is the first", "80", "1", "1"},
		{"part of a piece is part of the first", "80", "0.5", "1"},
		{"two pieces at 80 % are 1 and 0.8", "80", "2", "0.9"},
		{"a piece and a half: 1 + 0.5 x 0.8 over 1.5", "80", "1.5", "0.9333"},
		{"six frames at 85 %", "85", "6", "0.7813"},
		// At a slope of 50 % the n-th piece takes 1/n: 1 + 1/2 + 1/3 + 1/4 = 25/12.
		{"four pieces at 50 %", "50", "4", "0.5208"},
		// The harmonic number of 2,000 is ln 2000 + 0.5772157 + 1/4000 = 8.1783681.
		{"two thousand pieces at 50 %", "50", "2000", "0.0041"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := Learning(slope(c.slope), decimal.RequireFromString(c.n))
			if !got.Equal(decimal.RequireFromString(c.want)) {
				t.Errorf("multiplier %s; want %s", got, c.want)
			}
		})
	}
}

func TestTheFormulaForManyPiecesMeetsTheSum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := math.Log2(rapid.Float64Range(0.5, 0.99).Draw(t, "slope"))
		n := float64(rapid.IntRange(1001, 20000).Draw(t, "n"))
		sum := 0.0
		for i := 1.0; i <= n; i++ {
			sum += math.Pow(i, b)
		}
		if got := together(b, n); math.Abs(got-sum) > 1e-7*sum {
			t.Fatalf("%v; want %v", got, sum)
		}
	})
}

func TestMorePiecesNeverTakeLongerEachNorShorterTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := money.NewPercent(decimal.New(rapid.Int64Range(50, 99).Draw(t, "slope"), 0))
		n := rapid.Int64Range(1, 3000).Draw(t, "n")
		a, b := Learning(s, decimal.New(n, 0)), Learning(s, decimal.New(n+1, 0))
		if b.GreaterThan(a) {
			t.Fatalf("%d pieces at %s each, %d at %s", n, a, n+1, b)
		}
		if x, y := together(math.Log2(s.Fraction().InexactFloat64()), float64(n)), together(math.Log2(s.Fraction().InexactFloat64()), float64(n+1)); y <= x {
			t.Fatalf("%d pieces take %v, %d take %v", n, x, n+1, y)
		}
	})
}

func BenchmarkLearningOfAMillion(b *testing.B) {
	n := decimal.New(1_000_000, 0)
	for b.Loop() {
		Learning(slope("85"), n)
	}
}
