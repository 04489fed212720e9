package json

import (
	"cmp"
	"time"

	"futtock/estimate"
	"futtock/estimate/cash"
	"futtock/estimate/job"
	"futtock/rates/money"
)

// Contingency is how the sum held was found, be it a client's sum or within the
// rates. All but the basis and the sum stand only where it is simulated: the
// total of measured work and preliminaries with what the draws make of it.
type Contingency struct {
	Basis  string         `json:"basis"` // percent or simulated
	Held   money.Amount   `json:"held"`
	Mean   *money.Amount  `json:"mean,omitempty"`
	P10    *money.Amount  `json:"p10,omitempty"`
	P50    *money.Amount  `json:"p50,omitempty"`
	P80    *money.Amount  `json:"p80,omitempty"`
	P90    *money.Amount  `json:"p90,omitempty"`
	Enough *money.Percent `json:"enough_percent,omitempty"` // of the draws do not exceed the price with what is held
}

// Month is a month of the cash flow, before VAT: its weeks from the start on
// site, and its days where that is known.
type Month struct {
	FromWeek    string       `json:"from_week"`
	ToWeek      string       `json:"to_week"`
	From        string       `json:"from,omitempty"`
	To          string       `json:"to,omitempty"`
	Value       money.Amount `json:"value"`
	Cumulative  money.Amount `json:"cumulative"`
	Retention   money.Amount `json:"retention"`
	Due         money.Amount `json:"due"`
	PaidWeek    string       `json:"paid_week,omitempty"` // when Due is paid; none where no work is valued
	Paid        string       `json:"paid,omitempty"`
	Received    money.Amount `json:"received"`
	Outstanding money.Amount `json:"outstanding"`
}

// Order is a sum to be ordered ahead of its stage, with the deposit in it.
type Order struct {
	Ref     string        `json:"ref"`
	Week    string        `json:"week"` // from the start on site; below nil is before it
	Date    string        `json:"date,omitempty"`
	Deposit *money.Amount `json:"deposit,omitempty"`
	Month   int           `json:"deposit_month,omitempty"` // in which the deposit is valued, from 1
}

// Release is when the second half of the retention is let go.
type Release struct {
	Week   string       `json:"week"`
	Date   string       `json:"date,omitempty"`
	Amount money.Amount `json:"amount"`
}

func contingency(r estimate.Result) *Contingency {
	c := &Contingency{Basis: string(cmp.Or(r.Job.ContingencyBy, job.ByPercent)), Held: r.Contingency.Total}
	if s := r.Contingency.Simulation; s != nil {
		c.Mean, c.P10, c.P50, c.P80, c.P90, c.Enough = &s.Mean, &s.P10, &s.P50, &s.P80, &s.P90, &s.PriceEnough
	}
	return c
}

func months(c cash.Cash) []Month {
	var out []Month
	for _, m := range c.Months {
		n := Month{FromWeek: m.From.String(), ToWeek: m.To.String(), From: date(m.Begins), To: date(m.Ends), Value: m.Value, Cumulative: m.Cumulative,
			Retention: m.Retention, Due: m.Due, Received: m.Received, Outstanding: m.Outstanding}
		if m.Working {
			n.PaidWeek, n.Paid = m.PaidAt.String(), date(m.PaidOn)
		}
		out = append(out, n)
	}
	return out
}

func orders(c cash.Cash) []Order {
	var out []Order
	for _, o := range c.Orders {
		n := Order{Ref: o.Row.Ref, Week: o.Week.String(), Date: date(o.Day)}
		if !o.Deposit.IsZero() {
			n.Deposit, n.Month = &o.Deposit, o.Month+1
		}
		out = append(out, n)
	}
	return out
}

func release(c cash.Cash) *Release {
	if c.MadeGood == nil {
		return nil
	}
	return &Release{Week: c.MadeGood.At.String(), Date: date(c.MadeGood.On), Amount: c.AtMakingGood}
}

// date is a day as it is written; blank where it is not known.
func date(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return t.Format("2006-01-02")
}
