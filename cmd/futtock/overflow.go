package main

import (
	"errors"

	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/rates/problem"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// overflow is a document that a spreadsheet has no room for, as problems of the
// workbook it was priced from.
type overflow struct{ found problem.List }

func (o overflow) Error() string { return o.found[0].String() }

// overflowed is the problems for which nothing was written, none where the
// world failed.
func overflowed(err error) problem.List {
	var o overflow
	errors.As(err, &o)
	return o.found
}

// workbook is a document as a file, or an overflow.
func workbook(j job.Job, document string, b *grid.Book) ([]byte, error) {
	if found := sheets.Overflow(j, document, b); len(found) > 0 {
		return nil, overflow{found}
	}
	return xlsx.Write(b)
}
