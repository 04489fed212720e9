package text

import (
	"fmt"
	"io"
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// screen is how many letters a terminal has across at the least.
const screen = 80

// letters is how many letters' room a text takes on a terminal: marks set over a letter
// take none, and letters of the widths of Chinese and Japanese take two.
func letters(s string) int {
	n := 0
	for _, r := range s {
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case width.LookupRune(r).Kind() == width.EastAsianWide, width.LookupRune(r).Kind() == width.EastAsianFullwidth:
			n += 2
		default:
			n++
		}
	}
	return n
}

// fill brings a text to a number of letters.
func fill(s string, n int) string { return s + strings.Repeat(" ", max(0, n-letters(s))) }

// fitted fills or shortens a text to a number of letters.
func fitted(s string, n int) string { return fill(short(s, n), n) }

// short is a text no longer than so many letters.
func short(s string, n int) string {
	if letters(s) <= n {
		return s
	}
	var b strings.Builder
	for _, r := range s {
		if letters(b.String()+string(r)) > n-1 {
			break
		}
		b.WriteRune(r)
	}
	return b.String() + "…"
}

// summary is the columns of a list of sums: a short name, a text, and the sum. They are as
// wide as most bills ask; longer names and sums take room from the text.
type summary struct {
	w              io.Writer
	ref, text, sum int
}

// The columns of a summary where nothing asks for more.
const (
	refWidth  = 6
	textWidth = 46
	sumWidth  = 15
	refMost   = 16 // a longer name is cut short
)

// summed is a summary that has room for some names and sums.
func summed(w io.Writer, refs, sums []string) summary {
	s := summary{w: w, ref: refWidth, sum: sumWidth}
	for _, r := range refs {
		s.ref = max(s.ref, min(refMost, letters(r)))
	}
	for _, a := range sums {
		s.sum = max(s.sum, letters(a))
	}
	s.text = textWidth - (s.ref - refWidth) - (s.sum - sumWidth)
	return s
}

func (s summary) row(ref, text, sum string) {
	fmt.Fprintf(s.w, "  %s %s %s%s\n", fitted(ref, s.ref), fitted(text, s.text), strings.Repeat(" ", max(0, s.sum-letters(sum))), sum)
}

func (s summary) rule() {
	fmt.Fprintf(s.w, "  %s %s %s\n", fill("", s.ref), fill("", s.text), strings.Repeat("-", s.sum))
}

// said writes a sentence, running on under itself where the screen ends.
func said(w io.Writer, text string) {
	for i, line := range wrap(text, screen-4) {
		if i > 0 {
			line = "  " + line
		}
		fmt.Fprintf(w, "  %s\n", line)
	}
}

// table writes rows of a name and figures, each column as wide as it has to be; long names are
// cut short as far as the figures need the screen.
func table(w io.Writer, rows [][]string) {
	widths := make([]int, len(rows[0]))
	for _, row := range rows {
		for i, cell := range row {
			widths[i] = max(widths[i], letters(cell))
		}
	}
	room := screen - 2
	for _, n := range widths[1:] {
		room -= 2 + n
	}
	widths[0] = min(widths[0], max(nameLeast, room))
	for _, row := range rows {
		line := "  " + fitted(row[0], widths[0])
		for i, cell := range row[1:] {
			line += strings.Repeat(" ", 2+widths[i+1]-letters(cell)) + cell
		}
		fmt.Fprintln(w, strings.TrimRight(line, " "))
	}
}

// nameLeast is the room that the name of a row of a table is left.
const nameLeast = 12
