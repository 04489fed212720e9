package main

import (
	"futtock/estimate"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// priced is one workbook read and priced, or what stopped it.
type priced struct {
	path     string
	result   estimate.Result
	problems problem.List
	files    []string // written
	err      error    // the world failed: the file could not be read
}

// openRates reads the price book kept apart, where one is named.
func openRates(path string) (*grid.Workbook, error) {
	if path == "" {
		return nil, nil
	}
	book, err := xlsx.Open(path)
	if err != nil {
		return nil, err
	}
	return &book, nil
}

// priceOne prices a workbook that was opened, or says why it could not be. The work goes on past a problem, so
// that all of them are found in one go.
func priceOne(path string, book grid.Workbook, err error, prices *grid.Workbook) priced {
	if err != nil {
		return priced{path: path, err: err}
	}
	j, b, list := templates.Read(book, prices)
	r := estimate.Run(j, b)
	list.Follow(r.Problems)
	return priced{path: path, result: r, problems: list.Sorted(templates.Order())}
}
