package xlsx

import (
	"math"
	"strings"

	"futtock/templates/grid"
)

// Measures of the screen on which spreadsheets reckon widths, at 96 dots to
// the inch: a figure of the ordinary letters is 7 dots wide, and a cell keeps
// 5 dots clear of its edges.
const (
	digitDots   = 7.0
	clearDots   = 5.0
	plainWidth  = 64.0  // dots of a column with no width of its own
	plainHeight = 14.25 // points of a row with no height of its own
	closeHeight = 12.75 // the same where rows stand close; a line of ten points takes as much
	clearPoints = 1.5   // points a row is higher than its lines
	leading     = 1.275 // height of a line over the size of its letters
	wrapSafety  = 1.02  // programs draw letters a little wider than the face says
	indentDots  = 9.0   // of one step of indent
)

// layout is how wide the columns and how high the rows of a sheet come out.
type layout struct {
	sheet   *grid.Sheet
	heights []float64 // points by row, the first is row 1; 0 is a plain row
	spans   []span    // the merges
}

// span is a range of cells, all four counted from 1.
type span struct{ top, left, bottom, right int }

// holds reports whether a cell lies in the range.
func (s span) holds(row, col int) bool {
	return row >= s.top && row <= s.bottom && col >= s.left && col <= s.right
}

// meets reports whether two ranges have a cell in common.
func (s span) meets(o span) bool {
	return s.top <= o.bottom && o.top <= s.bottom && s.left <= o.right && o.left <= s.right
}

// lay reckons the heights of the rows from their wrapped text and the size of
// their letters. Text merged across columns has all their width; merged down
// rows, what it lacks is given to the last of them.
func lay(s *grid.Sheet) layout {
	l := layout{sheet: s, heights: make([]float64, len(s.Rows))}
	merged := make(map[[2]int]span)
	for _, m := range s.Merges {
		r, _ := parseRange(m)
		l.spans = append(l.spans, r)
		merged[[2]int{r.top, r.left}] = r
	}
	var tall []span
	for i, row := range s.Rows {
		l.heights[i] = row.Height
		if row.Height > 0 {
			continue
		}
		for j, c := range row.Cells {
			m, ok := merged[[2]int{i + 1, j + 1}]
			if !ok {
				m = span{i + 1, j + 1, i + 1, j + 1}
			}
			if m.bottom > m.top {
				tall = append(tall, m)
				continue
			}
			l.heights[i] = max(l.heights[i], l.needs(c, m))
		}
	}
	for _, m := range tall {
		if m.bottom > len(s.Rows) || s.Rows[m.bottom-1].Height > 0 {
			continue
		}
		lack := l.needs(s.Rows[m.top-1].Cells[m.left-1], m)
		for row := m.top; row < m.bottom; row++ {
			lack -= l.points(row)
		}
		if lack > l.points(m.bottom) {
			l.heights[m.bottom-1] = min(lack, largestHeight)
		}
	}
	return l
}

// needs is the height a cell wants in the width of its span, 0 when a plain
// row is enough.
func (l layout) needs(c grid.Cell, m span) float64 {
	wide := 0.0
	for col := m.left; col <= m.right; col++ {
		wide += l.dots(col)
	}
	if wide == 0 {
		return 0 // hidden: nobody sees whether it fits
	}
	lines := 1
	if c.Kind == grid.Text && c.Style.Wrap {
		lines = linesOf(c.Text, c.Style.Font, wide-clearDots-indentDots*float64(c.Style.Indent))
	}
	size := sizeOf(c.Style.Font)
	if lines == 1 && (size <= bodySize || c.Kind == grid.Blank) {
		return 0
	}
	// Rows are drawn in whole dots, three quarters of a point each.
	points := float64(lines)*size*leading + clearPoints
	return min(math.Ceil(points/0.75)*0.75, largestHeight)
}

// dots is the drawn width of a column, none when hidden.
func (l layout) dots(col int) float64 {
	if col > len(l.sheet.Columns) {
		return plainWidth
	}
	switch c := l.sheet.Columns[col-1]; {
	case c.Hidden:
		return 0
	case c.Chars > 0:
		return math.Trunc(fileWidth(c.Chars)*digitDots + 0.5)
	}
	return plainWidth
}

// points is the drawn height of a row.
func (l layout) points(row int) float64 {
	if row <= len(l.heights) && l.heights[row-1] > 0 {
		return l.heights[row-1]
	}
	return plainRow(l.sheet)
}

// plainRow is the height of a row of a sheet with no height of its own.
func plainRow(s *grid.Sheet) float64 {
	if s.Close {
		return closeHeight
	}
	return plainHeight
}

// fileWidth is the width the file gives a column that shows so many figures
// (ECMA-376 part 1, 18.3.1.13): with 5 dots clear, in 256ths of a figure.
// Ten figures are 10.7109375.
func fileWidth(chars float64) float64 {
	return math.Trunc((chars*digitDots+clearDots)/digitDots*256) / 256
}

// linesOf is the number of lines a text takes when wrapped at words in so
// many dots.
func linesOf(text string, font grid.Font, dots float64) int {
	scale := sizeOf(font) * 96 / 72 / 1000 * wrapSafety
	room := math.Max(dots, digitDots) / scale // thousandths of the letters' size
	lines := 0
	for line := range strings.SplitSeq(text, "\n") {
		lines++
		used := 0.0
		for i, word := range strings.Split(line, " ") {
			wide := widthOf(word, font.Bold)
			space := letterWidth(' ', font.Bold)
			switch {
			case i > 0 && used+space+wide <= room:
				used += space + wide
			case i == 0 && wide <= room:
				used = wide
			default:
				if i > 0 {
					lines++
				}
				// A word longer than the line is broken wherever the line ends.
				over := math.Max(math.Ceil(wide/room), 1) - 1
				lines += int(over)
				used = wide - over*room
			}
		}
	}
	return lines
}

// widthOf is the width of a word in thousandths of the letters' size.
func widthOf(word string, bold bool) float64 {
	w := 0.0
	for _, r := range word {
		w += letterWidth(r, bold)
	}
	return w
}

// rowDots is the drawn height of a row in dots.
func (l layout) rowDots(row int) float64 { return math.Round(l.points(row) * 96 / 72) }
