package sheets

import (
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/templates/grid"
)

// Columns of the preliminaries: a charge, what one of it costs, the additions,
// the rate and the amount.
const (
	chaItem = iota + 1
	chaText
	chaName
	chaShare
	chaQuantity
	chaUnit
	chaPrice
	chaLine
	chaKind
	chaCost
	chaOverheadRate
	chaOverheads
	chaProfitRate
	chaProfit
	chaRate
	chaCount
	chaCountUnit
	chaAmount
	chaVAT
	chaFound
	chaCell
)

// charges lays out the preliminaries. The weeks of a charge are as priced.
func (w *working) charges() {
	if len(w.Priced.Preliminaries) == 0 {
		return
	}
	p := w.page(prelimSheet, "Preliminaries", "What one week, day or charge costs, with overheads and profit, times how many. Weeks in grey italics are as priced; run again to choose anew. Weeks that were given are shaded, as they are charged.",
		6, 26, 12, 7, 8.5, 5, 11, 11, 11.5, 10.5, 7, 10, 7, 9.5, 10.5, 7, 5, 12, 5, 30, 16)
	head := p.add(w.vat.analysisHead(p, heads("Item", "Description", "Charge", ">Share", ">Quantity", "=Unit", ">Price "+w.sign, ">Cost "+w.sign, "<Kind", ">One costs "+w.sign,
		">Over- heads", ">Overheads "+w.sign, ">Profit", ">Profit "+w.sign, ">Rate "+w.sign, ">How many", "=Unit", ">Amount "+w.sign, "=VAT", "<How it was found", "<Cell"))...)
	p.repeat(head, head)
	from := p.next()
	for i, l := range w.Priced.Preliminaries {
		w.charge(p, l, w.Bill.Preliminaries[i])
	}
	to := p.next() - 1
	w.chargeRows = [2]int{from, to}
	row := blanks(chaCell, strong)
	row[chaText-1] = words("B   Preliminaries", strong)
	row[chaAmount-1] = sumBy(pennies(sumOf(chaAmount, from, to)), w.Bill.Prelims, strong)
	n := p.add(row...)
	w.prelims = p.cell(chaAmount, n)
	p.Print.Area = "$A$1:$U$" + itoa(n)
	w.vat.analysisFoot(p, chaCell, from, to)
}

// charge lays out one line: its costs below each other, the rest on the first.
func (w *working) charge(p *page, l price.Preliminary, billed bill.Line) {
	from := p.next()
	to := from + len(l.Costs) - 1
	for k, c := range l.Costs {
		n := p.next()
		row := make([]grid.Cell, chaCell)
		share, count, rate := w.chargeCells(l, c)
		row[chaName-1], row[chaShare-1], row[chaQuantity-1], row[chaUnit-1], row[chaPrice-1] = words(c.Name, wrapped), share, count, unitCell(c.Unit), rate
		row[chaLine-1] = sumBy(rounded(at(chaQuantity, n), at(chaPrice, n)), c.Cost, plain)
		if rates.Same(c.Name, l.Row.Description) {
			row[chaName-1].Text = "" // the description stands beside it
		}
		if share.Kind == grid.Number && l.Basis == price.Percentage {
			row[chaQuantity-1] = live(at(chaShare, n), c.Quantity, share.Style.Format)
		}
		if share.Kind == grid.Number && l.Basis == price.Supervision {
			row[chaQuantity-1] = live("ROUND("+orNil(w.allHours)+"*"+at(chaShare, n)+",2)", c.Quantity, hoursFormat)
		}
		if k == 0 {
			w.lineOfCharge(p, row, n, sumOf(chaLine, from, to), l, billed)
			row[chaCell-1] = w.place(w.chargedIn(l))
			row = w.vat.analyse(row, n, chaVAT, chaAmount, billed.VAT, l.Amount)
		}
		p.add(row...)
	}
}

// lineOfCharge fills in what a line has once: its additions, rate and amount.
func (w *working) lineOfCharge(p *page, row []grid.Cell, n int, cost string, l price.Preliminary, billed bill.Line) {
	row[chaItem-1], row[chaText-1] = words(l.Ref, wrapped), words(billed.Description, wrapped)
	row[chaKind-1] = words(string(l.Kind.Kind), beside)
	copy(row[chaCost-1:], w.costed(n, chaCost, cost, l.Kind))
	row[chaRate-1] = sumBy(at(chaCost, n)+"+"+at(chaOverheads, n)+"+"+at(chaProfit, n), l.Rate, plain)
	row[chaCount-1], row[chaCountUnit-1] = chosen(l.Quantity, asFine(l.Quantity, 2)), unitCell(l.Unit)
	switch {
	case l.Unit == measure.Nr || l.Unit == measure.One:
		row[chaCount-1] = figure(l.Quantity, asFine(l.Quantity, 2))
	case l.Row.WeeksGiven: // not from the programme
		row[chaCount-1] = typed(l.Quantity, asFine(l.Quantity, 2))
	}
	row[chaAmount-1] = sumBy(rounded(at(chaCount, n), at(chaRate, n)), l.Amount, plain)
	row[chaVAT-1], row[chaFound-1] = words(billed.VAT, centred(plain)), words(l.Explained, aside)
}

// chargedIn is the cell that a figure of a charge was given in: of the yard's
// preliminaries, or of the plant it hires.
func (w *working) chargedIn(l price.Preliminary) origin.Cell {
	heading := ""
	switch {
	case l.Basis == price.Percentage, l.Basis == price.Supervision && l.Unit == measure.One:
		heading = "% of"
	case l.Basis == price.Supervision:
		heading = "Hours a week"
	case l.Basis == price.Fixed && !l.Row.Fixed.IsZero():
		heading = "Fixed"
	case l.Basis == price.Timed && !l.Row.Weekly.IsZero():
		heading = "A week"
	case l.Row.Plant != "":
		heading = "Plant"
	}
	if heading == "" {
		return l.Row.At
	}
	return w.in(l.Row.At, heading)
}

// chargeCells are the share, quantity and price of a charge: typed here where
// the row gives them, else read from the prices used, the hours or the items.
func (w *working) chargeCells(l price.Preliminary, c price.Cost) (share, count, rate grid.Cell) {
	count = typed(c.Quantity, asFine(c.Quantity, 4))
	link := func(cell string) grid.Cell { return live(cell, c.Rate.Decimal(), priceFormat) }
	switch l.Basis {
	case price.Percentage:
		return fraction(l.Row.Share), count, link(w.itemTotals.priced)
	case price.Supervision: // hours a week, or once a share of all hours
		if l.Unit == measure.One {
			share = fraction(l.Row.Share)
		}
		return share, count, link(w.trades.of("trade", c.Name))
	case price.Waiting:
		var parts []string
		for _, cell := range w.idle[rates.Key(c.Name)] {
			parts = append(parts, "IF("+cell+">0,"+cell+",0)")
		}
		return share, live("ROUND("+addUp(parts...)+",2)", c.Quantity, hoursFormat), link(w.trades.of("trade", c.Name))
	case price.Fixed:
		if l.Row.Fixed.IsZero() {
			return share, count, link(w.fixed.of("plant", l.Row.Plant))
		}
	case price.Timed:
		if l.Row.Weekly.IsZero() {
			return share, count, link(w.weekly.of("plant", l.Row.Plant))
		}
	}
	return share, count, cost(c.Rate)
}

// sums lays out the provisional and prime cost sums and the quotations.
func (w *working) sums() {
	if len(w.Bill.Sums) == 0 {
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
		on
		cell
	)
	p := w.page(sumSheet, "Provisional sums, prime cost sums and quotations", "", 10, 48, 22, 14, 8, 12, 14, 14, 6, 24, 12, 12)
	head := p.add(w.vat.analysisHead(p, heads("Item", "Description", "Kind", ">Sum "+w.sign, ">Profit", ">Profit "+w.sign, ">Attendance "+w.sign, ">Total "+w.sign, "=VAT", "<Quoted by", ">Quoted on", "<Cell"))...)
	p.repeat(head, head)
	from := p.next()
	var sums [4]money.Amount
	for _, s := range w.Bill.Sums {
		n := p.next()
		p.add(w.vat.analyse([]grid.Cell{
			words(s.Ref, plain), words(s.Description, wrapped), words(string(s.Kind), wrapped), typed(s.Amount.Decimal(), moneyFormat), fraction(s.Profit),
			sumBy(rounded(at(amount, n), at(profit, n)), s.ProfitSum, plain), typed(s.Attendance.Decimal(), moneyFormat),
			sumBy(at(amount, n)+"+"+at(profitSum, n)+"+"+at(attendance, n), s.Total, plain), words(s.VAT, centred(plain)), words(s.QuotedBy, beside), w.quotedOn(s.Ref), w.sumIn(s.Ref),
		}, n, vat, total, s.VAT, s.Total)...)
		for i, a := range []money.Amount{s.Amount, s.ProfitSum, s.Attendance, s.Total} {
			sums[i] = sums[i].Add(a)
		}
	}
	to := p.next() - 1
	row := blanks(cell, strong)
	row[1] = words("Carried to summary", strong)
	for i, col := range []int{amount, profitSum, attendance, total} {
		row[col-1] = sumBy(pennies(sumOf(col, from, to)), sums[i], strong)
	}
	n := p.add(row...)
	w.sumTotal, w.sumProfit = p.cell(total, n), p.cell(profitSum, n)
	p.Print.Area = "$A$1:$L$" + itoa(n)
	w.vat.analysisFoot(p, cell, from, to)
}

// given is a sum as the yard gave it.
func (w *working) given(ref string) job.Sum {
	for _, s := range w.Job.Sums {
		if s.Ref == ref {
			return s
		}
	}
	panic("sheets: sum " + ref + " is billed and was not given")
}

// quotedOn is the day a sum was quoted, where that is known.
func (w *working) quotedOn(ref string) grid.Cell {
	on := w.given(ref).QuotedOn
	if on.IsZero() {
		return grid.Cell{}
	}
	return grid.Dated(on, grid.Style{Top: true, Format: dayFormat, Align: grid.Right})
}

// sumIn is the cell of the amount of a sum.
func (w *working) sumIn(ref string) grid.Cell { return w.place(w.in(w.given(ref).At, "Amount")) }

// dayworks lays out the allowances for work paid by time and cost.
func (w *working) dayworks() {
	if len(w.Bill.Dayworks) == 0 {
		return
	}
	const (
		hours = iota + 2
		rate
		lump
		addition
		charge
		total
		vat
		cell
	)
	p := w.page(daySheet, "Dayworks", "An hour is charged at one figure, its addition in it.", 34, 11, 12, 14, 10, 12, 14, 6, 14)
	head := p.add(w.vat.analysisHead(p, heads("Trade or kind of cost", ">Hours", ">Hour "+w.sign, ">Sum "+w.sign, ">Addition", ">Charged "+w.sign, ">Total "+w.sign, "=VAT", "<Cell"))...)
	p.repeat(head, head)
	from := p.next()
	var all money.Amount
	for _, d := range w.Priced.Dayworks {
		n := p.next()
		row := []grid.Cell{words(d.Row.Of, wrapped), {}, {}, {}, fraction(d.Row.Addition), {}, {}, words(d.VAT, centred(plain)), w.place(w.in(d.Row.At, "Hours or amount"))}
		if d.Trade {
			row[hours-1] = typed(d.Row.Quantity, hoursFormat)
			row[rate-1] = live(w.trades.of("trade", d.Row.Of), d.Rate.Decimal(), priceFormat)
			row[charge-1] = sumBy(rounded(at(rate, n), "(1+"+at(addition, n)+")"), d.Charge, plain)
			row[total-1] = sumBy(rounded(at(hours, n), at(charge, n)), d.Total, plain)
		} else {
			row[lump-1] = typed(d.Cost.Decimal(), moneyFormat)
			row[total-1] = sumBy(at(lump, n)+"+"+rounded(at(lump, n), at(addition, n)), d.Total, plain)
		}
		p.add(w.vat.analyse(row, n, vat, total, d.VAT, d.Total)...)
		all = all.Add(d.Total)
	}
	to := p.next() - 1
	row := blanks(cell, strong)
	row[0], row[total-1] = words("Carried to summary", strong), sumBy(pennies(sumOf(total, from, to)), all, strong)
	n := p.add(row...)
	w.dayTotal = p.cell(total, n)
	p.Print.Area = "$A$1:$I$" + itoa(n)
	w.vat.analysisFoot(p, cell, from, to)
}
