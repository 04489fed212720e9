package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate"
	"futtock/estimate/quotes"
	"futtock/output/explain"
	"futtock/output/sheets"
	"futtock/output/text"
	"futtock/rates/measure"
	"futtock/templates"
	"futtock/templates/offer"
)

// What stands around the session in README.
const sessionBegins, sessionEnds = "<!-- session begins -->\n", "<!-- session ends -->"

// The session in README is what the tool says today. With -update it is
// written anew: read what changed.
func TestTheSessionInReadmeIsARealOne(t *testing.T) {
	path := filepath.Join("..", "..", "README.md")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	before, rest, found := strings.Cut(string(data), sessionBegins)
	was, after, closed := strings.Cut(rest, sessionEnds)
	if !found || !closed {
		t.Fatal("README has lost the marks of its session")
	}
	now := session(t)
	if *update {
		if err := os.WriteFile(path, []byte(before+sessionBegins+now+sessionEnds+after), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if d := cmp.Diff(was, now); d != "" {
		t.Errorf("README's session is stale; go test ./cmd/futtock -run Session -update writes it (-was +now):\n%s", d)
	}
}

// The problems that README shows are printed just so.
func TestTheProblemsInReadmeAreRealOnes(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	printed := ""
	for _, path := range glob(t, "problems/*.txtar", 100) {
		if filepath.Base(path) != "base.txt" {
			printed += part(t, archive(t, path), "message")
		}
	}
	_, after, _ := strings.Cut(string(data), sessionEnds)
	shown := 0
	for line := range strings.Lines(after) {
		if strings.HasPrefix(line, "yard.xlsx: ") && strings.Contains(line, "!") {
			shown++
			if !strings.Contains(printed, line) {
				t.Errorf("README shows a message that no problem prints: %s", line)
			}
		}
	}
	if shown < 4 {
		t.Errorf("README shows %d problems and should show four", shown)
	}
}

// The names that README gives to other programs are names of the documents that are
// printed for them.
func TestTheNamesInReadmeForOtherProgramsAreThere(t *testing.T) {
	data, err := os.ReadFile(filepath.Join("..", "..", "README.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, section, _ := strings.Cut(string(data), "\n## For other programs\n")
	section, _, _ = strings.Cut(section, "\n## ")
	sources, err := filepath.Glob(filepath.Join("..", "..", "output", "json", "*.go"))
	if err != nil {
		t.Fatal(err)
	}
	there := ""
	for _, path := range sources {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		there += string(text)
	}
	named := map[string]bool{}
	for line := range strings.Lines(section) {
		if command, rest, ok := strings.Cut(strings.TrimPrefix(line, "| "), " | "); ok {
			for _, m := range ticked.FindAllStringSubmatch(command, -1) {
				named[m[1]] = true
			}
			line = rest
		}
		for _, m := range ticked.FindAllStringSubmatch(line, -1) {
			if !strings.HasPrefix(m[1], "--") && !strings.Contains(there, "`json:\""+m[1]+"\"`") && !strings.Contains(there, "`json:\""+m[1]+",omitempty\"`") {
				t.Errorf("README speaks of %q, which no document has", m[1])
			}
		}
	}
	for _, c := range commands() {
		if !named[c.name] {
			t.Errorf("README does not say what futtock %s --json prints", c.name)
		}
	}
}

// session is the summary of the demonstration and ten lines of its bill.
func session(t *testing.T) string {
	p := demonstratedPrice(t)
	r := p.result
	var b bytes.Buffer
	b.WriteString("```\n$ futtock price yard.xlsx\n")
	world{Out: &b, Err: &b}.tell(p)
	b.WriteString("```\n\nTen lines of the bill, as it comes out:\n\n")
	fmt.Fprintf(&b, "| item | description | quantity | unit | rate | amount |\n|---|---|---:|---|---:|---:|\n")
	n := 0
	for _, s := range r.Bill.Sections {
		for i, l := range s.Lines {
			if i%5 != 1 || n == 10 || l.Unit.Dimension() == measure.Item {
				continue
			}
			n++
			fmt.Fprintf(&b, "| %s | %s | %s | %s | %s | %s |\n", l.Ref, l.Description, l.Quantity.StringFixed(l.Unit.Places()), l.Unit, l.Rate.Grouped(), l.Amount.Grouped())
		}
	}
	if n < 10 {
		t.Fatalf("only %d lines to show", n)
	}
	var made bytes.Buffer
	text.Explained(&made, r, explain.Of(r, "PL1"))
	lines := strings.SplitAfter(made.String(), "\n")
	b.WriteString("\nHow one of its rates is made up, down to the cells (the first lines of it):\n\n```\n$ futtock explain yard.xlsx PL1\n")
	b.WriteString(strings.Join(lines[:min(22, len(lines))], "") + "...\n```\n")
	var side bytes.Buffer
	text.Compared(&side, demonstratedComparison(t, r))
	lines = strings.SplitAfter(side.String(), "\n")
	b.WriteString("\nWhat three firms ask for it, examined and levelled (the first lines of it):\n\n```\n$ futtock compare BRIM-114-bill.xlsx BRIM-114-quote-*.xlsx\n")
	b.WriteString(strings.Join(lines[:min(22, len(lines))], "") + "...\n```\n")
	return b.String()
}

// demonstratedPrice is the demonstration as futtock price has it from the workbook that
// futtock demo writes.
func demonstratedPrice(t *testing.T) priced {
	t.Helper()
	tables, err := demoTables()
	if err != nil {
		t.Fatal(err)
	}
	book, err := templates.Filled(tables)
	if err != nil {
		t.Fatal(err)
	}
	p := priceOne("yard.xlsx", reread(t, "yard.xlsx", book), nil, nil)
	files, err := documents(p.result)
	if err != nil {
		t.Fatal(err)
	}
	for _, f := range files {
		p.files = append(p.files, f.Name)
	}
	return p
}

// demonstratedComparison is the three quotes of the demonstration compared.
func demonstratedComparison(t *testing.T, r estimate.Result) quotes.Comparison {
	t.Helper()
	firms, err := demoFirms()
	if err != nil {
		t.Fatal(err)
	}
	form := estimate.Unpriced(r.Job, r.Book)
	ref := r.Job.Reference
	sent, _ := offer.Sent(reread(t, ref+"-bill.xlsx", sheets.Bill(r)))
	var back []quotes.Quote
	for _, f := range firms {
		q, _ := offer.Quote(reread(t, ref+"-quote-"+f.name+".xlsx", f.returned(r, form)), sent)
		back = append(back, q)
	}
	c, found := quotes.Compare(sent, back, quotes.Usual())
	if found.HasErrors() {
		t.Fatal(found)
	}
	return c
}
