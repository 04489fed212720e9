package cash_test

import (
	"strings"
	"testing"

	"futtock/estimate/cash"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// What names a fund is drawn on it; preliminaries without one follow: 600.00 of
// the grant, 300.00 of own funds and 100.00 of none make 60, 30 and 10 % of 50.00.
func TestFundsAreDrawnForWhatNamesThemAndTheRestProRata(t *testing.T) {
	var w works
	w.stage("Framing", "0", "4")
	w.item("1", "Framing", "400.00", "Grant 75 %, own funds 25%")
	w.item("2", "Framing", "500.00", "grant 60 %; Own funds 40 %")
	w.item("3", "Framing", "100.00", "")
	w.prelim(price.Preliminary{Ref: "P", Basis: price.Percentage, Unit: measure.One}, "50.00")
	w.prelim(price.Preliminary{Ref: "P2", Basis: price.Percentage, Unit: measure.One, Row: job.Preliminary{Funding: "Friends"}}, "7.00")
	c := w.lay()
	var got []string
	for _, f := range c.Funds {
		got = append(got, f.Fund+" "+f.Named.String()+" + "+f.Shared.String())
	}
	same(t, "funds", got, []string{"Grant 600.00 + 30.00", "own funds 300.00 + 15.00", "Friends 7.00 + 0.00", " 100.00 + 5.00"})
}

func TestSharesThatCannotBeReadAreToldOf(t *testing.T) {
	for _, c := range []struct{ name, funding, says string }{
		{"too little", "grant 60 %, own 30 %", "come to 90 %"},
		{"too much", "grant 60 %, own 60 %", "come to 120 %"},
		{"a name without a share", "grant 60 %, own", `"own" is no fund with its share`},
		{"nothing for anybody", "grant 0 %", "gives no fund a share"},
		{"a name with a comma", "Friends, of 1899", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			var w works
			w.item("1", "", "100.00", c.funding)
			w.bill.Net = sum("100.00")
			out, found := cash.Lay(&w.job, w.prog, w.priced, w.bill)
			var total money.Amount
			for _, f := range out.Funds {
				total = total.Add(f.Total)
			}
			same(t, "drawn", total.String(), "100.00")
			if c.says == "" {
				same(t, "told of", len(found), 0)
			} else if len(found) != 1 || !strings.Contains(found[0].Text, c.says) {
				t.Errorf("found %v; want %s", found, c.says)
			}
		})
	}
}
