package price_test

import (
	"testing"

	"futtock/estimate/cutting"
	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/takeoff"
	"futtock/rates/measure"
)

func TestALineIsWordedAsABillReads(t *testing.T) {
	base := *member("1").Member
	for _, c := range []struct {
		name   string
		change func(*job.Member)
		unit   measure.Unit
		want   string
	}{
		{"a run by the foot", func(m *job.Member) {}, measure.Ft,
			"Renew covering board, port side, oak 9 x 3 in in scarphed lengths"},
		{"a run by number gives its length", func(m *job.Member) {}, measure.Nr,
			`Renew covering board, port side, oak 9 x 3 in in scarphed lengths, 24' 6" long`},
		{"several in one item are counted", func(m *job.Member) { m.Nr, m.Side, m.Joint = 4, "both", job.NoJoint }, measure.One,
			`Renew covering board, both sides, 4 nr, oak 9 x 3 in, each 24' 6" long`},
		{"a part with a scarph at both ends", func(m *job.Member) {
			m.Treatment, m.Renewed, m.Joints = job.Part, 6*measure.Foot, 2
		}, measure.Nr, "Renew part of covering board, port side, oak 9 x 3 in in scarphed lengths, 6' long, 2 scarphs to old work"},
		{"a graving piece", func(m *job.Member) { m.Treatment, m.Joint, m.Length = job.Graving, job.NoJoint, 18*measure.Inch }, measure.Nr,
			`Let graving piece into covering board, port side, oak 9 x 3 in, 1' 6" long`},
		{"a grown frame", func(m *job.Member) {
			m.Member, m.Joint, m.Sweep, m.Heart, m.Side = "Frame 12", job.NoJoint, 4*measure.Inch, job.Free, ""
		}, measure.Ft3, "Renew frame 12, oak 9 x 3 in, sawn to shape, free of heart"},
		{"a spar", func(m *job.Member) {
			m.Member, m.Side, m.Joint, m.Shape, m.Sided, m.Moulded, m.Timber = "Main boom", "", job.NoJoint, job.Round, 8*measure.Inch, 0, "Douglas fir"
		}, measure.Ft, "Renew main boom, Douglas fir 8 in diameter"},
		{"an eight-sided post", func(m *job.Member) { m.Shape, m.Joint = job.Eight, job.NoJoint }, measure.Ft,
			"Renew covering board, port side, oak 3 in across flats, eight-sided"},
		{"old work keeps its size and loses its timber", func(m *job.Member) { m.Treatment = job.Refasten }, measure.Ft,
			"Refasten covering board, port side, 9 x 3 in"},
		{"off and back", func(m *job.Member) { m.Treatment, m.Side = job.OffAndBack, "amidships" }, measure.Ft,
			"Take off and refit covering board, amidships, 9 x 3 in"},
		{"sizes as sawn, a half inch", func(m *job.Member) { m.AsSawn, m.Sided = true, 3*measure.Inch+measure.Inch/2 }, measure.Ft,
			"Renew covering board, port side, oak 9 x 3 1/2 in as sawn in scarphed lengths"},
		{"a name in capitals stays", func(m *job.Member) { m.Member, m.Joint = "P&S stringer", job.Butt }, measure.Ft,
			"Renew P&S stringer, port side, oak 9 x 3 in in butted lengths"},
		{"words of the yard's own stand alone", func(m *job.Member) { m.Description = "New covering board as drawing 7" }, measure.Nr,
			"New covering board as drawing 7"},
	} {
		t.Run(c.name, func(t *testing.T) {
			j, b := yard()
			m := base
			c.change(&m)
			m.BillUnit = c.unit
			got, _ := only(t, j, b, []takeoff.Row{measured(&m)}, cutting.Plan{}, labour.Hours{})
			equal(t, "description", got.Description, c.want)
		})
	}
}

func TestSizesAreWordedInTheUnitsOfTheJob(t *testing.T) {
	j, b := yard()
	j.SizesIn, j.LengthsIn = measure.Mm, measure.M
	m := *member("1").Member
	m.Sided, m.Moulded, m.Length = 75*measure.Millimetre, 225*measure.Millimetre, 7500*measure.Millimetre
	got, _ := only(t, j, b, []takeoff.Row{measured(&m)}, cutting.Plan{}, labour.Hours{})
	equal(t, "description", got.Description, "Renew covering board, port side, oak 225 x 75 mm in scarphed lengths, 7.50 m long")
}

// Three frames of one line: the side, the size and the length differ, so the
// line speaks of none of them.
func TestALineOfSeveralMembersSaysWhatTheyShare(t *testing.T) {
	j, b := yard()
	var rows []takeoff.Row
	for n, ref := range []string{"1", "2", "3"} {
		m := *member(ref).Member
		m.Member, m.BillItem, m.Joint, m.Heart = "Frame", "F", job.NoJoint, job.Free
		m.Side = []string{"port", "starboard", "port"}[n]
		m.Moulded += measure.Length(n) * measure.Inch
		m.Length += measure.Length(n) * measure.Foot
		rows = append(rows, measured(&m))
	}
	got, _ := only(t, j, b, rows, cutting.Plan{}, labour.Hours{})
	equal(t, "description", got.Description, "Renew frame, oak, free of heart")
}
