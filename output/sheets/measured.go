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
)

func (l *ledger) lineHead(p *page) int {
	row := []grid.Cell{
		words("Item", heading), words("Description", heading), words("Quantity", headRow), words("Unit", centred(heading)),
		words("Rate "+l.sign, headRow), words("Amount "+l.sign, headRow), words("VAT", centred(heading)), words("Remark", heading),
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
		words(n.VAT, centred(plain)), words(n.Remark, remark),
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
	row := append([]grid.Cell{}, blanks(colRemark, strong)...)
	row[colDescription-1] = words(text, strong)
	row[colAmount-1] = sumBy(sumOf(colAmount, from, to), a, strong)
	return p.add(row...)
}

// measured lays out the sections of the bill. Options and lines of which only
// the rate is asked stand under the total they are not part of.
func (l *ledger) measured() {
	p := newPage(billSheet, 11, 70, 11, 6, 12, 14, 6, 22)
	p.Print.Landscape = true
	l.top(p, "Bill of quantities")
	head := l.lineHead(p)
	p.repeat(head, head)
	first := p.next()
	for i, s := range l.Bill.Sections {
		if i > 0 {
			p.gap()
		}
		row := blanks(colRemark, band)
		row[0], row[1] = words(s.Section, band), words(s.Title, band)
		p.add(row...)
		in, out := parted(s)
		from := p.next()
		for _, n := range in {
			l.line(p, n)
		}
		end := l.total(p, "Carried to summary: "+s.Title, from, p.next()-1, s.Total)
		l.sections = append(l.sections, p.cell(colAmount, end))
		if len(out) > 0 {
			p.add(grid.Cell{}, words("Not in the total: options, and lines of which only the rate is asked", remark))
			for _, n := range out {
				l.line(p, n)
			}
		}
	}
	last := p.next() - 1
	p.Print.Area = "$A$1:$H$" + itoa(last)
	l.analysisFoot(p, colRemark, first, last)
	l.keep(p)
}

func (l *ledger) preliminaries() {
	if len(l.Bill.Preliminaries) == 0 {
		return
	}
	p := newPage(prelimSheet, 11, 70, 11, 6, 12, 14, 6, 22)
	p.Print.Landscape = true
	l.top(p, "Preliminaries")
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
	l.analysisFoot(p, colRemark, from, to)
	l.keep(p)
}
