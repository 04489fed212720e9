package xlsx

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"futtock/templates/grid"
)

// Measures of the printed page in points, and the most page breaks that every
// spreadsheet program keeps of a sheet.
const (
	inch       = 72.0
	paperLong  = 297 / 25.4 * inch // A4; Letter is wider and less high
	paperWide  = 210 / 25.4 * inch
	letterLong = 11 * inch
	letterWide = 8.5 * inch
	pageSafety = 0.96 // programs print rows a little higher than the file says
	mostBreaks = 1000
)

// breaks are the rows before which a page begins. Where rows are to be kept
// together every page of the sheet is broken here, before what it has no room
// for, so that no program breaks them elsewhere; what is higher than a page
// begins on one of its own and goes on.
func (l layout) breaks() []int {
	p := l.sheet.Print
	if len(p.Together) == 0 {
		return p.Breaks
	}
	repeated := 0.0
	from, head := rowsOf(p.Repeat)
	for row := from; row <= head; row++ {
		repeated += l.points(row)
	}
	wide, room := l.pageRoom()
	scale := 1.0
	if all := l.printedWidth(); p.FitWidth && all > wide {
		scale = math.Floor(100*wide/all) / 100
	}
	room *= pageSafety / scale
	var out []int
	used, kept := 0.0, 0
	begin := func(row int) {
		out = append(out, row)
		used = 0
		if row > head {
			used = repeated
		}
	}
	for row := 1; row <= len(l.heights); row++ {
		high := l.points(row)
		for kept < len(p.Together) && p.Together[kept][1] < row {
			kept++
		}
		block := high
		if kept < len(p.Together) && p.Together[kept][0] == row {
			for n := row + 1; n <= p.Together[kept][1]; n++ {
				block += l.points(n)
			}
		}
		blank := len(l.sheet.Rows[row-1].Cells) == 0 && l.heights[row-1] == 0
		began := row == 1 || row > head && used <= repeated // a page with no row of its own yet
		switch {
		case slices.Contains(p.Breaks, row), used+block > room && !began && !blank:
			begin(row)
		}
		used += high
	}
	return out[:min(len(out), mostBreaks)]
}

// rowsOf is the first and last of rows that a reference such as $4:$6 names, the
// last before the first where it names none.
func rowsOf(ref string) (from, to int) {
	if n, err := fmt.Sscanf(ref, "$%d:$%d", &from, &to); n != 2 || err != nil {
		return 1, 0
	}
	return from, to
}

// pageRoom is the width and height of the printed page within its margins.
func (l layout) pageRoom() (wide, high float64) {
	wide, high = paperWide, paperLong
	if l.sheet.Print.Paper == grid.Letter {
		wide, high = letterWide, letterLong
	}
	if l.sheet.Print.Landscape {
		wide, high = high, wide
	}
	return wide - 2*sideMargin*inch, high - 2*endMargin*inch
}

// printedWidth is the width in points of the columns that are printed.
func (l layout) printedWidth() float64 {
	area := span{left: 1}
	if r, ok := parseRange(strings.ReplaceAll(l.sheet.Print.Area, "$", "")); ok {
		area = r
	} else {
		for _, row := range l.sheet.Rows {
			area.right = max(area.right, len(row.Cells))
		}
	}
	dots := 0.0
	for col := area.left; col <= area.right; col++ {
		dots += l.dots(col)
	}
	return dots * 72 / 96
}
