package money_test

import (
	"fmt"
	"math/big"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/rates/money"
)

func TestShare(t *testing.T) {
	for _, c := range []struct {
		name    string
		sum     string
		weights []string
		want    []string
	}{
		// 33.333 33; 66.666 67; 100: so 33.33, 33.34, 33.33.
		{"a pound that does not go in three", "100.00", []string{"1", "1", "1"}, []string{"33.33", "33.34", "33.33"}},
		{"a penny among three goes where the running half is passed", "0.01", []string{"1", "1", "1"}, []string{"0.00", "0.01", "0.00"}},
		{"a weight of nil takes nothing", "10.00", []string{"1", "0", "3"}, []string{"2.50", "0.00", "7.50"}},
		{"one weight takes it all", "10.01", []string{"0.0001"}, []string{"10.01"}},
		// Runs of -0.005 and -0.01: -0.01 and then nothing more.
		{"a credit is shared away from nil", "-0.01", []string{"1", "1"}, []string{"-0.01", "0.00"}},
		// Runs of 3/2 and 2/2 of 10.00.
		{"a weight below nil takes a share of the other sign", "10.00", []string{"3", "-1"}, []string{"15.00", "-5.00"}},
		{"the largest sums", "99999999999999.99", []string{"1", "2"}, []string{"33333333333333.33", "66666666666666.66"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			var weights []decimal.Decimal
			for _, w := range c.weights {
				weights = append(weights, num(w))
			}
			got, ok := money.Share(money.MustAmount(c.sum), weights)
			if !ok {
				t.Fatal("nothing was shared")
			}
			if fmt.Sprint(got) != fmt.Sprint(c.want) {
				t.Errorf("shares %v, want %v", got, c.want)
			}
		})
	}
}

func TestThereIsNothingToShareByWhereWeightsAddUpToNil(t *testing.T) {
	for name, weights := range map[string][]decimal.Decimal{
		"no weights":              nil,
		"weights of nil":          {num("0"), num("0.00")},
		"weights that cancel out": {num("5"), num("-5")},
	} {
		if shares, ok := money.Share(money.Pennies(100), weights); ok || shares != nil {
			t.Errorf("%s: got %v, %v, want none", name, shares, ok)
		}
	}
}

// Shares add up to the sum, and each is the difference of two runs reckoned
// apart in fractions of whole numbers.
func TestSharesAddUpAndEqualTheRunningFormula(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pennies := rapid.Int64Range(-1e15, 1e15).Draw(t, "pennies")
		weights := rapid.SliceOfN(rapid.Int64Range(0, 1e12), 1, 40).Draw(t, "weights")
		var total int64
		list := make([]decimal.Decimal, len(weights))
		for i, w := range weights {
			total += w
			list[i] = decimal.New(w, -6)
		}
		shares, ok := money.Share(money.Pennies(pennies), list)
		if ok != (total != 0) {
			t.Fatalf("shared %v with weights of %d", ok, total)
		}
		if !ok {
			return
		}
		if got := money.Sum(shares...); !got.Equal(money.Pennies(pennies)) {
			t.Fatalf("shares add up to %s, want %s", got, money.Pennies(pennies))
		}
		var run int64
		before := money.Amount{}
		for i, w := range weights {
			run += w
			// Nearest penny, halves away from nil: sign (2 |p| run + total) / (2 total).
			n := new(big.Int).Mul(new(big.Int).Abs(big.NewInt(pennies)), big.NewInt(2*run))
			n.Add(n, big.NewInt(total)).Quo(n, big.NewInt(2*total))
			upTo := money.Pennies(n.Int64())
			if pennies < 0 {
				upTo = upTo.Neg()
			}
			if want := upTo.Sub(before); !shares[i].Equal(want) {
				t.Fatalf("share %d is %s, want %s", i, shares[i], want)
			}
			before = upTo
		}
	})
}

func BenchmarkShare(b *testing.B) {
	weights := make([]decimal.Decimal, 1000)
	for i := range weights {
		weights[i] = decimal.New(int64(i*7919+1), -2)
	}
	for b.Loop() {
		if _, ok := money.Share(money.MustAmount("123456.78"), weights); !ok {
			b.Fatal("nothing was shared")
		}
	}
}
