// Package money holds the three kinds of figure a price is made of: an
// Amount (a sum in whole pennies), a Price (money for one of something, kept
// to the places it was quoted in) and a Percent; and the one way to share a
// sum without losing a penny.
//
// What comes in is decimals; what goes out is Amounts. Every product is taken in decimal and rounded once, halves away from zero,
// as the ROUND function of spreadsheets does; nothing here ever passes
// through binary floating point. 12.50 an hour for 3.33 h is 41.625, an
// Amount of 41.63.
package money

import (
	"encoding/json"
	"fmt"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"
)

// Amount is a sum of money in whole hundredths of the currency. The zero
// value is nil money.
type Amount struct{ d decimal.Decimal }

// Round makes an Amount of any figure, halves away from zero.
func Round(d decimal.Decimal) Amount { return Amount{d.Round(2)} }

// RoundDown makes an Amount of any figure by dropping what is beyond the
// penny, towards nil for a credit too, as invoice traders in the United Kingdom may do with a VAT total
// (VAT Notice 700, section 17.5).
func RoundDown(d decimal.Decimal) Amount { return Amount{d.Truncate(2)} }

// Pennies makes an Amount of whole hundredths.
func Pennies(n int64) Amount { return Amount{decimal.New(n, -2)} }

// ParseAmount reads a plain decimal such as "1250.00" or "-3". Anything else
// is refused with an error and nil money: blanks, commas, currency signs,
// exponents, and anything finer than a penny, for an Amount never rounds what
// somebody typed.
func ParseAmount(s string) (Amount, error) {
	if !plain.MatchString(s) {
		return Amount{}, fmt.Errorf("%q is not a sum of money", s)
	}
	d, err := decimal.NewFromString(s)
	if err != nil {
		return Amount{}, fmt.Errorf("%q is not a sum of money", s)
	}
	if !d.Equal(d.Round(2)) {
		return Amount{}, fmt.Errorf("%q is finer than a penny", s)
	}
	return Round(d), nil
}

var plain = regexp.MustCompile(`^-?\d+(\.\d+)?$`)

// MustAmount is ParseAmount for figures known to be good.
func MustAmount(s string) Amount {
	a, err := ParseAmount(s)
	if err != nil {
		panic(err)
	}
	return a
}

// Decimal is the amount as a number.
func (a Amount) Decimal() decimal.Decimal { return a.d }

// Add is a + b.
func (a Amount) Add(b Amount) Amount { return Amount{a.d.Add(b.d)} }

// Sub is a - b.
func (a Amount) Sub(b Amount) Amount { return Amount{a.d.Sub(b.d)} }

// Neg is -a.
func (a Amount) Neg() Amount { return Amount{a.d.Neg()} }

// Cmp is -1, 0 or 1 as a is less than, equal to or more than b.
func (a Amount) Cmp(b Amount) int { return a.d.Cmp(b.d) }

// Equal reports the same sum.
func (a Amount) Equal(b Amount) bool { return a.d.Equal(b.d) }

// IsZero reports nil money.
func (a Amount) IsZero() bool { return a.d.IsZero() }

// Sign is -1, 0 or 1.
func (a Amount) Sign() int { return a.d.Sign() }

// Percent is p of the amount, rounded once to the penny.
func (a Amount) Percent(p Percent) Amount {
	return Round(a.d.Mul(p.Fraction()))
}

// Times is the amount taken q times, rounded once to the penny.
func (a Amount) Times(q decimal.Decimal) Amount { return Round(a.d.Mul(q)) }

// Per is the amount divided by q and rounded once to the penny. It panics
// when q is nil, as any division by nothing does.
func (a Amount) Per(q decimal.Decimal) Amount { return Amount{a.d.DivRound(q, 2)} }

// Sum adds amounts.
func Sum(amounts ...Amount) Amount {
	var t Amount
	for _, a := range amounts {
		t = t.Add(a)
	}
	return t
}

// String is the amount with two places and no grouping: "1250.00".
func (a Amount) String() string { return a.d.StringFixed(2) }

// Grouped is the amount with two places and thousands parted: "1,250.00".
func (a Amount) Grouped() string { return group(a.String()) }

// MarshalJSON writes the amount as a string, "1250.00".
func (a Amount) MarshalJSON() ([]byte, error) { return json.Marshal(a.String()) }

// Price is money for one unit of something, kept to the places it was quoted in.
type Price struct{ d decimal.Decimal }

// NewPrice keeps d as it stands.
func NewPrice(d decimal.Decimal) Price { return Price{d} }

// PriceOf is an amount as the price of one.
func PriceOf(a Amount) Price { return Price(a) }

// Decimal is the price as a number.
func (p Price) Decimal() decimal.Decimal { return p.d }

// Times is the price of q units, rounded once to the penny.
func (p Price) Times(q decimal.Decimal) Amount { return Round(p.d.Mul(q)) }

// Amount is the price rounded to the penny.
func (p Price) Amount() Amount { return Round(p.d) }

// IsZero reports a price of nothing.
func (p Price) IsZero() bool { return p.d.IsZero() }

// Cmp is -1, 0 or 1 as p is less than, equal to or more than q.
func (p Price) Cmp(q Price) int { return p.d.Cmp(q.d) }

// Equal reports the same price, however many places it was quoted in.
func (p Price) Equal(q Price) bool { return p.d.Equal(q.d) }

// Sign is -1, 0 or 1.
func (p Price) Sign() int { return p.d.Sign() }

// String has at least two places, and more where the price was quoted finer.
func (p Price) String() string {
	if p.d.Equal(p.d.Round(2)) {
		return p.d.StringFixed(2)
	}
	return p.d.String()
}

// MarshalJSON writes the price as a string.
func (p Price) MarshalJSON() ([]byte, error) { return json.Marshal(p.String()) }

// Percent is a number of hundredths: 12 is 12 %.
type Percent struct{ d decimal.Decimal }

// NewPercent makes 12 % of 12.
func NewPercent(d decimal.Decimal) Percent { return Percent{d} }

// Decimal is the percentage as it is spoken: 12 for 12 %.
func (p Percent) Decimal() decimal.Decimal { return p.d }

// Fraction is the percentage as a share of one: 0.12 for 12 %.
func (p Percent) Fraction() decimal.Decimal { return p.d.Shift(-2) }

// Cmp is -1, 0 or 1 as p is less than, equal to or more than q.
func (p Percent) Cmp(q Percent) int { return p.d.Cmp(q.d) }

// Equal reports the same percentage.
func (p Percent) Equal(q Percent) bool { return p.d.Equal(q.d) }

// IsZero reports nil per cent.
func (p Percent) IsZero() bool { return p.d.IsZero() }

// String is "12 %" or "17.5 %".
func (p Percent) String() string { return p.d.String() + " %" }

// MarshalJSON writes the percentage as a string of its points, "12".
func (p Percent) MarshalJSON() ([]byte, error) { return json.Marshal(p.d.String()) }

// group parts the whole digits of a plain decimal in threes.
func group(s string) string {
	sign, rest := "", s
	if strings.HasPrefix(rest, "-") {
		sign, rest = "-", rest[1:]
	}
	whole, frac, found := strings.Cut(rest, ".")
	var b strings.Builder
	for i, r := range whole {
		if i > 0 && (len(whole)-i)%3 == 0 {
			b.WriteByte(',')
		}
		b.WriteRune(r)
	}
	if found {
		b.WriteByte('.')
		b.WriteString(frac)
	}
	return sign + b.String()
}

// Group parts the whole digits of a number in threes: 1234.5 is "1,234.5".
func Group(d decimal.Decimal, places int32) string { return group(d.StringFixed(places)) }
