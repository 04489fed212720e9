package templates

import (
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/rates/problem"
	"futtock/templates/grid"
	"futtock/templates/xlsx"
)

// saved is a workbook written to a file and read back.
func saved(t *testing.T, b *grid.Book) grid.Workbook {
	t.Helper()
	data, err := xlsx.Write(b)
	if err != nil {
		t.Fatal(err)
	}
	w, err := xlsx.Read("yard.xlsx", data)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

func TestTheEmptyWorkbookAsksOnlyForThePartsOfTheJobThatMustBeThere(t *testing.T) {
	j, b, found := Read(saved(t, Blank()), nil)
	var asked []string
	for _, p := range found {
		if p.Code != problem.Required || p.At.Sheet != "Job" {
			t.Error(p)
		}
		name, _, _ := strings.Cut(strings.TrimPrefix(p.Text, `"`), `"`)
		asked = append(asked, name)
	}
	want := []string{"Vessel", "Client", "Yard", "Tender reference", "Tender date", "VAT code", "Hours a week"}
	if !slices.Equal(asked, want) {
		t.Errorf("asks for %v, want %v", asked, want)
	}
	if n := len(j.Sections) + len(j.Members) + len(j.Items) + len(j.Preliminaries) + len(j.Sums) + len(j.Dayworks) +
		len(j.Stages) + len(j.Gangs) + len(j.Closures) + len(j.Risks) + len(j.Clauses) + len(j.Additions) + len(b.BuildUps) + len(b.Norms) +
		len(b.Labour) + len(b.Timber) + len(b.Stock) + len(b.Materials) + len(b.Plant) + len(b.Subcontract) + len(b.VAT) + len(b.Fastenings); n != 0 {
		t.Errorf("%d rows are read from the empty workbook", n)
	}
}

func TestTheExampleRowsBecomeAJobOnceTheirMarkIsTakenAway(t *testing.T) {
	b := Blank()
	for _, s := range b.Sheets {
		o, ok := outline(s.Name)
		switch {
		case !ok:
		case o.Upright:
			for i := headRow; i < len(s.Rows); i++ {
				s.Rows[i].Cells[1] = s.Rows[i].Cells[3]
			}
		default:
			c := &s.Rows[exampleRow-1].Cells[0]
			*c = typed(o.Headings[0].Form, strings.TrimPrefix(c.Text, exampleMark+" "))
		}
	}
	j, book, found := Read(saved(t, b), nil)
	for _, p := range found {
		t.Error(p)
	}
	wantJob, wantBook := newYard(t).clean()
	if d := cmp.Diff(wantJob, j, alikeBut); d != "" {
		t.Error(d)
	}
	if d := cmp.Diff(wantBook, book, alikeBut); d != "" {
		t.Error(d)
	}
}

func TestAFilledWorkbookReadsAsItsTablesDo(t *testing.T) {
	y := newYard(t).set("Members", "Length", `38' 4 1/2"`).set("Stock", "Loss %", "12.5%").
		head("Members", "Sided", "Sided (cm)").set("Members", "Sided", "6.35")
	b, err := Filled(y.tables)
	if err != nil {
		t.Fatal(err)
	}
	wantJob, wantBook := y.clean()
	for name, w := range map[string]grid.Workbook{"in memory": AsRead("yard.xlsx", b), "saved": saved(t, b)} {
		j, book, found := Read(w, nil)
		for _, p := range found {
			t.Error(name, p)
		}
		if d := cmp.Diff(wantJob, j, alikeBut); d != "" {
			t.Errorf("%s: %s", name, d)
		}
		if d := cmp.Diff(wantBook, book, alikeBut); d != "" {
			t.Errorf("%s: %s", name, d)
		}
	}
}

func TestAFilledWorkbookRefusesWhatIsNotDeclared(t *testing.T) {
	for _, c := range []struct{ name, sheet, text string }{
		{"a sheet", "Memebers", "Ref\n4.1"},
		{"a column", "Sections", "Section\tTitle\tColour\n4\tPlanking\tgreen"},
		{"a table without its headings", "Sections", "Section\n4"},
		{"a heading of the Job", "Job", "Vesssel\tSpeedwell"},
	} {
		if _, err := Filled([]Table{ParseTSV(c.sheet, c.text)}); err == nil {
			t.Errorf("%s is taken", c.name)
		}
	}
}

func TestColumnsAddedBesideATableInFeetAreInFeet(t *testing.T) {
	b, err := Filled([]Table{ParseTSV("members", "Ref\tSection\tMember\tNr\tLength (ft)\tTreatment")})
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(b.Sheets, func(s *grid.Sheet) bool { return s.Name == "Members" })
	var heads []string
	for _, c := range b.Sheets[i].Rows[headRow-1].Cells {
		heads = append(heads, c.Text)
	}
	for _, want := range []string{"Length (ft)", "Longest piece (ft)", "Sided (mm)"} {
		if !slices.Contains(heads, want) {
			t.Errorf("no heading %q", want)
		}
	}
}

func TestEveryColumnOfNamesAndChoicesHasItsList(t *testing.T) {
	b := Blank()
	byName := map[string]*grid.Sheet{}
	for _, s := range b.Sheets {
		byName[s.Name] = s
	}
	for _, o := range Sheets() {
		if len(byName[o.Name].Notes) != len(o.Headings) && !o.Upright {
			t.Errorf("%s: %d notes on %d headings", o.Name, len(byName[o.Name].Notes), len(o.Headings))
		}
		lists := byName[o.Name].Lists
		for _, h := range o.Headings {
			strict := h.Form == Choice && !h.Bracket || h.Form == YesNo
			if !strict && h.Form != Choice && h.Form != Unit && len(h.Refers) != 1 {
				continue
			}
			if len(lists) == 0 || lists[0].Title != h.Name || lists[0].Strict != strict {
				t.Errorf("%s: %s has no list of its own, held to %t", o.Name, h.Name, strict)
				break
			}
			sheet, _, _ := strings.Cut(lists[0].Source, "!")
			if byName[strings.Trim(sheet, "'")] == nil {
				t.Errorf("%s: the list of %s reads %s, which is not there", o.Name, h.Name, lists[0].Source)
			}
			lists = lists[1:]
		}
		if len(lists) > 0 {
			t.Errorf("%s: %d lists too many", o.Name, len(lists))
		}
	}
}
