package main

import (
	"context"
	"encoding/csv"
	"errors"
	"fmt"
	"futtock/estimate"
	"futtock/output/sheets"
	"futtock/templates"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// profile makes the spreadsheet program reckon every formula anew when it
// opens a file, rather than trust the stored results.
const profile = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry" xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>
`

// recalculated is a workbook after an independent spreadsheet program has
// reckoned every formula in it.
func recalculated(t *testing.T, path string) grid.Workbook {
	t.Helper()
	return recalculatedFiles(t, path)[0]
}

// recalculatedFiles is workbooks of different names after an independent
// spreadsheet program has reckoned every formula in them.
func recalculatedFiles(t *testing.T, paths ...string) []grid.Workbook {
	t.Helper()
	out := converted(t, "xlsx", paths)
	books := make([]grid.Workbook, len(paths))
	for i, path := range paths {
		var err error
		if books[i], err = xlsx.Open(filepath.Join(out, filepath.Base(path))); err != nil {
			t.Fatal(err)
		}
	}
	return books
}

// asText is the form of a workbook written out as text, one file a sheet, with
// figures as they are and not as they show.
const asText = "csv:Text - txt - csv (StarCalc):44,34,76,1,,0,false,false,false,false,false,-1"

// recalculatedFigures is the figures of workbooks that were written, reckoned
// anew: it takes the program half the time to write out the text alone. A share
// in hundredths comes as it is.
func recalculatedFigures(t *testing.T, books []grid.Workbook, paths []string) []grid.Workbook {
	t.Helper()
	out := converted(t, asText, paths)
	now := make([]grid.Workbook, len(books))
	for i, b := range books {
		for _, s := range b.Sheets {
			f, err := os.Open(filepath.Join(out, strings.TrimSuffix(filepath.Base(paths[i]), ".xlsx")+"-"+s.Name+".csv"))
			if err != nil {
				t.Fatal(err)
			}
			read := csv.NewReader(f)
			read.FieldsPerRecord = -1
			lines, err := read.ReadAll()
			f.Close()
			if err != nil {
				t.Fatal(err)
			}
			page := grid.Page{Name: s.Name}
			for n, line := range lines {
				row := grid.Line{Row: n + 1}
				for k, text := range line {
					row.Cells = append(row.Cells, figureOf(k+1, text))
				}
				page.Rows = append(page.Rows, row)
			}
			now[i].Sheets = append(now[i].Sheets, page)
		}
	}
	return now
}

// figureOf is a cell of text as a number, where it is one.
func figureOf(col int, text string) grid.Datum {
	d := grid.Datum{Col: col, Kind: grid.Text, Raw: text}
	digits, hundredths := strings.CutSuffix(text, "%")
	v, err := decimal.NewFromString(digits)
	if err != nil {
		return d
	}
	if hundredths {
		v = v.Shift(-2)
	}
	d.Kind, d.Value = grid.Number, v
	return d
}

// spreadsheet is the spreadsheet program of a test that recalculates: it asks for
// it before anything is priced. With -short, as with the race detector, the test
// is skipped, since another program does the work of it; .ci/run has all of them
// without. Where there is no such program the test is skipped, but in CI it fails.
func spreadsheet(t *testing.T) string {
	t.Helper()
	if testing.Short() {
		t.Skip("recalculated without -short")
	}
	program, err := exec.LookPath("soffice")
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatal("no soffice here, and CI must recalculate: install libreoffice-calc")
		}
		t.Skip("no soffice here: install libreoffice-calc to recalculate what is written")
	}
	return program
}

// converted is the folder into which the spreadsheet program has written
// workbooks in another form, having reckoned every formula in them. The program
// works on one core: beyond a score of workbooks two share them, each called anew for
// every fifty, since a call for some hundreds was seen to end early without a word.
func converted(t *testing.T, form string, paths []string) string {
	t.Helper()
	program := spreadsheet(t)
	out := filepath.Join(t.TempDir(), "out")
	shares := [][]string{paths}
	if half := len(paths) / 2; half > 10 {
		shares = [][]string{paths[:half], paths[half:]}
	}
	failed := make([]error, len(shares))
	var all sync.WaitGroup
	for i, share := range shares {
		dir := t.TempDir()
		all.Go(func() {
			for some := range slices.Chunk(share, 50) {
				failed[i] = errors.Join(failed[i], convert(program, dir, out, form, some))
			}
		})
	}
	all.Wait()
	if err := errors.Join(failed...); err != nil {
		t.Fatal(err)
	}
	return out
}

// convert has the spreadsheet program, with a profile of its own under dir,
// write workbooks in another form into out.
func convert(program, dir, out, form string, paths []string) error {
	user := filepath.Join(dir, "profile", "user")
	if err := os.MkdirAll(user, 0o755); err != nil {
		return err
	}
	if err := os.WriteFile(filepath.Join(user, "registrymodifications.xcu"), []byte(profile), 0o644); err != nil {
		return err
	}
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Minute+time.Duration(len(paths))*time.Second)
	defer cancel()
	args := append([]string{"-env:UserInstallation=file://" + filepath.ToSlash(filepath.Join(dir, "profile")),
		"--headless", "--convert-to", form, "--outdir", out}, paths...)
	if said, err := exec.CommandContext(ctx, program, args...).CombinedOutput(); err != nil {
		return fmt.Errorf("%w: %s", err, said)
	}
	return nil
}

// compareFormulas checks every formula cell of one workbook against the same
// cell of another, to a hundredth of a penny, and says how many there were.
func compareFormulas(was, now grid.Workbook) (n int, differ []string) {
	for i, s := range was.Sheets {
		if i >= len(now.Sheets) || now.Sheets[i].Name != s.Name {
			return n, append(differ, "sheet "+s.Name+" is gone")
		}
		rows := map[int]grid.Line{}
		for _, r := range now.Sheets[i].Rows {
			rows[r.Row] = r
		}
		for _, r := range s.Rows {
			for _, c := range r.Cells {
				if !c.IsFormula() {
					continue
				}
				n++
				d := rows[r.Row].Cell(c.Col)
				if d.Kind != grid.Number || d.Value.Sub(c.Value).Abs().GreaterThan(decimal.New(1, -4)) {
					differ = append(differ, fmt.Sprintf("%s row %d column %d: =%s was %s, is %s", s.Name, r.Row, c.Col, c.Formula, c.Raw, d.Raw))
				}
			}
		}
	}
	return n, differ
}

// An independent spreadsheet program reckons every formula of the bill of the
// demonstration and of every case to the same penny as futtock stored.
func TestTheBillRecalculatesToThePenny(t *testing.T) {
	spreadsheet(t)
	results := map[string]estimate.Result{"demonstration": demonstration(t)}
	for _, path := range glob(t, "cases/*.txtar", 6) {
		j, b, _ := templates.Read(templates.TextBook("case.xlsx", tables(archive(t, path), "bill", "working")), nil)
		results[filepath.Base(path)] = estimate.Run(j, b)
	}
	books := map[string]*grid.Book{}
	for name, r := range results {
		books[name] = sheets.Bill(r)
	}
	was, now := recalculatedAll(t, books)
	for _, name := range slices.Sorted(maps.Keys(was)) {
		n, differ := compareFormulas(was[name], now[name])
		if n < 5 {
			t.Errorf("%s: only %d formulas, and a bill has more", name, n)
		}
		for _, d := range differ {
			t.Errorf("%s: %s", name, d)
		}
	}
}

// A stored result that is wrong on purpose comes back right: the program does
// reckon anew, and the test above could fail.
func TestTheRecalculationIsARealOne(t *testing.T) {
	spreadsheet(t)
	book := sheets.Bill(demonstration(t))
	wrong := decimal.New(999, 0)
	for _, s := range book.Sheets {
		for _, r := range s.Rows {
			for i := range r.Cells {
				if strings.HasPrefix(r.Cells[i].Formula, "ROUND(") {
					r.Cells[i].Number = wrong
				}
			}
		}
	}
	data, err := xlsx.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "wrong.xlsx")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	was, err := xlsx.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	figures := recalculatedFigures(t, []grid.Workbook{was}, []string{path})[0]
	for form, now := range map[string]grid.Workbook{"workbook": recalculated(t, path), "text": figures} {
		if _, differ := compareFormulas(was, now); len(differ) < 50 {
			t.Errorf("only %d of the wrong results were put right in the %s", len(differ), form)
		}
	}
}

// demonstration is the embedded job, read and priced once for all tests. None
// changes it, nor the rows of its job and book; modelled is for that.
func demonstration(t *testing.T) estimate.Result {
	t.Helper()
	r, err := demonstrated()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var demonstrated = sync.OnceValues(func() (estimate.Result, error) {
	sheets, err := demoTables()
	if err != nil {
		return estimate.Result{}, err
	}
	return soundly(sheets)
})
