package sheets

import (
	"strings"

	"github.com/shopspring/decimal"

	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns beside the summary: what the job costs the yard and what is earned on
// it, and the hours, weeks and timber it takes.
const (
	lookText = sumAmount + iota + 2
	lookCost
	lookOverheads
	lookProfit
	lookRounding
	lookAmount
)

// earned is one line of what the net total is made of.
type earned struct {
	text                                 string
	cost, overheads, profit, sum         money.Amount
	costAt, overheadsAt, profitAt, sumAt string // "" for none of it
}

// glance lays out, beside the summary from a row on, what the net total is made
// of and what the job takes, and returns the first row free below.
func (w *working) glance(p *page, row int, d, e string) int {
	put := func(cells ...grid.Cell) {
		for len(p.Rows) < row {
			p.gap()
		}
		for i, c := range cells {
			p.put(lookText+i, row, c)
		}
		row++
	}
	put(heads("In one look", ">Cost "+w.sign, ">Overheads "+w.sign, ">Profit "+w.sign, ">Rounding "+w.sign, ">Amount "+w.sign)...)
	from := row
	var all earned
	var rounding money.Amount
	for _, line := range w.earnings(d, e) {
		left := line.sum.Sub(line.cost).Sub(line.overheads).Sub(line.profit)
		cell := func(at string, a money.Amount) grid.Cell {
			if at == "" {
				return grid.Cell{}
			}
			return sumBy(pennies(at), a, plain)
		}
		cells := []grid.Cell{words(line.text, plain), cell(line.costAt, line.cost), cell(line.overheadsAt, line.overheads), cell(line.profitAt, line.profit), {}, cell(line.sumAt, line.sum)}
		if line.costAt != "" {
			cells[4] = sumBy(pennies(at(lookAmount, row)+"-SUM("+at(lookCost, row)+":"+at(lookProfit, row)+")"), left, plain)
			rounding = rounding.Add(left)
		}
		put(cells...)
		all.cost, all.overheads, all.profit, all.sum = all.cost.Add(line.cost), all.overheads.Add(line.overheads), all.profit.Add(line.profit), all.sum.Add(line.sum)
	}
	last := row - 1
	cells := []grid.Cell{words("Net total", strong)}
	for i, a := range []money.Amount{all.cost, all.overheads, all.profit, rounding, all.sum} {
		cells = append(cells, sumBy(pennies(sumOf(lookCost+i, from, last)), a, strong))
	}
	net := row
	put(cells...)
	if all.sum.Sign() > 0 {
		part := func(col int, a money.Amount) grid.Cell {
			return live("ROUND("+at(col, net)+"/"+at(lookAmount, net)+",3)", a.Decimal().DivRound(all.sum.Decimal(), 16).Round(3), "0.0%")
		}
		put(words("Of the net total", plain), part(lookCost, all.cost), part(lookOverheads, all.overheads), part(lookProfit, all.profit))
	}
	row++
	w.takes(put)
	return row
}

// earnings are the lines of the net total: the parts of the bill, each by what it
// costs the yard and what is added.
func (w *working) earnings(d, e string) []earned {
	var m made
	for _, i := range w.Priced.Items {
		for _, r := range w.Bill.Reconciled {
			if r.Ref == i.Ref {
				m.add(madeOf(i, r))
			}
		}
	}
	t := w.itemTotals
	lines := []earned{{"Measured work", m.cost, m.overheads, m.profit, m.amount.Sub(m.share), t.cost, t.overheads, t.profit, t.amount + "-" + t.share}}
	if len(w.Priced.Preliminaries) > 0 {
		line := earned{text: "Preliminaries", sum: w.Bill.Prelims, sumAt: w.prelims, costAt: w.charged(chaCost), overheadsAt: w.charged(chaOverheads), profitAt: w.charged(chaProfit)}
		var cost, overheads, profit decimal.Decimal
		for _, l := range w.Priced.Preliminaries {
			cost = cost.Add(l.Quantity.Mul(l.Kind.Cost.Decimal()))
			overheads = overheads.Add(l.Quantity.Mul(l.Kind.Overheads.Decimal()))
			profit = profit.Add(l.Quantity.Mul(l.Kind.Profit.Decimal()))
		}
		line.cost, line.overheads, line.profit = money.Round(cost), money.Round(overheads), money.Round(profit)
		lines = append(lines, line)
	}
	if len(w.Bill.Sums) > 0 {
		line := earned{text: "Sums, and profit on them", costAt: w.sumTotal + "-" + w.sumProfit, profitAt: w.sumProfit, sumAt: w.sumTotal}
		for _, s := range w.Bill.Sums {
			line.cost, line.profit, line.sum = line.cost.Add(s.Total).Sub(s.ProfitSum), line.profit.Add(s.ProfitSum), line.sum.Add(s.Total)
		}
		lines = append(lines, line)
	}
	if len(w.Priced.Dayworks) > 0 {
		line := earned{text: "Dayworks, additions and all", sumAt: w.dayTotal}
		for _, d := range w.Priced.Dayworks {
			line.sum = line.sum.Add(d.Total)
		}
		lines = append(lines, line)
	}
	switch {
	case w.within:
		lines = append(lines, earned{text: "Contingency, within the rates", sum: m.share, sumAt: t.share})
	case d != "":
		lines = append(lines, earned{text: "Contingency", sum: w.Bill.Held, sumAt: d})
	}
	if e != "" {
		lines = append(lines, earned{text: "Price rises", sum: w.Bill.Rises, sumAt: e})
	}
	return lines
}

// charged is a column of the preliminaries times how many there are of each, as
// a formula.
func (w *working) charged(col int) string {
	on := quoted(prelimSheet) + "!"
	from, to := w.chargeRows[0], w.chargeRows[1]
	return "SUMPRODUCT(" + on + span(col, from, to) + "," + on + span(chaCount, from, to) + ")"
}

// takes is what the job takes: hours, weeks and timber, and what of her is kept.
func (w *working) takes(put func(...grid.Cell)) {
	row := func(text, to string, c grid.Cell) {
		name := words(text, jump)
		name.Link, _, _ = strings.Cut(to, "!")
		name.Link += "!A1"
		put(name, grid.Cell{}, grid.Cell{}, grid.Cell{}, grid.Cell{}, c)
	}
	put(heads("What it takes", "", "", "", "", "")...)
	if w.allHours != "" {
		var hours decimal.Decimal
		for _, t := range w.HoursByTrade() {
			hours = hours.Add(t.Hours)
		}
		row("Hours of all trades, priced in the items", w.allHours, live(w.allHours, hours, hoursFormat))
	}
	if w.onSite != "" {
		row("Weeks on site, as priced", w.onSite, live(w.onSite, w.Programme.Weeks, "0.0"))
	}
	if y := w.yielded; y.cost != "" {
		row("Timber bought, m3, as priced", y.bought, live(y.bought, y.boughtIs, "0.000"))
		if y.share != "" {
			row("Of it in the ship", y.share, live(y.share, y.shareIs, "0.0%"))
		}
		row("Timber costs, before additions, "+w.sign, y.cost, sumBy(y.cost, w.Plan.Bound.Cost, plain))
	}
	w.fabricOf(row)
}
