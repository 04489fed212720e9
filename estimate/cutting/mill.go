package cutting

import (
	"slices"
	"sync"

	"futtock/estimate/cutting/board"
	"futtock/estimate/cutting/crook"
	"futtock/estimate/cutting/log"
	"futtock/estimate/cutting/solve"
	"futtock/rates/measure"
)

// mill is all saws of a question as one generator for package solve. Its kinds of stick
// are those that are ripped and cross-cut and timber had to size, then crooks, then
// logs. A layout's tag tells which of them it is of.
type mill struct {
	shop  board.Shop
	board *board.Saw
	crook *crook.Saw
	log   *log.Saw
	parts [saws]int // kinds of stick of each
}

// The saws of a mill, in the order of their kinds of stick.
const (
	byBoard = iota
	byCrook
	byLog
	saws
)

// newMill prepares the saws.
func newMill(b board.Shop, c crook.Shop, l log.Shop) *mill {
	m := &mill{shop: b, crook: crook.New(c), parts: [saws]int{len(b.Sticks), len(c.Crooks), len(l.Logs)}}
	each(2, func(i int) {
		if i == 0 {
			m.board = board.New(b)
		} else {
			m.log = log.New(l)
		}
	})
	return m
}

// answers is what each saw answers, as one.
type answers struct {
	*mill
	kinds, saw int
	most       []int64
	found      []solve.Column
}

// add takes the answer of the next saw.
func (a *answers) add(most []int64, found []solve.Column) {
	a.most = append(a.most, most...)
	for _, c := range found {
		a.found = append(a.found, solve.Column{Kind: c.Kind + a.kinds, Gives: c.Gives, Tag: c.Tag*saws + a.saw})
	}
	a.kinds += a.parts[a.saw]
	a.saw++
}

// floors is the part of floors that the next saw has.
func (a *answers) floors(floor []int64) []int64 {
	if floor == nil {
		return nil
	}
	return floor[a.kinds : a.kinds+a.parts[a.saw]]
}

// Best answers package solve.
func (m *mill) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	return m.asked(floor, steps, [saws]saying{
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			return m.board.Best(worth, wanted, floor, steps)
		},
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			return m.crook.Best(worth, wanted, floor, steps)
		},
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			return m.log.Best(worth, wanted, floor, steps)
		},
	})
}

// saying is what one saw answers to a question, given the floors of its kinds of stick.
type saying func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column)

// asked is the answers of all saws. That of the logs is looked for beside the others, since neither
// knows of the other.
func (m *mill) asked(floor []int64, steps *solve.Steps, ask [saws]saying) ([]int64, []solve.Column) {
	a := &answers{mill: m}
	if m.parts[byLog] == 0 {
		for _, ask := range ask[:byLog] {
			a.add(ask(a.floors(floor), steps))
		}
		a.add(nil, nil)
		return a.most, a.found
	}
	var logs sync.WaitGroup
	var most []int64
	var found []solve.Column
	beside := *steps
	logs.Go(func() {
		of := floor
		if of != nil {
			of = of[len(of)-m.parts[byLog]:]
		}
		most, found = ask[byLog](of, &beside)
	})
	before := steps.Done
	for _, ask := range ask[:byLog] {
		a.add(ask(a.floors(floor), steps))
	}
	logs.Wait()
	a.add(most, found)
	steps.Done += beside.Done - before
	return a.most, a.found
}

// List answers package solve where there are no logs, whose layouts cannot be listed.
func (m *mill) List(worth []int64, floor []int64, most int, steps *solve.Steps) ([]solve.Column, bool) {
	if m.parts[byLog] > 0 {
		return nil, false
	}
	wanted := make([]int, len(m.shop.Pieces))
	for i, p := range m.shop.Pieces {
		wanted[i] = p.Wanted
	}
	a := &answers{mill: m}
	found, ok := m.board.List(worth, a.floors(floor), most, steps)
	if !ok {
		return nil, false
	}
	a.add(nil, found)
	found, ok = m.crook.List(worth, wanted, a.floors(floor), most-len(a.found), steps)
	a.add(nil, found)
	return a.found, ok
}

// Heavy reports tables so large that branching is not worth while.
func (m *mill) Heavy() bool { return m.board.Heavy() || m.parts[byLog] > 0 }

// Given takes a stick laid out elsewhere, and returns it as a column.
func (m *mill) Given(stick int, places []board.Place) solve.Column {
	c := m.board.Given(stick, places)
	c.Tag = c.Tag*saws + byBoard
	return c
}

// Alone is a layout of as many of one piece as are wanted and go into a stick; false
// where not even one does.
func (m *mill) Alone(kind, piece int) (solve.Column, bool) {
	alone := [saws]func(int, int) (solve.Column, bool){m.board.Alone, m.crook.Alone, m.log.Alone}
	saw, first := m.sawOf(kind)
	c, ok := alone[saw](kind-first, piece)
	c.Kind, c.Tag = kind, c.Tag*saws+saw
	return c, ok
}

// sawOf is the saw of a kind of stick, and the first of its kinds.
func (m *mill) sawOf(kind int) (saw, first int) {
	for kind >= first+m.parts[saw] {
		first += m.parts[saw]
		saw++
	}
	return saw, first
}

// known is the layouts that the saws have handed out, as a generator that finds
// purchases and proves nothing. Crooks are quick to lay out anew.
type known struct{ *mill }

// Pool is the layouts known.
func (m *mill) Pool() known { return known{m} }

// Columns is every layout known of boards and logs.
func (p known) Columns() []solve.Column {
	a := &answers{mill: p.mill}
	a.add(nil, p.board.Pool().Columns())
	var crooks []solve.Column
	for c := range p.parts[byCrook] {
		for k := range p.shop.Pieces {
			if c, ok := p.crook.Alone(c, k); ok {
				crooks = append(crooks, c)
			}
		}
	}
	a.add(nil, crooks)
	a.add(nil, p.log.Pool().Columns())
	return a.found
}

// Best answers package solve.
func (p known) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	return p.mill.asked(floor, steps, [saws]saying{
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			return p.board.Pool().Best(worth, wanted, floor, steps)
		},
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			return p.crook.Best(worth, wanted, floor, steps)
		},
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			return p.log.Pool().Best(worth, wanted, floor, steps)
		},
	})
}

// figures is a worth of every piece and the greatest worth a stick of each kind can
// hold by it, never under the truth.
type figures struct{ worth, most []int64 }

// looser is the mill with less asked of a layout, for the relaxation alone: see
// board.Eased. Crooks are exact as they are.
type looser struct {
	*mill
	board *board.Eased
	log   *log.Eased
	asked []figures
}

// Ease is the mill eased.
func (m *mill) Ease() *looser {
	return &looser{mill: m, board: m.board.Ease(), log: m.log.Ease()}
}

// Best answers package solve. Crooks give no piece whose length may be chosen. Of a log
// every such piece takes the room of the shortest and is worth what the longest is, which is never
// under the truth.
func (e *looser) Best(worth []int64, wanted []int, floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
	n := len(e.shop.Pieces)
	most, found := e.mill.asked(floor, steps, [saws]saying{
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			return e.board.Best(worth, wanted, floor, steps)
		},
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			return e.crook.Best(worth[:n], wanted[:n], floor, steps)
		},
		func(floor []int64, steps *solve.Steps) ([]int64, []solve.Column) {
			most, found := e.log.Best(e.longest(worth), wanted[:n], floor, steps)
			return most, e.stretched(found)
		},
	})
	e.asked = append(e.asked, figures{slices.Clone(worth), slices.Clone(most)})
	return most, found
}

// longest is the worths of the pieces, of those whose length may be chosen what the longest is worth.
func (e *looser) longest(worth []int64) []int64 {
	out := slices.Clone(worth[:len(e.shop.Pieces)])
	for i, p := range e.shop.Pieces {
		if p.Longest > 0 {
			at := e.shop.Charge(i)
			out[i] = max(0, out[i]-worth[at]+worth[at+1]*millimetresUp(p.Longest))
		}
	}
	return out
}

// stretched is columns of logs with what they take and give of pieces whose length may be chosen.
func (e *looser) stretched(columns []solve.Column) []solve.Column {
	for k, c := range columns {
		gives := slices.Clone(c.Gives)
		for _, g := range c.Gives {
			if p := e.shop.Pieces[g.Piece]; p.Longest > 0 {
				at := e.shop.Charge(g.Piece)
				gives = append(gives, solve.Entry{Piece: at, Count: -g.Count}, solve.Entry{Piece: at + 1, Count: g.Count * int(millimetresUp(p.Longest))})
			}
		}
		slices.SortFunc(gives, func(a, b solve.Entry) int { return a.Piece - b.Piece })
		columns[k].Gives = gives
	}
	return columns
}

func millimetresUp(l int64) int64 {
	return (l + int64(measure.Millimetre) - 1) / int64(measure.Millimetre)
}

// Asked is the figures of every answer, the last last.
func (e *looser) Asked() []figures { return e.asked }

// Columns is every layout found, as package solve takes it, and what crooks give of one piece.
func (e *looser) Columns(wanted []int) []solve.Column {
	a := &answers{mill: e.mill}
	a.add(nil, e.board.Columns(wanted))
	a.add(nil, nil)
	a.add(nil, e.stretched(e.log.Columns(wanted[:len(e.shop.Pieces)])))
	return a.found
}

// Sound is the layouts found, made to fit.
func (e *looser) Sound() []solve.Column {
	a := &answers{mill: e.mill}
	a.add(nil, e.board.Sound())
	a.add(nil, nil)
	a.add(nil, e.log.Sound())
	return a.found
}

// Alone is a stick with one of a piece in it, for the relaxation to begin with.
func (e *looser) Alone(kind, piece int) (solve.Column, bool) {
	if saw, _ := e.sawOf(kind); saw != byBoard {
		c, ok := e.mill.Alone(kind, piece)
		return e.stretched([]solve.Column{c})[0], ok
	}
	c, ok := e.board.Alone(kind, piece)
	c.Tag *= saws
	return c, ok
}

// lengths is the lengths to be chosen that a layout has of a want, with how many of each.
func (e *looser) lengths(tag int, do func(piece int, long int64, count int)) {
	if tag%saws != byBoard {
		return
	}
	for _, y := range e.board.Layout(tag / saws).Layers {
		for _, strip := range y {
			for _, r := range strip {
				do(r.Piece, r.Long, r.Deep)
			}
		}
	}
}
