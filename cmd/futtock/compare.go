package main

import (
	"cmp"
	"fmt"
	"path/filepath"
	"slices"
	"strings"

	"github.com/shopspring/decimal"
	"github.com/spf13/pflag"

	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/output"
	"futtock/output/json"
	"futtock/output/pdf"
	"futtock/output/sheets"
	"futtock/output/text"
	"futtock/rates/money"
	"futtock/rates/problem"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// reading is how many quotes are opened at once: a hostile file may take much
// memory before it is refused, and many at once would take many times that.
const reading = 2

func compareCommand() command {
	c := command{
		name:  "compare",
		args:  "BILL.xlsx QUOTE.xlsx... [-d DIR]",
		short: "Examine returned quotes, level them and set them side by side",
		long: `BILL.xlsx is what the quotes are measured against: the priced bill, or the bill to
be priced as it went out. Each QUOTE.xlsx is that form filled in by a firm, or the
form of futtock new --quote into which you typed its letter. They are only read.
Writes, where <ref> is the tender reference,

  <ref>-comparison.xlsx  four figures for every line of every quote (as tendered,
                         corrected, levelled, and why), and questions for each firm
  <ref>-report.pdf       the tender report, its recommendation left open

both or neither. Levelling is for comparison only and changes no offer.

On the sheet "Client's figures" of the comparison you may say what a
qualification is worth to you and what a week on site costs you; the levelled
figures follow there, and here with --figures.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		t := flaggedTerms(set)
		dir := set.StringP("dir", "d", "", "write into `DIR`, made where it is missing (default: beside the bill)")
		figures := set.String("figures", "", "take what you typed into an earlier `COMPARISON.xlsx`")
		asJSON := set.Bool("json", false, "print the result as JSON")
		return func(w world, args []string) int {
			if len(args) < 2 {
				return w.misuse(c, "which bill, and which quotes?")
			}
			terms, err := t.terms(set)
			if err != nil {
				return w.misuse(c, err.Error())
			}
			cd, err := compareAll(args[0], args[1:], *figures, terms, set.Changed("gaps"), set.Changed("week"))
			if err != nil {
				return w.fail(err)
			}
			if err := cd.write(cmp.Or(*dir, filepath.Dir(args[0])), append(slices.Clone(args), *figures)); err != nil {
				return w.fail(err)
			}
			return w.compared(cd, args[0], *asJSON)
		}
	}
	return c
}

// flags of compare that say how quotes are compared.
type termFlags struct {
	errors, gaps, low                  *string
	week, discount, more, above, below *string
}

func flaggedTerms(set *pflag.FlagSet) termFlags {
	u := quotes.Usual()
	percent := func(name, usage string, p money.Percent) *string {
		return set.String(name, p.Decimal().String(), usage)
	}
	return termFlags{
		errors:   set.String("errors", string(u.Errors), "`RULE` where figures differ: rate (it governs), total (it stands), or report"),
		gaps:     set.String("gaps", string(u.Gaps), "`RULE` at which what a quote leaves out is priced: yardstick, mean or highest; mean where the bill has no prices"),
		low:      set.String("low", string(u.Low), "published `RULE` for prices so low that an explanation is asked: scotland, spain or none"),
		week:     set.String("week", "", "what a week on site costs you, an `AMOUNT`; without it weeks are shown and not priced"),
		discount: percent("discount", "`PERCENT` a year at which payments are discounted", u.Discount),
		more:     percent("more", "`PERCENT` more of a quantity, for what it would do to the order", u.More),
		above:    percent("above", "`PERCENT` above the bill or the middle quote from which a rate stands out", u.Above),
		below:    percent("below", "`PERCENT` below them from which it does", u.Below),
	}
}

// terms are those of the command line, or what is wrong with it.
func (f termFlags) terms(set *pflag.FlagSet) (quotes.Terms, error) {
	t := quotes.Terms{Errors: quotes.ErrorRule(*f.errors), Gaps: quotes.GapRule(*f.gaps), Low: quotes.LowRule(*f.low)}
	if !slices.Contains(quotes.ErrorRules(), t.Errors) {
		return t, fmt.Errorf("--errors is rate, total or report, not %q", *f.errors)
	}
	if !slices.Contains(quotes.GapRules(), t.Gaps) {
		return t, fmt.Errorf("--gaps is yardstick, mean or highest, not %q", *f.gaps)
	}
	if !slices.Contains(quotes.LowRules(), t.Low) {
		return t, fmt.Errorf("--low is scotland, spain or none, not %q", *f.low)
	}
	if *f.week != "" {
		week, err := money.ParseAmount(*f.week)
		if err != nil || week.Sign() < 0 {
			return t, fmt.Errorf("--week is a sum of money such as 850 or 850.50, not %q", *f.week)
		}
		t.Week = week
	}
	for _, p := range []struct {
		name string
		text *string
		most int64
		to   *money.Percent
	}{{"discount", f.discount, 100, &t.Discount}, {"more", f.more, 1000, &t.More}, {"above", f.above, 1000, &t.Above}, {"below", f.below, 100, &t.Below}} {
		d, err := decimal.NewFromString(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(*p.text), "%")))
		if err != nil || d.Sign() < 0 || d.GreaterThan(decimal.New(p.most, 0)) {
			return t, fmt.Errorf("--%s is a percentage from 0 to %d, not %q", p.name, p.most, *p.text)
		}
		*p.to = money.NewPercent(d)
	}
	return t, nil
}

// compared is quotes read and compared, or the problems that stopped it.
type compared struct {
	comparison quotes.Comparison
	problems   problem.List
	files      []string // written
}

// compareAll reads a bill, quotes and figures given for them, and compares. An
// error is a file that cannot be read.
func compareAll(bill string, returned []string, figures string, t quotes.Terms, gapsSaid, weekSaid bool) (compared, error) {
	var out compared
	book, err := xlsx.Open(bill)
	if err != nil {
		return out, err
	}
	sent, found := offer.Sent(book)
	out.problems.Join(found)
	if found.HasErrors() {
		return out, nil
	}
	if !gapsSaid && !sent.Priced {
		t.Gaps = quotes.AtMean
	}
	if figures != "" {
		book, err := xlsx.Open(figures)
		if err != nil {
			return out, err
		}
		week, given, found := offer.Figures(book)
		out.problems.Join(found)
		t.Figures = given
		if !weekSaid {
			t.Week = week
		}
	}
	read, found, err := readQuotes(returned, sent)
	if err != nil {
		return out, err
	}
	out.problems.Join(found)
	if out.problems.HasErrors() {
		return out, nil
	}
	out.comparison, found = quotes.Compare(sent, read, t)
	out.problems.Join(found)
	return out, nil
}

// readQuotes reads quotes, a few side by side, in the order given.
func readQuotes(paths []string, sent quotes.Sent) ([]quotes.Quote, problem.List, error) {
	out, lists, errs := make([]quotes.Quote, len(paths)), make([]problem.List, len(paths)), make([]error, len(paths))
	sideBySide(len(paths), reading, func(i int) {
		book, err := xlsx.Open(paths[i])
		if err != nil {
			errs[i] = err
			return
		}
		out[i], lists[i] = offer.Quote(book, sent)
	})
	var found problem.List
	for i, err := range errs {
		if err != nil {
			return nil, nil, err
		}
		found.Join(lists[i])
	}
	return out, found, nil
}

// write writes the documents of a comparison without errors, all or none.
func (c *compared) write(dir string, inputs []string) error {
	if c.problems.HasErrors() {
		return nil
	}
	files, err := c.documents()
	if found := overflowed(err); len(found) > 0 {
		c.problems.Join(found)
		return nil
	}
	if err != nil {
		return err
	}
	if err := output.Save(dir, files, slices.DeleteFunc(inputs, func(s string) bool { return s == "" })...); err != nil {
		return err
	}
	for _, f := range files {
		c.files = append(c.files, filepath.Join(dir, f.Name))
	}
	return nil
}

// documents are the comparison workbook and the tender report, made side by side.
func (c *compared) documents() ([]output.File, error) {
	ref := c.comparison.Sent.Reference
	files := []output.File{{Name: ref + "-comparison.xlsx"}, {Name: ref + "-report.pdf"}}
	var errs [2]error
	sideBySide(2, 2, func(i int) {
		if i == 0 {
			files[i].Data, errs[i] = workbook(job.Job{Book: c.comparison.Sent.Book}, "comparison", sheets.Comparison(c.comparison))
			return
		}
		files[i].Data, errs[i] = pdf.Report(c.comparison)
	})
	for i, what := range []string{"the comparison", "the report"} {
		if errs[i] != nil {
			return nil, fmt.Errorf("%s: %w", what, errs[i])
		}
	}
	return files, nil
}

// compared shows a comparison, or what stopped it.
func (w world) compared(c compared, bill string, asJSON bool) int {
	status := done
	if c.problems.HasErrors() {
		status = problems
	}
	if asJSON {
		doc := json.OfComparison(c.comparison, c.problems)
		doc.Bill, doc.Files = bill, c.files
		return max(status, w.print(doc))
	}
	if status != done {
		text.Problems(w.Err, c.problems)
		fmt.Fprintf(w.Err, "futtock: %s; nothing was written\n", text.Count(c.problems))
		return status
	}
	text.Compared(w.Out, c.comparison)
	if len(c.problems) > 0 {
		fmt.Fprintf(w.Out, "\n  Remarks\n")
		text.Problems(w.Out, c.problems)
	}
	fmt.Fprintln(w.Out)
	for _, f := range c.files {
		fmt.Fprintf(w.Out, "wrote %s\n", f)
	}
	return status
}
