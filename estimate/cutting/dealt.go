package cutting

import (
	"cmp"
	"slices"

	"github.com/shopspring/decimal"

	"futtock/estimate/takeoff"
	"futtock/rates/measure"
)

// end is one run to be made up of pieces.
type end struct {
	kind, piece int // of the bench, and the place among its pieces
	number      int // which of the row's runs
	need        int64
	left        int // pieces still to come
	got         []int64
}

func (e *end) sum() int64 {
	var sum int64
	for _, l := range e.got {
		sum += l
	}
	return sum
}

// deal makes every run of a want up of the lengths, each about as often as it is given: always
// the next longest to the run that needs the most a piece. What a run then lacks is added to
// its pieces, the shortest first, and what it has too much is taken off, so that pieces keep lengths
// that the relaxation would have where they can.
func (b *bench) deal(w want, lengths []int64, out [][]takeoff.Piece) {
	var runs []*end
	for _, k := range w.kinds {
		for n, i := range b.kinds[k].pieces {
			r := b.yard.pieces[i].Run
			for number := range r.Runs {
				runs = append(runs, &end{kind: k, piece: n, number: number, need: int64(r.Along), left: r.Pieces})
			}
		}
	}
	for _, l := range lengths {
		var to *end
		for _, r := range runs {
			if r.left > 0 && (to == nil || (r.need-r.sum())*int64(to.left) > (to.need-to.sum())*int64(r.left)) {
				to = r
			}
		}
		to.got = append(to.got, l)
		to.left--
	}
	trade(runs)
	for _, r := range runs {
		r.fit(w, lengths)
	}
	for _, k := range w.kinds {
		for n, i := range b.kinds[k].pieces {
			p := b.yard.pieces[i]
			var of []*end
			for _, r := range runs {
				if r.kind == k && r.piece == n {
					of = append(of, r)
				}
			}
			out[k] = append(out[k], ofLengths(p, of)...)
		}
	}
}

// trade changes pieces about between a run that lacks and one that has too much, while
// that lessens what is lacking in all.
func trade(runs []*end) {
	lack := func(e *end, by int64) int64 { return max(0, e.need-e.sum()-by) }
	for better := true; better; {
		better = false
		for _, a := range runs {
			for _, c := range runs {
				if lack(a, 0) == 0 || a == c {
					continue
				}
				for i := range a.got {
					for k := range c.got {
						by := c.got[k] - a.got[i]
						if by > 0 && lack(a, by)+lack(c, -by) < lack(a, 0)+lack(c, 0) {
							a.got[i], c.got[k] = c.got[k], a.got[i]
							better = true
						}
					}
				}
			}
		}
	}
}

// fit makes the pieces of a run come to it exactly.
func (e *end) fit(w want, lengths []int64) {
	slices.Sort(e.got)
	over := e.sum() - e.need
	// A piece goes down to a shorter length that is in use where that takes off most of it.
	for over > 0 {
		at, to, off := -1, int64(0), int64(0)
		for i, l := range e.got {
			for _, s := range lengths {
				if l-s <= over && l-s > off {
					at, to, off = i, s, l-s
				}
			}
		}
		if at < 0 {
			break
		}
		e.got[at] = to
		over -= off
	}
	for i := range e.got {
		e.got[i] -= max(0, min(over, e.got[i]-w.shortest))
		over = e.sum() - e.need
	}
	for i := range e.got { // lacking
		e.got[i] += max(0, min(-over, w.longest-e.got[i]))
		over = e.sum() - e.need
	}
	slices.SortFunc(e.got, func(a, b int64) int { return cmp.Compare(b, a) })
}

// ofLengths is the pieces of a row with the lengths that its runs were given. Volumes are shared
// by length, by running totals, so that they add up to the row's.
func ofLengths(p takeoff.Piece, runs []*end) []takeoff.Piece {
	var out []takeoff.Piece
	for _, r := range runs {
		for i, l := range r.got {
			if i > 0 && l == r.got[i-1] {
				out[len(out)-1].Count++
				continue
			}
			one := p
			one.Length, one.Count, one.Of = measure.Length(l), 1, r.number+1
			out = append(out, one)
		}
	}
	var all, before decimal.Decimal
	for _, o := range out {
		all = all.Add(o.Length.Metres().Mul(count(o)))
	}
	upTo := func(whole, at decimal.Decimal, places int32) decimal.Decimal {
		return whole.Mul(at).DivRound(all, places)
	}
	for i := range out {
		o := &out[i]
		after := before.Add(o.Length.Metres().Mul(count(*o)))
		o.Net.Base = upTo(p.Net.Base, after, sixth+6).Sub(upTo(p.Net.Base, before, sixth+6))
		o.Sawn = upTo(p.Sawn, after, sixth).Sub(upTo(p.Sawn, before, sixth))
		before = after
	}
	return out
}
