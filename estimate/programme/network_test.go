package programme_test

import (
	"encoding/csv"
	"fmt"
	"os"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"
	"pgregory.net/rapid"

	"futtock/estimate/job"
	"futtock/estimate/labour"
	"futtock/estimate/programme"
)

// published is a row of testdata/published/programme.csv.
func published(t *testing.T, id string) (inputs, expected string) {
	t.Helper()
	f, err := os.Open("../../testdata/published/programme.csv")
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	rows, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rows {
		if r[0] == id {
			return r[2], r[3]
		}
	}
	t.Fatalf("no row %s", id)
	return "", ""
}

// The networks of R-CPM name an activity by its two events, such as 2-4; it
// follows every activity that ends in its first.
func TestPublishedNetworks(t *testing.T) {
	for _, id := range []string{"R-CPM-01", "R-CPM-02"} {
		t.Run(id, func(t *testing.T) {
			inputs, expected := published(t, id)
			var stages []job.Stage
			for i, a := range strings.Split(inputs, "; ") {
				name, weeks, _ := strings.Cut(a, " ")
				s := stage(i+2, name, weeks, "0")
				first, _, _ := strings.Cut(name, "-")
				for _, b := range strings.Split(inputs, "; ") {
					before, _, _ := strings.Cut(b, " ")
					if strings.HasSuffix(before, "-"+first) {
						s.After = append(s.After, before)
					}
				}
				stages = append(stages, s)
			}
			p, problems := programme.Lay(yard(stages...), book(), labour.Hours{})
			if len(problems) > 0 {
				t.Fatal(problems)
			}
			var got []string
			for _, s := range p.Stages {
				got = append(got, fmt.Sprintf("%s %s %s %s %s %s", s.Stage.Stage, s.Earliest, s.EarliestFinish, s.Latest, s.LatestFinish, s.Float))
			}
			if diff := cmp.Diff(strings.Split(expected, "; "), got); diff != "" {
				t.Errorf("earliest, latest and slack (-want +got):\n%s", diff)
			}
		})
	}
}

// R-RSK-15 gives three times of seven activities, the critical path 1-3-5-7 and
// its 24 weeks. The means (a + 4m + b) / 6 are the Least weeks here. The source
// row does not say what the others follow: they are laid as a path beside.
func TestThePublishedPathOfMeansIs24Weeks(t *testing.T) {
	inputs, expected := published(t, "R-RSK-15")
	after := map[string][]string{"3": {"1"}, "5": {"3"}, "7": {"5", "6"}, "4": {"2"}, "6": {"4"}}
	var stages []job.Stage
	times, _, _ := strings.Cut(strings.TrimPrefix(inputs, "(a,m,b): "), ";")
	for i, f := range strings.Fields(times) {
		var name string
		var a, m, b int64
		if _, err := fmt.Sscanf(strings.NewReplacer("(", " ", ",", " ", ")", "").Replace(f), "%s %d %d %d", &name, &a, &m, &b); err != nil {
			t.Fatal(err)
		}
		mean := decimal.New(a+4*m+b, 0).DivRound(decimal.New(6, 0), 1)
		stages = append(stages, stage(i+2, name, mean.String(), "0", after[name]...))
	}
	p, _ := programme.Lay(yard(stages...), book(), labour.Hours{})
	same(t, "programme", p.Weeks, expected)
	var path []string
	for _, s := range p.CriticalPath() {
		path = append(path, s.Stage.Stage)
	}
	if got := strings.Join(path, "-"); got != "1-3-5-7" {
		t.Errorf("critical path %s; want 1-3-5-7", got)
	}
}

// network draws stages that come after earlier ones.
func network(t *rapid.T) []job.Stage {
	tenths := func(low, high int64, what string) string {
		return decimal.New(rapid.Int64Range(low, high).Draw(t, what), -1).String()
	}
	var stages []job.Stage
	for i := range rapid.IntRange(1, 12).Draw(t, "stages") {
		s := stage(i+2, fmt.Sprintf("s%d", i), tenths(0, 99, "weeks"), tenths(-30, 30, "lag"))
		for k := range i {
			if rapid.IntRange(0, 2).Draw(t, "after") == 0 {
				s.After = append(s.After, fmt.Sprintf("s%d", k))
			}
		}
		stages = append(stages, s)
	}
	return stages
}

func TestEveryNetworkHoldsTogether(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := yard(network(t)...)
		if rapid.Bool().Draw(t, "closed") {
			j.Start = date("2026-12-07")
			from := j.Start.AddDate(0, 0, rapid.IntRange(0, 60).Draw(t, "closed from"))
			j.Closures = []job.Closure{{From: from, To: from.AddDate(0, 0, rapid.IntRange(0, 20).Draw(t, "closed days"))}}
		}
		p, _ := programme.Lay(j, book(), labour.Hours{})
		at := map[string]programme.Stage{}
		for _, s := range p.Stages {
			at[s.Stage.Stage] = s
		}
		ends, critical := false, false
		for _, s := range p.Stages {
			if s.Float.Sign() < 0 || s.Earliest.Sign() < 0 || s.Latest.LessThan(s.Earliest) {
				t.Fatalf("%s starts at %s, at the latest %s, float %s", s.Stage.Stage, s.Earliest, s.Latest, s.Float)
			}
			if s.EarliestFinish.GreaterThan(p.Weeks) || s.LatestFinish.GreaterThan(p.Weeks) {
				t.Fatalf("%s ends at %s or %s, after the programme", s.Stage.Stage, s.EarliestFinish, s.LatestFinish)
			}
			if s.Weeks.LessThan(s.Working) || s.Working.LessThan(s.Stage.LeastWeeks) {
				t.Fatalf("%s lasts %s weeks for %s of work", s.Stage.Stage, s.Weeks, s.Working)
			}
			for _, name := range s.Stage.After {
				if s.Earliest.LessThan(at[name].EarliestFinish.Add(s.Stage.Lag)) {
					t.Fatalf("%s starts at %s, before %s lets it", s.Stage.Stage, s.Earliest, name)
				}
			}
			ends = ends || s.Critical && s.EarliestFinish.Equal(p.Weeks)
			critical = critical || s.Critical
		}
		if !critical || !ends {
			t.Fatalf("no critical stage ends the programme: %v", p.Stages)
		}
	})
}

// Without closures every critical stage that does not begin by itself is held
// by a critical one before it, so that a path without float runs from the
// first to the last.
func TestACriticalPathRunsThrough(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p, _ := programme.Lay(yard(network(t)...), book(), labour.Hours{})
		at := map[string]programme.Stage{}
		for _, s := range p.Stages {
			at[s.Stage.Stage] = s
		}
		for _, s := range p.Stages {
			if !s.Critical || s.Earliest.IsZero() || len(s.Stage.After) == 0 {
				continue
			}
			if !slices.ContainsFunc(s.Stage.After, func(name string) bool {
				return at[name].Critical && at[name].EarliestFinish.Add(s.Stage.Lag).Equal(s.Earliest)
			}) {
				t.Fatalf("nothing critical holds %s at %s", s.Stage.Stage, s.Earliest)
			}
		}
	})
}

func TestShuffledStagesAreLaidOutAlike(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		stages := network(t)
		laid := func(stages []job.Stage) map[string]string {
			p, _ := programme.Lay(yard(stages...), book(), labour.Hours{})
			out := map[string]string{"": p.Weeks.String()}
			for _, s := range p.Stages {
				out[s.Stage.Stage] = fmt.Sprint(s.Earliest, s.EarliestFinish, s.Latest, s.LatestFinish, s.Float, s.Critical)
			}
			return out
		}
		if diff := cmp.Diff(laid(stages), laid(rapid.Permutation(stages).Draw(t, "shuffled"))); diff != "" {
			t.Fatalf("shuffled stages (-in order +shuffled):\n%s", diff)
		}
	})
}

func BenchmarkLayOf5000Stages(b *testing.B) {
	j := yard()
	var h labour.Hours
	for i := range 5000 {
		name := fmt.Sprintf("stage %d", i)
		s := stage(i+2, name, "1", "0")
		if i > 0 {
			s.After = []string{fmt.Sprintf("stage %d", i-1)}
		}
		if i > 10 {
			s.After = append(s.After, fmt.Sprintf("stage %d", i/2))
		}
		j.Stages = append(j.Stages, s)
		j.Gangs = append(j.Gangs, gang(i+2, name, "shipwright", "2"))
		h.Lines = append(h.Lines, line(fmt.Sprintf("4.%d", i), "shipwright", name, "100"))
	}
	for b.Loop() {
		programme.Lay(j, book(), h)
	}
}
