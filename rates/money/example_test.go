package money_test

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// 12.50 an hour for 3.33 h is 41.625, rounded once, a half upward.
func ExamplePrice_Times() {
	rate := money.NewPrice(decimal.RequireFromString("12.50"))
	fmt.Println(rate.Times(decimal.RequireFromString("3.33")))
	// Output: 41.63
}

func ExampleAmount_Percent() {
	cost := money.MustAmount("1234.56")
	overheads := cost.Percent(money.NewPercent(decimal.RequireFromString("12.5")))
	profit := cost.Add(overheads).Percent(money.NewPercent(decimal.New(10, 0)))
	fmt.Println(overheads, profit, money.Sum(cost, overheads, profit).Grouped())
	// Output: 154.32 138.89 1,527.77
}

// 100.00 among three by running totals: 33.33, then 66.67 less 33.33, then the rest.
func ExampleShare() {
	one := decimal.New(1, 0)
	shares, _ := money.Share(money.MustAmount("100"), []decimal.Decimal{one, one, one})
	fmt.Println(shares, money.Sum(shares...))
	// Output: [33.33 33.34 33.33] 100.00
}
