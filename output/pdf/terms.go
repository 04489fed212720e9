package pdf

import (
	"cmp"
	"slices"
	"strings"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/templates/wording"
)

// basis says how the bill was measured and priced, and what it stands on.
func (t *tender) basis() {
	t.begin("Basis of the tender")
	t.head("Measuring and pricing")
	t.clause(wording.Basis(t.Job.Currency, t.Job.VATRounding == job.Down)...)

	t.head("Prices and their dates")
	t.clause(text("prices", "{date}", day(t.Job.TenderDate))...)
	if t.Job.PriceRises.IsZero() {
		t.clause(text("prices fixed")...)
	} else {
		t.clause(text("prices rises", "{rise}", percent(t.Job.PriceRises))...)
	}
	if t.quoted() {
		t.clause(text("prices quoted")...)
	}

	timber := text("timber")
	if len(t.ownerTimber()) > 0 {
		timber = append(timber, text("timber owner")...)
	}
	timber, list := append(t.Job.Standing(job.OfTimber, timber), t.Job.Added(job.OfTimber)...), t.timbers()
	if len(timber)+len(list) > 0 {
		t.head("Timber")
		t.clause(timber...)
		t.namesOf(list)
	}

	t.head("Working time, dock and slip")
	t.clause(text("hours", "{hours}", t.Job.HoursAWeek.String())...)
	if len(t.Job.Closures) > 0 {
		t.clause(text("hours closed")...)
	}
	t.clause(t.Job.Standing(job.OfDock, text("dock"))...)
	t.clause(t.Job.Added(job.OfDock)...)
}

// quoted reports a sum that somebody else has quoted.
func (t *tender) quoted() bool {
	for _, s := range t.Bill.Sums {
		if s.Kind == job.Quotation || s.QuotedBy != "" {
			return true
		}
	}
	return false
}

// timbers is the timbers of the new work of which more is known than the name.
func (t *tender) timbers() []rates.Timber {
	var list []rates.Timber
	seen := map[string]bool{}
	for _, r := range t.Takeoff.Rows {
		if r.Member == nil || !r.Member.Treatment.TakesTimber() || r.Member.Timber == "" || seen[rates.Key(r.Member.Timber)] {
			continue
		}
		seen[rates.Key(r.Member.Timber)] = true
		// One of which no more is known than its name is named in the bill.
		if row, ok := t.Book.TimberRow(r.Member.Timber); ok && row.Botanical+row.Durability != "" {
			list = append(list, row)
		}
	}
	slices.SortStableFunc(list, func(a, b rates.Timber) int { return cmp.Compare(rates.Key(a.Timber), rates.Key(b.Timber)) })
	return list
}

// namesOf lists timbers by their botanical names.
func (t *tender) namesOf(list []rates.Timber) {
	if len(list) == 0 {
		return
	}
	t.y += 1
	table := t.table(column{head: "Timber", share: 1}, column{head: "Botanical name", share: 1.2}, column{head: "Natural durability", share: 1})
	for _, row := range list {
		class := row.Durability
		if class != "" {
			class = "class " + class
		}
		table.add(plainRow, words(capital(row.Timber), ""), styled(row.Botanical, cellText.of(italic), 1), words(class, ""))
	}
	table.set()
}

// terms are the exclusions and assumptions: standing text, as the Clauses sheet
// has it for this job. That the yard is to read it against the job is told to the
// yard alone, see wording.BeforeSending.
func (t *tender) terms() {
	excluded := append(t.Job.Standing(job.Exclusions, text("exclusions")), t.Job.Added(job.Exclusions)...)
	assumed := t.Job.Standing(job.Assumptions, text("assumptions"))
	if paid := t.paid(); paid != "" {
		assumed = append(assumed, text("assumptions payment", "{payment}", paid)...)
	}
	assumed = append(assumed, t.Job.Added(job.Assumptions)...)
	if len(excluded)+len(assumed) == 0 {
		return
	}
	t.begin("Exclusions and assumptions")
	if len(excluded) > 0 {
		t.head("Not included")
		t.clause(excluded...)
	}
	if len(assumed) > 0 {
		t.head("Assumed")
		t.clause(assumed...)
	}
}

// paid says when the work is paid for, "" where the Job does not.
func (t *tender) paid() string {
	var paid []string
	if weeks := t.Job.PaymentWeeks; !weeks.IsZero() {
		paid = append(paid, "within "+weeks.String()+" weeks of each valuation")
	}
	if kept := t.Job.Retention; !kept.IsZero() {
		paid = append(paid, "less a retention of "+percent(kept))
	}
	return strings.Join(paid, ", ")
}

// cautions are the usual ones, and those that the job adds.
func (t *tender) cautions() {
	t.begin("Cautions")
	t.clause(wording.Cautions()...)
	t.clause(t.Job.Added(job.Cautions)...)
}
