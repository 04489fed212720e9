package xlsx

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
)

// filling is what a cell is to hold, in the form it has in the file: the kind
// ("" for a number) and the text.
type filling struct{ kind, text string }

// filling is what is put into the cell.
func (p *patcher) filling(t target) filling {
	switch t.put.Kind {
	case grid.Number:
		return filling{"", plainNumber(t.put.Number)}
	case grid.Date:
		n := serial(t.put.Day)
		if p.list.date1904 {
			n -= 1462 // the days between the two counts (ECMA-376 part 1, 18.17.4.1)
		}
		if n < 1 || !showsDates(p.format(t.style)) {
			return filling{"inlineStr", t.put.Day.Format("2006-01-02")}
		}
		return filling{"", strconv.Itoa(n)}
	}
	return filling{"inlineStr", t.put.Text}
}

// element is the filling as an element within a cell.
func (c filling) element(prefix string) string {
	if c.kind == "" {
		return fmt.Sprintf("<%sv>%s</%sv>", prefix, c.text, prefix)
	}
	space := ""
	if strings.Trim(c.text, " \t\n") != c.text || strings.Contains(c.text, "\n") {
		space = ` xml:space="preserve"`
	}
	return fmt.Sprintf("<%sis><%st%s>%s</%st></%sis>", prefix, prefix, space, escapeText(c.text), prefix, prefix)
}

// newCell is a cell with its content, if it is to have any.
func (p *patcher) newCell(prefix string, t target) string {
	if t.put.Kind == grid.Blank {
		return blankCell(prefix, t.col, t.row, t.style)
	}
	c, kind := p.filling(t), ""
	if c.kind != "" {
		kind = fmt.Sprintf(` t="%s"`, c.kind)
	}
	return fmt.Sprintf(`<%sc r="%s"%s%s>%s</%sc>`, prefix, cellName(t.col, t.row), styleAttr(t.style), kind, c.element(prefix), prefix)
}

// blankCell is a cell that has a look and nothing in it.
func blankCell(prefix string, col, row int, style string) string {
	if style == "" {
		return ""
	}
	return fmt.Sprintf(`<%sc r="%s"%s/>`, prefix, cellName(col, row), styleAttr(style))
}

func styleAttr(style string) string {
	if style == "" {
		return ""
	}
	return fmt.Sprintf(` s="%s"`, style)
}

// plainNumber is a number as it is stored, to 15 significant figures.
func plainNumber(d decimal.Decimal) string {
	d = significant(d)
	if d.Abs().GreaterThanOrEqual(decimal.New(1, 20)) || !d.IsZero() && d.Abs().LessThan(decimal.New(1, -9)) {
		return strconv.FormatFloat(d.InexactFloat64(), 'E', -1, 64)
	}
	return d.String()
}

// showsDates reports a number format that shows days. Words in quotes, colours
// and single signs beside the figures are no part of it.
func showsDates(format string) bool {
	if strings.EqualFold(format, "standard") { // General in another tongue
		return false
	}
	for i := 0; i < len(format); i++ {
		switch c := format[i] | 0x20; {
		case format[i] == '"' || format[i] == '[':
			end := byte('"')
			if format[i] == '[' {
				end = ']'
			}
			n := strings.IndexByte(format[i+1:], end)
			if n < 0 {
				return false
			}
			i += n + 1
		case format[i] == '\\' || format[i] == '_' || format[i] == '*':
			i++
		case format[i] == ';':
			return false
		case c == 'd' || c == 'y':
			return true
		}
	}
	return false
}
