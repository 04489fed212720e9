package sheets_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// chance is whether something is so, once in so many times.
func chance(r *rand.Rand, in int) bool { return r.IntN(in) == 0 }

func oneOf[T any](r *rand.Rand, of ...T) T { return of[r.IntN(len(of))] }

// amissBill is a bill that lacks one thing or another.
func amissBill(r *rand.Rand) quotes.Sent {
	s := sentBill(3 + r.IntN(60))
	if chance(r, 4) {
		s.Stages, s.Weeks = nil, quotes.Stretch{}
	}
	s.HasHeld = !chance(r, 4)
	if chance(r, 4) { // a section may bear the name of a part
		s.Sections[0].Section = string(quotes.Sums)
		for i := range s.Lines {
			if s.Lines[i].Section == "A" {
				s.Lines[i].Section = string(quotes.Sums)
			}
		}
	}
	return s
}

// amissLetter is a letter by sections, or by parts alone, that may leave some out
// and price a line apart.
func amissLetter(r *rand.Rand, s quotes.Sent, firm string) quotes.Quote {
	q := letter(s, firm, 80+r.Int64N(40))
	if chance(r, 2) {
		q.Lines = append([]quotes.Offered{{Part: quotes.Work, Amount: given(dec("54321.5"))}}, q.Lines[len(s.Sections):]...)
		q.Stated = given(dec("99999"))
	}
	if chance(r, 2) {
		q.Lines, q.Stated = q.Lines[:1+r.IntN(len(q.Lines))], given(dec("70000.33"))
	}
	if chance(r, 2) {
		q.Lines = append(q.Lines, quotes.Offered{Fixed: s.Lines[1].Fixed, Part: quotes.Work, Amount: given(dec("333.33"))})
	}
	return q
}

// amissForm is a form with all manner of things wrong in its lines.
func amissForm(r *rand.Rand, s quotes.Sent, firm string) quotes.Quote {
	q := priced(s, firm, 60+r.Int64N(70))
	none := quotes.Figure{State: quotes.Reckoned}
	for i := range q.Lines {
		switch o := &q.Lines[i]; r.IntN(14) {
		case 0:
			o.Rate, o.Amount = quotes.Figure{}, none
		case 1:
			o.Rate, o.Amount, o.Choice = quotes.Figure{}, none, oneOf(r, bill.Included, bill.Excluded, bill.ByOwner)
		case 2:
			o.Amount.Value = o.Amount.Value.Add(dec("12.34"))
		case 3:
			o.Rate.Value = o.Rate.Value.Neg()
		case 4:
			o.Rate.Value = o.Rate.Value.Add(dec("0.0037"))
		case 5:
			o.Rate = quotes.Figure{State: quotes.Words, Text: "see note"}
		case 6:
			o.Rate = quotes.Figure{State: quotes.Faulty, Text: "#REF!"}
		case 7:
			o.Quantity.Value = o.Quantity.Value.Add(decimal.New(1, 0))
		case 8:
			o.Profit, o.Attendance, o.Addition = quotes.Figure{}, quotes.Figure{}, quotes.Figure{}
		}
	}
	if chance(r, 3) {
		q.Lines = append(q.Lines[:2], q.Lines[3:]...)
		q.Lines = append(q.Lines, quotes.Offered{Fixed: bill.Fixed{Description: "extra"}, Part: quotes.Work, Amount: given(dec("444.44"))})
	}
	return q
}

// Whatever is amiss with quotes, every formula of their comparison comes to
// what is stored beside it, in full and in brief.
func TestQuotesWithMuchAmissRecalculateToo(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 8))
	books := map[string]*grid.Book{}
	for k := range 10 {
		s := amissBill(r)
		terms := quotes.Usual()
		terms.Errors, terms.Gaps, terms.Low = oneOf(r, quotes.ErrorRules()...), oneOf(r, quotes.GapRules()...), oneOf(r, quotes.LowRules()...)
		if chance(r, 2) {
			terms.Week = pounds("333.33")
		}
		var all []quotes.Quote
		for n := range 1 + r.IntN(5) {
			q := oneOf(r, amissForm, amissForm, amissLetter)(r, s, fmt.Sprint("Yard ", n))
			switch r.IntN(3) {
			case 0:
				q.Tax, q.TaxRate, q.TaxRateGiven = bill.AddedIn, money.NewPercent(dec(oneOf(r, "20", "13.5", "25", "5"))), true
			case 1:
				q.Tax, q.Weeks = "", quotes.Figure{}
			}
			if chance(r, 2) {
				q.Qualifications = []quotes.Qualification{{Number: 1, Text: "the same words"}, {Number: 2, Text: "The  same words"}}
				terms.Figures = append(terms.Figures, quotes.Priced{Firm: q.Firm, Text: "the same words", Amount: pounds("-7.25")})
			}
			all = append(all, q)
		}
		c, found := quotes.Compare(s, all, terms)
		if found.HasErrors() {
			continue // of what cannot be levelled nothing is written
		}
		books[fmt.Sprint("full", k)] = sheets.Comparison(c)
		books[fmt.Sprint("brief", k)] = sheets.ComparisonInBrief(c)
	}
	if len(books) < 12 {
		t.Fatalf("only %d comparisons could be levelled", len(books))
	}
	now := recalculated(t, books)
	for name, b := range books {
		agree(t, name, b, now[name])
	}
}
