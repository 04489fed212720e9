package quotes

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

func num(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func amount(s string) money.Amount { return money.MustAmount(s) }

func points(s string) money.Percent { return money.NewPercent(num(s)) }

// line is one of a bill that went out; rate and sum blank where it bears none.
func line(part Part, id, section, stage, quantity, rate, sum string) Line {
	l := Line{Fixed: bill.Fixed{ID: id, Description: "work of " + id, Unit: measure.M}, Part: part, Section: section, Stage: stage,
		Carried: job.Measured, At: origin.Cell{Book: "bill.xlsx", Sheet: id, Row: 1}}
	if quantity != "" {
		l.Quantity = num(quantity)
	}
	if part == Dayworks {
		l.Unit = measure.Hour
	}
	if rate != "" {
		l.Rate = amount(rate)
	}
	if sum != "" {
		l.Amount, l.Priced = amount(sum), true
	}
	return l
}

// refit is the bill of the hand-worked comparison.
//
//	F  frames      10 m at 50.00     500.00   hauling
//	P  planking    20 m at 30.00     600.00   planking
//	   option       5 m at 10.00     (50.00)
//	   staging                       400.00   hauling to planking
//	   engine beds, provisional    1,000.00 + 100.00 profit and attendance
//	   daywork     10 h at 40.00     400.00
//	                               3,000.00, and 300.00 that the client holds
func refit() Sent {
	option := line(Work, "B/3", "P", "planking", "5", "10", "50")
	option.Carried = job.Option
	sum := line(Sums, "S/1", "", "", "1000", "", "1100")
	sum.Given = true
	return Sent{Book: "bill.xlsx", Priced: true, Sections: []Section{{"F", "Frames"}, {"P", "Planking"}},
		Contingency: amount("300"), HasHeld: true, Weeks: Stretch{num("6"), true},
		Stages: []Stage{{"Hauling", num("0"), num("2")}, {"Planking", num("2"), num("6")}},
		Lines: []Line{
			line(Work, "B/1", "F", "hauling", "10", "50", "500"),
			line(Work, "B/2", "P", "planking", "20", "30", "600"),
			option,
			line(Preliminaries, "P/1", "", "hauling to planking", "1", "", "400"),
			sum,
			line(Dayworks, "D/1", "", "", "10", "40", "400"),
		}}
}

// cell is one line answered: a word for none, or money, and a rate for one.
func cell(state Answer, sum, rate string) Cell {
	c := Cell{State: state, Offered: &Offered{Amount: Figure{}}}
	if sum != "" {
		c.Corrected = amount(sum)
		c.AsTendered = Money{c.Corrected, true}
	}
	if rate != "" {
		c.Rate = Money{amount(rate), true}
		c.Offered.Rate = given(rate)
	}
	return c
}

// examined is a quote as examination leaves it, with nothing amiss in it.
func examined(s Sent, q Quote, cells ...Cell) checked {
	ch := checked{quote: &q, cells: cells}
	for n, c := range cells {
		if s.Lines[n].InTotal() {
			ch.corrected = ch.corrected.Add(c.Corrected)
		}
	}
	ch.asTendered = ch.corrected
	return ch
}

func (ch checked) with(lumps map[string]money.Amount, extra ...*Offered) checked {
	ch.lumps, ch.extra = lumps, extra
	for _, a := range lumps {
		ch.corrected = ch.corrected.Add(a)
	}
	for n, e := range extra {
		e.At = origin.Cell{Book: ch.quote.Book, Sheet: "Bill", Row: 100 + n}
		ch.outOfScope = ch.outOfScope.Add(money.Round(e.Amount.Value))
	}
	ch.corrected = ch.corrected.Add(ch.outOfScope)
	return ch
}

// three is the quotes of the hand-worked comparison.
//
// Alder leaves the tax out, excludes the planking, has the staging in other
// rates and puts in a contingency of 200. Birch has tax at 20 % in its rates and
// does not say its weeks. Cedar is a letter with sums for the two sections.
func three(s Sent) []checked {
	alder := examined(s, Quote{Firm: "Alder", Tax: bill.LeftOut, Weeks: given("5")},
		cell(Answered, "550", "55"), cell(LeftOff, "", ""), cell(Answered, "60", "12"),
		cell(WithinOthers, "", ""), cell(Answered, "1100", ""), cell(Answered, "380", "")).
		with(nil, &Offered{Fixed: bill.Fixed{Description: "contingency"}, Amount: given("200")})
	alder.cells[4].Offered.Profit = given("0.1")
	alder.findings = []Finding{{Kind: ContingencyPut, Worth: amount("200")}}
	birch := examined(s, Quote{Firm: "Birch", Tax: bill.AddedIn, TaxRate: points("20"), TaxRateGiven: true},
		cell(Answered, "600", "60"), cell(Answered, "720", "36"), cell(Answered, "60", "12"),
		cell(Answered, "480", ""), cell(Answered, "1120", ""), cell(Answered, "480", ""))
	birch.cells[4].Offered.Attendance = given("120")
	cedar := examined(s, Quote{Firm: "Cedar", Lump: true, Tax: "Left out", Weeks: given("8"),
		Qualifications: []Qualification{{Number: 1, Text: "Docking by owner"}}},
		cell(WithinLump, "", ""), cell(WithinLump, "", ""), cell(Silent, "", ""),
		cell(Silent, "", ""), cell(Answered, "1080", ""), cell(Silent, "", "")).
		with(map[string]money.Amount{"f": amount("480"), "P": amount("700")})
	return []checked{alder, birch, cedar}
}

func chosen() Terms {
	t := Usual()
	t.Week = amount("100")
	t.Figures = []Priced{{Firm: "cedar", Text: " docking  by owner", Amount: amount("250")}}
	return t
}

func mustCompare(t *testing.T, s Sent, all []checked, terms Terms) Comparison {
	t.Helper()
	c, problems := compare(s, all, terms)
	for _, p := range problems {
		t.Errorf("problem: %s", p)
	}
	return c
}

func codes(l problem.List) []problem.Code {
	var out []problem.Code
	for _, p := range l {
		out = append(out, p.Code)
	}
	return out
}

// step is an adjustment as the tests write it.
type step struct {
	Kind   AdjustmentKind
	ID     string
	Amount string
}

func steps(o Offer) []step {
	var out []step
	for _, a := range o.Adjustments {
		out = append(out, step{a.Kind, a.ID, a.Amount.String()})
	}
	return out
}

func TestThreeQuotesAreLevelledAsWorkedByHand(t *testing.T) {
	s := refit()
	c := mustCompare(t, s, three(s), chosen())

	// Alder: 550 + 1,100 + 380 + 200 = 2,230.00; and 600 - 200 + 300 + 5 x 100 is 3,430.00.
	// Birch: 1,000 of the engine beds is the bill's own, and 1,000 + 2,400.00 / 1.2 =
	// 3,000.00; and 300 + 6 x 100 is 3,900.00, the yardstick's own.
	// Cedar: 480 + 700 + 1,080 = 2,260.00; and 400 + 400 + 300 + 250 + 8 x 100 is 4,410.00.
	type figures struct {
		Name, Corrected, TaxOut, Net, Levelled string
		Before, After                          int
		Marks                                  string
		Steps                                  []step
	}
	want := []figures{
		{"Alder", "2230.00", "0.00", "2230.00", "3430.00", 1, 1, "100", []step{
			{GapFilled, "B/2", "600.00"}, {TakenOut, "", "-200.00"}, {HeldEqual, "", "300.00"}, {WeeksPriced, "", "500.00"}}},
		{"Birch", "3400.00", "400.00", "3000.00", "3900.00", 3, 2, "87.95", []step{
			{HeldEqual, "", "300.00"}, {WeeksPriced, "", "600.00"}}},
		{"Cedar", "2260.00", "0.00", "2260.00", "4410.00", 2, 3, "77.78", []step{
			{GapFilled, "P/1", "400.00"}, {GapFilled, "D/1", "400.00"}, {HeldEqual, "", "300.00"}, {Qualified, "", "250.00"}, {WeeksPriced, "", "800.00"}}},
	}
	var got []figures
	for _, o := range c.Offers {
		got = append(got, figures{o.Name, o.Corrected.String(), o.TaxOut.String(), o.Net.String(), o.Levelled.String(), o.RankBefore, o.RankAfter, o.Marks.String(), steps(o)})
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
	if c.Yardstick.Amount.String() != "3900.00" || !c.Yardstick.Known {
		t.Errorf("the yardstick comes to %v", c.Yardstick)
	}
}

func TestTheFourFiguresOfALineAreKeptApart(t *testing.T) {
	s := refit()
	c := mustCompare(t, s, three(s), chosen())
	type figures struct{ Tendered, Corrected, Net, Levelled string }
	of := func(row, offer int) figures {
		x := c.Rows[row].Cells[offer]
		return figures{x.AsTendered.Amount.String(), x.Corrected.String(), x.Net.String(), x.Levelled.String()}
	}
	for _, tc := range []struct {
		name       string
		row, offer int
		want       figures
		why        []string
	}{
		{"a price that stands", 0, 0, figures{"550.00", "550.00", "550.00", "550.00"}, nil},
		{"an excluded line", 1, 0, figures{"0.00", "0.00", "0.00", "600.00"}, []string{"excluded: levelled at the yardstick, 600.00"}},
		{"a line within other rates", 3, 0, figures{"0.00", "0.00", "0.00", "0.00"}, nil},
		{"tax taken out", 1, 1, figures{"720.00", "720.00", "600.00", "600.00"}, []string{"value added tax at 20 % taken out"}},
		{"tax taken out of an option, by itself", 2, 1, figures{"60.00", "60.00", "50.00", "50.00"}, []string{"value added tax at 20 % taken out"}},
		{"a sum of the bill", 4, 1, figures{"1120.00", "1120.00", "1100.00", "1100.00"}, []string{"value added tax at 20 % taken out"}},
		{"an option that is not priced", 2, 2, figures{"0.00", "0.00", "0.00", "0.00"}, nil},
		{"a line in a section's sum", 1, 2, figures{"0.00", "0.00", "0.00", "0.00"}, nil},
	} {
		t.Run(tc.name, func(t *testing.T) {
			if d := cmp.Diff(tc.want, of(tc.row, tc.offer)); d != "" {
				t.Errorf("-want +got:\n%s", d)
			}
			if d := cmp.Diff(tc.why, c.Rows[tc.row].Cells[tc.offer].Why); d != "" {
				t.Errorf("why, -want +got:\n%s", d)
			}
		})
	}
	if rate := c.Rows[0].Cells[1].Rate.Amount.String(); rate != "50.00" {
		t.Errorf("the rate before tax is %s", rate)
	}
}

func TestWhatWasExaminedIsNotChanged(t *testing.T) {
	s := refit()
	all := three(s)
	mustCompare(t, s, all, chosen())
	if d := cmp.Diff(three(s), all, cmp.AllowUnexported(checked{}), cmp.Comparer(money.Amount.Equal), cmp.Comparer(decimal.Decimal.Equal), cmp.Comparer(money.Percent.Equal)); d != "" {
		t.Errorf("-before +after:\n%s", d)
	}
}

func TestAQuoteThatDoesNotSayItsTaxIsTakenToBeWithoutAndSaysSo(t *testing.T) {
	s := refit()
	all := three(s)
	all[0].quote.Tax = ""
	c := mustCompare(t, s, all, chosen())
	if got := c.Offers[0].Adjustments[0]; got.Kind != TaxTaken || !got.Amount.IsZero() {
		t.Errorf("the first step is %v", got)
	}
	if c.Offers[0].Levelled.String() != "3430.00" {
		t.Errorf("it levels to %s", c.Offers[0].Levelled)
	}
}

func TestTaxInTheRatesAtARateNobodySaysIsAProblem(t *testing.T) {
	s := refit()
	all := three(s)
	all[1].quote.TaxRateGiven = false
	_, problems := compare(s, all, chosen())
	if d := cmp.Diff([]problem.Code{problem.QuoteTaxRate}, codes(problems)); d != "" {
		t.Errorf("-want +got:\n%s", d)
	}
}

// What is in the total beyond the lines, as where the total stands whatever
// its parts are, is beside the lines.
func TestATotalThatStandsKeepsWhatItHasBeyondItsLines(t *testing.T) {
	s := refit()
	all := three(s)
	all[0].corrected = amount("2240")
	all[1].corrected = amount("3399.99")
	c := mustCompare(t, s, all, chosen())
	if got := c.Offers[0].Beside.String(); got != "210.00" { // 200 put in, and 10
		t.Errorf("Alder has %s beside its lines", got)
	}
	// 1,000 of the bill's own, and 2,399.99 / 1.2 = 1,999.99; its lines come to 3,000.00.
	if o := c.Offers[1]; o.Net.String() != "2999.99" || o.Beside.String() != "-0.01" || o.TaxOut.String() != "400.00" {
		t.Errorf("Birch has %s net, %s beside, %s tax", o.Net, o.Beside, o.TaxOut)
	}
	for _, o := range c.Offers {
		if !o.Net.Add(o.TaxOut).Equal(o.Corrected) {
			t.Errorf("%s: %s and %s are not %s", o.Name, o.Net, o.TaxOut, o.Corrected)
		}
	}
}

// What the bill gives as money stands there before value added tax: nothing is
// taken from it, nor from the profit or addition that is a share of it, by a form
// or by a letter that has one figure for the line.
func TestTaxIsTakenFromWhatTheFirmItselfPrices(t *testing.T) {
	sum := line(Sums, "S/1", "", "", "1000", "", "1100")
	sum.Given = true
	cost := line(Dayworks, "D/1", "", "", "500", "", "550")
	cost.Unit = measure.Sums
	s := Sent{Book: "bill.xlsx", Priced: true, Sections: []Section{{"F", "Frames"}},
		Lines: []Line{line(Work, "B/1", "F", "hauling", "10", "50", "500"), sum, cost}}
	tax := Quote{Tax: bill.AddedIn, TaxRate: points("20"), TaxRateGiven: true}
	form, letter := tax, tax
	letter.Lump = true
	for _, c := range []struct {
		name              string
		quote             Quote
		work, sum, cost   string
		net, taken, level string
	}{
		// 600 / 1.2 + 1,050 + 60 / 1.2 + 550; tax of 100 and 10.
		{"a form with 5 % profit, 60.00 attendance and an addition of 10 %", form, "600", "1110", "550", "2150.00", "110.00", "2150.00"},
		// 600 / 1.2 + 1,000 + 120 / 1.2 + 500 + 60 / 1.2.
		{"a letter with figures above what is given", letter, "600", "1120", "560", "2150.00", "130.00", "2150.00"},
		{"a letter with the figures that are given", letter, "600", "1000", "500", "2000.00", "100.00", "2000.00"},
		// 600 / 1.2 + 900 + 500: the sum itself is made equal after.
		{"a letter with a figure below what is given", letter, "600", "900", "500", "1900.00", "100.00", "2000.00"},
	} {
		t.Run(c.name, func(t *testing.T) {
			ch := examined(s, c.quote, cell(Answered, c.work, "60"), cell(Answered, c.sum, ""), cell(Answered, c.cost, ""))
			if !c.quote.Lump {
				ch.cells[1].Offered.Profit, ch.cells[1].Offered.Attendance = given("0.05"), given("60")
				ch.cells[2].Offered.Addition = given("0.1")
			}
			o := mustCompare(t, s, []checked{ch}, Usual()).Offers[0]
			if o.Net.String() != c.net || o.TaxOut.String() != c.taken || o.Levelled.String() != c.level {
				t.Errorf("net %s, tax %s, levelled %s; %s, %s and %s are right", o.Net, o.TaxOut, o.Levelled, c.net, c.taken, c.level)
			}
		})
	}
}
