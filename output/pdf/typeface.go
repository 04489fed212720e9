package pdf

import (
	"strings"

	"futtock/output/letters"
)

// typeface is the type the document is set in, as its styles ask for it.
type typeface struct{ *letters.Type }

// width is that of clean text on one line, in mm.
func (t typeface) width(s string, st style) float64 { return t.Width(s, st.face, st.size) }

// wrap breaks clean text into lines no wider than w: at new lines, at spaces
// (not at no-break spaces), and in a word only where it is wider than a line,
// after a hyphen, slash, comma or closing bracket if there is one.
func (t typeface) wrap(s string, st style, w float64) []string {
	var out []string
	for para := range strings.SplitSeq(s, "\n") {
		out = append(out, t.wrapLine(para, st, w)...)
	}
	return out
}

func (t typeface) wrapLine(s string, st style, w float64) []string {
	var out []string
	line, used := "", 0.0
	space := t.width(" ", st)
	for word := range strings.SplitSeq(s, " ") {
		if word == "" {
			continue
		}
		long := t.width(word, st)
		if line != "" && used+space+long <= w {
			line, used = line+" "+word, used+space+long
			continue
		}
		if line != "" {
			out = append(out, line)
		}
		for long > w {
			n := t.fitting(word, st, w)
			out = append(out, word[:n])
			word = word[n:]
			long = t.width(word, st)
		}
		line, used = word, long
	}
	return append(out, line)
}

// fitting is how many bytes of a word go on a line of width w, one character
// at the least.
func (t typeface) fitting(word string, st style, w float64) int {
	used, last, good := 0.0, 0, 0
	for i, r := range word {
		used += t.Advance(r, st.face) * st.size * point
		if used > w && i > 0 {
			break
		}
		last = i + len(string(r))
		if strings.ContainsRune("-–/,;]", r) {
			good = last
		}
	}
	if good > last/2 {
		return good
	}
	return last
}

// shorten cuts text to one line of width w, and says so with three dots. It is
// for running heads and heads of narrow columns: what it cuts stands in full
// elsewhere.
func (t typeface) shorten(s string, st style, w float64) string {
	if t.width(s, st) <= w {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && t.width(string(r)+"…", st) > w {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + "…"
}
