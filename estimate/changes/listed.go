package changes

import (
	"fmt"
	"reflect"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/origin"
)

// Change is one thing that the new issue says otherwise: a cell, or a row that was put in
// or taken out.
type Change struct {
	Step     Kind
	Sheet    string
	Key      string // what names the row; blank on the Job sheet
	Column   string // blank of a whole row
	Was, Now string // as it is written; blank where there is nothing
	// WasAt and NowAt are the cells, the zero Cell where there is none.
	WasAt, NowAt origin.Cell
}

// PutIn reports a row that only the new issue has.
func (c Change) PutIn() bool { return c.Column == "" && c.WasAt.IsZero() }

// TakenOut reports a row that only the old issue has.
func (c Change) TakenOut() bool { return c.Column == "" && c.NowAt.IsZero() }

// lister lists what two issues say otherwise.
type lister struct {
	pair
	out []Change
}

// list is every change, by sheet as the issues hold them, then as the new issue has the rows.
func (p pair) list() []Change {
	l := &lister{pair: p}
	l.row("Job", "", reflect.ValueOf(p.old.Job.Particulars), reflect.ValueOf(p.new.Job.Particulars))
	for _, s := range []struct{ old, new reflect.Value }{
		{reflect.ValueOf(p.old.Job), reflect.ValueOf(p.new.Job)},
		{reflect.ValueOf(p.old.Book), reflect.ValueOf(p.new.Book)},
	} {
		for i := range s.old.NumField() {
			if s.old.Field(i).Kind() == reflect.Slice {
				l.sheet(s.old.Field(i), s.new.Field(i))
			}
		}
	}
	return l.out
}

func (l *lister) sheet(old, new reflect.Value) {
	matched(old, new, func(o, n *reflect.Value) {
		switch {
		case o != nil && n != nil:
			l.row(sheetOf(*n).name, l.key(*n), *o, *n)
		case n != nil:
			l.out = append(l.out, Change{Step: own(n.Type()), Sheet: sheetOf(*n).name, Key: l.key(*n), Now: wordsOf(*n), NowAt: atOf(*n)})
		default:
			l.out = append(l.out, Change{Step: own(o.Type()), Sheet: sheetOf(*o).name, Key: l.key(*o), Was: wordsOf(*o), WasAt: atOf(*o)})
		}
	})
}

// row lists the fields of two rows that differ.
func (l *lister) row(sheet, key string, old, new reflect.Value) {
	t := old.Type()
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			l.row(sheet, key, old.Field(i), new.Field(i))
			continue
		}
		if place(f.Type) {
			continue
		}
		step := stepOf(t, f.Name, old, new)
		c := columns[t.Name()][f.Name]
		if c.heading == "" || !differ(c, f.Name, old, new) {
			continue
		}
		was, now := written(l.old.Job.Particulars, t.Name(), f.Name, c, old), written(l.new.Job.Particulars, t.Name(), f.Name, c, new)
		if length, ok := old.Field(i).Interface().(measure.Length); ok && was == now && was != "" {
			was, now = exact(length), exact(new.Field(i).Interface().(measure.Length))
		}
		l.out = append(l.out, Change{Step: step, Sheet: sheet, Key: key, Column: c.heading, Was: was, Now: now,
			WasAt: cellOf(&l.old.Job, sheet, c.heading, f.Name, old), NowAt: cellOf(&l.new.Job, sheet, c.heading, f.Name, new)})
	}
}

// differ reports a column that says otherwise in two rows.
func differ(c column, field string, old, new reflect.Value) bool {
	for _, f := range []string{field, c.more.given, c.more.also} {
		if f != "" && !same(old.FieldByName(f), new.FieldByName(f)) {
			return true
		}
	}
	return false
}

// key is what names a row, as it is written.
func (l *lister) key(row reflect.Value) string {
	var parts []string
	for _, f := range sheetOf(row).keys {
		parts = append(parts, plain(row.FieldByName(f)))
	}
	return strings.Join(parts, ", ")
}

// wordsOf says what a row is.
func wordsOf(row reflect.Value) string {
	for _, f := range sheetOf(row).words {
		if s := plain(row.FieldByName(f)); s != "" {
			return s
		}
	}
	return ""
}

// atOf is where a row stands.
func atOf(row reflect.Value) origin.Cell { return row.FieldByName("At").Interface().(origin.Cell) }

// cellOf is the cell under a heading of a row: known of the job's own workbook and of
// the price book by the columns their headings stand in.
func cellOf(j *job.Job, sheet, heading, field string, row reflect.Value) origin.Cell {
	if row.Type() == reflect.TypeFor[job.Particulars]() {
		return j.Cell(heading)
	}
	return j.Under(atOf(row), heading)
}

// written is what a cell says, as the job writes it.
func written(p job.Particulars, of, field string, c column, row reflect.Value) string {
	if g := c.more.given; g != "" && !row.FieldByName(g).Bool() {
		return ""
	}
	v := row.FieldByName(field)
	out := plain(v)
	switch x := v.Interface().(type) {
	case measure.Length:
		out = ""
		if x != 0 && c.more.size {
			out = x.Format(p.SizesIn)
		} else if x != 0 {
			out = x.Format(p.LengthsIn)
		}
	case bool:
		out = map[bool]string{false: c.more.no, true: c.more.yes}[x]
	}
	if also := c.more.also; also != "" {
		if s := plain(row.FieldByName(also)); s != "" {
			out += " (" + s + ")"
		}
	}
	return out
}

// exact is a length to the nanometre.
func exact(l measure.Length) string { return l.In(measure.Mm, 6).String() + " mm" }

// plain is a field in words and figures.
func plain(v reflect.Value) string {
	switch x := v.Interface().(type) {
	case decimal.Decimal:
		return x.String()
	case time.Time:
		if x.IsZero() {
			return ""
		}
		return x.Format("2006-01-02")
	case []string:
		return strings.Join(x, ", ")
	case fmt.Stringer:
		return x.String()
	}
	if v.Kind() == reflect.String {
		return v.String()
	}
	return fmt.Sprint(v.Interface())
}
