package explain_test

import (
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output/explain"
	"futtock/templates"
)

// labels is what a reference is answered with.
func labels(r estimate.Result, ref string) []string {
	var out []string
	for _, l := range explain.Of(r, ref) {
		out = append(out, l.Label)
	}
	return out
}

// What each kind of reference is answered with: whatever the job holds first of
// its kind.
func TestWhatAReferenceNames(t *testing.T) {
	r := demonstration()
	want := map[string]string{"VAT": "VAT", "net": "Net total", "total": "Total of the tender", "A": "A, measured work", "measured work": "A, measured work",
		"preliminaries": "B, preliminaries", "Contingency": "D, contingency", "net total": "Net total", "fabric": "Old fabric kept"}
	want[r.Job.Risks[0].Ref] = "Risk " + r.Job.Risks[0].Ref
	want[r.Priced.Sums[0].Row.Ref] = "Sum " + r.Priced.Sums[0].Row.Ref
	want[r.Programme.Stages[0].Stage.Stage] = "Stage " + r.Programme.Stages[0].Stage.Stage
	want[r.Priced.Dayworks[0].Row.Of] = "Daywork, " + r.Priced.Dayworks[0].Row.Of
	want[r.Bill.Sections[0].Section] = "Section " + r.Bill.Sections[0].Section
	parts, risks := 0, 0
	for _, i := range r.Priced.Items {
		want[i.Ref] = "Bill item " + i.Ref
		if i.Carried == job.AtRisk {
			risks++
		}
		for _, w := range i.Rows {
			if w.Ref != i.Ref {
				parts++
				want[w.Ref] = "Row " + w.Ref + " of the schedule"
			}
		}
	}
	for _, p := range r.Priced.Preliminaries {
		want[p.Ref] = "Preliminary " + p.Ref
		want[p.Row.Ref] = "Preliminary " + p.Row.Ref
	}
	if parts == 0 || risks == 0 {
		t.Errorf("the demonstration has %d rows of items of several, and %d items carried as risk", parts, risks)
	}
	for ref, label := range want {
		if got := labels(r, ref); len(got) == 0 || !slices.Contains(got, label) {
			t.Errorf("%s: got %q, want %q", ref, got, label)
		}
	}
	if got := labels(r, "no such thing"); got != nil {
		t.Errorf("what is nowhere is explained as %q", got)
	}
}

// The deck of the case is section D, and D is the contingency: both are
// explained. Case and spaces are folded.
func TestAReferenceOfTwoThingsExplainsBoth(t *testing.T) {
	r := jobs()["deck-700-feet.txtar"]
	if d := cmp.Diff([]string{"Section D", "D, contingency"}, labels(r, " d ")); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// A row kept for the record alone is explained as such.
func TestARowOnRecordSaysThatItIsNotPriced(t *testing.T) {
	r := demonstration()
	priced := map[string]bool{}
	for _, i := range r.Priced.Items {
		for _, w := range i.Rows {
			priced[w.Ref] = true
		}
	}
	n := 0
	for _, row := range r.Takeoff.Rows {
		if priced[row.Work.Ref] {
			continue
		}
		n++
		if l := explain.Of(r, row.Work.Ref)[0]; l.Under[0].Label != "Not priced" || l.At != row.Work.At {
			t.Errorf("%s: %s, at %s", row.Work.Ref, l.Under[0].Label, l.At)
		}
	}
	if n == 0 {
		t.Error("the demonstration has no row on record")
	}
}

// The hours of a trade are those the terminal shows, and a line of stock is borne to the penny; what is
// not bought still says what a stick of it costs.
func TestTradesAndStockAreExplained(t *testing.T) {
	r := demonstration()
	for _, h := range r.HoursByTrade() {
		if got := labelled(r, h.Trade, "Hours priced"); len(got) != 1 || got[0].Value != h.Hours.StringFixed(2) || got[0].How != explain.Added {
			t.Errorf("%s: %+v; want %s", h.Trade, got, h.Hours)
		}
	}
	// 6.5 % of 12,514.11 h is 813.42 h.
	if got := labelled(r, "foreman", "PR9  Yard foreman"); len(got) != 1 || got[0].How != "813.42 h x 45.21" {
		t.Errorf("the foreman is charged as %+v", got)
	}
	// 12 h of 52.00 are charged for each of the 45.8 weeks.
	if got := labelled(r, "Project manager", "PR10  Project manager, programme and funder reports"); len(got) != 1 || got[0].Value != "624.00" || got[0].How != "12.00 h x 52.00, for each wk" {
		t.Errorf("the project manager is charged as %+v", got)
	}
	for _, l := range r.Plan.Order {
		if !slices.ContainsFunc(labelled(r, l.Stock.Stock, "Borne by"), func(b explain.Line) bool { return b.Value == l.Cost.String() }) {
			t.Errorf("what bears %s of %s is %+v", l.Stock.Stock, l.Cost, labelled(r, l.Stock.Stock, "Borne by"))
		}
	}
	unused := 0
	for _, k := range r.Book.StockInForce(r.Job.TenderDate) {
		if not := labelled(r, k.Stock, "Not bought"); len(not) > 0 {
			each, _, err := k.StickPrice()
			if stick := labelled(r, k.Stock, "One stick"); err != nil || len(stick) != 1 || stick[0].Value != each.String() {
				t.Errorf("a stick of %s is %+v; want %s, %v", k.Stock, stick, each, err)
			}
			unused++
		}
	}
	if unused == 0 {
		t.Error("the demonstration buys of every line of stock")
	}
}

// Which way tax is rounded stands beside it: 13.5 % of 76,516.87 is 10,329.777, 10,329.77 down.
func TestTaxSaysThatItIsRoundedDown(t *testing.T) {
	tables := caseTables(cases + "dock-rent-and-crane.txtar")
	for i, table := range tables {
		if table.Sheet == "VAT" {
			tables[i] = templates.ParseTSV("vat", "Code\tCategory\tMeaning\tRate %\nS\tS\treduced rate\t13.5%\n")
		}
	}
	for rounding, want := range map[job.Rounding][2]string{job.Down: {"10329.77", "13.5 % of 76,516.87, rounded down; reduced rate; no From date"}, job.Nearest: {"10329.78", "13.5 % of 76,516.87; reduced rate; no From date"}} {
		r := run(tables, func(j *job.Job) { j.VATRounding = rounding })
		if got := labelled(r, "VAT", "VAT S"); len(got) != 1 || got[0].Value != want[0] || got[0].How != want[1] {
			t.Errorf("%s: %+v, want %q", rounding, got, want)
		}
	}
}
