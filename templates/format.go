package templates

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
	"golang.org/x/text/currency"

	"futtock/rates/money"
	"futtock/templates/grid"
)

// look is what a number format shows a number as.
type look struct {
	percent bool
	date    bool   // a date or a time
	said    string // words and signs that stand beside the figures
}

// lookOf reads a number format code, of which only the part for numbers above
// nil counts. Quoted words, colours and conditions are no part of the figures:
// 0"%" shows 12 as 12%, and is not a percentage.
func lookOf(format string) look {
	var l look
	var said, figures strings.Builder
	code := []rune(format)
	for i := 0; i < len(code); i++ {
		switch r := code[i]; r {
		case ';':
			i = len(code)
		case '"':
			for i++; i < len(code) && code[i] != '"'; i++ {
				said.WriteRune(code[i])
			}
			said.WriteRune(' ')
		case '\\':
			if i++; i < len(code) {
				said.WriteRune(code[i])
			}
		case '_', '*':
			i++
		case '[':
			end := slices.Index(code[i:], ']')
			if end < 0 {
				i = len(code)
				break
			}
			in := string(code[i+1 : i+end])
			i += end
			switch sign, _, _ := strings.Cut(strings.TrimPrefix(in, "$"), "-"); {
			case strings.HasPrefix(in, "$"):
				said.WriteString(sign + " ")
			case strings.Trim(strings.ToLower(in), "hms") == "" && in != "":
				l.date = true
			}
		case '£', '$', '€', '¥':
			said.WriteRune(r)
		default:
			figures.WriteRune(r)
		}
	}
	l.said = said.String()
	shape := strings.ToLower(figures.String())
	l.percent = strings.Contains(shape, "%")
	if shape != "general" && shape != "standard" {
		l.date = l.date || strings.ContainsAny(shape, "ydhms")
	}
	return l
}

// isDate reports a cell that shows a date or a time.
func isDate(d grid.Datum) bool {
	return d.Kind == grid.Date || d.Kind == grid.Number && lookOf(d.Format).date
}

// shown is what a cell holds, as a message quotes it.
func shown(d grid.Datum, date1904 bool) string {
	switch {
	case d.Kind == grid.Number && isDate(d):
		if day, ok := serialDay(d.Value, date1904); ok {
			return day.Format(isoDay)
		}
		if at, ok := timeOf(d.Value); ok {
			return at
		}
		return d.Value.String()
	case d.Kind == grid.Number && lookOf(d.Format).percent:
		return money.NewPercent(d.Value.Shift(2)).String()
	case d.Kind == grid.Number:
		return d.Value.String()
	case d.Kind == grid.Bool:
		return map[string]string{"1": "TRUE", "0": "FALSE"}[d.Raw]
	}
	return single(d.Raw)
}

// timeOf is the hours and minutes of a number that shows as a time: a part of a
// day, or days and a part.
func timeOf(days decimal.Decimal) (string, bool) {
	if days.Sign() <= 0 || days.IsInteger() || days.GreaterThan(decimal.New(366, 0)) {
		return "", false
	}
	minutes := days.Mul(decimal.New(24*60, 0)).Round(0).IntPart()
	return fmt.Sprintf("%d:%02d", minutes/60, minutes%60), true
}

// signs are the marks of money that people and number formats write, each with
// the currencies that bear it.
var signs = []struct {
	sign string
	of   []string
}{
	{"£", []string{"GBP", "GIP", "FKP", "IMP", "JEP", "GGP"}},
	{"€", []string{"EUR"}},
	{"$", []string{"USD", "AUD", "CAD", "NZD", "HKD", "SGD"}},
	{"¥", []string{"JPY", "CNY"}},
	{"kr", []string{"DKK", "NOK", "SEK", "ISK"}},
	{"Fr.", []string{"CHF"}},
	{"zł", []string{"PLN"}},
}

var currencyWord = regexp.MustCompile(`\b[A-Z]{3}\b`)

// isCurrency reports letters that are a currency's by ISO 4217, as EUR are and
// those of POA, TBC or VAT beside a sum are not.
func isCurrency(word string) bool {
	_, err := currency.ParseISO(word)
	return err == nil
}

// foreign is a mark of money in the text that is not one of the currency, or
// blank. A currency that is itself not known says nothing against any mark.
func foreign(text, own string) string {
	if !currencyForm.MatchString(own) {
		return ""
	}
	for _, s := range signs {
		if strings.Contains(text, s.sign) && !slices.Contains(s.of, own) {
			return s.sign
		}
	}
	for _, word := range currencyWord.FindAllString(text, -1) {
		if word != own && isCurrency(word) {
			return word
		}
	}
	return ""
}

// unmarked is the text of a sum of money without its currency.
func unmarked(text, currency string) string {
	text = strings.ReplaceAll(text, currency, "")
	for _, s := range signs {
		text = strings.ReplaceAll(text, s.sign, "")
	}
	return strings.TrimSpace(text)
}

// foreignHeading is a mark of money in a heading that is not one of the currency,
// or blank. Of words in capitals only those count that are currencies with a sign.
func foreignHeading(text, currency string) string {
	for _, s := range signs {
		for _, word := range currencyWord.FindAllString(text, -1) {
			if slices.Contains(s.of, word) && word != currency && currency != "" {
				return word
			}
		}
		if len(s.sign) > 1 && s.sign[0] < 0x80 {
			continue // letters, which any word may hold
		}
		if strings.Contains(text, s.sign) && !slices.Contains(s.of, currency) && currency != "" {
			return s.sign
		}
	}
	return ""
}
