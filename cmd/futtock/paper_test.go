package main

import (
	"bytes"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/output"
	"futtock/output/sheets"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

// What a job names as its paper is that of all that is written of it, and of what
// is written of the bill when the quotes come back.
func TestAllThatIsWrittenIsOnThePaperOfTheJob(t *testing.T) {
	for _, c := range []struct {
		on    job.Paper
		sheet grid.Paper
		pages string // of a PDF, standing and on its side
	}{
		{"", grid.A4, `595\.28 841\.89|841\.89 595\.28`},
		{job.Letter, grid.Letter, `612\.00 792\.00|792\.00 612\.00`},
	} {
		r := clean(t)
		r.Job.Paper = c.on
		form := estimate.Unpriced(r.Job, r.Book)
		dir := t.TempDir()
		files, err := documents(r)
		if err != nil {
			t.Fatal(err)
		}
		more, err := formDocuments(form)
		if err != nil {
			t.Fatal(err)
		}
		changed, err := workbook(r.Job, "changes", sheets.Changes(bridged(t, r, r)))
		if err != nil {
			t.Fatal(err)
		}
		quote, err := xlsx.Write(sheets.Returned(form, sheets.Answers{Lines: map[string]sheets.Answer{}}))
		if err != nil {
			t.Fatal(err)
		}
		files = append(append(files, more...), output.File{Name: "changes.xlsx", Data: changed}, output.File{Name: "quote.xlsx", Data: quote})
		for _, f := range files {
			if err := os.WriteFile(filepath.Join(dir, f.Name), f.Data, 0o644); err != nil {
				t.Fatal(err)
			}
		}
		again, err := compareAll(filepath.Join(dir, files[0].Name), []string{filepath.Join(dir, "quote.xlsx")}, "", quotes.Usual(), false, false)
		if err != nil || again.problems.HasErrors() {
			t.Fatal(err, again.problems)
		}
		compared, err := again.documents()
		if err != nil {
			t.Fatal(err)
		}
		files = append(files, compared...)
		sent, err := xlsx.Open(filepath.Join(dir, more[0].Name))
		if err != nil {
			t.Fatal(err)
		}
		if s, _ := offer.Sent(sent); (s.Paper == job.Letter) != (c.on == job.Letter) {
			t.Errorf("of a bill to be priced on %q the paper is read as %q", c.on, s.Paper)
		}
		seen := map[string]int{}
		for _, f := range files {
			kind := filepath.Ext(f.Name)
			seen[kind]++
			if kind == ".pdf" {
				onPaper(t, f, c.pages)
				continue
			}
			path := filepath.Join(dir, "again.xlsx")
			if err := os.WriteFile(path, f.Data, 0o644); err != nil {
				t.Fatal(err)
			}
			w, err := xlsx.Open(path)
			if err != nil {
				t.Fatal(err)
			}
			for _, p := range w.Sheets {
				if p.Paper != c.sheet {
					t.Errorf("on %q, sheet %q of %s is set up for paper %d, want %d", c.on, p.Name, f.Name, p.Paper, c.sheet)
				}
			}
		}
		if seen[".pdf"] != 3 || seen[".xlsx"] != 6 {
			t.Errorf("documents looked at: %v", seen)
		}
	}
}

// onPaper wants every page of a PDF to be of one of two sizes.
func onPaper(t *testing.T, f output.File, sizes string) {
	t.Helper()
	size := regexp.MustCompile(`^/MediaBox \[0 0 (` + sizes + `)\]$`)
	boxes, pages := 0, bytes.Count(f.Data, []byte("/Type /Page\n"))
	for line := range strings.Lines(string(f.Data)) {
		if line = strings.TrimSpace(line); strings.HasPrefix(line, "/MediaBox") {
			boxes++
			if !size.MatchString(line) {
				t.Errorf("%s has a page %s", f.Name, line)
			}
		}
	}
	if boxes == 0 || pages == 0 {
		t.Errorf("%s: %d pages and %d sizes are found", f.Name, pages, boxes)
	}
}
