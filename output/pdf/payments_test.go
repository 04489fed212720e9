package pdf_test

import (
	"strings"
	"sync"
	"testing"
	"time"

	"futtock/estimate"
	"futtock/estimate/cash"
	"futtock/estimate/job"
	"futtock/estimate/risk"
	"futtock/rates/money"
)

// simulated is the demonstration with its contingency drawn, priced once.
var simulated = sync.OnceValues(func() (estimate.Result, error) {
	r, err := demoOnce()
	r.Job.ContingencyBy = job.BySimulation
	return estimate.Run(r.Job, r.Book), err
})

func TestASimulatedContingencyIsOneSumWithWhatItCovers(t *testing.T) {
	r, err := simulated()
	if err != nil {
		t.Fatal(err)
	}
	text := single(words(t, tender(t, r)))
	for _, want := range []string{
		"by drawing 100,000 times", "In 80 % of the draws the sum was enough", "Contingency in the sum " + r.Bill.Held.Grouped(),
		"RK1 Keel found hogged beyond what shores will let out 15 %", "RK5 Wet winter holds up paying and paint 30 %",
	} {
		if !strings.Contains(strings.ReplaceAll(text, "\u00a0", " "), want) {
			t.Errorf("the text has no %q", want)
		}
	}
	// What a risk would cost, what it bears and how the draws came out are the yard's own.
	s := r.Contingency.Simulation
	own := []string{s.Base.Grouped(), s.Chosen.Grouped(), s.Mean.Grouped(), s.P50.Grouped(), s.P90.Grouped()}
	for _, d := range s.Drivers {
		own = append(own, d.Bears.Grouped())
	}
	for _, u := range s.Rows {
		if u.Source == risk.Register {
			own = append(own, u.SD.Grouped())
		}
	}
	for _, not := range own {
		if strings.Contains(text, " "+not+" ") {
			t.Errorf("the client's tender has %s", not)
		}
	}
}

func TestValuationsAreThoseOfTheCash(t *testing.T) {
	r := demonstration(t)
	text := single(words(t, tender(t, r)))
	c := r.Cash
	want := []string{
		"Total before value added tax " + c.Net.Grouped() + " " + c.Net.Grouped(),
		"When defects are made good 0.00 " + c.AtMakingGood.Grouped() + " " + c.MadeGood.On.Format("2 Jan 2006"),
		"within 12 months of the end of the works", "half falls due on " + c.MadeGood.On.Format("2 January 2006"),
		"SU5 Suit of six sails in tan polyester canvas 24 Apr 2027 April 2027 30 % 7,155.00",
		"That is charged beside each payment, and comes to £" + c.VAT.Grouped() + " in all",
	}
	var deposits money.Amount
	for _, o := range c.Orders {
		deposits = deposits.Add(o.Deposit)
	}
	want = append(want, "Deposits of £"+deposits.Grouped()+" in all", "Deposits on orders, in the values above "+deposits.Grouped())
	working := 0
	for n, m := range c.Months {
		if !m.Working {
			continue
		}
		working++
		name := m.Begins.Format("January 2006")
		want = append(want, strings.Join([]string{name, m.Value.Grouped(), m.Cumulative.Grouped(), m.CumulativeShare.Decimal().StringFixed(1), "%",
			m.Retention.Grouped(), m.Due.Grouped(), m.PaidOn.Format("2 Jan 2006")}, " "))
		funds := []string{name}
		for _, f := range c.Funds {
			funds = append(funds, f.Months[n].Grouped())
		}
		want = append(want, strings.Join(funds, " "))
	}
	if working < 6 || len(c.Funds) < 2 || len(c.Funds) > 4 {
		t.Fatalf("the demonstration has %d months and %d funds", working, len(c.Funds))
	}
	for _, w := range want {
		if !strings.Contains(text, w) {
			t.Errorf("the text has no %q", w)
		}
	}
}

func TestWithoutAStartOrARetentionTheValuationsSaySo(t *testing.T) {
	r := demonstration(t)
	r.Cash.Dated, r.Cash.Funds, r.Cash.Orders = false, nil, nil
	r.Cash.Months = append(r.Cash.Months[:0:0], r.Cash.Months...)
	for n := range r.Cash.Months {
		r.Cash.Months[n].Begins, r.Cash.Months[n].PaidOn = time.Time{}, time.Time{}
	}
	r.Cash.Retained, r.Cash.AtMakingGood = r.Cash.Retained.Sub(r.Cash.Retained), r.Cash.Retained.Sub(r.Cash.Retained)
	text := single(words(t, tender(t, r)))
	m := r.Cash.Months[1]
	for _, want := range []string{"No start is named", "Weeks " + m.From.StringFixed(1) + " to " + m.To.StringFixed(1), m.Due.Grouped() + " week " + m.PaidAt.StringFixed(1)} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	for _, not := range []string{"By fund", "Kept back", "made good", "eposit"} {
		if strings.Contains(text, not) {
			t.Errorf("there is nothing to say under %q, and the tender has it", not)
		}
	}
}

// Without a start an order and the last release stand at their weeks; without a
// defects period the tender says that the release has no date.
func TestWithoutAStartOrdersAndTheReleaseStandAtTheirWeeks(t *testing.T) {
	r := demonstration(t)
	dated := r.Cash.MadeGood
	r.Cash.Orders = append(r.Cash.Orders[:0:0], r.Cash.Orders...)
	for n := range r.Cash.Orders {
		r.Cash.Orders[n].Day = time.Time{}
	}
	r.Cash.MadeGood = &cash.Release{Month: dated.Month, At: dated.At}
	text := single(words(t, tender(t, r)))
	for _, want := range []string{"emergency valve week −3.0 November 2026 25 % 2,950.00", "half falls due on week " + dated.At.StringFixed(1)} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	r.Cash.MadeGood = nil
	if text := single(words(t, tender(t, r))); !strings.Contains(text, "No defects period is named") || !strings.Contains(text, "When defects are made good 0.00 "+r.Cash.AtMakingGood.Grouped()+" Total") {
		t.Error("the tender does not say that the release has no date")
	}
}
