package bill

import (
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/rates/measure"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

var plank = Fixed{ID: "B/PL1", Description: "Renew plank, oak 9 x 3 in", Unit: measure.M, Quantity: dec("25.76"), Standing: "provisional quantity"}

func TestAMarkChangesWithAnythingItIsOf(t *testing.T) {
	seen := map[string]string{}
	for name, change := range map[string]func(*Fixed){
		"nothing":              func(*Fixed) {},
		"the id":               func(f *Fixed) { f.ID = "B/PL2" },
		"a word":               func(f *Fixed) { f.Description = "Renew plank, oak 9 x 2 in" },
		"a space":              func(f *Fixed) { f.Description += " " },
		"the unit":             func(f *Fixed) { f.Unit = measure.Ft },
		"a penny's quantity":   func(f *Fixed) { f.Quantity = dec("25.77") },
		"the decimal point":    func(f *Fixed) { f.Quantity = dec("257.6") },
		"no quantity":          func(f *Fixed) { f.Quantity = decimal.Decimal{} },
		"what it is marked":    func(f *Fixed) { f.Standing = "" },
		"a word from its unit": func(f *Fixed) { f.Description, f.Unit = f.Description+"m", "" },
	} {
		f := plank
		change(&f)
		m := f.Mark()
		if was, twice := seen[m]; twice {
			t.Errorf("%s and %s give the same mark %s", name, was, m)
		}
		seen[m] = name
		if !regexp.MustCompile(`^[0-9a-f]{8}$`).MatchString(m) {
			t.Errorf("%s gives the mark %q", name, m)
		}
	}
}

func TestAMarkIsTheSameHoweverAProgramWritesIt(t *testing.T) {
	lines := plank
	lines.Description = "Renew plank\nas the survey says"
	other := lines
	other.Description, other.Quantity = "Renew plank\r\nas the survey says", dec("25.7600")
	if lines.Mark() != other.Mark() {
		t.Errorf("the marks are %s and %s", lines.Mark(), other.Mark())
	}
}

// Whatever lines there are: one more, one fewer, two changed about, a letter
// in one of them, or another reference give another fingerprint.
func TestAFingerprintChangesWithTheFormWhateverItHolds(t *testing.T) {
	word := rapid.StringMatching(`[A-Za-z0-9 :,/½é]{0,12}`)
	line := rapid.Custom(func(t *rapid.T) Fixed {
		return Fixed{ID: word.Draw(t, "id"), Description: word.Draw(t, "text"), Unit: measure.Unit(word.Draw(t, "unit")),
			Quantity: decimal.New(rapid.Int64Range(0, 99999).Draw(t, "quantity"), -2), Standing: word.Draw(t, "standing")}
	})
	rapid.Check(t, func(t *rapid.T) {
		lines := rapid.SliceOfN(line, 1, 6).Draw(t, "lines")
		was := Fingerprint("T-1", lines)
		n := rapid.IntRange(0, len(lines)-1).Draw(t, "which")
		changed := slices.Clone(lines)
		switch rapid.IntRange(0, 6).Draw(t, "change") {
		case 0:
			changed = slices.Delete(changed, n, n+1)
		case 1:
			changed = slices.Insert(changed, n, line.Draw(t, "new"))
		case 2:
			changed[n].Description += "x"
		case 3:
			changed[n].Quantity = changed[n].Quantity.Add(dec("0.01"))
		case 4:
			changed[n].Unit += "2"
		case 5:
			changed[n].ID, changed[n].Description = changed[n].ID+"a", strings.TrimPrefix(changed[n].Description, "a")
		case 6:
			changed[0], changed[n] = changed[n], changed[0]
			if slices.EqualFunc(lines, changed, func(a, b Fixed) bool { return slices.Equal(a.parts(), b.parts()) }) {
				return
			}
		}
		if Fingerprint("T-1", changed) == was {
			t.Fatalf("%v and %v have one fingerprint", lines, changed)
		}
		if Fingerprint("T-2", lines) == was {
			t.Fatal("two references have one fingerprint")
		}
	})
}
