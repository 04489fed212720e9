package sheets

import (
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/programme"
	"futtock/rates"
	"futtock/templates/grid"
)

// Columns of the programme.
const (
	progStage = iota + 1
	progTrade
	progWorking
	progWeeks
	progEarliest
	progFinish
	progLatest
	progFloat
	progBegins
	progEnds
	progHours
	progMen
	progNeeds
	progKept
	progIdle
)

// programme lays out the stages with their trades. Weeks and dates are as
// priced; hours, and the time kept against them, follow.
func (w *working) programme() {
	if len(w.Programme.Stages) == 0 {
		return
	}
	p := w.page(programmeSheet, "Programme", "Weeks and dates are as priced; run again to choose anew. Float is the lesser of what the start and the finish may slip. Time kept = men x working weeks x output; idle = kept - hours, which is priced nowhere unless the Job asks for it.",
		26, 15, 9, 8, 9, 9, 9, 8, 13, 13, 11, 7, 9, 11, 11)
	p.add(words("Output of a man, hours a week", plain), grid.Cell{}, chosen(w.Programme.Output, hoursFormat))
	p.add(words("Weeks on site", plain), grid.Cell{}, chosen(w.Programme.Weeks, "0.0"))
	w.onSite = p.cell(progWorking, p.next()-1)
	output := at(progWorking, p.next()-2)
	p.gap()
	bars := w.reserveBars(p)
	head := p.add(heads("Stage", "Trade", ">Working weeks", ">Weeks", ">Earliest start", ">Earliest finish", ">Latest start", ">Float", ">Begins", ">Ends",
		">Hours", ">Men", ">Weeks it needs", ">Kept h", ">Idle h")...)
	p.Print.Breaks = append(p.Print.Breaks, head) // the bars and their table have a page of their own
	p.Print.Repeat = "$" + itoa(head) + ":$" + itoa(head)
	var hours, kept, idle decimal.Decimal
	first := p.next()
	var stages []int
	for _, s := range w.Programme.Stages {
		w.stage(p, s)
		stage := p.next() - 1
		stages = append(stages, stage)
		for _, t := range s.Trades {
			n := p.next()
			row := make([]grid.Cell, progIdle)
			row[progTrade-1] = words(t.Trade, plain)
			if t.Trade == s.Governs {
				row[progStage-1] = words("governs its weeks", remark)
			}
			row[progHours-1] = figure(t.Hours, hoursFormat)
			if cell, ok := w.stageHours[lineKey{rates.Key(s.Stage.Stage), rates.Key(t.Trade)}]; ok {
				row[progHours-1] = live(cell, t.Hours, hoursFormat)
			}
			row[progMen-1] = figure(t.Men, asFine(t.Men, 2))
			weekly := at(progMen, n) + "*" + absolute(output)
			if !t.Weeks.IsZero() {
				row[progNeeds-1] = live("ROUND("+at(progHours, n)+"/("+weekly+"),3)", t.Weeks, "0.000")
			}
			row[progKept-1] = live("ROUND("+weekly+"*"+at(progWorking, stage)+",2)", t.Kept, hoursFormat)
			// What is left of one figure taken from another holds the noise of both.
			row[progIdle-1] = live("ROUND("+at(progKept, n)+"-"+at(progHours, n)+",2)", t.Idle, hoursFormat)
			p.add(row...)
			w.idle[rates.Key(t.Trade)] = append(w.idle[rates.Key(t.Trade)], p.cell(progIdle, n))
			hours, kept, idle = hours.Add(t.Hours), kept.Add(t.Kept), idle.Add(t.Idle)
		}
	}
	n := p.next()
	row := blanks(progIdle, strong)
	row[0] = words("All stages", strong)
	for _, c := range []struct {
		col   int
		hours decimal.Decimal
	}{{progHours, hours}, {progKept, kept}, {progIdle, idle}} {
		row[c.col-1] = withFormat(grid.Reckoned(sumOf(c.col, first, n-1), c.hours, strong), hoursFormat)
	}
	p.add(row...)
	w.stageChart(p, bars, stages)
	p.Print.Area = "$A$1:$O$" + itoa(p.next()-1)
}

// stage is the row of one stage.
func (w *working) stage(p *page, s programme.Stage) {
	style := grid.Style{Top: true, Border: grid.Over, Font: grid.Font{Bold: true}}
	row := blanks(progIdle, style)
	row[0] = words(s.Stage.Stage, style)
	row[1] = words("", style)
	if s.Critical {
		row[1] = words("critical", grid.Style{Top: true, Border: grid.Over, Font: grid.Font{Italic: true}})
	}
	n := p.next()
	for i, weeks := range []decimal.Decimal{s.Working, s.Weeks, s.Earliest, s.EarliestFinish, s.Latest, s.Float} {
		c := chosen(weeks, "0.0")
		if progWorking+i == progFinish {
			c = live("ROUND("+at(progEarliest, n)+"+"+at(progWeeks, n)+",1)", weeks, "0.0")
		}
		c.Style.Border |= grid.Over
		row[progWorking-1+i] = c
	}
	if !s.Start.IsZero() {
		day := solved
		day.Format, day.Border, day.Align = dayFormat, grid.Over, grid.Right
		row[progBegins-1], row[progEnds-1] = grid.Dated(s.Start, day), grid.Dated(s.Finish, day)
	}
	p.add(row...)
}

// Columns of the table that the bars are drawn from.
const (
	barFrom = iota + 3
	barCritical
	barSpare
	barFormat = "0.0;;" // a bar that is not there says nothing
)

// reserveBars leaves room for the bars and their table, and returns its first row.
func (w *working) reserveBars(p *page) int {
	head := p.next()
	for range barRows(len(w.Programme.Stages)) {
		p.gap()
	}
	p.gap()
	return head
}

// barRows is how many rows the bars of so many stages take: with what stands above
// them, those of eighteen stages still go on one page.
func barRows(stages int) int { return max(chartRows, stages+stages/2+6) }

// stageChart draws the stages as bars over the weeks, each from its earliest
// start, out of a table beside it of the rows they stand in: critical ones in
// one shade, the others in another.
func (w *working) stageChart(p *page, head int, stages []int) {
	p.Rows[head-1].Cells = heads("Stage", "", ">From week", ">Critical", ">With time to spare")
	first, last := head+1, head+len(stages)
	for i, s := range w.Programme.Stages {
		row := []grid.Cell{words(s.Stage.Stage, jump), {}, live(at(progEarliest, stages[i]), s.Earliest, "0.0"), figure(decimal.Zero, barFormat), figure(decimal.Zero, barFormat)}
		row[0].Link = p.cell(progStage, stages[i])
		bar := barSpare
		if s.Critical {
			bar = barCritical
		}
		row[bar-1] = live(at(progWeeks, stages[i]), s.Weeks, "0.0")
		p.Rows[first+i-1].Cells = row
	}
	end := head + barRows(len(stages)) - 1
	on := quoted(p.Name) + "!"
	down := func(col int) string { return on + absolute(at(col, first)) + ":" + absolute(at(col, last)) }
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Stacked, Title: "Stages by weeks from the start on site: dark is critical, pale has time to spare", Alt: "A bar for every stage, from its earliest start over its weeks, dark where it is critical",
		Of: down(progStage), InTitle: "Weeks",
		Series: []grid.Series{
			{Name: on + absolute(at(barFrom, head)), Values: down(barFrom), Hidden: true},
			{Name: on + absolute(at(barCritical, head)), Values: down(barCritical)},
			{Name: on + absolute(at(barSpare, head)), Values: down(barSpare)},
		},
		Range: at(barSpare+1, head) + ":" + at(progIdle, end),
	})
}

// absolute is a place on a sheet that stays when the formula is copied down.
func absolute(cell string) string {
	digits := strings.IndexAny(cell, "0123456789")
	return "$" + cell[:digits] + "$" + cell[digits:]
}
