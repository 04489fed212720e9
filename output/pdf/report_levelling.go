package pdf

import (
	"fmt"

	"futtock/estimate/quotes"
	"futtock/rates"
	"futtock/rates/money"
)

// levelling is how the quotes are brought to one footing: by kind for all, then
// every step of each, and the qualifications.
func (r *report) levelling() {
	r.begin("Levelling")
	r.clause(reported("levelling", "{gaps}", r.Terms.Gaps.Meaning())...)
	if r.Yardstick.Known {
		r.clause(reported("yardstick")...)
	}
	if r.Terms.Week.IsZero() {
		r.clause(reported("levelled no week")...)
	} else {
		r.clause(reported("levelled week", "{week}", r.sum(r.Terms.Week))...)
	}
	if len(r.Offers) == 0 {
		return
	}
	steps := []step{{text: "Corrected, before value added tax", of: func(o quotes.Offer) cell { return words(figures(o.Net), "") }}}
	for _, k := range quotes.AdjustmentKinds() {
		if k == quotes.TaxTaken { // it is out already; what is told of it moves nothing
			continue
		}
		s := step{text: capital(string(k))}
		there := false
		for _, o := range r.Offers {
			sum, steps := ofKind(o, k)
			if there = there || steps > 0; steps == 0 {
				s.by = append(s.by, words("–", ""))
				continue
			}
			s.by = append(s.by, words(signedFigures(sum), ""))
		}
		if there {
			steps = append(steps, s)
		}
	}
	for _, o := range r.Offers {
		if all := o.Net.Add(added(o.Adjustments, func(a quotes.Adjustment) money.Amount { return a.Amount })); !all.Equal(o.Levelled) {
			panic(fmt.Sprintf("pdf: %s with its adjustments comes to %s and is levelled at %s", o.Name, all, o.Levelled))
		}
	}
	steps = append(steps, step{kind: totalRow, text: "Levelled, before value added tax", of: func(o quotes.Offer) cell { return styled(figures(o.Levelled), cellBold, 1) }})
	r.sideBySide("From corrected to levelled", steps, nil)

	table := r.table(column{head: "Line"}, column{head: "What, and why", share: 1}, column{head: r.money("Adjustment"), align: pointed})
	table.band = "Every adjustment"
	for i := range r.Offers {
		r.adjusted(table, i)
	}
	r.headed("Every adjustment", table)
	r.qualified()
}

// ofKind is what the adjustments of one kind come to, and how many there are.
func ofKind(o quotes.Offer, k quotes.AdjustmentKind) (sum money.Amount, n int) {
	for _, a := range o.Adjustments {
		if a.Kind == k {
			sum, n = sum.Add(a.Amount), n+1
		}
	}
	return sum, n
}

// adjusted puts every adjustment of one quote into a table.
func (r *report) adjusted(table *table, i int) {
	o := r.Offers[i]
	table.across(bandRow, r.numbered(i), "")
	kept, left := greatest(o.Adjustments, r.share(mostRows, leastRows), func(a quotes.Adjustment) money.Amount { return a.Amount })
	shown := added(kept, func(a quotes.Adjustment) money.Amount { return a.Amount })
	all := o.Levelled.Sub(o.Net)
	for _, a := range kept {
		c := r.lineWords(a.ID, a.Text)
		if a.ID == "" {
			c = words(capital(typeset(a.Text)), "")
			if a.Kind != quotes.TaxTaken {
				c = words(capital(typeset(a.Text)), string(a.Kind))
			}
		}
		table.add(plainRow, words(a.ID, ""), c, words(signedFigures(a.Amount), ""))
	}
	if left > 0 {
		table.add(plainRow, cell{}, styled(counted(left, "adjustment", "adjustments")+" more, none with more money in it, in the comparison workbook", cellNote, 1), words(signedFigures(all.Sub(shown)), ""))
	}
	table.add(totalRow, cell{}, styled("Adjustments in all", cellBold, 1), styled(signedFigures(all), cellBold, 1))
}

// qualified is the qualifications of every firm, each with its figure.
func (r *report) qualified() {
	table := r.table(numberColumn, column{head: "Qualification", share: 1}, column{head: r.money("Priced at"), align: flush, wide: 30})
	table.band = "Qualifications"
	for i, o := range r.Offers {
		if len(o.Qualifications) == 0 {
			continue
		}
		table.across(bandRow, r.numbered(i), "")
		priced := map[string][]quotes.Adjustment{}
		for _, a := range o.Adjustments {
			if a.Kind == quotes.Qualified {
				priced[rates.Key(a.Text)] = append(priced[rates.Key(a.Text)], a)
			}
		}
		for _, q := range o.Qualifications {
			at := styled("not priced", cellNote, 1)
			if found := priced[rates.Key(q.Text)]; len(found) > 0 {
				at = words(signedFigures(found[0].Amount), "")
				priced[rates.Key(q.Text)] = found[1:]
			}
			table.add(plainRow, words(fmt.Sprint(q.Number), ""), words(q.Text, ""), at)
		}
	}
	if len(table.rows) == 0 {
		r.head("Qualifications")
		r.clause("No firm makes any.")
		return
	}
	r.headed("Qualifications", table, reported("qualified")...)
}
