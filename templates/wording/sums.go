package wording

import (
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// currency is how a currency is written: its sign, and its names in words.
type currency struct {
	sign               string
	one, many          string // the whole unit
	hundredth, several string
}

// currencies are those with names of their own here. The plural of euro and
// cent is as the Union's English texts have it. A sign that several currencies
// share is none: a dollar is of one country. The yen has no hundredth in use.
var currencies = map[string]currency{
	"GBP": {"£", "pound", "pounds", "penny", "pence"},
	"EUR": {"€", "euro", "euro", "cent", "cent"},
	"USD": {"USD\u00a0", "US dollar", "US dollars", "cent", "cents"},
	"CAD": {"CAD\u00a0", "Canadian dollar", "Canadian dollars", "cent", "cents"},
	"AUD": {"AUD\u00a0", "Australian dollar", "Australian dollars", "cent", "cents"},
	"NZD": {"NZD\u00a0", "New Zealand dollar", "New Zealand dollars", "cent", "cents"},
	"DKK": {"DKK\u00a0", "Danish krone", "Danish kroner", "øre", "øre"},
	"NOK": {"NOK\u00a0", "Norwegian krone", "Norwegian kroner", "øre", "øre"},
	"SEK": {"SEK\u00a0", "Swedish krona", "Swedish kronor", "öre", "öre"},
	"CHF": {"CHF\u00a0", "Swiss franc", "Swiss francs", "centime", "centimes"},
	"JPY": {"JPY\u00a0", "yen", "yen", "hundredth", "hundredths"},
}

func named(code string) currency {
	if c, ok := currencies[code]; ok {
		return c
	}
	return currency{code + "\u00a0", code, code, "hundredth", "hundredths"}
}

// Sign is a currency (ISO 4217) as headings have it: £ for GBP, the code itself
// where it has no sign here.
func Sign(currency string) string { return strings.TrimSuffix(named(currency).sign, "\u00a0") }

// Penny is the hundredth of a currency (ISO 4217) by its name, such as cent, or
// "hundredth" where it has none here.
func Penny(currency string) string { return named(currency).hundredth }

// CurrencyOf is the currency (ISO 4217) that Sign writes so; false where it is none.
func CurrencyOf(sign string) (string, bool) {
	for code, c := range currencies {
		if strings.TrimSuffix(c.sign, "\u00a0") == sign {
			return code, true
		}
	}
	return sign, len(sign) == 3 && strings.Trim(sign, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") == ""
}

// Sum is a sum of money in figures with the sign of its currency, thousands
// grouped and a real minus: £1,234.50, or DKK 1,234.50 where the currency (ISO
// 4217) has no sign here.
func Sum(a money.Amount, currency string) string {
	sign := ""
	if a.Sign() < 0 {
		sign, a = "−", a.Neg()
	}
	return sign + named(currency).sign + a.Grouped()
}

// InWords is a sum of money in English words: 1,234.05 in GBP is "one thousand
// two hundred and thirty-four pounds and five pence". A sum of 1,000,000,000,000
// or more is beyond words and stands in figures.
func InWords(a money.Amount, currency string) string {
	c := named(currency)
	minus := ""
	if a.Sign() < 0 {
		minus, a = "minus ", a.Neg()
	}
	if a.Decimal().GreaterThanOrEqual(decimal.New(1, 12)) {
		return minus + Sum(a, currency)
	}
	pennies := a.Decimal().Shift(2).IntPart()
	whole, part := pennies/100, pennies%100
	var said []string
	if whole > 0 || part == 0 {
		said = append(said, Number(whole)+" "+plural(whole, c.one, c.many))
	}
	if part > 0 {
		said = append(said, Number(part)+" "+plural(part, c.hundredth, c.several))
	}
	return minus + strings.Join(said, " and ")
}

func plural(n int64, one, many string) string {
	if n == 1 {
		return one
	}
	return many
}

var small = strings.Fields(`nil one two three four five six seven eight nine ten eleven twelve thirteen
	fourteen fifteen sixteen seventeen eighteen nineteen`)

var tens = strings.Fields(`. . twenty thirty forty fifty sixty seventy eighty ninety`)

// Number is a whole number from nil to 999,999,999,999 in English words, with
// "and" before the tens and units: 1001 is "one thousand and one".
func Number(n int64) string {
	if n == 0 {
		return small[0]
	}
	var said []string
	for _, g := range []struct {
		size int64
		name string
	}{{1_000_000_000, "billion"}, {1_000_000, "million"}, {1_000, "thousand"}} {
		if n >= g.size {
			said = append(said, hundreds(n/g.size)+" "+g.name)
			n %= g.size
		}
	}
	if n > 0 && n < 100 && len(said) > 0 {
		said = append(said, "and")
	}
	if n > 0 {
		said = append(said, hundreds(n))
	}
	return strings.Join(said, " ")
}

// hundreds is a number from 1 to 999 in words.
func hundreds(n int64) string {
	var said []string
	if n >= 100 {
		said = append(said, small[n/100]+" hundred")
		if n %= 100; n == 0 {
			return said[0]
		}
		said = append(said, "and")
	}
	switch {
	case n < 20:
		said = append(said, small[n])
	case n%10 == 0:
		said = append(said, tens[n/10])
	default:
		said = append(said, tens[n/10]+"-"+small[n%10])
	}
	return strings.Join(said, " ")
}
