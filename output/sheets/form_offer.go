package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// qualifications is how many there is room for.
const qualifications = 12

// formWords is a part of the form's standing text that is one paragraph.
func formWords(part string) string { return wording.Form(part)[0] }

// summary lays out the totals carried from the other sheets, and beside each
// how many lines are still to be priced.
func (l *form) summary() *page {
	p := newPage(summarySheet, 14, 62, 18, 18)
	l.top(p, "Summary", "", 4)
	head := p.add(words("", heading), words("Summary", heading), words("Still to be priced", headRow), words("Amount "+l.sign, headRow))
	p.repeat(head, head)
	from := p.next()
	for i, s := range l.Bill.Sections {
		c := l.sections[i]
		p.add(words(s.Section, plain), words(s.Title, wrapped), c.stillOpen(plain), sumBy(c.total, money.Amount{}, plain))
	}
	to := p.next() - 1
	var work carried
	for _, c := range l.sections {
		work.lines += c.lines
	}
	work.open = sumOf(3, from, to)
	sums := carried{open: addUp(there(l.sumTotal.open, l.dayTotal.open)...), lines: l.sumTotal.lines + l.dayTotal.lines,
		stored: l.sumTotal.stored.Add(l.dayTotal.stored)}
	l.all = carried{lines: work.lines + l.prelims.lines + sums.lines, stored: sums.stored}
	var open, amounts []string
	carry := func(letter, text, formula string, c carried) {
		n := p.add(words(letter, strong), words(text, strong), c.stillOpen(strong), sumBy(formula, c.stored, strong))
		open, amounts = append(open, at(3, n)), append(amounts, at(4, n))
	}
	carry("A", "Measured work", sumOf(4, from, to), work)
	carry("B", "Preliminaries", orNil(l.prelims.total), l.prelims)
	carry("C", "Provisional sums, prime cost sums, quotations and dayworks", orNil(l.sumTotal.total, l.dayTotal.total), sums)
	l.all.open = addUp(open...)
	n := p.add(grid.Cell{Style: grand}, words("Total of this offer", grand), l.all.stillOpen(grand), sumBy(addUp(amounts...), l.all.stored, grand))
	l.net, l.still = p.cell(4, n), p.cell(3, n)
	p.add(grid.Cell{}, words("Whether value added tax is left out or added in is said on the sheet Offer.", remark))
	p.Print.Area = "$A$1:$D$" + itoa(p.next()-1)
	return p
}

// there are the formulas that are not blank.
func there(formulas ...string) []string {
	var out []string
	for _, f := range formulas {
		if f != "" {
			out = append(out, f)
		}
	}
	return out
}

// offer lays out what whoever prices the bill says of the whole of it.
func (l *form) offer() *page {
	p := newPage(offerSheet, 30, 34, 60)
	l.top(p, "Offer", "To be filled in by whoever prices the bill, when the other sheets are done.", 3)
	say := func(name, help string, cell grid.Cell) string {
		cell.Style.Align = grid.Left
		n := p.add(words(name, plain), cell, words(help, grid.Style{Top: true, Wrap: true, Indent: 1, Font: grid.Font{Italic: true, Colour: grey}}))
		return at(2, n)
	}
	p.add(words("Who prices it", band), grid.Cell{Style: band}, grid.Cell{Style: band})
	say("Name of the firm", "", openText())
	say("Address", "", openText())
	p.Rows[p.next()-2].Height = 42
	say("Telephone or e-mail", "", openText())
	say("Signed by", "who may bind the firm", openText())
	say("Date", "", open(dayFormat))
	p.gap()
	p.add(words("The offer", band), grid.Cell{Style: band}, grid.Cell{Style: band})
	tax := say("Value added tax", "left out of the rates, or added in", openText())
	p.Lists = append(p.Lists, grid.List{Range: tax, Source: l.vat, Strict: true, Title: "Value added tax", Prompt: "Choose left out or added in."})
	rate := say("Rate of value added tax", "that you hold to be right; say in a qualification where lines differ", open(shareFormat))
	weeks := say("Weeks on site", "from the start on site to handing over, closures counted", open("0.#"))
	say("Earliest start on site", "", open(dayFormat))
	say("Stands open until", "the last day on which the offer may be accepted", open(dayFormat))
	total := grid.Reckoned(l.net, l.all.stored.Decimal(), cash(grid.Style{Top: true, Font: grid.Font{Bold: true}}))
	say("Total of this offer, "+l.Job.Currency, "from the summary", total)
	left := grid.Reckoned(l.still, decimal.NewFromInt(int64(l.all.lines)), grid.Style{Top: true, Format: "0"})
	say("Lines still to be priced", "from the summary; nought when the form is complete", left)
	p.Bounds = append(p.Bounds,
		grid.Bound{Range: rate, Most: decimal.New(1, 0), Title: "A percentage", Prompt: "A percentage is wanted, such as 20 %."},
		grid.Bound{Range: weeks, Most: decimal.New(1000, 0), Title: "Weeks", Prompt: "A number of weeks is wanted."})
	p.gap()
	p.add(words("Qualifications", band), grid.Cell{Style: band}, grid.Cell{Style: band})
	p.add(words("What you cannot offer as described, or would do otherwise, one a row, each with the item it is of. None is a good answer too.", remark))
	p.merge(p.next()-1, 1, 3)
	for i := range qualifications {
		row := []grid.Cell{words(itoa(i+1), label), openText(), openText()}
		n := p.add(row...)
		p.merge(n, 2, 3)
		p.Rows[n-1].Height = 27
	}
	p.Print.Area = "$A$1:$C$" + itoa(p.next()-1)
	return p
}

// notes lays out how the bill is to be read, and the cautions.
func (l *form) notes() {
	p := newPage(notesSheet, 5, 105)
	l.top(p, "Notes and cautions", "", 2)
	basis := wording.Form("notes", "{penny}", wording.Penny(l.Job.Currency))
	if l.Bill.OwnersTimber {
		basis = append(basis, wording.Form("owner timber")...)
	}
	say := func(head string, paragraphs []string) {
		p.add(words(head, band), grid.Cell{Style: band})
		for i, text := range paragraphs {
			p.add(words(itoa(i+1), label), words(text, grid.Style{Top: true, Wrap: true, Indent: 1}))
		}
		p.gap()
	}
	say("Basis", basis)
	say("Cautions", wording.Cautions())
	p.Print.Area = "$A$1:$B$" + itoa(p.next()-1)
	l.keep(p)
}
