package quotes

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// Low applies a published rule by which a price is so low that an explanation
// is asked for; none is ever rejected by it. Prices of nil or less are left out
// of it. The budget is the price of the yardstick, where it has one.
//
// Scottish (Construction Procurement Handbook, chapter 8 and glossary): a price
// more than 15 % below the average of all but the highest, and also by more than
// the proximity margin below the lowest qualifying price: 1 % of it, not under
// 1,000 and not above 100,000. Qualifying is here a price not more than 15 %
// below that average. It needs three prices: of two, the average without the
// higher is the lower itself.
//
// Spanish (Real Decreto 1098/2001, article 85): of two prices, one more than 20
// points below the other. Of three, one more than 10 points below the mean, the
// highest being left out of the mean when it is more than 10 points above it; and
// any more than 25 points below the budget. Of four and more, one more than
// 10 points below the mean; where prices are more than 10 points above it, a
// new mean is taken without them, of the three lowest if fewer than three are
// left. A point is here one hundredth of what is compared with.
//
// Of 780,000, 1,000,000, 1,020,000, 1,100,000 and 1,300,000 the four lower
// average 975,000; 15 % below is 828,750, and the lowest price is asked after.
func Low(rule LowRule, totals []money.Amount, budget Money) LowTest {
	t := LowTest{Rule: rule, Low: make([]bool, len(totals))}
	var prices []money.Amount
	for _, a := range totals {
		if a.Sign() > 0 {
			prices = append(prices, a)
		}
	}
	slices.SortFunc(prices, money.Amount.Cmp)
	var limit decimal.Decimal
	switch rule {
	case Scottish:
		t.Source = "Scottish Government, Construction Procurement Handbook, chapter 8"
		if limit, t.Basis = scottish(prices); t.Basis == "" {
			t.Basis = fmt.Sprintf("it needs three prices, and has %d", len(prices))
			return t
		}
	case Spanish:
		t.Source = "Real Decreto 1098/2001, article 85"
		if limit, t.Basis = spanish(prices, budget); t.Basis == "" {
			t.Basis = fmt.Sprintf("it needs two prices, and has %d", len(prices))
			return t
		}
	default:
		return t
	}
	t.Applies = true
	t.Limit = money.Round(limit)
	for i, a := range totals {
		t.Low[i] = a.Sign() > 0 && a.Decimal().LessThan(limit)
	}
	return t
}

// scottish is below what a price is asked after, and how that comes about.
func scottish(prices []money.Amount) (decimal.Decimal, string) {
	if len(prices) < 3 {
		return decimal.Decimal{}, ""
	}
	average := mean(prices[:len(prices)-1])
	limit := ofHundred(average, 85)
	basis := fmt.Sprintf("the average without the highest is %s, and 15 %% below it %s", grouped(average), grouped(limit))
	k := slices.IndexFunc(prices, func(a money.Amount) bool { return !a.Decimal().LessThan(limit) })
	qualifying := prices[k].Decimal() // the highest is never below the average of the others
	margin := decimal.Min(decimal.Max(ofHundred(qualifying, 1), decimal.New(1000, 0)), decimal.New(100000, 0))
	near := qualifying.Sub(margin)
	basis += fmt.Sprintf("; the lowest qualifying price is %s, and its margin of %s below it %s", grouped(qualifying), grouped(margin), grouped(near))
	return decimal.Min(limit, near), basis
}

// spanish is below what a price is asked after, and how that comes about.
func spanish(prices []money.Amount, budget Money) (decimal.Decimal, string) {
	switch len(prices) {
	case 0, 1:
		return decimal.Decimal{}, ""
	case 2:
		limit := ofHundred(prices[1].Decimal(), 80)
		return limit, fmt.Sprintf("20 points below the other price, %s, is %s", prices[1].Grouped(), grouped(limit))
	}
	average := mean(prices)
	basis := fmt.Sprintf("the mean is %s", grouped(average))
	above := ofHundred(average, 110)
	sum, count := money.Sum(prices...).Decimal(), decimal.New(int64(len(prices)), 0)
	kept := slices.IndexFunc(prices, func(a money.Amount) bool { return a.Decimal().Mul(count).GreaterThan(ofHundred(sum, 110)) })
	if len(prices) == 3 && kept >= 0 {
		kept = 2 // the highest alone, whatever it is of the mean
	}
	if kept >= 0 {
		if len(prices) > 3 && kept < 3 {
			kept = 3
			basis += fmt.Sprintf("; fewer than three are not above %s, and of the three lowest it is ", grouped(above))
		} else {
			basis += fmt.Sprintf("; without what is above %s it is ", grouped(above))
		}
		average = mean(prices[:kept])
		basis += grouped(average)
	}
	limit := ofHundred(average, 90)
	basis += fmt.Sprintf("; 10 points below is %s", grouped(limit))
	if cut := ofHundred(budget.Amount.Decimal(), 75); len(prices) == 3 && budget.Known && cut.GreaterThan(limit) {
		limit = cut
		basis += fmt.Sprintf("; 25 points below the yardstick, %s, is more: %s", budget.Amount.Grouped(), grouped(cut))
	}
	return limit, basis
}

// mean is that of one price or more, cut off after 12 places: a price just at
// a limit made of it, which cannot differ from it by so little, is not below it.
func mean(prices []money.Amount) decimal.Decimal {
	return money.Sum(prices...).Decimal().DivRound(decimal.New(int64(len(prices)), 0), 16).Truncate(12)
}

func ofHundred(d decimal.Decimal, n int64) decimal.Decimal { return d.Mul(decimal.New(n, -2)) }

func grouped(d decimal.Decimal) string { return money.Round(d).Grouped() }
