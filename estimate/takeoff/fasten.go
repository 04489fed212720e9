package takeoff

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// fasten counts the fastenings of a member by its rule: for every row of the
// rule that takes its width, Each x crossings x Nr, rounded up to a whole one.
// Ten strakes of 10 in over 20 frames at 1.5 a crossing take 300.
func (s *schedule) fasten(m *job.Member, row *Row) {
	if m.Fastening == "" {
		if s.asks(m, rates.ByFastening) {
			s.add(problem.FastenRuleless, m, m.FasteningAt, "build-up %q is measured by fastening and there is no Fastening; a rule of the Fastenings sheet is wanted", m.BuildUp)
		}
		return
	}
	rules := s.rules[rates.Key(m.Fastening)]
	if len(rules) == 0 { // an unknown key is told where keys are checked
		return
	}
	_, width := across(m)
	if width <= 0 {
		if !m.Treatment.TakesTimber() { // of new timber the size has been asked for
			s.add(problem.SizeMissing, m, m.MouldedAt, "there is no Moulded; it is wanted by fastening rule %q", m.Fastening)
		}
		return
	}
	crossings, ok := s.crossings(m)
	if !ok {
		s.problems.Add(problem.Problem{Code: problem.CrossingsUnknown, At: m.FasteningAt, With: s.job.Cell("Spacing of frames"),
			Text: fmt.Sprintf("fastening rule %q counts crossings, and there are neither frames nor Spacing nor the Job's Spacing of frames; one of them is wanted", m.Fastening)})
		return
	}
	row.Crossings = crossings
	for _, f := range rules {
		if width <= f.Over || (f.To > 0 && width > f.To) {
			continue
		}
		each := f.Each.Mul(decimal.New(int64(crossings), 0)).Mul(decimal.New(int64(m.Nr), 0))
		row.Fastenings = append(row.Fastenings, Fastened{Rule: f, Number: each.Ceil(), Material: f.Material})
	}
	if len(row.Fastenings) == 0 {
		s.add(problem.FastenRange, m, m.FasteningAt, "fastening rule %q has no row for a plank of %s; a row that takes it is wanted", m.Fastening, s.size(width))
	}
}

// crossings is how many frames one piece or run of the member crosses: both end
// frames where they are given, else its new length in spacings, rounded up, and one.
func (s *schedule) crossings(m *job.Member) (int, bool) {
	if m.FramesGiven {
		first, last := frames(m)
		return last - first + 1, true
	}
	spacing := s.spacing(m)
	if spacing <= 0 {
		return 0, false
	}
	return int((m.New()+spacing-1)/spacing) + 1, true
}

// spacing is the spacing of frames at the member: its own, else the Job's, else nil.
func (s *schedule) spacing(m *job.Member) measure.Length {
	if m.Spacing > 0 {
		return m.Spacing
	}
	return s.job.FrameSpacing
}

// fastened is all fastenings of a row.
func fastened(row Row) decimal.Decimal {
	var n decimal.Decimal
	for _, f := range row.Fastenings {
		n = n.Add(f.Number)
	}
	return n
}
