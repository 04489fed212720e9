package xlsx

import (
	"math"
	"slices"
	"strings"

	"futtock/templates/grid"
)

// paper is the size of a sheet of it in points, standing.
type paper struct{ wide, high float64 }

// papers are those a sheet may be printed on, by their numbers in package grid: A4 is 210 by 297 mm and Letter
// 8.5 by 11 in.
var papers = []paper{{210 / 25.4 * 72, 297 / 25.4 * 72}, {8.5 * 72, 11 * 72}}

const (
	nearEnd    = 0.03 // share of a page left free, since programs differ a little in where it ends
	forGrowth  = 0.06 // the same where rows grow with what is typed into them
	mostBreaks = 1000 // the format takes 1,026 on a sheet; beyond these, pages end where they are full
)

// breaks are the rows before which a page begins. Where rows are to keep
// together every page is ended here, by what there is room for on A4 and on
// Letter, so that neither parts them and page 4 is page 4 on both; or by the
// sheet's own paper alone, where it asks for that.
func (l layout) breaks() []int {
	s := l.sheet
	if !s.Print.FitWidth || !slices.ContainsFunc(s.Rows, func(r grid.Row) bool { return r.Keep }) {
		return s.Print.Breaks
	}
	room, repeat := l.page()
	var out []int
	used, last := 0.0, -1
	for i := range s.Rows {
		if i <= last {
			continue // kept with a row before it
		}
		high := l.points(i + 1)
		for last = i; last < len(s.Rows)-1 && s.Rows[last].Keep; last++ {
			high += l.points(last + 2)
		}
		asked := slices.Contains(s.Print.Breaks, i+1)
		full := used > repeat && used+high > room && !l.gap(i+1)
		if (asked || full) && i > 0 && len(out) < mostBreaks {
			out = append(out, i+1)
			used = repeat
		}
		used += high
	}
	return out
}

// gap reports a row with nothing in it, which may hang over the end of a page.
func (l layout) gap(row int) bool { return len(l.sheet.Rows[row-1].Cells) == 0 }

// page is the least room for rows that a page has on the papers, in points of
// the sheet, and how much of it the headings take that are printed again.
func (l layout) page() (room, repeat float64) {
	s := l.sheet
	cols := len(s.Columns)
	if _, end, ok := strings.Cut(strings.ReplaceAll(s.Print.Area, "$", ""), ":"); ok {
		if col, _, ok := parseCell(end); ok {
			cols = col
		}
	}
	across := 0.0
	for col := 1; col <= cols; col++ {
		across += l.dots(col) * 0.75
	}
	if from, to, ok := strings.Cut(strings.ReplaceAll(s.Print.Repeat, "$", ""), ":"); ok {
		if r, ok := parseRange("A" + from + ":A" + to); ok {
			for row := r.top; row <= r.bottom; row++ {
				repeat += l.points(row)
			}
		}
	}
	room = math.Inf(1)
	for paper, p := range papers {
		if s.Print.OwnPaper && grid.Paper(paper) != s.Print.Paper {
			continue
		}
		wide, high := p.wide-2*sideMargin*72, p.high-2*ends(s.Print)*72
		if s.Print.Landscape {
			wide, high = p.high-2*sideMargin*72, p.wide-2*ends(s.Print)*72
		}
		// Programs print at whole per cents, and never larger than life.
		scale := math.Min(1, math.Floor(wide/across*100)/100)
		room = math.Min(room, high/scale)
	}
	if slices.ContainsFunc(s.Rows, func(r grid.Row) bool { return r.Grows }) {
		return room * (1 - forGrowth), repeat
	}
	return room * (1 - nearEnd), repeat
}
