package quotes

import (
	"sync"

	"futtock/rates/problem"
)

// Compare sets quotes side by side on one bill: each is examined and corrected
// by the rule for errors, levelled, ranked and judged, by terms that were chosen
// before. Nothing that was tendered is changed, and nothing is decided: what
// stands out is a reason to ask. A quote that cannot be levelled is a problem,
// at its cell; the comparison holds what could be made of it.
//
// With one quote there is only the yardstick to compare with, and with two no
// middle quote; nothing here needs more of them than it says.
func Compare(s Sent, all []Quote, t Terms) (Comparison, problem.List) {
	examined := make([]checked, len(all))
	var wait sync.WaitGroup
	for i := range all {
		wait.Go(func() { examined[i] = check(&s, &all[i], t) })
	}
	wait.Wait()
	return compare(s, examined, t)
}
