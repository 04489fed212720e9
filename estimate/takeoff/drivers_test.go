package takeoff

import (
	"testing"

	"futtock/estimate/job"
	"futtock/rates"
	"futtock/rates/measure"
)

func TestDrivers(t *testing.T) {
	const nr, ft, ft2, ft3 = measure.Nr, measure.Ft, measure.Ft2, measure.Ft3
	for _, c := range []struct {
		name   string
		m      job.Member
		driver rates.Driver
		unit   measure.Unit
		want   string // to six places
	}{
		{"number is Nr alone", plank3(), rates.ByNr, nr, "3"},
		{"length is all of it", plank3(), rates.ByLength, ft, "144"},
		{"face area is length by moulded: 144 x 9/12", plank3(), rates.ByFace, ft2, "108"},
		{"girth area of square work is 2 (3 + 9)/12 x 144", plank3(), rates.ByGirth, ft2, "288"},
		{"volume is 144 x 3/12 x 9/12", plank3(), rates.ByVolume, ft3, "27"},
		{"old volume is that of what goes in", plank3(), rates.ByOldVolume, ft3, "27"},
		{"seam is Seams lengths of every piece: 1.5 x 144", plank3(), rates.BySeam, ft, "216"},
		{"joints between new pieces are one less than the pieces of each run: 48 ft in 24 ft lengths", plank3(), rates.ByJoint, nr, "3"},
		{"joints to old work are those of every run", plank3(), rates.ByJointToOld, nr, "6"},
		{"weight is 27 cu ft at 720 kg/m3: 27 x 0.028316846592 x 720", plank3(), rates.ByWeight, measure.Kg, "550.479498"},
		{"fastenings are 2 crossings more than 47 ft 6 in of 6 in spaces: (95 + 1 + 1) x 1 x 3", plank3(), rates.ByFastening, nr, "291"},
		{"a row is one item", plank3(), rates.ByItem, measure.One, "1"},
		{"girth area of round work is pi x 10/12 x 30", spar(job.Round), rates.ByGirth, ft2, "78.539816"},
		{"volume of round work is pi/4 x (10/12)2 x 30", spar(job.Round), rates.ByVolume, ft3, "16.362462"},
		{"girth area of eight-sided work is 8 (root 2 - 1) x 10/12 x 30", spar(job.Eight), rates.ByGirth, ft2, "82.842712"},
		{"volume of eight-sided work is 2 (root 2 - 1) x (10/12)2 x 30", spar(job.Eight), rates.ByVolume, ft3, "17.258898"},
		{"part renewal measures what is renewed: 20 of 40 ft", partPlank(), rates.BySeam, ft, "20"},
		{"volume of part renewal: 20 x 3/12 x 9/12", partPlank(), rates.ByVolume, ft3, "3.75"},
		{"what is kept is measured too", kept40(), rates.ByFace, ft2, "30"},
	} {
		t.Run(c.name, func(t *testing.T) {
			row, _ := measured(t, c.m, func(b *rates.Book) { b.Stock = b.Stock[:1] })
			q, ok := row.Amount(c.driver)
			if !ok {
				t.Fatalf("the row has no %s", c.driver)
			}
			if got := q.In(c.unit, 6).String(); got != c.want {
				t.Errorf("%s %s %s, want %s", c.driver, got, c.unit, c.want)
			}
		})
	}
}

// plank3 is three runs of 48 ft, 3 x 9 in, spiked at 6 in.
func plank3() job.Member {
	return oak("1", "48ft", "3in", "9in", func(m *job.Member) {
		m.Nr, m.Joint, m.Joints, m.Seams, m.Fastening, m.Spacing = 3, job.Butt, 2, dec("1.5"), "Lloyd 1855", l("6in")
	})
}

func spar(s job.Shape) job.Member {
	return oak("1", "30ft", "10in", "", func(m *job.Member) { m.Shape = s })
}

func partPlank() job.Member {
	return oak("1", "40ft", "3in", "9in", func(m *job.Member) {
		m.Treatment, m.Renewed, m.Joint, m.Joints, m.Seams = job.Part, l("20ft"), job.Butt, 1, dec("1")
	})
}

func kept40() job.Member {
	return oak("1", "40ft", "3in", "9in", func(m *job.Member) { m.Treatment = job.Retain })
}

// 0.3 at 7 frames of one run are 2.1, and of three runs 6.3: a row of the rule is
// rounded up to whole ones, once for the row of the schedule.
func TestFasteningsAreRoundedUpOnceARow(t *testing.T) {
	for nr, want := range map[int]string{1: "3", 3: "7"} {
		row, _ := measured(t, oak("1", "20ft", "3in", "9in", func(m *job.Member) {
			m.Nr, m.Fastening, m.FromFrame, m.ToFrame, m.FramesGiven = nr, "screw bolts", 4, 10, true
		}), func(b *rates.Book) {
			b.Fastenings = []rates.Fastening{{Rule: "screw bolts", Each: dec("0.3"), Material: "screw bolt"}}
		})
		if got := row.Fastenings[0].Number.String(); got != want {
			t.Errorf("%d of 7 frames take %s, want %s", nr, got, want)
		}
	}
}

func TestWorkWithoutNewTimberHasNoPieces(t *testing.T) {
	for _, treatment := range job.Treatments() {
		_, pieces := measured(t, oak("1", "20ft", "3in", "9in", func(m *job.Member) {
			m.Treatment, m.Renewed = treatment, l("10ft")
		}), nil)
		if got := len(pieces) > 0; got != treatment.TakesTimber() {
			t.Errorf("%s: %d pieces", treatment, len(pieces))
		}
	}
}

func TestWorkWithoutSizesHasOnlyTheDriversThatNeedNone(t *testing.T) {
	row, _ := measured(t, oak("1", "20ft", "3in", "", func(m *job.Member) {
		m.Treatment, m.Sided = job.Preserve, 0
	}), nil)
	for d, want := range map[rates.Driver]bool{rates.ByNr: true, rates.ByLength: true, rates.BySeam: true, rates.ByItem: true,
		rates.ByFace: false, rates.ByGirth: false, rates.ByVolume: false, rates.ByOldVolume: false, rates.ByWeight: false} {
		if _, got := row.Amount(d); got != want {
			t.Errorf("%s there: %t, want %t", d, got, want)
		}
	}
}

func TestItemsReadTheirQuantityByEveryDriverOfItsDimension(t *testing.T) {
	for _, c := range []struct {
		unit    measure.Unit
		drivers []rates.Driver
	}{
		{measure.M2, []rates.Driver{rates.ByFace, rates.ByGirth}},
		{measure.Ft, []rates.Driver{rates.ByLength, rates.BySeam}},
		{measure.Ft3, []rates.Driver{rates.ByVolume, rates.ByOldVolume}},
		{measure.Cwt, []rates.Driver{rates.ByWeight}},
		{measure.Nr, []rates.Driver{rates.ByNr, rates.ByFastening, rates.ByJoint, rates.ByJointToOld}},
		{measure.Pair, []rates.Driver{rates.ByNr, rates.ByFastening, rates.ByJoint, rates.ByJointToOld}},
		{measure.Lifts, []rates.Driver{rates.ByNr}},
		{measure.Hour, []rates.Driver{rates.ByNr}},
		{measure.One, []rates.Driver{rates.ByNr}},
	} {
		j, b := yard()
		j.Items = []job.Item{{Work: job.Work{Ref: "1"}, Quantity: dec("4.5"), Unit: c.unit}}
		got, problems := Measure(j, b)
		if len(problems) > 0 {
			t.Fatal(problems)
		}
		row := got.Rows[0]
		if len(row.Amounts) != len(c.drivers)+1 {
			t.Errorf("%s: drivers %v, want %v and item", c.unit, row.Amounts, c.drivers)
		}
		for _, d := range c.drivers {
			q, _ := row.Amount(d)
			if q.Dim != c.unit.Dimension() || q.In(c.unit, 6).String() != "4.5" {
				t.Errorf("%s by %s: %v, want 4.5", c.unit, d, q)
			}
		}
		if q, _ := row.Amount(rates.ByItem); q.In(measure.One, 0).String() != "1" {
			t.Errorf("%s: item %v, want 1", c.unit, q)
		}
	}
}
