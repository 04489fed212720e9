package takeoff

import (
	"encoding/csv"
	"math"
	"os"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

// TestPublishedFigures checks every row of the published figures: what the
// package makes of the row's inputs lies within its tolerance of what is printed.
func TestPublishedFigures(t *testing.T) {
	f, err := os.Open("../../testdata/published/takeoff.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	seen := 0
	for _, r := range rows[1:] {
		id, expected, tolerance := r[0], dec(r[3]), dec(r[5])
		t.Run(id, func(t *testing.T) {
			figure, ok := published[id]
			if !ok {
				t.Fatal("no check for this row")
			}
			if got := figure(t); got.Sub(expected).Abs().GreaterThan(tolerance) {
				t.Errorf("%s, published %s within %s (%s)", got, expected, tolerance, r[6])
			}
		})
		seen++
	}
	if seen != len(published) {
		t.Errorf("%d rows, %d checks", seen, len(published))
	}
}

var published = map[string]func(*testing.T) decimal.Decimal{
	"PLANE-SW-63":   planed("63mm", "1.5mm", 2, measure.Mm),
	"PLANE-SW-100":  planed("100mm", "1.5mm", 2, measure.Mm),
	"PLANE-SW-125":  planed("125mm", "2.5mm", 2, measure.Mm),
	"PLANE-SW-150":  planed("150mm", "2.5mm", 2, measure.Mm),
	"PLANE-SW-200":  planed("200mm", "2.5mm", 2, measure.Mm),
	"PLANE-SW-225":  planed("225mm", "2.5mm", 2, measure.Mm),
	"PLANE-SW-250":  planed("250mm", "2.5mm", 2, measure.Mm),
	"PLANE-SW-300":  planed("300mm", "2.5mm", 2, measure.Mm),
	"NHLA-S2S-6_4":  planed("1 1/2in", "3/32in", 2, measure.In),
	"NHLA-S2S-8_4":  planed("2in", "1/8in", 2, measure.In),
	"NHLA-S2S-12_4": planed("3in", "1/8in", 2, measure.In),
	"NHLA-S2S-16_4": planed("4in", "1/8in", 2, measure.In),
	"NHLA-S1S-4_4":  planed("1in", "1/8in", 1, measure.In),
	"NHLA-S1S-5_4":  planed("1 1/4in", "1/8in", 1, measure.In),
	"SHIP-13": func(*testing.T) decimal.Decimal {
		return curveOver(l("144in"), l("5in")).Inner.In(measure.Ft, 4)
	},
	"DCH-03": func(*testing.T) decimal.Decimal { // 1 - kept
		return dec("100").Sub(kept(dec("10.5"), dec("12")).DivRound(dec("30"), 6))
	},
	"DCH-04": func(t *testing.T) decimal.Decimal {
		// What must be sawn green for the printed width is the printed green width.
		oak := rates.Timber{Tangential: percent("10.5"), Radial: percent("5.6"), SawnAt: percent("60"), InUse: percent("15"), Dries: true}
		if got := green(l("284.25mm"), oak); got != l("300mm") {
			t.Errorf("284.25 mm in use is sawn at %s, want 300 mm", got.In(measure.Mm, 6))
		}
		return dec("300").Mul(kept(dec("10.5"), dec("15"))).DivRound(dec("3000"), 6)
	},
	"GEO-11": func(*testing.T) decimal.Decimal { return frame().NestedWidth(l("250mm"), 0, 1).Metres() },
	"GEO-12": func(*testing.T) decimal.Decimal {
		c, m := frame(), 0.25
		in := c.Inner.Metres().InexactFloat64()
		a := math.Asin(c.Chord.Metres().InexactFloat64() / (2 * in))
		piece := a * ((in+m)*(in+m) - in*in)
		flitch := c.NestedWidth(l("250mm"), 0, 1).Area(c.LengthGot(l("250mm"))).Base.InexactFloat64()
		return decimal.NewFromFloat(piece / flitch)
	},
	"SCF-08": func(t *testing.T) decimal.Decimal { return strakesBetween(t) },
	"SCF-14": func(t *testing.T) decimal.Decimal {
		row, _ := measured(t, oak("1", "30ft", "3in", "5in", func(m *job.Member) {
			m.Joint, m.Scarph, m.ThroughGiven = job.Scarph, dec("3"), true
		}), nil)
		return row.ScarphLen.In(measure.In, 6).DivRound(dec("5"), 6)
	},
	"KEEL-01": func(t *testing.T) decimal.Decimal {
		row, p := measured(t, oak("1", "100ft", "12in", "15in", func(m *job.Member) {
			m.Member, m.Joint, m.Scarph, m.ThroughGiven = "keel", job.Scarph, dec("5"), true
		}), nil)
		return p[0].Length.In(measure.Ft, 6).Mul(decimal.New(int64(row.PiecesEach), 0))
	},
	"FIJI-01": func(t *testing.T) decimal.Decimal {
		// The least scarph of a keel moulded 0.30 m that is not warned of, by ratios in tenths.
		for tenths := int64(40); ; tenths++ {
			j, b := yard(oak("1", "100ft", "0.30m", "0.30m", func(m *job.Member) {
				m.Member, m.Joint, m.Scarph = "Keel", job.Scarph, decimal.New(tenths, -1)
			}))
			got, problems := told(j, b)
			if len(problems) == 0 {
				return got.Rows[0].ScarphLen.Metres()
			}
		}
	},
	"TB-01":     func(t *testing.T) decimal.Decimal { return spacesOf(t, "60ft", "") },
	"TB-02":     func(t *testing.T) decimal.Decimal { return spacesOf(t, "", "30ft") },
	"TB-03":     func(t *testing.T) decimal.Decimal { return shift(t) },
	"TB-04":     func(t *testing.T) decimal.Decimal { return strakesBetween(t) },
	"LR55-13":   treenails("13in"),
	"LR55-10":   treenails("10in"),
	"LR55-09":   treenails("9in"),
	"LR91-10":   bolts("10in"),
	"LR91-09":   bolts("9in"),
	"LR91-08":   bolts("8in"),
	"HED30-11":  crossing("11in", rates.Fastening{To: l("10in"), Each: dec("1.5")}, rates.Fastening{Over: l("10in"), Each: dec("2")}),
	"HED30-10":  crossing("10in", rates.Fastening{To: l("10in"), Each: dec("1.5")}, rates.Fastening{Over: l("10in"), Each: dec("2")}),
	"LU66-SIDE": crossing("9in", rates.Fastening{Each: dec("3"), Material: "spike"}, rates.Fastening{Each: dec("1"), Material: "bolt"}),
}

// planed is the finished thickness, in unit u, whose least sawn one is that given,
// with so many faces planed; it is looked for by millimetres and by 1/64 in.
func planed(sawn, planing string, faces int, u measure.Unit) func(*testing.T) decimal.Decimal {
	return func(t *testing.T) decimal.Decimal {
		step := measure.Millimetre
		if u == measure.In {
			step = measure.Inch / 64
		}
		for finished := step; finished < 400*measure.Millimetre; finished += step {
			_, p := measured(t, oak("1", "2m", "1mm", "400mm", func(m *job.Member) { m.Sided, m.PlanedFaces = finished, faces }),
				func(b *rates.Book) { b.Timber[0].Planing = l(planing) })
			if p[0].Thickness == l(sawn) {
				return finished.In(u, 6)
			}
		}
		t.Fatalf("no finished size is sawn at %s", sawn)
		return decimal.Decimal{}
	}
}

// frame is the arc frame piece with its convex edge on a radius of 3 m, moulded
// 0.25 m, 2.4 m got: chord 2.4 x 2.75 / 3 = 2.2 m, sweep 2.75 (1 - root(1 - 0.4^2)).
func frame() Curve { return curveOver(l("2.2m"), l("0.229583m")) }

// spacesOf is the fewest frame spaces of 2 ft, of the new plank where old is
// its whole length, else of what is left beyond new, that is not warned of.
func spacesOf(t *testing.T, old, fresh string) decimal.Decimal {
	for n := measure.Length(1); n < 20; n++ {
		m := strakePlank("1", "5", 1, 20)
		m.Treatment, m.Spacing, m.Joints = job.Part, l("2ft"), 1
		if old != "" {
			m.Length, m.Renewed = l(old), n*m.Spacing
		} else {
			m.Length, m.Renewed = l(fresh)+n*m.Spacing, l(fresh)
		}
		j, b := yard(m)
		if _, problems := told(j, b); len(problems) == 0 {
			return decimal.New(int64(n), 0)
		}
	}
	t.Fatal("every plank is too short")
	return decimal.Decimal{}
}

// shift is the fewest frame spaces between butts in adjacent strakes that are not warned of.
func shift(t *testing.T) decimal.Decimal {
	for n := 0; n < 20; n++ {
		j, b := yard(strakePlank("1", "5", 1, 40), strakePlank("2", "6", -20, 40+n))
		if _, problems := told(j, b); len(problems) == 0 {
			return decimal.New(int64(n), 0)
		}
	}
	t.Fatal("every shift is too small")
	return decimal.Decimal{}
}

// strakesBetween is the fewest strakes between butts in one bay that are not warned of.
func strakesBetween(t *testing.T) decimal.Decimal {
	for n := int64(1); n < 20; n++ {
		j, b := yard(strakePlank("1", "5", 1, 40), strakePlank("2", decimal.New(6+n, 0).String(), -20, 40))
		if _, problems := told(j, b); len(problems) == 0 {
			return decimal.New(n, 0)
		}
	}
	t.Fatal("no number of strakes is enough")
	return decimal.Decimal{}
}

// treenails is those of ten strakes of a width over 20 frames.
func treenails(width string) func(*testing.T) decimal.Decimal {
	return func(t *testing.T) decimal.Decimal {
		row, _ := measured(t, oak("1", "30ft", "3in", width, func(m *job.Member) {
			m.Nr, m.Fastening, m.FromFrame, m.ToFrame, m.FramesGiven = 10, "lloyd 1855", 11, 30, true
		}), nil)
		return row.Fastenings[0].Number
	}
}

// bolts is those of each crossing by the rule for composite vessels; a plank of
// just 10 in belongs to the widest.
func bolts(width string) func(*testing.T) decimal.Decimal {
	return crossing(width,
		rates.Fastening{To: l("8 7/16in"), Each: dec("1")},
		rates.Fastening{Over: l("8 7/16in"), To: l("9 15/16in"), Each: dec("1.5")},
		rates.Fastening{Over: l("9 15/16in"), Each: dec("2")})
}

// crossing is the fastenings of each crossing of one strake over 20 frames, by
// a rule of the rows given.
func crossing(width string, rule ...rates.Fastening) func(*testing.T) decimal.Decimal {
	return func(t *testing.T) decimal.Decimal {
		row, _ := measured(t, oak("1", "30ft", "3in", width, func(m *job.Member) {
			m.Fastening, m.FromFrame, m.ToFrame, m.FramesGiven = "rule", 1, 20, true
		}), func(b *rates.Book) {
			b.Fastenings = nil
			for _, f := range rule {
				f.Rule = "rule"
				b.Fastenings = append(b.Fastenings, f)
			}
		})
		return fastened(row).DivRound(dec("20"), 6)
	}
}
