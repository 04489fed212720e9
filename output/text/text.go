// Package text is what the terminal shows: the summary of a priced job, and
// the problems of a workbook.
package text

import (
	"fmt"
	"io"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/rates/problem"
	"futtock/templates/wording"
)

// Priced writes the summary of a priced job.
func Priced(w io.Writer, r estimate.Result) {
	b := r.Bill
	fmt.Fprintf(w, "%s, tender %s, %s\n\n", r.Job.Vessel, r.Job.Reference, r.Job.TenderDate.Format("2 January 2006"))
	var refs []string
	sums := []string{b.Net.Grouped(), b.Total.Grouped(), b.VATTotal.Grouped()}
	for _, s := range b.Sections {
		refs, sums = append(refs, s.Section), append(sums, s.Total.Grouped())
	}
	if b.Otherwise != nil {
		sums = append(sums, b.Otherwise.Total.Grouped())
	}
	l := summed(w, refs, sums)
	row := func(ref, text string, a money.Amount) { l.row(ref, text, a.Grouped()) }
	for _, s := range b.Sections {
		row(s.Section, s.Title, s.Total)
	}
	l.rule()
	row("A", "Measured work", b.Items)
	row("B", "Preliminaries", b.Prelims)
	row("C", "Sums and dayworks", b.SumsDayworks)
	if b.Contingency.Shown != "" && !b.Held.IsZero() {
		row("D", "Contingency", b.Held)
	}
	if !b.Rises.IsZero() {
		row("E", "Price rises", b.Rises)
	}
	l.rule()
	row("", "Net total", b.Net)
	for _, t := range b.VAT {
		row("", vatText(t), t.VAT)
	}
	row("", "Total, "+r.Job.Currency, b.Total)
	if b.Otherwise != nil {
		row("", "Total if the vessel did not qualify", b.Otherwise.Total)
	}
	within(w, r)
	timber(w, r.Plan)
	hours(w, r)
	programme(w, r)
	drawn(w, r.Contingency.Simulation)
	payments(w, r.Cash)
}

// within says what of the rates is contingency, where it stands in them.
func within(w io.Writer, r estimate.Result) {
	if r.Job.ContingencyShown == job.WithinRates && !r.Contingency.Total.IsZero() {
		fmt.Fprintf(w, "\n  Contingency within the rates %s\n", r.Contingency.Total.Grouped())
	}
}

// BeforeSending writes what the yard is to do before the tender goes out.
func BeforeSending(w io.Writer) {
	fmt.Fprintln(w)
	for _, l := range wording.BeforeSending() {
		fmt.Fprintln(w, l)
	}
}

// Unpriced writes what a bill for others to price has in it.
func Unpriced(w io.Writer, f estimate.Form) {
	fmt.Fprintf(w, "%s, tender %s, %s: to be priced by others\n\n", f.Job.Vessel, f.Job.Reference, f.Job.TenderDate.Format("2 January 2006"))
	var refs []string
	for _, s := range f.Bill.Sections {
		refs = append(refs, s.Section)
	}
	l, all := summed(w, refs, nil), 0
	count := func(ref, text string, lines []bill.FormLine) {
		if len(lines) > 0 {
			l.row(ref, text, linesOf(len(lines)))
		}
		all += len(lines)
	}
	for _, s := range f.Bill.Sections {
		count(s.Section, s.Title, s.Lines)
	}
	count("", "Preliminaries", f.Bill.Preliminaries)
	count("", "Sums", f.Bill.Sums)
	count("", "Dayworks", f.Bill.Dayworks)
	l.rule()
	l.row("", "Fingerprint "+f.Bill.Fingerprint, linesOf(all))
}

func linesOf(n int) string {
	if n == 1 {
		return "1 line"
	}
	return fmt.Sprintf("%d lines", n)
}

func vatText(t bill.Tax) string {
	return fmt.Sprintf("VAT %s, %s on %s", t.Code, t.Rate, t.Net.Grouped())
}

// timber sets timber bought against timber in the ship.
func timber(w io.Writer, p cutting.Plan) {
	if len(p.Species) == 0 {
		return
	}
	rows := [][]string{{"Timber, m3", "in the ship", "sawn", "bought", "yield", "cost", "gap"}}
	for _, s := range p.Species {
		rows = append(rows, []string{s.Timber, s.Net.StringFixed(3), s.Sawn.StringFixed(3), s.Bought.StringFixed(3), s.Yield.String(), s.Cost.Grouped(), gap(s.Bound)})
	}
	fmt.Fprintln(w)
	table(w, rows)
	bound(w, p)
}

// proven reports a bound of which something is proven, if only that nothing costs nothing.
func proven(b cutting.Bound) bool { return b.Least.Sign() > 0 || b.Cost.IsZero() }

// gap is how much less the timber could cost at the very most.
func gap(b cutting.Bound) string {
	if !proven(b) {
		return "unproven"
	}
	return b.Gap.Decimal().StringFixed(2) + " %"
}

// bound says what no order of the timber could cost less than, as far as it is
// proven, and of which timbers nothing is.
func bound(w io.Writer, p cutting.Plan) {
	b := p.Bound
	cost := b.Cost.Grouped()
	switch {
	case !proven(b):
		fmt.Fprintf(w, "  Bought for %s; what an order costs at least is not proven\n", cost)
		return
	case b.Least.Equal(b.Cost):
		fmt.Fprintf(w, "  Bought for %s; no order from this stock, sawn in whole sticks, can cost less\n", cost)
	default:
		fmt.Fprintf(w, "  Bought for %s; no order from this stock, sawn in whole sticks,\n  can cost less than %s (gap %s)\n", cost, b.Least.Grouped(), gap(b))
	}
	var without []string
	for _, s := range p.Species {
		if !proven(s.Bound) {
			without = append(without, s.Timber)
		}
	}
	if len(without) > 0 {
		said(w, fmt.Sprintf("Nothing is proven of %s, which counts as nothing in that", strings.Join(without, ", ")))
	}
}

func hours(w io.Writer, r estimate.Result) {
	trades := r.HoursByTrade()
	if len(trades) == 0 {
		return
	}
	rows := [][]string{{"Hours by trade", ""}}
	var all decimal.Decimal
	for _, h := range trades {
		rows = append(rows, []string{h.Trade, money.Group(h.Hours, 2)})
		all = all.Add(h.Hours)
	}
	fmt.Fprintln(w)
	table(w, append(rows, []string{"All trades", money.Group(all, 2)}))
}

// programme says how long the job takes and which stages govern it. A name is not broken
// between two lines.
func programme(w io.Writer, r estimate.Result) {
	if len(r.Programme.Stages) == 0 {
		return
	}
	var path []string
	for _, s := range r.Programme.CriticalPath() {
		path = append(path, strings.ReplaceAll(s.Stage.Stage, " ", "\u00a0"))
	}
	fmt.Fprintln(w)
	said(w, fmt.Sprintf("Time on site %s weeks; critical: %s", r.Programme.Weeks, strings.Join(path, ", ")))
}

// Problems writes problems one a line, errors, warnings and remarks together,
// each with its cure the first time its code comes up.
func Problems(w io.Writer, list problem.List) {
	seen := map[problem.Code]bool{}
	for _, p := range list {
		fmt.Fprintln(w, p)
		if cure := p.Code.Cure(); cure != "" && !seen[p.Code] && p.Severity() == problem.Error {
			fmt.Fprintf(w, "    %s\n", cure)
		}
		seen[p.Code] = true
	}
}

// Count says how many problems there are, in words: "2 errors, 1 warning".
func Count(list problem.List) string {
	var parts []string
	for _, s := range []problem.Severity{problem.Error, problem.Warning, problem.Remark} {
		switch n := list.Count(s); n {
		case 0:
		case 1:
			parts = append(parts, "1 "+s.String())
		default:
			parts = append(parts, fmt.Sprintf("%d %ss", n, s))
		}
	}
	if len(parts) == 0 {
		return "no problems"
	}
	return strings.Join(parts, ", ")
}
