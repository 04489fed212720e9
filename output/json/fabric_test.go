package json

import (
	"testing"

	"github.com/google/go-cmp/cmp"

	"futtock/estimate/fabric"
	"futtock/estimate/job"
	"futtock/estimate/takeoff"
	"futtock/rates/measure"
)

func TestTheOldFabricIsWrittenWithItsShares(t *testing.T) {
	const mm = measure.Millimetre
	j := job.Job{Sections: []job.Section{{Section: "KE", Title: "Keel"}}, Members: []job.Member{
		{Work: job.Work{Ref: "KE1", Section: "KE", Carried: job.Measured}, Treatment: job.Part, Nr: 1, Length: 22400 * mm, Renewed: 3600 * mm, Sided: 280 * mm, Moulded: 330 * mm},
		{Work: job.Work{Ref: "KE2", Section: "KE", Carried: job.Measured}, Treatment: job.Retain, Nr: 3},
	}}
	var measured takeoff.Takeoff
	for i := range j.Members {
		measured.Rows = append(measured.Rows, takeoff.Row{Work: j.Members[i].Work, Member: &j.Members[i]})
	}
	old, _ := fabric.Reckon(&j, measured)
	got, err := Write(fabricKept(old))
	if err != nil {
		t.Fatal(err)
	}
	kept := func(indent string) string {
		return indent + `"members": 4,
` + indent + `"kept_whole": 3,
` + indent + `"kept_in_part": 1,
` + indent + `"renewed": 0,
` + indent + `"removed": 0,
` + indent + `"kept_whole_percent": "75",
` + indent + `"volume": "2.070",
` + indent + `"volume_kept": "1.737",
` + indent + `"volume_renewed": "0.333",
` + indent + `"volume_removed": "0.000",
` + indent + `"volume_kept_percent": "83.9"
`
	}
	want := `{
  "unit": "m3",
  "sections": [
    {
      "section": "KE",
      "title": "Keel",
` + kept("      ") + `    }
  ],
  "all": {
` + kept("    ") + `  },
  "not_sized": [
    "KE2"
  ]
}
`
	if d := cmp.Diff(want, string(got)); d != "" {
		t.Error(d)
	}
	if fabricKept(fabric.Fabric{}) != nil {
		t.Error("a job without members has a share")
	}
}
