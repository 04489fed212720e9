package quotes

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"futtock/rates/money"
)

func TestASumOfMoneyIsReadFromWords(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"pounds and pence", "one hundred and twenty three thousand four hundred and five pounds and sixty pence", "123405.60"},
		{"capitals, hyphens, commas and only", "One Hundred and Twenty-Three Thousand, Four Hundred and Five Pounds only.", "123405.00"},
		{"no currency", "forty thousand", "40000.00"},
		{"euros and cents", "twelve euros and five cents", "12.05"},
		{"dollars and hundredths", "nine hundred dollars and 5/100", "900.05"},
		{"hundredths with no currency", "nine hundred and 50/100", "900.50"},
		{"pounds sterling", "The sum of two million and one pounds sterling", "2000001.00"},
		{"pence alone", "sixty pence", "0.60"},
		{"no pence", "eighty-one thousand pounds and no pence", "81000.00"},
		{"a penny", "one pound one penny", "1.01"},
		{"hundreds above nine", "twelve hundred pounds", "1200.00"},
		{"a hundred", "a hundred thousand and ninety", "100090.00"},
		{"millions, thousands, hundreds", "one million two hundred and thirty four thousand five hundred and sixty seven", "1234567.00"},
		{"nil", "nil pounds", "0.00"},
		{"a common slip of spelling", "fourty pounds", "40.00"},
		{"say", "say forty pounds sterling", "40.00"},
		{"sterling and pence", "forty pounds sterling and six pence", "40.06"},
		{"nothing", " ", ""},
		{"a number in figures", "40,000 pounds", ""},
		{"two numbers", "fourteen ninety two", ""},
		{"a unit twice", "twenty five six pounds", ""},
		{"thousands twice", "two thousand three thousand", ""},
		{"thousands before millions", "two thousand million", ""},
		{"and where none belongs", "twenty and five pounds", ""},
		{"and at the end", "two thousand and", ""},
		{"and before pence that are not there", "two pounds and", ""},
		{"pounds alone", "pounds", ""},
		{"more than ninety-nine pence", "one pound and one hundred pence", ""},
		{"pounds without pence said", "twelve pounds sixty", ""},
		{"a hundred hundreds", "one hundred hundred", ""},
		{"another language", "vierzigtausend", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			got, err := readWords(c.text)
			switch {
			case c.want == "" && err == nil:
				t.Errorf("%q is read as %s, want an error", c.text, got)
			case c.want != "" && (err != nil || got.String() != c.want):
				t.Errorf("%q is read as %s, %v, want %s", c.text, got, err, c.want)
			}
		})
	}
}

// spell writes a number below a thousand million as a clerk would.
func spell(n int64) string {
	below := func(n int64) string {
		names := strings.Fields("zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen")
		tens := strings.Fields("- - twenty thirty forty fifty sixty seventy eighty ninety")
		var out []string
		if n >= 100 {
			out = append(out, names[n/100], "hundred")
			if n %= 100; n > 0 {
				out = append(out, "and")
			}
		}
		switch {
		case n >= 20 && n%10 > 0:
			out = append(out, tens[n/10]+"-"+names[n%10])
		case n >= 20:
			out = append(out, tens[n/10])
		case n > 0:
			out = append(out, names[n])
		}
		return strings.Join(out, " ")
	}
	var out []string
	for _, s := range []struct {
		size int64
		name string
	}{{1_000_000, " million"}, {1000, " thousand"}} {
		if n >= s.size {
			out = append(out, below(n/s.size)+s.name)
			n %= s.size
		}
	}
	if n > 0 {
		if n < 100 && len(out) > 0 {
			out = append(out, "and")
		}
		out = append(out, below(n))
	}
	return strings.Join(out, " ")
}

func TestEverySumSpeltOutIsReadBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		pounds := rapid.Int64Range(1, 999_999_999).Draw(t, "pounds")
		pence := rapid.Int64Range(1, 99).Draw(t, "pence")
		text := spell(pounds) + " pounds and " + spell(pence) + " pence"
		got, err := readWords(text)
		if err != nil || !got.Equal(money.Pennies(pounds*100+pence)) {
			t.Fatalf("%q is read as %s, %v", text, got, err)
		}
	})
}
