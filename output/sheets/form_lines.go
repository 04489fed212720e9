package sheets

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/bill"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// Columns of the bill of a form.
const (
	workItem = iota + 1
	workText
	workQuantity
	workUnit
	workRate
	workAmount
	workChoice
	workRemark
	workStanding
	workStage
)

// work lays out the sections of the bill, with options and lines of which only
// the rate is asked under the total they are not part of.
func (l *form) work() {
	p := newPage(bill.FormWork, 10, 58, 10, 6, 13, 15, 16, 32, 18, 19, 10, 12, 18)
	p.Print.Landscape = true
	l.top(p, "Bill of quantities", formWords("work"), workStage)
	l.head(p, append([]grid.Cell{
		words(bill.HeadItem, heading), words(bill.HeadDescription, heading), words(bill.HeadQuantity, headRow), words(bill.HeadUnit, centred(heading)),
		words(l.inMoney(bill.HeadRate), headRow), words(l.inMoney(bill.HeadAmount), owedHead), words(bill.HeadWithout, pastHead), words(bill.HeadRemarks, pastHead),
		words(bill.HeadMarked, pastHead), words(bill.HeadStage, pastHead)}, idHeads...), workRate, workChoice, workRemark)
	for i, s := range l.Bill.Sections {
		if i > 0 {
			p.gap()
		}
		row := blanks(workStage, band)
		row[0], row[1] = words(s.Section, band), words(s.Title, band)
		p.keep(p.add(row...))
		var c carried
		in, out := inTotal(s.Lines)
		from := p.next()
		l.workLines(p, &c, in)
		p.keep(p.next() - 1)
		row = blanks(workStage, strong)
		row[workText-1] = words("Carried to summary: "+s.Title, strong)
		row[workAmount-1], c.stored = l.totalled(s.Section, sumBy(sumOf(workAmount, from, p.next()-1), c.stored, owing(strong)))
		c.total = p.cell(workAmount, p.add(row...))
		if len(out) > 0 {
			p.keep(p.add(grid.Cell{}, words(outside, remark)))
			beside := carried{open: c.open}
			l.workLines(p, &beside, out)
			c.open, c.lines, c.left = beside.open, c.lines+beside.lines, c.left+beside.left
		}
		l.sections = append(l.sections, c)
	}
	l.collection(p)
	p.Print.Area = "$A$1:$J$" + itoa(p.next()-1)
	l.keep(p)
}

// collection gathers the totals of the sections at the end of the bill.
func (l *form) collection(p *page) {
	p.gap()
	row := func(style grid.Style, section, text, formula string, stored money.Amount) int {
		cells := blanks(workStage, style)
		cells[workItem-1], cells[workText-1] = words(section, style), words(text, style)
		if formula != "" {
			cells[workAmount-1] = sumBy(formula, stored, owing(style))
		}
		n := p.add(cells...)
		p.keep(n)
		return n
	}
	row(band, "", "Collection", "", money.Amount{})
	var all money.Amount
	from := p.next()
	for i, s := range l.Bill.Sections {
		row(plain, s.Section, s.Title, l.sections[i].total, l.sections[i].stored)
		all = all.Add(l.sections[i].stored)
	}
	end := row(strong, "A", "Measured work, carried to summary", sumOf(workAmount, from, p.next()-1), all)
	p.Rows[end-1].Keep = false
	l.measured = p.cell(workAmount, end)
}

// workLines lays out a run of lines.
func (l *form) workLines(p *page, c *carried, lines []bill.FormLine) {
	if len(lines) == 0 {
		return
	}
	from := p.next()
	for _, n := range lines {
		here, a := p.next(), l.answers.Lines[n.ID]
		amount, comes := a.amount(sumBy("ROUND("+at(workQuantity, here)+"*"+at(workRate, here)+",2)", a.times(n.Quantity), owed))
		row := []grid.Cell{
			words(n.Ref, plain), words(n.Description, wrapped), quantity(n.Quantity, n.Unit), words(string(n.Unit), centred(plain)),
			in(open(moneyFormat), a.Rate), amount,
			in(openText(), said(a.Choice)), in(openText(), said(a.Remark)), marked(n), words(n.Stage, past),
		}
		c.answered(comes, a.Rate, said(a.Choice))
		if asked(n) {
			row[workQuantity-1] = grid.Cell{}
			row[workAmount-1] = words("rate only", grid.Style{Top: true, Align: grid.Right, Indent: 1, Font: grid.Font{Italic: true, Colour: grey}})
		}
		l.row(p, append(row, l.ids(n)...)...)
	}
	to := p.next() - 1
	l.money(p, workRate, workChoice, from, to)
	l.choose(p, workChoice, from, to)
	c.lines += len(lines)
	c.count(p, from, to, workRate, workChoice)
}

// preliminaries lays out the charges on the job as a whole: what is paid once
// and what runs with time, which is open where the bill does not give it. A rate
// without a time comes to nothing, and so the line is not answered by it.
func (l *form) preliminaries() {
	lines := l.Bill.Preliminaries
	if len(lines) == 0 {
		return
	}
	const (
		text = iota + 2
		once
		time
		unit
		rate
		amount
		choice
		remarks
		standingCol
		stage
	)
	p := newPage(bill.FormPreliminaries, 10, 48, 14, 9, 6, 13, 15, 16, 32, 14, 22, 10, 12, 18)
	p.Print.Landscape = true
	l.top(p, "Preliminaries", formWords("preliminaries"), stage)
	l.head(p, append([]grid.Cell{
		words(bill.HeadItem, heading), words(bill.HeadDescription, heading), words(l.inMoney(bill.HeadOnce), headRow), words(bill.HeadTime, headRow),
		words(bill.HeadUnit, centred(heading)), words(l.inMoney(bill.HeadRate), headRow), words(l.inMoney(bill.HeadAmount), owedHead),
		words(bill.HeadWithout, pastHead), words(bill.HeadRemarks, pastHead), words(bill.HeadMarked, pastHead), words(bill.HeadStage, pastHead)},
		idHeads...), once, time, rate, choice, remarks)
	from := p.next()
	for _, n := range lines {
		here, a := p.next(), l.answers.Lines[n.ID]
		allowed := in(open(quantityStyle(n.Unit).Format), a.Time)
		if !n.Open {
			allowed = quantity(n.Quantity, n.Unit)
		}
		sums, comes := a.amount(sumBy("ROUND("+at(once, here)+",2)+ROUND("+at(time, here)+"*"+at(rate, here)+",2)",
			money.Round(numberIn(a.Once)).Add(a.times(numberIn(allowed))), owed))
		l.row(p, append([]grid.Cell{
			words(n.Ref, plain), words(n.Description, wrapped), in(open(moneyFormat), a.Once), allowed, words(string(n.Unit), centred(plain)), in(open(moneyFormat), a.Rate),
			sums, in(openText(), said(a.Choice)), in(openText(), said(a.Remark)), marked(n), words(n.Stage, past),
		}, l.ids(n)...)...)
		running := a.Rate
		if allowed.Kind == grid.Blank {
			running = grid.Cell{}
		}
		l.prelims.answered(comes, a.Once, running, said(a.Choice))
	}
	to := p.next() - 1
	l.money(p, once, choice, from, to)
	l.money(p, rate, choice, from, to)
	p.Bounds = append(p.Bounds, grid.Bound{Range: span(time, from, to), Least: decimal.Decimal{}, Most: decimal.New(1000, 0),
		Title: "Time", Prompt: "A number of weeks or days is wanted, as the unit says."})
	l.choose(p, choice, from, to)
	p.keep(to)
	row := blanks(stage, strong)
	row[text-1] = words("B   Preliminaries, carried to summary", strong)
	row[amount-1] = sumBy(sumOf(amount, from, to), l.prelims.stored, owing(strong))
	end := p.add(row...)
	l.prelims.total = p.cell(amount, end)
	l.prelims.lines = len(lines)
	l.prelims.open = fmt.Sprintf(`SUMPRODUCT((%[1]s="")*((%[2]s="")+(%[3]s="")>0)*(%[4]s="")*1)`,
		onSheet(p, once, from, to), onSheet(p, time, from, to), onSheet(p, rate, from, to), onSheet(p, choice, from, to))
	lacking := fmt.Sprintf(`AND($%[1]s="",$%[2]s<>"")`, at(time, from), at(rate, from))
	p.Shades = append(p.Shades, grid.Shade{Range: span(time, from, to), Fill: amiss, Formula: lacking})
	l.prelims.say(p, remarks)
	p.Print.Area = "$A$1:$K$" + itoa(end)
	l.keep(p)
}

// sums lays out the sums as they are given, with profit and attendance open.
func (l *form) sums() {
	lines := l.Bill.Sums
	if len(lines) == 0 {
		return
	}
	const (
		text = iota + 2
		kind
		given
		profit
		profitSum
		attendance
		total
		choice
		remarks
		stage
	)
	p := newPage(bill.FormSums, 10, 44, 14, 14, 10, 12, 15, 15, 16, 32, 19, 10, 12, 18)
	p.Print.Landscape = true
	l.top(p, "Provisional sums, prime cost sums and quotations", formWords("sums"), stage)
	fill := []int{profit, attendance, remarks}
	if slices.ContainsFunc(lines, func(n bill.FormLine) bool { return n.Open }) {
		fill = []int{given, profit, attendance, choice, remarks}
	}
	l.head(p, append([]grid.Cell{
		words(bill.HeadItem, heading), words(bill.HeadDescription, heading), words(bill.HeadKind, heading), words(l.inMoney(bill.HeadSum), owedHead),
		words(bill.HeadProfit, headRow), words(l.inMoney(bill.HeadProfitSum), owedHead), words(l.inMoney(bill.HeadAttendance), headRow),
		words(l.inMoney(bill.HeadTotal), owedHead), words(bill.HeadNoSum, pastHead), words(bill.HeadRemarks, pastHead), words(bill.HeadStage, pastHead)},
		idHeads...), fill...)
	from := p.next()
	var allGiven, allProfit, allAttendance money.Amount
	for _, n := range lines {
		here, a := p.next(), l.answers.Lines[n.ID]
		asGiven, may := sum(money.Round(n.Quantity), owed), grid.Cell{}
		if n.Open {
			asGiven, may = in(open(moneyFormat), a.Sum), in(openText(), said(a.Choice))
		}
		profits, attends := money.Round(numberIn(asGiven).Mul(numberIn(a.Profit))), money.Round(numberIn(a.Attendance))
		sums, comes := a.amount(sumBy("ROUND("+at(given, here)+",2)+"+at(profitSum, here)+"+ROUND("+at(attendance, here)+",2)",
			money.Sum(money.Round(numberIn(asGiven)), profits, attends), owed))
		allGiven, allProfit, allAttendance = allGiven.Add(money.Round(numberIn(asGiven))), allProfit.Add(profits), allAttendance.Add(attends)
		l.row(p, append([]grid.Cell{
			words(n.Ref, plain), words(n.Description, wrapped), words(n.Standing, wrapped), asGiven, in(open(shareFormat), a.Profit),
			sumBy("ROUND("+at(given, here)+"*"+at(profit, here)+",2)", profits, owed), in(open(moneyFormat), a.Attendance),
			sums, may, in(openText(), said(a.Remark)), words(n.Stage, past),
		}, l.ids(n)...)...)
		l.sumTotal.answered(comes, asGiven, may)
		if n.Open {
			l.money(p, given, choice, here, here)
			l.choose(p, choice, here, here)
			l.sumTotal.lines++
		}
	}
	to := p.next() - 1
	l.sumTotal.count(p, from, to, given, choice)
	l.sumTotal.say(p, remarks)
	l.share(p, profit, from, to)
	l.money(p, attendance, choice, from, to)
	p.keep(to)
	row := blanks(stage, strong)
	row[text-1] = words("Carried to summary", strong)
	for _, c := range []struct {
		col int
		sum money.Amount
	}{{given, allGiven}, {profitSum, allProfit}, {attendance, allAttendance}, {total, l.sumTotal.stored}} {
		row[c.col-1] = sumBy(sumOf(c.col, from, to), c.sum, owing(strong))
	}
	end := p.add(row...)
	l.sumTotal.total = p.cell(total, end)
	p.Print.Area = "$A$1:$K$" + itoa(end)
	l.keep(p)
}

// dayworks lays out the allowances: hours whose rate is open, and sums of
// money whose addition is.
func (l *form) dayworks() {
	lines := l.Bill.Dayworks
	if len(lines) == 0 {
		l.daywork()
		return
	}
	const (
		hours = iota + 2
		rate
		lump
		addition
		total
		choice
		remarks
	)
	p := newPage(bill.FormDayworks, 34, 11, 13, 14, 12, 15, 16, 36, 10, 12, 18)
	p.Print.Landscape = true
	l.top(p, "Dayworks", formWords("dayworks"), remarks)
	l.head(p, append([]grid.Cell{
		words(bill.HeadTrade, heading), words(bill.HeadHours, owedHead), words(l.inMoney(bill.HeadRate), headRow), words(l.inMoney(bill.HeadSum), owedHead),
		words(bill.HeadAddition, headRow), words(l.inMoney(bill.HeadTotal), owedHead), words(bill.HeadWithout, pastHead), words(bill.HeadRemarks, pastHead)},
		idHeads...), rate, addition, choice, remarks)
	from := p.next()
	for _, n := range lines {
		here, a := p.next(), l.answers.Lines[n.ID]
		row := []grid.Cell{words(n.Description, wrapped), {}, {}, {}, {}, {}, in(openText(), said(a.Choice)), in(openText(), said(a.Remark))}
		var comes money.Amount
		l.choose(p, choice, here, here)
		if n.Unit == measure.Hour {
			worked := quantity(n.Quantity, measure.Hour)
			worked.Style = owing(worked.Style)
			row[hours-1], row[rate-1] = worked, in(open(moneyFormat), a.Rate)
			row[total-1], comes = a.amount(sumBy("ROUND("+at(hours, here)+"*"+at(rate, here)+",2)", a.times(n.Quantity), owed))
			l.money(p, rate, choice, here, here)
		} else {
			own := money.Round(n.Quantity)
			row[lump-1], row[addition-1] = sum(own, owed), in(open(shareFormat), a.Addition)
			row[total-1], comes = a.amount(sumBy(at(lump, here)+"+ROUND("+at(lump, here)+"*"+at(addition, here)+",2)",
				own.Add(own.Times(numberIn(a.Addition))), owed))
			l.share(p, addition, here, here)
		}
		l.row(p, append(row, l.ids(n)...)...)
		l.dayTotal.answered(comes, row[rate-1], row[addition-1], said(a.Choice))
	}
	to := p.next() - 1
	l.dayTotal.lines = len(lines)
	l.dayTotal.count(p, from, to, rate, addition, choice)
	l.dayTotal.say(p, remarks)
	p.keep(to)
	row := blanks(remarks, strong)
	row[0], row[total-1] = words("Carried to summary", strong), sumBy(sumOf(total, from, to), l.dayTotal.stored, owing(strong))
	end := p.add(row...)
	l.dayTotal.total = p.cell(total, end)
	p.Print.Area = "$A$1:$H$" + itoa(end)
	l.keep(p)
}
