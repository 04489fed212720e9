package sheets

import (
	"fmt"
	"runtime"
	"sync"

	"futtock/estimate/cutting/order"
	"futtock/output/drawing"
	"futtock/output/letters"
	"futtock/output/picture"
	"futtock/templates/grid"
)

// Drawings on the cutting sheet: how many patterns have one, how fine they are,
// and how much larger than laid out they are shown, so that they can be read where
// the sheet is printed one page wide.
const (
	mostDrawn   = 120
	dotsAnInch  = 110
	shownLarger = 1.34
	frameWide   = 216.0 // mm as laid out
	frameDeep   = 102.0
	pointsAMm   = 72 / 25.4
)

// gallery hangs the drawings of patterns under their rows.
type gallery struct {
	page  *page
	frame drawing.Frame
	drawn int
	over  bool // it was said that no more are drawn
	where *working
	hung  []drawing.Drawing
}

func (w *working) gallery(p *page) *gallery {
	f := drawing.Frame{Type: lettering(), Width: frameWide, Height: frameDeep, LengthIn: w.units.length, SizeIn: w.units.size, Pieces: w.Plan.Pieces, Member: map[string]string{}}
	for _, m := range w.Job.Members {
		f.Member[m.Ref] = m.Member
	}
	return &gallery{page: p, frame: f, where: w}
}

// lettering is the type of the pictures, which comes with the program.
func lettering() *letters.Type {
	t, err := letters.New()
	if err != nil {
		panic(fmt.Sprintf("sheets: %v", err))
	}
	return t
}

// hang puts the drawing of a pattern under the rows last written, a row high
// enough for each of its parts.
func (g *gallery) hang(l order.Line, pattern order.Pattern) {
	if !drawing.Drawn(l.Stock) {
		return
	}
	if g.drawn == mostDrawn {
		if !g.over {
			g.over = true
			g.page.merge(g.page.add(words(fmt.Sprintf("No more than %d patterns are drawn here; %s-timber.pdf has them all.", mostDrawn, g.where.Job.Reference), remark)), 1, cutWorth)
		}
		return
	}
	g.drawn++
	sketch := g.frame.Draw(l.Stock, pattern)
	for n, d := range sketch.Parts {
		high := d.Height * shownLarger
		row := g.page.add()
		g.page.Rows[row-1].Height = (high + 3) * pointsAMm
		alt := fmt.Sprintf("How %s is sawn, %s", l.Stock.Stock, g.frame.ScaleText(sketch.Scale))
		if n > 0 {
			alt += ", continued"
		}
		g.page.Images = append(g.page.Images, grid.Image{Cell: at(1, row), Wide: d.Width * shownLarger, High: high, Alt: alt})
		g.hung = append(g.hung, d)
	}
}

// paint makes the pictures, as many at once as there are processors; each stands
// in its own place, so that the order in which they are done is not seen.
func (g *gallery) paint() {
	next := make(chan int)
	var all sync.WaitGroup
	for range min(runtime.GOMAXPROCS(0), max(1, len(g.hung))) {
		all.Go(func() {
			p := picture.Painter{Type: lettering(), DPI: dotsAnInch}
			for i := range next {
				data, err := p.PNG(g.hung[i])
				if err != nil {
					panic(fmt.Sprintf("sheets: %v", err))
				}
				g.page.Images[i].PNG = data
			}
		})
	}
	for i := range g.hung {
		next <- i
	}
	close(next)
	all.Wait()
}
