package pdf

import "futtock/rates/measure"

// relief is the note on value added tax, where a code on the bill hangs on
// whether she is a qualifying ship: what the law asks, what is recorded, both
// totals, and who is to judge.
func (t *tender) relief() {
	o := t.Bill.Otherwise
	if o == nil {
		return
	}
	t.begin("Note on value added tax")
	if t.Job.Currency == "GBP" {
		t.clause(text("vat")...)
	} else {
		t.clause(text("vat elsewhere")...)
	}

	t.head("What is recorded of her")
	metres := func(l measure.Length) string {
		if l == 0 {
			return ""
		}
		return l.Format(measure.M)
	}
	tons := ""
	if t.Job.TonnageGiven {
		tons = t.Job.Tonnage.String()
		if t.Job.TonnageBasis != "" {
			tons += ", by " + t.Job.TonnageBasis
		}
	} else if reckoned, _, ok := t.Job.Tons(); ok && t.Job.Currency == "GBP" {
		tons = reckoned.String() + ", by length x breadth x depth x 0.235, where none is ascertained otherwise"
	}
	t.facts([]fact{
		{"Gross tonnage", tons},
		{"Length overall", metres(t.Job.LengthOverall)},
		{"Breadth", metres(t.Job.Breadth)},
		{"Depth", metres(t.Job.Depth)},
		{"Designed or adapted for", t.Job.DesignedFor},
		{"Evidence", t.Job.VATEvidence},
	}, body)
	t.y += 3
	if t.Job.VATEvidence == "" {
		t.clause(text("vat evidence none")...)
	}

	table := t.table(column{head: "", share: 1}, column{head: t.money("Qualifying"), align: pointed}, column{head: t.money("Not qualifying"), align: pointed})
	row := func(kind rowKind, s style, name, now, otherwise string) {
		table.add(kind, styled(name, s, 1), styled(now, s, 1), styled(otherwise, s, 1))
	}
	row(plainRow, cellText, "Total before value added tax", figures(t.Bill.Net), figures(t.Bill.Net))
	row(plainRow, cellText, "Value added tax", figures(t.Bill.VATTotal), figures(o.VATTotal))
	row(totalRow, cellBold, "Total with value added tax", figures(t.Bill.Total), figures(o.Total))
	t.headed("The total both ways", table)
	t.clause(text("vat judge")...)
}
