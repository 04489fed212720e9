package sheets

import (
	"cmp"
	"fmt"
	"unicode"
	"unicode/utf8"

	"futtock/estimate/quotes"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/templates/grid"
)

// offerHead is the row of headings on every sheet of lines.
const offerHead = 5

// Columns that every sheet of lines begins with.
const (
	lineItem = iota + 1
	lineText
	lineQuantity
	lineUnit
	lineFree // the first that each sheet has for itself
)

// linePlan is in which row each line stands, on the sheet of all lines and on
// that of every offer alike.
type linePlan struct {
	rows   []int // by line
	groups []lineGroup
	end    int // the row after the last
}

// lineGroup is a section or a part: its lines in the total one below the
// other, so that one sum takes them in, and the others under that.
type lineGroup struct {
	part     quotes.Part
	section  string
	text     string
	in, out  []int // lines
	from, to int   // rows of those in the total
	total    int   // row
}

// planLines gives every line its row, the first group beginning at a row.
func planLines(s quotes.Sent, first int) linePlan {
	p := linePlan{rows: make([]int, len(s.Lines))}
	for n := range s.Lines {
		line := &s.Lines[n]
		section := ""
		if line.Part == quotes.Work {
			section = line.Section
		}
		last := len(p.groups) - 1
		if last < 0 || p.groups[last].part != line.Part || !rates.Same(p.groups[last].section, section) {
			p.groups = append(p.groups, lineGroup{part: line.Part, section: section, text: groupTitle(s, line.Part, section)})
			last++
		}
		g := &p.groups[last]
		if line.InTotal() {
			g.in = append(g.in, n)
		} else {
			g.out = append(g.out, n)
		}
	}
	row := first
	for k := range p.groups {
		g := &p.groups[k]
		row++ // the band
		g.from = row
		for _, n := range g.in {
			p.rows[n] = row
			row++
		}
		g.to, g.total = row-1, row
		row++
		if len(g.out) > 0 {
			row++ // what these are
			for _, n := range g.out {
				p.rows[n] = row
				row++
			}
		}
		row++ // the gap
	}
	p.end = row
	return p
}

// groupTitle is a section or part in words.
func groupTitle(s quotes.Sent, part quotes.Part, section string) string {
	for _, sec := range s.Sections {
		if part == quotes.Work && rates.Same(sec.Section, section) {
			return sec.Title
		}
	}
	return capital(string(part))
}

// capital is text with its first letter a capital.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if r == utf8.RuneError {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

// lay writes the rows of the plan: fixed and line give the cells of
// a line, which are copied, and total those of a group's total from the first free
// column on.
func (p linePlan) lay(on *page, cols, free int, fixed func(n int) []grid.Cell, line func(n int) []grid.Cell, total func(g *lineGroup) []grid.Cell) {
	scratch := make([]grid.Cell, 0, cols+2)
	put := func(n int) {
		scratch = append(append(scratch[:0], fixed(n)...), line(n)...)
		row := make([]grid.Cell, len(scratch)) // no longer than it need be: there may be very many
		copy(row, scratch)
		if at := on.add(row...); at != p.rows[n] {
			panic(fmt.Sprintf("sheets: line %d stands in row %d of %q and was planned for %d", n, at, on.Name, p.rows[n]))
		}
	}
	for k := range p.groups {
		g := &p.groups[k]
		row := blanks(cols, band)
		row[lineItem-1], row[lineText-1] = words(asText(g.section), band), words(asText(g.text), band)
		on.add(row...)
		for _, n := range g.in {
			put(n)
		}
		row = blanks(cols, strong)
		row[min(lineText, free-1)-1] = words(asText("Total of "+g.text), strong)
		copy(row[free-1:], total(g))
		on.add(row...)
		if len(g.out) > 0 {
			on.add(grid.Cell{}, words(say("not in total"), asCompare))
			for _, n := range g.out {
				put(n)
			}
		}
		on.gap()
	}
}

// fixedCells is what every sheet says of a line.
func fixedCells(line *quotes.Line) []grid.Cell {
	of := grid.Cell{}
	if !line.Quantity.IsZero() {
		s := plain
		s.Format = asFine(line.Quantity, 6)
		if _, ok := measure.ParseUnit(string(line.Unit)); ok {
			s = quantityStyle(line.Unit)
		}
		of = grid.Numeric(line.Quantity, s)
	}
	ref := line.Ref
	if ref == "" {
		ref = line.ID
	}
	return []grid.Cell{words(asText(ref), plain), words(asText(cmp.Or(line.Description, line.Wording)), wrapped), of, words(asText(string(line.Unit)), centred(plain))}
}

// fixedHeads are the headings over them.
func fixedHeads() []string { return []string{"Item", "Description", ">Quantity", "=Unit"} }

// sum adds up a column of a group, down the lines in the total.
func (g *lineGroup) sum(col int) string { return sumOf(col, g.from, g.to) }
