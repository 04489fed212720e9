package main

import (
	"bytes"
	"encoding/json"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	outjson "futtock/output/json"
	"futtock/output/sheets"
	"futtock/output/text"
	"futtock/rates"
	"futtock/rates/problem"
	"futtock/templates/grid"
	"futtock/templates/wording"
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

// Nor does any part of the file say it, properties and styles among them: no task, build-up, stock,
// supplier or material by name but what the bill itself says; its defined names are
// those of printing; and what is typed as a number is on the printed page of the
// tender too: quantities, rates, sums, shares and weeks.
func TestNoPartOfTheClientsCopySaysHowItIsMadeUp(t *testing.T) {
	r := demonstration(t)
	book := sheets.Bill(r)
	data, err := xlsx.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	var secret []string
	for _, n := range r.Book.Norms {
		secret = append(secret, n.Task, n.Source)
	}
	for _, u := range r.Book.BuildUps {
		secret = append(secret, u.Name)
	}
	for _, s := range r.Book.Stock {
		secret = append(secret, s.Stock, s.Supplier)
	}
	for _, m := range r.Book.Materials {
		secret = append(secret, m.Material, m.Supplier)
	}
	said := strings.Builder{} // what the bill says in so many words
	said.WriteString(strings.Join(append(wording.Basis(r.Job.Currency, r.Job.VATRounding == job.Down), wording.Cautions()...), " "))
	allowed := map[string]bool{}
	figure := func(ds ...decimal.Decimal) {
		for _, d := range ds {
			allowed[d.String()] = true
		}
	}
	for _, s := range r.Bill.Sections {
		for _, n := range s.Lines {
			said.WriteString(" " + n.Description)
			figure(n.Quantity, n.Rate.Decimal())
		}
	}
	for _, n := range r.Bill.Preliminaries {
		said.WriteString(" " + n.Description)
		figure(n.Quantity, n.Rate.Decimal())
	}
	for _, s := range r.Bill.Sums {
		said.WriteString(" " + s.Description + " " + s.QuotedBy)
		figure(s.Amount.Decimal(), s.Profit.Fraction(), s.Attendance.Decimal())
	}
	for _, d := range r.Bill.Dayworks {
		said.WriteString(" " + d.Of)
		figure(d.Quantity, d.Rate.Decimal(), d.Sum.Decimal(), d.Addition.Fraction())
	}
	for _, s := range r.Programme.Stages {
		said.WriteString(" " + s.Stage.Stage)
		figure(s.Earliest, s.Weeks, s.EarliestFinish)
	}
	for _, p := range r.Bill.Contingency.Parts {
		figure(p.Percent.Fraction())
	}
	for _, k := range r.Bill.Contingency.Risks {
		said.WriteString(" " + k.Description)
		figure(k.Amount.Decimal(), k.Chance.Fraction())
	}
	for _, v := range append(slices.Clone(r.Bill.VAT), r.Bill.Otherwise.VAT...) {
		figure(v.Rate.Fraction())
	}
	figure(r.Bill.RiseFactor, r.Programme.Weeks)
	for _, s := range book.Sheets {
		for n, row := range s.Rows {
			for _, c := range row.Cells {
				if c.Kind == grid.Number && c.Formula == "" && !allowed[c.Number.String()] {
					t.Errorf("%s row %d holds %s, which is on no page of the tender", s.Name, n+1, c.Number)
				}
			}
		}
	}
	text, looked := wordsIn(t, data), 0
	for _, s := range secret {
		if len(s) < 8 || strings.Contains(strings.ToLower(said.String()), strings.ToLower(s)) || rates.Same(s, r.Job.Client) {
			continue
		}
		looked++
		if strings.Contains(text, strings.ToLower(s)) {
			t.Errorf("the file holds %q", s)
		}
	}
	if looked < 150 || !strings.Contains(text, "renew knightheads") {
		t.Errorf("%d names were looked for, or the words of the file were not found at all", looked)
	}
	for _, name := range regexp.MustCompile(`<definedName name="([^"]*)"`).FindAllStringSubmatch(partsOf(t, data)["xl/workbook.xml"], -1) {
		if name[1] != "_xlnm.Print_Area" && name[1] != "_xlnm.Print_Titles" {
			t.Errorf("the file has the name %q", name[1])
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
