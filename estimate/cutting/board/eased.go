package board

import (
	"fmt"
	"slices"

	"futtock/estimate/cutting/solve"
)

// Eased is the shop with less asked of a layout: lengths are rounded down, and a
// stick may hold more of a piece than are wanted. Least costs under it are never
// above those of the shop, and its greatest worths are reached by its own
// layouts, so that they prove as much as they can. It answers for one demand, the
// whole of it, and spends all steps when it is asked of any other.
type Eased struct {
	saw    *Saw
	demand []int
	found  []Layout
	known  map[string]int // place of the layout found first, by its yield
	asked  []Figures
}

// Figures is a worth of every piece and the greatest worth a stick of each line can
// hold by it, never under the truth.
type Figures struct{ Worth, Most []int64 }

// Asked is the figures of every answer, the last last.
func (e *Eased) Asked() []Figures { return e.asked }

// Ease is the shop eased, for a demand.
func (s *Saw) Ease(demand []int) *Eased {
	return &Eased{saw: s, demand: demand, known: map[string]int{}}
}

// Best answers package solve.
func (e *Eased) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	s := e.saw
	most := make([]int64, len(s.shop.Sticks))
	if !slices.Equal(wanted, e.demand) {
		steps.Done = max(steps.Done, steps.Most)
		s.far(most, worth, wanted)
		return most, nil
	}
	found := s.ones(worth, wanted, floor, most, steps)
	for _, g := range s.groups {
		steps.Add(g.down.ask(worth, wanted, true))
		var layouts []Layout
		for i := range g.down.bays {
			b := &g.down.bays[i]
			most[b.stick] = max(most[b.stick], b.best)
			if b.best > 0 && (floor == nil || b.best > floor[b.stick]) {
				layouts = append(layouts, g.down.layout(b))
			}
		}
		if floor != nil {
			layouts = append(layouts, g.down.withEach(len(worth), floor)...)
		}
		for _, l := range layouts {
			steps.Add(perRun * l.runs())
			found = append(found, e.column(l, wanted))
		}
	}
	e.asked = append(e.asked, Figures{slices.Clone(worth), slices.Clone(most)})
	return most, found
}

// column is a layout as package solve takes it. Of one yield the first layout found
// is kept: there may be thousands of runs in one, and it is found again and again.
func (e *Eased) column(l Layout, wanted []int) solve.Column {
	c := solve.Column{Kind: l.Stick, Gives: entries(l.gives(len(wanted)), wanted)}
	k := fmt.Sprint(c.Kind, c.Gives)
	tag, ok := e.known[k]
	if !ok {
		tag = len(e.found)
		e.known[k] = tag
		e.found = append(e.found, l)
	}
	c.Tag = tag
	return c
}

// Sound is the layouts found, made to fit: what is not wanted or does not go in is
// left out.
func (e *Eased) Sound() []solve.Column {
	s := e.saw
	wanted := make([]int, len(s.shop.Pieces))
	for i, p := range s.shop.Pieces {
		wanted[i] = p.Wanted
	}
	var out []solve.Column
	for _, l := range e.found {
		l.trim(l.gives(len(wanted)), wanted)
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
		out = append(out, s.column(l, wanted))
	}
	return out
}
