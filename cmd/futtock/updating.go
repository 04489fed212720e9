package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"time"

	"futtock/estimate"
	"futtock/output"
	"futtock/output/json"
	"futtock/output/text"
	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/pricelist"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// updating is a yard workbook with a list set against it.
type updating struct {
	path     string
	data     []byte // of the workbook as it was read
	book     grid.Workbook
	prices   rates.Book
	currency string
	moves    []pricelist.Move
	next     []byte         // of the workbook with the new prices; nil where none change
	patched  *grid.Workbook // that, read again
	problems problem.List
}

// openYard reads the workbook whose prices are in question.
func openYard(path string) (updating, error) {
	data, err := xlsx.Load(path)
	if err != nil {
		return updating{}, err
	}
	return readYard(path, data)
}

func readYard(path string, data []byte) (updating, error) {
	u := updating{path: path, data: data}
	var err error
	if u.book, err = xlsx.Read(filepath.Base(path), data); err != nil {
		return u, err
	}
	u.prices, u.currency, u.problems = templates.ReadPrices(u.book)
	return u, nil
}

// largestList is how many bytes a list of plain text may have.
const largestList = 64 << 20

// openList reads a list: a workbook, or plain text where its name ends otherwise.
func openList(path string, f templates.ListForm) (grid.Workbook, error) {
	if strings.EqualFold(filepath.Ext(path), ".xlsx") {
		return xlsx.Open(path)
	}
	file, err := os.Open(path)
	if err != nil {
		return grid.Workbook{}, err
	}
	defer file.Close()
	// Counted as it is read: what another program pipes in has no size.
	data, err := io.ReadAll(io.LimitReader(file, largestList+1))
	if err != nil {
		return grid.Workbook{}, err
	}
	if len(data) > largestList {
		return grid.Workbook{}, fmt.Errorf("%s is larger than any price list, at more than %d MB", path, largestList>>20)
	}
	return templates.ListText(filepath.Base(path), data, f)
}

// match sets the list against the workbook, and makes the workbook that has the
// new prices. An error is a fault of this program, found before anything is written.
func (u *updating) match(list grid.Workbook, f templates.ListForm, t pricelist.Terms) error {
	lines, found := templates.PriceList(list, f)
	u.problems.Join(found)
	u.moves = pricelist.Match(&u.prices, lines, t)
	for _, m := range u.moves {
		if p, ok := leftOut(m); ok {
			u.problems.Add(p)
		}
	}
	u.problems = u.problems.Sorted(templates.Order())
	changes := templates.PriceChanges(u.book, u.moves)
	if u.problems.HasErrors() || len(changes) == 0 {
		return nil
	}
	next, err := xlsx.Patch(u.data, changes, templates.IsRead(u.book))
	var refusal *xlsx.Refusal
	if errors.As(err, &refusal) {
		u.problems.Add(refused(u.book.Name, refusal))
		return nil
	}
	if err != nil {
		return err
	}
	again, err := xlsx.Read(u.book.Name, next)
	if err != nil {
		return fmt.Errorf("the workbook with the new prices cannot be read again: %w; nothing is written", err)
	}
	now, _, found := templates.ReadPrices(again)
	for _, p := range found {
		if p.Severity() == problem.Error {
			return fmt.Errorf("the workbook with the new prices, read again, has a problem: %s; nothing is written", p)
		}
	}
	should := pricelist.After(&u.prices, u.moves)
	if d := pricelist.Differ(&should, &now); d != "" {
		return fmt.Errorf("the workbook with the new prices, read again, does not hold them: %s; nothing is written", d)
	}
	u.next, u.patched = next, &again
	return nil
}

// leftOut is the problem of a line that is left out, where it is one of the line.
func leftOut(m pricelist.Move) (problem.Problem, bool) {
	code, at := problem.ListUnlike, m.Line.UnitAt
	switch m.State {
	case pricelist.Unlike:
	case pricelist.NoDay:
		code, at = problem.ListNoDay, m.Line.At
	case pricelist.Twice:
		code, at = problem.ListTwice, m.Line.PriceAt
	case pricelist.Several:
		code, at = problem.ListSheets, m.Line.At
	default:
		return problem.Problem{}, false
	}
	return problem.Problem{Code: code, At: at, With: m.Row, Text: fmt.Sprintf("%q: %s", m.Line.Key, m.Why)}, true
}

// refused is a refusal to change the workbook as a problem at its cell.
func refused(book string, r *xlsx.Refusal) problem.Problem {
	p := problem.Problem{Code: problem.WriteSealed, At: cellAt(book, r.Sheet, r.Cell), Text: "no price can be put in here: " + r.Detail}
	by := r.BySheet + "!" + r.By
	if r.By != "" {
		p.With = cellAt(book, r.BySheet, r.By)
	}
	switch r.Why {
	case xlsx.Reckoned:
		p.Code, p.Text = problem.WriteFormula, "the price here is the result of a formula, which is not written over"
	case xlsx.Occupied:
		p.Code, p.Text = problem.WriteRoom, "there is no room here for the new price: "+r.Detail
		if r.By != "" {
			p.Text += " in " + by
		}
	case xlsx.Dependent:
		p.Code, p.Text = problem.WriteDepends, fmt.Sprintf("the price here would change, and %s, which is read, is reckoned from it: its stored result would no longer be true", by)
	case xlsx.Untraceable:
		p.Code, p.Text = problem.WriteTrace, fmt.Sprintf("whether %s, which is read, is reckoned from this cell cannot be told because of %s", by, r.Detail)
	}
	return p
}

// cellAt is a cell by its name, or its whole sheet where the name is blank.
func cellAt(book, sheet, name string) origin.Cell {
	at := origin.Cell{Book: book, Sheet: sheet}
	for _, r := range name {
		if r >= 'A' && r <= 'Z' {
			at.Col = at.Col*26 + int(r-'A') + 1
		} else {
			at.Row = at.Row*10 + int(r-'0')
		}
	}
	return at
}

// affected is one job before and after the new prices.
type affected struct {
	path          string
	before, after priced
}

// failed is what stops either from being priced: the world, or problems.
func (a affected) failed() (priced, bool) {
	for _, p := range []priced{a.before, a.after} {
		if p.status() != done {
			return p, true
		}
	}
	return priced{}, false
}

// affect prices a job with the old prices and with the new. A job that is the
// workbook itself has its own; any other takes it for its price book.
func (u *updating) affect(path string, on time.Time) affected {
	a := affected{path: path}
	after := u.patched
	if after == nil {
		after = &u.book
	}
	if samePlace(path, u.path) {
		a.before = priceOn(path, u.book, nil, nil, on)
		a.after = priceOn(path, *after, nil, nil, on)
		return a
	}
	book, err := xlsx.Open(path)
	a.before = priceOn(path, book, err, &u.book, on)
	a.after = priceOn(path, book, err, after, on)
	return a
}

// rates does the whole command.
func (w world) rates(c command, a asked) int {
	u, err := openYard(a.yard)
	if err != nil {
		return w.fail(err)
	}
	if !u.problems.HasErrors() {
		form, terms, err := a.form(&u.prices, u.currency)
		if err != nil {
			return w.misuse(c, err.Error())
		}
		list, err := openList(a.list, form)
		if err == nil {
			err = u.match(list, form, terms)
		}
		if err != nil {
			return w.fail(err)
		}
		for _, k := range a.confirmed {
			if !slices.ContainsFunc(u.moves, func(m pricelist.Move) bool { return rates.Same(k, m.Key) }) {
				return w.misuse(c, fmt.Sprintf("--confirm %q: no line of the list is of that key", k))
			}
		}
	}
	var jobs []affected
	if !u.problems.HasErrors() {
		for _, path := range a.jobs {
			jobs = append(jobs, u.affect(path, a.on))
		}
	}
	status := done
	if u.problems.HasErrors() {
		status = problems
	}
	for _, j := range jobs {
		if p, failed := j.failed(); failed {
			status = max(status, p.status())
		}
	}
	backup := ""
	if a.write && status == done && u.next != nil {
		if backup, err = output.Replace(u.path, u.data, u.next); err != nil {
			return w.fail(err)
		}
	}
	if a.json {
		return max(status, w.print(u.json(a, jobs, backup)))
	}
	w.showUpdate(u, a, jobs, backup)
	return status
}

// showUpdate shows it on the terminal.
func (w world) showUpdate(u updating, a asked, jobs []affected, backup string) {
	if u.problems.HasErrors() {
		text.Problems(w.Err, u.problems)
		fmt.Fprintf(w.Err, "futtock: %s: %s; nothing was written\n", u.path, text.Count(u.problems))
		return
	}
	text.Moves(w.Out, u.moves)
	if len(u.problems) > 0 {
		fmt.Fprintf(w.Out, "\n  Remarks\n")
		text.Problems(w.Out, u.problems)
	}
	stopped := false
	for _, j := range jobs {
		p, failed := j.failed()
		stopped = stopped || failed
		switch {
		case p.err != nil:
			w.fail(p.err)
		case failed:
			text.Problems(w.Err, p.problems)
			fmt.Fprintf(w.Err, "futtock: %s: %s; what the prices do to it cannot be told\n", j.path, text.Count(p.problems))
		default:
			text.Affected(w.Out, j.before.result, estimate.EffectOf(j.before.result, j.after.result))
		}
	}
	fmt.Fprintln(w.Out)
	switch {
	case backup != "":
		fmt.Fprintf(w.Out, "wrote %s; what it held is kept in %s\n", u.path, backup)
	case u.next == nil:
		fmt.Fprintf(w.Out, "no price changes; %s is as it was\n", u.path)
	case stopped:
		fmt.Fprintf(w.Err, "futtock: %s: nothing was written\n", u.path)
	default:
		fmt.Fprintf(w.Out, "nothing is written without --write\n")
	}
}

// json is the answer for other programs.
func (u updating) json(a asked, jobs []affected, backup string) json.Rates {
	doc := json.RatesOf(u.path, a.list, u.moves, u.problems)
	doc.Written, doc.Backup = backup != "", backup
	for _, j := range jobs {
		if p, failed := j.failed(); failed {
			doc.Jobs = append(doc.Jobs, json.Affected{Workbook: j.path, Problems: json.Problems(p.problems), Error: message(p.err)})
			continue
		}
		doc.Jobs = append(doc.Jobs, json.AffectedOf(j.path, j.before.result, estimate.EffectOf(j.before.result, j.after.result)))
	}
	return doc
}

func message(err error) string {
	if err == nil {
		return ""
	}
	return err.Error()
}
