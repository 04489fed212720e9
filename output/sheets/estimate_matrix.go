package sheets

import (
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/templates/grid"
)

// hoursByItem sets the items in the total against the trades: how many hours of
// each trade go into each item, by item and in all. Every figure is a live sum
// of the lines of the Hours sheet.
func (w *working) hoursByItem() {
	trades := w.HoursByTrade()
	if len(trades) == 0 {
		return
	}
	widths := []float64{11, 52}
	names := []string{"Item", "Description"}
	for _, t := range trades {
		widths, names = append(widths, 11), append(names, ">"+t.Trade)
	}
	last := len(trades) + 3 // column of all trades
	p := w.page(matrixSheet, "Hours by item", "Hours of the work in the total, from the sheet Hours.", append(widths, 12)...)
	head := p.add(heads(append(names, ">All trades")...)...)
	p.repeat(head, head)
	p.Freeze.Cols = 2
	worked := map[lineKey]decimal.Decimal{}
	for _, l := range w.Hours.Lines {
		worked[lineKey{l.Ref, rates.Key(l.Trade)}] = l.Hours
	}
	from := p.next()
	for n, i := range w.Priced.Items {
		if row, ok := w.hoursOfItem(i, trades, worked, p.next(), last); ok {
			row[0] = words(i.Ref, jump)
			row[0].Link = w.pages[makeUpSheet].cell(makeRow, w.items[n].head)
			p.add(row...)
		}
	}
	row := []grid.Cell{{Style: strong}, words("All items", strong)}
	var all decimal.Decimal
	for n, t := range trades {
		cell := live(sumOf(n+3, from, p.next()-1), t.Hours, hoursFormat)
		cell.Style.Font.Bold, cell.Style.Border = true, grid.Over
		row, all = append(row, cell), all.Add(t.Hours)
	}
	cell := live(sumOf(last, from, p.next()-1), all, hoursFormat)
	cell.Style.Font.Bold, cell.Style.Border = true, grid.Over
	p.add(append(row, cell)...)
}

// hoursOfItem is the row of one item in the total; false where it has no hours.
func (w *working) hoursOfItem(i price.Item, trades []estimate.TradeHours, worked map[lineKey]decimal.Decimal, here, last int) ([]grid.Cell, bool) {
	if !i.Carried.InTotal() {
		return nil, false
	}
	row := []grid.Cell{words(i.Ref, plain), words(i.Description, wrapped)}
	var all decimal.Decimal
	for _, t := range trades {
		var cells []string
		var hours decimal.Decimal
		for _, r := range i.Rows {
			k := lineKey{r.Ref, rates.Key(t.Trade)}
			if cell, placed := w.lines[k]; placed {
				cells, hours = append(cells, cell), hours.Add(worked[k])
			}
		}
		if len(cells) == 0 {
			row = append(row, grid.Cell{})
			continue
		}
		row, all = append(row, live(strings.Join(cells, "+"), hours, hoursFormat)), all.Add(hours)
	}
	if all.IsZero() {
		return nil, false
	}
	return append(row, live("SUM("+at(3, here)+":"+at(last-1, here)+")", all, hoursFormat)), true
}
