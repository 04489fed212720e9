package main

import (
	"fmt"
	"math"
	"regexp"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// calculator works out the formulas of a workbook one by one, each from the
// figures that stand in the cells it reads, in exact decimals: as a man with a
// pencil would who checks the printed page. It knows what futtock writes and no
// more; anything else is a panic.
type calculator struct {
	cells map[string]grid.Cell // by sheet and place, as Bill!F12
	sheet string
	rest  string
}

func newCalculator(book *grid.Book) *calculator {
	c := &calculator{cells: map[string]grid.Cell{}}
	for _, s := range book.Sheets {
		for n, r := range s.Rows {
			for i, cell := range r.Cells {
				c.cells[fmt.Sprintf("%s!%s%d", s.Name, column(i+1), n+1)] = cell
			}
		}
	}
	return c
}

// column is the letters of a column.
func column(n int) string {
	if n > 26 {
		return column((n-1)/26) + column((n-1)%26+1)
	}
	return string(rune('A' + n - 1))
}

// value is what a formula gives: a number, or text.
type value struct {
	number decimal.Decimal
	text   string
	isText bool
}

// of is the result of a formula of a sheet.
func (c *calculator) of(sheet, formula string) decimal.Decimal {
	c.sheet, c.rest = sheet, formula
	v := c.comparison()
	if c.rest != "" || v.isText {
		panic(fmt.Sprintf("=%s is not understood at %q", formula, c.rest))
	}
	return v.number
}

// cast works out every formula of a workbook, and says which do not come out, to
// so many places, at the figure that stands there.
func cast(book *grid.Book, places int32) (differ []string) {
	c := newCalculator(book)
	for _, s := range book.Sheets {
		for n, row := range s.Rows {
			for i, cell := range row.Cells {
				if cell.Formula == "" {
					continue
				}
				if got := c.of(s.Name, cell.Formula); got.Sub(cell.Number).Abs().GreaterThan(decimal.New(1, -places)) {
					differ = append(differ, fmt.Sprintf("%s %s%d: =%s is %s by hand, and %s stands there", s.Name, column(i+1), n+1, cell.Formula, got, cell.Number))
				}
			}
		}
	}
	return differ
}

// take reads a sign if it comes next.
func (c *calculator) take(sign string) bool {
	rest, ok := strings.CutPrefix(c.rest, sign)
	c.rest = rest
	return ok
}

func (c *calculator) want(sign string) {
	if !c.take(sign) {
		panic(fmt.Sprintf("%q is wanted at %q", sign, c.rest))
	}
}

func (c *calculator) comparison() value {
	a := c.sum()
	for _, sign := range []string{"=", "<", ">"} {
		if !c.take(sign) {
			continue
		}
		b := c.sum()
		order := a.number.Cmp(b.number)
		if a.isText || b.isText {
			order = strings.Compare(strings.ToLower(a.text), strings.ToLower(b.text))
		}
		holds := sign == "=" && order == 0 || sign == "<" && order < 0 || sign == ">" && order > 0
		return value{number: map[bool]decimal.Decimal{true: decimal.New(1, 0)}[holds]}
	}
	return a
}

func (c *calculator) sum() value {
	v := c.product()
	for {
		switch {
		case c.take("+"):
			v.number = v.number.Add(c.product().number)
		case c.take("-"):
			v.number = v.number.Sub(c.product().number)
		default:
			return v
		}
	}
}

func (c *calculator) product() value {
	v := c.power()
	for {
		switch {
		case c.take("*"):
			v.number = v.number.Mul(c.power().number)
		case c.take("/"):
			v.number = v.number.DivRound(c.power().number, 30)
		default:
			return v
		}
	}
}

func (c *calculator) power() value {
	v := c.single()
	if c.take("^") {
		e := c.single().number
		if e.IsInteger() {
			v.number = v.number.Pow(e)
		} else {
			v.number = decimal.NewFromFloat(math.Pow(v.number.InexactFloat64(), e.InexactFloat64()))
		}
	}
	return v
}

var (
	numberAhead = regexp.MustCompile(`^\d+(\.\d+)?`)
	textAhead   = regexp.MustCompile(`^"((?:[^"]|"")*)"`)
	placeAhead  = regexp.MustCompile(`^(?:'((?:[^']|'')+)'!)?\$?([A-Z]+)\$?(\d+)(?::\$?([A-Z]+)\$?(\d+))?`)
	callAhead   = regexp.MustCompile(`^([A-Z]{2,})\(`)
)

func (c *calculator) single() value {
	if m := callAhead.FindStringSubmatch(c.rest); m != nil {
		c.rest = c.rest[len(m[0]):]
		return c.call(m[1])
	}
	switch {
	case c.take("-"):
		return value{number: c.single().number.Neg()}
	case c.take("("):
		v := c.comparison()
		c.want(")")
		return v
	}
	if m := numberAhead.FindString(c.rest); m != "" {
		c.rest = c.rest[len(m):]
		return value{number: decimal.RequireFromString(m)}
	}
	if m := textAhead.FindStringSubmatch(c.rest); m != nil {
		c.rest = c.rest[len(m[0]):]
		return value{text: strings.ReplaceAll(m[1], `""`, `"`), isText: true}
	}
	cells := c.places()
	if len(cells) != 1 {
		panic(fmt.Sprintf("one cell is wanted before %q", c.rest))
	}
	return value{number: cells[0].Number, text: cells[0].Text, isText: cells[0].Kind == grid.Text}
}

// places reads a cell, or the cells of a block.
func (c *calculator) places() []grid.Cell {
	m := placeAhead.FindStringSubmatch(c.rest)
	if m == nil {
		panic(fmt.Sprintf("a cell is wanted at %q", c.rest))
	}
	c.rest = c.rest[len(m[0]):]
	sheet, left, from, right, to := strings.ReplaceAll(m[1], "''", "'"), m[2], m[3], m[4], m[5]
	if sheet == "" {
		sheet = c.sheet
	}
	if to == "" {
		right, to = left, from
	}
	var first, last int
	fmt.Sscan(from, &first)
	fmt.Sscan(to, &last)
	var out []grid.Cell
	for n := first; n <= last; n++ {
		for col := letters(left); col <= letters(right); col++ {
			out = append(out, c.cells[fmt.Sprintf("%s!%s%d", sheet, column(col), n)])
		}
	}
	return out
}

// letters is the number of a column.
func letters(name string) int {
	n := 0
	for _, r := range name {
		n = n*26 + int(r-'A') + 1
	}
	return n
}

// call works out a function whose name and bracket have been read.
func (c *calculator) call(name string) value {
	if name == "SUM" {
		var sum decimal.Decimal
		for _, cell := range c.places() {
			sum = sum.Add(cell.Number)
		}
		c.want(")")
		return value{number: sum}
	}
	if name == "SUMPRODUCT" {
		a := c.places()
		c.want(",")
		b := c.places()
		c.want(")")
		if len(a) != len(b) {
			panic(fmt.Sprintf("blocks of %d and %d cells are multiplied", len(a), len(b)))
		}
		var sum decimal.Decimal
		for i := range a {
			sum = sum.Add(a[i].Number.Mul(b[i].Number))
		}
		return value{number: sum}
	}
	if m := placeAhead.FindStringSubmatch(c.rest); name == "MAX" && m != nil && m[4] != "" {
		cells := c.places()
		most := cells[0].Number
		for _, cell := range cells {
			most = decimal.Max(most, cell.Number)
		}
		c.want(")")
		return value{number: most}
	}
	args := []value{c.comparison()}
	for c.take(",") {
		args = append(args, c.comparison())
	}
	c.want(")")
	if name == "IF" {
		if args[0].number.IsZero() {
			return args[2]
		}
		return args[1]
	}
	d := args[0].number
	switch name {
	case "ABS":
		return value{number: d.Abs()}
	case "SQRT":
		return value{number: decimal.NewFromFloat(math.Sqrt(d.InexactFloat64()))}
	case "MAX":
		return value{number: decimal.Max(d, args[1].number)}
	}
	places := int32(args[1].number.IntPart())
	switch name {
	case "ROUND":
		return value{number: d.Round(places)}
	case "ROUNDDOWN":
		return value{number: d.Truncate(places)}
	case "ROUNDUP":
		return value{number: d.RoundUp(places)}
	}
	panic(name + " is a function nobody writes")
}
