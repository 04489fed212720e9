package xlsx

import (
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"futtock/templates/grid"
)

// checkBook refuses what a file cannot hold, before anything is written.
func checkBook(book *grid.Book) error {
	if len(book.Sheets) == 0 {
		return fmt.Errorf("it has no sheets")
	}
	seen := make(map[string]bool)
	for _, s := range book.Sheets {
		key := strings.ToLower(s.Name)
		if seen[key] {
			return fmt.Errorf("two sheets are named %q", s.Name)
		}
		seen[key] = true
		if err := checkSheet(s); err != nil {
			return fmt.Errorf("sheet %q: %w", s.Name, err)
		}
	}
	names := make(map[string]bool)
	for _, n := range book.Names {
		key := strings.ToLower(n.Name)
		if names[key] {
			return fmt.Errorf("two ranges are named %q", n.Name)
		}
		names[key] = true
	}
	return nil
}

// checkSheet checks one sheet.
func checkSheet(s *grid.Sheet) error {
	if err := checkText(s.Name); err != nil {
		return err
	}
	if len(s.Rows) > lastRow {
		return fmt.Errorf("it has %d rows and the limit is %d", len(s.Rows), lastRow)
	}
	for i, c := range s.Columns {
		if c.Chars < 0 || fileWidth(c.Chars) > 255 {
			return fmt.Errorf("column %s is %g figures wide and the limit is 254", columnName(i+1), c.Chars)
		}
	}
	for i, row := range s.Rows {
		switch {
		case row.Height < 0 || row.Height > largestHeight:
			return fmt.Errorf("row %d is %g points high and the limit is %g", i+1, row.Height, largestHeight)
		case row.Level < 0 || row.Level > 7:
			return fmt.Errorf("row %d is at outline level %d and the limit is 7", i+1, row.Level)
		case len(row.Cells) > lastColumn:
			return fmt.Errorf("row %d has %d cells and the limit is %d", i+1, len(row.Cells), lastColumn)
		}
		for j, c := range row.Cells {
			if err := checkCell(c); err != nil {
				return fmt.Errorf("cell %s: %w", cellName(j+1, i+1), err)
			}
		}
	}
	if err := checkMerges(s); err != nil {
		return err
	}
	for _, c := range s.Charts {
		if err := checkChart(c); err != nil {
			return fmt.Errorf("chart %q: %w", c.Title, err)
		}
	}
	for _, i := range s.Images {
		if err := checkImage(i); err != nil {
			return fmt.Errorf("picture on cell %q: %w", i.Cell, err)
		}
	}
	return checkExtras(s)
}

// checkCell checks what one cell is to hold.
func checkCell(c grid.Cell) error {
	if size := sizeOf(c.Style.Font); size < smallestLetter || size > largestLetter {
		return fmt.Errorf("its letters are of %g points", size)
	}
	if c.Formula != "" {
		switch {
		case c.Kind == grid.Blank:
			return fmt.Errorf("its formula has no stored result")
		case strings.HasPrefix(c.Formula, "="):
			return fmt.Errorf("its formula begins with =, which the file does not want")
		case len(c.Formula) > grid.MostFormula:
			return fmt.Errorf("its formula is %d characters long and the limit is %d", len(c.Formula), grid.MostFormula)
		}
		if err := checkText(c.Formula); err != nil {
			return err
		}
	}
	switch c.Kind {
	case grid.Blank, grid.Bool:
	case grid.Text:
		return checkText(c.Text)
	case grid.Number:
		// The magnitude of the first digit: spreadsheets hold 1E-307 to 9E307.
		if at := int(c.Number.Exponent()) + c.Number.NumDigits() - 1; !c.Number.IsZero() && (at > 306 || at < -306) {
			return fmt.Errorf("the number is beyond what a cell can hold")
		}
	case grid.Date:
		if serial(c.Day) < 61 { // 1 March 1900
			return fmt.Errorf("spreadsheets cannot count days as early as %s; write it as text", c.Day.Format("2 January 2006"))
		}
		if c.Day.Year() > 9999 {
			return fmt.Errorf("spreadsheets cannot count days as late as the year %d", c.Day.Year())
		}
	default:
		return fmt.Errorf("cells of kind %d cannot be written", c.Kind)
	}
	return nil
}

// checkText refuses a text that would be cut or altered in the file.
func checkText(s string) error {
	if !utf8.ValidString(s) {
		return fmt.Errorf("its text is not proper UTF-8")
	}
	units := 0
	for _, r := range s {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF {
			return fmt.Errorf("its text holds the control character %U, which a file cannot", r)
		}
		units += utf16.RuneLen(r)
	}
	if units > lastUnits {
		return fmt.Errorf("its text is %d characters long and the limit is %d", units, lastUnits)
	}
	return nil
}

// checkMerges refuses merges that overlap or would hide what a cell holds.
func checkMerges(s *grid.Sheet) error {
	var spans []span
	for _, m := range s.Merges {
		r, ok := parseRange(m)
		if !ok || r.top == r.bottom && r.left == r.right {
			return fmt.Errorf("%q is not a range to merge", m)
		}
		for _, o := range spans {
			if r.top <= o.bottom && o.top <= r.bottom && r.left <= o.right && o.left <= r.right {
				return fmt.Errorf("the merge %q overlaps another", m)
			}
		}
		spans = append(spans, r)
		for row := r.top; row <= min(r.bottom, len(s.Rows)); row++ {
			cells := s.Rows[row-1].Cells
			for col := r.left; col <= min(r.right, len(cells)); col++ {
				if first := row == r.top && col == r.left; !first && cells[col-1].Kind != grid.Blank {
					return fmt.Errorf("cell %s would be hidden by the merge %q", cellName(col, row), m)
				}
			}
		}
	}
	return nil
}

// checkExtras checks lists, notes, shades and the print set-up.
func checkExtras(s *grid.Sheet) error {
	for _, l := range s.Lists {
		if _, ok := parseRange(l.Range); !ok {
			return fmt.Errorf("%q is not a range for a list", l.Range)
		}
		if l.Source == "" {
			return fmt.Errorf("the list on %s reads no range", l.Range)
		}
		for _, text := range []string{l.Prompt, l.Hint} {
			if err := checkMessage("list on "+l.Range, l.Title, text); err != nil {
				return err
			}
		}
	}
	for _, b := range s.Bounds {
		if _, ok := parseRange(b.Range); !ok || b.Least.GreaterThan(b.Most) {
			return fmt.Errorf("%q from %s to %s is not a range for numbers", b.Range, b.Least, b.Most)
		}
		for _, text := range []string{b.Prompt, b.Hint} {
			if err := checkMessage("bound on "+b.Range, b.Title, text); err != nil {
				return err
			}
		}
	}
	noted := make(map[string]bool)
	for _, n := range s.Notes {
		if _, _, ok := parseCell(n.Cell); !ok {
			return fmt.Errorf("%q is not a cell for a note", n.Cell)
		}
		if noted[n.Cell] {
			return fmt.Errorf("cell %s has two notes", n.Cell)
		}
		noted[n.Cell] = true
		if err := checkText(n.Text); err != nil {
			return fmt.Errorf("note on cell %s: %w", n.Cell, err)
		}
	}
	for _, sh := range s.Shades {
		if _, ok := parseRange(sh.Range); !ok || sh.Formula == "" || sh.Fill == "" {
			return fmt.Errorf("the shade of %q lacks a range, formula or fill", sh.Range)
		}
	}
	if s.Filter != "" {
		if _, ok := parseRange(s.Filter); !ok {
			return fmt.Errorf("%q is not a range for a filter", s.Filter)
		}
	}
	for _, row := range s.Print.Breaks {
		if row < 2 || row > lastRow {
			return fmt.Errorf("no page can break before row %d", row)
		}
	}
	return nil
}

// checkMessage refuses a message that a file cannot hold.
func checkMessage(of, title, text string) error {
	if n := len(utf16.Encode([]rune(title))); n > 32 {
		return fmt.Errorf("the title of the %s is %d characters long and the limit is 32", of, n)
	}
	if n := len(utf16.Encode([]rune(text))); n > 255 {
		return fmt.Errorf("the message of the %s is %d characters long and the limit is 255", of, n)
	}
	return nil
}

// parseRange reads a range such as A1:F9, or a single cell.
func parseRange(s string) (span, bool) {
	from, to, two := strings.Cut(s, ":")
	if !two {
		to = from
	}
	left, top, ok := parseCell(from)
	right, bottom, ok2 := parseCell(to)
	return span{top, left, bottom, right}, ok && ok2 && top <= bottom && left <= right
}
