package sheets

import (
	"fmt"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/quotes"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the first table of the summary.
const (
	sumNumber = iota + 1
	sumFirm
	sumTendered
	sumCorrected
	sumNet
	sumLevelled
	sumRankWas
	sumRankIs
	sumMarks
	sumAbove
	sumBeside
	sumShare
	sumWeeks
	sumSay
)

// Columns of the second, from as tendered to levelled: the adjustments by kind
// begin behind the figure before value added tax.
const (
	stepTendered = sumTendered + iota
	stepErrors
	stepTax
	stepNet
	stepKinds
)

// fewBars is how many offers a page holds with all that is told of them; of more,
// each table and the picture has a page of its own.
const fewBars = 12

// kindsShown are the kinds of adjustment that move money, in their printed order.
func kindsShown() []quotes.AdjustmentKind { return quotes.AdjustmentKinds()[1:] }

// summary lays out the first sheet: an offer a row in the order given, how each
// comes from what was tendered to its levelled figure, the rules that were chosen, and a
// picture of the levelled figures.
func (l *comparing) summary() {
	p := l.page(summarySheet, "Comparison of quotes", say("summary"), 5, 36, 15, 15, 15, 15, 13, 13, 13, 15, 15, 15, 15, 26)
	n := len(l.Offers)
	first := p.next() + 1
	second := first + n + 1 + 3 // the yardstick, the note, a gap and the headings are between
	p.add(heads("", "Offer", ">As tendered "+l.sign, ">Corrected "+l.sign, ">Before VAT "+l.sign, ">Levelled "+l.sign, ">Rank before levelling", ">Rank after levelling",
		">Marks of 100", ">Above the lowest "+l.sign, ">Beside the yardstick "+l.sign, ">Beside the yardstick, of it", ">Weeks on site", "<To be asked")...)
	for i := range l.Offers {
		p.add(l.offerRow(i, first, first+n-1, second+i)...)
	}
	l.yardstickRow(p)
	l.changedNote(p, first, first+n-1)
	p.gap()
	if n > fewBars {
		p.Print.Breaks = append(p.Print.Breaks, p.next())
	}
	names := []string{"", "From as tendered to levelled", ">As tendered " + l.sign, ">Corrections " + l.sign, ">VAT taken out " + l.sign, ">Before VAT " + l.sign}
	for _, k := range kindsShown() {
		names = append(names, ">"+capital(string(k))+" "+l.sign)
	}
	p.add(heads(append(names, ">Levelled "+l.sign)...)...)
	if p.next() != second {
		panic(fmt.Sprintf("sheets: the second table of the summary begins in row %d and was planned for %d", p.next(), second))
	}
	for i := range l.Offers {
		p.add(l.stepRow(i, second+i, first+i)...)
	}
	p.gap()
	l.chosen(p)
	l.levelledChart(p, first-1, first, first+n)
}

// offerRow is one offer in the first table.
func (l *comparing) offerRow(i, from, to, steps int) []grid.Cell {
	o := &l.Offers[i]
	row := from + i
	l.levelled[i] = quoted(summarySheet) + "!" + at(sumLevelled, row)
	here := at(sumLevelled, row)
	all := func(col int) string { return absolute(at(col, from)) + ":" + absolute(at(col, to)) }
	lowest := o.Levelled
	for _, other := range l.Offers {
		if other.Levelled.Cmp(lowest) < 0 {
			lowest = other.Levelled
		}
	}
	strongly := grid.Style{Top: true, Font: grid.Font{Bold: true}}
	out := []grid.Cell{
		words(itoa(i+1), centred(plain)), words(asText(o.Name), wrapped),
		sumBy(l.own[i].tendered, o.AsTendered, plain), sumBy(l.own[i].corrected, o.Corrected, changedLook(o.Corrected, o.AsTendered)), sumBy(at(stepNet, steps), o.Net, plain),
		sumBy(at(stepKinds+len(kindsShown()), steps), o.Levelled, strongly),
		live("RANK("+at(sumNet, row)+","+all(sumNet)+",1)", decimal.NewFromInt(int64(o.RankBefore)), "0"),
		live("RANK("+here+","+all(sumLevelled)+",1)", decimal.NewFromInt(int64(o.RankAfter)), "0"),
		live("IF("+here+">0,ROUND(SMALL("+all(sumLevelled)+",COUNTIF("+all(sumLevelled)+`,"<=0")+1)/`+here+"*100,2),0)", o.Marks, marksFormat),
		sumBy(pennies(here+"-MIN("+all(sumLevelled)+")"), o.Levelled.Sub(lowest), plain),
		{}, {}, {}, {},
	}
	out[sumRankIs-1].Style.Font.Bold = true
	if y := l.Yardstick; y.Known {
		over := o.Levelled.Sub(y.Amount)
		out[sumBeside-1] = signed(pennies(here+"-"+l.yardstick), over, plain)
		if !y.Amount.IsZero() {
			out[sumShare-1] = live("ROUND(("+here+"-"+l.yardstick+")/"+l.yardstick+",3)", over.Decimal().DivRound(y.Amount.Decimal(), 3), signedShare)
		}
	}
	if o.Weeks.Known {
		out[sumWeeks-1] = figure(o.Weeks.Weeks, weeksFormat)
	} else {
		out[sumWeeks-1] = words("not said", grid.Style{Top: true, Align: grid.Right, Font: asCompare.Font})
	}
	out[sumSay-1] = l.asked(i)
	return out
}

// changedLook marks a figure that differs from the one it came from.
func changedLook(now, was money.Amount) grid.Style {
	if now.Equal(was) {
		return plain
	}
	return told
}

// asked is what is to be asked of an offer, at a glance.
func (l *comparing) asked(i int) grid.Cell {
	n := 0
	for _, f := range l.Offers[i].Findings {
		if f.Query != "" {
			n++
		}
	}
	text := itoa(n) + " queries"
	switch n {
	case 0:
		text = "no queries"
	case 1:
		text = "1 query"
	}
	if l.Low.Applies && l.Low.Low[i] {
		return words("! ask for an explanation of so low a price; "+text, grid.Style{Top: true, Wrap: true, Indent: 1, Fill: differs, Font: grid.Font{Bold: true}})
	}
	return words(text, beside)
}

// yardstickRow is the bill itself beside the offers.
func (l *comparing) yardstickRow(p *page) {
	row := blanks(sumSay, strong)
	row[sumFirm-1] = words("Yardstick: the bill itself", strong)
	if l.Yardstick.Known {
		row[sumLevelled-1] = sumBy(l.yardstick, l.Yardstick.Amount, strong)
	} else {
		row[sumFirm-1] = words("No yardstick: the bill bears no prices", strong)
	}
	if w := l.Sent.Weeks; w.Known {
		row[sumWeeks-1] = grid.Numeric(w.Weeks, grid.Style{Font: strong.Font, Border: strong.Border, Format: weeksFormat})
	}
	p.add(row...)
}

// changedNote says, once a figure is changed, what does not follow it.
func (l *comparing) changedNote(p *page, from, to int) {
	var total money.Amount
	for _, o := range l.Offers {
		total = total.Add(o.Levelled)
	}
	l.changed = p.cell(sumFirm, p.next())
	formula := "IF(ROUND(SUM(" + span(sumLevelled, from, to) + ")-" + total.Decimal().String() + `,2)=0,"",` + inFormula(say("stale")) + ")"
	n := p.add(grid.Cell{}, wordBy(formula, "", warning))
	p.merge(n, sumFirm, sumSay)
}

// stepRow is one offer in the second table.
func (l *comparing) stepRow(i, row, offer int) []grid.Cell {
	o := &l.Offers[i]
	out := []grid.Cell{
		words(itoa(i+1), centred(plain)), words(asText(o.Name), wrapped), sumBy(at(sumTendered, offer), o.AsTendered, plain),
		signed(pennies(at(sumCorrected, offer)+"-"+at(sumTendered, offer)), o.Corrected.Sub(o.AsTendered), changedLook(o.Corrected, o.AsTendered)),
		signed(pennies(at(stepNet, row)+"-"+at(sumCorrected, offer)), o.TaxOut.Neg(), plain),
		sumBy(l.own[i].net, o.Net, plain),
	}
	for _, k := range kindsShown() {
		cell, ok := l.adjusted[i][k]
		if !ok {
			out = append(out, signedBlank(plain))
			continue
		}
		out = append(out, signed(cell, totalOf(ofKind(*o, k)), plain))
	}
	strongly := grid.Style{Top: true, Font: grid.Font{Bold: true}}
	return append(out, sumBy(pennies("SUM("+at(stepNet, row)+":"+at(stepKinds+len(kindsShown())-1, row)+")"), o.Levelled, strongly))
}

// chosen says in words the rules that the comparison was made by.
func (l *comparing) chosen(p *page) {
	row := blanks(sumSay, band)
	row[sumFirm-1] = words("The rules that were chosen", band)
	p.add(row...)
	for _, text := range l.rules() {
		n := p.add(grid.Cell{}, words(text, wrapped))
		p.merge(n, sumFirm, sumSay)
	}
}

// rules are the rules chosen, each a sentence or two.
func (l *comparing) rules() []string {
	t := l.Terms
	out := []string{"Errors: " + t.Errors.Meaning(), "Gaps: " + t.Gaps.Meaning(), say("tax rule")}
	switch {
	case l.Low.Source == "":
		out = append(out, say("no low rule"))
	case !l.Low.Applies:
		out = append(out, "Low prices: "+l.Low.Source+"; "+l.Low.Basis+".")
	default:
		out = append(out, "Low prices: "+l.Low.Source+"; below "+l.sign+l.Low.Limit.Grouped()+" an explanation is asked for, and no offer is rejected.")
	}
	week := say("no week")
	if !t.Week.IsZero() {
		week = say("a week", "{week}", l.sign+t.Week.Grouped())
	}
	return append(out, week, say("limits", "{above}", t.Above.String(), "{below}", t.Below.String(), "{more}", t.More.String(), "{discount}", t.Discount.String()))
}

// levelledChart draws the levelled figures, and the yardstick's where there is one.
func (l *comparing) levelledChart(p *page, head, from, to int) {
	if !l.Yardstick.Known {
		to--
	}
	down := func(col int) string {
		return quoted(p.Name) + "!" + absolute(at(col, from)) + ":" + absolute(at(col, to))
	}
	p.gap()
	top := p.next()
	bottom := top + max(12, 2*(to-from+1)+5)
	if len(l.Offers) > fewBars {
		bottom = top + to - from + 6
		p.Print.Breaks = append(p.Print.Breaks, top)
	}
	for p.next() <= bottom {
		p.gap()
	}
	alt := make([]string, 0, len(l.Offers))
	for i, o := range l.Offers {
		alt = append(alt, l.numbered(i)+" "+o.Levelled.Grouped())
	}
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Stacked, FromNil: true, Title: "Levelled figures", Alt: "A bar for every offer as long as its levelled figure: " + strings.Join(alt, ", "),
		Of: down(sumFirm), InTitle: l.sign, Series: []grid.Series{{Name: quoted(p.Name) + "!" + absolute(at(sumLevelled, head)), Values: down(sumLevelled)}},
		Range: at(sumFirm, top) + ":" + at(sumShare, bottom),
	})
}
