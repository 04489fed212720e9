package letters

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// instead is what stands for common characters the type lacks.
var instead = map[rune]string{
	'\t': " ", '\v': "\n", '\u2028': "\n", '\u2029': "\n", '\u0085': "\n",
	'‐': "-", '‑': "-", '⁃': "-", '―': "–",
	'\u2000': " ", '\u2001': " ", '\u2002': " ", '\u2003': " ", '\u2004': " ", '\u2005': " ", '\u2006': " ",
	'\u2008': " ", '\u205f': " ", '\u3000': " ",
	'\u2007': "\u00a0", '\u2009': "\u00a0", '\u202f': "\u00a0",
	'⅓': "1/3", '⅔': "2/3", '⅕': "1/5", '⅖': "2/5", '⅗': "3/5", '⅘': "4/5", '⅙': "1/6", '⅚': "5/6",
	'⅐': "1/7", '⅑': "1/9", '⅒': "1/10",
	'✓': "[tick]", '✔': "[tick]", '☑': "[tick]", '✅': "[tick]", '✗': "[cross]", '✘': "[cross]", '☒': "[cross]", '☐': "[ ]",
	'⌀': "Ø", '∅': "Ø", '⁄': "/", '∕': "/", '⟶': "→", '◆': "•", '▪': "•", '‣': "•", '★': "*", '⚠': "[warning]",
	'ẞ': "SS",
}

// unseen are marks that print nothing in any type: leaving them out loses
// nothing that was to be read.
func unseen(r rune) bool {
	switch {
	case r == '\u00ad', r == '\ufeff', r >= '\u200b' && r <= '\u200f', r >= '\u202a' && r <= '\u202e',
		r >= '\u2060' && r <= '\u2064', r >= '\u2066' && r <= '\u2069', r >= '\ufe00' && r <= '\ufe0f':
		return true
	}
	return false
}

// Clean makes text fit to print: accents composed, tabs and odd spaces made
// spaces, and every character the type lacks replaced by what reads the same,
// else by its Unicode number in brackets, [U+1F6A2]; then replaced is true. New
// lines are kept.
func (t *Type) Clean(s string) (text string, replaced bool) {
	s = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(strings.ToValidUTF8(s, "\ufffd"))
	if t.Printable(s) {
		return s, false
	}
	var b strings.Builder
	for _, r := range norm.NFC.String(s) {
		put, lost := t.stand(r)
		b.WriteString(put)
		replaced = replaced || lost
	}
	return b.String(), replaced
}

// Lost is the characters of a text that Clean prints as their numbers, each
// once, in the order in which they first stand.
func (t *Type) Lost(s string) []rune {
	if t.Printable(s) {
		return nil
	}
	var out []rune
	for _, r := range norm.NFC.String(strings.ToValidUTF8(s, "\ufffd")) {
		if _, lost := t.stand(r); lost && r != '\r' && !slices.Contains(out, r) {
			out = append(out, r)
		}
	}
	return out
}

// Number is what stands for a character that is lost: [U+1F6A2].
func Number(r rune) string { return fmt.Sprintf("[U+%04X]", r) }

// Printable reports text every character of which can be printed as it is.
func (t *Type) Printable(s string) bool {
	for _, r := range s {
		if r >= ' ' && r <= '~' {
			continue // every cut has these
		}
		if r != '\n' && (r == '\u00ad' || unicode.IsControl(r) || !t.Has(r)) {
			return false
		}
	}
	return true
}

// stand is what is printed for one character, and whether the character is lost.
func (t *Type) stand(r rune) (string, bool) {
	if r == '\n' {
		return "\n", false
	}
	if unseen(r) {
		return "", false
	}
	if text, ok := instead[r]; ok && !t.Has(r) || r == '\t' || r == '\v' {
		return text, false
	}
	if !unicode.IsControl(r) {
		if t.Has(r) {
			return string(r), false
		}
		if alike := norm.NFKC.String(string(r)); alike != string(r) && t.Printable(alike) {
			return alike, false
		}
	}
	return Number(r), true
}
