package pdf

import (
	"strconv"

	"futtock/estimate/quotes"
	"futtock/rates/money"
)

// How many rates and quantities are printed. The rest is counted, and in the workbook.
const (
	mostRates  = 24
	mostSwings = 24
)

// balance is the rates that stand out, the quantities the order could turn on,
// and what the payments are worth.
func (r *report) balance() {
	r.begin("Balance")
	if len(r.Offers) == 0 {
		r.clause(reported("order none")...)
		return
	}
	r.rates()
	r.swings()
	r.worth()
}

// lineOf is what a line of the bill says.
func (r *report) lineOf(n int) cell { return words(typeset(r.Rows[n].Line.Description), "") }

// rates are those that stand out.
func (r *report) rates() {
	said := reported("rates", "{above}", percent(r.Terms.Above), "{below}", percent(r.Terms.Below))
	if len(r.Rates) == 0 {
		r.head("Rates that stand out")
		r.clause(append(said, reported("rates none")...)...)
		return
	}
	table := r.table(numberColumn, column{head: "Line"}, column{head: "Description", share: 1}, column{head: r.money("Rate"), align: pointed}, column{head: r.money("Beside"), align: pointed},
		column{head: "Of the", wide: 22}, column{head: "Ratio", align: pointed}, column{head: r.money("Amount"), align: pointed})
	table.band = "Rates that stand out"
	for _, o := range r.Rates[:min(len(r.Rates), mostRates)] {
		of := "bill"
		if o.Of == quotes.OfMiddle {
			of = "middle quote"
		}
		table.add(plainRow, words(strconv.Itoa(o.Offer+1), ""), words(r.Rows[o.Line].Line.ID, ""), r.lineOf(o.Line), words(figures(o.Rate), ""), words(figures(o.Beside), ""),
			words(of, ""), words(minus(o.Ratio.Decimal().StringFixed(1))+"\u00a0%", ""), words(figures(o.Amount), ""))
	}
	if left := len(r.Rates) - mostRates; left > 0 {
		table.rest(counted(left, "rate", "rates") + " more, none with more money in it, in the comparison workbook")
	}
	r.headed("Rates that stand out", table, said...)
}

// swings are the quantities that would turn the order.
func (r *report) swings() {
	const name = "Quantities that would turn the order"
	if len(r.Offers) < 2 {
		r.head(name)
		r.clause(reported("swings one")...)
		return
	}
	said := reported("swings", "{more}", percent(r.Terms.More))
	if len(r.Swings) == 0 {
		r.head(name)
		r.clause(append(said, reported("swings none")...)...)
		return
	}
	table := r.table(column{head: "Nr", wide: 17}, column{head: "Line"}, column{head: "Description", share: 1}, column{head: "Quantity", align: flush},
		column{head: r.money("Costs more"), align: pointed}, column{head: "Turns the order at", align: pointed})
	table.band = name
	for _, s := range r.Swings[:min(len(r.Swings), mostSwings)] {
		l := r.Rows[s.Line].Line
		turns := styled("not by itself", cellNote, 1)
		if s.Turns.Known {
			turns = words(signedPercent(s.At), "")
			if s.At.IsZero() {
				turns = words("any more", "")
			}
		}
		table.add(plainRow, words(strconv.Itoa(s.Offer+1)+" / "+strconv.Itoa(s.Other+1), ""), words(l.ID, ""), r.lineOf(s.Line), words(quantity(l.Quantity, l.Unit)+"\u00a0"+unit(l.Unit), ""),
			words(figures(s.Extra), ""), turns)
	}
	if left := len(r.Swings) - mostSwings; left > 0 {
		table.rest(counted(left, "line", "lines") + " more, of these and of firms further down the order, in the comparison workbook")
	}
	r.headed(name, table, said...)
}

// worth is what each offer is worth as it would be paid.
func (r *report) worth() {
	const name = "What the payments are worth"
	if len(r.Sent.Stages) == 0 {
		r.head(name)
		r.clause(reported("worth none")...)
		return
	}
	table := r.table(numberColumn, column{head: "Firm", share: 1}, column{head: r.money("Levelled"), align: pointed}, column{head: r.money("Present value"), align: pointed},
		column{head: "Half paid by week", align: flush, wide: 20}, column{head: "Place by it", align: centred})
	table.band = name
	place := func(n int) cell {
		if len(r.Offers) == 1 { // one is in no order
			return words("–", "")
		}
		return words(strconv.Itoa(n), "")
	}
	for i, o := range r.Offers {
		middle := words("–", "")
		if o.Middle.Known {
			middle = words(o.Middle.Weeks.StringFixed(1), "")
		}
		table.add(plainRow, words(strconv.Itoa(i+1), ""), words(o.Name, ""), words(figures(o.Levelled), ""), words(figures(o.Worth), ""), middle, place(o.RankWorth))
	}
	r.headed(name, table, reported("worth", "{discount}", percent(r.Terms.Discount))...)
}

// lowPrices is the published rule for low prices, and whom it asks after.
func (r *report) lowPrices() {
	r.begin("Low prices")
	t := r.Low
	if t.Source == "" {
		r.clause(reported("low none")...)
		return
	}
	r.clause(reported("low "+string(t.Rule), "{source}", t.Source)...)
	if !t.Applies {
		r.clause(reported("low few", "{basis}", t.Basis)...)
		if r.Yardstick.Known && len(r.Offers) > 0 {
			r.clause(reported("low estimate")...)
		}
		return
	}
	r.clause(reported("low found", "{basis}", capital(t.Basis), "{limit}", r.sum(t.Limit))...)
	table := r.table(numberColumn, column{head: "Firm", share: 1}, column{head: r.money("Levelled"), align: pointed}, column{head: "", wide: 40})
	table.band = "Low prices"
	for i, low := range t.Low {
		if low {
			table.add(plainRow, words(strconv.Itoa(i+1), ""), words(r.Offers[i].Name, ""), words(figures(r.Offers[i].Levelled), ""), styled("ask for an explanation", cellBold, 1))
		}
	}
	if len(table.rows) == 0 {
		r.clause(append(reported("low means"), reported("low not")...)...)
		return
	}
	r.together(table, reported("low means")...)
	r.clause(reported("low means")...)
	table.set()
}

// programme is the weeks that each firm asks for.
func (r *report) programme() {
	r.begin("Programme")
	r.clause(reported("programme")...)
	if r.Sent.Weeks.Known {
		r.clause(reported("programme bill", "{weeks}", r.Sent.Weeks.Weeks.String())...)
	} else {
		r.clause(reported("programme no bill")...)
	}
	if len(r.Offers) == 0 {
		return
	}
	most := r.Sent.Weeks.Weeks
	for _, o := range r.Offers {
		if o.Weeks.Known && o.Weeks.Weeks.GreaterThan(most) {
			most = o.Weeks.Weeks
		}
	}
	gauge := func(s quotes.Stretch, dark float64) cell {
		if !s.Known || most.Sign() <= 0 {
			return cell{}
		}
		return barred(bar{long: s.Weeks.InexactFloat64() / most.InexactFloat64(), dark: dark})
	}
	columns := []column{numberColumn, {head: "Firm", share: 1}, {head: "Earliest start", wide: 24}, {head: "Weeks", align: pointed}, {head: "", wide: 46}}
	priced := !r.Terms.Week.IsZero()
	if priced {
		columns = append(columns, column{head: r.money("Weeks priced at"), align: flush, wide: 24})
	}
	table := r.table(columns...)
	table.band = "Weeks on site"
	row := func(nr, name string, start, weeks, bar cell, cost money.Amount) {
		cells := []cell{words(nr, ""), words(name, ""), start, weeks, bar}
		if priced {
			cells = append(cells, words(figures(cost), ""))
		}
		table.add(plainRow, cells...)
	}
	if r.Sent.Weeks.Known {
		row("", "The bill's own programme", cell{}, words(r.Sent.Weeks.Weeks.String(), ""), gauge(r.Sent.Weeks, 0), r.Terms.Week.Times(r.Sent.Weeks.Weeks))
	}
	for i, o := range r.Offers {
		weeks := unsaid()
		if o.Weeks.Known {
			weeks = words(o.Weeks.Weeks.String(), "")
		}
		cost, _ := ofKind(o, quotes.WeeksPriced)
		row(strconv.Itoa(i+1), o.Name, dated(o.Start), weeks, gauge(o.Weeks, 1), cost)
	}
	table.set()
}
