package programme

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/problem"
)

// layout is the stages while they are laid out.
type layout struct {
	job      *job.Job
	book     *rates.Book
	output   decimal.Decimal
	places   map[string]int
	calendar calendar
	nodes    []node
	index    map[string]int // of nodes, by the key of the stage
	problems problem.List
}

// node is one stage, its times in tenths of a week.
type node struct {
	stage                          job.Stage
	after                          []int
	lag, work                      int64
	early, earlyEnd, late, lateEnd int64
	trades                         []Trade
	gangs                          []job.Gang // in the order of the Gangs sheet
	governs                        string
}

// tooLong is a hundred years in tenths of a week, the longest a stage may take.
const tooLong = 100 * 52 * 10

// stages sets up the nodes and finds what each comes after. A name that stands
// nowhere in the Stages sheet is found in reading.
func (l *layout) stages() {
	l.index = make(map[string]int, len(l.job.Stages))
	for i, s := range l.job.Stages {
		if _, twice := l.index[rates.Key(s.Stage)]; !twice {
			l.index[rates.Key(s.Stage)] = i
		}
	}
	for _, s := range l.job.Stages {
		n := node{stage: s, lag: l.lag(s)}
		for _, name := range s.After {
			if i, ok := l.index[rates.Key(name)]; ok && !slices.Contains(n.after, i) {
				n.after = append(n.after, i)
			}
		}
		l.nodes = append(l.nodes, n)
	}
}

// lag is the Lag of a stage in tenths, to the nearest.
func (l *layout) lag(s job.Stage) int64 {
	if s.Lag.Sign() < 0 && len(s.After) == 0 {
		l.problems.Add(problem.Problem{
			Code: problem.LagWithoutPrecursor, At: s.At,
			Text: fmt.Sprintf("%q has a Lag of %q weeks and comes after no stage; an overlap needs After", s.Stage, s.Lag),
		})
		return 0
	}
	if s.Lag.Abs().GreaterThan(weeks(tooLong)) {
		l.long(s, "Lag", s.Lag)
		return 0
	}
	return s.Lag.Shift(1).Round(0).IntPart()
}

func (l *layout) long(s job.Stage, what string, n decimal.Decimal) {
	l.problems.Add(problem.Problem{
		Code: problem.StageTooLong, At: s.At,
		Text: fmt.Sprintf("%q weeks as the %s of %q are more than a hundred years; fewer are wanted", n.Round(1), what, s.Stage),
	})
}

// order is the stages so that each stands behind all it comes after. A link
// that closes a circle is a problem and is dropped.
func (l *layout) order() []int {
	const (
		fresh = iota
		open
		done
	)
	state := make([]int, len(l.nodes))
	order := make([]int, 0, len(l.nodes))
	var visit func(i int)
	visit = func(i int) {
		state[i] = open
		n := &l.nodes[i]
		kept := n.after[:0]
		for _, k := range n.after {
			if state[k] == open {
				l.problems.Add(problem.Problem{
					Code: problem.StagesInCircle, At: n.stage.AfterAt,
					Text: fmt.Sprintf("%q comes after %q, which in the end comes after %q; stages in a line are wanted", n.stage.Stage, l.nodes[k].stage.Stage, n.stage.Stage),
				})
				continue
			}
			if state[k] == fresh {
				visit(k)
			}
			kept = append(kept, k)
		}
		n.after = kept
		state[i] = done
		order = append(order, i)
	}
	for i := range l.nodes {
		if state[i] == fresh {
			visit(i)
		}
	}
	return order
}

// forward sets the earliest times and returns the last finish. A stage begins
// its Lag after the last end of what it comes after, or after the start on
// site, never before it, and never while the yard is closed.
func (l *layout) forward(order []int) int64 {
	var end int64
	for _, i := range order {
		n := &l.nodes[i]
		if len(n.after) == 0 {
			n.early = max(n.lag, 0)
		}
		for _, k := range n.after {
			before := &l.nodes[k]
			if before.earlyEnd+n.lag < before.early {
				l.problems.Add(problem.Problem{
					Code: problem.OverlapTooLong, At: n.stage.AfterAt,
					Text: fmt.Sprintf("a Lag of %q weeks lets %q begin before %q, which it comes after; a shorter overlap is wanted", n.stage.Lag, n.stage.Stage, before.stage.Stage),
				})
			}
			n.early = max(n.early, before.earlyEnd+n.lag)
		}
		if n.work > 0 {
			n.early = l.calendar.open(n.early)
		}
		n.earlyEnd = l.calendar.finish(n.early, n.work)
		end = max(end, n.earlyEnd)
	}
	return end
}

// backward sets the latest times by which the last finish is still kept.
func (l *layout) backward(order []int, end int64) {
	for i := range l.nodes {
		l.nodes[i].lateEnd = end
	}
	for _, i := range slices.Backward(order) {
		n := &l.nodes[i]
		n.late = l.calendar.begin(n.lateEnd, n.work)
		if n.late < n.early || n.lateEnd < n.earlyEnd {
			panic(fmt.Sprintf("programme: %q may begin at %d and must at %d, may end at %d and must at %d",
				n.stage.Stage, n.early, n.late, n.earlyEnd, n.lateEnd))
		}
		for _, k := range n.after {
			l.nodes[k].lateEnd = min(l.nodes[k].lateEnd, n.late-n.lag)
		}
	}
}

// stage is a node as it is handed over.
func (l *layout) stage(i int) Stage {
	n := l.nodes[i]
	float := min(n.late-n.early, n.lateEnd-n.earlyEnd)
	return Stage{
		Stage:    n.stage,
		Working:  weeks(n.work),
		Weeks:    weeks(n.earlyEnd - n.early),
		Earliest: weeks(n.early), EarliestFinish: weeks(n.earlyEnd),
		Latest: weeks(n.late), LatestFinish: weeks(n.lateEnd),
		Float: weeks(float), Critical: float == 0,
		Trades: n.trades, Governs: n.governs,
		Start: l.day(n.early), Finish: l.lastDay(n.early, n.earlyEnd),
	}
}
