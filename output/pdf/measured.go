package pdf

import (
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// bill is the priced bill: measured work by section, preliminaries, sums,
// dayworks and the contingency, each with what it carries to the summary.
func (t *tender) bill() {
	t.turn()
	t.begin("Bill of quantities")
	table := t.lineTable()
	table.collection = &collection{}
	for _, s := range t.Bill.Sections {
		table.across(bandRow, s.Section+wide+s.Title, "Bill: "+s.Section+"  "+s.Title)
		var out []bill.Line
		none := true
		for _, l := range s.Lines {
			if !l.Carried.InTotal() {
				out = append(out, l)
				continue
			}
			none = false
			table.collected(l)
		}
		if none {
			table.across(noteRow, "No measured work in this section.", "")
		}
		table.carried("Carried to summary: "+s.Title, s.Total)
		table.rows[len(table.rows)-1].closes = &s.Total
		if len(out) > 0 {
			table.across(noteRow, "Not in the total: options, and lines of which only the rate is asked", "")
			for _, l := range out {
				table.priced(l)
			}
		}
	}
	if len(t.Bill.Sections) > 0 {
		table.carried("A"+wide+"Measured work, in the summary", t.Bill.Items)
		table.set()
	}
	t.preliminaries()
	t.sums()
	t.contingency()
}

// wide is the space between a letter and what it stands for.
const wide = "\u00a0\u00a0\u00a0"

// lineTable has the columns of priced lines.
func (t *tender) lineTable() *table {
	return t.table(column{head: "Item"}, column{head: "Description", share: 1}, column{head: "Quantity", align: pointed}, column{head: "Unit", align: centred},
		column{head: t.money("Rate"), align: pointed}, column{head: t.money("Amount"), align: pointed}, column{head: "VAT", align: centred})
}

// priced is one line with its remark under the description.
func (t *table) priced(l bill.Line) {
	if l.Carried == job.RateOnly {
		t.add(plainRow, words(l.Ref, ""), words(typeset(l.Description), l.Remark), cell{}, words(unit(l.Unit), ""), words(figures(l.Rate), ""),
			styled("rate only", cellNote, 1), words(l.VAT, ""))
		return
	}
	t.add(plainRow, words(l.Ref, ""), words(typeset(l.Description), l.Remark), words(quantity(l.Quantity, l.Unit), ""), words(unit(l.Unit), ""),
		words(figures(l.Rate), ""), words(figures(l.Amount), ""), words(l.VAT, ""))
}

// collected is one line whose amount goes to the collection.
func (t *table) collected(l bill.Line) {
	t.priced(l)
	t.rows[len(t.rows)-1].amount = &l.Amount
}

// carried closes lines with the sum that goes to the summary.
func (t *table) carried(text string, a money.Amount) {
	t.add(totalRow, cell{}, styled(text, cellBold, 4), styled(figures(a), cellBold, 1), cell{})
}

// schedule begins a part of the bill that stands by itself.
func (t *tender) schedule(text string) {
	t.part = "Bill: " + strings.ToLower(text)
	t.need(60)
	if t.fresh() {
		t.here().part = t.part
	}
	t.head(text)
	t.bookmark(text, 1)
}

func (t *tender) preliminaries() {
	if len(t.Bill.Preliminaries) == 0 {
		return
	}
	t.schedule("Preliminaries")
	table := t.lineTable()
	table.collection = &collection{}
	for _, l := range t.Bill.Preliminaries {
		table.collected(l)
	}
	table.carried("B"+wide+"Preliminaries, carried to summary", t.Bill.Prelims)
	table.rows[len(table.rows)-1].closes = &t.Bill.Prelims
	table.set()
}

// sums are the sums and the dayworks, which go to the summary together.
func (t *tender) sums() {
	b := t.Bill
	total := func(table *table, span int) {
		table.add(totalRow, styled("C"+wide+"Sums and dayworks, carried to summary", cellBold, span), styled(figures(b.SumsDayworks), cellBold, 1), cell{})
		table.set()
	}
	if len(b.Sums) > 0 {
		t.schedule("Sums and quotations")
		table := t.table(column{head: "Item"}, column{head: "Description", share: 1}, column{head: t.money("Sum"), align: pointed},
			column{head: "Profit", align: flush}, column{head: t.money("Profit"), align: pointed}, column{head: t.money("Attendance"), align: pointed},
			column{head: t.money("Total"), align: pointed}, column{head: "VAT", align: centred})
		profit := alike(b.Sums, func(s bill.SumLine) money.Percent { return s.Profit })
		for i, s := range b.Sums {
			note := sumKind(s)
			if s.QuotedBy != "" {
				note += " by " + s.QuotedBy
			}
			if on := t.Priced.Sums[i].Row.QuotedOn; !on.IsZero() {
				note += ", " + day(on)
			}
			table.add(plainRow, words(s.Ref, ""), words(typeset(s.Description), note), words(figures(s.Amount), ""), words(profit(s.Profit), ""),
				words(figures(s.ProfitSum), ""), words(figures(s.Attendance), ""), words(figures(s.Total), ""), words(s.VAT, ""))
		}
		if len(b.Dayworks) == 0 {
			total(table, 6)
			return
		}
		table.set()
	}
	if len(b.Dayworks) > 0 {
		t.schedule("Dayworks")
		t.say(body, text("provisional dayworks")...)
		table := t.table(column{head: "Trade or kind of cost", share: 1}, column{head: "Hours", align: pointed}, column{head: t.money("Rate"), align: pointed},
			column{head: t.money("Sum"), align: pointed}, column{head: "Addition", align: flush}, column{head: t.money("Total"), align: pointed}, column{head: "VAT", align: centred})
		added := alike(b.Dayworks, func(d bill.DayworkLine) money.Percent {
			if d.Hours {
				return money.Percent{} // not shown
			}
			return d.Addition
		})
		for _, d := range b.Dayworks {
			var hours, rate, lump, addition cell
			if d.Hours {
				hours, rate = words(quantity(d.Quantity, measure.Hour), ""), words(figures(d.Rate), "")
			} else {
				lump, addition = words(figures(d.Sum), ""), words(added(d.Addition), "")
			}
			table.add(plainRow, words(capital(d.Of), ""), hours, rate, lump, addition, words(figures(d.Total), ""), words(d.VAT, ""))
		}
		total(table, 5)
	}
}

// contingency is how the client's contingency is made up.
func (t *tender) contingency() {
	if !t.contingencyShown() {
		return
	}
	c := t.Bill.Contingency
	t.schedule("Contingency")
	t.say(body, text("provisional contingency plain")...)
	table := t.table(column{head: "Item"}, column{head: "Contingency on", share: 1}, column{head: t.money("Amount"), align: pointed},
		column{head: "Share", align: flush}, column{head: t.money("Held"), align: pointed})
	var shares []money.Percent
	for _, p := range c.Parts {
		shares = append(shares, p.Percent)
	}
	for _, r := range c.Risks {
		shares = append(shares, r.Chance)
	}
	percent := alike(shares, func(p money.Percent) money.Percent { return p })
	for _, p := range c.Parts {
		table.add(plainRow, cell{}, words(p.Title, ""), words(figures(p.On), ""), words(percent(p.Percent), ""), words(figures(p.Amount), ""))
	}
	if c.Basis != "" {
		table.add(plainRow, cell{}, words("All that may come out otherwise than priced, "+c.Basis, ""), cell{}, cell{}, words(figures(t.Bill.Held), ""))
	}
	if len(c.Risks) > 0 {
		table.across(noteRow, "Work that may be found to be needed, at the chance of it", "")
	}
	for _, r := range c.Risks {
		table.add(plainRow, words(r.Ref, ""), words(typeset(r.Description), ""), words(figures(r.Amount), ""), words(percent(r.Chance), ""), words(figures(r.Held), ""))
	}
	table.add(totalRow, styled("D", cellBold, 1), styled("Contingency, carried to summary", cellBold, 3), styled(figures(t.Bill.Held), cellBold, 1))
	table.set()
}
