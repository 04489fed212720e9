package pdf_test

import (
	"fmt"
	"io/fs"
	"os"
	"os/exec"
	"path/filepath"
	"sync"
	"testing"

	"github.com/rogpeppe/go-internal/txtar"

	"futtock/estimate"
	"futtock/output/pdf"
	"futtock/templates"
	"futtock/templates/demo"
)

// demonstration is the demonstration job, priced once for all tests: whoever
// changes a list of it clones it first.
func demonstration(t testing.TB) estimate.Result {
	t.Helper()
	r, err := demoOnce()
	if err != nil {
		t.Fatal(err)
	}
	return r
}

var demoOnce = sync.OnceValues(func() (estimate.Result, error) {
	files := demo.Files()
	names, err := fs.Glob(files, "*.tsv")
	if err != nil {
		return estimate.Result{}, err
	}
	var tables []templates.Table
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return estimate.Result{}, err
		}
		tables = append(tables, templates.ParseTSV(name, string(text)))
	}
	return priced(tables)
})

// worked is a case worked by hand, priced.
func worked(t testing.TB, path string) estimate.Result {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var tables []templates.Table
	for _, f := range txtar.Parse(data).Files {
		if f.Name != "bill" && f.Name != "working" {
			tables = append(tables, templates.ParseTSV(f.Name, string(f.Data)))
		}
	}
	r, err := priced(tables)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// priced is a job of tables, which must have no errors.
func priced(tables []templates.Table) (estimate.Result, error) {
	j, b, problems := templates.Read(templates.TextBook("yard.xlsx", tables), nil)
	r := estimate.Run(j, b)
	problems.Join(r.Problems)
	if problems.HasErrors() {
		return r, fmt.Errorf("the job has problems: %v", problems)
	}
	return r, nil
}

func tender(t testing.TB, r estimate.Result) []byte {
	t.Helper()
	data, err := pdf.Tender(r)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// read puts a document through an independent program and returns what it
// says. Without the program the test is skipped, but never where CI runs it.
func read(t *testing.T, data []byte, program string, args ...string) string {
	t.Helper()
	path, err := exec.LookPath(program)
	if err != nil {
		if os.Getenv("CI") != "" {
			t.Fatalf("%s is not here, and CI must have it", program)
		}
		t.Skipf("%s is not here, so the document was not looked at with it", program)
	}
	file := filepath.Join(t.TempDir(), "document.pdf")
	if err := os.WriteFile(file, data, 0o600); err != nil {
		t.Fatal(err)
	}
	for i, a := range args {
		if a == "FILE" {
			args[i] = file
		}
	}
	out, err := exec.Command(path, args...).CombinedOutput()
	if err != nil {
		t.Fatalf("%s: %v\n%s", program, err, out)
	}
	return string(out)
}

// words is the text of a document in reading order, as laid out on its pages.
func words(t *testing.T, data []byte) string {
	t.Helper()
	return read(t, data, "pdftotext", "-layout", "FILE", "-")
}
