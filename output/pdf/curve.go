package pdf

import (
	"strconv"

	"futtock/estimate/cash"
	"futtock/rates/money"
)

// Places in the drawing of the valuations, in mm.
const (
	curveFrom = left + 14
	curveRest = 4.0 // right of it
	curveDeep = 50.0
	nameDeep  = 5.0
)

// oneTenth is a percentage with its one place always there.
func oneTenth(p money.Percent) string { return minus(p.Decimal().StringFixed(1)) + "\u00a0%" }

// curve draws the months: a bar for the value of each, and over them the line
// of what is valued so far, both in parts of the whole.
func (t *tender) curve() {
	var months []cash.Month
	for _, m := range t.Cash.Months {
		if m.Working {
			months = append(months, m)
		}
	}
	if len(months) < 2 || t.Cash.Net.Sign() <= 0 {
		return // one bar, or none, shows nothing
	}
	t.need(curveDeep + nameDeep + 24)
	t.head("Value of the work by months, as a share of the whole")
	t.y += 3
	base, long := t.y+curveDeep, t.right-curveRest-curveFrom
	small := cellNote.of(regular)
	small.size = 7
	for share := 0; share <= 100; share += 25 {
		y := base - curveDeep*float64(share)/100
		t.line(curveFrom, y, long, 0, faint)
		t.writeRight(curveFrom-2, y+0.9, strconv.Itoa(share)+"\u00a0%", small)
	}
	pitch := long / float64(len(months))
	every := 1
	for float64(every)*pitch < 11 {
		every++
	}
	net := t.Cash.Net.Decimal().InexactFloat64()
	x0, y0, before := curveFrom, base, 0.0
	for n, m := range months {
		far := m.Cumulative.Decimal().InexactFloat64() / net
		x, h := curveFrom+float64(n)*pitch, curveDeep*max(0, far-before)
		t.box(x+0.2*pitch, base-h, 0.6*pitch, h)
		if n%every == 0 {
			name := monthMark(m)
			t.write(x+(pitch-t.letters.width(name, small))/2, base+4, name, small)
		}
		before = far
	}
	for n, m := range months {
		x, y := curveFrom+float64(n+1)*pitch, base-curveDeep*m.Cumulative.Decimal().InexactFloat64()/net
		t.line(x0, y0, x-x0, y-y0, style{size: 0.5, colour: slate})
		t.put(mark{kind: tint, x: x - 0.7, y: y - 0.7, w: 1.4, h: 1.4, style: style{colour: slate}})
		x0, y0 = x, y
	}
	t.line(curveFrom, base, long, 0, style{size: 0.2, colour: slate})
	t.y = base + nameDeep + 3
	t.curveKey(small)
}

// box is a pale bar with an outline.
func (t *tender) box(x, y, w, h float64) {
	t.put(mark{kind: tint, x: x, y: y, w: w, h: h, style: style{colour: pale}})
	t.put(mark{kind: frame, x: x, y: y, w: w, h: h, style: style{size: 0.15, colour: grey}})
}

func (t *tender) curveKey(s style) {
	x, y := curveFrom, t.y+1.6
	t.box(x, t.y, 9, barDeep)
	const month = "value of the month"
	t.write(x+10.5, t.y+barDeep-0.6, month, s)
	x += 18.5 + t.letters.width(month, s)
	t.line(x, y, 9, 0, style{size: 0.5, colour: slate})
	t.put(mark{kind: tint, x: x + 3.8, y: y - 0.7, w: 1.4, h: 1.4, style: style{colour: slate}})
	t.write(x+10.5, t.y+barDeep-0.6, "valued so far, at the end of the month", s)
	t.y += barDeep + 4
}

// monthMark is a month as an axis has room for it: Nov 26, or the week it ends in.
func monthMark(m cash.Month) string {
	if m.Begins.IsZero() {
		return "wk\u00a0" + m.To.StringFixed(0)
	}
	return m.Begins.Format("Jan\u00a006")
}
