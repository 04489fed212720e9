package sheets

import (
	"cmp"
	"time"

	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/templates/grid"
)

// boughtPrices are the materials, plant and subcontracted work that build-ups,
// fastening rules and preliminaries ask for.
func (w *working) boughtPrices(p *page) {
	used := w.usedPrices()
	day := w.Job.TenderDate
	first := true
	for _, m := range w.Book.Materials {
		if in, ok := w.Book.Material(m.Material, day); !ok || in.At != m.At || !has(used.materials, m.Material) {
			continue
		}
		if first {
			w.block(p, "Materials", "Material", "Description", ">Price "+w.sign, "=Unit", "", "", "", "", "", "", "", ">From", "<Supplier", "<Cell")
			first = false
		}
		w.materials.set(m.Material, p.cell(priceOf, p.next()))
		p.add(w.source([]grid.Cell{words(m.Material, wrapped), words(m.Description, wrapped), cost(m.Price), unitCell(m.Unit)},
			m.From, m.Supplier, cmp.Or(m.PriceAt, m.At))...)
	}
	w.close(p, &first)
	for _, m := range w.Book.Plant {
		if in, ok := w.Book.PlantRow(m.Plant, day); !ok || in.At != m.At || !has(used.plant, m.Plant) {
			continue
		}
		if first {
			w.block(p, "Plant", "Plant", "Description", ">Each "+w.sign, "=Unit", ">Fixed "+w.sign, ">A week "+w.sign, "", "", "", "", "", ">From", "", "<Cell")
			first = false
		}
		n := p.next()
		w.plants.set(m.Plant, p.cell(priceOf, n))
		w.fixed.set(m.Plant, p.cell(priceE, n))
		w.weekly.set(m.Plant, p.cell(priceF, n))
		once, weekly := w.hired(m.Plant)
		p.add(w.source([]grid.Cell{words(m.Plant, wrapped), words(m.Description, wrapped), priceIf(has(used.each, m.Plant), m.Each), unitCell(m.Unit), priceIf(once, m.Fixed), priceIf(weekly, m.Weekly)},
			m.From, "", m.At)...)
	}
	w.close(p, &first)
	for _, s := range w.Book.Subcontract {
		if in, ok := w.Book.Work(s.Work, day); !ok || in.At != s.At || !has(used.work, s.Work) {
			continue
		}
		if first {
			w.block(p, "Subcontracted work", "Work", "Description", ">Price "+w.sign, "=Unit", ">Least a row "+w.sign, "", "", "", "", "", "", ">From", "<Supplier", "<Cell")
			first = false
		}
		n := p.next()
		w.subcontract.set(s.Work, p.cell(priceOf, n))
		w.least.set(s.Work, p.cell(priceE, n))
		p.add(w.source([]grid.Cell{words(s.Work, wrapped), words(s.Description, wrapped), cost(s.Price), unitCell(s.Unit), cost(s.Least)},
			s.From, s.Supplier, cmp.Or(s.PriceAt, s.At))...)
	}
	w.close(p, &first)
}

// hired reports of a plant whether a preliminary bears its fixed and its weekly
// price.
func (w *working) hired(plant string) (once, weekly bool) {
	for _, l := range w.Priced.Preliminaries {
		if rates.Same(l.Row.Plant, plant) {
			once = once || l.Basis == price.Fixed && l.Row.Fixed.IsZero()
			weekly = weekly || l.Basis == price.Timed && l.Row.Weekly.IsZero()
		}
	}
	return once, weekly
}

// priceIf is a price that may be changed where the job bears it: a price that
// nothing reads is not to look as if it moved the bill, and none at all is blank.
func priceIf(borne bool, p money.Price) grid.Cell {
	switch {
	case borne:
		return cost(p)
	case p.IsZero():
		return grid.Cell{}
	}
	return figure(p.Decimal(), priceFormat)
}

// close ends a block that has rows; first is then true for the next.
func (w *working) close(p *page, first *bool) {
	if !*first {
		p.gap()
	}
	*first = true
}

// normsUsed are the norms of the tasks that the job's build-ups ask for.
func (w *working) normsUsed(p *page) {
	used := cells{}
	for _, l := range w.Hours.Lines {
		for _, t := range l.Tasks {
			if t.Norm.Task != "" {
				used.set(t.Norm.Task, "")
			}
		}
	}
	first := true
	for _, t := range w.Book.Norms {
		if in, ok := w.Book.Norm(t.Task, w.Job.TenderDate); !ok || in.At != t.At || !has(used, t.Task) {
			continue
		}
		if first {
			w.block(p, "Norms: what learning makes of the hours is as priced; run again to choose anew", "Task", "Description", ">Hours", "=For one", ">Set-up hours", ">Learning", "=Place", "Trade", "", "", "", ">From", "<Source", "<Cell")
			first = false
		}
		n := p.next()
		w.norms.set(t.Task, p.cell(priceOf, n))
		w.setUps.set(t.Task, p.cell(priceE, n))
		row := []grid.Cell{words(t.Task, wrapped), words(t.Description, wrapped), typed(t.Hours, priceFormat), unitCell(t.Unit),
			typed(t.SetUp, priceFormat), {}, words(string(t.Place), centred(plain)), words(t.Trade, plain)}
		if !t.Learning.IsZero() {
			row[priceF-1] = figure(t.Learning.Fraction(), percentFormat(t.Learning))
		}
		p.add(w.source(row, t.From, t.Source, t.At)...)
	}
	w.close(p, &first)
}

// additions are the overheads and profit on each kind of cost; a kind of which
// the yard says nothing bears none.
func (w *working) additions(p *page) {
	w.block(p, "Overheads and profit", "Kind of cost", "", ">Overheads", ">Profit", "", "", "", "", "", "", "", "", "", "<Cell")
	for _, k := range rates.Kinds() {
		a := w.Job.Addition(k)
		n := p.next()
		w.overheads.set(string(k), p.cell(priceOf, n))
		w.profits.set(string(k), p.cell(priceUnit, n))
		p.add(w.source([]grid.Cell{words(string(k), plain), {}, fraction(a.Overheads), fraction(a.Profit)}, time.Time{}, "", a.At)...)
	}
	p.gap()
}

// taxRates are the codes of VAT on the bill, and those its lines would bear if
// the vessel did not qualify.
func (w *working) taxRates(p *page) {
	used := cells{}
	for _, t := range w.Bill.VAT {
		used.set(t.Code, "")
	}
	if o := w.Bill.Otherwise; o != nil {
		for _, t := range o.VAT {
			used.set(t.Code, "")
		}
	}
	w.block(p, "Value added tax", "Code", "Meaning", ">Rate", "=Otherwise", "", "", "", "", "", "", "", ">From", "", "<Cell")
	for _, v := range w.Book.VAT {
		if in, ok := w.Book.Tax(v.Code, w.Job.TenderDate); !ok || in.At != v.At || !has(used, v.Code) {
			continue
		}
		w.taxes.set(v.Code, p.cell(priceOf, p.next()))
		p.add(w.source([]grid.Cell{words(v.Code, plain), words(v.Meaning, wrapped), fraction(v.Rate), words(v.Otherwise, centred(plain))}, v.From, "", v.At)...)
	}
	p.gap()
}

// timbers are what is known of the timbers the job uses.
func (w *working) timbers(p *page) {
	used := cells{}
	for _, piece := range w.Takeoff.Pieces {
		used.set(piece.Timber, "")
	}
	for _, r := range w.Takeoff.Rows {
		if _, weighed := r.Amount(rates.ByWeight); weighed && r.Member != nil {
			used.set(w.timberOf(r), "")
		}
	}
	first := true
	for _, t := range w.Book.Timber {
		if in, ok := w.Book.TimberRow(t.Timber); !ok || in.At != t.At || !has(used, t.Timber) {
			continue
		}
		if first {
			w.block(p, "Timbers", "Timber", "Botanical name", ">kg/m3", "", ">Planing mm", ">Kerf mm", ">Tangential", ">Radial", ">Sawn at", ">In use at", "", "", "<Source", "<Cell")
			first = false
		}
		n := p.next()
		w.density.set(t.Timber, p.cell(priceOf, n))
		row := []grid.Cell{words(t.Timber, plain), words(t.Botanical, wrapped), typed(t.Density, countFormat), {},
			figure(t.Planing.In(measure.Mm, 2), "0.0#"), figure(t.Kerf.In(measure.Mm, 2), "0.0#"),
			figure(t.Tangential.Fraction(), percentFormat(t.Tangential)), figure(t.Radial.Fraction(), percentFormat(t.Radial))}
		if t.Dries {
			row = append(row, figure(t.SawnAt.Fraction(), percentFormat(t.SawnAt)), figure(t.InUse.Fraction(), percentFormat(t.InUse)))
		}
		p.add(w.source(row, time.Time{}, t.Source, t.At)...)
	}
	w.close(p, &first)
}
