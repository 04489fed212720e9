package sheets

import (
	"strings"
	"testing"
)

func TestAFootWithSomethingInItsMiddleHasLessRoomInItsCorner(t *testing.T) {
	if got, want := cornerText("The Friends of the Old Ketch & her Boats", 28), "The Friends of the Old Ketc…"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestAPageHeaderHoldsANameAndNoMore(t *testing.T) {
	for _, c := range []struct{ name, text, want string }{
		{"a name", "Smith & Daughters", "Smith && Daughters"},
		{"fifty letters", strings.Repeat("é", 50), strings.Repeat("é", 50)},
		{"more than any name", strings.Repeat("ab ", 20), strings.Repeat("ab ", 16) + "a…"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := headerText(c.text); got != c.want {
				t.Errorf("headerText(%q) = %q, want %q", c.text, got, c.want)
			}
		})
	}
}
