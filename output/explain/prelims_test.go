package explain_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
)

// What a charge is for each week, and where it was typed.
func TestAChargeIsFollowedToItsCells(t *testing.T) {
	r := demonstration()
	for _, c := range []struct{ ref, label, how, cell string }{
		{"PR12", "Skips for timber and yard waste, sorted", "2 nr x 1 wk x 88.00", "Preliminaries!E"},
		{"PR12", "Charge", "given in the row", "Preliminaries!G"},
		{"PR1", "Charge", "given in the row", "Preliminaries!F"},
		{"PR9", "Foreman", "813.42 h x 45.21; 6.5 % of 12,514.11 h, all hours priced", ""},
		{"PR9", "Quantity", "6.5 % of 12,514.11 h, all hours priced", "Preliminaries!N"},
		{"PR10", "Project manager", "12.00 h x 52.00; 12 h a week", "Preliminaries!M"},
		{"PR14", "Quantity", "16 weeks given; the programme makes it 21.4, from the start of Strip out to the finish of Planking", "Preliminaries!J"},
		{"PR15", "Work boat in attendance while afloat", "0.2 wk x 420.00", ""},
	} {
		lines := labelled(r, c.ref, c.label)
		if len(lines) == 0 || lines[0].How != c.how {
			t.Errorf("%s, %s: %+v; want %q", c.ref, c.label, lines, c.how)
			continue
		}
		if at := lines[0].At.Sheet + "!" + strings.TrimRight(lines[0].At.Address(), "0123456789"); c.cell != "" && at != c.cell || c.cell == "" && !lines[0].At.IsZero() {
			t.Errorf("%s, %s names %s; want %s", c.ref, c.label, lines[0].At, c.cell)
		}
	}
	if lines := labelled(r, "PR4a", "Quantity"); len(lines) != 1 || !lines[0].At.IsZero() {
		t.Errorf("a fixed charge is paid once, and names %+v", lines)
	}
}

// Waiting time is the time of each trade in the stages that keep it.
func TestWaitingTimeNamesItsStages(t *testing.T) {
	r := run(caseTables(cases+"dock-rent-and-crane.txtar"), func(j *job.Job) { j.PriceWaiting = true })
	costs := labelled(r, "waiting time", "Cost")
	if len(costs) != 1 || len(costs[0].Under) == 0 {
		t.Fatalf("waiting time costs %+v", costs)
	}
	for _, trade := range costs[0].Under {
		var hours decimal.Decimal
		for _, stage := range trade.Under {
			hours = hours.Add(figure(stage.Value))
		}
		if !strings.HasPrefix(trade.How, hours.StringFixed(2)+" h x ") {
			t.Errorf("%s is %s, and its stages %s h", trade.Label, trade.How, hours)
		}
	}
	// Docking keeps two labourers for 1.5 weeks of 34.5 h: 103.5 h, of which 90 are priced.
	if kept := labelled(r, "waiting time", "Docking"); len(kept) != 1 || kept[0].Value != "13.50" {
		t.Errorf("docking keeps %+v", kept)
	}
}
