package sheets

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the summary.
const (
	sumRef = iota + 1
	sumText
	sumOn
	sumRate
	sumAmount
)

// summary lays out the totals carried from the other sheets, VAT by code, and
// the total.
func (l *ledger) summary() {
	p := newPage(summarySheet, 14, 60, 17, 11, 18)
	l.top(p, "Summary", 5)
	head := p.add(words("", heading), words("Summary", heading), words("", headRow), words("", headRow), words("Amount "+l.sign, headRow))
	p.Print.Repeat = fmt.Sprintf("$%d:$%d", head, head)

	for i, s := range l.Bill.Sections {
		p.add(words(s.Section, plain), words(s.Title, wrapped), grid.Cell{}, grid.Cell{}, sumBy(l.sections[i], s.Total, plain))
	}
	a := l.carry(p, "A", "Measured work", l.items, l.Bill.Items)
	b := l.carry(p, "B", "Preliminaries", orNil(l.prelims), l.Bill.Prelims)
	c := l.carry(p, "C", "Provisional sums, prime cost sums, quotations and dayworks", orNil(l.sumTotal, l.dayTotal), l.Bill.SumsDayworks)
	parts := []string{a, b, c}
	d := "0"
	if l.held != "" {
		d = l.carry(p, "D", "Contingency", l.held, l.Bill.Held)
		parts = append(parts, d)
	}
	e := ""
	if !l.Job.PriceRises.IsZero() {
		n := p.next()
		base := addUp(a, b)
		if l.held != "" {
			base = addUp(a, b, d)
		}
		style := strong
		style.Format, style.Top = "0.000000", true
		factor := grid.Numeric(l.Bill.RiseFactor, style)
		p.add(words("E", strong), words("Price rises to the middle of the works, at "+l.Job.PriceRises.String()+" a year", strong), grid.Cell{Style: strong}, factor,
			sumBy("ROUND(("+base+")*("+at(sumRate, n)+"-1),2)", l.Bill.Rises, strong))
		e = at(sumAmount, n)
		parts = append(parts, e)
	}
	net := p.next()
	p.add(grid.Cell{Style: strong}, words("Net total", strong), grid.Cell{Style: strong}, grid.Cell{Style: strong}, sumBy(addUp(parts...), l.Bill.Net, strong))
	p.gap()

	onOwn := []string{}
	if l.held != "" {
		onOwn = append(onOwn, d)
	}
	if e != "" {
		onOwn = append(onOwn, e)
	}
	nets := l.taxes(p, "Value added tax", l.Bill.VAT, func(t bill.Tax) string { return l.netCell(t.Code, at(sumAmount, net), onOwn) }, l.Bill.VATTotal)
	total := p.add(grid.Cell{Style: grand}, words("Total with VAT", grand), grid.Cell{Style: grand}, grid.Cell{Style: grand},
		inCurrency(sumBy(addUp(at(sumAmount, net), at(sumAmount, nets.total)), l.Bill.Total, grand), l.Job.Currency))
	l.untaxed(p, at(sumAmount, net), nets)
	l.net, l.gross = p.cell(sumAmount, net), p.cell(sumAmount, total)
	if o := l.Bill.Otherwise; o != nil {
		p.gap()
		other := l.taxes(p, "If the vessel did not qualify for relief", o.VAT, func(t bill.Tax) string { return l.otherwiseCell(t.Code, nets.net) }, o.VATTotal)
		p.add(grid.Cell{Style: strong}, words("Total with VAT if the vessel did not qualify", strong), grid.Cell{Style: strong}, grid.Cell{Style: strong},
			sumBy(addUp(at(sumAmount, net), at(sumAmount, other.total)), o.Total, strong))
		p.add(grid.Cell{}, words("Whether she qualifies is for the owner and the owner's adviser to judge; see the notes.", remark))
	}
	p.Print.Area = "$A$1:$E$" + itoa(p.next()-1)
	l.pages = append([]*page{p}, l.pages...)
}

// carry is one total brought from another sheet; it returns its cell.
func (l *ledger) carry(p *page, letter, text, formula string, a money.Amount) string {
	n := p.add(words(letter, strong), words(text, strong), grid.Cell{Style: strong}, grid.Cell{Style: strong}, sumBy(formula, a, strong))
	return at(sumAmount, n)
}

// placed says where a table of VAT stands.
type placed struct {
	net   map[string]string // cell of each code's net, by its key
	first int               // row of the first code
	total int               // row of the VAT total
}

// taxes is a table of VAT by code: net, rate, VAT, and their sum.
func (l *ledger) taxes(p *page, text string, taxes []bill.Tax, net func(bill.Tax) string, total money.Amount) placed {
	p.add(words("", heading), words(text, heading), words("Net "+l.sign, headRow), words("Rate", headRow), words("VAT "+l.sign, headRow))
	out := placed{net: map[string]string{}}
	out.first = p.next()
	for _, t := range taxes {
		n := p.next()
		out.net[rates.Key(t.Code)] = at(sumOn, n)
		formula := "ROUND(" + at(sumOn, n) + "*" + at(sumRate, n) + ",2)"
		if l.Job.VATRounding == job.Down {
			// The inner rounding takes off the noise of binary fractions, so
			// that an exact penny is not dropped to the one below it.
			formula = "ROUNDDOWN(ROUND(" + at(sumOn, n) + "*" + at(sumRate, n) + ",6),2)"
		}
		p.add(words(t.Code, plain), words(t.Meaning, wrapped), sumBy(net(t), t.Net, plain), percent(t.Rate, plain), sumBy(formula, t.VAT, plain))
	}
	out.total = p.next()
	p.add(grid.Cell{Style: strong}, words("VAT", strong), grid.Cell{Style: strong}, grid.Cell{Style: strong},
		sumBy(sumOf(sumAmount, out.first, out.total-1), total, strong))
	return out
}

// untaxed is what of the net total bears no code of the table, so that a code
// typed wrong is seen: nothing is shown while it is nil.
func (l *ledger) untaxed(p *page, net string, nets placed) {
	if len(l.codes) == 0 {
		return
	}
	style := warned
	style.Format = `"no VAT reckoned, its code is not in this table: "#,##0.00;"no VAT reckoned, its code is not in this table: "-#,##0.00;""`
	p.add(grid.Cell{}, grid.Reckoned("ROUND("+net+"-"+sumOf(sumOn, nets.first, nets.total-1)+",2)", decimal.Zero, style))
	p.merge(p.next()-1, sumText, sumRate)
}

// netCell adds up what bears a VAT code: its analysis columns and, for the
// Job's code, contingency and price rises.
func (l *ledger) netCell(code, net string, own []string) string {
	if len(l.codes) == 0 {
		return net
	}
	cells := append([]string{}, l.analysis[code]...)
	if rates.Same(code, l.Job.VATCode) {
		cells = append(cells, own...)
	}
	return addUp(cells...)
}

// otherwiseCell adds up the nets of the codes that would bear this one.
func (l *ledger) otherwiseCell(code string, nets map[string]string) string {
	var cells []string
	for _, t := range l.Bill.VAT {
		bears := t.Code
		if row, ok := l.Book.Tax(t.Code, l.Job.TenderDate); ok && row.Otherwise != "" {
			bears = row.Otherwise
		}
		if rates.Same(bears, code) {
			cells = append(cells, nets[rates.Key(t.Code)])
		}
	}
	return addUp(cells...)
}

// orNil adds up the cells that are there.
func orNil(cells ...string) string {
	var there []string
	for _, c := range cells {
		if c != "" {
			there = append(there, c)
		}
	}
	return addUp(there...)
}
