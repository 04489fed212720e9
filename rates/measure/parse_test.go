package measure_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
)

func TestParseLengthReadsWhatPeopleType(t *testing.T) {
	const (
		mm = measure.Millimetre
		in = measure.Inch
		ft = measure.Foot
		m  = measure.Metre
	)
	for _, c := range []struct {
		name string
		text string
		bare measure.Unit
		want measure.Length
	}{
		{"feet and inches with marks", `24' 6"`, "", 24*ft + 6*in},
		{"feet and inches in words", "24ft 6 1/2in", "", 24*ft + 6*in + in/2},
		{"abbreviations with full stops", "24 ft. 6 in.", "", 24*ft + 6*in},
		{"a draughtsman's dash between marked feet and marked inches", `24'-6"`, "", 24*ft + 6*in},
		{"a fraction sign after a figure", `4½"`, "", 4*in + in/2},
		{"a fraction sign after nought inches", `6' 0½"`, "", 6*ft + in/2},
		{"a fraction sign alone beside feet", `6' ¾"`, "", 6*ft + in*3/4},
		{"a fraction alone of the bare unit", "1/2", measure.In, in / 2},
		{"a whole number and a fraction of the bare unit", "2 1/2", measure.In, 2*in + in/2},
		{"a fraction slash", "3⁄8 in", "", in * 3 / 8},
		{"curly quotes", "12’ 6”", "", 12*ft + 6*in},
		{"prime marks", "12′ 6″", "", 12*ft + 6*in},
		{"two single marks for inches", "12' 6''", "", 12*ft + 6*in},
		{"two curly single marks for inches", "12’ 6’’", "", 12*ft + 6*in},
		{"no spaces at all", `12'6"`, "", 12*ft + 6*in},
		{"no-break spaces", "12'\u00a06\u202f1/2\"", "", 12*ft + 6*in + in/2},
		{"feet alone", "12'", "", 12 * ft},
		{"inches over twelve when they stand alone", `30"`, "", 30 * in},
		{"decimal inches beside feet", `1' 6.25"`, "", ft + 6*in + in/4},
		{"a sixty-fourth", `1/64"`, "", 396875},
		{"metres", "7.5 m", "", 7*m + m/2},
		{"metres without a space", "7.5m", "", 7*m + m/2},
		{"metres in a word and capitals", "2 Metres", "", 2 * m},
		{"millimetres", "150 mm", "", 150 * mm},
		{"thousands of millimetres", "1,250 mm", "", 1250 * mm},
		{"thousands of bare millimetres", "12,500", measure.Mm, 12500 * mm},
		{"centimetres", "15 cm", "", 150 * mm},
		{"a bare number takes the bare unit", "7.5", measure.M, 7*m + m/2},
		{"a unit in the text is stronger than the bare one", "150 mm", measure.Ft, 150 * mm},
		{"a point without a nought", ".5 in", "", in / 2},
		{"nought", "0", measure.Mm, 0},
		{"a negative length is negative as a whole", `-1' 6"`, "", -(ft + 6*in)},
		{"a minus sign from a typesetter", "−3 mm", "", -3 * mm},
		{"a third of an inch goes to the nearest nanometre", "1/3 in", "", 8466667},
		{"two thirds the other way", "⅔ in", "", 16933333},
		{"half a nanometre goes up", "0.0000000005", measure.M, 1},
		{"half a nanometre below nil goes down", "-0.0000000005", measure.M, -1},
		{"the longest there is", "10000 m", "", measure.MaxLength},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := measure.ParseLength(c.text, c.bare)
			if err != nil {
				t.Fatal(err)
			}
			if got != c.want {
				t.Errorf("ParseLength(%q, %q) = %d nm, want %d", c.text, c.bare, got, c.want)
			}
		})
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		text string
		bare measure.Unit
		want string // part of the message
	}{
		{"nothing", "  ", measure.Mm, "there is no length"},
		{"a bare number with no unit to take", "12", "", "has no unit"},
		{"a bare fraction among millimetres", "4½", measure.Mm, "may be inches"},
		{"a smaller one", "3/4", measure.Mm, "may be inches"},
		{"six and three, or six to three", "6-3", measure.Ft, "is ambiguous"},
		{"the same with spaces and a long dash", "6 – 3", measure.Ft, "is ambiguous"},
		{"a dash before marked inches", `6-3"`, "", "is ambiguous"},
		{"a dash before a fraction", "6-3/4", measure.In, "is ambiguous"},
		{"a colon", "6:3", measure.Ft, "is ambiguous"},
		{"thirteen inches beside feet", `24' 13"`, "", "twelve inches or more"},
		{"twelve inches beside feet", `24' 12"`, "", "twelve inches or more"},
		{"a part of a foot beside inches", `24.5' 6"`, "", "part of a foot"},
		{"inches without their mark", "24' 6", "", "without their mark"},
		{"a fraction over one", "6/3", measure.In, "not under one"},
		{"a fraction of one", "2 4/4 in", "", "not under one"},
		{"a fraction with nothing under it", "1/0", measure.In, "is not a length"},
		{"a comma for a decimal point", "7,5 m", "", "has a comma"},
		{"thousands of metres, or one and a quarter", "1,250 m", "", "has a comma"},
		{"thousands not in threes", "1,25 mm", "", "has a comma"},
		{"a fraction sign before a figure", "½4 in", "", "is not a length"},
		{"two fractions", "4½½ in", "", "is not a length"},
		{"a decimal and a fraction", "4.5½ in", "", "is not a length"},
		{"words after the length", "24' 6\" about", "", "is not a length"},
		{"two lengths", "6 m 30 cm", "", "is not a length"},
		{"an exponent", "1e3 mm", "", "is not a length"},
		{"a unit that does not measure length", "3 kg", "", "is not a length"},
		{"a point with nothing after it", "7. m", "", "is not a length"},
		{"longer than any ship", "10000.001 m", "", "beyond any ship"},
		{"longer than the machine can count", strings.Repeat("9", 400) + " m", "", "beyond any ship"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := measure.ParseLength(c.text, c.bare)
			if err == nil {
				t.Fatalf("ParseLength(%q, %q) = %d nm, want an error", c.text, c.bare, got)
			}
			if got != 0 {
				t.Errorf("a refused length is %d nm, want nil", got)
			}
			if !strings.Contains(err.Error(), c.want) {
				t.Errorf("message %q does not say %q", err, c.want)
			}
		})
	}
}

func TestParseNumberReadsTypedNumbers(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a plain number", "1250", "1250"},
		{"a decimal", "12.5", "12.5"},
		{"a point without a nought", ".5", "0.5"},
		{"leading noughts", "007", "7"},
		{"thousands", "1,250", "1250"},
		{"a currency sign and thousands", "£1,250.00", "1250"},
		{"millions", "1,234,567.89", "1234567.89"},
		{"dollars with a space", "$ 5", "5"},
		{"euros", "€0.99", "0.99"},
		{"a minus", "-12.50", "-12.5"},
		{"a minus before the currency", "-£1,000", "-1000"},
		{"a typesetter's minus", "−3", "-3"},
		{"spaces about it", "\u00a0 42 ", "42"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := measure.ParseNumber(c.text)
			if err != nil {
				t.Fatal(err)
			}
			if !got.Equal(decimal.RequireFromString(c.want)) {
				t.Errorf("ParseNumber(%q) = %s, want %s", c.text, got, c.want)
			}
		})
	}
}

func TestParseNumberRefuses(t *testing.T) {
	for _, c := range []struct{ name, text string }{
		{"nothing", ""},
		{"a sign alone", "£"},
		{"a point alone", "."},
		{"a point with nothing after it", "5."},
		{"spaces for thousands and a comma for the point", "1 250,00"},
		{"spaces for thousands", "1 250"},
		{"a comma for the point", "12,5"},
		{"groups that are not of three", "12,50,000"},
		{"a comma after nought", "0,250"},
		{"a comma before the first group", ",250"},
		{"points for thousands", "1.250.000"},
		{"a comma behind the point", "1.250,00"},
		{"accountants' brackets", "(12.50)"},
		{"an exponent", "1e3"},
		{"two minuses", "--5"},
		{"a minus behind the currency", "£-5"},
		{"a currency behind", "5 £"},
		{"a percentage", "12 %"},
		{"a fraction", "1/2"},
		{"words", "twelve"},
		{"more digits than a spreadsheet holds", "1234567890123456"},
		{"not a number", "NaN"},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := measure.ParseNumber(c.text)
			if err == nil {
				t.Fatalf("ParseNumber(%q) = %s, want an error", c.text, got)
			}
			if !got.IsZero() {
				t.Errorf("a refused number is %s, want nil", got)
			}
		})
	}
}

// What is read, printed and read again is the same; what is refused is nil.
// Printing goes to a sixty-fourth of an inch, a tenth of a millimetre or a
// millimetre, so it is the printed length that must come back.
func FuzzParseLength(f *testing.F) {
	for _, s := range []string{`24' 6"`, "24ft 6 1/2in", `4½"`, "7.5 m", "150 mm", "6-3", "1/2", "1,250", "-1' 0 1/64\"", "½4"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for _, u := range []measure.Unit{measure.Ft, measure.In, measure.Mm, measure.M} {
			l, err := measure.ParseLength(s, u)
			if err != nil {
				if l != 0 {
					t.Fatalf("%q is refused and still %d nm", s, l)
				}
				continue
			}
			if l > measure.MaxLength || l < -measure.MaxLength {
				t.Fatalf("%q is %d nm, beyond the longest", s, l)
			}
			printed := l.Format(u)
			again, err := measure.ParseLength(printed, "")
			if err != nil {
				t.Fatalf("%q is printed %q, which is refused: %v", s, printed, err)
			}
			if again.Format(u) != printed {
				t.Fatalf("%q is printed %q, read again as %q", s, printed, again.Format(u))
			}
			finest := map[measure.Unit]measure.Length{measure.Ft: measure.Inch / 64, measure.In: measure.Inch / 64,
				measure.Mm: measure.Millimetre / 10, measure.M: measure.Millimetre}[u]
			if off := max(again-l, l-again); 2*off > finest {
				t.Fatalf("%q is printed %q, off by %d nm", s, printed, off)
			}
		}
	})
}

func FuzzParseNumber(f *testing.F) {
	for _, s := range []string{"£1,250.00", "-.5", "1 250,00", "1e9", "(3)", "0,250"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		d, err := measure.ParseNumber(s)
		if err != nil {
			if !d.IsZero() {
				t.Fatalf("%q is refused and still %s", s, d)
			}
			return
		}
		again, err := measure.ParseNumber(d.String())
		if err != nil || !again.Equal(d) {
			t.Fatalf("%q is %s, read again as %s, %v", s, d, again, err)
		}
	})
}

func BenchmarkParseLength(b *testing.B) {
	for _, s := range []string{`24' 6 1/2"`, "7.5 m", "6-3"} {
		b.Run(s, func(b *testing.B) {
			for b.Loop() {
				_, err := measure.ParseLength(s, measure.Mm)
				if (err != nil) != (s == "6-3") {
					b.Fatal(err)
				}
			}
		})
	}
}
