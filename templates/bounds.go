package templates

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// length reads a length: a number in the unit of the heading, else of the Job,
// or text with units of its own. Price sheets know no Job: there a bare number
// under a heading without a unit is wrong, and said once a column.
func (r *reader) length(h Heading, p *place, d grid.Datum, found string) (Entry, *wrong) {
	bare := r.bare(h, p)
	var l measure.Length
	var err error
	if d.Kind == grid.Number && bare != "" {
		l, err = measure.LengthOf(d.Value, bare)
	} else {
		l, err = measure.ParseLength(found, bare)
	}
	switch {
	case err == nil:
		return Entry{Length: l}, nil
	case bare == "" && unitless(found):
		w := &wrong{code: problem.SizeUnit}
		if !p.unitless {
			p.unitless = true
			w.text = fmt.Sprintf("%q has no unit, nor has its heading; a heading with a unit is wanted", found)
			w.example = h.Title()
		}
		return Entry{}, w
	}
	return Entry{}, &wrong{code: problem.LengthForm, text: fmt.Sprintf("%s; %s", err, h.wanted()), example: r.sample(h, p)}
}

// unitless reports text that would be a length if only it had a unit.
func unitless(text string) bool {
	_, err := measure.ParseLength(text, measure.M)
	return err == nil
}

// bare is the unit of a bare number under the heading; blank where it has none.
func (r *reader) bare(h Heading, p *place) measure.Unit {
	switch {
	case p.unit != "":
		return p.unit
	case r.prices:
		return ""
	case h.Scale == Small:
		return r.terms.SizesIn
	}
	return r.terms.LengthsIn
}

// inRange finds a value beyond the bounds of its heading.
func (r *reader) inRange(h Heading, e Entry, d grid.Datum) *wrong {
	say := func(size, bound string) *wrong {
		return &wrong{code: problem.OutOfRange,
			text: fmt.Sprintf("%q is too %s; %s is wanted under %q", shown(d, r.book.Date1904), size, bound, h.Name)}
	}
	for _, b := range []struct {
		bound, size, words string
		beyond             func(cmp int) bool
	}{
		{h.Over, "small", "more than ", func(c int) bool { return c <= 0 }},
		{h.Least, "small", "at least ", func(c int) bool { return c < 0 }},
		{h.Most, "large", "at most ", func(c int) bool { return c > 0 }},
	} {
		if b.bound != "" && b.beyond(compare(h, e, b.bound)) {
			return say(b.size, b.words+h.bound(b.bound))
		}
	}
	return nil
}

// compare sets a value against a declared bound.
func compare(h Heading, e Entry, bound string) int {
	if h.Form == Length {
		l, err := measure.ParseLength(bound, "")
		if err != nil {
			panic(fmt.Sprintf("templates: the bound %q of %q: %v", bound, h.Name, err))
		}
		return int(max(-1, min(1, e.Length-l)))
	}
	return e.Number.Cmp(decimal.RequireFromString(bound))
}

// bound is a bound in the words of its form.
func (h Heading) bound(text string) string {
	switch {
	case h.Form == Percent:
		return text + " %"
	case h.Unit != "":
		return text + " " + h.Unit
	}
	return text
}

// want says what may stand under a heading of the form.
func (f Form) want(h Heading) string {
	switch f {
	case Words:
		return "words are wanted"
	case Key:
		return h.named() + " is wanted"
	case Keys:
		return h.named() + " are wanted"
	case Choice:
		return oneOf(h.Choices)
	case Unit:
		return oneOf(h.units())
	case Number:
		return "a number is wanted"
	case Whole:
		return "a whole number is wanted"
	case Length:
		return "a length is wanted"
	case Percent:
		return "a percentage is wanted"
	case Money:
		return "a sum of money is wanted"
	case Day:
		return "a date is wanted"
	}
	return "yes or no is wanted"
}

// wanted says the same, and names the heading.
func (h Heading) wanted() string { return fmt.Sprintf("%s under %q", h.Form.want(h), h.Name) }

func oneOf(list []string) string {
	if len(list) == 1 {
		return list[0] + " is wanted"
	}
	return "one of " + offered(list) + " is wanted"
}

// sample is what might stand in the cell, as a message gives it. The example
// of a length bears a unit, in the measure that bare numbers of the column are in.
func (r *reader) sample(h Heading, p *place) string {
	switch {
	case h.Form == Choice || h.Form == Unit || h.Form == YesNo:
		return ""
	case h.Form != Length:
		return h.Example
	}
	switch r.bare(h, p) {
	case measure.Ft:
		return `24' 6"`
	case measure.In:
		return `4 1/2"`
	}
	return h.Example + " " + string(h.Scale.unit())
}
