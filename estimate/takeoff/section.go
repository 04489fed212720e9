package takeoff

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// Growth is a section on its way from the size wanted to the size sawn: with
// planing, with drying, and with the bevel, which is the least section to saw.
type Growth struct {
	Finished, Planed, Green, Sawn Section
}

// Section is a thickness, the sided way, by a width, the moulded way.
type Section struct {
	Thickness, Width measure.Length
}

// sawn is the least section that the row's finished section can be got from,
// step by step: planing taken off its faces, then drying, then the bevel in width. Sizes given as sawn take neither planing nor drying. A size
// that nothing makes larger, or planing alone, stays exact, so that a plank of
// 2 1/8 in is thick enough for one of 2 in planed 1/16 in on both faces; what
// drying or a bevel has made larger is rounded up to 0.01 mm.
func (s *schedule) sawn(m *job.Member) Growth {
	thickness, width := across(m)
	g := Growth{Finished: Section{thickness, width}}
	g.Planed = g.Finished
	timber, known := s.timber[rates.Key(s.timberOf(m))]
	if !m.AsSawn {
		if known && !s.anyStick && m.PlanedFaces > 0 && timber.Planing == 0 {
			s.add(problem.PlaningMissing, m, m.TimberAt, "%d faces are to be planed and timber %q has no Planing a face, so nothing is added",
				m.PlanedFaces, s.timberOf(m))
		}
		thickness += timber.Planing * measure.Length(min(m.PlanedFaces, 2))
		width += timber.Planing * measure.Length(max(0, m.PlanedFaces-2))
		g.Planed = Section{thickness, width}
		thickness, width = green(thickness, timber), green(width, timber)
	}
	g.Green = Section{thickness, width}
	if !m.Bevel.IsZero() {
		width = bevelled(width, g.Finished.Thickness, m.Bevel.Abs().InexactFloat64())
	}
	g.Sawn = Section{thickness, width}
	return g
}

// green is the size to saw for a size wanted in use, by the moistures of the
// timber at both times:
//
//	size x (1 - S(sawn)) / (1 - S(in use)), S(x) = S0 (1 - x/30) below 30 %, else nil
//
// where S0 is the larger of tangential and radial shrinkage (Wood Handbook,
// FPL-GTR-282, equation 4-9). Every size is reckoned from green, S = nil.
// White oak of 10.5 % sawn green at 300 mm is 284.25 mm wide at 15 %. Timber
// that would swell in use is sawn to the size wanted.
func green(size measure.Length, t rates.Timber) measure.Length {
	if !t.Dries {
		return size
	}
	most := decimal.Max(t.Tangential.Decimal(), t.Radial.Decimal())
	wet := kept(most, t.SawnAt.Decimal())
	dry := kept(most, t.InUse.Decimal())
	if wet.LessThanOrEqual(dry) {
		return size
	}
	if dry.Sign() <= 0 {
		panic("takeoff: timber " + t.Timber + " shrinks by " + most.String() + " %")
	}
	q, rest := decimal.New(int64(size), 0).Mul(wet).QuoRem(dry.Mul(decimal.New(int64(step), 0)), 0)
	n := measure.Length(q.IntPart())
	if rest.Sign() > 0 {
		n++
	}
	return n * step
}

// kept is 1 - S(x) in parts of 3,000, so that it stays exact.
func kept(most, moisture decimal.Decimal) decimal.Decimal {
	below := decimal.Max(decimal.New(30, 0).Sub(moisture), decimal.Zero)
	return decimal.New(3000, 0).Sub(most.Mul(below))
}
