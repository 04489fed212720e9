package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/spf13/pflag"

	"futtock/estimate/cutting"
	"futtock/output/explain"
	"futtock/output/json"
	"futtock/output/text"
	"futtock/rates/problem"
)

func explainCommand() command {
	c := command{
		name:  "explain",
		args:  "YARD.xlsx REF | --timber",
		short: "Show how one figure is made up, down to its cells",
		long: `Prices the workbook without writing anything and takes one figure apart: the rate,
its costs, hours, timber and materials, how they were measured, and the prices
used, each with the cell it was typed in. REF is the Ref of a bill item, a row of
the schedule, a preliminary, a sum or a risk; a daywork, a stage or a section; a trade or
a line of stock; a fund; a letter of the summary from A to E, or what it is called there; VAT, net
or total; cash, for the months; or fabric, for what is kept of the old ship. Where REF names
several things, all of them are shown. With --timber and no REF: what the
timber would cost from one form of stock alone, and without each line that is bought.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		rates := ratesFlag(set)
		asJSON := set.Bool("json", false, "print the result as JSON")
		timber := set.Bool("timber", false, "the second-best purchases of timber, in the place of REF")
		return func(w world, args []string) int {
			switch len(args) {
			case 1 + ref(*timber):
			case 2:
				return w.misuse(c, "a Ref or --timber, one of them")
			case 0:
				return w.misuse(c, "which workbook, and which Ref?")
			case 1:
				return w.misuse(c, "which Ref of "+args[0]+"?")
			default:
				return w.misuse(c, "one workbook and one Ref; a Ref of several words goes in quotes")
			}
			if !*timber && strings.TrimSpace(args[1]) == "" {
				return w.misuse(c, "which Ref of "+args[0]+"?")
			}
			prices, err := openRates(*rates)
			if err != nil {
				return w.fail(err)
			}
			p := priceAll(args[:1], prices)[0]
			if p.err != nil {
				return w.fail(p.err)
			}
			what := func() []explain.Line {
				return explain.Seconds(p.result, cutting.Seconds(&p.result.Job, &p.result.Book, p.result.Takeoff, p.result.Plan))
			}
			if !*timber {
				what = func() []explain.Line { return explain.Of(p.result, args[1]) }
			}
			return w.explain(c, p, what, strings.Join(args[1:], ""), *asJSON)
		}
	}
	return c
}

// ref is how many Refs are wanted.
func ref(timber bool) int {
	if timber {
		return 0
	}
	return 1
}

// explain shows what a reference of a priced workbook names, or its timber.
func (w world) explain(c command, p priced, what func() []explain.Line, ref string, asJSON bool) int {
	stopped := p.problems.HasErrors()
	if stopped && !asJSON {
		text.Problems(w.Err, p.problems)
		fmt.Fprintf(w.Err, "futtock: %s: %s; nothing can be explained before the errors are cured\n", p.path, text.Count(p.problems))
		return problems
	}
	var lines []explain.Line
	if !stopped {
		if lines = what(); len(lines) == 0 && ref != "" {
			return w.misuse(c, unknown(p, ref))
		}
	}
	if asJSON {
		if s := w.print(json.Explain(p.path, p.result, p.problems, lines)); s != done {
			return s
		}
		return p.status()
	}
	text.Explained(w.Out, p.result, lines)
	return done
}

// unknown says that a reference names nothing, and what it may have been meant for.
func unknown(p priced, ref string) string {
	says := fmt.Sprintf("%q is no Ref of %s", ref, p.path)
	names := explain.Refs(p.result)
	var near []string
	for len(near) < 3 {
		n := problem.Nearest(ref, names)
		if n == "" {
			break
		}
		near = append(near, fmt.Sprintf("%q", n))
		names = slices.DeleteFunc(names, func(s string) bool { return s == n })
	}
	if len(near) == 0 {
		return says + "; a Ref of its sheets is wanted, a stage, a section, a trade, a line of stock, a fund, A to E, VAT, net, total, cash or fabric"
	}
	return says + "; did you mean " + strings.Join(near, ", ") + "?"
}
