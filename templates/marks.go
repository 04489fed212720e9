package templates

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// The words of a marked copy, by which it is known again.
const (
	markedTitle = "What futtock check found"
	markedOf    = "A copy of"
	markedSheet = "Problems"
)

// mostTold is how many problems the note on one cell tells in full.
const mostTold = 10

// Marks is a copy of a workbook in which the cells with problems are marked.
type Marks struct {
	Cells []grid.Mark
	List  *grid.Sheet // all of them, to stand before the other sheets
}

// Marked is the marks of the problems that are of a workbook, with one list of all of
// them. File is its name. A problem of a whole row is marked on the first cell of the
// row that holds anything, one of a whole sheet on the first of its headings; one that is
// of no sheet there is stands in the list alone.
func Marked(w grid.Workbook, file string, found problem.List) Marks {
	m := marking{book: w, by: map[origin.Cell]problem.List{}}
	list := m.title(file, found)
	for _, p := range found {
		at, ok := m.place(p.At)
		list.Rows = append(list.Rows, listRow(p, at, ok))
		if !ok {
			continue
		}
		if m.by[at] == nil {
			m.cells = append(m.cells, at)
		}
		m.by[at] = append(m.by[at], p)
	}
	marks := Marks{List: list}
	// The gravest first: of marks on cells that are merged the first gives the colour.
	slices.SortStableFunc(m.cells, func(a, b origin.Cell) int { return cmp.Compare(gravest(m.by[a]), gravest(m.by[b])) })
	for _, at := range m.cells {
		marks.Cells = append(marks.Cells, grid.Mark{Sheet: at.Sheet, Row: at.Row, Col: at.Col,
			Note: noteOf(m.by[at], list.Name), Fill: markFill(gravest(m.by[at]))})
	}
	return marks
}

// MarkedOf is the name of the workbook that one is a marked copy of, blank where it is
// none.
func MarkedOf(w grid.Workbook) string {
	for _, p := range w.Sheets {
		if len(p.Rows) < 2 || p.Rows[0].Row != 1 || p.Rows[0].Cell(1).Raw != markedTitle || p.Rows[1].Row != 2 {
			continue
		}
		if of, ok := strings.CutPrefix(p.Rows[1].Cell(1).Raw, markedOf+" "); ok {
			name, _, _ := strings.Cut(of, markedDoes)
			return name
		}
	}
	return ""
}

// markedDoes goes on after the name of the workbook.
const markedDoes = " with its problems marked."

// MarkedName is the name of the marked copy of a workbook file.
func MarkedName(file string) string {
	ending := filepath.Ext(file)
	return strings.TrimSuffix(file, ending) + "-marked" + ending
}

// marking is one run of Marked.
type marking struct {
	book  grid.Workbook
	cells []origin.Cell // with a problem, in the order of the list
	by    map[origin.Cell]problem.List
}

// place is the cell a problem is marked on.
func (m *marking) place(at origin.Cell) (origin.Cell, bool) {
	i := slices.IndexFunc(m.book.Sheets, func(p grid.Page) bool { return p.Name == at.Sheet })
	if i < 0 {
		return at, false
	}
	page := m.book.Sheets[i]
	switch {
	case at.Row > 0 && at.Col > 0:
	case at.Row > 0:
		at.Col = 1
		for _, l := range page.Rows {
			if l.Row == at.Row {
				at.Col = l.Cells[0].Col
			}
		}
	default:
		at.Row, at.Col = headingCell(page)
	}
	return at, true
}

// headingCell is the first cell of the row of headings; of a sheet without one the first
// cell that holds anything.
func headingCell(page grid.Page) (row, col int) {
	if len(page.Rows) == 0 {
		return 1, 1
	}
	line := page.Rows[0]
	if o, ok := outline(page.Name); ok && o.Upright {
		for _, l := range page.Rows {
			if i, _ := o.heading(l.Cells[0].Raw); i >= 0 {
				line = l
				break
			}
		}
	} else if ok {
		if l, _ := o.headingRow(page); len(l.Cells) > 0 {
			line = l
		}
	}
	return line.Row, line.Cells[0].Col
}

// gravest is the severity of the gravest of some problems.
func gravest(list problem.List) problem.Severity {
	worst := problem.Remark
	for _, p := range list {
		worst = min(worst, p.Severity())
	}
	return worst
}

// noteOf is the note on a cell: severity and message, the cure, the code.
func noteOf(list problem.List, sheet string) string {
	var parts []string
	for i, p := range list {
		if i == mostTold {
			parts = append(parts, fmt.Sprintf("and %d more, in the sheet %q", len(list)-i, sheet))
			break
		}
		parts = append(parts, fmt.Sprintf("%s: %s\n%s [%s]", upper(p.Severity().String()), told(p), p.Code.Cure(), p.Code))
	}
	return strings.Join(parts, "\n\n")
}

// told is the message of a problem as a cell and a note can hold it: what it quotes of a
// cell may be very long, and have characters that no file takes.
func told(p problem.Problem) string {
	text := strings.Map(func(r rune) rune {
		if r < ' ' || r == 0xFFFE || r == 0xFFFF {
			return ' '
		}
		return r
	}, strings.ToValidUTF8(p.Message(), "?"))
	if r := []rune(text); len(r) > mostRunes {
		text = string(r[:mostRunes]) + " ..."
	}
	return text
}

// mostRunes is how long a message may be in a marked copy.
const mostRunes = 1500

// markFill is the colour of a cell with a problem: the graver, the stronger.
func markFill(s problem.Severity) string {
	return [...]string{problem.Error: "F68B78", problem.Warning: "FFD58A", problem.Remark: "FFF3C4"}[s]
}

// markedWidths are the columns of the list, under their headings.
var markedWidths = []struct {
	heading string
	chars   float64
}{{"Sheet", 18}, {"Cell", 9}, {"Severity", 10}, {"What was found", 62}, {"What to do", 52}, {"Code", 24}}

// title is the list without its rows.
func (m *marking) title(file string, found problem.List) *grid.Sheet {
	s := &grid.Sheet{Name: m.unused(markedSheet), Tab: markFill(problem.Error), Freeze: grid.Freeze{Rows: 5}, Print: sheetPrint()}
	heads := grid.Row{}
	for _, w := range markedWidths {
		s.Columns = append(s.Columns, grid.Width{Chars: w.chars})
		heads.Cells = append(heads.Cells, grid.Textual(w.heading, grid.Style{Font: grid.Font{Bold: true, Colour: white}, Fill: dark, Top: true, Indent: 1}))
	}
	counts := []string{}
	for _, v := range []problem.Severity{problem.Error, problem.Warning, problem.Remark} {
		counts = append(counts, fmt.Sprintf("%ss: %d", upper(v.String()), found.Count(v)))
	}
	s.Rows = []grid.Row{
		{Cells: []grid.Cell{grid.Textual(markedTitle, titleStyle())}},
		{Cells: []grid.Cell{grid.Textual(markedOf+" "+file+markedDoes+" Mend the cells in "+file+" itself: this copy is made anew by every check --marked.", purposeStyle())}},
		{Cells: []grid.Cell{grid.Textual(strings.Join(counts, "    "), grid.Style{Font: grid.Font{Bold: true, Colour: dark}})}},
		{},
		heads,
	}
	return s
}

// unused is a name no sheet of the workbook has.
func (m *marking) unused(name string) string {
	for n := 1; ; n++ {
		try := name
		if n > 1 {
			try = fmt.Sprintf("%s %d", name, n)
		}
		if !slices.ContainsFunc(m.book.Sheets, func(p grid.Page) bool { return strings.EqualFold(p.Name, try) }) {
			return try
		}
	}
}

// listRow is a row of the list. At is the cell that is marked, where one is; the problem's
// own is told.
func listRow(p problem.Problem, at origin.Cell, marked bool) grid.Row {
	plain := grid.Style{Border: grid.Hair, Top: true, Wrap: true, Indent: 1}
	link, severity := plain, plain
	link.Font.Colour = "0563C1"
	severity.Fill = markFill(p.Severity())
	cell := grid.Textual(p.At.Address(), plain)
	if marked {
		cell = grid.Textual(at.Address(), link)
		cell.Link = fmt.Sprintf("'%s'!%s", strings.ReplaceAll(at.Sheet, "'", "''"), at.Address())
	}
	return grid.Row{Cells: []grid.Cell{
		grid.Textual(p.At.Sheet, plain), cell, grid.Textual(p.Severity().String(), severity),
		grid.Textual(told(p), plain), grid.Textual(p.Code.Cure(), plain), grid.Textual(string(p.Code), plain),
	}}
}
