package quotes

import (
	"slices"

	"futtock/rates"
	"futtock/rates/money"
)

// spread adds up the levelled figures by section and part. What a letter gives
// as one sum for a section counts to it. The rows together make each offer's
// levelled figure; the last holds what stands beside the lines. There is one
// more, of measured work as a whole, where a letter gives it so. An offer is left
// out of the lowest and highest of what it has elsewhere: a letter of what is in a
// greater sum, and the others of measured work as a whole.
func (l *levelling) spread() {
	t := newTable(l)
	for n, r := range l.c.Rows {
		if !r.Line.InTotal() {
			continue
		}
		s := &t.rows[t.of(l.sent.Lines[n])]
		for i, cell := range r.Cells {
			s.Levelled[i] = s.Levelled[i].Add(cell.Levelled)
			s.Within[i] = s.Within[i] || cell.State == WithinLump
		}
		s.Yardstick.Amount = s.Yardstick.Amount.Add(r.Line.Amount)
	}
	for i, o := range l.c.Offers {
		t.lumps(i, o)
		for _, a := range o.Adjustments {
			if a.Kind != GapFilled && a.Kind != SumsEqual {
				t.add(t.last(), i, a.Amount)
			}
		}
		t.add(t.last(), i, o.Beside)
	}
	t.rows[t.last()].Yardstick.Amount = l.yardstickBeside()
	l.c.Sections = t.done(l.sent.Priced)
}

// table is the rows of the spread on their way: sections, measured work that
// is of none, the other parts, and what stands beside the lines.
type table struct {
	rows     []Spread
	place    map[string]int // of sections
	parts    map[Part]int
	unparted bool // measured work has something that is of no section
}

func newTable(l *levelling) *table {
	t := &table{place: map[string]int{}, parts: map[Part]int{}}
	put := func(key, title string) int {
		offers := len(l.c.Offers)
		t.rows = append(t.rows, Spread{Key: key, Title: title, Levelled: make([]money.Amount, offers), Within: make([]bool, offers)})
		return len(t.rows) - 1
	}
	for _, s := range l.sent.Sections {
		t.place[rates.Key(s.Section)] = put(s.Section, s.Title)
	}
	t.parts[Work] = put(string(Work), "measured work, not by section")
	for _, p := range Parts()[1:] {
		t.parts[p] = put(string(p), string(p))
	}
	put(BesideLines, "beside the lines: contingency, qualifications, weeks")
	return t
}

func (t *table) last() int { return len(t.rows) - 1 }

// of is the row of a line.
func (t *table) of(line Line) int {
	if line.Part != Work {
		return t.parts[line.Part]
	}
	if n, ok := t.place[rates.Key(line.Section)]; ok {
		return n
	}
	t.unparted = true
	return t.parts[Work]
}

func (t *table) add(row, offer int, a money.Amount) {
	t.rows[row].Levelled[offer] = t.rows[row].Levelled[offer].Add(a)
}

// lumps puts the sums of a letter to their sections and parts, and finds what
// an offer has elsewhere.
func (t *table) lumps(offer int, o Offer) {
	for _, lump := range o.Lumps {
		n, ok := t.place[rates.Key(lump.Of)]
		if !ok {
			n = t.parts[Part(lump.Of)]
			t.unparted = t.unparted || Part(lump.Of) == Work
		}
		t.rows[n].Within[offer] = false
		t.add(n, offer, lump.Net)
	}
	for n := range t.rows[:t.last()] {
		s := &t.rows[n]
		nothing := s.Levelled[offer].IsZero()
		s.Within[offer] = nothing && (s.Within[offer] || n == t.parts[Work])
	}
}

// done finds the lowest and highest of each row, and leaves out measured work
// of no section where there is none.
func (t *table) done(priced bool) []Spread {
	for n := range t.rows {
		s := &t.rows[n]
		s.Yardstick.Known = priced
		var in []money.Amount
		for i, a := range s.Levelled {
			if !s.Within[i] {
				in = append(in, a)
			}
		}
		if len(in) == 0 {
			continue
		}
		s.Low, s.High = slices.MinFunc(in, money.Amount.Cmp), slices.MaxFunc(in, money.Amount.Cmp)
		if s.Low.Sign() > 0 {
			s.Percent = ratio(s.High.Sub(s.Low), s.Low)
		}
	}
	if !t.unparted {
		t.rows = slices.Delete(t.rows, t.parts[Work], t.parts[Work]+1)
	}
	return t.rows
}
