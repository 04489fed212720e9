package verify

import (
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates/measure"
)

// wanted checks that the pieces of the plan are those of the takeoff, by Ref:
// each as it is, or in the place of one whose lengths may be chosen so many that its runs
// are made up of as many pieces as they want, none too short, none too long.
func (r *reading) wanted(t takeoff.Takeoff) bool {
	at := 0
	byRef := slices.Clone(t.Pieces)
	slices.SortStableFunc(byRef, func(a, b takeoff.Piece) int { return job.CompareRefs(a.Ref, b.Ref) })
	for _, p := range byRef {
		from := at
		for at < len(r.pieces) && r.pieces[at].Of > 0 && r.pieces[at].Ref == p.Ref {
			at++
		}
		if at > from {
			r.madeUp(p, r.pieces[from:at])
			continue
		}
		if at == len(r.pieces) || !same(r.pieces[at], p) {
			r.fault("row %q: a piece of the takeoff is not in the plan", p.Ref)
			return false
		}
		at++
	}
	if at < len(r.pieces) {
		r.fault("row %q: a piece of the plan is not in the takeoff", r.pieces[at].Ref)
	}
	return len(r.faults) == 0
}

// same reports pieces alike in all that matters here.
func same(a, b takeoff.Piece) bool {
	return alike(a, b) && a.Length == b.Length && a.Count == b.Count && a.Sawn.Equal(b.Sawn) && a.Net.Base.Equal(b.Net.Base)
}

func alike(a, b takeoff.Piece) bool {
	curves := a.Curve == nil && b.Curve == nil || a.Curve != nil && b.Curve != nil && *a.Curve == *b.Curve
	return curves && a.Ref == b.Ref && a.Carried == b.Carried && a.Timber == b.Timber && a.Stock == b.Stock && a.Shape == b.Shape &&
		a.Heart == b.Heart && a.Sapwood == b.Sapwood && a.Thickness == b.Thickness && a.Width == b.Width
}

// madeUp checks the pieces that a row's runs are made up of.
func (r *reading) madeUp(p takeoff.Piece, of []takeoff.Piece) {
	if p.Run == nil {
		r.fault("row %q: lengths are chosen that may not be", p.Ref)
		return
	}
	number, long := make([]int, p.Run.Runs), make([]measure.Length, p.Run.Runs)
	var sawn, net decimal.Decimal
	for _, o := range of {
		if !alike(o, p) || o.Of > p.Run.Runs || o.Length < p.Run.Shortest || p.Run.Longest > 0 && o.Length > p.Run.Longest || o.Count <= 0 {
			r.fault("row %q: %d pieces of %d nm in run %d are not of the run", p.Ref, o.Count, o.Length, o.Of)
			return
		}
		number[o.Of-1] += o.Count
		long[o.Of-1] += o.Length * measure.Length(o.Count)
		sawn, net = sawn.Add(o.Sawn), net.Add(o.Net.Base)
	}
	for i := range number {
		if number[i] != p.Run.Pieces || long[i] < p.Run.Along {
			r.fault("row %q: run %d has %d pieces of %d nm in all, where %d and %d are wanted", p.Ref, i+1, number[i], long[i], p.Run.Pieces, p.Run.Along)
		}
	}
	if !sawn.Equal(p.Sawn) || !net.Equal(p.Net.Base.Round(12)) {
		r.fault("row %q: the pieces of its runs have %s m3 sawn and %s net, and the row %s and %s", p.Ref, sawn, net, p.Sawn, p.Net.Base)
	}
}
