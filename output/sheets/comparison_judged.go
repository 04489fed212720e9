package sheets

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/templates/grid"
	"futtock/templates/wording"
)

// mostRates is how many rates that stand out are listed, the most money first.
const mostRates = 2000

// outOfLine lists the rates that stand out from the yardstick or the middle quote.
func (l *comparing) outOfLine() {
	const (
		firm = iota + 1
		item
		text
		amount
		unit
		rate
		than
		of
		share
		sign
		comes
	)
	p := l.page(ratesSheet, "Rates out of line", say("rates", "{above}", l.Terms.Above.String(), "{below}", l.Terms.Below.String()), 30, 10, 52, 10, 6, 13, 13, 14, 11, 4, 18)
	head := p.add(heads("Offer", "Item", "Description", ">Quantity", "=Unit", ">Rate "+l.sign, ">Beside "+l.sign, "<Of the", ">Ratio", "=", ">Amount levelled "+l.sign)...)
	p.repeat(head, head)
	for k, r := range l.Rates {
		if k == mostRates {
			n := p.add(words(fmt.Sprintf("and %s more, of less money each", many(len(l.Rates)-mostRates)), asCompare))
			p.merge(n, firm, text)
			break
		}
		row := p.next()
		cells := append(make([]grid.Cell, 0, comes), words(l.numbered(r.Offer), wrapped))
		cells = append(cells, l.fixed[r.Line]...)
		cells = append(cells, sum(r.Rate, told), sum(r.Beside, plain), words(r.Of, beside),
			live("ROUND("+at(rate, row)+"/"+at(than, row)+",3)", r.Ratio.Fraction(), shareOneTen), words(aboveOrBelow(r), signStyle),
			sumBy(l.own[r.Offer].cell(offerLevelled, l.plan.rows[r.Line]), r.Amount, plain))
		p.add(cells...)
	}
	if len(l.Rates) == 0 {
		p.add(words("No rate stands out.", asCompare))
		return
	}
	p.Filter = at(firm, head) + ":" + at(comes, p.next()-1)
}

// balance lays out what the order hangs on: when each offer is paid, and
// which quantities would turn the order if there were more of them.
func (l *comparing) balance() {
	const (
		firm = iota + 1
		item
		text
		levelled
		worth
		share
		rank
		middle
	)
	p := l.page(balanceSheet, "Balance", say("balance"), 34, 11, 54, 15, 15, 14, 14, 14, 14)
	l.stale(p, middle)
	p.add(heads("When it is paid", "", "", ">Levelled "+l.sign, ">Present value "+l.sign, ">Of levelled", ">Rank by it", ">Middle week")...)
	if len(l.Sent.Stages) == 0 {
		n := p.add(words(say("no programme"), asCompare))
		p.merge(n, firm, text)
	} else {
		for i, o := range l.Offers {
			row := p.next()
			cells := []grid.Cell{words(l.numbered(i), wrapped), {}, {}, sumBy(l.levelled[i], o.Levelled, plain), sum(o.Worth, asCompare),
				signedBlank(plain), figure(decimal.NewFromInt(int64(o.RankWorth)), "0"), words("not known", asCompare)}
			cells[share-1] = grid.Cell{}
			if o.Levelled.Sign() > 0 {
				cells[share-1] = live("ROUND("+at(worth, row)+"/"+at(levelled, row)+",4)", o.Worth.Decimal().DivRound(o.Levelled.Decimal(), 4), "0.00%")
			}
			if o.Middle.Known {
				cells[middle-1] = figure(o.Middle.Weeks, "0.0")
			}
			p.add(cells...)
		}
		n := p.add(words(say("worth", "{discount}", l.Terms.Discount.String()), remark))
		p.merge(n, firm, middle)
	}
	p.gap()
	l.swings(p)
}

// swings lists the lines of which more would cost much more with an offer than
// with the one behind it.
func (l *comparing) swings(p *page) {
	const (
		firm = iota + 1
		item
		text
		amount
		rate
		other
		extra
		turns
		gap
	)
	more := "ROUND(" + l.Terms.More.Fraction().String() + "*"
	p.add(heads("If there were more of it", "Item", "Description", ">Quantity", ">Rate "+l.sign, ">Rate of the next "+l.sign,
		">"+l.Terms.More.String()+" more costs more "+l.sign, ">Turns the order at more of", ">Gap between them "+l.sign)...)
	if len(l.Swings) == 0 {
		n := p.add(words(say("no swings"), asCompare))
		p.merge(n, firm, text)
		return
	}
	last := [2]int{-1, -1}
	for _, s := range l.Swings {
		a, b := &l.Offers[s.Offer], &l.Offers[s.Other]
		if pair := [2]int{s.Offer, s.Other}; pair != last {
			last = pair
			row := blanks(gap, band)
			row[0] = words(l.numbered(s.Offer)+"  is before  "+l.numbered(s.Other), band)
			row[gap-1] = sumBy(pennies(l.levelled[s.Other]+"-"+l.levelled[s.Offer]), b.Levelled.Sub(a.Levelled), band)
			p.add(row...)
		}
		row := p.next()
		r := &l.Rows[s.Line]
		cells := append(append(make([]grid.Cell, 0, gap), words("", plain)), l.fixed[s.Line][:lineQuantity]...)
		dearer := at(amount, row) + "*(" + at(rate, row) + "-" + at(other, row) + ")"
		cells = append(cells, sum(r.Cells[s.Offer].Rate.Amount, plain), sum(r.Cells[s.Other].Rate.Amount, plain), signed(more+dearer+",2)", s.Extra, plain))
		if s.Turns.Known {
			cells = append(cells, live("ROUNDUP(ROUND("+s.Turns.Amount.String()+"/("+dearer+"),10),3)", s.At.Fraction(), shareOneTen))
			cells[turns-1].Style.Fill, cells[turns-1].Style.Font.Bold = differs, true
		}
		p.add(cells...)
	}
}

// low lays out the published rule for prices so low that an explanation is
// asked for, in figures, and what it says of each offer.
func (l *comparing) low() {
	const (
		firm = iota + 1
		levelled
		limit
		below
		verdict
	)
	p := l.page(lowSheet, "Low prices", say("low"), 36, 17, 17, 17, 46)
	l.stale(p, verdict)
	tell := func(name, text string) {
		n := p.add(words(name, label), words(asText(text), grid.Style{Top: true, Wrap: true, Indent: 1}))
		p.merge(n, 2, verdict)
	}
	if l.Low.Source == "" {
		tell("Rule", say("no low rule"))
	} else {
		tell("Rule", l.Low.Source)
		tell("In figures", l.Low.Basis)
	}
	p.gap()
	p.add(heads("Offer", ">Levelled "+l.sign, ">Limit "+l.sign, ">Below the limit", "<")...)
	for i, o := range l.Offers {
		row := p.next()
		cells := []grid.Cell{words(l.numbered(i), wrapped), sumBy(l.levelled[i], o.Levelled, plain), {}, {}, {}}
		if l.Low.Applies {
			cells[limit-1] = sum(l.Low.Limit, asCompare)
			under := l.Low.Limit.Sub(o.Levelled)
			if under.Sign() < 0 {
				under = under.Sub(under)
			}
			cells[below-1] = sumBy("MAX(0,ROUND("+at(limit, row)+"-"+at(levelled, row)+",2))", under, plain)
			cells[verdict-1] = words("not so low", beside)
			if l.Low.Low[i] {
				cells[verdict-1] = words("! ask for an explanation; no offer is rejected by this", grid.Style{Top: true, Wrap: true, Indent: 1, Fill: differs, Font: grid.Font{Bold: true}})
			}
		}
		p.add(cells...)
	}
}

// notes says how the workbook is read, and the cautions.
func (l *comparing) notes() {
	p := newPage(readSheet, 12, 120)
	p.Print.FitWidth = true
	l.pages[readSheet] = p
	p.add(words("How to read the comparison", title))
	p.add(words(asText(l.Sent.Vessel+", tender "+l.Sent.Reference), subtitle))
	p.gap()
	part := func(head string, paragraphs []string) {
		p.add(words(head, band), grid.Cell{Style: band})
		for i, text := range paragraphs {
			p.add(words(itoa(i+1), label), words(text, grid.Style{Top: true, Wrap: true, Indent: 1}))
		}
		p.gap()
	}
	part("The four figures", wording.Comparison("four figures"))
	part("The sheets", wording.Comparison("sheets"))
	p.add(words("Signs", band), grid.Cell{Style: band})
	for _, s := range []struct{ sign, means string }{
		{signCorrected, "corrected"}, {signSilent, "silent"}, {signExcluded, "excluded"}, {signOwner, "by owner"}, {signElsewhere, "included"},
		{signLump, "lump"}, {signAbove + "  " + signBelow, "above and below"}, {"!", "ask"},
	} {
		p.add(words(s.sign, signStyle), words(say(s.means), grid.Style{Top: true, Wrap: true, Indent: 1}))
	}
	p.gap()
	part("The rules that were chosen", l.rules())
	part("Cautions", wording.Comparison("cautions"))
}
