package offer

import (
	"futtock/estimate/quotes"
)

// Headings of the programme of a priced bill.
const (
	headStage = "Stage"
	headFrom  = "From week"
	headTo    = "To week"
	saidTime  = "Time on site"
)

// programme reads when the stages of the priced bill run, where it says so.
func (s *sending) programme() {
	if !s.priced {
		return
	}
	t, ok := s.find(outline{name: billProgramme, marks: []string{headStage, headFrom, headTo}})
	if !ok {
		return
	}
	for _, l := range t.rows() {
		stage := t.text(l, headStage, s.book.Date1904)
		from, to := s.figureIn(t, l, headFrom), s.figureIn(t, l, headTo)
		switch {
		case alike(stage, saidTime) && s.number(to, "number of weeks"):
			s.out.Weeks = quotes.Stretch{Weeks: to.Value, Known: true}
			return
		case stage != "" && from.State != quotes.Missing && s.number(from, "week") && s.number(to, "week"):
			s.out.Stages = append(s.out.Stages, quotes.Stage{Stage: stage, From: from.Value, To: to.Value})
		}
	}
}
