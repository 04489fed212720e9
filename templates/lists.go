package templates

import (
	"strings"
	"unicode"
	"unicode/utf8"

	"futtock/templates/grid"
)

// lists gathers the closed lists of a workbook, each once, on a sheet of their
// own: a list written within a cell's own rule could not hold a comma.
type lists struct {
	titles []string
	lists  [][]string
}

func newLists() *lists { return &lists{} }

// of is the drop-down list of the heading on a range of cells, and false where
// it has none. Choices are held to; a unit or a name may be typed otherwise,
// and is then asked about.
func (l *lists) of(h Heading, cells string, example bool) (grid.List, bool) {
	list := grid.List{Range: cells, Title: h.Name}
	switch {
	case h.Form == Choice:
		list.Source, list.Strict = l.source(h.Name, h.Choices), !h.Bracket
		list.Prompt = "One of: " + offered(h.Choices) + "."
	case h.Form == YesNo:
		list.Source, list.Strict, list.Prompt = l.source("Yes or no", []string{"yes", "no"}), true, "Yes or no."
	case h.Form == Unit:
		name := h.Name
		if len(h.Choices) == 0 {
			name = "Units"
		}
		list.Source, list.Prompt = l.source(name, h.units()), "A unit of the list: "+strings.Join(h.units(), ", ")+"."
	case len(h.Refers) == 1:
		sheet, col := keyColumn(h.Refers[0].Sheet)
		first := headRow + 1
		if example {
			first = exampleRow + 1
		}
		list.Source, list.Prompt = fixed(sheet, col, first, lastRow), upper(h.how())+"."
	default:
		return grid.List{}, false
	}
	return list, true
}

// keyColumn is where the keys of a sheet stand in the workbook as it is laid out.
func keyColumn(sheet string) (string, int) {
	o, ok := outline(sheet)
	if !ok {
		panic("templates: no sheet " + sheet)
	}
	for i, h := range o.Headings {
		if h.Names {
			return o.Name, i + 1
		}
	}
	panic("templates: no key in the sheet " + sheet)
}

// source is the range that holds a closed list.
func (l *lists) source(title string, list []string) string {
	at := -1
	for i, other := range l.lists {
		if strings.Join(other, "\n") == strings.Join(list, "\n") {
			at = i
		}
	}
	if at < 0 {
		l.titles, l.lists = append(l.titles, title), append(l.lists, list)
		at = len(l.lists) - 1
	}
	return fixed(choicesSheet, at+1, headRow+1, headRow+len(list))
}

// sheet is the sheet of all lists gathered.
func (l *lists) sheet() *grid.Sheet {
	s := &grid.Sheet{Name: choicesSheet, Tab: "", Freeze: grid.Freeze{Rows: headRow}, Print: sheetPrint()}
	s.Rows = []grid.Row{
		{Cells: []grid.Cell{grid.Textual(choicesSheet, titleStyle())}},
		{Cells: []grid.Cell{grid.Textual("What the drop-down lists of the other sheets offer. Nothing is filled in here.", purposeStyle())}},
	}
	heads, longest := grid.Row{}, 0
	for i, t := range l.titles {
		heads.Cells = append(heads.Cells, grid.Textual(t, headStyle(Heading{})))
		width := len(t)
		for _, w := range l.lists[i] {
			width = max(width, len(w))
		}
		s.Columns = append(s.Columns, grid.Width{Chars: float64(max(10, min(26, width+3)))})
		longest = max(longest, len(l.lists[i]))
	}
	s.Rows = append(s.Rows, heads)
	for n := range longest {
		row := grid.Row{}
		for _, list := range l.lists {
			c := grid.Cell{}
			if n < len(list) {
				c = grid.Textual(list[n], grid.Style{})
			}
			row.Cells = append(row.Cells, c)
		}
		s.Rows = append(s.Rows, row)
	}
	return s
}

// upper is a phrase as a sentence begins.
func upper(s string) string {
	r, size := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[size:]
}
