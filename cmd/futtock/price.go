package main

import (
	"cmp"
	"fmt"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"sync"

	"github.com/spf13/pflag"

	"futtock/estimate"
	"futtock/output"
	"futtock/output/json"
	"futtock/output/pdf"
	"futtock/output/sheets"
	"futtock/output/text"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

func priceCommand() command {
	c := command{
		name:  "price",
		args:  "YARD.xlsx... [-d DIR]",
		short: "Price a workbook: bill, working, tender and timber order",
		long: `Reads each workbook, prices it, and writes, where <ref> is the tender reference,

  <ref>-bill.xlsx      the client's copy of the priced bill of quantities
  <ref>-estimate.xlsx  the yard's private working, every figure a live formula
  <ref>-tender.pdf     the tender, to be signed and sent
  <ref>-timber.pdf     the timber order with sawing drawings, for the sawmill
                       and the saw bench: no money in it

all of them or none. Nothing is written while a workbook has an error, and the
workbook itself is never changed. Several workbooks are priced side by side; one
that fails does not stop the rest.

With --unpriced nothing is priced, and only

  <ref>-unpriced.xlsx  the bill to be priced by others: rates open, totals live,
                       all else locked, nothing of the yard's prices in it

is written. The sheets Job, Sections, Members, Items, Preliminaries and Sums are
enough for it: missing build-ups, norms, stock and prices are then no problems.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		dir := set.StringP("dir", "d", "", "write into `DIR`, made where it is missing (default: beside each workbook)")
		unpriced := set.Bool("unpriced", false, "write only the bill to be priced by others, which needs no prices")
		rates := ratesFlag(set)
		asJSON := set.Bool("json", false, "print the result as JSON")
		return func(w world, args []string) int {
			if len(args) == 0 {
				return w.misuse(c, "which workbook?")
			}
			prices, err := openRates(*rates)
			if err != nil {
				return w.fail(err)
			}
			inputs := append([]string{}, args...)
			if *rates != "" {
				inputs = append(inputs, *rates)
			}
			read := priceOne
			if *unpriced {
				read = formOne
			}
			jobs := readAll(args, prices, read)
			parted(jobs, *dir)
			status := done
			doc := json.Priced{Schema: json.Schema}
			for i := range jobs {
				p := &jobs[i]
				p.write(cmp.Or(*dir, filepath.Dir(p.path)), inputs)
				status = max(status, p.status())
				if *asJSON {
					doc.Jobs = append(doc.Jobs, p.json())
					continue
				}
				w.tell(*p)
			}
			if *asJSON {
				if s := w.print(doc); s != done {
					return s
				}
			}
			return status
		}
	}
	return c
}

// priceAll prices workbooks side by side and returns them in the order given.
func priceAll(paths []string, prices *grid.Workbook) []priced {
	return readAll(paths, prices, priceOne)
}

// readAll is workbooks read and worked on side by side, in the order given.
func readAll(paths []string, prices *grid.Workbook, work func(path string, book grid.Workbook, err error, prices *grid.Workbook) priced) []priced {
	out := make([]priced, len(paths))
	// Files are opened one at a time: a hostile one may take much memory
	// before it is refused, and several at once would take several times that.
	var opening sync.Mutex
	sideBySide(len(paths), runtime.GOMAXPROCS(0), func(i int) {
		opening.Lock()
		book, err := xlsx.Open(paths[i])
		opening.Unlock()
		out[i] = work(paths[i], book, err, prices)
	})
	return out
}

// sideBySide does n pieces of work, no more than so many at once.
func sideBySide(n, most int, work func(i int)) {
	places := make(chan struct{}, most)
	var all sync.WaitGroup
	for i := range n {
		all.Go(func() {
			places <- struct{}{}
			defer func() { <-places }()
			work(i)
		})
	}
	all.Wait()
}

// parted stops jobs that would write over one another: two workbooks with one
// reference into one folder. A job that is stopped already is in nobody's way.
func parted(jobs []priced, dir string) {
	var ready []*priced
	for i := range jobs {
		if jobs[i].status() == done {
			ready = append(ready, &jobs[i])
		}
	}
	for _, a := range ready {
		for _, b := range ready {
			ref := a.job().Reference
			if a == b || !strings.EqualFold(ref, b.job().Reference) || dir == "" && !samePlace(filepath.Dir(a.path), filepath.Dir(b.path)) {
				continue
			}
			a.problems.Add(problem.Problem{Code: problem.ReferenceTwice, At: a.job().Cell("Tender reference"),
				Text: fmt.Sprintf("%q is also the tender reference of %s, whose documents would be written over", ref, b.path)})
		}
		a.problems = a.problems.Sorted(templates.Order())
	}
}

// samePlace reports whether two folders or files are one, however their paths are written.
func samePlace(a, b string) bool {
	x, err := os.Stat(a)
	if err != nil {
		return a == b
	}
	y, err := os.Stat(b)
	return err == nil && os.SameFile(x, y)
}

// documents makes everything that is written of a priced job: the client's
// copy of the bill, the yard's private working, the tender, and the timber order
// with its drawings.
func documents(r estimate.Result) ([]output.File, error) {
	bill, err := workbook(r.Job, "bill", sheets.Bill(r))
	if err != nil {
		return nil, fmt.Errorf("the bill: %w", err)
	}
	working, err := workbook(r.Job, "estimate", sheets.Estimate(r))
	if err != nil {
		return nil, fmt.Errorf("the working: %w", err)
	}
	tender, err := pdf.Tender(r)
	if err != nil {
		return nil, fmt.Errorf("the tender: %w", err)
	}
	timber, err := pdf.Timber(r)
	if err != nil {
		return nil, fmt.Errorf("the timber order: %w", err)
	}
	ref := r.Job.Reference
	return []output.File{
		{Name: ref + "-bill.xlsx", Data: bill},
		{Name: ref + "-estimate.xlsx", Data: working},
		{Name: ref + "-tender.pdf", Data: tender},
		{Name: ref + "-timber.pdf", Data: timber},
	}, nil
}

// formDocuments makes what is written of a bill for others to price.
func formDocuments(f estimate.Form) ([]output.File, error) {
	data, err := workbook(f.Job, "bill to be priced", sheets.Unpriced(f))
	if err != nil {
		return nil, fmt.Errorf("the bill to be priced: %w", err)
	}
	return []output.File{{Name: f.Job.Reference + "-unpriced.xlsx", Data: data}}, nil
}

// documents makes everything that is written of a job.
func (p *priced) documents() ([]output.File, error) {
	if p.form != nil {
		return formDocuments(*p.form)
	}
	files, err := documents(p.result)
	if err != nil || p.also == nil {
		return files, err
	}
	more, err := p.also(p.result)
	return append(files, more...), err
}

// write writes the documents of a job that has no errors, all of them or none.
func (p *priced) write(dir string, inputs []string) {
	if p.status() != done {
		return
	}
	files, err := p.documents()
	if err == nil {
		err = output.Save(dir, files, inputs...)
	}
	if found := overflowed(err); len(found) > 0 {
		p.problems.Join(found)
		p.problems = p.problems.Sorted(templates.Order())
		return
	}
	if err != nil {
		p.err = err
		return
	}
	for _, f := range files {
		p.files = append(p.files, filepath.Join(dir, f.Name))
	}
}

// status is the exit status a job asks for.
func (p priced) status() int {
	switch {
	case p.err != nil:
		return couldNot
	case p.problems.HasErrors():
		return problems
	}
	return done
}

func (p priced) json() json.Job {
	var j json.Job
	if p.form != nil {
		j = json.OfForm(p.path, *p.form, p.problems)
	} else {
		j = json.Of(p.path, p.result, p.problems)
	}
	j.Files = p.files
	if p.err != nil {
		j.Error = p.err.Error()
	}
	return j
}

// tell shows a job on the terminal.
func (w world) tell(p priced) {
	if p.err != nil {
		w.fail(p.err)
		return
	}
	if p.problems.HasErrors() {
		text.Problems(w.Err, p.problems)
		fmt.Fprintf(w.Err, "futtock: %s: %s; nothing was written\n", p.path, text.Count(p.problems))
		return
	}
	if p.form != nil {
		text.Unpriced(w.Out, *p.form)
	} else {
		text.Priced(w.Out, p.result)
	}
	if len(p.problems) > 0 {
		fmt.Fprintf(w.Out, "\n  Remarks\n")
		text.Problems(w.Out, p.problems)
	}
	fmt.Fprintln(w.Out)
	for _, f := range p.files {
		fmt.Fprintf(w.Out, "wrote %s\n", f)
	}
	if p.form == nil {
		text.BeforeSending(w.Out)
	}
}
