package board

import (
	"fmt"
	"slices"

	"futtock/estimate/cutting/solve"
)

// Best answers package solve: the greatest worth a stick of each line can hold,
// never under the truth for the layouts of the package's class, and layouts
// worth more than the floor: the best of each line, and for every piece the one
// that is worth most over the floor among the best with that piece in it. Where
// the tables are heavy and it is asked of the whole once more after a part, it spends
// all steps: branching is not worth them.
func (s *Saw) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	if parted := !slices.Equal(wanted, s.whole); parted {
		s.parted = true
	} else if s.parted && s.heavy {
		steps.Done = max(steps.Done, steps.Most)
		return s.Pool().Best(worth, wanted, floor, steps)
	}
	most := make([]int64, len(s.shop.Sticks))
	found := s.ones(worth, wanted, floor, most, steps)
	s.asked()
	for at, g := range s.groups {
		steps.Add(g.up.ask(worth, wanted, floor != nil))
		var layouts []Layout
		for i := range g.up.bays {
			b := &g.up.bays[i]
			if b.best > 0 && (floor == nil || b.best > floor[b.stick]) {
				layouts = append(layouts, g.up.layout(b))
			}
		}
		if floor != nil {
			layouts = append(layouts, g.up.withEach(len(worth), floor)...)
		}
		for _, l := range layouts {
			steps.Add(perRun * l.runs())
			s.fill(&l, at, worth, wanted)
			found = append(found, s.column(l, wanted))
		}
		if s.parted && s.heavy {
			continue
		}
		if g.down != g.up {
			steps.Add(g.down.ask(worth, wanted, false))
		}
		for i := range g.down.bays {
			b := &g.down.bays[i]
			most[b.stick] = max(most[b.stick], b.best)
		}
	}
	if s.parted && s.heavy {
		s.far(most, worth, wanted)
	}
	return most, found
}

// far is greatest worths above any truth.
func (s *Saw) far(most, worth []int64, wanted []int) {
	all := int64(0)
	for i, v := range worth {
		all += v * int64(wanted[i])
	}
	for i := range most {
		most[i] = all
	}
}

// ones answers for the sticks that give one piece each.
func (s *Saw) ones(worth []int64, wanted []int, floor, most []int64, steps *solve.Steps) []solve.Column {
	var found []solve.Column
	for i, st := range s.shop.Sticks {
		if !st.Whole {
			continue
		}
		if best, v := s.shop.one(st, worth, wanted); best >= 0 {
			most[i] = v
			if floor == nil || v > floor[i] {
				found = append(found, s.column(s.shop.only(i, best), wanted))
			}
		}
		steps.Add(len(worth))
	}
	return found
}

// one is the piece of most worth that a stick of one piece gives, and that worth; -1
// where it gives none.
func (s Shop) one(st Stick, worth []int64, wanted []int) (best int, most int64) {
	best = -1
	for i, ok := range st.Gives {
		if !ok || !st.Whole || wanted[i] <= 0 {
			continue
		}
		v := worth[i]
		if s.Pieces[i].Longest > 0 {
			at := s.Charge(i)
			v += worth[at+1]*((st.Length+mm-1)/mm) - worth[at]
		}
		if v > most {
			best, most = i, v
		}
	}
	return best, most
}

// only is the layout of a stick that gives one piece.
func (s Shop) only(stick, piece int) Layout {
	r := Run{Piece: piece, Deep: 1}
	if s.Pieces[piece].Longest > 0 {
		r.Long = s.Sticks[stick].Length
	}
	return Layout{Stick: stick, Layers: []Layer{{{r}}}}
}

// layout is the best of a bay.
func (t *tables) layout(b *tabled) Layout {
	l := Layout{Stick: b.stick, Sap: b.sap}
	whole := t.slot(b.single).front.at(b.wide)
	switch {
	case b.middle == b.best:
		l.Boxed = true
		l.Layers = []Layer{{t.strip(b.end)}}
	case whole.worth == b.best:
		l.Layers = []Layer{t.layer(b.single, whole.end)}
	default:
		l.Layers = t.layers(b, b.front.at(b.thick).end)
	}
	return l
}

// layers is the layers of a bay up to a node.
func (t *tables) layers(b *tabled, end int32) []Layer {
	var out []Layer
	for ; end != 0; end = t.pad.nodes[end].before {
		y := b.layers[t.pad.nodes[end].part]
		out = append(out, t.layer(y.place, t.slot(y.place).front.at(b.wide).end))
	}
	return out
}

// layer is the strips of a layer up to a node.
func (t *tables) layer(at place, end int32) Layer {
	var out Layer
	for ; end != 0; end = t.pad.nodes[end].before {
		out = append(out, t.strip(t.slot(at).strips[t.pad.nodes[end].part].end))
	}
	return out
}

// strip is the runs of a strip.
func (t *tables) strip(end reached) Strip {
	t.strung = t.strung[:0]
	t.parts(end, func(part int32) { t.strung = append(t.strung, t.part(part)) })
	return append(make(Strip, 0, len(t.strung)+1), t.strung...)
}

// chosen is the best layout with a piece forced into it.
type chosen struct {
	forced *forced
	bay    *tabled
	layer  *layer // nil where the layer is the whole stick
	over   float64
}

// withEach is for every piece the layout that is worth most over the floor, in
// parts of the floor, of those with the piece forced in.
func (t *tables) withEach(pieces int, floor []int64) []Layout {
	best := make([]chosen, pieces)
	for i := range t.bays {
		b := &t.bays[i]
		for k := range t.forced {
			f := &t.forced[k]
			w := t.ways[f.way]
			left := b.wide - w.across - t.shop.Kerf
			if left < 0 {
				continue
			}
			try := func(y *layer, rest int64) {
				v := f.worth + t.slot(f.place).front.at(left).worth + rest
				if v <= floor[b.stick] {
					return
				}
				over := float64(v-floor[b.stick]) / float64(floor[b.stick]+1)
				if c := &best[w.piece]; c.forced == nil || over > c.over {
					*c = chosen{f, b, y, over}
				}
			}
			if f.place == b.single {
				try(nil, 0)
			}
			for n := range b.layers {
				if y := &b.layers[n]; y.place == f.place {
					try(y, b.front.at(b.thick-y.through).worth)
				}
			}
		}
	}
	var out []Layout
	for _, c := range best {
		if c.forced == nil {
			continue
		}
		w := t.ways[c.forced.way]
		strip := append(t.strip(c.forced.before), t.shortest(w))
		left := t.slot(c.forced.place).front.at(c.bay.wide - w.across - t.shop.Kerf)
		l := Layout{Stick: c.bay.stick, Sap: c.bay.sap}
		if c.layer != nil {
			l.Layers = t.layers(c.bay, c.bay.front.at(c.bay.thick-c.layer.through).end)
		}
		l.Layers = append([]Layer{append(Layer{strip}, t.layer(c.forced.place, left.end)...)}, l.Layers...)
		out = append(out, l)
	}
	return out
}

// column is a layout as package solve takes it, with no more than is wanted.
func (s *Saw) column(l Layout, wanted []int) solve.Column {
	if !s.shop.Sticks[l.Stick].Whole && !s.shop.fits(l) {
		panic(fmt.Sprintf("board: a layout that does not go into its stick: %+v in %+v", l, s.shop.Sticks[l.Stick]))
	}
	s.text = l.append(s.text[:0])
	gives := l.gives(s.counts)
	tag, ok := s.known[string(s.text)]
	if !ok {
		tag = len(s.layouts)
		s.keep(l, gives)
		s.known[string(s.text)] = tag
	}
	return solve.Column{Kind: l.Stick, Gives: solve.Entries(gives, wanted), Tag: tag}
}

func (s *Saw) keep(l Layout, gives []int) {
	s.layouts = append(s.layouts, l)
	s.yields = append(s.yields, solve.Entries(gives, s.whole))
}

// perRun is the steps that laying out one run is counted as, beside those of the
// tables: small pieces in a large stick are thousands.
const perRun = 4

// runs is the number of runs in a layout.
func (l Layout) runs() int {
	n := 0
	for _, y := range l.Layers {
		for _, s := range y {
			n += len(s)
		}
	}
	return n
}
