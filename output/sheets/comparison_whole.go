package sheets

import (
	"futtock/estimate/quotes"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// lumpTitle is what a letter gives one sum for.
func (l *comparing) lumpTitle(of string) string {
	if k, ok := l.sectionRow(of); ok && l.Sent.Sections[k].Title != "" {
		return of + ", " + l.Sent.Sections[k].Title
	}
	return of
}

// whole adds up the offer: its groups, the sums it gives for whole sections,
// and what stands beside the lines.
func (s *offering) whole(o *quotes.Offer) {
	own := &s.own[s.offer]
	own.lumps = map[string]string{}
	rest, lines := o.Corrected, money.Amount{}
	for n, r := range s.Rows {
		if s.Sent.Lines[n].InTotal() {
			rest, lines = rest.Sub(r.Cells[s.offer].Corrected), lines.Add(r.Cells[s.offer].Levelled)
		}
	}
	head := blanks(s.col(offerRemark), band)
	head[s.text()-1] = words("The whole offer", band)
	s.p.add(head...)
	from := s.p.next()
	carry := func(text string, corrected, net money.Amount) string {
		row := s.p.next()
		cells := make([]grid.Cell, s.col(offerFree))
		cells[s.text()-1] = words(asText(text), wrapped)
		cells[s.col(offerCorrected)-1] = sum(corrected, plain)
		cells[s.col(offerNet)-1] = s.net(row, true, &quotes.Cell{Corrected: corrected, Net: net}, func(col int, c grid.Cell) { cells[s.col(col)-1] = c })
		cells[s.col(offerLevelled)-1] = sumBy(at(s.col(offerNet), row), net, plain)
		s.p.add(cells...)
		return own.cell(offerLevelled, row)
	}
	for _, lump := range o.Lumps {
		own.lumps[lump.Of] = carry("Sum for the whole of "+s.lumpTitle(lump.Of), lump.Corrected, lump.Net)
		rest, lines = rest.Sub(lump.Corrected), lines.Add(lump.Net)
	}
	own.beside = carry(say("beside lines"), rest, o.Beside)
	lines = lines.Add(o.Beside)
	to := s.p.next() - 1
	row := blanks(s.col(offerRemark), grand)
	row[s.text()-1] = words("Total, before what is adjusted beside the lines", grand)
	row[s.col(offerTendered)-1] = sum(o.AsTendered, grand)
	add := func(col int, a money.Amount) {
		cells := []string{}
		for k := range s.plan.groups {
			cells = append(cells, at(col, s.plan.groups[k].total))
		}
		row[col-1] = sumBy(thatFits(pennies(over("SUM", append(cells, span(col, from, to))))), a, grand)
	}
	add(s.col(offerCorrected), o.Corrected)
	add(s.col(offerNet), o.Net)
	add(s.col(offerLevelled), lines)
	n := s.p.add(row...)
	own.tendered, own.corrected, own.net, own.line = own.cell(offerTendered, n), own.cell(offerCorrected, n), own.cell(offerNet, n), own.cell(offerLevelled, n)
	s.p.add(append(make([]grid.Cell, s.text()-1), words(say("offer total"), remark))...)
	s.p.merge(s.p.next()-1, s.text(), s.col(offerWhy))
	s.dayRates(o)
}

// dayRates lists what the firm asks for work by time and cost where the bill
// allows none of it.
func (s *offering) dayRates(o *quotes.Offer) {
	if len(o.DayRates) == 0 {
		return
	}
	s.p.gap()
	row := blanks(s.col(offerRemark), band)
	row[s.text()-1] = words("Rates for work by time and cost, in no total", band)
	s.p.add(row...)
	for _, d := range o.DayRates {
		row := make([]grid.Cell, s.col(offerRemark))
		row[s.text()-1], row[s.col(offerRemark)-1] = words(asText(d.Of), wrapped), words(asText(d.Remark), beside)
		row[s.col(offerRate)-1], _ = figureCell(d.Rate, priceFormat)
		if d.Addition.State != quotes.Missing {
			row[s.col(offerTendered)-1], _ = figureCell(d.Addition, shareFormat)
			row[s.col(offerWhy)-1] = words("added to cost", beside)
		}
		s.p.add(row...)
	}
}
