package sheets

import (
	"futtock/estimate/quotes"
	"futtock/templates/grid"
)

// ComparisonInBrief is a comparison laid out as one of very many lines is.
func ComparisonInBrief(c quotes.Comparison) *grid.Book { return compare(c, true) }
