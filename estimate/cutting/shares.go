package cutting

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/money"
)

// pool is the pieces that bear the cost of a section together, whichever line
// each of them comes from: of one timber and section, either bound to one line or free.
type pool struct {
	timber, bound string
	section       order.Section // without Sawn and Cost
	carried       job.Carried
}

// borne is a row's sawn volume in a pool.
type borne struct {
	ref  string
	sawn decimal.Decimal
}

func poolOf(l order.Line, s order.Section) pool {
	p := pool{timber: rates.Key(l.Stock.Timber), carried: l.Carried,
		section: order.Section{Thickness: s.Thickness, Width: s.Width, Bound: s.Bound}}
	if s.Bound {
		p.bound = rates.Key(l.Stock.Stock)
	}
	return p
}

// shares brings the cost of every section of every line to the rows.
func shares(pieces []takeoff.Piece, lines []order.Line) []order.Share {
	rows := rowsOf(pieces, lines)
	var out []order.Share
	for _, l := range lines {
		for _, s := range l.Sections {
			among := rows[poolOf(l, s)]
			weights := make([]decimal.Decimal, len(among))
			var all decimal.Decimal
			for i, b := range among {
				weights[i] = b.sawn
				all = all.Add(b.sawn)
			}
			for i, c := range share(s.Cost, weights) {
				out = append(out, order.Share{Ref: among[i].ref, Stock: l.Stock.Stock, Thickness: s.Thickness, Width: s.Width, Bound: s.Bound,
					Sawn: among[i].sawn, Of: all, Cost: c, Owner: l.Stock.ByOwner})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b order.Share) int {
		return cmp.Or(job.CompareRefs(a.Ref, b.Ref), job.CompareRefs(a.Stock, b.Stock),
			cmp.Compare(a.Thickness, b.Thickness), cmp.Compare(a.Width, b.Width))
	})
	return out
}

// rowsOf is the rows that share a section's cost, by Ref, with what is sawn for each.
func rowsOf(pieces []takeoff.Piece, lines []order.Line) map[pool][]borne {
	rows := map[pool][]borne{}
	for _, l := range lines {
		for _, g := range l.Got {
			at := poolOf(l, sectionOf(pieces[g.Piece]))
			i := slices.IndexFunc(rows[at], func(b borne) bool { return b.ref == g.Ref })
			if i < 0 {
				rows[at] = append(rows[at], borne{g.Ref, g.Sawn})
				continue
			}
			rows[at][i].sawn = rows[at][i].sawn.Add(g.Sawn)
		}
	}
	for _, r := range rows { // each by itself: the order of the map is of no account
		slices.SortFunc(r, func(a, b borne) int { return job.CompareRefs(a.ref, b.ref) })
	}
	return rows
}

// species sums the lines of the order by timber.
func species(lines []order.Line) []order.Species {
	var out []order.Species
	for _, l := range lines {
		if n := len(out); n == 0 || !rates.Same(out[n-1].Timber, l.Stock.Timber) {
			out = append(out, order.Species{Timber: l.Stock.Timber})
		}
		s := &out[len(out)-1]
		s.Net, s.Sawn, s.Bought = s.Net.Add(l.Net), s.Sawn.Add(l.Sawn), s.Bought.Add(l.Bought)
		s.Cost = s.Cost.Add(l.Cost)
	}
	for i := range out {
		s := &out[i]
		s.Waste = s.Bought.Sub(s.Net)
		if s.Bought.Sign() > 0 {
			s.Yield = money.NewPercent(s.Net.Shift(2).DivRound(s.Bought, 1))
		}
	}
	return out
}
