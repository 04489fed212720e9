package pdf

import (
	"fmt"
	"strconv"

	"futtock/rates/money"
)

// collection is what the lines of a section come to on each page it runs over:
// "carried to collection" at the foot of a page, and where the section ends the
// pages together, which come to its total. Where lines fall on pages is known
// here alone, so that here alone they are added up.
//
// A nil collection does nothing: its table is not collected.
type collection struct {
	page    money.Amount // so far on this page
	lines   int          // on it
	pages   []collected
	reserve float64 // mm to be left at the foot of the page, for what these rows still ask for
}

// collected is a page that was carried to the collection.
type collected struct {
	page int
	sum  money.Amount
}

// left is the room for rows.
func (t *table) left() float64 {
	if t.collection == nil {
		return t.room()
	}
	return t.room() - t.collection.reserve
}

// reserveFor leaves room under the n rows from i on: for the line at the foot of
// the page where their section goes on, for its collection where they close it.
func (c *collection) reserveFor(t *table, i, n int) {
	if c == nil {
		return
	}
	line := totalDeep
	c.reserve = 0
	closed, goes, long := false, false, false
	for k := i; k < i+n; k++ {
		r := t.rows[k]
		if r.kind == bandRow {
			closed, goes = false, false
		}
		closed, goes = closed || r.closes != nil, goes || r.amount != nil
		long = long || t.height(t.cells[k]) >= longRow
	}
	switch {
	case goes && !closed, long:
		c.reserve = line
	case closed && len(c.pages) > 0 && t.rows[i].kind != bandRow:
		c.reserve = line * float64(min(len(c.pages), mostCollected)+2)
	}
}

// totalDeep is the height of a line of one row in mm, and mostCollected how many
// pages of a collection are kept together with its total.
const (
	totalDeep     = 6.6
	mostCollected = 6
)

func (c *collection) add(a money.Amount) {
	if c != nil {
		c.page, c.lines = c.page.Add(a), c.lines+1
	}
}

// foot carries this page to the collection, if a line of the section stands on it.
func (c *collection) foot(t *table) {
	if c == nil || c.lines == 0 {
		return
	}
	c.pages = append(c.pages, collected{len(t.pages), c.page})
	t.line(left, t.y, t.width, 0, style{size: 0.2, colour: slate})
	c.row(t, "Carried to collection", c.page, cellBold)
	c.page, c.lines = money.Amount{}, 0
}

// close sets the collection over the total of its section, where it ran over more
// pages than one, and begins anew. Pages that do not come to the total are a
// fault of ours.
func (c *collection) close(t *table, total money.Amount) {
	if c == nil {
		return
	}
	c.reserve = 0
	if len(c.pages) > 0 {
		if c.lines > 0 {
			c.pages = append(c.pages, collected{len(t.pages), c.page})
		}
		c.list(t)
		c.page = money.Amount{}
		for _, p := range c.pages {
			c.page = c.page.Add(p.sum)
		}
	}
	if !c.page.Equal(total) {
		panic(fmt.Sprintf("pdf: the pages of a section come to %s and its total is %s", c.page, total))
	}
	*c = collection{}
}

// list is the pages, each with its sum; the last of them stays with the total.
func (c *collection) list(t *table) {
	fits := func(lines int) {
		if float64(lines)*totalDeep > t.room() {
			t.turn()
			t.headAgain(false)
		}
	}
	fits(min(len(c.pages), mostCollected) + 2)
	t.line(left, t.y, t.width, 0, style{size: 0.2, colour: slate})
	head := t.broken([]cell{{}, styled("Collection", cellBold.in(slate), len(t.columns)-1)})
	t.cellsAt(head)
	t.y += t.height(head)
	for n, p := range c.pages {
		if rest := len(c.pages) - n; rest == 1 {
			fits(2)
		} else {
			fits(min(rest, 3))
		}
		c.row(t, "Page "+strconv.Itoa(p.page), p.sum, cellText)
		t.line(left, t.y, t.width, 0, faint)
	}
}

// mostCollectable is as much as any page can come to, whatever the signs of its lines.
func mostCollectable(rows []row) money.Amount {
	var most, here money.Amount
	for _, r := range rows {
		switch {
		case r.amount == nil:
		case r.amount.Sign() < 0:
			here = here.Sub(*r.amount)
		default:
			here = here.Add(*r.amount)
		}
		most = larger(most, here)
		if r.closes != nil {
			here = money.Amount{}
		}
	}
	return most
}

// row is one sum under the amounts.
func (c *collection) row(t *table, text string, a money.Amount, s style) {
	r := t.broken([]cell{{}, styled(text, s, len(t.columns)-3), styled(figures(a), s, 1), {}})
	t.cellsAt(r)
	t.y += t.height(r)
}
