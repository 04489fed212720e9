package text

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	laid "futtock/estimate/programme"
	"futtock/rates"
	"futtock/rates/money"
)

// Sums stand under each other whatever their size and the names beside them: a mark over a
// letter takes no room, a letter of Chinese two, a long key takes some of the text's.
func TestSumsStandUnderEachOther(t *testing.T) {
	sum := money.MustAmount
	r := estimate.Result{}
	r.Job.Vessel, r.Job.Reference, r.Job.Currency = "Blåmåsen", "T1", "NOK"
	r.Bill.Sections = []bill.Section{
		{Section: "KJØL", Title: "Kjo\u0308l", Total: sum("123456789.00")},
		{Section: "BACKBONE-1", Title: "Keel, keelson, stem, sternpost and all that hangs on them fore and aft", Total: sum("-5.00")},
		{Section: "甲板", Title: "甲板と舷墻", Total: sum("1.00")},
	}
	r.Bill.Items, r.Bill.Net, r.Bill.Total = sum("123456785.00"), sum("123456785.00"), sum("9123456785.00")
	var b strings.Builder
	Priced(&b, r)
	want := `Blåmåsen, tender T1, 1 January 0001

  KJØL       Kjo` + "\u0308" + `l                                        123,456,789.00
  BACKBONE-1 Keel, keelson, stem, sternpost and all t…            -5.00
  甲板       甲板と舷墻                                            1.00
                                                       ----------------
  A          Measured work                               123,456,785.00
  B          Preliminaries                                         0.00
  C          Sums and dayworks                                     0.00
                                                       ----------------
             Net total                                   123,456,785.00
             Total, NOK                                9,123,456,785.00
`
	if d := cmp.Diff(want, b.String()); d != "" {
		t.Errorf("(-want +got):\n%s", d)
	}
}

// Nothing of the summary of a job of long names and large sums is wider than a terminal.
func TestTheSummaryFitsATerminal(t *testing.T) {
	sum, n := money.MustAmount, decimal.RequireFromString
	r := estimate.Result{}
	trade := "Shipwright of the first class, nights and Sundays"
	r.Book.Labour = []rates.Labour{{Trade: trade}}
	r.Hours.Lines = []labour.Line{{Trade: trade, Carried: job.Measured, Hours: n("123456.78")}}
	r.Bill.Sections = []bill.Section{{Section: "A rather long name of a section", Title: strings.Repeat("wide ", 30), Total: sum("123456789.00")}}
	r.Plan.Species = []cutting.Species{{Timber: "European oak, air dried, of the first quality", Net: n("1234.567"), Sawn: n("1234.567"), Bought: n("2345.678"),
		Yield: money.NewPercent(n("10.1")), Cost: sum("23456789.00"), Bound: boundOf("23456789", "0", "100")}}
	for range 9 {
		r.Programme.Stages = append(r.Programme.Stages, laid.Stage{Stage: job.Stage{Stage: "Beams, shelves and knees"}, Critical: true})
	}
	var b strings.Builder
	Priced(&b, r)
	for _, line := range strings.Split(b.String(), "\n") {
		if letters(line) > screen {
			t.Errorf("%d letters: %s", letters(line), line)
		}
	}
	if !strings.Contains(b.String(), "123,456.78") || !strings.Contains(b.String(), "critical: Beams, shelves and knees") {
		t.Errorf("the summary is\n%s", b.String())
	}
}

func TestLettersAreCountedByTheRoomTheyTake(t *testing.T) {
	for text, want := range map[string]int{"": 0, "oak": 3, "Kjøl": 4, "o\u0308": 1, "船大工": 6, "a\u200db": 2, "½": 1} {
		if got := letters(text); got != want {
			t.Errorf("%q takes %d, want %d", text, got, want)
		}
	}
	if got := fitted("船大工事場", 8); letters(got) != 8 || !strings.HasPrefix(got, "船大工…") {
		t.Errorf("cut short it is %q", got)
	}
}

// A contingency within the rates is in no line of the summary, and told of under it.
func TestAContingencyWithinTheRatesIsToldOfUnderTheSummary(t *testing.T) {
	r := estimate.Result{}
	r.Contingency.Total = money.MustAmount("1250.00")
	var b strings.Builder
	if within(&b, r); b.Len() > 0 {
		t.Errorf("a client's sum says %q", b.String())
	}
	r.Job.ContingencyShown = job.WithinRates
	if within(&b, r); b.String() != "\n  Contingency within the rates 1,250.00\n" {
		t.Errorf("it says %q", b.String())
	}
}
