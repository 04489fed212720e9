package pdf

import (
	"futtock/estimate/bill"
	"futtock/rates/money"
)

// summary is the totals of the bill, VAT by code, and the total, and the same
// if the vessel did not qualify.
func (t *tender) summary() {
	t.turn()
	t.begin("Summary")
	b := t.Bill
	table := t.table(column{head: ""}, column{head: "Section"}, column{head: "Carried from the bill", share: 1}, column{head: "Page", wide: 11, align: flush}, column{head: "Cost compared", wide: 46}, column{head: t.money("Amount"), align: pointed})
	var most money.Amount // the longest bar
	for _, a := range []money.Amount{b.Prelims, b.SumsDayworks, b.Held, b.Rises} {
		most = larger(most, a)
	}
	for _, s := range b.Sections {
		most = larger(most, s.Total)
	}
	gauge := func(a money.Amount) cell {
		if a.Sign() <= 0 {
			return cell{}
		}
		return barred(bar{long: a.Decimal().InexactFloat64() / most.Decimal().InexactFloat64()})
	}
	for _, s := range b.Sections {
		table.add(plainRow, cell{}, words(s.Section, ""), words(s.Title, ""), onPage(sectionPlace(s.Section)), gauge(s.Total), words(figures(s.Total), ""))
	}
	letter := func(kind rowKind, s style, letter, text, note, place string, amount money.Amount) {
		bar := gauge(amount)
		if kind != plainRow { // a total of bars has none
			bar = cell{}
		}
		c := styled(text, s, 2)
		if note != "" {
			c.paras = append(c.paras, para{note, cellNote})
		}
		table.add(kind, styled(letter, s, 1), c, onPage(place), bar, styled(figures(amount), s, 1))
	}
	letter(totalRow, cellBold, "A", "Measured work", "", "", b.Items)
	letter(plainRow, cellBold, "B", "Preliminaries", "", placed(len(b.Preliminaries) > 0, prelimsPlace), b.Prelims)
	letter(plainRow, cellBold, "C", "Sums and dayworks", "provisional and prime cost sums, quotations, dayworks", placed(len(b.Sums)+len(b.Dayworks) > 0, sumsPlace), b.SumsDayworks)
	if t.contingencyShown() {
		letter(plainRow, cellBold, "D", "Contingency", "a client's sum", contingencyPlace, b.Held)
	}
	if !t.Job.PriceRises.IsZero() {
		on := "A and B"
		if t.contingencyShown() {
			on = "A, B and D"
		}
		letter(plainRow, cellBold, "E", "Price rises to the middle of the works",
			percent(t.Job.PriceRises)+" a year: factor "+b.RiseFactor.StringFixed(6)+" on "+on, "", b.Rises)
	}
	letter(grandRow, grand, "", "Total before value added tax", "", "", b.Net)
	table.set()

	t.taxes("Value added tax", b.VAT, figures(b.VATTotal), "Total with value added tax", figures(b.Total))
	if o := b.Otherwise; o != nil {
		t.taxes("Value added tax if the vessel did not qualify", o.VAT, figures(o.VATTotal),
			"Total with value added tax if the vessel did not qualify", figures(o.Total))
		t.say(aside, text("summary otherwise")...)
	}
}

// What the pages of the bill are called that carry to the summary.
const (
	prelimsPlace     = "preliminaries"
	sumsPlace        = "sums"
	contingencyPlace = "contingency"
)

func sectionPlace(code string) string { return "section " + code }

// placed is a place, or none where there is nothing to refer to.
func placed(there bool, place string) string {
	if there {
		return place
	}
	return ""
}

func larger(a, b money.Amount) money.Amount {
	if a.Cmp(b) < 0 {
		return b
	}
	return a
}

// contingencyShown reports a contingency the client sees.
func (t *tender) contingencyShown() bool {
	c := t.Bill.Contingency
	return len(c.Parts)+len(c.Risks) > 0 || c.Basis != ""
}

// money is a heading with the currency of what stands under it.
func (t *tender) money(head string) string { return head + "\u00a0" + t.sign }

// taxes is VAT by code, its sum, and the total it leads to.
func (t *tender) taxes(head string, taxes []bill.Tax, vat, totalText, total string) {
	table := t.table(column{head: "Code"}, column{head: "Meaning", share: 1}, column{head: t.money("Net"), align: pointed},
		column{head: "Rate", align: flush}, column{head: t.money("VAT"), align: pointed})
	for _, v := range taxes {
		table.add(plainRow, words(v.Code, ""), words(v.Meaning, ""), words(figures(v.Net), ""), words(percent(v.Rate), ""), words(figures(v.VAT), ""))
	}
	table.add(totalRow, cell{}, styled("Value added tax", cellBold, 3), styled(vat, cellBold, 1))
	table.add(grandRow, cell{}, styled(totalText, grand, 3), styled(total, grand, 1))
	t.headed(head, table)
}
