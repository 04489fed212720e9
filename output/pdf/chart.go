package pdf

import (
	"strconv"
	"time"

	"futtock/estimate/programme"
)

// Places in the chart of stages, in mm.
const (
	chartFrom = left + 42
	chartRest = 8.0 // right of it
	barDeep   = 3.2
	barPitch  = 5.6
	axisDeep  = 9.0
)

// chart draws the stages as bars over weeks. A critical stage is a dark bar
// with a letter C at its end; another is a pale one with an outline.
func (t *tender) chart() {
	stages := t.Programme.Stages
	weeks, _ := t.Programme.Weeks.Float64()
	if weeks <= 0 {
		return
	}
	scale := (t.right - chartRest - chartFrom) / weeks
	t.need(min(float64(len(stages)), 24)*barPitch + axisDeep + 18)
	t.head("Stages by weeks from the start on site")
	for len(stages) > 0 {
		n := min(len(stages), max(1, int((t.room()-axisDeep-10)/barPitch)))
		t.axis(weeks, scale, float64(n)*barPitch)
		for _, s := range stages[:n] {
			t.bar(s, scale)
		}
		if stages = stages[n:]; len(stages) > 0 {
			t.turn()
		}
	}
	t.y += 2
	t.key()
}

// axis draws the weeks over the next rows of the chart, with their dates, and
// the times the yard is closed.
func (t *tender) axis(weeks, scale, deep float64) {
	small := cellNote.of(regular)
	small.size = 7
	step := 1
	for _, s := range []int{1, 2, 4, 8, 13, 26, 52, 104} {
		if step = s; float64(s)*scale >= 12.3 {
			break
		}
	}
	from, year := t.y+axisDeep, 0
	if !t.Programme.Start.IsZero() {
		for _, c := range t.Job.Closures {
			a, b := max(0, t.weekOf(c.From)), min(weeks, t.weekOf(c.To.AddDate(0, 0, 1)))
			if b > a {
				t.put(mark{kind: tint, x: chartFrom + a*scale, y: from, w: (b - a) * scale, h: deep, style: style{colour: wash}})
			}
		}
	}
	for w := 0; float64(w) <= weeks; w += step {
		x := chartFrom + float64(w)*scale
		t.line(x, from-1, 0, deep+1, faint)
		t.write(x, t.y+3, strconv.Itoa(w), small.in(slate))
		if !t.Programme.Start.IsZero() {
			on, form := t.Programme.Start.AddDate(0, 0, 7*w), "2 Jan"
			if on.Year() != year {
				year, form = on.Year(), "2 Jan 06"
			}
			t.write(x, t.y+6.4, on.Format(form), small)
		}
	}
	t.line(left, from, t.right-chartRest-left, 0, hairline)
	t.y = from
}

// weekOf is how many weeks after the start a day begins: a place on the chart.
func (t *tender) weekOf(d time.Time) float64 { return d.Sub(t.Programme.Start).Hours() / (7 * 24) }

func (t *tender) bar(s programme.Stage, scale float64) {
	from, _ := s.Earliest.Float64()
	long, _ := s.Weeks.Float64()
	name := cellText
	if s.Critical {
		name = cellBold
	}
	name.size = 7.8
	t.write(left, t.y+barPitch/2+1, t.letters.shorten(t.clean(s.Stage.Stage), name, chartFrom-left-3), name)
	x, y, w := chartFrom+from*scale, t.y+(barPitch-barDeep)/2, max(0.5, long*scale)
	t.block(x, y, w, s.Critical)
	if s.Critical {
		t.write(x+w+1.2, t.y+barPitch/2+1, "C", name.in(slate))
	}
	t.y += barPitch
}

func (t *tender) block(x, y, w float64, critical bool) {
	fill := pale
	if critical {
		fill = slate
	}
	t.put(mark{kind: tint, x: x, y: y, w: w, h: barDeep, style: style{colour: fill}})
	t.put(mark{kind: frame, x: x, y: y, w: w, h: barDeep, style: style{size: 0.2, colour: slate}})
}

// key says what the bars mean.
func (t *tender) key() {
	x := chartFrom
	say := func(text string) {
		t.write(x, t.y+barDeep-0.6, text, cellNote.of(regular))
		x += t.letters.width(text, cellNote.of(regular)) + 8
	}
	for _, critical := range []bool{true, false} {
		t.block(x, t.y, 9, critical)
		x += 10.5
		if critical {
			say("C  critical, no time to spare")
		} else {
			say("with time to spare")
		}
	}
	if len(t.Job.Closures) > 0 && !t.Programme.Start.IsZero() {
		t.put(mark{kind: tint, x: x, y: t.y, w: 9, h: barDeep, style: style{colour: wash}})
		x += 10.5
		say("yard closed")
	}
	t.y += barDeep + 4
}
