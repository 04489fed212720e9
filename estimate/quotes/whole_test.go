package quotes

import (
	"fmt"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// anyBill is some bill as it goes out, its options and rate-only lines behind the others of their section.
func anyBill(t *rapid.T) *Sent {
	s := &Sent{Reference: "T-2"}
	quantity := func() decimal.Decimal { return decimal.New(rapid.Int64Range(1, 99999).Draw(t, "quantity"), -2) }
	add := func(p Part, id string, u measure.Unit, q decimal.Decimal, standing string, c job.Carried, section string) {
		s.Lines = append(s.Lines, Line{Part: p, Ref: id, Carried: c, Section: section, Given: p == Sums && standing != string(job.Quotation),
			Fixed: bill.Fixed{ID: map[Part]string{Work: bill.OfWork, Preliminaries: bill.OfPreliminaries, Sums: bill.OfSums, Dayworks: bill.OfDayworks}[p] + id,
				Description: "line " + id, Unit: u, Quantity: q, Standing: standing}})
	}
	for n := range rapid.IntRange(1, 3).Draw(t, "sections") {
		sec := fmt.Sprint("S", n+1)
		s.Sections = append(s.Sections, Section{sec, "Section " + sec})
		var out []string
		for m := range rapid.IntRange(0, 4).Draw(t, "lines") {
			id := fmt.Sprint(sec, ".", m+1)
			if rapid.IntRange(0, 4).Draw(t, "aside") == 0 {
				out = append(out, id)
				continue
			}
			add(Work, id, measure.M, quantity(), "", job.Measured, sec)
		}
		for _, id := range out {
			if rapid.Bool().Draw(t, "option") {
				add(Work, id, measure.M, quantity(), "option", job.Option, sec)
			} else {
				add(Work, id, measure.M, decimal.Decimal{}, "rate only", job.RateOnly, sec)
			}
		}
	}
	for n := range rapid.IntRange(0, 2).Draw(t, "preliminaries") {
		if rapid.Bool().Draw(t, "open") {
			add(Preliminaries, fmt.Sprint("P", n), measure.Weeks, decimal.Decimal{}, bill.TimeOpen, job.Measured, "")
		} else {
			add(Preliminaries, fmt.Sprint("P", n), measure.Weeks, quantity(), bill.TimeGiven, job.Measured, "")
		}
	}
	for n := range rapid.IntRange(0, 2).Draw(t, "sums") {
		if rapid.Bool().Draw(t, "quotation") {
			add(Sums, fmt.Sprint("Q", n), measure.Sums, decimal.Decimal{}, string(job.Quotation), job.Measured, "")
		} else {
			add(Sums, fmt.Sprint("Q", n), measure.Sums, quantity(), string(job.Undefined), job.Measured, "")
		}
	}
	for n := range rapid.IntRange(0, 2).Draw(t, "dayworks") {
		add(Dayworks, fmt.Sprint(n+1), []measure.Unit{measure.Hour, measure.Sums}[n%2], quantity(), "", job.Measured, "")
	}
	s.Fingerprint = fingerprintOf(s)
	return s
}

// anyPrices fills in a form as a careful firm does: every line, and totals as the form reckons them.
func anyPrices(t *rapid.T, s *Sent) *Quote {
	q := returned(s)
	rate := func() Figure {
		return Figure{State: Given, Value: decimal.New(rapid.Int64Range(1, 999999).Draw(t, "rate"), -2)}
	}
	share := func() Figure {
		return Figure{State: Given, Value: decimal.New(rapid.Int64Range(0, 200).Draw(t, "share"), -3)}
	}
	for i, l := range s.Lines {
		o := &q.Lines[i]
		switch {
		case l.Carried == job.RateOnly:
			o.Rate, o.Amount = rate(), text("rate only")
			continue
		case l.Part == Preliminaries:
			o.Once, o.Rate = rate(), rate()
			if l.Standing == bill.TimeOpen {
				o.Time = rate()
			}
		case l.Part == Sums:
			o.Profit, o.Attendance = share(), rate()
			if !l.Given {
				o.Quantity = rate()
			}
		case l.addition():
			o.Addition = share()
		default:
			o.Rate = rate()
		}
		// As the form has it, written out again here: nothing of the checking is used.
		round := func(d decimal.Decimal) decimal.Decimal { return d.Round(2) }
		n, of := o.Quantity.Value, decimal.Decimal{}
		switch l.Part {
		case Preliminaries:
			of = round(o.Once.Value).Add(round(o.Time.Value.Mul(o.Rate.Value)))
		case Sums:
			of = round(n).Add(round(n.Mul(o.Profit.Value))).Add(round(o.Attendance.Value))
		case Dayworks:
			of = round(n.Mul(o.Rate.Value))
			if l.Unit != measure.Hour {
				of = n.Add(round(n.Mul(o.Addition.Value)))
			}
		default:
			of = round(n.Mul(o.Rate.Value))
		}
		o.Amount = Figure{State: Reckoned, Value: of}
	}
	for _, sec := range s.Sections {
		q.Totals = append(q.Totals, Total{sec.Section, formulaFor("0")})
	}
	for _, p := range Parts() {
		q.Totals = append(q.Totals, Total{string(p), formulaFor("0")})
	}
	q.Stated = formulaFor("0")
	retotal(s, q)
	return q
}

func TestACarefulQuoteRaisesNothingWhateverIsInIt(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyBill(t)
		q := anyPrices(t, s)
		c := check(s, q, terms(rapid.SampledFrom(ErrorRules()).Draw(t, "rule")))
		if len(c.findings) > 0 {
			t.Fatalf("found %+v", c.findings)
		}
		if !c.corrected.Equal(c.asTendered) || !c.rest.IsZero() {
			t.Fatalf("as tendered %s, corrected %s, rest %s", c.asTendered, c.corrected, c.rest)
		}
		for i, cell := range c.cells {
			if !cell.Corrected.Equal(cell.AsTendered.Amount) || len(cell.Why) > 0 {
				t.Fatalf("%s as tendered %s, corrected %s: %q", s.Lines[i].ID, cell.AsTendered.Amount, cell.Corrected, cell.Why)
			}
		}
	})
}

// spoil does something to a quote that somebody might.
func spoil(t *rapid.T, q *Quote) {
	figure := func() Figure {
		return rapid.SampledFrom([]Figure{{}, given("0"), given("-5"), given("12.345"), given("99999"), formulaFor("77.01"), text("incl"), text("tba"), text("1,250.00"), faulty()}).Draw(t, "figure")
	}
	n := rapid.IntRange(0, len(q.Lines)).Draw(t, "line")
	if n == len(q.Lines) {
		switch rapid.IntRange(0, 3).Draw(t, "of the whole") {
		case 0:
			q.Stated = figure()
		case 1:
			q.Words = rapid.SampledFrom([]string{"one thousand pounds", "nonsense"}).Draw(t, "words")
		case 2:
			q.Totals[rapid.IntRange(0, len(q.Totals)-1).Draw(t, "total")].Figure = figure()
		case 3:
			q.Lines = append(q.Lines, Offered{Fixed: bill.Fixed{ID: "new", Description: "contingency"}, Part: Work, Amount: figure()})
		}
		return
	}
	o := &q.Lines[n]
	switch rapid.IntRange(0, 9).Draw(t, "how") {
	case 0:
		o.Rate = figure()
	case 1:
		o.Amount = figure()
	case 2:
		o.Quantity = figure()
	case 3:
		o.Rate.Value = o.Rate.Value.Shift(rapid.Int32Range(-4, 4).Draw(t, "point"))
	case 4:
		o.Choice = rapid.SampledFrom([]string{bill.Included, bill.Excluded, bill.ByOwner, "?"}).Draw(t, "choice")
	case 5:
		q.Lines = slices.Delete(q.Lines, n, n+1)
	case 6:
		q.Lines = slices.Insert(q.Lines, n, *o)
	case 7:
		o.ID = ""
	case 8:
		o.Once, o.Time = figure(), figure()
	case 9:
		o.Profit, o.Addition = figure(), figure()
	}
}

// Whatever is done to a quote: it adds up under every rule, the total that
// stands stands, a report alone changes no figure, the first figures are the
// same under all rules, and nothing of the quote is touched.
func TestWhateverIsAmissTheCorrectedQuoteAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := anyBill(t)
		q := anyPrices(t, s)
		q.Lump = rapid.IntRange(0, 3).Draw(t, "letter") == 0
		for range rapid.IntRange(1, 6).Draw(t, "times") {
			spoil(t, q)
		}
		before := *q
		before.Lines, before.Totals = slices.Clone(q.Lines), slices.Clone(q.Totals)
		first := check(s, q, terms(ReportOnly))
		for _, r := range ErrorRules() {
			c := check(s, q, terms(r))
			sum := c.rest
			for i, cell := range c.cells {
				if s.Lines[i].InTotal() {
					sum = sum.Add(cell.Corrected)
				}
				if r == ReportOnly && !cell.Corrected.Equal(cell.AsTendered.Amount) {
					t.Fatalf("a report changes %s of %s to %s", cell.AsTendered.Amount, s.Lines[i].ID, cell.Corrected)
				}
				if cell.AsTendered.Known != first.cells[i].AsTendered.Known || !cell.AsTendered.Amount.Equal(first.cells[i].AsTendered.Amount) {
					t.Fatalf("%s of %s is not as tendered where the rule is %s", cell.AsTendered.Amount, s.Lines[i].ID, r)
				}
				if cell.AsTendered.Known && !cell.Corrected.Equal(cell.AsTendered.Amount) && len(cell.Why) == 0 {
					t.Fatalf("%s: %s of %s is corrected to %s, and it is not said why", r, cell.AsTendered.Amount, s.Lines[i].ID, cell.Corrected)
				}
			}
			var extra money.Amount
			for _, o := range c.extra {
				extra = extra.Add(o.asks())
			}
			for _, m := range c.lumps {
				sum = sum.Add(m)
			}
			if sum = sum.Add(extra); !sum.Equal(c.corrected) || !extra.Equal(c.outOfScope) {
				t.Fatalf("%s: adds up to %s, corrected %s; put in %s of %s", r, sum, c.corrected, extra, c.outOfScope)
			}
			stands := q.Words == "" && q.Stated.Is()
			switch {
			case r == ReportOnly && !c.corrected.Equal(c.asTendered), r == TotalStands && stands && !c.corrected.Equal(money.Round(q.Stated.Value)):
				t.Fatalf("%s: as tendered %s, corrected %s", r, c.asTendered, c.corrected)
			case r == RateGoverns && !q.Lump && !c.rest.IsZero():
				t.Fatalf("the parts of a form govern, and %s is in none of them", c.rest)
			}
		}
		if diff := cmp.Diff(before, *q); diff != "" {
			t.Fatal(diff)
		}
	})
}

// A tender of five thousand lines, one in ten of them wrong.
func BenchmarkCheck(b *testing.B) {
	s := &Sent{Reference: "T-3"}
	for n := range 5000 {
		section := fmt.Sprint("S", n/100)
		if n%100 == 0 {
			s.Sections = append(s.Sections, Section{section, section})
		}
		s.Lines = append(s.Lines, Line{Part: Work, Ref: fmt.Sprint(n), Carried: job.Measured, Section: section,
			Fixed: bill.Fixed{ID: fmt.Sprint(bill.OfWork, n), Description: "Renew plank, oak 9 x 3 in", Unit: measure.M, Quantity: decimal.New(int64(n+100), -2)}})
	}
	s.Fingerprint = fingerprintOf(s)
	q := returned(s)
	for n := range q.Lines {
		o := &q.Lines[n]
		o.Rate, o.Amount = given("12"), Figure{State: Reckoned, Value: o.Quantity.Value.Mul(dec("12")).Round(2)}
		if n%10 == 0 {
			o.Amount.Value = o.Amount.Value.Add(decimal.New(1, 0))
		}
	}
	q.Stated = given("123456")
	for _, r := range ErrorRules() {
		b.Run(string(r), func(b *testing.B) {
			for b.Loop() {
				check(s, q, terms(r))
			}
		})
	}
}
