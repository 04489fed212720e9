package verify

import (
	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
)

// sections checks that the sections of a line hold its volume and cost, each by
// its volume to the penny.
func (r *reading) sections() {
	for _, l := range r.lines {
		var cost money.Amount
		var sawn decimal.Decimal
		for _, s := range l.Sections {
			var own decimal.Decimal
			for _, g := range l.Got {
				p := r.pieces[g.Piece]
				if p.Thickness == s.Thickness && p.Width == s.Width && (p.Stock != "") == s.Bound {
					own = own.Add(g.Sawn)
				}
			}
			if !own.Equal(s.Sawn) {
				r.fault("stock %q: section %d x %d nm has %s m3, and %s are cut", l.Stock.Stock, s.Thickness, s.Width, s.Sawn, own)
			}
			r.inProportion(l.Stock.Stock, s.Cost, l.Cost, s.Sawn, l.Sawn)
			cost, sawn = cost.Add(s.Cost), sawn.Add(s.Sawn)
		}
		if !cost.Equal(l.Cost) || !sawn.Equal(l.Sawn) {
			r.fault("stock %q: the sections bear %s of %s and %s of %s m3", l.Stock.Stock, cost, l.Cost, sawn, l.Sawn)
		}
	}
}

// inProportion checks a part of a cost against its volume, to the penny that
// running totals may move it.
func (r *reading) inProportion(stock string, part, whole money.Amount, volume, all decimal.Decimal) {
	if all.IsZero() {
		return
	}
	exact := whole.Decimal().Mul(volume).DivRound(all, 8)
	if part.Decimal().Sub(exact).Abs().GreaterThan(decimal.New(1, -2)) {
		r.fault("stock %q: %s of %s is borne for %s of %s m3", stock, part, whole, volume, all)
	}
}

// shares checks that the rows bear every section's cost, each by its sawn volume.
func (r *reading) shares() {
	seen := 0
	for _, l := range r.lines {
		for _, s := range l.Sections {
			all, rows := r.pool(l, s)
			var cost money.Amount
			var sawn decimal.Decimal
			for _, h := range r.plan.Shares {
				if !rates.Same(h.Stock, l.Stock.Stock) || h.Thickness != s.Thickness || h.Width != s.Width || !r.belongs(h.Ref, l, s) {
					continue
				}
				seen++
				if !h.Sawn.Equal(rows[h.Ref]) || !h.Of.Equal(all) || h.Owner != l.Stock.ByOwner {
					r.fault("row %q bears stock %q for %s of %s m3, and has %s of %s", h.Ref, h.Stock, h.Sawn, h.Of, rows[h.Ref], all)
				}
				r.inProportion(h.Stock, h.Cost, s.Cost, h.Sawn, all)
				cost, sawn = cost.Add(h.Cost), sawn.Add(h.Sawn)
			}
			if !cost.Equal(s.Cost) || !sawn.Equal(all) {
				r.fault("stock %q: the rows bear %s of the %s of section %d x %d nm, for %s of %s m3",
					l.Stock.Stock, cost, s.Cost, s.Thickness, s.Width, sawn, all)
			}
		}
	}
	if seen != len(r.plan.Shares) {
		r.fault("%d shares belong to a line, and there are %d", seen, len(r.plan.Shares))
	}
}

// pool is the sawn volume of all pieces that bear a section together, and of
// each row of it: of one timber and section and carried alike, either bound to
// the line or to none.
func (r *reading) pool(l order.Line, s order.Section) (decimal.Decimal, map[string]decimal.Decimal) {
	var all decimal.Decimal
	rows := map[string]decimal.Decimal{}
	for _, o := range r.lines {
		if o.Carried != l.Carried || !rates.Same(o.Stock.Timber, l.Stock.Timber) {
			continue
		}
		for _, g := range o.Got {
			if r.bears(g.Piece, l, s) {
				all, rows[g.Ref] = all.Add(g.Sawn), rows[g.Ref].Add(g.Sawn)
			}
		}
	}
	return all, rows
}

// bears reports a piece whose row bears a section of a line.
func (r *reading) bears(piece int, l order.Line, s order.Section) bool {
	p := r.pieces[piece]
	inTotal := l.Carried == job.Measured
	switch {
	case p.Thickness != s.Thickness || p.Width != s.Width, p.Carried.InTotal() != inTotal, !inTotal && p.Carried != l.Carried:
		return false
	case s.Bound:
		return rates.Same(p.Stock, l.Stock.Stock)
	}
	return p.Stock == ""
}

func (r *reading) belongs(ref string, l order.Line, s order.Section) bool {
	for i, p := range r.pieces {
		if p.Ref == ref && r.bears(i, l, s) {
			return true
		}
	}
	return false
}

// totals checks the summary by species and the bound.
func (r *reading) totals() {
	var cost, species money.Amount
	var bought, had decimal.Decimal
	for _, l := range r.plan.Order {
		cost, bought = cost.Add(l.Cost), bought.Add(l.Bought)
	}
	for _, s := range r.plan.Species {
		species, had = species.Add(s.Cost), had.Add(s.Bought)
		var sum measure.Quantity
		for _, l := range r.plan.Order {
			if rates.Same(l.Stock.Timber, s.Timber) {
				sum.Base = sum.Base.Add(l.Net)
			}
		}
		if !sum.Base.Equal(s.Net) || !s.Waste.Equal(s.Bought.Sub(s.Net)) {
			r.fault("%s: %s m3 net and %s waste of %s bought, where the lines hold %s net", s.Timber, s.Net, s.Waste, s.Bought, sum.Base)
		}
	}
	if !species.Equal(cost) || !had.Equal(bought) {
		r.fault("the timbers cost %s for %s m3, and the order %s for %s", species, had, cost, bought)
	}
	if !r.plan.Bound.Cost.Equal(cost) || r.plan.Bound.Least.Cmp(cost) > 0 {
		r.fault("the order costs %s, is said to cost %s and could not cost less than %s", cost, r.plan.Bound.Cost, r.plan.Bound.Least)
	}
}
