package main

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"futtock/output"
	"futtock/output/json"
	"futtock/output/sheets"
	"futtock/output/text"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/xlsx"
)

func newCommand() command {
	c := command{
		name:  "new",
		args:  "[FILE]",
		short: "Write an empty yard workbook, or a form for a firm's letter",
		long: `Writes FILE (yard.xlsx where none is named): every sheet with its headings,
drop-down lists, notes and one example row that is passed over when the workbook
is read, and a Guide. A file that is there already is left alone.

With --quote BILL.xlsx it writes instead a form into which you type what a firm
offers in a letter of its own, so that the letter can be compared with quotes on
the form: FILE, or <ref>-letter.xlsx beside the bill. BILL.xlsx is the priced bill
or the bill to be priced.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		quote := set.String("quote", "", "write the form for a firm's letter, of the bill in `BILL.xlsx`")
		asJSON := set.Bool("json", false, "print the result as JSON")
		return func(w world, args []string) int {
			if len(args) > 1 {
				return w.misuse(c, "one file at the most")
			}
			path := strings.Join(args, "")
			if path != "" && !strings.EqualFold(filepath.Ext(path), ".xlsx") {
				return w.misuse(c, fmt.Sprintf("%q does not end in .xlsx", path))
			}
			if set.Changed("quote") && *quote == "" {
				return w.misuse(c, "the form is for a letter on which bill?")
			}
			if *quote != "" {
				return w.newLetter(*quote, path, *asJSON)
			}
			return w.newFile(cmp.Or(path, "yard.xlsx"), templates.Blank(), "begin with its Guide sheet", *asJSON)
		}
	}
	return c
}

// newLetter writes the form for a letter of a bill, unless the bill cannot be read.
func (w world) newLetter(from, path string, asJSON bool) int {
	book, err := xlsx.Open(from)
	if err != nil {
		return w.fail(err)
	}
	sent, found := offer.Sent(book)
	if found.HasErrors() && asJSON {
		return max(problems, w.print(json.Written{Schema: json.Schema, Files: []string{}, Problems: json.Problems(found)}))
	}
	text.Problems(w.Err, found)
	if found.HasErrors() {
		fmt.Fprintf(w.Err, "futtock: %s: %s; nothing was written\n", from, text.Count(found))
		return problems
	}
	path = cmp.Or(path, filepath.Join(filepath.Dir(from), sent.Reference+"-letter.xlsx"))
	return w.newFile(path, sheets.Letter(sent), "type in what the letter says", asJSON)
}

// newFile writes a workbook where none of its name is yet.
func (w world) newFile(path string, book *grid.Book, next string, asJSON bool) int {
	if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
		return w.fail(fmt.Errorf("%s is there already and was left alone", path))
	}
	data, err := xlsx.Write(book)
	if err != nil {
		return w.fail(err)
	}
	if err := output.Save(filepath.Dir(path), []output.File{{Name: filepath.Base(path), Data: data}}); err != nil {
		return w.fail(err)
	}
	if asJSON {
		return w.print(json.Written{Schema: json.Schema, Files: []string{path}})
	}
	fmt.Fprintf(w.Out, "wrote %s; %s\n", path, next)
	return done
}

// print writes a document as JSON.
func (w world) print(doc any) int {
	data, err := json.Write(doc)
	if err != nil {
		return w.fail(err)
	}
	fmt.Fprintf(w.Out, "%s", data)
	return done
}
