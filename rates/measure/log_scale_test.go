package measure

import "testing"

// The rule the International table was made by gives the table in all of its
// cells but three, which stand one step of 5 board feet above it.
func TestTheInternationalRuleGivesItsTableButForThreeCells(t *testing.T) {
	above := map[scaleCell]bool{{15, 16}: true, {17, 14}: true, {28, 14}: true}
	table := international()
	if len(table) != 25*6 {
		t.Fatalf("the table has %d cells, want 150", len(table))
	}
	for cell, printed := range table {
		want := printed
		if above[cell] {
			want -= 5
		}
		if got := bySections(cell.in, cell.ft); got != want {
			t.Errorf("%d in by %d ft: the rule gives %d, want %d", cell.in, cell.ft, got, want)
		}
	}
}

// A larger or longer log never scales less; a slip in a row of the table would.
func TestScalesNeverFallAsTheLogGrows(t *testing.T) {
	for name, table := range map[string]map[scaleCell]int64{"international": international(), "scribner": scribner()} {
		if len(table) < 150 {
			t.Fatalf("the %s table has %d cells", name, len(table))
		}
		for cell, bf := range table {
			for _, next := range []scaleCell{{cell.in + 1, cell.ft}, {cell.in, cell.ft + 2}} {
				if more, ok := table[next]; ok && more < bf {
					t.Errorf("%s: %v scales %d and %v only %d", name, cell, bf, next, more)
				}
			}
		}
	}
	if n := len(scribner()); n != 35*8 {
		t.Errorf("Scribner's table has %d cells, want 280", n)
	}
}
