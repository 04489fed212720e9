package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// How many there is room for.
const (
	qualifications = 24
	trades         = 8
)

// formWords is a part of the form's standing text that is one paragraph.
func formWords(part string) string { return wording.Form(part)[0] }

// summary lays out the totals carried from the other sheets, and beside each
// how many lines are still to be priced.
func (l *form) summary() {
	p := newPage(bill.FormSummary, 14, 62, 18, 18)
	l.top(p, "Summary", "", 4)
	p.gap()
	head := p.add(words("", heading), words("Summary", heading), words("Still to be priced", headRow), words("Amount "+l.sign, headRow))
	p.repeat(head, head)
	from := p.next()
	for i, s := range l.Bill.Sections {
		c := l.sections[i]
		p.add(words(s.Section, plain), words(s.Title, wrapped), c.stillOpen(plain), sumBy(c.total, c.stored, plain))
	}
	to := p.next() - 1
	var work carried
	for _, c := range l.sections {
		work.lines, work.left, work.stored = work.lines+c.lines, work.left+c.left, work.stored.Add(c.stored)
	}
	work.open = sumOf(3, from, to)
	sums := carried{open: addUp(there(l.sumTotal.open, l.dayTotal.open)...), lines: l.sumTotal.lines + l.dayTotal.lines,
		left: l.sumTotal.left + l.dayTotal.left, stored: l.sumTotal.stored.Add(l.dayTotal.stored)}
	l.all = carried{lines: work.lines + l.prelims.lines + sums.lines, left: work.left + l.prelims.left + sums.left,
		stored: money.Sum(work.stored, l.prelims.stored, sums.stored)}
	var open, amounts []string
	carry := func(letter, text, formula string, c carried) string {
		n := p.add(words(letter, strong), words(text, strong), c.stillOpen(strong), sumBy(formula, c.stored, strong))
		open, amounts = append(open, at(3, n)), append(amounts, at(4, n))
		return p.cell(3, n)
	}
	l.unpriced = carried{open: carry("A", "Measured work", l.measured, work), lines: work.lines, left: work.left}
	carry("B", "Preliminaries", orNil(l.prelims.total), l.prelims)
	carry("C", "Provisional sums, prime cost sums, quotations and dayworks", orNil(l.sumTotal.total, l.dayTotal.total), sums)
	l.all.open = addUp(open...)
	n := p.add(grid.Cell{Style: grand}, words("Total of this offer", grand), l.all.stillOpen(grand), inCurrency(sumBy(addUp(amounts...), l.all.stored, grand), l.Job.Currency))
	l.net, l.still = p.cell(4, n), p.cell(3, n)
	p.add(grid.Cell{}, words("Whether value added tax is left out or added in is said on the sheet Offer.", remark))
	p.Print.Area = "$A$1:$D$" + itoa(p.next()-1)
	l.keep(p)
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
func (l *form) offer() {
	p := newPage(bill.FormOffer, 28, 40, 46)
	l.top(p, "Offer", formWords("offer"), 3)
	over := sign
	over.Align = grid.Left
	p.add(grid.Cell{}, words(fillSign, over))
	help := grid.Style{Top: true, Wrap: true, Indent: 1, Font: grid.Font{Italic: true, Colour: grey}}
	say := func(name, about string, cell grid.Cell) int {
		cell = l.answers.beside(name, cell)
		cell.Style.Align = grid.Left
		return l.row(p, words(name, plain), cell, words(about, help))
	}
	head := func(text string) {
		p.add(words(text, band), grid.Cell{Style: band}, grid.Cell{Style: band})
	}
	number := func(row int, least, most decimal.Decimal, title, prompt string) {
		p.Bounds = append(p.Bounds, grid.Bound{Range: at(2, row), Least: least, Most: most, Title: title, Prompt: prompt, Hint: prompt})
	}
	day := func(name, about string) {
		number(say(name, about, open("d mmmm yyyy")), firstDay, lastDay, "A date", "A date is wanted, such as "+l.Job.TenderDate.Format("2006-01-02")+".")
	}
	head("Who prices it")
	say(bill.AskFirm, "", openText())
	p.Rows[say(bill.AskAddress, "", openText())-1].Height = 42
	say(bill.AskReach, "", openText())
	p.gap()

	head("What is offered")
	tax := at(2, say(bill.AskVAT, "left out of rates and total, or added in", openText()))
	p.Lists = append(p.Lists, grid.List{Range: tax, Source: l.vat, Strict: true, Title: "Value added tax",
		Prompt: "Choose left out or added in.", Hint: "Choose left out or added in."})
	number(say(bill.AskVATRate, "where lines differ, say so in a qualification", open(shareFormat)),
		decimal.Decimal{}, decimal.New(1, 0), "A percentage", "A percentage is wanted, such as 20 %.")
	stated := say(bill.AskTotal, "in "+l.Job.Currency+", before qualifications", open(moneyFormat))
	number(stated, mostMoney.Neg(), mostMoney, "A sum of money", "A number is wanted, without a sign of the currency.")
	lines := say("Total of the lines", "in "+l.Job.Currency+"; from the summary", grid.Reckoned(l.net, l.all.stored.Decimal(), cash(plain)))
	differ := say("Difference", "nought when the total of the lines is offered",
		sumBy("IF("+at(2, stated)+`="",0,ROUND(`+at(2, stated)+"-"+at(2, lines)+",2))", l.answers.differs(l.all.stored), plain))
	p.Shades = append(p.Shades, grid.Shade{Range: at(2, differ), Fill: amiss, Formula: "$" + at(2, differ) + "<>0"})
	left := grid.Style{Top: true, Format: "0"}
	waiting := say("Lines still to be priced", "nought when the form is complete", grid.Reckoned(l.still, decimal.NewFromInt(int64(l.all.left)), left))
	p.Shades = append(p.Shades, grid.Shade{Range: at(2, waiting), Fill: amiss, Formula: "$" + at(2, waiting) + "<>0"})
	say("Qualifications come to", "in "+l.Job.Currency+"; from the sheet Qualifications", sumBy(l.asides, l.answers.asides(), plain))
	p.gap()

	head("When")
	day(bill.AskStart, "")
	number(say(bill.AskWeeks, "from start to handing over, closures counted", open("0.#")),
		decimal.Decimal{}, decimal.New(1000, 0), "Weeks", "A number of weeks is wanted, such as 32.")
	day(bill.AskOpenUntil, "the last day on which it may be accepted")
	p.gap()

	head("Signed")
	say(bill.AskSigned, "who may bind the firm", openText())
	say(bill.AskPosition, "", openText())
	day(bill.AskDay, "")
	p.Rows[say(bill.AskSignature, "on paper, or the name typed", openText())-1].Height = 48
	p.Print.Area = "$A$1:$C$" + itoa(p.next()-1)
	l.keep(p)
}

// The first and last day that a form takes, as spreadsheets count them: of the
// years 2000 and 2199.
var firstDay, lastDay = decimal.New(36526, 0), decimal.New(109575, 0)

// qualifications lays out room for what is not offered as described, one a row
// with what it would add to the total or take off it.
func (l *form) qualifications() {
	const (
		item = iota + 1
		text
		amount
	)
	p := newPage(bill.FormQualifications, 18, 76, 16)
	l.top(p, "Qualifications", formWords("qualifications"), amount)
	l.head(p, []grid.Cell{words(bill.HeadOf, heading), words(bill.HeadSaid, pastHead), words(l.inMoney(bill.HeadAmount), headRow)}, item, text, amount)
	from := p.next()
	l.qualified(p)
	to := p.next() - 1
	p.Bounds = append(p.Bounds, grid.Bound{Range: span(amount, from, to), Least: mostMoney.Neg(), Most: mostMoney,
		Title: "A sum of money", Prompt: "A number is wanted: with a minus what it would take off the total."})
	row := blanks(amount, strong)
	row[text-1], row[amount-1] = words("All of them together; not in the total", strong), sumBy(sumOf(amount, from, to), l.answers.asides(), strong)
	end := p.add(row...)
	l.asides = p.cell(amount, end)
	p.Print.Area = "$A$1:$C$" + itoa(end)
	l.keep(p)
}

// daywork lays out rates for work by time and cost where the bill allows none:
// trades are for whoever prices it to name, and nothing of it is in the total.
func (l *form) daywork() {
	const (
		trade = iota + 1
		rate
		addition
		remarks
	)
	p := newPage(bill.FormDayworks, 34, 14, 14, 48)
	l.top(p, "Dayworks", formWords("daywork"), remarks)
	l.head(p, []grid.Cell{words(bill.HeadTrade, heading), words(l.inMoney(bill.HeadRate), headRow), words(bill.HeadAddition, headRow), words(bill.HeadRemarks, pastHead)},
		trade, rate, addition, remarks)
	from := p.next()
	for range trades {
		l.row(p, openText(), open(moneyFormat), grid.Cell{}, openText())
	}
	l.money(p, rate, addition, from, p.next()-1)
	from = p.next()
	for _, kind := range []string{"materials", "plant", "subcontract"} {
		l.row(p, words(kind, plain), grid.Cell{}, open(shareFormat), openText())
	}
	l.share(p, addition, from, p.next()-1)
	p.Print.Area = "$A$1:$D$" + itoa(p.next()-1)
	l.keep(p)
}

// notes lays out how the bill is to be read, and the cautions.
func (l *form) notes() {
	p := newPage(notesSheet, 5, 105)
	l.top(p, "Notes and cautions", "", 2)
	p.gap()
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
	say("Cautions", append(wording.Cautions(), l.Job.Added(job.Cautions)...))
	p.Print.Area = "$A$1:$B$" + itoa(p.next()-1)
	l.keep(p)
}
