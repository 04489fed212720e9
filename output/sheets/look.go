package sheets

import (
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// The look of every workbook futtock hands over: dark ink, one tint, rules
// rather than boxes, so that it reads the same in greyscale.
const (
	ink  = "1F2E3A"
	tint = "E6ECF0"
	grey = "5F6B73"
)

var (
	title     = grid.Style{Font: grid.Font{Bold: true, Size: 16, Colour: ink}}
	subtitle  = grid.Style{Font: grid.Font{Size: 11, Colour: grey}}
	label     = grid.Style{Font: grid.Font{Colour: grey}, Top: true, Align: grid.Right}
	plain     = grid.Style{Top: true}
	wrapped   = grid.Style{Top: true, Wrap: true, Align: grid.Left} // letters that run from the right do not stand by the figures
	remark    = grid.Style{Top: true, Wrap: true, Font: grid.Font{Italic: true, Colour: grey}}
	unprinted = grid.Style{Top: true, Indent: 1, Font: grid.Font{Italic: true, Colour: grey}} // beside what is printed: on one line, so that no printed row is the higher for it
	warned    = grid.Style{Top: true, Align: grid.Left, Font: grid.Font{Bold: true, Italic: true, Colour: ink}}
	heading   = grid.Style{Font: grid.Font{Bold: true, Colour: ink}, Fill: tint, Border: grid.Under, Wrap: true}
	headRow   = grid.Style{Font: grid.Font{Bold: true, Colour: ink}, Fill: tint, Border: grid.Under, Wrap: true, Align: grid.Right}
	band      = grid.Style{Font: grid.Font{Bold: true, Size: 11, Colour: ink}, Border: grid.Under}
	strong    = grid.Style{Font: grid.Font{Bold: true}, Border: grid.Over}
	grand     = grid.Style{Font: grid.Font{Bold: true, Size: 12}, Border: grid.Over | grid.Double}
)

// paperOf is what the sheets are set up to be printed on.
func paperOf(p job.Paper) grid.Paper {
	if p == job.Letter {
		return grid.Letter
	}
	return grid.A4
}

const moneyFormat = "#,##0.00;[Red]-#,##0.00"

// cash is a money cell of a style.
func cash(s grid.Style) grid.Style {
	s.Format = moneyFormat
	return s
}

// centred is a style with its text in the middle.
func centred(s grid.Style) grid.Style {
	s.Align = grid.Centre
	return s
}

// quantityStyle shows as many places as the unit is billed to.
func quantityStyle(u measure.Unit) grid.Style {
	s := plain
	s.Format = "#,##0"
	if n := u.Places(); n > 0 {
		s.Format += "." + strings.Repeat("0", int(n))
	}
	return s
}

// percentStyle shows a fraction as a percentage, as fine as it was given.
func percentStyle(s grid.Style, p money.Percent) grid.Style {
	s.Format = "0%"
	if n := -p.Decimal().Exponent(); n > 0 && !p.Decimal().Equal(p.Decimal().Truncate(0)) {
		s.Format = "0." + strings.Repeat("0", int(n)) + "%"
	}
	return s
}

func words(s string, style grid.Style) grid.Cell { return grid.Textual(s, style) }

func sum(a money.Amount, style grid.Style) grid.Cell { return grid.Numeric(a.Decimal(), cash(style)) }

func sumBy(formula string, a money.Amount, style grid.Style) grid.Cell {
	return grid.Reckoned(formula, a.Decimal(), cash(style))
}

// inCurrency shows the money of a cell with the sign of its currency.
func inCurrency(c grid.Cell, currency string) grid.Cell {
	sign := strings.ReplaceAll(wording.Sign(currency), `"`, "")
	if sign == currency {
		sign += "\u00a0"
	}
	c.Style.Format = `"` + sign + `"#,##0.00;[Red]-"` + sign + `"#,##0.00`
	return c
}

func percent(p money.Percent, style grid.Style) grid.Cell {
	return grid.Numeric(p.Fraction(), percentStyle(style, p))
}

func quantity(q decimal.Decimal, u measure.Unit) grid.Cell { return grid.Numeric(q, quantityStyle(u)) }

// blanks are empty cells that carry a style across a row.
func blanks(n int, style grid.Style) []grid.Cell {
	cells := make([]grid.Cell, n)
	for i := range cells {
		cells[i].Style = style
	}
	return cells
}
