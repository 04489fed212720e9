package letters_test

import (
	"math"
	"testing"

	"futtock/output/letters"
)

// The figure of the package comment: ten figures at 9 point.
func TestTenFiguresAreAsWideAsTheTypeSays(t *testing.T) {
	face, err := letters.New()
	if err != nil {
		t.Fatal(err)
	}
	if got := face.Width("0123456789", letters.Regular, 9); math.Abs(got-17.6) > 0.1 {
		t.Errorf("ten figures at 9 point are %.2f mm wide, want 17.6", got)
	}
	if face.Has('船') || !face.Has('½') {
		t.Error("the type has ½ and lacks 船")
	}
}

func TestAHyphenIsShorterThanADash(t *testing.T) {
	face, err := letters.New()
	if err != nil {
		t.Fatal(err)
	}
	for c := range letters.Cuts {
		hyphen, dash, minus := face.Advance('-', c), face.Advance('–', c), face.Advance('−', c)
		if hyphen <= 0 || hyphen > 0.36 || dash < 0.49 || minus < 0.55 {
			t.Errorf("cut %d: hyphen %.3f, dash %.3f, minus %.3f of the size", c, hyphen, dash, minus)
		}
	}
}
