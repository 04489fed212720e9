// Package problem holds what is wrong with a workbook, as values: one list of
// everything found, each with its code, its cell, what was found there, what
// is wanted and an example of it.
package problem

import (
	"cmp"
	"slices"
	"strings"

	"futtock/rates/origin"
)

// Severity says what a problem stops.
type Severity uint8

// The severities. An Error stops every document; a Warning is likely a slip; a
// Remark is something the estimator will want to know. The zero value is none.
const (
	Error Severity = iota + 1
	Warning
	Remark
)

// String is the severity as it is printed.
func (s Severity) String() string {
	return [...]string{"", "error", "warning", "remark"}[s]
}

// Problem is one thing found in a workbook.
type Problem struct {
	Code Code
	At   origin.Cell
	// With is another cell that the finding rests on, where there is one.
	With origin.Cell
	// Text says in one line what was found, with the value in quotes, and
	// what is wanted: lower case, no full stop.
	Text string
	// Example is what might stand in the cell instead, such as 24' 6"; blank
	// where the cure of the code says enough.
	Example string
	// Near is the nearest known name to one that is not known, or blank.
	Near string
}

// Severity is that of the problem's code.
func (p Problem) Severity() Severity { return p.Code.facts().Severity }

// String is the problem as the terminal shows it, on one line:
//
//	yard.xlsx: Members!D14: error: "24' x" is not a length; a length is wanted under "Length", such as 24' 6" [length-form]
func (p Problem) String() string {
	text := p.Severity().String() + ": " + p.Message() + " [" + string(p.Code) + "]"
	if at := p.At.String(); at != "" {
		return at + ": " + text
	}
	return text
}

// Message is what was found and what is wanted, on one line, without the cell and the
// severity.
func (p Problem) Message() string {
	text := p.Text
	if p.Near != "" {
		text += "; did you mean \"" + p.Near + "\"?"
	}
	if p.Example != "" {
		text += ", such as " + p.Example
	}
	return text
}

// List is a list of problems.
type List []Problem

// Add puts a problem on the list. An inch mark within a quoted value, such as
// 6' 13", is shown as it was typed, without the stroke that quoting puts before it.
func (l *List) Add(p Problem) {
	p.Text = strings.ReplaceAll(p.Text, `\"`, `"`)
	*l = append(*l, p)
}

// Join puts other problems on the list.
func (l *List) Join(more List) { *l = append(*l, more...) }

// Follow puts on the list what later work found, but for what is found of, or
// rests on, a cell that holds an error already: what stands in such a cell was
// not taken, and whatever follows from that is mended with it. So it is with what
// a row lacks, where a cell of the row was not taken, and with all that is found in
// a sheet without its headings.
func (l *List) Follow(later List) {
	refused := map[origin.Cell]bool{}
	for _, p := range *l {
		switch at := p.At; {
		case p.Code == HeadingMissing:
			refused[origin.Cell{Book: at.Book, Sheet: at.Sheet}] = true
		case p.Severity() == Error && at.Col > 0:
			refused[at] = true
			at.Col = 0
			refused[at] = true
		}
	}
	for _, p := range later {
		row := origin.Cell{Book: p.At.Book, Sheet: p.At.Sheet, Row: p.At.Row}
		sheet := origin.Cell{Book: p.At.Book, Sheet: p.At.Sheet}
		if p.At.Col > 0 && refused[p.At] || refused[p.With] || p.Code.lacks() && refused[row] || refused[sheet] {
			continue
		}
		l.Add(p)
	}
}

// lacks reports a code that says what a row has not, or what cannot be made of all
// that it has: where a cell of the row was not taken, that may be why.
func (c Code) lacks() bool {
	switch c {
	case TreatmentWithoutWork, HoursWithoutTrade, TradeWithoutHours, CostWithoutKind, RiskWithoutChance, ChanceNotAtRisk,
		BillQuantityWithoutUnit, BillItemDiffers, DriverMissing, SizeMissing, TimberMissing, RenewedMissing, JointMissing,
		ScarphMissing, CrossingsUnknown, StockTooSmall, StockUnusable, LabourPrice, PrelimEmpty, ItemFree:
		return true
	}
	return false
}

// HasErrors reports whether any document is stopped.
func (l List) HasErrors() bool { return l.Count(Error) > 0 }

// Count is the number of problems of one severity.
func (l List) Count(s Severity) int {
	n := 0
	for _, p := range l {
		if p.Severity() == s {
			n++
		}
	}
	return n
}

// Sorted is the list by workbook, then by sheet in the order given, row and
// column, each distinct problem once. Sheets not in the order come last, by name.
func (l List) Sorted(sheets []string) List {
	place := func(name string) int {
		for i, s := range sheets {
			if strings.EqualFold(s, name) {
				return i
			}
		}
		return len(sheets)
	}
	out := slices.Clone(l)
	slices.SortStableFunc(out, func(a, b Problem) int {
		return cmp.Or(cmp.Compare(a.At.Book, b.At.Book), cmp.Compare(place(a.At.Sheet), place(b.At.Sheet)),
			origin.Compare(a.At, b.At), cmp.Compare(a.Code, b.Code), cmp.Compare(a.Text, b.Text))
	})
	return slices.Compact(out)
}
