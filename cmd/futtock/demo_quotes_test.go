package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// planted is what must be found of each fault that a firm's text plants.
var planted = map[string][]quotes.FindingKind{
	"amount":      {quotes.FormulaReplaced, quotes.AmountDiffers},
	"point":       {quotes.FormulaReplaced, quotes.PointMisplaced},
	"section":     {quotes.FormulaReplaced, quotes.SectionDiffers},
	"words":       {quotes.RateInWords},
	"quantity":    {quotes.QuantityChanged},
	"given":       {quotes.SumChanged},
	"unit":        {quotes.UnitChanged},
	"description": {quotes.DescriptionChanged},
	"standing":    {quotes.StandingChanged},
	"delete":      {quotes.LineDeleted},
	"excluded":    {quotes.LineExcluded},
	"by owner":    {quotes.LineByOwner},
	"insert":      {quotes.LineInserted},
	"beside":      {quotes.LineInserted},
	"stated":      {quotes.WordsDiffer, quotes.TotalDiffers},
}

// unsaid is what must be found where a question of the offer has no answer.
var unsaid = map[string]quotes.FindingKind{
	bill.AskFirm: quotes.FirmUnsaid, bill.AskVAT: quotes.TaxUnsaid, bill.AskVATRate: quotes.TaxRateUnsaid,
	bill.AskWeeks: quotes.WeeksUnsaid, bill.AskOpenUntil: quotes.ValidityUnsaid, bill.AskSigned: quotes.Unsigned,
}

// faults are the rows of a firm's text that plant one.
func (f demoFirm) faults() []demoRow {
	return slices.DeleteFunc(slices.Clone(f.rows), func(row demoRow) bool {
		_, is := planted[row.does]
		return !is && !slices.Contains([]string{"blank", "silent", "unsaid"}, row.does) && (row.does != "rate" || !strings.HasPrefix(row.with, "-"))
	})
}

// expected is the kind and line of every finding that a firm's text is to raise,
// from its faults alone.
func (f demoFirm) expected(t *testing.T, s quotes.Sent) []string {
	t.Helper()
	var out []string
	add := func(k quotes.FindingKind, id string) { out = append(out, string(k)+" "+id) }
	form := false // as it was sent no longer
	for _, row := range f.faults() {
		kinds := planted[row.does]
		switch row.does {
		case "rate":
			kinds = []quotes.FindingKind{quotes.RateNegative}
		case "unsaid":
			kinds = []quotes.FindingKind{unsaid[row.on]}
		case "blank", "silent":
			switch l := lineBy(s, row.on); {
			case l.Carried == job.RateOnly:
				kinds = []quotes.FindingKind{quotes.RateOnlyUnpriced}
			case l.Part == quotes.Dayworks:
				kinds = []quotes.FindingKind{quotes.DayworkUnpriced}
			default:
				kinds = []quotes.FindingKind{quotes.LineUnpriced}
			}
		case "insert":
			if strings.Contains(row.with, "Contingency") {
				kinds = []quotes.FindingKind{quotes.ContingencyPut}
			}
		}
		form = form || slices.Contains([]string{"quantity", "given", "unit", "description", "standing", "insert", "delete"}, row.does)
		ids := []string{row.on}
		switch section, whole := strings.CutPrefix(row.on, offer.OfSection); {
		case whole:
			ids = nil
			for _, l := range s.Lines {
				if l.Part == quotes.Work && l.Section == section {
					ids = append(ids, l.ID)
				}
			}
		case lineBy(s, row.on).ID == "" || row.does == "insert":
			ids = []string{""} // of the whole, or of a line that the bill has not got
		}
		for _, id := range ids {
			for _, k := range kinds {
				add(k, id)
			}
		}
	}
	if form {
		add(quotes.FormChanged, "")
	}
	slices.Sort(out)
	return out
}

// raisedBy is the kind and line of every finding in an offer.
func raisedBy(o quotes.Offer) []string {
	var out []string
	for _, f := range o.Findings {
		out = append(out, string(f.Kind)+" "+f.ID)
	}
	slices.Sort(out)
	return out
}

// quotesIn is the quotes of workbooks that came back, with nothing found amiss in
// reading them.
func quotesIn(t *testing.T, books []grid.Workbook, s quotes.Sent) []quotes.Quote {
	t.Helper()
	var out []quotes.Quote
	for _, w := range books {
		q, found := offer.Quote(w, s)
		for _, p := range found {
			t.Errorf("%s", p)
		}
		out = append(out, q)
	}
	return out
}

// Whatever the firms of the demonstration did to its bill is found, and nothing
// else is: beside the priced bill as beside the one that was sent, in the files as
// they were written and as another program saved them, which reckons every total
// of them to the penny that stood there.
func TestEveryFaultOfTheDemonstrationIsFoundAndNothingElse(t *testing.T) {
	f, r := demonstratedForm(t), demonstration(t)
	firms, err := demoFirms()
	if err != nil || len(firms) != 3 {
		t.Fatalf("%d firms, %v", len(firms), err)
	}
	sent := sentOf(t, templates.AsRead("unpriced.xlsx", sheets.Unpriced(f)))
	yard := sentOf(t, templates.AsRead("bill.xlsx", sheets.Bill(r)))
	dir := t.TempDir()
	var paths []string
	var written []grid.Workbook
	for _, firm := range firms {
		data, err := xlsx.Write(firm.returned(r, f))
		if err != nil {
			t.Fatal(err)
		}
		paths = append(paths, filepath.Join(dir, firm.name+".xlsx"))
		if err := os.WriteFile(paths[len(paths)-1], data, 0o644); err != nil {
			t.Fatal(err)
		}
		w, err := xlsx.Read(firm.name+".xlsx", data)
		if err != nil {
			t.Fatal(err)
		}
		written = append(written, w)
	}
	check := func(books []grid.Workbook, how string) {
		for _, beside := range []struct {
			name string
			sent quotes.Sent
			gaps quotes.GapRule
		}{{"the priced bill", yard, quotes.AtYardstick}, {"the bill that was sent", sent, quotes.AtHighest}} {
			terms := quotes.Usual()
			terms.Gaps = beside.gaps
			c, problems := quotes.Compare(beside.sent, quotesIn(t, books, beside.sent), terms)
			for _, p := range problems {
				t.Errorf("beside %s, %s: %s", beside.name, how, p)
			}
			for i, o := range c.Offers {
				if d := cmp.Diff(firms[i].expected(t, beside.sent), raisedBy(o)); d != "" {
					t.Errorf("%s beside %s, %s (-planted +found):\n%s", firms[i].name, beside.name, how, d)
				}
			}
		}
	}
	check(written, "as written")
	spreadsheet(t)
	saved := recalculatedFiles(t, paths...)
	check(saved, "as another program saved it")
	for i := range saved {
		n, differ := compareFormulas(written[i], saved[i])
		if n < 30 {
			t.Errorf("%s: only %d formulas", firms[i].name, n)
		}
		for _, d := range differ {
			t.Errorf("%s: %s", firms[i].name, d)
		}
	}
}

// Each fault says in the text whether it is honest, so that a reader can tell.
func TestEveryFaultOfTheDemonstrationSaysWhatItIs(t *testing.T) {
	firms, err := demoFirms()
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range firms {
		for _, row := range f.faults() {
			if kind, why, _ := strings.Cut(row.why, ":"); !slices.Contains([]string{"honest", "dishonest", "dishonest or careless", "exclusion", "exclusion in words"}, kind) || why == "" {
				t.Errorf("%s: %s %s does not say whether it is honest", f.name, row.does, row.on)
			}
		}
	}
}

// The firm that is cheapest at first sight is not once the quotes are levelled, and
// the dearest is.
func TestTheOrderOfTheDemonstrationTurns(t *testing.T) {
	f, r := demonstratedForm(t), demonstration(t)
	firms, err := demoFirms()
	if err != nil {
		t.Fatal(err)
	}
	yard := sentOf(t, templates.AsRead("bill.xlsx", sheets.Bill(r)))
	var books []grid.Workbook
	for _, firm := range firms {
		books = append(books, templates.AsRead(firm.name+".xlsx", firm.returned(r, f)))
	}
	c, _ := quotes.Compare(yard, quotesIn(t, books, yard), quotes.Usual())
	var before, after []int
	for _, o := range c.Offers {
		before, after = append(before, o.RankBefore), append(after, o.RankAfter)
	}
	if !slices.Equal(before, []int{3, 2, 1}) || !slices.Equal(after, []int{1, 3, 2}) {
		t.Errorf("the firms rank %v before and %v after", before, after)
	}
}

// sound is a firm that does nothing but price the bill and say what is asked.
const sound = `Does	On	With	Why
by		form
offer	Name of the firm	Sound & Fair
offer	Value added tax	left out
offer	Total offered	as reckoned
offer	Weeks on site	45
offer	Stands open until	2027-01-29
offer	Signed by	the foreman
level	all	1.01
varies		8%
rounds		round figures
profit		5%
addition		10%
`

// A form that is filled in as it asks raises nothing, and stands at its own total
// and the contingency that the client holds for all.
func TestACleanQuoteRaisesNothing(t *testing.T) {
	f, r := demonstratedForm(t), demonstration(t)
	book := templates.AsRead("clean.xlsx", parseFirm("clean", sound).returned(r, f))
	for name, beside := range map[string]*grid.Book{"the priced bill": sheets.Bill(r), "the bill that was sent": sheets.Unpriced(f)} {
		s := sentOf(t, templates.AsRead("sent.xlsx", beside))
		terms := quotes.Usual()
		if !s.Priced {
			terms.Gaps = quotes.AtMean
		}
		c, problems := quotes.Compare(s, quotesIn(t, []grid.Workbook{book}, s), terms)
		if len(problems) > 0 {
			t.Fatalf("beside %s: %s", name, problems[0])
		}
		o := c.Offers[0]
		for _, found := range o.Findings {
			t.Errorf("beside %s: %s %s: %s", name, found.Kind, found.ID, found.Text)
		}
		if !o.Levelled.Equal(o.AsTendered.Add(s.Contingency)) || o.AsTendered.Sign() <= 0 || !o.Quote.Stated.Value.Equal(o.AsTendered.Decimal()) {
			t.Errorf("beside %s it is levelled at %s, of a total of %s and %s that the client holds", name, o.Levelled, o.AsTendered, s.Contingency)
		}
	}
}
