// Package pdf writes the documents futtock hands over on paper. A finished
// result goes in, the bytes of a PDF come out, the same for the same result.
// Nothing is reckoned here: every figure printed is one the result carries.
//
// A document is laid out first, from the top of the page down, as plain marks
// at places on pages: writing, rules, tints and bars. Only when the last page is
// there are the running heads and the number of pages known, and the marks are
// then painted. Widths of text come from the type itself, so that nothing but
// paint.go knows the library, and another could take its place.
//
// Places are in millimetres from the top left corner of the page. At 9.5 point,
// with a lead of 1.4, a line of text takes 4.69 mm (9.5 x 1.4 x 25.4 / 72).
package pdf

import (
	"fmt"
	"strconv"
	"strings"
	"time"

	"futtock/estimate/job"
	"futtock/output/drawing"
	"futtock/output/letters"
)

// document is what is being laid out: what it is called, and its pages so far.
type document struct {
	paper
	title, author, subject string
	vessel                 string // of every page but the first, on the left: the vessel
	foot, middle           string // of every page: the yard, and which document of what day it is
	stamp                  time.Time

	letters  typeface
	pages    []*page
	y        float64 // where the next thing goes
	part     string  // the part of the document it belongs to
	number   int     // of the part
	para     int     // of the numbered paragraph in it
	contents []entry
	places   map[string]int // page of what other pages speak of, from 1
	replaced bool           // a character was replaced
	opened   opened         // the heading of the part, as it was set

	contentsPage int     // where room is kept for the contents, from nil
	contentsAt   float64 // where on it they begin
	contentsLine float64 // mm from line to line of them
}

// entry is a line of the contents.
type entry struct {
	number int
	text   string
	page   int
}

// page is what stands on one page, in the order it is painted.
type page struct {
	part      string // as the running head has it
	bare      bool   // no running head: the cover
	wide      bool   // lies on its side
	marks     []mark
	bookmarks []bookmark
}

// mark is one thing on a page.
type mark struct {
	kind  kind
	x, y  float64 // of writing, the left end of its baseline
	w, h  float64
	text  string
	style style
	to    int           // page a link leads to, from 1
	place string        // what a reference leads to, see document.places
	shape drawing.Shape // of a drawing, its corner at x, y
}

// kind is what a mark is.
type kind uint8

const (
	writing   kind = iota
	rule           // from x, y to x+w, y+h; as thick and dark as its style says
	tint           // a filled box
	frame          // an outlined box
	link           // a box that leads to a page
	drawn          // a shape of a drawing
	reference      // the number of a page, ending at x; it is known when all pages are there
)

type bookmark struct {
	text  string
	level int
	y     float64
}

// newDocument is one without a page, to be printed on that paper.
func newDocument(on job.Paper) (*document, error) {
	t, err := letters.New()
	if err != nil {
		return nil, err
	}
	return &document{paper: paperOf(on), letters: typeface{t}, places: map[string]int{}}, nil
}

// How much is kept of a title and of a line of the outline, in mm of running text.
const (
	longTitle    = 840.0
	longBookmark = 210.0
)

// here is the page being laid out.
func (d *document) here() *page { return d.pages[len(d.pages)-1] }

// turn begins a new page. The heading of a part under which nothing stands yet
// goes over with what was to stand under it.
func (d *document) turn() {
	alone, o := d.headingAlone(), d.opened
	d.pages = append(d.pages, &page{part: d.part})
	d.y = top
	if !alone || o.from == top {
		return
	}
	was, here := d.pages[o.page], d.here()
	for _, m := range was.marks[o.marks:] {
		m.y += top - o.from
		here.marks = append(here.marks, m)
	}
	for _, b := range was.bookmarks[o.bookmarks:] {
		b.y += top - o.from
		here.bookmarks = append(here.bookmarks, b)
	}
	was.marks, was.bookmarks = was.marks[:o.marks], was.bookmarks[:o.bookmarks]
	d.contents[len(d.contents)-1].page = len(d.pages)
	d.y += o.to - o.from
}

// opened is where the heading of a part stands: on which page, counted from nil,
// from where to where, and after how many marks and bookmarks of that page.
type opened struct {
	page, marks, bookmarks int
	from, to               float64
}

// headingAlone reports that the last thing set is the heading of a part.
func (d *document) headingAlone() bool {
	return d.opened.to > 0 && d.opened.page == len(d.pages)-1 && d.y == d.opened.to
}

// room is what is left of the page.
func (d *document) room() float64 { return d.bottom - d.y }

// fresh reports a page on which nothing stands yet.
func (d *document) fresh() bool { return d.y == top }

// need turns the page unless so much is left of it.
func (d *document) need(h float64) {
	if h > d.room() && !d.fresh() && !(d.headingAlone() && d.opened.from == top) {
		d.turn()
	}
}

func (d *document) put(m mark) {
	p := d.here()
	p.marks = append(p.marks, m)
}

// write puts one line of writing with its baseline at y.
func (d *document) write(x, y float64, text string, s style) {
	if text = strings.ReplaceAll(d.clean(text), "\n", " "); text != "" {
		d.put(mark{kind: writing, x: x, y: y, text: text, style: s})
	}
}

// writeRight puts one line that ends at x.
func (d *document) writeRight(x, y float64, text string, s style) {
	d.write(x-d.letters.width(d.clean(text), s), y, text, s)
}

// clean makes text fit to print, and keeps in mind that a character was replaced.
func (d *document) clean(s string) string {
	s, replaced := d.letters.Clean(s)
	d.replaced = d.replaced || replaced
	return s
}

// lines is text made fit to print and broken into lines no wider than w.
func (d *document) lines(text string, s style, w float64) []string {
	return d.letters.wrap(d.clean(text), s, w)
}

// line draws a rule.
func (d *document) line(x, y, w, h float64, s style) {
	d.put(mark{kind: rule, x: x, y: y, w: w, h: h, style: s})
}

// running puts the heads and feet on every page, now that all are there. The
// foot says which document of what day a loose page is of.
func (d *document) running() {
	for i, p := range d.pages {
		from, to, head, foot := left, d.right, 20.5, d.footAt
		if p.wide {
			from, to, head, foot = wideLeft, d.wideRight, 17.5, d.wideFootAt
		}
		say := func(x, y float64, text string) {
			p.marks = append(p.marks, mark{kind: writing, x: x, y: y, text: text, style: running})
		}
		rule := func(y float64) {
			p.marks = append(p.marks, mark{kind: rule, x: from, y: y, w: to - from, style: hairline})
		}
		if !p.bare {
			part := d.short(p.part, 100)
			say(from, head-2.5, d.short(d.vessel, to-from-d.letters.width(part, running)-8))
			say(to-d.letters.width(part, running), head-2.5, part)
			rule(head)
		}
		number, middle := pageNumber(i+1, len(d.pages)), d.short(d.middle, 84)
		rule(foot)
		w := d.letters.width(middle, running)
		say(from, foot+4.5, d.short(d.foot, (to-from-w)/2-4))
		say((from+to-w)/2, foot+4.5, middle)
		say(to-d.letters.width(number, running), foot+4.5, number)
	}
}

// refer makes every reference the number of the page it leads to, now that all
// are there. One that leads nowhere is a fault of ours.
func (d *document) refer() {
	for _, p := range d.pages {
		for i, m := range p.marks {
			if m.kind != reference {
				continue
			}
			to, ok := d.places[m.place]
			if !ok {
				panic(fmt.Sprintf("pdf: nothing in the document is called %q", m.place))
			}
			m.kind, m.text = writing, strconv.Itoa(to)
			w := d.letters.width(m.text, m.style)
			m.x -= w
			p.marks[i] = m
			p.marks = append(p.marks, mark{kind: link, x: m.x, y: m.y - m.style.size*point, w: w, h: m.style.pitch(), to: to})
		}
	}
}

// short is text as a running head has room for it.
func (d *document) short(text string, w float64) string {
	return d.letters.shorten(strings.ReplaceAll(d.clean(text), "\n", " "), running, w)
}
