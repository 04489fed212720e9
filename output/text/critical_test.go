package text

import (
	"strings"
	"testing"

	"github.com/shopspring/decimal"

	"futtock/estimate"
	"futtock/estimate/job"
	laid "futtock/estimate/programme"
)

func TestTheCriticalStagesStandInTheOrderOfTime(t *testing.T) {
	week := decimal.RequireFromString
	r := estimate.Result{Programme: laid.Programme{Weeks: week("9.5"), Stages: []laid.Stage{
		{Stage: job.Stage{Stage: "Launch"}, Earliest: week("8"), EarliestFinish: week("9.5"), Critical: true},
		{Stage: job.Stage{Stage: "Rudder"}, Earliest: week("2"), EarliestFinish: week("4")},
		{Stage: job.Stage{Stage: "Docking"}, Earliest: week("0"), EarliestFinish: week("2"), Critical: true},
		{Stage: job.Stage{Stage: "Planking"}, Earliest: week("2"), EarliestFinish: week("8"), Critical: true},
	}}}
	var b strings.Builder
	want := "\n  Time on site 9.5 weeks; critical: Docking, Planking, Launch\n"
	programme(&b, r)
	if b.String() != want {
		t.Errorf("got %q, want %q", b.String(), want)
	}
}
