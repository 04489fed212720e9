package offer

import (
	"fmt"
	"slices"
	"strings"

	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
)

// outline is the headings of a table: without the first of them it is none,
// without the needed ones its money cannot be read, the others may be missing.
type outline struct {
	name   string   // of its sheet
	marks  []string // that it is known by
	not    []string // headings that only other tables have
	others []string
}

func (o outline) headings() []string { return append(slices.Clone(o.marks), o.others...) }

// table is where an outline was found.
type table struct {
	outline
	page *grid.Page
	head int            // row of its headings
	cols map[string]int // by heading
	last int            // column
}

func (t table) has(heading string) bool { return t.cols[heading] > 0 }

// cell is what stands under a heading in a row, nothing where there is no such heading.
func (t table) cell(l grid.Line, heading string) grid.Datum {
	col := t.cols[heading]
	if col == 0 {
		return grid.Datum{}
	}
	return l.Cell(col)
}

// text is what stands there in words, on one line.
func (t table) text(l grid.Line, heading string, date1904 bool) string {
	return templates.Single(templates.Shown(t.cell(l, heading), date1904))
}

// rows are those below the headings.
func (t table) rows() []grid.Line {
	i := slices.IndexFunc(t.page.Rows, func(l grid.Line) bool { return l.Row > t.head })
	if i < 0 {
		return nil
	}
	return t.page.Rows[i:]
}

// find looks for a table on the sheet of its name, or on one whose name is none
// of ours. The row of headings is the first that has all it is known by.
func (r *reader) find(o outline) (table, bool) {
	for _, p := range r.candidates(o.name) {
		for _, line := range p.Rows {
			if line.Row > templates.HeadingRows {
				break
			}
			if t, ok := o.in(line); ok {
				t.page = p
				r.take(p)
				r.twice(t, line)
				return t, true
			}
		}
	}
	return table{outline: o}, false
}

// in is the table whose headings stand in a row.
func (o outline) in(line grid.Line) (table, bool) {
	t := table{outline: o, head: line.Row, cols: map[string]int{}}
	for _, d := range line.Cells {
		if d.Kind != grid.Text {
			continue
		}
		if _, other := headingOf(d.Raw, o.not); other {
			return t, false
		}
		if h, ok := headingOf(d.Raw, o.headings()); ok && t.cols[h] == 0 {
			t.cols[h], t.last = d.Col, max(t.last, d.Col)
		}
	}
	for _, h := range o.marks {
		if t.cols[h] == 0 {
			return t, false
		}
	}
	return t, true
}

// twice puts down headings that stand in two columns: which is meant is not known.
func (r *reader) twice(t table, line grid.Line) {
	for _, d := range line.Cells {
		if d.Kind != grid.Text {
			continue
		}
		if h, ok := headingOf(d.Raw, t.headings()); ok && t.cols[h] != d.Col {
			r.say(problem.HeadingTwice, r.at(t.page.Name, line.Row, d.Col),
				fmt.Sprintf("the heading %q stands in column %s already; which is meant is not known", h, columnName(t.cols[h])))
		}
	}
}

func (r *reader) lacks(t table, headings []string) (missing []string) {
	for _, h := range headings {
		if !t.has(h) {
			missing = append(missing, h)
		}
	}
	return missing
}

// headingOf is which of the headings a cell says, the currency after it aside.
func headingOf(text string, headings []string) (string, bool) {
	if len(text) > 60 {
		return "", false
	}
	said := templates.Folded(text)
	for _, h := range headings {
		if said == templates.Folded(h) {
			return h, true
		}
	}
	i := strings.LastIndexByte(said, ' ')
	if i < 0 || !isCurrency(said[i+1:]) {
		return "", false
	}
	for _, h := range headings {
		if said[:i] == templates.Folded(h) {
			return h, true
		}
	}
	return "", false
}

// isCurrency reports a sign of money, or three letters that may be one.
func isCurrency(s string) bool {
	switch s = strings.Trim(s, "()"); s {
	case "£", "€", "$", "¥", "kr", "zł", "fr.":
		return true
	}
	return len(s) == 3 && strings.Trim(s, "abcdefghijklmnopqrstuvwxyz") == ""
}

// besides counts cells of rows that stand under no heading of the table, once a
// sheet: what somebody wrote there is not read.
func (r *reader) besides(t table, lines []grid.Line) {
	known := map[int]bool{}
	for _, c := range t.cols {
		known[c] = true
	}
	n := 0
	var first grid.Datum
	row := 0
	for _, l := range lines {
		for _, d := range l.Cells {
			if known[d.Col] || d.Kind == grid.Text && templates.Single(d.Raw) == "" {
				continue
			}
			if n++; n == 1 {
				first, row = d, l.Row
			}
		}
	}
	if n > 0 {
		r.say(problem.QuoteBesides, r.at(t.page.Name, row, first.Col),
			fmt.Sprintf("%q stands under no heading of the form and is not read%s", clipped(templates.Shown(first, r.book.Date1904)), andMore(n-1)))
	}
}

func andMore(n int) string {
	switch n {
	case 0:
		return ""
	case 1:
		return ", nor is another cell of this sheet"
	}
	return fmt.Sprintf(", nor are %d other cells of this sheet", n)
}

// clipped is a text short enough for a message.
func clipped(s string) string {
	const most = 60
	if r := []rune(s); len(r) > most {
		return string(r[:most-1]) + "…"
	}
	return s
}

// hidden remarks on rows that are read and cannot be seen.
func (r *reader) hidden(sheet string, rows []int) {
	if len(rows) == 0 {
		return
	}
	text := fmt.Sprintf("%d hidden rows are read like the others, the first of them here", len(rows))
	if len(rows) == 1 {
		text = "the row is hidden and read like the others"
	}
	r.say(problem.RowHidden, r.at(sheet, rows[0], 0), text)
}
