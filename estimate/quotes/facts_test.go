package quotes

import (
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/bill"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// planted are quotes with one thing amiss, made of the sound one of 10,925.00.
// What else follows from it is named in full: a form whose line was changed is
// itself changed. Totals are worked by hand from those beside the sound quote.
var planted = []struct {
	name  string
	kind  FindingKind
	plant func(s *Sent, q *Quote)
	found []string // every finding, with its line
	stood string   // as tendered
	right string   // where the rate governs
	worth string   // of the kind's own finding
}{
	{"the fingerprint of the form is gone", FormChanged, func(s *Sent, q *Quote) { q.Fingerprint = "" }, []string{"form-changed "}, "10925", "10925", "0"},
	{"a line does not come to its mark", FormChanged, func(s *Sent, q *Quote) { q.line("B/H1").Mark = "00000000" }, []string{"form-changed B/H1"}, "10925", "10925", "0"},
	{"a line lost its number and is known again", FormChanged, func(s *Sent, q *Quote) { q.line("B/H1").ID = "" },
		[]string{"form-changed ", "form-changed B/H1"}, "10925", "10925", "0"},
	{"another issue of the bill was priced", OtherForm, func(s *Sent, q *Quote) { s.Fingerprint = "0000-0000-0000-0000" }, []string{"other-form "}, "10925", "10925", "0"},
	{"12 m for 10 m", QuantityChanged, func(s *Sent, q *Quote) {
		o := q.line("B/H1")
		o.Fixed.Quantity, o.Quantity, o.Amount = dec("12"), given("12"), formulaFor("144")
		retotal(s, q)
	}, []string{"form-changed ", "quantity-changed B/H1"}, "10949", "10925", "-24"},
	{"a foot for a metre", UnitChanged, func(s *Sent, q *Quote) { q.line("B/H1").Unit = measure.Ft }, []string{"form-changed ", "unit-changed B/H1"}, "10925", "10925", "0"},
	{"other words", DescriptionChanged, func(s *Sent, q *Quote) { q.line("B/H1").Description = "Renew plank in larch" },
		[]string{"form-changed ", "description-changed B/H1"}, "10925", "10925", "0"},
	{"no longer provisional", StandingChanged, func(s *Sent, q *Quote) { q.line("B/H2").Standing = "" }, []string{"form-changed ", "standing-changed B/H2"}, "10925", "10925", "0"},
	// 2,500 + 125 + 100 = 2,725, and 5,350 with the sum of the bill
	{"half of a provisional sum", SumChanged, func(s *Sent, q *Quote) {
		o := q.line("S/S1")
		o.Fixed.Quantity, o.Quantity, o.Amount = dec("2500"), given("2500"), formulaFor("2725")
		retotal(s, q)
	}, []string{"form-changed ", "given-sum-changed S/S1"}, "8300", "10925", "2625"},
	{"a row of their own", LineInserted, func(s *Sent, q *Quote) {
		q.Lines = slices.Insert(q.Lines, 5, Offered{Fixed: bill.Fixed{Description: "Temporary cover"}, Part: Work, Amount: formulaFor("80")})
		retotal(s, q)
	}, []string{"form-changed ", "line-inserted "}, "11005", "11005", "80"},
	{"a row is gone", LineDeleted, func(s *Sent, q *Quote) { q.Lines = slices.Delete(q.Lines, 0, 1); retotal(s, q) },
		[]string{"form-changed ", "line-deleted B/H1"}, "10805", "10805", "0"},
	{"a row stands there twice", LineTwice, func(s *Sent, q *Quote) { q.Lines = slices.Insert(q.Lines, 1, q.Lines[0]); retotal(s, q) },
		[]string{"form-changed ", "line-twice B/H1"}, "11045", "11045", "120"},
	{"incl. for a rate", RateInWords, func(s *Sent, q *Quote) {
		o := q.line("B/H1")
		o.Rate, o.Amount = text("incl."), formulaFor("0")
		retotal(s, q)
	}, []string{"rate-in-words B/H1"}, "10805", "10805", "0"},
	{"a rate below nil", RateNegative, func(s *Sent, q *Quote) {
		o := q.line("B/H1")
		o.Rate, o.Amount = given("-12"), formulaFor("-120")
		retotal(s, q)
	}, []string{"rate-negative B/H1"}, "10685", "10685", "0"},
	{"a rate of nil", RateNil, func(s *Sent, q *Quote) {
		o := q.line("B/H1")
		o.Rate, o.Amount = given("0"), formulaFor("0")
		retotal(s, q)
	}, []string{"rate-nil B/H1"}, "10805", "10805", "0"},
	{"a rate and excluded", RateAndWord, func(s *Sent, q *Quote) { q.line("B/H1").Choice = "Excluded" }, []string{"rate-and-word B/H1"}, "10925", "10925", "0"},
	{"a typed amount that agrees", FormulaReplaced, func(s *Sent, q *Quote) { q.line("B/H1").Amount = given("120") }, []string{"formula-replaced B/H1"}, "10925", "10925", "0"},
	{"a typed total that agrees", FormulaReplaced, func(s *Sent, q *Quote) { q.Stated = given("10925") }, []string{"formula-replaced "}, "10925", "10925", "0"},
	{"an amount that is not quantity times rate", AmountDiffers, func(s *Sent, q *Quote) { q.line("B/H1").Amount = formulaFor("130"); retotal(s, q) },
		[]string{"amount-differs B/H1"}, "10935", "10925", "-10"},
	{"an amount that is not there", AmountDiffers, func(s *Sent, q *Quote) { q.line("B/H1").Amount = Figure{}; retotal(s, q) },
		[]string{"amount-differs B/H1"}, "10805", "10925", "120"},
	{"a decimal point plainly misplaced", PointMisplaced, func(s *Sent, q *Quote) { q.line("B/H1").Rate = given("1.20") }, []string{"point-misplaced B/H1"}, "10925", "10925", "0"},
	{"a tenth of the bill's rate", PointDoubtful, func(s *Sent, q *Quote) {
		l := &s.Lines[0]
		l.Priced, l.Rate = true, money.MustAmount("118")
	}, []string{"point-doubtful B/H1"}, "10925", "10925", "0"},
	// hull carried as 620 where its lines come to 520, and so on to the total
	{"a section that is not its lines", SectionDiffers, func(s *Sent, q *Quote) {
		q.Totals[0], q.Totals[2], q.Stated = Total{"H", formulaFor("620")}, Total{string(Work), formulaFor("1120")}, formulaFor("11025")
	}, []string{"section-differs "}, "11025", "10925", "-100"},
	{"a total that is not its parts", TotalDiffers, func(s *Sent, q *Quote) { q.Stated = formulaFor("11925") }, []string{"total-differs "}, "11925", "10925", "-1000"},
	{"a total that cannot be read", TotalDiffers, func(s *Sent, q *Quote) { q.Stated = faulty() }, []string{"total-differs "}, "10925", "10925", "0"},
	{"other words than figures", WordsDiffer, func(s *Sent, q *Quote) { q.Words = "Ten thousand pounds only" }, []string{"words-differ "}, "10925", "10925", "0"},
	{"words that cannot be read", WordsDiffer, func(s *Sent, q *Quote) { q.Words = "about ten thousand" }, []string{"words-differ "}, "10925", "10925", "0"},
	{"nothing of value added tax", TaxUnsaid, func(s *Sent, q *Quote) { q.Tax = "" }, []string{"tax-unsaid "}, "10925", "10925", "0"},
	{"something else of value added tax", TaxUnsaid, func(s *Sent, q *Quote) { q.Tax = "plus VAT" }, []string{"tax-unsaid "}, "10925", "10925", "0"},
	{"value added tax in, at what rate nobody knows", TaxRateUnsaid, func(s *Sent, q *Quote) { q.Tax = bill.AddedIn }, []string{"tax-rate-unsaid "}, "10925", "10925", "0"},
	{"a rate left blank", LineUnpriced, func(s *Sent, q *Quote) {
		o := q.line("B/H1")
		o.Rate, o.Amount = Figure{}, formulaFor("0")
		retotal(s, q)
	}, []string{"line-unpriced B/H1"}, "10805", "10805", "0"},
	{"a rate for weeks and no weeks", LineUnpriced, func(s *Sent, q *Quote) {
		o := q.line("P/P2")
		o.Time, o.Amount = Figure{}, formulaFor("0")
		retotal(s, q)
	}, []string{"line-unpriced P/P2"}, "10725", "10725", "0"},
	{"a line excluded", LineExcluded, func(s *Sent, q *Quote) {
		o := q.line("B/H1")
		o.Rate, o.Amount, o.Choice = Figure{}, formulaFor("0"), bill.Excluded
		retotal(s, q)
	}, []string{"line-excluded B/H1"}, "10805", "10805", "0"},
	{"a line for the owner", LineByOwner, func(s *Sent, q *Quote) {
		o := q.line("B/H1")
		o.Rate, o.Amount, o.Choice = Figure{}, formulaFor("0"), " By  owner"
		retotal(s, q)
	}, []string{"line-by-owner B/H1"}, "10805", "10805", "0"},
	{"hours of daywork without a rate", DayworkUnpriced, func(s *Sent, q *Quote) {
		o := q.line("D/1")
		o.Rate, o.Amount = Figure{}, formulaFor("0")
		retotal(s, q)
	}, []string{"daywork-unpriced D/1"}, "9245", "9245", "0"},
	{"a sum of daywork without an addition", DayworkUnpriced, func(s *Sent, q *Quote) {
		o := q.line("D/2")
		o.Addition, o.Amount = Figure{}, formulaFor("500")
		retotal(s, q)
	}, []string{"daywork-unpriced D/2"}, "10850", "10850", "0"},
	{"a rate only that is not given", RateOnlyUnpriced, func(s *Sent, q *Quote) { q.line("B/D4").Rate = Figure{} }, []string{"rate-only-unpriced B/D4"}, "10925", "10925", "0"},
	{"no name", FirmUnsaid, func(s *Sent, q *Quote) { q.Firm = " " }, []string{"firm-unsaid "}, "10925", "10925", "0"},
	{"no weeks", WeeksUnsaid, func(s *Sent, q *Quote) { q.Weeks = text("as agreed") }, []string{"weeks-unsaid "}, "10925", "10925", "0"},
	{"no last day", ValidityUnsaid, func(s *Sent, q *Quote) { q.Until = time.Time{} }, []string{"validity-unsaid "}, "10925", "10925", "0"},
	{"no signature", Unsigned, func(s *Sent, q *Quote) { q.Signed = "" }, []string{"unsigned "}, "10925", "10925", "0"},
	{"a contingency of their own", ContingencyPut, func(s *Sent, q *Quote) {
		q.Lines = append(q.Lines, Offered{Fixed: bill.Fixed{ID: "D/3", Description: "Contingencies"}, Part: Dayworks, Amount: given("1000")})
		retotal(s, q)
	}, []string{"form-changed ", "contingency-put-in D/3"}, "11925", "11925", "1000"},
}

func TestEveryKindOfFindingIsRaisedByWhatIsPlantedAndNothingElse(t *testing.T) {
	raised := map[FindingKind]bool{}
	for _, c := range planted {
		raised[c.kind] = true
		t.Run(c.name, func(t *testing.T) {
			s, q := sound()
			c.plant(s, q)
			got := check(s, q, terms(RateGoverns))
			if diff := cmp.Diff(c.found, kinds(got)); diff != "" {
				t.Error(diff)
			}
			if !got.asTendered.Equal(money.MustAmount(c.stood)) || !got.corrected.Equal(money.MustAmount(c.right)) {
				t.Errorf("as tendered %s, corrected %s, want %s and %s", got.asTendered, got.corrected, c.stood, c.right)
			}
			n := slices.IndexFunc(got.findings, func(f Finding) bool { return f.Kind == c.kind })
			if n < 0 {
				t.Fatalf("%s is not raised", c.kind)
			}
			f := got.findings[n]
			if !f.Worth.Equal(money.MustAmount(c.worth)) {
				t.Errorf("it is worth %s, want %s", f.Worth, c.worth)
			}
			for _, f := range got.findings {
				if f.Text == "" || strings.HasSuffix(f.Text, ".") || f.Text[0] >= 'A' && f.Text[0] <= 'Z' {
					t.Errorf("%s says %q", f.Kind, f.Text)
				}
				if f.Query != "" && !(strings.HasPrefix(f.Query, "Please ") && strings.HasSuffix(f.Query, ".")) {
					t.Errorf("%s asks %q", f.Kind, f.Query)
				}
			}
		})
	}
	for _, f := range Findings() {
		if !raised[f.Kind] {
			t.Errorf("nothing raises %s", f.Kind)
		}
		delete(raised, f.Kind)
		if f.Meaning == "" || f.Example == "" || f.Cure == "" {
			t.Errorf("%s has no facts", f.Kind)
		}
	}
	for k := range raised {
		t.Errorf("%s has no facts", k)
	}
}
