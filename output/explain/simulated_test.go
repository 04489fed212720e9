package explain_test

import (
	"strings"
	"sync"
	"testing"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output/explain"
	"futtock/rates/money"
)

// simulated is the demonstration with its contingency drawn, priced once.
var simulated = sync.OnceValue(func() estimate.Result {
	return run(demoTables(), func(j *job.Job) { j.ContingencyBy = job.BySimulation })
})

// labelled is the lines of a figure with a label, wherever they stand.
func labelled(r estimate.Result, ref, label string) []explain.Line {
	var out []explain.Line
	var walk func([]explain.Line)
	walk = func(lines []explain.Line) {
		for _, l := range lines {
			if l.Label == label {
				out = append(out, l)
			}
			walk(l.Under)
		}
	}
	walk(explain.Of(r, ref))
	return out
}

func TestASimulatedContingencyIsExplained(t *testing.T) {
	r := simulated()
	s := r.Contingency.Simulation
	for label, want := range map[string]string{
		"Total": r.Bill.Held.String(), "Priced": r.Bill.Items.Add(r.Bill.Prelims).String(), "Chosen total": s.Chosen.String(), "Mean": s.Mean.String(),
		"P10": s.P10.String(), "P50": s.P50.String(), "P80": s.P80.String(), "P90": s.P90.String(), "Draw number": "1903", "Draws": "100000",
		"Priced with the contingency": s.PriceEnough.Decimal().String(), "Surprises together": "20",
	} {
		lines := labelled(r, "D", label)
		if len(lines) != 1 || lines[0].Value != want {
			t.Errorf("%s is %+v; want %s", label, lines, want)
		}
	}
	if at := labelled(r, "D", "Draw number")[0].At; at.Address() != "B32" {
		t.Errorf("the draw number was typed in %s", at)
	}
	drivers := labelled(r, "D", "What it is held for, the heaviest first: the average in draws near the chosen total")
	if len(drivers) != 1 || len(drivers[0].Under) != len(s.Drivers) || len(s.Drivers) < 10 {
		t.Fatalf("of %d drivers there are %+v", len(s.Drivers), drivers)
	}
	for n, l := range drivers[0].Under[1:] {
		if figure(l.Value).GreaterThan(figure(drivers[0].Under[n].Value)) {
			t.Errorf("%s with %s stands after %s", l.Label, l.Value, drivers[0].Under[n].Value)
		}
	}
}

// Whatever drives the contingency says under its own Ref what of it it bears.
func TestWhatIsDrawnSaysWhatItBears(t *testing.T) {
	r := simulated()
	for _, d := range r.Contingency.Simulation.Drivers {
		lines := labelled(r, d.Ref, "Borne in the contingency")
		if len(lines) == 0 || lines[0].Value != d.Bears.String() || !strings.HasPrefix(lines[0].How, string(d.Source)) {
			t.Errorf("%s bears %+v; want %s", d.Ref, lines, d.Bears)
		}
	}
	if lines := labelled(demonstration(), "RK1", "Borne in the contingency"); lines != nil {
		t.Errorf("by percent RK1 bears %+v", lines)
	}
	// A risk at 15 % of 4,000, 9,000 and 22,000: 0.15 x (4,000 + 9,000 + 22,000) / 3 = 1,750.
	if lines := labelled(r, "RK1", "Mean"); len(lines) != 1 || lines[0].Value != "1750.00" {
		t.Errorf("the mean of RK1 is %+v", lines)
	}
}

func TestCashAndFundsAreExplained(t *testing.T) {
	r := demonstration()
	for _, label := range []string{"Value of the work", "Due"} {
		if lines := labelled(r, "cash", label); len(lines) != 1 || lines[0].Value != r.Bill.Net.String() || lines[0].How != explain.Added {
			t.Errorf("%s is %+v; want %s", label, lines, r.Bill.Net)
		}
	}
	second := labelled(r, "cash", "December 2026")
	m := r.Cash.Months[1]
	if len(second) != 2 || second[0].Value != m.Value.String() || second[1].Value != m.Due.String() || !strings.HasSuffix(second[1].How, "paid 28 January 2027") {
		t.Fatalf("December is %+v", second)
	}
	var parts money.Amount
	for _, l := range second[0].Under {
		parts = parts.Add(money.MustAmount(l.Value))
	}
	if !parts.Equal(m.Value) {
		t.Errorf("the parts of December come to %s, and it is %s", parts, m.Value)
	}
	funds := 0
	for _, f := range r.Cash.Funds {
		if f.Fund == "" {
			continue
		}
		funds++
		if lines := labelled(r, f.Fund, "By months"); len(lines) != 1 || lines[0].Value != f.Total.String() {
			t.Errorf("%s is %+v; want %s", f.Fund, lines, f.Total)
		}
	}
	if funds < 2 {
		t.Errorf("the demonstration names %d funds", funds)
	}
}
