package quotes

import (
	"fmt"
	"slices"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
)

func dec(s string) decimal.Decimal { return decimal.RequireFromString(s) }

func given(s string) Figure      { return Figure{State: Given, Value: dec(s)} }
func formulaFor(s string) Figure { return Figure{State: Reckoned, Value: dec(s)} }
func text(s string) Figure       { return Figure{State: Words, Text: s} }
func faulty() Figure             { return Figure{State: Faulty, Text: "#VALUE!"} }

// sentBill is a bill of two sections with one line of every sort.
func sentBill() *Sent {
	line := func(p Part, ref, says string, q string, u measure.Unit, standing string) Line {
		letter := map[Part]string{Work: bill.OfWork, Preliminaries: bill.OfPreliminaries, Sums: bill.OfSums, Dayworks: bill.OfDayworks}[p]
		l := Line{Part: p, Ref: ref, Carried: job.Measured,
			Fixed: bill.Fixed{ID: letter + ref, Description: says, Unit: u, Quantity: dec(q), Standing: standing}}
		if p == Dayworks {
			l.Ref = ""
		}
		l.Given = p == Sums && standing != string(job.Quotation)
		return l
	}
	in := func(section string, c job.Carried, l Line) Line {
		l.Section, l.Carried = section, c
		return l
	}
	s := &Sent{Reference: "T-1", Sections: []Section{{"H", "Hull"}, {"D", "Deck"}}, Lines: []Line{
		in("H", job.Measured, line(Work, "H1", "Renew plank", "10", measure.M, "")),
		in("H", job.Provisional, line(Work, "H2", "Renew frames", "4", measure.Nr, "provisional quantity")),
		in("D", job.Measured, line(Work, "D1", "Caulk deck", "100", measure.M, "")),
		in("D", job.Measured, line(Work, "D3", "Renew deck beam", "2", measure.Nr, "")),
		in("D", job.Option, line(Work, "D2", "Sand deck", "50", measure.M2, "option")),
		in("D", job.RateOnly, line(Work, "D4", "Renew carlin", "0", measure.Nr, "rate only")),
		line(Preliminaries, "P1", "Slipping", "6", measure.Weeks, bill.TimeGiven),
		line(Preliminaries, "P2", "Staging", "0", measure.Weeks, bill.TimeOpen),
		line(Sums, "S1", "Unseen rot", "5000", measure.Sums, string(job.Undefined)),
		line(Sums, "S2", "Sails", "0", measure.Sums, string(job.Quotation)),
		line(Dayworks, "1", "shipwright", "40", measure.Hour, ""),
		line(Dayworks, "2", "materials", "500", measure.Sums, ""),
	}}
	s.Fingerprint = fingerprintOf(s)
	return s
}

// fingerprintOf is what a form reckons: sections in order, within them every line by its reference.
func fingerprintOf(s *Sent) string {
	lines := make([]Line, 0, len(s.Lines))
	for _, sec := range s.Sections {
		var of []Line
		for _, l := range s.Lines {
			if l.Part == Work && l.Section == sec.Section {
				of = append(of, l)
			}
		}
		slices.SortStableFunc(of, func(a, b Line) int { return job.CompareRefs(a.Ref, b.Ref) })
		lines = append(lines, of...)
	}
	var all []bill.Fixed
	for _, l := range lines {
		all = append(all, l.Fixed)
	}
	for _, l := range s.Lines {
		if l.Part != Work {
			all = append(all, l.Fixed)
		}
	}
	return bill.Fingerprint(s.Reference, all)
}

// returned is the form of a bill as it comes back with the offer filled in, and no prices.
func returned(s *Sent) *Quote {
	q := &Quote{Book: "quote.xlsx", Firm: "A Yard", Fingerprint: s.Fingerprint, Reference: s.Reference, Tax: bill.LeftOut, Weeks: given("12"),
		Until: time.Date(2026, 9, 1, 0, 0, 0, 0, time.UTC), Signed: "the manager", At: origin.Cell{Book: "quote.xlsx", Sheet: "Offer"}}
	for n, l := range s.Lines {
		o := Offered{Fixed: l.Fixed, Mark: l.Fixed.Mark(), Part: l.Part, At: origin.Cell{Book: "quote.xlsx", Sheet: string(l.Part), Row: n + 1}}
		switch {
		case l.Carried == job.RateOnly || l.Standing == bill.TimeOpen || l.Standing == string(job.Quotation):
		case l.Part == Preliminaries:
			o.Time = given(l.Quantity.String())
		default:
			o.Quantity = given(l.Quantity.String())
		}
		q.Lines = append(q.Lines, o)
	}
	return q
}

// sound is a quote with nothing amiss in it:
//
//	H1 10 x 12 = 120; H2 4 x 100 = 400; D1 100 x 3.50 = 350; D3 2 x 75 = 150; hull 520, deck 500
//	D2 50 x 2 = 100, an option; D4 60, a rate only
//	P1 500 + 6 x 120 = 1,220; P2 4 x 50 = 200
//	S1 5,000 + 5 % + 100 = 5,350; S2 800 + 10 % = 880
//	40 h x 42 = 1,680; 500 + 15 % = 575
//	1,020 + 1,420 + 6,230 + 2,255 = 10,925
func sound() (*Sent, *Quote) {
	s := sentBill()
	q := returned(s)
	for n, set := range []func(o *Offered){
		func(o *Offered) { o.Rate, o.Amount = given("12"), formulaFor("120") },
		func(o *Offered) { o.Rate, o.Amount = given("100"), formulaFor("400") },
		func(o *Offered) { o.Rate, o.Amount = given("3.50"), formulaFor("350") },
		func(o *Offered) { o.Rate, o.Amount = given("75"), formulaFor("150") },
		func(o *Offered) { o.Rate, o.Amount = given("2"), formulaFor("100") },
		func(o *Offered) { o.Rate, o.Amount = given("60"), text("rate only") },
		func(o *Offered) { o.Once, o.Rate, o.Amount = given("500"), given("120"), formulaFor("1220") },
		func(o *Offered) { o.Time, o.Rate, o.Amount = given("4"), given("50"), formulaFor("200") },
		func(o *Offered) { o.Profit, o.Attendance, o.Amount = given("0.05"), given("100"), formulaFor("5350") },
		func(o *Offered) { o.Quantity, o.Profit, o.Amount = given("800"), given("0.1"), formulaFor("880") },
		func(o *Offered) { o.Rate, o.Amount = given("42"), formulaFor("1680") },
		func(o *Offered) { o.Addition, o.Amount = given("0.15"), formulaFor("575") },
	} {
		set(&q.Lines[n])
	}
	for _, t := range []struct{ of, sum string }{{"H", "520"}, {"D", "500"}, {string(Work), "1020"}, {string(Preliminaries), "1420"}, {string(Sums), "6230"}, {string(Dayworks), "2255"}} {
		q.Totals = append(q.Totals, Total{t.of, formulaFor(t.sum)})
	}
	q.Stated = formulaFor("10925")
	return s, q
}

func terms(r ErrorRule) Terms {
	t := Usual()
	t.Errors = r
	return t
}

// line is the line of a quote by its ID.
func (q *Quote) line(id string) *Offered {
	for n := range q.Lines {
		if q.Lines[n].ID == id {
			return &q.Lines[n]
		}
	}
	panic(id)
}

// retotal gives the quote the totals that its form would reckon of the amounts.
func retotal(s *Sent, q *Quote) {
	sums := map[string]decimal.Decimal{}
	var all decimal.Decimal
	of := map[string]Line{}
	for _, l := range s.Lines {
		of[l.ID] = l
	}
	for _, o := range q.Lines {
		l, ok := of[o.ID]
		carried, section := l.Carried, l.Section
		if !ok { // put in, at the end of the work where it is of that
			carried, section = job.Measured, "D"
		}
		if !carried.InTotal() || !o.Amount.Is() {
			continue
		}
		all = all.Add(o.Amount.Value)
		sums[string(o.Part)] = sums[string(o.Part)].Add(o.Amount.Value)
		if o.Part == Work {
			sums[section] = sums[section].Add(o.Amount.Value)
		}
	}
	for n, t := range q.Totals {
		q.Totals[n].Value = sums[t.Of]
	}
	q.Stated.Value = all
}

// kinds are the kinds found, with the line of each, in their order.
func kinds(c checked) []string {
	var out []string
	for _, f := range c.findings {
		out = append(out, fmt.Sprint(f.Kind, " ", f.ID))
	}
	return out
}

func TestASoundQuoteRaisesNothing(t *testing.T) {
	for _, r := range ErrorRules() {
		s, q := sound()
		c := check(s, q, terms(r))
		if diff := cmp.Diff([]string(nil), kinds(c)); diff != "" {
			t.Errorf("%s: %s", r, diff)
		}
		if want := money.MustAmount("10925"); !c.asTendered.Equal(want) || !c.corrected.Equal(want) || !c.rest.IsZero() {
			t.Errorf("%s: as tendered %s, corrected %s, rest %s, want 10925.00 twice", r, c.asTendered, c.corrected, c.rest)
		}
		for i, cell := range c.cells {
			if cell.State != Answered || len(cell.Why) > 0 || !cell.Corrected.Equal(cell.AsTendered.Amount) {
				t.Errorf("%s: line %s is %q, %s and %s, %q", r, s.Lines[i].ID, cell.State, cell.AsTendered.Amount, cell.Corrected, cell.Why)
			}
		}
		if got := c.cells[5].Rate; !got.Known || got.Amount.String() != "60.00" {
			t.Errorf("%s: the rate only is %v", r, got)
		}
	}
}

// A priced bill has no fingerprint, no word on the kind of time, and words
// preliminaries in its own way; its quotation has a sum.
func TestWhatAPricedBillDoesNotSayIsNotCompared(t *testing.T) {
	s, q := sound()
	s.Fingerprint = ""
	for i := range s.Lines {
		l := &s.Lines[i]
		if l.Standing != string(job.Quotation) && l.Part != Sums {
			l.Standing = ""
		}
		switch {
		case l.Part == Preliminaries:
			l.Description, l.Quantity = "", dec("9")
		case l.Part == Sums && !l.Given:
			l.Quantity = dec("1000")
		case l.Carried == job.RateOnly:
			l.Quantity = dec("3")
		}
	}
	c := check(s, q, terms(RateGoverns))
	if diff := cmp.Diff([]string(nil), kinds(c)); diff != "" || c.corrected.String() != "10925.00" {
		t.Errorf("corrected %s; %s", c.corrected, diff)
	}
}

func TestWhatAFormIsKnownBy(t *testing.T) {
	for _, c := range []struct {
		name string
		set  func(s *Sent, q *Quote)
		want []string
	}{
		{"another program's line ends", func(s *Sent, q *Quote) {
			s.Lines[0].Description = "Renew plank\nto port"
			s.Fingerprint = fingerprintOf(s)
			q.Fingerprint, q.Lines[0].Description, q.Lines[0].Mark = s.Fingerprint, "Renew plank\r\nto port", s.Lines[0].Mark()
		}, nil},
		{"a space more is another mark, and no other work", func(_ *Sent, q *Quote) { q.Lines[0].Description = "Renew  plank" }, []string{"form-changed ", "form-changed B/H1"}},
		{"an id typed anew", func(_ *Sent, q *Quote) { q.Lines[0].ID = " b/h1" }, []string{"form-changed ", "form-changed B/H1"}},
		{"a mark that is gone", func(_ *Sent, q *Quote) { q.Lines[0].Mark = "" }, []string{"form-changed B/H1"}},
		{"all marks gone, and every number pasted over its formula", func(_ *Sent, q *Quote) {
			for n := range q.Lines {
				o := &q.Lines[n]
				o.Mark = ""
				if o.Amount.State == Reckoned {
					o.Amount.State = Given
				}
			}
			for n := range q.Totals {
				q.Totals[n].State = Given
			}
		}, []string{"formula-replaced ", "form-changed "}},
		{"lines changed about", func(_ *Sent, q *Quote) { q.Lines[6], q.Lines[7] = q.Lines[7], q.Lines[6] }, []string{"form-changed "}},
		{"another tender", func(_ *Sent, q *Quote) { q.Reference = "T-9" }, []string{"other-form ", "form-changed "}},
		{"a reference in small letters is one, with another fingerprint", func(_ *Sent, q *Quote) { q.Reference = "t-1" }, []string{"form-changed "}},
		{"an id that was typed over", func(_ *Sent, q *Quote) { q.Lines[3].ID = "B/XX" }, []string{"form-changed ", "form-changed B/D3"}},
		{"a quantity that is gone", func(_ *Sent, q *Quote) { q.Lines[0].Quantity = Figure{} }, []string{"quantity-changed B/H1"}},
		{"a quantity where only the rate is asked", func(_ *Sent, q *Quote) { q.Lines[5].Quantity = given("3") }, []string{"quantity-changed B/D4"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			s, q := sound()
			c.set(s, q)
			got := check(s, q, terms(RateGoverns))
			if diff := cmp.Diff(c.want, kinds(got)); diff != "" {
				t.Error(diff)
			}
			if got.corrected.String() != "10925.00" {
				t.Errorf("corrected %s, want 10925.00", got.corrected)
			}
		})
	}
}

func TestFindingsStandInTheOrderOfTheBill(t *testing.T) {
	s, q := sound()
	q.Firm = ""
	q.line("D/1").Rate = Figure{State: Given, Value: dec("-42")}
	q.line("B/D3").Choice = bill.ByOwner
	q.line("B/H2").Rate = text("100")
	q.Lines = slices.Insert(q.Lines, 1, Offered{Fixed: bill.Fixed{ID: "B/H1a"}, Part: Work, Amount: given("5")})
	q.Lines = slices.Insert(q.Lines, 0, Offered{Fixed: bill.Fixed{ID: "B/H0"}, Part: Work, Amount: given("5")})
	var got []string
	for _, f := range check(s, q, terms(RateGoverns)).findings {
		if !slices.Contains(got, f.ID) {
			got = append(got, f.ID)
		}
	}
	if diff := cmp.Diff([]string{"", "B/H0", "B/H1a", "B/H2", "B/D3", "D/1"}, got); diff != "" {
		t.Error(diff)
	}
}
