package sheets

import (
	"cmp"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

// The looks of a form: a cell to be filled in has a tint and a box and stands
// under a sign, so that it shows in greyscale too; what stands beside one keeps clear of it; what lets a line be
// known again is small and grey.
var (
	blank = grid.Style{Top: true, Fill: "FFF4C2", Border: grid.Box, Open: true}
	owed  = grid.Style{Top: true, Align: grid.Right, Indent: 1} // an amount beside a box
	past  = grid.Style{Top: true, Wrap: true, Indent: 1, Font: grid.Font{Italic: true, Colour: grey}}
	known = grid.Style{Top: true, Font: grid.Font{Size: 8, Colour: grey}}
	sign  = grid.Style{Font: grid.Font{Bold: true, Size: 8, Colour: ink}, Align: grid.Right}
)

// fillSign stands over what is to be filled in.
const fillSign = "▼ fill in"

// The headings above them.
var (
	owedHead = owing(headRow)
	pastHead = grid.Style{Font: heading.Font, Fill: heading.Fill, Border: heading.Border, Wrap: true, Indent: 1}
)

// owing is a style of an amount that stands beside a box.
func owing(s grid.Style) grid.Style {
	s.Align, s.Indent = grid.Right, 1
	return s
}

const amiss = "F4B183" // fill of a filled-in cell that cannot be meant

// Unpriced is the bill that others are to price: quantities and wording of the
// priced bill, locked, with rates open and every total live. It holds nothing of
// how the yard would price it, and the yard is not named in it.
func Unpriced(f estimate.Form) *grid.Book { return Returned(f, Answers{}) }

// Returned is that form as a firm sends it back, with what it answered and every
// total reckoned. The lines are those of f, whatever it makes of them: one that was
// altered keeps the mark it was sent with, and one without a mark the firm put in.
func Returned(f estimate.Form, a Answers) *grid.Book {
	l := &form{Form: f, answers: a, sign: wording.Sign(f.Job.Currency)}
	cover := l.cover()
	l.work()
	l.preliminaries()
	l.sums()
	l.dayworks()
	l.qualifications()
	l.summary()
	l.offer()
	l.notes()
	l.progress(cover)

	book := &grid.Book{
		Title:    "Bill to be priced, " + f.Job.Vessel,
		Subject:  "Tender " + f.Job.Reference,
		Creator:  f.Job.Client,
		Language: "en-GB",
		Stamp:    f.Job.TenderDate,
		Names:    []grid.Name{{Name: bill.FormName, Range: inFormula(f.Bill.Fingerprint)}},
	}
	for _, p := range l.pages {
		p.Locked = true
		p.Print.FitWidth = true
		p.Print.Paper = paperOf(f.Job.Paper)
		p.Print.Header = "&L" + headerText(f.Job.Vessel) + "&R" + headerText(f.Job.Reference)
		p.Print.Footer = "&L" + cornerText(f.Job.Client, 28) + "&C" + f.Bill.Fingerprint + "&R" + p.Name + ", page &P of &N"
		book.Sheets = append(book.Sheets, p.Sheet)
	}
	return book
}

// form is the bill while it is laid out.
type form struct {
	estimate.Form
	answers Answers
	sign    string
	pages   []*page // the cover first

	choices string // ranges of the words to choose from, on the cover
	vat     string

	sections []carried // of the work, by section
	measured string    // cell of their total in the collection
	prelims  carried
	sumTotal carried
	dayTotal carried
	all      carried
	unpriced carried // lines of work still to be priced, by the summary
	net      string  // cell of the summary's total
	still    string  // cell of the lines still to be priced, all of them
	asides   string  // cell of what the qualifications come to
}

// carried is what a part of the bill comes to, and how much of it is still to be priced.
type carried struct {
	total string // cell; blank where there is no such part
	open  string // formula that counts the lines still to be priced
	lines int    // that are to be priced

	stored money.Amount // what it comes to by the answers: without any, the sums that are given
	left   int          // lines still to be priced by them
}

// count takes in lines from row to row that are still to be priced while all
// of these columns are blank. A cell of them that is given, or locked and blank,
// needs no mention: it settles the line, or leaves it to the others.
func (c *carried) count(p *page, from, to int, cols ...int) {
	if to < from {
		return
	}
	product := ""
	for _, col := range cols {
		if product != "" {
			product += "*"
		}
		product += "(" + onSheet(p, col, from, to) + `="")`
	}
	if c.open != "" {
		c.open += "+"
	}
	c.open += "SUMPRODUCT(" + product + "*1)"
}

// onSheet is a range down one column as other sheets name it.
func onSheet(p *page, col, from, to int) string { return quoted(p.Name) + "!" + span(col, from, to) }

// say puts beside the title of a sheet how many of its lines are still to be priced.
func (c carried) say(p *page, col int) {
	style := grid.Style{Font: grid.Font{Bold: true, Colour: ink}, Indent: 1, Align: grid.Left, Format: `[=0]"every line is answered";0" lines still without a rate"`}
	p.put(col, 2, grid.Reckoned(c.open, decimal.NewFromInt(int64(c.left)), style))
}

// stillOpen is the cell that counts them.
func (c carried) stillOpen(style grid.Style) grid.Cell {
	style.Format, style.Align = "0", grid.Right
	return grid.Reckoned(cmp.Or(c.open, "0"), decimal.NewFromInt(int64(c.left)), style)
}

func (l *form) keep(p *page) { l.pages = append(l.pages, p) }

// top is the title block of a sheet, with a word on what to do.
func (l *form) top(p *page, text, say string, cols int) {
	p.add(words(text, title))
	p.add(words(l.Job.Vessel+", tender "+l.Job.Reference, subtitle))
	if say != "" {
		p.add(words(say, remark))
		p.merge(p.next()-1, 1, cols)
	}
}

// head is the heading row of lines, with a sign over each column that is to be
// filled in. Both are printed on every page and kept in view.
func (l *form) head(p *page, cells []grid.Cell, fill ...int) {
	over := make([]grid.Cell, len(cells))
	for _, col := range fill {
		s := sign
		if cells[col-1].Style.Align != grid.Right {
			s.Align, s.Indent = grid.Left, cells[col-1].Style.Indent
		}
		over[col-1] = words(fillSign, s)
	}
	p.add(over...)
	head := p.add(cells...)
	p.repeat(head-1, head)
}

// inMoney is the heading of a column of money.
func (l *form) inMoney(head string) string { return head + " " + l.sign }

// row adds a line to be filled in, which grows with what is typed into it.
func (l *form) row(p *page, cells ...grid.Cell) int {
	n := p.add(cells...)
	p.Rows[n-1].Grows = true
	return n
}

// open is a blank cell to be filled in with a number of a format.
func open(format string) grid.Cell {
	s := blank
	s.Format = format
	return grid.Cell{Style: s}
}

// openText is a blank cell to be filled in with words.
func openText() grid.Cell {
	s := blank
	s.Wrap, s.Indent = true, 1
	return grid.Cell{Style: s}
}

// shareFormat is that of a share to be filled in.
const shareFormat = "0.##%"

// choose gives cells of a column the choice of what a line without a rate is.
func (l *form) choose(p *page, col, from, to int) {
	p.Lists = append(p.Lists, grid.List{Range: span(col, from, to), Source: l.choices, Strict: true,
		Title: "Without a rate", Prompt: "Choose included, excluded or by owner, or leave the cell blank.",
		Hint: "Only where you give no rate: included, excluded or by owner."})
}

var mostMoney = decimal.New(1, 9)

// money lets cells of a column take money only, and shades what contradicts
// the choice beside it.
func (l *form) money(p *page, col, choice, from, to int) {
	p.Bounds = append(p.Bounds, grid.Bound{Range: span(col, from, to), Least: mostMoney.Neg(), Most: mostMoney,
		Title: "A sum of money", Prompt: "A number is wanted, without a sign of the currency. Words belong in the remarks."})
	here, beside := "$"+at(col, from), "$"+at(choice, from)
	p.Shades = append(p.Shades, grid.Shade{Range: span(col, from, to), Fill: amiss,
		Formula: "OR(ISTEXT(" + here + "),AND(" + here + `<>"",` + beside + `<>""))`})
}

// share lets cells of a column take a percentage only.
func (l *form) share(p *page, col, from, to int) {
	p.Bounds = append(p.Bounds, grid.Bound{Range: span(col, from, to), Least: decimal.Decimal{}, Most: decimal.New(5, 0),
		Title: "A percentage", Prompt: "A percentage is wanted, such as 5 %."})
}

// ids are the cells a line is known again by, and the form it is of.
func (l *form) ids(n bill.FormLine) []grid.Cell {
	if n.Mark == "" {
		return make([]grid.Cell, 3)
	}
	return []grid.Cell{words(n.ID, known), words(n.Mark, known), words(l.Bill.Fingerprint, known)}
}

// idHeads are the headings above them.
var idHeads = []grid.Cell{words(bill.HeadID, heading), words(bill.HeadMark, heading), words(bill.HeadForm, heading)}

// marked is the remark of a line.
func marked(n bill.FormLine) grid.Cell { return words(n.Standing, past) }

// inTotal parts the lines of a section into those in its total and the rest.
func inTotal(lines []bill.FormLine) (in, out []bill.FormLine) {
	for _, n := range lines {
		if n.Carried.InTotal() {
			in = append(in, n)
		} else {
			out = append(out, n)
		}
	}
	return in, out
}

// asked reports a line of which only the rate is wanted.
func asked(n bill.FormLine) bool { return n.Carried == job.RateOnly }
