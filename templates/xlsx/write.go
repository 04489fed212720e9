package xlsx

import (
	"errors"
	"fmt"
	"time"

	"github.com/shopspring/decimal"
	"github.com/xuri/excelize/v2"

	"futtock/templates/grid"
)

// program is the name of the program as it stands in the documents' properties.
const program = "futtock"

// dayFormat is the number format of a day whose style has none. The month is
// in letters, so that nobody reads it as an American date.
const dayFormat = "d mmm yyyy"

// noDay is the date in the properties of a book without a stamp: the first
// that a zip file can hold.
var noDay = time.Date(1980, time.January, 1, 0, 0, 0, 0, time.UTC)

// Write makes the file of a book: the same bytes for the same book. Numbers go
// out at 15 significant digits, rounded half away from zero, formulas with
// their stored results, and spreadsheet programs are told to reckon all anew
// on loading. Rows with wrapped text and no height of their own are made high
// enough for it.
//
// A book that cannot be written whole (a text too long for a cell, a control
// character in it, a formula without its result, a merge that would hide
// values) is an error naming the sheet and cell; nothing is cut or dropped.
// The file is read back and every cell compared before it is handed over.
func Write(book *grid.Book) ([]byte, error) {
	if err := checkBook(book); err != nil {
		return nil, fmt.Errorf("cannot write the workbook %q: %w", book.Title, err)
	}
	data, err := build(book)
	if err != nil {
		return nil, fmt.Errorf("cannot write the workbook %q: %w", book.Title, err)
	}
	if err := verify(book, data); err != nil {
		return nil, fmt.Errorf("the workbook %q was not written faithfully: %w", book.Title, err)
	}
	return data, nil
}

// build puts the book together in the library. The order of calls matters:
// what is set after a sheet's stream is flushed is lost without a word, and
// what stands before the cells in the file must be set before the first row.
func build(book *grid.Book) (data []byte, err error) {
	f := excelize.NewFile()
	defer func() { err = errors.Join(err, f.Close()) }() // its temporary files, of very big sheets

	if err := describe(f, book); err != nil {
		return nil, err
	}
	for i, s := range book.Sheets {
		if i == 0 {
			err = f.SetSheetName("Sheet1", s.Name)
		} else {
			_, err = f.NewSheet(s.Name)
		}
		if err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.Name, err)
		}
	}
	for _, n := range book.Names {
		if err := f.SetDefinedName(&excelize.DefinedName{Name: n.Name, RefersTo: n.Range}); err != nil {
			return nil, fmt.Errorf("defined name %q: %w", n.Name, err)
		}
	}
	looks := &looks{file: f, ids: make(map[grid.Style]int)}
	patch := make(patches)
	noted, drawn := 0, 0
	for i, s := range book.Sheets {
		w := &sheetWriter{file: f, sheet: s, index: i, looks: looks, layout: lay(s)}
		if err := w.write(); err != nil {
			return nil, fmt.Errorf("sheet %q: %w", s.Name, err)
		}
		patch.sheet(i, s)
		if len(s.Notes) > 0 {
			noted++
			patch.notes(noted, w.layout, s.Notes)
		}
		if len(s.Charts)+len(s.Images) > 0 {
			drawn++
			patch.drawings(drawn, s)
		}
	}
	f.SetZipWriter(patch.zipWriter)
	buf, err := f.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	return buf.Bytes(), nil
}

// describe sets what belongs to the whole file: its properties, the ordinary
// letters, and that everything is reckoned anew on loading.
func describe(f *excelize.File, book *grid.Book) error {
	stamp, creator := book.Stamp, book.Creator
	if stamp.IsZero() {
		stamp = noDay
	}
	if creator == "" {
		creator = program
	}
	day := stamp.UTC().Format("2006-01-02T15:04:05Z")
	// The library copies only what is not empty over what a new file holds.
	err := f.SetDocProps(&excelize.DocProperties{
		Title: book.Title, Subject: book.Subject, Creator: creator, LastModifiedBy: creator,
		Language: book.Language, Created: day, Modified: day,
	})
	if err != nil {
		return err
	}
	if err := f.SetAppProps(&excelize.AppProperties{Application: program}); err != nil {
		return err
	}
	always := true
	if err := f.SetCalcProps(&excelize.CalcPropsOptions{FullCalcOnLoad: &always}); err != nil {
		return err
	}
	if err := f.SetDefaultFont(face); err != nil {
		return err
	}
	size := bodySize
	f.Styles.Fonts.Font[0].Sz.Val = &size
	return nil
}

// sheetWriter writes one sheet.
type sheetWriter struct {
	file   *excelize.File
	sheet  *grid.Sheet
	index  int // counted from 0
	looks  *looks
	layout layout
	stream *excelize.StreamWriter
}

// write writes the sheet in the order the stream demands.
func (w *sheetWriter) write() error {
	steps := []func() error{w.setUp, w.open, w.columns, w.rows, w.furnish}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return w.stream.Flush()
}

// open begins the stream of the sheet's cells.
func (w *sheetWriter) open() (err error) {
	w.stream, err = w.file.NewStreamWriter(w.sheet.Name)
	return err
}

// columns sets widths and the panes kept in view. From the last column to the
// first: the library puts each new one in front, and they must stand in order.
func (w *sheetWriter) columns() error {
	for i := len(w.sheet.Columns) - 1; i >= 0; i-- {
		c := w.sheet.Columns[i]
		if c.Chars > 0 {
			if err := w.stream.SetColWidth(i+1, i+1, fileWidth(c.Chars)); err != nil {
				return err
			}
		}
		if c.Hidden {
			if err := w.stream.SetColVisible(i+1, i+1, false); err != nil {
				return err
			}
		}
	}
	return w.freeze()
}

// freeze keeps the heading rows and columns in view.
func (w *sheetWriter) freeze() error {
	rows, cols := w.sheet.Freeze.Rows, w.sheet.Freeze.Cols
	if rows <= 0 && cols <= 0 {
		return nil
	}
	pane := "bottomRight"
	switch {
	case rows <= 0:
		pane = "topRight"
	case cols <= 0:
		pane = "bottomLeft"
	}
	corner := cellName(max(cols, 0)+1, max(rows, 0)+1)
	return w.stream.SetPanes(&excelize.Panes{
		Freeze: true, XSplit: max(cols, 0), YSplit: max(rows, 0), TopLeftCell: corner, ActivePane: pane,
		Selection: []excelize.Selection{{SQRef: corner, ActiveCell: corner, Pane: pane}},
	})
}

// rows writes the cells.
func (w *sheetWriter) rows() error {
	var values []any
	for i, row := range w.sheet.Rows {
		height := w.layout.heights[i]
		if row.Grows {
			height = max(height, plainRow(w.sheet))
		}
		if len(row.Cells) == 0 && height == 0 && row.Level == 0 {
			continue
		}
		values = values[:0]
		for col, c := range row.Cells {
			v, err := w.value(c)
			if err != nil {
				return fmt.Errorf("cell %s: %w", cellName(col+1, i+1), err)
			}
			values = append(values, v)
		}
		opts := excelize.RowOpts{Height: height, OutlineLevel: row.Level}
		if err := w.stream.SetRow(cellName(1, i+1), values, opts); err != nil {
			return fmt.Errorf("row %d: %w", i+1, err)
		}
	}
	return nil
}

// value is a cell as the library takes it; nil leaves the cell out.
func (w *sheetWriter) value(c grid.Cell) (any, error) {
	id, err := w.looks.id(dressed(c))
	if err != nil {
		return nil, err
	}
	out := excelize.Cell{StyleID: id, Formula: c.Formula}
	switch c.Kind {
	case grid.Blank:
		if id == 0 {
			return nil, nil
		}
	case grid.Text:
		if c.Text == "" && c.Formula == "" {
			break // nothing in it: only its look is written
		}
		out.Value = c.Text
	case grid.Bool:
		out.Value = c.Bool
	case grid.Number:
		out.Value = significant(c.Number).InexactFloat64()
	case grid.Date:
		out.Value = serial(c.Day)
	}
	return out, nil
}

// dressed is the style a cell is written in.
func dressed(c grid.Cell) grid.Style {
	if c.Kind == grid.Date && c.Style.Format == "" {
		c.Style.Format = dayFormat
	}
	return c.Style
}

// significant rounds to 15 significant digits, half away from zero: all that
// a spreadsheet keeps. 1234567890123.456 becomes 1234567890123.46.
func significant(d decimal.Decimal) decimal.Decimal {
	if over := d.NumDigits() - 15; over > 0 {
		return d.Round(-d.Exponent() - int32(over))
	}
	return d
}

// serial is a day as spreadsheets count them: 1 January 2024 is 45292. The
// count is right from 1 March 1900 on; checkBook refuses earlier days.
func serial(day time.Time) int {
	y, m, d := day.Date()
	return int(time.Date(y, m, d, 0, 0, 0, 0, time.UTC).Sub(firstDay) / (24 * time.Hour))
}

// firstDay is day 0 of the count, allowing for the 29 February 1900 that
// spreadsheets wrongly count.
var firstDay = time.Date(1899, time.December, 30, 0, 0, 0, 0, time.UTC)
