package main

import (
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// largeForm is the form of a job of so many items in twenty sections.
func largeForm(t fatal, items int) estimate.Form {
	t.Helper()
	var sections, lines strings.Builder
	sections.WriteString("Section\tTitle\n")
	for s := range 20 {
		fmt.Fprintf(&sections, "%d\tPart %d of the hull\n", s+1, s+1)
	}
	lines.WriteString("Ref\tSection\tDescription\tQuantity\tUnit\n")
	for i := range items {
		fmt.Fprintf(&lines, "M%d\t%d\trenew fastening and make good round it, in way of frame %d, both sides\t%d.25\tm\n", i, i%20+1, i, i%90+1)
	}
	return formOf(t, []templates.Table{
		templates.ParseTSV("job", "Heading\tValue\nVessel\tSpeedwell\nClient\tThe owner\nYard\tThe yard\nTender reference\tLARGE-1\nTender date\t2026-03-02\nVAT code\tS\nHours a week\t40\n"),
		templates.ParseTSV("sections", sections.String()),
		templates.ParseTSV("members", "Ref\tSection\tMember\tNr\tLength\tTreatment\n"),
		templates.ParseTSV("items", lines.String()),
	})
}

// largeQuote is the file of that form with a rate in every line.
func largeQuote(t fatal, f estimate.Form) []byte {
	t.Helper()
	b := sheets.Unpriced(f)
	work := onSheet(t, b, "Bill", bill.HeadID)
	rate, id := work.col(bill.HeadRate), work.col(bill.HeadID)
	for n, r := range work.Rows {
		if len(r.Cells) > id && strings.HasPrefix(r.Cells[id].Text, "B/") {
			work.set(n, rate, decimal.New(int64(n*7), -2))
		}
	}
	data, err := xlsx.Write(b)
	if err != nil {
		t.Fatalf("%v", err)
	}
	return data
}

func TestAFormOfFiveThousandItemsIsReadBack(t *testing.T) {
	f := largeForm(t, 5000)
	s := sentOf(t, reread(t, "sent.xlsx", sheets.Unpriced(f)))
	w, err := xlsx.Read("q.xlsx", largeQuote(t, f))
	if err != nil {
		t.Fatal(err)
	}
	q, found := quoteOf(w, s)
	if found != "" || len(q.Lines) != 5000 || len(s.Lines) != 5000 {
		t.Fatalf("%d lines of %d, found: %s", len(q.Lines), len(s.Lines), found)
	}
	for _, l := range q.Lines {
		if l.Rate.State != quotes.Given || l.Mark != l.Fixed.Mark() {
			t.Fatalf("the line reads %+v", l)
		}
	}
}

func BenchmarkReadingBackAQuote(b *testing.B) {
	f := largeForm(b, 5000)
	s := sentOf(b, reread(b, "sent.xlsx", sheets.Unpriced(f)))
	path := filepath.Join(b.TempDir(), "q.xlsx")
	if err := os.WriteFile(path, largeQuote(b, f), 0o644); err != nil {
		b.Fatal(err)
	}
	b.Run("file", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := xlsx.Open(path); err != nil {
				b.Fatal(err)
			}
		}
	})
	w, err := xlsx.Open(path)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("quote", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			offer.Quote(w, s)
		}
	})
	b.Run("sent", func(b *testing.B) {
		for b.Loop() {
			offer.Sent(w)
		}
	})
}

// Whatever is done to a form, reading it back never breaks: rows and cells taken
// out, put in, moved, typed over, headings among them, sheets renamed and hidden.
func TestNoDamageToAFormBreaksReadingIt(t *testing.T) {
	f := demonstratedForm(t)
	form, letter, priced := reread(t, "sent.xlsx", sheets.Unpriced(f)), reread(t, "l.xlsx", sheets.Letter(sentOf(t, reread(t, "s.xlsx", sheets.Unpriced(f))))), reread(t, "p.xlsx", sheets.Bill(demonstration(t)))
	s := sentOf(t, form)
	rapid.Check(t, func(t *rapid.T) {
		w := copied(rapid.SampledFrom([]grid.Workbook{form, letter, priced}).Draw(t, "of"))
		for range rapid.IntRange(1, 30).Draw(t, "times") {
			damage(t, &w)
		}
		q, _ := offer.Quote(w, s)
		for _, l := range q.Lines {
			if l.Part == "" || l.At.Book != w.Name {
				t.Fatalf("a line stands nowhere: %+v", l)
			}
		}
		if again, found := offer.Sent(w); !found.HasErrors() {
			sheets.Letter(again)
		}
	})
}

// copied is a workbook that can be damaged without harm to the first.
func copied(w grid.Workbook) grid.Workbook {
	w.Sheets = slices.Clone(w.Sheets)
	for i := range w.Sheets {
		w.Sheets[i].Rows = slices.Clone(w.Sheets[i].Rows)
		for n := range w.Sheets[i].Rows {
			w.Sheets[i].Rows[n].Cells = slices.Clone(w.Sheets[i].Rows[n].Cells)
		}
	}
	return w
}

func damage(t *rapid.T, w *grid.Workbook) {
	p := &w.Sheets[rapid.IntRange(0, len(w.Sheets)-1).Draw(t, "sheet")]
	if len(p.Rows) == 0 {
		return
	}
	n := rapid.IntRange(0, len(p.Rows)-1).Draw(t, "row")
	if rapid.Bool().Draw(t, "near the top") {
		n %= min(8, len(p.Rows))
	}
	l := &p.Rows[n]
	switch rapid.IntRange(0, 8).Draw(t, "what") {
	case 0:
		p.Rows = slices.Delete(p.Rows, n, n+1)
	case 1:
		row := l.Row
		*l = p.Rows[rapid.IntRange(0, len(p.Rows)-1).Draw(t, "other row")]
		l.Row = row
	case 2:
		p.Name = rapid.SampledFrom([]string{"Priced", "Bill (2)", "Offer", "Cover", "", "Letter"}).Draw(t, "name")
	case 3:
		p.Hidden = true
	case 4:
		l.Hidden = true
	case 5:
		for i := range p.Rows {
			for k := range p.Rows[i].Cells {
				if p.Rows[i].Cells[k].Col > 3 {
					p.Rows[i].Cells[k].Col++
				}
			}
		}
	case 6:
		l.Cells = nil
	default:
		if len(l.Cells) == 0 {
			return
		}
		d := &l.Cells[rapid.IntRange(0, len(l.Cells)-1).Draw(t, "cell")]
		col := d.Col
		*d = rapid.SampledFrom([]grid.Datum{
			{}, {Kind: grid.Text, Raw: "£ 1,25"}, {Kind: grid.Text, Raw: " "}, {Kind: grid.Text, Raw: "Rate £"}, {Kind: grid.Text, Raw: "carried to summary: x"},
			{Kind: grid.Fault, Raw: "#REF!"}, {Kind: grid.Blank, Formula: "A1"}, {Kind: grid.Number, Raw: "1E+307", Value: decimal.New(1, 307)},
			{Kind: grid.Number, Raw: "-1E-300", Value: decimal.New(-1, -300)}, {Kind: grid.Bool, Raw: "1"}, {Kind: grid.Date, Raw: "2026"},
			{Kind: grid.Number, Raw: "45000", Value: decimal.New(45000, 0), Format: "yyyy-mm-dd"}, {Kind: grid.Text, Raw: strings.Repeat("x", 32767)},
			{Kind: grid.Text, Raw: "B/PL1"}, {Kind: grid.Text, Raw: "section/"}, {Kind: grid.Text, Raw: "part/sums"}, {Kind: grid.Text, Raw: "h"},
		}).Draw(t, "typed")
		d.Col = col
	}
}
