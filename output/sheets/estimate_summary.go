package sheets

import (
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// sumChart is the last column printed, where what the job comes to in one look and
// the chart stand beside the summary.
const sumChart = lookAmount

// summary lays out the first sheet: how to use the model, the totals carried
// from the other sheets, VAT by code, the total, and what the work is made of.
func (w *working) summary() {
	p := newPage(summarySheet, 9, 58, 16, 11, 17, 4, 38, 14, 14, 13, 11, 15)
	w.pages[summarySheet] = p
	p.add(words(w.Job.Vessel, title))
	p.add(words("Estimate: the yard's private working of tender "+w.Job.Reference, subtitle))
	p.add(words("A shaded figure may be changed, and the total follows. How to read this workbook stands below.", remark))
	p.merge(p.next()-1, 1, sumAmount)
	factor := w.rises(p)
	p.gap()
	head := p.add(heads("", "Summary, each with its make-up", "Members", "=Pennies", ">Amount "+w.sign)...)

	from := p.next()
	rows := map[string]int{}
	for i, s := range w.Bill.Sections {
		k := rates.Key(s.Section)
		n := p.add(words(s.Section, plain), words(s.Title, wrapped), words("as taken off", plain), words("reconciled", centred(plain)), sumBy(w.sections[i].amount, s.Total, plain))
		rows[k] = n
		p.lead(sumRef, n, w.firstOf[k])
		p.lead(sumText, n, w.firstOf[k])
		p.lead(sumOn, n, w.membersOf[k])
		p.lead(sumRate, n, w.reconciledOf[k])
	}
	w.sendBack(p, rows)
	a := w.carry(p, "A", "Measured work", sumOf(sumAmount, from, p.next()-1), reconcileSheet, w.Bill.Items)
	b := w.carry(p, "B", "Preliminaries", orNil(w.prelims), prelimSheet, w.Bill.Prelims)
	c := w.carry(p, "C", "Provisional sums, prime cost sums, quotations and dayworks", orNil(w.sumTotal, w.dayTotal), sumSheet, w.Bill.SumsDayworks)
	if d := w.pages[daySheet]; d != nil { // the line leads to the sums, and beside them to these
		n := p.next() - 1
		p.put(sumOn, n, words("dayworks", strong))
		p.lead(sumOn, n, d.cell(1, 1))
	}
	parts, own, base := []string{a, b, c}, []string{}, []string{a, b}
	held, risen := "", ""
	if w.held != "" {
		d := w.carry(p, "D", "Contingency", w.held, heldSheet, w.Bill.Held)
		held, parts, own, base = d, append(parts, d), append(own, d), append(base, d)
	}
	if factor != "" {
		e := w.carry(p, "E", "Price rises to the middle of the works", "("+addUp(base...)+")*("+factor+"-1)", "", w.Bill.Rises)
		risen, parts, own = e, append(parts, e), append(own, e)
	}
	n := w.closing(p, "Net total", addUp(parts...), w.Bill.Net, strong)
	net := at(sumAmount, n)
	p.gap()

	nets := w.taxed(p, "Value added tax", w.Bill.VAT, func(t bill.Tax) string { return w.netCell(t.Code, net, own) }, w.Bill.VATTotal)
	w.closing(p, "Total with VAT", addUp(net, at(sumAmount, nets.total)), w.Bill.Total, grand)
	if o := w.Bill.Otherwise; o != nil {
		p.gap()
		other := w.taxed(p, "If the vessel did not qualify for relief", o.VAT, func(t bill.Tax) string { return w.otherwise(t.Code, nets.net) }, o.VATTotal)
		w.closing(p, "Total with VAT if the vessel did not qualify", addUp(net, at(sumAmount, other.total)), o.Total, strong)
	}
	p.gap()
	w.legend(p)
	below := w.glance(p, head, held, risen)
	w.sectionChart(p, below+1, head, from, from+len(w.Bill.Sections)-1)
	p.Print.Area = "$A$1:$" + origin.Column(sumChart) + "$" + itoa(p.next()-1)
	p.Print.Landscape = true
}

// legend says how the looks of the cells are to be read.
func (w *working) legend(p *page) {
	from := p.add(heads("", "How to read this workbook", "", "", "")...)
	for _, say := range []struct {
		cell grid.Cell
		text string
	}{
		{grid.Cell{Style: input}, "A shaded figure may be changed: the bill follows, down to the total above. Prices stand in Prices used, what a line takes in Build-ups; what only one line has stands in its own sheet."},
		{words("0.00", solved), "A figure in grey italics was solved for (sticks, weeks, learning, sawn volumes) and stays as priced; run again to choose anew."},
		{words("blue", jump), "A word in blue leads elsewhere in this workbook: a section to its items in Make-up, its rows in Members and its pennies in Reconciliation, and their headings back here."},
		{words("", plain), "Nothing here changes the yard's workbook. Costs, hours and margins are in this file: it is not for the client."},
	} {
		n := p.add(say.cell, words(say.text, remark))
		p.merge(n, sumText, sumAmount)
	}
	n := p.add(grid.Cell{}, words(strings.Join(wording.BeforeSending(), " "), wrapped))
	p.merge(n, sumText, sumAmount)
	p.together(from, n)
}

// rises lays out the factor of price rises, where they are asked for, beside the
// title, and returns its cell.
func (w *working) rises(p *page) string {
	if w.Job.PriceRises.IsZero() {
		return ""
	}
	rate, days, factor := at(lookAmount, 1), at(lookAmount, 2), at(lookAmount, 3)
	for n, r := range []struct {
		text string
		cell grid.Cell
	}{
		{"Price rises a year", fraction(w.Job.PriceRises)},
		{"Days from tender to the middle of the works, as priced", chosen(w.Bill.RiseDays, asFine(w.Bill.RiseDays, 2))},
		{"Factor of price rises", live("ROUND((1+"+rate+")^("+days+"/365.25),6)", w.Bill.RiseFactor, volumeFormat)},
	} {
		p.put(lookText, n+1, words(r.text, plain))
		p.put(lookAmount, n+1, r.cell)
	}
	return factor
}

// carry is one total brought from another sheet; it returns its cell.
func (w *working) carry(p *page, letter, text, formula, sheet string, a money.Amount) string {
	row := blanks(sumAmount, strong)
	row[0], row[1], row[sumAmount-1] = words(letter, strong), words(text, strong), sumBy(pennies(formula), a, strong)
	if w.pages[sheet] != nil {
		row[1].Link = w.pages[sheet].cell(1, 1)
	}
	return at(sumAmount, p.add(row...))
}

// closing is a total of the summary itself; it returns its row.
func (w *working) closing(p *page, text, formula string, a money.Amount, style grid.Style) int {
	row := blanks(sumAmount, style)
	row[1], row[sumAmount-1] = words(text, style), sumBy(pennies(formula), a, style)
	return p.add(row...)
}

// taxed is a table of VAT by code, with the rates from the prices used.
func (w *working) taxed(p *page, text string, taxes []bill.Tax, net func(bill.Tax) string, total money.Amount) placed {
	head := p.add(heads("", text, ">Net "+w.sign, ">Rate", ">VAT "+w.sign)...)
	out := placed{net: map[string]string{}}
	from := p.next()
	for _, t := range taxes {
		n := p.next()
		out.net[rates.Key(t.Code)] = at(sumOn, n)
		formula := rounded(at(sumOn, n), at(sumRate, n))
		if w.Job.VATRounding == job.Down {
			// The inner rounding takes off the noise of binary fractions, so
			// that an exact penny is not dropped to the one below it.
			formula = "ROUNDDOWN(ROUND(" + at(sumOn, n) + "*" + at(sumRate, n) + ",6),2)"
		}
		p.add(words(t.Code, plain), words(t.Meaning, wrapped), sumBy(net(t), t.Net, plain), live(w.taxes.of("VAT code", t.Code), t.Rate.Fraction(), percentFormat(t.Rate)),
			sumBy(formula, t.VAT, plain))
	}
	p.together(head, p.next()+1) // with the totals under it
	out.total = w.closing(p, "VAT", sumOf(sumAmount, from, p.next()-1), total, strong)
	return out
}

// netCell adds up what bears a VAT code: its analysis columns and, for the
// Job's code, contingency and price rises.
func (w *working) netCell(code, net string, own []string) string {
	if len(w.vat.codes) == 0 {
		return net
	}
	cells := append([]string{}, w.vat.analysis[code]...)
	if rates.Same(code, w.Job.VATCode) {
		cells = append(cells, own...)
	}
	return addUp(cells...)
}

// otherwise adds up the nets of the codes that would bear this one.
func (w *working) otherwise(code string, nets map[string]string) string {
	return w.vat.otherwiseCell(code, nets)
}

// sectionChart draws what the sections come to, beside the summary.
func (w *working) sectionChart(p *page, top, head, first, last int) {
	if last <= first {
		return // one bar shows nothing
	}
	end := top + max(chartRows, last-first+4)
	down := func(col int) string {
		return quoted(p.Name) + "!" + absolute(at(col, first)) + ":" + absolute(at(col, last))
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Stacked, FromNil: true, Title: "Measured work by section", Alt: "A bar for every section of the bill, as long as its amount",
		Of: down(sumText), InTitle: w.sign, Series: []grid.Series{{Name: quoted(p.Name) + "!" + absolute(at(sumAmount, head)), Values: down(sumAmount)}},
		Range: at(lookText, top) + ":" + at(sumChart, end),
	})
	for p.next() <= end {
		p.gap()
	}
}
