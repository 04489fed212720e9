package pdf

import (
	"fmt"
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
		table.carried("Carried to summary: "+s.Title, sectionPlace(s.Section), s.Total)
		table.rows[len(table.rows)-1].closes = &s.Total
		if len(out) > 0 {
			table.across(noteRow, "Not in the total: options, and lines of which only the rate is asked", "")
			for _, l := range out {
				table.priced(l)
			}
		}
	}
	if len(t.Bill.Sections) > 0 {
		table.carried("A"+wide+"Measured work, in the summary", "", t.Bill.Items)
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
	if l.Carried == job.RateOnly { // which the amount says
		remark := strings.TrimPrefix(strings.TrimPrefix(l.Remark, "rate only"), "; ")
		t.add(plainRow, words(l.Ref, ""), words(typeset(l.Description), remark), cell{}, words(unit(l.Unit), ""), words(figures(l.Rate), ""),
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
func (t *table) carried(text, place string, a money.Amount) {
	t.add(totalRow, cell{}, styled(text, cellBold, 4), styled(figures(a), cellBold, 1), cell{})
	t.rows[len(t.rows)-1].place = place
}

// schedule is a part of the bill that stands by itself.
func (t *tender) schedule(name string, table *table, paragraphs ...string) {
	t.part, table.band = "Bill: "+name, name
	t.together(table, paragraphs...)
	if t.fresh() {
		t.here().part = t.part
	}
	t.bookmark(name, 1)
	t.headed(name, table, paragraphs...)
}

func (t *tender) preliminaries() {
	if len(t.Bill.Preliminaries) == 0 {
		return
	}
	table := t.lineTable()
	table.collection = &collection{}
	for _, l := range t.Bill.Preliminaries {
		table.collected(l)
	}
	table.carried("B"+wide+"Preliminaries, carried to summary", prelimsPlace, t.Bill.Prelims)
	table.rows[len(table.rows)-1].closes = &t.Bill.Prelims
	t.schedule("Preliminaries", table)
}

// sums are the sums and the dayworks, which go to the summary together.
func (t *tender) sums() {
	b := t.Bill
	quoted, hours := t.sumsAlone(), t.dayworksAlone()
	if all := quoted.Add(hours); !all.Equal(b.SumsDayworks) {
		panic(fmt.Sprintf("pdf: sums and dayworks come to %s and their total is %s", all, b.SumsDayworks))
	}
	closed := func(table *table, letter, text string, span int, a money.Amount) {
		table.add(totalRow, styled(letter, cellBold, 1), styled(text, cellBold, span), styled(figures(a), cellBold, 1), cell{})
	}
	total := func(table *table, span int) {
		closed(table, "C", "Sums and dayworks, carried to summary", span, b.SumsDayworks)
		table.rows[len(table.rows)-1].place = sumsPlace
	}
	if len(b.Sums) > 0 {
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
		closed(table, "", "Sums and quotations", 5, quoted)
		if len(b.Dayworks) == 0 {
			total(table, 5)
		}
		t.schedule("Sums and quotations", table)
	}
	if len(b.Dayworks) > 0 {
		table := t.table(column{head: ""}, column{head: "Trade or kind of cost", share: 1}, column{head: "Hours", align: pointed}, column{head: t.money("Rate"), align: pointed},
			column{head: t.money("Sum"), align: pointed}, column{head: "Addition", align: flush}, column{head: t.money("Total"), align: pointed}, column{head: "VAT", align: centred})
		addition := alike(b.Dayworks, func(d bill.DayworkLine) money.Percent {
			if d.Hours {
				return money.Percent{} // not shown
			}
			return d.Addition
		})
		for _, d := range b.Dayworks {
			var hours, rate, lump, more cell
			if d.Hours {
				hours, rate = words(quantity(d.Quantity, measure.Hour), ""), words(figures(d.Rate), "")
			} else {
				lump, more = words(figures(d.Sum), ""), words(addition(d.Addition), "")
			}
			table.add(plainRow, cell{}, words(capital(d.Of), ""), hours, rate, lump, more, words(figures(d.Total), ""), words(d.VAT, ""))
		}
		closed(table, "", "Dayworks", 5, hours)
		if len(b.Sums) > 0 {
			closed(table, "", "Sums and quotations, from above", 5, quoted)
		}
		total(table, 5)
		t.schedule("Dayworks", table, text("provisional dayworks")...)
	}
}

// sumsAlone is what the sums come to, without the dayworks.
func (t *tender) sumsAlone() money.Amount {
	return added(t.Bill.Sums, func(s bill.SumLine) money.Amount { return s.Total })
}

// dayworksAlone is what the dayworks come to.
func (t *tender) dayworksAlone() money.Amount {
	return added(t.Bill.Dayworks, func(d bill.DayworkLine) money.Amount { return d.Total })
}

// added is printed amounts added up.
func added[T any](rows []T, of func(T) money.Amount) money.Amount {
	var all money.Amount
	for _, r := range rows {
		all = all.Add(of(r))
	}
	return all
}

// contingency is how the client's contingency is made up.
func (t *tender) contingency() {
	if !t.contingencyShown() {
		return
	}
	c := t.Bill.Contingency
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
	table.rows[len(table.rows)-1].place = contingencyPlace
	t.schedule("Contingency", table, text("provisional contingency plain")...)
}
