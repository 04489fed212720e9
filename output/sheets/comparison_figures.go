package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/estimate/quotes"
	"futtock/templates/grid"
	"futtock/templates/offer"
)

// Columns of the client's figures.
const (
	figureFirm = iota + 1
	figureNumber
	figureText
	figureSaid // what the firm says of it
	figureAmount
)

// figures lays out what the client may type: the cost of a week on site, and
// what each qualification is worth. The command reads them back by the headings of
// package offer. All else on the sheet is locked against slips.
func (l *comparing) figures() {
	p := l.page(offer.FiguresSheet, "The client's figures", say("figures"), 30, 8, 80, 18, 18)
	p.Locked = true
	all := func(name, help string, c grid.Cell) string {
		n := p.add(words(name, wrapped), grid.Cell{}, words(help, past), grid.Cell{}, c)
		p.merge(n, figureFirm, figureNumber)
		return p.cell(figureAmount, n)
	}
	week := open(moneyFormat)
	if !l.Terms.Week.IsZero() {
		week = typedOpen(l.Terms.Week.Decimal(), moneyFormat)
	}
	p.add(heads("For all offers", "", "", "", ">"+l.sign)...)
	l.week = all(offer.AskWeek, say("week"), week)
	p.Bounds = append(p.Bounds, l.moneyOnly(at(figureAmount, p.next()-1)))
	l.held = all("Contingency that you hold", say("held"), sum(l.Sent.Contingency, plain))
	p.gap()

	p.add(heads("Weeks on site", "", "", "", ">Weeks")...)
	if w := l.Sent.Weeks; w.Known {
		p.add(words("Programme of the bill", plain), grid.Cell{}, grid.Cell{}, grid.Cell{}, figure(w.Weeks, weeksFormat))
		l.programme = p.cell(figureAmount, p.next()-1)
	}
	for i, o := range l.Offers {
		c := words("not known", grid.Style{Top: true, Align: grid.Right})
		if o.WeeksTaken.Known {
			c = figure(o.WeeksTaken.Weeks, weeksFormat)
		}
		n := p.add(words(asText(o.Name), wrapped), words(itoa(i+1), centred(plain)), words(l.weeksHow(o), past), grid.Cell{}, c)
		if o.WeeksTaken.Known {
			l.taken[i] = p.cell(figureAmount, n)
		}
	}
	p.gap()
	l.qualified(p)
}

// weeksHow is where the weeks come from that an offer is compared at.
func (l *comparing) weeksHow(o quotes.Offer) string {
	switch {
	case o.Weeks.Known:
		return "as offered"
	case l.Sent.Weeks.Known:
		return say("weeks of programme")
	case o.WeeksTaken.Known:
		return say("weeks of others")
	}
	return say("weeks nowhere")
}

// qualified is the table of qualifications, each with an open amount.
func (l *comparing) qualified(p *page) {
	head := p.add(heads(offer.HeadFirm, "="+offer.HeadNumber, "<"+offer.HeadQualification, ">The firm says "+l.sign, ">"+bill.HeadAmount+" "+l.sign)...)
	from := p.next()
	for i, o := range l.Offers {
		left := ofKind(o, quotes.Qualified)
		for _, q := range o.Qualifications {
			c := open(signedFormat)
			if k := matching(left, q.Text); k >= 0 {
				c = typedOpen(left[k].Amount.Decimal(), signedFormat)
				left = append(left[:k:k], left[k+1:]...)
			}
			n := p.add(words(asText(o.Name), wrapped), words(itoa(q.Number), centred(plain)), words(asText(q.Text), beside), firmSays(q), c)
			l.given[i] = append(l.given[i], p.cell(figureAmount, n))
		}
	}
	if p.next() == from {
		p.add(words("No firm makes a qualification.", asCompare))
		return
	}
	p.Bounds = append(p.Bounds, l.moneyOnly(span(figureAmount, from, p.next()-1)))
	p.Print.Repeat = "$" + itoa(head) + ":$" + itoa(head)
}

// firmSays is what a qualification would add to the total or take off it, as the
// firm says: shown, and added to nothing.
func firmSays(q quotes.Qualification) grid.Cell {
	switch {
	case q.Worth.Is() || q.Worth.Plain:
		return figure(q.Worth.Value, signedFormat)
	case q.Worth.Text != "":
		return words(asText(q.Worth.Text), grid.Style{Top: true, Wrap: true, Align: grid.Right})
	}
	return grid.Cell{}
}

// typedOpen is an open cell that holds a figure already.
func typedOpen(d decimal.Decimal, format string) grid.Cell {
	s := blank
	s.Format = format
	return grid.Numeric(d, s)
}

func (l *comparing) moneyOnly(place string) grid.Bound {
	return grid.Bound{Range: place, Least: mostMoney.Neg(), Most: mostMoney,
		Title: "A sum of money", Prompt: "A number is wanted, without a sign of the currency; less than nought where it saves."}
}

// ofKind is the adjustments of one kind.
func ofKind(o quotes.Offer, k quotes.AdjustmentKind) []quotes.Adjustment {
	var out []quotes.Adjustment
	for _, a := range o.Adjustments {
		if a.Kind == k {
			out = append(out, a)
		}
	}
	return out
}

// matching is the first adjustment with a text, else -1.
func matching(all []quotes.Adjustment, text string) int {
	for k, a := range all {
		if sameText(a.Text, text) {
			return k
		}
	}
	return -1
}
