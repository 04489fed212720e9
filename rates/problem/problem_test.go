package problem

import (
	"fmt"
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/rates/origin"
)

// oneOf is a code of a severity.
func oneOf(t *testing.T, s Severity) Code {
	t.Helper()
	for _, f := range Codes() {
		if f.Severity == s {
			return f.Code
		}
	}
	t.Fatalf("there is no code of severity %s", s)
	return ""
}

func TestAProblemIsPrintedOnOneLine(t *testing.T) {
	code := oneOf(t, Error)
	at := origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: 14, Col: 4}
	for _, c := range []struct {
		name string
		p    Problem
		want string
	}{
		{"with an example", Problem{Code: code, At: at, Text: `"6-3" is ambiguous; a length is wanted`, Example: `24' 6"`},
			`yard.xlsx: Members!D14: error: "6-3" is ambiguous; a length is wanted, such as 24' 6" [` + string(code) + `]`},
		{"with a near name", Problem{Code: code, At: at, Text: `there is no timber "oka"`, Near: "oak"},
			`yard.xlsx: Members!D14: error: there is no timber "oka"; did you mean "oak"? [` + string(code) + `]`},
		{"from no cell", Problem{Code: code, Text: "nothing is measured"}, `error: nothing is measured [` + string(code) + `]`},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := c.p.String(); got != c.want {
				t.Errorf("got  %s\nwant %s", got, c.want)
			}
		})
	}
}

func TestAListIsSortedAsTheWorkbookIsReadAndHoldsEachOnce(t *testing.T) {
	code := oneOf(t, Error)
	p := func(book, sheet string, row, col int, text string) Problem {
		return Problem{Code: code, At: origin.Cell{Book: book, Sheet: sheet, Row: row, Col: col}, Text: text}
	}
	want := List{
		p("a.xlsx", "Members", 2, 1, "first"),
		p("a.xlsx", "Members", 2, 9, "second"),
		p("a.xlsx", "Members", 10, 1, "a third"),
		p("a.xlsx", "Members", 10, 1, "b fourth"),
		p("a.xlsx", "items", 1, 1, "the case of a sheet aside"),
		p("a.xlsx", "Added", 1, 1, "sheets that are not in the order last, by name"),
		p("a.xlsx", "Zebra", 1, 1, "last of the book"),
		p("b.xlsx", "Members", 1, 1, "the next book"),
	}
	mixed := List{want[7], want[3], want[0], want[6], want[2], want[4], want[1], want[5], want[3], want[0]}
	before := append(List(nil), mixed...)
	if diff := cmp.Diff(want, mixed.Sorted([]string{"Members", "Items"})); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(before, mixed); diff != "" {
		t.Errorf("the list itself was changed: %s", diff)
	}
}

func TestAListCountsItsSeverities(t *testing.T) {
	e, w := oneOf(t, Error), oneOf(t, Warning)
	var l List
	l.Add(Problem{Code: w})
	if l.HasErrors() || l.Count(Warning) != 1 || l.Count(Error) != 0 {
		t.Errorf("a list of one warning has %d errors and %d warnings", l.Count(Error), l.Count(Warning))
	}
	l.Join(List{{Code: e}, {Code: w}})
	if !l.HasErrors() || l.Count(Warning) != 2 || l.Count(Error) != 1 {
		t.Errorf("a list of an error and two warnings has %d errors and %d warnings", l.Count(Error), l.Count(Warning))
	}
}

func TestWhatFollowsFromARefusedCellIsNotToldAgain(t *testing.T) {
	e, w := oneOf(t, Error), oneOf(t, Warning)
	cell := func(row, col int) origin.Cell {
		return origin.Cell{Book: "yard.xlsx", Sheet: "Members", Row: row, Col: col}
	}
	l := List{{Code: e, At: cell(2, 5), Text: "not a length"}, {Code: w, At: cell(3, 5), Text: "a likely slip"}, {Code: e, At: cell(4, 0), Text: "of a whole row"}}
	l.Follow(List{
		{Code: e, At: cell(2, 5), Text: "no stick is so long"},
		{Code: e, At: cell(2, 6), Text: "another cell of the row"},
		{Code: e, At: cell(3, 5), Text: "a cell that was taken"},
		{Code: e, At: cell(4, 0), Text: "the whole row"},
		{Code: e, At: cell(2, 7), With: cell(2, 5), Text: "what rests on the length"},
		{Code: e, At: cell(3, 7), With: cell(3, 5), Text: "what rests on a cell that was taken"},
	})
	var got []string
	for _, p := range l {
		got = append(got, p.Text)
	}
	want := []string{"not a length", "a likely slip", "of a whole row", "another cell of the row", "a cell that was taken", "the whole row", "what rests on a cell that was taken"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestWhatARowLacksIsNotToldWhereACellOfItWasRefused(t *testing.T) {
	cell := func(sheet string, row, col int) origin.Cell {
		return origin.Cell{Book: "yard.xlsx", Sheet: sheet, Row: row, Col: col}
	}
	l := List{{Code: CellFault, At: cell("Members", 2, 5), Text: "the build-up shows #N/A"}, {Code: HeadingMissing, At: cell("Items", 3, 0), Text: "no heading Quantity"}}
	l.Follow(List{
		{Code: TreatmentWithoutWork, At: cell("Members", 2, 7), Text: "neither build-up nor hours"},
		{Code: TreatmentWithoutWork, At: cell("Members", 3, 7), Text: "neither build-up nor hours, in another row"},
		{Code: RangeOrder, At: cell("Members", 2, 7), Text: "a range that does not rise"},
		{Code: RangeOrder, At: cell("Items", 9, 7), Text: "a range in a sheet without its headings"},
	})
	var got []string
	for _, p := range l {
		got = append(got, p.Text)
	}
	want := []string{"the build-up shows #N/A", "no heading Quantity", "neither build-up nor hours, in another row", "a range that does not rise"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
}

func TestAnInchMarkIsShownAsItWasTyped(t *testing.T) {
	var l List
	l.Add(Problem{Code: oneOf(t, Error), Text: fmt.Sprintf("%q has twelve inches or more beside the feet", `6' 13"`)})
	if want := `"6' 13"" has twelve inches or more beside the feet`; l[0].Text != want {
		t.Errorf("got %s, want %s", l[0].Text, want)
	}
}

func TestACodeThatIsNotKnownPanics(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("the severity of an unknown code was given")
		}
	}()
	_ = Problem{Code: "no-such-code"}.Severity()
}

func TestSeveritiesAreNamed(t *testing.T) {
	for s, want := range map[Severity]string{Error: "error", Warning: "warning", Remark: "remark"} {
		if s.String() != want {
			t.Errorf("severity %d is %q, want %q", s, s, want)
		}
	}
}
