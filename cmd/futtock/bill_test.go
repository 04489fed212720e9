package main

import (
	"bytes"
	"encoding/json"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	outjson "futtock/output/json"
	"futtock/output/sheets"
	"futtock/output/text"
	"futtock/rates"
	"futtock/rates/problem"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// The total, the net and the total of every section are the same on the
// terminal, in JSON and in the bill.
func TestTotalsAreTheSameInEveryForm(t *testing.T) {
	r := demonstration(t)

	var terminal bytes.Buffer
	text.Priced(&terminal, r)
	doc, err := outjson.Write(outjson.Of("yard.xlsx", r, problem.List{}))
	if err != nil {
		t.Fatal(err)
	}
	var read struct {
		Summary  struct{ Net, Total string }
		Sections []struct{ Title, Total string }
	}
	if err := json.Unmarshal(doc, &read); err != nil {
		t.Fatal(err)
	}
	summary := sheetNamed(t, sheets.Bill(r), "Summary")

	check := func(name, label, inJSON, want, grouped string) {
		t.Helper()
		if inJSON != want {
			t.Errorf("%s is %s in JSON and %s in the result", name, inJSON, want)
		}
		if !slices.ContainsFunc(strings.Split(terminal.String(), "\n"), func(l string) bool {
			return strings.Contains(l, label) && strings.HasSuffix(l, " "+grouped)
		}) {
			t.Errorf("the terminal has no %s of %s", label, grouped)
		}
		if !slices.ContainsFunc(summary.Rows, func(row grid.Row) bool {
			return len(row.Cells) == 5 && strings.HasPrefix(row.Cells[1].Text, label) && row.Cells[4].Number.StringFixed(2) == want
		}) {
			t.Errorf("the bill's summary has no %s of %s", label, want)
		}
	}
	check("net", "Net total", read.Summary.Net, r.Bill.Net.String(), r.Bill.Net.Grouped())
	check("total", "Total", read.Summary.Total, r.Bill.Total.String(), r.Bill.Total.Grouped())
	if len(read.Sections) != len(r.Bill.Sections) || len(read.Sections) < 8 {
		t.Fatalf("%d sections in JSON and %d in the result", len(read.Sections), len(r.Bill.Sections))
	}
	for i, s := range r.Bill.Sections {
		check("section "+s.Section, s.Title, read.Sections[i].Total, s.Total.String(), s.Total.Grouped())
	}
}

// The client's copy holds nothing of how a rate is made up: no task, stock,
// supplier, material or trade, no hidden sheet, row or column, no note and no
// name but those of printing.
func TestTheClientsCopyIsCleanOfTheYardsWorking(t *testing.T) {
	r := demonstration(t)
	secret := map[string]string{}
	for _, n := range r.Book.Norms {
		secret[rates.Key(n.Task)] = "task"
	}
	for _, s := range r.Book.Stock {
		secret[rates.Key(s.Stock)], secret[rates.Key(s.Supplier)] = "stock", "supplier"
	}
	for _, m := range r.Book.Materials {
		secret[rates.Key(m.Material)], secret[rates.Key(m.Supplier)] = "material", "supplier"
	}
	for _, l := range r.Book.Labour {
		secret[rates.Key(l.Trade)] = "trade"
	}
	delete(secret, "")
	delete(secret, rates.Key(r.Job.Client)) // who supplies his own timber
	if len(secret) < 80 {
		t.Fatalf("only %d names to look for: the demonstration has more", len(secret))
	}

	book := sheets.Bill(r)
	for _, s := range book.Sheets {
		if len(s.Notes) > 0 {
			t.Errorf("%s has notes", s.Name)
		}
		for _, c := range s.Columns {
			if c.Hidden {
				t.Errorf("%s has a hidden column", s.Name)
			}
		}
	}
	if len(book.Names) > 0 {
		t.Errorf("the bill has defined names: %v", book.Names)
	}
	data, err := xlsx.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	read, err := xlsx.Read("bill.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range read.Sheets {
		if s.Hidden {
			t.Errorf("%s is hidden", s.Name)
		}
		for _, row := range s.Rows {
			if row.Hidden {
				t.Errorf("%s row %d is hidden", s.Name, row.Row)
			}
			for _, c := range row.Cells {
				kind, found := secret[rates.Key(c.Raw)]
				// Dayworks are priced by the trade, for all to see.
				if found && !(s.Name == "Dayworks" && kind == "trade") {
					t.Errorf("%s row %d holds %q, a %s", s.Name, row.Row, c.Raw, kind)
				}
			}
		}
	}
}

// A contingency within the rates leaves no line of it in the client's copy,
// and the bill still casts to the same net within the rounding of its rates.
func TestAContingencyWithinTheRatesIsNotShown(t *testing.T) {
	shown := demonstration(t)
	j := shown.Job
	j.ContingencyShown = "within rates"
	within := estimate.Run(j, shown.Book)
	if within.Problems.HasErrors() {
		t.Fatal(within.Problems)
	}
	for _, s := range sheets.Bill(within).Sheets {
		for n, row := range s.Rows {
			for _, c := range row.Cells {
				if strings.Contains(strings.ToLower(c.Text), "contingency") {
					t.Errorf("%s row %d says %q", s.Name, n+1, c.Text)
				}
			}
		}
	}
	// Each rate is rounded to the penny either way, so a line of quantity q may
	// move by q pennies, and price rises with it.
	most := decimal.New(1, 0)
	for _, i := range shown.Priced.Items {
		if i.Carried.InTotal() {
			most = most.Add(i.Quantity.Shift(-2).Mul(shown.Bill.RiseFactor))
		}
	}
	if d := within.Bill.Net.Sub(shown.Bill.Net).Decimal().Abs(); d.GreaterThan(most) {
		t.Errorf("the net moved by %s, and rounding accounts for %s at the most", d, most)
	}
}
