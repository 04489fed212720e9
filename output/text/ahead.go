package text

import (
	"fmt"
	"io"
	"slices"

	"futtock/estimate/cash"
	"futtock/estimate/risk"
	"futtock/rates/money"
)

// drawn says what measured work and preliminaries come to in the draws of a
// simulated contingency, and how often they are enough with it.
func drawn(w io.Writer, s *risk.Simulation) {
	if s == nil {
		return
	}
	fmt.Fprintln(w)
	said(w, fmt.Sprintf("The work as drawn: P50 %s, P80 %s, P90 %s; the stated price is enough in %s of draws",
		s.P50.Grouped(), s.P80.Grouped(), s.P90.Grouped(), s.PriceEnough))
}

// payments says when the money comes in, and how much is outstanding at the most.
func payments(w io.Writer, c cash.Cash) {
	months := c.Months
	if g := c.MadeGood; g != nil && g.Month == len(months)-1 {
		months = months[:g.Month]
	}
	paid := slices.DeleteFunc(slices.Clone(months), func(m cash.Month) bool { return m.Received.IsZero() })
	if len(paid) == 0 {
		return
	}
	first, last := "in "+paid[0].Begins.Format("January 2006"), paid[len(paid)-1].Begins.Format("January 2006")
	if !c.Dated {
		first, last = fmt.Sprintf("by week %s", paid[0].To.StringFixed(1)), "week "+paid[len(paid)-1].To.StringFixed(1)
	}
	most := slices.MaxFunc(c.Months, func(a, b cash.Month) int { return a.Outstanding.Cmp(b.Outstanding) })
	fmt.Fprintf(w, "\n  Paid first %s, last %s; most outstanding %s\n", first, last, most.Outstanding.Grouped())
	if g := c.MadeGood; g != nil {
		on := "by week " + g.At.StringFixed(1)
		if c.Dated {
			on = "on " + g.On.Format("2 January 2006")
		}
		fmt.Fprintf(w, "  The last of the retention, %s, %s\n", c.AtMakingGood.Grouped(), on)
	}
	var deposits money.Amount
	for _, o := range c.Orders {
		deposits = deposits.Add(o.Deposit)
	}
	if !deposits.IsZero() {
		fmt.Fprintf(w, "  Deposits on orders %s\n", deposits.Grouped())
	}
}
