package quotes

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// drawSent is any priced bill with a programme, a few lines of every part.
func drawSent(t *rapid.T) Sent {
	s := Sent{Book: "bill.xlsx", Priced: true, Sections: []Section{{"F", "Frames"}, {"P", "Planking"}}, HasHeld: rapid.Bool().Draw(t, "held"),
		Contingency: money.Pennies(rapid.Int64Range(0, 50000).Draw(t, "contingency")), Weeks: Stretch{num("6"), rapid.Bool().Draw(t, "programme")},
		Stages: []Stage{{"Hauling", num("0"), num("2.5")}, {"Planking", num("1.5"), num("6")}}}
	for n := range rapid.IntRange(1, 8).Draw(t, "lines") {
		part := rapid.SampledFrom(Parts()).Draw(t, "part")
		l := line(part, fmt.Sprintf("%s/%d", part, n), "", rapid.SampledFrom([]string{"", "hauling", "planking"}).Draw(t, "stage"), "", "", "")
		l.Quantity = num(fmt.Sprint(rapid.IntRange(1, 40).Draw(t, "quantity")))
		l.Rate = money.Pennies(rapid.Int64Range(1, 20000).Draw(t, "rate"))
		l.Amount, l.Priced = l.Rate.Times(l.Quantity), true
		switch part {
		case Work:
			l.Section = rapid.SampledFrom([]string{"F", "P"}).Draw(t, "section")
			l.Carried = rapid.SampledFrom([]job.Carried{job.Measured, job.Provisional, job.Option, job.RateOnly}).Draw(t, "carried")
		case Dayworks:
			if rapid.Bool().Draw(t, "daywork in money") {
				l.Unit = measure.Sums
				l.Amount = l.ownMoney().Add(l.Rate)
			}
		case Sums:
			if l.Given = rapid.Bool().Draw(t, "given"); l.Given {
				l.Amount = l.ownMoney().Add(l.Rate)
			}
		}
		s.Lines = append(s.Lines, l)
	}
	return s
}

// drawQuote is any answer to a bill, on the form or, where asked, a letter.
func drawQuote(t *rapid.T, s Sent, firm string) checked {
	q := Quote{Firm: firm, Tax: rapid.SampledFrom([]string{bill.LeftOut, bill.AddedIn, ""}).Draw(t, "tax"), TaxRateGiven: true, TaxRate: points(rapid.SampledFrom([]string{"20", "5.5", "0"}).Draw(t, "rate of tax"))}
	if rapid.Bool().Draw(t, "says its weeks") {
		q.Weeks = given(fmt.Sprint(rapid.IntRange(1, 12).Draw(t, "weeks")))
	}
	q.Lump = rapid.Bool().Draw(t, "letter")
	var cells []Cell
	for _, l := range s.Lines {
		states := []Answer{Answered, Answered, Answered, Silent, LeftOff, ForOwner, WithinOthers}
		if q.Lump {
			states = append(states, WithinLump)
		}
		c := cell(rapid.SampledFrom(states).Draw(t, "answer"), "", "")
		if c.State == Answered {
			rate := money.Pennies(rapid.Int64Range(-2000, 20000).Draw(t, "offered"))
			c.Corrected = rate.Times(l.Quantity)
			if l.Part == Work && !q.Lump {
				c.Rate = Money{rate, true}
			}
			if l.Given && !q.Lump {
				c.Offered.Attendance = Figure{State: Given, Value: rate.Decimal()}
				c.Corrected = l.ownMoney().Add(rate)
			}
			if l.addition() && !q.Lump {
				c.Offered.Addition = Figure{State: Given, Value: rate.Decimal().Shift(-2)}
				c.Corrected = l.ownMoney().Add(l.ownMoney().Times(c.Offered.Addition.Value))
			}
		}
		cells = append(cells, c)
	}
	ch := examined(s, q, cells...)
	if q.Lump {
		ch = ch.with(map[string]money.Amount{"F": money.Pennies(rapid.Int64Range(0, 500000).Draw(t, "frames")), string(Dayworks): money.Pennies(777)})
	}
	if rapid.Bool().Draw(t, "puts in") {
		ch = ch.with(ch.lumps, &Offered{Amount: given("100.01")}, &Offered{Amount: given("33.33")})
		ch.corrected = money.Pennies(1234).Add(ch.corrected) // and its total says so much more
		ch.findings = []Finding{{Kind: ContingencyPut, Worth: amount("33.33")}}
	}
	return ch
}

func drawAll(t *rapid.T, s Sent) ([]checked, Terms) {
	var all []checked
	for n := range rapid.IntRange(1, 5).Draw(t, "quotes") {
		all = append(all, drawQuote(t, s, fmt.Sprintf("firm %d", n)))
	}
	terms := Usual()
	terms.Gaps = rapid.SampledFrom(GapRules()).Draw(t, "gaps")
	terms.Low = rapid.SampledFrom(LowRules()).Draw(t, "low")
	if rapid.Bool().Draw(t, "weeks priced") {
		terms.Week = amount("123.45")
	}
	return all, terms
}

func TestEveryFigureAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSent(t)
		all, terms := drawAll(t, s)
		c, _ := compare(s, all, terms)
		for i, o := range c.Offers {
			if !o.Net.Add(o.TaxOut).Equal(o.Corrected) {
				t.Errorf("%s: net %s and tax %s are not %s", o.Name, o.Net, o.TaxOut, o.Corrected)
			}
			levelled, beside := o.Net, o.Beside
			for _, a := range o.Adjustments {
				levelled = levelled.Add(a.Amount)
				if a.Kind != GapFilled && a.Kind != SumsEqual {
					beside = beside.Add(a.Amount)
				}
			}
			if !levelled.Equal(o.Levelled) {
				t.Errorf("%s: net and adjustments are %s, levelled %s", o.Name, levelled, o.Levelled)
			}
			net, rows := o.Beside, beside
			for _, lump := range o.Lumps {
				net, rows = net.Add(lump.Net), rows.Add(lump.Net)
			}
			for _, r := range c.Rows {
				if r.Line.InTotal() {
					net, rows = net.Add(r.Cells[i].Net), rows.Add(r.Cells[i].Levelled)
				}
				if x := r.Cells[i]; !x.Levelled.Equal(x.Corrected) && len(x.Why) == 0 {
					t.Errorf("%s, %s: %s is levelled to %s, and nothing says why", o.Name, r.Line.ID, x.Corrected, x.Levelled)
				}
			}
			if !net.Equal(o.Net) || !rows.Equal(o.Levelled) {
				t.Errorf("%s: rows come to %s net and %s levelled, want %s and %s", o.Name, net, rows, o.Net, o.Levelled)
			}
			var sections money.Amount
			for _, sec := range c.Sections {
				sections = sections.Add(sec.Levelled[i])
			}
			if !sections.Equal(o.Levelled) {
				t.Errorf("%s: sections come to %s, want %s", o.Name, sections, o.Levelled)
			}
			if credits := slices.ContainsFunc(c.Rows, func(r Row) bool { return r.Line.InTotal() && r.Cells[i].Levelled.Sign() < 0 }); credits || beside.Sign() < 0 || o.Levelled.IsZero() {
				continue
			}
			if o.Worth.Cmp(o.Levelled) > 0 || o.Worth.Cmp(o.Levelled.Times(aWeek(terms.Discount).Pow(num("6"))).Sub(money.Pennies(1))) < 0 || !o.Middle.Known {
				t.Errorf("%s: levelled %s is worth %s over six weeks, half of it paid by week %v", o.Name, o.Levelled, o.Worth, o.Middle)
			}
		}
		var yardstick money.Amount
		for _, sec := range c.Sections {
			yardstick = yardstick.Add(sec.Yardstick.Amount)
		}
		if !yardstick.Equal(c.Yardstick.Amount) {
			t.Errorf("sections of the yardstick come to %s, want %s", yardstick, c.Yardstick.Amount)
		}
	})
}

func TestRanksFollowTheSums(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSent(t)
		all, terms := drawAll(t, s)
		c, _ := compare(s, all, terms)
		for _, a := range c.Offers {
			before, after := 1, 1
			for _, b := range c.Offers {
				if b.Net.Cmp(a.Net) < 0 {
					before++
				}
				if b.Levelled.Cmp(a.Levelled) < 0 {
					after++
				}
			}
			if a.RankBefore != before || a.RankAfter != after {
				t.Errorf("%s is ranked %d and %d, want %d and %d", a.Name, a.RankBefore, a.RankAfter, before, after)
			}
		}
	})
}

// A form filled in with what the yardstick says comes to what it comes to,
// whatever else there is and by whatever rules.
func TestTheYardstickSentBackLevelsToItself(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSent(t)
		s.Weeks.Known = true
		all, terms := drawAll(t, s)
		terms.Errors = rapid.SampledFrom(ErrorRules()).Draw(t, "errors")
		same := asForm(s, "same", "1")
		same.Weeks = Figure{State: Given, Value: s.Weeks.Weeks}
		c, _ := compare(s, append(all, check(&s, &same, terms)), terms)
		if got := c.Offers[len(all)].Levelled; !got.Equal(c.Yardstick.Amount) {
			t.Errorf("got %s, want %s: %v", got, c.Yardstick.Amount, c.Offers[len(all)].Adjustments)
		}
	})
}

func TestTheOrderQuotesAreGivenInChangesNoFigure(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSent(t)
		all, terms := drawAll(t, s)
		turned := slices.Clone(all)
		slices.Reverse(turned)
		a, problemsA := compare(s, all, terms)
		b, problemsB := compare(s, turned, terms)
		last := len(all) - 1
		type of struct {
			Levelled, Worth, Marks, Middle string
			Before, After, Worths, Rates   int
			Steps                          []step
			Low                            bool
		}
		view := func(c Comparison, i int) of {
			o := c.Offers[i]
			n := 0
			for _, r := range c.Rates {
				if r.Offer == i {
					n++
				}
			}
			return of{o.Levelled.String(), o.Worth.String(), o.Marks.String(), o.Middle.Weeks.String(), o.RankBefore, o.RankAfter, o.RankWorth, n, steps(o), c.Low.Low[i]}
		}
		for i := range all {
			if d := cmp.Diff(view(a, i), view(b, last-i)); d != "" {
				t.Errorf("%s: -as given +turned about:\n%s", a.Offers[i].Name, d)
			}
		}
		if len(problemsA) != len(problemsB) {
			t.Errorf("%d problems, turned about %d", len(problemsA), len(problemsB))
		}
	})
}

// Tax put on every rate of a quote, and said, is the same quote: the rounding of
// what a line then comes to is at most half a penny on it, and all together go back
// into one total.
func TestTaxPutOnAllRatesAndSaidLevelsToTheSame(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := drawSent(t)
		for n := range s.Lines { // the bill's own money bears no tax of the firm's
			if s.Lines[n].Given = false; s.Lines[n].Part == Dayworks {
				s.Lines[n].Unit = measure.Hour
			}
		}
		all, terms := drawAll(t, s)
		plain := all[0]
		plain.quote.Tax, plain.extra, plain.findings, plain.lumps = bill.LeftOut, nil, nil, nil
		taxed := *plain.quote
		taxed.Tax, taxed.TaxRate = bill.AddedIn, points("20")
		var net, gross []Cell
		for _, c := range plain.cells {
			net = append(net, c)
			c.Corrected = c.Corrected.Times(num("1.2"))
			gross = append(gross, c)
		}
		terms.Gaps = AtYardstick
		a, _ := compare(s, []checked{examined(s, *plain.quote, net...)}, terms)
		b, _ := compare(s, []checked{examined(s, taxed, gross...)}, terms)
		slack := money.Pennies(int64(len(s.Lines)/2 + 1))
		if d := abs(a.Offers[0].Levelled.Sub(b.Offers[0].Levelled)); d.Cmp(slack) > 0 {
			t.Errorf("%s without tax and %s with it", a.Offers[0].Levelled, b.Offers[0].Levelled)
		}
	})
}

// large is 40 quotes of 5,000 lines, some with tax in, some with gaps.
func large() (Sent, []checked) {
	s := Sent{Book: "bill.xlsx", Priced: true, Stages: []Stage{{"Hauling", num("0"), num("4")}, {"Planking", num("3.5"), num("60")}}}
	for n := range 100 {
		s.Sections = append(s.Sections, Section{fmt.Sprint(n), fmt.Sprint("section ", n)})
	}
	for n := range 5000 {
		l := line(Work, fmt.Sprintf("B/%d", n), fmt.Sprint(n%100), "planking", fmt.Sprint(n%50+1), "", "")
		l.Rate = money.Pennies(int64(n%977 + 500))
		l.Amount, l.Priced = l.Rate.Times(l.Quantity), true
		s.Lines = append(s.Lines, l)
	}
	var all []checked
	for i := range 40 {
		q := Quote{Firm: fmt.Sprint("firm ", i), Tax: bill.LeftOut, TaxRate: points("20"), TaxRateGiven: true}
		if i%2 == 1 {
			q.Tax = bill.AddedIn
		}
		cells := make([]Cell, len(s.Lines))
		for n, l := range s.Lines {
			if (n+i)%97 == 0 {
				cells[n] = cell(Silent, "", "")
				continue
			}
			rate := money.Pennies(int64((n*7+i*131)%1500 + 300))
			cells[n] = Cell{State: Answered, Offered: &Offered{}, Rate: Money{rate, true}, Corrected: rate.Times(l.Quantity)}
		}
		all = append(all, examined(s, q, cells...))
	}
	return s, all
}

func BenchmarkLevelling(b *testing.B) {
	s, all := large()
	for _, priced := range []bool{true, false} {
		b.Run(fmt.Sprintf("priced %t", priced), func(b *testing.B) {
			s := s
			s.Priced = priced
			terms := asMean()
			b.ReportAllocs()
			for b.Loop() {
				if _, problems := compare(s, all, terms); len(problems) > 0 {
					b.Fatal(problems[0])
				}
			}
		})
	}
}
