package takeoff

import (
	"slices"
	"testing"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/problem"
)

// What hangs on the yard's stock, build-ups and rules is no problem of a bill
// that others price; what is wrong with a row itself is.
func TestForOthersToPriceOnlyTheRowsThemselvesAreAsked(t *testing.T) {
	run := func(m *job.Member) { m.Joint = job.Butt }
	planed := func(m *job.Member) { m.PlanedFaces = 2 }
	for _, c := range []struct {
		name string
		m    job.Member
		want []problem.Code
	}{
		{"a run no stick is wide enough for", oak("1", "20ft", "4in", "17in", run), nil},
		{"a run bound to stock too thin", oak("1", "20ft", "6in", "6in", func(m *job.Member) { m.Joint, m.Stock = job.Butt, "oak 5in" }), nil},
		{"a plank its fastening rule does not know", oak("1", "20ft", "3in", "13in", func(m *job.Member) { m.Fastening, m.Spacing = "spikes and bolt", l("1ft") }), nil},
		{"faces planed of a timber without planing", oak("1", "20ft", "4in", "8in", planed), nil},
		{"new timber of no kind", oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.Timber = "" }), []problem.Code{problem.TimberMissing}},
		{"a scarph of no length", oak("1", "20ft", "4in", "8in", func(m *job.Member) { m.Joint = job.Scarph }), []problem.Code{problem.ScarphMissing}},
		{"no width", oak("1", "20ft", "4in", "", nil), []problem.Code{problem.SizeMissing}},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard(c.m)
			b.Timber[0].Planing = 0
			got, found := Unpriced(j, b)
			if !slices.Equal(codes(found), c.want) {
				t.Errorf("problems %v, want %v", found, c.want)
			}
			priced, _ := Measure(j, b)
			for _, d := range []rates.Driver{rates.ByNr, rates.ByLength, rates.ByFace, rates.ByVolume, rates.ByWeight} {
				q, ok := got.Rows[0].Amount(d)
				if want, there := priced.Rows[0].Amount(d); ok != there || !q.Base.Equal(want.Base) {
					t.Errorf("%s is %v here and %v where it is priced", d, q, want)
				}
			}
		})
	}
}
