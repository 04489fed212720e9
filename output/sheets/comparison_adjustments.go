package sheets

import (
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/quotes"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the adjustments.
const (
	adjustFirm = iota + 1
	adjustKind
	adjustLine
	adjustText
	adjustAmount
)

// adjustments lists each step from what an offer comes to before value added
// tax to its levelled figure, by offer and kind, each kind with the sum of its rows.
func (l *comparing) adjustments() {
	p := l.page(adjustSheet, "Adjustments", say("adjustments"), 30, 32, 11, 84, 17)
	head := p.add(heads("Offer", "Kind", "Line", "What and why", ">"+l.sign)...)
	p.repeat(head, head)
	lines := map[string]int{}
	for n := range l.Sent.Lines {
		lines[l.Sent.Lines[n].ID] = n
	}
	for i := range l.Offers {
		row := blanks(adjustAmount, band)
		row[0] = words(l.numbered(i), band)
		p.add(row...)
		for _, k := range quotes.AdjustmentKinds() {
			l.adjustedBy(p, i, k, lines)
		}
		p.gap()
	}
}

// adjustedBy is the rows of one kind of one offer, and their sum. Qualifications
// and weeks are listed whether they bear a figure or not, since one may be typed.
func (l *comparing) adjustedBy(p *page, i int, k quotes.AdjustmentKind, lines map[string]int) {
	o := &l.Offers[i]
	from := p.next()
	put := func(line, text, formula string, a money.Amount) {
		p.add(words(asText(o.Name), wrapped), words(string(k), plain), words(asText(line), plain), words(asText(text), wrapped), signed(formula, a, plain))
	}
	all := ofKind(*o, k)
	total := totalOf(all)
	switch k {
	case quotes.Qualified:
		for n, q := range o.Qualifications {
			a := money.Amount{}
			if at := matching(all, q.Text); at >= 0 {
				a = all[at].Amount
				all = append(all[:at:at], all[at+1:]...)
			}
			put(q.Of, itoa(q.Number)+". "+q.Text, l.given[i][n], a)
		}
	case quotes.WeeksPriced:
		text, formula := "Weeks are not known", ""
		if w := o.WeeksTaken; w.Known {
			text = w.Weeks.String() + " weeks at what a week costs the client, " + l.weeksHow(*o)
			formula = "ROUND(" + l.taken[i] + "*" + l.week + ",2)"
		}
		put("", text, formula, total)
	case quotes.HeldEqual:
		for _, a := range all {
			put("", capital(a.Text), l.held, a.Amount)
		}
	default:
		for _, a := range all {
			n, ofLine := lines[a.ID]
			formula, ref := "", a.ID
			if ofLine {
				formula, ref = l.filled(i, n, a), l.fixed[n][0].Text
			}
			put(ref, capital(a.Text), formula, a.Amount)
			if ofLine && (k == quotes.GapFilled || k == quotes.SumsEqual) {
				l.stepped[i][n] = append(l.stepped[i][n], step{p.cell(adjustAmount, p.next()-1), a.Amount})
			}
		}
	}
	if p.next() == from {
		return
	}
	row := blanks(adjustAmount, strong)
	row[adjustKind-1] = words(capital(string(k)), strong)
	row[adjustAmount-1] = signed(sumOf(adjustAmount, from, p.next()-1), total, strong)
	l.adjusted[i][k] = p.cell(adjustAmount, p.add(row...))
}

// filled is the formula of the figure that fills the gap of a line: the
// yardstick's amount, the mean or the highest of those who priced it, less what
// stands there. It is blank where the figure does not come so, as of profit on a
// sum, of which the sheets show no more than the sum.
func (l *comparing) filled(offer, line int, a quotes.Adjustment) string {
	cell := &l.Rows[line].Cells[offer]
	if a.Kind != quotes.GapFilled || !a.Amount.Equal(cell.Levelled.Sub(cell.Net)) {
		return ""
	}
	less := ""
	if !cell.Net.IsZero() {
		less = "-" + l.own[offer].cell(l.netOf(offer), l.plan.rows[line])
	}
	var sum, most money.Amount
	var cells []string
	for i := range l.Offers {
		c := &l.Rows[line].Cells[i]
		if c.State != quotes.Answered || c.Net.IsZero() {
			continue
		}
		if len(cells) == 0 || c.Net.Cmp(most) > 0 {
			most = c.Net
		}
		sum = sum.Add(c.Net)
		cells = append(cells, l.own[i].cell(l.netOf(i), l.plan.rows[line]))
	}
	yardstick := quoted(linesSheet) + "!" + at(linesAmount, l.plan.rows[line])
	for _, rule := range []quotes.GapRule{l.Terms.Gaps, quotes.AtYardstick, quotes.AtMean} {
		switch n := decimal.NewFromInt(int64(len(cells))); {
		case rule == quotes.AtYardstick && l.Sent.Priced && l.Rows[line].Line.Priced && cell.Levelled.Equal(l.Rows[line].Line.Amount):
			return pennies(yardstick + less)
		case rule == quotes.AtHighest && len(cells) > 0 && cell.Levelled.Equal(most):
			return thatFits(pennies(over("MAX", cells) + less))
		case rule == quotes.AtMean && len(cells) > 0 && cell.Levelled.Equal(sum.Per(n)):
			return thatFits(pennies("ROUND((" + strings.Join(cells, "+") + ")/" + itoa(len(cells)) + ",2)" + less))
		}
	}
	return ""
}

// beside is the cells of the adjustments of an offer that are of none of its
// lines, and what they come to.
func (l *comparing) beside(offer int) (cells []string, total money.Amount) {
	for _, k := range quotes.AdjustmentKinds() {
		if k == quotes.GapFilled || k == quotes.SumsEqual {
			continue
		}
		if cell, ok := l.adjusted[offer][k]; ok {
			cells = append(cells, cell)
		}
		total = total.Add(totalOf(ofKind(l.Offers[offer], k)))
	}
	return cells, total
}

// signedBlank is a signed figure that is not there.
func signedBlank(style grid.Style) grid.Cell { return signed("", money.Amount{}, style) }

// totalOf is what adjustments come to together.
func totalOf(all []quotes.Adjustment) money.Amount {
	var a money.Amount
	for _, one := range all {
		a = a.Add(one.Amount)
	}
	return a
}
