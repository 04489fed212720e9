package pdf_test

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/quotes"
	"futtock/output/pdf"
	"futtock/rates/money"
)

func report(t testing.TB, c quotes.Comparison) []byte {
	t.Helper()
	data, err := pdf.Report(c)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

const (
	oddName  = "Верфь Маяк 船 🚢"
	longName = "نور — The Amalgamated Traditional Shipbuilding, Sparmaking and Slipway Company of the Northern Estuaries Limited"
)

// forty are so many forms, the names of some long, with a gap in every fifth.
func forty(s quotes.Sent) []quotes.Quote {
	var all []quotes.Quote
	for i := range 40 {
		name := fmt.Sprintf("Yard %02d", i+1)
		if i%7 == 3 {
			name = fmt.Sprintf("The Amalgamated Traditional Shipbuilding, Sparmaking and Slipway Company of the Northern Estuaries (%02d) Limited", i+1)
		}
		q := pdf.FormOf(s, name, fmt.Sprintf("%.2f", 0.82+0.013*float64(i*17%40)))
		if i%5 == 2 {
			pdf.Line(&q, "B/D2").Rate = quotes.Figure{}
			pdf.Reckon(&q)
		}
		all = append(all, q)
	}
	return all
}

// unpriced is the bill without its prices, its particulars and its programme, and
// three quotes for it that say little.
func unpriced() (quotes.Sent, []quotes.Quote) {
	s := pdf.Smack()
	all := pdf.Three(s)
	for i := range all {
		all[i].Qualifications, all[i].Weeks, all[i].Dated = nil, quotes.Figure{}, time.Time{}
		for n := range all[i].Lines {
			if l := &all[i].Lines[n]; l.Part == quotes.Sums {
				l.Attendance = pdf.Typed("300")
			}
		}
	}
	bare := quotes.Sent{Book: "bill.xlsx", Currency: "EUR", Lines: slices.Clone(s.Lines), Sections: s.Sections}
	for n := range bare.Lines {
		bare.Lines[n].Priced, bare.Lines[n].Rate, bare.Lines[n].Amount = false, money.Amount{}, money.Amount{}
	}
	return bare, all
}

func byMean(t *quotes.Terms) {
	t.Errors, t.Gaps, t.Low = quotes.ReportOnly, quotes.AtMean, quotes.NoLow
}

// printed is money as the report has it.
func printed(a money.Amount) string { return strings.ReplaceAll(a.Grouped(), "-", "−") }

func TestTheReportIsASoundDocumentWithItsFigures(t *testing.T) {
	s := pdf.Smack()
	c := pdf.Compared(t, s, pdf.Three(s), pdf.Costed)
	data := report(t, c)
	read(t, data, "qpdf", "--check", "FILE")
	text := single(words(t, data))
	for _, want := range []string{
		"Tender report Hopewell", "The Hopewell Trust", "HW/2026-3", "4 May 2026", s.Book, s.Fingerprint, "Quotes received 3",
		"1 What was asked, and of whom", "2 What came back", "3 Arithmetic", "4 Levelling", "5 Order", "6 Comparison with the estimate", "7 Balance", "8 Low prices",
		"9 Programme", "10 Matters to settle", "11 Recommendation", "12 Notes and cautions",
		"Opened by", "In the presence of", "Where figures differ the rate governs the amount", "standard bidding documents of the World Bank",
		"What a quote leaves out is levelled at the price of the bill", "£420.00", "letter", "12 Jun 2026", "VAT added in, at 20 %", "VAT not said, taken as left out",
		"amount stands at 4,995.98; 4.2 m × 1038.40 = 4,361.28", "Bill!F5 −634.70", "not priced: levelled at the yardstick, 3,168.00", "excluded: levelled at the yardstick, 5,400.00",
		"2 Price is for work on a slip free by 1 October. +1,800.00", "1 No work by the tide on Sundays. not priced",
		"change for all when a quote is withdrawn", "Construction Procurement Handbook, chapter 8", "No quote is below the limit", "takes 24.5 weeks",
		"1/1 whole Please say whether you withdraw the following", "1/3 whole Please confirm your rates for these items, which stand far from what was looked for: P2, F1.", "funders ask for full reasons", "changes no offer", "licensed practice",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	for i, o := range c.Offers {
		for _, want := range []string{
			fmt.Sprintf("%d %s %s", i+1, o.Name, printed(o.AsTendered)),
			fmt.Sprintf("%d %d %s %s %d %s %s %s", o.RankAfter, i+1, o.Name, printed(o.Net), o.RankBefore, printed(o.Levelled), printed(o.Behind), o.Marks.StringFixed(2)),
			printed(o.Corrected), printed(o.Worth), printed(o.Over),
		} {
			if !strings.Contains(text, want) {
				t.Errorf("%s: the text has no %q", o.Name, want)
			}
		}
	}
	for _, x := range c.Sections {
		if x.Yardstick.Amount.IsZero() || !strings.Contains(text, printed(x.Yardstick.Amount)) || !strings.Contains(text, printed(x.High)) {
			t.Errorf("section %s does not come to %s and at most %s", x.Key, x.Yardstick.Amount, x.High)
		}
	}
	if info := read(t, data, "pdfinfo", "FILE"); !strings.Contains(info, "Tender report on the refit of Hopewell") || !strings.Contains(info, "May  4") {
		t.Errorf("pdfinfo says %s", info)
	}
}

// page is the text of the page on which a part begins.
func page(t *testing.T, data []byte, part string) string {
	t.Helper()
	for p := range strings.SplitSeq(words(t, data), "\f") {
		if regexp.MustCompile(`(?m)^\s*\d+\s+` + part + `\s*$`).MatchString(p) {
			return p
		}
	}
	t.Fatalf("no page begins %q", part)
	return ""
}

func TestNothingIsRecommended(t *testing.T) {
	s := pdf.Smack()
	c := pdf.Compared(t, s, pdf.Three(s), nil)
	data := report(t, c)
	text := page(t, data, "Recommendation")
	for _, o := range c.Offers {
		if strings.Contains(text, o.Name) {
			t.Errorf("the recommendation names %s", o.Name)
		}
	}
	if found := regexp.MustCompile(`\d[\d,]*\.\d\d`).FindString(text); found != "" {
		t.Errorf("the recommendation has the figure %s", found)
	}
	for _, want := range []string{"Quote recommended", "Sum before value added tax", "Sum with value added tax", "Reasons", "Signature", "Name", "Date"} {
		if !strings.Contains(text, want) {
			t.Errorf("there is no room for %q", want)
		}
	}
	if whole := strings.ToLower(words(t, data)); strings.Contains(whole, "we recommend") || strings.Contains(whole, "reject") {
		t.Error("the report recommends or rejects")
	}
}

func TestALowPriceIsAskedAboutAndNoMore(t *testing.T) {
	s := pdf.Smack()
	all := []quotes.Quote{pdf.FormOf(s, "Middle", "1"), pdf.FormOf(s, "Cheap", "0.5"), pdf.FormOf(s, "Dear", "1.2")}
	c := pdf.Compared(t, s, all, nil)
	if !slices.Equal(c.Low.Low, []bool{false, true, false}) {
		t.Fatalf("low are %v", c.Low.Low)
	}
	text := single(words(t, report(t, c)))
	for _, want := range []string{"2 Cheap " + printed(c.Offers[1].Levelled) + " ask for an explanation", "An explanation is asked for below £" + printed(c.Low.Limit), "no reason to turn a quote down",
		"2/1 whole Please explain how you come by a price as low as £" + printed(c.Offers[1].Levelled)} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	if n := strings.Count(text, "ask for an explanation"); n != 1 {
		t.Errorf("%d quotes are asked after", n)
	}
}

func TestTheSameComparisonIsTheSameBytesWhateverTheDay(t *testing.T) {
	s := pdf.Smack()
	s.Tendered = time.Time{}
	c := pdf.Compared(t, s, pdf.Three(s), nil)
	want := report(t, c)
	var all sync.WaitGroup
	got := make([][]byte, 4)
	for i := range got {
		all.Go(func() { got[i], _ = pdf.Report(c) })
	}
	all.Wait()
	for i := range got {
		if !bytes.Equal(got[i], want) {
			t.Errorf("run %d is not the same bytes", i)
		}
	}
	if !bytes.Contains(want, []byte("(D:19700101000000)")) {
		t.Error("a report without a date bears one")
	}
}

func TestOneQuoteIsInNoOrder(t *testing.T) {
	s := pdf.Smack()
	text := single(words(t, report(t, pdf.Compared(t, s, pdf.Three(s)[:1], nil))))
	for _, want := range []string{"1 quote was received", "One quote came back. There is no order and there are no marks", "The rule does not apply: it needs three prices, and has 1", "It takes two quotes"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	for _, not := range []string{"Before and after levelling", "Behind the", "Spread", "Lowest when levelled", "Numbers in brackets"} {
		if strings.Contains(text, not) {
			t.Errorf("of one quote it says %q", not)
		}
	}
}

func TestNoQuotesAreReportedAsNone(t *testing.T) {
	text := single(words(t, report(t, pdf.Compared(t, pdf.Smack(), nil, nil))))
	for _, want := range []string{"0 quotes were received", "No quote came back.", "There is nothing to ask of any firm", "Notes and cautions"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
}

func TestWithoutPricesThereIsNoEstimate(t *testing.T) {
	s, all := unpriced()
	text := single(words(t, report(t, pdf.Compared(t, s, all, byMean))))
	for _, want := range []string{"The bill bears no prices. There is no estimate", "the refit of the vessel was put out", "Where figures differ it is reported, and nothing is corrected", "No rule for low prices was chosen", "By the rule for errors the totals stay as they were tendered",
		"The bill has no programme", "at the mean of 1 other quote", "€", "Weeks are shown, under Programme, and are not priced"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	for _, not := range []string{"Variance of each quote", "The bill itself", "The yardstick is", "Present value", "£"} {
		if strings.Contains(text, not) {
			t.Errorf("there is nothing to say of %q, and the report has it", not)
		}
	}
}

func TestFortyQuotesAreAllThere(t *testing.T) {
	s := pdf.Smack()
	c := pdf.Compared(t, s, forty(s), nil)
	data := report(t, c)
	read(t, data, "qpdf", "--check", "FILE")
	if n := bytes.Count(data, []byte("/Type /Page\n")); n < 25 || n > 45 {
		t.Errorf("forty quotes stand on %d pages", n)
	}
	raw := single(read(t, data, "pdftotext", "-raw", "FILE", "-"))
	for i, o := range c.Offers {
		for what, want := range map[string]string{"its name": o.Name, "its levelled figure": printed(o.Levelled), "its total": printed(o.AsTendered)} {
			if n := strings.Count(raw, want); n < 3 {
				t.Errorf("quote %d: %s stands there %d times", i+1, what, n)
			}
		}
		for _, x := range c.Sections {
			if !strings.Contains(raw, printed(x.Levelled[i])) {
				t.Errorf("quote %d: %s is not there for %s", i+1, x.Levelled[i], x.Key)
			}
		}
	}
}

func TestNamesTheTypeLacksAreNotLost(t *testing.T) {
	s := pdf.Smack()
	all := pdf.Three(s)
	all[0].Firm, all[1].Firm = oddName, longName
	data := report(t, pdf.Compared(t, s, all, nil))
	read(t, data, "qpdf", "--check", "FILE")
	raw := single(read(t, data, "pdftotext", "-raw", "FILE", "-"))
	for _, want := range []string{"Верфь Маяк [U+8239] [U+1F6A2]", "[U+0646][U+0648][U+0631] — The Amalgamated", "Company of the Northern Estuaries Limited", "The type of this document lacks some characters"} {
		if !strings.Contains(raw, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	if strings.Contains(words(t, report(t, pdf.Compared(t, s, pdf.Three(s), nil))), "The type of this document lacks") {
		t.Error("a report that replaced nothing says that it did")
	}
}

// A quote with more amiss than is printed says how much more, and what is not
// printed of its adjustments is in their sum.
func TestWhatIsNotPrintedIsCounted(t *testing.T) {
	s := pdf.Smack()
	line := s.Lines[0]
	for n := range 100 {
		l := line
		l.ID, l.Ref = fmt.Sprintf("B/X%03d", n), fmt.Sprintf("X%03d", n)
		l.Quantity, l.Amount, l.Rate = decimal.New(1, 0), money.Pennies(int64(1000+n)), money.Pennies(int64(1000+n))
		s.Lines = append(s.Lines, l)
	}
	q := pdf.FormOf(s, "Half", "1")
	for n := range q.Lines {
		if strings.HasPrefix(q.Lines[n].ID, "B/X") {
			q.Lines[n].Rate = quotes.Figure{}
		}
	}
	pdf.Reckon(&q)
	for n := range 40 {
		l := pdf.Line(&q, fmt.Sprintf("B/X%03d", n))
		l.Rate, l.Amount = pdf.Typed("9.99"), pdf.Typed("1.23")
	}
	c := pdf.Compared(t, s, []quotes.Quote{q}, nil)
	text := single(words(t, report(t, c)))
	// 60 gaps and the contingency make 61 adjustments, the least of them 10.40.
	for _, want := range []string{"1 adjustment more, none with more money in it, in the comparison workbook +10.40", "findings more, none with more money in it"} {
		if !strings.Contains(text, want) {
			t.Errorf("the text has no %q", want)
		}
	}
	if !regexp.MustCompile(`\d+ questions? more, in the comparison workbook`).MatchString(text) {
		t.Error("it is not said that there are more questions")
	}
}
