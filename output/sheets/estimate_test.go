package sheets_test

import (
	"bytes"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/templates"
	"futtock/templates/demo"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// run prices a job kept as text, with some of its particulars changed.
func run(tables []templates.Table, change func(*job.Job)) (estimate.Result, error) {
	j, b, _ := templates.Read(templates.TextBook("yard.xlsx", tables), nil)
	change(&j)
	r := estimate.Run(j, b)
	if r.Problems.HasErrors() {
		return r, fmt.Errorf("%v", r.Problems)
	}
	return r, nil
}

func asItIs(*job.Job) {}

// demoRun prices the demonstration, with some of its particulars changed.
func demoRun(change func(*job.Job)) (estimate.Result, error) {
	names, err := fs.Glob(demo.Files(), "*.tsv")
	if err != nil || len(names) < 10 {
		return estimate.Result{}, fmt.Errorf("%d sheets of the demonstration: %w", len(names), err)
	}
	var tables []templates.Table
	for _, name := range names {
		text, err := fs.ReadFile(demo.Files(), name)
		if err != nil {
			return estimate.Result{}, err
		}
		tables = append(tables, templates.ParseTSV(name, string(text)))
	}
	return run(tables, change)
}

var (
	demoOnce      = sync.OnceValues(func() (estimate.Result, error) { return demoRun(asItIs) })
	simulatedOnce = sync.OnceValues(func() (estimate.Result, error) {
		return demoRun(func(j *job.Job) { j.ContingencyBy = job.BySimulation })
	})
)

// sound is a job that was priced without error.
func sound(t *testing.T, r estimate.Result, err error) estimate.Result {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// demonstration is priced once for all tests, none of which changes it.
func demonstration(t *testing.T) estimate.Result {
	t.Helper()
	r, err := demoOnce()
	return sound(t, r, err)
}

// simulated is the demonstration with its contingency drawn, likewise.
func simulated(t *testing.T) estimate.Result {
	t.Helper()
	r, err := simulatedOnce()
	return sound(t, r, err)
}

// laidOut and laidOutSimulated are the workings of both, laid out once for the
// tests that only look at them.
func laidOut(t *testing.T) *grid.Book {
	t.Helper()
	demonstration(t)
	return laidOutOnce()
}

func laidOutSimulated(t *testing.T) *grid.Book {
	t.Helper()
	simulated(t)
	return laidOutSimulatedOnce()
}

var (
	laidOutOnce = sync.OnceValue(func() *grid.Book {
		r, _ := demoOnce()
		return sheets.Estimate(r)
	})
	laidOutSimulatedOnce = sync.OnceValue(func() *grid.Book {
		r, _ := simulatedOnce()
		return sheets.Estimate(r)
	})
)

func kept(t *testing.T, name string) estimate.Result {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("..", "..", "testdata", "cases", name))
	if err != nil {
		t.Fatal(err)
	}
	var tables []templates.Table
	for _, f := range txtar.Parse(data).Files {
		if f.Name != "bill" && f.Name != "working" {
			tables = append(tables, templates.ParseTSV(f.Name, string(f.Data)))
		}
	}
	r, err := run(tables, asItIs)
	return sound(t, r, err)
}

// The working holds together as a model: of the demonstration as it is, and with
// the contingency drawn, and within the rates with waiting time priced, which between them
// have every sheet and every kind of line.
func TestTheWorkingIsAModel(t *testing.T) {
	within, err := demoRun(func(j *job.Job) { j.ContingencyShown, j.PriceWaiting = job.WithinRates, true })
	books := map[string]*grid.Book{
		"as it is":         laidOut(t),
		"simulated":        laidOutSimulated(t),
		"within the rates": sheets.Estimate(sound(t, within, err)),
	}
	for _, c := range []struct {
		name  string
		holds func(*testing.T, map[string]*grid.Book)
	}{
		{"formulas keep to plain functions", formulasKeepToPlainFunctions},
		{"formulas read figures", formulasReadFigures},
		{"what may be changed is read", whatMayBeChangedIsRead},
		{"an item sums its own lines", anItemSumsItsOwnLines},
		{"links lead somewhere", linksLeadSomewhere},
	} {
		t.Run(c.name, func(t *testing.T) { c.holds(t, books) })
	}
}

func sheet(t *testing.T, b *grid.Book, name string) *grid.Sheet {
	t.Helper()
	for _, s := range b.Sheets {
		if s.Name == name {
			return s
		}
	}
	t.Fatalf("there is no sheet %q", name)
	return nil
}

// The frames of the case worked by hand, as their make-up has them.
func TestTheMakeUpOfSixInchFrames(t *testing.T) {
	b := sheets.Estimate(kept(t, "frames-six-inch.txtar"))
	var got []string
	for _, r := range sheet(t, b, "Make-up").Rows[5:] {
		var line []string
		for _, c := range r.Cells {
			switch {
			case c.Formula != "" && c.Style.Format == "#,##0.00;[Red]-#,##0.00":
				line = append(line, c.Number.StringFixed(2))
			case c.Kind == grid.Number:
				line = append(line, c.Number.String())
			case c.Text != "":
				line = append(line, c.Text)
			}
		}
		if line != nil {
			got = append(got, strings.Join(line, " | "))
		}
	}
	want := []string{
		"F | Framing",
		`F1 | Renew frame, Oak 6 x 6 in as sawn, each 8' long`,
		"F1 | labour | Shipwright | 71.68 | h | 41.5 | 2974.72",
		// 6 in x (6 in + 6 in tan 10, 179.28 mm) x 8 ft, twelve times
		"F1 | timber | Oak baulk | 1 | item | 930 | 930.00 | by 0.799472 m3 sawn",
		"labour | with overheads and profit | 2974.72 | 0.12 | 356.97 | 0.08 | 266.54 | 3598.23",
		"timber | with overheads and profit | 930.00 | 0.05 | 46.50 | 0.08 | 78.12 | 1054.62",
		"Sum | 3904.72 | 403.47 | 344.66 | 4652.85",
		"Billed | 12 | nr | 387.74 | 4652.88 | 0.03",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("the make-up (-by hand +by futtock):\n%s", d)
	}
}

// The same job, priced again, makes the same bytes.
func TestAnEstimateIsWrittenAlike(t *testing.T) {
	again, err := demoRun(asItIs)
	var was []byte
	for _, r := range []estimate.Result{demonstration(t), sound(t, again, err)} {
		data, err := xlsx.Write(sheets.Estimate(r))
		if err != nil {
			t.Fatal(err)
		}
		if was != nil && !bytes.Equal(was, data) {
			t.Fatal("two runs made two files")
		}
		was = data
	}
}
