package bill_test

import (
	"testing"

	"futtock/estimate/bill"
	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/estimate/takeoff"
	"futtock/rates/money"
)

// simulated is the bill of whole with its contingency drawn. The one risk, of
// 2,000.00, comes about in three draws of ten: at 80 % all of it is held, at 60 %
// nothing.
func simulated(t *testing.T, confidence string, shown job.Shown) bill.Bill {
	t.Helper()
	j, b := whole()
	j.ContingencyBy, j.Confidence, j.ContingencyShown = job.BySimulation, percent(confidence), shown
	var rows []takeoff.Row
	for i := range j.Items {
		j.Items[i].Least, j.Items[i].Most = percent("100"), percent("100")
		rows = append(rows, takeoff.Row{Work: j.Items[i].Work, Item: &j.Items[i]})
	}
	g := programme.Programme{}
	p, _ := price.Price(j, b, takeoff.Takeoff{Rows: rows}, cutting.Plan{}, labour.Hours{}, g)
	out, found := bill.Cast(j, b, p, risk.Hold(j, b, labour.Hours{}, g, p), g)
	for _, f := range found {
		t.Error(f)
	}
	return out
}

func TestASimulatedContingencyIsOneSumOfTheClients(t *testing.T) {
	b := simulated(t, "80", job.ClientSum)
	equal(t, "D and what it stands on", []any{b.Held.String(), b.Contingency.Basis, len(b.Contingency.Parts), len(b.Contingency.Risks)},
		[]any{"2000.00", "simulated, at 80 %", 0, 0})
	equal(t, "net", b.Net.String(), "6481.46") // 2755.46 + 171.00 + 1555.00 + 2000.00
	b = simulated(t, "60", job.ClientSum)
	equal(t, "D and net at 60 %", []string{b.Held.String(), b.Net.String()}, []string{"0.00", "4481.46"})
}

func TestASimulatedContingencyWithinTheRatesIsNotSpokenOf(t *testing.T) {
	b := simulated(t, "80", job.WithinRates)
	var shares money.Amount
	for _, r := range b.Reconciled {
		shares = shares.Add(r.Share)
	}
	equal(t, "D, shares and basis", []string{b.Held.String(), shares.String(), b.Contingency.Basis}, []string{"0.00", "2000.00", ""})
}
