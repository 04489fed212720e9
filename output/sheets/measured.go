package sheets

import (
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the sheets that hold quantity, rate and amount.
const (
	colItem = iota + 1
	colDescription
	colQuantity
	colUnit
	colRate
	colAmount
	colVAT
	colRemark
	colStage // beside the printed part
)

func (l *ledger) lineHead(p *page) int {
	row := []grid.Cell{
		words("Item", heading), words("Description", heading), words("Quantity", headRow), words("Unit", centred(heading)),
		words("Rate "+l.sign, headRow), words("Amount "+l.sign, headRow), words("VAT", centred(heading)), words("Remark", heading), words(bill.HeadStage, heading),
	}
	return p.add(l.analysisHead(p, row)...)
}

// line is one priced line: its amount is quantity times rate, rounded.
func (l *ledger) line(p *page, n bill.Line) {
	here := p.next()
	row := []grid.Cell{
		words(n.Ref, plain), words(n.Description, wrapped), quantity(n.Quantity, n.Unit), words(string(n.Unit), centred(plain)),
		sum(n.Rate, plain),
		sumBy("ROUND("+at(colQuantity, here)+"*"+at(colRate, here)+",2)", n.Amount, plain),
		words(n.VAT, centred(plain)), words(n.Remark, remark), words(n.Stage, unprinted),
	}
	if n.Carried == job.RateOnly {
		row[colQuantity-1] = grid.Cell{}
		row[colAmount-1] = words("rate only", grid.Style{Top: true, Align: grid.Right, Font: grid.Font{Italic: true, Colour: grey}})
	}
	if n.Carried.InTotal() {
		row = l.analyse(row, here, colVAT, colAmount, n.VAT, n.Amount)
	}
	p.add(row...)
}

// total closes a run of lines from row to row and returns its row.
func (l *ledger) total(p *page, text string, from, to int, a money.Amount) int {
	p.keep(p.next() - 1)
	row := blanks(colRemark, strong)
	row[colDescription-1] = words(text, strong)
	row[colAmount-1] = sumBy(sumOf(colAmount, from, to), a, strong)
	return p.add(row...)
}

// measured lays out the sections of the bill. Options and lines of which only
// the rate is asked stand under the total they are not part of.
func (l *ledger) measured() {
	p := newPage(billSheet, 11, 70, 11, 6, 12, 14, 6, 22, 34)
	p.Print.Landscape = true
	l.top(p, "Bill of quantities", colRemark)
	head := l.lineHead(p)
	p.repeat(head, head)
	first := p.next()
	for i, s := range l.Bill.Sections {
		if i > 0 {
			p.gap()
		}
		row := blanks(colRemark, band)
		row[0], row[1] = words(s.Section, band), words(s.Title, band)
		p.keep(p.add(row...))
		in, out := parted(s)
		from := p.next()
		for _, n := range in {
			l.line(p, n)
		}
		end := l.total(p, "Carried to summary: "+s.Title, from, p.next()-1, s.Total)
		l.sections = append(l.sections, p.cell(colAmount, end))
		if len(out) > 0 {
			p.keep(p.add(grid.Cell{}, words(outside, remark)))
			for _, n := range out {
				l.line(p, n)
			}
		}
	}
	last := p.next() - 1
	l.collection(p)
	p.Print.Area = "$A$1:$H$" + itoa(p.next()-1)
	l.analysisFoot(p, colStage, first, last)
	l.keep(p)
}

// outside stands over what is under the total of a section.
const outside = "Not in the total: options, and lines of which only the rate is asked"

// collection gathers the totals of the sections at the end of the bill.
func (l *ledger) collection(p *page) {
	p.gap()
	row := func(style grid.Style, section, text string) []grid.Cell {
		cells := blanks(colRemark, style)
		cells[colItem-1], cells[colDescription-1] = words(section, style), words(text, style)
		return cells
	}
	p.keep(p.add(row(band, "", "Collection")...))
	from := p.next()
	for i, s := range l.Bill.Sections {
		cells := row(plain, s.Section, s.Title)
		cells[colAmount-1] = sumBy(l.sections[i], s.Total, plain)
		p.keep(p.add(cells...))
	}
	cells := row(strong, "A", "Measured work, carried to summary")
	cells[colAmount-1] = sumBy(sumOf(colAmount, from, p.next()-1), l.Bill.Items, strong)
	l.items = p.cell(colAmount, p.add(cells...))
}

func (l *ledger) preliminaries() {
	if len(l.Bill.Preliminaries) == 0 {
		return
	}
	p := newPage(prelimSheet, 11, 70, 11, 6, 12, 14, 6, 22, 34)
	p.Print.Landscape = true
	l.top(p, "Preliminaries", colRemark)
	head := l.lineHead(p)
	p.repeat(head, head)
	from := p.next()
	for _, n := range l.Bill.Preliminaries {
		l.line(p, n)
	}
	to := p.next() - 1
	end := l.total(p, "B   Preliminaries, carried to summary", from, to, l.Bill.Prelims)
	l.prelims = p.cell(colAmount, end)
	p.Print.Area = "$A$1:$H$" + itoa(end)
	l.analysisFoot(p, colStage, from, to)
	l.keep(p)
}
