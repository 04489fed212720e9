package sheets

import (
	"slices"
	"strings"
	"sync"

	"futtock/estimate/job"
	"futtock/estimate/quotes"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the sheet of one offer, after those that every sheet of lines has.
const (
	offerRate = lineFree + iota
	offerTendered
	offerCorrected
	offerNet
	offerLevelled
	offerSign
	offerAnswer
	offerWhy
	offerRemark
	offerRun // for value added tax, beside the printed part
	offerFree
)

// offerPage is the sheet of one offer, and where its totals stand.
type offerPage struct {
	without                        int // columns that are left out, where it is laid out in brief
	name                           string
	tendered, corrected, net, line string // cells of the whole; line is of levelled lines, sums and what stands beside them
	lumps                          map[string]string
	beside                         string
}

// cell is a place on the sheet.
func (o *offerPage) cell(col, row int) string { return quoted(o.name) + "!" + at(col-o.without, row) }

// offers lays out a sheet for each offer. They do not read one another's
// rows, and are laid out side by side.
func (l *comparing) offers() {
	made := make([]*page, len(l.Offers))
	var wait sync.WaitGroup
	for i := range l.Offers {
		wait.Go(func() { made[i] = l.offer(i) })
	}
	wait.Wait()
	for i, p := range made {
		l.pages[l.own[i].name] = p
	}
}

// offering is the sheet of one offer while it is laid out.
type offering struct {
	*comparing
	p     *page
	offer int
	over  string // formula of 1 and the rate of value added tax; blank where none is taken out
	run   int    // row of the last running total
	ran   money.Amount
	cells []grid.Cell // of the line in hand, from the first free column on
}

func (l *comparing) offer(i int) *page {
	o := &l.Offers[i]
	widths := []float64{10, 40, 9, 6}
	p := newPage(l.own[i].name, append(widths[:l.free()-1], 12, 14, 14, 14, 14, 5, 15, 42, 22, 13, 13)...)
	p.Print.FitWidth = true
	s := &offering{comparing: l, p: p, offer: i, cells: make([]grid.Cell, offerFree-lineUnit)}
	p.add(words(asText(o.Name), title))
	p.add(words(asText(l.Sent.Vessel+", tender "+l.Sent.Reference+"; from "+o.Book), subtitle))
	s.top(o)
	if l.brief {
		p.add(words(say("brief"), remark))
		p.merge(p.next()-1, 1, s.col(offerWhy))
	} else {
		p.gap()
	}
	names := append(fixedHeads()[:l.free()-1], ">Rate as tendered", ">As tendered "+l.sign, ">Corrected "+l.sign, ">Before VAT "+l.sign, ">Levelled "+l.sign, "=", "<Answer", "<Why", "<The firm's remark")
	if s.over != "" {
		names = append(names, ">Running total, for VAT", ">Free of VAT")
	}
	head := p.add(heads(names...)...)
	p.repeat(head, head)
	p.Freeze.Cols = l.text()
	fixed := l.fixedOf
	if l.brief {
		fixed = l.itemOf
	}
	l.plan.lay(p, l.col(offerRemark), l.free(), fixed, s.line, s.total)
	s.whole(o)
	p.Print.Area = "$A$1:" + absolute(at(s.col(offerRemark), p.next()-1))
	return p
}

func (l *comparing) fixedOf(n int) []grid.Cell { return l.fixed[n] }

// itemOf is the item alone.
func (l *comparing) itemOf(n int) []grid.Cell { return l.fixed[n][:lineItem] }

// free is the first column that the sheets of offers have for themselves.
func (l *comparing) free() int {
	if l.brief {
		return lineItem + 1
	}
	return lineFree
}

// text is the column of descriptions and of what stands in their place.
func (l *comparing) text() int { return min(lineText, l.free()-1) }

// col is where a column of an offer comes to stand.
func (l *comparing) col(c int) int { return c - lineFree + l.free() }

// netOf is the column of lines before value added tax: that of the corrected
// figures where no tax is taken out and little room is left.
func (l *comparing) netOf(offer int) int {
	if l.brief && l.Offers[offer].TaxOut.IsZero() {
		return offerCorrected
	}
	return offerNet
}

// top says how the firm has value added tax, with its rate in a cell where it
// is taken out.
func (s *offering) top(o *quotes.Offer) {
	text := "Value added tax: not said, and taken to be left out of the rates"
	if o.Tax != "" {
		text = "Value added tax: " + asText(o.Tax)
	}
	row := blanks(s.col(offerNet), plain)
	row[0] = words(text, plain)
	if !o.TaxOut.IsZero() {
		row[s.col(offerCorrected)-1] = words("taken out at", grid.Style{Align: grid.Right, Top: true})
		row[s.col(offerNet)-1] = percent(o.TaxRate, plain)
		s.over = "(1+" + absolute(at(s.col(offerNet), s.p.next())) + ")"
	}
	s.p.add(row...)
}

// line is one line as this firm has it.
func (s *offering) line(n int) []grid.Cell {
	r := &s.Rows[n]
	c := &r.Cells[s.offer]
	row := s.plan.rows[n]
	clear(s.cells)
	out := s.cells
	put := func(col int, cell grid.Cell) { out[col-lineFree] = cell }
	if c.State != quotes.Answered {
		put(offerAnswer, words(string(c.State), grid.Style{Top: true, Indent: 1}))
	}
	signs := s.signs(s.offer, n)
	look := plain
	if signs != "" {
		look = told
		put(offerSign, words(signs, signStyle))
	}
	rate, rated := rateCell(c)
	if c.Offered != nil {
		put(offerRate, rate)
		if c.Offered.Remark != "" {
			put(offerRemark, words(asText(c.Offered.Remark), beside))
		}
	}
	if c.AsTendered.Known {
		put(offerTendered, sum(c.AsTendered.Amount, plain))
	}
	if why := s.why(c); why != "" {
		put(offerWhy, words(asText(why), beside))
	}
	if s.summed(n, c) || !c.Corrected.IsZero() {
		formula := ""
		if q := r.Line.Quantity; rated && !q.IsZero() && money.Round(q.Mul(rate.Number)).Equal(c.Corrected) {
			formula = rounded(s.quantity(row), at(s.col(offerRate), row))
		}
		put(offerCorrected, sumBy(formula, c.Corrected, look))
		if s.netOf(s.offer) == offerNet {
			put(offerNet, s.net(row, r.Line.InTotal(), c, put))
		}
	}
	if s.summed(n, c) || !c.Net.IsZero() || !c.Levelled.IsZero() {
		put(offerLevelled, s.levelledLine(row, n, c, look))
	}
	for len(out) > 0 && out[len(out)-1].Kind == grid.Blank {
		out = out[:len(out)-1]
	}
	return out
}

// quantity is the cell of a line's quantity.
func (s *offering) quantity(row int) string {
	if s.brief {
		return quoted(linesSheet) + "!" + at(lineQuantity, row)
	}
	return at(lineQuantity, row)
}

// summed reports a line of which the firm gives a sum, be it nought: of a line
// of which only the rate is asked there is none.
func (l *comparing) summed(n int, c *quotes.Cell) bool {
	return c.State == quotes.Answered && l.Sent.Lines[n].Carried != job.RateOnly
}

// why is how each figure of a line came from the one before. That value added
// tax was taken out is said once, at the top.
func (s *offering) why(c *quotes.Cell) string {
	if len(c.Why) == 0 {
		return ""
	}
	tax := quotes.TaxOutOf(s.Offers[s.offer].TaxRate)
	return strings.Join(slices.DeleteFunc(slices.Clone(c.Why), func(why string) bool { return why == tax }), "; ")
}

// rateCell is the rate as it was tendered, and whether it is a number. Words
// stand as they were typed.
func rateCell(c *quotes.Cell) (grid.Cell, bool) {
	if c.Offered == nil {
		return grid.Cell{}, false
	}
	return figureCell(c.Offered.Rate, priceFormat)
}

// figureCell is a figure as it was tendered, and whether it is a number.
func figureCell(f quotes.Figure, format string) (grid.Cell, bool) {
	switch {
	case f.Is():
		return figure(f.Value, format), true
	case f.Text != "":
		return words(asText(f.Text), grid.Style{Top: true, Align: grid.Right, Wrap: true}), false
	}
	return grid.Cell{}, false
}

// net is a corrected figure before value added tax: of a line in the total by
// running totals of what bears it, so that no penny is lost, else by itself.
func (s *offering) net(row int, inTotal bool, c *quotes.Cell, put func(int, grid.Cell)) grid.Cell {
	here := at(s.col(offerCorrected), row)
	switch {
	case s.over == "":
		return sumBy(here, c.Net, plain)
	case !inTotal:
		return sumBy("ROUND("+here+"/"+s.over+",2)", c.Net, plain)
	}
	bears, free := here, ""
	if !c.Untaxed.IsZero() {
		put(offerFree, sum(c.Untaxed, asCompare))
		free = "+" + at(s.col(offerFree), row)
		bears += "-" + at(s.col(offerFree), row)
	}
	before, less := "", ""
	if s.run > 0 {
		before = at(s.col(offerRun), s.run)
		less = "-ROUND(" + before + "/" + s.over + ",2)"
		before += "+"
	}
	s.ran, s.run = s.ran.Add(c.Corrected.Sub(c.Untaxed)), row
	put(offerRun, sumBy(pennies(before+bears), s.ran, asCompare))
	return sumBy(pennies("ROUND("+at(s.col(offerRun), row)+"/"+s.over+",2)"+less+free), c.Net, plain)
}

// levelledLine is the levelled figure of a line: before value added tax, and
// the adjustments of the line.
func (s *offering) levelledLine(row, n int, c *quotes.Cell, look grid.Style) grid.Cell {
	parts, total := []string{}, money.Amount{}
	if s.summed(n, c) || !c.Corrected.IsZero() {
		parts, total = append(parts, at(s.col(s.netOf(s.offer)), row)), c.Net
	}
	for _, a := range s.stepped[s.offer][n] {
		parts, total = append(parts, a.cell), total.Add(a.amount)
	}
	formula := addUp(parts...)
	if len(parts) > 1 {
		formula = pennies(formula)
	}
	if !total.Equal(c.Levelled) {
		formula = "" // two lines of one number cannot be told apart
	}
	return sumBy(formula, c.Levelled, look)
}

// total adds up the lines of a group that are in the total.
func (s *offering) total(g *lineGroup) []grid.Cell {
	out := blanks(offerRemark-lineUnit, strong)
	var corrected, net, levelled money.Amount
	for _, n := range g.in {
		c := &s.Rows[n].Cells[s.offer]
		corrected, net, levelled = corrected.Add(c.Corrected), net.Add(c.Net), levelled.Add(c.Levelled)
	}
	out[offerCorrected-lineFree] = sumBy(g.sum(s.col(offerCorrected)), corrected, strong)
	out[offerNet-lineFree] = sumBy(g.sum(s.col(s.netOf(s.offer))), net, strong)
	out[offerLevelled-lineFree] = sumBy(g.sum(s.col(offerLevelled)), levelled, strong)
	return out
}
