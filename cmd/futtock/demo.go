package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"futtock/estimate"
	"futtock/estimate/quotes"
	"futtock/output"
	"futtock/output/json"
	"futtock/templates"
	"futtock/templates/demo"
	"futtock/templates/xlsx"
)

func demoCommand() command {
	c := command{
		name:  "demo",
		args:  "[-d DIR]",
		short: "Write a demonstration workbook, price it, and compare quotes for it",
		long: `Writes DIR/yard.xlsx, the workbook of an invented refit, and beside it everything
that futtock price writes from it, with --unpriced and without, and what three
invented firms return when they price it,

  <ref>-quote-hollinsea.xlsx  the form filled in with care, three slips in it
  <ref>-quote-osmerby.xlsx    a letter by sections, typed into the form for one
  <ref>-quote-wrackby.xlsx    the form filled in cheaply, and altered

with what futtock compare writes of them. A yard.xlsx that somebody has changed
since is left alone.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		dir := set.StringP("dir", "d", "futtock-demo", "write into `DIR`, made where it is missing")
		asJSON := set.Bool("json", false, "print the result as JSON")
		return func(w world, args []string) int {
			if len(args) > 0 {
				return w.misuse(c, "takes no files")
			}
			path := filepath.Join(*dir, "yard.xlsx")
			if err := writeDemo(path); err != nil {
				return w.fail(err)
			}
			p := priceAll([]string{path}, nil)[0]
			p.also = demoBesides
			p.write(*dir, []string{path})
			if err := p.demoCompare(*dir); err != nil {
				return w.fail(err)
			}
			if *asJSON {
				if s := w.print(json.Priced{Schema: json.Schema, Jobs: []json.Job{p.json()}}); s != done {
					return s
				}
				return p.status()
			}
			fmt.Fprintf(w.Out, "wrote %s\n\n", path)
			w.tell(p)
			return p.status()
		}
	}
	return c
}

// demoCompare compares the quotes of the demonstration, as futtock compare does.
func (p *priced) demoCompare(dir string) error {
	if p.status() != done {
		return nil
	}
	ref := filepath.Join(dir, p.job().Reference)
	var returned []string
	for _, f := range p.files {
		if strings.HasPrefix(f, ref+"-quote-") {
			returned = append(returned, f)
		}
	}
	c, err := compareAll(ref+"-bill.xlsx", returned, "", quotes.Usual(), false, false)
	if err == nil {
		err = c.write(dir, append(returned, ref+"-bill.xlsx"))
	}
	p.problems.Join(c.problems)
	p.files = append(p.files, c.files...)
	return err
}

// demoBesides makes what the demonstration writes beside what is priced: the bill
// to be priced by others, and what firms return for it.
func demoBesides(r estimate.Result) ([]output.File, error) {
	form := estimate.Unpriced(r.Job, r.Book)
	files, err := formDocuments(form)
	if err != nil {
		return nil, err
	}
	firms, err := demoFirms()
	if err != nil {
		return nil, err
	}
	for _, f := range firms {
		data, err := workbook(r.Job, "quote of "+f.name, f.returned(r, form))
		if err != nil {
			return nil, fmt.Errorf("the quote of %s: %w", f.name, err)
		}
		files = append(files, output.File{Name: r.Job.Reference + "-quote-" + f.name + ".xlsx", Data: data})
	}
	return files, nil
}

// demoTables is the demonstration job, sheet by sheet.
func demoTables() ([]templates.Table, error) {
	files := demo.Files()
	names, err := fs.Glob(files, "*.tsv")
	if err != nil {
		return nil, err
	}
	var out []templates.Table
	for _, name := range names {
		text, err := fs.ReadFile(files, name)
		if err != nil {
			return nil, err
		}
		out = append(out, templates.ParseTSV(name, string(text)))
	}
	return out, nil
}

// writeDemo writes the demonstration workbook, unless one is there that is not
// as it was written.
func writeDemo(path string) error {
	tables, err := demoTables()
	if err != nil {
		return err
	}
	book, err := templates.Filled(tables)
	if err != nil {
		return err
	}
	data, err := xlsx.Write(book)
	if err != nil {
		return err
	}
	was, err := os.ReadFile(path)
	switch {
	case err == nil && bytes.Equal(was, data):
		return nil
	case err == nil:
		return fmt.Errorf("%s has been changed since it was written and was left alone; name another folder with -d", path)
	case !errors.Is(err, fs.ErrNotExist):
		return err
	}
	return output.Save(filepath.Dir(path), []output.File{{Name: filepath.Base(path), Data: data}})
}
