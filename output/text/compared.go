package text

import (
	"fmt"
	"io"
	"slices"
	"strings"

	"futtock/estimate/quotes"
	"futtock/rates/money"
)

// alike is how many findings of one kind the terminal shows each for itself; the
// workbook has them all.
const alike = 3

// Compared writes what a comparison comes to: the quotes in the order of their
// levelled figures, and what is to be asked of each.
func Compared(w io.Writer, c quotes.Comparison) {
	fmt.Fprintf(w, "%s, tender %s: %s\n\n", c.Sent.Vessel, c.Sent.Reference, quotesOf(len(c.Offers)))
	fmt.Fprintf(w, "  %-34s %15s %15s %15s %15s %7s %7s %6s\n", "", "as tendered", "corrected", "before VAT", "levelled", "marks", "weeks", "was")
	for _, i := range Ranked(c) {
		o := c.Offers[i]
		weeks := "-"
		if o.Weeks.Known {
			weeks = o.Weeks.Weeks.String()
		}
		fmt.Fprintf(w, "  %d %s %15s %15s %15s %15s %7s %7s %6d\n", o.RankAfter, fitted(o.Name, 32), o.AsTendered.Grouped(), o.Corrected.Grouped(),
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

// found lists what is amiss with one quote, each kind once where there is much of it.
func found(w io.Writer, o quotes.Offer) {
	if len(o.Findings) == 0 {
		fmt.Fprintf(w, "\n  %s: nothing amiss\n", o.Name)
		return
	}
	fmt.Fprintf(w, "\n  %s, %s\n", o.Name, o.Book)
	count := map[quotes.FindingKind]int{}
	for _, f := range o.Findings {
		count[f.Kind]++
	}
	told := map[quotes.FindingKind]bool{}
	for _, f := range o.Findings {
		n := count[f.Kind]
		if told[f.Kind] && n > alike {
			continue
		}
		told[f.Kind] = true
		at := f.At
		at.Book = ""
		fmt.Fprintf(w, "    %s: %s%s\n", at, f.Text, worth(f.Worth))
		if n > alike {
			fmt.Fprintf(w, "      and %d more such [%s]\n", n-1, f.Kind)
		}
	}
}

func worth(a money.Amount) string {
	if a.IsZero() {
		return ""
	}
	return " (" + signed(a) + ")"
}

// signed is a sum with its sign before it.
func signed(a money.Amount) string {
	if a.Sign() > 0 {
		return "+" + a.Grouped()
	}
	return a.Grouped()
}
