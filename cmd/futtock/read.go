package main

import (
	"fmt"
	"io/fs"
	"time"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output"
	"futtock/output/pdf"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/wording"
	"futtock/templates/xlsx"
)

// priced is one workbook read and priced, or what stopped it.
type priced struct {
	path     string
	result   estimate.Result
	form     *estimate.Form                               // in place of result: a bill for others to price
	also     func(estimate.Result) ([]output.File, error) // makes what is written beside; nil where nothing is
	problems problem.List
	files    []string       // written
	err      error          // the world failed: the file could not be read
	book     *grid.Workbook // as it was read, where it is to be marked
	unmarked error          // why there is no marked copy
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

// plainly is an error of the operating system without its call: the file, and what is
// the matter with it.
func plainly(err error) error {
	if p, ok := err.(*fs.PathError); ok {
		return fmt.Errorf("%s: %w", p.Path, p.Err)
	}
	return err
}

// job is the job of the workbook.
func (p *priced) job() *job.Job {
	if p.form != nil {
		return &p.form.Job
	}
	return &p.result.Job
}

// priceOne prices a workbook that was opened, or says why it could not be. The work goes on past a problem, so
// that all of them are found in one go.
func priceOne(path string, book grid.Workbook, err error, prices *grid.Workbook) priced {
	return priceOn(path, book, err, prices, time.Time{})
}

// priceOn prices a workbook as if it were tendered on a day; a zero day is its own.
func priceOn(path string, book grid.Workbook, err error, prices *grid.Workbook, day time.Time) priced {
	if err != nil {
		return priced{path: path, err: plainly(err)}
	}
	j, b, list := templates.ReadOn(book, prices, day)
	r := estimate.Run(j, b)
	list.Follow(r.Problems)
	list.Follow(j.CheckClauses(wording.Standing))
	unprinted, err := pdf.Unprinted(j, b)
	if err != nil {
		return priced{path: path, err: err}
	}
	list.Follow(unprinted)
	return priced{path: path, result: r, problems: list.Sorted(templates.Order())}
}

// formOne makes the bill for others to price of a workbook that was opened, or says
// why it could not be. Only the density of timbers and whose the stock is are
// taken from a price book.
func formOne(path string, book grid.Workbook, err error, prices *grid.Workbook) priced {
	if err != nil {
		return priced{path: path, err: plainly(err)}
	}
	j, b, list := templates.ReadUnpriced(book, prices)
	f := estimate.Unpriced(j, b)
	list.Follow(f.Problems)
	list.Follow(j.CheckClauses(wording.Standing))
	return priced{path: path, form: &f, problems: list.Sorted(templates.Order())}
}
