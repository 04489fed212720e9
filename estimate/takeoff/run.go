package takeoff

import (
	"fmt"
	"slices"
	"sort"
	"strings"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

// run is new timber in one length: of one piece, or of several end to end.
type run struct {
	like    Piece          // what all its pieces have in common
	along   measure.Length // with the joints to old work; of a curved run round its concave edge
	scarph  measure.Length
	curve   *Curve // of the whole member
	whole   bool   // the run is the whole member, with nothing added
	longest measure.Length
	growth  Growth // of its section
}

// mostPieces is more than any run is got in; no longer search is made.
const mostPieces = 100_000

// piece is one of n equal pieces. It returns false where the piece would be
// more than half a circle.
func (r run) piece(n int) (Piece, bool) {
	p := r.like
	pieces := measure.Length(n)
	p.Length = (r.along + (pieces-1)*r.scarph + pieces - 1) / pieces // up to a whole nanometre
	if r.curve == nil {
		return p, true
	}
	c := *r.curve
	if n > 1 || !r.whole {
		part, ok := c.part(p.Length)
		if !ok {
			return p, false
		}
		c = part
	}
	if c.Sweep == 0 {
		p.Length = c.Chord
		return p, true
	}
	p.Length, p.Curve = c.LengthGot(p.Width), &c
	return p, true
}

// fits reports whether n equal pieces are short enough, and one of the sticks
// gives them; with no sticks to go by only Longest piece limits them.
func (r run) fits(n int, sticks []rates.Stock) bool {
	p, ok := r.piece(n)
	if !ok || (r.longest > 0 && p.Length > r.longest) {
		return false
	}
	return len(sticks) == 0 || slices.ContainsFunc(sticks, p.From)
}

// least is the fewest pieces that fit. A run longer than its scarph has shorter
// pieces the more there are, so that the first number that fits can be searched
// for by halving; of one no longer than its scarph, one piece is the shortest.
func (r run) least(sticks []rates.Stock) (int, bool) {
	if r.fits(1, sticks) {
		return 1, true
	}
	n := 1 + sort.Search(mostPieces, func(i int) bool { return r.fits(i+1, sticks) })
	return n, n <= mostPieces
}

// pieces is the new timber of a row, one Piece that stands for all alike. The
// row takes note of the number in a run.
func (s *schedule) pieces(m *job.Member, row *Row, sound bool) []Piece {
	timber := s.timberOf(m)
	if timber == "" && m.Stock == "" {
		s.add(problem.TimberMissing, m, m.TimberAt, "there is neither Timber nor Stock; one of them is wanted for new timber")
		sound = false
	}
	if !sound || m.Nr < 1 {
		return nil
	}
	r, ok := s.run(m, row.ScarphLen)
	if !ok {
		return nil
	}
	row.Growth, row.Along = r.growth, r.along
	n, ok := s.number(m, r)
	if !ok {
		return nil
	}
	row.PiecesEach = n
	p, _ := r.piece(n)
	p.Count = m.Nr * n
	p.Sawn = p.Length.Volume(p.Width, p.Thickness).Times(decimal.New(int64(p.Count), 0)).Base.Round(6)
	if r.curve == nil && n > 1 && m.Heart != job.Boxed && m.Shortest > 0 && m.Shortest < p.Length {
		p.Run = &Run{Runs: m.Nr, Pieces: n, Along: r.along + measure.Length(n-1)*r.scarph, Shortest: m.Shortest, Longest: m.Longest}
	}
	return []Piece{p}
}

// run is the row's new timber before it is parted, with the joints to old work
// added.
func (s *schedule) run(m *job.Member, scarph measure.Length) (run, bool) {
	growth := s.sawn(m)
	joints := measure.Length(max(0, m.Joints)) * scarph
	r := run{scarph: scarph, longest: m.Longest, along: m.New() + joints, whole: m.New() == m.Length && joints == 0, growth: growth}
	r.like = Piece{
		Ref: m.Ref, At: m.At, LengthAt: m.LengthAt, Carried: m.Carried,
		Timber: s.timberOf(m), TimberAt: m.TimberAt, Stock: m.Stock, StockAt: m.StockAt,
		Shape: m.Shape, Heart: m.Heart, Sapwood: m.Sapwood, Thickness: growth.Sawn.Thickness, Width: growth.Sawn.Width,
	}
	if m.Sweep <= 0 {
		return r, true
	}
	if 2*m.Sweep > m.Length {
		s.add(problem.SweepDeep, m, m.At, "the Sweep of %s is more than half the Length of %s; the depth of the curve over the line between its ends is wanted", s.length(m.Sweep), s.length(m.Length))
		return run{}, false
	}
	c := curveOver(m.Length, m.Sweep)
	r.curve = &c
	r.along = c.round(m.New()) + joints
	return r, true
}

// number is how many pieces the run is got in. Where no joint is allowed it is
// one, and cutting finds the stick or says that there is none.
func (s *schedule) number(m *job.Member, r run) (int, bool) {
	if !m.Run() {
		p, ok := r.piece(1)
		if !ok {
			panic(fmt.Sprintf("takeoff: %d nm of an arc of %d nm over %d nm is more than half a circle", r.along, r.curve.Sweep, r.curve.Chord))
		}
		if m.Longest > 0 && p.Length > m.Longest {
			s.add(problem.PieceLong, m, m.LengthAt, "a piece of %s is longer than Longest piece, %s, and there is no Joint; a Joint is wanted, or a longer piece allowed",
				s.length(p.Length), s.length(m.Longest))
			return 0, false
		}
		return 1, true
	}
	if _, ok := r.least(nil); !ok {
		if r.scarph == 0 {
			s.add(problem.PieceLong, m, m.LengthAt, "Longest piece, %s, parts a run of %s into more pieces than can be counted; a longer one is wanted",
				s.length(m.Longest), s.length(r.along))
			return 0, false
		}
		s.add(problem.PieceLong, m, m.LengthAt, "no number of pieces is short enough: Longest piece is %s, and every piece has a scarph of %s in it",
			s.length(m.Longest), s.length(r.scarph))
		return 0, false
	}
	sticks := s.candidates(m, r)
	n, ok := r.least(sticks)
	if !ok {
		s.stickMissing(m, r, sticks)
		return 0, false
	}
	if p, _ := r.piece(n); n > 1 && p.Length < m.Shortest {
		s.add(problem.PieceShort, m, m.LengthAt, "%d equal pieces of %s are shorter than Shortest piece, %s; longer stock is wanted, or shorter pieces allowed",
			n, s.length(p.Length), s.length(m.Shortest))
		return 0, false
	}
	return n, true
}

// candidates is the stock lines the pieces of a row may be got from: the one it is
// bound to, else every one of its timber that serves rows not bound to it. None is for
// cutting to tell; where others find the timber none limits it.
func (s *schedule) candidates(m *job.Member, r run) []rates.Stock {
	if s.anyStick {
		return nil
	}
	if m.Stock == "" {
		like := r.like
		like.Curve = r.curve
		var out []rates.Stock
		for _, k := range s.sticks[rates.Key(m.Timber)] {
			if like.Serves(k) {
				out = append(out, k)
			}
		}
		return out
	}
	if k, known := s.lines[rates.Key(m.Stock)]; known {
		return []rates.Stock{k}
	}
	return nil
}

// stickMissing says what the run wants and names the nearest stick: the
// longest of those that have the section, else the largest.
func (s *schedule) stickMissing(m *job.Member, r run, sticks []rates.Stock) {
	section := func(k rates.Stock) bool {
		k.Length = 0
		return r.like.From(k)
	}
	nearest := slices.MaxFunc(sticks, func(a, b rates.Stock) int {
		x, y := section(a), section(b)
		switch {
		case x != y && x:
			return 1
		case x != y:
			return -1
		case x:
			return int(min(1, max(-1, a.Length-b.Length)))
		}
		return face(a).Cmp(face(b))
	})
	at, of := m.TimberAt, "no stick of \""+s.timberOf(m)+"\" gives"
	if m.Stock != "" {
		at, of = m.StockAt, "stock line \""+m.Stock+"\" does not give"
	}
	with := ""
	if r.scarph > 0 {
		with = " with scarphs of " + s.length(r.scarph)
	}
	s.add(problem.StickMissing, m, at, "%s a piece of the run, %s thick and %s wide%s; the nearest is %q, %s",
		of, s.size(r.like.Thickness), s.size(r.like.Width), with, nearest.Stock, s.stickSize(nearest))
}

// face is the section of a stick, only to name the largest.
func face(k rates.Stock) decimal.Decimal {
	if k.Round() {
		top := measure.Length(Top(k)).Metres()
		return top.Mul(top)
	}
	return k.Thickness.Metres().Mul(k.Width.Metres())
}

// stickSize prints what the stock line gives of a stick's size.
func (s *schedule) stickSize(k rates.Stock) string {
	var parts []string
	switch {
	case k.TopDiameter > 0:
		parts = append(parts, "top diameter "+s.size(k.TopDiameter))
	case k.MidGirth > 0:
		parts = append(parts, "mid girth "+s.size(k.MidGirth))
	}
	for _, size := range []measure.Length{k.Thickness, k.Width} {
		if size > 0 {
			parts = append(parts, s.size(size))
		}
	}
	if k.Length > 0 {
		parts = append(parts, s.length(k.Length))
	}
	return strings.Join(parts, " x ")
}
