package quotes

import (
	"cmp"
	"fmt"

	"futtock/rates"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// beside levels what stands beside the lines: one client's contingency for
// all, contingency that a firm put in taken out, qualifications as the client
// prices them, and weeks on site at what a week costs him.
func (l *levelling) beside() {
	l.takeOutContingency()
	if l.sent.HasHeld && !l.sent.Contingency.IsZero() {
		for i := range l.c.Offers {
			l.adjust(i, Adjustment{Kind: HeldEqual, Text: "the contingency that the client holds, the same for all", Amount: l.sent.Contingency})
		}
	}
	l.qualifications()
	l.weeks()
}

// takeOutContingency takes out of each quote the lines by which its firm put
// in a contingency of its own, which is the client's to hold.
func (l *levelling) takeOutContingency() {
	for i, ch := range l.checked {
		for _, f := range ch.findings {
			if f.Kind != ContingencyPut || f.Worth.IsZero() {
				continue
			}
			sum := f.Worth
			if over := over(ch.quote); !over.IsZero() {
				sum = sum.Per(over)
			}
			l.adjust(i, Adjustment{Kind: TakenOut, ID: f.ID, Text: f.Text, Amount: sum.Neg()})
		}
	}
}

// qualifications prices those for which the client gives a figure, each once.
// A figure for none of them is a problem, for it was meant for one.
func (l *levelling) qualifications() {
	type of struct{ firm, text string }
	known := map[of][]int{} // offers, one entry for each such qualification
	var names []string
	texts := map[string][]string{} // by firm
	at := map[string]origin.Cell{} // where a firm makes its offer
	for i := range l.c.Offers {
		o := &l.c.Offers[i]
		firm := rates.Key(o.Name)
		names, at[firm] = append(names, o.Name), o.At
		for _, q := range o.Qualifications {
			k := of{firm, rates.Key(q.Text)}
			known[k] = append(known[k], i)
			texts[firm] = append(texts[firm], q.Text)
		}
	}
	for _, f := range l.terms.Figures {
		firm := rates.Key(f.Firm)
		k := of{firm, rates.Key(f.Text)}
		if at := known[k]; len(at) > 0 {
			known[k] = at[1:]
			l.adjust(at[0], Adjustment{Kind: Qualified, Text: f.Text, Amount: f.Amount})
			continue
		}
		p := problem.Problem{Code: problem.FigureUnmatched, At: cmp.Or(f.At, at[firm]), Text: fmt.Sprintf("the figure %s is for the qualification %q of %q, which makes no such qualification", f.Amount.Grouped(), f.Text, f.Firm)}
		switch near := problem.Nearest(f.Text, texts[firm]); {
		case known[k] != nil:
			p.Text = fmt.Sprintf("the qualification %q of %q is given a figure twice, the second time %s", f.Text, f.Firm, f.Amount.Grouped())
		case texts[firm] == nil:
			p.Near = problem.Nearest(f.Firm, names)
		default:
			p.Near = near
		}
		l.problems.Add(p)
	}
}

// weeks prices the weeks on site that each firm asks for, where the client
// says what one costs him. A firm that does not say is taken to need the weeks
// of the programme, and where that is not known as long as the longest of the others.
func (l *levelling) weeks() {
	longest := Stretch{}
	for i := range l.c.Offers {
		o := &l.c.Offers[i]
		if !o.Quote.Weeks.Is() || o.Quote.Weeks.Value.Sign() <= 0 {
			continue
		}
		o.Weeks = Stretch{Weeks: o.Quote.Weeks.Value, Known: true}
		if !longest.Known || o.Weeks.Weeks.GreaterThan(longest.Weeks) {
			longest = o.Weeks
		}
	}
	for i := range l.c.Offers {
		o := &l.c.Offers[i]
		how := ""
		switch {
		case o.Weeks.Known:
			o.WeeksTaken = o.Weeks
		case l.sent.Weeks.Known:
			o.WeeksTaken, how = l.sent.Weeks, "; the weeks are not said, and are those of the programme"
		case longest.Known:
			o.WeeksTaken, how = longest, "; the weeks are not said, and are the longest of the others"
		}
		switch {
		case l.terms.Week.IsZero():
		case !o.WeeksTaken.Known:
			l.problems.Add(problem.Problem{Code: problem.WeeksNowhere, At: o.At,
				Text: fmt.Sprintf("a week on site is to be priced at %s, and neither %q nor another quote nor the programme says how many there are", l.terms.Week.Grouped(), o.Name)})
		default:
			l.adjust(i, Adjustment{Kind: WeeksPriced, Text: fmt.Sprintf("%s weeks at %s%s", o.WeeksTaken.Weeks, l.terms.Week.Grouped(), how), Amount: l.terms.Week.Times(o.WeeksTaken.Weeks)})
		}
	}
}
