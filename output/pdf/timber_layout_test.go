package pdf

import (
	"testing"

	"futtock/estimate/job"
	"futtock/output/drawing"
	"futtock/rates/measure"
)

// Whatever is written or drawn lies on its page, within the margins of the sheet, and
// nothing is too small to read.
func TestTheTimberOrderLiesOnItsPages(t *testing.T) {
	for name, c := range map[string]struct {
		length, size measure.Unit
		on           job.Paper
	}{
		"metric": {measure.M, measure.Mm, job.A4}, "feet and inches": {measure.Ft, measure.In, job.A4},
		"metric on Letter": {measure.M, measure.Mm, job.Letter}, "feet and inches on Letter": {measure.Ft, measure.In, job.Letter},
	} {
		t.Run(name, func(t *testing.T) {
			r := Handmade(c.length, c.size)
			r.Job.Paper = c.on
			d, err := layTimber(r)
			if err != nil {
				t.Fatal(err)
			}
			drawings := 0
			for n, p := range d.pages {
				x0, x1, y1 := left, d.right, d.high-7
				if p.wide {
					x0, x1, y1 = wideLeft, d.wideRight, d.across-5.5
				}
				within := func(what string, a, b, y, z float64) {
					t.Helper()
					if a < x0-0.3 || b > x1+0.3 || y < 10 || z > y1 {
						t.Errorf("page %d: %s lies from %.1f, %.1f to %.1f, %.1f", n+1, what, a, y, b, z)
					}
				}
				for _, m := range p.marks {
					switch m.kind {
					case drawn:
						if m.text != "" {
							within(m.text, m.x, m.x+d.letters.width(m.text, m.style), m.y-2, m.y)
							continue
						}
						drawings++
						for _, st := range m.shape.Path {
							points := []drawing.Point{st.To}
							switch st.Kind {
							case drawing.Bend: // which lies within its control points
								points = append(points, st.C1, st.C2)
							case drawing.Close:
								points = nil
							}
							for _, p := range points {
								within("a shape", m.x+p.X, m.x+p.X, m.y+p.Y, m.y+p.Y)
							}
						}
					case writing:
						within(m.text, m.x, m.x+d.letters.width(m.text, m.style), m.y-2, m.y)
					case tint, frame, rule:
						within("a mark", m.x, m.x+m.w, m.y, m.y+m.h)
					}
					if m.text != "" && m.style.size < 7.5 {
						t.Errorf("page %d: %q is set in %g point", n+1, m.text, m.style.size)
					}
				}
			}
			if drawings < 100 {
				t.Errorf("only %d shapes are drawn", drawings)
			}
		})
	}
}

// Every pattern that can be drawn is drawn once, under the number by which the
// cutting list names it.
func TestPatternsAreNumberedAsTheyStand(t *testing.T) {
	d, err := layTimber(ManyPatterns(40))
	if err != nil {
		t.Fatal(err)
	}
	seen := map[int]bool{}
	for _, l := range d.stock {
		if !drawing.Drawn(l.Stock) {
			t.Fatal("the plank is not drawn")
		}
		for _, n := range l.number {
			if seen[n] || n < 1 || n > 40 {
				t.Errorf("pattern number %d", n)
			}
			seen[n] = true
		}
		for n, p := range l.Patterns {
			for _, c := range p.Cuts {
				list := d.cuts[c.Piece]
				if len(list) != 1 || list[0].pattern != l.number[n] || list[0].count != p.Times {
					t.Errorf("%s is said to come from %+v, and %d come from pattern %d", c.Ref, list, p.Times, l.number[n])
				}
			}
		}
	}
}

func BenchmarkThreeHundredPatterns(b *testing.B) {
	r := ManyPatterns(300)
	for b.Loop() {
		if _, err := Timber(r); err != nil {
			b.Fatal(err)
		}
	}
}
