package xlsx

import (
	"encoding/xml"
	"fmt"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// formula reads the formula of a cell. One filled down (t="shared") stands in
// full in its first cell alone; the cells below are given that first formula,
// so that they too count as reckoned.
func (r *sheetReader) formula(w *walker, t xml.StartElement, s *stored) error {
	text, err := w.chars()
	if err != nil {
		return err
	}
	s.formula = strings.TrimPrefix(strings.TrimSpace(text), "=")
	switch attr(t, "t") {
	case "shared":
		n, err := strconv.Atoi(attr(t, "si"))
		if err != nil {
			return damaged("it holds a filled-down formula without its number")
		}
		if s.formula == "" {
			if d, ok := r.shared[n]; ok {
				s.formula = d
				return nil
			}
			s.formula = "(filled down)"
			return nil
		}
		r.shared[n] = s.formula
		return r.kept.keep(64)
	case "array", "dataTable":
		if s.formula == "" {
			s.formula = "TABLE()"
		}
		from, to, _ := strings.Cut(attr(t, "ref"), ":")
		left, top, ok := parseCell(from)
		right, bottom, ok2 := parseCell(to)
		if !ok || !ok2 {
			return nil // one cell, or no range: there is nothing to spread
		}
		if r.arrays = append(r.arrays, array{top, left, bottom, right, s.formula}); len(r.arrays) > maxArrays {
			return fmt.Errorf("%w: it holds more than %d formulas that fill ranges side by side", ErrTooBig, maxArrays)
		}
	}
	return nil
}

// datum makes the cell of what the file has.
func (r *sheetReader) datum(s stored) (grid.Datum, error) {
	d := grid.Datum{Col: r.col, Formula: s.formula}
	if d.Formula == "" {
		for _, a := range r.arrays {
			if r.row >= a.top && r.row <= a.bottom && r.col >= a.left && r.col <= a.right {
				d.Formula = a.formula
			}
		}
	}
	switch s.kind {
	case "n":
		if raw := strings.TrimSpace(s.value); raw != "" {
			v, err := number(raw)
			if err != nil {
				return d, err
			}
			d.Kind, d.Raw, d.Value = grid.Number, raw, v
		}
	case "s":
		if s.value == "" {
			break
		}
		n, err := strconv.Atoi(strings.TrimSpace(s.value))
		if err != nil || n < 0 || n >= len(r.strs) {
			return d, damaged("it asks for text %q, and the workbook holds %d texts", clip(s.value), len(r.strs))
		}
		d.Raw = r.strs[n]
	case "str":
		d.Raw = unescape(s.value)
		if s.valued && d.Formula != "" {
			d.Kind = grid.Text // a formula may well come to no text at all
		}
	case "inlineStr":
		d.Raw = s.text
	case "b":
		switch strings.TrimSpace(s.value) {
		case "1", "true":
			d.Kind, d.Raw = grid.Bool, "1"
		case "0", "false":
			d.Kind, d.Raw = grid.Bool, "0"
		case "":
		default:
			return d, damaged("it holds %q where TRUE or FALSE belongs", clip(s.value))
		}
	case "e":
		if d.Raw = strings.TrimSpace(s.value); d.Raw != "" {
			d.Kind = grid.Fault
		}
	case "d":
		if d.Raw = strings.TrimSpace(s.value); d.Raw != "" {
			d.Kind = grid.Date
		}
	default:
		return d, damaged("it holds a cell of unknown kind %q", clip(s.kind))
	}
	if d.Kind == grid.Blank && d.Raw != "" {
		d.Kind = grid.Text
	}
	return d, r.format(&d, s.style)
}

// format sets the number format of a cell.
func (r *sheetReader) format(d *grid.Datum, style string) error {
	if style == "" || r.formats == nil || d.IsBlank() {
		return nil
	}
	n, err := strconv.Atoi(style)
	if err != nil || n < 0 || n >= len(r.formats) {
		return damaged("it asks for style %q, and the workbook holds %d styles", clip(style), len(r.formats))
	}
	d.Format = r.formats[n]
	return nil
}

// number reads a stored number at the 15 significant digits that spreadsheets
// hold to: 1.1499999999999999 is 1.15.
func number(raw string) (decimal.Decimal, error) {
	for _, c := range []byte(raw) {
		if (c < '0' || c > '9') && c != '.' && c != '-' && c != '+' && c != 'e' && c != 'E' {
			return decimal.Zero, damaged("it holds %q where a number belongs", clip(raw))
		}
	}
	v, err := strconv.ParseFloat(raw, 64)
	if err != nil {
		return decimal.Zero, damaged("it holds %q where a number belongs", clip(raw))
	}
	return decimal.NewFromString(strconv.FormatFloat(v, 'g', 15, 64))
}
