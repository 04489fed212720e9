package pdf

// run is how many rows from i on belong together: a band and its remark with
// the rows below, a total with those above. No single row stands alone under a
// head or band, or over a total.
func (t *table) run(i int) int {
	n := 1
	for i+n < len(t.rows) && t.joined(i+n) {
		n++
	}
	return n
}

// joined reports that row k stays with the one above it.
func (t *table) joined(k int) bool {
	last, next := t.rows[k-1].kind, t.rows[k].kind
	if last == bandRow || last == noteRow || next == totalRow || next == grandRow {
		return true
	}
	if last != plainRow || next != plainRow || max(t.height(t.cells[k-1]), t.height(t.cells[k])) > tallRow {
		return false
	}
	opens := k == 1 || t.rows[k-2].kind != plainRow
	closes := k+1 == len(t.rows) || t.rows[k+1].kind == totalRow || t.rows[k+1].kind == grandRow
	return opens || closes
}

// bound is the room those rows ask for, in mm; of a very long row only its
// beginning, and never more than a page.
func (t *table) bound(i int) float64 {
	if len(t.rows) == 0 {
		return 0
	}
	h := 0.0
	for k := i; k < i+t.run(i); k++ {
		if t.rows[k].kind == bandRow {
			h += bandGap
		}
		if deep := t.height(t.cells[k]); deep < longRow {
			h += deep
		} else {
			h += longRow / 2
		}
	}
	return min(h, t.bottom-top-t.height(t.heads)-20)
}

// head sets the head of the table.
func (t *table) head() {
	h := t.height(t.heads)
	for _, c := range t.heads {
		deep := 0.0
		for _, l := range c.lines {
			deep += l.style.pitch()
		}
		t.cellAt(c, t.y+h-padding-deep)
	}
	t.y += h
	t.line(left, t.y, t.width, 0, strong)
	t.y += 0.4
	t.headed = true
}

// over goes on overleaf with row i, under the head and the band it belongs to.
func (t *table) over(i int) {
	band := t.rows[i].kind == bandRow
	if band && t.rows[i].part != "" {
		t.part = t.rows[i].part
	}
	if !band {
		t.collection.foot(t)
	}
	t.turn()
	t.headAgain(band)
}

// headAgain sets the head on a new page, and the band its rows belong to.
func (t *table) headAgain(band bool) {
	t.head()
	if !band && t.band != "" {
		r := t.broken([]cell{styled(t.band+" (continued)", cellBold.in(slate), len(t.columns))})
		t.wash(t.height(r))
		t.cellsAt(r)
		t.y += t.height(r)
	}
}

// wash tints the next h mm of the table.
func (t *table) wash(h float64) {
	t.put(mark{kind: tint, x: left, y: t.y, w: t.width, h: h, style: style{colour: wash}})
}

// draw sets row i, broken over pages where it is very long.
func (t *table) draw(i int) {
	r, cells := t.rows[i], t.cells[i]
	h := t.height(cells)
	if r.kind == bandRow && i > 0 && t.rows[i-1].kind != bandRow && !t.headed && h+bandGap < t.left() {
		t.y += bandGap
	}
	if r.closes != nil {
		t.collection.close(t, *r.closes)
	}
	if h > t.left() && h < longRow {
		t.over(i)
	}
	if r.kind == bandRow {
		t.band = ""
		if len(r.cells[0].paras) > 0 {
			t.band = r.cells[0].paras[0].text
		}
		if r.part != "" {
			t.part = r.part
			t.bookmark(t.band, 1)
		}
		t.wash(h)
	}
	after := 0.0
	if h >= longRow {
		after = t.totals(i + 1)
	}
	if r.amount != nil {
		t.collection.add(*r.amount)
	}
	for h+after > t.left() {
		var now []set
		now, cells = t.cut(cells, min(t.left(), h-leastOver))
		t.cellsAt(now)
		t.y += t.height(now)
		t.over(i)
		h = t.height(cells)
	}
	if r.place != "" {
		t.places[r.place] = len(t.pages)
	}
	switch r.kind {
	case totalRow:
		t.line(left, t.y, t.width, 0, style{size: 0.2, colour: slate})
	case grandRow:
		t.line(left, t.y, t.width, 0, strong)
	}
	t.cellsAt(cells)
	t.y += h
	if r.kind == plainRow || r.kind == totalRow && i+1 < len(t.rows) && t.rows[i+1].kind == plainRow {
		t.line(left, t.y, t.width, 0, faint)
	}
	t.headed = false
}

// totals is the height of the totals that stand from row i on.
func (t *table) totals(i int) float64 {
	h := 0.0
	for ; i < len(t.rows) && (t.rows[i].kind == totalRow || t.rows[i].kind == grandRow); i++ {
		h += t.height(t.cells[i])
	}
	return h
}

// cut parts a row, so much of it staying on this page. What goes over says in
// its first cell that it is continued.
func (t *table) cut(cells []set, stays float64) (now, next []set) {
	for n, c := range cells {
		deep, k := 2*padding, 0
		for k < len(c.lines) && deep+c.lines[k].style.pitch() <= stays {
			deep += c.lines[k].style.pitch()
			k++
		}
		first, rest := c, c
		first.lines, rest.lines = c.lines[:k], c.lines[k:]
		if n == 0 && len(rest.lines) == 0 {
			rest.lines = []para{{"cont.", cellNote}}
		}
		now, next = append(now, first), append(next, rest)
	}
	return now, next
}

func (t *table) cellsAt(cells []set) {
	for _, c := range cells {
		t.barsAt(c)
		if c.place != "" {
			t.put(mark{kind: reference, x: t.x[c.column] + c.w - gutter, y: t.y + padding + cellText.baseline(), place: c.place, style: cellText})
		}
		t.cellAt(c, t.y+padding)
	}
}

// cellAt sets the lines of a cell from y down.
func (t *table) cellAt(c set, y float64) {
	column := t.columns[c.column]
	edge := t.x[c.column]
	for _, l := range c.lines {
		x := edge + gutter
		switch end := edge + c.w - gutter; column.align {
		case flush:
			x = end - t.letters.width(l.text, l.style)
		case centred:
			x = edge + (c.w-t.letters.width(l.text, l.style))/2
		case pointed:
			x = end - t.letters.width(l.text, l.style)
			if before, after := parted(l.text); figure(l.text) {
				x = end - max(t.points[c.column], t.letters.width(after, l.style)) - t.letters.width(before, l.style)
			}
		}
		t.write(x, y+l.style.baseline(), l.text, l.style)
		y += l.style.pitch()
	}
}

// barsAt draws bars beside the first line of their row; where there are two they
// are the thinner.
func (t *table) barsAt(c set) {
	high := barHigh
	if len(c.bars) > 1 {
		high = 1.75
	}
	n := float64(len(c.bars))
	y := t.y + padding + (cellText.pitch()-n*high-(n-1)*barGap)/2
	for _, b := range c.bars {
		t.barAt(t.x[c.column]+gutter, y, high, c.w-2*gutter, b)
		y += high + barGap
	}
}

// barAt draws one bar.
func (t *table) barAt(x, y, high, full float64, b bar) {
	long := full * b.long
	if long <= 0 {
		return
	}
	dark, half := long*b.dark, long*b.half
	for _, part := range []struct {
		from, w float64
		shade   colour
	}{{0, long, pale}, {0, dark, slate}, {dark, half, grey}} {
		if part.w > 0 {
			t.put(mark{kind: tint, x: x + part.from, y: y, w: part.w, h: high, style: style{colour: part.shade}})
		}
	}
	t.put(mark{kind: frame, x: x, y: y, w: long, h: high, style: style{size: 0.15, colour: slate}})
}

// figure reports text that is a number, to be ranged by its point.
func figure(s string) bool {
	digits := false
	for _, r := range s {
		switch {
		case r >= '0' && r <= '9':
			digits = true
		case r == '.', r == ',', r == '−', r == '%', r == '\u00a0', r == ' ':
		default:
			return false
		}
	}
	return digits
}
