package cutting

import (
	"fmt"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
	"futtock/rates/money"
	"futtock/rates/problem"
)

// yard is a job with the stock it can draw on.
type yard struct {
	job      *job.Job
	book     *rates.Book
	pieces   []takeoff.Piece
	given    []bool                 // by piece: others stand in its place, or it was not chosen
	struck   func(rates.Stock) bool // lines that serve only rows bound to them; nil for none
	sources  []*source              // by timber, then name
	problems problem.List
}

// source is a stock line in force, as it can be used.
type source struct {
	stock    rates.Stock
	at       int // place among the yard's sources
	size     usable
	each     money.Amount // of a stick
	material money.Amount
	left     int    // what may still be bought of limited stock
	bought   int    // by the order
	fault    string // why it cannot be used, or blank
	told     bool   // the fault is on the list
}

// usable is what can be cut from a stick.
type usable struct {
	thickness measure.Length
	width     measure.Length // bark off, sapwood on
	clear     measure.Length // clear of sapwood
	length    measure.Length // ends trimmed
}

func newYard(j *job.Job, b *rates.Book, t takeoff.Takeoff) *yard {
	y := &yard{job: j, book: b, pieces: slices.Clone(t.Pieces), given: make([]bool, len(t.Pieces))}
	in := b.StockInForce(j.TenderDate)
	slices.SortStableFunc(in, compareStock)
	for i, s := range in {
		y.sources = append(y.sources, newSource(s, i))
	}
	return y
}

func newSource(s rates.Stock, at int) *source {
	out := &source{stock: s, at: at, size: usableOf(s), left: max(0, s.Available)}
	switch {
	case !inspected(s.Form) && (s.Loss.Decimal().Sign() < 0 || s.Loss.Decimal().GreaterThanOrEqual(hundred)):
		out.fault = fmt.Sprintf("a Loss of %s is no share of what is bought; one from 0 %% to under 100 %% is wanted", s.Loss)
	case s.Form == rates.Cube:
		out.fault = cubeFault(s)
	default:
		var err error
		if out.each, out.material, err = s.StickPrice(); err != nil {
			out.fault = err.Error()
		} else if sawn(s.Form) && (s.Thickness <= 0 || s.Width <= 0 || s.Length <= 0) {
			out.fault = fmt.Sprintf("a %s is sawn by its Thickness, Width and Length, and one is wanting", s.Form)
		} else if sawn(s.Form) && min(out.size.clear, out.size.length) < measure.Micrometre {
			out.fault = "nothing is left of a stick once ends are trimmed, bark and sapwood are off"
		}
	}
	return out
}

var hundred = decimal.New(100, 0)

// cubeFault is why timber by the cube cannot be reckoned with.
func cubeFault(s rates.Stock) string {
	switch {
	case s.Unit.Dimension() != measure.VolumeMeasure:
		return fmt.Sprintf("timber by the cube is sold by volume, not by %q", string(s.Unit))
	case !s.Sawing.IsZero() && sawingUnit(s).Dimension() != measure.VolumeMeasure:
		return fmt.Sprintf("timber by the cube is sawn by volume, not by %q", string(s.SawingUnit))
	case s.Yield.Decimal().Sign() <= 0 || s.Yield.Decimal().GreaterThan(hundred):
		return fmt.Sprintf("a Yield of %s does not say what is bought for the timber in the ship; a share above 0 %% and up to 100 %% is wanted", s.Yield)
	}
	return ""
}

func sawingUnit(s rates.Stock) measure.Unit {
	if s.SawingUnit == "" {
		return s.Unit
	}
	return s.SawingUnit
}

// sawn reports a form that is ripped and cross-cut.
func sawn(f rates.Form) bool { return f == rates.Plank || f == rates.Baulk || f == rates.Flitch }

// whole reports a form that gives one piece a stick to a row bound to it, unless the piece is
// sawn up with others (sawnUp).
func whole(f rates.Form) bool { return !sawn(f) && f != rates.Cube }

// inspected reports a form that is chosen stick by stick and so bears no Loss.
func inspected(f rates.Form) bool { return f == rates.Crook || f == rates.Knee || f == rates.Spar }

// usableOf is what can be cut from a stick.
func usableOf(s rates.Stock) usable {
	var u usable
	u.thickness, u.width, u.length = takeoff.Clear(s, true)
	_, u.clear, _ = takeoff.Clear(s, false)
	return u
}

// buys is the sticks to buy for n used, so that n are left after Loss.
func buys(s rates.Stock, n int) int {
	if inspected(s.Form) {
		return n
	}
	q, r := decimal.New(int64(n), 2).QuoRem(hundred.Sub(s.Loss.Decimal()), 0)
	if r.Sign() > 0 {
		return int(q.IntPart()) + 1
	}
	return int(q.IntPart())
}

// uses is the sticks that can be used of those that may still be bought; below
// nil is no limit.
func (s *source) uses() int {
	switch {
	case !s.stock.Limited:
		return -1
	case inspected(s.stock.Form):
		return s.left
	}
	return int(decimal.New(int64(s.left), -2).Mul(hundred.Sub(s.stock.Loss.Decimal())).Floor().IntPart())
}

// keep is the share of what is bought that is left after Loss.
func keep(s rates.Stock) float64 {
	return hundred.Sub(s.Loss.Decimal()).Shift(-2).InexactFloat64()
}

// perUsed is the price in pennies of a stick used, the lost ones in it.
func (s *source) perUsed() float64 {
	each := s.each.Decimal().Shift(2).InexactFloat64()
	if inspected(s.stock.Form) {
		return each
	}
	return each / keep(s.stock)
}

// cubeUnit is what one unit of timber by the cube costs, exactly but for a
// sawing unit that goes into it without end, which is carried to 20 places.
func cubeUnit(s rates.Stock) decimal.Decimal {
	price := s.Delivery.Decimal()
	if !s.ByOwner {
		price = price.Add(s.Price.Decimal())
	}
	if s.Sawing.IsZero() {
		return price
	}
	return price.Add(s.Sawing.Decimal().Mul(s.Unit.Size()).DivRound(sawingUnit(s).Size(), 20))
}

// perNet is the price in pennies of a cubic metre in the ship.
func (s *source) perNet() float64 {
	net := s.stock.Unit.Size().InexactFloat64() * s.stock.Yield.Fraction().InexactFloat64() * keep(s.stock)
	return cubeUnit(s.stock).Shift(2).InexactFloat64() / net
}

// netLeft is the cubic metres in the ship that the cube still gives; below nil
// is no limit. A millionth of the unit is held back for the rounding of Needed.
func (s *source) netLeft() float64 {
	if !s.stock.Limited {
		return -1
	}
	left := max(0, float64(s.left)-1e-5)
	return left * s.stock.Unit.Size().InexactFloat64() * s.stock.Yield.Fraction().InexactFloat64() * keep(s.stock)
}

// take sets what the order has bought apart from what may be wanted.
func (s *source) take() { s.left -= s.bought }

// usable reports a source that can be reckoned with. One that cannot goes on
// the list of problems, once.
func (y *yard) usable(s *source) bool {
	if s.fault != "" && !s.told {
		s.told = true
		y.problems.Add(problem.Problem{Code: problem.StockUnusable, At: s.stock.PriceAt,
			Text: fmt.Sprintf("stock %q cannot be reckoned with: %s", s.stock.Stock, s.fault)})
	}
	return s.fault == ""
}

// named is the stock line in force of a name.
func (y *yard) named(name string) (*source, bool) {
	for _, s := range y.sources {
		if rates.Same(s.stock.Stock, name) {
			return s, true
		}
	}
	return nil, false
}

// kerf is the saw-cut in a timber; nil where the Timber sheet does not give it.
func (y *yard) kerf(timber string) measure.Length {
	t, _ := y.book.TimberRow(timber)
	return t.Kerf
}
