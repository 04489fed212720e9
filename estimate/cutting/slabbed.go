package cutting

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/log"
	"futtock/estimate/cutting/order"
	"futtock/rates"
	"futtock/rates/measure"
)

// boards is what the logs in force whose timber is in the order would give sawn through
// and through, each into boards as thick as most of the straight pieces by volume that it may be sawn into.
func (y *yard) boards(p Plan) []order.Boards {
	var out []order.Boards
	for _, s := range y.sources {
		if s.stock.Form != rates.Log || s.fault != "" || !slices.ContainsFunc(p.Species, func(o order.Species) bool { return rates.Same(o.Timber, s.stock.Timber) }) {
			continue
		}
		if t := thickest(p, s.stock); t > 0 {
			out = append(out, slabbed(s.stock, t, y.kerf(s.stock.Timber)))
		}
	}
	return out
}

// thickest is the thickness that most of the straight pieces by volume have that a log may be
// sawn into; nil where there are none.
func thickest(p Plan, s rates.Stock) measure.Length {
	var found []measure.Length
	var volume []decimal.Decimal
	for _, k := range p.Pieces {
		if !rates.Same(k.Timber, s.Timber) || !k.Carried.InTotal() || !sawnUp(k, s) || !k.From(s) {
			continue
		}
		at := slices.Index(found, k.Thickness)
		if at < 0 {
			at = len(found)
			found, volume = append(found, k.Thickness), append(volume, decimal.Decimal{})
		}
		volume[at] = volume[at].Add(k.Sawn)
	}
	var best measure.Length
	var most decimal.Decimal
	for i, v := range volume {
		if v.GreaterThan(most) {
			best, most = found[i], v
		}
	}
	return best
}

// slabbed is a log sawn through and through into boards of a thickness.
func slabbed(s rates.Stock, thickness, kerf measure.Length) order.Boards {
	l := logOf(s)
	out := order.Boards{Stock: s, Top: measure.Length(l.Top), Length: measure.Length(l.Length), Thickness: thickness, Kerf: kerf}
	for _, b := range log.Boards(l, int64(thickness), int64(kerf), false) {
		out.Boards = append(out.Boards, order.Board{At: b.At, Low: measure.Length(b.Low), Top: measure.Length(b.Small),
			Butt: measure.Length(b.Butt), Length: measure.Length(b.Length)})
	}
	return out
}
