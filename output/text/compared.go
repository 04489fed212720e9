package text

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"futtock/estimate/quotes"
	"futtock/rates/money"
)

// asked is how many findings of one quote the terminal shows; the workbook has
// them all.
const asked = 12

// Compared writes what a comparison comes to: the quotes in the order of their
// levelled figures, and what is to be asked of each.
func Compared(w io.Writer, c quotes.Comparison) {
	fmt.Fprintf(w, "%s, tender %s: %s\n\n", c.Sent.Vessel, c.Sent.Reference, quotesOf(len(c.Offers)))
	fmt.Fprintf(w, "  %-30s %15s %15s %15s %15s %7s %7s %6s\n", "", "as tendered", "corrected", "before VAT", "levelled", "marks", "weeks", "was")
	for _, i := range Ranked(c) {
		o := c.Offers[i]
		weeks := "-"
		if o.Weeks.Known {
			weeks = o.Weeks.Weeks.String()
		}
		fmt.Fprintf(w, "  %d %-28s %15s %15s %15s %15s %7s %7s %6d\n", o.RankAfter, short(o.Name, 28), o.AsTendered.Grouped(), o.Corrected.Grouped(),
			o.Net.Grouped(), o.Levelled.Grouped(), o.Marks.StringFixed(2), weeks, o.RankBefore)
	}
	fmt.Fprintf(w, "\n  %s\n  %s\n", c.Terms.Errors.Meaning(), c.Terms.Gaps.Meaning())
	low(w, c)
	for _, o := range c.Offers {
		found(w, o)
	}
}

// Ranked are the offers by rank of their levelled figures.
func Ranked(c quotes.Comparison) []int {
	order := make([]int, len(c.Offers))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return c.Offers[a].RankAfter - c.Offers[b].RankAfter })
	return order
}

func quotesOf(n int) string {
	if n == 1 {
		return "1 quote"
	}
	return fmt.Sprintf("%d quotes", n)
}

// low names the quotes that a published rule would have explained.
func low(w io.Writer, c quotes.Comparison) {
	if !c.Low.Applies {
		return
	}
	var names []string
	for i, yes := range c.Low.Low {
		if yes {
			names = append(names, c.Offers[i].Name)
		}
	}
	if len(names) > 0 {
		fmt.Fprintf(w, "  Ask for an explanation of so low a price: %s\n", strings.Join(names, ", "))
	}
}

func found(w io.Writer, o quotes.Offer) {
	if len(o.Findings) == 0 {
		fmt.Fprintf(w, "\n  %s: nothing amiss\n", o.Name)
		return
	}
	fmt.Fprintf(w, "\n  %s\n", o.Name)
	for i, f := range o.Findings {
		if i == asked && len(o.Findings) > asked+1 {
			fmt.Fprintf(w, "    and %d more, in the comparison workbook\n", len(o.Findings)-asked)
			return
		}
		fmt.Fprintf(w, "    %s: %s [%s]%s\n", f.At, f.Text, f.Kind, worth(f.Worth))
	}
}

func worth(a money.Amount) string {
	if a.IsZero() {
		return ""
	}
	return " " + signed(a)
}

// signed is a sum with its sign before it.
func signed(a money.Amount) string {
	if a.Sign() > 0 {
		return "+" + a.Grouped()
	}
	return a.Grouped()
}

// short is a text no longer than so many letters.
func short(s string, n int) string {
	if r := []rune(s); len(r) > n {
		return string(r[:n-1]) + "…"
	}
	return s
}
