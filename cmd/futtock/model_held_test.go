package main

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/risk"
	"futtock/output/sheets"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
)

// heldPlan is a plan with the sticks and the sawing as they are, and with what
// they cost from another price book: the design's rule of section 6, Stock, again
// in decimals. A line is round(number x stick, 2); it goes to its sections, and
// each of those to its rows, by running totals of sawn volume.
func heldPlan(t *testing.T, r estimate.Result, b *rates.Book) cutting.Plan {
	t.Helper()
	plan := r.Plan
	plan.Order = append(plan.Order[:0:0], plan.Order...)
	plan.Maybe = append(plan.Maybe[:0:0], plan.Maybe...)
	plan.Shares = append(plan.Shares[:0:0], plan.Shares...)
	carried := map[string]job.Carried{} // by Ref
	for _, w := range r.Job.Works() {
		carried[w.Ref] = w.Carried
	}
	for _, lines := range [][]cutting.Line{plan.Order, plan.Maybe} {
		for n := range lines {
			l := &lines[n]
			s, known := b.StockRow(l.Stock.Stock, r.Job.TenderDate)
			if !known {
				t.Fatalf("%q was bought and is not in the book", l.Stock.Stock)
			}
			l.Stock = s
			if s.Form == rates.Cube {
				continue // none of them is changed here
			}
			each, _, err := s.StickPrice()
			if err != nil {
				t.Fatal(err)
			}
			l.Each, l.Cost = each, money.Round(l.Buy.Mul(each.Decimal()))
			l.Sections = append(l.Sections[:0:0], l.Sections...)
			var weights []decimal.Decimal
			for _, c := range l.Sections {
				weights = append(weights, c.Sawn)
			}
			for i, cost := range shared(l.Cost, weights) {
				c := &l.Sections[i]
				c.Cost = cost
				var rows []int
				var sawn []decimal.Decimal
				for k, h := range plan.Shares {
					if rates.Same(h.Stock, s.Stock) && h.Thickness == c.Thickness && h.Width == c.Width && h.Bound == c.Bound &&
						(carried[h.Ref] == l.Carried || carried[h.Ref].InTotal() && l.Carried.InTotal()) {
						rows, sawn = append(rows, k), append(sawn, h.Sawn)
					}
				}
				for k, part := range shared(cost, sawn) {
					plan.Shares[rows[k]].Cost = part
				}
			}
		}
	}
	return plan
}

// shared is a cost in parts by weight, by running totals.
func shared(cost money.Amount, weights []decimal.Decimal) (parts []money.Amount) {
	var all, run decimal.Decimal
	for _, v := range weights {
		all = all.Add(v)
	}
	before := money.Amount{}
	for _, v := range weights {
		run = run.Add(v)
		upTo := money.Round(cost.Decimal().Mul(run).DivRound(all, 16))
		parts, before = append(parts, upTo.Sub(before)), upTo
	}
	return parts
}

// pricedHeld is a job priced from another price book with its purchase held.
func pricedHeld(t *testing.T, was estimate.Result, change func(*job.Job, *rates.Book)) estimate.Result {
	t.Helper()
	tables, err := demoTables()
	if err != nil {
		t.Fatal(err)
	}
	r := was
	r.Job, r.Book, _ = templates.Read(templates.TextBook("yard.xlsx", tables), nil)
	r.Job.ContingencyShown = was.Job.ContingencyShown
	change(&r.Job, &r.Book)
	r.Plan = heldPlan(t, was, &r.Book)
	var found problem.List
	r.Priced, found = price.Price(&r.Job, &r.Book, r.Takeoff, r.Plan, r.Hours, r.Programme)
	r.Contingency = risk.Hold(&r.Job, &r.Book, r.Hours, r.Programme, r.Priced)
	var more problem.List
	r.Bill, more = bill.Cast(&r.Job, &r.Book, r.Priced, r.Contingency, r.Programme)
	found.Join(more)
	if found.HasErrors() {
		t.Fatal(found)
	}
	return r
}

// A plan held against the prices it was made at is the plan, so that it is the
// engine's own rule that the next test holds it by.
func TestAPlanHeldAtItsOwnPricesCostsTheSame(t *testing.T) {
	was := demonstration(t)
	plan := heldPlan(t, was, &was.Book)
	if len(plan.Shares) < 100 {
		t.Fatalf("only %d shares are held", len(plan.Shares))
	}
	if d := cmp.Diff(costsOf(was.Plan), costsOf(plan)); d != "" {
		t.Errorf("costs (-engine +held):\n%s", d)
	}
}

// costsOf is the costs of a plan in pennies.
func costsOf(p cutting.Plan) (all []string) {
	for _, l := range append(p.Order[:len(p.Order):len(p.Order)], p.Maybe...) {
		all = append(all, l.Stock.Stock+" "+l.Each.String()+" "+l.Cost.String())
		for _, c := range l.Sections {
			all = append(all, c.Cost.String())
		}
	}
	for _, s := range p.Shares {
		all = append(all, s.Ref+" "+s.Stock+" "+s.Cost.String())
	}
	return all
}

// The pay of every trade that is built up from pay, the price of every oak line
// bought and every overhead are changed together inside the written estimate, with
// every stored result left stale. An independent spreadsheet program then comes to
// the total with VAT of the job priced from a workbook changed the same way, with
// the purchase held.
func TestPayOakAndOverheadsChangedTogetherInTheEstimate(t *testing.T) {
	spreadsheet(t)
	times := func(factor string) raise {
		return func(d decimal.Decimal) decimal.Decimal { return d.Mul(decimal.RequireFromString(factor)).Round(4) }
	}
	pay, oak, overhead := times("1.0731"), times("0.9137"), times("1.25")
	results, books := map[string]estimate.Result{}, map[string]*grid.Book{}
	changed := map[string]int{}
	for _, shown := range []job.Shown{job.ClientSum, job.WithinRates} {
		was := modelled(t, func(j *job.Job, _ *rates.Book) { j.ContingencyShown = shown })
		name := string(shown)
		book := sheets.Estimate(was)
		set := func(table, column, row string, to raise) {
			cell := inBook(t, book, priceChange{sheet: used, table: table, column: column}, row)
			cell.Number = to(cell.Number)
			changed[name]++
		}
		results[name] = pricedHeld(t, was, func(j *job.Job, b *rates.Book) {
			for i := range b.Labour {
				if l := &b.Labour[i]; l.Rate.IsZero() {
					reprice(&l.Pay, pay)
				}
			}
			for i := range b.Stock {
				if s := &b.Stock[i]; rates.Same(s.Timber, "oak") && !s.ByOwner {
					reprice(&s.Price, oak)
				}
			}
			for i := range j.Additions {
				percent(&j.Additions[i].Overheads, overhead)
			}
		})
		for _, l := range was.Book.Labour {
			if in, ok := was.Book.Trade(l.Trade, was.Job.TenderDate); ok && in.At == l.At && l.Rate.IsZero() && isListed(book, "Trade", l.Trade) {
				set("Trade", "Pay £", l.Trade, pay)
			}
		}
		seen := map[string]bool{}
		for _, l := range append(was.Plan.Order[:len(was.Plan.Order):len(was.Plan.Order)], was.Plan.Maybe...) {
			if s := l.Stock; rates.Same(s.Timber, "oak") && !s.ByOwner && !seen[s.Stock] {
				seen[s.Stock] = true
				set("Stock", "Price £", s.Stock, oak)
			}
		}
		for _, a := range was.Job.Additions {
			set("Kind of cost", "Overheads", string(a.Kind), overhead)
		}
		books[name] = book
		if results[name].Bill.Total.Equal(was.Bill.Total) {
			t.Fatalf("%s: the total is what it was, so nothing is shown", name)
		}
	}
	_, now := recalculatedAll(t, books)
	for name, r := range results {
		if changed[name] < 30 {
			t.Errorf("%s: only %d figures were changed", name, changed[name])
		}
		for _, line := range []struct {
			text string
			want money.Amount
		}{
			{"Measured work", r.Bill.Items}, {"Preliminaries", r.Bill.Prelims}, {"Net total", r.Bill.Net}, {"Total with VAT", r.Bill.Total},
			{"Total with VAT if the vessel did not qualify", r.Bill.Otherwise.Total},
		} {
			got := summed(t, now[name], line.text)
			if !got.Round(4).Equal(line.want.Decimal()) {
				t.Errorf("%s: %s came to %s in the workbook, and is %s priced with the purchase held", name, line.text, got, line.want)
			}
			t.Logf("%s: %s %s, %d figures changed", name, line.text, got, changed[name])
		}
	}
}

// isListed reports a row of a table of the prices used.
func isListed(book *grid.Book, table, name string) bool {
	for _, s := range book.Sheets {
		in := false
		for _, r := range s.Rows {
			if s.Name != used || len(r.Cells) == 0 {
				continue
			}
			in = in || r.Cells[0].Text == table
			if in && r.Cells[0].Text == name {
				return true
			}
		}
	}
	return false
}
