package templates

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
	"futtock/templates/grid"
)

// wrong is what does not let a cell be read. A blank text says no more than
// has been said already.
type wrong struct {
	code    problem.Code
	text    string
	example string
	near    string
}

// entry reads one cell in the form of its heading. Whatever is wrong is put
// down, and a harmless value given in its place.
func (r *reader) entry(h Heading, p *place, d grid.Datum, at origin.Cell) Entry {
	e, w := r.plain(h, p, d)
	if w == nil {
		if e.doubt != "" {
			r.found.Add(problem.Problem{Code: problem.PercentDoubt, At: at, Text: e.doubt})
		}
		e.At = at
		return e
	}
	if w.text != "" {
		r.found.Add(problem.Problem{Code: w.code, At: at, Text: w.text, Example: w.example, Near: w.near})
	}
	return r.harmless(h, at)
}

// plain reads a cell, or says why it cannot.
func (r *reader) plain(h Heading, p *place, d grid.Datum) (Entry, *wrong) {
	switch {
	case d.Kind == grid.Fault:
		return Entry{}, &wrong{code: problem.CellFault,
			text: fmt.Sprintf("the spreadsheet shows the error %s; %s", single(d.Raw), h.wanted()), example: r.sample(h, p)}
	case d.IsFormula() && d.Kind == grid.Blank:
		return Entry{}, &wrong{code: problem.NotCalculated,
			text: fmt.Sprintf("the formula =%s has no result stored with it; a workbook saved after calculating is wanted", single(d.Formula))}
	case nothing(d):
		if h.Required && h.Default == "" {
			return Entry{}, &wrong{code: problem.Required,
				text: fmt.Sprintf("%q is blank; %s", h.Name, h.Form.want(h)), example: r.sample(h, p)}
		}
		return r.standing(h, h.Default), nil
	}
	e, w := r.value(h, p, d)
	if w == nil {
		e.Given = true
		w = r.inRange(h, e, d)
	}
	return e, w
}

// standing is a declared value, such as a default, read in the form of its
// heading; blank is nothing.
func (r *reader) standing(h Heading, text string) Entry {
	if text == "" {
		return Entry{}
	}
	e, w := r.value(h, &place{unit: h.Scale.unit()}, grid.Datum{Kind: grid.Text, Raw: text})
	if w != nil {
		panic(fmt.Sprintf("templates: %q cannot stand under %q: %s", text, h.Name, w.text))
	}
	return e
}

// harmless is a value that lets the row be read on: the default, or of a
// heading that must be filled in its example, but never a name out of nowhere,
// and of a length one that any stick gives.
func (r *reader) harmless(h Heading, at origin.Cell) Entry {
	text := h.Default
	if text == "" && h.Required && h.Form != Words && h.Form != Key && h.Form != Keys {
		text = h.Example
		if h.Form == Length {
			text = "1"
		}
	}
	e := r.standing(h, text)
	e.At, e.bad = at, true
	return e
}

// nothing reports a cell with nothing in it, or only what people type to say so.
func nothing(d grid.Datum) bool {
	if d.Kind == grid.Text {
		return strings.Trim(single(d.Raw), "-–—") == ""
	}
	return d.Kind == grid.Blank
}

// value reads what is in a cell.
func (r *reader) value(h Heading, p *place, d grid.Datum) (Entry, *wrong) {
	found := shown(d, r.book.Date1904)
	if h.Form != Day && isDate(d) {
		return Entry{}, &wrong{code: problem.DateInCell,
			text: fmt.Sprintf("%q is a date or a time to the spreadsheet; %s", found, h.wanted()), example: r.sample(h, p)}
	}
	bad := func(code problem.Code, err error) (Entry, *wrong) {
		return Entry{}, &wrong{code: code, text: fmt.Sprintf("%s; %s", err, h.wanted()), example: r.sample(h, p)}
	}
	switch h.Form {
	case Words:
		if d.Kind == grid.Text {
			found = tidy(d.Raw)
		}
		return Entry{Text: found}, nil
	case Key:
		return Entry{Text: found}, nil
	case Keys:
		return keysOf(found), nil
	case Choice:
		return choiceOf(h, found)
	case Unit:
		return unitOf(h, found)
	case Number:
		n, err := numberOf(d, found)
		if err != nil {
			return bad(problem.NumberForm, isNot(found, "a number"))
		}
		return Entry{Number: n}, nil
	case Whole:
		n, err := numberOf(d, found)
		if err != nil || !n.IsInteger() || n.Abs().GreaterThan(decimal.New(1, 9)) {
			return bad(problem.WholeForm, fmt.Errorf("%q is not a whole number", found))
		}
		return Entry{Number: n, Whole: int(n.IntPart())}, nil
	case Length:
		return r.length(h, p, d, found)
	case Percent:
		return r.percent(h, p, d, found)
	case Money:
		return r.money(h, p, d, found)
	case Day:
		day, err := dayOf(d, r.book.Date1904)
		if err != nil {
			return bad(problem.DateForm, err)
		}
		return Entry{Day: day}, nil
	}
	return yesNo(h, found)
}

// numberOf is the number in a cell, typed as a number or as text.
func numberOf(d grid.Datum, found string) (decimal.Decimal, error) {
	if d.Kind == grid.Number {
		return d.Value, nil
	}
	return measure.ParseNumber(found)
}

var (
	commaParts = regexp.MustCompile(`\d,\d{1,2}(?:\D|$)|\d,\d{4}|\.\d+,\d|,\d+,\d{1,2}(?:\D|$)`)
	spaceParts = regexp.MustCompile(`\d \d`)
)

// isNot says that text is no number of the sort that is wanted, and why where
// that is easily overlooked.
func isNot(found, what string) error {
	switch {
	case commaParts.MatchString(found):
		return fmt.Errorf("%q has a comma where no thousands are parted; a point parts the decimals", found)
	case spaceParts.MatchString(found):
		return fmt.Errorf("%q has a space between its figures", found)
	}
	return fmt.Errorf("%q is not %s", found, what)
}

// keysOf parts a list of names.
func keysOf(found string) Entry {
	var e Entry
	for _, k := range strings.FieldsFunc(found, func(r rune) bool { return r == ',' || r == ';' }) {
		if k = single(k); k != "" {
			e.Keys = append(e.Keys, k)
		}
	}
	e.Text = strings.Join(e.Keys, ", ")
	return e
}

// choiceOf finds a choice in its declared spelling, with a unit in brackets
// where the heading has such.
func choiceOf(h Heading, found string) (Entry, *wrong) {
	text, e := found, Entry{}
	if h.Bracket {
		var unit string
		if text, unit = bracketed(found); unit != "" {
			u, ok := measure.ParseUnit(unit)
			if !ok || !slices.Contains(measure.Units(), u) {
				return e, &wrong{code: problem.UnitUnknown,
					text: fmt.Sprintf("%q in %q is not a unit; %s", unit, found, oneOf(words(measure.Units())))}
			}
			e.Unit = u
		}
	}
	for _, c := range h.Choices {
		if alike(c, text) {
			e.Text = c
			return e, nil
		}
	}
	w := &wrong{code: problem.ChoiceUnknown, near: nearest(text, h.Choices),
		text: fmt.Sprintf("%q cannot stand under %q; %s", found, h.Name, h.Form.want(h))}
	return Entry{}, w
}

// unitOf finds a unit by its sign, or by one of the words people use for it.
func unitOf(h Heading, found string) (Entry, *wrong) {
	u, ok := measure.ParseUnit(found)
	if ok && slices.Contains(h.units(), string(u)) {
		return Entry{Unit: u, Text: string(u)}, nil
	}
	return Entry{}, &wrong{code: problem.UnitUnknown,
		text: fmt.Sprintf("%q is not a unit that can stand under %q; %s", found, h.Name, h.Form.want(h))}
}

// units are the units that may stand under the heading.
func (h Heading) units() []string {
	if len(h.Choices) > 0 {
		return h.Choices
	}
	return words(measure.Units())
}

var percentSign = regexp.MustCompile(`(?i) ?(?:%|per ?cent|pc)$`)

// percent reads 12 as 12 %, and asks where a bare number lies between nil and
// one: spreadsheets keep 12 % as 0.12.
func (r *reader) percent(h Heading, p *place, d grid.Datum, found string) (Entry, *wrong) {
	if d.Kind == grid.Number && lookOf(d.Format).percent {
		return Entry{Number: d.Value.Shift(2)}, nil
	}
	text := percentSign.ReplaceAllString(found, "")
	n, err := numberOf(d, text)
	if err != nil {
		return Entry{}, &wrong{code: problem.PercentForm,
			text: fmt.Sprintf("%s; %s", isNot(found, "a percentage"), h.wanted()), example: r.sample(h, p)}
	}
	e := Entry{Number: n}
	if text == found && !n.IsZero() && n.Abs().LessThan(decimal.New(1, 0)) {
		e.doubt = fmt.Sprintf("%q is read as %s; was %s meant?", found, e.Percent(), money.NewPercent(n.Shift(2)))
	}
	return e, nil
}

// money reads a sum, in which only the mark of the Job's own currency may stand.
func (r *reader) money(h Heading, p *place, d grid.Datum, found string) (Entry, *wrong) {
	currency := r.terms.Currency
	said := found
	if d.Kind == grid.Number {
		said = lookOf(d.Format).said
	}
	if mark := foreign(said, currency); mark != "" {
		return Entry{}, &wrong{code: problem.CurrencyOther,
			text: fmt.Sprintf("%q is in %s, and the Job is in %s; a sum in %s is wanted under %q", found, mark, currency, currency, h.Name), example: r.sample(h, p)}
	}
	n, err := numberOf(d, unmarked(found, currency))
	if err != nil {
		return Entry{}, &wrong{code: problem.MoneyForm,
			text: fmt.Sprintf("%s; %s", isNot(found, "a sum of money"), h.wanted()), example: r.sample(h, p)}
	}
	return Entry{Number: n}, nil
}

// yesNo reads yes and no, y and n, and what spreadsheets keep as true and false.
func yesNo(h Heading, found string) (Entry, *wrong) {
	switch strings.ToLower(found) {
	case "yes", "y", "true":
		return Entry{Yes: true}, nil
	case "no", "n", "false":
		return Entry{}, nil
	}
	return Entry{}, &wrong{code: problem.YesNoForm, text: fmt.Sprintf("%q is neither yes nor no; %s", found, h.wanted())}
}
