package main

import (
	"errors"
	"fmt"
	"slices"

	"github.com/spf13/pflag"

	"futtock/output/json"
	"futtock/output/text"
)

func checkCommand() command {
	c := command{
		name:  "check",
		args:  "YARD.xlsx...",
		short: "List every problem in a workbook, each with its cell",
		long: `Reads and prices each workbook without changing anything in it, and lists all
problems found: errors stop a price, warnings are likely slips, remarks are worth
knowing.

With --marked a copy is saved beside each workbook in which anything was found, as
YARD-marked.xlsx: every cell with a problem is coloured, red for errors, amber for
warnings, pale yellow for remarks, and has a note that says what was found, what is
wanted and what to do. A sheet Problems, put first, lists them all with a link to
each cell. All else is as it is in the workbook. Problems in a price book given with
--rates are marked in a copy of the price book. The next check --marked writes over
the copies it finds, and over nothing else: mend the cells in the workbook itself.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		rates := ratesFlag(set)
		marked := set.Bool("marked", false, "also save copies with notes on the cells that have problems")
		asJSON := set.Bool("json", false, "print the problems as JSON")
		return func(w world, args []string) int {
			if len(args) == 0 {
				return w.misuse(c, "which workbook?")
			}
			prices, err := openRates(*rates)
			if err != nil {
				return w.fail(err)
			}
			m := marking{inputs: slices.Clone(args), rates: *rates, prices: prices}
			read := priceOne
			if *marked {
				if err := m.confused(args); err != nil {
					return w.fail(err)
				}
				if *rates != "" {
					m.inputs = append(m.inputs, *rates)
				}
				read = bookKept
			}
			jobs := readAll(args, prices, read)
			if *marked {
				m.mark(jobs)
			}
			status := done
			doc := json.Priced{Schema: json.Schema}
			said := map[string]bool{}
			for _, p := range jobs {
				status = max(status, p.checkStatus())
				if *asJSON {
					doc.Jobs = append(doc.Jobs, p.checked())
					continue
				}
				w.tellCheck(p, *marked, said)
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

// checkStatus is the exit status a checked job asks for.
func (p priced) checkStatus() int {
	if p.unmarked != nil {
		return couldNot
	}
	return p.status()
}

// tellCheck shows a checked job on the terminal. Said is the files told of already: jobs
// have one price book.
func (w world) tellCheck(p priced, marked bool, said map[string]bool) {
	if p.err != nil {
		w.fail(p.err)
		return
	}
	text.Problems(w.Out, p.problems)
	fmt.Fprintf(w.Out, "%s: %s\n", p.path, text.Count(p.problems))
	for _, f := range p.files {
		if !said[f] {
			fmt.Fprintf(w.Out, "wrote %s\n", f)
		}
		said[f] = true
	}
	switch {
	case p.unmarked != nil:
		w.fail(p.unmarked)
	case marked && len(p.problems) == 0:
		fmt.Fprintf(w.Out, "no marked copy of %s is written: there is nothing to mark\n", p.path)
		if old := stale(p.path); old != "" {
			fmt.Fprintf(w.Out, "%s is of an earlier check\n", old)
		}
	}
}

// checked is the outcome of a check as it is written for other programs.
func (p priced) checked() json.Job {
	j := json.Job{Workbook: p.path, Problems: json.Problems(p.problems), Files: p.files}
	if err := errors.Join(p.err, p.unmarked); err != nil {
		j.Error = err.Error()
	}
	return j
}

func ratesFlag(set *pflag.FlagSet) *string {
	return set.String("rates", "", "the price book `BOOK.xlsx`, where price sheets are kept apart; what the job's own workbook has goes before it")
}
