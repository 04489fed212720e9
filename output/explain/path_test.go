package explain_test

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	"futtock/output/explain"
)

// Staging stands from the hull to the paint. The hull takes 700 h / (3 x 34.5 h) =
// 6.763, 6.8 weeks, and with a fourth man 700 / (4 x 34.5) = 5.072, 5.1. The paint
// begins a week before the hull is done. The foreman stays to the end of the job,
// which is the end of the paint. Dock rent is for ten weeks agreed, and moves with
// no stage.
func TestAChargeThatRunsWithTimeSaysWhatHoldsItsEnd(t *testing.T) {
	three := run(caseTables(cases+"dock-rent-and-crane.txtar"), nil)
	four := run(caseTables(cases+"dock-rent-and-crane.txtar"), func(j *job.Job) { j.Gangs[1].Men = decimal.New(4, 0) })
	want := func(end, label, hull, paint string) []string {
		return []string{
			label + " " + end,
			"Docking 1.5: week 0.0 to 1.5; Least weeks of the stage, D2",
			"Hull " + hull + ", C3",
			"Painting 2.5: week " + paint + "; Painter governs, 172 h / (2 men x 34.5 h), C4",
		}
	}
	for _, c := range []struct {
		name  string
		r     estimate.Result
		ref   string
		lines []string
	}{
		{"staging", three, "P2", want("9.8", "To the finish of Painting", "6.8: week 1.5 to 8.3; Shipwright governs, 700 h / (3 men x 34.5 h)", "7.3 to 9.8")},
		{"staging, four men", four, "P2", want("8.1", "To the finish of Painting", "5.1: week 1.5 to 6.6; Shipwright governs, 700 h / (4 men x 34.5 h)", "5.6 to 8.1")},
		{"foreman, to the end of the job", three, "P5", want("9.8", "To the end of the job", "6.8: week 1.5 to 8.3; Shipwright governs, 700 h / (3 men x 34.5 h)", "7.3 to 9.8")},
		{"dock rent, weeks given", three, "P1", []string{"To the end of the job 9.8"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			if d := cmp.Diff(c.lines, pathOf(c.r, c.ref)); d != "" {
				t.Errorf("(-want +got):\n%s", d)
			}
		})
	}
}

// pathOf is the end of a charge and the stages under it, in words.
func pathOf(r estimate.Result, ref string) []string {
	var out []string
	var walk func(l explain.Line)
	walk = func(l explain.Line) {
		if strings.HasPrefix(l.Label, "To the ") {
			out = append(out, l.Label+" "+l.Value)
			for _, s := range l.Under {
				out = append(out, s.Label+" "+s.Value+": "+s.How+", "+s.At.Address())
			}
		}
		for _, u := range l.Under {
			walk(u)
		}
	}
	for _, l := range explain.Of(r, ref) {
		walk(l)
	}
	return out
}
