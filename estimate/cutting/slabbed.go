package cutting

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/cutting/log"
	"futtock/estimate/cutting/order"
	"futtock/rates"
	"futtock/rates/measure"
)

// mostBoards is how many thicknesses of boards are shown of one class of logs.
const mostBoards = 3

// boards is what the logs in force whose timber is in the order would give sawn through
// and through, into boards of each of the thicknesses that most of the straight pieces by volume have
// which they may be sawn into and of which three go into the top.
func (y *yard) boards(p Plan) []order.Boards {
	var out []order.Boards
	for _, s := range y.sources {
		if s.stock.Form != rates.Log || s.fault != "" || !slices.ContainsFunc(p.Species, func(o order.Species) bool { return rates.Same(o.Timber, s.stock.Timber) }) {
			continue
		}
		for _, t := range thicknesses(p, s.stock) {
			out = append(out, slabbed(s.stock, t, y.kerf(s.stock.Timber)))
		}
	}
	return out
}

// thicknesses is those of the boards to show of a log, the thickest first.
func thicknesses(p Plan, s rates.Stock) []measure.Length {
	volume := map[measure.Length]decimal.Decimal{}
	var found []measure.Length
	for _, k := range p.Pieces {
		serves := rates.Same(k.Stock, s.Stock)
		if k.Stock == "" {
			serves = rates.Same(k.Timber, s.Timber) && k.Serves(s)
		}
		if !serves || !k.Carried.InTotal() || !sawnUp(k, s) || !k.From(s) || int64(3*k.Thickness) > logOf(s).Top {
			continue
		}
		if _, ok := volume[k.Thickness]; !ok {
			found = append(found, k.Thickness)
		}
		volume[k.Thickness] = volume[k.Thickness].Add(k.Sawn)
	}
	slices.SortFunc(found, func(a, b measure.Length) int { return cmp.Or(volume[b].Cmp(volume[a]), cmp.Compare(b, a)) })
	found = found[:min(mostBoards, len(found))]
	slices.SortFunc(found, func(a, b measure.Length) int { return cmp.Compare(b, a) })
	return found
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
