package cash_test

import (
	"strings"
	"testing"

	"futtock/estimate/cash"
	"futtock/estimate/job"
	"futtock/rates/money"
)

// A deposit of 30 % of 1,000.00 falls when the sails are ordered, six weeks before
// their stage begins on 6 July: on 25 May, before the start on site, and so in
// the first month. The 780.00 that are left, 80.00 of them profit and attendance,
// lie over the stage: 26 days of 35 in July. Of the 10.01 ordered two weeks ahead,
// on 22 June, a third is paid then. Each fund bears its share of the deposit out of
// what it bears of the sum: 540.00 and 540.00, of them 150.00 and 150.00 ahead.
func TestADepositFallsWhenTheSumIsOrdered(t *testing.T) {
	var w works
	w.job.Start = date("2026-06-01")
	w.stage("Framing", "0", "5")  // to 5 July
	w.stage("Rigging", "5", "10") // 6 July to 9 August
	w.sum(job.Sum{Ref: "S1", Stage: "Rigging", LeadWeeks: dec("6"), Deposit: percent("30"), Amount: money.NewPrice(dec("1000")), Attendance: money.NewPrice(dec("30")), Kind: job.Quotation, Funding: "A 50 %, B 50 %"}, "1080.00")
	w.sum(job.Sum{Ref: "S2", Stage: "Rigging", LeadWeeks: dec("2"), Deposit: percent("33.3"), Amount: money.NewPrice(dec("10.01")), Kind: job.PrimeCost}, "10.01")
	w.sum(job.Sum{Ref: "S3", Stage: "Rigging", Deposit: percent("100"), Amount: money.NewPrice(dec("50")), Kind: job.PrimeCost}, "50.00")
	c := w.lay()
	lines := map[string]string{}
	for _, l := range c.Lines {
		var got []string
		for _, m := range l.Months {
			got = append(got, m.String())
		}
		lines[l.Name] = strings.Join(got, " ")
	}
	same(t, "lines", lines, map[string]string{
		"deposits on orders": "303.33 50.00 0.00",  // 3.33 is 33.3 % of 10.01
		"sums":               "0.00 584.38 202.30", // 26/35 of 390.00 twice and of 6.68: 289.71, 289.71, 4.96; and what is left of each
	})
	var orders, funds []string
	for _, o := range c.Orders {
		orders = append(orders, strings.Join([]string{o.Row.Ref, o.Day.Format("01-02"), o.Deposit.String(), c.Months[o.Month].Begins.Format("Jan")}, " "))
	}
	same(t, "orders", orders, []string{"S1 05-25 300.00 Jun", "S2 06-22 3.33 Jun", "S3 07-06 50.00 Jul"})
	for _, f := range c.Funds {
		funds = append(funds, f.Fund+" "+f.Total.String()+" "+f.Months[0].String())
	}
	same(t, "funds", funds, []string{"A 540.00 150.00", "B 540.00 150.00", " 60.01 3.33"})
}

// Work of 1,000.00 is done on the last of August. Half of the 5 % kept back is
// released with the last valuation, the other half six months after: on the last
// of February, a month that stands by itself. Without a start it is at week
// 52/12 x 7, within the month that ends then.
func TestTheLastOfTheRetentionIsReleasedWhenTheDefectsPeriodEnds(t *testing.T) {
	for _, c := range []struct{ name, start, months, released, received string }{
		{"by the calendar", "2026-08-04", "08-04 09-01 02-01", "02-28 29.86", "0.00 975.00 25.00"},
		{"without a start", "", "0 4.33 26", "01-01 30.33", "0.00 975.00 25.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var w works
			if c.start != "" {
				w.job.Start = date(c.start)
			}
			w.job.Retention, w.job.DefectsMonths, w.job.PaymentWeeks = percent("5"), 6, dec("1")
			w.stage("Planking", "0", "4")
			if c.start == "" {
				w.stage("Painting", "4", "4.33333333") // one month of 52/12 weeks
			}
			w.item("1", "Planking", "1000.00", "")
			out := w.lay()
			var months []string
			for _, m := range out.Months {
				if out.Dated {
					months = append(months, m.Begins.Format("01-02"))
				} else {
					months = append(months, m.From.String())
				}
			}
			same(t, "months", strings.Join(months, " "), c.months)
			same(t, "released", out.MadeGood.On.Format("01-02")+" "+out.MadeGood.At.String(), c.released)
			same(t, "received", values(out, func(m cash.Month) money.Amount { return m.Received }), c.received)
			last := out.Months[out.MadeGood.Month]
			same(t, "last", []string{last.Due.String(), last.Retention.String(), last.Outstanding.String(), last.ReceivedShare.String()}, []string{"25.00", "0.00", "0.00", "100 %"})
		})
	}
}
