package sheets

import (
	"cmp"
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/wording"
)

// besides is how many rows there are for what a letter puts in.
const besides = 10

// Letter is the form into which a client types what a firm offers in a letter of
// its own: what it says of the whole, sums of money by section and part, and by
// item where the letter goes so far. All but what is typed is locked, and what was
// typed is added up beside the total that the letter states.
func Letter(s quotes.Sent) *grid.Book { return FromLetter(s, Answers{}) }

// FromLetter is that form with a letter typed in: what it says of a line by the
// line's id, of a section, a part or what it puts in by the id of the row, such as
// section/FR, part/sums or beside/1.
func FromLetter(s quotes.Sent, a Answers) *grid.Book {
	j := job.Job{Particulars: job.Particulars{Vessel: s.Vessel, Client: s.Client, Reference: s.Reference, Currency: s.Currency, TenderDate: s.Tendered}}
	l := &letter{form: form{Form: estimate.Form{Job: j}, answers: a, sign: wording.Sign(s.Currency)}, sent: s}
	l.whole()
	l.items()
	l.bySection()
	l.said()
	l.pages = []*page{l.pages[0], l.pages[2], l.pages[1], l.pages[3]}
	l.added()

	book := &grid.Book{
		Title:    "Letter for the refit of " + s.Vessel,
		Subject:  "Tender " + s.Reference,
		Creator:  s.Client,
		Language: "en-GB",
		Stamp:    s.Tendered,
	}
	for _, p := range l.pages {
		p.Locked = true
		p.Print.FitWidth = true
		p.Print.Paper = paperOf(s.Paper)
		p.Print.Header = "&L" + headerText(s.Vessel) + "&R" + headerText(s.Reference)
		p.Print.Footer = "&L" + headerText(s.Client) + "&R" + p.Name + ", page &P of &N"
		book.Sheets = append(book.Sheets, p.Sheet)
	}
	return book
}

// letter is the form for a letter while it is laid out.
type letter struct {
	form
	sent quotes.Sent

	stated, typed, differ int               // rows of the first sheet
	items1                map[string]string // cells of what items come to, by section or part
	byItem                map[string]money.Amount
	total                 string // formula of all that is typed
	all                   money.Amount
}

// whole lays out what the letter says of the whole.
func (l *letter) whole() {
	p := newPage(offer.LetterSheet, 30, 44, 54)
	p.across(l.sent.Vessel, title, 3)
	p.add(words("A firm's letter typed in for comparison, tender "+l.sent.Reference, subtitle))
	p.gap()
	head := func(text string) {
		p.add(words(text, band), grid.Cell{Style: band}, grid.Cell{Style: band})
	}
	told := grid.Style{Top: true, Wrap: true}
	p.add(words(wording.Letter("what", "{vessel}", l.sent.Vessel)[0], told))
	p.merge(p.next()-1, 1, 3)
	p.gap()
	head("What to do")
	for i, text := range wording.Letter("steps") {
		p.add(words(itoa(i+1), label), words(text, told))
		p.merge(p.next()-1, 2, 3)
	}
	p.gap()
	head("The tender")
	fact := func(name, value string) {
		if value != "" {
			p.add(words(name, grid.Style{Font: grid.Font{Colour: grey}, Top: true}), words(value, told))
		}
	}
	fact(bill.SaidReference, l.sent.Reference)
	fact("Client", l.sent.Client)
	fact(bill.SaidCurrency, l.sent.Currency)
	fact(bill.SaidFingerprint, l.sent.Fingerprint)
	p.gap()
	help := grid.Style{Top: true, Wrap: true, Indent: 1, Font: grid.Font{Italic: true, Colour: grey}}
	say := func(name, about string, cell grid.Cell) int {
		cell = l.answers.beside(name, cell)
		cell.Style.Align = grid.Left
		return l.row(p, words(name, plain), cell, words(about, help))
	}
	number := func(row int, least, most decimal.Decimal, title, prompt string) {
		p.Bounds = append(p.Bounds, grid.Bound{Range: at(2, row), Least: least, Most: most, Title: title, Prompt: prompt, Hint: prompt})
	}
	day := func(name, about string) {
		number(say(name, about, open("d mmmm yyyy")), firstDay, lastDay, "A date", "A date is wanted, such as 2026-03-12.")
	}
	none := decimal.Decimal{}
	head("Who offers")
	say(bill.AskFirm, "", openText())
	say(bill.AskAddress, "", openText())
	say(bill.AskReach, "", openText())
	say(offer.AskLetter, "as the firm has it", openText())
	day(offer.AskDated, "")
	say(bill.AskSigned, "blank where the letter is not signed", openText())
	p.gap()
	head("What is offered")
	tax := at(2, say(bill.AskVAT, "blank where the letter does not say", openText()))
	number(say(bill.AskVATRate, "blank where the letter does not say", open(shareFormat)), none, decimal.New(1, 0), "A percentage", "A percentage is wanted, such as 20 %.")
	l.stated = say(bill.AskTotal, "in "+cmp.Or(l.sent.Currency, "the currency of the bill")+", as the letter has it in figures", open(moneyFormat))
	number(l.stated, mostMoney.Neg(), mostMoney, "A sum of money", "A number is wanted, without a sign of the currency.")
	say(offer.AskInWords, "where the letter has it in words too", openText())
	l.typed = say(offer.SaidTyped, "from the sheets By section and By item", grid.Cell{})
	l.differ = say("Difference", "nought when all the money of the letter is typed in", grid.Cell{})
	p.gap()
	head("When")
	day(bill.AskStart, "")
	number(say(bill.AskWeeks, "from the start on site to handing over", open("0.#")), none, decimal.New(1000, 0), "Weeks", "A number of weeks is wanted, such as 32.")
	day(bill.AskOpenUntil, "the last day on which the offer may be accepted")
	p.gap()
	choose := func(text string, choices ...string) string {
		head(text)
		from := p.next()
		for _, c := range choices {
			p.add(words(c, plain), words(wording.Form(c)[0], told))
			p.merge(p.next()-1, 2, 3)
		}
		return fmt.Sprintf("%s!$A$%d:$A$%d", quoted(p.Name), from, p.next()-1)
	}
	l.choices = choose("In place of a sum", bill.Included, bill.Excluded, bill.ByOwner)
	p.gap()
	p.Lists = append(p.Lists, grid.List{Range: tax, Source: choose("Of value added tax", bill.LeftOut, bill.AddedIn), Strict: true, Title: "Value added tax",
		Prompt: "Choose left out or added in.", Hint: "Choose left out or added in."})
	p.Print.Area = "$A$1:$C$" + itoa(p.next()-1)
	l.keep(p)
}

// added puts what was typed beside what the letter states.
func (l *letter) added() {
	p := l.pages[0]
	differ := l.answers.differs(l.all)
	if l.all.IsZero() {
		differ = money.Amount{}
	}
	p.put(2, l.typed, sumBy(l.total, l.all, grid.Style{Top: true, Align: grid.Left}))
	p.put(2, l.differ, sumBy(fmt.Sprintf(`IF(OR(%s="",%s=0),0,ROUND(%s-%s,2))`, at(2, l.stated), at(2, l.typed), at(2, l.stated), at(2, l.typed)),
		differ, grid.Style{Top: true, Align: grid.Left}))
	p.Shades = append(p.Shades, grid.Shade{Range: at(2, l.differ), Fill: amiss, Formula: "$" + at(2, l.differ) + "<>0"})
}

// sumOrWord lets cells of two columns take a sum of money, or a word in its place.
func (l *letter) sumOrWord(p *page, sum, word, from, to int) {
	l.money(p, sum, word, from, to)
	p.Lists = append(p.Lists, grid.List{Range: span(word, from, to), Source: l.choices, Strict: true, Title: "In place of a sum",
		Prompt: "Choose included, excluded or by owner, or leave the cell blank.", Hint: "Only where the letter gives no sum."})
}

// parts are those of the bill besides measured work, each with its title.
func (l *letter) parts() []quotes.Section {
	var out []quotes.Section
	for _, p := range []struct {
		part  quotes.Part
		title string
	}{{quotes.Preliminaries, "Preliminaries"}, {quotes.Sums, "Provisional sums, prime cost sums and quotations"}, {quotes.Dayworks, "Dayworks"}} {
		if len(l.lines(func(n quotes.Line) bool { return n.Part == p.part })) > 0 {
			out = append(out, quotes.Section{Section: string(p.part), Title: p.title})
		}
	}
	return out
}

func (l *letter) lines(of func(quotes.Line) bool) []quotes.Line {
	var out []quotes.Line
	for _, n := range l.sent.Lines {
		if of(n) {
			out = append(out, n)
		}
	}
	return out
}

// bySection lays out a row for each section and part, and rows for what the
// letter puts in.
func (l *letter) bySection() {
	const (
		section = iota + 1
		text
		sums
		items
		word
		remarks
		key
	)
	p := newPage(offer.LetterSections, 16, 58, 16, 16, 14, 36, 18)
	p.Print.Landscape = true
	l.top(p, "By section", wording.Letter("sections")[0], remarks)
	l.head(p, []grid.Cell{
		words(offer.HeadSection, heading), words(offer.HeadTitle, heading), words(l.inMoney(offer.HeadSaidFor), headRow), words(l.inMoney(offer.HeadByItem), owedHead),
		words(offer.HeadWord, pastHead), words(offer.HeadSays, pastHead), words(offer.HeadKey, heading)}, sums, word, remarks)
	first := p.next()
	var typed, byItem money.Amount
	row := func(name, title, id string) {
		a := l.answers.Lines[id]
		typed, byItem = typed.Add(money.Round(numberIn(a.Sum))), byItem.Add(l.byItem[id])
		l.row(p, words(name, plain), words(title, wrapped), in(open(moneyFormat), a.Sum), sumBy(l.items1[id], l.byItem[id], owed),
			in(openText(), said(a.Choice)), in(openText(), said(a.Remark)), words(id, known))
	}
	for _, s := range l.sent.Sections {
		row(s.Section, s.Title, offer.OfSection+s.Section)
	}
	for _, s := range l.parts() {
		row("", s.Title, offer.OfPart+s.Section)
	}
	l.sumOrWord(p, sums, word, first, p.next()-1)
	p.add(grid.Cell{}, words(wording.Letter("beside")[0], remark))
	from := p.next()
	for n := range besides {
		id := offer.OfBeside + itoa(n+1)
		a := l.answers.Lines[id]
		typed = typed.Add(money.Round(numberIn(a.Sum)))
		l.row(p, grid.Cell{}, in(openText(), said(a.Text)), in(open(moneyFormat), a.Sum), grid.Cell{}, grid.Cell{}, in(openText(), said(a.Remark)), words(id, known))
	}
	p.Bounds = append(p.Bounds, grid.Bound{Range: span(sums, from, p.next()-1), Least: mostMoney.Neg(), Most: mostMoney,
		Title: "A sum of money", Prompt: "A number is wanted: with a minus what the letter takes off."})
	last := p.next() - 1
	cells := blanks(remarks, strong)
	cells[text-1] = words("All that is typed", strong)
	cells[sums-1] = sumBy(sumOf(sums, first, last), typed, strong)
	cells[items-1] = sumBy(sumOf(items, first, last), byItem, owing(strong))
	l.all = typed.Add(byItem)
	end := p.add(cells...)
	l.total = p.cell(sums, end) + "+" + p.cell(items, end)
	p.Print.Area = "$A$1:$F$" + itoa(end)
	l.keep(p)
}

// items lays out a row for each line of the bill, by section and part. Lines
// that are not in the total stand under what the others come to.
func (l *letter) items() {
	const (
		item = iota + 1
		text
		number
		unit
		sums
		word
		remarks
		id
	)
	l.items1, l.byItem = map[string]string{}, map[string]money.Amount{}
	p := newPage(offer.LetterItems, 12, 60, 11, 6, 16, 14, 36, 14)
	p.Print.Landscape = true
	l.top(p, "By item", wording.Letter("items")[0], remarks)
	l.head(p, []grid.Cell{
		words(bill.HeadItem, heading), words(bill.HeadDescription, heading), words(bill.HeadQuantity, headRow), words(bill.HeadUnit, centred(heading)),
		words(l.inMoney(offer.HeadSaidFor), headRow), words(offer.HeadWord, pastHead), words(offer.HeadSays, pastHead), words(bill.HeadID, heading)}, sums, word, remarks)
	run := func(lines []quotes.Line) (from, to int, comes money.Amount) {
		from = p.next()
		for _, n := range lines {
			a := l.answers.Lines[n.ID]
			comes = comes.Add(money.Round(numberIn(a.Sum)))
			asked, of := grid.Cell{}, words(string(n.Unit), centred(plain))
			if !n.Quantity.IsZero() && n.Unit != "" {
				asked = quantity(n.Quantity, n.Unit)
			}
			if n.Unit == measure.Sums {
				asked = sum(money.Round(n.Quantity), plain)
			}
			l.row(p, words(n.Ref, plain), words(cmp.Or(n.Wording, n.Description), wrapped), asked, of, in(open(moneyFormat), a.Sum),
				in(openText(), said(a.Choice)), in(openText(), said(a.Remark)), words(n.ID, known))
		}
		if to = p.next() - 1; to >= from {
			l.sumOrWord(p, sums, word, from, to)
		}
		return from, to, comes
	}
	gather := func(name, title, key string, lines []quotes.Line) {
		cells := blanks(remarks, band)
		cells[0], cells[1] = words(name, band), words(title, band)
		p.add(cells...)
		var inside, out []quotes.Line
		for _, n := range lines {
			if n.InTotal() {
				inside = append(inside, n)
			} else {
				out = append(out, n)
			}
		}
		from, to, comes := run(inside)
		cells = blanks(remarks, strong)
		cells[text-1], cells[sums-1] = words("By item: "+title, strong), sumBy(sumOf(sums, from, to), comes, strong)
		l.items1[key], l.byItem[key] = p.cell(sums, p.add(cells...)), comes
		run(out)
		p.gap()
	}
	for _, s := range l.sent.Sections {
		gather(s.Section, s.Title, offer.OfSection+s.Section, l.lines(func(n quotes.Line) bool { return n.Part == quotes.Work && n.Section == s.Section }))
	}
	for _, s := range l.parts() {
		gather("", s.Title, offer.OfPart+s.Section, l.lines(func(n quotes.Line) bool { return string(n.Part) == s.Section }))
	}
	p.Print.Area = "$A$1:$G$" + itoa(p.next()-1)
	l.keep(p)
}

// said lays out room for the qualifications of the letter.
func (l *letter) said() {
	const (
		item = iota + 1
		text
		amount
	)
	p := newPage(bill.FormQualifications, 18, 76, 16)
	l.top(p, "Qualifications", wording.Letter("qualifications")[0], amount)
	l.head(p, []grid.Cell{words(bill.HeadOf, heading), words(bill.HeadSaid, pastHead), words(l.inMoney(bill.HeadAmount), headRow)}, item, text, amount)
	from := p.next()
	l.qualified(p)
	p.Bounds = append(p.Bounds, grid.Bound{Range: span(amount, from, p.next()-1), Least: mostMoney.Neg(), Most: mostMoney,
		Title: "A sum of money", Prompt: "A number is wanted: with a minus what it would take off the total."})
	p.Print.Area = "$A$1:$C$" + itoa(p.next()-1)
	l.keep(p)
}
