package sheets_test

import (
	"bytes"
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// three is the comparison of a form, a letter and a form with much amiss.
func three(t *testing.T) quotes.Comparison {
	s := sentBill(95)
	return compared(t, s, threeOffers(s), clientsTerms())
}

// What a firm typed is text in every cell it comes to, whatever it begins with:
// no formula of the workbook holds any of it, but for the name of a sheet between its marks.
func TestWhatAFirmTypedIsNeverAFormula(t *testing.T) {
	b := sheets.Comparison(three(t))
	seen := map[string]int{}
	for _, s := range b.Sheets {
		for i, r := range s.Rows {
			for k, c := range r.Cells {
				for _, hostile := range []string{hostileLink, hostileCall, hostileAt, "=2+3"} {
					if strings.Contains(c.Text, hostile) {
						seen[hostile]++
						if c.Kind != grid.Text || c.Formula != "" || c.Link != "" {
							t.Errorf("%s row %d column %d is of kind %d, by =%s", s.Name, i+1, k+1, c.Kind, c.Formula)
						}
					}
				}
				if f := strings.ReplaceAll(c.Formula, "'3 =2+3'!", ""); strings.Contains(f, "HYPERLINK") || strings.Contains(f, "cmd") || strings.Contains(f, "2+3") || strings.Contains(f, "A9)") && strings.Contains(f, "@") {
					t.Errorf("%s row %d column %d: =%s", s.Name, i+1, k+1, c.Formula)
				}
			}
		}
	}
	for _, hostile := range []string{hostileLink, hostileCall, hostileAt, "=2+3"} {
		if seen[hostile] == 0 {
			t.Errorf("%q is nowhere, so that nothing is tried of it", hostile)
		}
	}
	data, err := xlsx.Write(b)
	if err != nil {
		t.Fatal(err)
	}
	back, err := xlsx.Read("back.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range back.Sheets {
		for _, l := range p.Rows {
			for _, d := range l.Cells {
				if strings.HasPrefix(d.Raw, "=") && (d.Kind != grid.Text || d.IsFormula()) {
					t.Errorf("%s row %d column %d comes back as kind %d of =%s", p.Name, l.Row, d.Col, d.Kind, d.Formula)
				}
			}
		}
	}
}

// Every page of queries names its own firm and none of the others.
func TestAPageOfQueriesNamesNoOtherFirm(t *testing.T) {
	c := three(t)
	s := sheet(t, sheets.Comparison(c), "Queries")
	starts := []int{}
	for i, r := range s.Rows {
		if len(r.Cells) > 0 && strings.HasPrefix(r.Cells[0].Text, "To ") {
			starts = append(starts, i)
		}
	}
	if len(starts) != len(c.Offers) || len(s.Print.Breaks) != len(starts)-1 {
		t.Fatalf("%d firms have a page and there are %d breaks", len(starts), len(s.Print.Breaks))
	}
	for k, from := range starts {
		to := len(s.Rows)
		if k+1 < len(starts) {
			to = starts[k+1]
			if s.Print.Breaks[k] != to+1 {
				t.Errorf("a page begins at row %d and the next firm at %d", s.Print.Breaks[k], to+1)
			}
		}
		var asked int
		for _, r := range s.Rows[from:to] {
			for _, cell := range r.Cells {
				for j, o := range c.Offers {
					if j != k && strings.Contains(cell.Text, o.Name) {
						t.Errorf("the page of %q names %q: %q", c.Offers[k].Name, o.Name, cell.Text)
					}
				}
				if cell.Style.Border == grid.Box {
					asked++
				}
			}
		}
		want := 1 // to be signed
		for _, f := range c.Offers[k].Findings {
			if f.Query != "" {
				want++
			}
		}
		if asked != want {
			t.Errorf("%q has %d boxes for answers, want %d", c.Offers[k].Name, asked, want)
		}
	}
	if !strings.HasPrefix(s.Print.Area, fmt.Sprintf("$A$%d:", starts[0]+1)) || s.Print.Repeat != "" {
		t.Errorf("what is printed is %s, with %q on every page", s.Print.Area, s.Print.Repeat)
	}
}

// An offer that a published rule would have explained is asked to, in its
// queries, and marked by a sign on the summary and the sheet of the rule.
func TestASurprisinglyLowOfferIsAskedToExplain(t *testing.T) {
	s := sentBill(45)
	all := []quotes.Quote{priced(s, "Able", 100), priced(s, "Bold", 55), priced(s, "Calm", 104)}
	c := compared(t, s, all, quotes.Usual())
	if !slices.Equal(c.Low.Low, []bool{false, true, false}) {
		t.Fatalf("low are %v", c.Low.Low)
	}
	b := sheets.Comparison(c)
	for _, of := range []struct{ sheet, begins string }{{"Summary", "! ask for an explanation"}, {"Low price", "! ask for an explanation"}, {"Queries", "Your price is low"}} {
		rowWith(t, b, of.sheet, of.begins)
	}
	if row := rowWith(t, b, "Summary", "! ask"); row[1].Text != "Bold" {
		t.Errorf("it is %q that is asked", row[1].Text)
	}
}

// Names of sheets are unlike one another, short enough, and hold nothing that
// a name may not.
func TestAnyFirmHasASheetOfItsOwn(t *testing.T) {
	s := sentBill(9)
	names := []string{"Yard", "yard", "", "'", "[a]:*?/\\b", "O'Brien's Slip, of the Harbour Works at the Long Quay", strings.Repeat("𝒜", 40), "History", "\x01\x1f tab\there", "&P of &N", "Summary"}
	var all []quotes.Quote
	for _, n := range names {
		q := priced(s, "x", 100)
		q.Firm, q.Book = n, "q.xlsx"
		all = append(all, q)
	}
	b := sheets.Comparison(compared(t, s, all, quotes.Usual()))
	if _, err := xlsx.Write(b); err != nil {
		t.Fatal(err)
	}
	want := []string{"1 Yard", "2 yard", "3 q.xlsx", "4", "5 a b", "6 O Brien s Slip, of the Harbou", "7 " + strings.Repeat("𝒜", 14), "8 History", "9 tab here", "10 &P of &N", "11 Summary"}
	var got []string
	for _, s := range b.Sheets[len(b.Sheets)-len(names):] {
		got = append(got, s.Name)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("names (-wanted +got):\n%s", d)
	}
	if footer := b.Sheets[len(b.Sheets)-2].Print.Footer; !strings.Contains(footer, "10 &&P of &&N") {
		t.Errorf("the footer is %q", footer)
	}
}

// What the client typed comes back: week, figures at their cells, and what
// cannot be read as a problem.
func TestTheClientsFiguresAreReadBack(t *testing.T) {
	c := three(t)
	b := sheets.Comparison(c)
	figures := sheet(t, b, offer.FiguresSheet)
	read := func() (string, []string, problem.List) {
		t.Helper()
		data, err := xlsx.Write(b)
		if err != nil {
			t.Fatal(err)
		}
		book, err := xlsx.Read("comparison.xlsx", data)
		if err != nil {
			t.Fatal(err)
		}
		week, priced, found := offer.Figures(book)
		var lines []string
		for _, p := range priced {
			lines = append(lines, fmt.Sprintf("%s: %s: %s at %s", p.Firm, p.Text, p.Amount, p.At.Address()))
		}
		terms := quotes.Usual()
		terms.Week, terms.Figures = week, priced
		if _, more := quotes.Compare(c.Sent, threeOffers(c.Sent), terms); more.HasErrors() {
			t.Errorf("what was read back matches nothing: %v", more)
		}
		return week.String(), lines, found
	}
	week, lines, found := read()
	want := []string{"Able & Daughters [Slip 2]: Owner to clear the hold.: 850.00 at E17", "=2+3: Timber at today's price.: 1250.50 at E20"}
	if week != "350.00" || len(found) > 0 || !slices.Equal(lines, want) {
		t.Errorf("week %s, %q, %v", week, lines, found)
	}
	_, cell := cellBeside(t, figures, hostileCall, 5)
	*cell = grid.Cell{Kind: grid.Number, Style: cell.Style} // a nought that is meant
	_, cell = cellBeside(t, figures, "Owner to clear the hold.", 5)
	*cell = grid.Cell{Style: cell.Style}
	_, cell = cellBeside(t, figures, offer.AskWeek, 5)
	*cell = grid.Cell{Kind: grid.Text, Text: "about 300", Style: cell.Style}
	week, lines, found = read()
	want = []string{"=2+3: " + hostileCall + ": 0.00 at E19", want[1]}
	if week != "0.00" || !slices.Equal(lines, want) {
		t.Errorf("week %s, %q", week, lines)
	}
	if len(found) != 1 || found[0].Code != problem.MoneyForm || found[0].At != (origin.Cell{Book: "comparison.xlsx", Sheet: offer.FiguresSheet, Row: 6, Col: 5}) {
		t.Errorf("found %v", found)
	}
	_, _, found = offer.Figures(grid.Workbook{Name: "other.xlsx", Sheets: []grid.Page{{Name: "Bill"}}})
	if len(found) != 1 || found[0].Code != problem.SheetMissing {
		t.Errorf("without the sheet: %v", found)
	}
}

// The figure as tendered is typed and by no formula; where it was corrected a
// sign and heavy letters say so beside the fill.
func TestAsTenderedStandsBesideWhatItWasCorrectedTo(t *testing.T) {
	b := sheets.Comparison(three(t))
	s := b.Sheets[len(b.Sheets)-1]
	row := rowWith(t, b, s.Name, "A2")
	const tendered, corrected, sign = 5, 6, 9
	if row[tendered].Formula != "" || row[tendered].Number.StringFixed(2) != "999.01" {
		t.Errorf("as tendered %s by =%s", row[tendered].Number, row[tendered].Formula)
	}
	if c := row[corrected]; c.Number.StringFixed(2) != "899.01" || !strings.HasPrefix(c.Formula, "ROUND(C") || !c.Style.Font.Bold || c.Style.Fill == "" {
		t.Errorf("corrected %s by =%s", c.Number, c.Formula)
	}
	if row[sign].Text != "C" {
		t.Errorf("the sign is %q", row[sign].Text)
	}
	for _, f := range b.Sheets {
		for i, r := range f.Rows {
			for k, c := range r.Cells {
				if c.Style.Fill == "FBE3C0" && !c.Style.Font.Bold {
					t.Errorf("%s row %d column %d is marked by colour alone", f.Name, i+1, k+1)
				}
			}
		}
	}
}

func TestAComparisonIsWrittenAlike(t *testing.T) {
	var was []byte
	for range 2 {
		data, err := xlsx.Write(sheets.Comparison(three(t)))
		if err != nil {
			t.Fatal(err)
		}
		if was != nil && !bytes.Equal(was, data) {
			t.Fatal("two runs made two files")
		}
		was = data
	}
}
