package main

import (
	"cmp"
	"fmt"
	"path/filepath"

	"github.com/spf13/pflag"

	"futtock/estimate/changes"
	"futtock/output"
	"futtock/output/json"
	"futtock/output/sheets"
	"futtock/output/text"
	"futtock/rates/problem"
)

func changesCommand() command {
	c := command{
		name:  "changes",
		args:  "OLD.xlsx NEW.xlsx [-d DIR]",
		short: "What moved between two issues of a job, and what each move is worth",
		long: `Prices both workbooks and goes from the total of the old to that of the new in
steps that add up exactly. Parts of the new issue are taken over one after
another, always in this order, and the job is priced after each:

  members        rows of Members and Items put in, taken out or changed, with
                 what they name that the old issue does not have
  quantities     number, length and quantity of rows that stay
  norms          Build-ups, Norms and Fastenings
  pay            Labour
  timber prices  prices in Stock, for the sticks of the old issue
  timber planned anew, once: sizes in Stock, and Timber
  materials      Materials
  plant          Plant and Subcontract
  sums           Sums and Dayworks
  additions      overheads, profit, contingency, ranges, Risks, price rises
  programme      Stages, Gangs, Closures, stages of rows, Preliminaries
  VAT            the sheet, and its codes wherever they stand

Until timber is planned anew the sticks of the old issue are held: rows that are
new, larger or smaller bear their cost by what is sawn for them. A step that
cannot be priced before a later one is taken over is told of with that one.

Writes, where <ref> is the tender reference of the new issue,

  <ref>-changes.xlsx  the bridge with its chart, every change with both cells,
                      and every line of the bill that moved

Both workbooks must be free of errors and in one currency. Neither is changed.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		dir := set.StringP("dir", "d", "", "write into `DIR`, made where it is missing (default: beside the new workbook)")
		book := set.String("rates", "", "the price book `BOOK.xlsx` of both workbooks, where price sheets are kept apart")
		before := set.String("old-rates", "", "the price book `BOOK.xlsx` of the old workbook, where it had another")
		asJSON := set.Bool("json", false, "print the result as JSON")
		return func(w world, args []string) int {
			if len(args) != 2 {
				return w.misuse(c, "two workbooks are wanted, the old issue and the new")
			}
			now, err := openRates(*book)
			if err != nil {
				return w.fail(err)
			}
			was := now
			if *before != "" {
				if was, err = openRates(*before); err != nil {
					return w.fail(err)
				}
			}
			r := revised{old: priceAll(args[:1], was)[0], new: priceAll(args[1:], now)[0]}
			for _, p := range []priced{r.old, r.new} {
				if p.err != nil {
					return w.fail(p.err)
				}
			}
			inputs := append([]string{}, args...)
			for _, b := range []string{*book, *before} {
				if b != "" {
					inputs = append(inputs, b)
				}
			}
			r.reconcile()
			if r.status() == done {
				if err := r.write(cmp.Or(*dir, filepath.Dir(args[1])), inputs); err != nil {
					return w.fail(err)
				}
			}
			if *asJSON {
				if s := w.print(r.json()); s != done {
					return s
				}
				return r.status()
			}
			w.revised(r)
			return r.status()
		}
	}
	return c
}

// revised is two issues of a job, and what lies between them.
type revised struct {
	old, new priced
	bridge   changes.Bridge
	together problem.List // of the two beside each other
	files    []string     // written
}

// reconcile goes from the old issue to the new, where neither holds an error.
func (r *revised) reconcile() {
	if r.old.status() == done && r.new.status() == done {
		r.bridge, r.together = changes.Reconcile(r.old.result, r.new.result)
	}
}

// write writes the workbook of the bridge.
func (r *revised) write(dir string, inputs []string) error {
	data, err := workbook(r.new.result.Job, "changes", sheets.Changes(r.bridge))
	if found := overflowed(err); len(found) > 0 {
		r.together.Join(found)
		return nil
	}
	if err != nil {
		return err
	}
	name := r.new.result.Job.Reference + "-changes.xlsx"
	if err := output.Save(dir, []output.File{{Name: name, Data: data}}, inputs...); err != nil {
		return err
	}
	r.files = []string{filepath.Join(dir, name)}
	return nil
}

// status is the exit status the two ask for.
func (r *revised) status() int {
	if r.together.HasErrors() {
		return problems
	}
	return max(r.old.status(), r.new.status())
}

func (r *revised) json() json.Changed {
	doc := json.Stopped(r.old.path, r.new.path, r.old.problems, r.new.problems, r.together)
	if r.status() == done {
		doc = json.Reconciled(doc, r.bridge)
	}
	doc.Files = r.files
	return doc
}

// revised shows two issues on the terminal: their bridge, or what stops it.
func (w world) revised(r revised) {
	for _, p := range []priced{r.old, r.new} {
		if p.problems.HasErrors() {
			text.Problems(w.Err, p.problems)
			fmt.Fprintf(w.Err, "futtock: %s: %s; nothing was written\n", p.path, text.Count(p.problems))
		}
	}
	if r.together.HasErrors() {
		text.Problems(w.Err, r.together)
		fmt.Fprintf(w.Err, "futtock: %s and %s: %s; nothing was written\n", r.old.path, r.new.path, text.Count(r.together))
	}
	if r.status() != done {
		return
	}
	text.Changed(w.Out, r.bridge)
	if len(r.together) > 0 {
		fmt.Fprintf(w.Out, "\n  Remarks\n")
		text.Problems(w.Out, r.together)
	}
	fmt.Fprintln(w.Out)
	for _, f := range r.files {
		fmt.Fprintf(w.Out, "wrote %s\n", f)
	}
}
