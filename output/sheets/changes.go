package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/changes"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/templates/grid"
	"futtock/templates/wording"
)

const (
	changesSheet = "Changes"
	changedSheet = "What changed"
	movedSheet   = "Lines moved"
)

// Changes is two issues of a job reconciled: the bridge from the old total to the new with
// its chart, every change with both cells, and every line of the bill that moved, step by
// step. What a step is worth is the sum of its lines and each total the one before with it,
// as live formulas.
func Changes(b changes.Bridge) *grid.Book {
	r := &revision{Bridge: b, sign: wording.Sign(b.New.Currency)}
	moved, changed := r.moved(), r.changed() // before the bridge, which leads to them
	pages := []*page{r.bridge(), changed, moved}
	book := &grid.Book{
		Title:    "Changes, " + b.New.Vessel,
		Subject:  "Tender " + b.New.Reference + ", two issues reconciled; private to the yard",
		Creator:  b.New.Yard,
		Language: "en-GB",
		Stamp:    b.New.TenderDate,
	}
	for _, p := range pages {
		p.Print.FitWidth, p.Print.Landscape = true, true
		p.Print.Paper = paperOf(b.New.Paper)
		p.Print.Header = "&L" + headerText(b.New.Vessel) + "&CPrivate to the yard&R" + headerText(b.New.Reference)
		p.Print.Footer = "&L" + headerText(b.New.Yard) + "&R" + p.Name + ", page &P of &N"
		p.join()
		book.Sheets = append(book.Sheets, p.Sheet)
	}
	return book
}

// revision is the workbook of a bridge while it is laid out.
type revision struct {
	changes.Bridge
	sign        string
	worth, net  [changes.Rest + 1]string // formulas of a step's sums
	bands, told [changes.Rest + 1]string // where a step's lines and changes begin
}

// page begins a sheet.
func (r *revision) page(name, text, note string, widths ...float64) *page {
	p := newPage(name, widths...)
	p.add(words(text, title))
	p.add(words(r.New.Vessel+", tender "+r.New.Reference+": "+r.Old.Book+" of "+r.Old.TenderDate.Format("2 January 2006")+
		" to "+r.New.Book+" of "+r.New.TenderDate.Format("2 January 2006"), subtitle))
	p.merge(p.add(words(note, remark)), 1, len(widths))
	p.gap()
	return p
}

// band heads the rows of a step, its title over so many of the columns there are, and
// answers where it stands. It stays with the row beneath.
func (p *page) band(s changes.Step, over, columns int) string {
	n := p.next()
	p.together(n, n+1)
	row := blanks(columns, band)
	row[0] = words(s.Kind.Title(), band)
	p.add(row...)
	p.merge(n, 1, over)
	return p.cell(1, n)
}

// Columns of the sheet of lines moved.
const (
	movedRef = iota + 1
	movedPart
	movedText
	movedWas
	movedNow
	movedBy
	movedNet
)

// moved lays out the lines that each step moves, the largest move first.
func (r *revision) moved() *page {
	p := r.page(movedSheet, "Lines of the bill that moved", "By the step that moves them, the largest first. A line stands with its amount before the step and after it.",
		12, 17, 62, 16, 16, 16, 16)
	head := p.add(heads("Ref", "Part", "Line", ">Before "+r.sign, ">After "+r.sign, ">Moved "+r.sign, ">Before VAT "+r.sign)...)
	p.repeat(head, head)
	for _, s := range r.Shown() {
		if len(s.Lines) == 0 {
			continue
		}
		r.bands[s.Kind] = p.band(s, movedText, movedNet)
		first := p.next()
		for _, l := range s.Lines {
			n, ref := p.next(), l.Ref
			if l.Part == changes.Tax || l.Part == changes.Dayworks {
				ref = ""
			}
			row := []grid.Cell{words(ref, plain), words(string(l.Part), plain), words(l.Words(), wrapped), sum(l.Was, plain), sum(l.Now, plain),
				sumBy(pennies(at(movedNow, n)+"-"+at(movedWas, n)), l.Moved, plain), {}}
			if l.Part != changes.Tax {
				row[movedNet-1] = sumBy(at(movedBy, n), l.Moved, plain)
			}
			p.add(row...)
		}
		last := p.next() - 1
		p.keep(last)
		row := blanks(movedNet, strong)
		row[movedText-1] = words("In all", strong)
		row[movedBy-1] = sumBy(pennies(sumOf(movedBy, first, last)), s.Worth, strong)
		row[movedNet-1] = sumBy(pennies(sumOf(movedNet, first, last)), s.Net, strong)
		end := p.add(row...)
		r.worth[s.Kind], r.net[s.Kind] = p.cell(movedBy, end), p.cell(movedNet, end)
		p.gap()
	}
	if p.next() == head+1 {
		p.add(words("", plain), words("", plain), words("Nothing moved", plain))
	}
	p.Print.Area = "$A$1:" + absolute(at(movedNet, p.next()-1))
	return p
}

// Columns of the sheet of changes.
const (
	toldKey = iota + 1
	toldSheet
	toldColumn
	toldNow
	toldWas
	toldNowAt
	toldWasAt
)

// changed lays out every change by the step it belongs to.
func (r *revision) changed() *page {
	p := r.page(changedSheet, "What changed", "By step, as the new workbook has it; then rows that only the old one has. Of a row that was put in or taken out its words are shown.",
		26, 22, 22, 34, 34, 34, 34)
	head := p.add(heads("Row", "Sheet", "Column", "Now", "Was", "Stands now in", "Stood in")...)
	p.repeat(head, head)
	for _, s := range r.Shown() {
		if len(s.Changes) == 0 {
			continue
		}
		r.told[s.Kind] = p.band(s, toldColumn, toldWasAt)
		for _, c := range s.Changes {
			column := c.Column
			switch {
			case c.PutIn():
				column = "put in"
			case c.TakenOut():
				column = "taken out"
			}
			p.add(words(c.Key, wrapped), words(c.Sheet, plain), words(column, wrapped), words(c.Now, wrapped), words(c.Was, wrapped), stands(c.NowAt), stands(c.WasAt))
		}
		p.gap()
	}
	if p.next() == head+1 {
		p.add(words("Nothing is changed", plain))
	}
	p.Print.Area = "$A$1:" + absolute(at(toldWasAt, p.next()-1))
	return p
}

// stands is a cell of a workbook by its name; blank where there is none.
func stands(c origin.Cell) grid.Cell {
	if c.IsZero() {
		return grid.Cell{}
	}
	return words(c.String(), remark)
}

// Columns of the bridge, and of the table its chart is drawn from.
const (
	bridgeStep = iota + 1
	bridgeMeans
	bridgeCount
	bridgeNet
	bridgeWorth
	bridgeTotal
)

const (
	drawnFrom = iota + 3
	drawnTotal
	drawnDearer
	drawnCheaper
	drawnFormat = "#,##0.00;-#,##0.00;" // a bar that is not there says nothing
)

// moneyOrDash shows nothing moved as a dash.
const moneyOrDash = moneyFormat + `;"-"`

// bridge lays out the steps from the old total to the new.
func (r *revision) bridge() *page {
	p := r.page(changesSheet, "Two issues reconciled", "Parts of the new issue are taken over one after another and the job priced after each; what a step is worth is what it moves the total by. "+
		"Until timber is planned anew the sticks of the old issue are held.", 30, 74, 10, 17, 17, 18)
	head := p.add(heads("Step", "Taken over in it", ">Changes", ">Before VAT "+r.sign, ">Worth "+r.sign, ">Total with VAT "+r.sign)...)
	p.Freeze.Rows = head
	old := p.add(words("Old issue", plain), words(r.Old.Book, wrapped), grid.Cell{}, sum(r.Old.Net, plain), grid.Cell{}, sum(r.Old.Total, plain))
	for _, s := range r.Shown() {
		n := p.next()
		means := s.Kind.Means()
		if s.Cannot != "" {
			means += ". Told of with the next step, before which it cannot be priced: " + s.Cannot
		}
		net, worth := sum(s.Net, plain), sum(s.Worth, plain)
		if f := r.worth[s.Kind]; f != "" {
			net, worth = sumBy(r.net[s.Kind], s.Net, plain), sumBy(f, s.Worth, plain)
		}
		net.Style.Format, worth.Style.Format = moneyOrDash, moneyOrDash
		p.add(words(s.Kind.Title(), plain), words(means, wrapped), figure(decimal.NewFromInt(int64(len(s.Changes))), countFormat), net, worth,
			sumBy(pennies(at(bridgeTotal, n-1)+"+"+at(bridgeWorth, n)), s.After, plain))
		p.lead(bridgeStep, n, r.bands[s.Kind])
		p.lead(bridgeCount, n, r.told[s.Kind])
	}
	last := p.next() - 1
	p.keep(last)
	end := p.add(words("New issue", strong), words(r.New.Book, strong), grid.Cell{Style: strong},
		sumBy(pennies(sumOf(bridgeNet, old, last)), r.New.Net, strong), sumBy(pennies(sumOf(bridgeWorth, old+1, last)), r.Difference(), strong),
		sumBy(at(bridgeTotal, last), r.New.Total, strong))
	alone := p.add(words("", plain), words("As it is priced by itself", plain), grid.Cell{}, sum(r.New.Net, plain), grid.Cell{}, sum(r.New.Total, plain))
	p.add(words("", plain), words("Left over", plain), grid.Cell{}, sumBy(pennies(at(bridgeNet, end)+"-"+at(bridgeNet, alone)), money.Amount{}, plain), grid.Cell{},
		sumBy(pennies(at(bridgeTotal, end)+"-"+at(bridgeTotal, alone)), money.Amount{}, plain))
	r.chart(p, old, end)
	p.Print.Area = "$A$1:" + absolute(at(bridgeTotal, p.next()-1))
	return p
}

// chart draws the bridge: the totals as bars, and every step floating between the total
// before it and that after. It begins at a round figure below all of them, so that steps can be seen
// beside totals many times their size.
func (r *revision) chart(p *page, old, end int) {
	floor, moves := r.floor()
	if !moves {
		return
	}
	p.gap()
	p.Print.Breaks = append(p.Print.Breaks, p.next())
	top := p.next()
	for range chartRows {
		p.gap()
	}
	from := p.add(words("The chart begins at", plain), words("a round figure below every total", plain), chosen(floor, countFormat))
	start := absolute(at(3, from))
	p.together(from, from+len(r.Shown())+3)
	head := p.add(heads("As drawn", "", ">From", ">Total", ">Dearer", ">Cheaper")...)
	first := p.next()
	shown := r.Shown()
	before := r.Old.Total
	for n := old; n <= end; n++ {
		over := func(a money.Amount) decimal.Decimal { return a.Decimal().Sub(floor) }
		total := func(a money.Amount) []grid.Cell {
			return []grid.Cell{figure(decimal.Zero, drawnFormat), live(pennies(at(bridgeTotal, n)+"-"+start), over(a), drawnFormat), {}, {}}
		}
		row := []grid.Cell{words(p.Rows[n-1].Cells[0].Text, plain), {}}
		switch {
		case n == old:
			row = append(row, total(r.Old.Total)...)
		case n == end:
			row = append(row, total(r.New.Total)...)
		default:
			s := shown[n-old-1]
			low, rise, fall := before, s.Worth, money.Amount{}
			if s.Worth.Sign() < 0 {
				low, rise, fall = s.After, money.Amount{}, s.Worth.Neg()
			}
			row = append(row, live(pennies("MIN("+at(bridgeTotal, n-1)+","+at(bridgeTotal, n)+")-"+start), over(low), drawnFormat), grid.Cell{},
				live("MAX("+at(bridgeWorth, n)+",0)", rise.Decimal(), drawnFormat), live("MAX(-"+at(bridgeWorth, n)+",0)", fall.Decimal(), drawnFormat))
			before = s.After
		}
		p.add(row...)
	}
	last := p.next() - 1
	on := quoted(p.Name) + "!"
	down := func(col int) string { return on + absolute(at(col, first)) + ":" + absolute(at(col, last)) }
	name := func(col int) string { return on + absolute(at(col, head)) }
	p.Charts = append(p.Charts, grid.Chart{
		Kind: grid.Stacked, Title: "From the old total to the new: dark is a total, grey is dearer, pale is cheaper",
		Alt: "A bar for the old total and the new, and between them a bar for every step, from the total before it to that after",
		Of:  down(1), InTitle: r.sign + " above " + money.Group(floor, 0),
		Series: []grid.Series{
			{Name: name(drawnFrom), Values: down(drawnFrom), Hidden: true},
			{Name: name(drawnTotal), Values: down(drawnTotal)},
			{Name: name(drawnDearer), Values: down(drawnDearer)},
			{Name: name(drawnCheaper), Values: down(drawnCheaper)},
		},
		Range: at(1, top) + ":" + at(bridgeTotal, top+chartRows-2),
	})
}

// floor is a round figure below every total of the bridge, by about a quarter of what they
// span and not under nil; false where nothing moves.
func (r *revision) floor() (decimal.Decimal, bool) {
	least, most := r.Old.Total.Decimal(), r.Old.Total.Decimal()
	for _, s := range r.Steps {
		least, most = decimal.Min(least, s.After.Decimal()), decimal.Max(most, s.After.Decimal())
	}
	span := most.Sub(least)
	if span.IsZero() {
		return decimal.Decimal{}, false
	}
	step := decimal.New(1, 0)
	for ten := decimal.New(10, 0); step.Mul(ten).LessThanOrEqual(span); step = step.Mul(ten) {
	}
	low := least.Sub(span.Div(decimal.New(4, 0)))
	return decimal.Max(decimal.Zero, low.Div(step).Floor().Mul(step)), true
}
