package offer

import (
	"fmt"
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/rates/problem"
	"futtock/templates"
	"futtock/templates/grid"
)

// offer reads what is said of the whole, on the sheet Offer of a form or the
// sheet Letter.
func (q *quoting) offer() {
	q.said = answers{}
	name := bill.FormOffer
	if q.out.Lump {
		name = LetterSheet
	}
	for _, p := range q.candidates(name) {
		said := answers{}
		q.answer(p, said)
		if said.asked(bill.AskFirm, bill.AskVAT, bill.AskTotal, bill.AskWeeks, bill.AskOpenUntil, bill.AskSigned) < 3 {
			continue
		}
		q.take(p)
		q.said, q.out.At = said, q.at(p.Name, 0, 0)
		break
	}
	if len(q.said) == 0 {
		q.say(problem.QuoteOffer, q.at("", 0, 0), fmt.Sprintf("the sheet %q is not there: who makes the offer, value added tax, weeks and how long it stands are not said", name))
		return
	}
	o := &q.out
	o.Firm, _ = q.textOf(q.said, bill.AskFirm)
	o.Firm = single(o.Firm)
	tax, _ := q.textOf(q.said, bill.AskVAT)
	o.Tax = taxOf(tax)
	o.TaxRate, o.TaxRateGiven = q.shareOf(q.said, bill.AskVATRate)
	if stated := q.figureOf(q.said, bill.AskTotal); stated.State != quotes.Missing {
		o.Stated = stated
	}
	o.Words, _ = q.textOf(q.said, AskInWords)
	o.Weeks = q.figureOf(q.said, bill.AskWeeks)
	o.Start, _ = q.dayOf(q.said, bill.AskStart)
	o.Until, _ = q.dayOf(q.said, bill.AskOpenUntil)
	o.Dated, _ = q.dayOf(q.said, bill.AskDay, AskDated)
	if o.Signed, _ = q.textOf(q.said, bill.AskSigned); o.Signed == "" {
		o.Signed, _ = q.textOf(q.said, bill.AskSignature)
	}
}

// taxOf is what is said of value added tax in its declared spelling, or as it was typed.
func taxOf(text string) string {
	for _, c := range []string{bill.LeftOut, bill.AddedIn} {
		if alike(c, text) {
			return c
		}
	}
	return text
}

// qualified reads what the firm cannot offer as described.
func (q *quoting) qualified() {
	t, ok := q.find(outline{name: bill.FormQualifications, marks: []string{bill.HeadSaid}, others: []string{bill.HeadOf, bill.HeadAmount}})
	if !ok {
		return
	}
	rows := t.rows()
	for _, l := range rows {
		of, worth := t.text(l, bill.HeadOf, q.book.Date1904), q.figureIn(t, l, bill.HeadAmount)
		text := q.long(t.cell(l, bill.HeadSaid))
		if of == "" && (text == "" && worth.State != quotes.Given && worth.State != quotes.Words || strings.HasPrefix(text, allQualified)) {
			continue
		}
		if len(q.out.Qualifications) == mostQualifications {
			q.say(problem.TooMuch, q.at(t.page.Name, l.Row, 0), fmt.Sprintf("there are more than %d qualifications; the form as it was sent out is wanted", mostQualifications))
			break
		}
		q.out.Qualifications = append(q.out.Qualifications, quotes.Qualification{
			Number: len(q.out.Qualifications) + 1, Of: of, Text: text, Worth: worth, At: q.at(t.page.Name, l.Row, t.cols[bill.HeadSaid]),
		})
	}
	q.besides(t, rows)
}

// allQualified begins the row that adds up what qualifications come to.
const allQualified = "All of them together"

// identity checks that the quote is of the bill that was sent, by its tender
// reference and currency; the fingerprint is for the examiner.
func (q *quoting) identity() {
	said := answers{}
	for _, name := range []string{bill.FormCover, LetterSheet} {
		if p, ok := q.named(name); ok {
			q.take(p)
			q.answer(p, said)
		}
	}
	o := &q.out
	if mark, ok := q.textOf(said, bill.SaidFingerprint); ok {
		o.Fingerprint = single(mark)
	}
	o.Reference, _ = q.textOf(said, bill.SaidReference)
	if o.Reference == "" {
		_, o.Reference = q.titled()
	}
	if got, ok := said.find([]string{bill.SaidReference}); o.Reference != "" && q.sent.Reference != "" && !sameKey(o.Reference, q.sent.Reference) {
		at := got.at
		if !ok {
			at = q.at("", 0, 0)
		}
		q.say(problem.QuoteOther, at, fmt.Sprintf("it is of tender %q, and the bill is of tender %q", clipped(o.Reference), q.sent.Reference))
	}
	if got, ok := said.find([]string{bill.SaidCurrency}); ok && q.sent.Currency != "" {
		if c := single(got.Raw); c != "" && !sameKey(c, q.sent.Currency) {
			q.say(problem.QuoteCurrency, got.at, fmt.Sprintf("it is in %q, and the bill is in %s", clipped(c), q.sent.Currency))
		}
	}
}

// notes keeps what hangs on cells as notes: that on a line with its remark, that
// on another cell as a remark of ours. The form itself has none.
func (q *quoting) notes() {
	type place struct {
		sheet string
		row   int
	}
	lines := map[place]int{}
	for i, l := range q.out.Lines {
		lines[place{l.At.Sheet, l.At.Row}] = i
	}
	for _, p := range q.book.Sheets {
		for _, n := range p.Notes {
			at, text := q.at(p.Name, n.Row, n.Col), templates.Tidy(n.Text)
			i, ok := lines[place{p.Name, n.Row}]
			switch {
			case text == "":
			case ok && len(q.out.Lines[i].Remark)+len(text) < grid.MostText/2:
				said := fmt.Sprintf("note on %s: %s", at.Address(), text)
				q.out.Lines[i].Remark = strings.TrimPrefix(q.out.Lines[i].Remark+"\n"+said, "\n")
			default:
				q.say(problem.QuoteNote, at, fmt.Sprintf("the note %q hangs on the cell; see whether it is a qualification", clipped(single(text))))
			}
		}
	}
}

// unread remarks on sheets that hold something and of which nothing was read: a
// firm may say there what it says nowhere else.
func (q *quoting) unread() {
	for _, p := range q.book.Sheets {
		if q.used[p.Name] || len(p.Rows) == 0 || alike(p.Name, notesSheet) {
			continue
		}
		q.say(problem.QuoteAdded, q.at(p.Name, 0, 0), "nothing of the sheet is read; see whether the firm says something there")
	}
}
