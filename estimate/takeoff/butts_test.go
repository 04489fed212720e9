package takeoff

import (
	"slices"
	"strings"
	"testing"

	"futtock/estimate/job"
	"futtock/rates/problem"
)

// strakePlank is a plank of oak butted to old work at both ends, with frames at
// 1 ft 6 in.
func strakePlank(ref, strake string, from, to int) job.Member {
	return oak(ref, "38ft", "3in", "9in", func(m *job.Member) {
		m.Strake, m.Side, m.Joint, m.Joints = strake, "port", job.Butt, 2
		m.FromFrame, m.ToFrame, m.FramesGiven, m.Spacing = from, to, true, l("1ft 6in")
	})
}

func TestButts(t *testing.T) {
	near, bay := problem.ButtsNear, problem.ButtsInBay
	with := func(m job.Member, f func(*job.Member)) job.Member { f(&m); return m }
	for _, c := range []struct {
		name string
		a, b job.Member
		want []problem.Code
		says string
	}{
		{"three spaces apart in adjacent strakes pass", strakePlank("1", "5", 1, 40), strakePlank("2", "6", -20, 43), nil, ""},
		{"two spaces apart in adjacent strakes are warned of", strakePlank("1", "5", 1, 40), strakePlank("2", "6", -20, 42), []problem.Code{near},
			`"5" (1) between frames 40 and 41 and "6" (2) between frames 42 and 43`},
		{"one plank beginning two frames beyond the end of another is one space from it", strakePlank("1", "5", 1, 40), strakePlank("2", "6", 42, 80), []problem.Code{near}, ""},
		{"one plank beginning four frames beyond the end of another is three spaces from it", strakePlank("1", "5", 1, 40), strakePlank("2", "6", 44, 80), nil, ""},
		{"frames counted from the other end make no difference", strakePlank("1", "5", 40, 1), strakePlank("2", "6", 42, -20), []problem.Code{near}, ""},
		{"two strakes between butts in one bay are warned of", strakePlank("1", "5", 1, 40), strakePlank("2", "8", -20, 40), []problem.Code{bay}, "with 2 strakes between"},
		{"three strakes between butts in one bay pass", strakePlank("1", "5", 1, 40), strakePlank("2", "9", -20, 40), nil, ""},
		{"butts in neighbouring bays with a strake between pass", strakePlank("1", "5", 1, 40), strakePlank("2", "7", -20, 41), nil, ""},
		{"the other side of the ship is apart", strakePlank("1", "5", 1, 40), with(strakePlank("2", "6", 1, 40), func(m *job.Member) { m.Side = "starboard" }), nil, ""},
		{"another belt is apart", strakePlank("1", "wale 5", 1, 40), strakePlank("2", "bottom 6", 1, 40), nil, ""},
		{"strakes are told by the number in their name", strakePlank("1", "Wale 5", 1, 40), strakePlank("2", "wale  6", -20, 40), []problem.Code{near}, ""},
		{"scarphed ends are no butts", strakePlank("1", "5", 1, 40), with(strakePlank("2", "6", 1, 40), func(m *job.Member) {
			m.Joint, m.Scarph = job.Scarph, dec("8")
		}), nil, ""},
		{"hood ends are no butts", strakePlank("1", "5", 1, 40), with(strakePlank("2", "6", 1, 40), func(m *job.Member) { m.Joints = 0 }), nil, ""},
		{"one joint to old work at an unknown end is warned of as such", strakePlank("1", "5", 1, 40), with(strakePlank("2", "6", 20, 41), func(m *job.Member) { m.Joints = 1 }),
			[]problem.Code{near}, "if the joint of 2 to old work is there"},
		{"two rows with butts near at both ends are told of once", strakePlank("1", "5", 1, 40), strakePlank("2", "6", 1, 40), []problem.Code{near}, ""},
		{"a butted run of 76 ft has a butt at its middle, between frames 20 and 21", strakePlank("1", "5", 19, 60),
			with(strakePlank("2", "6", 1, 40), func(m *job.Member) { m.Length, m.Joints = l("76ft"), 0 }),
			[]problem.Code{near}, `"6" (2) between frames 20 and 21`},
		{"preserved planks keep their butts", strakePlank("1", "5", 1, 40), with(strakePlank("2", "6", 1, 40), func(m *job.Member) { m.Treatment = job.Preserve }), nil, ""},
	} {
		t.Run(c.name, func(t *testing.T) {
			for _, order := range [][]job.Member{{c.a, c.b}, {c.b, c.a}} {
				j, b := yard(order...)
				_, problems := told(j, b)
				if got := codes(problems); !slices.Equal(got, c.want) {
					t.Fatalf("%v, want %v", problems, c.want)
				}
				if len(problems) > 0 && !strings.Contains(problems[0].Text, c.says) {
					t.Errorf("%q does not say %q", problems[0].Text, c.says)
				}
			}
		})
	}
}

func TestPlanksThatMeetHaveOneButt(t *testing.T) {
	// Strake 5 is got in rows 1 and 2. Where they follow each other the butt is
	// in the bay between; where they share frame 20 it is on that frame.
	for _, c := range []struct {
		name         string
		second, last int // first frame of row 2, last frame of strake 6
		want         []problem.Code
	}{
		{"butts between frames 20 and 21, and 22 and 23", 21, 22, []problem.Code{problem.ButtsNear}},
		{"butts between frames 20 and 21, and 23 and 24", 21, 23, nil},
		{"butts on frame 20, and between 22 and 23", 20, 22, []problem.Code{problem.ButtsNear}},
		{"butts on frame 20, and between 23 and 24", 20, 23, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			members := []job.Member{strakePlank("1", "5", 1, 20), strakePlank("2", "5", c.second, 60), strakePlank("3", "6", -40, c.last)}
			members[0].Joint, members[0].Joints = job.NoJoint, 0
			members[1].Joint, members[1].Joints = job.NoJoint, 0
			j, b := yard(members...)
			if _, problems := told(j, b); !slices.Equal(codes(problems), c.want) {
				t.Errorf("%v, want %v", problems, c.want)
			}
		})
	}
}

func TestWhenOneEndMeetsNewWorkTheOneJointToOldIsAtTheOther(t *testing.T) {
	first, second := strakePlank("1", "5", 1, 20), strakePlank("2", "5", 21, 60)
	first.Joints, second.Joints = 0, 1
	j, b := yard(first, second, strakePlank("3", "6", -40, 61))
	_, problems := told(j, b)
	if !slices.Equal(codes(problems), []problem.Code{problem.ButtsNear}) || strings.Contains(problems[0].Text, "if the joint") {
		t.Errorf("%v, want one butt that is surely near", problems)
	}
}

func TestPlankLengthsByFramesWhereSpacingIsNotKnown(t *testing.T) {
	for to, want := range map[int]int{14: 1, 15: 0} {
		m := strakePlank("1", "5", 10, to)
		m.Spacing = 0
		j, b := yard(m)
		if _, problems := told(j, b); len(problems) != want {
			t.Errorf("frames 10 to %d: %v, want %d", to, problems, want)
		}
	}
}

func TestAPlankLetInLeavesTooLittleWhereBothEndsTogetherAreUnderTwelveSpaces(t *testing.T) {
	for length, want := range map[string]int{"47ft 11in": 1, "48ft": 0} { // 30 + 12 x 1 1/2 = 48 ft
		m := strakePlank("1", "5", 1, 20)
		m.Treatment, m.Length, m.Renewed = job.Part, l(length), l("30ft")
		j, b := yard(m)
		if _, problems := told(j, b); len(problems) != want {
			t.Errorf("%s: %v, want %d", length, problems, want)
		}
	}
}

func TestKeelScarphRuleIsOfKeelAndHogAlone(t *testing.T) {
	for name, want := range map[string]int{"Main keel": 1, "hog": 1, "keelson": 0, "bilge keel": 0, "false keel": 0, "wale": 0} {
		j, b := yard(oak("1", "100ft", "12in", "15in", func(m *job.Member) {
			m.Member, m.Joint, m.Scarph, m.ThroughGiven = name, job.Scarph, dec("4.9"), true
		}))
		if _, problems := told(j, b); len(problems) != want {
			t.Errorf("%s: %v, want %d", name, problems, want)
		}
	}
}

// Strake 5 has its butts beyond frames 1 and 40. A run of strake 6 over frames 1 to 40 in pieces
// of 24, 18, 18 and 16 ft of 76 ft, hood to hood, may have its butts at 24, 42 and 60 ft
// of it, bays 12-13, 22-23 and 31-32 (24 x 40 / 76 = 12.6 is 13 spaces: 13-14). Strake 7 has one
// between frames 13 and 14, and strake 5 none near, so that the 24 ft piece is not laid first.
func TestARunIsLaidInTheOrderThatKeepsItsButtsApart(t *testing.T) {
	run := strakePlank("2", "6", 1, 40)
	run.Length, run.Joints, run.Shortest = l("76ft"), 0, l("12ft")
	j, b := yard(strakePlank("1", "5", 14, 200), run)
	taken, problems := Measure(j, b)
	if len(problems) > 0 {
		t.Fatal(problems)
	}
	of := func(long ...string) []Piece {
		var out []Piece
		for _, s := range long {
			out = append(out, Piece{Ref: "2", Of: 1, Count: 1, Length: l(s)})
		}
		return out
	}
	for i := range taken.Rows {
		if taken.Rows[i].Work.Ref == "2" {
			taken.Rows[i].PiecesEach = 4
		}
	}
	laid, problems := Planking(j, b, taken, of("24ft", "18ft", "18ft", "16ft"))
	if len(problems) > 0 {
		t.Errorf("%v", problems)
	}
	if len(laid) != 1 || laid[0].Ref != "2" || laid[0].From != 1 || laid[0].Long[0] == l("24ft") {
		t.Errorf("laid %+v", laid)
	}

	// In any order the butt of pieces of 24 and 52 ft is in bay 13-14 or 27-28; against butts beyond
	// 13 and at 28, it is told of, at the first.
	for i := range taken.Rows {
		if taken.Rows[i].Work.Ref == "2" {
			taken.Rows[i].PiecesEach = 2
		}
	}
	j, b = yard(strakePlank("1", "5", 14, 27), run)
	again, _ := Measure(j, b)
	for i := range again.Rows {
		if again.Rows[i].Work.Ref == "2" {
			again.Rows[i].PiecesEach = 2
		}
	}
	if _, problems = Planking(j, b, again, of("52ft", "24ft")); !slices.Equal(codes(problems), []problem.Code{problem.ButtsNear}) {
		t.Errorf("%v", problems)
	}
}
