package fabric_test

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/fabric"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates/measure"
	"futtock/rates/problem"
)

const mm = measure.Millimetre

// member is a row of so many, sizes in millimetres.
func member(ref string, t job.Treatment, nr, length, sided, moulded int) job.Member {
	return job.Member{Work: job.Work{Ref: ref, Section: "KE", Carried: job.Measured}, Treatment: t, Nr: nr,
		Length: measure.Length(length) * mm, Sided: measure.Length(sided) * mm, Moulded: measure.Length(moulded) * mm}
}

func reckon(members ...job.Member) fabric.Fabric {
	f, _ := reckonAll(members...)
	return f
}

func reckonAll(members ...job.Member) (fabric.Fabric, problem.List) {
	j := job.Job{Sections: []job.Section{{Section: "KE", Title: "Keel"}, {Section: "PL", Title: "Planking"}}, Members: members}
	var t takeoff.Takeoff
	for i := range j.Members {
		t.Rows = append(t.Rows, takeoff.Row{Work: j.Members[i].Work, Member: &j.Members[i]})
	}
	return fabric.Reckon(&j, t)
}

// The figures of the package comment.
func TestOfAKeelRenewedInPartTheRestIsKept(t *testing.T) {
	keel := member("KE1", job.Part, 1, 22400, 280, 330)
	keel.Renewed = 3600 * mm
	c := reckon(keel).All
	for _, f := range []struct {
		what, want string
		got        decimal.Decimal
	}{{"before", "2.07", c.Before}, {"renewed", "0.333", c.Renewed}, {"kept", "1.737", c.Kept}} {
		if f.got.String() != f.want {
			t.Errorf("%s: %s m3, want %s", f.what, f.got, f.want)
		}
	}
	if p, ok := c.ByVolume(); !ok || p.String() != "83.9 %" {
		t.Errorf("kept: %s, want 83.9 %%", p)
	}
	if p, ok := c.ByNumber(); !ok || !p.IsZero() || c.InPart != 1 || c.Members != 1 {
		t.Errorf("by number %s of %+v, want none whole and one in part", p, c)
	}
}

func TestEveryTreatmentFallsWhereTheRuleSays(t *testing.T) {
	whole := func(c fabric.Count) bool { return c.Whole == 4 && c.Kept.Equal(c.Before) }
	for _, c := range []struct {
		treatment job.Treatment
		is        func(fabric.Count) bool
	}{
		{job.Retain, whole}, {job.Preserve, whole}, {job.Refasten, whole}, {job.OffAndBack, whole},
		{job.Renew, func(c fabric.Count) bool { return c.New == 4 && c.Renewed.Equal(c.Before) }},
		{job.Remove, func(c fabric.Count) bool { return c.Gone == 4 && c.Taken.Equal(c.Before) }},
		{job.Graving, func(c fabric.Count) bool { return c.Members == 0 && c.Renewed.Equal(c.Before) }},
	} {
		// 4 x 1.25 x 0.14 x 0.2 = 0.14 m3
		got := reckon(member("KE1", c.treatment, 4, 1250, 140, 200)).All
		if !c.is(got) || got.Before.String() != "0.14" {
			t.Errorf("%s: %+v", c.treatment, got)
		}
	}
}

func TestARenewedLengthOfTheWholeLeavesNothingOld(t *testing.T) {
	m := member("KE1", job.Part, 2, 3000, 100, 100)
	m.Renewed = m.Length
	if c := reckon(m).All; c.New != 2 || c.InPart != 0 || !c.Kept.IsZero() {
		t.Errorf("%+v, want two renewed", c)
	}
}

func TestWhatIsNotSizedCountsByNumberAndIsNamed(t *testing.T) {
	f := reckon(member("KE1", job.Retain, 3, 2000, 0, 0), member("KE2", job.Renew, 1, 2000, 100, 100), member("KE3", job.Refasten, 26, 900, 0, 0))
	if len(f.NotSized) != 1 || f.NotSized[0].Member.Ref != "KE1" || len(f.Fastenings) != 1 || f.Fastenings[0].Member.Ref != "KE3" {
		t.Errorf("not sized %v, fastenings %v", f.NotSized, f.Fastenings)
	}
	if p, _ := f.All.ByNumber(); p.String() != "75 %" || f.All.Members != 4 || f.All.Before.String() != "0.02" {
		t.Errorf("%s by number of %+v, want 75 %% of 4 members and 0.02 m3", p, f.All)
	}
}

func TestWorkOutsideTheTotalChangesNothing(t *testing.T) {
	var out []job.Member
	for i, c := range []job.Carried{job.AtRisk, job.Option, job.RateOnly} {
		m := member("KE"+string(rune('2'+i)), job.Renew, 5, 2000, 100, 100)
		m.Carried = c
		out = append(out, m)
	}
	f := reckon(append(out, member("KE1", job.Retain, 1, 2000, 100, 100))...)
	if f.All.Members != 1 || len(f.Sections) != 1 {
		t.Errorf("%+v, want the one member that stays", f.All)
	}
}

func TestWithoutMembersThereIsNoShare(t *testing.T) {
	f := reckon()
	_, byNumber := f.All.ByNumber()
	_, byVolume := f.All.ByVolume()
	if byNumber || byVolume || f.All.Any() {
		t.Error("there is a share of nothing")
	}
}

// Whatever the schedule, what is kept, renewed and removed is what was there, and
// the sections come to the whole.
func TestNothingIsLostOrCountedTwice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var members []job.Member
		for range rapid.IntRange(1, 8).Draw(t, "rows") {
			size := func(name string, least, most int) int { return rapid.IntRange(least, most).Draw(t, name) }
			m := member("R", rapid.SampledFrom(job.Treatments()).Draw(t, "treatment"), size("nr", 1, 40), size("length", 1, 30000), size("sided", 0, 400), size("moulded", 0, 400))
			m.Section = rapid.SampledFrom([]string{"KE", "PL"}).Draw(t, "section")
			m.Renewed = measure.Length(size("renewed", 1, int(m.Length/mm))) * mm
			members = append(members, m)
		}
		f := reckon(members...)
		var all fabric.Count
		for _, s := range f.Sections {
			all.Members += s.Members
			all.Before = all.Before.Add(s.Before)
			if s.Members != s.Whole+s.InPart+s.New+s.Gone || !s.Before.Equal(s.Kept.Add(s.Renewed).Add(s.Taken)) || s.Kept.Sign() < 0 {
				t.Fatalf("%s does not add up: %+v", s.Section, s.Count)
			}
		}
		if all.Members != f.All.Members || !all.Before.Equal(f.All.Before) {
			t.Fatalf("sections come to %+v, the whole to %+v", all, f.All)
		}
	})
}

// Planking is known again by its side, strake and frames: what two rows have in
// common beyond one frame is warned of, naming both, once for a row.
func TestPlankingThatCountsTwiceIsWarnedOf(t *testing.T) {
	plank := func(ref, side, strake string, from, to int, does job.Treatment) job.Member {
		m := member(ref, does, 1, 6000, 63, 200)
		m.Section, m.Side, m.Strake, m.FromFrame, m.ToFrame, m.FramesGiven = "PL", side, strake, from, to, true
		return m
	}
	bolts := plank("P2", "port", "5", 1, 9, job.Refasten)
	bolts.Sided, bolts.Moulded = 0, 0
	loose := plank("P2", "port", "5", 1, 9, job.Renew)
	loose.FramesGiven = false
	option := plank("P2", "port", "5", 1, 9, job.Renew)
	option.Carried = job.AtRisk
	for _, c := range []struct {
		name string
		rows []job.Member
		want string
	}{
		{"apart", []job.Member{plank("P1", "port", "5", 1, 9, job.Renew), plank("P2", "port", "5", 10, 20, job.Retain)}, ""},
		{"meeting on a frame", []job.Member{plank("P1", "port", "5", 1, 9, job.Renew), plank("P2", "port", "5", 9, 20, job.Retain)}, ""},
		{"in common", []job.Member{plank("P1", "port", "5", 1, 9, job.Renew), plank("P2", "Port", "5", 20, 8, job.Refasten)},
			`"P1" and "P2" are both of strake "5" from frame 8 to 9, which counts twice in the old fabric kept`},
		{"one within the other, and a third", []job.Member{plank("P1", "port", "5", 1, 30, job.OffAndBack), plank("P2", "port", "5", 4, 6, job.Renew), plank("P3", "port", "5", 4, 40, job.Renew)},
			`"P1" and "P2" are both of strake "5" from frame 4 to 6, which counts twice in the old fabric kept` + "\n" +
				`"P1" and "P3" are both of strake "5" from frame 4 to 30, which counts twice in the old fabric kept`},
		{"on the other side", []job.Member{plank("P1", "port", "5", 1, 9, job.Renew), plank("P2", "starboard", "5", 1, 9, job.Retain)}, ""},
		{"of another strake", []job.Member{plank("P1", "port", "5", 1, 9, job.Renew), plank("P2", "port", "6", 1, 9, job.Retain)}, ""},
		{"of fastenings alone", []job.Member{plank("P1", "port", "5", 1, 9, job.Renew), bolts}, ""},
		{"a graving piece let in", []job.Member{plank("P1", "port", "5", 1, 9, job.Retain), plank("P2", "port", "5", 2, 6, job.Graving)}, ""},
		{"without frames", []job.Member{plank("P1", "port", "5", 1, 9, job.Renew), loose}, ""},
		{"outside the total", []job.Member{plank("P1", "port", "5", 1, 9, job.Renew), option}, ""},
	} {
		_, found := reckonAll(c.rows...)
		var said []string
		for _, p := range found {
			said = append(said, p.Text)
		}
		if got := strings.Join(said, "\n"); got != c.want {
			t.Errorf("%s: said %q, want %q", c.name, got, c.want)
		}
	}
}
