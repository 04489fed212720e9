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
