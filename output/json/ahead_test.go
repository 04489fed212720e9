package json_test

import (
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/cash"
	"futtock/estimate/job"
	"futtock/estimate/risk"
	"futtock/output/json"
	"futtock/rates/money"
)

func TestContingencyAndCashAreWrittenInStrings(t *testing.T) {
	sum := money.MustAmount
	var r estimate.Result
	r.Job.ContingencyBy = job.BySimulation
	r.Contingency = risk.Contingency{Total: sum("236"), Simulation: &risk.Simulation{Mean: sum("1100.00"), P10: sum("918.71"), P50: sum("1081.67"),
		P80: sum("1235.43"), P90: sum("1312.92"), PriceEnough: money.NewPercent(decimal.New(801, -1))}}
	day := time.Date(2026, 11, 2, 0, 0, 0, 0, time.UTC)
	r.Cash = cash.Cash{Dated: true, Months: []cash.Month{
		{To: decimal.New(414, -2), Begins: day, Ends: day.AddDate(0, 0, 28), Working: true, Value: sum("1000"), Cumulative: sum("1000"), Retention: sum("50"),
			Due: sum("950"), PaidAt: decimal.New(814, -2), PaidOn: day.AddDate(0, 0, 56), Outstanding: sum("1000")},
		{From: decimal.New(414, -2), To: decimal.New(857, -2), Cumulative: sum("1000"), Retention: sum("50"), Received: sum("950"), Outstanding: sum("50")},
	}}
	r.Cash.Orders = []cash.Order{{Row: job.Sum{Ref: "S1"}, Week: decimal.New(-2, 0), Day: day.AddDate(0, 0, -14), Deposit: sum("300")}, {Row: job.Sum{Ref: "S2"}, Week: decimal.New(1, 0), Day: day.AddDate(0, 0, 7)}}
	r.Cash.AtMakingGood, r.Cash.MadeGood = sum("50"), &cash.Release{Month: 1, At: decimal.New(564, -1), On: day.AddDate(1, 1, 0)}
	doc := json.Of("yard.xlsx", r, nil)
	got, err := json.Write(map[string]any{"cash": doc.Cash, "contingency": doc.Contingency, "orders_ahead": doc.Orders, "retention_release": doc.Release})
	if err != nil {
		t.Fatal(err)
	}
	want := `{
  "cash": [
    {
      "from_week": "0",
      "to_week": "4.14",
      "from": "2026-11-02",
      "to": "2026-11-30",
      "value": "1000.00",
      "cumulative": "1000.00",
      "retention": "50.00",
      "due": "950.00",
      "paid_week": "8.14",
      "paid": "2026-12-28",
      "received": "0.00",
      "outstanding": "1000.00"
    },
    {
      "from_week": "4.14",
      "to_week": "8.57",
      "value": "0.00",
      "cumulative": "1000.00",
      "retention": "50.00",
      "due": "0.00",
      "received": "950.00",
      "outstanding": "50.00"
    }
  ],
  "contingency": {
    "basis": "simulated",
    "held": "236.00",
    "mean": "1100.00",
    "p10": "918.71",
    "p50": "1081.67",
    "p80": "1235.43",
    "p90": "1312.92",
    "enough_percent": "80.1"
  },
  "orders_ahead": [
    {
      "ref": "S1",
      "week": "-2",
      "date": "2026-10-19",
      "deposit": "300.00",
      "deposit_month": 1
    },
    {
      "ref": "S2",
      "week": "1",
      "date": "2026-11-09"
    }
  ],
  "retention_release": {
    "week": "56.4",
    "date": "2027-12-02",
    "amount": "50.00"
  }
}
`
	if d := cmp.Diff(want, string(got)); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
	if by := json.Of("yard.xlsx", estimate.Result{Contingency: risk.Contingency{Total: sum("12.50")}}, nil).Contingency; by.Basis != "percent" || by.Held.String() != "12.50" || by.Mean != nil {
		t.Errorf("by percent it is %+v", by)
	}
}
