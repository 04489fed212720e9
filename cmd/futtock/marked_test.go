package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// markedCopy is the marked copy of a workbook, read as the workbook is.
func markedCopy(t *testing.T, data []byte, book grid.Workbook, found problem.List) grid.Workbook {
	t.Helper()
	marks := templates.Marked(book, book.Name, found)
	copied, err := xlsx.Mark(data, marks.Cells, marks.List)
	if err != nil {
		t.Fatal(err)
	}
	again, err := xlsx.Read(book.Name, copied)
	if err != nil {
		t.Fatal(err)
	}
	return again
}

// notesBy are the notes of a workbook by cell, blanks made one.
func notesBy(book grid.Workbook) map[origin.Cell]string {
	out := map[origin.Cell]string{}
	for _, p := range book.Sheets {
		for _, n := range p.Notes {
			out[origin.Cell{Book: book.Name, Sheet: p.Name, Row: n.Row, Col: n.Col}] = strings.Join(strings.Fields(n.Text), " ")
		}
	}
	return out
}

// told fails for each problem of a cell that its note does not tell, and gives how many
// do.
func told(t *testing.T, copied grid.Workbook, found problem.List) int {
	t.Helper()
	n, notes := 0, notesBy(copied)
	for _, p := range found {
		if p.At.Row == 0 || p.At.Col == 0 {
			continue
		}
		note := notes[p.At]
		want := strings.Join(strings.Fields(p.Message()+" "+p.Code.Cure()+" ["+string(p.Code)+"]"), " ")
		if !strings.Contains(strings.ToLower(note), strings.ToLower(p.Severity().String()+": "+want)) && !strings.Contains(note, "more, in the sheet") {
			t.Errorf("%s has the note %q", p, note)
		}
		n++
	}
	return n
}

// sameProblems fails where a marked copy has other problems than its workbook.
func sameProblems(t *testing.T, copied grid.Workbook, found problem.List) {
	t.Helper()
	if again := priceOne(copied.Name, copied, nil, nil); !slices.Equal(found, again.problems) {
		t.Errorf("the copy has %d problems, and the workbook %d, or other ones", len(again.problems), len(found))
	}
}

// Every workbook of the gallery of problems is marked, and each cell tells its own.
func TestEveryProblemIsToldOnItsCell(t *testing.T) {
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	cells := 0
	for _, path := range glob(t, "problems/*.txtar", 100) {
		sheets, _ := replacedBy(base, archive(t, path), "")
		data, err := xlsx.Write(templates.Plain(tables(sheets)))
		if err != nil {
			continue // it is of a workbook that only other programs write
		}
		book, err := xlsx.Read("yard.xlsx", data)
		if err != nil {
			t.Fatal(err)
		}
		p := priceOne(book.Name, book, nil, nil)
		if p.err != nil {
			t.Fatal(p.err)
		}
		if len(p.problems) > 0 {
			t.Run(strings.TrimSuffix(filepath.Base(path), ".txtar"), func(t *testing.T) {
				cells += told(t, markedCopy(t, data, book, p.problems), p.problems)
			})
		}
	}
	if cells < 100 {
		t.Errorf("only %d cells were marked", cells)
	}
}

// spoilt is the demonstration with slips in it.
func spoilt(t *testing.T) []byte {
	t.Helper()
	tables, err := demoTables()
	if err != nil {
		t.Fatal(err)
	}
	slips := 0
	for _, s := range tables {
		for n, row := range s.Rows {
			for c, text := range row.Cells {
				is := map[string]string{"Members|larch": "lerch", "Items|m2": "m22", "Members|22.4": "22-4", "Job|40": "fourty", "Materials|kg": "kgs"}[s.Sheet+"|"+text]
				if is != "" {
					s.Rows[n].Cells[c] = is
					slips++
				}
			}
		}
	}
	if slips < 20 {
		t.Fatalf("only %d slips were made: the demonstration is not as thought", slips)
	}
	book, err := templates.Filled(tables)
	if err != nil {
		t.Fatal(err)
	}
	data, err := xlsx.Write(book)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// What futtock makes itself, the demonstration with slips in it and the empty workbook,
// and both as another spreadsheet program has saved them again: each is marked, the copy
// has the same problems, and that program opens it and shows every note.
func TestMarkedCopiesAreShownByAnotherProgram(t *testing.T) {
	spreadsheet(t)
	dir := t.TempDir()
	blank, err := xlsx.Write(templates.Blank())
	if err != nil {
		t.Fatal(err)
	}
	var paths []string
	for name, data := range map[string][]byte{"slips.xlsx": spoilt(t), "blank.xlsx": blank} {
		path := filepath.Join(dir, name)
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	out := converted(t, "xlsx", paths)
	for _, path := range paths {
		again, err := os.ReadFile(filepath.Join(out, filepath.Base(path)))
		if err != nil {
			t.Fatal(err)
		}
		path = filepath.Join(dir, "again-"+filepath.Base(path))
		if err := os.WriteFile(path, again, 0o644); err != nil {
			t.Fatal(err)
		}
		paths = append(paths, path)
	}
	var copies []string
	for _, path := range paths {
		var said bytes.Buffer
		if s := (world{Out: io.Discard, Err: &said}).run([]string{"check", "--marked", path}); s != problems {
			t.Fatalf("%s: ended with %d: %s", path, s, said.String())
		}
		copies = append(copies, templates.MarkedName(path))
	}
	out = converted(t, "xlsx", copies)
	for i, path := range copies {
		t.Run(filepath.Base(path), func(t *testing.T) {
			was, err := xlsx.Open(paths[i])
			if err != nil {
				t.Fatal(err)
			}
			found := priceOne(was.Name, was, nil, nil).problems
			shown, err := xlsx.Open(filepath.Join(out, filepath.Base(path)))
			if err != nil {
				t.Fatal(err)
			}
			shown.Name = was.Name
			if n := told(t, shown, found); n < 5 {
				t.Errorf("only %d problems are told", n)
			}
			sameProblems(t, shown, found)
		})
	}
}

// Thousands of problems on one sheet are told, each on its cell.
func TestThousandsOfProblemsAreMarked(t *testing.T) {
	base := archive(t, filepath.Join("..", "..", "testdata", "problems", "base.txt"))
	for i, f := range base.Files {
		if f.Name == "materials" {
			var rows strings.Builder
			rows.Write(f.Data)
			for n := range 5000 {
				fmt.Fprintf(&rows, "Stuff %d\tlitr\t1.00\n", n)
			}
			base.Files[i].Data = []byte(rows.String())
		}
	}
	data, err := xlsx.Write(templates.Plain(tables(base)))
	if err != nil {
		t.Fatal(err)
	}
	book, err := xlsx.Read("yard.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	found := priceOne(book.Name, book, nil, nil).problems
	copied := markedCopy(t, data, book, found)
	sameProblems(t, copied, found)
	if n := told(t, copied, found); n != 5000 || len(found) != 5000 {
		t.Errorf("%d problems", len(found))
	}
}
