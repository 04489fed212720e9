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

	t.head("Timber")
	t.clause(text("timber")...)
	if len(t.ownerTimber()) > 0 {
		t.clause(text("timber owner")...)
	}
	t.timbers()

	t.head("Working time, dock and slip")
	t.clause(text("hours", "{hours}", t.Job.HoursAWeek.String())...)
	if len(t.Job.Closures) > 0 {
		t.clause(text("hours closed")...)
	}
	t.clause(text("dock")...)
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

// timbers lists the timbers of the new work by their botanical names.
func (t *tender) timbers() {
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
	if len(list) == 0 {
		return
	}
	slices.SortStableFunc(list, func(a, b rates.Timber) int { return cmp.Compare(rates.Key(a.Timber), rates.Key(b.Timber)) })
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

// terms are the exclusions and assumptions: standing text. That the yard is to
// read it against the job is told to the yard alone, see wording.BeforeSending.
func (t *tender) terms() {
	t.begin("Exclusions and assumptions")
	t.head("Not included")
	t.clause(text("exclusions")...)
	t.head("Assumed")
	t.clause(text("assumptions")...)
	var paid []string
	if weeks := t.Job.PaymentWeeks; !weeks.IsZero() {
		paid = append(paid, "within "+weeks.String()+" weeks of each valuation")
	}
	if kept := t.Job.Retention; !kept.IsZero() {
		paid = append(paid, "less a retention of "+percent(kept))
	}
	if len(paid) > 0 {
		t.clause(text("assumptions payment", "{payment}", strings.Join(paid, ", "))...)
	}
}

// cautions are the usual ones.
func (t *tender) cautions() {
	t.begin("Cautions")
	t.clause(wording.Cautions()...)
}
