package cutting

import (
	"fmt"
	"math"
	"strings"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/origin"
	"futtock/rates/problem"
)

// where is the cell that ties a piece to its stock.
func where(p takeoff.Piece) origin.Cell {
	if p.Stock != "" {
		return p.StockAt
	}
	return p.TimberAt
}

// noStock puts down a piece for which no stock line is in force. A name that
// the Stock sheet does not hold at all was told of when the sheets were checked.
func (y *yard) noStock(p takeoff.Piece) {
	if p.Stock != "" {
		for _, s := range y.book.Stock {
			if rates.Same(s.Stock, p.Stock) {
				y.problems.Add(problem.Problem{Code: problem.StockNone, At: p.StockAt, With: y.job.Cell("Tender date"),
					Text: fmt.Sprintf("no row of stock %q is in force on the tender date", p.Stock)})
				return
			}
		}
		return
	}
	if _, known := y.book.TimberRow(p.Timber); !known {
		return // told of when the sheets were checked, or by takeoff where it is blank
	}
	also := ""
	switch {
	case p.SawnUp():
		also = ", log"
	case p.Curve != nil && p.Heart != job.Boxed:
		also = ", crook"
	}
	y.problems.Add(problem.Problem{Code: problem.StockNone, At: p.TimberAt, With: y.job.Cell("Tender date"),
		Text: fmt.Sprintf("no stock of %q that serves it is in force on the tender date; a plank, baulk, flitch%s or cube of it is wanted", p.Timber, also)})
}

func (y *yard) noHeart(p takeoff.Piece) {
	if p.Stock != "" {
		y.problems.Add(problem.Problem{Code: problem.HeartNotHad, At: p.StockAt,
			Text: fmt.Sprintf("a boxed heart is asked, and stock %q does not give one; a baulk, log, spar or cube is wanted", p.Stock)})
		return
	}
	also := ""
	if p.SawnUp() {
		also = ", log"
	}
	y.problems.Add(problem.Problem{Code: problem.HeartNotHad, At: p.TimberAt,
		Text: fmt.Sprintf("a boxed heart is asked, and no stock of %q gives one; a baulk%s or cube is wanted", p.Timber, also)})
}

// wanting puts down n of a piece that the sources do not give: for want of size
// or, where they are big enough, of number.
func (y *yard) wanting(piece, n int, sources []*source, big bool) {
	p := y.pieces[piece]
	wanted := fmt.Sprintf("%s, %s of %q", number(n), y.sizes(p, p.Thickness, oblong(p), p.Length), sources[0].stock.Timber)
	if big {
		y.problems.Add(problem.Problem{Code: problem.StockShort, At: where(p),
			Text: fmt.Sprintf("%s, cannot be had; of what is big enough Stock gives %s", wanted, available(p, sources))})
		return
	}
	near, at := y.nearest(p, sources)
	y.problems.Add(problem.Problem{Code: problem.StockTooSmall, At: at,
		Text: fmt.Sprintf("no stick gives %s, sawn; the nearest is %s", wanted, near)})
}

func number(n int) string {
	if n == 1 {
		return "1 piece"
	}
	return fmt.Sprintf("%d pieces", n)
}

func (y *yard) sizes(p takeoff.Piece, t, w, l measure.Length) string {
	in := y.job.SizesIn
	switch {
	case p.Shape == job.Round:
		return fmt.Sprintf("%s round x %s", t.Format(in), l.Format(y.job.LengthsIn))
	case p.Shape == job.Eight:
		return fmt.Sprintf("%s eight-sided x %s", t.Format(in), l.Format(y.job.LengthsIn))
	}
	return fmt.Sprintf("%s x %s x %s", t.Format(in), w.Format(in), l.Format(y.job.LengthsIn))
}

// available is how many there are of each source that is big enough for a piece.
func available(p takeoff.Piece, sources []*source) string {
	var out []string
	for _, s := range sources {
		if s.stock.Limited && p.From(s.stock) {
			unit := "sticks"
			switch {
			case s.stock.Form == rates.Cube:
				unit = string(s.stock.Unit)
			case s.stock.Available == 1:
				unit = "stick"
			}
			out = append(out, fmt.Sprintf("%d %s of %q", s.stock.Available, unit, s.stock.Stock))
		}
	}
	return strings.Join(out, ", ")
}

// nearest names the stick that comes nearest to a piece, and the cell of the
// size that is most at odds with it.
func (y *yard) nearest(p takeoff.Piece, sources []*source) (string, origin.Cell) {
	var best *source
	least, text := 0.0, ""
	at := p.LengthAt
	for _, s := range sources {
		lack, worst, shown := y.lacks(p, s)
		if best == nil || lack < least {
			best, least, text = s, lack, shown
			at = y.sizeAt(p, worst)
		}
	}
	if p.Stock != "" {
		at = p.StockAt
	}
	return fmt.Sprintf("%q with %s", best.stock.Stock, text), at
}

// lacks is how far, in parts of what is wanted, a stick falls short of a piece; the
// dimension that falls shortest (0 thickness, 1 width, 2 length); and what the stick has.
func (y *yard) lacks(p takeoff.Piece, s *source) (lack float64, worst int, shown string) {
	have := []measure.Length{s.size.thickness, s.size.clear, s.size.length}
	if p.Sapwood {
		have[1] = s.size.width
	}
	if s.stock.Round() {
		clear := max(0, measure.Length(clearTop(p, s.stock)))
		length := s.stock.Length - 2*s.stock.EndTrim
		shown = fmt.Sprintf("%s clear at the top x %s", clear.Format(y.job.SizesIn), length.Format(y.job.LengthsIn))
		// As much of both sizes as goes into the top with its corners, of round work all of it.
		share := 1.0
		if p.Shape == job.Square {
			t, w := float64(p.Thickness), float64(oblong(p))
			share = max(t, w) / math.Hypot(t, w)
		}
		side := measure.Length(share * float64(clear))
		have = []measure.Length{side, side, length}
	} else {
		shown = y.sizes(takeoff.Piece{}, have[0], have[1], have[2]) + " usable"
	}
	if s.stock.Form == rates.Crook && s.stock.Sweep > 0 {
		shown += fmt.Sprintf(" and a sweep of %s over %s", s.stock.Sweep.Format(y.job.SizesIn), s.stock.Length.Format(y.job.LengthsIn))
	}
	want := []measure.Length{p.Thickness, oblong(p), p.Length}
	short := func(want []measure.Length) (total float64, worst int) {
		most := 0.0
		for i := range want {
			if d := float64(want[i]-have[i]) / float64(want[i]); d > 0 {
				total += d
				if d > most {
					most, worst = d, i
				}
			}
		}
		return total, worst
	}
	lack, worst = short(want)
	if p.Curve == nil && sawn(s.stock.Form) {
		if turned, at := short([]measure.Length{want[1], want[0], want[2]}); turned < lack {
			lack, worst = turned, []int{1, 0, 2}[at]
		}
	}
	return lack, worst, shown
}

// clearTop is the top diameter in nanometres under bark, and clear of sapwood
// unless the piece allows it.
func clearTop(p takeoff.Piece, s rates.Stock) float64 {
	d := takeoff.Top(s) - 2*float64(s.Bark)
	if !p.Sapwood {
		d -= 2 * float64(s.Sapwood)
	}
	return d
}

// sizeAt is the cell of a dimension of the row a piece belongs to.
func (y *yard) sizeAt(p takeoff.Piece, dimension int) origin.Cell {
	for _, m := range y.job.Members {
		if m.Ref != p.Ref {
			continue
		}
		if dimension == 0 && !m.SidedAt.IsZero() {
			return m.SidedAt
		}
		if dimension == 1 && !m.MouldedAt.IsZero() {
			return m.MouldedAt
		}
	}
	return p.LengthAt
}
