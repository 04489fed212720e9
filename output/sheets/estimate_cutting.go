package sheets

import (
	"cmp"
	"slices"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the cutting: the yield of each timber, how every stick is sawn,
// and the off-cuts.
const (
	cutStock = iota + 1
	cutTimes
	cutStick
	cutRef
	cutCount
	cutSize
	cutAlong
	cutAcross
	cutThrough
	cutWorth
)

// Columns of the table of yields, which shares the page with the cuts.
const (
	yieldTimber = cutStock
	yieldNet    = cutStick
	yieldSawn   = cutRef
	yieldBought = cutCount
	yieldShare  = cutSize
	yieldWaste  = cutAlong
	yieldCost   = cutAcross
	yieldLeast  = cutThrough
	yieldGap    = cutWorth
)

// What the least proven covers, as package order has it.
const proven = "The least is proven over every purchase of whole sticks from this stock, sawn through the thickness into layers, each layer into strips, each strip into lengths " +
	"and a length once more into pieces side by side, sawn curves nested; of logs sawn along into bands, each edged into strips and each strip cut to lengths; of crooks sawn through and through, like curves side by side; " +
	"and of timber by the cube. The pieces of a straight run whose row gives a Shortest piece and does not box the heart may be of any lengths the row allows, those of others are as long as they were taken off. " +
	"What rounding a line's purchase up for loss adds is counted as far as the search for the least numbers of sticks went, and beyond it every stick used at its price over the share kept. " +
	"Sticks that rows bound to them have by number are counted in both. A timber of which nothing is proven counts as nothing in the least of the order."

// cutting lays out how every stick is sawn, and what comes of the timber.
func (w *working) cutting() {
	if len(w.Plan.Order)+len(w.Plan.Maybe) == 0 {
		return
	}
	p := w.page(cuttingSheet, "Cutting: the yield of the timber, and how every stick is sawn",
		"Patterns, sizes and what is proven least are as priced; run again to choose anew. Off-cuts are stock in hand and credited to nobody: the rows bear the whole stick.",
		21, 6, 27, 9, 7, 29, 22, 10.5, 11, 8.5)
	w.yields(p)
	w.inHand(p)
	w.patterns(p)
	p.Print.Area = "$A$1:$J$" + itoa(p.next()-1)
}

// yields sums the order by timber, and sets its cost beside what it could not
// cost less than.
func (w *working) yields(p *page) {
	if len(w.Plan.Species) == 0 {
		return
	}
	costOf := map[string][]string{} // by timber
	for i, l := range w.Plan.Order {
		k := rates.Key(l.Stock.Timber)
		costOf[k] = append(costOf[k], w.ordered[i].cost)
	}
	p.add(heads("Timber of the order", "", ">In the ship m3", ">Sawn m3", ">Bought m3", ">Yield", ">Waste, added to what is in the ship", ">Cost "+w.sign, ">Proven least "+w.sign, ">Gap")...)
	from := p.next()
	var net, sawn, bought decimal.Decimal
	for _, s := range w.Plan.Species {
		n := p.next()
		row := w.yield(n, s.Net, s.Bought)
		row[yieldTimber-1] = words(s.Timber, plain)
		row[yieldNet-1], row[yieldSawn-1], row[yieldBought-1] = chosen(s.Net, "0.000"), chosen(s.Sawn, "0.000"), chosen(s.Bought, "0.000")
		row[yieldCost-1] = sumBy(addUp(costOf[rates.Key(s.Timber)]...), s.Cost, plain)
		w.proven(row, n, s.Bound, chosen(s.Bound.Least.Decimal(), moneyFormat))
		p.add(row...)
		net, sawn, bought = net.Add(s.Net), sawn.Add(s.Sawn), bought.Add(s.Bought)
	}
	n := p.next()
	row := w.yield(n, net, bought)
	row[yieldTimber-1] = words("The order", strong)
	row[yieldNet-1] = total(sumOf(yieldNet, from, n-1), net)
	row[yieldSawn-1] = total(sumOf(yieldSawn, from, n-1), sawn)
	row[yieldBought-1] = total(sumOf(yieldBought, from, n-1), bought)
	b := w.Plan.Bound
	row[yieldCost-1] = sumBy(sumOf(yieldCost, from, n-1), b.Cost, strong)
	w.proven(row, n, b, sumBy(sumOf(yieldLeast, from, n-1), b.Least, strong))
	w.yielded = yielded{bought: p.cell(yieldBought, n), cost: p.cell(yieldCost, n), boughtIs: bought}
	if share := row[yieldShare-1]; share.Formula != "" {
		w.yielded.share, w.yielded.shareIs = p.cell(yieldShare, n), share.Number
	}
	for i := range row {
		row[i].Style.Font, row[i].Style.Border = strong.Font, strong.Border
	}
	p.add(row...)
	p.merge(p.add(words(proven, remark)), 1, cutWorth)
	p.gap()
}

// yielded is where the timber bought, the share of it in the ship and its cost
// stand, of the order in all.
type yielded struct {
	bought, share, cost string
	boughtIs, shareIs   decimal.Decimal
}

// yield is a row of the table with net over bought, and the waste as what is
// added to the net.
func (w *working) yield(n int, net, bought decimal.Decimal) []grid.Cell {
	row := make([]grid.Cell, cutWorth)
	if bought.Sign() > 0 {
		row[yieldShare-1] = live("ROUND("+at(yieldNet, n)+"/"+at(yieldBought, n)+",3)", net.DivRound(bought, 16).Round(3), "0.0%")
	}
	if net.Sign() > 0 {
		row[yieldWaste-1] = live("ROUND("+at(yieldBought, n)+"/"+at(yieldNet, n)+"-1,3)", bought.DivRound(net, 16).Sub(decimal.New(1, 0)).Round(3), "0.0%")
	}
	return row
}

// proven completes a row with what its cost cannot be less than and the gap to
// it, or says that nothing is proven.
func (w *working) proven(row []grid.Cell, n int, b order.Bound, least grid.Cell) {
	if b.Least.IsZero() && b.Cost.Sign() > 0 {
		row[yieldLeast-1] = words("nothing proven", grid.Style{Top: true, Align: grid.Right, Font: solved.Font})
		return
	}
	row[yieldLeast-1] = least
	if b.Cost.Sign() > 0 {
		c := at(yieldCost, n)
		row[yieldGap-1] = live("ROUNDUP(ROUND(("+c+"-"+at(yieldLeast, n)+")/"+c+",10),4)", b.Gap.Fraction(), "0.00%")
	}
}

// leftOver is off-cuts of one stock line that are alike.
type leftOver struct {
	stock                    string
	thickness, width, length measure.Length
	pennies                  int64 // worth of one
}

// inHand lays out the off-cuts of the order worth putting by.
func (w *working) inHand(p *page) {
	count := map[leftOver]int{}
	var kept []leftOver
	var worth money.Amount
	for _, l := range w.Plan.Order {
		worth = worth.Add(l.InHand)
		from := len(kept)
		for _, pattern := range l.Patterns {
			for _, o := range pattern.Offcuts {
				k := leftOver{l.Stock.Stock, o.Thickness, o.Width, o.Length, o.Worth.Decimal().Shift(2).IntPart()}
				if count[k] == 0 {
					kept = append(kept, k)
				}
				count[k] += pattern.Times
			}
		}
		slices.SortStableFunc(kept[from:], func(a, b leftOver) int {
			return cmp.Or(cmp.Compare(b.thickness, a.thickness), cmp.Compare(b.width, a.width), cmp.Compare(b.length, a.length))
		})
	}
	if len(kept) == 0 {
		return
	}
	p.add(heads("Off-cuts in hand, of", ">Nr", "<Thickness x width x length", "", "", "", "", "", ">Worth, one "+w.sign, ">Worth "+w.sign)...)
	from := p.next()
	for _, k := range kept {
		n := decimal.New(int64(count[k]), 0)
		row := p.next()
		one := money.Pennies(k.pennies)
		p.add(words(k.stock, wrapped), chosen(n, countFormat), words(w.size3(k.thickness, k.width, k.length), grid.Style{Top: true, Indent: 1}), grid.Cell{}, grid.Cell{}, grid.Cell{}, grid.Cell{}, grid.Cell{}, chosen(one.Decimal(), moneyFormat),
			sumBy(rounded(at(cutTimes, row), at(cutThrough, row)), one.Times(n), plain))
	}
	row := blanks(cutWorth, strong)
	row[0] = words("In hand, no part of any price", strong)
	row[cutWorth-1] = sumBy(sumOf(cutWorth, from, p.next()-1), worth, strong)
	p.add(row...)
	p.gap()
}

func (w *working) size3(thickness, width, length measure.Length) string {
	return w.size(thickness) + " x " + w.size(width) + " x " + w.length(length)
}

// patterns lays out every way a stick is sawn, the cuts of equal pieces that lie in
// one line along the stick together.
func (w *working) patterns(p *page) {
	head := 0
	g := w.gallery(p)
	maybe := false
	for i, l := range append(w.Plan.Order[:len(w.Plan.Order):len(w.Plan.Order)], w.Plan.Maybe...) {
		if len(l.Patterns) == 0 {
			continue
		}
		if head == 0 {
			p.merge(p.add(words("Along is from the butt end after trimming, across from the lower edge with bark off, through up from the lower face; of a log both are from the pith, of a crook across is above the lowest of its layer. Left over is what is worth putting by.", remark)), 1, cutWorth)
			head = p.add(heads("Stock", ">Sticks", "<Stick", "Row", ">Pieces", "<Sawn thick x wide x long", "Along, each", ">Across", ">Through", ">Worth, one "+w.sign)...)
			p.Print.Repeat = "$" + itoa(head) + ":$" + itoa(head)
		}
		if i >= len(w.Plan.Order) && !maybe {
			maybe = true
			p.add(append([]grid.Cell{words("May be wanted, outside the total", band)}, blanks(cutWorth-1, band)...)...)
		}
		for _, pattern := range l.Patterns {
			from := p.next()
			w.pattern(p, l, pattern)
			g.hang(l, pattern)
			p.together(from, p.next()-1)
		}
	}
	g.paint()
}

func (w *working) pattern(p *page, l order.Line, pattern order.Pattern) {
	from := p.next()
	for _, c := range inLines(pattern.Cuts) {
		p.add(w.sawn(c.Ref, len(c.along), c)...)
	}
	for _, o := range pattern.Offcuts {
		row := w.sawn("left over", 1, line{Cut: order.Cut{Across: o.Across, Through: o.Through, Length: o.Length, Width: o.Width, Thickness: o.Thickness}, along: []measure.Length{o.Along}})
		p.add(append(row, chosen(o.Worth.Decimal(), moneyFormat))...)
	}
	stock := l.Stock.Stock
	if l.Carried != job.Measured {
		stock += may(l.Carried)
	}
	p.put(cutStock, from, words(stock, grid.Style{Top: true, Wrap: true, Font: grid.Font{Bold: true}}))
	p.put(cutTimes, from, chosen(decimal.New(int64(pattern.Times), 0), countFormat))
	p.put(cutStick, from, words(w.stickSize(l.Stock), beside))
	for col := range cutWorth {
		cells := p.Rows[from-1].Cells
		for len(cells) <= col {
			cells = append(cells, grid.Cell{Style: plain})
		}
		cells[col].Style.Border |= grid.Over
		p.Rows[from-1].Cells = cells
	}
}

// sawn is one line of a pattern, from the row on.
func (w *working) sawn(ref string, count int, c line) []grid.Cell {
	right := grid.Style{Top: true, Align: grid.Right, Font: solved.Font}
	var along []string
	for _, a := range c.along {
		along = append(along, w.length(a))
	}
	size := w.size3(c.Thickness, c.Width, c.Length)
	if c.Curve != nil {
		size += ", curved"
	}
	style := wrapped
	if ref == "left over" {
		style = remark
	}
	return []grid.Cell{{}, {}, {}, words(ref, style), chosen(decimal.New(int64(count), 0), countFormat), words(size, aside),
		words(strings.Join(along, "; "), grid.Style{Top: true, Wrap: true, Font: solved.Font}), words(w.size(c.Across), right), words(w.size(c.Through), right)}
}

// line is like cuts of one row that lie behind each other along the stick.
type line struct {
	order.Cut
	along []measure.Length
}

// inLines is the cuts of a stick in lines, from the lower face up, then from the
// lower edge, then along.
func inLines(cuts []order.Cut) []line {
	sorted := slices.Clone(cuts)
	slices.SortStableFunc(sorted, func(a, b order.Cut) int {
		return cmp.Or(cmp.Compare(a.Through, b.Through), cmp.Compare(a.Across, b.Across), cmp.Compare(a.Along, b.Along))
	})
	var out []line
	for _, c := range sorted {
		if n := len(out); n > 0 {
			b := &out[n-1]
			if b.Ref == c.Ref && b.Through == c.Through && b.Across == c.Across && b.Length == c.Length && b.Width == c.Width && b.Thickness == c.Thickness && (b.Curve == nil) == (c.Curve == nil) {
				b.along = append(b.along, c.Along)
				continue
			}
		}
		out = append(out, line{c, []measure.Length{c.Along}})
	}
	return out
}
