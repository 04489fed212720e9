package pdf

import (
	"strconv"

	"futtock/estimate/quotes"
	"futtock/rates/money"
)

// inOrder is the order of the quotes before and after levelling, and their
// levelled figures as bars.
func (r *report) inOrder() {
	r.need(115) // for what the order is and the beginning of it
	r.begin("Order")
	switch len(r.Offers) {
	case 0:
		r.clause(reported("order none")...)
		return
	case 1:
		r.clause(reported("order one")...)
	default:
		r.clause(reported("order")...)
		table := r.table(column{head: "Place"}, column{head: "Nr"}, column{head: "Firm", share: 1}, column{head: r.money("Corrected"), align: pointed}, column{head: "Place before", align: centred},
			column{head: r.money("Levelled"), align: pointed}, column{head: r.money("Behind the lowest"), align: flush, wide: 24}, column{head: "Marks", align: pointed})
		table.band = "Order"
		for _, i := range r.ranked {
			o := r.Offers[i]
			marks := words(o.Marks.StringFixed(2), "")
			if o.Marks.IsZero() {
				marks = words("–", "")
			}
			table.add(plainRow, words(strconv.Itoa(o.RankAfter), ""), words(strconv.Itoa(i+1), ""), words(o.Name, ""), words(figures(o.Net), ""), words(strconv.Itoa(o.RankBefore), ""),
				words(figures(o.Levelled), ""), words(figures(o.Behind), ""), marks)
		}
		r.headed("Before and after levelling", table, "All figures are before value added tax.")
	}
	r.bars()
}

// Places in the chart of levelled figures, in mm.
const (
	barsFrom  = left + 50
	barsRest  = 30.0 // right of them
	barsDeep  = 3.6
	barsPitch = 6.2
	hatched   = 1.4 // between two lines of a hatch
)

// bars draws the levelled figures as bars from nil, lowest first, the bill
// before them with a line down from its end. What levelling added is hatched,
// what it took off is open.
func (r *report) bars() {
	most := r.Yardstick.Amount
	for _, o := range r.Offers {
		most = larger(most, larger(o.Net, o.Levelled))
	}
	if most.Sign() <= 0 {
		return
	}
	scale := (r.right - barsRest - barsFrom) / most.Decimal().InexactFloat64()
	long := func(a money.Amount) float64 { return max(0, a.Decimal().InexactFloat64()) * scale }
	r.need(float64(min(len(r.Offers)+1, 12))*barsPitch + 28)
	name := "Levelled figures" + r.inCurrency() + ", before value added tax"
	r.head(name)
	r.y += 1
	if r.Yardstick.Known {
		r.barRow("The bill itself", r.Yardstick.Amount)
		x, y := barsFrom+long(r.Yardstick.Amount), r.y+(barsPitch-barsDeep)/2
		r.boxed(barsFrom, y, x-barsFrom, pale)
		r.y += barsPitch
	}
	rows := r.ranked
	for len(rows) > 0 {
		n := min(len(rows), max(1, int((r.room()-12)/barsPitch)))
		if r.Yardstick.Known {
			r.dashes(barsFrom+long(r.Yardstick.Amount), r.y, float64(n)*barsPitch)
		}
		for _, i := range rows[:n] {
			o := r.Offers[i]
			r.barRow(r.numbered(i), o.Levelled)
			y := r.y + (barsPitch-barsDeep)/2
			r.split(y, long(o.Net), long(o.Levelled))
			r.y += barsPitch
		}
		if rows = rows[n:]; len(rows) > 0 {
			r.turn()
			r.head(name + " (continued)")
			r.y += 1
		}
	}
	r.y += 2
	r.barKey()
}

// inCurrency names the currency in a heading, where it is known.
func (r *report) inCurrency() string {
	if sign := r.money(""); sign != "" {
		return "," + sign
	}
	return ""
}

// barRow is the name before a bar and the figure behind it.
func (r *report) barRow(name string, a money.Amount) {
	s := cellText
	s.size = 7.8
	r.write(left, r.y+barsPitch/2+1, r.letters.shorten(r.clean(name), s, barsFrom-left-3), s)
	r.writeRight(r.right, r.y+barsPitch/2+1, figures(a), s)
}

// boxed is a bar filled and outlined.
func (r *report) boxed(x, y, w float64, fill colour) {
	if w <= 0 {
		return
	}
	r.put(mark{kind: tint, x: x, y: y, w: w, h: barsDeep, style: style{colour: fill}})
	r.put(mark{kind: frame, x: x, y: y, w: w, h: barsDeep, style: style{size: 0.2, colour: slate}})
}

// split is the bar of one quote: solid as far as it was offered, then hatched
// for what levelling added or open for what it took off.
func (r *report) split(y, net, levelled float64) {
	r.boxed(barsFrom, y, min(net, levelled), slate)
	from, to := barsFrom+min(net, levelled), barsFrom+max(net, levelled)
	if to-from < 0.3 {
		return
	}
	r.boxed(from, y, to-from, colour{0xFF, 0xFF, 0xFF})
	if levelled > net {
		r.hatch(from, y, to-from)
	}
}

// hatch fills a bar with slanting lines.
func (r *report) hatch(x, y, w float64) {
	for at := hatched - barsDeep; at < w; at += hatched {
		from, to := max(0, at), min(w, at+barsDeep)
		r.line(x+from, y+barsDeep-(from-at), to-from, -(to - from), style{size: 0.18, colour: slate})
	}
}

// dashes is a broken line down the chart.
func (r *report) dashes(x, y, h float64) {
	for at := 0.0; at < h; at += 2.4 {
		r.line(x, y+at, 0, min(1.5, h-at), style{size: 0.3, colour: slate})
	}
}

// barKey says what the bars mean.
func (r *report) barKey() {
	x := left
	small := cellNote.of(regular)
	say := func(text string) {
		r.write(x+10.5, r.y+barsDeep-0.8, text, small)
		x += 10.5 + r.letters.width(text, small) + 4
	}
	r.need(barsDeep + 4)
	r.boxed(x, r.y, 9, slate)
	say("as corrected")
	r.boxed(x, r.y, 9, colour{0xFF, 0xFF, 0xFF})
	r.hatch(x, r.y, 9)
	say("added by levelling")
	r.boxed(x, r.y, 9, colour{0xFF, 0xFF, 0xFF})
	say("taken off by levelling")
	if r.Yardstick.Known {
		r.boxed(x, r.y, 9, pale)
		say("the bill; a broken line at its end")
	}
	r.y += barsDeep + 4
}

// estimate sets the quotes beside the bill, whole and by section.
func (r *report) estimate() {
	r.need(105) // for what the estimate is and the table by it
	r.begin("Comparison with the estimate")
	if r.Yardstick.Known {
		r.clause(reported("estimate", "{book}", r.Sent.Book, "{sum}", r.sum(r.Yardstick.Amount))...)
	} else {
		r.clause(reported("estimate none")...)
	}
	if len(r.Offers) == 0 {
		return
	}
	if r.Yardstick.Known {
		table := r.table(numberColumn, column{head: "Firm", share: 1}, column{head: r.money("Levelled"), align: pointed}, column{head: r.money("Over the estimate"), align: pointed},
			column{head: "Over by", align: pointed})
		table.band = "Quotes and estimate"
		table.add(plainRow, cell{}, words("The estimate", ""), words(figures(r.Yardstick.Amount), ""), cell{}, cell{})
		for i, o := range r.Offers {
			table.add(plainRow, words(strconv.Itoa(i+1), ""), words(o.Name, ""), words(figures(o.Levelled), ""), words(signedFigures(o.Over), ""), words(signedPercent(o.OverPart), ""))
		}
		r.headed("Variance of each quote", table, "Before value added tax. A quote below the estimate has a minus.")
	}
	r.sections()
}

// signedPercent is a percentage to a tenth with a sign before it.
func signedPercent(p money.Percent) string {
	text := minus(p.Decimal().StringFixed(1)) + "\u00a0%"
	if p.Decimal().Sign() > 0 {
		text = "+" + text
	}
	return text
}

// sections is what each section comes to: the lowest and highest, then by firm.
func (r *report) sections() {
	said := reported("sections")
	elsewhere := false
	for _, s := range r.Sections {
		for _, w := range s.Within {
			elsewhere = elsewhere || w
		}
	}
	if elsewhere {
		said = append(said, reported("elsewhere")...)
	}
	if len(r.Offers) > 1 {
		columns := []column{{head: "Section", share: 1}}
		if r.Yardstick.Known {
			columns = append(columns, column{head: r.money("Estimate"), align: pointed})
		}
		columns = append(columns, column{head: r.money("Lowest"), align: flush, wide: 30}, column{head: r.money("Highest"), align: flush, wide: 30}, column{head: "Spread", align: pointed})
		table := r.table(columns...)
		table.band = "Lowest and highest by section"
		for _, s := range r.Sections {
			cells := []cell{words(capital(s.Title), "")}
			if r.Yardstick.Known {
				cells = append(cells, words(figures(s.Yardstick.Amount), ""))
			}
			spread := words("–", "")
			if s.Low.Sign() > 0 {
				spread = words(minus(s.Percent.Decimal().StringFixed(1))+"\u00a0%", "")
			}
			cells = append(cells, words(figures(s.Low), r.whose(s, s.Low)), words(figures(s.High), r.whose(s, s.High)), spread)
			table.add(plainRow, cells...)
		}
		r.headed("Lowest and highest by section", table, append(said, reported("spread")...)...)
		said = nil
	}
	var steps []step
	for _, s := range r.Sections {
		steps = append(steps, step{text: capital(s.Title), bill: words(figures(s.Yardstick.Amount), ""), by: r.levelledOf(s)})
	}
	steps = append(steps, step{kind: totalRow, text: "Levelled", bill: styled(figures(r.Yardstick.Amount), cellBold, 1),
		of: func(o quotes.Offer) cell { return styled(figures(o.Levelled), cellBold, 1) }})
	var bill *string
	if r.Yardstick.Known {
		name := "Estimate"
		bill = &name
	}
	r.sideBySide("By section and firm", steps, bill, said...)
}

// levelledOf is what a section comes to by offer.
func (r *report) levelledOf(s quotes.Spread) []cell {
	var out []cell
	for i, a := range s.Levelled {
		if s.Within[i] {
			out = append(out, styled("elsewhere", cellNote, 1))
			continue
		}
		out = append(out, words(figures(a), ""))
	}
	return out
}

// whose are the numbers of the firms that a section comes to so much with.
func (r *report) whose(s quotes.Spread, a money.Amount) string {
	const most = 4
	text, n, of := "", 0, 0
	for i, v := range s.Levelled {
		if s.Within[i] {
			continue
		}
		if of++; !v.Equal(a) {
			continue
		}
		if n++; n > most {
			continue
		}
		if text != "" {
			text += ", "
		}
		text += strconv.Itoa(i + 1)
	}
	if n > most && n == of {
		return "(all)"
	}
	if n > most {
		text += " and " + strconv.Itoa(n-most) + " more"
	}
	if text == "" {
		return ""
	}
	return "(" + text + ")"
}
