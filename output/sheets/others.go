package sheets

import (
	"futtock/estimate/bill"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
)

func (l *ledger) sums() {
	if len(l.Bill.Sums) == 0 {
		return
	}
	const (
		amount = iota + 4
		profit
		profitSum
		attendance
		total
		vat
		quoted
		stage // beside the printed part
	)
	p := newPage(sumSheet, 11, 52, 21, 14, 8, 12, 13, 14, 6, 22, 34)
	p.Print.Landscape = true
	l.top(p, "Provisional sums, prime cost sums and quotations", 10)
	head := p.add(l.analysisHead(p, []grid.Cell{
		words("Item", heading), words("Description", heading), words("Kind", heading), words("Sum "+l.sign, headRow), words("Profit", headRow),
		words("Profit "+l.sign, headRow), words("Attendance "+l.sign, headRow), words("Total "+l.sign, headRow), words("VAT", centred(heading)),
		words("Quoted by", heading), words(bill.HeadStage, heading),
	})...)
	p.repeat(head, head)
	from := p.next()
	for _, s := range l.Bill.Sums {
		n := p.next()
		p.add(l.analyse([]grid.Cell{
			words(s.Ref, plain), words(s.Description, wrapped), words(string(s.Kind), wrapped), sum(s.Amount, plain), percent(s.Profit, plain),
			sumBy("ROUND("+at(amount, n)+"*"+at(profit, n)+",2)", s.ProfitSum, plain), sum(s.Attendance, plain),
			sumBy(at(amount, n)+"+"+at(profitSum, n)+"+"+at(attendance, n), s.Total, plain), words(s.VAT, centred(plain)), words(s.QuotedBy, wrapped), words(s.Stage, unprinted),
		}, n, vat, total, s.VAT, s.Total)...)
	}
	to := p.next() - 1
	p.keep(to)
	row := blanks(quoted, strong)
	row[1] = words("Carried to summary", strong)
	for _, c := range []struct {
		col int
		sum money.Amount
	}{{amount, l.sumsOf(0)}, {profitSum, l.sumsOf(1)}, {attendance, l.sumsOf(2)}, {total, l.sumsOf(3)}} {
		row[c.col-1] = sumBy(sumOf(c.col, from, to), c.sum, strong)
	}
	end := p.add(row...)
	l.sumTotal = p.cell(total, end)
	p.Print.Area = "$A$1:$J$" + itoa(end)
	l.analysisFoot(p, stage, from, to)
	l.keep(p)
}

// sumsOf adds up one column of the sums: the sum, profit, attendance or total.
func (l *ledger) sumsOf(column int) money.Amount {
	var t money.Amount
	for _, s := range l.Bill.Sums {
		t = t.Add([]money.Amount{s.Amount, s.ProfitSum, s.Attendance, s.Total}[column])
	}
	return t
}

func (l *ledger) dayworks() {
	if len(l.Bill.Dayworks) == 0 {
		return
	}
	const (
		hours = iota + 2
		rate
		lump
		addition
		total
		vat
	)
	p := newPage(daySheet, 34, 11, 12, 14, 10, 14, 6)
	l.top(p, "Dayworks", 7)
	p.add(words("Allowed for work that can only be paid for by time and cost, and spent only on the client's instruction.", remark))
	p.merge(p.next()-1, 1, vat)
	p.gap()
	head := p.add(l.analysisHead(p, []grid.Cell{
		words("Trade or kind of cost", heading), words("Hours", headRow), words("Rate "+l.sign, headRow), words("Sum "+l.sign, headRow),
		words("Addition", headRow), words("Total "+l.sign, headRow), words("VAT", centred(heading)),
	})...)
	p.repeat(head, head)
	from := p.next()
	var all money.Amount
	for _, d := range l.Bill.Dayworks {
		n := p.next()
		row := []grid.Cell{words(d.Of, wrapped), {}, {}, {}, {}, {}, words(d.VAT, centred(plain))}
		if d.Hours {
			row[hours-1], row[rate-1] = quantity(d.Quantity, measure.Hour), sum(d.Rate, plain)
			row[total-1] = sumBy("ROUND("+at(hours, n)+"*"+at(rate, n)+",2)", d.Total, plain)
		} else {
			row[lump-1], row[addition-1] = sum(d.Sum, plain), percent(d.Addition, plain)
			row[total-1] = sumBy(at(lump, n)+"+ROUND("+at(lump, n)+"*"+at(addition, n)+",2)", d.Total, plain)
		}
		p.add(l.analyse(row, n, vat, total, d.VAT, d.Total)...)
		all = all.Add(d.Total)
	}
	to := p.next() - 1
	p.keep(to)
	row := blanks(vat, strong)
	row[0], row[total-1] = words("Carried to summary", strong), sumBy(sumOf(total, from, to), all, strong)
	end := p.add(row...)
	l.dayTotal = p.cell(total, end)
	p.Print.Area = "$A$1:$G$" + itoa(end)
	l.analysisFoot(p, vat, from, to)
	l.keep(p)
}

// contingency lays out the client's contingency: a percentage of each section's
// total, and a share of each piece of work that may be found when she is opened up.
func (l *ledger) contingency() {
	c := l.Bill.Contingency
	if len(c.Parts)+len(c.Risks) == 0 && c.Basis == "" {
		return
	}
	p := newPage(heldSheet, 11, 58, 16, 10, 16)
	l.top(p, "Contingency", 5)
	p.add(words("A client's sum, spent only on the client's instruction and given back where it is not needed.", remark))
	p.merge(p.next()-1, 1, 5)
	p.gap()
	head := p.add(words("", heading), words("Contingency on", heading), words("Amount "+l.sign, headRow), words("Share", headRow), words("Held "+l.sign, headRow))
	p.repeat(head, head)
	from := p.next()
	for i, part := range c.Parts {
		n, source := p.next(), l.prelims
		if i < len(l.sections) {
			source = l.sections[i]
		}
		p.add(grid.Cell{}, words(part.Title, wrapped), sumBy(source, part.On, plain), percent(part.Percent, plain),
			sumBy("ROUND("+at(3, n)+"*"+at(4, n)+",2)", part.Amount, plain))
	}
	if c.Basis != "" {
		p.add(grid.Cell{}, words("All that may come out otherwise than priced, "+c.Basis, wrapped), grid.Cell{Style: plain}, grid.Cell{Style: plain}, sum(l.Bill.Held, plain))
	}
	if len(c.Risks) > 0 {
		p.keep(p.add(grid.Cell{}, words("Work that may be found to be needed, at the chance of it", band), grid.Cell{Style: band}, grid.Cell{Style: band}, grid.Cell{Style: band}))
	}
	for _, r := range c.Risks {
		n := p.next()
		p.add(words(r.Ref, plain), words(r.Description, wrapped), sum(r.Amount, plain), percent(r.Chance, plain),
			sumBy("ROUND("+at(3, n)+"*"+at(4, n)+",2)", r.Held, plain))
	}
	to := p.next() - 1
	p.keep(to)
	end := p.add(grid.Cell{Style: strong}, words("D   Contingency, carried to summary", strong), grid.Cell{Style: strong}, grid.Cell{Style: strong},
		sumBy(sumOf(5, from, to), l.Bill.Held, strong))
	l.held = p.cell(5, end)
	p.Print.Area = "$A$1:$E$" + itoa(end)
	l.keep(p)
}
