package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"futtock/estimate/bill"
	"futtock/output/sheets"
	"futtock/rates"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// What a form asks and what it can be known again by is found in the file by
// the words of estimate/bill, without any defined name.
func TestWhatAFormAsksIsFoundByItsHeadings(t *testing.T) {
	f := demonstratedForm(t)
	data, err := xlsx.Write(sheets.Unpriced(f))
	if err != nil {
		t.Fatal(err)
	}
	back, err := xlsx.Read("form.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	for said, want := range map[string]string{bill.SaidReference: "BRIM-114", bill.SaidCurrency: "GBP", bill.SaidFingerprint: f.Bill.Fingerprint} {
		if got := beside(t, back, bill.FormCover, said).Raw; got != want {
			t.Errorf("the cover says %q of %q, and %q is right", got, said, want)
		}
	}
	for _, ask := range []string{bill.AskFirm, bill.AskAddress, bill.AskReach, bill.AskVAT, bill.AskVATRate, bill.AskTotal, bill.AskStart, bill.AskWeeks,
		bill.AskOpenUntil, bill.AskSigned, bill.AskPosition, bill.AskDay, bill.AskSignature} {
		if d := beside(t, back, bill.FormOffer, ask); d.Kind != grid.Blank {
			t.Errorf("%q is answered already: %q", ask, d.Raw)
		}
	}
	always := []string{bill.HeadRemarks, bill.HeadID, bill.HeadMark, bill.HeadForm}
	for sheet, heads := range map[string][]string{
		bill.FormWork:           append([]string{bill.HeadItem, bill.HeadDescription, bill.HeadQuantity, bill.HeadUnit, "Rate £", bill.HeadWithout, bill.HeadMarked, bill.HeadStage}, always...),
		bill.FormPreliminaries:  append([]string{bill.HeadItem, bill.HeadDescription, "Paid once £", bill.HeadTime, bill.HeadUnit, "Rate £", bill.HeadWithout, bill.HeadMarked}, always...),
		bill.FormSums:           append([]string{bill.HeadItem, bill.HeadDescription, bill.HeadKind, "Sum £", bill.HeadProfit, "Attendance £", bill.HeadNoSum}, always...),
		bill.FormDayworks:       append([]string{bill.HeadTrade, bill.HeadHours, "Rate £", "Sum £", bill.HeadAddition, bill.HeadWithout}, always...),
		bill.FormQualifications: {bill.HeadOf, bill.HeadSaid, "Amount £"},
	} {
		if !slices.ContainsFunc(pageNamed(t, back, sheet).Rows, func(l grid.Line) bool {
			var there []string
			for _, d := range l.Cells {
				there = append(there, d.Raw)
			}
			return !slices.ContainsFunc(heads, func(h string) bool { return !slices.Contains(there, h) })
		}) {
			t.Errorf("%s has no row with the headings %q", sheet, heads)
		}
	}
}

// Every line carries the fingerprint of the form it is of.
func TestEveryLineNamesItsForm(t *testing.T) {
	f := demonstratedForm(t)
	named := 0
	for _, s := range sheets.Unpriced(f).Sheets {
		for _, row := range s.Rows {
			if n := len(row.Cells); n > 2 && row.Cells[n-1].Text == f.Bill.Fingerprint {
				named++
				if !strings.Contains(row.Cells[n-3].Text, "/") || !row.Grows {
					t.Errorf("%s: %q is no id of a line, or its row does not grow", s.Name, row.Cells[n-3].Text)
				}
			}
		}
	}
	if want := len(slices.Concat(lineSets(f.Bill)...)); named != want {
		t.Errorf("%d lines name their form, of %d", named, want)
	}
}

// A bill that allows no dayworks asks for their rates all the same, apart from
// the total.
func TestABillWithoutDayworksAsksForTheirRates(t *testing.T) {
	tables, err := demoTables()
	if err != nil {
		t.Fatal(err)
	}
	few := slices.DeleteFunc(tables, func(s templates.Table) bool { return rates.Same(s.Sheet, bill.FormDayworks) })
	book := sheets.Unpriced(formOf(t, few))
	open := 0
	for _, row := range sheetNamed(t, book, bill.FormDayworks).Rows {
		for _, c := range row.Cells {
			if c.Formula != "" {
				t.Errorf("=%s is reckoned from rates that are in no total", c.Formula)
			}
			if c.Style.Open {
				open++
			}
		}
	}
	if open != 8*3+3*2 {
		t.Errorf("%d cells are open: eight trades have three, and three kinds of cost two", open)
	}
	for _, row := range sheetNamed(t, book, bill.FormSummary).Rows {
		for _, c := range row.Cells {
			if strings.Contains(c.Formula, bill.FormDayworks) {
				t.Errorf("the summary reads them: =%s", c.Formula)
			}
		}
	}
}

func pageNamed(t *testing.T, b grid.Workbook, name string) grid.Page {
	t.Helper()
	for _, s := range b.Sheets {
		if s.Name == name {
			return s
		}
	}
	t.Fatalf("there is no sheet %q", name)
	return grid.Page{}
}

// beside is the second cell of the row that begins with a text.
func beside(t *testing.T, b grid.Workbook, sheet, text string) grid.Datum {
	t.Helper()
	for _, l := range pageNamed(t, b, sheet).Rows {
		if l.Cell(1).Raw == text {
			return l.Cell(2)
		}
	}
	t.Fatalf("the sheet %s has no %q", sheet, text)
	return grid.Datum{}
}

// A preliminary is answered by what is paid once, by a rate with its time, or by
// a word; a rate whose time is left open comes to nothing and answers nothing.
func TestAPreliminaryIsNotAnsweredByARateWithoutItsTime(t *testing.T) {
	spreadsheet(t)
	f := demonstratedForm(t)
	answers := map[string]struct {
		once, time, rate, word string
		answered               bool
	}{
		"P/PR1": {once: "1000", answered: true},
		"P/PR2": {time: "40", rate: "900", answered: true},
		"P/PR3": {rate: "300"},
		"P/PR4": {time: "30"},
		"P/PR5": {word: bill.Included, answered: true},
	}
	book := sheets.Unpriced(f)
	put := func(c *grid.Cell, text string) {
		if text != "" {
			c.Kind, c.Number = grid.Number, dec(text)
		}
	}
	found, open := 0, len(f.Bill.Preliminaries)
	for _, row := range sheetNamed(t, book, bill.FormPreliminaries).Rows {
		if len(row.Cells) < 12 {
			continue
		}
		a, ok := answers[row.Cells[11].Text]
		if !ok {
			continue
		}
		put(&row.Cells[2], a.once)
		put(&row.Cells[3], a.time)
		put(&row.Cells[5], a.rate)
		if a.word != "" {
			row.Cells[7].Kind, row.Cells[7].Text = grid.Text, a.word
		}
		if found++; a.answered {
			open--
		}
	}
	if found != len(answers) {
		t.Fatalf("%d lines were filled in of %d", found, len(answers))
	}
	data, err := xlsx.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "some.xlsx")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	back, err := xlsx.Open(filepath.Join(converted(t, "xlsx", []string{path}), "some.xlsx"))
	if err != nil {
		t.Fatal(err)
	}
	if got := onSummary(t, back, "Preliminaries", 3); got.IntPart() != int64(open) {
		t.Errorf("%s are still to be priced, and %d are", got, open)
	}
	if got := onSummary(t, back, "Preliminaries", 4); !got.Equal(dec("37000")) {
		t.Errorf("they come to %s, and 1,000 and 40 weeks at 900 to 37,000", got)
	}
}
