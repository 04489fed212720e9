package price

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// daysAWeek is the working days of a week, for charges that run by the day.
var daysAWeek = decimal.New(5, 0)

// timed is the lines of a row that run with time: its weekly charge, and the
// hours a week of a trade.
func (p *pricing) timed(r job.Preliminary, kind rates.Kind, name string, weekly charge, count decimal.Decimal) []Preliminary {
	span, ok := p.span(r)
	if !ok {
		return nil
	}
	var lines []Preliminary
	if !weekly.price.IsZero() {
		c := Cost{Name: name, Quantity: count.Mul(span.weeksEach), Unit: measure.Weeks, Rate: weekly.price, RateAt: weekly.at}
		lines = append(lines, p.cast(span.line(r, Timed), kind, c))
	}
	if r.HoursAWeek.IsZero() {
		return lines
	}
	if r.Trade == "" {
		p.problem(problem.PrelimTrade, r.At, fmt.Sprintf("%q asks %s hours a week, and no Trade says at what rate; a Trade is wanted", r.Ref, r.HoursAWeek), "")
		return lines
	}
	if trade, ok := p.trade(r.Trade, r.TradeAt); ok {
		c := Cost{Name: trade.Trade, Quantity: r.HoursAWeek.Mul(count).Mul(span.weeksEach), Unit: measure.Hour,
			Rate: money.PriceOf(trade.Hour()), RateAt: trade.At}
		lines = append(lines, p.cast(span.line(r, Supervision), kind, c))
	}
	return lines
}

// span is how long a charge runs, in the step it is charged in.
type span struct {
	quantity   decimal.Decimal
	unit       measure.Unit
	weeksEach  decimal.Decimal // weeks in one of the unit: 1, or 0.2 for a day
	programmed decimal.Decimal
	explained  string
}

func (s span) line(r job.Preliminary, basis Basis) Preliminary {
	return Preliminary{Row: r, Basis: basis, Quantity: s.quantity, Unit: s.unit, Explained: s.explained, Programmed: s.programmed}
}

// span is the weeks of a row: those given, which govern, else those of the
// programme; brought up to the step it is charged in.
func (p *pricing) span(r job.Preliminary) (span, bool) {
	weeks, from, ok := p.programmed(r)
	s := span{programmed: weeks, explained: fmt.Sprintf("%s weeks by the programme, %s", weeks, from)}
	switch {
	case r.WeeksGiven && ok:
		s.explained = fmt.Sprintf("%s weeks given; the programme makes it %s, %s", r.Weeks, weeks, from)
		if !r.Weeks.Equal(weeks) {
			p.problem(problem.WeeksDiffer, r.WeeksAt, fmt.Sprintf("%q gives %s weeks; the programme makes it %s, %s", r.Ref, r.Weeks, weeks, from), "")
		}
		weeks = r.Weeks
	case r.WeeksGiven:
		s.explained = fmt.Sprintf("%s weeks given", r.Weeks)
		weeks = r.Weeks
	case !ok:
		if len(p.job.Stages) == 0 {
			p.problem(problem.WeeksUnknown, r.At, fmt.Sprintf("%q runs with time, and there is no programme; Weeks are wanted", r.Ref), "12")
		}
		return span{}, false
	}
	s.step(weeks, r.Charged)
	return s, true
}

// step brings weeks up to the step they are charged in: a tenth of a week,
// a whole week, four weeks, or a working day. Four weeks stay a number of
// weeks, a multiple of four, so that the rate is still that of a week.
func (s *span) step(weeks decimal.Decimal, by job.Charged) {
	s.unit, s.weeksEach = measure.Weeks, one
	s.quantity = weeks.RoundCeil(measure.Weeks.Places())
	switch by {
	case job.ByWholeWeek:
		s.quantity = weeks.Ceil()
		s.explained += "; charged by the whole week"
	case job.ByFourWeeks:
		four := decimal.New(4, 0)
		s.quantity = weeks.DivRound(four, 6).Ceil().Mul(four)
		s.explained += fmt.Sprintf("; charged by four weeks, %s of them, stated in weeks", s.quantity.Div(four))
	case job.ByDay:
		s.unit, s.weeksEach = measure.Days, decimal.New(2, -1)
		s.quantity = weeks.Mul(daysAWeek).Ceil()
		s.explained += "; charged by the day, five working days a week"
	}
}

// programmed is the weeks of the programme from From stage to To stage, and
// which stages these are in words. It returns false where the programme does
// not give them.
func (p *pricing) programmed(r job.Preliminary) (decimal.Decimal, string, bool) {
	weeks, ok := p.prog.Span(r.FromStage, r.ToStage)
	if !ok {
		return decimal.Zero, "", false
	}
	from, to := "the start of the job", "the end of the job"
	if r.FromStage != "" {
		from = "the start of " + r.FromStage
	}
	if r.ToStage != "" {
		to = "the finish of " + r.ToStage
	}
	if weeks.Sign() > 0 {
		return weeks, "from " + from + " to " + to, true
	}
	if !r.WeeksGiven {
		p.problem(problem.StagesTurned, cmp.Or(r.ToAt, r.FromAt, r.At),
			fmt.Sprintf("%q would run from %s to %s, which is %s weeks; stages in their order are wanted, or Weeks", r.Ref, from, to, weeks), "")
	}
	return decimal.Zero, "", false
}
