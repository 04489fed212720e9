package sheets

import (
	"futtock/estimate/quotes"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the sheet of all lines, after those that every sheet of lines has.
// Each offer has two, its levelled figure and its sign.
const (
	linesRate = lineFree + iota
	linesAmount
	linesOffers
)

// mostOnAPage is how many offers a page is made to hold across; more go on
// pages of their own with the items beside them.
const mostOnAPage = 6

func linesOf(offer int) int { return linesOffers + 2*offer }

// lines lays out every line with the levelled figures of all offers beside it.
func (l *comparing) lines() {
	widths := []float64{10, 46, 10, 6, 12, 14}
	names := append(fixedHeads(), ">Yardstick rate", ">Yardstick "+l.sign)
	for i := range l.Offers {
		widths = append(widths, 15, 5)
		names = append(names, ">"+l.numbered(i), "=")
	}
	cols := len(widths)
	p := l.page(linesSheet, "Lines", say("lines"), widths...)
	head := p.add(heads(names...)...)
	p.repeat(head, head)
	p.Freeze.Cols = lineText
	l.across(p)
	l.plan.lay(p, cols, lineFree, l.fixedOf, l.acrossLine, l.acrossTotal)

	all := func(text string, style grid.Style, of func(i, row int) grid.Cell) {
		row := blanks(cols, style)
		row[lineText-1] = words(text, style)
		n := p.next()
		for i := range l.Offers {
			row[linesOf(i)-1] = of(i, n)
		}
		p.add(row...)
	}
	row := blanks(cols, band)
	row[lineText-1] = words("Every offer", band)
	p.add(row...)
	from := p.next()
	all("Sums that a letter gives for whole sections", wrapped, func(i, _ int) grid.Cell {
		var cells []string
		var a money.Amount
		for _, lump := range l.Offers[i].Lumps {
			cells, a = append(cells, l.own[i].lumps[lump.Of]), a.Add(lump.Net)
		}
		return sumBy(addUp(cells...), a, plain)
	})
	all(say("beside lines"), wrapped, func(i, _ int) grid.Cell { return sumBy(l.own[i].beside, l.Offers[i].Beside, plain) })
	all("Adjusted beside the lines: contingency, qualifications, weeks", wrapped, func(i, _ int) grid.Cell {
		cells, a := l.beside(i)
		return sumBy(addUp(cells...), a, plain)
	})
	to := p.next() - 1
	all("Levelled", grand, func(i, _ int) grid.Cell {
		col := linesOf(i)
		cells := []string{span(col, from, to)}
		for k := range l.plan.groups {
			cells = append(cells, at(col, l.plan.groups[k].total))
		}
		return sumBy(thatFits(pennies(over("SUM", cells))), l.Offers[i].Levelled, grand)
	})
}

// across lets many offers go on as many pages as they need.
func (l *comparing) across(p *page) {
	if len(l.Offers) > mostOnAPage {
		p.Print.FitWidth = false
		p.Merges = []string{at(lineItem, 3) + ":" + at(lineText, 3)} // what runs further would be cut by the next page
		p.Print.Repeat = "$A:$B," + quoted(p.Name) + "!" + p.Print.Repeat
	}
}

// acrossLine is one line of all offers.
func (l *comparing) acrossLine(n int) []grid.Cell {
	r := &l.Rows[n]
	row := l.plan.rows[n]
	out := make([]grid.Cell, linesOf(len(l.Offers))-lineFree)
	if l.Sent.Priced && r.Line.Priced {
		rated := !r.Line.Rate.IsZero()
		if rated {
			out[linesRate-lineFree] = sum(r.Line.Rate, plain)
		}
		formula := ""
		if q := r.Line.Quantity; rated && !q.IsZero() && r.Line.Rate.Times(q).Equal(r.Line.Amount) {
			formula = rounded(at(lineQuantity, row), at(linesRate, row))
		}
		out[linesAmount-lineFree] = sumBy(formula, r.Line.Amount, plain)
	}
	for i := range r.Cells {
		c := &r.Cells[i]
		style := plain
		if signs := l.signs(i, n); signs != "" {
			style = told
			out[linesOf(i)+1-lineFree] = words(signs, signStyle)
		}
		if l.summed(n, c) || !c.Levelled.IsZero() || !c.Net.IsZero() {
			out[linesOf(i)-lineFree] = sumBy(l.own[i].cell(offerLevelled, row), c.Levelled, style)
		}
	}
	return out
}

// acrossTotal adds up a group, of the yardstick and of all offers.
func (l *comparing) acrossTotal(g *lineGroup) []grid.Cell {
	out := blanks(linesOf(len(l.Offers))-lineFree, strong)
	if l.Sent.Priced {
		out[linesAmount-lineFree] = sumBy(g.sum(linesAmount), l.yardstickOf(g), strong)
	}
	for i := range l.Offers {
		var a money.Amount
		for _, n := range g.in {
			a = a.Add(l.Rows[n].Cells[i].Levelled)
		}
		out[linesOf(i)-lineFree] = sumBy(g.sum(linesOf(i)), a, strong)
		if a.IsZero() && len(g.in) > 0 && l.Rows[g.in[0]].Cells[i].State == quotes.WithinLump {
			out[linesOf(i)+1-lineFree] = words(signLump, grid.Style{Align: grid.Centre, Font: strong.Font, Border: strong.Border})
		}
	}
	return out
}

func (l *comparing) yardstickOf(g *lineGroup) money.Amount {
	var a money.Amount
	for _, n := range g.in {
		a = a.Add(l.Sent.Lines[n].Amount)
	}
	return a
}
