package main

import (
	"fmt"

	"github.com/spf13/pflag"

	"futtock/output/json"
	"futtock/output/text"
)

func checkCommand() command {
	c := command{
		name:  "check",
		args:  "YARD.xlsx...",
		short: "List every problem in a workbook, each with its cell",
		long: `Reads and prices each workbook without writing anything, and lists all problems
found: errors stop a price, warnings are likely slips, remarks are worth knowing.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		rates := ratesFlag(set)
		asJSON := set.Bool("json", false, "print the problems as JSON")
		return func(w world, args []string) int {
			if len(args) == 0 {
				return w.misuse(c, "which workbook?")
			}
			prices, err := openRates(*rates)
			if err != nil {
				return w.fail(err)
			}
			status := done
			doc := json.Priced{Schema: json.Schema}
			for _, p := range priceAll(args, prices) {
				status = max(status, p.status())
				if *asJSON {
					doc.Jobs = append(doc.Jobs, p.checked())
					continue
				}
				if p.err != nil {
					w.fail(p.err)
					continue
				}
				text.Problems(w.Out, p.problems)
				fmt.Fprintf(w.Out, "%s: %s\n", p.path, text.Count(p.problems))
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

// checked is the outcome of a check as it is written for other programs.
func (p priced) checked() json.Job {
	j := json.Job{Workbook: p.path, Problems: json.Problems(p.problems)}
	if p.err != nil {
		j.Error = p.err.Error()
	}
	return j
}

func ratesFlag(set *pflag.FlagSet) *string {
	return set.String("rates", "", "a price book kept apart, a workbook `BOOK.xlsx` with the sheets marked (R); rows of the job's own workbook go before its")
}
