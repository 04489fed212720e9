package measure

import (
	"fmt"
	"math/big"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"
)

// ParseLength reads a length as people type it: a bare number in the unit
// given, or text with units such as 24' 6", 24ft 6 1/2in, 24'-6", 4½", 7.5 m,
// 150 mm. It goes to the nearest nanometre. The whole text must be a length,
// or it is refused with an error and a nil length:
//
//   - a bare number takes the bare unit, and 1/2 alone is half of it; with no
//     bare unit it is refused, and so is a fraction where that is millimetres,
//     which nobody parts so: 4 1/2 there was meant for inches;
//   - 6-3 and 6:3 are refused, since they may be six and three or six to three;
//   - inches beside feet carry their mark and are under twelve, and the feet
//     beside them are whole;
//   - a fraction is proper: 6/3 may be a date or a slip;
//   - commas part thousands of millimetres only (1,250 mm): 1,250 m may be
//     twelve hundred metres or one and a quarter.
//
// A leading minus makes the whole length negative; whether a column may hold
// that is for its reader to say.
func ParseLength(s string, bare Unit) (Length, error) {
	text := normal(s)
	if text == "" {
		return 0, fmt.Errorf("there is no length in %q", s)
	}
	sign := Length(1)
	if rest, ok := strings.CutPrefix(text, "-"); ok {
		sign, text = -1, strings.TrimSpace(rest)
	}
	if ambiguous.MatchString(text) {
		return 0, fmt.Errorf("%q is ambiguous: feet and inches, or a range", s)
	}
	if m := feetInches.FindStringSubmatch(text); m != nil {
		return feetAndInches(s, sign, m[1], m[2], m[3])
	}
	if m := thousands.FindStringSubmatch(text); m != nil && (m[2] == "mm" || m[2] == "" && bare == Mm) {
		text = strings.ReplaceAll(text, ",", "")
	}
	m := single.FindStringSubmatch(text)
	switch {
	case m == nil && strings.Contains(text, ","):
		return 0, fmt.Errorf("%q has a comma, which may part thousands or a decimal", s)
	case m == nil:
		return 0, fmt.Errorf("%q is not a length", s)
	}
	unit := bare
	switch {
	case m[2] != "":
		unit = lengthWords[m[2]]
	case bare == Mm && strings.Contains(m[1], "/"):
		return 0, fmt.Errorf("%q has a fraction, and may be inches where millimetres are wanted", s)
	case bare == "":
		return 0, fmt.Errorf("%q has no unit", s)
	}
	n, err := number(s, m[1])
	if err != nil {
		return 0, err
	}
	size := new(big.Rat).SetInt64(unit.Size().Shift(9).IntPart())
	return nanometres(s, sign, size.Mul(size, n))
}

// feetAndInches is the length of feet and inches as they were matched in s.
func feetAndInches(s string, sign Length, ft, in, mark string) (Length, error) {
	feet, err := number(s, ft)
	if err != nil {
		return 0, err
	}
	inches, err := number(s, in)
	if err != nil {
		return 0, err
	}
	switch {
	case mark == "":
		return 0, fmt.Errorf("%q has inches without their mark", s)
	case inches.Cmp(big.NewRat(12, 1)) >= 0:
		return 0, fmt.Errorf("%q has twelve inches or more beside the feet", s)
	case !feet.IsInt():
		return 0, fmt.Errorf("%q has a part of a foot beside the inches", s)
	}
	total := feet.Mul(feet, big.NewRat(int64(Foot), 1))
	return nanometres(s, sign, total.Add(total, inches.Mul(inches, big.NewRat(int64(Inch), 1))))
}

// nanometres rounds to the nearest whole nanometre, halves away from zero.
func nanometres(s string, sign Length, r *big.Rat) (Length, error) {
	if r.Cmp(new(big.Rat).SetInt64(int64(MaxLength))) > 0 {
		return 0, fmt.Errorf("%q is beyond any ship", s)
	}
	twice := new(big.Int).Mul(r.Num(), big.NewInt(2))
	twice.Add(twice, r.Denom())
	q := twice.Div(twice, new(big.Int).Mul(r.Denom(), big.NewInt(2)))
	return sign * Length(q.Int64()), nil
}

const (
	numberForm = `(\d+(?:\.\d+)?|\.\d+|\d+ \d+/\d+|\d+/\d+)`
	feetForm   = `(?:'|ft\.?|feet|foot)`
	inchForm   = `"|in\.?|ins\.?|inch|inches`
)

var (
	feetInches = regexp.MustCompile(`^` + numberForm + ` ?` + feetForm + ` ?-? ?` + numberForm + ` ?(` + inchForm + `)?$`)
	single     = regexp.MustCompile(`^` + numberForm + ` ?('|ft\.?|feet|foot|` + inchForm + `|metres?|mm|cm|m)?$`)
	thousands  = regexp.MustCompile(`^([1-9]\d{0,2}(?:,\d{3})+(?:\.\d+)?) ?(mm)?$`)
	ambiguous  = regexp.MustCompile(`^\d+ ?[-:] ?\d`)

	lengthWords = map[string]Unit{
		"'": Ft, "ft": Ft, "ft.": Ft, "feet": Ft, "foot": Ft, "\"": In, "in": In, "in.": In, "ins": In,
		"ins.": In, "inch": In, "inches": In, "m": M, "metre": M, "metres": M, "mm": Mm, "cm": cm,
	}

	// marks brings what people and programs type to one form. A fraction sign
	// is set off on both sides, so that ½4 is not read as 1/24.
	marks = strings.NewReplacer(
		"′", "'", "’", "'", "‘", "'", "″", "\"", "”", "\"", "“", "\"",
		"½", " 1/2 ", "¼", " 1/4 ", "¾", " 3/4 ", "⅛", " 1/8 ", "⅜", " 3/8 ", "⅝", " 5/8 ", "⅞", " 7/8 ",
		"⅓", " 1/3 ", "⅔", " 2/3 ", "⁄", "/", "−", "-", "–", "-", "‑", "-",
	)
)

// normal brings a text to the marks, small letters and single spaces that the
// forms above are written in. No-break and thin spaces are spaces.
func normal(s string) string {
	s = strings.ReplaceAll(strings.ToLower(marks.Replace(s)), "''", "\"")
	return strings.Join(strings.Fields(s), " ")
}

// number is a decimal, a proper fraction, or a whole number and such a fraction.
func number(s, form string) (*big.Rat, error) {
	r := new(big.Rat)
	for part := range strings.FieldsSeq(form) {
		p, ok := new(big.Rat).SetString(part)
		if !ok {
			return nil, fmt.Errorf("%q is not a length", s)
		}
		if strings.Contains(part, "/") && p.Cmp(big.NewRat(1, 1)) >= 0 {
			return nil, fmt.Errorf("%q has a fraction that is not under one", s)
		}
		r.Add(r, p)
	}
	return r, nil
}

// ParseNumber reads a number typed as text, as it stands when a cell holds
// text where a number is wanted: 1250, -12.5, 1,250.00, £1,250.00, -£5. A
// currency sign may stand before it, and commas may part the whole digits in
// full groups of three. Whatever could be read in two ways is refused with an
// error and nil: 1 250,00 and 1,25 (a comma for the decimal point), 0,250,
// (12.50), 1e3, and more than fifteen whole digits, which no spreadsheet holds.
func ParseNumber(s string) (decimal.Decimal, error) {
	text := strings.TrimSpace(s)
	text = strings.Replace(text, "−", "-", 1)
	m := typed.FindStringSubmatch(text)
	if m == nil || m[2]+m[3] == "" {
		return decimal.Decimal{}, fmt.Errorf("%q is not a number", s)
	}
	whole := strings.ReplaceAll(m[2], ",", "")
	if len(whole) > 15 || len(m[3]) > 16 {
		return decimal.Decimal{}, fmt.Errorf("%q has more digits than a spreadsheet holds", s)
	}
	d, err := decimal.NewFromString("0" + whole + m[3])
	if err != nil {
		return decimal.Decimal{}, fmt.Errorf("%q is not a number", s)
	}
	if m[1] != "" {
		d = d.Neg()
	}
	return d, nil
}

// typed is sign, currency sign, whole digits, decimal point and digits.
var typed = regexp.MustCompile(`^(-?) ?[£$€]? ?([1-9]\d{0,2}(?:,\d{3})+|\d+|)(\.\d+)?$`)
