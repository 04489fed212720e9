package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// quoteOf is a quote read back, with what was found.
func quoteOf(w grid.Workbook, s quotes.Sent) (quotes.Quote, string) {
	q, found := offer.Quote(w, s)
	var out []string
	for _, p := range found {
		out = append(out, string(p.Code)+" "+p.At.String())
	}
	return q, strings.Join(out, "\n")
}

func lineOf(t fatal, q quotes.Quote, id string) quotes.Offered {
	t.Helper()
	for _, l := range q.Lines {
		if l.ID == id {
			return l
		}
	}
	t.Fatalf("there is no line %s", id)
	return quotes.Offered{}
}

// A form that a careful firm has filled in is read back with every line and all
// that the firm says, and nothing is found amiss.
func filledFormReadBack(f estimate.Form, s, priced quotes.Sent) func(*testing.T, grid.Workbook, bool) {
	return func(t *testing.T, w grid.Workbook, reckoned bool) {
		q, found := quoteOf(w, s)
		if found != "" {
			t.Errorf("found: %s", found)
		}
		if len(q.Lines) != len(s.Lines) || q.Lump || q.Fingerprint != f.Bill.Fingerprint || q.Reference != f.Job.Reference {
			t.Fatalf("%d lines of %d, fingerprint %q, tender %q", len(q.Lines), len(s.Lines), q.Fingerprint, q.Reference)
		}
		for i, l := range q.Lines {
			if d := cmp.Diff(lineBy(s, l.ID).Fixed, l.Fixed); d != "" || l.Mark != l.Fixed.Mark() {
				t.Fatalf("line %d: mark %s (-sent +read):\n%s", i, l.Mark, d)
			}
			if l.Part == quotes.Work && (l.Rate.State != quotes.Given || !l.Rate.Value.Equal(dec("12.5"))) {
				t.Fatalf("%s: the rate is %v", l.ID, l.Rate)
			}
		}
		if q.Firm != "Creek & Sons" || q.Tax != bill.LeftOut || !q.TaxRateGiven || q.TaxRate.String() != "20 %" || !q.Stated.Value.Equal(dec("123456.78")) ||
			!q.Weeks.Value.Equal(dec("31.5")) || !q.Start.Equal(march) || !q.Until.Equal(march.AddDate(0, 0, 30)) || q.Signed != "the foreman" || q.At.Sheet != "Offer" {
			t.Errorf("the offer is %+v", q)
		}
		if len(q.Qualifications) != 2 || q.Qualifications[0].Of != "PL1" || q.Qualifications[0].Text != "Larch in place of oak,\nif it cannot be had." ||
			!q.Qualifications[0].Worth.Value.Equal(dec("-900")) || q.Qualifications[1].Number != 2 || q.Qualifications[1].Text != "Masts are drawn by others." {
			t.Errorf("the qualifications are %+v", q.Qualifications)
		}
		of := map[string]quotes.Total{}
		for _, total := range q.Totals {
			if _, twice := of[total.Of]; twice && reckoned {
				t.Errorf("the total of %q stands twice", total.Of)
			}
			of[total.Of] = total
		}
		want := map[string]decimal.Decimal{}
		for _, l := range q.Lines {
			if n := lineBy(s, l.ID); n.InTotal() && l.Part == quotes.Work {
				a := l.Quantity.Value.Mul(dec("12.5")).Round(2)
				want[n.Section], want[string(quotes.Work)] = want[n.Section].Add(a), want[string(quotes.Work)].Add(a)
			}
		}
		for _, sec := range s.Sections {
			if of[sec.Section].State != quotes.Reckoned || reckoned && !of[sec.Section].Value.Equal(want[sec.Section]) {
				t.Errorf("section %s comes to %v, and %s is right", sec.Section, of[sec.Section], want[sec.Section])
			}
		}
		if reckoned && !of[string(quotes.Work)].Value.Equal(want[string(quotes.Work)]) {
			t.Errorf("measured work comes to %v", of[string(quotes.Work)])
		}
		for _, p := range []quotes.Part{quotes.Preliminaries, quotes.Sums, quotes.Dayworks} {
			if of[string(p)].State != quotes.Reckoned {
				t.Errorf("there is no total of the %s", p)
			}
		}
		if of[""].State != quotes.Reckoned {
			t.Error("there is no total of the whole")
		}
		if reckoned {
			nothingChanged(t, s, q)
			nothingChanged(t, priced, q)
		}
	}
}

// nothingChanged checks that the examiner finds nothing altered in a form that a
// careful firm has filled in: only what was left blank, and a total that is another's.
func nothingChanged(t *testing.T, s quotes.Sent, q quotes.Quote) {
	t.Helper()
	c, _ := quotes.Compare(s, []quotes.Quote{q}, quotes.Usual())
	may := []quotes.FindingKind{quotes.LineUnpriced, quotes.DayworkUnpriced, quotes.TotalDiffers, quotes.PointDoubtful}
	for _, f := range c.Offers[0].Findings {
		if !slices.Contains(may, f.Kind) {
			t.Errorf("beside %s: %s %s %s: %s", s.Book, f.Kind, f.ID, f.At, f.Text)
		}
		if strings.HasPrefix(f.Text, `""`) {
			t.Errorf("beside %s: a finding of %s that says nothing: %s", s.Book, f.ID, f.Text)
		}
	}
}

// What was filled in is read back, and so it is once another program has saved it
// and reckoned its totals.
func TestWhatWasFilledInIsReadBack(t *testing.T) {
	f, priced := demonstratedForm(t), sheets.Bill(demonstration(t))
	form, bought := sentOf(t, reread(t, "b.xlsx", sheets.Unpriced(f))), sentOf(t, reread(t, "b.xlsx", priced))
	all := []struct {
		name  string
		book  *grid.Book
		check func(t *testing.T, w grid.Workbook, reckoned bool)
	}{
		{"form", filledForm(t, f), filledFormReadBack(f, form, bought)},
		{"letter", typedLetter(t, form), letterReadBack(form)},
		{"letter-of-priced", typedLetter(t, bought), letterReadBack(bought)},
		{"bill", priced, yardstickReadBack(bought)},
		{"surveyor", surveyedForm(t, f), surveyedReadBack},
	}
	dir := t.TempDir()
	var paths []string
	for _, c := range all {
		data, err := xlsx.Write(c.book)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, c.name+".xlsx")
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
		t.Run(c.name+", as it was filled in", func(t *testing.T) { c.check(t, reread(t, c.name+".xlsx", c.book), false) })
	}
	spreadsheet(t)
	for i, w := range recalculatedFiles(t, paths...) {
		t.Run(all[i].name+", as another program saved it", func(t *testing.T) { all[i].check(t, w, true) })
	}
}

func lineBy(s quotes.Sent, id string) quotes.Line {
	for _, l := range s.Lines {
		if l.ID == id {
			return l
		}
	}
	return quotes.Line{}
}

// typedLetter is the form for a letter as a client has filled it in.
func typedLetter(t fatal, s quotes.Sent) *grid.Book {
	t.Helper()
	b := sheets.Letter(s)
	ask(t, b, "Letter", bill.AskFirm, "The Slip")
	ask(t, b, "Letter", bill.AskVAT, bill.AddedIn)
	ask(t, b, "Letter", bill.AskTotal, dec("54321.5"))
	ask(t, b, "Letter", offer.AskInWords, "fifty-four thousand")
	ask(t, b, "Letter", offer.AskDated, march)
	sections := onSheet(t, b, "By section", offer.HeadKey)
	sections.put("section/PL", offer.HeadSaidFor, dec("54000"))
	sections.put("section/DK", offer.HeadWord, bill.Excluded)
	sections.put("part/preliminaries", offer.HeadSaidFor, dec("1000"))
	sections.put("part/preliminaries", offer.HeadSays, "crane by the owner")
	sections.put("beside/1", offer.HeadTitle, "discount for prompt payment")
	sections.put("beside/1", offer.HeadSaidFor, dec("-1000"))
	items := onSheet(t, b, "By item", bill.HeadID)
	items.put("B/FR1", offer.HeadSaidFor, dec("321.5"))
	items.put("B/FR2", offer.HeadWord, bill.ByOwner)
	asides := onSheet(t, b, "Qualifications", bill.HeadSaid)
	asides.set(asides.head+1, 1, "Tides permitting.")
	return b
}

// A form for a letter, filled in, is read back as the sums and words of the letter.
func letterReadBack(s quotes.Sent) func(*testing.T, grid.Workbook, bool) {
	return func(t *testing.T, w grid.Workbook, reckoned bool) {
		q, found := quoteOf(w, s)
		if found != "" {
			t.Errorf("found: %s", found)
		}
		excluded := 0
		var got []string
		for _, l := range q.Lines {
			if l.Choice == bill.Excluded {
				excluded++
				if lineBy(s, l.ID).Section != "DK" {
					t.Errorf("%s is excluded", l.ID)
				}
				continue
			}
			got = append(got, fmt.Sprint(l.Part, "|", l.Section, "|", l.ID, "|", l.Amount.Value, "|", l.Choice, l.Remark))
		}
		want := []string{"measured work|PL||54000|", "preliminaries|||1000|crane by the owner", "measured work|not in the bill||-1000|",
			"measured work||B/FR1|321.5|", "measured work||B/FR2|0|by owner"}
		slices.Sort(got)
		slices.Sort(want)
		if d := cmp.Diff(want, got); d != "" || excluded < 10 {
			t.Errorf("%d excluded; the lines (-want +got):\n%s", excluded, d)
		}
		if !q.Lump || q.Firm != "The Slip" || q.Tax != bill.AddedIn || q.TaxRateGiven || !q.Stated.Value.Equal(dec("54321.5")) || q.Words != "fifty-four thousand" ||
			!q.Dated.Equal(march) || q.Reference != s.Reference || q.Fingerprint != s.Fingerprint || len(q.Qualifications) != 1 || q.At.Sheet != "Letter" {
			t.Errorf("the offer is %+v", q)
		}
		if !reckoned {
			return
		}
		for label, want := range map[string]string{offer.SaidTyped: "54321.5", "Difference": "0"} {
			for _, p := range w.Sheets {
				for _, l := range p.Rows {
					if l.Cells[0].Raw == label && !l.Cell(2).Value.Equal(dec(want)) {
						t.Errorf("%s is %s, and %s is right", label, l.Cell(2).Raw, want)
					}
				}
			}
		}
	}
}

// A priced bill is the same yardstick, whoever saved it.
func yardstickReadBack(was quotes.Sent) func(*testing.T, grid.Workbook, bool) {
	return func(t *testing.T, w grid.Workbook, _ bool) {
		w.Name = was.Book
		if d := cmp.Diff(was, sentOf(t, w)); d != "" {
			t.Errorf("(-was +now):\n%s", d)
		}
	}
}

// surveyedForm is a form that the client's own surveyor has filled in.
func surveyedForm(t fatal, f estimate.Form) *grid.Book {
	t.Helper()
	b := filledForm(t, f)
	onSheet(t, b, "Preliminaries", bill.HeadID).put("P/PR1", bill.HeadOnce, dec("1000"))
	onSheet(t, b, "Sums", bill.HeadID).put("S/SU1", bill.HeadProfit, dec("0.05"))
	return b
}

// Such a form is a priced yardstick; amounts that nobody has reckoned are told of.
func surveyedReadBack(t *testing.T, w grid.Workbook, reckoned bool) {
	s, found := offer.Sent(w)
	if !s.Priced || len(found) > 0 == reckoned || found.HasErrors() {
		t.Fatalf("priced %v, found: %v", s.Priced, found)
	}
	for _, c := range []struct{ id, rate, amount string }{{"B/PL1", "12.5", ""}, {"P/PR1", "0", "1000"}} {
		l := lineBy(s, c.id)
		if !l.Priced || !l.Rate.Decimal().Equal(dec(c.rate)) || c.amount != "" && !l.Amount.Decimal().Equal(dec(c.amount)) {
			t.Errorf("%s is at %s, %s", c.id, l.Rate, l.Amount)
		}
	}
	if l := lineBy(s, "S/SU1"); !l.Given || !l.Amount.Decimal().Equal(l.Quantity.Mul(dec("1.05")).Round(2)) {
		t.Errorf("S/SU1 comes to %s of %s", l.Amount, l.Quantity)
	}
	if l := lineBy(s, "P/PR2"); l.Priced {
		t.Error("PR2 has no rate and bears a price")
	}
}
