package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/templates/grid"
)

// matrix is the table of hours by item and trade while it is laid out.
type matrix struct {
	*working
	page   *page
	trades []estimate.TradeHours
	worked map[lineKey]decimal.Decimal
	last   int // column of all trades
}

// hoursByItem sets the items in the total against the trades: how many hours of
// each trade go into each item, by item and in all. Every figure is live: an item
// of one row reads the lines of the sheet Hours, an item of several adds up its
// rows, which stand together below the table.
func (w *working) hoursByItem() {
	trades := w.HoursByTrade()
	if len(trades) == 0 {
		return
	}
	widths := []float64{8, 33}
	names := []string{"Item", "Description"}
	for _, t := range trades {
		widths, names = append(widths, 9.5), append(names, ">"+t.Trade)
	}
	p := w.page(matrixSheet, "Hours by item", "Hours of the work in the total, from the sheet Hours. The rows of an item of several rows stand below the table.", append(widths, 10)...)
	head := p.add(heads(append(names, ">All trades")...)...)
	p.repeat(head, head)
	p.Freeze.Cols = 2
	m := matrix{working: w, page: p, trades: trades, worked: map[lineKey]decimal.Decimal{}, last: len(trades) + 3}
	for _, l := range w.Hours.Lines {
		m.worked[lineKey{l.Ref, rates.Key(l.Trade)}] = l.Hours
	}
	m.table()
	p.Print.Area = "$A$1:" + absolute(at(m.last, p.next()-1))
}

// table lays out the items, their total, and under it the rows of those that
// have several.
func (m matrix) table() {
	p, from := m.page, m.page.next()
	var several []price.Item
	var at []int // row of each
	for n, i := range m.Priced.Items {
		if !i.Carried.InTotal() || m.hoursOf(i.Rows).IsZero() {
			continue
		}
		row := []grid.Cell{words(i.Ref, jump), words(i.Description, wrapped)}
		row[0].Link = m.pages[makeUpSheet].cell(makeRow, m.items[n].head)
		if len(i.Rows) > 1 {
			several, at = append(several, i), append(at, p.add(row...))
			continue
		}
		p.add(append(row, m.read(i.Rows[0], p.next())...)...)
	}
	row := []grid.Cell{{Style: strong}, words("All items", strong)}
	var all decimal.Decimal
	for n, t := range m.trades {
		row, all = append(row, withFormat(grid.Reckoned(sumOf(n+3, from, p.next()-1), t.Hours, strong), hoursFormat)), all.Add(t.Hours)
	}
	p.add(append(row, withFormat(grid.Reckoned(sumOf(m.last, from, p.next()-1), all, strong), hoursFormat))...)
	if len(several) == 0 {
		return
	}
	p.gap()
	p.add(append([]grid.Cell{words("", band), words("Rows of the items that have several", band)}, blanks(m.last-2, band)...)...)
	for k, i := range several {
		from := p.next()
		for _, r := range i.Rows {
			if m.hoursOf([]job.Work{r}).IsZero() {
				continue
			}
			p.add(append([]grid.Cell{m.toMember(r.Ref), words(m.called(r.Ref), beside)}, m.read(r, p.next())...)...)
		}
		m.add(at[k], i, from, p.next()-1)
	}
}

// called is what a row of the schedule is of.
func (w *working) called(ref string) string {
	r := w.rowOf(ref)
	if r.Member != nil {
		return named(r.Member)
	}
	return r.Item.Description
}

// hoursOf is the hours of rows, of all trades.
func (m matrix) hoursOf(rows []job.Work) (all decimal.Decimal) {
	for _, r := range rows {
		for _, t := range m.trades {
			all = all.Add(m.worked[lineKey{r.Ref, rates.Key(t.Trade)}])
		}
	}
	return all
}

// read is the hours of a row of the schedule by trade and in all, on a row of
// the page.
func (m matrix) read(r job.Work, here int) []grid.Cell {
	var row []grid.Cell
	var all decimal.Decimal
	for _, t := range m.trades {
		k := lineKey{r.Ref, rates.Key(t.Trade)}
		cell := grid.Cell{}
		if place, placed := m.lines[k]; placed {
			cell, all = live(place, m.worked[k], hoursFormat), all.Add(m.worked[k])
		}
		row = append(row, cell)
	}
	return append(row, m.across(here, all))
}

// across is the hours of a row of the page, of all trades.
func (m matrix) across(here int, all decimal.Decimal) grid.Cell {
	return live("SUM("+at(3, here)+":"+at(m.last-1, here)+")", all, hoursFormat)
}

// add puts into the row of an item the sums of its own rows, by trade and in all.
func (m matrix) add(here int, i price.Item, from, to int) {
	var all decimal.Decimal
	for n, t := range m.trades {
		var hours decimal.Decimal
		placed := false
		for _, r := range i.Rows {
			k := lineKey{r.Ref, rates.Key(t.Trade)}
			hours = hours.Add(m.worked[k])
			placed = placed || m.lines[k] != ""
		}
		if placed {
			m.page.put(n+3, here, live(sumOf(n+3, from, to), hours, hoursFormat))
			all = all.Add(hours)
		}
	}
	m.page.put(m.last, here, m.across(here, all))
}
