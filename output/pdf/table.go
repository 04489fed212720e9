package pdf

import (
	"strings"

	"futtock/rates/money"
)

// table is rows of cells under a head that is set again on every page. A row
// that is not very long stays whole, a band stays with the row below it, and a
// total with the row above.
type table struct {
	*document
	columns []column
	rows    []row

	x, w   []float64 // of the columns
	points []float64 // right of the decimal point, by column
	cells  [][]set   // of each row, ready to be painted
	heads  []set
	band   string // the one rows now belong to, or what the table is called
	headed bool   // nothing stands under the head yet

	below float64 // mm for what stands under the table, on the page of its last rows

	collection *collection // of what its pages come to; nil where it is not asked for
}

type column struct {
	head  string
	align align
	share float64 // of the width the other columns leave; nil for a column as wide as what is in it
	wide  float64 // mm, of a column of bars
}

type align uint8

const (
	ranged  align = iota // to the left
	flush                // to the right
	centred              // in the middle
	pointed              // by the decimal point
)

type row struct {
	kind  rowKind
	cells []cell
	part  string // of a band: what running heads and outline call it
	place string // what other pages call it that speak of its page; see reference

	amount *money.Amount // of a line that is collected by pages
	closes *money.Amount // the sum of the lines above it, of a total that they are collected into
}

type rowKind uint8

const (
	plainRow rowKind = iota
	bandRow          // a heading across the table; set again where its rows go on overleaf
	noteRow          // a remark across the table, on the rows below it
	totalRow
	grandRow
)

// cell is paragraphs, over as many columns as span says, one where it is nil; or
// bars under one another; or the page of what stands elsewhere.
type cell struct {
	paras []para
	span  int
	bars  []bar
	place string
}

// bar is how long a bar is, in parts of its column, and how much of it is dark
// and, beside that, half dark.
type bar struct{ long, dark, half float64 }

type para struct {
	text  string
	style style
}

// set is a cell broken into lines.
type set struct {
	column int
	w      float64
	lines  []para
	bars   []bar
	place  string
}

// Space in and between the cells, in mm.
const (
	padding    = 1.25
	gutter     = 1.5 // on each side of a column
	longRow    = 60  // a row over this may be broken
	tallRow    = 30  // a row over this may stand alone
	leastOver  = 14  // of a broken row that goes over
	bandGap    = 2.5 // over a band
	barHigh    = 2.4 // of a bar
	barGap     = 0.8 // between two
	shortTable = 62  // a table up to this stays whole
)

func (d *document) table(columns ...column) *table {
	return &table{document: d, columns: columns}
}

func (t *table) add(kind rowKind, cells ...cell) {
	t.rows = append(t.rows, row{kind: kind, cells: cells})
}

// across adds a row of one text over the whole table.
func (t *table) across(kind rowKind, text, part string) {
	s := cellBold.in(slate)
	if kind == noteRow {
		s = cellNote
	}
	t.rows = append(t.rows, row{kind: kind, part: part, cells: []cell{{paras: []para{{text, s}}, span: len(t.columns)}}})
}

// words is a cell of text, with a note under it where there is one.
func words(text, note string) cell {
	c := cell{paras: []para{{text, cellText}}}
	if note != "" {
		c.paras = append(c.paras, para{note, cellNote})
	}
	return c
}

// styled is a cell of text in a style of its own, over so many columns.
func styled(text string, s style, span int) cell {
	return cell{paras: []para{{text, s}}, span: span}
}

// onPage is a cell with the number of the page that what is called so stands on.
func onPage(place string) cell { return cell{place: place} }

// barred is a cell with one bar, or two.
func barred(bars ...bar) cell { return cell{bars: bars} }

// depth breaks the text of the table into lines, and says how much room it asks
// for in one piece, in mm: a short table for all of it, another for its first
// rows that belong together.
func (t *table) depth() float64 {
	if t.heads == nil {
		t.measure()
		t.heads = t.broken(t.headCells())
		for _, r := range t.rows {
			t.cells = append(t.cells, t.broken(r.cells))
		}
	}
	all := t.height(t.heads) + 2
	first := all + t.bound(0)
	for _, c := range t.cells {
		all += t.height(c)
	}
	if all <= shortTable {
		return all + t.below
	}
	return first
}

// set lays the table out.
func (t *table) set() {
	t.need(t.depth())
	t.head()
	for i := 0; i < len(t.rows); {
		n := t.run(i)
		t.collection.reserveFor(t, i, n)
		deep := t.bound(i)
		if i+n == len(t.rows) {
			deep += t.below
		}
		if deep > t.left() {
			t.over(i)
		}
		for ; n > 0; n, i = n-1, i+1 {
			t.draw(i)
		}
	}
	t.y += 3
}

func (t *table) headCells() []cell {
	out := make([]cell, len(t.columns))
	for i, c := range t.columns {
		out[i] = styled(c.head, cellHead, 1)
	}
	return out
}

// measure gives each column its width: as wide as its widest cell, and what is
// left shared out among those that say so.
func (t *table) measure() {
	n := len(t.columns)
	need, whole := make([]float64, n), make([]float64, n)
	t.points = make([]float64, n)
	shares, rest := 0.0, t.width
	for _, r := range t.rows {
		at := 0
		for _, c := range r.cells {
			if c.span <= 1 && t.columns[at].share == 0 && t.columns[at].wide == 0 {
				t.widen(at, c, need, whole)
			}
			at += max(1, c.span)
		}
	}
	if t.collection != nil {
		most := styled(figures(mostCollectable(t.rows)), cellText, 1)
		most.paras = append(most.paras, para{most.paras[0].text, cellBold})
		t.widen(n-2, most, need, whole)
	}
	for i, c := range t.columns {
		shares += c.share
		if c.share > 0 {
			continue
		}
		if c.wide > 0 {
			need[i] = c.wide
			rest -= c.wide
			continue
		}
		w := max(need[i], whole[i]+t.points[i])
		for word := range strings.SplitSeq(t.clean(c.head), " ") {
			w = max(w, t.letters.width(word, cellHead))
		}
		need[i] = min(w, 36) + 2*gutter
		rest -= need[i]
	}
	at := left
	for i, c := range t.columns {
		if c.share > 0 {
			need[i] = rest * c.share / shares
		}
		t.x, t.w = append(t.x, at), append(t.w, need[i])
		at += need[i]
	}
}

// widen makes room for a cell in a column as wide as what is in it.
func (t *table) widen(at int, c cell, need, whole []float64) {
	for _, p := range c.paras {
		text := t.clean(p.text)
		if t.columns[at].align == pointed && strings.ContainsAny(text, "0123456789") {
			before, after := parted(text)
			whole[at] = max(whole[at], t.letters.width(before, p.style))
			t.points[at] = max(t.points[at], t.letters.width(after, p.style))
			continue
		}
		most := 22.0
		if t.columns[at].align != ranged {
			most = 36
		}
		need[at] = max(need[at], min(most, t.letters.width(text, p.style)))
	}
}

// parted is a figure before its decimal point, and from it on.
func parted(s string) (before, after string) {
	if i := strings.LastIndexByte(s, '.'); i >= 0 {
		return s[:i], s[i:]
	}
	return s, ""
}

// broken breaks the text of cells into lines.
func (t *table) broken(cells []cell) []set {
	var out []set
	at := 0
	for _, c := range cells {
		span := max(1, c.span)
		s := set{column: at, bars: c.bars, place: c.place}
		for i := at; i < at+span; i++ {
			s.w += t.w[i]
		}
		for _, p := range c.paras {
			for _, l := range t.lines(p.text, p.style, s.w-2*gutter+0.05) {
				s.lines = append(s.lines, para{l, p.style})
			}
		}
		out = append(out, s)
		at += span
	}
	return out
}

// height is that of a row, in mm.
func (t *table) height(cells []set) float64 {
	h := 0.0
	for _, c := range cells {
		deep := 0.0
		for _, l := range c.lines {
			deep += l.style.pitch()
		}
		h = max(h, deep)
	}
	return h + 2*padding
}
