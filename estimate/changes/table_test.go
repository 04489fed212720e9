package changes

import (
	"reflect"
	"slices"
	"testing"

	"futtock/estimate/job"
	"futtock/rates"
)

// Every field of the job and of the price book that says anything is in a step, and
// the table names no field that is not there: what is in no step would be left over.
func TestEveryFieldOfAJobAndItsBookIsInAStep(t *testing.T) {
	seen := map[string]bool{}
	var fields func(of reflect.Type)
	fields = func(of reflect.Type) {
		if seen[of.Name()] {
			return
		}
		seen[of.Name()] = true
		known := columns[of.Name()]
		for i := range of.NumField() {
			f := of.Field(i)
			switch {
			case f.Anonymous:
				fields(f.Type)
			case place(f.Type):
			default:
				if _, ok := known[f.Name]; !ok {
					t.Errorf("%s.%s is in no step", of, f.Name)
				}
			}
		}
		for name, c := range known {
			for _, f := range []string{name, c.more.given, c.more.with, c.more.also} {
				if _, ok := of.FieldByName(f); f != "" && !ok {
					t.Errorf("%s has no field %s", of, f)
				}
			}
		}
	}
	// What is neither a row nor a particular: the names of the workbooks, where headings stand, and
	// whether there are two books, on which no figure hangs.
	beside := []string{"Job.Book", "Job.Columns", "Book.BookProvided"}
	for _, of := range []reflect.Type{reflect.TypeFor[job.Job](), reflect.TypeFor[rates.Book]()} {
		for i := range of.NumField() {
			f := of.Field(i)
			switch {
			case f.Anonymous:
				fields(f.Type)
			case f.Type.Kind() == reflect.Slice:
				row := f.Type.Elem()
				fields(row)
				s, ok := sheetsOf[row.Name()]
				if !ok {
					t.Errorf("%s is on no sheet", row)
				}
				for _, name := range append(slices.Clone(s.keys), s.words...) {
					if _, ok := row.FieldByName(name); !ok {
						t.Errorf("%s has no field %s", row, name)
					}
				}
			case !slices.Contains(beside, of.Name()+"."+f.Name):
				t.Errorf("%s.%s is in no step", of, f.Name)
			}
		}
	}
	for name := range columns {
		if !seen[name] {
			t.Errorf("%s is no row of a job or a book", name)
		}
	}
	for name := range sheetsOf {
		if !seen[name] {
			t.Errorf("%s is no row of a job or a book", name)
		}
	}
}

func TestEveryStepHasItsWords(t *testing.T) {
	names := map[string]bool{}
	for i, k := range Kinds() {
		if int(k) != i || k.Title() == "" || k.Means() == "" || names[k.Name()] {
			t.Errorf("step %d: %q, %q, %q", i, k.Title(), k.Means(), k.Name())
		}
		names[k.Name()] = true
	}
}
