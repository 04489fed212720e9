package sheets_test

import (
	"strings"
	"testing"

	"futtock/estimate/job"
	"futtock/output/sheets"
	"futtock/templates/grid"
)

// cellAt is the row and the cell that a link leads to.
func cellAt(t *testing.T, b *grid.Book, link string) (grid.Row, *grid.Sheet, int) {
	t.Helper()
	m := reference.FindStringSubmatch(link)
	if m == nil {
		t.Fatalf("%q leads nowhere", link)
	}
	s := sheet(t, b, m[1])
	row := 0
	for _, d := range m[3] {
		row = 10*row + int(d-'0')
	}
	return s.Rows[row-1], s, row
}

// A section of the summary leads to its first item, to the band of its rows as
// taken off and to the band of its pennies; those bands lead back to it; and a row
// of the schedule leads to its item and that back to the row.
func TestASectionLeadsToItsRowsAndTheyLeadBack(t *testing.T) {
	r := demonstration(t)
	b := sheets.Estimate(r)
	summary := b.Sheets[0]
	section := map[string]job.Section{}
	for _, s := range r.Job.Sections {
		section[s.Section] = s
	}
	of := map[string]string{} // section of an item
	for _, i := range r.Priced.Items {
		of[i.Ref] = i.Section
	}
	seen := 0
	for n, row := range summary.Rows {
		if len(row.Cells) < 5 || section[row.Cells[0].Text].Section == "" {
			continue
		}
		key := row.Cells[0].Text
		seen++
		if item, _, _ := cellAt(t, b, row.Cells[0].Link); of[item.Cells[0].Text] != key || row.Cells[1].Link != row.Cells[0].Link {
			t.Errorf("section %s leads to %q in the make-up", key, item.Cells[0].Text)
		}
		for col, name := range map[int]string{2: "Members", 3: "Reconciliation"} {
			band, on, _ := cellAt(t, b, row.Cells[col].Link)
			if on.Name != name || band.Cells[0].Text != key || band.Cells[1].Text != section[key].Title {
				t.Errorf("section %s leads to %q of %s", key, band.Cells[0].Text, on.Name)
			}
			for _, c := range band.Cells[:2] {
				if _, on, at := cellAt(t, b, c.Link); on != summary || at != n+1 {
					t.Errorf("the band of %s in %s leads to row %d of %s", key, name, at, on.Name)
				}
			}
		}
	}
	if seen != len(r.Bill.Sections) {
		t.Errorf("%d sections of %d lead on", seen, len(r.Bill.Sections))
	}

	members, rows := sheet(t, b, "Members"), 0
	in := "" // the section whose band was last passed
	item := map[string]string{}
	for _, i := range r.Priced.Items {
		for _, w := range i.Rows {
			item[w.Ref] = i.Ref
		}
	}
	for _, row := range members.Rows {
		if len(row.Cells) < 2 {
			continue
		}
		ref := row.Cells[0].Text
		if section[ref].Title == row.Cells[1].Text && row.Cells[1].Text != "" {
			in = ref
		}
		if item[ref] == "" {
			continue
		}
		rows++
		head, on, _ := cellAt(t, b, row.Cells[0].Link)
		if on.Name != "Make-up" || head.Cells[0].Text != item[ref] || of[item[ref]] != in {
			t.Errorf("row %s, under %s, leads to %q of %s and is of item %s in %s", ref, in, head.Cells[0].Text, on.Name, item[ref], of[item[ref]])
		}
		if first, on, _ := cellAt(t, b, head.Cells[0].Link); on != members || item[first.Cells[0].Text] != item[ref] {
			t.Errorf("item %s leads back to %q of %s", item[ref], first.Cells[0].Text, on.Name)
		}
	}
	if rows != len(item) {
		t.Errorf("%d rows of %d lead to their items", rows, len(item))
	}
}

// Charts stand beside their tables and over no figure, and name their axis of
// figures; what they show comes out on paper.
func TestChartsStandBesideTheirTables(t *testing.T) {
	b := laidOutSimulated(t)
	charts := 0
	for _, s := range b.Sheets {
		for _, c := range s.Charts {
			charts++
			if c.Title == "" || c.Alt == "" || c.InTitle == "" {
				t.Errorf("%s: a chart without its title, its axis or its words: %+v", s.Name, c)
			}
			var left, right string
			var top, bottom int
			m := reference.FindStringSubmatch(c.Range)
			left, right = m[2], m[4]
			top, bottom = number(m[3]), number(m[5])
			for n := top; n <= bottom && n <= len(s.Rows); n++ {
				for k, cell := range s.Rows[n-1].Cells {
					if k+1 >= columnOf(left) && k+1 <= columnOf(right) && cell.Kind != grid.Blank {
						t.Errorf("%s: the chart lies over %s", s.Name, cell.Text+cell.Number.String())
					}
				}
			}
			area := reference.FindStringSubmatch(strings.ReplaceAll(s.Print.Area, "$", ""))
			if columnOf(right) > columnOf(area[4]) || bottom > number(area[5]) {
				t.Errorf("%s: the chart over %s is not printed, the area is %s", s.Name, c.Range, s.Print.Area)
			}
			if s.Print.Repeat != "" {
				if m := reference.FindStringSubmatch(strings.ReplaceAll(s.Print.Repeat, "$", "A")); number(m[3]) >= top && number(m[3]) <= bottom {
					t.Errorf("%s: a piece of the chart is printed with row %s at the head of every page", s.Name, m[3])
				}
			}
		}
	}
	if charts != 5 {
		t.Errorf("%d charts, and there are those of sections, old fabric, stages, draws and cash", charts)
	}
}

func number(digits string) (n int) {
	for _, d := range digits {
		n = 10*n + int(d-'0')
	}
	return n
}

func columnOf(letters string) (n int) {
	for _, l := range letters {
		n = 26*n + int(l-'A') + 1
	}
	return n
}

// The rows of every pattern are kept on one page with its drawing.
func TestAPatternIsKeptWithItsDrawing(t *testing.T) {
	s := sheet(t, laidOut(t), "Cutting")
	pictures := 0
	for _, i := range s.Images {
		row := number(i.Cell[1:])
		from := row // of the rows printed on one page with that of the drawing
		for from > 1 && s.Rows[from-2].Keep {
			from--
		}
		if from < row && s.Rows[from-1].Cells[0].Text != "" {
			pictures++
		}
	}
	if pictures != len(s.Images) || pictures < 50 {
		t.Errorf("%d drawings of %d are kept with the rows above them", pictures, len(s.Images))
	}
}
