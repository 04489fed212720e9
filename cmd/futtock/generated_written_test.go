package main

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"futtock/output/explain"
	"futtock/output/sheets"
	"futtock/output/text"
	"futtock/templates"
	"futtock/templates/grid"
)

// The order of the rows has no meaning but where it is printed (sections,
// dayworks, codes of VAT), and the order of the columns none at all.
func TestRowsInAnotherOrderAreTheSameBill(t *testing.T) {
	anyJob(t, func(t *rapid.T, tables []templates.Table) {
		draw := rand.New(rand.NewPCG(1, rapid.Uint64().Draw(t, "shuffle")))
		want := cellsOf(sheets.Bill(pricedTables(t, tables)))
		moved := make([]templates.Table, len(tables))
		for i, table := range tables {
			moved[i] = shuffled(table, draw)
		}
		draw.Shuffle(len(moved), func(i, k int) { moved[i], moved[k] = moved[k], moved[i] })
		if d := cmp.Diff(want, cellsOf(sheets.Bill(pricedTables(t, moved)))); d != "" {
			t.Fatalf("the bill is another (-as typed +moved):\n%s", d)
		}
	})
}

// shuffled is a sheet with its columns, and where it may be its rows, in
// another order.
func shuffled(t templates.Table, draw *rand.Rand) templates.Table {
	rows := slices.Clone(t.Rows)
	out := templates.Table{Sheet: t.Sheet}
	switch t.Sheet {
	case "Job":
		draw.Shuffle(len(rows), func(i, k int) { rows[i], rows[k] = rows[k], rows[i] })
		out.Rows = rows
		return out
	case "Sections", "Dayworks", "VAT":
	default:
		body := rows[1:]
		draw.Shuffle(len(body), func(i, k int) { body[i], body[k] = body[k], body[i] })
	}
	columns := draw.Perm(len(rows[0].Cells))
	for _, r := range rows {
		cells := make([]string, len(columns))
		for i, c := range columns {
			cells[i] = r.Cells[c]
		}
		out.Rows = append(out.Rows, templates.TextRow{Cells: cells})
	}
	return out
}

// cellsOf is all that stands in a workbook, a line a cell.
func cellsOf(book *grid.Book) string {
	var b strings.Builder
	for _, s := range book.Sheets {
		for n, row := range s.Rows {
			for i, c := range row.Cells {
				if c.Kind != grid.Blank || c.Formula != "" {
					fmt.Fprintf(&b, "%s %s%d %s%s %s =%s\n", s.Name, column(i+1), n+1, c.Text, c.Number, c.Day.Format("2006-01-02"), c.Formula)
				}
			}
		}
	}
	return b.String()
}

// Bill, working and tender are written of any job, the same bytes each time,
// and everything that has a name in it can be explained. Writing takes its time,
// so that these jobs are few.
func TestAnyJobIsWrittenAndExplained(t *testing.T) {
	few, jobs := 30, generated()
	if testing.Short() {
		few = 6
	}
	for i := range few {
		tables := jobs.Example(1000 + i)
		first, again := pricedTables(t, tables), pricedTables(t, tables)
		files, err := documents(first)
		if err != nil {
			t.Fatal(err)
		}
		twice, err := documents(again)
		if err != nil {
			t.Fatal(err)
		}
		for i, f := range files {
			if !bytes.Equal(f.Data, twice[i].Data) {
				t.Fatalf("%s differs from one run to the next", f.Name)
			}
		}
		for _, ref := range explain.Refs(first) {
			var out bytes.Buffer
			if text.Explained(&out, first, explain.Of(first, ref)); out.Len() == 0 {
				t.Fatalf("nothing is said of %q", ref)
			}
		}
	}
}
