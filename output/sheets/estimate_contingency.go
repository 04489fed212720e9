package sheets

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/estimate/risk"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the contingency.
const (
	heldItem = iota + 1
	heldText
	heldOn
	heldPercent
	heldAmount
	heldShare
)

// contingency lays out what is held: a percentage of each section, and a share
// of each piece of work that may be wanted; and where it stands within the
// rates, how it is shared among the items.
func (w *working) contingency() {
	c := w.Contingency
	if c.Total.IsZero() && len(c.Rows) == 0 {
		return
	}
	note := "A client's sum: line D of the summary."
	if w.within {
		note = "Within the rates: shared among the items by amount, and nowhere in the client's copy."
	}
	if c.Simulation != nil {
		note += " What was simulated stays as priced; run again to draw anew."
	}
	p := w.page(heldSheet, "Contingency", note, 11, 58, 16, 14, 16, 16)
	head := p.add(heads("Section", "Contingency on", ">Amount "+w.sign, ">Share", ">Held "+w.sign, "<Cell")...)
	if !w.within { // else a table of other columns follows
		p.repeat(head, head)
	}
	common := ""
	if w.byTheJob() {
		n := p.add(words("Job", plain), words("Of what has no share of its own", plain), grid.Cell{}, fraction(w.Job.Contingency), grid.Cell{}, w.place(w.Job.Cell("Contingency %")))
		common = absolute(at(heldPercent, n))
	}
	from := p.next()
	for i, part := range c.Sections {
		w.part(p, part.Section, w.Bill.Sections[i].Title, w.sections[i].priced, part.On, part.Amount)
		w.shareHeld(p, part, common)
		p.lead(1, p.next()-1, w.firstOf[rates.Key(part.Section)])
	}
	if s := c.Simulation; s != nil {
		p.add(words("", plain), words("All that may come out otherwise than priced, simulated, at "+s.Confidence.String(), wrapped), words("", plain), words("", plain), chosen(c.Total.Decimal(), moneyFormat))
	} else if w.Job.ContingencyOn == job.OnItemsPrel {
		part := c.Preliminaries
		w.part(p, "", "Preliminaries", orNil(w.prelims), part.On, part.Amount)
		p.put(heldPercent, p.next()-1, live(common, part.Percent.Fraction(), percentFormat(part.Percent)))
	}
	made := w.pages[makeUpSheet]
	for _, r := range c.Rows {
		i := slices.IndexFunc(w.Priced.Items, func(i price.Item) bool { return i.Ref == r.Ref })
		w.part(p, r.Ref, r.Description, made.cell(makeSum, w.items[i].billed), r.Amount, r.Held)
		p.put(heldPercent, p.next()-1, fraction(r.Chance))
		p.put(heldShare, p.next()-1, w.place(w.in(w.Priced.Items[i].Rows[0].At, "Chance %")))
		p.lead(1, p.next()-1, made.cell(makeRow, w.items[i].head))
	}
	row := blanks(heldAmount, strong)
	n := p.next()
	row[heldText-1], row[heldAmount-1] = words("Contingency held", strong), sumBy(pennies(sumOf(heldAmount, from, n-1)), c.Total, strong)
	p.add(row...)
	if w.within {
		w.spread(p, at(heldAmount, n))
	} else {
		w.held = p.cell(heldAmount, n)
	}
	p.Print.Area = "$A$1:" + absolute(at(heldShare, p.next()-1))
}

// part is what is held on one section, the preliminaries or a row at risk; its
// share is put in beside.
func (w *working) part(p *page, ref, text, source string, on, held money.Amount) {
	n := p.next()
	p.add(words(ref, plain), words(text, wrapped), sumBy(source, on, plain), grid.Cell{}, sumBy(rounded(at(heldOn, n), at(heldPercent, n)), held, plain))
}

// byTheJob reports something held at the Job's share, which then stands once.
func (w *working) byTheJob() bool {
	c := w.Contingency
	if c.Simulation != nil {
		return false
	}
	return w.Job.ContingencyOn == job.OnItemsPrel || slices.ContainsFunc(c.Sections, func(part risk.Part) bool {
		s, _ := w.Job.Section(part.Section)
		return !s.OwnRate
	})
}

// shareHeld puts in the share of a section in the row last written: its own with
// its cell, or that of the Job.
func (w *working) shareHeld(p *page, part risk.Part, common string) {
	n := p.next() - 1
	s, _ := w.Job.Section(part.Section)
	if !s.OwnRate {
		p.put(heldPercent, n, live(common, part.Percent.Fraction(), percentFormat(part.Percent)))
		return
	}
	p.put(heldPercent, n, fraction(part.Percent))
	p.put(heldShare, n, w.place(w.in(s.At, "Contingency %")))
}

// spread shares the contingency among the items in the total by running totals,
// in the order of their Refs, and puts each share where the items are reconciled.
func (w *working) spread(p *page, held string) {
	var items []price.Item
	for _, i := range w.Priced.Items {
		if i.Carried.InTotal() && i.Amount.Sign() > 0 {
			items = append(items, i)
		}
	}
	slices.SortFunc(items, func(a, b price.Item) int { return job.CompareRefs(a.Ref, b.Ref) })
	p.gap()
	head := p.add(heads("Item", "Shared among the items by amount", ">Amount "+w.sign, ">Running "+w.sign, ">Up to "+w.sign, ">Share "+w.sign)...)
	p.Print.Repeat = "$" + itoa(head) + ":$" + itoa(head)
	from := p.next()
	last := from + len(items) - 1
	book := w.pages[reconcileSheet]
	var run decimal.Decimal
	var upTo money.Amount
	for k, i := range items {
		n, row := p.next(), w.reconciled[i.Ref]
		_, r := w.carries(i.Ref)
		run, upTo = run.Add(i.Amount.Decimal()), upTo.Add(r.Share)
		running, share := at(heldOn, n), at(heldAmount, n)
		if k > 0 {
			running, share = pennies(at(heldPercent, n-1)+"+"+running), pennies(share+"-"+at(heldAmount, n-1))
		}
		p.add(words(i.Ref, plain), words(i.Description, wrapped), sumBy(book.cell(recPriced, row), i.Amount, plain), live(running, run, moneyFormat),
			sumBy("ROUND("+absolute(held)+"*"+at(heldPercent, n)+"/"+at(heldPercent, last)+",2)", upTo, plain), sumBy(share, r.Share, plain))
		book.put(recShare, row, sumBy(p.cell(heldShare, n), r.Share, plain))
	}
}
