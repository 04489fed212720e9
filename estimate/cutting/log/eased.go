package log

import (
	"slices"

	"futtock/estimate/cutting/solve"
)

// Eased is the shop with less asked of a layout: places are rounded towards the
// pith and a log may hold more of a piece than are wanted. Least costs under it are
// never above those of the shop, and its greatest worths are reached by its own
// yields, so that they prove as much as they can. It answers for the relaxation alone.
type Eased struct {
	saw   *Saw
	found []eased
	known map[string]int // place of what was found first, by its yield
	worth []int64        // it was asked by last
	text  []byte         // scratch
}

// eased is bands of a log that may be too many for it.
type eased struct {
	bench *bench
	group *group
	bands []Band
}

// Ease is the shop eased.
func (s *Saw) Ease() *Eased { return &Eased{saw: s, known: map[string]int{}} }

// Best answers package solve.
func (e *Eased) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	s := e.saw
	most := make([]int64, len(s.shop.Logs))
	var found []solve.Column
	for _, g := range s.groups {
		in, shift := g.bearable(worth)
		g.each(steps, func(i int, b *bench, steps *solve.Steps) {
			if n := b.up.tables.ask(in, wanted, 0); i == 0 { // alike for all
				steps.Add(n)
			}
			most[b.log] = min(b.up.ask(steps), 1<<61>>shift) << shift
		})
		for _, b := range g.benches {
			if most[b.log] > 0 && (floor == nil || most[b.log] > floor[b.log]) {
				found = append(found, e.column(g, b, b.up.best(), wanted, steps))
			}
			if floor != nil {
				for _, c := range b.up.each(len(worth), floor[b.log]>>shift) {
					found = append(found, e.column(g, b, c, wanted, steps))
				}
			}
		}
	}
	e.worth = slices.Clone(worth)
	return most, found
}

// Columns is every layout found, as package solve takes it.
func (e *Eased) Columns(wanted []int) []solve.Column {
	var out []solve.Column
	for tag, f := range e.found {
		l := Layout{Log: f.bench.log, Bands: f.bands}
		out = append(out, solve.Column{Kind: f.bench.log, Gives: solve.Entries(l.gives(e.saw.counts), wanted), Tag: tag})
	}
	return out
}

// bearable is worths in units of a power of two, rounded up, such that no sum of them
// passes 2^62, however many pieces go in.
func (g *group) bearable(worth []int64) (in []int64, shift int) {
	greatest, bears := slices.Max(worth), int64(1)<<61
	for _, b := range g.benches {
		bears = min(bears, b.bearable(b.up.volumes()))
	}
	for greatest>>shift >= bears {
		shift++
	}
	for _, v := range worth {
		in = append(in, (v+1<<shift-1)>>shift)
	}
	return in, shift
}

// column is bands as package solve takes them. Of one yield the first found is kept.
func (e *Eased) column(g *group, b *bench, in []banded, wanted []int, steps *solve.Steps) solve.Column {
	l := Layout{Log: b.log, Bands: b.up.bands(in)}
	if b.up.unit > 1 {
		e.saw.shop.drop(&l) // all yields are of one easing, whatever the unit
	}
	gives := l.gives(e.saw.counts)
	for _, n := range gives {
		steps.Add(perLot / 8 * n)
	}
	c := solve.Column{Kind: b.log, Gives: solve.Entries(gives, wanted)}
	e.text = c.Text(e.text[:0])
	tag, ok := e.known[string(e.text)]
	if !ok {
		tag = len(e.found)
		e.known[string(e.text)] = tag
		e.found = append(e.found, eased{b, g, l.Bands})
	}
	c.Tag = tag
	return c
}

// Sound is the layouts found, made to fit: what is not wanted or does not go in is
// left out.
func (e *Eased) Sound() []solve.Column {
	s := e.saw
	worth := make([]int64, len(s.whole))
	copy(worth, e.worth)
	var out []solve.Column
	var order []way
	var of *group // that the order is of
	for _, f := range e.found {
		if f.group != of {
			order, of = f.group.order(worth, s.whole), f.group
		}
		out = append(out, s.filled(Layout{Log: f.bench.log, Bands: f.bands}.clone(), order, s.whole, &solve.Steps{}))
	}
	return out
}
