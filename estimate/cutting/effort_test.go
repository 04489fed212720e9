package cutting

import (
	"runtime"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// The plan is the same on one core and on two, and on every run.
func TestThePlanIsTheSameOnAnyNumberOfCores(t *testing.T) {
	book, taken := refit()
	for i := range taken.Pieces { // two timbers, so that two are solved at once
		if i%3 == 0 {
			taken.Pieces[i].Timber = "larch"
		}
	}
	for _, s := range book.Stock {
		s.Timber, s.Stock = "larch", s.Stock+" of larch"
		s.At.Row += 100
		book.Stock = append(book.Stock, s)
	}
	var plans []Plan
	for _, cores := range []int{1, 2, 2} {
		was := runtime.GOMAXPROCS(cores)
		plan, problems := CutWith(oakJob(), book, taken, 10_000_000)
		runtime.GOMAXPROCS(was)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		plans = append(plans, plan)
	}
	for _, p := range plans[1:] {
		if d := cmp.Diff(plans[0], p); d != "" {
			t.Error(d)
		}
	}
	if plans[0].Bound.Least.Sign() <= 0 {
		t.Error("nothing is proven")
	}
}

// A job that asks for five times the usual search has it: its plan is that of five
// times the steps, and for this refit a cheaper one.
func TestTheJobSaysHowLongIsSearched(t *testing.T) {
	book, taken := refit()
	usual, searched := oakJob(), oakJob()
	searched.TimberSearch = 5
	once, _ := Cut(usual, book, taken)
	five, _ := Cut(searched, book, taken)
	direct, _ := CutWith(usual, book, taken, 5*Usual)
	if d := cmp.Diff(direct, five); d != "" {
		t.Errorf("not the plan of five times the steps:\n%s", d)
	}
	if once.Bound.Cost.Cmp(five.Bound.Cost) < 0 || cmp.Equal(once, five) {
		t.Errorf("searched five times as long it costs %s, and once %s", five.Bound.Cost, once.Bound.Cost)
	}
}
