package quotes

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/bill"
	"futtock/rates/money"
)

// letter is the sound quote as a letter that gives nothing yet.
func letter() (*Sent, *Quote) {
	s, q := sound()
	q.Lump, q.Lines, q.Totals, q.Stated = true, nil, nil, Figure{}
	return s, q
}

// forSection is a row of a letter with the sum for a section, or for a part.
func forSection(p Part, section, sum string) Offered {
	return Offered{Part: p, Section: section, Amount: given(sum)}
}

// The rules are published; the figures are those of the sound quote of
// 10,925.00, altered and worked by hand.
func TestErrorsAreCorrectedByPublishedRules(t *testing.T) {
	type want struct{ line, total string } // of H1
	checks := map[string]func() (checked, want){
		"R-TEN-03": func() (checked, want) { // the hull carried up as 620, the total of 11,025 with it
			s, q := sound()
			q.Totals[0], q.Totals[2], q.Stated = Total{"H", formulaFor("620")}, Total{string(Work), formulaFor("1120")}, formulaFor("11025")
			return check(s, q, terms(RateGoverns)), want{"120.00", "10925.00"}
		},
		"R-TEN-31": func() (checked, want) { // 10 m at 12.00 is 120.00, not 130.00
			s, q := sound()
			q.line("B/H1").Amount = formulaFor("130")
			retotal(s, q)
			return check(s, q, terms(RateGoverns)), want{"120.00", "10925.00"}
		},
		"R-TEN-32": func() (checked, want) { // 10 m at 1.20 and 120.00: the rate is 12.00
			s, q := sound()
			q.line("B/H1").Rate = given("1.20")
			c := check(s, q, terms(RateGoverns))
			if got := c.cells[0].Rate.Amount.String(); got != "12.00" {
				t.Errorf("the rate is corrected to %s, want 12.00", got)
			}
			return c, want{"120.00", "10925.00"}
		},
		"R-TEN-33": func() (checked, want) { // one sum for the whole, and nothing it could be an error of
			s, q := letter()
			q.Stated, q.Words = given("11000"), "Ten thousand and eleven pounds"
			return check(s, q, terms(RateGoverns)), want{"0.00", "10011.00"}
		},
		// 10,925 stands where the rates come to 10,805 with 10 m at nil: work of 900 bears 1,020, of which H1 nothing
		"R-TEN-34": func() (checked, want) {
			s, q := sound()
			q.line("B/H1").Rate = given("0")
			q.line("B/H1").Amount = formulaFor("0")
			return check(s, q, terms(TotalStands)), want{"0.00", "10925.00"}
		},
	}
	f, err := os.Open("../../testdata/published/corrections.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows[1:] {
		reckon, ok := checks[r[0]]
		if !ok {
			t.Errorf("%s is not checked", r[0])
			continue
		}
		c, want := reckon()
		if got := c.cells[0].Corrected.String(); got != want.line || c.corrected.String() != want.total {
			t.Errorf("%s (%s): line %s, total %s, want %s and %s", r[0], r[3], got, c.corrected, want.line, want.total)
		}
		delete(checks, r[0])
	}
	if len(checks) > 0 {
		t.Errorf("%d checks have no published row", len(checks))
	}
}

// The total of 11,027.00 is 102.00 more than the parts: work of 1,020.00 bears
// it, a tenth more, and nothing else does.
func TestTheTotalStandsAndMeasuredWorkBearsTheError(t *testing.T) {
	s, q := sound()
	q.Stated = formulaFor("11027")
	c := check(s, q, terms(TotalStands))
	var got []string
	for i, cell := range c.cells {
		got = append(got, fmt.Sprint(s.Lines[i].ID, " ", cell.Corrected, " ", cell.Rate.Amount))
	}
	want := []string{"B/H1 132.00 13.20", "B/H2 440.00 110.00", "B/D1 385.00 3.85", "B/D3 165.00 82.50", "B/D2 100.00 2.00", "B/D4 0.00 60.00",
		"P/P1 1220.00 0.00", "P/P2 200.00 0.00", "S/S1 5350.00 0.00", "S/S2 880.00 0.00", "D/1 1680.00 0.00", "D/2 575.00 0.00"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if why := c.cells[0].Why; len(why) != 1 || why[0] != "total stands: 120.00 altered to 132.00, by 10 % with all measured work" {
		t.Errorf("why is %q", why)
	}
	if c.corrected.String() != "11027.00" || !c.rest.IsZero() || c.cells[0].AsTendered.Amount.String() != "120.00" {
		t.Errorf("corrected %s, rest %s, as tendered %s", c.corrected, c.rest, c.cells[0].AsTendered.Amount)
	}
}

func TestWithoutMeasuredWorkTheTotalIsTreatedByItself(t *testing.T) {
	for _, c := range []struct{ name, total, rest string }{
		{"more than the lines", "20000", "9075.00"},
		{"less than all but measured work", "5000", "-5925.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, q := sound()
			if c.total == "20000" { // work is left out, the total takes it in: 9,905 without
				for _, id := range []string{"B/H1", "B/H2", "B/D1", "B/D3"} {
					o := q.line(id)
					o.Rate, o.Amount, o.Choice = Figure{}, formulaFor("0"), bill.Included
				}
				c.rest = "10095.00"
				retotal(s, q)
			}
			q.Stated = formulaFor(c.total)
			got := check(s, q, terms(TotalStands))
			if !got.corrected.Equal(money.MustAmount(c.total)) || got.rest.String() != c.rest {
				t.Errorf("corrected %s, rest %s, want %s and %s", got.corrected, got.rest, c.total, c.rest)
			}
			if n := len(got.findings); n != 2 || !strings.Contains(got.findings[1].Text, "cannot bear the difference") {
				t.Errorf("found %+v", got.findings)
			}
		})
	}
}

// A row of the table gives what the rate rule makes of the first line, and why.
func TestALineIsCorrectedAndSaysWhy(t *testing.T) {
	for _, c := range []struct {
		name  string
		id    string
		set   func(s *Sent, o *Offered)
		right string
		rate  string
		why   string
	}{
		{"the amount alone, without a rate", "B/H1", func(_ *Sent, o *Offered) { o.Rate, o.Amount = Figure{}, given("125") }, "125.00", "12.50", "no rate: the amount stands"},
		{"a rate in text that is a number", "B/H1", func(_ *Sent, o *Offered) { o.Rate, o.Amount = text("£1,012.00"), faulty() }, "10120.00", "1012.00", "no amount stood: 10 m x 1012.00 = 10,120.00"},
		{"the amount is right for the bill and not for the quantity that stands", "B/H1", func(_ *Sent, o *Offered) { o.Quantity = given("12") }, "120.00", "12.00", ""},
		{"the point of a rate a thousandfold out, and the quantity changed too", "B/H1", func(_ *Sent, o *Offered) {
			o.Rate, o.Quantity, o.Amount = given("12000"), given("20"), formulaFor("240")
		}, "120.00", "12.00", "point of the rate misplaced: 10 m x 12.00 = 120.00, rate stood as 12000.00"},
		{"ten thousandfold is no misplaced point", "B/H1", func(_ *Sent, o *Offered) { o.Rate = given("120000") }, "1200000.00", "120000.00",
			"rate governs: 10 m x 120000.00 = 1,200,000.00, stood as 120.00"},
		{"a half penny goes up", "B/H1", func(_ *Sent, o *Offered) { o.Rate, o.Amount = given("1.0005"), formulaFor("10.01") }, "10.01", "1.00", ""},
		{"the weeks of the bill", "P/P1", func(_ *Sent, o *Offered) { o.Time, o.Amount = given("5"), formulaFor("1100") }, "1220.00", "0.00",
			"quantity of the bill: 500.00 + 6 wk x 120.00 = 1,220.00, stood as 1,100.00 for 5 wk"},
		{"the firm's own weeks where they are open", "P/P2", func(_ *Sent, o *Offered) { o.Time, o.Amount = given("8"), formulaFor("400") }, "400.00", "0.00", ""},
		{"a point misplaced in a rate for weeks", "P/P1", func(_ *Sent, o *Offered) { o.Rate = given("12") }, "1220.00", "0.00",
			"point of the rate misplaced: 500.00 + 6 wk x 120.00 = 1,220.00, rate stood as 12.00"},
		{"paid once and nothing more", "P/P1", func(_ *Sent, o *Offered) { o.Rate, o.Amount = Figure{}, formulaFor("510") }, "500.00", "0.00", "rate governs: 500.00 once = 500.00, stood as 510.00"},
		{"attendance left out of a sum", "S/S1", func(_ *Sent, o *Offered) { o.Amount = formulaFor("5250") }, "5350.00", "0.00", "rate governs: 5,000.00 + 5 % + 100.00 = 5,350.00, stood as 5,250.00"},
		{"a quotation is the firm's own", "S/S2", func(_ *Sent, o *Offered) { o.Quantity, o.Amount = given("900"), formulaFor("990") }, "990.00", "0.00", ""},
		{"fewer hours of daywork", "D/1", func(_ *Sent, o *Offered) { o.Quantity, o.Amount = given("4"), formulaFor("168") }, "1680.00", "0.00",
			"quantity of the bill: 40 h x 42.00 = 1,680.00, stood as 168.00 for 4 h"},
		{"a lesser sum of daywork", "D/2", func(_ *Sent, o *Offered) { o.Quantity, o.Amount = given("100"), formulaFor("115") }, "575.00", "0.00",
			"sum of the bill: 500.00 + 15 % = 575.00, stood as 115.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, q := sound()
			c.set(s, q.line(c.id))
			i := slices.IndexFunc(s.Lines, func(l Line) bool { return l.ID == c.id })
			got := check(s, q, terms(RateGoverns)).cells[i]
			if got.Corrected.String() != c.right || got.Rate.Amount.String() != c.rate || strings.Join(got.Why, "; ") != c.why {
				t.Errorf("got %s at %s, %q, want %s at %s, %q", got.Corrected, got.Rate.Amount, got.Why, c.right, c.rate, c.why)
			}
		})
	}
}

func TestWordsInPlaceOfARateAreRead(t *testing.T) {
	for _, c := range []struct {
		rate Figure
		said string
		want Answer
	}{
		{text("incl"), "", WithinOthers}, {text("Incl."), "", WithinOthers}, {text(" INC "), "", WithinOthers}, {text("in item H2"), "", WithinOthers},
		{text("excl"), "", LeftOff}, {text("Not included"), "", LeftOff}, {text("owner"), "", ForOwner}, {text("by client"), "", ForOwner},
		{text("n/a"), "", Silent}, {text("to be agreed"), "", Silent}, {faulty(), "", Silent}, {Figure{}, "", Silent},
		{Figure{}, "Included", WithinOthers}, {Figure{}, " by  OWNER ", ForOwner}, {given("0"), "included", WithinOthers}, {Figure{}, "see letter", Silent},
		{given("12"), "included", Answered}, {given("0"), "", Answered}, {text("12.50"), "", Answered}, {text("excl"), "included", WithinOthers},
	} {
		s, q := sound()
		o := q.line("B/H1")
		o.Rate, o.Choice, o.Amount = c.rate, c.said, formulaFor("0")
		if got := check(s, q, terms(RateGoverns)).cells[0].State; got != c.want {
			t.Errorf("a rate of %v %q and the choice %q is %q, want %q", c.rate.Value, c.rate.Text, c.said, got, c.want)
		}
	}
}

func TestMoneyOfTheBillAndAWordAgainstIt(t *testing.T) {
	for _, c := range []struct {
		said  string
		found []string
	}{
		{bill.Included, nil}, // nothing is added to the sum
		{bill.Excluded, []string{"rate-and-word D/2"}},
	} {
		s, q := sound()
		o := q.line("D/2")
		o.Addition, o.Amount, o.Choice = Figure{}, formulaFor("500"), c.said
		retotal(s, q)
		got := check(s, q, terms(RateGoverns))
		if diff := cmp.Diff(c.found, kinds(got)); diff != "" || got.cells[11].State != Answered || got.cells[11].Corrected.String() != "500.00" {
			t.Errorf("%s: %q, %s; %s", c.said, got.cells[11].State, got.cells[11].Corrected, diff)
		}
	}
}

func TestALetterIsTakenAsItIsGiven(t *testing.T) {
	for _, c := range []struct {
		name   string
		set    func(q *Quote)
		states string // of H1, H2, D1, D3, D2 (an option), D4 (a rate only)
		stood  string
		right  string
		stands string // where the total stands
		found  []string
	}{
		{"one sum for the whole", func(q *Quote) { q.Stated = given("11000") }, "in in in in not not", "11000", "11000", "11000",
			[]string{"line-unpriced B/D2", "rate-only-unpriced B/D4"}},
		{"one sum in words alone", func(q *Quote) { q.Words = "Eleven thousand pounds" }, "in in in in not not", "11000", "11000", "11000",
			[]string{"line-unpriced B/D2", "rate-only-unpriced B/D4"}},
		{"sums for all parts", func(q *Quote) {
			q.Lines = []Offered{forSection(Work, "h", "520"), forSection(Work, "D", "500"), forSection(Preliminaries, "", "1420"), forSection(Sums, "", "6230"), forSection(Dayworks, "", "2255")}
			q.Stated = given("10925")
		}, "in in in in not not", "10925", "10925", "10925", []string{"line-unpriced B/D2", "rate-only-unpriced B/D4"}},
		{"parts that come to less than the total, and a line apart", func(q *Quote) {
			q.Lines = []Offered{{Fixed: bill.Fixed{ID: "b/d2"}, Part: Work, Amount: given("100")}, {Fixed: bill.Fixed{ID: "B/D4"}, Part: Work, Amount: given("60")},
				{Fixed: bill.Fixed{ID: "B/H1"}, Part: Work, Choice: bill.Excluded},
				forSection(Work, "", "1000"), forSection(Preliminaries, "", "1420"), forSection(Sums, "", "6230"), forSection(Dayworks, "", "2255")}
			q.Stated = given("11005")
		}, "excluded in in in priced priced", "11005", "10905", "11005", []string{"total-differs ", "line-excluded B/H1"}},
		{"a contingency, and a section the bill has not got", func(q *Quote) {
			q.Lines = []Offered{forSection(Work, "", "1000"), forSection(Preliminaries, "", "1420"), forSection(Sums, "", "6230"), forSection(Dayworks, "", "2255"),
				{Fixed: bill.Fixed{Description: "Contingency"}, Amount: given("500")}, {Fixed: bill.Fixed{Description: "Rig"}, Part: Work, Section: "R", Amount: given("70")}}
			q.Stated = given("11475")
		}, "in in in in not not", "11475", "11475", "11475",
			[]string{"line-unpriced B/D2", "rate-only-unpriced B/D4", "line-inserted ", "contingency-put-in "}},
		{"one sum, and an option and a contingency apart", func(q *Quote) {
			q.Lines = []Offered{{Fixed: bill.Fixed{ID: "B/D2"}, Part: Work, Amount: given("100")}, {Fixed: bill.Fixed{Description: "contingency"}, Amount: given("500")}}
			q.Stated = given("11000")
		}, "in in in in priced not", "11000", "11000", "11000", []string{"total-differs ", "rate-only-unpriced B/D4", "contingency-put-in "}},
		{"one sum, of which a part is named", func(q *Quote) {
			q.Lines = []Offered{forSection(Preliminaries, "", "1420")}
			q.Stated = given("11000")
		}, "in in in in not not", "11000", "11000", "11000", []string{"total-differs ", "line-unpriced B/D2", "rate-only-unpriced B/D4"}},
		{"a part that nothing is said of, and a total that leaves it nothing", func(q *Quote) {
			q.Lines = []Offered{forSection(Work, "H", "520"), forSection(Preliminaries, "", "1420"), forSection(Sums, "", "6230"), forSection(Dayworks, "", "2255")}
			q.Stated = given("10425")
		}, "in in not not not not", "10425", "10425", "10425", []string{"line-unpriced B/D1", "line-unpriced B/D3", "line-unpriced B/D2", "rate-only-unpriced B/D4"}},
		// the words agree with the sum of the parts
		{"words that agree with the parts govern", func(q *Quote) {
			q.Lines = []Offered{forSection(Work, "", "1000"), forSection(Preliminaries, "", "1420"), forSection(Sums, "", "6230"), forSection(Dayworks, "", "2255")}
			q.Stated, q.Words = given("10950"), "ten thousand nine hundred and five pounds"
		}, "in in in in not not", "10950", "10905", "10905", []string{"words-differ ", "total-differs ", "line-unpriced B/D2", "rate-only-unpriced B/D4"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, q := letter()
			c.set(q)
			got := check(s, q, terms(RateGoverns))
			var states []string
			for _, cell := range got.cells[:6] {
				first, _, _ := strings.Cut(string(cell.State), " ")
				states = append(states, first)
			}
			if strings.Join(states, " ") != c.states {
				t.Errorf("states are %q, want %q", states, c.states)
			}
			if diff := cmp.Diff(c.found, kinds(got)); diff != "" {
				t.Error(diff)
			}
			if !got.asTendered.Equal(money.MustAmount(c.stood)) || !got.corrected.Equal(money.MustAmount(c.right)) {
				t.Errorf("as tendered %s, corrected %s, want %s and %s", got.asTendered, got.corrected, c.stood, c.right)
			}
			if got := check(s, q, terms(TotalStands)).corrected; !got.Equal(money.MustAmount(c.stands)) {
				t.Errorf("%s where the total stands, want %s", got, c.stands)
			}
			if got := check(s, q, terms(ReportOnly)).corrected; !got.Equal(money.MustAmount(c.stood)) {
				t.Errorf("%s where errors are reported only, want %s", got, c.stood)
			}
		})
	}
}
