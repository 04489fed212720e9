package demo_test

import (
	"encoding/csv"
	"io/fs"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/templates/demo"
)

// row is a row of a sheet, by heading without its unit.
type row map[string]string

// sheet is the rows of a sheet of the demonstration, as it stands in its file.
func sheet(t *testing.T, name string) []row {
	t.Helper()
	data, err := fs.ReadFile(demo.Files(), name+".tsv")
	if err != nil {
		t.Fatal(err)
	}
	lines := strings.Split(strings.TrimRight(string(data), "\n"), "\n")
	head := strings.Split(lines[0], "\t")
	var rows []row
	for _, l := range lines[1:] {
		r := row{}
		for i, cell := range strings.Split(l, "\t") {
			title, _, _ := strings.Cut(head[i], " (m")
			title, _, _ = strings.Cut(title, " (kg")
			r[title] = cell
		}
		rows = append(rows, r)
	}
	return rows
}

// The demonstration is a whole refit: nothing that the tool does for one is
// without a row in it, and no row of its price book is without use.
func TestTheDemonstrationIsAWholeRefit(t *testing.T) {
	is := func(column string, values ...string) func(row) bool {
		return func(r row) bool { return slices.Contains(values, r[column]) }
	}
	has := func(column, part string) func(row) bool {
		return func(r row) bool { return strings.Contains(r[column], part) }
	}
	all := func(row) bool { return true }
	both := func(a, b func(row) bool) func(row) bool { return func(r row) bool { return a(r) && b(r) } }
	said := func(column string) func(row) bool { return func(r row) bool { return r[column] != "" } }
	for _, c := range []struct {
		name, sheet string
		of          func(row) bool
		least       int
	}{
		{"members", "members", all, 120},
		{"sections", "sections", all, 12},
		{"norms", "norms", all, 60},
		{"stock lines, history in them", "stock", all, 50},
		{"materials", "materials", all, 40},
		{"stages", "stages", all, 10},
		{"species", "timber", all, 5},
		{"lengths in feet and inches", "members", has("Length", "'"), 10},
		{"curved members", "members", said("Sweep"), 10},
		{"members from grown crooks and forks", "members", both(is("Treatment", "renew"), func(r row) bool {
			return strings.Contains(r["Stock"], "crook") || strings.Contains(r["Stock"], "fork")
		}), 3},
		{"grown knees", "members", has("Stock", "knee"), 3},
		{"rows of double frames under one bill item", "members", is("Bill item", "FR1"), 5},
		{"part renewals with scarphs", "members", both(is("Treatment", "part"), is("Joint", "scarph")), 10},
		{"long runs of deck", "members", has("Build-up", "Laid deck"), 2},
		{"wales in scarphed lengths, both sides", "members", both(has("Member", "wale"), is("Joint", "scarph")), 4},
		{"heavy pieces from one chosen baulk", "members", is("Stock", "oak baulk 340 chosen"), 1},
		{"pieces of the rudder", "members", is("Bill item", "RU1"), 3},
		{"bands of the rudder", "items", has("Description", "rudder bands"), 1},
		{"ironwork blasted and coated", "items", is("Build-up", "Blast ironwork"), 2},
		{"hydraulic drives as prime cost", "sums", both(is("Kind", "prime cost"), has("Description", "Hydraulic")), 1},
		{"docking", "items", is("Section", "DO"), 5},
		{"crane lifts", "build-ups", is("Key", "Crane lift"), 3},
		{"cover", "preliminaries", has("Plant", "cover"), 1},
		{"lead paint and its waste", "items", has("Description", "ead paint"), 2},
		{"spars unstepped and refinished", "members", has("Build-up", "refinish"), 4},
		{"owner's timber", "members", has("Stock", "owner's"), 1},
		{"doubtful frame tops as a risk", "members", both(has("Member", "Frame tops"), is("Carried as", "risk")), 1},
		{"an option", "members", is("Carried as", "option"), 1},
		{"provisional quantities", "members", is("Carried as", "provisional"), 1},
		{"a rate only", "members", is("Carried as", "rate only"), 1},
		{"provisional sums", "sums", is("Kind", "provisional defined", "provisional undefined"), 2},
	} {
		n := 0
		for _, r := range sheet(t, c.sheet) {
			if c.of(r) {
				n++
			}
		}
		if n < c.least {
			t.Errorf("%s: %d, want %d or more", c.name, n, c.least)
		}
	}
	idle(t)
}

// idle tells of what stands in the price book and is asked for nowhere.
func idle(t *testing.T) {
	t.Helper()
	asked := map[string]bool{}
	for sheetName, columns := range map[string][]string{
		"members": {"Build-up", "Timber", "Fastening"}, "items": {"Build-up"}, "build-ups": {"Key"},
		"fastenings": {"Material"}, "preliminaries": {"Plant"},
	} {
		for _, r := range sheet(t, sheetName) {
			for _, c := range columns {
				asked[r[c]] = true
			}
		}
	}
	for sheetName, column := range map[string]string{
		"build-ups": "Build-up", "norms": "Task", "materials": "Material", "plant": "Plant", "subcontract": "Work",
		"timber": "Timber", "fastenings": "Rule",
	} {
		for _, r := range sheet(t, sheetName) {
			if !asked[r[column]] {
				t.Errorf("%s: %q is asked for nowhere", sheetName, r[column])
			}
		}
	}
}

// What the demonstration says of its timbers is what is published of them.
func TestTheTimbersOfTheDemonstrationAreAsPublished(t *testing.T) {
	of := map[string][2]string{
		"SHR-SESS-R": {"oak", "Radial %"}, "SHR-LARG-R": {"larch", "Radial %"},
		"SHR-DFC-R": {"Douglas fir", "Radial %"}, "SHR-DFC-T": {"Douglas fir", "Tangential %"},
		"SHR-IROKO-C-T": {"iroko", "Tangential %"}, "SHR-ELMG-T": {"elm", "Tangential %"},
		"SHR-ASHG-R": {"ash", "Radial %"}, "SHR-OPEPE-R": {"opepe", "Radial %"},
		"DEN-LARCH-UK": {"larch", "Density"}, "DEN-DF": {"Douglas fir", "Density"},
		"DEN-ASH": {"ash", "Density"}, "DEN-OPEPE": {"opepe", "Density"},
	}
	f, err := os.Open("../../testdata/published/timber.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	timbers := sheet(t, "timber")
	for _, r := range rows[1:] {
		at, ok := of[r[0]]
		if !ok {
			t.Errorf("%s is not checked", r[0])
			continue
		}
		delete(of, r[0])
		i := slices.IndexFunc(timbers, func(timber row) bool { return timber["Timber"] == at[0] })
		if i < 0 {
			t.Errorf("there is no %s", at[0])
			continue
		}
		got, want := decimal.RequireFromString(strings.TrimSuffix(timbers[i][at[1]], "%")), decimal.RequireFromString(r[3])
		if got.Sub(want).Abs().GreaterThan(decimal.RequireFromString(r[5])) {
			t.Errorf("%s of %s is %s, published %s (%s)", at[1], at[0], got, want, r[6])
		}
	}
	if len(of) > 0 {
		t.Errorf("%d checks have no published row", len(of))
	}
}
