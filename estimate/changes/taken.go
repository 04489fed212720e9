package changes

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"time"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/origin"
)

// pair is two issues to be taken over from one another, their books as they stand in force.
type pair struct{ old, new Input }

// at is the job that has all of the new issue down to a step, and the rest of the old.
func (p pair) at(k Kind) Input {
	var out Input
	mix(reflect.ValueOf(&out.Job.Particulars).Elem(), reflect.ValueOf(p.old.Job.Particulars), reflect.ValueOf(p.new.Job.Particulars), k)
	out.Job.Book = p.new.Job.Book
	for _, s := range []struct{ to, old, new reflect.Value }{
		{reflect.ValueOf(&out.Job).Elem(), reflect.ValueOf(p.old.Job), reflect.ValueOf(p.new.Job)},
		{reflect.ValueOf(&out.Book).Elem(), reflect.ValueOf(p.old.Book), reflect.ValueOf(p.new.Book)},
	} {
		for i := range s.to.NumField() {
			if f := s.to.Field(i); f.Kind() == reflect.Slice {
				f.Set(p.merged(s.old.Field(i), s.new.Field(i), k))
			}
		}
	}
	return out
}

// merged is the rows of a sheet down to a step: those of the new issue in its order, each
// as far as it is taken over, then those that the old alone has.
func (p pair) merged(old, new reflect.Value, k Kind) reflect.Value {
	out := reflect.MakeSlice(old.Type(), 0, new.Len())
	matched(old, new, func(o, n *reflect.Value) {
		switch {
		case o != nil && n != nil:
			row := reflect.New(old.Type().Elem()).Elem()
			mix(row, *o, *n, k)
			out = reflect.Append(out, row)
		case n != nil:
			if k >= p.enters(*n, old) {
				out = reflect.Append(out, *n)
			}
		case k < p.leaves(*o, new):
			out = reflect.Append(out, *o)
		}
	})
	return out
}

// matched goes through the rows of two sheets, those of the new in their order, then those
// that only the old has. Rows of one key are matched as they come.
func matched(old, new reflect.Value, visit func(o, n *reflect.Value)) {
	at := map[string][]int{}
	for i := range old.Len() {
		key := keyOf(old.Index(i))
		at[key] = append(at[key], i)
	}
	taken := make([]bool, old.Len())
	for i := range new.Len() {
		n := new.Index(i)
		key := keyOf(n)
		if left := at[key]; len(left) > 0 {
			o := old.Index(left[0])
			taken[left[0]], at[key] = true, left[1:]
			visit(&o, &n)
			continue
		}
		visit(nil, &n)
	}
	for i := range old.Len() {
		if o := old.Index(i); !taken[i] {
			visit(&o, nil)
		}
	}
}

// keyOf is what names a row.
func keyOf(row reflect.Value) string { return keyBy(row, len(sheetOf(row).keys)) }

func keyBy(row reflect.Value, fields int) string {
	var parts []string
	for _, f := range sheetOf(row).keys[:fields] {
		parts = append(parts, rates.Key(plain(row.FieldByName(f))))
	}
	return strings.Join(parts, "\x00")
}

func sheetOf(row reflect.Value) sheet {
	s, ok := sheetsOf[row.Type().Name()]
	if !ok {
		panic(fmt.Sprintf("changes: %s is on no sheet", row.Type()))
	}
	return s
}

// enters is the step in which a row that only the new issue has is put in.
func (p pair) enters(n, old reflect.Value) Kind {
	s := sheetOf(n)
	switch row := n.Interface().(type) {
	case rates.Stock:
		bound := func(m job.Member) bool { return rates.Same(m.Stock, row.Stock) }
		if !slices.ContainsFunc(p.new.Job.Members, bound) &&
			slices.ContainsFunc(p.old.Book.Stock, func(o rates.Stock) bool { return rates.Same(o.Timber, row.Timber) }) {
			return TimberPlan
		}
	case job.Gang:
		// Men of a trade that a stage had none of come with the work for them.
		had := func(o job.Gang) bool { return rates.Same(o.Stage, row.Stage) && rates.Same(o.Trade, row.Trade) }
		if !slices.ContainsFunc(p.old.Job.Gangs, had) {
			return Members
		}
	}
	if s.named > 0 && holds(old, keyBy(n, s.named), s.named) {
		return own(n.Type())
	}
	return s.enters
}

// leaves is the step in which a row that only the old issue has is taken out.
func (p pair) leaves(o, new reflect.Value) Kind {
	s := sheetOf(o)
	if _, stock := o.Interface().(rates.Stock); stock {
		return TimberPlan
	}
	if s.named > 0 && holds(new, keyBy(o, s.named), s.named) {
		return own(o.Type())
	}
	return s.leaves
}

// holds reports rows of a name.
func holds(all reflect.Value, key string, named int) bool {
	for i := range all.Len() {
		if keyBy(all.Index(i), named) == key {
			return true
		}
	}
	return false
}

// own is the step that most of a row belongs to: that of what names it.
func own(t reflect.Type) Kind {
	f, _ := t.FieldByName(sheetsOf[t.Name()].keys[0])
	name := t.Name()
	if len(f.Index) > 1 {
		name = t.Field(f.Index[0]).Type.Name()
	}
	return columns[name][f.Name].step
}

// mix puts into a row what it has after a step: of the new row what is taken over by
// then, and the rest of the old.
func mix(to, old, new reflect.Value, k Kind) {
	t := to.Type()
	first := Rest
	for _, c := range columns[t.Name()] {
		first = min(first, c.step)
	}
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Anonymous {
			mix(to.Field(i), old.Field(i), new.Field(i), k)
			continue
		}
		step := first
		if !place(f.Type) {
			step = stepOf(t, f.Name, old, new)
		}
		from := old
		if k >= step {
			from = new
		}
		to.Field(i).Set(from.Field(i))
	}
}

// place reports a field that says where something stands, and not what.
func place(t reflect.Type) bool {
	return t == reflect.TypeFor[origin.Cell]() || t == reflect.TypeFor[map[string]origin.Cell]()
}

// stepOf is the step in which a field of two rows is taken over.
func stepOf(t reflect.Type, field string, old, new reflect.Value) Kind {
	c, ok := columns[t.Name()][field]
	if !ok {
		panic(fmt.Sprintf("changes: %s.%s is in no step", t, field))
	}
	if w := c.more.with; w != "" && !same(old.FieldByName(w), new.FieldByName(w)) {
		return Members
	}
	return c.step
}

// same reports two fields that say the same.
func same(a, b reflect.Value) bool {
	switch x := a.Interface().(type) {
	case decimal.Decimal:
		return x.Equal(b.Interface().(decimal.Decimal))
	case interface{ Decimal() decimal.Decimal }:
		return x.Decimal().Equal(b.Interface().(interface{ Decimal() decimal.Decimal }).Decimal())
	case time.Time:
		return x.Equal(b.Interface().(time.Time))
	case []string:
		return slices.Equal(x, b.Interface().([]string))
	}
	return a.Interface() == b.Interface()
}
