package templates

import (
	"unicode/utf8"

	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/templates/grid"
)

// Blank is the empty yard workbook: a guide, every sheet with its headings and
// one example row, and the closed lists that the drop-down lists read.
func Blank() *grid.Book {
	b := newBook("Yard workbook", "to be filled in by the yard")
	lists := newLists()
	for _, o := range Sheets() {
		b.Sheets = append(b.Sheets, laid(o, newContent(o, ""), lists, true))
	}
	b.Sheets = append(b.Sheets, lists.sheet())
	return b
}

// newBook is a workbook with its guide and nothing else.
func newBook(title, subject string) *grid.Book {
	return &grid.Book{
		Title: title, Subject: subject, Creator: "futtock", Language: "en-GB",
		Sheets: []*grid.Sheet{guidePage()},
	}
}

// content is what a sheet is filled with: its titles by heading, and rows of
// text by heading.
type content struct {
	titles []string
	rows   [][]string
}

// newContent is no rows under the declared headings; lengths on the long scale
// are in the unit given, where one is.
func newContent(o Outline, long measure.Unit) content {
	c := content{titles: make([]string, len(o.Headings))}
	for i, h := range o.Headings {
		c.titles[i] = h.Title()
		if h.Form == Length && h.Scale == Long && long != "" {
			c.titles[i] = h.Name + " (" + string(long) + ")"
		}
	}
	return c
}

// laid is one sheet, laid out with its content, and with an example row where
// it is to have one.
func laid(o Outline, c content, lists *lists, example bool) *grid.Sheet {
	s := &grid.Sheet{Name: o.Name, Tab: dark, Print: sheetPrint()}
	if o.Prices {
		s.Tab = pale
	}
	s.Rows = []grid.Row{
		{Cells: []grid.Cell{grid.Textual(o.Name, titleStyle())}},
		{Cells: []grid.Cell{grid.Textual(o.purpose(), purposeStyle())}},
	}
	if o.Upright {
		layUpright(s, o, c, lists, example)
		return s
	}
	heads, sample := grid.Row{}, grid.Row{}
	var wide float64
	for i, h := range o.Headings {
		chars := max(h.width(example && i == 0), c.width(i))
		s.Columns = append(s.Columns, grid.Width{Chars: chars})
		wide += chars
		heads.Cells = append(heads.Cells, grid.Textual(c.titles[i], headStyle(h)))
		s.Notes = append(s.Notes, grid.Note{Cell: origin.Cell{Row: headRow, Col: i + 1}.Address(), Text: h.note()})
		sample.Cells = append(sample.Cells, exampleCell(h, i == 0))
	}
	s.Rows = append(s.Rows, heads)
	first := headRow + 1
	if example {
		s.Rows = append(s.Rows, sample)
		first = exampleRow + 1
	}
	for _, row := range c.rows {
		r := grid.Row{}
		for i, text := range row {
			r.Cells = append(r.Cells, filledCell(o.Headings[i], text))
		}
		s.Rows = append(s.Rows, r)
	}
	s.Freeze = grid.Freeze{Rows: first - 1, Cols: 1}
	s.Print.Repeat = "$1:$3"
	s.Print.FitWidth = wide <= widest
	last := max(lastRow, first+len(c.rows)+200)
	for i, h := range o.Headings {
		if l, ok := lists.of(h, down(i+1, first, last), example); ok {
			s.Lists = append(s.Lists, l)
		}
	}
	return s
}

// width is how wide a column must be for what stands in it, in characters; it
// is not made wider than two fifths of a line, beyond which words wrap.
func (c content) width(i int) float64 {
	n := 0
	for _, row := range c.rows {
		n = max(n, utf8.RuneCountInString(row[i])+2)
	}
	return float64(min(n, 40))
}

// filledCell is a cell of a row that is filled in: figures to the right, also
// those that are typed as text, and words wrapped.
func filledCell(h Heading, text string) grid.Cell {
	c := typed(h.Form, text)
	c.Style.Border, c.Style.Top = grid.Hair, true
	c.Style.Wrap = h.Form.Textual()
	stand(&c.Style, h)
	return c
}

// widest is how many characters still can be read when a sheet is fitted to
// the width of one page on its side.
const widest = 220

func sheetPrint() grid.Print {
	return grid.Print{Landscape: true, FitWidth: true, Footer: "&L&A&RPage &P of &N"}
}

// purpose is the line under a sheet's title.
func (o Outline) purpose() string {
	if o.Prices {
		return upper(o.Purpose) + ". This sheet may stand in a price book of its own, given with --rates."
	}
	return upper(o.Purpose) + "."
}

// exampleCell is the heading's cell of the example row, of which the first
// bears the mark that has the row passed over.
func exampleCell(h Heading, first bool) grid.Cell {
	if first {
		return grid.Textual(exampleMark+" "+h.Example, exampleStyle())
	}
	c := typed(h.Form, exampleInRow(h))
	format := c.Style.Format
	c.Style = exampleStyle()
	c.Style.Format = format
	stand(&c.Style, h)
	return c
}

// uprightHead is what stands over the headings where they run down.
const uprightHead = "Heading"

// layUpright lays out a sheet whose headings run down, with what each means
// and an example at the right of its value.
func layUpright(s *grid.Sheet, o Outline, c content, lists *lists, example bool) {
	s.Columns = []grid.Width{{Chars: 28}, {Chars: 36}, {Chars: 78}}
	over := grid.Style{Font: grid.Font{Bold: true, Colour: dark}, Border: grid.Under}
	heads := []grid.Cell{grid.Textual(uprightHead, over), grid.Textual("Value", over), grid.Textual("Meaning", over)}
	if example {
		s.Columns = append(s.Columns, grid.Width{Chars: 34})
		heads = append(heads, grid.Textual("Example", over))
	}
	s.Rows = append(s.Rows, grid.Row{Cells: heads})
	s.Freeze = grid.Freeze{Rows: headRow}
	s.Print.Repeat = "$1:$3"
	for i, h := range o.Headings {
		value := grid.Cell{}
		if len(c.rows) > 0 {
			value = typed(h.Form, c.rows[0][i])
		}
		value.Style.Border, value.Style.Align, value.Style.Top, value.Style.Wrap = grid.Box, grid.Left, true, true
		if h.Form == Day {
			value.Style.Format = dayFormat
		}
		meaning := h.Help + "."
		if how := upper(h.how()); h.Form != Words {
			meaning += " " + how + "."
		}
		row := grid.Row{Cells: []grid.Cell{
			grid.Textual(c.titles[i], label(h)), value,
			grid.Textual(meaning, grid.Style{Font: grid.Font{Colour: grey}, Border: grid.Hair, Top: true, Wrap: true}),
		}}
		if example {
			e := typed(h.Form, h.Example)
			format := e.Style.Format
			e.Style = exampleStyle()
			e.Style.Format, e.Style.Align, e.Style.Top = format, grid.Left, true
			row.Cells = append(row.Cells, e)
		}
		s.Rows = append(s.Rows, row)
		at := headRow + 1 + i
		if l, ok := lists.of(h, down(2, at, at), example); ok {
			s.Lists = append(s.Lists, l)
		}
	}
}

// label is the style of a heading that stands at the left of its value.
func label(h Heading) grid.Style {
	s := headStyle(h)
	s.Align = grid.Left
	return s
}
