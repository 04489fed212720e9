package pdf

import (
	"fmt"
	"strconv"
)

// begin starts a numbered part of the document, on a new page unless a
// third of this one is left.
func (d *document) begin(text string) {
	d.number++
	d.para = 0
	d.part = text
	if d.room() < 0.35*(d.bottom-top) && !d.fresh() {
		d.turn()
	}
	if d.fresh() {
		d.here().part = text
	} else {
		d.y += 12
	}
	d.contents = append(d.contents, entry{d.number, text, len(d.pages)})
	d.opened = opened{page: len(d.pages) - 1, marks: len(d.here().marks), bookmarks: len(d.here().bookmarks), from: d.y}
	d.bookmark(fmt.Sprintf("%d  %s", d.number, text), 0)
	s := part
	for i, l := range d.lines(text, s, d.width-12) {
		if i == 0 {
			d.write(left, d.y+s.baseline(), strconv.Itoa(d.number), s.in(grey).of(regular))
		}
		d.write(left+12, d.y+s.baseline(), l, s)
		d.y += s.pitch()
	}
	d.y += 2
	d.line(left, d.y, d.width, 0, strong)
	d.y += 6
	d.opened.to = d.y
}

// bookmark names this place in the outline of the document.
func (d *document) bookmark(text string, level int) {
	p := d.here()
	p.bookmarks = append(p.bookmarks, bookmark{d.short(text, longBookmark), level, d.y - 2})
}

// head is a heading within a part; it is never the last thing on a page.
func (d *document) head(text string) {
	d.need(headDeep + 22)
	if !d.fresh() {
		d.y += 3
	}
	d.flow(left, d.width, text, heading)
	d.y += 1.2
}

// headed sets a table under a heading and what is said before it, all kept with
// the beginning of the table.
func (d *document) headed(text string, table *table, paragraphs ...string) {
	d.together(table, paragraphs...)
	d.head(text)
	d.clause(paragraphs...)
	table.set()
}

// together turns the page unless there is room for a heading, what is said
// under it, and the beginning of a table.
func (d *document) together(table *table, paragraphs ...string) {
	deep := headDeep + table.depth()
	for _, p := range paragraphs {
		deep += float64(len(d.lines(p, body, d.width-clauseIn)))*body.pitch() + 2
	}
	d.need(deep)
}

// Room for a heading, and how far clauses stand in, in mm.
const (
	headDeep = 11.0
	clauseIn = 12.0
)

// say sets paragraphs across the page.
func (d *document) say(s style, paragraphs ...string) {
	for _, p := range paragraphs {
		d.flow(left, d.width, p, s)
		d.y += 2
	}
}

// clause sets paragraphs with their number in the part: 3.4.
func (d *document) clause(paragraphs ...string) {
	for _, p := range paragraphs {
		d.para++
		label := fmt.Sprintf("%d.%d", d.number, d.para)
		at := d.flow(left+clauseIn, d.width-clauseIn, p, body)
		d.pages[at.page].marks = append(d.pages[at.page].marks,
			mark{kind: writing, x: left, y: at.y + body.baseline(), text: label, style: body.in(grey)})
		d.y += 2
	}
}

// spot is a place in the document.
type spot struct {
	page int // from nil
	y    float64
}

// flow sets text in a column and says where its first line stands. A page
// break leaves no line of it alone on either side.
func (d *document) flow(x, w float64, text string, s style) spot {
	lines := d.lines(text, s, w)
	fits := func() int { return int((d.room() + 0.01) / s.pitch()) }
	if n := fits(); n < len(lines) && (len(lines) < 4 || n < 2) {
		d.need(float64(min(len(lines), 4)) * s.pitch())
	}
	start := spot{len(d.pages) - 1, d.y}
	for len(lines) > 0 {
		n := min(len(lines), max(1, fits()))
		if len(lines)-n == 1 && n > 2 {
			n-- // two lines go over rather than one
		}
		for _, l := range lines[:n] {
			d.write(x, d.y+s.baseline(), l, s)
			d.y += s.pitch()
		}
		if lines = lines[n:]; len(lines) > 0 {
			d.turn()
		}
	}
	return start
}

// fact is a name and what it is.
type fact struct{ name, is string }

// facts sets names in grey and what they are beside them.
func (d *document) facts(list []fact, s style) {
	const gutter = 52.0
	for _, f := range list {
		if f.is == "" {
			continue
		}
		lines := len(d.lines(f.is, s, d.width-gutter))
		d.need(float64(min(lines, 4)) * s.pitch())
		d.write(left, d.y+s.baseline(), f.name, s.of(regular).in(grey))
		d.flow(left+gutter, d.width-gutter, f.is, s)
		d.y += 1.1
	}
}

// blank is a name with a line to write on, from x on.
func (d *document) blank(x, w float64, name string) {
	d.write(x, d.y+4.2, name, cellText.in(grey))
	from := x + max(20, d.letters.width(d.clean(name), cellText)+3)
	d.line(from, d.y+5, x+w-from, 0, hairline)
}

// signing says how wide each block of signatures is, how deep the names in
// them, and how deep the whole.
func (d *document) signing(parties []fact, s spacing) (w, names, deep float64) {
	w = (d.width - between*float64(len(parties)-1)) / float64(len(parties))
	for _, p := range parties {
		names = max(names, float64(len(d.lines(p.is, emphatic, w)))*emphatic.pitch())
	}
	return w, names, names + 9 + s.signed + 3*s.written
}

// between is the space between two blocks of signatures, in mm.
const between = 10.0

// spacing is the room for what is written in by hand, in mm: a line across the
// page, a signature, and a line under it.
type spacing struct{ blank, signed, written float64 }

// The usual room, and the least that can be written in.
var (
	roomy = spacing{7.5, 15, 8.5}
	tight = spacing{6, 11, 6.8}
)

// signatures are blocks side by side for people to sign in, kept together.
func (d *document) signatures(s spacing, parties ...fact) {
	w, names, deep := d.signing(parties, s)
	d.need(deep)
	start := d.y
	for i, p := range parties {
		x := left + float64(i)*(w+between)
		d.write(x, start+cellNote.baseline(), p.name, cellNote)
		for n, l := range d.lines(p.is, emphatic, w) {
			d.write(x, start+cellNote.pitch()+1+float64(n)*emphatic.pitch()+emphatic.baseline(), l, emphatic)
		}
		d.y = start + cellNote.pitch() + names + 4 + s.signed - s.written
		for _, name := range []string{"Signature", "Name", "Position", "Date"} {
			d.blank(x, w, name)
			d.y += s.written
		}
	}
}
