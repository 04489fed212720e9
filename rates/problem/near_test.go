package problem

import "testing"

func TestTheNearestNameIsWhatWasLikelyMeant(t *testing.T) {
	timber := []string{"oak", "larch", "Douglas fir", "Baltic pine", "elm", "iroko"}
	for _, c := range []struct {
		name, typed string
		names       []string
		want        string
	}{
		{"two letters changed about", "oka", timber, "oak"},
		{"a letter missing", "lrch", timber, "larch"},
		{"a letter added", "elmm", timber, "elm"},
		{"a letter wrong", "larck", timber, "larch"},
		{"case and spaces aside", "  douglas   FIR ", timber, "Douglas fir"},
		{"two slips in eleven letters", "Duoglas fri", timber, "Douglas fir"},
		{"two slips in three letters are too many", "aok", []string{"oar"}, ""},
		{"another word altogether", "teak", timber, ""},
		{"a single letter is near to nothing", "o", []string{"m", "l"}, ""},
		{"nothing typed", "", timber, ""},
		{"no names", "oak", nil, ""},
		{"of two as near, the first", "ash", []string{"asp", "ask"}, "asp"},
		{"the nearer of two", "planks", []string{"plant", "plank"}, "plank"},
		{"letters beyond ASCII count once", "chêne", []string{"chene"}, "chene"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := Nearest(c.typed, c.names); got != c.want {
				t.Errorf("Nearest(%q) = %q, want %q", c.typed, got, c.want)
			}
		})
	}
}

func TestSlipsAreCounted(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{
		{"", "", 0}, {"oak", "oak", 0}, {"oak", "", 3}, {"", "oak", 3},
		{"oak", "oka", 1}, {"kitten", "sitting", 3}, {"ca", "abc", 3}, {"futtock", "futock", 1},
	} {
		if got := slips([]rune(c.a), []rune(c.b)); got != c.want {
			t.Errorf("from %q to %q are %d slips, want %d", c.a, c.b, got, c.want)
		}
	}
}
