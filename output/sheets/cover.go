package sheets

import (
	"cmp"
	"slices"
	"strings"

	"futtock/estimate/job"
	"futtock/estimate/programme"
	"futtock/templates/grid"
)

// cover lays out the first sheet: what the bill is of, whom it is for and from,
// what it comes to, and what the other sheets hold.
func (l *ledger) cover() {
	p := newPage(coverSheet, 26, 72)
	p.across(l.Job.Vessel, title, 2)
	p.add(words("Priced bill of quantities, tender "+l.Job.Reference, subtitle))
	p.gap()
	if l.Job.Description != "" {
		p.add(words(l.Job.Description, wrapped))
		p.merge(p.next()-1, 1, 2)
		p.gap()
	}
	say := func(name string, value grid.Cell) {
		value.Style.Align, value.Style.Top, value.Style.Wrap = grid.Left, true, true
		p.add(words(name, grid.Style{Font: grid.Font{Colour: grey}, Top: true}), value)
	}
	day := grid.Style{Format: "d mmmm yyyy"}
	say("Client", words(l.Job.Client, plain))
	say("Yard", words(l.Job.Yard, plain))
	say("Tender", words(l.Job.Reference, plain))
	say("Tender date", grid.Dated(l.Job.TenderDate, day))
	if until, limited := l.Job.Until(); limited {
		say("Open until", grid.Dated(until, day))
	}
	if !l.Job.Start.IsZero() {
		say("Start on site", grid.Dated(l.Job.Start, day))
	}
	if !l.Programme.Weeks.IsZero() {
		say("Time on site", grid.Numeric(l.Programme.Weeks, grid.Style{Format: `0.0" weeks"`}))
	}
	if !l.Programme.Finish.IsZero() {
		say("Handing over", grid.Dated(l.Programme.Finish, day))
	}
	p.gap()
	strongly := grid.Style{Font: grid.Font{Bold: true}}
	say("Net total", inCurrency(sumBy(l.net, l.Bill.Net, strongly), l.Job.Currency))
	say("Total with VAT", inCurrency(sumBy(l.gross, l.Bill.Total, strongly), l.Job.Currency))
	p.gap()
	p.add(words("In this bill", band), grid.Cell{Style: band})
	for _, sheet := range l.pages {
		n := p.add(words(sheet.Name, plain), words(holds[sheet.Name], wrapped))
		p.lead(1, n, quoted(sheet.Name)+"!A1")
	}
	p.Print.Area = "$A$1:$B$" + itoa(p.next()-1)
	l.pages = append([]*page{p}, l.pages...)
}

// holds is what a sheet of the bill holds.
var holds = map[string]string{
	summarySheet: "sections, preliminaries, sums, value added tax and the total",
	billSheet:    "the work, section by section, with a collection at the end",
	prelimSheet:  "charges on the job as a whole",
	sumSheet:     "provisional sums, prime cost sums and quotations",
	daySheet:     "allowances for work paid for by time and cost",
	heldSheet:    "the client's sum for what cannot be known yet",
	stageSheet:   "the stages of the work in weeks",
	notesSheet:   "how the bill was measured, priced and rounded; the usual cautions",
}

// programme lays out the stages in weeks, and in days where the start is known.
// The weeks are as planned: results of solving, not of other cells.
func (l *ledger) programme() {
	if len(l.Programme.Stages) == 0 {
		return
	}
	const (
		stage = iota + 1
		after
		from
		takes
		to
		begins
		ends
		critical
	)
	p := newPage(stageSheet, 28, 30, 11, 9, 11, 15, 15, 10)
	p.Print.Landscape = true
	l.top(p, "Programme", critical)
	p.add(words("In calendar weeks from the start on site, closures counted. A stage that is critical moves the end when it moves.", remark))
	p.merge(p.next()-1, 1, critical)
	p.gap()
	dated := !l.Programme.Start.IsZero()
	row := []grid.Cell{words("Stage", heading), words("Comes after", heading), words("From week", headRow), words("Weeks", headRow), words("To week", headRow),
		{Style: headRow}, {Style: headRow}, words("Critical", centred(heading))}
	if dated {
		row[begins-1], row[ends-1] = words("Begins", headRow), words("Ends", headRow)
	}
	head := p.add(row...)
	p.repeat(head, head)
	first := p.next()
	weeks := grid.Style{Top: true, Format: "0.0"}
	day := grid.Style{Top: true, Format: "d mmm yyyy", Align: grid.Right}
	stages := slices.Clone(l.Programme.Stages) // as they begin, however the yard has typed them
	slices.SortFunc(stages, func(a, b programme.Stage) int {
		return cmp.Or(a.Earliest.Cmp(b.Earliest), a.EarliestFinish.Cmp(b.EarliestFinish), cmp.Compare(a.Stage.Stage, b.Stage.Stage))
	})
	for _, s := range stages {
		row := []grid.Cell{words(s.Stage.Stage, wrapped), words(strings.Join(s.Stage.After, ", "), wrapped), grid.Numeric(s.Earliest, weeks),
			grid.Numeric(s.Weeks, weeks), grid.Numeric(s.EarliestFinish, weeks), {}, {}, {}}
		if dated {
			row[begins-1], row[ends-1] = grid.Dated(s.Start, day), grid.Dated(s.Finish, day)
		}
		if s.Critical {
			row[critical-1] = words("critical", centred(plain))
		}
		p.add(row...)
	}
	last := p.next() - 1
	p.keep(last)
	row = blanks(critical, strong)
	row[0] = words("Time on site", strong)
	row[to-1] = withFormat(grid.Reckoned("MAX("+span(to, first, last)+")", l.Programme.Weeks, strong), weeks.Format)
	if dated {
		row[ends-1] = withFormat(grid.Dated(l.Programme.Finish, strong), day.Format)
	}
	end := p.add(row...)
	if len(l.Job.Closures) > 0 {
		p.gap()
		p.keep(p.add(words("The yard is closed", band), grid.Cell{Style: band}, grid.Cell{Style: band}, grid.Cell{Style: band}, grid.Cell{Style: band}, grid.Cell{Style: band}, grid.Cell{Style: band}, grid.Cell{Style: band}))
		closures := slices.Clone(l.Job.Closures)
		slices.SortFunc(closures, func(a, b job.Closure) int {
			return cmp.Or(a.From.Compare(b.From), a.To.Compare(b.To), cmp.Compare(a.Reason, b.Reason))
		})
		for _, c := range closures {
			row := []grid.Cell{words(c.Reason, wrapped), {}, {}, {}, {}, grid.Dated(c.From, day), grid.Dated(c.To, day)}
			end = p.add(row...)
		}
	}
	p.Print.Area = "$A$1:$H$" + itoa(end)
	l.keep(p)
}
