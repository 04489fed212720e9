package sheets

import (
	"fmt"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the timber bought: the purchase, and the sharing of its cost by
// running totals.
const (
	timName = iota + 1
	timText
	timNeeded
	timLoss
	timBuy
	timUnit
	timEach
	timCost
	timSawn
	timRun
	timUpTo
	timShare
)

// shareKey is what a row bears of a stock line for one section; nth tells the
// sections of one row and stock apart, in the order of the plan.
type shareKey struct {
	ref, stock string
	nth        int
}

// timber lays out every stock line bought, with the sections cut from it and
// the rows that bear their cost. Shares are taken by running totals,
//
//	round(C (V1+...+Vi) / V, 2) - round(C (V1+...+Vi-1) / V, 2)
//
// so that no penny is lost.
func (w *working) timber() {
	if len(w.Plan.Order)+len(w.Plan.Maybe) == 0 {
		return
	}
	p := w.page(timberSheet, "Timber bought", "Sticks needed and sawn volumes are as priced; run again to choose anew. "+
		"The cost of a line goes to the sections cut from it by sawn volume, and that of a section to the rows that have it.",
		20, 37, 8.5, 7, 8, 5, 10.5, 11, 10, 10, 11.5, 11)
	head := p.add(heads("Stock or row", "", ">Needed", ">Loss", ">Buy", "=Unit", ">Each "+w.sign, ">Cost "+w.sign, ">Sawn m3", ">Running m3", ">Up to "+w.sign, ">Share "+w.sign)...)
	p.repeat(head, head)
	p.Above = true
	shares := w.sharesBySection()
	for _, l := range w.Plan.Order {
		w.ordered = append(w.ordered, w.bought(p, l, shares))
	}
	if len(w.Plan.Maybe) > 0 {
		row := blanks(timShare, band)
		row[0] = words("May be wanted, outside the total", band)
		p.add(row...)
		p.gap()
	}
	for _, l := range w.Plan.Maybe {
		w.bought(p, l, shares)
	}
	p.Print.Area = "$A$1:$L$" + itoa(p.next()-1)
}

// sectionKey is one section of one stock line, bought for the order or for one
// kind of row outside it.
type sectionKey struct {
	stock            string
	carried          job.Carried
	thickness, width measure.Length
	bound            bool
}

func keyOf(l order.Line, s order.Section) sectionKey {
	return sectionKey{rates.Key(l.Stock.Stock), l.Carried, s.Thickness, s.Width, s.Bound}
}

// sharesBySection is the plan's shares by the section they are a part of, each
// with its place among those of its row and stock.
func (w *working) sharesBySection() map[sectionKey][]numbered {
	out := map[sectionKey][]numbered{}
	count := map[shareKey]int{}
	for _, s := range w.Plan.Shares {
		carried := w.rowOf(s.Ref).Work.Carried
		if carried == "" || carried.InTotal() {
			carried = job.Measured
		}
		k := sectionKey{rates.Key(s.Stock), carried, s.Thickness, s.Width, s.Bound}
		row := shareKey{s.Ref, rates.Key(s.Stock), 0}
		out[k] = append(out[k], numbered{s, count[row]})
		count[row]++
	}
	return out
}

type numbered struct {
	order.Share
	nth int
}

// orderedCells is where the figures of a stock line stand on the sheet of the timber bought.
type orderedCells struct{ buy, each, cost string }

// bought lays out one stock line and returns where its figures stand.
func (w *working) bought(p *page, l order.Line, shares map[sectionKey][]numbered) orderedCells {
	n := p.next()
	s := l.Stock
	row := blanks(timShare, grid.Style{Top: true, Font: grid.Font{Bold: true}, Border: grid.Over})
	bold := row[0].Style
	set := func(col int, c grid.Cell) {
		c.Style.Border |= grid.Over
		row[col-1] = c
	}
	set(timName, words(s.Stock, bold))
	set(timText, words(fmt.Sprintf("%s, %s%s", s.Timber, s.Form, may(l.Carried)), wrapped))
	set(timNeeded, chosen(l.Needed, asFine(l.Needed, 6)))
	needed := at(timNeeded, n)
	if !inspected(s.Form) {
		set(timLoss, live(w.losses.of("stock", s.Stock), s.Loss.Fraction(), percentFormat(s.Loss)))
		needed += "/(1-" + at(timLoss, n) + ")"
	}
	places := int32(0)
	if s.Form == rates.Cube {
		places = s.Unit.Places()
	}
	// The inner rounding is the engine's, and takes off the noise of binary
	// fractions, so that a whole stick is not brought up to the next.
	set(timBuy, live("ROUNDUP(ROUND("+needed+",6),"+itoa(int(places))+")", l.Buy, asFine(l.Buy, places)))
	set(timUnit, unitCell(l.BuyUnit()))
	if s.Form == rates.Cube {
		c := w.cubes[rates.Key(s.Stock)]
		each := "(" + c.delivery + "+" + c.sawing + "*" + c.measure
		if !s.ByOwner {
			each += "+" + c.price
		}
		set(timCost, sumBy(rounded(at(timBuy, n), each+")"), l.Cost, bold))
	} else {
		set(timEach, sumBy(w.sticks.of("stock", s.Stock), l.Each, plain))
		set(timCost, sumBy(rounded(at(timBuy, n), at(timEach, n)), l.Cost, bold))
	}
	p.add(row...)

	from := p.next()
	weights, parts := []decimal.Decimal{}, []money.Amount{}
	for _, c := range l.Sections {
		weights, parts = append(weights, c.Sawn), append(parts, c.Cost)
	}
	for i, c := range w.shared(p, at(timCost, n), weights, parts) {
		p.add(append([]grid.Cell{{}, words("section "+w.section(l.Sections[i]), wrapped), {}, {}, {}, {}, {}, {}}, c...)...)
	}
	p.fold(from, p.next()-1, 1)
	below := p.next()
	for i, c := range l.Sections {
		among := shares[keyOf(l, c)]
		weights, parts := []decimal.Decimal{}, []money.Amount{}
		for _, a := range among {
			weights, parts = append(weights, a.Sawn), append(parts, a.Cost)
		}
		first, all := p.next(), decimal.Zero
		for _, a := range among {
			all = all.Add(a.Sawn)
		}
		if all.Equal(c.Sawn) && !all.IsZero() {
			p.put(timSawn, from+i, live("ROUND("+sumOf(timSawn, first, first+len(among)-1)+",6)", c.Sawn, volumeFormat))
		}
		for k, cells := range w.shared(p, at(timShare, from+i), weights, parts) {
			r := w.rowOf(among[k].Ref)
			text := ""
			if r.Member != nil {
				text = named(r.Member)
			}
			w.shares[shareKey{r.Work.Ref, rates.Key(s.Stock), among[k].nth}] = p.cell(timShare, p.next())
			p.add(append([]grid.Cell{words("   "+r.Work.Ref, plain), words("   "+text+", "+w.sectionSizes(c), wrapped), {}, {}, {}, {}, {}, {}}, cells...)...)
		}
	}
	p.fold(below, p.next()-1, 2)
	p.together(n, min(n+len(l.Sections), p.next()-1))
	p.gap()
	return orderedCells{p.cell(timBuy, n), p.cell(timEach, n), p.cell(timCost, n)}
}

func may(c job.Carried) string {
	if c.InTotal() {
		return ""
	}
	return ", for work carried as " + string(c)
}

// shared is the rows of a cost shared by weights: the weight, its running
// total, the cost up to there, and the share. It is laid out from the next row of the page.
func (w *working) shared(p *page, cost string, weights []decimal.Decimal, parts []money.Amount) [][]grid.Cell {
	var all decimal.Decimal
	for _, v := range weights {
		all = all.Add(v)
	}
	if all.IsZero() { // too little timber to weigh: by equal parts
		for i := range weights {
			weights[i] = decimal.New(1, 0)
		}
	}
	from := p.next()
	last := from + len(weights) - 1
	var run decimal.Decimal
	var upTo money.Amount
	var out [][]grid.Cell
	for i, v := range weights {
		n := from + i
		run, upTo = run.Add(v), upTo.Add(parts[i])
		running, share := at(timSawn, n), at(timUpTo, n)
		if i > 0 {
			running, share = at(timRun, n-1)+"+"+running, pennies(share+"-"+at(timUpTo, n-1))
		}
		out = append(out, []grid.Cell{
			chosen(v, volumeFormat), live(running, run, volumeFormat),
			sumBy("ROUND("+cost+"*"+at(timRun, n)+"/"+at(timRun, last)+",2)", upTo, plain), sumBy(share, parts[i], plain),
		})
	}
	return out
}

func (w *working) section(s order.Section) string {
	text := w.sectionSizes(s) + " " + string(w.units.size) + " sawn"
	if s.Bound {
		text += ", bound to this stock"
	}
	return text
}

// sectionSizes is the sizes of a section, as the line that heads it has them.
func (w *working) sectionSizes(s order.Section) string {
	unit := w.units.size
	return s.Thickness.In(unit, 2).String() + " x " + s.Width.In(unit, 2).String()
}
