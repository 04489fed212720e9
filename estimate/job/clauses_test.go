package job_test

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/job"
)

func TestAPartOfTheTenderIsReadWithTheRowsOfItsOwn(t *testing.T) {
	standing := []string{"Hull, war and voyage risks of the vessel.", "Customs duty.", "The owner’s gear and stores."}
	row := func(part job.Terms, words, place string) job.Clause {
		return job.Clause{Terms: part, Words: words, InPlaceOf: place}
	}
	for _, tt := range []struct {
		name string
		rows []job.Clause
		want []string
	}{
		{"without rows it stands as it is", nil, standing},
		{"a clause is replaced in its place, and one is left out",
			[]job.Clause{row(job.Exclusions, "Tax {rate} of 5 %.", "customs"), row(job.Exclusions, "", " HULL,  war and …")},
			[]string{"Tax {rate} of 5 %.", standing[2]}},
		{"what is added stands at the end, in the order of the sheet",
			[]job.Clause{row(job.Exclusions, "b", ""), row(job.Exclusions, "c", "The owner's gear"), row(job.Exclusions, "a", "")},
			[]string{standing[0], standing[1], "c", "b", "a"}},
		{"several rows in place of one clause all stand there",
			[]job.Clause{row(job.Exclusions, "b", "Customs duty."), row(job.Exclusions, "a", "Customs")},
			[]string{standing[0], "b", "a", standing[2]}},
		{"rows of another part are not its own",
			[]job.Clause{row(job.Assumptions, "a", "Customs"), row(job.Assumptions, "b", "")}, standing},
	} {
		t.Run(tt.name, func(t *testing.T) {
			j := job.Job{Clauses: tt.rows}
			got := append(j.Standing(job.Exclusions, standing), j.Added(job.Exclusions)...)
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Error(diff)
			}
		})
	}
}
