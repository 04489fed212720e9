package pdf

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

func TestMeasuresAreSetAsPrintHasThem(t *testing.T) {
	for _, c := range [][2]string{
		{"oak, 8 1/2 x 8 in, bevelled", "oak, 8½~×~8~in, bevelled"},
		{"bolts 1/2 in, nuts 3/8\"", "bolts ½~in, nuts ⅜″"},
		{"each 4' 5\" long", "each 4′~5″ long"},
		{"each 60' long, 11 x 3 in", "each 60′ long, 11~×~3~in"},
		{"2 x 3 x 4 mm, 0.45 m long", "2~×~3~×~4~mm, 0.45~m long"},
		{"2 5/16 in", "2 5/16~in"},
		{"section 1/2 of the survey", "section 1/2 of the survey"},
		{"11/8 in the list", "11/8~in the list"},
		{"the strakes' ends - and butts", "the strakes' ends – and butts"},
		{`boat "Puffin 9" x 2`, `boat "Puffin 9" x 2`},
		{"two-masted, 4-way valve", "two-masted, 4-way valve"},
		{"Bulwark x-bracing", "Bulwark x-bracing"},
	} {
		if got := strings.ReplaceAll(typeset(c[0]), "\u00a0", "~"); got != c[1] {
			t.Errorf("%q is set %q, want %q", c[0], got, c[1])
		}
	}
}

// Put back as a keyboard has it, the text is what was typed but for spaces.
func TestSettingLosesNothing(t *testing.T) {
	back := strings.NewReplacer("½", "1/2", "¼", "1/4", "¾", "3/4", "⅛", "1/8", "⅜", "3/8", "⅝", "5/8", "⅞", "7/8", "′", "'", "″", `"`, "×", "x", "–", "-", "\u00a0", "", " ", "")
	rapid.Check(t, func(t *rapid.T) {
		parts := rapid.SliceOf(rapid.SampledFrom([]string{"1/2", "3", "8", " ", " ", " x ", "in", "mm", "m", `"`, "'", "-", "/", "oak", ",", "7/8", " - "})).Draw(t, "parts")
		s := strings.Join(parts, "")
		if got, want := back.Replace(typeset(s)), back.Replace(s); got != want {
			t.Fatalf("%q is set %q", s, typeset(s))
		}
	})
}
