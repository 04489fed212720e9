package quotes

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates"
	"futtock/rates/money"
)

// worth is the present value of what each offer is paid, and the week by which
// half of it is paid, where the bill has a programme.
//
// Levelled money of a line is paid evenly over the weeks of its stage, from From
// to To, at the end of each week; a stage too short to tell takes a tenth of a
// week. What is of no stage, and what stands beside the lines, runs over the whole
// programme; a letter's sum for a section over the stages of the section's lines.
// Deposits and retention are left out, and all offers are paid by the one programme
// of the bill, so that they differ by where their money lies and by nothing
// else: one whose worth is more of its levelled figure, or whose middle is
// earlier, is loaded towards the front.
//
//	worth = sum of money x mean of v^w over the weeks of its stage, v = (1 + d)^(-1/52)
//
// where d is the discount a year. v goes to 16 places, the mean to 12, and the
// worth is rounded once. 5,200.00 over weeks 0 to 2 at 5 % is
// 5,200 x (0.999062 + 0.998125) / 2 = 5,192.69.
func (l *levelling) worth() {
	if len(l.sent.Stages) == 0 {
		return
	}
	c := newCalendar(l.sent.Stages)
	v := aWeek(l.terms.Discount)
	of := make([]span, len(l.sent.Lines)) // by line
	for n, line := range l.sent.Lines {
		of[n] = c.find(line.Stage)
	}
	sections := l.sectionSpans(c, of)
	factors := map[span]decimal.Decimal{}
	worths := make([]Money, len(l.c.Offers))
	for i := range l.c.Offers {
		paid := l.paid(i, of, sections, c.whole)
		var worth decimal.Decimal
		for _, p := range paid {
			f, ok := factors[p.span]
			if !ok {
				f = c.factor(p.span, v)
				factors[p.span] = f
			}
			worth = worth.Add(p.amount.Decimal().Mul(f))
		}
		o := &l.c.Offers[i]
		o.Worth = money.Round(worth)
		o.Middle = c.middle(paid, o.Levelled)
		worths[i] = Money{o.Worth, true}
	}
	for i, place := range ranks(worths) {
		l.c.Offers[i].RankWorth = place
	}
}

// span is from when to when, in thousandths of a week.
type span struct{ from, to int64 }

func (s span) compare(o span) int {
	return cmp.Or(cmp.Compare(s.from, o.from), cmp.Compare(s.to, o.to))
}

// payment is money over a span.
type payment struct {
	span   span
	amount money.Amount
}

// paid is the levelled money of one offer by its spans, in their order.
func (l *levelling) paid(offer int, of []span, sections map[string]span, whole span) []payment {
	sums := map[span]money.Amount{}
	o := &l.c.Offers[offer]
	for n := range l.c.Rows {
		if cell := &l.c.Rows[n].Cells[offer]; l.sent.Lines[n].InTotal() && !cell.Levelled.IsZero() {
			sums[of[n]] = sums[of[n]].Add(cell.Levelled)
		}
	}
	for _, lump := range o.Lumps {
		if s, ok := sections[rates.Key(lump.Of)]; ok {
			sums[s] = sums[s].Add(lump.Net)
		}
	}
	rest := o.Levelled
	for _, a := range sums {
		rest = rest.Sub(a)
	}
	sums[whole] = sums[whole].Add(rest)
	var out []payment
	for s, a := range sums {
		out = append(out, payment{s, a})
	}
	slices.SortFunc(out, func(a, b payment) int { return a.span.compare(b.span) })
	return out
}

// sectionSpans is from the first to the last stage of the lines of each section.
func (l *levelling) sectionSpans(c *calendar, of []span) map[string]span {
	out := map[string]span{}
	for n, line := range l.sent.Lines {
		if line.Part != Work {
			continue
		}
		k := rates.Key(line.Section)
		s, ok := out[k]
		if !ok {
			s = of[n]
		}
		out[k] = span{min(s.from, of[n].from), max(s.to, of[n].to)}
	}
	return out
}

// calendar is the stages of the programme by name.
type calendar struct {
	stages map[string]span
	whole  span
}

// A span counts in thousandths of a week, finer than the programme tells, and
// takes a tenth of one at least.
const (
	perWeek  = 1000
	shortest = perWeek / 10
)

func newCalendar(stages []Stage) *calendar {
	c := &calendar{stages: map[string]span{}}
	for _, s := range stages {
		at := span{s.From.Shift(3).Round(0).IntPart(), s.To.Shift(3).Round(0).IntPart()}
		if at.from < 0 || at.to < at.from {
			panic(fmt.Sprintf("quotes: stage %q runs from week %s to week %s", s.Stage, s.From, s.To))
		}
		at.to = max(at.to, at.from+shortest)
		c.stages[rates.Key(s.Stage)] = at
		c.whole.to = max(c.whole.to, at.to)
	}
	return c
}

// find is when a line is paid. A preliminary says between which stages it runs,
// as "from hauling", "to painting" or "hauling to painting".
func (c *calendar) find(stage string) span {
	key := rates.Key(stage)
	if s, ok := c.stages[key]; ok {
		return s
	}
	if name, ok := strings.CutPrefix(key, "from "); ok {
		if s, ok := c.stages[name]; ok {
			return span{s.from, c.whole.to}
		}
	}
	if name, ok := strings.CutPrefix(key, "to "); ok {
		if s, ok := c.stages[name]; ok {
			return span{0, s.to}
		}
	}
	const between = " to "
	for at := 0; ; {
		n := strings.Index(key[at:], between)
		if n < 0 {
			return c.whole
		}
		a, okA := c.stages[key[:at+n]]
		b, okB := c.stages[key[at+n+len(between):]]
		if okA && okB && a.from < b.to {
			return span{a.from, b.to}
		}
		at += n + 1
	}
}

// aWeek is what a sum a week from now is worth, of one: (1 + d)^(-1/52).
func aWeek(discount money.Percent) decimal.Decimal {
	if discount.IsZero() {
		return decimal.New(1, 0)
	}
	if discount.Decimal().Sign() < 0 {
		panic("quotes: discounted at " + discount.String())
	}
	log, err := discount.Fraction().Add(decimal.New(1, 0)).Ln(20)
	if err != nil {
		panic("quotes: " + err.Error())
	}
	v, err := log.DivRound(decimal.New(-52, 0), 24).ExpTaylor(20)
	if err != nil {
		panic("quotes: " + err.Error())
	}
	return v.Round(16)
}

// factor is the mean of v^w over a span, w being the end of each week it touches.
func (c *calendar) factor(s span, v decimal.Decimal) decimal.Decimal {
	var sum decimal.Decimal
	power := decimal.New(1, 0)
	for begin := int64(0); begin < s.to; begin += perWeek {
		power = power.Mul(v).Round(16)
		if in := min(s.to, begin+perWeek) - max(s.from, begin); in > 0 {
			sum = sum.Add(power.Mul(decimal.New(in, 0)))
		}
	}
	return sum.DivRound(decimal.New(s.to-s.from, 0), 12)
}

// middle is the week by which half of the money is paid, to a tenth: between
// any two times at which a span begins or ends, money runs evenly. It is not
// known of an offer that comes to nil or less.
func (c *calendar) middle(paid []payment, total money.Amount) Stretch {
	if total.Sign() <= 0 {
		return Stretch{}
	}
	times := map[int64]bool{}
	for _, p := range paid {
		times[p.span.from], times[p.span.to] = true, true
	}
	half := total.Decimal().Mul(decimal.New(5, -1))
	var before decimal.Decimal
	since := int64(0)
	for _, t := range slices.Sorted(maps.Keys(times)) {
		upTo := paidBy(paid, t)
		if upTo.GreaterThanOrEqual(half) && upTo.GreaterThan(before) {
			part := half.Sub(before).Mul(decimal.New(t-since, 0)).DivRound(upTo.Sub(before), 6)
			return Stretch{Weeks: decimal.New(since, 0).Add(part).Shift(-3).Round(1), Known: true}
		}
		before, since = upTo, t
	}
	panic("quotes: half of " + total.String() + " is never paid")
}

// paidBy is the money paid up to a time.
func paidBy(paid []payment, t int64) decimal.Decimal {
	var sum decimal.Decimal
	for _, p := range paid {
		switch s := p.span; {
		case t >= s.to:
			sum = sum.Add(p.amount.Decimal())
		case t > s.from:
			sum = sum.Add(p.amount.Decimal().Mul(decimal.New(t-s.from, 0)).DivRound(decimal.New(s.to-s.from, 0), 12))
		}
	}
	return sum
}
