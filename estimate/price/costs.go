package price

import (
	"cmp"
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// finest is the places of a material, plant or subcontract quantity.
const finest = 3

// costs is the cost lines of one row of the schedule, by kind in printed
// order, then by name; lines of one name stay in the order of the build-up.
func (p *pricing) costs(r takeoff.Row) []Cost {
	var lines []Cost
	lines = append(lines, p.labour(r)...)
	lines = append(lines, p.timber(r)...)
	lines = append(lines, p.bought(r)...)
	lines = append(lines, p.fastenings(r)...)
	if i := r.Item; i != nil && !i.Cost.IsZero() {
		lines = append(lines, Cost{
			Ref: i.Ref, Kind: i.CostKind, Name: i.Description, Quantity: one, Unit: measure.One,
			Rate: i.Cost, Cost: i.Cost.Amount(), RateAt: i.CostAt, UseAt: i.At,
		})
	}
	slices.SortStableFunc(lines, func(a, b Cost) int {
		return cmp.Or(cmp.Compare(place(a.Kind), place(b.Kind)), cmp.Compare(rates.Key(a.Name), rates.Key(b.Name)))
	})
	for _, l := range lines {
		if !l.Bare && !l.Cost.IsZero() {
			p.kindsUsed[l.Kind] = true
		}
	}
	return lines
}

// place is where a kind stands in the printed order.
func place(k rates.Kind) int { return slices.Index(rates.Kinds(), k) }

// labour is the row's hours by trade at the trade's hour.
func (p *pricing) labour(r takeoff.Row) []Cost {
	var lines []Cost
	for _, l := range p.linesOf[r.Work.Ref] {
		at := r.Work.TradeAt
		if at.IsZero() {
			at = r.Work.At
		}
		for _, t := range l.Tasks {
			if !t.Norm.TradeAt.IsZero() {
				at = t.Norm.TradeAt
			}
		}
		trade, ok := p.trade(l.Trade, at)
		if !ok {
			continue
		}
		rate := money.PriceOf(trade.Hour())
		lines = append(lines, Cost{
			Ref: l.Ref, Kind: rates.OfLabour, Name: trade.Trade, Quantity: l.Hours, Unit: measure.Hour,
			Rate: rate, Cost: rate.Times(l.Hours), RateAt: trade.At, UseAt: r.Work.At,
		})
	}
	return lines
}

// trade is the trade in force with a rate; at is the cell that asks for it. A
// trade of no row whatever is found when the workbook is read.
func (p *pricing) trade(name string, at origin.Cell) (rates.Labour, bool) {
	row, ok := p.trades.get(name)
	switch {
	case ok && row.Hour().Sign() > 0:
		return row, true
	case ok:
		p.problem(problem.LabourPrice, row.At, fmt.Sprintf("an hour of %q comes to nothing; a Rate is wanted, or Pay with hours paid and worked", row.Trade), "38.50")
	case slices.ContainsFunc(p.book.Labour, func(l rates.Labour) bool { return rates.Same(l.Trade, name) }):
		p.later(problem.LabourPrice, at, name)
	}
	return rates.Labour{}, false
}

// timber is the row's shares of the stock it is cut from. A share is a sum of
// money already; its quantity is one.
func (p *pricing) timber(r takeoff.Row) []Cost {
	var lines []Cost
	for _, s := range p.sharesOf[r.Work.Ref] {
		row, _ := p.stock.get(s.Stock)
		note := "share by " + s.Sawn.StringFixed(6) + " m3 sawn"
		if s.Owner {
			note = "owner's timber, sawing and delivery only: " + note
		}
		lines = append(lines, Cost{
			Ref: s.Ref, Kind: rates.OfTimber, Name: s.Stock, Quantity: one, Unit: measure.One,
			Rate: money.PriceOf(s.Cost), Cost: s.Cost, Bare: s.Owner, RateAt: row.At, UseAt: r.Work.At, Note: note,
		})
	}
	return lines
}

// bought is what the row's build-up takes of materials, plant and
// subcontracted work. Work of one name is one line, for its least charge is by
// the row of the schedule.
func (p *pricing) bought(r takeoff.Row) []Cost {
	if r.Work.BuildUp == "" {
		return nil
	}
	rows, _ := p.buildUps.get(r.Work.BuildUp)
	var lines, work []Cost
	for _, u := range rows {
		var l Cost
		var ok bool
		switch u.Part {
		case rates.MaterialPart:
			l, ok = p.material(r, u)
		case rates.PlantPart:
			l, ok = p.machine(r, u)
		case rates.WorkPart:
			if l, ok = p.work(r, u); ok {
				work = gather(work, l)
			}
			continue
		}
		if ok {
			l.Cost = l.Rate.Times(l.Quantity)
			lines = append(lines, l)
		}
	}
	for _, l := range work {
		if l.Cost = l.Rate.Times(l.Quantity); l.Cost.Cmp(l.Least) < 0 {
			l.Cost = l.Least
			l.Note = joined("least charge", l.Note)
		}
		lines = append(lines, l)
	}
	return lines
}

// gather adds a line of work to those there are.
func gather(lines []Cost, l Cost) []Cost {
	for i := range lines {
		if rates.Same(lines[i].Name, l.Name) {
			lines[i].Quantity = lines[i].Quantity.Add(l.Quantity)
			lines[i].Asked = append(lines[i].Asked, l.Asked...)
			return lines
		}
	}
	return append(lines, l)
}

func (p *pricing) material(r takeoff.Row, u rates.BuildUp) (Cost, bool) {
	m, ok := p.materials.get(u.Item)
	if !ok {
		if slices.ContainsFunc(p.book.Materials, func(m rates.Material) bool { return rates.Same(m.Material, u.Item) }) {
			p.later(problem.MaterialPrice, u.ItemAt, u.Item)
		}
		return Cost{}, false
	}
	return p.asked(r, u, Cost{Kind: rates.OfMaterials, Name: m.Material, Unit: m.Unit, Rate: m.Price, RateAt: m.At})
}

func (p *pricing) machine(r takeoff.Row, u rates.BuildUp) (Cost, bool) {
	m, ok := p.plant.get(u.Item)
	switch {
	case !ok:
		if slices.ContainsFunc(p.book.Plant, func(m rates.Plant) bool { return rates.Same(m.Plant, u.Item) }) {
			p.later(problem.PlantPrice, u.ItemAt, u.Item)
		}
		return Cost{}, false
	case m.Each.IsZero() || m.Unit == "":
		p.problem(problem.PlantPrice, u.ItemAt, fmt.Sprintf("%q has no price for each; a build-up needs Each and its Unit in Plant", m.Plant), "")
		return Cost{}, false
	}
	return p.asked(r, u, Cost{Kind: rates.OfPlant, Name: m.Plant, Unit: m.Unit, Rate: m.Each, RateAt: m.At})
}

func (p *pricing) work(r takeoff.Row, u rates.BuildUp) (Cost, bool) {
	w, ok := p.works.get(u.Item)
	if !ok {
		if slices.ContainsFunc(p.book.Subcontract, func(w rates.Subcontract) bool { return rates.Same(w.Work, u.Item) }) {
			p.later(problem.WorkPrice, u.ItemAt, u.Item)
		}
		return Cost{}, false
	}
	return p.asked(r, u, Cost{
		Kind: rates.OfSubcontract, Name: w.Work, Unit: w.Unit, Rate: w.Price, Least: w.Least.Amount(), RateAt: w.At,
	})
}

// asked completes a cost line with the quantity a build-up row asks: its
// quantity times the driver, waste added, to 0.001. The cost itself waits.
func (p *pricing) asked(r takeoff.Row, u rates.BuildUp, l Cost) (Cost, bool) {
	taken, found := r.Take(u, l.Unit)
	if found != nil {
		p.problems.Add(*found)
		return Cost{}, false
	}
	l.Ref, l.UseAt, l.Note = r.Work.Ref, u.At, u.Note
	l.Quantity = taken.Amount.Mul(u.Waste.Fraction().Add(one)).Round(finest)
	l.Asked = []Asked{{BuildUp: u, Taken: taken, Quantity: l.Quantity}}
	return l, !l.Quantity.IsZero()
}

// fastenings is the material of the fastenings takeoff counted, by the rows of
// the rule. A rule row without a material prices nothing: its fastenings are in
// a build-up.
func (p *pricing) fastenings(r takeoff.Row) []Cost {
	var lines []Cost
	for _, f := range r.Fastenings {
		if f.Material == "" {
			continue
		}
		m, ok := p.materials.get(f.Material)
		switch {
		case !ok:
			if slices.ContainsFunc(p.book.Materials, func(m rates.Material) bool { return rates.Same(m.Material, f.Material) }) {
				p.later(problem.MaterialPrice, f.Rule.MaterialAt, f.Material)
			}
		case m.Unit.Dimension() != measure.Count:
			p.problem(problem.FastenerUnit, f.Rule.MaterialAt,
				fmt.Sprintf("%q is sold by the %q; fastenings are counted, so a material sold by nr or pair is wanted", m.Material, string(m.Unit)), "")
		default:
			n := measure.Of(f.Number, measure.Nr).In(m.Unit, finest)
			lines = append(lines, Cost{
				Ref: r.Work.Ref, Kind: rates.OfMaterials, Name: m.Material, Quantity: n, Unit: m.Unit,
				Rate: m.Price, Cost: m.Price.Times(n), RateAt: m.At, UseAt: f.Rule.At, Note: "fastening rule " + f.Rule.Rule,
			})
		}
	}
	return lines
}

// later says that a key has rows, but none in force.
func (p *pricing) later(code problem.Code, at origin.Cell, key string) {
	p.problems.Add(problem.Problem{Code: code, At: at, With: p.job.Cell("Tender date"),
		Text: fmt.Sprintf("%q has no price on the tender date, %s; a row that holds from that day or before is wanted", key, p.day.Format("2006-01-02"))})
}

func (p *pricing) problem(code problem.Code, at origin.Cell, text, example string) {
	p.problems.Add(problem.Problem{Code: code, At: at, Text: text, Example: example})
}

// joined is two notes as one.
func joined(a, b string) string {
	if b == "" {
		return a
	}
	return a + "; " + b
}

var one = decimal.New(1, 0)
