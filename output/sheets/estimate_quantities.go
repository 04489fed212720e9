package sheets

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/price"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/templates/grid"
)

// fastenKey is one row of a fastening rule on a row of the schedule.
type fastenKey struct {
	ref  string
	rule origin.Cell
}

// costKey is a cost line of an item, both by their places.
type costKey struct{ item, cost int }

// quantities lays out how much of each material, plant and subcontracted work
// every row of the schedule takes, and its fastenings.
func (w *working) quantities() {
	p := w.page(quantitySheet, "Quantities of what is bought", "What rows of the schedule take by their build-ups and fastening rules. Drivers stand in Members; what is taken for one and the waste stand in Build-ups and are changed there.",
		10, 30, 28, 24, 12, 7, 10, 9, 12, 7)
	w.fastenings(p)
	w.built(p)
	if len(p.Rows) <= 4 {
		delete(w.pages, quantitySheet)
		return
	}
	p.Print.Area = "$A$1:$J$" + itoa(p.next()-1)
}

// fastenings counts the fastenings of every member by its rule:
// each x crossings x Nr, rounded up.
func (w *working) fastenings(p *page) {
	const (
		ref = iota + 1
		member
		rule
		material
		each
		crossings
		nr
		_
		number
	)
	members := w.pages[memberSheet]
	first := true
	for _, r := range w.Takeoff.Rows {
		from := p.next()
		for _, f := range r.Fastenings {
			if first {
				p.add(append([]grid.Cell{words("Fastenings by rule", band)}, blanks(9, band)...)...)
				p.add(heads("Ref", "Member", "Rule", "Material", ">Each crossing", ">Cross- ings", ">Nr", "", ">Fastenings", "")...)
				first = false
				from = p.next()
			}
			n := p.next()
			line := w.measured[r.Work.Ref].line
			p.add(w.toMember(r.Work.Ref), words(r.Member.Member, wrapped), words(f.Rule.Rule, wrapped), words(f.Material, wrapped),
				live(w.rules[f.Rule.At], f.Rule.Each, asFine(f.Rule.Each, 3)), figure(decimal.New(int64(r.Crossings), 0), countFormat),
				live(members.cell(memNr, line), decimal.New(int64(r.Member.Nr), 0), countFormat), grid.Cell{},
				// The inner rounding takes off the noise of binary fractions, so that a
				// whole number is not brought up to the next.
				live("ROUNDUP(ROUND("+at(each, n)+"*"+at(crossings, n)+"*"+at(nr, n)+",6),0)", f.Number, countFormat))
			w.fastened[fastenKey{r.Work.Ref, f.Rule.At}] = p.cell(number, n)
		}
		if to := p.next() - 1; to >= from {
			total, _ := r.Amount(rates.ByFastening)
			members.put(memFastening, w.measured[r.Work.Ref].line,
				live("SUM("+quoted(p.Name)+"!"+span(number, from, to)+")", total.In(measure.Nr, 0), countFormat))
		}
	}
	if !first {
		p.gap()
	}
}

// built works out what build-ups ask for: round(each x driver x (1 + waste), 3).
func (w *working) built(p *page) {
	const (
		ref = iota + 1
		key
		buildUp
		by
		amount
		unit
		each
		waste
		quantity
	)
	first := true
	for i, item := range w.Priced.Items {
		for k, c := range item.Costs {
			from := p.next()
			for _, a := range c.Asked {
				if first {
					p.add(append([]grid.Cell{words("By build-ups", band)}, blanks(9, band)...)...)
					n := p.add(heads("Ref", "Bought", "Build-up", "Measured by", ">Driver", "=Unit", ">For one", ">Waste", ">Quantity", "=Unit")...)
					p.Print.Repeat = "$" + itoa(n) + ":$" + itoa(n)
					first = false
					from = p.next()
				}
				n := p.next()
				u := a.BuildUp
				row := []grid.Cell{w.toMember(c.Ref), words(c.Name, wrapped), words(u.Name, wrapped), words(string(u.By), wrapped),
					w.taken(c.Ref, u.By, a.Taken), unitCell(a.Taken.Unit), live(w.builds[u.At].each, u.Quantity, asFine(u.Quantity, 6)), live(w.builds[u.At].waste, u.Waste.Fraction(), percentFormat(u.Waste)+";-0.0%;"),
					live("ROUND("+at(each, n)+"*"+at(amount, n)+"*(1+"+at(waste, n)+"),3)", a.Quantity, "#,##0.000"), unitCell(c.Unit)}
				p.add(row...)
			}
			if to := p.next() - 1; to > from {
				w.asked[costKey{i, k}] = "SUM(" + quoted(p.Name) + "!" + span(quantity, from, to) + ")"
			} else if to == from {
				w.asked[costKey{i, k}] = p.cell(quantity, from)
			}
		}
	}
}

// fastening is the number of a material that a fastening rule asks for, in its unit.
func (w *working) fastening(c price.Cost) string {
	at, ok := w.fastened[fastenKey{c.Ref, c.UseAt}]
	if !ok {
		panic("sheets: " + c.Name + " of row " + c.Ref + " is of no build-up and no fastening rule")
	}
	return "ROUND(" + convert(at, measure.Nr, c.Unit) + ",3)"
}
