// Package templates holds the yard workbook: every sheet is declared once, as
// a value, and from that one declaration come the empty workbook, the reader,
// the checks of single sheets and the guide in README.md.
//
// In comes a grid.Workbook, however people have typed it; out come a job, a
// price book and every problem found on the way, each with its cell. The
// package knows no spreadsheet library and no file.
//
// One worked figure: 0.12 under "Waste %" shown by its number format as 12 %
// is 12 %; a bare 0.12 is 0.12 %, with a warning asking whether 12 % was meant.
package templates

import (
	"time"

	"github.com/shopspring/decimal"

	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// Sheet declares one sheet of the yard workbook, whose rows become values of T.
type Sheet[T any] struct {
	Outline
	Columns []Column[T]
	// Check looks at one finished row by itself; nil where the columns say all.
	Check func(row *T, l *Line)
}

// Outline is what a sheet is, its rows' type aside.
type Outline struct {
	Name     string
	Purpose  string // one short sentence, without full stop
	Prices   bool   // may come from a price book kept apart
	Required bool   // a job cannot do without it
	Upright  bool   // headings run down, one a row, with the value at the right
	// Once names headings whose cells together may stand in one row only.
	Once []string
	// Refs says that the first heading is unique over every sheet that says so.
	Refs     bool
	Headings []Heading
}

// Column is one heading and the one function that puts its cell into the row.
// Set is called for every row, also where the cell is blank or the column is
// not there: the entry then holds the default.
type Column[T any] struct {
	Heading
	Set func(*T, Entry)
}

// Heading declares one column: what stands in it and how it is explained.
type Heading struct {
	Name     string
	Required bool // the heading must be there; the cell too, unless Default says what blank is
	Form     Form
	Scale    Scale    // of a Length: which of the Job's units a bare number takes
	Unit     string   // of a number in a fixed unit, such as kg/m3
	Choices  []string // of a Choice or Unit; of a Key, words allowed beside the keys
	Bracket  bool     // a Choice may carry a unit in brackets
	Refers   []Reference
	Names    bool   // other sheets name the row by this
	Over     string // the value must be more than this
	Least    string // the value must not be less than this
	Most     string // the value must not be more than this
	Default  string // what a blank cell stands for
	Help     string // one or two sentences, without the last full stop
	Example  string
	// Elsewhere says that the example goes with another sort of row, and is
	// left out of the example row.
	Elsewhere bool

	folded, plain string // Name as it is compared; the same without a bracket of its own, or blank
}

// Reference names a sheet whose key must exist; where If is not blank, only
// for rows that hold the choice Is under that heading.
type Reference struct{ Sheet, If, Is string }

// to refers to one sheet, whatever else the row holds.
func to(sheet string) []Reference { return []Reference{{Sheet: sheet}} }

// Form is what may stand in a cell.
type Form uint8

// The forms of a cell.
const (
	Words  Form = iota // any text
	Key                // a name, of the row itself or of a row elsewhere
	Keys               // several names, parted by commas or semicolons
	Choice             // one of a closed list
	Unit               // one of the closed list of units
	Number
	Whole   // a whole number
	Length  // a number in the heading's unit, or text with units
	Percent // 12, 12 %, or a number shown as a percentage
	Money
	Day   // a date
	YesNo // yes or no
)

// Scale is the sort of a length.
type Scale uint8

// The scales: how long a thing is, and how thick or wide. A bare number takes
// the unit of the heading, else the Job's `Lengths in` or `Sided and moulded in`.
const (
	Long Scale = iota
	Small
)

// unit is the scale's unit in the empty workbook.
func (s Scale) unit() measure.Unit {
	if s == Small {
		return measure.Mm
	}
	return measure.M
}

// Title is the heading as the empty workbook writes it, with its unit.
func (h Heading) Title() string {
	switch {
	case h.Form == Length:
		return h.Name + " (" + string(h.Scale.unit()) + ")"
	case h.Unit != "":
		return h.Name + " (" + h.Unit + ")"
	}
	return h.Name
}

// Textual reports a form that is kept as text however it is typed.
func (f Form) Textual() bool { return f <= Unit }

// Entry is a cell read in the form of its column. Only the fields of that form
// are set.
type Entry struct {
	At     origin.Cell // the cell; the row's first cell where there is no such column
	Given  bool        // something fit stood in the cell
	Text   string      // Words, Key; a Choice in its declared spelling
	Keys   []string
	Unit   measure.Unit // also of a Choice with a unit in brackets; blank where there is none
	Number decimal.Decimal
	Whole  int
	Length measure.Length
	Day    time.Time
	Yes    bool
	doubt  string // what is asked of a value that is likely a slip
	bad    bool   // a problem was found, and the value is only harmless
}

// Percent is the number as a percentage.
func (e Entry) Percent() money.Percent { return money.NewPercent(e.Number) }

// Price is the number as money for one of something.
func (e Entry) Price() money.Price { return money.NewPrice(e.Number) }

// Line is one row as a sheet's own check sees it.
type Line struct {
	entries map[string]Entry
	found   *problem.List
}

// Given reports that something fit stood under the heading.
func (l *Line) Given(heading string) bool { return l.entries[heading].Given }

// Sound reports that nothing was wrong with the cell under the heading.
func (l *Line) Sound(heading string) bool { return !l.entries[heading].bad }

// Say puts a problem down against the cell under the heading.
func (l *Line) Say(heading string, code problem.Code, text, example string) {
	l.found.Add(problem.Problem{Code: code, At: l.entries[heading].At, Text: text, Example: example})
}

// outlined fills in the headings of the outline from the columns.
func outlined[T any](s Sheet[T]) Sheet[T] {
	s.Headings = make([]Heading, len(s.Columns))
	for i, c := range s.Columns {
		h := c.Heading
		h.folded = fold(h.Name)
		if name, own := bracketed(h.Name); own != "" {
			h.plain = fold(name)
		}
		s.Headings[i] = h
	}
	return s
}

// words is a closed list as plain text.
func words[S ~string](list []S) []string {
	out := make([]string, len(list))
	for i, s := range list {
		out[i] = string(s)
	}
	return out
}
