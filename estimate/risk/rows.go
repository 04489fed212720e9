package risk

import (
	"cmp"
	"math"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// drawn is one row made ready to be drawn. What it adds to the base is
//
//	amount x factor - priced
//
// with a factor of nil where it does not come about.
type drawn struct {
	ref    string
	chance float64
	factor triangle
	amount float64 // money at a factor of 1; of the register 1, the factor being money
	priced float64
	credit bool // its dear end is the low one
	hours  []slotHours
	longer []int   // lines that run on by weeks where it comes about
	weeks  float64 // Extra weeks
}

// slotHours is hours of the row at a factor of 1, and where they fall in the
// programme; base is what of them is priced already.
type slotHours struct {
	slot        int
	hours, base float64
}

// timed is a line that runs with time.
type timed struct {
	line     price.Preliminary
	from, to int // places of its stages; below nil is the first and the last
	base     int64
	weeks    float64 // that are priced, before the step it is charged in
	quantity float64 // that is priced
	rate     float64
}

// rows gathers what is to be drawn: rows with a range and those at risk by Ref,
// then the register by Ref.
func (s *simulation) rows(j *job.Job, h labour.Hours, p price.Priced) {
	hours := map[string][]labour.Line{}
	for _, l := range h.Lines {
		hours[l.Ref] = append(hours[l.Ref], l)
	}
	for _, i := range p.Items {
		if !i.Carried.InTotal() && i.Carried != job.AtRisk {
			continue
		}
		amounts := i.ByRow(i.Amount)
		for n, w := range i.Rows {
			s.row(j, w, i, amounts[n], hours[w.Ref])
		}
	}
	byRef := func(a, b Uncertain) int { return job.CompareRefs(a.Ref, b.Ref) }
	slices.SortStableFunc(s.listed, byRef)
	slices.SortStableFunc(s.drawn, func(a, b drawn) int { return job.CompareRefs(a.ref, b.ref) })
	from := len(s.listed)
	for _, r := range j.Risks {
		s.register(j, r)
	}
	slices.SortStableFunc(s.listed[from:], byRef)
	slices.SortStableFunc(s.drawn[from:], func(a, b drawn) int { return job.CompareRefs(a.ref, b.ref) })
}

// row takes in a row of the schedule, where it may come out otherwise.
func (s *simulation) row(j *job.Job, w job.Work, i price.Item, amount money.Amount, lines []labour.Line) {
	bounds := span(w.Least.Fraction(), decimal.New(1, 0), upper(w.Most))
	u := Uncertain{
		Ref: w.Ref, Description: wording(j, w, i), At: w.At, Source: Ranged, Priced: amount, Chance: whole,
		Least: amount.Times(bounds[0]), Likely: amount, Most: amount.Times(bounds[2]),
	}
	d := drawn{ref: w.Ref, chance: 1, factor: factor(bounds), amount: amount.Decimal().InexactFloat64(), credit: amount.Sign() < 0}
	d.priced = d.amount
	if i.Carried == job.AtRisk {
		u.Source, u.Chance, u.Priced = MayBe, w.Chance, money.Amount{}
		d.chance, d.priced = w.Chance.Fraction().InexactFloat64(), 0
	} else if d.factor.least == d.factor.most {
		return
	}
	for _, l := range lines {
		u.Hours = u.Hours.Add(l.Hours)
		if slot, ok := s.programme.Slot(l.Stage, l.Trade); ok {
			sh := slotHours{slot: slot, hours: l.Hours.InexactFloat64()}
			if u.Source == Ranged {
				sh.base = sh.hours
			}
			d.hours = append(d.hours, sh)
		}
	}
	more := u.Hours.Mul(decimal.NewFromFloat(d.chance * d.factor.mean()))
	if u.Source == Ranged {
		more = more.Sub(u.Hours)
	}
	s.hours = s.hours.Add(more)
	s.add(u, d)
}

// register takes in a row of the Risks sheet.
func (s *simulation) register(j *job.Job, r job.Risk) {
	bounds := span(r.Least.Decimal(), r.Likely.Decimal(), r.Most.Decimal())
	d := drawn{ref: r.Ref, chance: r.Chance.Fraction().InexactFloat64(), factor: factor(bounds), amount: 1, weeks: r.ExtraWeeks.InexactFloat64()}
	section, _ := j.Section(r.Section)
	stage, staged := s.programme.Stage(section.Stage)
	for n, l := range s.timed {
		begin, end := s.base.Start, s.base.Finish
		runs := l.to < 0 || end[l.to] >= s.base.End // to the end of the job
		if staged {
			runs = (l.from < 0 || begin[l.from] <= begin[stage]) && (l.to < 0 || end[l.to] >= end[stage])
		}
		if runs && d.weeks > 0 {
			d.longer = append(d.longer, n)
		}
	}
	s.add(Uncertain{
		Ref: r.Ref, Description: r.Description, At: r.At, Source: Register, Chance: r.Chance,
		Least: money.Round(bounds[0]), Likely: money.Round(bounds[1]), Most: money.Round(bounds[2]), ExtraWeeks: r.ExtraWeeks,
	}, d)
}

// add puts a row among those drawn, with the exact mean and deviation of what
// it adds: those of a triangle that comes about with a chance.
func (s *simulation) add(u Uncertain, d drawn) {
	mean := d.chance * d.factor.mean()
	u.Mean = pounds(d.amount*mean - d.priced)
	u.SD = pounds(math.Abs(d.amount) * math.Sqrt(max(d.chance*d.factor.square()-mean*mean, 0)))
	s.listed, s.drawn = append(s.listed, u), append(s.drawn, d)
}

// lines takes in the charges that run with time.
func (s *simulation) lines(p price.Priced) {
	place := func(name string) int {
		if i, ok := s.programme.Stage(name); ok {
			return i
		}
		return -1
	}
	for _, l := range p.Preliminaries {
		if l.Unit == measure.One || l.Basis != price.Timed && l.Basis != price.Supervision {
			continue
		}
		t := timed{line: l, from: place(l.Row.FromStage), to: place(l.Row.ToStage), quantity: l.Quantity.InexactFloat64(), rate: l.Rate.Decimal().InexactFloat64()}
		t.base = s.base.Span(t.from, t.to)
		t.weeks = l.Programmed.InexactFloat64()
		if l.Row.WeeksGiven {
			t.weeks = l.Row.Weeks.InexactFloat64()
		}
		s.timed = append(s.timed, t)
	}
}

// more is what a line costs beyond what is priced where its span and the extra
// weeks make it longer.
func (t timed) more(span int64, extra float64) float64 {
	longer := float64(span-t.base)/10 + extra
	if longer == 0 {
		return 0
	}
	weeks, up := max(t.weeks+longer, 0), func(f float64) float64 { return math.Ceil(f - slack) }
	var quantity float64
	switch t.line.Row.Charged {
	case job.ByWholeWeek:
		quantity = up(weeks)
	case job.ByFourWeeks:
		quantity = up(weeks/4) * 4
	case job.ByDay:
		quantity = up(weeks * 5)
	default:
		quantity = up(weeks*10) / 10
	}
	return (quantity - t.quantity) * t.rate
}

// slack takes up what binary fractions leave over before a figure is raised to
// the next step.
const slack = 1e-6

// span is a range made to take in what is likely: a least above it, or a most
// below it, is told of where the sheets are checked, and counts as no range on
// that side.
func span(least, likely, most decimal.Decimal) [3]decimal.Decimal {
	return [3]decimal.Decimal{decimal.Min(least, likely), likely, decimal.Max(most, likely)}
}

func factor(r [3]decimal.Decimal) triangle {
	return triangle{r[0].InexactFloat64(), r[1].InexactFloat64(), r[2].InexactFloat64()}
}

// upper is a Most %, which counts as 100 % where there is none.
func upper(p money.Percent) decimal.Decimal {
	if p.IsZero() {
		return decimal.New(1, 0)
	}
	return p.Fraction()
}

var whole = money.NewPercent(decimal.New(100, 0))

// wording names a row: the line of the bill where it makes it alone, else what
// its own sheet says.
func wording(j *job.Job, w job.Work, i price.Item) string {
	if len(i.Rows) == 1 {
		return i.Description
	}
	for _, m := range j.Members {
		if rates.Same(m.Ref, w.Ref) {
			return cmp.Or(m.Description, m.Member)
		}
	}
	for _, t := range j.Items {
		if rates.Same(t.Ref, w.Ref) {
			return t.Description
		}
	}
	return i.Description
}

// pounds is a sum of binary floating point as money: the one place where it is
// turned to decimal.
func pounds(f float64) money.Amount { return money.Round(decimal.NewFromFloat(f)) }
