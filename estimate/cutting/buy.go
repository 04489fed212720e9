package cutting

import (
	"cmp"
	"slices"

	"futtock/estimate/cutting/order"
	"futtock/estimate/cutting/solve"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates"
	"futtock/rates/measure"
)

// purchase is what is bought for the rows of one kind.
type purchase struct {
	yard    *yard
	carried job.Carried
	lots    []lot // by source
	short   []order.Short
	proofs  []proof // by timber
}

// lot is what a purchase takes of one source.
type lot struct {
	sticks   int
	fixed    int   // of the sticks: by number, for rows bound to them
	got      []int // by piece
	patterns []order.Pattern
}

// kind is like pieces, of one row or of several.
type kind struct {
	piece   takeoff.Piece // the first of them
	bound   *source
	pieces  []int // places in the yard's pieces, by Ref
	count   int
	net     float64 // m3 of one
	sources []*source
}

// buy plans the pieces that are wanted of one kind of row, of several kinds each by itself.
func (y *yard) buy(effort solve.Effort, kinds ...job.Carried) []*purchase {
	var out []*purchase
	var benches []*bench
	for _, c := range kinds {
		p, sawn := y.purchase(c)
		out, benches = append(out, p), append(benches, sawn...)
	}
	for _, b := range y.sawn(benches, effort) {
		b.of.take(b.bench, b.sawing)
	}
	return out
}

// purchase has what is had by number, and the benches of what is to be sawn.
func (y *yard) purchase(carried job.Carried) (*purchase, []*bench) {
	wanted := func(p takeoff.Piece) bool {
		return p.Carried == carried || carried == job.Measured && p.Carried.InTotal()
	}
	p := &purchase{yard: y, carried: carried, lots: make([]lot, len(y.sources))}
	var places []int
	for i, piece := range y.pieces {
		if wanted(piece) && piece.Count > 0 && !y.given[i] {
			places = append(places, i)
		}
	}
	slices.SortStableFunc(places, func(a, b int) int {
		return cmp.Or(compareRows(y.pieces[a], y.pieces[b]), cmp.Compare(a, b))
	})
	kinds := p.kinds(places)
	var benches []*bench
	for len(kinds) > 0 {
		timber := kinds[0].sources[0].stock.Timber
		same := func(k *kind) bool { return rates.Same(k.sources[0].stock.Timber, timber) }
		var sawnOf []*kind
		for _, k := range kinds {
			switch {
			case !same(k):
			case k.bound != nil && whole(k.bound.stock.Form) && !sawnUp(k.piece, k.bound.stock):
				p.byNumber(k)
			default:
				sawnOf = append(sawnOf, k)
			}
		}
		if len(sawnOf) > 0 {
			benches = append(benches, p.bench(timber, sawnOf))
		}
		kinds = slices.DeleteFunc(kinds, same)
	}
	return p, benches
}

// likeness is what pieces of one kind have in common.
type likeness struct {
	thickness, width, length, chord, sweep int64
	timber, bound, net                     string
	shape                                  job.Shape
	heart                                  job.Heart
	sapwood                                bool
	shortest, longest                      int64 // of a run whose lengths may be chosen
}

// kinds brings like pieces together, in the order of the first of each. Pieces
// without a source are put down as short, with the problem that says why.
func (p *purchase) kinds(places []int) []*kind {
	var out []*kind
	at := map[likeness]*kind{}
	for _, i := range places {
		piece := p.yard.pieces[i]
		bound, sources := p.yard.candidates(piece)
		if len(sources) == 0 {
			p.lack(i, piece.Count)
			continue
		}
		l := likeness{thickness: int64(piece.Thickness), width: int64(piece.Width), length: int64(piece.Length),
			timber: rates.Key(piece.Timber), shape: piece.Shape, heart: piece.Heart, sapwood: piece.Sapwood,
			net: piece.Net.Base.DivRound(count(piece), 12).String()}
		if bound != nil {
			l.bound = rates.Key(bound.stock.Stock)
		}
		if piece.Curve != nil {
			l.chord, l.sweep = int64(piece.Curve.Chord), int64(piece.Curve.Sweep)
		}
		if piece.Run != nil {
			l.shortest, l.longest = int64(piece.Run.Shortest), int64(piece.Run.Longest)
		}
		k := at[l]
		if k == nil {
			k = &kind{piece: piece, bound: bound, sources: sources,
				net: piece.Net.Base.DivRound(count(piece), 12).InexactFloat64()}
			at[l] = k
			out = append(out, k)
		}
		k.pieces = append(k.pieces, i)
		k.count += piece.Count
	}
	return out
}

// candidates is the sources a piece may come from: its bound line alone, or whatever of
// its timber serves rows not bound to it, of crooks those that a sawn curve lies in. With
// none, the problem that says why is on the list.
func (y *yard) candidates(p takeoff.Piece) (bound *source, out []*source) {
	if p.Stock != "" {
		s, ok := y.named(p.Stock)
		switch {
		case !ok:
			y.noStock(p)
			return nil, nil
		case !rates.Same(p.Timber, s.stock.Timber):
			return nil, nil // told of when the sheets were checked
		case !givesHeart(p, s.stock.Form):
			y.noHeart(p)
			return nil, nil
		case !y.usable(s):
			return nil, nil
		}
		return s, []*source{s}
	}
	heartless, faulty := false, false
	var short []*source // crooks that it does not lie in, for the message
	for _, s := range y.sources {
		switch {
		case !rates.Same(s.stock.Timber, p.Timber) || y.struck != nil && y.struck(s.stock) || !p.Serves(s.stock):
		case s.stock.Form == rates.Crook:
			switch {
			case !y.usable(s):
				faulty = true
			case p.From(s.stock):
				out = append(out, s)
			default:
				short = append(short, s)
			}
		case !givesHeart(p, s.stock.Form):
			heartless = true
		case !y.usable(s):
			faulty = true
		default:
			out = append(out, s)
		}
	}
	switch {
	case len(out) > 0 || faulty:
	case heartless:
		y.noHeart(p)
	case len(short) > 0:
		return nil, short
	default:
		y.noStock(p)
	}
	return nil, out
}

// sawnUp reports a piece that is sawn from a log among others.
func sawnUp(p takeoff.Piece, s rates.Stock) bool { return s.Form == rates.Log && p.SawnUp() }

// givesHeart reports a form that gives what is asked of the heart.
func givesHeart(p takeoff.Piece, f rates.Form) bool {
	return p.Heart != job.Boxed || f == rates.Baulk || f == rates.Log || f == rates.Spar || f == rates.Cube
}

// byNumber takes one stick for each piece.
func (p *purchase) byNumber(k *kind) {
	s := k.bound
	l := &p.lots[s.at]
	big := k.piece.From(s.stock)
	for _, i := range k.pieces {
		piece := p.yard.pieces[i]
		n := 0
		if big {
			n = piece.Count
			if limit := s.uses(); limit >= 0 {
				n = min(n, limit-l.sticks)
			}
		}
		if n > 0 {
			l.sticks += n
			l.fixed += n
			l.gets(i, n)
			l.patterns = append(l.patterns, order.Pattern{Times: n, Cuts: []order.Cut{p.yard.alone(i)}})
		}
		if n < piece.Count {
			p.lack(i, piece.Count-n)
			p.yard.wanting(i, piece.Count-n, k.sources, big)
		}
	}
}

// take puts down how the pieces of a bench are got.
func (p *purchase) take(b *bench, from sawing) {
	y := p.yard
	next := make([]func() int, len(b.kinds))
	for i, k := range b.kinds {
		next[i] = p.deal(k)
	}
	for _, st := range from.sticks {
		l := &p.lots[b.lines[st.line].at]
		for range st.times {
			l.sticks++
			var cuts []order.Cut
			for _, at := range st.places {
				i := next[at.Piece]()
				l.gets(i, 1)
				cuts = append(cuts, y.cut(i, at, b.in.Kinds[at.Piece]))
			}
			l.add(cuts)
		}
	}
	for _, c := range from.crooked {
		l := &p.lots[b.crooks[c.crook].at]
		for range c.times {
			l.sticks++
			var cuts []order.Cut
			for _, layer := range c.layers {
				for n := range layer.Beside {
					i := next[layer.Piece]()
					l.gets(i, 1)
					cut := y.alone(i)
					cut.Across, cut.Through = measure.Length(int64(n)*b.in.Kinds[layer.Piece].Pitch), measure.Length(layer.Low)
					cuts = append(cuts, cut)
				}
			}
			l.add(cuts)
		}
	}
	for _, g := range from.logged {
		s := b.logs[g.log]
		l := &p.lots[s.at]
		for range g.times {
			l.sticks++
			var cuts []order.Cut
			for _, at := range g.places {
				i := next[at.Piece]()
				l.gets(i, 1)
				cuts = append(cuts, y.ofLog(i, at, s.stock))
			}
			l.add(cuts)
		}
	}
	for c, byKind := range from.cubed {
		for k, n := range byKind {
			for range n {
				p.lots[b.cubes[c].at].gets(next[k](), 1)
			}
		}
	}
	for k, n := range from.short {
		missing := map[int]int{}
		for range n {
			missing[next[k]()]++
		}
		for _, i := range b.kinds[k].pieces {
			if missing[i] > 0 {
				p.lack(i, missing[i])
				y.wanting(i, missing[i], b.kinds[k].sources, from.held[k])
			}
		}
	}
	p.proofs = append(p.proofs, b.proof(from))
}

// deal hands out the pieces of a kind one by one, by Ref.
func (p *purchase) deal(k *kind) func() int {
	at, given := 0, 0
	return func() int {
		for given == p.yard.pieces[k.pieces[at]].Count {
			at, given = at+1, 0
		}
		given++
		return k.pieces[at]
	}
}

// gets puts n of a piece down as had.
func (l *lot) gets(piece, n int) {
	if grow := piece + 1 - len(l.got); grow > 0 {
		l.got = append(l.got, make([]int, grow)...)
	}
	l.got[piece] += n
}

// add puts a stick down, with the one before if it is sawn alike.
func (l *lot) add(cuts []order.Cut) {
	if n := len(l.patterns); n > 0 && slices.EqualFunc(l.patterns[n-1].Cuts, cuts, sameCut) {
		l.patterns[n-1].Times++
		return
	}
	l.patterns = append(l.patterns, order.Pattern{Times: 1, Cuts: cuts})
}

func sameCut(a, b order.Cut) bool {
	if a.Curve != nil && b.Curve != nil && *a.Curve == *b.Curve {
		a.Curve, b.Curve = nil, nil
	}
	return a == b
}

// lack puts n of a piece down as not to be had.
func (p *purchase) lack(piece, n int) {
	from := p.yard.pieces[piece]
	p.short = append(p.short, order.Short{Ref: from.Ref, At: from.At, Piece: piece, Count: n})
}
