package templates

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"futtock/rates"
	"futtock/rates/problem"
)

// tidy is text as it was meant: marks that cannot be seen left out, no-break
// spaces made plain, spaces at the ends of lines and doubled spaces dropped.
// Line breaks within the text stay.
func tidy(s string) string {
	if isTidy(s) {
		return s
	}
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || unicode.IsSpace(r):
			return r
		case unicode.IsControl(r) || unicode.Is(unicode.Cf, r):
			return -1
		}
		return r
	}, s)
	lines := strings.Split(s, "\n")
	for i, l := range lines {
		lines[i] = strings.Join(strings.Fields(l), " ")
	}
	return strings.TrimSpace(strings.Join(lines, "\n"))
}

// isTidy reports text that is tidy as it stands and on one line, as most is: of
// letters, figures and signs of one byte, with spaces single and within.
func isTidy(s string) bool {
	blank := true // at the beginning, or after a space
	for i := range len(s) {
		c := s[i]
		if c < ' ' || c > '~' || c == ' ' && blank {
			return false
		}
		blank = c == ' '
	}
	return !blank || s == ""
}

// single is tidy text on one line.
func single(s string) string {
	if isTidy(s) {
		return s
	}
	return strings.Join(strings.Fields(tidy(s)), " ")
}

// fold is a heading, a choice or a sheet's name as it is compared: what a key
// is compared without, hyphens aside too, and the sign of percent always set off.
func fold(s string) string {
	s = rates.Key(single(s))
	return strings.Join(strings.Fields(setOff.Replace(s)), " ")
}

var setOff = strings.NewReplacer("(%)", " % ", "%", " % ", "-", " ")

// alike reports that two spellings name the same heading, choice or sheet.
func alike(a, b string) bool { return fold(a) == fold(b) }

// bracketed parts text from a bracket at its end, round or square: "Length (ft)"
// is "Length" and "ft". Without a bracket the second is blank.
func bracketed(s string) (string, string) {
	s = single(s)
	for _, pair := range []string{"()", "[]"} {
		if open := strings.LastIndex(s, pair[:1]); open > 0 && strings.HasSuffix(s, pair[1:]) {
			return strings.TrimSpace(s[:open]), strings.TrimSpace(s[open+1 : len(s)-1])
		}
	}
	return s, ""
}

// akin is the name on the list that text seems to say in other words: the one
// whose words stand together in it, such as Difficulty in "Difficulty factor", or
// whose first words it is, such as "Price rises" of "Price rises % a year".
// Signs do not count, so that "Waste" is akin to "Waste %". Of several it is
// the longest, and a text of many more words is a sentence, not a name.
func akin(s string, names []string) string {
	text, best, most := wordsOf(s), "", 0
	for _, n := range names {
		name := wordsOf(n)
		letters := len(strings.Join(name, ""))
		if letters < 3 || letters <= most || len(text) > len(name)+3 {
			continue
		}
		if together(text, name) || len(text) > 0 && len(text) < len(name) && slices.Equal(text, name[:len(text)]) {
			best, most = n, letters
		}
	}
	return best
}

// wordsOf is the words of a name as they are compared, without signs.
func wordsOf(s string) []string {
	return strings.FieldsFunc(fold(s), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// together reports that words stand one after another within the text.
func together(text, words []string) bool {
	for i := 0; i+len(words) <= len(text); i++ {
		if slices.Equal(text[i:i+len(words)], words) {
			return true
		}
	}
	return false
}

// nearest is the name on the list that was likely meant. One or two letters
// are too short to be near to anything, and sixty too long to be a name.
func nearest(s string, names []string) string {
	if n := utf8.RuneCountInString(s); n < 3 || n > 60 {
		return ""
	}
	return problem.Nearest(s, names)
}

// listed is a closed list in a sentence: "a, b or c".
func listed(words []string) string {
	if len(words) < 2 {
		return strings.Join(words, "")
	}
	return strings.Join(words[:len(words)-1], ", ") + " or " + words[len(words)-1]
}

// offered is a closed list in a sentence, in quotes where a choice has several
// words: "items" or "items and preliminaries".
func offered(choices []string) string {
	if !slices.ContainsFunc(choices, func(c string) bool { return strings.Contains(c, " ") }) {
		return listed(choices)
	}
	return listed(inQuotes(choices))
}

// both is a list of headings in a sentence: "Pay" and "Unit".
func both(headings []string) string {
	out := inQuotes(headings)
	if len(out) < 2 {
		return strings.Join(out, "")
	}
	return strings.Join(out[:len(out)-1], ", ") + " and " + out[len(out)-1]
}

func inQuotes(words []string) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = `"` + w + `"`
	}
	return out
}
