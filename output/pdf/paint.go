package pdf

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/jung-kurt/gofpdf"
)

// paint makes the file. Every date in it is the document's own and its lists
// are sorted, so that the same document is the same bytes. The library panics
// on some input; none that reaches it should, and if it does that is an error.
func (d *document) paint() (data []byte, err error) {
	defer func() {
		if p := recover(); p != nil {
			data, err = nil, fmt.Errorf("the PDF could not be written: %v", p)
		}
	}()
	f := gofpdf.New("P", "mm", "A4", "")
	f.SetAutoPageBreak(false, 0)
	f.SetMargins(0, 0, 0)
	f.SetCatalogSort(true)
	f.SetCreationDate(d.stamp)
	f.SetModificationDate(d.stamp)
	f.SetTitle(d.title, true)
	f.SetAuthor(d.author, true)
	f.SetSubject(d.subject, true)
	f.SetCreator("futtock", true)
	f.SetProducer("futtock", true)
	f.SetDisplayMode("fullwidth", "continuous")
	for c := range faces {
		f.AddUTF8FontFromBytes("go", cutNames[c], fontFile(c))
	}
	b := brush{Fpdf: f}
	for _, p := range d.pages {
		f.AddPage()
		b.last = style{}
		b.font(body)
		for _, m := range p.bookmarks {
			f.Bookmark(m.text, m.level, m.y)
		}
		for _, m := range p.marks {
			b.put(m)
		}
	}
	var out bytes.Buffer
	if err := f.Output(&out); err != nil {
		return nil, fmt.Errorf("the PDF could not be written: %w", err)
	}
	return out.Bytes(), nil
}

var cutNames = [faces]string{"", "B", "I"}

// brush paints marks, and tells the library of a style only when it changes.
type brush struct {
	*gofpdf.Fpdf
	last style
}

func (b *brush) font(s style) {
	if s.face != b.last.face || s.size != b.last.size {
		b.SetFont("go", cutNames[s.face], s.size)
	}
	if s.colour != b.last.colour {
		b.SetTextColor(int(s.colour.r), int(s.colour.g), int(s.colour.b))
	}
	b.last = s
}

func (b *brush) put(m mark) {
	c := m.style.colour
	switch m.kind {
	case writing:
		b.font(m.style)
		b.Text(m.x, m.y, strings.TrimRight(m.text, " "))
	case rule:
		b.SetDrawColor(int(c.r), int(c.g), int(c.b))
		b.SetLineWidth(m.style.size)
		b.Line(m.x, m.y, m.x+m.w, m.y+m.h)
	case tint:
		b.SetFillColor(int(c.r), int(c.g), int(c.b))
		b.Rect(m.x, m.y, m.w, m.h, "F")
	case frame:
		b.SetDrawColor(int(c.r), int(c.g), int(c.b))
		b.SetLineWidth(m.style.size)
		b.Rect(m.x, m.y, m.w, m.h, "D")
	case link:
		to := b.AddLink()
		b.SetLink(to, 0, m.to)
		b.Link(m.x, m.y, m.w, m.h, to)
	}
}
