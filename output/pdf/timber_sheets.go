package pdf

import (
	"fmt"
	"slices"
	"strconv"

	"futtock/estimate/job"
	"futtock/output/drawing"
)

// Writing on the sheets of drawings, and the room it takes in mm.
var (
	stickName  = style{bold, 12, 1.2, slate}
	stickSays  = style{regular, 9.5, 1.2, black}
	timesStyle = style{bold, 14, 1.2, black}
	sheetPart  = style{bold, 15, 1.2, slate}
)

const (
	bandDeep    = 9.0
	patternDeep = 7.0
	patternGap  = 3.0
)

// drawings are the sheets: every pattern that can be drawn, under its stock line.
func (t *timber) drawings() {
	begun := false
	for i := range t.stock {
		l := &t.stock[i]
		if !drawing.Drawn(l.Stock) || len(l.Patterns) == 0 {
			continue
		}
		if !begun {
			begun = true
			t.beginSheets()
		}
		t.drawLine(l)
	}
}

// beginSheets opens the part of the drawings on a sheet of its own.
func (t *timber) beginSheets() {
	t.number++
	t.part = "Sawing drawings"
	t.turnWide()
	t.contents = append(t.contents, entry{t.number, t.part, len(t.pages)})
	t.bookmark(fmt.Sprintf("%d  %s", t.number, t.part), 0)
	t.write(wideLeft, t.y+sheetPart.baseline(), strconv.Itoa(t.number), sheetPart.in(grey).of(regular))
	t.write(wideLeft+10, t.y+sheetPart.baseline(), t.part, sheetPart)
	t.y += sheetPart.pitch() + 2
}

// turnWide begins a sheet.
func (t *timber) turnWide() {
	t.pages = append(t.pages, &page{part: t.part, wide: true})
	t.y = wideTop
}

// drawLine draws the patterns of a line. The sheet is filled with the first of
// those left that finds room, so that few sheets are half empty; they are numbered
// as they stand.
func (t *timber) drawLine(l *stockLine) {
	sketches := make([]drawing.Sketch, len(l.Patterns))
	deep := make([]float64, len(l.Patterns))
	var left []int
	for n, p := range l.Patterns {
		sketches[n] = t.frame.Draw(l.Stock, p)
		deep[n] = patternDeep + patternGap
		for _, d := range sketches[n].Parts {
			deep[n] += d.Height
		}
		left = append(left, n)
	}
	banded := false // the sheet names the stick already
	for done := 0; len(left) > 0; done++ {
		room := t.wideBottom - t.y
		if !banded {
			room -= bandDeep
		}
		k := slices.IndexFunc(left, func(n int) bool { return deep[n]-patternGap <= room })
		if k < 0 {
			k = 0
			if t.y > wideTop+bandDeep+1 {
				t.turnWide()
				banded = false
			}
		}
		if !banded {
			t.stickBand(*l, done > 0)
			banded = true
		}
		n := left[k]
		left = slices.Delete(left, k, k+1)
		l.number[n] = l.first + done
		t.pattern(*l, n, sketches[n])
	}
}

// stickBand names the stick that is sawn as the drawings below it show.
func (t *timber) stickBand(l stockLine, again bool) {
	s := l.Stock
	t.put(mark{kind: tint, x: wideLeft, y: t.y, w: t.wideWidth, h: bandDeep - 1.5, style: style{colour: wash}})
	base := t.y + 5.3
	name := t.clean(s.Stock)
	if again {
		name += " (continued)"
	} else {
		t.bookmark(name, 1)
	}
	t.write(wideLeft+2, base, name, stickName)
	x := wideLeft + 2 + t.letters.width(name, stickName) + 5
	says := s.Timber + " " + string(s.Form) + ", " + t.stick(s)
	if s.EndTrim > 0 {
		says += "; " + t.frame.Size(s.EndTrim) + " off each end"
	}
	right := sticks(l.sawn()) + " sawn"
	if spare := t.bought(l); spare != "" {
		right = "buy " + l.Buy.String() + ": " + spare
	}
	if l.Carried != job.Measured {
		right = "may be wanted (" + outside(l.Carried) + "), " + right
	}
	if s.Supplier != "" {
		right += "; " + s.Supplier
	}
	room := t.wideRight - 2 - x - t.letters.width(t.clean(right), stickSays) - 4
	t.write(x, base, t.letters.shorten(t.clean(says), stickSays, max(room, 30)), stickSays)
	t.writeRight(t.wideRight-2, base, right, stickSays)
	t.y += bandDeep
}

// pattern sets one pattern: its number, how many sticks are sawn so, its scale,
// and its drawing.
func (t *timber) pattern(l stockLine, n int, sketch drawing.Sketch) {
	number := strconv.Itoa(l.number[n])
	base := t.y + 5
	w := t.letters.width(number, stickName) + 5
	t.put(mark{kind: frame, x: wideLeft, y: t.y + 0.4, w: w, h: 6, style: style{size: 0.4, colour: black}})
	t.write(wideLeft+2.5, base-0.2, number, stickName.in(black))
	times := sticks(l.Patterns[n].Times)
	t.write(wideLeft+w+4, base, times, timesStyle)
	x := wideLeft + w + 4 + t.letters.width(times, timesStyle) + 5
	t.write(x, base, "sawn so; "+t.frame.ScaleText(sketch.Scale), stickSays)
	t.y += patternDeep
	for _, d := range sketch.Parts {
		if t.y+d.Height > t.wideBottom {
			t.turnWide()
			t.stickBand(l, true)
			t.write(wideLeft, t.y+4, "Pattern "+number+", continued", stickSays)
			t.y += patternDeep
		}
		t.lay(d, wideLeft, t.y)
		t.y += d.Height
	}
	t.line(wideLeft, t.y+patternGap/2-0.5, t.wideWidth, 0, faint)
	t.y += patternGap
}

// lay puts a drawing with its corner at x, y.
func (d *document) lay(dr drawing.Drawing, x, y float64) {
	for _, s := range dr.Shapes {
		m := mark{kind: drawn, x: x, y: y, shape: s}
		if s.Text != "" {
			m.style, m.text = style{size: s.Size, colour: black}, s.Text
			if s.Bold {
				m.style.face = bold
			}
			m.x, m.y = x+s.At.X, y+s.At.Y
			switch w := d.letters.width(s.Text, m.style); s.Anchor {
			case drawing.Middle:
				m.x -= w / 2
			case drawing.Right:
				m.x -= w
			}
		}
		d.put(m)
	}
}
