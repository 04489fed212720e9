package board

import (
	"slices"

	"futtock/estimate/cutting/solve"
)

// Eased is the shop with less asked of a layout: lengths are rounded down, and a
// stick may hold more of a piece than are wanted. Least costs under it are never
// above those of the shop, and its greatest worths are reached by its own
// layouts, so that they prove as much as they can. It answers for the relaxation alone.
type Eased struct {
	saw   *Saw
	found []Layout
	known map[string]int // place of the layout found first, by its yield
	asked []Figures
	text  []byte // scratch
}

// Figures is a worth of every piece and the greatest worth a stick of each line can
// hold by it, never under the truth.
type Figures struct{ Worth, Most []int64 }

// Asked is the figures of every answer, the last last.
func (e *Eased) Asked() []Figures { return e.asked }

// Ease is the shop eased.
func (s *Saw) Ease() *Eased { return &Eased{saw: s, known: map[string]int{}} }

// Best answers package solve.
func (e *Eased) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	s := e.saw
	most := make([]int64, len(s.shop.Sticks))
	var layouts []Layout
	for i, st := range s.shop.Sticks {
		if best, v := s.shop.one(st, worth, wanted); best >= 0 {
			most[i] = v
			if floor == nil || v > floor[i] {
				layouts = append(layouts, s.shop.only(i, best))
			}
		}
		steps.Add(len(st.Gives))
	}
	for _, g := range s.groups {
		steps.Add(g.down.ask(worth, wanted, true))
		for i := range g.down.bays {
			b := &g.down.bays[i]
			most[b.stick] = max(most[b.stick], b.best)
			if b.best > 0 && (floor == nil || b.best > floor[b.stick]) {
				layouts = append(layouts, g.down.layout(b))
			}
		}
		if floor != nil {
			layouts = append(layouts, g.down.withEach(len(s.shop.Pieces), floor)...)
		}
	}
	var found []solve.Column
	for _, l := range layouts {
		steps.Add(perRun * l.runs())
		found = append(found, e.column(l, wanted))
	}
	e.asked = append(e.asked, Figures{slices.Clone(worth), slices.Clone(most)})
	return most, found
}

// column is a layout as package solve takes it. Of one yield the first layout found
// is kept: there may be thousands of runs in one, and it is found again and again.
func (e *Eased) column(l Layout, wanted []int) solve.Column {
	c := solve.Column{Kind: l.Stick, Gives: e.entries(l, wanted)}
	e.text = c.Text(e.text[:0])
	tag, ok := e.known[string(e.text)]
	if !ok {
		tag = len(e.found)
		e.known[string(e.text)] = tag
		e.found = append(e.found, l)
	}
	c.Tag = tag
	return c
}

// Layout is a layout found, by its tag. What it holds may not go in whole.
func (e *Eased) Layout(tag int) Layout { return e.found[tag] }

// Sound is the layouts found, made to fit: what is not wanted or does not go in is
// left out. Of a shop with lengths to choose there are none.
func (e *Eased) Sound() []solve.Column {
	s := e.saw
	if s.shop.Rows() > len(s.shop.Pieces) {
		return nil
	}
	var out []solve.Column
	for _, l := range e.found {
		l.trim(l.gives(s.counts), s.whole)
		for _, y := range l.Layers {
			for k := range y {
				for {
					if _, _, long := s.shop.extent(y[k]); long <= s.shop.Sticks[l.Stick].Length {
						break
					}
					y[k] = y[k][:len(y[k])-1]
				}
			}
		}
		out = append(out, s.column(l, s.whole))
	}
	return out
}
