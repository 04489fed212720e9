package cutting

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// Held is a purchase that is held while the schedule and the prices change: the
// sticks and their sawing stay as they were chosen, and what changes is what they
// cost and who bears it.
type Held struct {
	lines []order.Line
	rows  map[pool][]borne          // as the lines are shared
	asked map[stand]decimal.Decimal // by the takeoff the lines were chosen for, m3 sawn
	borne map[stand]decimal.Decimal // by the lines, m3 sawn
}

// stand is a row in a pool.
type stand struct {
	ref string
	of  pool
}

// Hold holds the purchase of a plan that was made for a takeoff.
func Hold(p Plan, t takeoff.Takeoff) Held {
	h := Held{rows: map[pool][]borne{}, asked: map[stand]decimal.Decimal{}, borne: map[stand]decimal.Decimal{}}
	h.add(p, t)
	return h
}

// add puts a plan of pieces to the purchase, none of whose pools it has.
func (h *Held) add(p Plan, t takeoff.Takeoff) {
	lines := slices.Concat(p.Order, p.Maybe)
	h.lines = slices.Concat(h.lines, lines)
	for of, rows := range rowsOf(p.Pieces, lines) { // each by itself: the order of the map is of no account
		h.rows[of] = rows
		for _, r := range rows {
			h.borne[stand{r.ref, of}] = r.sawn
		}
	}
	for of, sawn := range askedBy(t) {
		h.asked[of] = sawn
	}
}

// askedBy is what every row has sawn in every pool.
func askedBy(t takeoff.Takeoff) map[stand]decimal.Decimal {
	out := map[stand]decimal.Decimal{}
	for _, p := range t.Pieces {
		of := stand{p.Ref, poolOfPiece(p)}
		out[of] = out[of].Add(p.Sawn)
	}
	return out
}

func poolOfPiece(p takeoff.Piece) pool {
	out := pool{timber: rates.Key(p.Timber), bound: rates.Key(p.Stock), section: sectionOf(p), carried: p.Carried}
	if p.Carried.InTotal() {
		out.carried = job.Measured
	}
	return out
}

// Bear is what the rows of a takeoff bear of the purchase at the prices of a book:
// a plan of shares alone, and the purchase to hold on to.
//
// A line that the book still has in its form costs what as many sticks, or as much by the
// cube, come to at the book's prices. What a section costs in a line goes up and down with what is sawn of it:
//
//	round(cost x volume sawn now / volume sawn when it was bought, 2)
//
// and is shared over its rows by sawn volume, as ever. A section that was not bought is
// charged at the cost of its timber for a cubic metre sawn, over all its sections
// or those bound to the same line; a timber or a bound line of which nothing was
// bought is planned by itself from the stock of the book, and held from then on.
// A takeoff and prices that are as they were bear to the penny what they bore.
// Sections at 300.00 for 0.060 m3 of which 0.080 is wanted bear 400.00.
func (h Held) Bear(j *job.Job, b *rates.Book, t takeoff.Takeoff) (Plan, Held, problem.List) {
	var problems problem.List
	h, problems = h.with(j, b, t)
	h = h.at(j, b)
	pools, wanted := h.wanted(t)
	var out []order.Share
	for _, of := range pools {
		among := wanted[of]
		weights := make([]decimal.Decimal, len(among))
		var all decimal.Decimal
		for i, r := range among {
			weights[i] = r.sawn
			all = all.Add(r.sawn)
		}
		for _, c := range h.basis(of, all) {
			for i, part := range share(c.cost, weights) {
				out = append(out, order.Share{Ref: among[i].ref, Stock: c.stock.Stock, Thickness: of.section.Thickness, Width: of.section.Width,
					Bound: of.section.Bound, Sawn: among[i].sawn, Of: all, Cost: part, Owner: c.stock.ByOwner})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b order.Share) int {
		return cmp.Or(job.CompareRefs(a.Ref, b.Ref), job.CompareRefs(a.Stock, b.Stock),
			cmp.Compare(a.Thickness, b.Thickness), cmp.Compare(a.Width, b.Width))
	})
	return Plan{Shares: out}, h, problems
}

// with is the purchase with what it has no price for planned by itself beside it.
func (h Held) with(j *job.Job, b *rates.Book, t takeoff.Takeoff) (Held, problem.List) {
	served := map[[2]string]bool{} // timbers, with the line that rows are bound to
	for of := range h.rows {
		served[[2]string{of.timber, of.bound}] = true
	}
	of := takeoff.Takeoff{Rows: t.Rows}
	for _, p := range t.Pieces {
		if !served[[2]string{rates.Key(p.Timber), rates.Key(p.Stock)}] {
			of.Pieces = append(of.Pieces, p)
		}
	}
	if len(of.Pieces) == 0 {
		return h, nil
	}
	plan, problems := Cut(j, b, of)
	grown := Held{lines: h.lines, rows: map[pool][]borne{}, asked: map[stand]decimal.Decimal{}, borne: map[stand]decimal.Decimal{}}
	for k, v := range h.rows {
		grown.rows[k] = v
	}
	for k, v := range h.asked {
		grown.asked[k] = v
	}
	for k, v := range h.borne {
		grown.borne[k] = v
	}
	grown.add(plan, of)
	return grown, problems
}

// at is the purchase at the prices of a book. A line that the book does not have, has
// in another form, or no longer has a price for that suits its size, costs what it did.
func (h Held) at(j *job.Job, b *rates.Book) Held {
	h.lines = slices.Clone(h.lines)
	for i := range h.lines {
		l := &h.lines[i]
		s, known := b.StockRow(l.Stock.Stock, j.TenderDate)
		if !known || s.Form != l.Stock.Form || s.ByOwner != l.Stock.ByOwner {
			continue
		}
		if s.Form == rates.Cube {
			buy := l.Buy
			if s.Unit != l.Stock.Unit {
				buy = measure.Of(l.Buy, l.Stock.Unit).In(s.Unit, sixth)
			}
			l.Stock, l.Buy, l.Cost = s, buy, cubeCost(s, buy)
		} else {
			each, _, err := s.StickPrice()
			if err != nil {
				continue
			}
			l.Stock, l.Each, l.Cost = s, each, each.Times(l.Buy)
		}
		l.Sections = slices.Clone(l.Sections)
		weights := make([]decimal.Decimal, len(l.Sections))
		for k, c := range l.Sections {
			weights[k] = c.Sawn
		}
		for k, c := range share(l.Cost, weights) {
			l.Sections[k].Cost = c
		}
	}
	return h
}

// wanted is the pools of a takeoff in the order of their first pieces, with their
// rows by Ref. A row that asks for what it asked for when it was bought has the
// volume it was charged by then, and any other that of its takeoff.
func (h Held) wanted(t takeoff.Takeoff) ([]pool, map[pool][]borne) {
	var pools []pool
	rows := map[pool][]borne{}
	asked := askedBy(t)
	for _, p := range t.Pieces {
		of := poolOfPiece(p)
		if rows[of] == nil {
			pools = append(pools, of)
		}
		if slices.ContainsFunc(rows[of], func(r borne) bool { return r.ref == p.Ref }) {
			continue
		}
		at := stand{p.Ref, of}
		sawn := asked[at]
		if was, held := h.borne[at]; held && sawn.Equal(h.asked[at]) {
			sawn = was
		}
		rows[of] = append(rows[of], borne{p.Ref, sawn})
	}
	for _, r := range rows { // each by itself: the order of the map is of no account
		slices.SortFunc(r, func(a, b borne) int { return job.CompareRefs(a.ref, b.ref) })
	}
	return pools, rows
}

// charge is what a pool bears of a line.
type charge struct {
	stock rates.Stock
	cost  money.Amount
}

// basis is what so much sawn of a pool costs by the lines that serve it: those of
// its own section, else of its section however the rows are carried, else of its timber.
func (h Held) basis(of pool, sawn decimal.Decimal) []charge {
	for _, like := range []func(pool) bool{
		func(p pool) bool { return p == of },
		func(p pool) bool { return p.timber == of.timber && p.bound == of.bound && p.section == of.section },
		func(p pool) bool { return p.timber == of.timber && p.bound == of.bound },
	} {
		var all decimal.Decimal
		bought := false
		for p, rows := range h.rows { // a sum: the order of the map is of no account
			if like(p) {
				bought = true
				for _, r := range rows {
					all = all.Add(r.sawn)
				}
			}
		}
		if !bought || all.IsZero() && !sawn.IsZero() {
			continue
		}
		var out []charge
		for _, l := range h.lines {
			var cost money.Amount
			found := false
			for _, s := range l.Sections {
				if like(poolOf(l, s)) {
					cost, found = cost.Add(s.Cost), true
				}
			}
			if !found {
				continue
			}
			if !sawn.Equal(all) {
				cost = money.Round(cost.Decimal().Mul(sawn).DivRound(all, sixteenth))
			}
			out = append(out, charge{l.Stock, cost})
		}
		return out
	}
	return nil
}

// sixteenth is the places of a ratio of volumes.
const sixteenth = 16
