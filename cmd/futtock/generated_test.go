package main

import (
	"errors"
	"fmt"
	"strings"
	"sync"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
)

// fatal stops a test, of one job or of a drawn one.
type fatal interface {
	Helper()
	Fatalf(format string, args ...any)
}

// soundly is a job as sheets, read and priced; it returns the first error that
// is found in it.
func soundly(tables []templates.Table) (estimate.Result, error) {
	j, b, found := templates.Read(templates.TextBook("yard.xlsx", tables), nil)
	r := estimate.Run(j, b)
	found.Join(r.Problems)
	for _, p := range found {
		if p.Severity() == problem.Error {
			return r, errors.New(p.String())
		}
	}
	return r, nil
}

// pricedTables is a job as sheets, read and priced; an error in it stops the test.
func pricedTables(t fatal, tables []templates.Table) estimate.Result {
	t.Helper()
	r, err := soundly(tables)
	if err != nil {
		t.Fatalf("the job is sound, and here is an error: %s", err)
	}
	return r
}

// drawn is two hundred jobs, priced once for all tests that only look at them.
func drawn(t *testing.T) []estimate.Result {
	t.Helper()
	all, err := drawnOnce()
	if err != nil {
		t.Fatalf("the job is sound, and here is an error: %s", err)
	}
	return all
}

var drawnOnce = sync.OnceValues(func() ([]estimate.Result, error) {
	all, jobs := make([]estimate.Result, 200), generated()
	for i := range all {
		var err error
		if all[i], err = soundly(jobs.Example(i)); err != nil {
			return nil, err
		}
	}
	return all, nil
})

// anyJob checks a property of a hundred drawn jobs, of a fifth of them with -short.
func anyJob(t *testing.T, check func(t *rapid.T, tables []templates.Table)) {
	t.Helper()
	jobs := generated()
	rapid.Check(t, func(t *rapid.T) { check(t, jobs.Draw(t, "job")) })
}

// Every sum, product and rounding of the client's copy comes out to the last
// penny from the figures printed beside it, and no figure is finer than it is
// printed.
func TestAnyBillCastsByHandFromWhatIsPrinted(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		book := sheets.Bill(pricedTables(t, tables))
		if differ := cast(book, 9); len(differ) > 0 {
			t.Fatalf("%s", strings.Join(differ, "\n"))
		}
		for _, s := range book.Sheets {
			for n, row := range s.Rows {
				for i, c := range row.Cells {
					if c.Kind == grid.Number && !c.Number.Equal(asPrinted(c)) {
						t.Fatalf("%s %s%d holds %s, of which %s is printed", s.Name, column(i+1), n+1, c.Number, asPrinted(c))
					}
				}
			}
		}
	})
}

// asPrinted is the figure as its format shows it.
func asPrinted(c grid.Cell) decimal.Decimal {
	_, after, _ := strings.Cut(c.Style.Format, ".")
	places := int32(strings.Count(after, "0") + strings.Count(after, "#"))
	if strings.HasSuffix(c.Style.Format, "%") {
		places += 2
	}
	return c.Number.Round(places)
}

// The amount of every priced line of the client's copy is the formula quantity x
// rate, and comes to the printed amount.
func TestEveryLineOfAnyBillIsQuantityTimesRate(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		r := pricedTables(t, tables)
		lines := 0
		for _, s := range sheets.Bill(r).Sheets {
			if s.Name != "Bill" && s.Name != "Preliminaries" {
				continue
			}
			for n, row := range s.Rows {
				if len(row.Cells) < 6 || row.Cells[4].Kind != grid.Number || row.Cells[5].Kind != grid.Number {
					continue
				}
				lines++
				quantity, rate, amount := row.Cells[2], row.Cells[4], row.Cells[5]
				if want := fmt.Sprintf("ROUND(C%d*E%d,2)", n+1, n+1); amount.Formula != want {
					t.Fatalf("%s row %d: the amount is =%s, not =%s", s.Name, n+1, amount.Formula, want)
				}
				if want := quantity.Number.Mul(rate.Number).Round(2); !amount.Number.Equal(want) {
					t.Fatalf("%s row %d: %s x %s is %s, not %s", s.Name, n+1, quantity.Number, rate.Number, want, amount.Number)
				}
			}
		}
		want := len(r.Bill.Preliminaries)
		for _, s := range r.Bill.Sections {
			for _, l := range s.Lines {
				if l.Carried != job.RateOnly {
					want++
				}
			}
		}
		if lines != want {
			t.Fatalf("%d lines are priced, and %d are printed", want, lines)
		}
	})
}

// Lines add to sections, sections to A, and A to E to the net; each code of VAT
// is taken once, on the sum of the rounded lines that bear it.
func TestAnyBillAddsUp(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		r := pricedTables(t, tables)
		b := r.Bill
		nets := map[string]money.Amount{}
		bear := func(code string, a money.Amount) { nets[rates.Key(code)] = nets[rates.Key(code)].Add(a) }
		var items, prelims, sums money.Amount
		for _, s := range b.Sections {
			var total money.Amount
			for _, l := range s.Lines {
				if l.Carried.InTotal() {
					total = total.Add(l.Amount)
					bear(l.VAT, l.Amount)
				}
			}
			equal(t, "section "+s.Section, s.Total, total)
			items = items.Add(s.Total)
		}
		for _, l := range b.Preliminaries {
			prelims = prelims.Add(l.Amount)
			bear(l.VAT, l.Amount)
		}
		for _, s := range b.Sums {
			sums = sums.Add(s.Total)
			bear(s.VAT, s.Total)
		}
		for _, d := range b.Dayworks {
			sums = sums.Add(d.Total)
			bear(r.Job.VATCode, d.Total)
		}
		bear(r.Job.VATCode, b.Held.Add(b.Rises))
		equal(t, "A", b.Items, items)
		equal(t, "B", b.Prelims, prelims)
		equal(t, "C", b.SumsDayworks, sums)
		equal(t, "net", b.Net, money.Sum(items, prelims, sums, b.Held, b.Rises))
		seen := map[string]bool{}
		var all money.Amount
		for _, v := range b.VAT {
			k := rates.Key(v.Code)
			if seen[k] {
				t.Fatalf("VAT %s is taken twice", v.Code)
			}
			seen[k] = true
			equal(t, "net of VAT "+v.Code, v.Net, nets[k])
			tax := money.Round(nets[k].Decimal().Mul(v.Rate.Fraction()))
			if r.Job.VATRounding == job.Down {
				tax = money.RoundDown(nets[k].Decimal().Mul(v.Rate.Fraction()))
			}
			equal(t, "VAT "+v.Code, v.VAT, tax)
			all = all.Add(tax)
		}
		for k, net := range nets {
			if !seen[k] && !net.IsZero() {
				t.Fatalf("%s bears the code %q, and no VAT is taken on it", net, k)
			}
		}
		equal(t, "total", b.Total, b.Net.Add(all))
	})
}

func equal(t fatal, what string, got, want money.Amount) {
	t.Helper()
	if !got.Equal(want) {
		t.Fatalf("%s is %s, and adds up to %s", what, got, want)
	}
}

// What the rows bear of the timber is what the order costs, to the penny; and
// the hours of the rows are those of the trades, and of the stages.
func TestNoPennyOfTimberAndNoHourIsLost(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		r := pricedTables(t, tables)
		carried := map[string]job.Carried{}
		for _, w := range r.Job.Works() {
			carried[w.Ref] = w.Carried
		}
		var shares, order, lines money.Amount
		for _, s := range r.Plan.Shares {
			shares = shares.Add(s.Cost)
			if carried[s.Ref].InTotal() {
				order = order.Add(s.Cost)
			}
		}
		var bought money.Amount
		for _, l := range r.Plan.Order {
			bought = bought.Add(l.Cost)
		}
		equal(t, "the order", bought, order)
		for _, l := range r.Plan.Maybe {
			bought = bought.Add(l.Cost)
		}
		equal(t, "the order and what may be wanted", bought, shares)
		stock := map[string]bool{}
		for _, s := range r.Book.Stock {
			stock[s.Stock] = true
		}
		for _, i := range r.Priced.Items {
			for _, c := range i.Costs {
				if c.Kind == rates.OfTimber && stock[c.Name] {
					lines = lines.Add(c.Cost)
				}
			}
		}
		equal(t, "timber charged to items", lines, shares)

		trades, staged := map[string]decimal.Decimal{}, map[string]decimal.Decimal{}
		for _, l := range r.Hours.Lines {
			if l.Carried.InTotal() {
				trades[rates.Key(l.Trade)] = trades[rates.Key(l.Trade)].Add(l.Hours)
				staged[rates.Key(l.Stage)] = staged[rates.Key(l.Stage)].Add(l.Hours)
			}
		}
		for _, h := range r.HoursByTrade() {
			if !h.Hours.Equal(trades[rates.Key(h.Trade)]) {
				t.Fatalf("%s has %s h, and its rows %s", h.Trade, h.Hours, trades[rates.Key(h.Trade)])
			}
			delete(trades, rates.Key(h.Trade))
		}
		for k, h := range trades {
			if !h.IsZero() {
				t.Fatalf("%s h of %q are in no total", h, k)
			}
		}
		for _, s := range r.Programme.Stages {
			var sum decimal.Decimal
			for _, trade := range s.Trades {
				sum = sum.Add(trade.Hours)
			}
			if !sum.Equal(staged[rates.Key(s.Stage.Stage)]) {
				t.Fatalf("stage %s has %s h, and its rows %s", s.Stage.Stage, sum, staged[rates.Key(s.Stage.Stage)])
			}
		}
	})
}
