package cash_test

import (
	"encoding/csv"
	"os"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/bill"
	"futtock/estimate/cash"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/programme"
	"futtock/rates/measure"
	"futtock/rates/money"
)

func dec(s string) decimal.Decimal   { return decimal.RequireFromString(s) }
func sum(s string) money.Amount      { return money.MustAmount(s) }
func percent(s string) money.Percent { return money.NewPercent(dec(s)) }

func date(s string) time.Time {
	t, err := time.Parse("2006-01-02", s)
	if err != nil {
		panic(err)
	}
	return t
}

// works is a job while a test puts it together, with its bill.
type works struct {
	job    job.Job
	prog   programme.Programme
	priced price.Priced
	bill   bill.Bill
}

// item puts in a line of measured work of one row.
func (w *works) item(ref, stage, amount, funding string) {
	row := job.Work{Ref: ref, Stage: stage, Funding: funding}
	w.priced.Items = append(w.priced.Items, price.Item{Ref: ref, Rows: []job.Work{row}, Amount: sum(amount)})
	if len(w.bill.Sections) == 0 {
		w.bill.Sections = []bill.Section{{}}
	}
	s := &w.bill.Sections[0]
	s.Lines = append(s.Lines, bill.Line{Ref: ref, Carried: job.Measured, Amount: sum(amount), Funding: funding, VAT: "S"})
	w.bill.Items = w.bill.Items.Add(sum(amount))
}

func (w *works) prelim(p price.Preliminary, amount string) {
	w.priced.Preliminaries = append(w.priced.Preliminaries, p)
	w.bill.Preliminaries = append(w.bill.Preliminaries, bill.Line{Ref: p.Ref, Amount: sum(amount), VAT: "S", Funding: p.Row.Funding})
	w.bill.Prelims = w.bill.Prelims.Add(sum(amount))
}

func (w *works) sum(r job.Sum, total string) {
	w.job.Sums = append(w.job.Sums, r)
	w.bill.Sums = append(w.bill.Sums, bill.SumLine{Ref: r.Ref, Total: sum(total), VAT: "S"})
	w.bill.SumsDayworks = w.bill.SumsDayworks.Add(sum(total))
}

// stage puts in a stage that lies from one week to another.
func (w *works) stage(name, from, to string) {
	w.prog.Stages = append(w.prog.Stages, programme.Stage{Stage: job.Stage{Stage: name}, Earliest: dec(from), EarliestFinish: dec(to)})
	w.prog.Weeks = decimal.Max(w.prog.Weeks, dec(to))
}

func (w *works) lay() cash.Cash {
	w.job.VATCode = "S"
	b := &w.bill
	b.Net = money.Sum(b.Items, b.Prelims, b.SumsDayworks, b.Held, b.Rises)
	b.VATTotal = b.Net.Percent(percent("20"))
	b.VAT = []bill.Tax{{Code: "S", Net: b.Net, VAT: b.VATTotal}}
	c, _ := cash.Lay(&w.job, w.prog, w.priced, w.bill)
	return c
}

func values(c cash.Cash, of func(cash.Month) money.Amount) string {
	var out []string
	for _, m := range c.Months {
		out = append(out, of(m).String())
	}
	return strings.Join(out, " ")
}

func same(t *testing.T, what string, got, want any) {
	t.Helper()
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("%s (-want +got):\n%s", what, d)
	}
}

// From 18 May 2026 a stage of eight weeks is 56 days: 14 of May, 30 of June, 12
// of July. 5,600.00 are 100.00 a day. Of each valuation 5 % is kept back: 70.00,
// 220.00 and, at the end, half of 280.00; payment is four weeks later.
func TestAStageIsValuedByTheMonthsOfTheCalendar(t *testing.T) {
	var w works
	w.job.Start, w.job.Retention, w.job.PaymentWeeks = date("2026-05-18"), percent("5"), dec("4")
	w.stage("Planking", "0", "8")
	w.item("1", "Planking", "5600.00", "")
	c := w.lay()
	same(t, "value", values(c, func(m cash.Month) money.Amount { return m.Value }), "1400.00 3000.00 1200.00 0.00")
	same(t, "so far", values(c, func(m cash.Month) money.Amount { return m.Cumulative }), "1400.00 4400.00 5600.00 5600.00")
	same(t, "retention", values(c, func(m cash.Month) money.Amount { return m.Retention }), "70.00 220.00 140.00 140.00")
	same(t, "due", values(c, func(m cash.Month) money.Amount { return m.Due }), "1330.00 2850.00 1280.00 0.00")
	same(t, "VAT", values(c, func(m cash.Month) money.Amount { return m.VAT }), "280.00 600.00 240.00 0.00")
	// Valued on 31 May, 30 June and, when the work is done, 12 July.
	same(t, "received", values(c, func(m cash.Month) money.Amount { return m.Received }), "0.00 1330.00 2850.00 1280.00")
	var days []string
	for _, m := range c.Months[:3] {
		days = append(days, m.Begins.Format("01-02")+" "+m.Ends.Format("01-02")+" "+m.PaidOn.Format("01-02"))
	}
	same(t, "days", days, []string{"05-18 05-31 06-28", "06-01 06-30 07-28", "07-01 07-31 08-09"})
	same(t, "kept back", c.Retained.String()+" "+c.AtCompletion.String()+" "+c.AtMakingGood.String(), "280.00 140.00 140.00")
}

// Days on which the yard is closed bear no work, and rent all the same.
func TestWorkStandsStillWhileTheYardIsClosed(t *testing.T) {
	var w works
	w.job.Start = date("2026-06-18")
	w.job.Closures = []job.Closure{{From: date("2026-06-25"), To: date("2026-07-08")}}
	w.stage("Planking", "0", "4") // 18 June to 15 July, 14 days of them open: 7 in June, 7 in July
	w.item("1", "Planking", "1400.00", "")
	w.prelim(price.Preliminary{Ref: "P", Basis: price.Timed, Unit: measure.Weeks}, "280.00") // 13 days and 15
	c := w.lay()
	same(t, "months", values(c, func(m cash.Month) money.Amount { return m.Value }), "830.00 850.00")
	same(t, "work", c.Lines[0].Months, []money.Amount{sum("700.00"), sum("700.00")})
}

// Where no start is known the months are of 52/12 weeks: a job of 13 weeks has
// three, its first stage of 6.5 weeks lies 4.333 and 2.167 of them.
func TestWithoutAStartMonthsAreOfFiftyTwoTwelfthsOfAWeek(t *testing.T) {
	var w works
	w.stage("Framing", "0", "6.5")
	w.stage("Planking", "6.5", "13")
	w.item("1", "Framing", "600.00", "")
	w.item("2", "Planking", "300.00", "")
	w.prelim(price.Preliminary{Ref: "P", Basis: price.Fixed, Unit: measure.One, Row: job.Preliminary{FromStage: "Planking"}}, "50.00")
	c := w.lay()
	same(t, "value", values(c, func(m cash.Month) money.Amount { return m.Value }), "400.00 350.00 200.00")
	if c.Dated || !c.Months[0].Begins.IsZero() || c.Months[2].To.String() != "13" {
		t.Errorf("dated %v, months %+v", c.Dated, c.Months)
	}
}

// Sums lie over their stage, and must be ordered their Lead weeks before it;
// dayworks and the contingency lie over all of the work; price rises go with the
// work, preliminaries and contingency of the month.
func TestWhatIsNoStageHasItsTime(t *testing.T) {
	var w works
	w.job.Start = date("2026-06-01")
	w.stage("Framing", "0", "4")  // 1 to 28 June
	w.stage("Rigging", "5", "10") // 6 July to 9 August
	w.item("1", "Framing", "1000.00", "")
	w.sum(job.Sum{Ref: "S1", Stage: "Rigging", LeadWeeks: dec("8"), Kind: job.Quotation}, "350.00") // 26 days of 35 in July
	w.sum(job.Sum{Ref: "S2", LeadWeeks: dec("1")}, "70.00")                                         // 30, 31, 9 days of 70
	w.bill.Dayworks = []bill.DayworkLine{{Of: "shipwright", Total: sum("700.00")}}
	w.bill.SumsDayworks = w.bill.SumsDayworks.Add(sum("700.00"))
	w.bill.Held = sum("140.00") // 60.00, 62.00, 18.00
	w.bill.Rises = sum("11.40") // on 1,060.00, 62.00, 18.00
	c := w.lay()
	want := map[string]string{
		"Framing": "1000.00 0.00 0.00", "sums": "30.00 291.00 99.00", "dayworks": "300.00 310.00 90.00",
		"contingency": "60.00 62.00 18.00", "price rises": "10.60 0.62 0.18",
	}
	for _, l := range c.Lines {
		var got []string
		for _, m := range l.Months {
			got = append(got, m.String())
		}
		same(t, l.Name, strings.Join(got, " "), want[l.Name])
		delete(want, l.Name)
	}
	same(t, "without a line", len(want), 0)
	var orders []string
	for _, o := range c.Orders {
		orders = append(orders, o.Row.Ref+" "+o.Week.String()+" "+o.Day.Format("2006-01-02"))
	}
	same(t, "orders", orders, []string{"S1 -3 2026-05-11", "S2 -1 2026-05-25"})
}

// A charge that runs with time lies over its stages, 26 days of July and nine of
// August; over the Weeks given from the beginning of the first, where there are
// any: 6 to 26 July; and one paid once lies where it begins.
func TestPreliminariesLieOverTheirTime(t *testing.T) {
	charge := job.Preliminary{FromStage: "Rigging", ToStage: "Rigging"}
	given := charge
	given.Weeks, given.WeeksGiven = dec("3"), true
	for _, c := range []struct {
		name string
		line price.Preliminary
		want string
	}{
		{"by the programme", price.Preliminary{Row: charge, Basis: price.Timed, Unit: measure.Weeks}, "0.00 260.00 90.00"},
		{"by the weeks given", price.Preliminary{Row: given, Basis: price.Timed, Unit: measure.Weeks}, "0.00 350.00 0.00"},
		{"paid once", price.Preliminary{Row: charge, Basis: price.Fixed, Unit: measure.One}, "0.00 350.00 0.00"},
		{"a percentage of all", price.Preliminary{Row: charge, Basis: price.Percentage, Unit: measure.One}, "150.00 155.00 45.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			var w works
			w.job.Start = date("2026-06-01")
			w.stage("Framing", "0", "4")  // 1 to 28 June
			w.stage("Rigging", "5", "10") // 6 July to 9 August
			w.prelim(c.line, "350.00")
			same(t, "value", values(w.lay(), func(m cash.Month) money.Amount { return m.Value }), c.want)
		})
	}
}

// The published certificate: 200,000 valued so far at a retention of 5 %, after
// 142,500 certified, leaves 47,500. The valuation before, of 150,000, left those.
func TestThePublishedInterimPayment(t *testing.T) {
	f, err := os.Open("../../testdata/published/cash.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var w works
	w.job.Start, w.job.Retention = date("2026-06-01"), percent("5")
	w.stage("Framing", "0", "4")   // in June
	w.stage("Planking", "5", "8")  // in July
	w.stage("Painting", "9", "12") // in August
	w.item("1", "Framing", "150000.00", "")
	w.item("2", "Planking", "50000.00", "")
	w.item("3", "Painting", "1000.00", "")
	c := w.lay()
	for _, r := range rows {
		if r[0] == "F-CSH-05" {
			same(t, "first", c.Months[0].Due.Grouped(), "142,500.00")
			same(t, "second", c.Months[1].Due.Grouped(), r[3]+".00")
			return
		}
	}
	t.Fatal("no row F-CSH-05")
}

// Whatever the bill, no penny is lost: the months, the lines and the funds add
// up to it, what falls due and what is still held too. The curve begins at
// nothing, never falls where there are no credits, and ends at all of it.
func TestNoPennyIsLostInTime(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var w works
		pence := rapid.Int64Range(0, 9_999_999)
		names := []string{"A", "B", "C"}
		for n, name := range names {
			from := rapid.Int64Range(0, 200).Draw(t, "from")
			w.stage(name, decimal.New(from, -1).String(), decimal.New(from+rapid.Int64Range(0, 300).Draw(t, "length"), -1).String())
			w.item(decimal.New(int64(n), 0).String(), rapid.SampledFrom(append(names, "", "gone")).Draw(t, "stage"), money.Pennies(pence.Draw(t, "work")).String(),
				rapid.SampledFrom([]string{"", "grant", "grant 33.3 %, own 66.7 %", "lottery 50 %"}).Draw(t, "funding"))
		}
		p := price.Preliminary{Ref: "P", Basis: rapid.SampledFrom([]price.Basis{price.Fixed, price.Timed, price.Percentage}).Draw(t, "basis"), Unit: measure.Weeks}
		p.Row.FromStage = rapid.SampledFrom(append(names, "")).Draw(t, "from stage")
		p.Row.Weeks, p.Row.WeeksGiven = decimal.New(rapid.Int64Range(0, 900).Draw(t, "weeks"), -1), rapid.Bool().Draw(t, "given")
		w.prelim(p, money.Pennies(pence.Draw(t, "prelim")).String())
		quoted := money.Pennies(pence.Draw(t, "sum"))
		w.sum(job.Sum{Ref: "S", Stage: rapid.SampledFrom(append(names, "")).Draw(t, "of sum"), Kind: job.Quotation, Amount: money.NewPrice(quoted.Decimal()),
			Deposit: money.NewPercent(decimal.New(rapid.Int64Range(0, 1000).Draw(t, "deposit"), -1)), LeadWeeks: decimal.New(rapid.Int64Range(0, 300).Draw(t, "lead"), -1),
			Funding: rapid.SampledFrom([]string{"", "grant 33.3 %, own 66.7 %"}).Draw(t, "funding of sum")}, quoted.Add(money.Pennies(pence.Draw(t, "attendance"))).String())
		w.job.DefectsMonths = rapid.IntRange(0, 24).Draw(t, "defects")
		w.bill.Held, w.bill.Rises = money.Pennies(pence.Draw(t, "held")+1), money.Pennies(pence.Draw(t, "rises"))
		w.job.Retention = money.NewPercent(decimal.New(rapid.Int64Range(0, 100).Draw(t, "retention"), -1))
		w.job.PaymentWeeks = decimal.New(rapid.Int64Range(0, 120).Draw(t, "payment"), -1)
		if rapid.Bool().Draw(t, "dated") {
			w.job.Start = date("2026-11-20")
			w.job.Closures = []job.Closure{{From: date("2026-12-19"), To: date("2027-01-03")}}
		}
		c := w.lay()

		var value, due, received, vat, lines, funds money.Amount
		for n, m := range c.Months {
			if n > 0 && (m.Cumulative.Cmp(c.Months[n-1].Cumulative) < 0 || !m.From.Equal(c.Months[n-1].To) && (c.MadeGood == nil || c.MadeGood.Month != n || n+1 != len(c.Months))) {
				t.Fatalf("month %d: %s from %s after %s to %s", n, m.Cumulative, m.From, c.Months[n-1].Cumulative, c.Months[n-1].To)
			}
			value, due, received, vat = value.Add(m.Value), due.Add(m.Due), received.Add(m.Received), vat.Add(m.VAT)
			var ofLines, ofFunds money.Amount
			for _, l := range c.Lines {
				ofLines = ofLines.Add(l.Months[n])
			}
			for _, f := range c.Funds {
				ofFunds = ofFunds.Add(f.Months[n])
			}
			if !ofLines.Equal(m.Value) || !ofFunds.Equal(m.Value) {
				t.Fatalf("month %d: lines %s, funds %s; want %s", n, ofLines, ofFunds, m.Value)
			}
			lines, funds = lines.Add(ofLines), funds.Add(ofFunds)
		}
		last := c.Months[len(c.Months)-1]
		held := c.AtMakingGood
		if c.MadeGood != nil {
			held = money.Amount{}
		}
		if dated := w.job.DefectsMonths > 0 && !c.AtMakingGood.IsZero(); dated != (c.MadeGood != nil) || !last.Retention.Equal(held) {
			t.Fatalf("a defects period of %d months, %s held: released %+v, still held %s", w.job.DefectsMonths, c.AtMakingGood, c.MadeGood, last.Retention)
		}
		var deposit, ordered money.Amount
		for _, l := range c.Lines {
			if l.Of == cash.OfDeposits {
				deposit = l.Total
			}
		}
		for _, o := range c.Orders {
			ordered = ordered.Add(o.Deposit)
		}
		if want := quoted.Percent(w.job.Sums[0].Deposit); !deposit.Equal(want) || !ordered.Equal(want) {
			t.Fatalf("deposits come to %s, on orders to %s; want %s", deposit, ordered, want)
		}
		for what, got := range map[string]money.Amount{"value": value, "lines": lines, "funds": funds, "due and held": due.Add(held),
			"received and held": received.Add(held), "curve": last.Cumulative} {
			if !got.Equal(c.Net) {
				t.Fatalf("%s come to %s; want %s", what, got, c.Net)
			}
		}
		if !vat.Equal(c.VAT) || last.CumulativeShare.String() != "100 %" {
			t.Fatalf("VAT %s; want %s; the curve ends at %s", vat, c.VAT, last.CumulativeShare)
		}
		if !c.AtCompletion.Add(c.AtMakingGood).Equal(c.Retained) || !c.Retained.Equal(c.Net.Percent(w.job.Retention)) {
			t.Fatalf("kept back %s: %s and %s", c.Retained, c.AtCompletion, c.AtMakingGood)
		}
	})
}
