package explain

import (
	"cmp"
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
	"futtock/rates/money"
)

// number is a figure within words: all its places, thousands parted.
func number(d decimal.Decimal) string {
	return money.Group(d, places(d))
}

// billed is a quantity at the places of its unit within words.
func billed(d decimal.Decimal, u measure.Unit) string {
	return money.Group(d, max(places(d), u.Places()))
}

// places is how many decimal places a figure has of its own.
func places(d decimal.Decimal) int32 {
	_, after, _ := strings.Cut(d.String(), ".")
	return int32(len(after))
}

// priceText is a price within words, thousands parted.
func priceText(p money.Price) string { return money.Group(p.Decimal(), max(2, places(p.Decimal()))) }

// sixth is an exact figure to the sixth place, as a value of a line.
func sixth(d decimal.Decimal) string { return d.Round(6).String() }

// counted is a number of things in words: 1 piece, 3 pieces.
func counted(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

// joined is phrases with a mark between them, blank ones left out.
func joined(mark string, phrases ...string) string {
	kept := phrases[:0:0]
	for _, p := range phrases {
		if p != "" {
			kept = append(kept, p)
		}
	}
	return strings.Join(kept, mark)
}

// length and size print a length as the job writes lengths, and sizes.
func (m maker) length(l measure.Length) string {
	return exact(l, cmp.Or(m.Job.LengthsIn, measure.M))
}

func (m maker) size(l measure.Length) string {
	return exact(l, cmp.Or(m.Job.SizesIn, measure.Mm))
}

// across is a section as the job writes sizes: 125 x 260 mm.
func (m maker) across(thickness, width measure.Length) string {
	t, w := m.size(thickness), m.size(width)
	if in, ok := strings.CutSuffix(t, " mm"); ok && strings.HasSuffix(w, " mm") {
		t = in
	}
	return t + " x " + w
}

// exact prints a length so that what is reckoned from it comes out again: feet
// and inches in sixty-fourths where it is so many, else in decimals; the others
// to a hundredth of a millimetre.
func exact(l measure.Length, u measure.Unit) string {
	const sixtyfourth = measure.Inch / 64
	switch {
	case u == measure.Mm:
		return number(l.In(u, 2)) + " mm"
	case u == measure.M:
		n := l.In(u, 5)
		return n.StringFixed(max(2, places(n))) + " m"
	case l%sixtyfourth == 0:
		return l.Format(u)
	case u == measure.Ft:
		return number(l.In(u, 5)) + " ft"
	}
	return number(l.In(u, 4)) + " " + string(u)
}
