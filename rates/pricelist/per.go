package pricelist

import (
	"regexp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
)

// Per is what a price of a list is for: so many of a unit, or a pack. The zero
// Per is one of the yard's own unit.
type Per struct {
	Number decimal.Decimal // nil of a pack whose content the list does not tell
	Unit   measure.Unit    // blank of a pack of so many of the yard's own
	Pack   bool
}

// Own reports a price in the yard's own unit.
func (p Per) Own() bool { return !p.Pack && p.Unit == "" }

// String is the Per as it is spoken: "per m3", "per 100 bf", "per pack of 50".
func (p Per) String() string {
	var words []string
	if p.Pack {
		words = append(words, "pack")
		if !p.Number.IsZero() {
			words = append(words, "of", p.Number.String())
		}
	} else if !p.Number.Equal(one) {
		words = append(words, p.Number.String())
	}
	if p.Unit != "" {
		words = append(words, string(p.Unit))
	}
	return "per " + strings.Join(words, " ")
}

// ParsePer reads what a price is for: "m3", "per cu ft", "/hft", "100 super ft",
// "each", "per 1000", "doz", "pack", "box of 200", "25 kg". A blank is the yard's
// own unit. A superficial foot is of one inch, and so a board foot; a standard is
// that of 165 cubic feet, sawn. It returns false for anything else.
func ParsePer(text string) (Per, bool) {
	s := strings.ToLower(strings.Join(strings.Fields(text), " "))
	s = strings.TrimSuffix(s, ".")
	for _, lead := range []string{"price", "per ", "/", "a ", "for "} {
		s = strings.TrimSpace(strings.TrimPrefix(s, lead))
	}
	if s == "" {
		return Per{}, strings.TrimSpace(text) == ""
	}
	if m := packed.FindStringSubmatch(s); m != nil {
		return packOf(m[1])
	}
	n, rest := leading(s)
	if times, ok := dozens[rest]; ok {
		return Per{Number: n.Mul(times), Unit: measure.Nr}, n.Sign() > 0
	}
	for _, lead := range []string{"hundred ", "thousand "} {
		if after, ok := strings.CutPrefix(rest, lead); ok {
			n, rest = n.Mul(dozens[strings.TrimSpace(lead)]), after
		}
	}
	u, ok := unitOf(rest)
	if rest == "mbf" {
		n, u, ok = n.Mul(dozens["thousand"]), measure.BF, true
	}
	return Per{Number: n, Unit: u}, ok && n.Sign() > 0
}

var (
	packed = regexp.MustCompile(`^(?:pack|packet|box|bag|drum|tin|can|coil|roll|carton|case|pk|pkt)(?:s|es)?(?: ?(?:of)?[ x]*(\d.*))?$`)
	number = regexp.MustCompile(`^(\d{1,3}(?:[, ]\d{3})+|\d+(?:\.\d+)?)(?: ?x)? ?(.*)$`)
)

// dozens is numbers that have a name of their own.
var dozens = map[string]decimal.Decimal{
	"": one, "doz": decimal.New(12, 0), "dozen": decimal.New(12, 0), "gross": decimal.New(144, 0),
	"hundred": decimal.New(100, 0), "c": decimal.New(100, 0), "thousand": decimal.New(1000, 0), "mille": decimal.New(1000, 0),
}

// packOf is a pack of what is told of it.
func packOf(content string) (Per, bool) {
	if content == "" {
		return Per{Pack: true}, true
	}
	n, rest := leading(content)
	if rest == "" || n.Sign() <= 0 {
		return Per{Number: n, Pack: true}, n.Sign() > 0
	}
	u, ok := unitOf(rest)
	return Per{Number: n, Unit: u, Pack: true}, ok
}

// leading parts a number from what follows; none is one.
func leading(s string) (decimal.Decimal, string) {
	m := number.FindStringSubmatch(s)
	if m == nil {
		return one, s
	}
	digits := strings.NewReplacer(",", "", " ", "").Replace(m[1])
	return decimal.RequireFromString(digits), strings.TrimSpace(m[2])
}

// unitOf finds a unit by the words of merchants, beside those that measure knows.
func unitOf(s string) (measure.Unit, bool) {
	s = strings.NewReplacer("^", "", ".", "").Replace(s)
	if u, ok := merchants[s]; ok {
		return u, true
	}
	u, ok := measure.ParseUnit(s)
	return u, ok && slices.Contains(measure.Units(), u)
}

// merchants is how lists of prices write units.
var merchants = map[string]measure.Unit{
	"cubic metre": measure.M3, "cubic metres": measure.M3, "cubic meter": measure.M3, "cbm": measure.M3,
	"cubic foot": measure.Ft3, "cubic feet": measure.Ft3, "cubic ft": measure.Ft3, "cube": measure.Ft3, "cf": measure.Ft3,
	"hoppus foot": measure.HFt, "hoppus feet": measure.HFt, "h ft": measure.HFt, "hoppus": measure.HFt,
	"super ft": measure.BF, "super foot": measure.BF, "super feet": measure.BF, "sup ft": measure.BF,
	"superficial ft": measure.BF, "superficial foot": measure.BF, "superficial feet": measure.BF, "board ft": measure.BF,
	"square metre": measure.M2, "square metres": measure.M2, "square foot": measure.Ft2, "square feet": measure.Ft2,
	"linear metre": measure.M, "lin m": measure.M, "m run": measure.M, "metre run": measure.M, "meter": measure.M,
	"linear foot": measure.Ft, "lin ft": measure.Ft, "ft run": measure.Ft, "foot run": measure.Ft,
	"piece": measure.Nr, "pieces": measure.Nr, "pc": measure.Nr, "pcs": measure.Nr, "stick": measure.Nr,
	"liter": measure.Litre, "ltr": measure.Litre, "kilo": measure.Kg, "petrograd standard": measure.Std,
	"once": measure.Sums, "fixed": measure.Sums,
}
