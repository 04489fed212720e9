package quotes

import (
	"errors"
	"fmt"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
)

// readWords reads a sum of money in English words: "One hundred and
// twenty-three thousand four hundred and five pounds and sixty pence only".
// Capitals, hyphens and commas do not count; the whole may be in pounds,
// euros, dollars, kroner or francs, or of no currency, and hundredths may be
// said as "and 60/100". Anything that is not plainly one number is an error:
// these words may govern a tender.
func readWords(text string) (money.Amount, error) {
	words := strings.Fields(wordEnds.Replace(strings.ToLower(text)))
	words = trim(words)
	if len(words) == 0 {
		return money.Amount{}, errors.New("there are no words")
	}
	whole, rest := words, []string(nil)
	for n, w := range words {
		if majors[w] {
			whole, rest = words[:n], words[n+1:]
			if len(rest) > 0 && rest[0] == "sterling" {
				rest = rest[1:]
			}
			if len(rest) > 0 && rest[0] == "and" {
				rest = rest[1:]
				if len(rest) == 0 {
					return money.Amount{}, errors.New(`nothing follows "and"`)
				}
			}
			break
		}
	}
	if last := words[len(words)-1]; rest == nil && (minors[last] || hundredths.MatchString(last)) {
		whole, rest = nil, words // hundredths alone, or behind a whole of no currency
		if m := len(words) - 2; m > 0 && words[m] == "and" && !minors[last] {
			whole, rest = words[:m], words[m+1:]
		}
	}
	var major, minor int64
	var err error
	if len(whole) > 0 {
		if major, err = cardinal(whole); err != nil {
			return money.Amount{}, err
		}
	} else if len(rest) == 0 {
		return money.Amount{}, errors.New("there is no number")
	}
	if len(rest) > 0 {
		if minor, err = hundredthsOf(rest); err != nil {
			return money.Amount{}, err
		}
	}
	return money.Round(decimal.New(major, 0).Add(decimal.New(minor, -2))), nil
}

var (
	wordEnds   = strings.NewReplacer("-", " ", "‐", " ", "‑", " ", "–", " ", ",", " ", ".", " ", ";", " ", "(", " ", ")", " ")
	hundredths = regexp.MustCompile(`^\d{1,2}/100$`)
	majors     = set("pound", "pounds", "euro", "euros", "dollar", "dollars", "krone", "kroner", "krona", "kronor", "franc", "francs", "gbp", "eur", "usd")
	minors     = set("penny", "pence", "cent", "cents", "øre", "öre", "centime", "centimes")
)

func set(words ...string) map[string]bool {
	s := map[string]bool{}
	for _, w := range words {
		s[w] = true
	}
	return s
}

// trim takes off what is said round a sum.
func trim(words []string) []string {
	for len(words) > 0 && (words[len(words)-1] == "only" || words[len(words)-1] == "sterling") {
		words = words[:len(words)-1]
	}
	if len(words) > 3 && words[0] == "the" && words[1] == "sum" && words[2] == "of" {
		words = words[3:]
	}
	if len(words) > 1 && words[0] == "say" {
		words = words[1:]
	}
	return words
}

// hundredthsOf reads "sixty pence", or "60/100" with or without the currency behind it.
func hundredthsOf(words []string) (int64, error) {
	last := words[len(words)-1]
	if len(words) == 1 && hundredths.MatchString(last) {
		n, err := decimal.NewFromString(strings.TrimSuffix(last, "/100"))
		return n.IntPart(), err
	}
	if !minors[last] {
		return 0, fmt.Errorf("%q is no hundredths of a currency", strings.Join(words, " "))
	}
	n, err := cardinal(words[:len(words)-1])
	if err == nil && n > 99 {
		err = fmt.Errorf("%d is too many hundredths", n)
	}
	return n, err
}

var small = map[string]int64{
	"a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
	"ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15, "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19,
	"twenty": 20, "thirty": 30, "forty": 40, "fourty": 40, "fifty": 50, "sixty": 60, "seventy": 70, "eighty": 80, "ninety": 90,
}

var scales = map[string]int64{"thousand": 1_000, "million": 1_000_000}

// cardinal reads a whole number below a thousand million. "And" stands only
// behind hundreds, thousands and millions.
func cardinal(words []string) (int64, error) {
	if len(words) == 1 && (words[0] == "nil" || words[0] == "no" || words[0] == "zero" || words[0] == "nought") {
		return 0, nil
	}
	var total, group int64
	least := int64(1_000_000_000) // the scale read last: the next is smaller
	room := int64(1000)           // the number that may follow in this group is less
	and := true                   // no "and" here
	for _, w := range words {
		n, isSmall := small[w]
		scale, isScale := scales[w]
		switch {
		case isSmall && n < room:
			group += n
			room, and = 1, true
			if n >= 20 {
				room = 10
			}
		case w == "hundred" && 0 < group && group < 100:
			group *= 100
			room, and = 100, false
		case isScale && group > 0 && scale < least:
			total, group, least = total+group*scale, 0, scale
			room, and = min(1000, scale), false
		case w == "and" && !and:
			and = true
			continue
		default:
			return 0, fmt.Errorf("%q cannot stand where it does", w)
		}
	}
	if len(words) == 0 || words[len(words)-1] == "and" {
		return 0, errors.New("the number is not finished")
	}
	return total + group, nil
}
