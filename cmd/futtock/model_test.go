package main

import (
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// modelled is the demonstration with some of its inputs changed, priced anew.
func modelled(t *testing.T, change func(*job.Job, *rates.Book)) estimate.Result {
	t.Helper()
	sheets, err := demoTables()
	if err != nil {
		t.Fatal(err)
	}
	j, b, _ := templates.Read(templates.TextBook("yard.xlsx", sheets), nil)
	change(&j, &b)
	r := estimate.Run(j, b)
	for _, p := range r.Problems {
		if p.Severity() == problem.Error {
			t.Fatal(p)
		}
	}
	return r
}

// recalculatedAll writes books and has them reckoned anew by an independent
// spreadsheet program; it returns each as written and as reckoned.
func recalculatedAll(t *testing.T, books map[string]*grid.Book) (was, now map[string]grid.Workbook) {
	t.Helper()
	dir := t.TempDir()
	was, now = map[string]grid.Workbook{}, map[string]grid.Workbook{}
	names := slices.Sorted(maps.Keys(books))
	var paths []string
	for _, name := range names {
		data, err := xlsx.Write(books[name])
		if err != nil {
			t.Fatal(err)
		}
		path := filepath.Join(dir, name+".xlsx")
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		if was[name], err = xlsx.Open(path); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	for i, book := range recalculatedFiles(t, paths...) {
		now[names[i]] = book
	}
	return was, now
}

// An independent spreadsheet program reckons every formula of the estimate to
// the same penny as the engine: of the demonstration, of the demonstration with
// what it leaves out, and of every case.
func TestTheEstimateRecalculatesToThePenny(t *testing.T) {
	spreadsheet(t)
	books := map[string]*grid.Book{
		"demonstration": sheets.Estimate(demonstration(t)),
		"simulated":     sheets.Estimate(modelled(t, func(j *job.Job, _ *rates.Book) { j.ContingencyBy = job.BySimulation })),
		"within rates": sheets.Estimate(modelled(t, func(j *job.Job, b *rates.Book) {
			j.ContingencyShown, j.PriceWaiting, j.VATRounding = job.WithinRates, true, job.Down
			j.VATCode = "S"
		})),
	}
	for _, path := range glob(t, "cases/*.txtar", 6) {
		j, b, _ := templates.Read(templates.TextBook("case.xlsx", tables(archive(t, path), "bill", "working")), nil)
		books[filepath.Base(path)] = sheets.Estimate(estimate.Run(j, b))
	}
	was, now := recalculatedAll(t, books)
	for name := range was {
		n, differ := compareFormulas(was[name], now[name])
		least := 20
		if !strings.HasSuffix(name, ".txtar") {
			least = 3000
		}
		if n < least {
			t.Errorf("%s: only %d formulas, and an estimate has more", name, n)
		}
		for _, d := range differ {
			t.Errorf("%s: %s", name, d)
		}
	}
}

// inBook is a figure of a book that is to be changed: under a heading, in the
// row that begins with a name, of the table that begins with another.
func inBook(t *testing.T, book *grid.Book, c priceChange, name string) *grid.Cell {
	t.Helper()
	for _, s := range book.Sheets {
		if s.Name != c.sheet {
			continue
		}
		col := -1
		for _, r := range s.Rows {
			if len(r.Cells) == 0 {
				continue
			}
			if r.Cells[0].Text == c.table {
				col = slices.IndexFunc(r.Cells, func(h grid.Cell) bool { return h.Text == c.column })
			}
			if col >= 0 && r.Cells[0].Text == name {
				if cell := &r.Cells[col]; cell.Kind == grid.Number && cell.Formula == "" {
					return cell
				}
			}
		}
	}
	t.Fatalf("%s has no figure under %q of %q in the table of %q", c.sheet, c.column, name, c.table)
	return nil
}

// summed is the figure of a line of the summary.
func summed(t *testing.T, book grid.Workbook, text string) decimal.Decimal {
	t.Helper()
	for _, r := range book.Sheets[0].Rows {
		if r.Cell(2).Raw == text {
			return r.Cell(5).Value
		}
	}
	t.Fatalf("the summary has no line %q", text)
	return decimal.Zero
}

// settled is the row a change is made to: the first that leaves the purchase of
// timber and the weeks of the programme as they are. What is solved for stays in
// the workbook as it was priced, so that only then can it be compared with a job
// priced from the start. Prices of what nothing is solved by move neither.
func settled(t *testing.T, was estimate.Result, c priceChange) string {
	t.Helper()
	rows := c.rows(was)
	for _, row := range rows {
		if !c.solves || solved(modelled(t, func(j *job.Job, b *rates.Book) { c.set(j, b, row, dearer) })) == solved(was) {
			return row
		}
	}
	t.Fatalf("%s: none of %d rows can be changed and leaves the purchase and the weeks as they are", c.name, len(rows))
	return ""
}

// The estimate is a working model: prices changed in the workbook, with every
// stored result left as it was, bring the total of the summary to what the job
// comes to when it is priced from the start with the same prices.
func TestAPriceChangedInTheEstimateMovesTheTotal(t *testing.T) {
	spreadsheet(t)
	was := demonstration(t)
	all := append(priceChanges(), inputChanges()...)
	rows := make([]string, len(all))
	for i, c := range all {
		rows[i] = settled(t, was, c)
	}
	books, want := map[string]*grid.Book{}, map[string]estimate.Result{}
	for _, try := range []struct {
		name  string
		some  int
		shown job.Shown
	}{
		{"pay, oak and overheads", 3, job.ClientSum},
		{"everything, contingency within the rates", len(all), job.WithinRates},
	} {
		books[try.name] = sheets.Estimate(modelled(t, func(j *job.Job, _ *rates.Book) { j.ContingencyShown = try.shown }))
		for i, c := range all[:try.some] {
			cell := inBook(t, books[try.name], c, rows[i])
			cell.Number = dearer(cell.Number)
		}
		want[try.name] = modelled(t, func(j *job.Job, b *rates.Book) {
			j.ContingencyShown = try.shown
			for i, c := range all[:try.some] {
				c.set(j, b, rows[i], dearer)
			}
		})
		if solved(want[try.name]) != solved(was) {
			t.Fatalf("%s: together the changes alter the purchase or the weeks", try.name)
		}
		if want[try.name].Bill.Total.Equal(was.Bill.Total) {
			t.Fatalf("%s: the total is what it was, so nothing is shown", try.name)
		}
	}
	_, now := recalculatedAll(t, books)
	for name, r := range want {
		for _, line := range []struct {
			text string
			want money.Amount
		}{
			{"Measured work", r.Bill.Items}, {"Preliminaries", r.Bill.Prelims}, {"Net total", r.Bill.Net}, {"Total with VAT", r.Bill.Total},
			{"Total with VAT if the vessel did not qualify", r.Bill.Otherwise.Total},
		} {
			if got := summed(t, now[name], line.text); !got.Round(4).Equal(line.want.Decimal()) {
				t.Errorf("%s: %s came to %s in the workbook, and is %s priced from the start", name, line.text, got, line.want)
			}
		}
	}
}

// solved is what is solved for, in words: the purchase and the weeks.
func solved(r estimate.Result) string {
	var b strings.Builder
	for _, l := range append(slices.Clone(r.Plan.Order), r.Plan.Maybe...) {
		fmt.Fprintf(&b, "%s %s %s %s\n", l.Stock.Stock, l.Needed, l.Buy, l.Sawn)
	}
	for _, s := range r.Programme.Stages {
		fmt.Fprintf(&b, "%s %s %s\n", s.Stage.Stage, s.Weeks, s.Earliest)
	}
	return b.String()
}
