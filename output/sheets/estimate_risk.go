package sheets

import (
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/price"
	"futtock/estimate/risk"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the risk sheet.
const (
	riskRef = iota + 1
	riskText
	riskSource
	riskOne // the first of the figures
	riskTwo
	riskThree
	riskFour
	riskFive
	riskCell = 13 // of the yard's workbook
)

// risk lays out what a simulated contingency was drawn from, and always what
// published optimism bias would make of the price, for comparison only.
func (w *working) risk() {
	c := w.Contingency
	if len(c.Bias) == 0 {
		return
	}
	note := "The contingency is by percent and stands on its own sheet; here is only what it may be compared with."
	if c.Simulation != nil {
		note = "What may come out otherwise than priced, drawn over and over. Drawn figures stay as they were; run again to draw anew."
	}
	p := w.page(riskSheet, "Risk", note, 9, 44, 17, 15, 15, 15, 15, 15, 15, 15, 12, 12, 16)
	baseRow := p.add(words("", plain), words("Measured work and preliminaries as priced", wrapped), grid.Cell{},
		sumBy(pennies(orNil(w.itemTotals.priced, w.prelims)), w.base(), plain))
	weeksRow := p.add(words("", plain), words("Weeks on site as priced", wrapped), grid.Cell{}, chosen(w.Programme.Weeks, "0.0"))
	base, weeks := at(riskOne, baseRow), at(riskOne, weeksRow)
	if s := c.Simulation; s != nil {
		w.drawnTotals(p, *s, base)
		w.histogram(p, *s)
		w.drivenBy(p, *s)
		w.register(p, *s)
	}
	w.bias(p, absolute(base), absolute(weeks))
	p.Print.Area = "$A$1:" + absolute(at(riskCell, p.next()-1))
}

// base is what the contingency stands on: measured work and preliminaries.
func (w *working) base() money.Amount {
	all := price.Measured(w.Priced.Items)
	for _, l := range w.Priced.Preliminaries {
		all = all.Add(l.Amount)
	}
	return all
}

// drawnTotals is what the draws come to.
func (w *working) drawnTotals(p *page, s risk.Simulation, base string) {
	p.gap()
	p.add(heads("", "The draws", "", "")...)
	for _, r := range []struct {
		text string
		cell grid.Cell
	}{
		{"Draws", chosen(decimal.NewFromInt(int64(s.Draws)), countFormat)},
		{"Draw number", chosen(decimal.NewFromInt(s.DrawNumber), "0")},
		{"Surprises together", share(s.Together)},
		{"Confidence asked for", share(s.Confidence)},
	} {
		p.add(words("", plain), words(r.text, plain), grid.Cell{}, r.cell)
	}
	p.gap()
	p.add(heads("", "Measured work and preliminaries, as drawn", "", ">"+w.sign)...)
	for _, r := range []struct {
		text string
		sum  money.Amount
	}{
		{"Least drawn", s.Least}, {"Not exceeded in 10 % of the draws (P10)", s.P10}, {"Not exceeded in 50 % (P50)", s.P50},
		{"Mean", s.Mean}, {"Not exceeded in 80 % (P80)", s.P80}, {"Not exceeded in 90 % (P90)", s.P90}, {"Most drawn", s.Most},
		{"Standard deviation", s.SD}, {"Not exceeded in the confidence asked for", s.Chosen},
	} {
		p.add(words("", plain), words(r.text, plain), grid.Cell{}, sum(r.sum, solved))
	}
	n := p.add(words("", plain), words("Contingency held: what that is over the price, up to a whole unit", wrapped), grid.Cell{}, sum(s.Held, solved))
	p.add(words("", plain), words("Price with the contingency", plain), grid.Cell{}, sumBy(pennies(base+"+"+at(riskOne, n)), s.Base.Add(s.Held), plain))
	p.add(words("", plain), words("Chance that the price without it is enough", plain), grid.Cell{}, share(s.BaseEnough))
	p.add(words("", plain), words("Chance that the price with it is enough", plain), grid.Cell{}, share(s.PriceEnough))
	if t := s.Weeks; t != nil {
		p.gap()
		p.add(heads("", "Weeks on site, as drawn", ">As priced", ">Mean", ">P10", ">P50", ">P80", ">P90")...)
		row := []grid.Cell{words("", plain), words("Calendar weeks", plain)}
		for _, d := range []decimal.Decimal{t.Priced, t.Mean, t.P10, t.P50, t.P80, t.P90} {
			row = append(row, chosen(d, "0.0"))
		}
		p.add(row...)
		p.add(words("", plain), words("Hours beyond those priced, on the average", plain), chosen(s.Hours, hoursFormat))
	}
}

// share is a percentage that was solved for.
func share(p money.Percent) grid.Cell { return chosen(p.Fraction(), percentFormat(p)) }

// histogram is how the totals drawn are spread, with a chart of it.
func (w *working) histogram(p *page, s risk.Simulation) {
	if len(s.Bins) == 0 {
		return
	}
	p.gap()
	p.Print.Breaks = append(p.Print.Breaks, p.next()) // the table and its picture on one page
	head := p.add(heads("", "How the totals drawn are spread", ">Named in the chart", ">From "+w.sign, ">Under "+w.sign, ">Draws", ">Share of draws")...)
	first := p.next()
	last := first + len(s.Bins) - 1
	draws := absolute(at(riskThree, last+1))
	for _, b := range s.Bins {
		n := p.next()
		part := decimal.NewFromInt(int64(b.Draws)).DivRound(decimal.NewFromInt(int64(s.Draws)), 4)
		p.add(words("", plain), words("", plain), words(strings.TrimSuffix(b.From.Grouped(), ".00"), grid.Style{Top: true, Align: grid.Right}), chosen(b.From.Decimal(), countFormat), chosen(b.To.Decimal(), countFormat),
			chosen(decimal.NewFromInt(int64(b.Draws)), countFormat), live("ROUND("+at(riskThree, n)+"/"+draws+",4)", part, "0.0%"))
	}
	row := blanks(riskFour, strong)
	row[riskText-1] = words("In all", strong)
	row[riskThree-1] = withFormat(grid.Reckoned(sumOf(riskThree, first, last), decimal.NewFromInt(int64(s.Draws)), strong), countFormat)
	p.add(row...)
	p.gap()
	top := p.next()
	for range chartRows + 1 {
		p.gap()
	}
	down := func(col int) string {
		return quoted(p.Name) + "!" + absolute(at(col, first)) + ":" + absolute(at(col, last))
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Columns, Title: "Totals drawn: how many draws came to how much", Alt: "Bars of the number of draws by what measured work and preliminaries came to",
		Of: down(riskSource), OfTitle: "From, " + w.sign, OnEnd: true, InTitle: "Draws",
		Series: []grid.Series{{Name: quoted(p.Name) + "!" + absolute(at(riskThree, head)), Values: down(riskThree)}},
		Range:  at(riskRef, top) + ":" + at(riskThree, top+chartRows-1),
	})
}

// drivenBy is what the sum held is for, the heaviest first.
func (w *working) drivenBy(p *page, s risk.Simulation) {
	if len(s.Drivers) == 0 {
		return
	}
	p.gap()
	p.Print.Breaks = append(p.Print.Breaks, p.next())
	p.add(heads("Ref", "What the contingency is for, the heaviest first", "Because", ">Bears "+w.sign, ">Share", ">Mean of all draws "+w.sign)...)
	var bears, mean money.Amount
	first := p.next()
	last := first + len(s.Drivers) - 1
	for n, d := range s.Drivers {
		bears, mean = bears.Add(d.Bears), mean.Add(d.Mean)
		part := share(d.Share)
		if !d.Share.IsZero() {
			part = live("ROUND("+at(riskOne, first+n)+"/"+absolute(at(riskOne, last+1))+",3)", d.Share.Fraction(), percentFormat(d.Share))
		}
		p.add(words(d.Ref, plain), words(d.Description, wrapped), words(string(d.Source), plain), sum(d.Bears, solved), part, sum(d.Mean, solved))
	}
	p.add(words("", strong), words("In all", strong), words("", strong), sumBy(pennies(sumOf(riskOne, first, last)), bears, strong), words("", strong),
		sumBy(pennies(sumOf(riskThree, first, last)), mean, strong))
	p.merge(p.add(words("Bears: the average of what it adds in the draws that come near the confidence asked for; in all about what is held.", remark)), riskRef, riskThree)
}

// register is every row that was drawn.
func (w *working) register(p *page, s risk.Simulation) {
	if len(s.Rows) == 0 {
		return
	}
	p.gap()
	p.together(p.next(), p.next()+len(s.Rows))
	p.add(heads("Ref", "What was drawn", "Because", ">Priced "+w.sign, ">Chance", ">Least "+w.sign, ">Likely "+w.sign, ">Most "+w.sign,
		">Mean of what it adds "+w.sign, ">Standard deviation "+w.sign, ">Hours", ">Extra weeks", "<Cell")...)
	for _, u := range s.Rows {
		cell := w.place(u.At)
		cell.Style.Indent = 1
		p.add(words(u.Ref, plain), words(u.Description, wrapped), words(string(u.Source), plain), sum(u.Priced, solved), share(u.Chance),
			sum(u.Least, solved), sum(u.Likely, solved), sum(u.Most, solved), sum(u.Mean, solved), sum(u.SD, solved),
			chosen(u.Hours, hoursFormat), chosen(u.ExtraWeeks, asFine(u.ExtraWeeks, 2)), cell)
	}
}

// bias is what published optimism bias would add, which is never in the total.
func (w *working) bias(p *page, base, weeks string) {
	p.gap()
	p.together(p.next(), p.next()+2+2*len(w.Contingency.Bias))
	n := p.add(words("Optimism bias: for comparison only, never in the total", band))
	p.merge(n, riskRef, riskThree)
	n = p.add(words("How far public works came out above what was foretold at their outset, with no contingency in the figure. No class fits a wooden ship; non-standard buildings is the nearest by nature.", remark))
	p.merge(n, riskRef, riskCell)
	p.add(heads("", "Class of work", "Bound", ">On the price", ">Would add "+w.sign, ">On the time", ">Would take weeks", "<Source")...)
	for _, c := range w.Contingency.Bias {
		for _, b := range []struct {
			bound         string
			capital, time money.Percent
			adds          money.Amount
			weeks         decimal.Decimal
		}{
			{"lower", c.Bias.CapitalLower, c.Bias.DurationLower, c.CapitalLower, c.WeeksLower},
			{"upper", c.Bias.CapitalUpper, c.Bias.DurationUpper, c.CapitalUpper, c.WeeksUpper},
		} {
			n := p.next()
			p.add(words("", plain), words(c.Bias.Class, wrapped), words(b.bound, plain), figure(b.capital.Fraction(), percentFormat(b.capital)),
				sumBy(rounded(base, at(riskOne, n)), b.adds, plain), figure(b.time.Fraction(), percentFormat(b.time)),
				live("ROUND("+weeks+"*(1+"+at(riskThree, n)+"),1)", b.weeks, "0.0"), words(c.Bias.Source+", "+c.Bias.Where, aside))
			p.merge(n, riskFive, riskCell)
		}
	}
}
