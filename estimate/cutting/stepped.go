package cutting

import (
	"math/bits"
	"slices"

	"futtock/estimate/cutting/board"
)

// covers is how many purchases are looked at for a bound by whole purchases.
const covers = 5_000

// offer is a kind of stick as a bound by whole purchases sees it.
type offer struct {
	most  int64             // worth one stick holds at most
	price int64             // of one, the lost ones in it, in hundredths of a penny rounded down
	cost  func(n int) int64 // of n, as they are bought
	step  func(n int) int   // the most that cost as much as n
	limit int               // as many as there are, and no more than the pieces
}

// stepped is what a purchase cannot cost less than, in hundredths of a penny, by
// what sticks hold at most of a worth of the pieces: whatever is bought must hold
// the worth of all that is wanted, in whole sticks and bought as they are sold, with
// what rounding up for Loss adds. Nil where the search would be long.
func (q *question) stepped(f board.Figures, demand []int) int64 {
	var wanted int64
	for i, v := range f.Worth {
		wanted += v * int64(demand[i])
	}
	pieces := 0 // a stick that gives nothing wanted is never bought
	for _, w := range q.wants {
		pieces += w.count
	}
	var offers []offer
	inParts := offer{most: 0, price: 1} // the cheapest that is had to any length, for what it holds
	for i, kind := range q.kinds {
		if kind.parts {
			if o := (offer{most: f.Most[i], price: q.in.Kinds[i].Cost}); o.cheaper(inParts) {
				inParts = o
			}
			continue
		}
		o := offer{most: f.Most[i], price: q.in.Kinds[i].Cost, limit: pieces}
		if most := q.in.Kinds[i].Most; most >= 0 {
			o.limit = min(pieces, most)
		}
		o.cost = func(n int) int64 { return int64(n) * o.price }
		o.step = func(n int) int { return n }
		if kind.line >= 0 {
			s := q.lines[kind.line]
			each := s.each.Decimal().Shift(2 + hundredths).IntPart()
			o.cost = func(n int) int64 { return int64(buys(s.stock, n)) * each }
			o.step = func(n int) int {
				for buys(s.stock, n+1) == buys(s.stock, n) {
					n++
				}
				return n
			}
		}
		if o.most > 0 {
			offers = append(offers, o)
		}
	}
	// The cheapest for what it holds first: after it the rest is no cheaper.
	slices.SortStableFunc(offers, func(a, b offer) int {
		switch {
		case a.cheaper(b):
			return -1
		case b.cheaper(a):
			return 1
		}
		return 0
	})
	best, looked := int64(-1), 0
	var search func(at int, left, spent int64)
	search = func(at int, left, spent int64) {
		if looked++; looked > covers {
			return
		}
		if left <= 0 {
			if best < 0 || spent < best {
				best = spent
			}
			return
		}
		if inParts.most > 0 {
			if all := spent + part(left, inParts.price, inParts.most); best < 0 || all < best {
				best = all
			}
		}
		if at == len(offers) {
			return
		}
		o := offers[at]
		if least := spent + part(left, o.price, o.most); best >= 0 && least >= best {
			return
		}
		need := int(min((left+o.most-1)/o.most, int64(o.limit)))
		for n := min(o.step(need), o.limit); looked <= covers; {
			search(at+1, left-int64(n)*o.most, spent+o.cost(n))
			if n == 0 {
				break
			}
			n = below(o, n)
		}
	}
	search(0, wanted, 0)
	if looked > covers || best < 0 { // or limits leave no purchase at all
		return 0
	}
	return best
}

// below is the most sticks that cost less than n.
func below(o offer, n int) int {
	for k := n - 1; k > 0; k-- {
		if o.cost(k) < o.cost(n) {
			return k
		}
	}
	return 0
}

// cheaper reports an offer of a lower price than another for what it holds.
func (o offer) cheaper(than offer) bool {
	a, b := product(o.price, than.most), product(than.price, o.most)
	return a[0] < b[0] || a[0] == b[0] && a[1] < b[1]
}

func product(a, b int64) [2]uint64 {
	hi, lo := bits.Mul64(uint64(a), uint64(b))
	return [2]uint64{hi, lo}
}

// part is left x price / most, rounded down.
func part(left, price, most int64) int64 {
	hi, lo := bits.Mul64(uint64(left), uint64(price))
	if hi >= uint64(most) {
		return 1 << 62 / 2
	}
	q, _ := bits.Div64(hi, lo, uint64(most))
	return int64(min(q, 1<<61))
}
