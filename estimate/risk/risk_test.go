package risk_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/estimate/risk"
	"futtock/rates"
	"futtock/rates/money"
)

func percent(s string) money.Percent { return money.NewPercent(decimal.RequireFromString(s)) }

func line(ref, section string, c job.Carried, amount, chance string) price.Item {
	return price.Item{Ref: ref, Section: section, Carried: c, Amount: money.MustAmount(amount),
		Rows: []job.Work{{Ref: ref, Chance: percent(chance)}}}
}

// Hull 12,345.67 at 7.5 % is 925.92525, held 925.93. Deck at its own 10 % of
// 2,000.05 is 200.005, held 200.01. A risk of 4,000.01 at 30 % is 1,200.003, held
// 1,200.00. Preliminaries of 1,500.10 at 7.5 % are 112.5075, held 112.51.
func TestTheContingencyIsHeldByPercentAndByChance(t *testing.T) {
	priced := price.Priced{
		Items: []price.Item{
			line("1", "hull", job.Measured, "10000.00", "0"),
			line("2", "Hull", job.Provisional, "2345.67", "0"),
			line("3", "Hull", job.Option, "777.77", "0"),
			line("10", "Hull", job.AtRisk, "4000.01", "30"),
			line("9", "Deck", job.AtRisk, "100.00", "0.5"),
			line("5", "Deck", job.Measured, "2000.05", "0"),
			line("6", "Deck", job.RateOnly, "55.00", "0"),
		},
		Preliminaries: []price.Preliminary{{Amount: money.MustAmount("1000.00")}, {Amount: money.MustAmount("500.10")}},
	}
	j := &job.Job{
		Particulars: job.Particulars{Contingency: percent("7.5"), ContingencyOn: job.OnItems},
		Sections:    []job.Section{{Section: "Hull"}, {Section: "Deck", Contingency: percent("10"), OwnRate: true}, {Section: "Rig"}},
	}
	got := risk.Hold(j, &rates.Book{}, labour.Hours{}, programme.Programme{}, priced)
	var lines []string
	for _, s := range got.Sections {
		lines = append(lines, s.Section+" "+s.On.String()+" "+s.Percent.String()+" "+s.Amount.String())
	}
	for _, r := range got.Rows {
		lines = append(lines, r.Ref+" "+r.Held.String())
	}
	lines = append(lines, got.Total.String())
	want := []string{"Hull 12345.67 7.5 % 925.93", "Deck 2000.05 10 % 200.01", "Rig 0.00 7.5 % 0.00", "9 0.50", "10 1200.00", "2326.44"}
	if d := cmp.Diff(want, lines); d != "" {
		t.Errorf("on items (-want +got):\n%s", d)
	}

	j.ContingencyOn = job.OnItemsPrel
	got = risk.Hold(j, &rates.Book{}, labour.Hours{}, programme.Programme{}, priced)
	if d := cmp.Diff([]string{"112.51", "2438.95"}, []string{got.Preliminaries.Amount.String(), got.Total.String()}); d != "" {
		t.Errorf("on items and preliminaries (-want +got):\n%s", d)
	}
}

// A section may say that nothing is to be held on it.
func TestASectionMayHoldNothing(t *testing.T) {
	j := &job.Job{
		Particulars: job.Particulars{Contingency: percent("7.5")},
		Sections:    []job.Section{{Section: "Hull", OwnRate: true}},
	}
	got := risk.Hold(j, &rates.Book{}, labour.Hours{}, programme.Programme{}, price.Priced{Items: []price.Item{line("1", "Hull", job.Measured, "100.00", "0")}})
	if !got.Total.IsZero() {
		t.Errorf("held %s", got.Total)
	}
}
