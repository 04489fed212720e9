package pdf

import (
	"bytes"
	"fmt"
	"strings"

	"github.com/jung-kurt/gofpdf"

	"futtock/output/drawing"
	"futtock/output/letters"
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
	size := gofpdf.SizeType{Wd: d.across, Ht: d.high}
	f := gofpdf.NewCustom(&gofpdf.InitType{OrientationStr: "P", UnitStr: "mm", Size: size})
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
		f.AddUTF8FontFromBytes("go", cutNames[c], letters.File(c))
	}
	b := brush{Fpdf: f}
	for _, p := range d.pages {
		if p.wide {
			f.AddPageFormat("L", size)
		} else {
			f.AddPage()
		}
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
	data, err = catalogued(out.Bytes())
	if err != nil {
		return nil, fmt.Errorf("the PDF could not be written: %w", err)
	}
	return data, nil
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
	case drawn:
		b.draw(m)
	case link:
		to := b.AddLink()
		b.SetLink(to, 0, m.to)
		b.Link(m.x, m.y, m.w, m.h, to)
	}
}

// shades are those of drawings, each told from the next in black and white.
var shades = map[drawing.Shade]colour{
	drawing.White:   {0xFF, 0xFF, 0xFF},
	drawing.Waste:   {0xEC, 0xEC, 0xEC},
	drawing.Sapwood: {0xC8, 0xC8, 0xC8},
	drawing.Bark:    {0x70, 0x70, 0x70},
	drawing.Ink:     black,
}

// draw paints a shape of a drawing.
func (b *brush) draw(m mark) {
	s := m.shape
	if s.Text != "" {
		b.letter(m)
		return
	}
	how := ""
	if c, filled := shades[s.Fill]; filled {
		b.SetFillColor(int(c.r), int(c.g), int(c.b))
		how = "F"
	}
	if s.Line.Thick > 0 {
		b.SetDrawColor(int(black.r), int(black.g), int(black.b))
		b.SetLineWidth(s.Line.Thick)
		if s.Line.Dash {
			b.SetDashPattern([]float64{1.6, 1}, 0)
			defer b.SetDashPattern(nil, 0)
		}
		how += "D"
	}
	if how == "" {
		return
	}
	for _, st := range s.Path {
		x, y := m.x+st.To.X, m.y+st.To.Y
		switch st.Kind {
		case drawing.Move:
			b.MoveTo(x, y)
		case drawing.Straight:
			b.LineTo(x, y)
		case drawing.Bend:
			b.CurveBezierCubicTo(m.x+st.C1.X, m.y+st.C1.Y, m.x+st.C2.X, m.y+st.C2.Y, x, y)
		case drawing.Close:
			b.ClosePath()
		}
	}
	b.DrawPath(how)
}

// letter paints the writing of a drawing; its place was fitted to its width.
func (b *brush) letter(m mark) {
	b.font(m.style)
	b.Text(m.x, m.y, m.text)
}
