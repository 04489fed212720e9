package sheets

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/labour"
	"futtock/rates"
	"futtock/templates/grid"
)

// Columns of the hours.
const (
	hourRef = iota + 1
	hourTask
	hourBy
	hourDriver
	hourUnit
	hourEach
	hourAmount
	hourSetUp
	hourNorm
	hourLearning
	hourDifficulty
	hourAccess
	hourExact
	hourLine
)

// hours lays out the hours of every row and task, parted by trade and within
// that by stage, so that the hours of a trade, and of a trade in a stage, are sums
// of cells that stand together. What is outside the total stands last of each trade.
func (w *working) hours() {
	if len(w.Hours.Lines) == 0 {
		return
	}
	p := w.page(hourSheet, "Hours", "(set-up + norm x amount x learning) x difficulty x access, rounded once a row and trade. "+
		"Learning is as priced; run again to choose anew. Norms stand in Prices used, difficulty and access in Members.",
		8, 26, 20, 11, 6, 8, 11, 7, 8.5, 8.5, 7, 7, 10.5, 10)
	head := p.add(heads("Row", "Task", "Measured by", ">Driver", "=Unit", ">For one", ">Amount", ">Set-up", ">Norm", ">Learning", ">Diffi- culty", ">Access", ">Exact", ">Hours")...)
	p.repeat(head, head)
	places := labour.Places(&w.Book)
	lines := slices.Clone(w.Hours.Lines)
	slices.SortStableFunc(lines, func(a, b labour.Line) int {
		return cmp.Or(labour.Compare(places, a.Trade, b.Trade), cmp.Compare(w.stageOrder(a), w.stageOrder(b)))
	})
	var totals []grid.Cell
	var trades []string
	for at := 0; at < len(lines); {
		end := at
		for end < len(lines) && rates.Same(lines[end].Trade, lines[at].Trade) {
			end++
		}
		if cell, ok := w.trade(p, lines[at:end]); ok {
			totals, trades = append(totals, cell), append(trades, lines[at].Trade)
		}
		at = end
	}
	row := blanks(hourLine, band)
	row[0] = words("Hours in the total, by trade", band)
	p.add(row...)
	from := p.next()
	var all decimal.Decimal
	for i, t := range trades {
		row := append([]grid.Cell{grid.Cell{}, words(t, plain)}, make([]grid.Cell, hourLine-2)...)
		row[hourLine-1] = totals[i]
		all = all.Add(totals[i].Number)
		p.add(row...)
	}
	n := p.next()
	row = blanks(hourLine, strong)
	row[1] = words("All trades", strong)
	row[hourLine-1] = withFormat(grid.Reckoned(sumOf(hourLine, from, n-1), all, strong), hoursFormat)
	p.add(row...)
	w.allHours = p.cell(hourLine, n)
	p.Print.Area = "$A$1:$N$" + itoa(n)
}

func withFormat(c grid.Cell, format string) grid.Cell {
	c.Style.Format = format
	return c
}

// stageOrder is where a line's stage stands in the programme: after all stages
// where it is in none, and last of all where it is outside the total.
func (w *working) stageOrder(l labour.Line) int {
	if !l.Carried.InTotal() {
		return len(w.Job.Stages) + 1
	}
	for i, s := range w.Job.Stages {
		if rates.Same(s.Stage, l.Stage) {
			return i
		}
	}
	return len(w.Job.Stages)
}

// trade lays out the lines of one trade and returns its total, if it has any
// hours in the total.
func (w *working) trade(p *page, lines []labour.Line) (grid.Cell, bool) {
	row := blanks(hourLine, band)
	row[0] = words(lines[0].Trade, band)
	p.add(row...)
	var subtotals []string
	var total decimal.Decimal
	for at := 0; at < len(lines); {
		end, order := at, w.stageOrder(lines[at])
		from := p.next()
		var sum decimal.Decimal
		for end < len(lines) && w.stageOrder(lines[end]) == order {
			w.line(p, lines[end])
			sum = sum.Add(lines[end].Hours)
			end++
		}
		n := p.next()
		p.fold(from, n-1, 1)
		text := lines[0].Trade + ", " + lines[at].Stage
		switch {
		case order > len(w.Job.Stages):
			text = lines[0].Trade + ", outside the total"
		case order == len(w.Job.Stages):
			text = lines[0].Trade + ", in no stage of the programme"
		}
		row := blanks(hourLine, strong)
		row[1] = words(text, strong)
		row[hourLine-1] = withFormat(grid.Reckoned(sumOf(hourLine, from, n-1), sum, strong), hoursFormat)
		p.add(row...)
		if order <= len(w.Job.Stages) {
			subtotals, total = append(subtotals, atHours(n)), total.Add(sum)
		}
		if order < len(w.Job.Stages) {
			w.stageHours[lineKey{rates.Key(lines[at].Stage), rates.Key(lines[at].Trade)}] = p.cell(hourLine, n)
		}
		at = end
	}
	p.gap()
	return live(addUp(subtotals...), total, hoursFormat), len(subtotals) > 0
}

func atHours(row int) string { return at(hourLine, row) }

// line lays out the tasks of a row and trade; the hours stand on the first.
func (w *working) line(p *page, l labour.Line) {
	from := p.next()
	seen := cells{}
	for _, t := range l.Tasks {
		n := p.next()
		row := make([]grid.Cell, hourLine)
		row[hourRef-1] = w.toMember(l.Ref)
		m := w.measured[l.Ref]
		members := w.pages[memberSheet]
		row[hourDifficulty-1] = live(members.cell(memDifficulty, m.line), t.Difficulty, priceFormat)
		row[hourAccess-1] = live(members.cell(memAccess, m.line), t.Access, priceFormat)
		row[hourLearning-1] = chosen(t.Learning, exactFormat)
		if t.Norm.Task == "" {
			row[hourTask-1] = words("hours given in the row", remark)
			row[hourNorm-1] = typed(t.Given, hoursFormat)
			row[hourAmount-1] = figure(decimal.New(1, 0), countFormat)
		} else {
			row[hourTask-1], row[hourBy-1] = words(t.Norm.Task, wrapped), words(string(t.BuildUp.By), plain)
			row[hourDriver-1], row[hourUnit-1] = w.taken(l.Ref, t.BuildUp.By, t.Taken), unitCell(t.Taken.Unit)
			row[hourEach-1] = live(w.builds[t.BuildUp.At].each, t.BuildUp.Quantity, asFine(t.BuildUp.Quantity, 6))
			row[hourAmount-1] = live(at(hourDriver, n)+"*"+at(hourEach, n), t.Taken.Amount, "#,##0.000###")
			row[hourNorm-1] = live(w.norms.of("norm", t.Norm.Task), t.Norm.Hours, priceFormat)
			if !has(seen, t.Norm.Task) { // a set-up is borne once a row, by the first of its build-up
				row[hourSetUp-1] = live(w.setUps.of("norm", t.Norm.Task), t.SetUp, priceFormat)
				seen.set(t.Norm.Task, "")
			}
			if t.Norm.Place == rates.Bench {
				row[hourAccess-1] = words("bench", grid.Style{Top: true, Align: grid.Right, Font: grid.Font{Italic: true, Colour: grey}})
			}
		}
		access := "*" + at(hourAccess, n)
		if row[hourAccess-1].Kind == grid.Text {
			access = ""
		}
		row[hourExact-1] = live("("+at(hourSetUp, n)+"+"+at(hourNorm, n)+"*"+at(hourAmount, n)+"*"+at(hourLearning, n)+")*"+at(hourDifficulty, n)+access, t.Hours, exactFormat)
		p.add(row...)
	}
	p.put(hourLine, from, live("ROUND(SUM("+span(hourExact, from, p.next()-1)+"),2)", l.Hours, hoursFormat))
	w.lines[lineKey{l.Ref, rates.Key(l.Trade)}] = p.cell(hourLine, from)
}
