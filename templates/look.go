package templates

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates/origin"
	"futtock/templates/grid"
)

// The look of the yard workbook: one colour in three strengths, so that a
// heading that must be filled in is dark and another pale in print too.
const (
	dark  = "1F4257"
	pale  = "D9E4EA"
	faint = "F4F7F9"
	grey  = "5F6B73"
	white = "FFFFFF"
)

// Rows of every sheet but the Guide and the Lists.
const (
	titleRow   = 1
	headRow    = 3
	exampleRow = 4 // of the empty workbook
	lastRow    = 1000
)

func titleStyle() grid.Style {
	return grid.Style{Font: grid.Font{Bold: true, Size: 15, Colour: dark}}
}

func purposeStyle() grid.Style {
	return grid.Style{Font: grid.Font{Italic: true, Colour: grey}}
}

func exampleStyle() grid.Style {
	return grid.Style{Font: grid.Font{Italic: true, Colour: grey}, Fill: faint, Border: grid.Hair}
}

// headStyle is dark where the heading must be filled in.
func headStyle(h Heading) grid.Style {
	s := grid.Style{Font: grid.Font{Bold: true, Colour: dark}, Fill: pale, Border: grid.Under, Top: true, Wrap: true}
	if h.mustFill() {
		s.Font.Colour, s.Fill = white, dark
	}
	stand(&s, h)
	return s
}

// stand sets figures to the right and words a little in from the left, so that
// a figure and the name beside it do not run together.
func stand(s *grid.Style, h Heading) {
	if h.Form.Textual() || h.Form == YesNo {
		s.Align, s.Indent = grid.Left, 1
	} else {
		s.Align = grid.Right
	}
}

// mustFill reports a cell that may not be blank.
func (h Heading) mustFill() bool { return h.Required && h.Default == "" }

// width is how wide the column is, in characters; the first of a sheet holds
// the mark of the example row too.
func (h Heading) width(first bool) float64 {
	n := 11
	if first {
		n = len(exampleMark) + len([]rune(h.Example)) + 4
	}
	switch h.Form {
	case Words, Key, Keys:
		n = max(12, n, min(34, len([]rune(h.Example))+3))
	case Choice:
		for _, c := range h.Choices {
			n = max(n, len(c)+4)
		}
	case Day:
		n = max(n, 12)
	}
	for word := range strings.FieldsSeq(h.Title()) {
		n = max(n, len(word)+3)
	}
	return float64(n)
}

// how says in a few words what is typed under the heading.
func (h Heading) how() string {
	var text string
	switch h.Form {
	case Words:
		text = "words"
	case Key, Keys:
		text = h.named()
	case Choice:
		text = offered(h.Choices)
		if h.Bracket {
			text += "; a unit may follow in brackets"
		}
	case Unit:
		text = "a unit"
		if len(h.Choices) > 0 {
			text += ": " + listed(h.Choices)
		}
	case Number:
		text = "a number"
	case Whole:
		text = "a whole number"
	case Length:
		text = "a length"
	case Percent:
		text = "a percentage"
	case Money:
		text = "money"
	case Day:
		text = "a date"
	case YesNo:
		text = "yes or no"
	}
	if r := h.bounds(); r != "" {
		text += ", " + r
	}
	if h.Default != "" && h.Default != "0" && !strings.HasPrefix(h.Default, "0 ") {
		text += "; blank is " + h.Default
		if h.Form == Percent {
			text += " %"
		}
	}
	return text
}

// named says whose name belongs under the heading.
func (h Heading) named() string {
	var sheets []string
	for _, r := range h.Refers {
		sheets = append(sheets, r.Sheet)
	}
	var text string
	switch {
	case len(sheets) == 0:
		return "a name of your own"
	case h.Form == Keys:
		text = "names from the sheet " + listed(sheets) + ", parted by commas"
	case len(sheets) == 1:
		text = "a name from the sheet " + sheets[0]
	default:
		text = "a name from the sheet " + listed(sheets) + ", as " + h.Refers[0].If + " says"
	}
	if len(h.Choices) > 0 {
		text += ", or " + listed(h.Choices)
	}
	return text
}

// bounds is the range of the heading in words. What only guards against slips
// of the unit or the keyboard is left out.
func (h Heading) bounds() string {
	most := h.Most
	if h.Form == Length || most != "" && decimal.RequireFromString(most).GreaterThan(decimal.New(500, 0)) {
		most = ""
	}
	switch {
	case h.Form == Length || h.Form == Money:
		return ""
	case h.Over != "" && most != "":
		return "above " + h.bound(h.Over) + ", at most " + h.bound(most)
	case h.Over != "":
		return "above " + h.bound(h.Over)
	case h.Least != "" && most != "":
		return h.Least + " to " + h.bound(most)
	case h.Least != "" && h.Least != "0":
		return h.bound(h.Least) + " or more"
	}
	return ""
}

// note is what the heading's note says.
func (h Heading) note() string {
	lines := []string{h.Help + "."}
	if h.mustFill() {
		lines = append(lines, "Must be filled in.")
	}
	lines = append(lines, "Type "+h.how()+".")
	if h.Form == Choice || h.Form == YesNo {
		lines[len(lines)-1] = "One of: " + h.how() + "."
	}
	if h.Form != Choice && h.Form != YesNo {
		lines = append(lines, "Example: "+h.Example)
	}
	return strings.Join(lines, "\n")
}

// exampleInRow is the heading's cell of the example row, blank where its
// example goes with another sort of row.
func exampleInRow(h Heading) string {
	if h.Elsewhere {
		return ""
	}
	return h.Example
}

// down is a range of one column, "C5:C1000".
func down(col, from, to int) string {
	return fmt.Sprintf("%s%d:%s%d", origin.Column(col), from, origin.Column(col), to)
}

// fixed is a range of one column of a sheet that stays where it is, as
// 'Sections'!$A$5:$A$1000.
func fixed(sheet string, col, from, to int) string {
	c := origin.Column(col)
	return fmt.Sprintf("'%s'!$%s$%d:$%s$%d", sheet, c, from, c, to)
}
