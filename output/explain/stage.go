package explain

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/labour"
	"futtock/estimate/programme"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

func (m maker) stageOf(name string) (programme.Stage, bool) {
	for _, s := range m.Programme.Stages {
		if rates.Same(s.Stage.Stage, name) {
			return s, true
		}
	}
	return programme.Stage{}, false
}

func weeks(label string, n decimal.Decimal, how string, at origin.Cell, under ...Line) Line {
	return Line{Label: label, Value: n.StringFixed(1), Unit: string(measure.Weeks), How: how, At: at, Under: under}
}

// stage is one stage of the programme: how long it takes and why, and when.
func (m maker) stage(s programme.Stage) Line {
	out := words("Stage "+s.Stage.Stage, s.Stage.Note, s.Stage.At)
	work := weeks("Weeks of work", s.Working, m.governsWords(s), origin.Cell{}, m.outputLine())
	if s.Governs == "" {
		work.At = s.Stage.LeastAt
	}
	for _, t := range s.Trades {
		work.Under = append(work.Under, m.stageTrade(s, t))
	}
	how := "as the work; the yard is open throughout"
	if !s.Weeks.Equal(s.Working) {
		how = "the work, and the days the yard is closed meanwhile"
	}
	from := "the start on site, which is not given"
	if !m.Job.Start.IsZero() {
		from = "the start on site, " + day(m.Job.Start)
	}
	var after origin.Cell
	switch {
	case len(s.Stage.After) > 0:
		after = s.Stage.AfterAt
	case !s.Stage.Lag.IsZero():
		after = m.Job.Under(s.Stage.At, "Lag weeks")
	}
	out.Under = []Line{
		words("Counted from", from, m.Job.Cell("Start on site")),
		weeks("Weeks on the calendar", s.Weeks, how, origin.Cell{}),
		work,
		weeks("Earliest start", s.Earliest, joined("; ", m.afterWords(s), dayWords(s.Start)), after, m.before(s)...),
		weeks("Earliest finish", s.EarliestFinish, dayWords(s.Finish), origin.Cell{}),
		weeks("Latest start", s.Latest, "and the job still ends in week "+m.Programme.Weeks.StringFixed(1), origin.Cell{}),
		weeks("Latest finish", s.LatestFinish, "", origin.Cell{}),
	}
	float := "how far it may slip, the lesser of its start and its finish"
	if s.Critical {
		float = "none: critical, a day lost here is lost to the job"
	}
	out.Under = append(out.Under, weeks("Float", s.Float, float, origin.Cell{}))
	return out
}

func (m maker) governsWords(s programme.Stage) string {
	if s.Governs == "" && s.Stage.LeastWeeks.Sign() > 0 {
		return "Least weeks of the stage governs; no trade needs longer"
	}
	if s.Governs == "" {
		return "no hours of work fall in it"
	}
	return s.Governs + " governs, up to a tenth of a week"
}

// path is the stages that make a stage finish when it does, in the order of
// time: each begins where it does because of the finish of the one above it, and
// is as long as its men and hours make it.
func (m maker) path(last programme.Stage) []Line {
	var out []Line
	for s, ok := last, true; ok; s, ok = m.holder(s) {
		how := fmt.Sprintf("week %s to %s", s.Earliest.StringFixed(1), s.EarliestFinish.StringFixed(1))
		if !s.Weeks.Equal(s.Working) {
			how += fmt.Sprintf(", of which %s wk of work", s.Working.StringFixed(1))
		}
		line := weeks(s.Stage.Stage, s.Weeks, how, s.Stage.At)
		line.How = joined("; ", how, m.governsShort(s))
		switch {
		case s.Governs != "":
			line.At = m.gangAt(s.Stage.Stage, s.Governs)
		case s.Stage.LeastWeeks.Sign() > 0:
			line.At = s.Stage.LeastAt
		}
		out = append(out, line)
	}
	slices.Reverse(out)
	return out
}

// holder is the stage whose finish another waits for longest; of several that
// finish together the first named.
func (m maker) holder(s programme.Stage) (programme.Stage, bool) {
	var held programme.Stage
	found := false
	for _, name := range s.Stage.After {
		b, ok := m.stageOf(name)
		if ok && (!found || b.EarliestFinish.GreaterThan(held.EarliestFinish)) {
			held, found = b, true
		}
	}
	return held, found
}

func (m maker) governsShort(s programme.Stage) string {
	for _, t := range s.Trades {
		if t.Trade == s.Governs {
			return fmt.Sprintf("%s governs, %s", t.Trade, workWords(t, m.Programme.Output))
		}
	}
	if s.Stage.LeastWeeks.Sign() > 0 {
		return "Least weeks of the stage"
	}
	return ""
}

// outputLine is what one man works in a week.
func (m maker) outputLine() Line {
	how := number(m.Job.HoursAWeek) + " h a week while the yard is open"
	closed := len(m.Job.Closures) > 0 && !m.Job.Start.IsZero()
	if closed {
		how += "; closures count by the calendar"
	} else if !m.Job.WorkingWeeks.IsZero() {
		how = fmt.Sprintf("%s h a week x %s working weeks / 52", number(m.Job.HoursAWeek), number(m.Job.WorkingWeeks))
	}
	return Line{Label: "Output of one man", Value: m.Programme.Output.StringFixed(2), Unit: "h/wk", How: how, At: m.Job.Cell("Hours a week")}
}

// stageTrade is one trade of a stage: its hours, its men, and what is kept.
func (m maker) stageTrade(s programme.Stage, t programme.Trade) Line {
	out := Line{Label: t.Trade, Value: t.Weeks.StringFixed(3), Unit: string(measure.Weeks), At: origin.Cell{},
		How: workWords(t, m.Programme.Output)}
	if t.Hours.IsZero() {
		out.How = menWords(t.Men) + " kept, and no hours priced"
	}
	hours := Line{Label: "Hours priced", Value: t.Hours.StringFixed(2), Unit: string(measure.Hour), How: Added, Under: m.hoursIn(s, t)}
	if len(hours.Under) == 0 {
		hours.How = "none"
	}
	out.Under = []Line{
		hours,
		{Label: "Men", Value: t.Men.String(), Unit: string(measure.Nr), How: "of the gangs of the stage", At: m.gangAt(s.Stage.Stage, t.Trade)},
		{Label: "Time kept", Value: t.Kept.StringFixed(2), Unit: string(measure.Hour), How: fmt.Sprintf("%s x %s wk x %s h", menWords(t.Men), s.Working.StringFixed(1), number(m.Programme.Output))},
		{Label: "Kept and not priced", Value: t.Idle.StringFixed(2), Unit: string(measure.Hour), How: "time kept less hours priced"},
	}
	return out
}

func menWords(n decimal.Decimal) string {
	if n.Equal(decimal.New(1, 0)) {
		return "1 man"
	}
	return number(n) + " men"
}

// workWords is the hours of a trade over what its men do in a week.
func workWords(t programme.Trade, output decimal.Decimal) string {
	return fmt.Sprintf("%s h / (%s x %s h)", number(t.Hours), menWords(t.Men), number(output))
}

// gangAt is the cell of the men of the first gang of a stage and trade.
func (m maker) gangAt(stage, trade string) origin.Cell {
	for _, g := range m.Job.Gangs {
		if rates.Same(g.Stage, stage) && rates.Same(g.Trade, trade) {
			return m.Job.Under(g.At, "Men")
		}
	}
	return origin.Cell{}
}

// hoursIn is the rows whose hours fall in a stage and trade.
func (m maker) hoursIn(s programme.Stage, t programme.Trade) []Line {
	var out []Line
	for _, h := range m.Hours.Lines {
		if inStage(h, s.Stage.Stage) && rates.Same(h.Trade, t.Trade) {
			r := m.rows[h.Ref]
			name := ""
			if r.Member != nil {
				name = joined(", ", r.Member.Member, r.Member.Side)
			} else if r.Item != nil {
				name = r.Item.Description
			}
			out = append(out, Line{Label: h.Ref, Value: h.Hours.StringFixed(2), Unit: string(measure.Hour), How: name})
		}
	}
	return out
}

func inStage(h labour.Line, stage string) bool {
	return h.Carried.InTotal() && !h.Hours.IsZero() && rates.Same(h.Stage, stage)
}

// afterWords is what a stage waits for.
func (m maker) afterWords(s programme.Stage) string {
	lag := ""
	switch {
	case s.Stage.Lag.Sign() > 0:
		lag = fmt.Sprintf(", and %s wk after", number(s.Stage.Lag))
	case s.Stage.Lag.Sign() < 0:
		lag = fmt.Sprintf(", overlapping by %s wk", number(s.Stage.Lag.Neg()))
	}
	if len(s.Stage.After) == 0 {
		return "from the start on site" + lag
	}
	return "after " + strings.Join(s.Stage.After, ", ") + lag
}

// before is the finishes a stage waits for.
func (m maker) before(s programme.Stage) []Line {
	var out []Line
	for _, name := range s.Stage.After {
		if b, ok := m.stageOf(name); ok {
			out = append(out, weeks("Finish of "+b.Stage.Stage, b.EarliestFinish, "", origin.Cell{}))
		}
	}
	return out
}

func dayWords(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return day(t)
}
