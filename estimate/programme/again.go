package programme

import (
	"math"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/rates"
)

// Again is a programme made ready to be laid out many times over with other
// hours, for the simulated contingency. Laid out with no hours more it is the
// programme of Lay: the same stages, gangs, lags, least weeks and closures, and
// the same rounding of a stage up to a tenth of a week. It is never changed, and
// may be laid out from several places at once.
type Again struct {
	stages   []againStage
	order    []int // so that each stands behind all it comes after
	index    map[string]int
	slots    map[[2]string]int // by the keys of stage and trade
	calendar calendar
}

// againStage is one stage, its times in tenths of a week.
type againStage struct {
	after      []int
	lag, least int64
	trades     []againTrade
}

// againTrade is a trade at work in a stage: its hours as priced, and those its
// gang gets through in a week.
type againTrade struct {
	slot          int
	hours, weekly float64
}

// Times is where the stages come to lie, in tenths of a week from the start, in
// the order of the Stages sheet; and the last finish.
type Times struct {
	Start, Finish []int64
	End           int64
}

// Ready makes the programme of a job ready to be laid out again. What is wrong
// with it Lay has told of; here too it is passed over.
func Ready(j *job.Job, b *rates.Book, h labour.Hours) *Again {
	l := layout{job: j, book: b, output: output(j), places: labour.Places(b)}
	l.calendar = l.closures()
	l.stages()
	l.gangs(h)
	for i := range l.nodes {
		l.last(i)
	}
	a := &Again{index: l.index, slots: map[[2]string]int{}, calendar: l.calendar}
	a.order = l.order()
	for i := range l.nodes {
		n := &l.nodes[i]
		s := againStage{after: n.after, lag: n.lag}
		if least := n.stage.LeastWeeks; least.Sign() > 0 && least.LessThanOrEqual(weeks(tooLong)) {
			s.least = least.Shift(1).Ceil().IntPart()
		}
		for _, t := range n.trades {
			if t.Men.IsZero() || l.output.Sign() <= 0 || t.Weeks.GreaterThan(weeks(tooLong)) {
				continue
			}
			a.slots[[2]string{rates.Key(n.stage.Stage), rates.Key(t.Trade)}] = len(a.slots)
			s.trades = append(s.trades, againTrade{len(a.slots) - 1, t.Hours.InexactFloat64(), t.Men.Mul(l.output).InexactFloat64()})
		}
		a.stages = append(a.stages, s)
	}
	return a
}

// Slots is how many places there are for hours: one for each trade with a gang
// in a stage.
func (a *Again) Slots() int { return len(a.slots) }

// Slot is the place of the hours of a trade in a stage; false where the stage
// has no gang of it, so that more hours take no time that is known.
func (a *Again) Slot(stage, trade string) (int, bool) {
	i, ok := a.slots[[2]string{rates.Key(stage), rates.Key(trade)}]
	return i, ok
}

// Stage is where a stage stands in Times; false where there is none of the name.
func (a *Again) Stage(name string) (int, bool) {
	i, ok := a.index[rates.Key(name)]
	return i, ok
}

// Times is room for one laying out.
func (a *Again) Times() Times {
	return Times{Start: make([]int64, len(a.stages)), Finish: make([]int64, len(a.stages))}
}

// slack takes up what binary fractions leave over, so that a stage of exactly so
// many tenths is not taken for a tenth more; hours are to a hundredth, and the
// least they can be over is some thousand times as much.
const slack = 1e-9

// Lay lays the programme out with so many hours more, or fewer where below
// nil, in each slot, and puts the outcome into t.
func (a *Again) Lay(more []float64, t *Times) {
	t.End = 0
	for _, i := range a.order {
		s := &a.stages[i]
		work := s.least
		for _, d := range s.trades {
			if need := math.Ceil((d.hours+more[d.slot])/d.weekly*10 - slack); need > float64(work) {
				work = int64(min(need, tooLong))
			}
		}
		var early int64
		if len(s.after) == 0 {
			early = max(s.lag, 0)
		}
		for _, k := range s.after {
			early = max(early, t.Finish[k]+s.lag)
		}
		if work > 0 {
			early = a.calendar.open(early)
		}
		t.Start[i], t.Finish[i] = early, a.calendar.finish(early, work)
		t.End = max(t.End, t.Finish[i])
	}
}

// Span is the tenths of a week from the start of one stage to the finish of
// another, each by its place; below nil stands for the first to begin and the
// last to end.
func (t *Times) Span(from, to int) int64 {
	begin, end := t.End, t.End
	if from >= 0 {
		begin = t.Start[from]
	} else {
		for _, s := range t.Start {
			begin = min(begin, s)
		}
	}
	if to >= 0 {
		end = t.Finish[to]
	}
	return end - begin
}
