package pdf

import (
	"regexp"
	"strings"
)

// What a description has from a keyboard, and print has better. A figure and its
// unit, and the sides of a section, are not parted at the end of a line.
var (
	fractions = strings.NewReplacer("1/2", "½", "1/4", "¼", "3/4", "¾", "1/8", "⅛", "3/8", "⅜", "5/8", "⅝", "7/8", "⅞")

	halved  = regexp.MustCompile(`(^|[^\d/.,])(\d+ )?(1/2|[13]/4|[1357]/8)( ?(?:in\b|"|x \d|ft\b))`)
	feet    = regexp.MustCompile(`(\d)'( ?\d|[\s,;.)]|$)`)
	footAnd = regexp.MustCompile(`′ (\d)`)
	inches  = regexp.MustCompile(`([\d½¼¾⅛⅜⅝⅞])"`)
	quoting = regexp.MustCompile(`(^|[^\d½¼¾⅛⅜⅝⅞])"`)
	times   = regexp.MustCompile(`([\d½¼¾⅛⅜⅝⅞′″]|[\d½¼¾⅛⅜⅝⅞] ?(?:mm|cm|m|in|ft)) x (\d)`)
	unitOf  = regexp.MustCompile(`([\d½¼¾⅛⅜⅝⅞]) (mm|cm|m|in|ft|kg|t|nr|h)\b`)
)

// typeset is a description with real fractions, primes, times signs and dashes:
// 8 1/2 x 8 in is 8½ × 8 in. Nothing is lost by it, and what is not plainly a
// measure stays as it was typed.
func typeset(s string) string {
	s = halved.ReplaceAllStringFunc(s, func(m string) string {
		p := halved.FindStringSubmatch(m)
		return p[1] + strings.TrimSpace(p[2]) + fractions.Replace(p[3]) + p[4]
	})
	s = feet.ReplaceAllString(s, "$1′$2")
	if !quoting.MatchString(s) { // else it may be a mark of quotation
		s = inches.ReplaceAllString(s, "$1″")
	}
	s = footAnd.ReplaceAllString(s, "′\u00a0$1")
	for range 2 { // a side may be the second of one pair and the first of the next
		s = times.ReplaceAllString(s, "$1\u00a0×\u00a0$2")
	}
	s = unitOf.ReplaceAllString(s, "$1\u00a0$2")
	return strings.ReplaceAll(s, " - ", " – ")
}
