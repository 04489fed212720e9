package main

import (
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/rogpeppe/go-internal/txtar"
	"github.com/shopspring/decimal"

	"futtock/estimate/changes"
	"futtock/estimate/quotes"
	"futtock/output/sheets"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/offer"
)

var update = flag.Bool("update", false, "rewrite the messages of testdata/problems from what is printed")

const (
	messagePart = "message"
	// otherPart begins the name of a sheet of a second workbook, priced in
	// the same call.
	otherPart = "other/"
	// oldPart begins the name of a sheet of an older issue, which the job is
	// reconciled with.
	oldPart = "old/"
	// sentPart begins the name of a sheet of the bill that quotes are measured
	// against, in place of the form of the base job; quotePart that of a quote.
	sentPart  = "sent/"
	quotePart = "quote/"
	// termsPart says how the quote is compared: gaps, week, or figure with firm,
	// qualification and money. Without it nothing is compared.
	termsPart = "terms"
	// listPart begins the name of a price list set against the workbook, and of
	// what is given beside it; memberPart that of something put into the workbook's file.
	listPart   = "list/"
	memberPart = "zip/"
)

// The gallery of problems. Each file of testdata/problems is a clean job,
// base.txt, with a sheet or two replaced so that exactly one code is raised, and
// what is printed of it. A part with nothing in it takes the sheet away.
func TestEveryCodeIsRaisedByItsOwnWorkbookAlone(t *testing.T) {
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	files := map[string]string{}
	for _, path := range glob(t, "problems/*.txtar", 1) {
		files[strings.TrimSuffix(filepath.Base(path), ".txtar")] = path
	}
	for _, f := range problem.Codes() {
		path, ok := files[string(f.Code)]
		if !ok {
			t.Errorf("%s has no file", f.Code)
			continue
		}
		delete(files, string(f.Code))
		t.Run(string(f.Code), func(t *testing.T) {
			t.Parallel()
			a := archive(t, path)
			if strings.TrimSpace(string(a.Comment)) == "" {
				t.Error("the file does not say what is wrong")
			}
			var lines []string
			for _, p := range raised(t, base, a) {
				if p.Code != f.Code {
					t.Errorf("raised as well: %s", p)
					continue
				}
				lines = append(lines, p.String())
				readsWell(t, p.String())
			}
			if len(lines) == 0 {
				t.Fatal("it is not raised")
			}
			got := strings.Join(lines, "\n") + "\n"
			if *update {
				rewrite(t, path, a, got)
				return
			}
			if d := cmp.Diff(part(t, a, messagePart), got); d != "" {
				t.Errorf("the message (-in the file +printed):\n%s", d)
			}
		})
	}
	for code := range files {
		t.Errorf("%s.txtar is of no code", code)
	}
}

func TestAReferenceThatTwoJobsShareIsToldInTheOrderOfTheSheets(t *testing.T) {
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	var jobs []priced
	for _, name := range []string{"yard.xlsx", "other.xlsx"} {
		p := priceOne(name, templates.TextBook(name, tables(base)), nil, nil)
		p.problems.Add(problem.Problem{Code: problem.OldPrice, At: origin.Cell{Book: name, Sheet: "Materials", Row: 2, Col: 5}, Text: "old"})
		jobs = append(jobs, p)
	}
	parted(jobs, "out")
	for _, p := range jobs {
		if len(p.problems) != 2 || p.problems[0].Code != problem.ReferenceTwice {
			t.Errorf("%v", p.problems)
		}
	}
}

func TestTheJobBesideTheProblemsHasNone(t *testing.T) {
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	for _, p := range raised(t, base, &txtar.Archive{}) {
		t.Errorf("found: %s", p)
	}
}

// raised is every problem of the base job with the sheets of a replaced, read
// and priced as the tool does; with those of a second workbook where there is one.
func raised(t *testing.T, base, a *txtar.Archive) problem.List {
	t.Helper()
	var jobs []priced
	for _, b := range []struct{ name, parts string }{{"yard.xlsx", ""}, {"other.xlsx", otherPart}} {
		sheets, replaced := replacedBy(base, a, b.parts)
		if b.parts != "" && !replaced {
			continue
		}
		jobs = append(jobs, priceOne(b.name, templates.TextBook(b.name, tables(sheets)), nil, nil))
	}
	parted(jobs, "")
	var found problem.List
	for _, j := range jobs {
		if j.err != nil {
			t.Fatal(j.err)
		}
		found.Join(j.problems)
		if !j.problems.HasErrors() {
			_, err := documents(j.result)
			found.Join(overflowed(err))
		}
	}
	found.Join(raisedByQuote(t, base, a))
	found.Join(raisedByList(t, base, a))
	if sheets, replaced := replacedBy(base, a, oldPart); replaced {
		old := priceOne("old.xlsx", templates.TextBook("old.xlsx", tables(sheets)), nil, nil)
		found.Join(old.problems)
		_, together := changes.Reconcile(old.result, jobs[0].result)
		found.Join(together)
	}
	return found
}

// raisedByQuote is every problem of reading back the bill and the quote that a has.
func raisedByQuote(t *testing.T, base, a *txtar.Archive) problem.List {
	t.Helper()
	bill, other := typedBook("bill.xlsx", a, sentPart)
	quote, returned := typedBook("quote.xlsx", a, quotePart)
	if !other && !returned {
		return nil
	}
	if !other {
		bill = reread(t, "bill.xlsx", sheets.Unpriced(formOf(t, tables(base))))
	}
	sent, found := offer.Sent(bill)
	if returned {
		q, more := offer.Quote(quote, sent)
		found.Join(more)
		if terms, ok := termsOf(t, a); ok {
			_, more = quotes.Compare(sent, []quotes.Quote{q}, terms)
			found.Join(more)
		}
	}
	return found
}

// termsOf is the terms that a says quotes are compared by, those of usual where
// it does not say.
func termsOf(t *testing.T, a *txtar.Archive) (quotes.Terms, bool) {
	t.Helper()
	terms := quotes.Usual()
	at := slices.IndexFunc(a.Files, func(f txtar.File) bool { return f.Name == termsPart })
	if at < 0 {
		return terms, false
	}
	for _, line := range strings.Split(strings.TrimSpace(string(a.Files[at].Data)), "\n") {
		switch said := strings.Split(line, "\t"); {
		case said[0] == "gaps" && len(said) == 2:
			terms.Gaps = quotes.GapRule(said[1])
		case said[0] == "week" && len(said) == 2:
			terms.Week = money.MustAmount(said[1])
		case said[0] == "figure" && len(said) == 4:
			terms.Figures = append(terms.Figures, quotes.Priced{Firm: said[1], Text: said[2], Amount: money.MustAmount(said[3])})
		default:
			t.Fatalf("nobody knows the term %q", line)
		}
	}
	return terms, true
}

// typedBook is the sheets of a whose names begin with a prefix as a workbook that
// was read: what looks like a number is one, and a line of [note] and a text is a
// note on the first cell of the row above it.
func typedBook(name string, a *txtar.Archive, prefix string) (grid.Workbook, bool) {
	w := grid.Workbook{Name: name}
	for _, f := range a.Files {
		sheet, ok := strings.CutPrefix(f.Name, prefix)
		if !ok {
			continue
		}
		p := grid.Page{Name: sheet}
		for _, row := range strings.Split(strings.TrimSpace(string(f.Data)), "\n") {
			if note, ok := strings.CutPrefix(row, "[note]\t"); ok {
				p.Notes = append(p.Notes, grid.Remark{Row: len(p.Rows), Col: 1, Text: note})
				continue
			}
			l := grid.Line{Row: len(p.Rows) + 1}
			for i, text := range strings.Split(row, "\t") {
				d := grid.Datum{Col: i + 1, Kind: grid.Text, Raw: text}
				if v, err := decimal.NewFromString(text); err == nil {
					d.Kind, d.Value = grid.Number, v
				}
				if text != "" {
					l.Cells = append(l.Cells, d)
				}
			}
			p.Rows = append(p.Rows, l)
		}
		w.Sheets = append(w.Sheets, p)
	}
	return w, len(w.Sheets) > 0
}

// replacedBy is the base with those sheets of a whose names begin with a
// prefix in place of its own; false where a has none.
func replacedBy(base, a *txtar.Archive, prefix string) (*txtar.Archive, bool) {
	out := &txtar.Archive{Files: slices.Clone(base.Files)}
	replaced := false
	for _, f := range a.Files {
		name, ok := strings.CutPrefix(f.Name, prefix)
		apart := slices.ContainsFunc([]string{otherPart, oldPart, sentPart, quotePart, listPart, memberPart}, func(p string) bool { return strings.HasPrefix(name, p) })
		if !ok || name == messagePart || name == termsPart || apart {
			continue
		}
		replaced = true
		at := slices.IndexFunc(out.Files, func(b txtar.File) bool { return b.Name == name })
		switch sheet := (txtar.File{Name: name, Data: f.Data}); {
		case at < 0:
			out.Files = append(out.Files, sheet)
		case len(f.Data) == 0:
			out.Files = slices.Delete(out.Files, at, at+1)
		default:
			out.Files[at] = sheet
		}
	}
	return out, replaced
}

var printed = regexp.MustCompile(`^(?:(?:yard|other|bill|quote)\.xlsx|list\.csv): (?:[A-Z][A-Za-z -]*(?:![A-Z]*\d+)?: )?(?:error|warning|remark): (.*) \[[a-z0-9-]+\]$`)

// readsWell checks what can be checked of a message: where it stands, that it
// does not begin with a capital nor end with a full stop.
func readsWell(t *testing.T, line string) {
	t.Helper()
	m := printed.FindStringSubmatch(line)
	switch {
	case m == nil:
		t.Errorf("not a message at a cell: %s", line)
	case m[1][0] >= 'A' && m[1][0] <= 'Z' || strings.HasSuffix(m[1], "."):
		t.Errorf("a message begins in lower case and ends without a full stop: %s", line)
	}
}

// rewrite puts a message into its file.
func rewrite(t *testing.T, path string, a *txtar.Archive, message string) {
	t.Helper()
	files := slices.DeleteFunc(slices.Clone(a.Files), func(f txtar.File) bool { return f.Name == messagePart })
	out := &txtar.Archive{Comment: a.Comment, Files: append(files, txtar.File{Name: messagePart, Data: []byte(message)})}
	if err := os.WriteFile(path, txtar.Format(out), 0o644); err != nil {
		t.Fatal(err)
	}
}
