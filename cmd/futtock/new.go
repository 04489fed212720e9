package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/pflag"

	"futtock/output"
	"futtock/output/json"
	"futtock/templates"
	"futtock/templates/xlsx"
)

func newCommand() command {
	c := command{
		name:  "new",
		args:  "[FILE]",
		short: "Write an empty yard workbook",
		long: `Writes FILE (yard.xlsx where none is named): every sheet with its headings,
drop-down lists, notes and one example row that is passed over when the workbook
is read, and a Guide. A file that is there already is left alone.`,
	}
	c.flags = func(set *pflag.FlagSet) work {
		asJSON := set.Bool("json", false, "print the result as JSON")
		return func(w world, args []string) int {
			if len(args) > 1 {
				return w.misuse(c, "one file at the most")
			}
			path := "yard.xlsx"
			if len(args) == 1 {
				path = args[0]
			}
			if !strings.EqualFold(filepath.Ext(path), ".xlsx") {
				return w.misuse(c, fmt.Sprintf("%q does not end in .xlsx", path))
			}
			if _, err := os.Lstat(path); !errors.Is(err, fs.ErrNotExist) {
				return w.fail(fmt.Errorf("%s is there already and was left alone", path))
			}
			data, err := xlsx.Write(templates.Blank())
			if err != nil {
				return w.fail(err)
			}
			if err := output.Save(filepath.Dir(path), []output.File{{Name: filepath.Base(path), Data: data}}); err != nil {
				return w.fail(err)
			}
			if *asJSON {
				return w.print(json.Written{Schema: json.Schema, Files: []string{path}})
			}
			fmt.Fprintf(w.Out, "wrote %s; begin with its Guide sheet\n", path)
			return done
		}
	}
	return c
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
