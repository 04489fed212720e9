package sheets

import (
	"fmt"

	"futtock/estimate/quotes"
	"futtock/rates"
	"futtock/templates/grid"
)

// Columns of the sections. Each offer has two, its levelled figure and a sign
// where it is the lowest or highest.
const (
	spreadKey = iota + 1
	spreadText
	spreadYardstick
	spreadLow
	spreadHigh
	spreadShare
	spreadOffers
)

func spreadOf(offer int) int { return spreadOffers + 2*offer }

// sections lays out what each section and part comes to with every offer, and
// how far they lie apart. The rows add up to the levelled figures.
func (l *comparing) sections() {
	widths := []float64{10, 40, 14, 14, 14, 9}
	names := []string{"Section", "", ">Yardstick " + l.sign, ">Lowest " + l.sign, ">Highest " + l.sign, ">Spread"}
	for i := range l.Offers {
		widths = append(widths, 15, 4)
		names = append(names, ">"+l.numbered(i), "=")
	}
	p := l.page(spreadSheet, "Sections", say("sections"), widths...)
	head := p.add(heads(names...)...)
	p.repeat(head, head)
	p.Freeze.Cols = spreadText
	l.across(p)
	from := p.next()
	counts := make([]int, len(l.plan.groups))
	for n := range counts {
		counts[n] = l.spreadOfGroup(&l.plan.groups[n])
	}
	l.counts = counts
	for k := range l.Sections {
		p.add(l.section(k, p.next(), len(widths))...)
	}
	to := p.next() - 1
	row := blanks(len(widths), grand)
	row[spreadText-1] = words("Levelled", grand)
	if l.Yardstick.Known {
		row[spreadYardstick-1] = sumBy(pennies(sumOf(spreadYardstick, from, to)), l.Yardstick.Amount, grand)
		l.yardstick = p.cell(spreadYardstick, p.next())
	}
	for i := range l.Offers {
		col := spreadOf(i)
		row[col-1] = sumBy(pennies(sumOf(col, from, to)), l.Offers[i].Levelled, grand)
		l.spread[i] = p.cell(col, p.next())
	}
	p.add(row...)
}

// section is one row of the spread.
func (l *comparing) section(k, row, cols int) []grid.Cell {
	s := &l.Sections[k]
	out := make([]grid.Cell, cols)
	key, text := s.Key, s.Title
	if k >= len(l.Sent.Sections) {
		key, text = "", capital(s.Title)
	}
	out[spreadKey-1], out[spreadText-1] = words(asText(key), plain), words(asText(text), wrapped)
	if s.Yardstick.Known {
		out[spreadYardstick-1] = sumBy(l.yardstickIn(k), s.Yardstick.Amount, plain)
	}
	low, high := at(spreadLow, row), at(spreadHigh, row)
	var cells []string
	for i, a := range s.Levelled {
		here := at(spreadOf(i), row)
		cells = append(cells, here)
		if s.Within[i] {
			out[spreadOf(i)-1] = words("elsewhere", grid.Style{Top: true, Align: grid.Right, Font: asCompare.Font})
			continue
		}
		style, now := plain, ""
		if s.Low.Cmp(s.High) < 0 {
			switch {
			case a.Equal(s.Low):
				now = signBelow
			case a.Equal(s.High):
				now = signAbove
			}
		}
		out[spreadOf(i)-1] = sumBy(thatFits(pennies(over("SUM", l.inSection(k, i)))), a, style)
		out[spreadOf(i)] = wordBy("IF("+low+"="+high+`,"",IF(`+here+"="+low+`,"`+signBelow+`",IF(`+here+"="+high+`,"`+signAbove+`","")))`, now, signStyle)
	}
	out[spreadLow-1] = sumBy(over("MIN", cells), s.Low, plain)
	out[spreadHigh-1] = sumBy(over("MAX", cells), s.High, plain)
	out[spreadShare-1] = live("IF("+low+">0,ROUND(("+high+"-"+low+")/"+low+",3),0)", s.Percent.Fraction(), shareOneTen)
	return out
}

// inSection is the cells that an offer's figure of a row adds up.
func (l *comparing) inSection(k, offer int) []string {
	if l.Sections[k].Key == quotes.BesideLines {
		cells, _ := l.beside(offer)
		return append(cells, l.own[offer].beside)
	}
	var cells []string
	for n := range l.plan.groups {
		if l.counts[n] == k {
			cells = append(cells, l.own[offer].cell(offerLevelled, l.plan.groups[n].total))
		}
	}
	for _, lump := range l.Offers[offer].Lumps {
		if l.spreadOfLump(lump.Of) == k {
			cells = append(cells, l.own[offer].lumps[lump.Of])
		}
	}
	return cells
}

// spreadOfGroup is the row of the spread that a group of lines counts to.
func (l *comparing) spreadOfGroup(g *lineGroup) int {
	if k, ok := l.sectionRow(g.section); ok && g.part == quotes.Work {
		return k
	}
	return l.partRow(g.part)
}

// spreadOfLump is the row that a sum for a section or a part counts to.
func (l *comparing) spreadOfLump(of string) int {
	if k, ok := l.sectionRow(of); ok {
		return k
	}
	return l.partRow(quotes.Part(of))
}

// sectionRow is the row of a section: they come first, in their order.
func (l *comparing) sectionRow(section string) (int, bool) {
	for k := len(l.Sent.Sections) - 1; k >= 0; k-- {
		if rates.Same(l.Sent.Sections[k].Section, section) {
			return k, true
		}
	}
	return 0, false
}

// partRow is the row of a part, behind the sections.
func (l *comparing) partRow(part quotes.Part) int {
	for k := len(l.Sent.Sections); k < len(l.Sections); k++ {
		if l.Sections[k].Key == string(part) {
			return k
		}
	}
	panic(fmt.Sprintf("sheets: the comparison has no row for %q", part))
}

// yardstickIn is the formula of what the bill itself comes to in a row.
func (l *comparing) yardstickIn(k int) string {
	if l.Sections[k].Key == quotes.BesideLines {
		cells := []string{}
		if l.Sent.HasHeld {
			cells = append(cells, l.held)
		}
		if l.programme != "" {
			cells = append(cells, "ROUND("+l.programme+"*"+l.week+",2)")
		}
		return pennies(addUp(cells...))
	}
	var cells []string
	for n := range l.plan.groups {
		if l.counts[n] == k {
			cells = append(cells, quoted(linesSheet)+"!"+at(linesAmount, l.plan.groups[n].total))
		}
	}
	return pennies(over("SUM", cells))
}
