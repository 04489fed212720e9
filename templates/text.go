package templates

import (
	"regexp"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// Table is one sheet as plain text, such as a file of tab-separated lines.
type Table struct {
	Sheet  string
	Hidden bool
	Rows   []TextRow
}

// TextRow is one row of a Table, cell by cell.
type TextRow struct {
	Cells  []string
	Hidden bool
}

// ParseTSV reads one sheet from tab-separated lines, one a row. The name may
// be that of the sheet or of a file, such as build-ups.tsv. A line that begins
// with [hidden] and a tab is a hidden row; a first line of [hidden sheet] hides
// the whole sheet.
func ParseTSV(name, text string) Table {
	t := Table{Sheet: strings.TrimSuffix(name, ".tsv")}
	if o, ok := outline(t.Sheet); ok {
		t.Sheet = o.Name
	}
	lines := strings.Split(strings.TrimRight(strings.ReplaceAll(text, "\r\n", "\n"), "\n"), "\n")
	if len(lines) > 0 && strings.TrimSpace(lines[0]) == "[hidden sheet]" {
		t.Hidden, lines = true, lines[1:]
	}
	for _, l := range lines {
		rest, hidden := strings.CutPrefix(l, "[hidden]\t")
		t.Rows = append(t.Rows, TextRow{strings.Split(rest, "\t"), hidden})
	}
	return t
}

// Plain is the tables as a workbook with nothing added: every line is a row.
// Text is typed as somebody at a spreadsheet would, by the column it stands in.
func Plain(tables []Table) *grid.Book {
	b := &grid.Book{}
	declared := Sheets()
	for _, t := range tables {
		s := &grid.Sheet{Name: t.Sheet}
		form := t.forms(declared)
		for n, row := range t.Rows {
			var cells []grid.Cell
			for i, text := range row.Cells {
				cells = append(cells, typed(form(n, i), text))
			}
			s.Rows = append(s.Rows, grid.Row{Cells: cells})
		}
		b.Sheets = append(b.Sheets, s)
	}
	return b
}

// TextBook is the tables as a workbook that was read, without any file.
func TextBook(name string, tables []Table) grid.Workbook {
	w := AsRead(name, Plain(tables))
	for i, t := range tables {
		w.Sheets[i].Hidden = t.Hidden
		for n, line := range w.Sheets[i].Rows {
			w.Sheets[i].Rows[n].Hidden = t.Rows[line.Row-1].Hidden
		}
	}
	return w
}

// forms tells the form a cell of the table is typed in, by row and column.
// Headings, what stands above them and what belongs to no heading are words.
func (t Table) forms(declared []Outline) func(row, col int) Form {
	o, ok := among(declared, t.Sheet)
	if !ok {
		return func(int, int) Form { return Words }
	}
	if o.Upright {
		return func(row, col int) Form {
			if i, _ := o.heading(t.Rows[row].Cells[0]); i >= 0 && col == 1 {
				return o.Headings[i].Form
			}
			return Words
		}
	}
	head, _ := o.headingRow(t.page())
	by := map[int]Form{}
	for _, d := range head.Cells {
		if i, _ := o.heading(d.Raw); i >= 0 {
			by[d.Col-1] = o.Headings[i].Form
		}
	}
	return func(row, col int) Form {
		if row+1 <= head.Row {
			return Words
		}
		return by[col]
	}
}

// page is the table with every cell as text.
func (t Table) page() grid.Page {
	p := grid.Page{Name: t.Sheet}
	for n, row := range t.Rows {
		line := grid.Line{Row: n + 1}
		for i, text := range row.Cells {
			if text != "" {
				line.Cells = append(line.Cells, grid.Datum{Col: i + 1, Kind: grid.Text, Raw: text})
			}
		}
		if len(line.Cells) > 0 {
			p.Rows = append(p.Rows, line)
		}
	}
	return p
}

// Number formats of typed cells.
const (
	dayFormat   = "yyyy-mm-dd"
	moneyFormat = "#,##0.00"
)

var (
	plainNumber   = regexp.MustCompile(`^-?\d+(\.\d+)?$`)
	plainPercent  = regexp.MustCompile(`^(-?\d+)(\.\d+)? ?%$`)
	sheetFault    = regexp.MustCompile(`^#(?:REF!|N/A|DIV/0!|VALUE!|NAME\?|NUM!|NULL!)$`)
	plainFormula  = regexp.MustCompile(`^=(.+?)(?: => (.*))?$`)
	placesOfMoney = regexp.MustCompile(`^-?\d+(\.\d{1,2})?$`)
)

// typed is text as a cell of the form, as a spreadsheet takes it from the
// keyboard: numbers, 12 % and dates become such outside columns of text; =A1*2
// is a formula never calculated and =A1*2 => 6 one with its result; #REF! is an
// error; an apostrophe in front keeps the rest as text.
func typed(form Form, text string) grid.Cell {
	if rest, ok := strings.CutPrefix(text, "'"); ok {
		return grid.Textual(rest, grid.Style{})
	}
	if m := plainFormula.FindStringSubmatch(text); m != nil {
		c := grid.Cell{}
		if m[2] != "" {
			c = typed(form, m[2])
		}
		c.Formula = m[1]
		return c
	}
	switch {
	case text == "":
		return grid.Cell{}
	case sheetFault.MatchString(text):
		return grid.Cell{Kind: grid.Fault, Text: text}
	case form.Textual():
		return grid.Textual(text, grid.Style{})
	case text == "TRUE" || text == "FALSE":
		return grid.Cell{Kind: grid.Bool, Bool: text == "TRUE"}
	case plainNumber.MatchString(text):
		n := decimal.RequireFromString(text)
		if form == Money && placesOfMoney.MatchString(text) {
			return grid.Numeric(n, grid.Style{Format: moneyFormat})
		}
		return grid.Numeric(n, grid.Style{})
	}
	if m := plainPercent.FindStringSubmatch(text); m != nil {
		format := "0%"
		if len(m[2]) > 1 {
			format = "0." + strings.Repeat("0", len(m[2])-1) + "%"
		}
		return grid.Numeric(decimal.RequireFromString(m[1]+m[2]).Shift(-2), grid.Style{Format: format})
	}
	if day, err := time.Parse(isoDay, text); err == nil {
		return grid.Dated(day, grid.Style{Format: dayFormat})
	}
	return grid.Textual(text, grid.Style{})
}

// AsRead is a workbook that was to be written as it would be read back.
func AsRead(name string, b *grid.Book) grid.Workbook {
	w := grid.Workbook{Name: name}
	for _, s := range b.Sheets {
		p := grid.Page{Name: s.Name}
		for n, row := range s.Rows {
			line := grid.Line{Row: n + 1}
			for i, c := range row.Cells {
				if d := datum(c, i+1); !d.IsBlank() {
					line.Cells = append(line.Cells, d)
				}
			}
			if len(line.Cells) > 0 {
				p.Rows = append(p.Rows, line)
			}
		}
		w.Sheets = append(w.Sheets, p)
	}
	return w
}

// datum is a written cell as it is read.
func datum(c grid.Cell, col int) grid.Datum {
	d := grid.Datum{Col: col, Kind: c.Kind, Raw: c.Text, Format: c.Style.Format, Formula: c.Formula}
	switch c.Kind {
	case grid.Number:
		d.Raw, d.Value = c.Number.String(), c.Number
	case grid.Date:
		d.Kind, d.Value = grid.Number, daySerial(c.Day)
		d.Raw = d.Value.String()
	case grid.Bool:
		d.Raw = map[bool]string{true: "1", false: "0"}[c.Bool]
	}
	return d
}
