package pdf

import (
	"fmt"
	"slices"
	"strings"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goitalic"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// typeface is the type the documents are set in, in three cuts. All its
// figures are of one width. It serves one document.
type typeface struct {
	cuts [faces]cut
	buf  sfnt.Buffer
}

type cut struct {
	font *sfnt.Font
	em   float64
	adv  map[rune]float64 // of a glyph, in parts of the size; below nil where there is none
}

// fontFile is the file of one cut, a copy: the library writes into what it is given.
func fontFile(f face) []byte {
	return slices.Clone([faces][]byte{goregular.TTF, gobold.TTF, goitalic.TTF}[f])
}

func newTypeface() (*typeface, error) {
	t := &typeface{}
	for f := range faces {
		parsed, err := sfnt.Parse(fontFile(f))
		if err != nil {
			return nil, fmt.Errorf("the type of the document: %w", err)
		}
		t.cuts[f] = cut{parsed, float64(parsed.UnitsPerEm()), map[rune]float64{}}
	}
	return t, nil
}

// advance is how far a character moves on, in parts of the size, or below nil
// where the cut has none of it.
func (t *typeface) advance(r rune, f face) float64 {
	c := &t.cuts[f]
	if a, ok := c.adv[r]; ok {
		return a
	}
	a := -1.0
	// The library has no room for characters beyond the first plane.
	if i, err := c.font.GlyphIndex(&t.buf, r); err == nil && i != 0 && r <= 0xFFFF {
		if w, err := c.font.GlyphAdvance(&t.buf, i, fixed.I(int(c.em)), font.HintingNone); err == nil {
			a = float64(w) / 64 / c.em
		}
	}
	c.adv[r] = a
	return a
}

// has reports a character every cut has.
func (t *typeface) has(r rune) bool {
	for f := range faces {
		if t.advance(r, f) < 0 {
			return false
		}
	}
	return true
}

// width is that of clean text on one line, in mm.
func (t *typeface) width(s string, st style) float64 {
	w := 0.0
	for _, r := range s {
		w += t.advance(r, st.face)
	}
	return w * st.size * point
}

// wrap breaks clean text into lines no wider than w: at new lines, at spaces
// (not at no-break spaces), and in a word only where it is wider than a line,
// after a hyphen, slash or comma if there is one.
func (t *typeface) wrap(s string, st style, w float64) []string {
	var out []string
	for para := range strings.SplitSeq(s, "\n") {
		out = append(out, t.wrapLine(para, st, w)...)
	}
	return out
}

func (t *typeface) wrapLine(s string, st style, w float64) []string {
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
func (t *typeface) fitting(word string, st style, w float64) int {
	used, last, good := 0.0, 0, 0
	for i, r := range word {
		used += t.advance(r, st.face) * st.size * point
		if used > w && i > 0 {
			break
		}
		last = i + len(string(r))
		if strings.ContainsRune("-–/,;", r) {
			good = last
		}
	}
	if good > last/2 {
		return good
	}
	return last
}

// shorten cuts text to one line of width w, and says so with three dots. It is
// for running heads alone: what it cuts stands in full elsewhere.
func (t *typeface) shorten(s string, st style, w float64) string {
	if t.width(s, st) <= w {
		return s
	}
	r := []rune(s)
	for len(r) > 0 && t.width(string(r)+"…", st) > w {
		r = r[:len(r)-1]
	}
	return strings.TrimRight(string(r), " ") + "…"
}
