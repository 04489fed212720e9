package main

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/rates/problem"
	"futtock/templates/grid"
	"futtock/templates/offer"
)

// Whatever is careless about a returned form is handed on as it stands.
func TestACarelessFormIsReadAsItStands(t *testing.T) {
	f := demonstratedForm(t)
	s := sentOf(t, reread(t, "sent.xlsx", sheets.Unpriced(f)))
	blank := quotes.Figure{}
	for _, c := range []struct {
		name  string
		spoil func(b *grid.Book)
		found string // codes, one a line
		check func(t *testing.T, q quotes.Quote)
	}{
		{"money typed as text that reads plainly", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			for id, text := range map[string]string{"B/PL1": "£ 1,234.50", "B/PL2": "12,50", "B/PL3": "1.234,50", "B/PL4": "as PL1", "B/PL5": "6-3", "B/PL6": "-"} {
				w.put(id, bill.HeadRate, text)
			}
		}, "", func(t *testing.T, q quotes.Quote) {
			for id, want := range map[string]string{"B/PL1": "1234.5", "B/PL2": "12.5", "B/PL3": "1234.5", "B/PL4": "", "B/PL5": "", "B/PL6": ""} {
				r := lineOf(t, q, id).Rate
				if r.State != quotes.Words || r.Plain != (want != "") || want != "" && !r.Value.Equal(dec(want)) || r.Text == "" || r.At.Sheet != "Bill" || r.At.Col != 5 {
					t.Errorf("%s reads %+v", id, r)
				}
			}
		}},
		{"a date in a rate", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			row, col := w.row("B/PL1"), w.col(bill.HeadRate)
			w.Rows[row].Cells[col].Style.Format = "d mmm"
			w.set(row, col, march)
		}, "", func(t *testing.T, q quotes.Quote) {
			if r := lineOf(t, q, "B/PL1").Rate; r.State != quotes.Words || r.Text != "2027-03-01" || r.Plain {
				t.Errorf("the rate reads %+v", r)
			}
		}},
		{"an error value, and an amount typed over its formula", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			c := &w.Rows[w.row("B/PL1")].Cells[w.col(bill.HeadAmount)]
			c.Kind, c.Text, c.Formula = grid.Text, "#REF!", "ROUND(#REF!*2,2)"
			w.put("B/PL2", bill.HeadAmount, dec("99.99"))
		}, "", func(t *testing.T, q quotes.Quote) {
			if a := lineOf(t, q, "B/PL1").Amount; a.State != quotes.Words || a.Text != "#REF!" {
				t.Errorf("the amount reads %+v", a)
			}
			if a := lineOf(t, q, "B/PL2").Amount; a.State != quotes.Given || !a.Value.Equal(dec("99.99")) {
				t.Errorf("the amount reads %+v", a)
			}
		}},
		{"a word in place of a rate, and a remark", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			w.put("B/PL1", bill.HeadWithout, "By  Owner")
			w.put("B/PL2", bill.HeadWithout, "see letter")
			w.put("B/PL2", bill.HeadRemarks, "first line\nsecond ")
		}, "", func(t *testing.T, q quotes.Quote) {
			if a := lineOf(t, q, "B/PL1"); a.Choice != bill.ByOwner {
				t.Errorf("the choice is %q", a.Choice)
			}
			if a := lineOf(t, q, "B/PL2"); a.Choice != "see letter" || a.Remark != "first line\nsecond" {
				t.Errorf("the choice is %q, the remark %q", a.Choice, a.Remark)
			}
		}},
		{"notes on cells", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			w.put("B/PL1", bill.HeadRemarks, "larch")
			w.Notes = append(w.Notes, grid.Note{Cell: fmt.Sprintf("E%d", w.row("B/PL1")+1), Text: "if oak cannot\nbe had"}, grid.Note{Cell: "A1", Text: "all rates until May"})
		}, "quote-note q.xlsx: Bill!A1", func(t *testing.T, q quotes.Quote) {
			if l := lineOf(t, q, "B/PL1"); l.Remark != fmt.Sprintf("larch\nnote on E%d: if oak cannot\nbe had", l.At.Row) {
				t.Errorf("the remark is %q", l.Remark)
			}
		}},
		{"a row put in, one taken out, one moved", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			n := w.row("B/PL2")
			moved := w.Rows[n]
			w.Rows = slices.Delete(w.Rows, n, n+1)
			n = w.row("B/PL3")
			w.Rows = slices.Delete(w.Rows, n, n+1)
			w.Rows = slices.Insert(w.Rows, w.row("B/PL5"), grid.Row{}, grid.Row{Cells: []grid.Cell{
				{}, grid.Textual("extra docking", grid.Style{}), {}, {}, {}, grid.Numeric(dec("4000"), grid.Style{})}}, moved)
		}, "", func(t *testing.T, q quotes.Quote) {
			if len(q.Lines) != len(s.Lines) {
				t.Errorf("there are %d lines", len(q.Lines))
			}
			at := slices.IndexFunc(q.Lines, func(l quotes.Offered) bool { return l.ID == "" })
			if l := q.Lines[at]; l.Description != "extra docking" || !l.Amount.Value.Equal(dec("4000")) || l.Part != quotes.Work || q.Lines[at+1].ID != "B/PL2" {
				t.Errorf("what was put in reads %+v", l)
			}
		}},
		{"a column put in before the rates, and the sheet renamed", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			for n, r := range w.Rows {
				if len(r.Cells) > 4 {
					w.Rows[n].Cells = slices.Insert(r.Cells, 4, grid.Cell{})
				}
			}
			w.set(w.row("B/PL1"), 4, "our note")
			w.Name, w.Lists, w.Bounds, w.Shades, w.Print = "Priced", nil, nil, nil, grid.Print{}
		}, "quote-besides q.xlsx: Priced!E", func(t *testing.T, q quotes.Quote) {
			if l := lineOf(t, q, "B/PL1"); !l.Rate.Value.Equal(dec("12.5")) || l.Rate.At.Col != 6 || l.At.Sheet != "Priced" {
				t.Errorf("the line reads %+v", l)
			}
		}},
		{"the ids gone", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			for n := range w.Rows {
				w.Rows[n].Cells = w.Rows[n].Cells[:min(10, len(w.Rows[n].Cells))]
			}
		}, "quote-ids q.xlsx: Bill!", func(t *testing.T, q quotes.Quote) {
			if l := lineOf(t, q, "B/PL1"); !l.Rate.Value.Equal(dec("12.5")) || l.Mark != "" {
				t.Errorf("the line reads %+v", l)
			}
		}},
		{"the heading of the rates gone", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			w.set(w.head, w.col(bill.HeadRate), "")
		}, "quote-heading q.xlsx: Bill!\nquote-besides q.xlsx: Bill!E", nil},
		{"a second column of rates", func(b *grid.Book) {
			w := onSheet(t, b, "Bill", bill.HeadID)
			w.set(w.head, 20, "Rate £")
		}, "heading-twice q.xlsx: Bill!U", nil},
		{"a sheet taken out and one added", func(b *grid.Book) {
			b.Sheets = slices.DeleteFunc(b.Sheets, func(s *grid.Sheet) bool { return s.Name == "Preliminaries" })
			b.Sheets = append(b.Sheets, &grid.Sheet{Name: "Our terms", Rows: []grid.Row{{Cells: []grid.Cell{grid.Textual("net cash", grid.Style{})}}}})
			for _, s := range b.Sheets {
				for n := range s.Rows {
					for k := range s.Rows[n].Cells {
						if c := &s.Rows[n].Cells[k]; strings.Contains(c.Formula, "'Preliminaries'") {
							c.Formula = "0"
						}
					}
				}
			}
		}, "quote-sheet-added q.xlsx: Our terms\nquote-sheet q.xlsx", nil},
		{"the sheet Offer taken out", func(b *grid.Book) {
			b.Sheets = slices.DeleteFunc(b.Sheets, func(s *grid.Sheet) bool { return s.Name == "Offer" })
		}, "quote-offer q.xlsx", func(t *testing.T, q quotes.Quote) {
			if q.Firm != "" || q.Stated.State != quotes.Reckoned || q.At.Book != "q.xlsx" {
				t.Errorf("the offer is of %q, comes to %+v", q.Firm, q.Stated)
			}
		}},
		{"answers that are none", func(b *grid.Book) {
			ask(t, b, "Offer", bill.AskStart, "when the slip is free")
			ask(t, b, "Offer", bill.AskVATRate, "the usual")
			ask(t, b, "Offer", bill.AskWeeks, "32 weeks")
			ask(t, b, "Offer", bill.AskVAT, "on top")
		}, "quote-answer q.xlsx: Offer!B\nquote-answer q.xlsx: Offer!B", func(t *testing.T, q quotes.Quote) {
			if !q.Start.IsZero() || q.TaxRateGiven || !q.Weeks.Plain || !q.Weeks.Value.Equal(dec("32")) || q.Tax != "on top" {
				t.Errorf("the offer is %+v", q)
			}
		}},
		{"another tender, in another currency", func(b *grid.Book) {
			ask(t, b, "Cover", bill.SaidReference, "OTHER-1")
			ask(t, b, "Cover", bill.SaidCurrency, "EUR")
		}, "quote-other-tender q.xlsx: Cover!B\nquote-currency q.xlsx: Cover!B", nil},
		{"every line taken out", func(b *grid.Book) {
			for _, name := range []string{"Bill", "Preliminaries", "Sums", "Dayworks"} {
				w := onSheet(t, b, name, bill.HeadID)
				w.Rows = w.Rows[:w.head+1]
			}
		}, "quote-empty q.xlsx", nil},
		{"a summary typed over", func(b *grid.Book) {
			w := onSheet(t, b, "Summary", "Summary")
			w.set(w.row("Preliminaries"), 3, dec("1"))
		}, "", func(t *testing.T, q quotes.Quote) {
			last := quotes.Total{}
			for _, total := range q.Totals {
				if total.Of == string(quotes.Preliminaries) {
					last = total
				}
			}
			if last.State != quotes.Given || last.At.Sheet != "Summary" {
				t.Errorf("the total reads %+v", last)
			}
		}},
		{"nothing filled in", func(b *grid.Book) { *b = *sheets.Unpriced(f) }, "", func(t *testing.T, q quotes.Quote) {
			if l := lineOf(t, q, "B/PL1"); l.Rate.State != quotes.Missing || l.Amount.State != quotes.Reckoned || l.Choice != "" || l.Once != blank {
				t.Errorf("the line reads %+v", l)
			}
			if q.Firm != "" || len(q.Qualifications) > 0 || q.Weeks.State != quotes.Missing || !q.Start.IsZero() {
				t.Errorf("the offer is %+v", q)
			}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := filledForm(t, f)
			c.spoil(b)
			q, found := quoteOf(reread(t, "q.xlsx", b), s)
			got, want := strings.Split(found, "\n"), strings.Split(c.found, "\n")
			for i := range max(len(got), len(want)) {
				if i >= len(got) || i >= len(want) || want[i] == "" && got[i] != "" || !strings.HasPrefix(got[i], want[i]) {
					t.Fatalf("found\n%s\nand not\n%s", found, c.found)
				}
			}
			if c.check != nil {
				c.check(t, q)
			}
		})
	}
}

// A yardstick with a cell that cannot be read is refused at that cell, and one
// whose amounts were changed by hand is told of.
func TestAYardstickThatWasTamperedWithIsToldOf(t *testing.T) {
	for _, c := range []struct {
		name, line, heading string
		value               any
		code                problem.Code
	}{
		{"a rate in words", "PL1", bill.HeadRate, "twelve", problem.BillCell},
		{"a quantity in words", "PL1", bill.HeadQuantity, "some", problem.BillCell},
		{"an amount typed over", "PL1", bill.HeadAmount, dec("1"), problem.BillCast},
		{"a unit of nobody's", "PL1", bill.HeadUnit, "bucket", problem.BillCell},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := sheets.Bill(demonstration(t))
			onSheet(t, b, "Bill", bill.HeadDescription).put(c.line, c.heading, c.value)
			_, found := offer.Sent(reread(t, "b.xlsx", b))
			if len(found) != 1 || found[0].Code != c.code || found[0].At.Sheet != "Bill" {
				t.Errorf("found: %v", found)
			}
		})
	}
}
