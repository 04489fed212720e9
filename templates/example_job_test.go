package templates

import (
	"slices"
	"testing"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/problem"
)

// exampleTables is the examples of every sheet as one job, one row a sheet.
func exampleTables() []Table {
	var tables []Table
	for _, o := range Sheets() {
		t := Table{Sheet: o.Name}
		if o.Upright {
			for _, h := range o.Headings {
				t.Rows = append(t.Rows, TextRow{Cells: []string{h.Title(), h.Example}})
			}
		} else {
			var heads, cells []string
			for _, h := range o.Headings {
				heads = append(heads, h.Title())
				cells = append(cells, exampleInRow(h))
			}
			t.Rows = []TextRow{{Cells: heads}, {Cells: cells}}
		}
		tables = append(tables, t)
	}
	return tables
}

// yard is the example job, to be changed cell by cell.
type yard struct {
	t      *testing.T
	tables []Table
}

func newYard(t *testing.T) *yard { return &yard{t, exampleTables()} }

func (y *yard) table(sheet string) *Table {
	y.t.Helper()
	for i := range y.tables {
		if y.tables[i].Sheet == sheet {
			return &y.tables[i]
		}
	}
	y.t.Fatalf("no sheet %s", sheet)
	return nil
}

// col is where a heading of the sheet stands; of the Job its row.
func (y *yard) col(sheet, heading string) int {
	y.t.Helper()
	o, _ := outline(sheet)
	if i, _ := o.heading(heading); i >= 0 {
		return i
	}
	y.t.Fatalf("no heading %s in %s", heading, sheet)
	return 0
}

// set types a text into the sheet's one row.
func (y *yard) set(sheet, heading, text string) *yard {
	y.t.Helper()
	tab, i := y.table(sheet), y.col(sheet, heading)
	if o, _ := outline(sheet); o.Upright {
		tab.Rows[i].Cells[1] = text
	} else {
		tab.Rows[1].Cells[i] = text
	}
	return y
}

// head writes another text in place of a heading.
func (y *yard) head(sheet, heading, text string) *yard {
	y.t.Helper()
	y.table(sheet).Rows[0].Cells[y.col(sheet, heading)] = text
	return y
}

// also adds a copy of the sheet's one row, with other texts under some headings.
func (y *yard) also(sheet string, changed ...string) *yard {
	y.t.Helper()
	tab := y.table(sheet)
	cells := slices.Clone(tab.Rows[1].Cells)
	for i := 0; i < len(changed); i += 2 {
		cells[y.col(sheet, changed[i])] = changed[i+1]
	}
	tab.Rows = append(tab.Rows, TextRow{Cells: cells})
	return y
}

// without takes a whole sheet away.
func (y *yard) without(sheet string) *yard {
	y.tables = slices.DeleteFunc(y.tables, func(t Table) bool { return t.Sheet == sheet })
	return y
}

func (y *yard) read() (job.Job, rates.Book, problem.List) {
	return Read(TextBook("yard.xlsx", y.tables), nil)
}

// clean reads the job and fails on any problem.
func (y *yard) clean() (job.Job, rates.Book) {
	y.t.Helper()
	j, b, found := y.read()
	for _, p := range found {
		y.t.Error(p)
	}
	return j, b
}

func TestTheExamplesOfAllSheetsMakeOneJobThatReadsCleanly(t *testing.T) {
	j, b := newYard(t).clean()
	for name, n := range map[string]int{
		"Sections": len(j.Sections), "Members": len(j.Members), "Items": len(j.Items), "Build-ups": len(b.BuildUps),
		"Norms": len(b.Norms), "Labour": len(b.Labour), "Timber": len(b.Timber), "Stock": len(b.Stock),
		"Materials": len(b.Materials), "Plant": len(b.Plant), "Subcontract": len(b.Subcontract),
		"Preliminaries": len(j.Preliminaries), "Sums": len(j.Sums), "Dayworks": len(j.Dayworks), "Stages": len(j.Stages),
		"Gangs": len(j.Gangs), "Closures": len(j.Closures), "Risks": len(j.Risks), "Clauses": len(j.Clauses), "Overheads and profit": len(j.Additions),
		"VAT": len(b.VAT), "Fastenings": len(b.Fastenings),
	} {
		if n != 1 {
			t.Errorf("%d rows of %s, want 1", n, name)
		}
	}
	for _, c := range []struct{ what, got, want string }{
		{"vessel", j.Vessel, "Speedwell"},
		{"tender date", j.TenderDate.Format(isoDay), "2026-03-12"},
		{"where the vessel stands", j.Cell("Vessel").String(), "yard.xlsx: Job!B1"},
		{"length", j.Members[0].Length.Metres().String(), "11.7"},
		{"sided", j.Members[0].Sided.Metres().String(), "0.063"},
		{"build-up", j.Members[0].BuildUp, "Side plank"},
		{"where the length stands", j.Members[0].LengthAt.String(), "yard.xlsx: Members!G2"},
		{"difficulty", j.Items[0].Difficulty.String(), "1.1"},
		{"driver", string(b.BuildUps[0].By), "length"},
		{"loss", b.Stock[0].Loss.String(), "10 %"},
		{"price", b.Stock[0].Price.String(), "2150.00"},
		{"all-in hour", b.Labour[0].Hour().String(), "28.75"}, // 19.80 x 2028 x 1.18 / 1720 + 1.20 = 28.7477
		{"closure", j.Closures[0].To.Format(isoDay), "2026-08-14"},
	} {
		if c.got != c.want {
			t.Errorf("%s is %s, want %s", c.what, c.got, c.want)
		}
	}
}
