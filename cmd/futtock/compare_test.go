package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// returnedQuotes writes the bill of so many items and so many quotes for it, each
// with one amount in forty typed over its formula, a pound too low.
func returnedQuotes(t testing.TB, dir string, items, firms int) (billPath string, paths []string) {
	t.Helper()
	var b strings.Builder
	b.WriteString("Ref\tSection\tDescription\tQuantity\tUnit\tBuild-up\n")
	for n := range items {
		fmt.Fprintf(&b, "5.%d\t5\tPrepare and paint topsides outside, port side, frames %d to %d, two coats of gloss over undercoat\t%d.5\tm2\tPaint\n", n+1, n, n+3, n%40+1)
	}
	r := clean(t, txtar.File{Name: "items", Data: []byte(b.String())})
	write := func(name string, b *grid.Book) string {
		data, err := xlsx.Write(b)
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	form := estimate.Unpriced(r.Job, r.Book)
	for n := range firms {
		a := sheets.Answers{Lines: map[string]sheets.Answer{}, Offer: map[string]grid.Cell{
			bill.AskFirm: grid.Textual(fmt.Sprintf("Slip %d", n+1), grid.Style{}), bill.AskVAT: grid.Textual(bill.LeftOut, grid.Style{}),
		}}
		for _, s := range form.Bill.Sections {
			for i, l := range s.Lines {
				rate := decimal.New(int64(1000+7*i%900+3*n), -2)
				x := sheets.Answer{Rate: grid.Numeric(rate, grid.Style{})}
				if (i+n)%40 == 0 {
					amount := grid.Numeric(l.Quantity.Mul(rate).Round(2).Sub(decimal.New(1, 0)), grid.Style{})
					x.Amount = &amount
				}
				a.Lines[l.ID] = x
			}
		}
		paths = append(paths, write(fmt.Sprintf("quote-%02d.xlsx", n+1), sheets.Returned(form, a)))
	}
	return write("bill.xlsx", sheets.Bill(r)), paths
}

// Every amount that was typed over is found, in every quote and nowhere else.
func TestAmountsTypedOverAreFoundInEveryQuote(t *testing.T) {
	const items, firms = 200, 5
	b, paths := returnedQuotes(t, t.TempDir(), items, firms)
	c, err := compareAll(b, paths, "", quotes.Usual(), false, false)
	if err != nil {
		t.Fatal(err)
	}
	if c.problems.HasErrors() {
		t.Fatal(c.problems)
	}
	for n, o := range c.comparison.Offers {
		found := map[string]bool{}
		for _, f := range o.Findings {
			if f.Kind == quotes.AmountDiffers {
				found[f.ID] = true
			}
		}
		i, section := -1, ""
		for _, r := range c.comparison.Rows {
			if r.Line.Part != quotes.Work {
				continue
			}
			if i++; r.Line.Section != section {
				i, section = 0, r.Line.Section
			}
			if want := (i+n)%40 == 0; found[r.Line.ID] != want {
				t.Errorf("%s line %s: told of %v, want %v", o.Name, r.Line.ID, found[r.Line.ID], want)
			}
		}
	}
}

// Forty quotes of five thousand items: read, examined, levelled, and both
// documents made.
func BenchmarkFortyQuotesOfFiveThousandItems(b *testing.B) {
	path, paths := returnedQuotes(b, b.TempDir(), 5000, 40)
	for b.Loop() {
		c, err := compareAll(path, paths, "", quotes.Usual(), false, false)
		if err != nil {
			b.Fatal(err)
		}
		files, err := c.documents()
		if err != nil || c.problems.HasErrors() {
			b.Fatal(err, c.problems)
		}
		b.ReportMetric(float64(len(files[0].Data))/1e6, "workbook_MB")
	}
}

// What the client types into a comparison counts when it is compared again: a
// qualification at 1,250.00 and a week on site at 800.00, the latter unless the
// command line says another.
func TestFiguresTypedIntoAComparisonCountTheNextTime(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "yard.xlsx")
	if err := writeDemo(path); err != nil {
		t.Fatal(err)
	}
	p := priceAll([]string{path}, nil)[0]
	p.also = demoBesides
	p.write(dir, []string{path})
	var returned []string
	for _, f := range p.files {
		if strings.Contains(f, "-quote-") {
			returned = append(returned, f)
		}
	}
	compare := func(figures string, week string) quotes.Comparison {
		terms := quotes.Usual()
		if week != "" {
			terms.Week, _ = money.ParseAmount(week)
		}
		c, err := compareAll(filepath.Join(dir, "BRIM-114-bill.xlsx"), returned, figures, terms, false, week != "")
		if err != nil || c.problems.HasErrors() {
			t.Fatal(err, c.problems)
		}
		return c.comparison
	}
	first := compare("", "")
	book := sheets.Comparison(first)
	f := onSheet(t, book, offer.FiguresSheet, offer.HeadQualification)
	firm, text := first.Offers[0].Name, first.Offers[0].Qualifications[0].Text
	f.put(text, bill.HeadAmount, dec("1250"))
	for n, row := range f.Rows[:f.head] {
		if len(row.Cells) > 0 && row.Cells[0].Text == offer.AskWeek {
			f.set(n, f.col(bill.HeadAmount), dec("800"))
		}
	}
	data, err := xlsx.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	figures := filepath.Join(dir, "typed.xlsx")
	if err := os.WriteFile(figures, data, 0o644); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ said, week string }{{"", "800"}, {"100", "100"}} {
		again := compare(figures, c.said)
		for i, o := range again.Offers {
			want := first.Offers[i].Levelled.Add(money.Round(dec(c.week).Mul(o.Weeks.Weeks)))
			if o.Name == firm {
				want = want.Add(money.Round(dec("1250")))
			}
			if !o.Levelled.Equal(want) {
				t.Errorf("a week at %s: %s is levelled at %s, and %s is right", c.week, o.Name, o.Levelled, want)
			}
		}
	}
}
