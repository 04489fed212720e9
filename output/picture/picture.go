// Package picture paints drawings as pictures for a spreadsheet: a drawing goes
// in, the bytes of a PNG in sixteen greys come out, the same for the same
// drawing. It paints what package drawing laid out and decides nothing.
//
// At 120 dots to the inch a drawing 267 mm wide is 1,261 dots wide.
package picture

import (
	"bytes"
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"image/png"
	"math"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"futtock/output/drawing"
	"futtock/output/letters"
)

// Painter paints pictures. It serves one goroutine at a time.
type Painter struct {
	Type *letters.Type
	DPI  float64
	buf  sfnt.Buffer
}

// greys is how dark each shade is on white paper.
var greys = map[drawing.Shade]uint8{
	drawing.White: 0xFF, drawing.Waste: 0xEE, drawing.Sapwood: 0xCC, drawing.Bark: 0x77, drawing.Ink: 0x11,
}

// Size is how many dots wide and high a drawing comes out.
func (p *Painter) Size(d drawing.Drawing) (wide, high int) {
	k := p.DPI / 25.4
	return int(math.Ceil(d.Width * k)), int(math.Ceil(d.Height * k))
}

// PNG paints a drawing. It fails only where the library cannot write the picture.
func (p *Painter) PNG(d drawing.Drawing) ([]byte, error) {
	wide, high := p.Size(d)
	c := canvas{img: image.NewGray(image.Rect(0, 0, wide, high)), k: p.DPI / 25.4, painter: p}
	draw.Draw(c.img, c.img.Bounds(), image.White, image.Point{}, draw.Src)
	for _, s := range d.Shapes {
		c.paint(s)
	}
	var out bytes.Buffer
	e := png.Encoder{CompressionLevel: png.DefaultCompression}
	if err := e.Encode(&out, sixteen(c.img)); err != nil {
		return nil, fmt.Errorf("a drawing could not be made a picture: %w", err)
	}
	return out.Bytes(), nil
}

// sixteen is a picture in sixteen greys, half the bytes of one in all of them.
func sixteen(in *image.Gray) *image.Paletted {
	var greys color.Palette
	for i := range 16 {
		greys = append(greys, color.Gray{Y: uint8(i * 17)})
	}
	out := image.NewPaletted(in.Bounds(), greys)
	for i, y := range in.Pix {
		out.Pix[i] = uint8((int(y) + 8) / 17)
	}
	return out
}

// canvas is a picture being painted, k dots to the millimetre.
type canvas struct {
	img     *image.Gray
	k       float64
	painter *Painter
	raster  vector.Rasterizer
	mask    []uint8
}

func (c *canvas) paint(s drawing.Shape) {
	if s.Text != "" {
		c.write(s)
		return
	}
	lines := c.flat(s.Path)
	if grey, filled := greys[s.Fill]; filled {
		c.fill(lines, grey)
	}
	if s.Line.Thick > 0 {
		c.stroke(lines, max(1, s.Line.Thick*c.k), s.Line.Dash)
	}
}

type dot struct{ x, y float64 }

// flat is an outline as lines between dots, a closed one ending where it began.
func (c *canvas) flat(path []drawing.Step) [][]dot {
	var out [][]dot
	at := func(p drawing.Point) dot { return dot{p.X * c.k, p.Y * c.k} }
	for _, s := range path {
		n := len(out) - 1
		switch s.Kind {
		case drawing.Move:
			out = append(out, []dot{at(s.To)})
		case drawing.Straight:
			out[n] = append(out[n], at(s.To))
		case drawing.Bend:
			from, a, b, to := out[n][len(out[n])-1], at(s.C1), at(s.C2), at(s.To)
			steps := 2 + int(math.Hypot(to.x-from.x, to.y-from.y)/6)
			for i := 1; i <= steps; i++ {
				t := float64(i) / float64(steps)
				u := 1 - t
				p, q, r, w := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
				out[n] = append(out[n], dot{p*from.x + q*a.x + r*b.x + w*to.x, p*from.y + q*a.y + r*b.y + w*to.y})
			}
		case drawing.Close:
			out[n] = append(out[n], out[n][0])
		}
	}
	return out
}

// fill paints what lies within lines, as dark as a grey.
func (c *canvas) fill(lines [][]dot, grey uint8) {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, l := range lines {
		for _, p := range l {
			x0, y0, x1, y1 = min(x0, p.x), min(y0, p.y), max(x1, p.x), max(y1, p.y)
		}
	}
	box := image.Rect(int(math.Floor(x0)), int(math.Floor(y0)), int(math.Ceil(x1))+1, int(math.Ceil(y1))+1).Intersect(c.img.Bounds())
	if box.Empty() {
		return
	}
	c.raster.Reset(box.Dx(), box.Dy())
	for _, l := range lines {
		for i, p := range l {
			x, y := float32(p.x-float64(box.Min.X)), float32(p.y-float64(box.Min.Y))
			if i == 0 {
				c.raster.MoveTo(x, y)
			} else {
				c.raster.LineTo(x, y)
			}
		}
		c.raster.ClosePath()
	}
	// The cover goes into a mask of its own and is laid on here: the library is
	// slow at painting grey on grey.
	mask := image.Alpha{Pix: c.scratch(box.Dx() * box.Dy()), Stride: box.Dx(), Rect: image.Rect(0, 0, box.Dx(), box.Dy())}
	c.raster.DrawOp = draw.Src
	c.raster.Draw(&mask, mask.Rect, image.Opaque, image.Point{})
	for y := range box.Dy() {
		row := c.img.Pix[c.img.PixOffset(box.Min.X, box.Min.Y+y):][:box.Dx()]
		for x, cover := range mask.Pix[y*mask.Stride:][:box.Dx()] {
			if cover > 0 {
				row[x] = uint8((int(row[x])*(255-int(cover)) + int(grey)*int(cover) + 127) / 255)
			}
		}
	}
}

// scratch is so many bytes to paint a mask in.
func (c *canvas) scratch(n int) []uint8 {
	if cap(c.mask) < n {
		c.mask = make([]uint8, n)
	}
	return c.mask[:n]
}

// Dash and gap of a broken line, in mm.
const (
	dashLong = 1.6
	dashGap  = 1.0
)

// stroke paints lines so many dots thick.
func (c *canvas) stroke(lines [][]dot, thick float64, dashed bool) {
	for _, l := range lines {
		on, left := true, dashLong*c.k
		for i := 1; i < len(l); i++ {
			a, b := l[i-1], l[i]
			long := math.Hypot(b.x-a.x, b.y-a.y)
			if long == 0 {
				continue
			}
			if !dashed {
				c.bar(a, b, long, thick)
				continue
			}
			for done := 0.0; done < long; {
				step := min(left, long-done)
				if on {
					c.bar(along(a, b, done/long), along(a, b, (done+step)/long), step, thick)
				}
				done += step
				if left -= step; left <= 0 {
					on = !on
					left = dashGap * c.k
					if on {
						left = dashLong * c.k
					}
				}
			}
		}
	}
}

func along(a, b dot, t float64) dot { return dot{a.x + (b.x-a.x)*t, a.y + (b.y-a.y)*t} }

// bar is one straight piece of a line, a little longer than it so that the next
// joins it.
func (c *canvas) bar(a, b dot, long, thick float64) {
	if long == 0 {
		return
	}
	ux, uy := (b.x-a.x)/long*thick/2, (b.y-a.y)/long*thick/2
	c.fill([][]dot{{{a.x - ux - uy, a.y - uy + ux}, {b.x + ux - uy, b.y + uy + ux}, {b.x + ux + uy, b.y + uy - ux}, {a.x - ux + uy, a.y - uy - ux}}}, greys[drawing.Ink])
}

// write paints writing by the outlines of its letters.
func (c *canvas) write(s drawing.Shape) {
	cut := letters.Regular
	if s.Bold {
		cut = letters.Bold
	}
	t, font := c.painter.Type, c.painter.Type.Font(cut)
	x, y := s.At.X*c.k, s.At.Y*c.k
	switch wide := t.Width(s.Text, cut, s.Size) * c.k; s.Anchor {
	case drawing.Middle:
		x -= wide / 2
	case drawing.Right:
		x -= wide
	}
	em := s.Size * letters.Point * c.k
	var lines [][]dot
	for _, r := range s.Text {
		i, err := font.GlyphIndex(&c.painter.buf, r)
		if err != nil || i == 0 {
			panic(fmt.Sprintf("picture: %q of %q is not in the type", r, s.Text))
		}
		segments, err := font.LoadGlyph(&c.painter.buf, i, fixed.Int26_6(em*64), nil)
		if err != nil {
			panic(fmt.Sprintf("picture: the letter %q: %v", r, err))
		}
		at := func(p fixed.Point26_6) dot { return dot{x + float64(p.X)/64, y + float64(p.Y)/64} }
		for _, g := range segments {
			switch g.Op {
			case sfnt.SegmentOpMoveTo:
				lines = append(lines, []dot{at(g.Args[0])})
			case sfnt.SegmentOpLineTo:
				lines[len(lines)-1] = append(lines[len(lines)-1], at(g.Args[0]))
			case sfnt.SegmentOpQuadTo:
				l := &lines[len(lines)-1]
				from, by, to := (*l)[len(*l)-1], at(g.Args[0]), at(g.Args[1])
				for n := 1; n <= 3; n++ {
					f := float64(n) / 3
					*l = append(*l, along(along(from, by, f), along(by, to, f), f))
				}
			case sfnt.SegmentOpCubeTo:
				panic("picture: the type has curves of a kind it never had")
			}
		}
		x += t.Advance(r, cut) * em
	}
	c.fill(lines, greys[drawing.Ink])
}
