package templates

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// alikeBut compares what was read, the cells it came from aside.
var alikeBut = cmp.Options{
	cmp.Comparer(func(origin.Cell, origin.Cell) bool { return true }),
	cmp.Comparer(func(map[job.Heading]int, map[job.Heading]int) bool { return true }),
	cmp.Comparer(func(a, b decimal.Decimal) bool { return a.Equal(b) }),
	cmp.Comparer(func(a, b money.Percent) bool { return a.Decimal().Equal(b.Decimal()) }),
	cmp.Comparer(func(a, b money.Price) bool { return a.Decimal().Equal(b.Decimal()) }),
}

// TestTheJobIsTheSameHoweverCarelesslyItsSheetsAreLaidOut moves columns about,
// adds others, writes above the headings, leaves rows blank, and changes the
// case and spacing of headings and names.
func TestTheJobIsTheSameHoweverCarelesslyItsSheetsAreLaidOut(t *testing.T) {
	wantJob, wantBook := newYard(t).clean()
	rapid.Check(t, func(t *rapid.T) {
		tables := exampleTables()
		for i := range tables {
			if tables[i].Sheet != "Job" {
				muddle(t, &tables[i])
			}
			tables[i].Sheet = spell(t, tables[i].Sheet)
		}
		shuffled := rapid.Permutation(tables).Draw(t, "sheets")
		j, b, found := Read(TextBook("yard.xlsx", shuffled), nil)
		if len(found) > 0 {
			t.Fatalf("problems: %v", found)
		}
		if d := cmp.Diff(wantJob, j, alikeBut); d != "" {
			t.Errorf("job: %s", d)
		}
		if d := cmp.Diff(wantBook, b, alikeBut); d != "" {
			t.Errorf("price book: %s", d)
		}
	})
}

// muddle lays a table out in another way that means the same.
func muddle(t *rapid.T, tab *Table) {
	heads, cells := tab.Rows[0].Cells, tab.Rows[1].Cells
	order := rapid.Permutation(upTo(len(heads)+2)).Draw(t, "columns")
	var newHeads, newCells []string
	for _, i := range order {
		if i < len(heads) {
			newHeads, newCells = append(newHeads, spell(t, heads[i])), append(newCells, cells[i])
		} else {
			newHeads, newCells = append(newHeads, fmt.Sprintf("zzz our own %d", i)), append(newCells, "anything (ft)")
		}
	}
	tab.Rows = nil
	for range rapid.IntRange(0, 4).Draw(t, "rows above") {
		tab.Rows = append(tab.Rows, TextRow{Cells: []string{"", "of the yard, spring"}})
	}
	tab.Rows = append(tab.Rows, TextRow{Cells: newHeads}, TextRow{Cells: []string{""}}, TextRow{Cells: newCells})
}

// spell is a text in another case and spacing, and as people mark headings.
func spell(t *rapid.T, s string) string {
	switch rapid.IntRange(0, 4).Draw(t, "spelling") {
	case 0:
		return strings.ToUpper(s)
	case 1:
		return "  " + strings.ReplaceAll(s, " ", " \u00a0 ") + " "
	case 2:
		return strings.ReplaceAll(s, "-", " ")
	case 3:
		return strings.Replace(s, " %", "%", 1)
	}
	return s
}

func upTo(n int) []int {
	out := make([]int, n)
	for i := range out {
		out[i] = i
	}
	return out
}

func TestATitleThatIsAHeadingWordIsNotTakenForTheHeadings(t *testing.T) {
	y := newYard(t)
	tab := y.table("Timber")
	tab.Rows = append([]TextRow{{Cells: []string{"Timber"}}}, tab.Rows...)
	_, b := y.clean()
	if len(b.Timber) != 1 || b.Timber[0].Timber != "Oak" {
		t.Errorf("%d rows of Timber", len(b.Timber))
	}
}

func TestALoneHeadingIsEnoughForASheetThatAsksNoMore(t *testing.T) {
	y := newYard(t).without("Timber")
	y.tables = append(y.tables, ParseTSV("timber.tsv", "Timber\nOak\nElm\n"))
	_, b := y.clean()
	if len(b.Timber) != 2 || b.Timber[1].Timber != "Elm" {
		t.Errorf("%d rows of Timber", len(b.Timber))
	}
}

func TestExampleRowsArePassedOverWhereverTheyStand(t *testing.T) {
	j, _ := newYard(t).also("Members", "Ref", "EXAMPLE:  4.9").also("Members", "Ref", "4.9").clean()
	if len(j.Members) != 2 || j.Members[1].Ref != "4.9" {
		t.Errorf("%d members", len(j.Members))
	}
	j, _ = newYard(t).set("Members", "Note", "example: see the survey").clean()
	if len(j.Members) != 1 {
		t.Error("a note that begins like an example has its row passed over")
	}
}

func TestTheUnitOfAHeadingIsStrongerThanTheJobs(t *testing.T) {
	y := newYard(t).set("Job", "Lengths in", "ft").set("Job", "Sided and moulded in", "in").
		set("Job", "Spacing of frames", "18 in").set("Members", "Shortest piece", "2.7 m").
		set("Members", "Sided", "2 1/2").set("Members", "Moulded", "9").set("Members", "Length", "38.5").set("Members", "Longest piece", "20")
	for _, h := range []string{"Length", "Renewed length", "Shortest piece", "Longest piece", "Sided", "Moulded", "Sweep", "Spacing"} {
		y.head("Members", h, h)
	}
	y.head("Members", "Longest piece", "Longest piece (ft)")
	j, _ := y.clean()
	m := j.Members[0]
	for _, c := range []struct {
		name      string
		got, want measure.Length
	}{
		{"Length", m.Length, 38*measure.Foot + 6*measure.Inch},
		{"Sided", m.Sided, 5 * measure.Inch / 2},
		{"Moulded", m.Moulded, 9 * measure.Inch},
		{"Shortest piece", m.Shortest, 2700 * measure.Millimetre},
		{"Longest piece", m.Longest, 20 * measure.Foot},
		{"Spacing of frames", j.FrameSpacing, 18 * measure.Inch},
		// 25.4 under "Length overall (m)" stays in metres.
		{"Length overall", j.LengthOverall, 25400 * measure.Millimetre},
	} {
		if c.got != c.want {
			t.Errorf("%s is %s m, want %s m", c.name, c.got.Metres(), c.want.Metres())
		}
	}
}

func TestTheJobSheetIsReadByItsHeadingsInAnyOrder(t *testing.T) {
	y := newYard(t)
	tab := y.table("Job")
	slices.Reverse(tab.Rows)
	for i, row := range tab.Rows {
		tab.Rows[i].Cells = []string{"", "  " + strings.ToUpper(row.Cells[0]), row.Cells[1], "what it means", "an example"}
	}
	tab.Rows = append([]TextRow{{Cells: []string{"Speedwell"}}}, tab.Rows...)
	// The table's own forms hold for the first two columns only, so the sheet
	// is built cell by cell.
	w := TextBook("yard.xlsx", y.tables)
	i := slices.IndexFunc(w.Sheets, func(p grid.Page) bool { return p.Name == "Job" })
	w.Sheets[i] = tab.page()
	j, _, found := Read(w, nil)
	for _, p := range found {
		t.Error(p)
	}
	want, _ := newYard(t).clean()
	if d := cmp.Diff(want.Particulars, j.Particulars, alikeBut, cmp.FilterPath(func(p cmp.Path) bool {
		return p.String() == "Cells"
	}, cmp.Ignore())); d != "" {
		t.Error(d)
	}
	if at := j.Cell("Paper").Address(); at != "C2" {
		t.Errorf("the last heading's value stands in %s, want C2", at)
	}
}

func TestAWorkbookWithNothingInItIsNoYardWorkbook(t *testing.T) {
	_, _, found := Read(grid.Workbook{Name: "empty.xlsx"}, nil)
	var said []string
	for _, p := range found {
		said = append(said, p.String())
	}
	want := []string{
		`empty.xlsx: Job: error: the sheet "Job" is not there; it is required [sheet-missing]`,
		`empty.xlsx: Sections: error: the sheet "Sections" is not there; it is required [sheet-missing]`,
	}
	if !slices.Equal(said, want) {
		t.Errorf("got %q", said)
	}
}

func TestABareJobNeedsOnlyItsOwnSheets(t *testing.T) {
	y := newYard(t)
	for _, o := range priceSheets() {
		if o.Name != "VAT" {
			y.without(o.Name)
		}
	}
	for _, c := range [][2]string{{"Members", "Timber"}, {"Members", "Fastening"}, {"Members", "Build-up"},
		{"Items", "Trade"}, {"Preliminaries", "Plant"}} {
		y.set(c[0], c[1], "")
	}
	y.without("Dayworks").without("Gangs")
	j, b := y.clean()
	if len(j.Members) != 1 || j.Members[0].Carried != job.Measured || len(b.Norms) != 0 {
		t.Errorf("%d members, %d norms", len(j.Members), len(b.Norms))
	}
}

func TestThePaperIsOneOfTwo(t *testing.T) {
	for typed, want := range map[string]job.Paper{"": job.A4, "a4": job.A4, " LETTER ": job.Letter} {
		if j, _ := newYard(t).set("Job", "Paper", typed).clean(); j.Paper != want {
			t.Errorf("%q is read as %q, want %q", typed, j.Paper, want)
		}
	}
	_, _, found := newYard(t).set("Job", "Paper", "foolscap").read()
	if len(found) != 1 || found[0].Code != problem.ChoiceUnknown {
		t.Errorf("of a paper that is not offered was found %v", found)
	}
}
