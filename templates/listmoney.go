package templates

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"

	"github.com/shopspring/decimal"

	"futtock/rates/problem"
	"futtock/templates/grid"
)

var (
	dashed  = regexp.MustCompile(`[.,] ?[-–—]{1,2}$`)
	figures = regexp.MustCompile(`^-?[0-9][0-9.,]*$`)
	grouped = map[string]*regexp.Regexp{
		Point: regexp.MustCompile(`^-?(\d{1,3}(,\d{3})+|\d+)(\.\d+)?$`),
		Comma: regexp.MustCompile(`^-?(\d{1,3}(\.\d{3})+|\d+)(,\d+)?$`),
	}
)

// bareFigures is the text of a price without currency, percent sign and what
// parts thousands and is neither point nor comma: spaces of any width, and the
// apostrophe. A dash for no pence, as in 12,-, is left out.
func bareFigures(text, currency string) (string, bool) {
	percent := percentSign.MatchString(text)
	s := percentSign.ReplaceAllString(text, "")
	if currency == "" {
		s = currencyWord.ReplaceAllString(s, "")
	}
	s = unmarked(s, currency)
	s = strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) || r == '\'' || r == '’' {
			return -1
		}
		return r
	}, s)
	return dashed.ReplaceAllString(s, ""), percent
}

// priceText is a price typed as text, its pence parted by the mark.
func priceText(text, currency, mark string) (decimal.Decimal, bool, bool) {
	s, percent := bareFigures(text, currency)
	if !grouped[mark].MatchString(s) {
		return decimal.Decimal{}, false, false
	}
	if mark == Comma {
		s = strings.NewReplacer(".", "", ",", ".").Replace(s)
	} else {
		s = strings.ReplaceAll(s, ",", "")
	}
	return decimal.RequireFromString(s), percent, true
}

// markOf tells what parts the pence in one price: the point, the comma, or blank
// where it has neither. It returns false where one of them could part either pence
// or thousands, as in 1,250.
func markOf(s string) (string, bool) {
	point, comma := strings.LastIndex(s, "."), strings.LastIndex(s, ",")
	points, commas := strings.Count(s, "."), strings.Count(s, ",")
	switch {
	case points == 0 && commas == 0:
		return "", true
	case points > 0 && commas > 0 && point > comma, commas > 1:
		return Point, true
	case points > 0 && commas > 0, points > 1:
		return Comma, true
	}
	at, mark := point, Point
	if commas == 1 {
		at, mark = comma, Comma
	}
	whole := strings.TrimPrefix(s[:at], "-")
	if len(s)-at-1 != 3 || len(whole) > 3 || whole == "0" {
		return mark, true
	}
	return "", false
}

// mark is what parts the pence in the prices of a list that are typed as text: told
// once from the whole column, or as the form has it. Where that cannot be told, or
// the column has it both ways, it says so and returns false.
func (r *listReader) mark(p grid.Page, rows []grid.Line, h listHead) (string, bool) {
	if r.form.Mark != "" {
		return r.form.Mark, true
	}
	told, first := "", grid.Line{}
	var doubtful []grid.Line
	for _, l := range rows {
		d := l.Cell(h.price.Col)
		s, _ := bareFigures(single(d.Raw), r.form.Currency)
		if d.Kind != grid.Text || !figures.MatchString(s) {
			continue
		}
		mark, sure := markOf(s)
		switch {
		case !sure:
			doubtful = append(doubtful, l)
		case mark == "" || mark == told:
		case told == "":
			told, first = mark, l
		default:
			r.say(problem.ListDecimals, r.at(p.Name, l.Row, h.price.Col), fmt.Sprintf("%q has its pence after a %s, and %q in %s after a %s",
				single(d.Raw), mark, single(first.Cell(h.price.Col).Raw), r.at("", first.Row, h.price.Col).Address(), told), "")
			return "", false
		}
	}
	if told != "" {
		return told, true
	}
	if len(doubtful) > 0 {
		d := doubtful[0].Cell(h.price.Col)
		r.say(problem.ListDecimals, r.at(p.Name, doubtful[0].Row, h.price.Col), fmt.Sprintf("%q may be thousands or have three places, and no other price of the column tells", single(d.Raw)), "")
		return "", false
	}
	return Point, true
}
