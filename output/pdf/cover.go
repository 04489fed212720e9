package pdf

import (
	"fmt"
	"strconv"
)

// cover is the first page: whose tender for what, the sums, and the contents.
func (t *tender) cover() {
	t.opening("Tender", "Cover", t.Job.Yard, "Tender for refit", t.Job.Vessel)
	if t.Job.Description != "" {
		t.say(fore.in(grey), t.Job.Description)
	}
	t.y += 8
	t.facts(t.particulars(), fore)
	t.y += 7
	t.totals()
	t.y += 5
	t.contentsRoom()
}

// fore is the text of a first page.
var fore = style{regular, 10.5, 1.42, black}

// opening begins the first page of a document, without a running head: from whom
// it is, what it is, and of which vessel, whose name is as large as two lines allow.
func (d *document) opening(part, bookmark, yard, what, vessel string) {
	d.part = part
	d.turn()
	d.here().bare = true
	d.bookmark(bookmark, 0)
	d.line(left, 26, d.width, 0, heavy)
	d.y = 30
	d.say(style{bold, 11, 1.3, slate}, yard)
	d.y = max(d.y, 56)
	d.say(style{regular, 13, 1.3, grey}, what)
	name := style{bold, 30, 1.12, slate}
	for len(d.lines(vessel, name, d.width)) > 2 && name.size > 14 {
		name.size -= 2
	}
	d.say(name, vessel)
}

// particulars are the facts of the tender.
func (t *tender) particulars() []fact {
	list := []fact{
		{"Client", t.Job.Client},
		{"Yard", t.Job.Yard},
		{"Tender reference", t.Job.Reference},
		{"Date of tender", day(t.Job.TenderDate)},
		{"Open for acceptance until", t.until()},
	}
	if !t.Job.Start.IsZero() {
		list = append(list, fact{"Start on site", day(t.Job.Start)})
	}
	if !t.Programme.Weeks.IsZero() {
		list = append(list, fact{"Time on site", t.weeks() + "\u00a0weeks"})
	}
	return list
}

// totals are the sums of the tender under one another.
func (t *tender) totals() {
	t.line(left, t.y, t.width, 0, strong)
	t.y += 2.5
	row := func(name, sum string, s style) {
		t.need(s.pitch())
		t.write(left, t.y+s.baseline(), name, s)
		t.writeRight(t.right, t.y+s.baseline(), sum, s)
		t.y += s.pitch() + 0.8
	}
	plain, large := style{regular, 11, 1.4, black}, style{bold, 13, 1.4, slate}
	row("Total before value added tax", t.sum(t.Bill.Net), large)
	row("Value added tax", t.sum(t.Bill.VATTotal), plain)
	row("Total with value added tax", t.sum(t.Bill.Total), large)
	if t.Bill.Otherwise != nil {
		row("Total with value added tax if the vessel did not qualify", t.sum(t.Bill.Otherwise.Total), plain)
	}
	t.y += 1.5
	t.line(left, t.y, t.width, 0, strong)
}

// Lines of the contents: twelve at the most, and the heading over them; closer
// where the cover is full.
const (
	contentsLine  = 5.0
	contentsClose = 4.2
	mostParts     = 12
)

// contentsRoom keeps the place of the contents, at the foot of the cover or on
// a page of their own.
func (d *document) contentsRoom() {
	deep := func() float64 { return d.contentsLine * (mostParts + 1.4) }
	d.contentsLine = contentsLine
	if d.room() < deep() {
		d.contentsLine = contentsClose
	}
	if d.room() < deep() {
		d.contentsLine = contentsLine
		d.turn()
	} else {
		d.y = d.bottom - deep()
	}
	d.contentsPage, d.contentsAt = len(d.pages)-1, d.y
}

// listContents sets the contents in the place kept for them, now that the
// pages are known.
func (d *document) listContents() {
	if len(d.contents) > mostParts {
		panic(fmt.Sprintf("pdf: the document has %d parts and room is kept for %d", len(d.contents), mostParts))
	}
	p := d.pages[d.contentsPage]
	y := d.contentsAt
	say := func(x float64, text string, s style) {
		p.marks = append(p.marks, mark{kind: writing, x: x, y: y + s.baseline(), text: text, style: s})
	}
	say(left, "Contents", cellHead)
	y += d.contentsLine * 1.2
	for _, e := range d.contents {
		number := strconv.Itoa(e.page)
		end := d.right - d.letters.width(number, cellText)
		say(left, strconv.Itoa(e.number), cellText.in(grey))
		say(left+8, e.text, cellText)
		say(end, number, cellText)
		d.leader(p, left+8+d.letters.width(e.text, cellText)+2, d.right-8, y+cellText.baseline())
		p.marks = append(p.marks, mark{kind: link, x: left, y: y, w: d.width, h: d.contentsLine, to: e.page})
		y += d.contentsLine
	}
}

// leader sets a row of dots at a baseline. Those of all lines stand under one
// another, counted from the right.
func (d *document) leader(p *page, from, to, y float64) {
	dots := cellText.in(grey)
	const pitch = 1.9
	for x := to; x >= from; x -= pitch {
		p.marks = append(p.marks, mark{kind: writing, x: x - d.letters.width(".", dots), y: y, text: ".", style: dots})
	}
}
