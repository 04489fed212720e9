package programme

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// gangs brings the hours in the total and the men to their stages.
func (l *layout) gangs(h labour.Hours) {
	first := map[[2]string]string{} // the first row with hours, by stage and trade
	var homeless []labour.Line
	for _, line := range h.Lines {
		if !line.Carried.InTotal() || line.Hours.IsZero() {
			continue
		}
		if line.Stage == "" {
			homeless = append(homeless, line)
			continue
		}
		i, ok := l.index[rates.Key(line.Stage)]
		if !ok {
			continue
		}
		t := l.trade(i, line.Trade)
		t.Hours = t.Hours.Add(line.Hours)
		k := [2]string{rates.Key(line.Stage), rates.Key(line.Trade)}
		if first[k] == "" {
			first[k] = line.Ref
		}
	}
	for _, g := range l.job.Gangs {
		i, ok := l.index[rates.Key(g.Stage)]
		if !ok || g.Men.Sign() <= 0 {
			continue
		}
		t := l.trade(i, g.Trade)
		t.Men = t.Men.Add(g.Men)
		l.nodes[i].gangs = append(l.nodes[i].gangs, g)
	}
	for i := range l.nodes {
		n := &l.nodes[i]
		slices.SortFunc(n.trades, func(a, b Trade) int { return labour.Compare(l.places, a.Trade, b.Trade) })
		for _, t := range n.trades {
			// Hours of no trade are a norm's whose Trade was not taken.
			if t.Men.IsZero() && t.Trade != "" {
				l.problems.Add(problem.Problem{
					Code: problem.NobodyToDoIt, At: n.stage.At,
					Text: fmt.Sprintf("%q holds %s h of %q, the first in row %q, and Gangs gives it none of that trade; a gang is wanted",
						n.stage.Stage, t.Hours.StringFixed(2), t.Trade, first[[2]string{rates.Key(n.stage.Stage), rates.Key(t.Trade)}]),
				})
			}
		}
		for _, g := range n.gangs {
			if l.trade(i, g.Trade).Hours.IsZero() {
				l.problems.Add(problem.Problem{
					Code: problem.GangWithoutWork, At: g.At,
					Text: fmt.Sprintf("%q men of %q are kept in %q, which holds no hours of that trade", g.Men, g.Trade, g.Stage),
				})
			}
		}
	}
	l.outside(homeless)
}

// trade is a trade of a stage, put there if it is not.
func (l *layout) trade(i int, name string) *Trade {
	n := &l.nodes[i]
	at := slices.IndexFunc(n.trades, func(t Trade) bool { return rates.Same(t.Trade, name) })
	if at < 0 {
		at = len(n.trades)
		n.trades = append(n.trades, Trade{Trade: name})
	}
	return &n.trades[at]
}

// outside remarks on the rows with hours and no stage, once a section. Of a
// section that is not in the Sections sheet nothing is known; that is found in
// reading.
func (l *layout) outside(lines []labour.Line) {
	if len(lines) == 0 {
		return
	}
	work := map[string]job.Work{}
	for _, w := range l.job.Works() {
		work[w.Ref] = w
	}
	type group struct {
		section string
		first   job.Work
		hours   decimal.Decimal
		refs    map[string]bool
	}
	var groups []group
	for _, line := range lines {
		w := work[line.Ref]
		if !slices.ContainsFunc(l.job.Sections, func(s job.Section) bool { return rates.Same(s.Section, w.Section) }) {
			continue
		}
		at := slices.IndexFunc(groups, func(g group) bool { return rates.Same(g.section, w.Section) })
		if at < 0 {
			at = len(groups)
			groups = append(groups, group{section: w.Section, first: w, refs: map[string]bool{}})
		}
		groups[at].hours = groups[at].hours.Add(line.Hours)
		groups[at].refs[line.Ref] = true
	}
	for _, g := range groups {
		l.problems.Add(problem.Problem{
			Code: problem.HoursOutsideStages, At: cmp.Or(g.first.StageAt, g.first.At),
			Text: fmt.Sprintf("section %q has %s h of work in no stage (rows with hours: %d, the first %q), which takes no time in the programme",
				g.section, g.hours.StringFixed(2), len(g.refs), g.first.Ref),
		})
	}
}

// last reckons how long a stage lasts, and the time of its men.
func (l *layout) last(i int) {
	n := &l.nodes[i]
	if least := n.stage.LeastWeeks; least.GreaterThan(weeks(tooLong)) {
		l.long(n.stage, "Least weeks", least)
	} else if least.Sign() > 0 {
		n.work = least.Shift(1).Ceil().IntPart()
	}
	if l.output.Sign() <= 0 {
		return
	}
	var longest decimal.Decimal
	for k := range n.trades {
		t := &n.trades[k]
		if t.Men.IsZero() || t.Hours.IsZero() {
			continue
		}
		weekly := t.Men.Mul(l.output)
		t.Weeks = t.Hours.DivRound(weekly, 3)
		if t.Weeks.GreaterThan(weeks(tooLong)) {
			l.long(n.stage, t.Trade+" work", t.Weeks)
			continue
		}
		need := t.Hours.DivRound(weekly, 12)
		if need.GreaterThan(longest) {
			longest = need
			if tenths := tenthsUp(t.Hours, weekly); tenths >= n.work {
				n.work, n.governs = tenths, t.Trade
			}
		}
	}
	for k := range n.trades {
		t := &n.trades[k]
		if !t.Men.IsZero() {
			t.Kept = t.Men.Mul(weeks(n.work)).Mul(l.output).Round(2)
			t.Idle = t.Kept.Sub(t.Hours)
		}
	}
}

// tenthsUp is hours over hours a week in tenths of a week, rounded up.
func tenthsUp(hours, weekly decimal.Decimal) int64 {
	q, rest := hours.Shift(1).QuoRem(weekly, 0)
	if rest.Sign() > 0 {
		return q.IntPart() + 1
	}
	return q.IntPart()
}

// strength warns where stages that run at once ask for more men of a trade
// than the yard has, once a trade, at the gang that brings the most together.
func (l *layout) strength() {
	for _, row := range l.book.Labour {
		in, ok := l.book.Trade(row.Trade, l.job.TenderDate)
		if !ok || in.At != row.At || !in.MenGiven {
			continue
		}
		kept := l.kept(in.Trade)
		most, at := peak(kept)
		if most.GreaterThan(in.Men) {
			var stages []string
			for _, k := range kept[:at+1] {
				if k.to > kept[at].from {
					stages = append(stages, k.stage)
				}
			}
			l.problems.Add(problem.Problem{
				Code: problem.MoreMenThanYard, At: kept[at].at,
				Text: fmt.Sprintf("%s men of %q are asked for at once, %s weeks from the start (%s); Labour gives %s",
					most, in.Trade, weeks(kept[at].from), strings.Join(stages, ", "), in.Men),
			})
		}
	}
}

// peak is the most men kept at once, and the last to begin of those who first
// make up that number. The list is in the order in which they begin.
func peak(kept []keeping) (decimal.Decimal, int) {
	ends := slices.Clone(kept)
	slices.SortFunc(ends, func(a, b keeping) int { return cmp.Compare(a.to, b.to) })
	var men, most decimal.Decimal
	at, gone := 0, 0
	for i, k := range kept {
		for ; ends[gone].to <= k.from; gone++ {
			men = men.Sub(ends[gone].men)
		}
		men = men.Add(k.men)
		if men.GreaterThan(most) {
			most, at = men, i
		}
	}
	return most, at
}

// keeping is the men of one trade kept in one stage, in tenths of a week.
type keeping struct {
	from, to int64
	men      decimal.Decimal
	stage    string
	at       origin.Cell
}

// kept is where the men of a trade are kept, in the order in which they begin.
func (l *layout) kept(trade string) []keeping {
	var list []keeping
	for _, n := range l.nodes {
		if n.earlyEnd == n.early {
			continue
		}
		var k keeping
		for _, g := range n.gangs {
			if rates.Same(g.Trade, trade) {
				k = keeping{n.early, n.earlyEnd, k.men.Add(g.Men), n.stage.Stage, g.At}
			}
		}
		if !k.men.IsZero() {
			list = append(list, k)
		}
	}
	slices.SortStableFunc(list, func(a, b keeping) int { return cmp.Compare(a.from, b.from) })
	return list
}
