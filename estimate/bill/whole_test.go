package bill_test

import (
	"encoding/csv"
	"os"
	"strconv"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/estimate/programme"
	"futtock/rates"
	"futtock/rates/money"
)

// drawn is a job with anything in it: credits, nil percentages, all ways of
// carrying work, contingency as a sum or within the rates.
func drawn(t *rapid.T) (*job.Job, *rates.Book, programme.Programme) {
	j, b := whole()
	sum := func(least, most int64, name string) money.Price {
		return money.PriceOf(money.Pennies(rapid.Int64Range(least, most).Draw(t, name)))
	}
	share := func(name string) money.Percent {
		return money.NewPercent(decimal.New(rapid.Int64Range(0, 4000).Draw(t, name), -2))
	}
	code := rapid.SampledFrom([]string{"", "S", "Z", "s", "R"})
	b.VAT = append(b.VAT, rates.VAT{Code: "R", Rate: percent("5")})
	j.VATRounding = rapid.SampledFrom([]job.Rounding{job.Nearest, job.Down}).Draw(t, "rounding")
	j.ContingencyShown = rapid.SampledFrom([]job.Shown{job.ClientSum, job.WithinRates}).Draw(t, "shown")
	j.ContingencyOn = rapid.SampledFrom([]job.Base{job.OnItems, job.OnItemsPrel}).Draw(t, "on")
	j.Contingency, j.PriceRises = share("contingency"), share("rises")
	j.Start = j.TenderDate.AddDate(0, 0, rapid.IntRange(0, 900).Draw(t, "days"))
	for _, k := range rates.Kinds() {
		j.Additions = append(j.Additions, rates.Addition{Kind: k, Overheads: share("overheads"), Profit: share("profit")})
	}
	j.Items, j.Preliminaries, j.Sums = nil, nil, nil
	for n := range rapid.IntRange(1, 12).Draw(t, "items") {
		i := costing(strconv.Itoa(n), rapid.SampledFrom([]string{"1", "2"}).Draw(t, "section"), "1", "0")
		i.Quantity = decimal.New(rapid.Int64Range(1, 99999).Draw(t, "quantity"), -2)
		i.Cost = sum(-2000, 999999, "cost")
		i.Carried = rapid.SampledFrom(job.CarriedAs()).Draw(t, "carried")
		if i.Carried == job.AtRisk {
			i.Chance = share("chance")
		}
		i.VAT = code.Draw(t, "code")
		i.CostKind = rapid.SampledFrom(rates.Kinds()).Draw(t, "kind")
		if rapid.Bool().Draw(t, "with others") && i.Carried == job.Measured {
			i.BillItem, i.Section = "together", "1"
		}
		j.Items = append(j.Items, i)
	}
	for n := range rapid.IntRange(0, 4).Draw(t, "preliminaries") {
		j.Preliminaries = append(j.Preliminaries, job.Preliminary{
			Ref: "P" + strconv.Itoa(n), Fixed: sum(0, 99999, "fixed"), Weekly: sum(1, 99999, "weekly"), VAT: code.Draw(t, "code"),
			Weeks: decimal.New(rapid.Int64Range(1, 500).Draw(t, "weeks"), -1), WeeksGiven: true,
		})
		j.Sums = append(j.Sums, job.Sum{Ref: "S" + strconv.Itoa(n), Amount: sum(0, 999999, "sum"), Profit: share("profit"), Attendance: sum(0, 9999, "attendance"), VAT: code.Draw(t, "code")})
	}
	return j, b, programme.Programme{Weeks: decimal.New(rapid.Int64Range(0, 900).Draw(t, "programme"), -1)}
}

// Whatever is priced, the printed bill casts by hand: lines to sections,
// sections to the total, VAT once a code.
func TestAnyBillCastsByHand(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		j, b, g := drawn(r)
		got, priced, _ := cast(t, j, b, g)
		if t.Failed() {
			r.FailNow()
		}
		var sums, amounts, differences money.Amount
		for _, i := range priced.Items {
			sums, amounts, differences = sums.Add(i.Sum), amounts.Add(i.Amount), differences.Add(i.Difference)
		}
		if !differences.Equal(amounts.Sub(sums)) {
			r.Fatalf("differences %s, amounts %s, sums %s", differences, amounts, sums)
		}
		seen := map[string]bool{}
		for _, v := range got.VAT {
			if k := rates.Key(v.Code); seen[k] {
				r.Fatalf("VAT code %s stands twice", v.Code)
			} else {
				seen[k] = true
			}
		}
	})
}

// The order of the rows in the workbook makes no difference to the bill.
func TestRowsInAnyOrderMakeTheSameBill(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		j, b, g := drawn(r)
		first, _, _ := cast(t, j, b, g)
		j.Items = rapid.Permutation(j.Items).Draw(r, "items")
		j.Preliminaries = rapid.Permutation(j.Preliminaries).Draw(r, "preliminaries")
		j.Sums = rapid.Permutation(j.Sums).Draw(r, "sums")
		second, _, _ := cast(t, j, b, g)
		if d := cmp.Diff(first, second); d != "" {
			r.Fatalf("another order, another bill (-first +second):\n%s", d)
		}
	})
}

// A contingency within the rates is neither lost nor doubled: what the shares
// add to is what would have been the client's sum, unless there is nothing to
// carry it.
func TestSharesWithinTheRatesAddUpToTheContingency(t *testing.T) {
	rapid.Check(t, func(r *rapid.T) {
		j, b, g := drawn(r)
		j.ContingencyShown = job.ClientSum
		open, _, _ := cast(t, j, b, g)
		j.ContingencyShown = job.WithinRates
		closed, _, found := cast(t, j, b, g)
		var shares money.Amount
		for _, i := range closed.Reconciled {
			shares = shares.Add(i.Share)
		}
		if found.HasErrors() {
			if !shares.IsZero() {
				r.Fatalf("shares of %s and a problem: %v", shares, found)
			}
			return
		}
		if !shares.Equal(open.Held) {
			r.Fatalf("shares of %s in a contingency of %s", shares, open.Held)
		}
	})
}

// Published: the VAT on a net total of 704.88 at 20 %, rounded down, and the
// total. Sources stand in testdata/published/price.csv.
func TestPublishedVATHolds(t *testing.T) {
	f, err := os.Open("../../testdata/published/price.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	want := map[string]string{}
	for _, row := range rows {
		want[row[0]] = row[3]
	}
	j, b := whole()
	j.VATRounding, j.Contingency = job.Down, percent("0")
	j.Sections = j.Sections[:1]
	j.Items, j.Preliminaries, j.Sums, j.Dayworks = []job.Item{costing("1", "1", "1", "704.88")}, nil, nil, nil
	got, _, _ := cast(t, j, b, programme.Programme{})
	equal(t, "R-VAT-03", got.VATTotal.String(), want["R-VAT-03"])
	equal(t, "R-VAT-04", got.Total.String(), want["R-VAT-04"])
}
