package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
	"github.com/rogpeppe/go-internal/txtar"

	"futtock/rates/origin"
	"futtock/templates"
	"futtock/templates/xlsx"
)

func TestMain(m *testing.M) {
	testscript.Main(m, map[string]func(){"futtock": main})
}

// The scripts run the tool as a user does. Beside the engine's own commands
// they have five: `workbook FILE.xlsx JOB.txt` makes a workbook of a job kept as
// text, `demonstration FILE.xlsx [SHEET WAS IS]` that of the demonstration with a
// line typed over, `cells FILE.xlsx` prints every cell with its value and
// formula, `notes FILE.xlsx` every note, `ends STATUS PROGRAM ARGS...` wants a program to end so.
func TestScripts(t *testing.T) {
	glob(t, "scripts/*.txtar", 1)
	testscript.Run(t, testscript.Params{
		Dir:                 filepath.Join("..", "..", "testdata", "scripts"),
		RequireExplicitExec: true,
		RequireUniqueNames:  true,
		Cmds: map[string]func(*testscript.TestScript, bool, []string){
			"workbook":      scriptWorkbook,
			"demonstration": scriptDemonstration,
			"cells":         scriptCells,
			"notes":         scriptNotes,
			"ends":          scriptEnds,
		},
		Setup: func(e *testscript.Env) error {
			cases, err := filepath.Abs(filepath.Join("..", "..", "testdata", "cases"))
			e.Vars = append(e.Vars, "CASES="+cases)
			return err
		},
	})
}

// scriptWorkbook writes a workbook from an archive of sheets.
func scriptWorkbook(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 2 {
		ts.Fatalf("usage: workbook FILE.xlsx JOB.txt")
	}
	a := txtar.Parse([]byte(ts.ReadFile(args[1])))
	data, err := xlsx.Write(templates.Plain(tables(a, "bill", "working")))
	ts.Check(err)
	ts.Check(os.WriteFile(ts.MkAbs(args[0]), data, 0o644))
}

// scriptEnds runs a program and wants one exit status of it.
func scriptEnds(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) < 2 {
		ts.Fatalf("usage: ends STATUS PROGRAM ARGS...")
	}
	status := 0
	err := ts.Exec(args[1], args[2:]...)
	var exit *exec.ExitError
	if errors.As(err, &exit) {
		status = exit.ExitCode()
	} else {
		ts.Check(err)
	}
	if fmt.Sprint(status) != args[0] {
		ts.Fatalf("ended with status %d, and %s is wanted", status, args[0])
	}
}

// scriptCells prints a workbook cell by cell: Sheet!A1, value, formula.
func scriptCells(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: cells FILE.xlsx")
	}
	book, err := xlsx.Open(ts.MkAbs(args[0]))
	ts.Check(err)
	var b strings.Builder
	for _, s := range book.Sheets {
		for _, r := range s.Rows {
			for _, c := range r.Cells {
				fmt.Fprintf(&b, "%s!R%dC%d\t%s", s.Name, r.Row, c.Col, c.Raw)
				if c.IsFormula() {
					fmt.Fprintf(&b, "\t=%s", c.Formula)
				}
				b.WriteByte('\n')
			}
		}
	}
	_, err = fmt.Fprint(ts.Stdout(), b.String())
	ts.Check(err)
}

// scriptNotes prints the notes of a workbook, one a line: Sheet!A1, text.
func scriptNotes(ts *testscript.TestScript, neg bool, args []string) {
	if neg || len(args) != 1 {
		ts.Fatalf("usage: notes FILE.xlsx")
	}
	book, err := xlsx.Open(ts.MkAbs(args[0]))
	ts.Check(err)
	for _, s := range book.Sheets {
		for _, n := range s.Notes {
			at := origin.Cell{Sheet: s.Name, Row: n.Row, Col: n.Col}
			_, err = fmt.Fprintf(ts.Stdout(), "%s\t%s\n", at, strings.ReplaceAll(n.Text, "\n", " | "))
			ts.Check(err)
		}
	}
}
