package pdf

import "futtock/estimate/programme"

// programme is the stages in weeks and dates, and a chart of them.
func (t *tender) programme() {
	p := t.Programme
	if len(p.Stages) == 0 {
		return
	}
	t.begin("Programme")
	t.clause(text("programme")...)
	dated := !p.Start.IsZero()

	columns := []column{{head: "Stage", share: 1}, {head: "Starts after, weeks", align: pointed}, {head: "Takes, weeks", align: pointed}, {head: "Ends after, weeks", align: pointed}}
	if dated {
		columns = append(columns, column{head: "From", align: flush}, column{head: "To", align: flush})
	}
	table := t.table(append(columns, column{head: "Critical", align: centred})...)
	table.band = "Programme"
	for _, s := range p.Stages {
		style, mark := cellText, ""
		if s.Critical {
			style, mark = cellBold, "critical"
		}
		cells := []cell{styled(s.Stage.Stage, style, 1)}
		for _, text := range stageFigures(s, dated) {
			cells = append(cells, styled(text, style, 1))
		}
		table.add(plainRow, append(cells, styled(mark, style, 1))...)
	}
	last := []cell{styled("Time on site", cellBold, 1), {}, styled(t.weeks(), cellBold, 1), styled(t.weeks(), cellBold, 1)}
	if dated {
		last = append(last, styled(day(p.Start), cellBold, 1), styled(day(p.Finish), cellBold, 1))
	}
	table.add(totalRow, append(last, cell{})...)
	table.set()

	t.chart()
	if len(t.Job.Closures) > 0 {
		table := t.table(column{head: "From", share: 1}, column{head: "To, both days included", share: 1}, column{head: "Reason", share: 2})
		for _, c := range t.Job.Closures {
			table.add(plainRow, words(day(c.From), ""), words(day(c.To), ""), words(capital(c.Reason), ""))
		}
		t.headed("The yard is closed", table)
	}
}

func stageFigures(s programme.Stage, dated bool) []string {
	out := []string{s.Earliest.StringFixed(1), s.Weeks.StringFixed(1), s.EarliestFinish.StringFixed(1)}
	if dated {
		out = append(out, day(s.Start), day(s.Finish))
	}
	return out
}
