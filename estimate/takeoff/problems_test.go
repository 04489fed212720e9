package takeoff

import (
	"slices"
	"strings"
	"testing"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/problem"
)

func TestProblems(t *testing.T) {
	run := func(m *job.Member) { m.Joint = job.Butt }
	for _, c := range []struct {
		name string
		m    job.Member
		book func(*rates.Book)
		want problem.Code // blank where nothing is wrong
		says string
	}{
		{"new timber of no kind", oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.Timber = "" }), nil, problem.TimberMissing, "neither Timber nor Stock"},
		{"new timber without a thickness", oak("1", "20ft", "0", "8in", nil), nil, problem.SizeMissing, "no Sided"},
		{"new timber without a width", oak("1", "20ft", "4in", "", nil), nil, problem.SizeMissing, "no Moulded"},
		{"new timber without a length", oak("1", "0", "4in", "8in", nil), nil, problem.SizeMissing, "no Length"},
		{"a round spar of two diameters", oak("1", "20ft", "10in", "9in", func(m *job.Member) { m.Shape = job.Round }), nil, problem.RoundSizes, `the Moulded of 9" is not the Sided of 10"`},
		{"a round spar given its diameter both ways", oak("1", "20ft", "10in", "10in", func(m *job.Member) { m.Shape = job.Round }), nil, "", ""},
		{"a sweep of more than half a circle", oak("1", "6ft", "4in", "8in", func(m *job.Member) { m.Sweep = l("3ft 1in") }), nil, problem.SweepDeep, `the Sweep of 3' 1" is more`},
		{"a sweep of half a circle", oak("1", "6ft", "4in", "8in", func(m *job.Member) { m.Sweep = l("3ft") }), nil, "", ""},
		{"faces planed of a timber without planing", oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.PlanedFaces = 2 }),
			func(b *rates.Book) { b.Timber[0].Planing = 0 }, problem.PlaningMissing, `2 faces`},
		{"part renewed without saying how much", oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.Treatment = job.Part }), nil, problem.RenewedMissing, "no Renewed length"},
		{"more renewed than there is", oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.Treatment, m.Renewed = job.Part, l("21ft") }), nil, problem.RenewedLong, `21' is more than the Length of 20'`},
		{"joints to old work of no kind", oak("1", "20ft", "4in", "8in", func(m *job.Member) {
			m.Treatment, m.Renewed, m.Joints = job.Part, l("10ft"), 2
		}), nil, problem.JointMissing, `2 joints`},
		{"a scarph of no length", oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.Joint = job.Scarph }), nil, problem.ScarphMissing, `no Scarph (to one)`},
		{"a run no stick is wide enough for", oak("1", "20ft", "4in", "17in", run), nil, problem.StickMissing, `the nearest is "oak baulk", 14" x 16" x 40'`},
		{"a run of which no stick is longer than its scarph", oak("1", "100ft", "14in", "15in", func(m *job.Member) {
			m.Joint, m.Scarph = job.Scarph, dec("35")
		}), nil, problem.StickMissing, `scarphs of 40' 10"; the nearest is "oak baulk"`},
		{"a run no log is thick enough for", oak("1", "20ft", "8in", "8in", run), func(b *rates.Book) {
			b.Stock = []rates.Stock{{Stock: "oak log", Timber: "oak", Form: rates.Log, TopDiameter: l("11in"), Length: l("24ft")},
				{Stock: "oak pole", Timber: "oak", Form: rates.Log, MidGirth: l("30in"), Length: l("30ft")}}
		}, problem.StickMissing, `the nearest is "oak log", top diameter 11" x 24'`},
		{"a run whose own stock is too thin", oak("1", "20ft", "6in", "6in", func(m *job.Member) { m.Joint, m.Stock = job.Butt, "oak 5in" }), nil,
			problem.StickMissing, `stock line "oak 5in" does not give`},
		{"a run of a timber not in stock is for cutting to tell", oak("1", "20ft", "4in", "8in", run), func(b *rates.Book) { b.Stock = nil }, "", ""},
		{"a piece no stick is long enough for is for cutting to tell", oak("1", "60ft", "4in", "8in", nil), nil, "", ""},
		{"a single piece longer than Longest piece", oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.Longest = l("15ft") }), nil, problem.PieceLong, `20' is longer than Longest piece, 15'`},
		{"a Longest piece shorter than the scarph", oak("1", "20ft", "4in", "8in", func(m *job.Member) {
			m.Joint, m.Scarph, m.Longest = job.Scarph, dec("12"), l("3ft")
		}), nil, problem.PieceLong, `Longest piece is 3', and every piece has a scarph of 4'`},
		{"pieces shorter than Shortest piece", oak("1", "41ft", "4in", "8in", func(m *job.Member) {
			m.Joint, m.Shortest = job.Butt, l("21ft")
		}), nil, problem.PieceShort, `2 equal pieces of 20' 6"`},
		{"a plank wider than the fastening rule knows", oak("1", "20ft", "3in", "13in", func(m *job.Member) {
			m.Fastening, m.Spacing = "spikes and bolt", l("1ft")
		}), nil, problem.FastenRange, `a plank of 13"`},
		{"fastenings at frames that are not known", oak("1", "20ft", "3in", "9in", func(m *job.Member) { m.Fastening = "lloyd 1855" }), nil, problem.CrossingsUnknown, `"lloyd 1855"`},
		{"fastenings of a plank of unknown width", oak("1", "20ft", "3in", "", func(m *job.Member) {
			m.Fastening, m.Treatment = "lloyd 1855", job.Refasten
		}), nil, problem.SizeMissing, `by fastening rule "lloyd 1855"`},
		{"a rule nobody wrote is told where keys are checked", oak("1", "20ft", "3in", "9in", func(m *job.Member) { m.Fastening = "nails" }), nil, "", ""},
		{"work measured by fastening without a rule", oak("1", "20ft", "3in", "9in", func(m *job.Member) { m.BuildUp = "By Fastening" }), nil, problem.FastenRuleless, `"By Fastening"`},
		{"work measured by weight of a timber without density", oak("1", "20ft", "3in", "9in", func(m *job.Member) { m.BuildUp = "by weight" }),
			func(b *rates.Book) { b.Timber[0].Density = dec("0") }, problem.DensityMissing, `timber "oak" has no Density`},
		{"a keel scarph of four times its depth", oak("1", "100ft", "12in", "15in", func(m *job.Member) {
			m.Member, m.Joint, m.Scarph, m.ThroughGiven = "keel", job.Scarph, dec("4"), true
		}), nil, problem.ScarphShort, `5 times the moulded depth of 15" (Laws of Fiji`},
		{"a new plank of five frame spaces", strakePart("40ft", "7ft 6in"), nil, problem.PlankShort, `7' 6", under 6 frame spaces of 1' 6" (US Army`},
		{"a remnant of five frame spaces", strakePart("37ft 6in", "30ft"), nil, problem.RemnantShort, `7' 6" is left at one end`},
		{"a plank and a remnant of six frame spaces", strakePart("18ft", "9ft"), nil, "", ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard(c.m)
			if c.book != nil {
				c.book(b)
			}
			_, problems := told(j, b)
			var want []problem.Code
			if c.want != "" {
				want = []problem.Code{c.want}
			}
			if got := codes(problems); !slices.Equal(got, want) {
				t.Fatalf("%v, want %v", problems, want)
			}
			if len(problems) > 0 && !strings.Contains(problems[0].Text, c.says) {
				t.Errorf("%q does not say %q", problems[0].Text, c.says)
			}
		})
	}
}

func strakePart(length, renewed string) job.Member {
	m := strakePlank("1", "5", 10, 20)
	m.Treatment, m.Joints, m.Length, m.Renewed = job.Part, 1, l(length), l(renewed)
	return m
}

func TestARowWithAProblemIsMeasuredAsFarAsItCanBe(t *testing.T) {
	j, b := yard(
		oak("1", "20ft", "4in", "17in", func(m *job.Member) { m.Joint = job.Butt }),
		oak("2", "20ft", "4in", "", func(m *job.Member) { m.BuildUp = "by weight" }),
		oak("3", "20ft", "4in", "8in", nil),
	)
	got, problems := told(j, b)
	if want := []problem.Code{problem.StickMissing, problem.SizeMissing}; !slices.Equal(codes(problems), want) {
		t.Errorf("%v, want %v", problems, want)
	}
	if len(got.Rows) != 3 || len(got.Pieces) != 1 || got.Pieces[0].Ref != "3" {
		t.Errorf("%d rows and pieces %v, want three rows and the piece of row 3", len(got.Rows), got.Pieces)
	}
	// What a build-up asks of a row whose problem has been told is there, at nil.
	if q, ok := got.Rows[1].Amount(rates.ByWeight); !ok || !q.IsZero() {
		t.Errorf("weight %v %t, want nil", q, ok)
	}
}
