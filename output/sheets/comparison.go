package sheets

import (
	"fmt"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"futtock/estimate/quotes"
	"futtock/rates"
	"futtock/rates/money"
	"futtock/templates/grid"
	"futtock/templates/offer"
	"futtock/templates/wording"
)

// Sheets of a comparison. Each offer has one more, of its number and firm.
const (
	spreadSheet     = "Sections"
	linesSheet      = "Lines"
	adjustSheet     = "Adjustments"
	arithmeticSheet = "Arithmetic"
	queriesSheet    = "Queries"
	ratesSheet      = "Rates"
	balanceSheet    = "Balance"
	lowSheet        = "Low price"
	readSheet       = "Notes"
)

// Comparison is quotes side by side, for whoever is to choose between them and
// defend it. What was tendered is typed once, on the sheet of its offer, and never
// written over; what is arithmetic on it is a live formula, down to ranks and
// marks, so that a figure which the client types for a qualification or a week moves
// the levelled totals. What was found out by searching (rates that stand out, the
// balance, the rule for low prices) stays as compared, and says so once a figure is changed.
//
// Words of strangers are cells of text, whatever they begin with.
func Comparison(c quotes.Comparison) *grid.Book {
	return compare(c, len(c.Offers)*len(c.Sent.Lines) > mostInFull)
}

// compare lays out a comparison, the sheets of its offers in full or in brief.
func compare(c quotes.Comparison, brief bool) *grid.Book {
	l := newComparing(c)
	l.brief = brief
	for i := range l.own {
		l.own[i].without = lineFree - l.free()
	}
	l.figures()
	l.adjustments()
	l.offers()
	l.lines()
	l.sections()
	l.summary()
	l.arithmetic()
	l.queries()
	l.outOfLine()
	l.balance()
	l.low()
	l.notes()

	book := &grid.Book{
		Title:    "Comparison of quotes, " + c.Sent.Vessel,
		Subject:  "Tender " + c.Sent.Reference,
		Creator:  c.Sent.Client,
		Language: "en-GB",
		Stamp:    c.Sent.Tendered,
	}
	for _, p := range l.inOrder() {
		p.Print.Landscape = true
		p.Print.Paper = paperOf(c.Sent.Paper)
		p.Print.Header = "&L" + headerText(c.Sent.Vessel) + "&R" + headerText(c.Sent.Reference)
		p.Print.Footer = "&L" + headerText(c.Sent.Client) + "&R" + headerText(p.Name) + ", page &P of &N"
		book.Sheets = append(book.Sheets, p.Sheet)
	}
	return book
}

// comparing is the comparison while it is laid out: its pages, and where each
// figure that others read came to stand.
type comparing struct {
	quotes.Comparison
	sign  string
	pages map[string]*page
	plan  linePlan
	brief bool          // the sheets of offers leave out what stands on that of all lines
	fixed [][]grid.Cell // what every sheet of lines says of a line, by line
	stand []map[int]string
	own   []offerPage // by offer

	week, held, programme string     // cells of what the client gives for all
	given                 [][]string // cells of the client's figures, by offer and qualification
	taken                 []string   // cells of weeks, by offer; blank where they are not known
	adjusted              []map[quotes.AdjustmentKind]string
	stepped               []map[int][]step // of adjustments to one line, by offer and line
	yardstick             string           // cell; blank where the bill bears no prices
	spread                []string         // cells of what sections and parts add up to, by offer
	levelled              []string         // cells of the summary, by offer
	counts                []int            // row of the spread that a group of lines counts to, by group
	changed               string           // cell that says whether figures were changed since
}

// mostInFull is how many lines of all offers together are laid out in full. A
// file of more cells than a few hundred thousand opens slowly, and one of a million and
// a half cannot be read back: with more lines the sheets of offers give the item alone,
// and no figure before value added tax where it is the corrected one.
const mostInFull = 80_000

// step is one adjustment of a line, where it stands and what it comes to.
type step struct {
	cell   string
	amount money.Amount
}

func newComparing(c quotes.Comparison) *comparing {
	n := len(c.Offers)
	l := &comparing{
		Comparison: c, sign: wording.Sign(c.Sent.Currency), pages: map[string]*page{}, own: make([]offerPage, n), stand: make([]map[int]string, n),
		given: make([][]string, n), taken: make([]string, n), adjusted: make([]map[quotes.AdjustmentKind]string, n), stepped: make([]map[int][]step, n),
		spread: make([]string, n), levelled: make([]string, n), plan: planLines(c.Sent, offerHead+1),
	}
	for i, o := range c.Offers {
		l.own[i].name = offerSheetName(i+1, o.Name)
		l.adjusted[i], l.stepped[i], l.stand[i] = map[quotes.AdjustmentKind]string{}, map[int][]step{}, map[int]string{}
	}
	for _, r := range c.Rates {
		l.stand[r.Offer][r.Line] = aboveOrBelow(r)
	}
	for i := range c.Sent.Lines {
		l.fixed = append(l.fixed, fixedCells(&c.Sent.Lines[i]))
	}
	return l
}

// inOrder is the pages in the order of the workbook.
func (l *comparing) inOrder() []*page {
	names := []string{summarySheet, spreadSheet, linesSheet, adjustSheet, arithmeticSheet, queriesSheet, ratesSheet, balanceSheet, lowSheet, offer.FiguresSheet, readSheet}
	for _, o := range l.own {
		names = append(names, o.name)
	}
	out := make([]*page, len(names))
	for i, name := range names {
		out[i] = l.pages[name]
	}
	return out
}

// page begins a sheet with its title and what there is to know of it, in three
// rows and a gap.
func (l *comparing) page(name, text, note string, widths ...float64) *page {
	p := newPage(name, widths...)
	p.Print.FitWidth = true
	p.add(words(text, title))
	p.add(words(asText(l.Sent.Vessel+", tender "+l.Sent.Reference), subtitle))
	p.add(words(note, remark))
	p.merge(3, 1, max(2, min(len(widths), 12)))
	p.gap()
	l.pages[name] = p
	return p
}

// say is a part of the comparison's standing text that is one paragraph.
func say(part string, pairs ...string) string { return wording.Comparison(part, pairs...)[0] }

// The looks of a comparison: a figure that differs is bold and filled, and has a sign
// beside it; a sign stands in the middle of a narrow column.
const differs = "FBE3C0"

var (
	signStyle = grid.Style{Top: true, Align: grid.Centre, Font: grid.Font{Bold: true}}
	told      = grid.Style{Top: true, Fill: differs, Font: grid.Font{Bold: true}}
	asCompare = grid.Style{Top: true, Font: grid.Font{Italic: true, Colour: grey}}
	warning   = grid.Style{Font: grid.Font{Bold: true}, Wrap: true, Top: true}
)

const (
	signedFormat = "+#,##0.00;[Red]-#,##0.00;0.00"
	marksFormat  = "0.00"
	shareOneTen  = "0.0%"
	signedShare  = "+0.0%;[Red]-0.0%;0.0%"
	weeksFormat  = "0.##"
)

// Signs beside figures, and on the sheet Notes what they mean.
const (
	signCorrected = "C"
	signExcluded  = "X"
	signOwner     = "O"
	signSilent    = "?"
	signElsewhere = "I"
	signLump      = "S"
	signAbove     = "▲"
	signBelow     = "▼"
)

// signOf is how a firm answered a line, as a sign.
func signOf(a quotes.Answer) string {
	switch a {
	case quotes.LeftOff:
		return signExcluded
	case quotes.ForOwner:
		return signOwner
	case quotes.Silent:
		return signSilent
	case quotes.WithinOthers:
		return signElsewhere
	case quotes.WithinLump:
		return signLump
	}
	return ""
}

func aboveOrBelow(r quotes.Outlier) string {
	if r.Rate.Cmp(r.Beside) > 0 {
		return signAbove
	}
	return signBelow
}

// signs is what there is to mark in one line of one offer.
func (l *comparing) signs(offer, line int) string {
	c := &l.Rows[line].Cells[offer]
	s := signOf(c.State)
	if c.AsTendered.Known && !c.AsTendered.Amount.Equal(c.Corrected) || l.rateCorrected(line, c) {
		s += signCorrected
	}
	return s + l.stand[offer][line]
}

// rateCorrected reports a line whose amount stands and whose rate was
// corrected, as where its point was misplaced.
func (l *comparing) rateCorrected(line int, c *quotes.Cell) bool {
	q := l.Sent.Lines[line].Quantity
	return l.Terms.Errors != quotes.ReportOnly && c.State == quotes.Answered && c.Rate.Known && !q.IsZero() &&
		c.Offered != nil && c.Offered.Rate.Is() && !money.Round(q.Mul(c.Offered.Rate.Value)).Equal(c.Corrected)
}

// numbered is an offer as headings name it.
func (l *comparing) numbered(i int) string {
	return fmt.Sprintf("%d  %s", i+1, asText(l.Offers[i].Name))
}

// signed is a sum with its sign before it, by a formula or as it is.
func signed(formula string, a money.Amount, style grid.Style) grid.Cell {
	style.Format = signedFormat
	return grid.Cell{Kind: grid.Number, Number: a.Decimal(), Formula: formula, Style: style}
}

// wordBy is text that a formula makes.
func wordBy(formula, now string, style grid.Style) grid.Cell {
	return grid.Cell{Kind: grid.Text, Text: now, Formula: formula, Style: style}
}

// stale is a row that says, once the client's figures are changed, that what
// stands below is as compared.
func (l *comparing) stale(p *page, cols int) {
	n := p.add(wordBy("IF("+l.changed+`="","",`+inFormula(say("stale"))+")", "", warning))
	p.merge(n, 1, cols)
}

// over is a function of cells that stand apart, in as many calls as hold them all.
func over(function string, cells []string) string {
	const most = 200 // a call takes 255
	if len(cells) == 0 {
		return "0"
	}
	if len(cells) <= most {
		return function + "(" + strings.Join(cells, ",") + ")"
	}
	var parts []string
	for from := 0; from < len(cells); from += most {
		parts = append(parts, over(function, cells[from:min(len(cells), from+most)]))
	}
	return function + "(" + strings.Join(parts, ",") + ")"
}

// thatFits is a formula, or none where a cell has no room for it: its result
// then stands alone.
func thatFits(formula string) string {
	if len(formula) > grid.MostFormula {
		return ""
	}
	return formula
}

// asText is text of strangers as a cell can hold it: a sign that no file can hold
// is a space, and what is longer than a cell ends in dots.
func asText(s string) string {
	clean := utf8.ValidString(s)
	for i := 0; clean && i < len(s); i++ {
		clean = s[i] >= ' ' && s[i] != 0xEF // of the two last characters of the first plane
	}
	if clean && len(s) < grid.MostText {
		return s
	}
	var b strings.Builder
	units := 0
	for _, r := range strings.ToValidUTF8(s, "\uFFFD") {
		if r < ' ' && r != '\n' || r == 0xFFFE || r == 0xFFFF {
			r = ' '
		}
		if units += utf16.RuneLen(r); units >= grid.MostText {
			b.WriteRune('…')
			break
		}
		b.WriteRune(r)
	}
	return b.String()
}

// offerSheetName is the name of the sheet of an offer: its number makes it
// unlike any other, and what a name may not hold is left out.
func offerSheetName(number int, firm string) string {
	const most = 31
	name := []rune(fmt.Sprint(number))
	units := len(name)
	space := true
	for _, r := range strings.ToValidUTF8(firm, " ") {
		if r < ' ' || r == 0xFFFE || r == 0xFFFF || strings.ContainsRune(`[]:*?/\'`, r) {
			r = ' '
		}
		if r == ' ' {
			space = true
			continue
		}
		wide := utf16.RuneLen(r)
		if space {
			wide++
		}
		if units+wide > most {
			break
		}
		if space {
			name = append(name, ' ')
		}
		name, units, space = append(name, r), units+wide, false
	}
	return string(name)
}

// sameText reports texts that are matched as one, as the client's figures are.
func sameText(a, b string) bool { return rates.Key(a) == rates.Key(b) }
