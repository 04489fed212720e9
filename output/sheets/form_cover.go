package sheets

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// coverPage is the cover while rows of it wait for what later sheets come to.
type coverPage struct {
	*page
	still int // row of the lines still to be priced
	total int // row of what the form comes to so far
}

// cover says at once what is to be done with the form; then what it is, and the
// rest of how it is filled in.
func (l *form) cover() coverPage {
	p := newPage(bill.FormCover, 26, 80)
	p.across(l.Job.Vessel, title, 2)
	p.add(words("Bill of quantities to be priced, tender "+l.Job.Reference, subtitle))
	p.gap()
	told := grid.Style{Top: true, Wrap: true, Indent: 1}
	head := func(text string) { p.add(words(text, band), grid.Cell{Style: band}) }
	by := "the day named in the letter it came with"
	if !l.Job.ReturnBy.IsZero() {
		by = l.Job.ReturnBy.Format("2 January 2006")
	}
	back := cmp.Or(l.Job.ReturnTo, l.Job.Client)
	head("What to do")
	for i, text := range wording.Form("steps", "{to}", back, "{by}", by) {
		p.add(words(itoa(i+1), label), words(text, told))
	}
	box := blank
	box.Open, box.Font, box.Align, box.Top = false, sign.Font, grid.Centre, false
	p.add(words(fillSign, box), words("a cell to be filled in looks like this", told))
	c := coverPage{page: p, still: p.add(), total: p.add()}
	p.gap()
	head("The tender")
	say := func(name string, value grid.Cell) {
		value.Style.Top, value.Style.Wrap, value.Style.Align = true, true, grid.Left
		p.add(words(name, grid.Style{Font: grid.Font{Colour: grey}, Top: true}), value)
	}
	strongly := grid.Style{Font: grid.Font{Bold: true}}
	day := grid.Style{Format: "d mmmm yyyy"}
	say(bill.SaidReference, words(l.Job.Reference, plain))
	if l.Job.Description != "" {
		say("Vessel and work", words(l.Job.Description, plain))
	}
	say("Client", words(l.Job.Client, plain))
	say("Return it to", words(back, strongly))
	if l.Job.ReturnBy.IsZero() {
		say("By", words(by, strongly))
	} else {
		say("By", grid.Dated(l.Job.ReturnBy, grid.Style{Font: strongly.Font, Format: day.Format}))
	}
	say("Dated", grid.Dated(l.Job.TenderDate, day))
	if !l.Job.Start.IsZero() {
		say("Start on site", grid.Dated(l.Job.Start, day))
	}
	say(bill.SaidCurrency, words(l.Job.Currency, plain))
	say(bill.SaidFingerprint, words(l.Bill.Fingerprint, plain))
	p.gap()
	head("More fully")
	for i, text := range wording.Form("fill in", "{vessel}", l.Job.Vessel, "{currency}", l.Job.Currency) {
		p.add(words(itoa(i+1), label), words(text, told))
	}
	p.gap()
	choose := func(text string, choices ...string) string {
		head(text)
		from := p.next()
		for _, c := range choices {
			p.keep(p.next() - 1) // what may be chosen stands on one page
			p.add(words(c, plain), words(wording.Form(c)[0], told))
		}
		return fmt.Sprintf("%s!$A$%d:$A$%d", quoted(p.Name), from, p.next()-1)
	}
	l.choices = choose("Of a line without a rate", bill.Included, bill.Excluded, bill.ByOwner)
	p.gap()
	l.vat = choose("Of value added tax", bill.LeftOut, bill.AddedIn)
	p.Print.Area = "$A$1:$B$" + itoa(p.next()-1)
	l.keep(p)
	return c
}

// progress puts on the cover, and on the bill, how far the form is filled in.
func (l *form) progress(c coverPage) {
	for _, p := range l.pages {
		if p.Name == bill.FormWork {
			l.unpriced.say(p, workRemark)
		}
	}
	strongly := grid.Style{Font: grid.Font{Bold: true}, Align: grid.Left}
	name := grid.Style{Font: grid.Font{Colour: grey}}
	count := strongly
	count.Format = fmt.Sprintf(`[=0]"none of %d: every line is answered";0" of %d"`, l.all.lines, l.all.lines)
	c.put(1, c.still, words("Still without a rate", name))
	c.put(2, c.still, grid.Reckoned(l.still, decimal.NewFromInt(int64(l.all.left)), count))
	c.put(1, c.total, words("Total so far", name))
	c.put(2, c.total, inCurrency(sumBy(l.net, l.all.stored, strongly), l.Job.Currency))
	c.Shades = append(c.Shades, grid.Shade{Range: at(2, c.still), Fill: blank.Fill, Formula: "$" + at(2, c.still) + ">0"})
}
