// Package verify reads a timber plan back against what was wanted and what
// there is, without the package that made it. In come the job, the price book,
// the takeoff and the plan; out comes every fault in words, none where the
// plan holds:
//
//   - the pieces are the takeoff's, and those of a run whose lengths were chosen are as many as
//     it wants, within its bounds, and come to it;
//   - every piece is got exactly as many times as it is counted, or put down as short;
//   - every piece lies within the usable part of its stick, in its own sawn size,
//     a saw-cut from its neighbours, and the stick can be sawn so by cuts right
//     across, through its thickness, its width or its length;
//   - bound rows come from their line, unbound rows from none of the owner's,
//     from a crook only where they are sawn to a curve, from a log only where they are
//     straight and square;
//   - off-cuts lie in what the pieces leave, and are worth their volume;
//   - sticks, purchases, volumes and costs are what the counts make them, and
//     no more is bought than is available;
//   - the cost of every line is borne by its rows to the penny, in proportion to
//     their sawn volume.
//
// A plank of 306 mm clear with a kerf of 3 mm holds strips at 0, 103 and 206
// mm, each 100 mm wide; a fourth, or one at 205 mm, is a fault.
package verify

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/order"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
)

// reading is a plan being read, with the faults found so far.
type reading struct {
	job    *job.Job
	book   *rates.Book
	pieces []takeoff.Piece
	plan   order.Plan
	lines  []order.Line // of the order, and of what may be wanted
	faults []string
}

// Plan is every fault of a plan, in the order of its lines; none where it holds.
func Plan(j *job.Job, b *rates.Book, t takeoff.Takeoff, p order.Plan) []string {
	r := &reading{job: j, book: b, pieces: p.Pieces, plan: p, lines: slices.Concat(p.Order, p.Maybe)}
	if !r.wanted(t) {
		return r.faults
	}
	got := make([]int, len(r.pieces))
	for _, l := range r.lines {
		if !r.stock(l) {
			continue
		}
		cut := r.counts(l)
		if cut == nil {
			continue
		}
		for i, n := range cut {
			got[i] += n
		}
		r.sticks(l)
		r.bought(l, cut)
		r.inHand(l)
	}
	r.demand(got)
	r.available()
	if len(r.faults) == 0 { // the rest is reckoned from what was found sound so far
		r.volumes()
		r.sections()
		r.shares()
		r.totals()
	}
	return r.faults
}

func (r *reading) fault(format string, values ...any) {
	r.faults = append(r.faults, fmt.Sprintf(format, values...))
}

// stock checks that the line is the row in force and stands in the right list once.
func (r *reading) stock(l order.Line) bool {
	row, ok := r.book.StockRow(l.Stock.Stock, r.job.TenderDate)
	if !ok || row.At != l.Stock.At {
		r.fault("stock %q of the plan is not the row in force", l.Stock.Stock)
		return false
	}
	times, ordered := 0, 0
	for _, o := range r.lines {
		if o.Stock.At == l.Stock.At && o.Carried == l.Carried {
			times++
		}
	}
	for _, o := range r.plan.Order {
		if o.Stock.At == l.Stock.At && o.Carried == l.Carried {
			ordered++
		}
	}
	if times != 1 || (ordered == 1) != (l.Carried == job.Measured) {
		r.fault("stock %q carried as %s stands %d times in the plan, %d of them in the order", l.Stock.Stock, l.Carried, times, ordered)
		return false
	}
	return true
}

// counts is how many of every piece a line gives, by its patterns or, by the
// cube, by its list; nil where the two do not agree or a piece may not come from it.
func (r *reading) counts(l order.Line) []int {
	listed, cut := make([]int, len(r.pieces)), make([]int, len(r.pieces))
	for _, g := range l.Got {
		if g.Piece < 0 || g.Piece >= len(r.pieces) || g.Ref != r.pieces[g.Piece].Ref || g.Count <= 0 || listed[g.Piece] > 0 {
			r.fault("stock %q lists %d of piece %d of row %q", l.Stock.Stock, g.Count, g.Piece, g.Ref)
			return nil
		}
		listed[g.Piece] = g.Count
		if why := r.mayNot(r.pieces[g.Piece], l); why != "" {
			r.fault("row %q has pieces from stock %q, %s", g.Ref, l.Stock.Stock, why)
			return nil
		}
	}
	if l.Stock.Form == rates.Cube {
		if len(l.Patterns) > 0 {
			r.fault("stock %q by the cube has patterns", l.Stock.Stock)
			return nil
		}
		return listed
	}
	for _, p := range l.Patterns {
		for _, c := range p.Cuts {
			if c.Piece < 0 || c.Piece >= len(r.pieces) || c.Ref != r.pieces[c.Piece].Ref || p.Times <= 0 {
				r.fault("stock %q cuts piece %d of row %q %d times", l.Stock.Stock, c.Piece, c.Ref, p.Times)
				return nil
			}
			cut[c.Piece] += p.Times
		}
	}
	for i := range cut {
		if cut[i] != listed[i] {
			r.fault("stock %q lists %d of row %q and cuts %d", l.Stock.Stock, listed[i], r.pieces[i].Ref, cut[i])
			return nil
		}
	}
	return cut
}

// mayNot is why a piece may not come from a line, or blank.
func (r *reading) mayNot(p takeoff.Piece, l order.Line) string {
	inTotal := l.Carried == job.Measured
	switch {
	case p.Carried.InTotal() != inTotal || !inTotal && p.Carried != l.Carried:
		return fmt.Sprintf("which is for rows carried as %s", l.Carried)
	case !rates.Same(p.Timber, l.Stock.Timber):
		return fmt.Sprintf("which is %s and not %s", l.Stock.Timber, p.Timber)
	case p.Stock != "" && !rates.Same(p.Stock, l.Stock.Stock):
		return fmt.Sprintf("and is bound to %q", p.Stock)
	case p.Stock == "" && l.Stock.ByOwner:
		return "which is the owner's, and is not bound to it"
	case p.Stock == "" && !ripped(l.Stock.Form) && l.Stock.Form != rates.Cube && (l.Stock.Form != rates.Crook || p.Curve == nil) &&
		(l.Stock.Form != rates.Log || p.Curve != nil || p.Shape != job.Square):
		return fmt.Sprintf("which is a %s, and is not bound to it", l.Stock.Form)
	case p.Heart == job.Boxed && (l.Stock.Form == rates.Plank || l.Stock.Form == rates.Flitch || l.Stock.Form == rates.Crook || l.Stock.Form == rates.Knee):
		return fmt.Sprintf("a %s, which boxes no heart", l.Stock.Form)
	}
	return ""
}

func ripped(f rates.Form) bool { return f == rates.Plank || f == rates.Baulk || f == rates.Flitch }

// demand checks that every piece is got or short as often as it is wanted.
func (r *reading) demand(got []int) {
	short := make([]int, len(r.pieces))
	for _, s := range r.plan.Short {
		if s.Piece < 0 || s.Piece >= len(r.pieces) || s.Count <= 0 || s.Ref != r.pieces[s.Piece].Ref {
			r.fault("%d of piece %d of row %q are short", s.Count, s.Piece, s.Ref)
			return
		}
		short[s.Piece] += s.Count
	}
	for i, p := range r.pieces {
		if got[i]+short[i] != max(0, p.Count) {
			r.fault("row %q wants %d, gets %d and is short of %d", p.Ref, p.Count, got[i], short[i])
		}
	}
}

// whole is a number as a decimal.
func whole(n int) decimal.Decimal { return decimal.New(int64(n), 0) }
