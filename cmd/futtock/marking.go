package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"reflect"

	"futtock/output"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// marking saves marked copies of the workbooks that were checked.
type marking struct {
	inputs []string       // everything the run has read
	rates  string         // the price book kept apart, "" for none
	prices *grid.Workbook // as it was read
}

// mark saves a copy beside each job's workbook, and beside the price book, that has
// problems of its own. What it wrote, or why it could not, is put down with the jobs.
func (m marking) mark(jobs []priced) {
	var book problem.List
	var of []*priced
	for i := range jobs {
		p := &jobs[i]
		if p.err != nil {
			continue
		}
		own, others := m.apart(*p)
		if len(own) > 0 {
			p.marked(m.save(p.path, *p.book, own))
		}
		if len(others) > 0 {
			of = append(of, p)
			book = append(book, others...)
		}
	}
	if len(book) == 0 {
		return
	}
	path, err := m.save(m.rates, *m.prices, book.Sorted(templates.Order()))
	for _, p := range of {
		p.marked(path, err)
	}
}

// marked puts down what came of marking.
func (p *priced) marked(path string, err error) {
	if err != nil {
		p.unmarked = errors.Join(p.unmarked, err)
		return
	}
	p.files = append(p.files, path)
}

// apart is the problems of a job's own workbook and those of the price book.
func (m marking) apart(p priced) (own, others problem.List) {
	for _, f := range p.problems {
		if m.prices != nil && f.At.Book == m.prices.Name && f.At.Book != p.book.Name {
			others = append(others, f)
		} else {
			own = append(own, f)
		}
	}
	return own, others
}

// confused says that a workbook and the price book have one name, so that it cannot be
// told whose a problem is.
func (m marking) confused(paths []string) error {
	for _, path := range paths {
		if m.rates != "" && filepath.Base(path) == filepath.Base(m.rates) && !samePlace(path, m.rates) {
			return fmt.Errorf("%s and %s have one name, and whose a problem is could not be told: name one of them otherwise", path, m.rates)
		}
	}
	return nil
}

// save saves the marked copy of a workbook and gives its path.
func (m marking) save(path string, book grid.Workbook, found problem.List) (string, error) {
	dir, file := filepath.Split(path)
	if of := templates.MarkedOf(book); of != "" {
		return "", fmt.Errorf("%s is itself a marked copy, and is not marked again: mark %s, which it was made of", path, of)
	}
	to := filepath.Join(dir, templates.MarkedName(file))
	if err := ours(to); err != nil {
		return "", err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return "", err
	}
	// The file is read a second time, so that it need not be kept for all: it must be what was checked.
	again, err := xlsx.Read(book.Name, data)
	if err != nil {
		return "", err
	}
	if !reflect.DeepEqual(again, book) {
		return "", fmt.Errorf("%s %w; nothing is written, run it again", path, output.ErrChanged)
	}
	marks := templates.Marked(book, file, found)
	copied, err := xlsx.Mark(data, marks.Cells, marks.List)
	if err != nil {
		return "", fmt.Errorf("no marked copy of %s is written: %w", path, err)
	}
	return to, output.Save(filepath.Dir(to), []output.File{{Name: filepath.Base(to), Data: copied}}, m.inputs...)
}

// ours reports a file in the place of a marked copy that is none: it is not written over.
func ours(path string) error {
	if _, err := os.Stat(path); errors.Is(err, os.ErrNotExist) {
		return nil
	}
	book, err := xlsx.Open(path)
	if err == nil && templates.MarkedOf(book) != "" {
		return nil
	}
	return fmt.Errorf("%s is there and is not a marked copy, and is not written over: move it, or name it otherwise", path)
}

// stale is the marked copy of an earlier check, beside a workbook in which nothing is
// amiss now; "" for none.
func stale(path string) string {
	dir, file := filepath.Split(path)
	to := filepath.Join(dir, templates.MarkedName(file))
	book, err := xlsx.Open(to)
	if err != nil || templates.MarkedOf(book) == "" {
		return ""
	}
	return to
}

// bookKept is the work of readAll with the workbook kept beside what came of it.
func bookKept(path string, book grid.Workbook, err error, prices *grid.Workbook) priced {
	p := priceOne(path, book, err, prices)
	p.book = &book
	return p
}
