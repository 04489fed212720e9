package templates

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// What readers of other workbooks than the yard's share with this one: they
// meet the same careless typing.

// HeadingRows is how far down a sheet its headings are looked for.
const HeadingRows = headingRows

// Single is text as it was meant, on one line: marks that cannot be seen left
// out, spaces single.
func Single(s string) string { return single(s) }

// Tidy is text as it was meant, its line breaks kept.
func Tidy(s string) string { return tidy(s) }

// Folded is a heading, a choice or a sheet's name as it is compared.
func Folded(s string) string { return fold(s) }

// Shown is what a cell holds, as a message quotes it.
func Shown(d grid.Datum, date1904 bool) string { return shown(d, date1904) }

// IsDate reports a cell that shows a date or a time.
func IsDate(d grid.Datum) bool { return isDate(d) }

// IsShare reports a number that shows as a percentage: 0.05 as 5 %.
func IsShare(d grid.Datum) bool { return d.Kind == grid.Number && lookOf(d.Format).percent }

// DayIn is the date in a cell, or why it is none.
func DayIn(d grid.Datum, date1904 bool) (time.Time, error) { return dayOf(d, date1904) }

// ShareIn is the fraction that a cell's text says as a percentage: 0.05 of 5 %.
func ShareIn(text string) (decimal.Decimal, bool) {
	bare := percentSign.ReplaceAllString(single(text), "")
	if bare == single(text) {
		return decimal.Decimal{}, false
	}
	n, err := numberOf(grid.Datum{Kind: grid.Text}, bare)
	return n.Shift(-2), err == nil
}

// IsReference reports a tender reference that can begin the name of a file.
func IsReference(s string) bool { return referenceForm.MatchString(s) }
