package quotes

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// asForm is a form filled in with the yardstick's own rates, times a factor.
func asForm(s Sent, firm string, factor string) Quote {
	q := Quote{Book: firm + ".xlsx", Firm: firm, Tax: bill.LeftOut, Reference: s.Reference}
	for _, l := range s.Lines {
		o := Offered{Fixed: l.Fixed, Mark: l.Mark(), Part: l.Part, Quantity: Figure{State: Given, Value: l.Quantity}}
		rate := Figure{State: Given, Value: l.Rate.Times(num(factor)).Decimal()}
		put := l.Amount.Sub(l.ownMoney()).Times(num(factor)).Decimal()
		switch {
		case l.Given:
			o.Attendance = Figure{State: Given, Value: put}
		case l.addition():
			o.Addition = Figure{State: Given, Value: put.DivRound(l.Quantity, 6)}
		case l.Part == Sums:
			o.Quantity = Figure{State: Given, Value: l.Amount.Times(num(factor)).Decimal()}
		case l.Part == Preliminaries:
			o.Once, o.Time = Figure{State: Given, Value: l.Amount.Times(num(factor)).Decimal()}, o.Quantity
		default:
			o.Rate = rate
		}
		if sum, ok := sumAt(&l, &o, o.Quantity.Value, 0); ok {
			o.Amount = Figure{State: Reckoned, Value: sum.Decimal()}
			q.Stated.Value = q.Stated.Value.Add(sum.Decimal())
		}
		if !l.InTotal() {
			q.Stated.Value = q.Stated.Value.Sub(o.Amount.Value)
		}
		q.Lines = append(q.Lines, o)
	}
	q.Stated.State = Reckoned
	return q
}

// yard is the bill of the hand-worked comparison with a preliminary of a given time
// and daywork in money beside it: 200.00 and 20.00 on it, 3,220.00 in all, and 300.00.
func yard() Sent {
	s := refit()
	s.Lines[3].Standing = bill.TimeGiven
	d := line(Dayworks, "D/2", "", "", "200", "", "220")
	d.Unit = measure.Sums
	s.Lines = append(s.Lines, d)
	return s
}

func TestFormsAreExaminedAndLevelledInTheOrderGiven(t *testing.T) {
	s := yard()
	same, dear := asForm(s, "Same", "1"), asForm(s, "Dear", "1.1")
	silent := asForm(s, "Silent", "1")
	silent.Lines[1].Rate, silent.Lines[1].Amount = Figure{}, Figure{State: Reckoned} // 600.00 of planking
	silent.Lines[4].Attendance, silent.Lines[4].Amount = Figure{}, given("1000")     // 100.00 on the sum
	silent.Lines[6].Addition, silent.Lines[6].Amount = Figure{}, given("200")        // 20.00 on the daywork
	silent.Stated.Value = num("2500")
	c, problems := Compare(s, []Quote{same, dear, silent}, Usual())
	if len(problems) > 0 {
		t.Fatal(problems[0])
	}
	// Dear: 550 + 660 + 440 + 1,110 + 440 + 222 = 3,422.00 and the client's 300.00.
	for i, want := range []struct {
		name, net, levelled string
		steps               []step
	}{
		{"Same", "3220.00", "3520.00", []step{{HeldEqual, "", "300.00"}}},
		{"Dear", "3422.00", "3722.00", []step{{HeldEqual, "", "300.00"}}},
		{"Silent", "2500.00", "3520.00", []step{{GapFilled, "B/2", "600.00"}, {GapFilled, "S/1", "100.00"}, {GapFilled, "D/2", "20.00"}, {HeldEqual, "", "300.00"}}},
	} {
		o := c.Offers[i]
		if o.Name != want.name || o.Net.String() != want.net || o.Levelled.String() != want.levelled {
			t.Errorf("%s comes to %s net and %s levelled, want %v", o.Name, o.Net, o.Levelled, want)
		}
		if d := cmp.Diff(want.steps, steps(o)); d != "" {
			t.Errorf("%s: -want +got:\n%s", o.Name, d)
		}
	}
	if o := c.Offers[1]; o.Behind.String() != "202.00" || o.Over.String() != "202.00" || o.OverPart.String() != "5.7 %" { // 202 of 3,520
		t.Errorf("Dear is %s behind the lowest, %s and %s over the yardstick", o.Behind, o.Over, o.OverPart)
	}
	if c.Yardstick.Amount.String() != "3520.00" || c.Offers[2].RankBefore != 1 || c.Offers[2].RankAfter != 1 || c.Offers[1].RankAfter != 3 {
		t.Errorf("yardstick %s, ranks %d, %d, %d", c.Yardstick.Amount, c.Offers[0].RankAfter, c.Offers[1].RankAfter, c.Offers[2].RankAfter)
	}
}

func TestALetterOfOneSumIsComparedAsAWhole(t *testing.T) {
	s := yard()
	q := Quote{Firm: "Letter", Lump: true, Tax: bill.AddedIn, TaxRate: points("20"), TaxRateGiven: true, Stated: given("3600")}
	c, problems := Compare(s, []Quote{q, asForm(s, "Same", "1")}, Usual())
	if len(problems) > 0 {
		t.Fatal(problems[0])
	}
	o := c.Offers[0]
	if o.Net.String() != "3000.00" || o.Beside.String() != "3000.00" || o.Levelled.String() != "3300.00" {
		t.Errorf("net %s, beside %s, levelled %s", o.Net, o.Beside, o.Levelled)
	}
	for _, sec := range c.Sections {
		if sec.Key != BesideLines && (!sec.Within[0] || sec.Within[1] || !sec.Low.Equal(sec.High)) {
			t.Errorf("%s: within %v, from %s to %s", sec.Key, sec.Within, sec.Low, sec.High)
		}
	}
}

func TestNoQuotesAreNoComparison(t *testing.T) {
	c, problems := Compare(yard(), nil, Usual())
	if len(c.Offers) > 0 || len(problems) > 0 || len(c.Rows) != len(yard().Lines) || c.Yardstick.Amount.String() != "3520.00" {
		t.Errorf("%d offers, %v, yardstick %s", len(c.Offers), problems, c.Yardstick.Amount)
	}
}

func TestABillWithoutPricesIsComparedQuoteWithQuote(t *testing.T) {
	s := yard()
	all := []Quote{asForm(s, "A", "1"), asForm(s, "B", "1.2"), asForm(s, "C", "1.4")}
	all[0].Lines[0].Rate, all[0].Lines[0].Amount = Figure{}, Figure{State: Reckoned}
	s.Priced, s.Stages, s.Weeks, s.HasHeld = false, nil, Stretch{}, false
	for n := range s.Lines {
		s.Lines[n].Priced, s.Lines[n].Rate, s.Lines[n].Amount = false, money.Amount{}, money.Amount{}
	}
	terms := asMean()
	c, problems := Compare(s, all, terms)
	if len(problems) > 0 {
		t.Fatal(problems[0])
	}
	// Frames at the mean of 600.00 and 700.00.
	if got := c.Rows[0].Cells[0].Levelled.String(); got != "650.00" || c.Yardstick.Known {
		t.Errorf("levelled at %s; yardstick known %t", got, c.Yardstick.Known)
	}
	terms.Gaps = AtYardstick
	if _, problems = Compare(s, all, terms); cmp.Diff([]problem.Code{problem.YardstickUnpriced}, codes(problems)) != "" {
		t.Errorf("%v", problems)
	}
}

// BenchmarkCompare is 40 forms of 5,000 lines.
func BenchmarkCompare(b *testing.B) {
	s, _ := large()
	for n := range s.Lines {
		s.Lines[n].Carried = job.Measured
	}
	var all []Quote
	for i := range 40 {
		q := asForm(s, fmt.Sprint("firm ", i), decimal.New(int64(80+i), -2).String())
		if i%2 == 1 {
			q.Tax, q.TaxRate, q.TaxRateGiven = bill.AddedIn, points("20"), true
		}
		all = append(all, q)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, problems := Compare(s, all, Usual()); len(problems) > 0 {
			b.Fatal(problems[0])
		}
	}
}
