package xlsx

import (
	"fmt"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"futtock/templates/grid"
)

// Margins of the printed page in inches: enough for every printer.
const (
	sideMargin = 0.5
	endMargin  = 0.75
	fullMargin = 0.6
	headMargin = 0.35
)

// ends is the margin of a page at its head and foot.
func ends(p grid.Print) float64 {
	if p.Full {
		return fullMargin
	}
	return endMargin
}

// setUp sets what stands before the cells in the file, and the print set-up.
func (w *sheetWriter) setUp() error {
	s, name := w.sheet, w.sheet.Name
	height, fixed := plainRow(s), true
	props := excelize.SheetPropsOptions{DefaultRowHeight: &height, CustomHeight: &fixed}
	if s.Tab != "" {
		props.TabColorRGB = &s.Tab
	}
	if s.Print.FitWidth {
		props.FitToPage = &fixed
	}
	if s.Above {
		below := false
		props.OutlineSummaryBelow = &below
	}
	if err := w.file.SetSheetProps(name, &props); err != nil {
		return err
	}
	if ref := extent(s); ref != "" {
		if err := w.file.SetSheetDimension(name, ref); err != nil {
			return err
		}
	}
	if err := w.page(); err != nil {
		return err
	}
	return w.printNames()
}

// page sets paper, margins, heading and foot.
func (w *sheetWriter) page() error {
	p, name := w.sheet.Print, w.sheet.Name
	paper, turn, one, any := 9, "portrait", 1, 0 // the format's number of A4
	if p.Paper == grid.Letter {
		paper = 1
	}
	if p.Landscape {
		turn = "landscape"
	}
	layout := excelize.PageLayoutOptions{Size: &paper, Orientation: &turn}
	if p.FitWidth {
		layout.FitToWidth, layout.FitToHeight = &one, &any
	}
	if err := w.file.SetPageLayout(name, &layout); err != nil {
		return err
	}
	side, end, head := sideMargin, ends(p), headMargin
	err := w.file.SetPageMargins(name, &excelize.PageLayoutMarginsOptions{
		Left: &side, Right: &side, Top: &end, Bottom: &end, Header: &head, Footer: &head,
	})
	if err != nil || p.Header == "" && p.Footer == "" {
		return err
	}
	return w.file.SetHeaderFooter(name, &excelize.HeaderFooterOptions{OddHeader: p.Header, OddFooter: p.Footer})
}

// printNames sets the heading rows repeated on every page and the area
// printed, which the format keeps as names of the sheet.
func (w *sheetWriter) printNames() error {
	for _, n := range []struct{ name, ref string }{
		{"_xlnm.Print_Area", w.sheet.Print.Area},
		{"_xlnm.Print_Titles", w.sheet.Print.Repeat},
	} {
		if n.ref == "" {
			continue
		}
		err := w.file.SetDefinedName(&excelize.DefinedName{
			Name: n.name, RefersTo: quoted(w.sheet.Name) + "!" + n.ref, Scope: w.sheet.Name,
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// furnish sets what stands after the cells in the file.
func (w *sheetWriter) furnish() error {
	for _, m := range w.layout.spans {
		if err := w.stream.MergeCell(cellName(m.left, m.top), cellName(m.right, m.bottom)); err != nil {
			return err
		}
	}
	for _, row := range w.layout.breaks() {
		if err := w.stream.InsertPageBreak(cellName(1, row)); err != nil {
			return err
		}
	}
	for _, step := range []func() error{w.links, w.filter, w.shades, w.lists, w.bounds, w.notes, w.charts, w.images, w.protect} {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// links leads cells elsewhere in the workbook.
func (w *sheetWriter) links() error {
	for i, row := range w.sheet.Rows {
		for j, c := range row.Cells {
			if c.Link == "" {
				continue
			}
			if err := w.file.SetCellHyperLink(w.sheet.Name, cellName(j+1, i+1), c.Link, "Location"); err != nil {
				return fmt.Errorf("link of cell %s: %w", cellName(j+1, i+1), err)
			}
		}
	}
	return nil
}

// filter sets the autofilter. The library resets the sheet's properties when
// it does so, which is harmless here: they are already in the stream. It also
// leaves an apostrophe in a sheet's name as it is, so the name is put right.
func (w *sheetWriter) filter() error {
	if w.sheet.Filter == "" {
		return nil
	}
	if err := w.file.AutoFilter(w.sheet.Name, w.sheet.Filter, nil); err != nil {
		return fmt.Errorf("filter %q: %w", w.sheet.Filter, err)
	}
	names := w.file.WorkBook.DefinedNames.DefinedName
	last := &names[len(names)-1]
	_, ref, _ := strings.Cut(last.Data, "'!")
	last.Data = quoted(w.sheet.Name) + "!" + ref
	return nil
}

// shades sets the conditional fills.
func (w *sheetWriter) shades() error {
	for _, s := range w.sheet.Shades {
		fill := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{s.Fill}}
		id, err := w.file.NewConditionalStyle(&excelize.Style{Fill: fill})
		if err != nil {
			return err
		}
		rule := []excelize.ConditionalFormatOptions{{Type: "formula", Criteria: s.Formula, Format: &id}}
		if err := w.file.SetConditionalFormat(w.sheet.Name, s.Range, rule); err != nil {
			return fmt.Errorf("shade of %q: %w", s.Range, err)
		}
	}
	return nil
}

// lists sets the drop-down lists. They read a range, never a text of choices:
// in such a text a comma would part one choice into two.
func (w *sheetWriter) lists() error {
	for _, l := range w.sheet.Lists {
		v := excelize.NewDataValidation(true)
		v.Sqref = l.Range
		// The library writes this one formula unescaped.
		v.SetSqrefDropList(markup.Replace(l.Source))
		style := excelize.DataValidationErrorStyleWarning
		if l.Strict {
			style = excelize.DataValidationErrorStyleStop
		}
		v.SetError(style, l.Title, l.Prompt)
		if l.Hint != "" {
			v.SetInput(l.Title, l.Hint)
		}
		if err := w.file.AddDataValidation(w.sheet.Name, v); err != nil {
			return fmt.Errorf("list on %q: %w", l.Range, err)
		}
	}
	return nil
}

// bounds lets cells take numbers only.
func (w *sheetWriter) bounds() error {
	for _, b := range w.sheet.Bounds {
		v := excelize.NewDataValidation(true)
		v.Sqref = b.Range
		err := v.SetRange(b.Least.InexactFloat64(), b.Most.InexactFloat64(), excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
		if err != nil {
			return fmt.Errorf("bound on %q: %w", b.Range, err)
		}
		v.SetError(excelize.DataValidationErrorStyleStop, b.Title, b.Prompt)
		if b.Hint != "" {
			v.SetInput(b.Title, b.Hint)
		}
		if err := w.file.AddDataValidation(w.sheet.Name, v); err != nil {
			return fmt.Errorf("bound on %q: %w", b.Range, err)
		}
	}
	return nil
}

// markup escapes what XML would take for its own.
var markup = strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;")

// notes sets the notes, in the order of their cells. Their places and sizes
// are set when the file is packed.
func (w *sheetWriter) notes() error {
	for _, n := range sortedNotes(w.sheet.Notes) {
		err := w.file.AddComment(w.sheet.Name, excelize.Comment{
			Cell: n.Cell, Author: program,
			Paragraph: []excelize.RichTextRun{{Text: n.Text, Font: &excelize.Font{Family: face, Size: noteSize}}},
		})
		if err != nil {
			return fmt.Errorf("note on cell %s: %w", n.Cell, err)
		}
	}
	return nil
}

// sortedNotes are notes by row, then column.
func sortedNotes(notes []grid.Note) []grid.Note {
	sorted := slices.Clone(notes)
	slices.SortStableFunc(sorted, func(a, b grid.Note) int {
		ac, ar, _ := parseCell(a.Cell)
		bc, br, _ := parseCell(b.Cell)
		if ar != br {
			return ar - br
		}
		return ac - bc
	})
	return sorted
}

// protect locks all but the open cells against slips of the hand. There is no
// password: it is no security. Selecting, widths and heights stay free.
func (w *sheetWriter) protect() error {
	if !w.sheet.Locked {
		return nil
	}
	return w.file.ProtectSheet(w.sheet.Name, &excelize.SheetProtectionOptions{
		SelectLockedCells: true, SelectUnlockedCells: true, FormatColumns: true, FormatRows: true,
		AutoFilter: w.sheet.Filter != "",
	})
}

// extent is the range a sheet's cells take up, "" for none.
func extent(s *grid.Sheet) string {
	cols := 0
	for _, row := range s.Rows {
		cols = max(cols, len(row.Cells))
	}
	if cols == 0 {
		return ""
	}
	return "A1:" + cellName(cols, len(s.Rows))
}

// quoted is a sheet's name as it stands in a reference.
func quoted(name string) string { return "'" + strings.ReplaceAll(name, "'", "''") + "'" }
