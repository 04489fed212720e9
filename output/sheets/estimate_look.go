package sheets

import (
	"strings"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// The looks of the yard's working: a figure that is meant to be changed there,
// one that was solved for and only another run can choose anew, a word that
// leads elsewhere in the workbook, and words beside a figure.
var (
	input  = grid.Style{Top: true, Fill: "FFEFC2"}
	solved = grid.Style{Top: true, Font: grid.Font{Italic: true, Colour: grey}}
	jump   = grid.Style{Top: true, Wrap: true, Font: grid.Font{Colour: "24527A"}}
	beside = grid.Style{Top: true, Wrap: true, Indent: 1} // text to the right of a figure
	aside  = grid.Style{Top: true, Wrap: true, Indent: 1, Font: grid.Font{Italic: true, Colour: grey}}
)

// Number formats of the yard's working.
const (
	priceFormat  = "#,##0.00####" // as fine as it was quoted
	hoursFormat  = "#,##0.00"
	exactFormat  = "#,##0.0000"
	volumeFormat = "0.000000"
	countFormat  = "#,##0"
	dayFormat    = "d mmm yyyy"
)

// upright reports columns that can be read on paper standing up, where a page holds
// more than twice the rows: letters of ten points are then not put below 0.59. A
// column takes 5.56 points a figure, as LibreOffice draws them, and 0.71 of one is
// clear; the paper is 523 points across.
func upright(widths []float64) bool {
	const across, character, clear, least = 523, 5.56, 0.71, 0.59
	wide := 0.0
	for _, w := range widths {
		wide += (w + clear) * character
	}
	return across >= wide*least
}

// typed is a figure that may be changed.
func typed(d decimal.Decimal, format string) grid.Cell {
	s := input
	s.Format = format
	return grid.Numeric(d, s)
}

// chosen is a result of solving: it stays as priced until the job is run again.
func chosen(d decimal.Decimal, format string) grid.Cell {
	s := solved
	s.Format = format
	return grid.Numeric(d, s)
}

// figure is a figure as it was measured or given, not meant to be changed here.
func figure(d decimal.Decimal, format string) grid.Cell {
	s := plain
	s.Format = format
	return grid.Numeric(d, s)
}

// live is a formula with its result.
func live(formula string, d decimal.Decimal, format string) grid.Cell {
	s := plain
	s.Format = format
	return grid.Reckoned(formula, d, s)
}

// pennies takes the noise of binary fractions off a sum or difference of whole
// pennies, so that what is rounded from it falls as it does in decimals.
func pennies(formula string) string { return "ROUND(" + formula + ",2)" }

// fixed is a number format of so many places.
func fixed(places int32) string {
	if places == 0 {
		return countFormat
	}
	return countFormat + "." + strings.Repeat("0", int(places))
}

// asFine is a number format with as many places as the figure has, and no more
// than most.
func asFine(d decimal.Decimal, most int32) string {
	places := max(0, min(most, -d.Round(most).Exponent()))
	for places > 0 && d.Round(most).Equal(d.Round(places-1)) {
		places--
	}
	return fixed(places)
}

// heads are headings: to the right after >, in the middle after =, stood off a
// figure after <, else left.
func heads(names ...string) []grid.Cell {
	cells := make([]grid.Cell, len(names))
	for i, n := range names {
		style := heading
		if cut, ok := strings.CutPrefix(n, ">"); ok {
			n, style = cut, headRow
		} else if cut, ok := strings.CutPrefix(n, "="); ok {
			n, style = cut, centred(heading)
		} else if cut, ok := strings.CutPrefix(n, "<"); ok {
			n, style.Indent = cut, 1
		}
		cells[i] = words(n, style)
	}
	return cells
}
