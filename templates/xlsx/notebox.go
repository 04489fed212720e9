package xlsx

import (
	"math"
	"strconv"
	"strings"

	"futtock/templates/grid"
)

// Where a note stands off its corner, and the most it is wide, in dots; and how
// many columns or rows are gone through for its place, since those of a whole sheet
// may be hidden.
const (
	noteOffset = 15
	noteDrop   = 4
	noteWidest = 300.0
	noteReach  = 200
)

// anchor places a note beside its cell, big enough for its text.
func (l layout) anchor(n grid.Note) string {
	col, row, _ := parseCell(n.Cell)
	return boxBeside(row, col, n.Text, l.dots, l.rowDots)
}

// boxBeside is the place of a note beside its cell, big enough for its text: the
// column, dots into it, row, dots into it of its two corners, as files have it.
// Columns and rows are so many dots wide and high; where too few are left to be
// seen behind the cell the box begins before it.
func boxBeside(row, col int, text string, dots, rowDots func(int) float64) string {
	wide, high := noteBox(text)
	fromCol, toCol, x := boxAlong(col, noteOffset, wide, lastColumn, dots)
	fromRow, toRow, y := boxAlong(max(row-2, 0), noteDrop, high, lastRow, rowDots)
	return boxText(fromCol, noteOffset, fromRow, noteDrop, toCol, x, toRow, y)
}

// boxAlong is where a box begins and ends along columns or rows: from the one it
// had best begin in, counted from 0, or from one before it if it has to.
func boxAlong(from, off int, long float64, most int, dots func(int) float64) (begin, end, into int) {
	for begin = min(from, most-1); ; begin-- {
		end, into, ok := boxEnd(begin, float64(off)+long, most, dots)
		if ok || begin == 0 || from-begin >= noteReach {
			return begin, end, into
		}
	}
}

// boxEnd is where a run of dots ends that begins in a column or row, and whether it
// does within reach.
func boxEnd(begin int, long float64, most int, dots func(int) float64) (end, into int, ok bool) {
	for end = begin; ; end++ {
		d := dots(end + 1)
		if long < d {
			return end, int(long), true
		}
		if end == most-1 || end-begin >= noteReach {
			return end, int(d), false
		}
		long -= d
	}
}

// boxText is a box as files have it.
func boxText(corners ...int) string {
	text := make([]string, len(corners))
	for i, v := range corners {
		text[i] = strconv.Itoa(v)
	}
	return strings.Join(text, ", ")
}

// noteBox is the size in dots of the box a note's text fits in.
func noteBox(text string) (wide, high float64) {
	font := grid.Font{Size: noteSize}
	scale := noteSize * 96 / 72 / 1000 * wrapSafety
	for line := range strings.SplitSeq(text, "\n") {
		wide = max(wide, widthOf(line, false)*scale)
	}
	wide = math.Ceil(min(max(wide, 60), noteWidest))
	lines := linesOf(text, font, wide)
	return wide + 16, math.Ceil(float64(lines)*noteSize*leading*96/72) + 10
}
