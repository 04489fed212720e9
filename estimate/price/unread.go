package price

import (
	"fmt"
	"strings"

	"futtock/estimate/job"
	"futtock/rates/problem"
)

// remarkCharge looks at a row of the preliminaries for what an estimator may not have
// meant: a charge that comes to nothing, and a cell that none of its charges reads.
func (p *pricing) remarkCharge(r job.Preliminary, lines []Preliminary) {
	for _, l := range lines {
		if l.Amount.IsZero() {
			p.problem(problem.ChargeFree, r.At, fmt.Sprintf("%q comes to nothing: %s at %s", r.Ref, quantityOf(l), l.Rate.Grouped()), "")
		}
	}
	if unread := unreadIn(r, lines); len(lines) > 0 && len(unread) > 0 {
		p.problem(problem.ChargeUnread, p.job.Under(r.At, unread[0]), fmt.Sprintf("%q is priced as %s, and what it gives under %s is not read",
			r.Ref, basesOf(lines), strings.Join(unread, ", ")), "")
	}
}

func quantityOf(l Preliminary) string { return fmt.Sprintf("%s %s", l.Quantity, l.Unit) }

// basesOf is what a row is charged as, in words.
func basesOf(lines []Preliminary) string {
	var words []string
	for _, l := range lines {
		words = append(words, l.Basis.Words())
	}
	return strings.Join(words, " and ")
}

// unreadIn is the headings under which a row says something that no line of it takes. From
// stage is not among them: it says when a fixed charge falls due.
func unreadIn(r job.Preliminary, lines []Preliminary) []string {
	var runs, counts, hours bool
	for _, l := range lines {
		switch {
		case l.Basis == Fixed:
			counts = true
		case l.Basis == Timed:
			runs, counts = true, true
		case l.Basis == Supervision:
			hours = true
			if !r.HoursAWeek.IsZero() {
				runs, counts = true, true
			}
		}
	}
	var out []string
	unread := func(given, read bool, heading string) {
		if given && !read {
			out = append(out, heading)
		}
	}
	unread(!r.Quantity.IsZero() && !r.Quantity.Equal(one), counts, "Quantity")
	unread(r.ToStage != "", runs, "To stage")
	unread(r.WeeksGiven, runs, "Weeks")
	unread(r.Charged != "" && r.Charged != job.ByWeek, runs, "Charged by")
	unread(r.Trade != "", hours, "Trade")
	unread(r.Of != "", r.ShareGiven, "Of")
	return out
}

// remarkSum looks at a sum that comes to nothing.
func (p *pricing) remarkSum(s Sum) {
	if s.Total.IsZero() {
		p.problem(problem.ChargeFree, s.Row.At, fmt.Sprintf("%q comes to nothing; an Amount is wanted", s.Row.Ref), "")
	}
}
