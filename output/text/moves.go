package text

import (
	"fmt"
	"io"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/rates/money"
	"futtock/rates/pricelist"
)

// Moves writes what a list does to the price book: by sheet what changes, then
// what is held back, what is not matched, and how many of each there are.
func Moves(w io.Writer, moves []pricelist.Move) {
	count := map[pricelist.State]int{}
	for _, m := range moves {
		count[m.State]++
	}
	heads := fmt.Sprintf("  %-32s %12s %12s  %-5s %9s  %s\n", "", "old", "new", "unit", "change", "from")
	for _, sheet := range pricelist.Sheets() {
		first := true
		for _, m := range moves {
			if m.Sheet != sheet || !m.Writes() {
				continue
			}
			if first {
				fmt.Fprintf(w, "%s\n%s", sheet, heads)
				first = false
			}
			move(w, m)
		}
		if !first {
			fmt.Fprintln(w)
		}
	}
	if count[pricelist.Held] > 0 {
		fmt.Fprintf(w, "Held back, until confirmed with --confirm KEY\n%s", heads)
		for _, m := range moves {
			if m.State == pricelist.Held {
				move(w, m)
				fmt.Fprintf(w, "      %s\n", m.Why)
			}
		}
		fmt.Fprintln(w)
	}
	unmatched(w, moves)
	fmt.Fprintf(w, "%s: %d up, %d down, %d the same, %d held back, %d not matched", counted(len(moves), "line"),
		count[pricelist.Up], count[pricelist.Down], count[pricelist.Same], count[pricelist.Held], count[pricelist.Unmatched])
	if n := count[pricelist.Unlike] + count[pricelist.Twice] + count[pricelist.Several] + count[pricelist.NoDay]; n > 0 {
		fmt.Fprintf(w, ", %d left out", n)
	}
	fmt.Fprintln(w)
}

// mostStrangers is how many lines are shown that no key is near to: a list may
// hold thousands of things the yard never buys.
const mostStrangers = 20

// unmatched writes the lines whose key is not there, with the nearest that is.
func unmatched(w io.Writer, moves []pricelist.Move) {
	all, strangers := 0, 0
	for _, m := range moves {
		if m.State != pricelist.Unmatched {
			continue
		}
		if all++; all == 1 {
			fmt.Fprintf(w, "Not matched\n")
		}
		near := ""
		if m.Near != "" {
			near = fmt.Sprintf("; the nearest key is %q", m.Near)
		} else if strangers++; strangers > mostStrangers {
			continue
		}
		fmt.Fprintf(w, "  %s: %q%s\n", m.Line.At, m.Line.Key, near)
	}
	if more := strangers - mostStrangers; more > 0 {
		fmt.Fprintf(w, "  and %s that no key is near to; --json has them all\n", counted(more, "line"))
	}
	if all > 0 {
		fmt.Fprintln(w)
	}
}

func move(w io.Writer, m pricelist.Move) {
	name := m.Key
	if m.Column != "Price" {
		name += ", " + m.Column
	}
	old := "none"
	if !m.Fresh {
		old = figure(m, m.Old)
	}
	from := m.From.Format(time.DateOnly)
	switch {
	case m.From.IsZero() && m.Since.IsZero():
		from = "at once, in its cell"
	case m.From.IsZero():
		from = m.Since.Format(time.DateOnly) + ", in its cell"
	}
	fmt.Fprintf(w, "  %s %12s %12s  %-5s %9s  %s\n", fitted(name, 32), old, figure(m, m.New), m.Unit, changed(m), from)
	if m.How != "" {
		fmt.Fprintf(w, "      %s\n", m.How)
	}
}

// figure is a price of a move as it is printed.
func figure(m pricelist.Move, d decimal.Decimal) string {
	if m.Sheet == pricelist.VAT {
		return money.NewPercent(d).String()
	}
	return money.Group(d, max(2, -d.Exponent()))
}

func changed(m pricelist.Move) string {
	if m.Fresh || m.Old.IsZero() {
		return ""
	}
	sign := ""
	if m.Change.Decimal().Sign() > 0 {
		sign = "+"
	}
	return sign + m.Change.Decimal().StringFixed(1) + " %"
}

func counted(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// Affected writes what new prices do to a job.
func Affected(w io.Writer, before estimate.Result, e estimate.Effect) {
	fmt.Fprintf(w, "\n%s, tender %s, priced on %s, %s\n", before.Job.Vessel, before.Job.Reference, before.Job.TenderDate.Format(time.DateOnly), before.Job.Currency)
	fmt.Fprintf(w, "  %-32s %15s %15s %15s\n", "", "before", "after", "difference")
	for _, l := range []struct {
		text    string
		was, is money.Amount
	}{
		{"Cost, before additions", e.CostBefore, e.CostAfter},
		{"Net total", e.NetBefore, e.NetAfter},
		{"Total", e.TotalBefore, e.TotalAfter},
	} {
		fmt.Fprintf(w, "  %-32s %15s %15s %15s\n", l.text, l.was.Grouped(), l.is.Grouped(), l.is.Sub(l.was).Grouped())
	}
}

// Stale writes prices that are old on a day.
func Stale(w io.Writer, day time.Time, days int, old []pricelist.Old) {
	fmt.Fprintf(w, "Prices more than %d days old on %s\n", days, day.Format(time.DateOnly))
	var sheet pricelist.Sheet
	for _, o := range old {
		if o.Sheet != sheet {
			sheet = o.Sheet
			fmt.Fprintf(w, "\n%s\n", sheet)
		}
		price := ""
		if o.Column != "" {
			price = figure(pricelist.Move{Sheet: o.Sheet}, o.Price)
		}
		from, age := "no day", ""
		if !o.From.IsZero() {
			from, age = o.From.Format(time.DateOnly), counted(o.Days, "day")
		}
		fmt.Fprintf(w, "  %s %12s  %-5s %-10s %10s  %s\n", fitted(o.Key, 32), price, o.Unit, from, age, o.At.Sheet+"!"+o.At.Address())
	}
	if len(old) > 0 {
		fmt.Fprintln(w)
	}
	fmt.Fprintf(w, "%s\n", counted(len(old), "price"))
}
