package cutting

import (
	"cmp"
	"runtime"
	"slices"
	"sync"
)

// hands do pieces of work side by side, no more at once than there are cores, and take
// them up in the order they were given. What one writes no other reads, so that how many
// there are makes no difference to what comes of it.
type hands struct {
	work chan func()
	left sync.WaitGroup
}

// hired are hands for no more than most pieces of work.
func hired(most int) *hands {
	h := &hands{work: make(chan func(), most)}
	for range runtime.GOMAXPROCS(0) {
		go func() {
			for do := range h.work {
				do()
				h.left.Done()
			}
		}()
	}
	return h
}

// give puts work behind what was given before.
func (h *hands) give(do func()) {
	h.left.Add(1)
	h.work <- do
}

// wait returns when all work is done.
func (h *hands) wait() {
	h.left.Wait()
	close(h.work)
}

// slowest is the places of benches, those first that take longest by the choice there is:
// begun last, the slowest would be waited for alone.
func slowest(benches []*bench) []int {
	var order []int
	for i := range benches {
		order = append(order, i)
	}
	choice := func(b *bench) int { return len(b.kinds) * len(b.kinds) * (len(b.lines) + len(b.crooks) + len(b.logs)) }
	slices.SortStableFunc(order, func(x, y int) int { return cmp.Compare(choice(benches[y]), choice(benches[x])) })
	return order
}
