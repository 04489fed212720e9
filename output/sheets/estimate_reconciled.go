package sheets

import (
	"futtock/estimate/bill"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/templates/grid"
)

// Columns of the reconciliation.
const (
	recItem = iota + 1
	recText
	recCost
	recOverheads
	recProfit
	recSum
	recShare
	recAmount
	recDifference
	recVAT
	recPriced // amount before its share; only where the contingency is within the rates
)

// sectionCells are the totals of one section, or of all of them.
type sectionCells struct{ cost, overheads, profit, priced, share, amount, difference string }

// made are the sums of one item or of several, as the reconciliation has them.
type made struct{ cost, overheads, profit, sum, share, amount, difference, priced money.Amount }

func (m *made) add(o made) {
	m.cost, m.overheads, m.profit, m.sum = m.cost.Add(o.cost), m.overheads.Add(o.overheads), m.profit.Add(o.profit), m.sum.Add(o.sum)
	m.share, m.amount, m.difference, m.priced = m.share.Add(o.share), m.amount.Add(o.amount), m.difference.Add(o.difference), m.priced.Add(o.priced)
}

func madeOf(i price.Item, r bill.Reconciled) made {
	m := made{cost: i.Bare, sum: r.Sum, share: r.Share, amount: r.Amount, difference: r.Difference, priced: i.Amount}
	for _, k := range i.Kinds {
		m.cost, m.overheads, m.profit = m.cost.Add(k.Cost), m.overheads.Add(k.Overheads), m.profit.Add(k.Profit)
	}
	return m
}

// reconciliation lays out every item in the total on one row: what it costs,
// what is added, what it is billed at, and the pennies between. Its section
// totals are those of the bill.
func (w *working) reconciliation() {
	widths := []float64{8, 54, 12.5, 11.5, 11.5, 12.5, 11.5, 12.5, 9, 5}
	if w.within {
		widths = append(widths, 12)
	}
	p := w.page(reconcileSheet, "Reconciliation", "Every item in the total: difference = amount - sum - share of the contingency. It comes of rounding the rate and is never spread.", widths...)
	row := heads("Item", "Description", ">Cost "+w.sign, ">Overheads "+w.sign, ">Profit "+w.sign, ">Sum "+w.sign, ">Share of contingency "+w.sign,
		">Amount "+w.sign, ">Difference "+w.sign, "=VAT")
	if w.within {
		row = append(row, words("Amount before its share "+w.sign, headRow))
	}
	head := p.add(w.vat.analysisHead(p, row)...)
	p.repeat(head, head)
	reconciled := map[string]bill.Reconciled{}
	for _, r := range w.Bill.Reconciled {
		reconciled[r.Ref] = r
	}
	first := p.next()
	var all made
	var rows []int // of the section totals
	for _, s := range w.Bill.Sections {
		band := append([]grid.Cell{words(s.Section, band), words(s.Title, band)}, blanks(len(widths)-2, band)...)
		n := p.add(band...)
		w.leadsBack(p, n, recText, s.Section)
		w.reconciledOf[rates.Key(s.Section)] = p.cell(recItem, n)
		from := p.next()
		var total made
		for i, item := range w.Priced.Items {
			r, ok := reconciled[item.Ref]
			if !ok || !rates.Same(item.Section, s.Section) {
				continue
			}
			m := madeOf(item, r)
			total.add(m)
			w.reconcile(p, i, m)
		}
		n = w.reconciledTotal(p, s.Title, func(col int) string { return sumOf(col, from, p.next()-1) }, total)
		w.sections = append(w.sections, w.sectionAt(p, n))
		rows = append(rows, n)
		all.add(total)
		p.gap()
	}
	n := p.next()
	w.reconciledTotal(p, "A   Measured work", func(col int) string {
		var cells []string
		for _, row := range rows {
			cells = append(cells, at(col, row))
		}
		return addUp(cells...)
	}, all)
	w.itemTotals = w.sectionAt(p, n)
	row = make([]grid.Cell, recVAT)
	row[recText-1] = words("Not explained: amount less sum, share and difference, of all sections", remark)
	row[recAmount-1] = sumBy(pennies(at(recAmount, n)+"-"+at(recSum, n)+"-"+at(recShare, n)+"-"+at(recDifference, n)), all.amount.Sub(all.sum).Sub(all.share).Sub(all.difference), plain)
	p.Print.Area = "$A$1:$" + origin.Column(len(widths)) + "$" + itoa(p.add(row...))
	w.analysisOfItems(p, len(widths), first, n-1)
}

// reconcile lays out one item; the share of the contingency is put in once
// that is placed.
func (w *working) reconcile(p *page, i int, m made) {
	n, item, rows := p.next(), w.Priced.Items[i], w.items[i]
	made := w.pages[makeUpSheet]
	from := func(col, row int, a money.Amount) grid.Cell { return sumBy(made.cell(col, row), a, plain) }
	name := words(item.Ref, jump)
	name.Link = made.cell(makeRow, rows.head)
	row := []grid.Cell{
		name, words(item.Description, wrapped), from(makeCost, rows.sum, m.cost), from(makeOverheads, rows.sum, m.overheads),
		from(makeProfit, rows.sum, m.profit), from(makeSum, rows.sum, m.sum), {}, from(makeSum, rows.carrying, m.amount),
		sumBy(pennies(at(recAmount, n)+"-"+at(recSum, n)+"-"+at(recShare, n)), m.difference, plain), words(item.VAT, centred(plain)),
	}
	if w.within {
		row = append(row, from(makeSum, rows.billed, m.priced))
		made.put(makeSum, rows.share, sumBy(p.cell(recShare, n), m.share, plain))
	}
	w.reconciled[item.Ref] = n // its share of the contingency is put in once that is placed, where it has one
	p.add(w.vat.analyse(row, n, recVAT, recAmount, item.VAT, m.amount)...)
}

// reconciledTotal lays out the total of a section, or of all.
func (w *working) reconciledTotal(p *page, text string, formula func(col int) string, m made) int {
	width := recVAT
	if w.within {
		width = recPriced
	}
	row := blanks(width, strong)
	row[recText-1] = words(text, strong)
	for col := recCost; col <= width; col++ {
		if col != recVAT {
			row[col-1] = sumBy(pennies(formula(col)), m.in(col), strong)
		}
	}
	return p.add(row...)
}

// in is the sum that a column of the reconciliation holds.
func (m made) in(col int) money.Amount {
	return map[int]money.Amount{recCost: m.cost, recOverheads: m.overheads, recProfit: m.profit, recSum: m.sum,
		recShare: m.share, recAmount: m.amount, recDifference: m.difference, recPriced: m.priced}[col]
}

func (w *working) sectionAt(p *page, n int) sectionCells {
	c := func(col int) string { return p.cell(col, n) }
	out := sectionCells{cost: c(recCost), overheads: c(recOverheads), profit: c(recProfit), share: c(recShare),
		amount: c(recAmount), difference: c(recDifference), priced: c(recAmount)}
	if w.within {
		out.priced = c(recPriced)
	}
	return out
}

// analysisOfItems adds up the items by VAT code, below the table.
func (w *working) analysisOfItems(p *page, width, from, to int) {
	if len(w.vat.codes) == 0 {
		return
	}
	row := make([]grid.Cell, width+1)
	n := p.next()
	for i, c := range w.vat.codes {
		col := width + 2 + i
		row = append(row, sumBy(sumOf(col, from, to), w.vat.netOn(billSheet, c), strong))
		w.vat.analysis[c] = append(w.vat.analysis[c], p.cell(col, n))
	}
	p.add(row...)
}
