package sheets

import (
	"slices"
	"strings"

	"futtock/estimate/bill"
	"futtock/estimate/job"
	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the make-up.
const (
	makeRow = iota + 1
	makeKind
	makeName
	makeQuantity
	makeUnit
	makeRate
	makeCost
	makeOverheadRate
	makeOverheads
	makeProfitRate
	makeProfit
	makeSum
	makeDifference
	makeNote
)

// betweenItems is the height of the row that parts two items, in points.
const betweenItems = 6

// itemRows says where the figures of an item stand in the make-up.
type itemRows struct {
	head, sum, billed int // rows
	carrying          int // row billed with its share of the contingency; billed itself where there is none
	share             int // row of the share, 0 for none
}

// makeUp lays out every item: its cost lines, the kinds with their additions,
// the sum, the rate and the amount.
func (w *working) makeUp() {
	p := w.page(makeUpSheet, "Make-up of every rate", "Cost lines of an item stand together and are summed by kind. Overheads are on cost, profit on cost and overheads. "+
		"The rate is the sum over the billed quantity, rounded; the pennies between amount and sum are kept in Reconciliation.",
		7, 10, 24, 9, 5, 10, 11, 7, 10.5, 7, 9.5, 12, 6, 20.5)
	head := p.add(heads("Row", "Kind", "Cost", ">Quantity", "=Unit", ">Rate "+w.sign, ">Cost "+w.sign, ">Over- heads", ">Overheads "+w.sign, ">Profit", ">Profit "+w.sign,
		">Sum "+w.sign, ">Differ- ence", "<Note")...)
	p.repeat(head, head)
	section := ""
	for i, item := range w.Priced.Items {
		if k := rates.Key(item.Section); k != section {
			section = k
			s, _ := w.Job.Section(item.Section)
			row := blanks(makeNote, heading)
			row[0], row[1] = words(s.Section, heading), words(s.Title, heading)
			n := p.add(row...)
			p.merge(n, makeKind, makeName)
			w.leadsBack(p, n, makeKind, s.Section)
			w.firstOf[k] = p.cell(makeRow, p.next())
		}
		w.item(p, i)
	}
	p.Print.Area = "$A$1:$N$" + itoa(p.next()-1)
}

// item lays out one item.
func (w *working) item(p *page, i int) {
	item := w.Priced.Items[i]
	rows := itemRows{head: p.next()}
	row := blanks(makeNote, band)
	style := band
	style.Wrap, style.Top = true, true
	row[0], row[makeKind-1], row[makeNote-1] = words(item.Ref, style), words(item.Description, style), words(standing(item), style)
	p.add(row...)
	p.merge(rows.head, makeKind, makeDifference)
	p.lead(makeRow, rows.head, w.pages[memberSheet].cell(memRef, w.measured[item.Rows[0].Ref].line))
	for _, r := range item.Rows {
		w.pages[memberSheet].lead(memRef, w.measured[r.Ref].line, p.cell(makeRow, rows.head))
	}

	lines := w.costLines(p, i)
	// Its heading is not parted from its first line, nor its last from its sum.
	first, last := rows.head+1, p.next()-1
	rows.sum = w.kinds(p, item, lines)

	w.billing(p, &rows, item)
	if first < last {
		p.together(rows.head, first)
		p.together(last, p.next()-1)
	} else {
		p.together(rows.head, p.next()-1)
	}
	p.gap()
	p.Rows[p.next()-2].Height = betweenItems
	w.items = append(w.items, rows)
}

// standing is what sets an item apart from measured work in the total.
func standing(i price.Item) string {
	var notes []string
	if i.Carried != job.Measured {
		notes = append(notes, string(i.Carried))
	}
	if i.OwnerTimber {
		notes = append(notes, "timber by owner")
	}
	return strings.Join(notes, "; ")
}

// costGroup is the cost lines of one kind, which stand together; bare lines,
// that bear no additions, are a group of their own.
type costGroup struct {
	kind     rates.Kind
	bare     bool
	from, to int
	sum      money.Amount
}

// costLines lays out the cost lines of an item by kind, and within a kind by
// row of the schedule.
func (w *working) costLines(p *page, i int) []costGroup {
	item := w.Priced.Items[i]
	order := make([]int, len(item.Costs))
	for k := range order {
		order[k] = k
	}
	place := func(c price.Cost) int {
		if c.Bare {
			return len(rates.Kinds())
		}
		return slices.Index(rates.Kinds(), c.Kind)
	}
	slices.SortStableFunc(order, func(a, b int) int { return place(item.Costs[a]) - place(item.Costs[b]) })
	nth := map[shareKey]int{}
	// The plan numbers the shares of a row and stock in its own order, which is that of the cost lines.
	number := make([]int, len(item.Costs))
	for k, c := range item.Costs {
		key := shareKey{c.Ref, rates.Key(c.Name), 0}
		number[k] = nth[key]
		nth[key]++
	}
	var groups []costGroup
	from := p.next()
	for _, k := range order {
		c := item.Costs[k]
		if n := len(groups); n == 0 || groups[n-1].bare != c.Bare || !c.Bare && groups[n-1].kind != c.Kind {
			groups = append(groups, costGroup{kind: c.Kind, bare: c.Bare, from: p.next()})
		}
		g := &groups[len(groups)-1]
		g.to, g.sum = p.next(), g.sum.Add(c.Cost)
		w.costLine(p, costKey{i, k}, c, number[k])
	}
	p.fold(from, p.next()-1, 1)
	return groups
}

// costLine lays out one cost line: round(quantity x rate, 2), and not under the
// least charge where there is one.
func (w *working) costLine(p *page, key costKey, c price.Cost, nth int) {
	n := p.next()
	w.quantityOf[key] = p.cell(makeQuantity, n)
	amount := rounded(at(makeQuantity, n), at(makeRate, n))
	quantity, rate, note := figure(c.Quantity, asFine(c.Quantity, 3)), grid.Cell{}, words(strings.Replace(c.Note, "share by", "by", 1), aside)
	switch w.sourceOf(c) {
	case fromHours:
		quantity = live(w.lineHours(c.Ref, c.Name), c.Quantity, hoursFormat)
		rate = live(w.trades.of("trade", c.Name), c.Rate.Decimal(), priceFormat)
	case fromTimber:
		share, ok := w.shares[shareKey{c.Ref, rates.Key(c.Name), nth}]
		if !ok {
			panic("sheets: row " + c.Ref + " bears " + c.Name + " and has no share of it")
		}
		rate = live(share, c.Rate.Decimal(), priceFormat)
	case fromFastening:
		quantity = live(w.fastening(c), c.Quantity, asFine(c.Quantity, 3))
		rate = live(w.materials.of("material", c.Name), c.Rate.Decimal(), priceFormat)
	case fromBuildUp:
		quantity = live(w.asked[key], c.Quantity, "#,##0.000")
		switch c.Asked[0].BuildUp.Part {
		case rates.MaterialPart:
			rate = live(w.materials.of("material", c.Name), c.Rate.Decimal(), priceFormat)
		case rates.PlantPart:
			rate = live(w.plants.of("plant", c.Name), c.Rate.Decimal(), priceFormat)
		default:
			rate = live(w.subcontract.of("work", c.Name), c.Rate.Decimal(), priceFormat)
			least := "ROUND(" + w.least.of("work", c.Name) + ",2)"
			amount = "IF(" + amount + "<" + least + "," + least + "," + amount + ")"
		}
	case fromRow:
		rate = typed(c.Rate.Decimal(), priceFormat)
		if c.Note == "" {
			note = w.place(c.RateAt)
		}
	}
	p.add(words(c.Ref, plain), words(string(c.Kind), plain), words(c.Name, wrapped), quantity, unitCell(c.Unit), rate, sumBy(amount, c.Cost, plain),
		grid.Cell{}, grid.Cell{}, grid.Cell{}, grid.Cell{}, grid.Cell{}, grid.Cell{}, note)
}

func (w *working) lineHours(ref, trade string) string {
	at, ok := w.lines[lineKey{ref, rates.Key(trade)}]
	if !ok {
		panic("sheets: row " + ref + " is priced for hours of " + trade + " it does not have")
	}
	return at
}

// kinds lays out each kind of cost with its additions and their sum, and
// returns the row of the sum.
func (w *working) kinds(p *page, item price.Item, groups []costGroup) int {
	from := p.next()
	var cost, overheads, profit money.Amount
	for _, g := range groups {
		n := p.next()
		row := make([]grid.Cell, makeNote)
		row[makeKind-1] = words(string(g.kind), plain)
		cost = cost.Add(g.sum)
		if g.bare {
			row[makeName-1] = words("bears no additions", remark)
			row[makeCost-1] = sumBy(sumOf(makeCost, g.from, g.to), g.sum, plain)
			row[makeSum-1] = sumBy(at(makeCost, n), g.sum, plain)
			p.add(row...)
			continue
		}
		k := price.Kind{Kind: g.kind, Cost: g.sum, OverheadsPercent: w.Job.Addition(g.kind).Overheads, ProfitPercent: w.Job.Addition(g.kind).Profit}
		for _, known := range item.Kinds { // there is none where the kind costs nothing
			if known.Kind == g.kind {
				k = known
			}
		}
		overheads, profit = overheads.Add(k.Overheads), profit.Add(k.Profit)
		row[makeName-1] = words("with overheads and profit", remark)
		copy(row[makeCost-1:], w.costed(n, makeCost, sumOf(makeCost, g.from, g.to), k))
		row[makeSum-1] = sumBy(at(makeCost, n)+"+"+at(makeOverheads, n)+"+"+at(makeProfit, n), k.Sum, plain)
		p.add(row...)
	}
	to := p.next() - 1
	row := blanks(makeNote, strong)
	row[makeKind-1] = words("Sum", strong)
	for _, c := range []struct {
		col int
		sum money.Amount
	}{{makeCost, cost}, {makeOverheads, overheads}, {makeProfit, profit}, {makeSum, item.Sum}} {
		row[c.col-1] = sumBy(pennies(sumOf(c.col, from, to)), c.sum, strong)
	}
	return p.add(row...)
}

// billing lays out the rate and amount of an item, with its share of a
// contingency within the rates after them.
func (w *working) billing(p *page, rows *itemRows, item price.Item) {
	billed := func(text, sum string, rate, amount money.Amount) int {
		n := p.next()
		count := w.billedQuantity(item)
		if rows.billed > 0 {
			count = live(at(makeQuantity, rows.billed), item.Quantity, count.Style.Format)
		}
		return p.add(grid.Cell{}, words(text, plain), grid.Cell{}, count, unitCell(item.Unit),
			sumBy("ROUND("+sum+"/"+at(makeQuantity, n)+",2)", rate, plain), grid.Cell{}, grid.Cell{}, grid.Cell{}, grid.Cell{}, grid.Cell{},
			sumBy(rounded(at(makeQuantity, n), at(makeRate, n)), amount, grid.Style{Top: true, Font: grid.Font{Bold: true}}))
	}
	sum, difference := at(makeSum, rows.sum), item.Difference
	rows.billed = billed("Billed", sum, item.Rate, item.Amount)
	rows.carrying = rows.billed
	if w.within && item.Carried.InTotal() {
		rows.share = p.add(grid.Cell{}, words("Share of the contingency", plain))
		sum += "+" + at(makeSum, rows.share)
		line, reconciled := w.carries(item.Ref)
		rows.carrying = billed("Billed with its share", "("+sum+")", line.Rate, line.Amount)
		difference = reconciled.Difference
	}
	p.put(makeDifference, rows.carrying, sumBy(pennies(at(makeSum, rows.carrying)+"-("+sum+")"), difference, plain))
}

// billedQuantity is the quantity of an item: what its rows are measured at in
// Members, rounded to the places of the unit, or as it was typed.
func (w *working) billedQuantity(i price.Item) grid.Cell {
	c := quantity(i.Quantity, i.Unit)
	if dim := i.Unit.Dimension(); !i.QuantityAt.IsZero() || dim == measure.Item || dim == measure.Sum {
		return c
	}
	var total measure.Quantity
	var runs []memberRun
	typed := true
	for _, work := range i.Rows {
		m := w.measured[work.Ref]
		col, unit := w.driverCell(m, i.QuantityBy)
		q, _ := m.row.Amount(i.QuantityBy)
		if item := m.row.Item; item != nil {
			q = measure.Of(item.Quantity, item.Unit)
		}
		typed = typed && m.row.Item != nil && unit == i.Unit
		total, runs = total.Add(q), lengthened(runs, col, m.line, unit)
	}
	var parts []string
	for _, r := range runs {
		parts = append(parts, convert(w.pages[memberSheet].sum(r.col, r.from, r.to), r.unit, i.Unit))
	}
	formula, places := addUp(parts...), i.Unit.Places()
	switch {
	case typed && len(i.Rows) == 1:
		return live(formula, i.Quantity, c.Style.Format)
	case typed: // the rounding takes off the noise of binary fractions
		return live("ROUND("+formula+",9)", i.Quantity, c.Style.Format)
	case total.In(i.Unit, places).Equal(i.Quantity):
		// The inner rounding takes off the noise of binary fractions and of lengths
		// that go into no decimal, so that a half is not dropped.
		return live("ROUND(ROUND("+formula+",9),"+itoa(int(places))+")", i.Quantity, c.Style.Format)
	}
	return c // too little to be seen at the places of its unit, and never rounded to nil
}

// memberRun is rows of the sheet of members that stand together, and a column of
// theirs in one unit.
type memberRun struct {
	col, from, to int
	unit          measure.Unit
}

// lengthened is runs with one more row, in the last of them where it goes on.
func lengthened(runs []memberRun, col, line int, unit measure.Unit) []memberRun {
	if n := len(runs) - 1; n >= 0 && runs[n].col == col && runs[n].unit == unit && runs[n].to == line-1 {
		runs[n].to = line
		return runs
	}
	return append(runs, memberRun{col, line, line, unit})
}

// carries is an item in the total as the bill has it, and its reconciliation.
func (w *working) carries(ref string) (bill.Line, bill.Reconciled) {
	for _, s := range w.Bill.Sections {
		for _, l := range s.Lines {
			if l.Ref == ref {
				for _, r := range w.Bill.Reconciled {
					if r.Ref == ref {
						return l, r
					}
				}
			}
		}
	}
	panic("sheets: item " + ref + " is in the total and not in the bill")
}
